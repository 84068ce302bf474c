package rig

import (
	"sort"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/fields"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// LineResult solves the lines of one pump in a state again and returns the whole
// solution: every section and element with its speed, Reynolds number and loss.
// The state names guns and, if the rig has a heater, heat.
func (m *Model) LineResult(pump string, s State) (*hydraulics.Network, *hydraulics.Result, error) {
	in := m.blocks.lines.in
	for i := range in.pumps {
		p := &in.pumps[i]
		if p.id != pump {
			continue
		}
		own := 0
		for k := range p.lines {
			if (int(s.v[AxisGuns])-1)&(1<<p.lines[k].bit) != 0 && s.v[AxisGuns] > 0 {
				own |= 1 << k
			}
		}
		var on bench
		var k kept
		full := 1<<len(p.lines) - 1
		steady := 0
		if in.hasHeat {
			steady = heatSteady
		}
		all, err := solveOne(&in, p, &on, full, steady, &solved{}, nil)
		if err != nil {
			return nil, nil, err
		}
		r, err := solveOne(&in, p, &on, own, int(s.v[AxisHeat]), &all, &k)
		if err != nil {
			return nil, nil, err
		}
		if !r.ok || k.res == nil {
			break
		}
		return k.net, k.res, nil
	}
	return nil, nil, &units.FieldError{Path: "pumps[" + pump + "]", Value: s.String(), Want: "a pump of the rig, in a state in which it has an answer", Err: fields.ErrUnknown}
}

// NozzleAdvice is the exact tip for a pressure with every gun of a pump open,
// and its stocked neighbours, each solved in place.
type NozzleAdvice struct {
	Pump    string
	Wanted  units.Pressure
	Exact   hydraulics.NozzleChoice
	Below   hydraulics.NozzleChoice
	Above   hydraulics.NozzleChoice
	Neither bool // no stocked neighbour meets the wanted band
	NoStock bool // the shelf has no nozzles
	Stock   []units.NozzleNumber
}

// Nozzles returns, for every pump with lines, the tip number that makes the
// middle of the wanted band at the least gun, and what the stocked neighbours
// of it make: pressure, flow, and what is bypassed. It needs the band of the
// duty. The stock are the nozzles of the shelf.
func (m *Model) Nozzles() ([]NozzleAdvice, error) {
	d := m.spec.Duty
	low, high := d.NozzlePressureLow, d.NozzlePressureHigh
	if low == 0 || high == 0 {
		return nil, &units.FieldError{Path: "duty.nozzle_pressure_low", Want: "the wanted band, low and high", Err: units.ErrMissing}
	}
	seen := map[units.NozzleNumber]bool{}
	var stock []units.NozzleNumber
	for _, p := range m.shelf.Parts(parts.KindNozzle) {
		if p.Nozzle != nil && p.Nozzle.Number > 0 && !seen[p.Nozzle.Number] {
			seen[p.Nozzle.Number] = true
			stock = append(stock, p.Nozzle.Number)
		}
	}
	sort.Slice(stock, func(i, j int) bool { return stock[i] < stock[j] })
	in := m.blocks.lines.in
	var out []NozzleAdvice
	for i := range in.pumps {
		p := &in.pumps[i]
		if len(p.lines) == 0 {
			continue
		}
		guns := 0
		for k := range p.lines {
			guns |= 1 << p.lines[k].bit
		}
		s := State{set: m.axes}.with(AxisGuns, guns+1)
		if in.hasHeat {
			s = s.with(AxisHeat, heatSteady)
		}
		net, _, err := m.LineResult(p.id, s)
		if err != nil {
			return nil, err
		}
		wish := hydraulics.NozzleWish{Pressure: (low + high) / 2, Low: low, High: high, Stock: stock}
		for k := range p.lines {
			wish.Outlets = append(wish.Outlets, len(net.Sections)-len(p.lines)+k)
		}
		if len(stock) == 0 {
			wish.Stock = []units.NozzleNumber{1}
		}
		fit, err := hydraulics.FitNozzles(net, wish)
		if err != nil {
			return nil, units.At("pumps["+p.id+"]", err)
		}
		a := NozzleAdvice{Pump: p.id, Wanted: wish.Pressure, Exact: fit.Exact, NoStock: len(stock) == 0, Stock: stock}
		if !a.NoStock {
			a.Below, a.Above = fit.Below, fit.Above
			a.Neither = !fit.Below.Meets && !fit.Above.Meets
		}
		out = append(out, a)
	}
	return out, nil
}

// PulleyAdvice is the engine pulley that makes a pump's rated flow, and its
// stocked neighbours.
type PulleyAdvice struct {
	Pump string
	Fit  hydraulics.PulleyFit
}

// Pulleys returns the exact engine pulley and its stocked neighbours for every
// pump whose pulleys, stock and engine speed are given.
func (m *Model) Pulleys() ([]PulleyAdvice, error) {
	var out []PulleyAdvice
	in := m.blocks.plumbing.in
	for i := range m.spec.Pumps {
		p, d := &m.spec.Pumps[i], &in.pumps[i]
		if d.motor == 0 || p.PumpPulley == 0 || p.Speed == 0 || len(p.PulleyStock) == 0 {
			continue
		}
		var stock []units.Length
		for _, text := range p.PulleyStock {
			l, err := units.ParseLength(text)
			if err != nil {
				return nil, units.At("pumps["+p.ID+"].pulley_stock", err)
			}
			stock = append(stock, l)
		}
		v, err := hydraulics.PlateDisplacement(p.RatedFlow, p.Speed)
		if err != nil {
			return nil, units.At("pumps["+p.ID+"]", err)
		}
		fit, err := hydraulics.PulleyPlan{Motor: d.motor, Driven: p.PumpPulley, Slip: p.BeltSlip, Displacement: v, Volumetric: 1}.Fit(p.RatedFlow, stock)
		if err != nil {
			return nil, units.At("pumps["+p.ID+"]", err)
		}
		out = append(out, PulleyAdvice{p.ID, fit})
	}
	return out, nil
}
