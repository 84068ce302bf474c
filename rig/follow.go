package rig

import "math"

// A cause says which findings bring others about: mending the first of a root mends
// those that follow from it. Where numbers tell the two apart, when holds them
// against each other; nil: the words are enough.
type cause struct {
	effects, causes []Code // causes in the order in which one is named before the others
	when            func(v *View, effect, cause *Finding) bool
}

// causes is the table of what follows from what, between the component of the one and
// a component that the specification connects with it.
func causes() []cause {
	// The first of these is what somebody has to mend at the pump.
	overPressed := []Code{"dead-head", "unloader-over-relief", "relief-in-use", "relief-over-rating", "pressure-over-rating"}
	weakSource := []Code{"source-overload", "source-apparent", "source-start", "source-start-apparent"}
	return []cause{
		{[]Code{"pressure-over-rating"}, []Code{"dead-head"}, nil},
		{[]Code{"relief-in-use"}, []Code{"unloader-over-relief"}, nil},
		{[]Code{"fault-over-rating", "fault-dead-head"}, overPressed, nil},
		{[]Code{"fault-reaction"}, []Code{"dead-head", "unloader-over-relief", "relief-in-use", "fault-dead-head"}, nil},
		{[]Code{"fault-overloads-engine"}, overPressed, nil},
		{[]Code{"soak-over-rating"}, []Code{"relief-over-rating", "pressure-over-rating"}, sameLimit},
		{[]Code{"surge-over-rating", "surge-in-band", "gun-reaction", "pressure-jump", "nozzle-pressure-high", "engine-overload", "engine-start", "engine-overload-coupled"}, overPressed, onlyOverPressed},

		{[]Code{"thermostat-boiling", "boiling-margin", "flash-at-nozzle"}, []Code{"thermostat-over-rating"}, nil},
		{[]Code{"stuck-burner", "fault-over-temperature"}, []Code{"guard-missing"}, leansOn("high_limit")},
		{[]Code{"outlet-cold", "outlet-cold-coupled", "gun-cold", "gun-cold-in-wind"}, []Code{"fire-starved", "clean-firing", "clean-firing-voltage", "clean-firing-coupled", "oil-nozzle-small"}, heaterShort},

		{[]Code{"source-start-order", "source-restart", "voltage-dip", "frequency-dip", "engine-start"}, weakSource, nil},
		{[]Code{"clean-firing-dip"}, []Code{"voltage-dip"}, nil},
		{[]Code{"frequency-coupled"}, []Code{"engine-overload", "engine-overload-coupled"}, nil},
		{[]Code{"clean-firing-voltage"}, []Code{"frequency-off"}, nil},
		{[]Code{"clean-firing-coupled", "fire-starved", "outlet-cold-coupled"}, []Code{"frequency-coupled"}, nil},

		{[]Code{"soak-over-rating"}, []Code{"coil-relief-over-rating"}, sameLimit},

		{[]Code{"tail-drop"}, []Code{"tongue-negative", "tongue-share-low"}, nil},
		{[]Code{"jack-over-rating"}, []Code{"tongue-over-rating"}, nil},
		{[]Code{"tyre-over-rating"}, []Code{"axle-over-rating", "trailer-over-rating"}, nil},
	}
}

// sameLimit reports whether both pass one limit.
func sameLimit(_ *View, effect, cause *Finding) bool { return effect.Limit == cause.Limit }

// leansOn reports whether the cause is the lack of a field of the effect's component.
func leansOn(field string) func(*View, *Finding, *Finding) bool {
	return func(_ *View, effect, cause *Finding) bool {
		return len(cause.Leans) > 0 && cause.Leans[0] == Path(listOf(effect.Reading.Metric.Path)+"["+effect.Reading.Part+"]."+field)
	}
}

// onlyOverPressed reports whether the effect is found only in states in which the
// pump makes more than the weakest part may bear, or its relief valve passes water.
func onlyOverPressed(v *View, effect, cause *Finding) bool {
	pump := cause.Reading.Part
	most := math.Inf(1)
	if l := leastPressure(v, pump); l.q.Given() {
		most = l.q.SI()
	}
	return v.onlyWhere(effect, func(s State) bool {
		if p, ok := v.value(mPumpPressure, pump, s); ok && p.SI() > most {
			return true
		}
		q, ok := v.value(mReliefFlow, pump, s)
		return ok && q.SI() > 0
	})
}

// heaterShort reports whether the water is too cold only where the coil does not
// reach its thermostat.
func heaterShort(v *View, effect, cause *Finding) bool {
	heater := cause.Reading.Part
	set, ok := v.value(mThermostat, heater, State{set: v.model.axes})
	if !ok {
		return false
	}
	return v.onlyWhere(effect, func(s State) bool {
		for _, m := range [...]*Metric{mOutlet, mCoupledOutlet} {
			for _, p := range v.rows(m) {
				if p.part() != heater {
					continue
				}
				for k, t := range p.values() {
					if x := &p.n.states[k]; x.v[AxisPlugs] <= 1 && t < set.SI()-0.01 && s.agrees(*x) {
						return true
					}
				}
			}
		}
		return false
	})
}

// onlyWhere reports whether every reading of the finding's component that breaks its
// limit as gravely does so in a state of a kind.
func (v *View) onlyWhere(f *Finding, kind func(State) bool) bool {
	c := v.rules.own(f.Code)
	if c == nil {
		return false
	}
	held := c.held(v, f.Reading.Part)
	for _, p := range v.rows(c.metric) {
		if p.part() != f.Reading.Part {
			continue
		}
		for k := range p.n.states {
			var x verdict
			if p.n.states[k].v[AxisPlugs] > 1 || !p.read(k, &x.reading) || !c.judge(v, p.n.reach[k], &held, math.NaN(), &x) {
				continue
			}
			if x.severity >= f.Severity && !kind(x.reading.State) {
				return false
			}
		}
	}
	return true
}

// follow gives every finding that follows from another one its root, and names the
// other. Each follows from the first of its possible causes that was found and weighs
// as much.
func (v *View) follow(list []Finding, memory []int) []int {
	after := memory[:0]
	for range list {
		after = append(after, -1)
	}
	for i := range list {
		f := &list[i]
		k := v.rules.code[f.Code]
		if k == nil {
			continue
		}
		for _, c := range k.after {
			if j := v.because(list, i, c); j >= 0 {
				after[i], f.Follows = j, list[j].Code
				break
			}
		}
	}
	for range list { // the causes of causes come first
		changed := false
		for i, j := range after {
			if j >= 0 && list[i].Root != list[j].Root {
				list[i].Root, changed = list[j].Root, true
			}
		}
		if !changed {
			break
		}
	}
	return after
}

// because returns the finding that brings a finding about by a cause, or -1.
func (v *View) because(list []Finding, i int, c *cause) int {
	f := &list[i]
	for _, code := range c.causes {
		for j := range list {
			g := &list[j]
			if g.Code != code || i == j || !v.outweighs(g, f) || !v.feeds(g.Reading, f.Reading) {
				continue
			}
			if c.when == nil || c.when(v, f, g) {
				return j
			}
		}
	}
	return -1
}

// outweighs reports whether a cause weighs as much as what follows from it; what
// cannot be judged ranks beside a stop.
func (v *View) outweighs(cause, effect *Finding) bool {
	return min(cause.Severity, CannotJudge) >= min(effect.Severity, CannotJudge)
}
