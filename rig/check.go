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

	// of names the component that a root belongs to; nil: the metric's own.
	of func(s *Spec, part string) string

	// severity of a limit that comes from limit; unused where the thresholds of
	// doc.Limit apply.
	severity Severity

	// limit returns the limit of a reading where it is of neither kind below. ok false:
	// there is none here. need names the field that would give it, if its absence
	// leaves a stop unguarded.
	limit func(v *View, r Reading) (q units.Quantity, source string, need Path, ok bool)

	// against is the metric of the same component that is the limit, and by says what
	// it is; it takes the place of limit.
	against *Metric
	by      string

	// rating returns the limit of a component where it is the same in every
	// state; it takes the place of limit.
	rating func(v *View, part string) least

	// also lists metrics the limit is computed from, for the assumed inputs.
	also []*Metric

	// when selects the readings that are judged; nil: all but faults.
	when func(v *View, r *Reading) bool

	// soften lowers the severity of a reading; nil: no.
	soften func(v *View, r Reading, s Severity) Severity

	// name completes a finding with what it leans on; nil: nothing to add.
	name func(v *View, f *Finding)
}

// ofLine is the pump of a line: what two guns of one pump suffer has one root.
func ofLine(s *Spec, line string) string {
	for i := range s.Lines {
		if s.Lines[i].ID == line {
			return s.Lines[i].Pump
		}
	}
	return line
}

// ofHeater is the pump of a heater.
func ofHeater(s *Spec, heater string) string {
	for i := range s.Heaters {
		if s.Heaters[i].ID == heater {
			return s.Heaters[i].Pump
		}
	}
	return heater
}

// ofRig is nothing: the root is the rig's.
func ofRig(*Spec, string) string { return "" }

// Codes returns the check's one code.
func (c *limitCheck) Codes() []CodeDoc {
	d := c.doc
	d.Metric = c.metric.Path
	d.Grave = !c.thresholds() && c.severity >= CannotJudge
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
	reach    Reach
	bad      Direction
}

// thresholds reports whether the check goes by the limits of the policy.
func (c *limitCheck) thresholds() bool { return c.limit == nil && c.rating == nil && c.against == nil }

// held is what the readings of one component are held against in every state.
type held struct {
	least least  // of a rating
	limit *Limit // of the policy
}

func (c *limitCheck) held(v *View, part string) held {
	switch {
	case c.rating != nil:
		return held{least: c.rating(v, part)}
	case c.thresholds():
		if k := v.known; k != nil && k.doc.Code == c.doc.Code {
			return held{limit: &k.doc.Limit}
		}
		if k := v.rules.code[c.doc.Code]; k != nil {
			return held{limit: &k.doc.Limit}
		}
		return held{limit: new(Limit)}
	}
	return held{}
}

// Check reports the gravest verdict of every component.
func (c *limitCheck) Check(v *View, report func(Finding)) {
	c.check(v, func(f *Finding) { report(*f) })
}

