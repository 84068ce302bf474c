package rig

import (
	"math"

	"example.com/washrig/units"
)

// A limitCheck is the library's own kind of check: it holds the readings of
// one metric against a limit and reports the worst state of each component.
type limitCheck struct {
	doc    CodeDoc
	metric *Metric
	root   string

	// severity of a limit that comes from limit; unused where the thresholds of
	// doc.Limit apply.
	severity Severity

	// limit returns the limit of a reading when it comes from the specification
	// or from another metric. ok false: there is none here. need names the
	// field that would give it, if its absence leaves a stop unguarded.
	limit func(v *View, r Reading) (q units.Quantity, source string, need Path, ok bool)

	// also lists metrics the limit is computed from, for the assumed inputs.
	also []*Metric

	// when selects the readings that are judged; nil: all but faults.
	when func(v *View, r Reading) bool

	// soften lowers the severity of a reading; nil: no.
	soften func(v *View, r Reading, s Severity) Severity

	// name completes a finding with what it leans on; nil: nothing to add.
	name func(v *View, f *Finding)
}

// Codes returns the check's one code.
func (c *limitCheck) Codes() []CodeDoc {
	d := c.doc
	d.Metric = c.metric.Path
	d.Grave = c.limit != nil && c.severity >= CannotJudge
	return []CodeDoc{d}
}

// A verdict is one reading held against its limit.
type verdict struct {
	severity Severity
	reading  Reading
	limit    units.Quantity
	margin   float64
	source   string
	need     Path
}

// Check reports the gravest verdict of every component.
func (c *limitCheck) Check(v *View, report func(Finding)) {
	var parts []string
	worst := map[string]verdict{}
	for r := range v.of(c.metric) {
		x, ok := c.judge(v, r)
		if !ok {
			continue
		}
		if v.plugs != nil && c.doc.Plate && r.State.v[AxisPlugs] > 0 {
			v.plug(int(r.State.v[AxisPlugs])-1, x, c.doc.Code)
		}
		if r.State.v[AxisPlugs] > 1 {
			continue // another plug assignment is a choice, not a fault of the rig; see Report.PlugOptions
		}
		old, had := worst[r.Part]
		if !had {
			parts = append(parts, r.Part)
		}
		if !had || x.worse(old) {
			worst[r.Part] = x
		}
	}
	for _, p := range parts {
		x := worst[p]
		f := Finding{Code: c.doc.Code, Severity: x.severity, Reading: x.reading, Limit: x.limit, Margin: x.margin, Source: x.source, Root: c.root}
		if c.root != "" && p != "" {
			f.Root = c.root + " " + p
		}
		if x.need != "" {
			f.Leans = []Path{x.need}
		}
		if c.name != nil {
			c.name(v, &f)
		}
		report(f)
	}
}

// worse orders verdicts: gravest severity, then reach, then margin, then state.
func (x verdict) worse(y verdict) bool {
	if x.severity != y.severity {
		return x.severity > y.severity
	}
	if a, b := x.reading.State.Reach(), y.reading.State.Reach(); a != b && x.severity != Pass {
		return a < b
	}
	if x.margin != y.margin {
		return x.margin < y.margin
	}
	return x.reading.State.less(y.reading.State)
}

// judge holds one reading against its limit; ok is false when the check does
// not look at it.
func (c *limitCheck) judge(v *View, r Reading) (verdict, bool) {
	if c.when != nil {
		if !c.when(v, r) {
			return verdict{}, false
		}
	} else if r.State.Reach() == Fault {
		return verdict{}, false
	}
	x := verdict{severity: Pass, reading: r}
	if c.limit != nil {
		q, source, need, ok := c.limit(v, r)
		if !ok {
			if need == "" {
				return verdict{}, false
			}
			x.severity, x.need, x.source = CannotJudge, need, "the rating is not given"
			return x, true
		}
		x.limit, x.source = q, source
		x.margin = margin(r.Value, q, c.doc.Bad)
		if x.margin < 0 {
			x.severity = c.severity
		}
	} else {
		l := v.Limit(c.doc.Code)
		x.source = l.Source
		for _, level := range []struct {
			q units.Quantity
			s Severity
		}{{l.Note, Note}, {l.Fix, Fix}, {l.Stop, Stop}} {
			if !level.q.Given() {
				continue
			}
			m := margin(r.Value, level.q, c.doc.Bad)
			if !x.limit.Given() || m < 0 {
				x.limit, x.margin = level.q, m
			}
			if m < 0 {
				x.severity = level.s
			}
		}
	}
	x.severity = c.cap(r, x.severity)
	if c.soften != nil && x.severity != Pass {
		x.severity = c.soften(v, r, x.severity)
	}
	return x, true
}

// cap limits what a fill state that nobody plans can weigh: it is no stop
// unless a plate says so.
func (c *limitCheck) cap(r Reading, s Severity) Severity {
	if s > Fix && !c.doc.Plate && r.State.Reach() == Conceivable && r.State.v[AxisPlugs] <= 1 {
		return Fix
	}
	return s
}

// margin is the distance from value to limit as a share of the limit, negative
// when the value lies on the bad side. Temperatures are compared from absolute
// zero. Where the limit is zero, a value beyond it has a margin of −1.
func margin(value, limit units.Quantity, bad Direction) float64 {
	d := limit.SI() - value.SI()
	if bad == Lower {
		d = -d
	}
	l := math.Abs(limit.SI())
	if l == 0 {
		switch {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	}
	return d / l
}
