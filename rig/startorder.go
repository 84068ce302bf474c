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
}

// A StartOrder is the hand order of least peak on one source, then everything
// that starts by itself at once.
type StartOrder struct {
	Source string
	Steps  []StartStep
}

// StartOrders returns the order of starting for each source that carries a
// load, in the order of the sources. The plugs are those of a state such as
// plugs=as-listed; where it names none, as listed. Loads limits it to those of
// a mode; nil means all.
func (m *Model) StartOrders(s State, loads []string) ([]StartOrder, error) {
	in := m.blocks.electric.in
	plug := 0
	if p := s.On(AxisPlugs); p != "" {
		plug = slices.IndexFunc(in.plugs, func(x plugState) bool { return x.name == p })
		if plug < 0 {
			return nil, &units.FieldError{Path: "state.plugs", Value: p, Want: "a plug assignment of this rig", Err: units.ErrRange}
		}
	}
	var out []StartOrder
	for k, src := range in.sources {
		var on []electrical.Load
		byHand := map[string]bool{}
		for j, l := range in.loads {
			if in.plugs[plug].source[j] == k && (loads == nil || slices.Contains(loads, l.Name)) {
				on = append(on, l)
				byHand[l.Name] = l.Starts == electrical.ByHand
			}
		}
		if len(on) == 0 {
			continue
		}
		r, err := electrical.Starts(on)
		if err != nil {
			return nil, units.At("sources["+src.id+"]", err)
		}
		o := StartOrder{Source: src.id}
		for _, st := range r.Best.Steps {
			o.Steps = append(o.Steps, StartStep{Loads: st.Start, ByHand: len(st.Start) > 0 && byHand[st.Start[0]], Running: st.Before.Power, Peak: st.Peak.Power})
		}
		out = append(out, o)
	}
	return out, nil
}