// check is Check without a copy of each finding.
func (c *limitCheck) check(v *View, report func(*Finding)) {
	rows := v.rows(c.metric)
	for i, p := range rows {
		part := p.part()
		if seenBefore(rows[:i], part) {
			continue
		}
		held := c.held(v, part)
		worst, x := &v.two[0], &v.two[1]
		found := false
		for _, p := range rows[i:] {
			if p.part() != part {
				continue
			}
			values := p.values()
			var limits []float64 // beside them, where a metric of the same states is the limit
			if c.against != nil {
				limits = beside(v.rows(c.against), p.n, part)
			}
			for k, value := range values {
				if math.IsNaN(value) {
					continue
				}
				reach := p.n.reach[k]
				limit := math.NaN()
				if limits != nil {
					limit = limits[k]
				}
				if c.when == nil && reach == Fault {
					continue
				}
				plugs := p.n.states[k].v[AxisPlugs]
				option := plugs > 0 && v.plugs != nil && c.doc.Plate // it counts for the plugs as well
				if plugs > 1 && !option {
					continue // another plug assignment is a choice, not a fault of the rig; see Report.PlugOptions
				}
				if found && !option && c.milder(value, limit, &p.n.states[k], reach, &held, worst) {
					continue
				}
				if !p.read(k, &x.reading) || !c.judge(v, reach, &held, limit, x) {
					continue
				}
				if option {
					v.plug(int(plugs)-1, x, c.doc.Code)
				}
				if plugs > 1 {
					continue
				}
				if !found || x.worse(worst) {
					worst, x, found = x, worst, true
				}
			}
		}
		if !found {
			continue
		}
		f := &v.finding
		*f = Finding{Code: c.doc.Code, Severity: worst.severity, Reading: worst.reading, Limit: worst.limit, Margin: worst.margin, Source: worst.source, Root: c.root}
		at := part
		if c.of != nil {
			at = c.of(v.model.spec, part)
		}
		if c.root != "" && at != "" {
			f.Root = v.say(c.root, " ", at)
		}
		if worst.need != "" {
			f.Leans = v.leaning(worst.need)
			f.Root = v.say("missing ", string(worst.need))
		}
		if c.name != nil {
			c.name(v, f)
		}
		report(f)
	}
}

// beside returns the values of a component in the block n, or nil if they are not there.
func beside(rows []place, n *numbers, part string) []float64 {
	for _, p := range rows {
		if p.part() != part {
			continue
		}
		if p.n != n {
			return nil // another block has it first
		}
		return p.values()
	}
	return nil
}

// seenBefore reports whether a component has a row among some.
func seenBefore(rows []place, part string) bool {
	for _, p := range rows {
		if p.part() == part {
			return true
		}
	}
	return false
}

// worse orders verdicts: gravest severity, then reach, then margin, then the
// distance from a limit of nothing, then state.
func (x *verdict) worse(y *verdict) bool {
	if x.severity != y.severity {
		return x.severity > y.severity
	}
	if x.reach != y.reach && x.severity != Pass {
		return x.reach < y.reach
	}
	if x.margin != y.margin {
		return x.margin < y.margin
	}
	if a, b := math.Abs(x.reading.Value.SI()), math.Abs(y.reading.Value.SI()); a != b && x.margin != 0 && x.limit.Given() && x.limit.SI() == 0 && y.limit == x.limit {
		return (a > b) == (x.margin < 0) // no share of nothing: past it the furthest, before it the nearest
	}
	if x.need != "" && x.need == y.need { // no limit to be near to: the furthest on the bad side
		if a, b := x.reading.Value.SI(), y.reading.Value.SI(); math.Abs(a-b) > 1e-12*max(math.Abs(a), math.Abs(b)) {
			return (a > b) == (x.bad == Higher)
		}
	}
	return x.reading.State.less(y.reading.State)
}

// milder reports that a value can be left unread: held against what holds in every
// state it is surely not worse than the worst so far. It settles most values with a
// subtraction; what it cannot settle is judged. A test judges every value.
func (c *limitCheck) milder(value, limit float64, state *State, reach Reach, held *held, worst *verdict) bool {
	if c.limit != nil || c.against != nil && math.IsNaN(limit) || c.soften != nil || worst.need != "" {
		return false
	}
	if reach == worst.reach && c.against == nil && (c.rating == nil || held.least.missing == "" && held.least.q.Given()) {
		// The same limits, the same reach: the further on the bad side, the worse. What
		// rounding could turn is looked at below.
		was := worst.reading.Value.SI()
		d, noise := value-was, 1e-12*math.Abs(was)
		if c.doc.Bad == Lower {
			d = -d
		}
		if math.Abs(d) > noise {
			return d < 0
		}
	}
	var m float64
	s := Pass
	switch {
	case c.against != nil:
		if m = marginOf(value, limit, c.doc.Bad); m < 0 {
			s = c.severity
		}
	case c.rating != nil:
		if !held.least.q.Given() || held.least.missing != "" {
			return false
		}
		if m = marginOf(value, held.least.q.SI(), c.doc.Bad); m < 0 {
			s = c.severity
		}
	default:
		s, _, m = held.limit.weigh(value, c.doc.Bad)
	}
	s = c.cap(reach, false, s)
	if s != worst.severity {
		return s < worst.severity
	}
	if reach != worst.reach && s != Pass {
		return reach > worst.reach
	}
	if m != worst.margin {
		return m > worst.margin
	}
	if worst.limit.SI() == 0 && m != 0 {
		if c.rating == nil {
			return false // it may be another limit
		}
		if a, b := math.Abs(value), math.Abs(worst.reading.Value.SI()); a != b {
			return (a > b) != (m < 0)
		}
	}
	return !state.less(worst.reading.State)
}

