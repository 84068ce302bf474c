package rig

import "iter"

// Axes returns the axes in the order in which a State is written.
func Axes() []Axis {
	out := make([]Axis, axisCount)
	for i := range out {
		out[i] = Axis(i)
	}
	return out
}

// Among yields the readings of a path or pattern in the states that agree with
// s on every axis both name, up to a reach: Reachable keeps the states of the
// day, Conceivable also what nothing prevents, Fault all. Other plug assignments
// than the listed one are choices and left out unless s names one.
func (r *Report) Among(p Path, s State, reach Reach) iter.Seq[Reading] {
	return func(yield func(Reading) bool) {
		for x := range r.All(p) {
			if x.State.Reach() > reach || (x.State.v[AxisPlugs] > 1 && s.v[AxisPlugs] == 0) || !s.agrees(x.State) {
				continue
			}
			if !yield(x) {
				return
			}
		}
	}
}

// WorstAmong returns the worst of Among in the metric's direction, as Worst
// does: the lowest where higher is better, else the highest.
func (r *Report) WorstAmong(p Path, s State, reach Reach) (worst Reading, ok bool) {
	for x := range r.Among(p, s, reach) {
		v, w := x.Value.SI(), worst.Value.SI()
		if !ok || (x.Metric.Better == Higher && v < w) || (x.Metric.Better != Higher && v > w) {
			worst, ok = x, true
		}
	}
	return worst, ok
}
