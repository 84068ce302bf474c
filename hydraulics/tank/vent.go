package tank

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Vent lets air into a tank as water leaves it, and out as water enters.
type Vent struct {
	Bore        units.Length
	Coefficient units.Ratio   // of discharge: about 0.6 for a plain hole or a short nipple
	Air         units.Density // of the outside air
}

// Given reports whether any part of the vent was set.
func (v Vent) Given() bool { return v != Vent{} }

func (v Vent) check(p *problem.List, path string) {
	if v.Bore >= minBore && v.Bore <= maxBore && v.Coefficient >= 1e-3 && v.Coefficient <= 1 && v.Air >= 0.01 && v.Air <= 10 {
		return // paths are spelt where something is wrong
	}
	problem.Within(p, path+".bore", v.Bore, minBore, maxBore)
	problem.Within(p, path+".coefficient", v.Coefficient, 1e-3, 1)
	problem.Within(p, path+".air", v.Air, 0.01, 10)
}

// perSquare is the pressure over the square of the flow.
func (v Vent) perSquare() float64 {
	a := float64(v.Coefficient) * math.Pi / 4 * square(float64(v.Bore))
	return float64(v.Air) / (2 * a * a)
}

// Pressure returns the vacuum in a tank that draws a flow of air in through its
// vent, or the pressure in one that presses it out.
//
//	Δp = ½ ρ (q/(C a))²,  a = π d²/4
//
// The flow is that of the water which leaves or enters, and of a blower whose hose
// ends in the tank. The air is taken as incompressible: at 1 % of the atmosphere
// (4 in of water) the formula is half a per cent off, at 10 % five.
//
// Source: the orifice equation of any textbook.
func (v Vent) Pressure(q units.VolumeFlow) (units.Pressure, error) {
	var p problem.List
	v.check(&p, "vent")
	problem.Between(&p, "flow", q, 0, maxFlow)
	if err := p.Join(); err != nil {
		return 0, err
	}
	return units.Pressure(v.perSquare() * square(float64(q))), nil
}

// BoreFor returns the bore at which a flow costs the pressure given: the inverse of
// Pressure by the bore. The Bore of v is not read.
func (v Vent) BoreFor(q units.VolumeFlow, allowed units.Pressure) (units.Length, error) {
	var p problem.List
	v.Bore = 1
	v.check(&p, "vent")
	problem.Within(&p, "flow", q, minFlow, maxFlow)
	problem.Within(&p, "allowed", allowed, 1e-3, 1e5)
	if err := p.Join(); err != nil {
		return 0, err
	}
	a := float64(q) / float64(v.Coefficient) * math.Sqrt(float64(v.Air)/(2*float64(allowed)))
	return units.Length(math.Sqrt(4 / math.Pi * a)), nil
}
