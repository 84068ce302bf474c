package rig

import (
	"math"
	"sort"

	"example.com/washrig/hydraulics"
	"example.com/washrig/units"
)

// chemicalIn is what injectors and chemical pumps depend on beyond the line
// block.
type chemicalIn struct {
	work
	axes    *axisSet
	lines   *block[linesIn]
	trigger units.Ratio
	drawn   []drawnIn
	pumped  []pumpedIn
}

// drawnIn is a chemical with an injector.
type drawnIn struct {
	id       string
	line     string
	jet      hydraulics.Injector
	loss     units.Pressure // at jet.Flow
	fluid    hydraulics.Fluid
	lift     units.Length
	tip      units.NozzleNumber
	strength units.Ratio
	carried  units.Volume
}

// pumpedIn is a chemical with a pump and a line of its own.
type pumpedIn struct {
	id      string
	pump    hydraulics.DemandPump
	line    []hydraulics.Element
	outlet  hydraulics.Outlet
	fluid   hydraulics.Fluid
	carried units.Volume
}

func (m *Model) chemicalInput(lines *block[linesIn]) chemicalIn {
	s := m.spec
	in := chemicalIn{axes: m.axes, lines: lines, trigger: s.Duty.TriggerShare}
	rated := hydraulics.Fluid{Density: hydraulics.ReferenceDensity, Viscosity: 1.1 * units.Centipoise} // water of the sheet, 60 °F
	for i := range s.Chemicals {
		c := &s.Chemicals[i]
		fluid := rated
		if c.Density != 0 {
			fluid.Density = c.Density
		}
		if c.Viscosity != 0 {
			fluid.Viscosity = c.Viscosity
		}
		if j := &c.Injector; j.Line != "" {
			in.drawn = append(in.drawn, drawnIn{id: c.ID, line: j.Line, loss: j.Loss, fluid: fluid, lift: j.Lift, tip: j.Tip, strength: c.Strength, carried: c.Carried,
				jet: hydraulics.Injector{Flow: j.Flow, Vacuum: j.Vacuum, Draw: j.Draw, MinFlow: j.MinimumFlow, MaxBack: j.MaximumBack, Linear: j.LinearShare, At: rated}})
		}
		if k := &c.ChemicalPump; k.OpenFlow != 0 {
			p := pumpedIn{id: c.ID, fluid: fluid, carried: c.Carried, outlet: hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: k.Tip}}},
				pump: hydraulics.DemandPump{Open: k.OpenFlow, Stall: k.StallPressure, CutOut: k.CutOut, CutIn: k.CutIn, Stored: k.Stored},
				line: []hydraulics.Element{hydraulics.Pipe{Part: hydraulics.Part{Name: "hose"}, Bore: k.Bore, Length: k.Length}}}
			if k.Rise != 0 {
				p.line = append(p.line, hydraulics.StaticHeight{Part: hydraulics.Part{Name: "climb"}, Rise: k.Rise})
			}
			in.pumped = append(in.pumped, p)
		}
	}
	sort.Slice(in.drawn, func(a, b int) bool { return in.drawn[a].id < in.drawn[b].id })
	sort.Slice(in.pumped, func(a, b int) bool { return in.pumped[a].id < in.pumped[b].id })
	return in
}

// solveChemical returns what injectors draw in every state of guns and heat in
// which their line is open, and what chemical pumps deliver.
func solveChemical(in *chemicalIn) ([]*numbers, error) {
	var out []*numbers
	if n, err := pumpedNumbers(in); err != nil {
		return nil, err
	} else if n != nil {
		out = append(out, n)
	}
	l := &in.lines.in
	if len(in.drawn) == 0 || l.nLines == 0 {
		return out, nil
	}
	heats := []int{0}
	if l.hasHeat {
		heats = []int{heatOff, heatSteady}
	}
	var states []State
	for g := 1; g < 1<<l.nLines; g++ {
		for _, h := range heats {
			s := State{set: in.axes}.with(AxisGuns, g+1)
			if h > 0 {
				s = s.with(AxisHeat, h)
			}
			states = append(states, s)
		}
	}
	n := in.newNumbers(states)
	for i := range in.drawn {
		c := &in.drawn[i]
		for j := range l.pumps {
			p := &l.pumps[j]
			for k := range p.lines {
				if p.lines[k].id != c.line {
					continue
				}
				if err := draw(in, c, p, k, n); err != nil {
					return nil, units.At("chemicals["+c.id+"]", err)
				}
			}
		}
	}
	return append(out, n), nil
}

