package hydraulics

import (
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// HydraulicPower returns the power of a flow that is raised by pressure p.
//
//	P = q p
//
// One gpm at one psi is exactly 7/12000 hp; the trade divides by 1714, which
// rounds 1714.2857.
func HydraulicPower(q units.VolumeFlow, p units.Pressure) (units.Power, error) {
	var bad problem.List
	atMost(&bad, "flow", q, maxFlow)
	atMost(&bad, "pressure", p, maxPressure)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.Power(float64(q) * float64(p)), nil
}

// ShaftPower returns the power at the engine or motor shaft that drives a pump.
//
//	P = q p / (η_p η_b)
//
// q is the flow that leaves the pump, bypass included, p the pressure at the
// pump, η_p the efficiency of the pump and η_b that of belt or gear; a pump on the
// shaft has η_b = 1. Both are more than 0 and at most 1.
func ShaftPower(q units.VolumeFlow, p units.Pressure, pump, drive units.Ratio) (units.Power, error) {
	var bad problem.List
	atMost(&bad, "flow", q, maxFlow)
	atMost(&bad, "pressure", p, maxPressure)
	within(&bad, "pumpEfficiency", pump, 1e-6, 1)
	within(&bad, "driveEfficiency", drive, 1e-6, 1)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.Power(float64(q) * float64(p) / (float64(pump) * float64(drive))), nil
}
