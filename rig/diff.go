package rig

import "math"

// A Difference is what changed between two reports: numbers, findings that
// appeared, findings that cleared, and those whose weight changed.
type Difference struct {
	Numbers  []NumberChange
	Appeared []Finding
	Cleared  []Finding
	Changed  []FindingChange

	before, after *Report
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
	d := Difference{before: before, after: after}
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
	d.pair(before.findings, after.findings)
	return d
}

// pair tells findings of one code and path that are in both lists from those that are
// in one. A code may have several, of different weight: those of the same weight are
// the same, and the rest are taken in order.
func (d *Difference) pair(before, after []Finding) {
	type key struct {
		code Code
		path Path
	}
	keyOf := func(f *Finding) key { return key{f.Code, f.Reading.Path()} }
	left := map[key][]int{} // of after, not yet paired
	for i := range after {
		k := keyOf(&after[i])
		left[k] = append(left[k], i)
	}
	take := func(k key, j int) { left[k] = append(left[k][:j:j], left[k][j+1:]...) }
	var open []int // of before, without one of the same weight
	for i := range before {
		k, found := keyOf(&before[i]), false
		for j, n := range left[k] {
			if found = after[n].Severity == before[i].Severity; found {
				take(k, j)
				break
			}
		}
		if !found {
			open = append(open, i)
		}
	}
	for _, i := range open {
		if k := keyOf(&before[i]); len(left[k]) > 0 {
			d.Changed = append(d.Changed, FindingChange{before[i], after[left[k][0]]})
			take(k, 0)
		} else {
			d.Cleared = append(d.Cleared, before[i])
		}
	}
	for i := range after {
		if j := left[keyOf(&after[i])]; len(j) > 0 && j[0] == i {
			d.Appeared = append(d.Appeared, after[i])
			take(keyOf(&after[i]), 0)
		}
	}
}