// draw fills in the rows of one injector at the head of line k of pump p.
func draw(in *chemicalIn, c *drawnIn, p *pumpIn, k int, n *numbers) error {
	l := &in.lines.in
	for _, m := range []*Metric{mInjectorWater, mInjectorBack, mInjectorVacuumLeft, mChemicalDraw, mChemicalStrength, mChemicalLasts, mPartnerPressure} {
		n.row(m, c.id)
	}
	tipped := *p
	if c.tip != 0 {
		tipped.lines = append([]lineIn(nil), p.lines...)
		tipped.lines[k].nozzles = []hydraulics.Nozzle{{Number: c.tip}}
	}
	on := in.bench()
	type key struct{ own, heat int }
	type answer struct {
		r solved
		k kept
	}
	done := map[key]*answer{}
	for s, st := range n.states {
		own := 0
		for i := range p.lines {
			if (int(st.v[AxisGuns])-1)&(1<<p.lines[i].bit) != 0 {
				own |= 1 << i
			}
		}
		if own&(1<<k) == 0 {
			continue
		}
		at := key{own, int(st.v[AxisHeat])}
		a := done[at]
		if a == nil {
			a = new(answer)
			var err error
			if a.r, err = solveOne(l, &tipped, on, own, at.heat, &solved{}, &a.k); err != nil {
				return err
			}
			done[at] = a
		}
		if !a.r.ok {
			continue
		}
		put := func(m *Metric, v float64) { n.of(m, c.id)[s] = v }
		sec := &a.k.res.Sections[len(a.k.res.Sections)-len(p.lines)+k]
		before := max(sec.Inlet, 0)
		behind := max(before-c.lossIn(p, k, sec.Elements), 0)
		// A jet's vacuum follows the water's momentum: hot water counts by its
		// density against that of the sheet.
		water := max(sec.Flow, 0) * units.VolumeFlow(math.Sqrt(float64(a.k.warm.Density/c.jet.At.Density)))
		put(mInjectorWater, float64(max(sec.Metered, 0)))
		if before > 0 {
			put(mInjectorBack, float64(behind/before))
		}
		d, err := c.jet.DrawAt(water, before, behind, c.fluid, c.lift)
		if err != nil {
			return units.At("injector", err)
		}
		if d.Stop == hydraulics.Draws || d.Stop == hydraulics.Lift {
			put(mInjectorVacuumLeft, float64(d.Vacuum)-float64(c.fluid.Density)*float64(units.StandardGravity)*float64(c.lift))
		}
		put(mChemicalDraw, float64(d.Chemical))
		if d.Stop == hydraulics.Draws {
			if c.strength != 0 {
				mix, err := hydraulics.Dilution(c.strength, d.Chemical, max(sec.Metered, 0))
				if err != nil {
					return err
				}
				put(mChemicalStrength, float64(mix))
			}
			if c.carried != 0 && in.trigger != 0 && d.Chemical > 0 {
				put(mChemicalLasts, float64(c.carried)/(float64(d.Chemical)*float64(in.trigger)))
			}
		}
		least := math.Inf(1)
		for i := range p.lines {
			if i != k && own&(1<<i) != 0 {
				least = math.Min(least, float64(a.r.nozzle[i]))
			}
		}
		if !math.IsInf(least, 1) {
			put(mPartnerPressure, least)
		}
	}
	return nil
}

// lossIn is the loss of its own injector among the elements at the head of line
// k.
func (c *drawnIn) lossIn(p *pumpIn, k int, list []hydraulics.ElementResult) units.Pressure {
	for i := range p.lines[k].ahead {
		if e, ok := p.lines[k].elements[i].(hydraulics.RatedLoss); ok && e.Name == injectorName(c.id) {
			return list[i].Loss
		}
	}
	return 0
}

// pumpedNumbers returns what chemical pumps deliver; it depends on no axis.
func pumpedNumbers(in *chemicalIn) (*numbers, error) {
	if len(in.pumped) == 0 {
		return nil, nil
	}
	n := in.newNumbers(in.one(in.axes))
	for i := range in.pumped {
		c := &in.pumped[i]
		r, err := c.pump.Feed(c.fluid, c.line, &c.outlet)
		if err != nil {
			return nil, units.At("chemicals["+c.id+"].chemical_pump", err)
		}
		flow := max(r.Flow, 0)
		n.row(mFeedFlow, c.id)[0] = float64(flow)
		n.row(mFeedPressure, c.id)[0] = float64(r.Pressure)
		if r.Cycles && r.On > 0 {
			n.row(mFeedCycle, c.id)[0] = float64(r.On + r.Off)
		}
		if c.carried != 0 && in.trigger != 0 && flow > 0 {
			n.row(mFeedLasts, c.id)[0] = float64(c.carried) / (float64(flow) * float64(in.trigger))
		}
	}
	return n, nil
}
