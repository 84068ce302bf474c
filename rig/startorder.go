package rig

import (
	"slices"

	"example.com/washrig/electrical"
	"example.com/washrig/units"
)

// A StartStep is one moment of a start: what is switched on, or starts by
// itself, together.
type StartStep struct {
	Loads   []string
	ByHand  bool
	Running units.Power // of what runs already
	Peak    units.Power // while the loads of this step start
	Shaft   units.Power // at the engine that drives the source, while they start; zero for other sources
}

// A StartOrder is the hand order of least peak on one source, then everything
// that starts by itself at once.
type StartOrder struct {
	Source string
	Steps  []StartStep
}

// StartOrders returns the order of starting for each source that carries a
// load, in the order of the sources. The plugs are those of a state such as
// plugs=as-listed, or those of a mode that moves a plug, such as mode=dump; where
// it names neither, as listed. Loads limits it to those of a mode; nil means all.
func (m *Model) StartOrders(s State, loads []string) ([]StartOrder, error) {
	in := m.blocks.electric.in
	plug := 0
	if p := s.On(AxisPlugs); p != "" {
		plug = slices.IndexFunc(in.plugs, func(x plugState) bool { return x.name == p })
		if plug < 0 {
			return nil, &units.FieldError{Path: "state.plugs", Value: p, Want: "a plug assignment of this rig", Err: units.ErrRange}
		}
	}
	var plugged []int
	if plug < len(in.plugs) {
		plugged = in.plugs[plug].source
	}
	for i := range in.modes {
		if s.v[AxisMode] != 0 && int(s.v[AxisMode]) == in.modes[i].mode {
			plugged = in.modes[i].source
		}
	}
	var out []StartOrder
	for k, src := range in.sources {
		var on []electrical.Load
		byHand := map[string]bool{}
		for j, l := range in.loads {
			if plugged[j] == k && (loads == nil || slices.Contains(loads, l.Name)) {
				on = append(on, l)
				byHand[l.Name] = l.Starts == electrical.ByHand
			}
		}
		if len(on) == 0 {
			continue
		}
		factor, err := worstFactor(&in, k)
		if err != nil {
			return nil, units.At("sources["+src.id+"]", err)
		}
		lim := src.limits(factor)
		limits := electrical.Limits{} // of watts alone where volt-amperes have no limit
		if lim.StartApparent != 0 {
			limits.Start, limits.StartApparent = lim.Start, lim.StartApparent
		}
		r, err := electrical.StartsOn(on, limits)
		if err != nil {
			return nil, units.At("sources["+src.id+"]", err)
		}
		o := StartOrder{Source: src.id}
		var shaft []electrical.ShaftStep
		if b, ok := m.beltOf(src.id); ok {
			if shaft, err = electrical.ShaftSteps(r.Best, b.eff, b.belt); err != nil {
				return nil, units.At("sources["+src.id+"]", err)
			}
		}
		for i, st := range r.Best.Steps {
			step := StartStep{Loads: st.Start, ByHand: len(st.Start) > 0 && byHand[st.Start[0]], Running: st.Before.Power, Peak: st.Peak.Power}
			if shaft != nil {
				step.Shaft = shaft[i].Peak
			}
			o.Steps = append(o.Steps, step)
		}
		out = append(out, o)
	}
	return out, nil
}

// worstFactor is the least share of its plate that a source's own engine gives
// over the hours of the site.
func worstFactor(in *electricIn, source int) (units.Ratio, error) {
	worst := units.Ratio(1)
	for _, h := range in.hours {
		f, err := in.sources[source].factor(in.site, h)
		if err != nil {
			return 0, err
		}
		worst = min(worst, f)
	}
	return worst, nil
}

// beltOf returns the drive of a belt generator.
func (m *Model) beltOf(source string) (beltIn, bool) {
	for _, e := range m.blocks.engines.in.engines {
		for _, b := range e.belts {
			if b.id == source {
				return b, true
			}
		}
	}
	return beltIn{}, false
}