// weigh holds a value against the thresholds: the gravest that it passes, else the
// first that is given.
func (l *Limit) weigh(value float64, bad Direction) (s Severity, limit *units.Quantity, margin float64) {
	s = Pass
	for level, q := range [...]*units.Quantity{Note: &l.Note, Fix: &l.Fix, Stop: &l.Stop} {
		if q == nil || !q.Given() {
			continue
		}
		m := marginOf(value, q.SI(), bad)
		if limit == nil || m < 0 {
			limit, margin = q, m
		}
		if m < 0 {
			s = Severity(level)
		}
	}
	return s, limit, margin
}

// judge holds the reading of x against its limit and completes x; it is false when the
// check does not look at it. limit is the number of the metric it is held against, where
// that is at hand.
func (c *limitCheck) judge(v *View, reach Reach, held *held, limit float64, x *verdict) (ok bool) {
	r := &x.reading
	if c.when != nil {
		if !c.when(v, r) {
			return false
		}
	} else if reach == Fault {
		return false
	}
	x.severity, x.reach, x.bad = Pass, reach, c.doc.Bad
	x.limit, x.margin, x.source, x.need = units.Quantity{}, 0, "", ""
	if !c.thresholds() {
		var q units.Quantity
		var need Path
		switch {
		case c.rating != nil:
			q, x.source, need, ok = held.least.answer(r.Value)
		case c.against != nil:
			x.source = c.by
			if math.IsNaN(limit) {
				q, ok = v.value(c.against, r.Part, r.State)
			} else {
				var err error
				q, err = units.NewQuantity(c.against.Kind, limit)
				ok = err == nil // a block refuses results that are not finite
			}
		default:
			q, x.source, need, ok = c.limit(v, *r)
		}
		if !ok {
			if need == "" {
				return false
			}
			x.severity, x.need, x.source = CannotJudge, need, "the rating is not given"
			return true
		}
		x.limit = q
		x.margin = margin(r.Value, q, c.doc.Bad)
		if x.margin < 0 {
			x.severity = c.severity
		}
	} else {
		x.source = held.limit.Source
		var level *units.Quantity
		if x.severity, level, x.margin = held.limit.weigh(r.Value.SI(), c.doc.Bad); level != nil {
			x.limit = *level
		}
	}
	x.severity = c.cap(reach, r.State.v[AxisPlugs] > 1, x.severity)
	if c.soften != nil && x.severity != Pass {
		x.severity = c.soften(v, *r, x.severity)
	}
	return true
}

// cap limits what a fill state that nobody plans can weigh: it is no stop
// unless a plate says so. Plugs other than the listed ones are not capped.
func (c *limitCheck) cap(reach Reach, replugged bool, s Severity) Severity {
	if s > Fix && !c.doc.Plate && reach == Conceivable && !replugged {
		return Fix
	}
	return s
}

// margin is the distance from value to limit as a share of the limit, negative
// when the value lies on the bad side. Temperatures are compared from absolute
// zero. Where the limit is zero, a value beyond it has a margin of −1.
func margin(value, limit units.Quantity, bad Direction) float64 {
	return marginOf(value.SI(), limit.SI(), bad)
}

// marginOf is margin on SI numbers.
func marginOf(value, limit float64, bad Direction) float64 {
	d := limit - value
	if bad == Lower {
		d = -d
	}
	l := math.Abs(limit)
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
