package tank

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// An Accumulator is a vessel with a gas cushion behind a pressure switch that starts
// and stops a pump.
type Accumulator struct {
	Volume    units.Volume
	Precharge units.Pressure // of the empty vessel, gauge; at most CutIn
	CutIn     units.Pressure // at which the pump starts
	CutOut    units.Pressure // at which it stops
	Site      units.AbsolutePressure
}

func (a Accumulator) check(p *problem.List) {
	problem.Within(p, "volume", a.Volume, 1e-6, 1e3)
	problem.Between(p, "precharge", a.Precharge, 0, maxPressure)
	if !(a.CutIn >= a.Precharge && a.CutIn >= 0) {
		p.Add("cutIn", a.CutIn.String(), "at least the precharge, "+a.Precharge.String(), units.ErrConflict)
	}
	if !(a.CutOut > a.CutIn && float64(a.CutOut) <= maxPressure) {
		p.Add("cutOut", a.CutOut.String(), "more than the cut-in pressure, "+a.CutIn.String(), units.ErrConflict)
	}
	problem.Within(p, "site", a.Site, 1e3, 2e5)
}

// Drawdown returns the water the vessel gives between cut-out and cut-in.
//
//	V_d = V (p₀/p_in − p₀/p_out), absolute pressures
//
// The gas keeps the temperature of the place; on a cycle of seconds it gives up to a
// third less. Source: R. Boyle, 1662.
func (a Accumulator) Drawdown() (units.Volume, error) {
	var p problem.List
	a.check(&p)
	if err := p.Join(); err != nil {
		return 0, err
	}
	return units.Volume(a.water(float64(a.CutOut)) - a.water(float64(a.CutIn))), nil
}

// water is what the vessel holds at a gauge pressure of at least the precharge.
func (a Accumulator) water(gauge float64) float64 {
	return float64(a.Volume) * (1 - (float64(a.Precharge)+float64(a.Site))/(gauge+float64(a.Site)))
}

// Cycling is how a pump starts and stops under a steady use.
type Cycling struct {
	Drawdown   units.Volume
	On, Off    units.Duration // of one cycle; both zero if it does not cycle
	PerHour    float64        // starts an hour
	Continuous bool           // the use takes what the pump gives: it never stops
}

// Cycles returns how often a pump starts while a use flows.
//
//	off = V_d/use,  on = ∫ dV/(q(p) − use) from cut-in to cut-out
//
// The pump is fed from a level that lies lift below the switch; at the switch its
// head is q's on its curve. Without use it does not start at all. A use of half the
// pump's flow makes it start most often, about q/(4 V_d).
//
// Errors: bad input; a pump that never reaches the cut-out pressure; pressures that
// lie off the end of its curve.
func (a Accumulator) Cycles(pump PumpCurve, lift units.Length, fluid hydraulics.Fluid, use units.VolumeFlow) (*Cycling, error) {
	var p problem.List
	a.check(&p)
	g, err := pump.fit()
	p.Take("pump", err)
	problem.Between(&p, "lift", lift, -maxHeight, maxHeight)
	checkFluid(&p, fluid)
	problem.Between(&p, "use", use, 0, maxFlow)
	if err := p.Join(); err != nil {
		return nil, err
	}
	weight := float64(fluid.Density) * gravity
	flow := func(gauge float64) float64 { return g.flow(gauge/weight + float64(lift)) }
	in, out := float64(a.CutIn), float64(a.CutOut)
	if h := in/weight + float64(lift); h < g.least {
		return nil, &units.FieldError{Path: "cutIn", Value: a.CutIn.String(), Want: "a head on the pump's curve", Err: units.ErrRange}
	}
	if flow(out) == 0 {
		return nil, &units.FieldError{Path: "cutOut", Value: a.CutOut.String(), Want: "less than the pump makes against a closed valve", Err: units.ErrConflict}
	}
	c := &Cycling{Drawdown: units.Volume(a.water(out) - a.water(in))}
	if use == 0 {
		return c, nil
	}
	if flow(out) <= float64(use)*(1+1e-9) {
		c.Continuous = true
		return c, nil
	}
	c.Off = units.Duration(math.Min(float64(c.Drawdown)/float64(use), float64(1e4*365*units.Day)))
	gas := float64(a.Volume) * (float64(a.Precharge) + float64(a.Site))
	t, ok := integral(func(gauge float64) float64 {
		return gas / square(gauge+float64(a.Site)) / (flow(gauge) - float64(use))
	}, in, out, 1e-10)
	if !ok || !finite(t) {
		return nil, &units.SolverError{Solver: "pressure switch", State: "time from cut-in to cut-out", Residual: t, Lo: in, Hi: out}
	}
	c.On = units.Duration(t)
	c.PerHour = float64(units.Hour) / float64(c.On+c.Off)
	return c, nil
}
