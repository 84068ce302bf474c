package thermal

import (
	"math"

	"example.com/washrig/units"
)

// Overall returns the conductance of a hose from its water to the air over the area
// of its outside, where the water has the temperature at.
//
//	U = q(Ts)/(T − Ta)
//
// It is [HoseHeat].Overall without the way along the hose: with [Cooled] it gives the
// far end of one hose at many flows for the price of one surface temperature.
//
// Range: as [Hose.Deliver]; water within 0.1 K of the air is refused, since the
// quotient means nothing there.
func (h Hose) Overall(flow units.MassFlow, at units.Temperature, line units.AbsolutePressure, s Surroundings) (units.HeatTransferCoefficient, error) {
	if err := all(units.At("hose", h.Validate()), hoseFlow(flow), between("at", at, coldestWater, hottestWater), linePressure("line", line), units.At("surroundings", s.Validate())); err != nil {
		return 0, err
	}
	if err := liquidAt("at", float64(line), at.Kelvin()); err != nil {
		return 0, err
	}
	if math.Abs(float64(at.Sub(s.Air))) < 0.1 {
		return 0, refuse("at", at.String(), "0.1 K or more from the air, "+s.Air.String(), units.ErrConflict)
	}
	k, err := sinksOf(s, float64(h.Outside), float64(h.Emissivity))
	if err != nil {
		return 0, units.At("surroundings", err)
	}
	c := hoseKernel{h: h, k: k, m: float64(flow), p: float64(line)}
	q, _, _, err := c.leaves(at.Kelvin())
	if err != nil {
		return 0, units.At("hose", err)
	}
	U := q.total() / (math.Pi * k.diameter * (at.Kelvin() - k.Ta))
	if !finite(U) {
		return 0, refuse("at", at.String(), "a temperature apart from the air, "+s.Air.String(), units.ErrConflict)
	}
	return units.HeatTransferCoefficient(U), nil
}
