package rig

import (
	"errors"
	"slices"
	"sort"

	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// A WinterCard is what the cold does to a rig and what is done against it.
type WinterCard struct {
	Coldest  units.Temperature `json:"coldest,omitzero"`  // not given: freezing is not looked at
	Wanted   units.Temperature `json:"wanted,omitzero"`   // 10 °F below it
	Parts    []CardFrost       `json:"parts"`             // what holds water, in the order of flow
	Holds    units.Volume      `json:"holds"`             // of all parts
	Left     units.Volume      `json:"left"`              // after blowing down
	Kind     string            `json:"kind"`              // of the antifreeze; empty: not given
	Strength units.Ratio       `json:"strength"`          // glycol in it as poured
	Volume   units.Volume      `json:"volume"`            // pushed through, as given
	Needed   units.Volume      `json:"needed"`            // for Wanted, mixed with all that is left; zero: not known, or the stock is too weak
	Mixture  units.Ratio       `json:"mixture"`           // glycol in the weakest part
	Protects units.Temperature `json:"protects,omitzero"` // freezing point there
	Margin   units.Quantity    `json:"margin,omitzero"`   // Coldest − Protects
	Freezing []CardFreezing    `json:"freezing"`
	Steps    []CardStep        `json:"steps"`
	Not      []string          `json:"not_counted"` // parts whose water nobody gave
}

// A CardFrost is one part that holds water.
type CardFrost struct {
	Part     string            `json:"part"`
	Holds    units.Volume      `json:"holds"`
	Left     units.Volume      `json:"left"`
	Glycol   units.Ratio       `json:"glycol"` // after the antifreeze went through
	Protects units.Temperature `json:"protects,omitzero"`
}

// A CardFreezing is how long a part full of water stands the coldest air.
type CardFreezing struct {
	Path   Path           `json:"path"`
	Parked units.Duration `json:"parked"`  // zero: it does not freeze, or is not known
	OnRoad units.Duration `json:"on_road"` // likewise
}

// WinterCard returns the winter card of the rig.
func (r *Report) WinterCard() (WinterCard, error) {
	m, s := r.model, r.model.spec
	in := &m.blocks.frost.in
	c := WinterCard{Coldest: s.Winter.Coldest, Kind: s.Winter.Antifreeze, Strength: s.Winter.Strength, Volume: s.Winter.Volume}
	if c.Coldest.Given() {
		c.Wanted = c.Coldest.Add(-protectMargin)
	}
	for i, t := range in.trapped {
		c.Parts = append(c.Parts, CardFrost{Part: in.names[i], Holds: t.Volume, Left: t.Water})
		c.Holds += t.Volume
		c.Left += t.Water
	}
	if len(in.trapped) > 0 && c.Volume != 0 && c.Kind != "ethylene-glycol" {
		d, err := thermal.Displace(in.trapped, c.Strength, c.Volume)
		if err != nil && !outside(err) && !errors.Is(err, units.ErrMissing) {
			return c, err
		}
		if err == nil {
			for i, p := range d.Parts {
				c.Parts[i].Glycol, c.Parts[i].Protects = p.Glycol, p.Protects
			}
			c.Mixture, c.Protects = d.Parts[d.Weak].Glycol, d.Parts[d.Weak].Protects
			if c.Coldest.Given() {
				c.Margin = c.Coldest.Sub(c.Protects).Quantity()
			}
		}
	}
	any := State{set: m.axes}
	if x, ok := r.At(mAntifreezeNeeded.Path, any); ok {
		c.Needed = units.Volume(x.Value.SI())
	}
	for _, part := range in.parts {
		f := CardFreezing{Path: Path(listOfPath(part.metric.Path) + "[" + part.id + "]")}
		if x, ok := r.At(part.metric.at(part.id), any); ok {
			f.Parked = units.Duration(x.Value.SI())
		}
		if x, ok := r.At(part.road.at(part.id), any); ok {
			f.OnRoad = units.Duration(x.Value.SI())
		}
		c.Freezing = append(c.Freezing, f)
	}
	rank := map[string]int{"pumps": 0, "heaters": 1, "lines": 2}
	sort.SliceStable(c.Freezing, func(a, b int) bool {
		return rank[listOfPath(c.Freezing[a].Path)] < rank[listOfPath(c.Freezing[b].Path)]
	})
	c.steps(s)
	return c, nil
}

// listOfPath is the list a metric's pattern begins with.
func listOfPath(p Path) string {
	for i := range p {
		if p[i] == '[' {
			return string(p[:i])
		}
	}
	return string(p)
}

func (c *WinterCard) steps(s *Spec) {
	if len(s.Pumps)+len(s.Tanks)+len(s.Lines) == 0 {
		return
	}
	step := func(do Action, parts ...Path) *CardStep {
		c.Steps = append(c.Steps, CardStep{Do: do, Parts: parts})
		return &c.Steps[len(c.Steps)-1]
	}
	if drained := drains(s); len(drained) > 0 {
		step(DoDrain, drained...)
	}
	for i := range s.Recovery {
		step(DoEmptyRecovery, recoveredWay(&s.Recovery[i])...)
	}
	flow := flowOf(s)
	if len(flow) > 0 {
		step(DoBlowDown, flow...)
	}
	freezes := c.Wanted.Given() && c.Wanted.Celsius() < 0
	if c.Volume != 0 || c.Needed != 0 || freezes {
		if len(flow) > 0 {
			x := step(DoAntifreeze, flow...)
			if v := max(c.Volume, c.Needed); v != 0 && len(c.Parts) > 0 {
				x.Value = v.Quantity()
			}
		}
		for i := range s.Recovery {
			step(DoAntifreezeRecovery, recoveredWay(&s.Recovery[i])[1:]...) // its suction hose is open and empty
		}
		step(DoCatch)
		step(DoTag)
	}
	named := len(s.Winter.Parts) > 0
	if named {
		return
	}
	for i := range s.Pumps {
		c.Not = append(c.Not, "head, unloader and bypass of pump "+s.Pumps[i].ID)
		if s.Pumps[i].Suction.given() {
			c.Not = append(c.Not, "suction hose and strainer of pump "+s.Pumps[i].ID)
		}
	}
	counted := func(what, list, id string) {
		name := names([]Path{Path(list + "[" + id + "]")})
		if !slices.ContainsFunc(c.Parts, func(p CardFrost) bool { return p.Part == name }) {
			c.Not = append(c.Not, what+name)
		}
	}
	for i := range s.Heaters {
		counted("coil of ", "heaters", s.Heaters[i].ID)
	}
	for i := range s.Trunks {
		counted("hose of ", "trunks", s.Trunks[i].ID)
	}
	for i := range s.Lines {
		counted("hose of ", "lines", s.Lines[i].ID)
		c.Not = append(c.Not, "reel, swivel and gun of line "+s.Lines[i].ID)
	}
	for i := range s.Recovery {
		c.Not = append(c.Not, "drum, dump pump and filter housings of recovery unit "+s.Recovery[i].ID)
	}
	for i := range s.Chemicals {
		if k := &s.Chemicals[i]; k.Injector.given() || k.ChemicalPump.given() {
			c.Not = append(c.Not, "injector, pump and hose of chemical "+k.ID)
		}
	}
	c.Not = append(c.Not, "gauges and their tubes")
}

// drains are what lets its water out by itself: tanks, the pipes that join them and the
// hoses that fill them or feed a pump.
func drains(s *Spec) []Path {
	out := paths("tanks", elementIDs(s.Tanks, func(t *Tank) string { return t.ID }))
	out = append(out, paths("crossovers", elementIDs(s.Crossovers, func(c *Crossover) string { return c.ID }))...)
	for i := range s.Supplies {
		out = append(out, Path("supplies["+s.Supplies[i].ID+"].hose"))
	}
	return out
}

// flowOf is everything between tank and guns that holds water, in the order of the flow:
// suction lines with their strainers, pumps, coils, trunks, lines, and what meters
// chemicals.
func flowOf(s *Spec) []Path {
	var out []Path
	for i := range s.Pumps {
		at := Path("pumps[" + s.Pumps[i].ID + "]")
		out = append(out, at+".suction")
		if s.Pumps[i].Suction.Strainer != (Strainer{}) {
			out = append(out, at+".suction.strainer")
		}
	}
	out = append(out, paths("pumps", elementIDs(s.Pumps, func(p *Pump) string { return p.ID }))...)
	out = append(out, paths("heaters", elementIDs(s.Heaters, func(h *Heater) string { return h.ID }))...)
	out = append(out, paths("trunks", elementIDs(s.Trunks, func(t *Trunk) string { return t.ID }))...)
	out = append(out, paths("lines", elementIDs(s.Lines, func(l *Line) string { return l.ID }))...)
	for i := range s.Chemicals {
		if k := &s.Chemicals[i]; k.Injector.given() || k.ChemicalPump.given() {
			out = append(out, Path("chemicals["+k.ID+"]"))
		}
	}
	return out
}

// recoveredWay is everything of a recovery unit that holds water, in the order of the
// flow.
func recoveredWay(u *Recovery) []Path {
	at := Path("recovery[" + u.ID + "]")
	out := []Path{at + ".hose", at + ".drum", at + ".dump_pump"}
	for i := range u.Filters {
		out = append(out, at+".filters["+Path(u.Filters[i].ID)+"]")
	}
	return append(out, at+".discharge")
}
