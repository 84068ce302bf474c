package hydraulics

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// HazenWilliams returns the pressure lost by cold water in a supply line.
//
//	p = 4.52 Q^1.85 L / (C^1.85 d^4.87)
//
// Q in gpm, d in inches, L in feet, p in psi. C is Hazen and Williams's coefficient:
// 150 very smooth, 140 plastic and copper, 120 new steel, 100 old steel.
//
// Range: turbulent cold water in pipes from about 2 in at 3 to 10 ft/s. It knows no
// viscosity: in a small smooth hose it is 2 to 16 % above Darcy's law at 20 °C, and
// more for hot water. A network uses [Pipe] instead.
//
// Error: other printed forms of the constants (EPANET's, the SI form) differ by 0.2 %.
//
// Source: NFPA 13, as reproduced in public.
func HazenWilliams(q units.VolumeFlow, bore, length units.Length, c float64) (units.Pressure, error) {
	var bad problem.List
	atMost(&bad, "flow", q, maxFlow)
	within(&bad, "bore", bore, minBore, maxBore)
	within(&bad, "length", length, minLength, maxLength)
	problem.Number(&bad, "c", c, 1, 1000)
	if bad != nil {
		return 0, bad.Join()
	}
	p := 4.52 * length.In(units.Foot) * math.Pow(q.In(units.GallonPerMinute)/c, 1.85) / math.Pow(bore.In(units.Inch), 4.87)
	return units.Pressure(p) * units.PSI, nil
}
