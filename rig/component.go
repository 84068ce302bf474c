package rig

import (
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// A Component is one thing that is bought for the rig, nested parts included:
// what a bill of materials is made from.
type Component struct {
	Path      Path
	Part      string // number on the shelf, empty if described in place
	Note      string
	Count     int
	Cost      parts.Money
	Price     parts.Money
	PriceDate parts.Date
	LeadTime  units.Duration
	Mass      units.Mass
	Within    string // item whose mass counts it
}

// Components returns everything that is bought, in the order of the
// specification. The tow vehicle is the customer's and is left out.
func (m *Model) Components() []Component {
	var out []Component
	s := m.spec
	nested := func(p Path, number string) {
		if number == "" {
			return
		}
		c := Component{Path: p, Part: number, Count: 1}
		if part, err := m.shelf.Part(number); err == nil {
			c.Note, c.Cost, c.Price, c.PriceDate, c.LeadTime, c.Mass = part.Description, part.Cost, part.Price, part.PriceDate, part.LeadTime, part.Mass
		}
		out = append(out, c)
	}
	for _, k := range components(s) {
		st := k.stock
		c := Component{Path: k.path, Part: st.Part, Note: st.Note, Count: max(st.Count, 1), Cost: st.Cost, Price: st.Price, LeadTime: st.LeadTime, Mass: st.Mass, Within: st.Within}
		if part, err := m.shelf.Part(st.Part); st.Part != "" && err == nil {
			if c.Note == "" {
				c.Note = part.Description
			}
			c.PriceDate = part.PriceDate
		}
		out = append(out, c)
		for i := range s.Pumps {
			if p := &s.Pumps[i]; &p.Stock == st {
				nested(k.path+".unloader", p.Unloader.Part)
				nested(k.path+".relief", p.Relief.Part)
			}
		}
		for i := range s.Lines {
			if l := &s.Lines[i]; &l.Stock == st {
				nested(k.path+".hose", l.Hose.Part)
				nested(k.path+".nozzle", l.Nozzle.Part)
			}
		}
	}
	return out
}

// modesOf returns the modes of a specification. One without modes has a single
// one, in which every gun is open and every load runs.
func modesOf(s *Spec) []Mode {
	if len(s.Modes) > 0 || len(s.Lines) == 0 {
		return s.Modes
	}
	return []Mode{{ID: "wash", Title: "wash with every gun", Guns: lineIDs(s), Loads: elementIDs(s.Loads, func(l *Load) string { return l.ID })}}
}

// A ModeState is a mode of the specification as a state of the model: its guns
// open, the heat steady if a burner runs in it, else off.
type ModeState struct {
	ID, Title string
	Guns      []string
	Loads     []string
	Runs      []Path // engines, pumps, heaters and sources that run in it; the others stand
	State     State
}

// Modes returns the modes in the dealer's order. A specification without modes
// has one in which every gun is open.
func (m *Model) Modes() []ModeState {
	list := modesOf(m.spec)
	var out []ModeState
	for _, mode := range list {
		ms := ModeState{ID: mode.ID, Title: mode.Title, Guns: append([]string(nil), mode.Guns...), Loads: append([]string(nil), mode.Loads...), State: State{set: m.axes}}
		if ms.Title == "" {
			ms.Title = mode.ID
		}
		run := runsIn(m.spec, &mode)
		ms.Runs = run.components()
		if len(m.spec.Lines) > 0 {
			bits := 0
			for k := range m.spec.Lines {
				for _, g := range mode.Guns {
					if m.spec.Lines[k].ID == g {
						bits |= 1 << k
					}
				}
			}
			ms.State = ms.State.with(AxisGuns, bits+1)
			if len(run.heaters) > 0 {
				ms.State = ms.State.with(AxisHeat, heatSteady)
			} else if len(m.spec.Heaters) > 0 {
				ms.State = ms.State.with(AxisHeat, heatOff)
			}
		}
		ms.State = m.withMotors(ms.State, &mode)
		out = append(out, ms)
	}
	return out
}

// A FillInfo is one listed fill state of the trailer.
type FillInfo struct {
	ID, Title string
	Reach     Reach
	State     State
}

// Fills returns the fill states the specification lists, in its order; the
// corners that are judged beside them are not among them.
func (m *Model) Fills() []FillInfo {
	var out []FillInfo
	for i := range m.spec.Fills {
		if i >= len(m.fills) {
			break
		}
		f := &m.spec.Fills[i]
		info := FillInfo{ID: f.ID, Title: f.Title, Reach: m.fills[i].reach, State: State{set: m.axes}.with(AxisFill, i+1)}
		if info.Title == "" {
			info.Title = f.ID
		}
		out = append(out, info)
	}
	return out
}
