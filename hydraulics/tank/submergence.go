package tank

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// LeastSubmergence returns the depth of water over an outlet below which its swirl
// may draw in air.
//
//	S = d (1 + 2.3 F),  F = V/√(g d)
//
// d is the bore of the outlet and V the velocity in it. The depth counts from the
// outlet's opening in the floor, or from the middle of one in the wall.
//
// Range: large sumps with still water, for which the rule was made; in a tank with
// baffles or a plate over the outlet less will do, near a return pipe more is needed.
//
// Source: ANSI/HI 9.8, Intake Design for Rotodynamic Pumps, after G. E. Hecker.
func LeastSubmergence(bore units.Length, q units.VolumeFlow) (units.Length, error) {
	var p problem.List
	problem.Within(&p, "bore", bore, minBore, maxBore)
	problem.Between(&p, "flow", q, 0, maxFlow)
	if err := p.Join(); err != nil {
		return 0, err
	}
	d := float64(bore)
	v := float64(q) / (math.Pi / 4 * d * d)
	return units.Length(d * (1 + 2.3*v/math.Sqrt(gravity*d))), nil
}

// Usable splits what a tank holds by its levels.
type Usable struct {
	Nominal units.Volume // to the lid
	Full    units.Volume // to the overflow
	Usable  units.Volume // between overflow and the level at which the pump draws air
	Heel    units.Volume // below that level
	Least   units.Length // that level above the floor: port + submergence
}

// UsableVolume returns what a pump can really draw: the volume between the overflow
// and the level at which air reaches the outlet. overflow is a height above the
// floor, zero for the lid; port is that of the outlet, submergence the depth it needs
// above it ([LeastSubmergence]).
func UsableVolume(shape Shape, overflow, port, submergence units.Length) (Usable, error) {
	var p problem.List
	err := shape.Validate()
	p.Take("shape", err)
	if err == nil {
		top := shape.form().h
		problem.Between(&p, "overflow", overflow, 0, top)
		problem.Between(&p, "port", port, 0, top)
	}
	problem.Between(&p, "submergence", submergence, 0, maxHeight)
	if err := p.Join(); err != nil {
		return Usable{}, err
	}
	f := shape.form()
	edge := float64(overflow)
	if edge == 0 {
		edge = f.h
	}
	u := Usable{Nominal: units.Volume(f.full), Full: units.Volume(f.volume(edge)), Least: port + submergence}
	u.Heel = units.Volume(f.volume(math.Min(float64(u.Least), edge)))
	u.Usable = u.Full - u.Heel
	return u, nil
}
