package rig

import "math"

// A Difference is what changed between two reports: numbers, findings that
// appeared, findings that cleared, and those whose weight changed.
type Difference struct {
	Numbers  []NumberChange
	Appeared []Finding
	Cleared  []Finding
	Changed  []FindingChange
}

// A NumberChange is a metric of a component whose worst reading moved. A metric
// that only one report has stands with the other reading's Metric nil.
type NumberChange struct {
	Path          Path
	Before, After Reading
}

// A FindingChange is a finding whose severity is not the same in both reports.
type FindingChange struct{ Before, After Finding }

// Diff compares two reports, usually of a model and a changed copy of it. Two
// numbers are the same within a relative 1e-12.
func Diff(before, after *Report) Difference {
	var d Difference
	type key struct {
		m    *Metric
		part string
	}
	collect := func(r *Report) ([]key, map[key]Reading) {
		var order []key
		worst := map[key]Reading{}
		for _, n := range r.numbers {
			for _, row := range n.rows {
				k := key{row.metric, row.part}
				if _, seen := worst[k]; seen || row.metric.Rule {
					continue
				}
				if x, ok := r.Worst(row.metric.at(row.part)); ok {
					order = append(order, k)
					worst[k] = x
				}
			}
		}
		return order, worst
	}
	orderA, a := collect(before)
	orderB, b := collect(after)
	for _, k := range orderA {
		x := a[k]
		y, ok := b[k]
		if !ok {
			d.Numbers = append(d.Numbers, NumberChange{Path: x.Path(), Before: x})
			continue
		}
		if diff := math.Abs(x.Value.SI() - y.Value.SI()); diff > 1e-12*math.Max(math.Abs(x.Value.SI()), math.Abs(y.Value.SI())) {
			d.Numbers = append(d.Numbers, NumberChange{x.Path(), x, y})
		}
	}
	for _, k := range orderB {
		if _, ok := a[k]; !ok {
			d.Numbers = append(d.Numbers, NumberChange{Path: b[k].Path(), After: b[k]})
		}
	}
	same := func(x, y Finding) bool { return x.Code == y.Code && x.Reading.Path() == y.Reading.Path() }
	find := func(list []Finding, f Finding) (Finding, bool) {
		for _, g := range list {
			if same(f, g) {
				return g, true
			}
		}
		return Finding{}, false
	}
	for _, f := range before.findings {
		g, ok := find(after.findings, f)
		switch {
		case !ok:
			d.Cleared = append(d.Cleared, f)
		case g.Severity != f.Severity:
			d.Changed = append(d.Changed, FindingChange{f, g})
		}
	}
	for _, f := range after.findings {
		if _, ok := find(before.findings, f); !ok {
			d.Appeared = append(d.Appeared, f)
		}
	}
	return d
}
