package thermal

import (
	"example.com/washrig/units"
)

// mostFuel is far above any oil nozzle of a washer.
const mostFuel = 1000 * units.GallonPerHour

// FiringRate returns the fuel that a heater of the given efficiency burns for a
// heat.
//
//	V̇ = Q̇/(η·HHV)
//
// Efficiency and heating value stand on the same basis; for the other use
// [FiringRateLHV]. No heat needs no fuel. Range: heat 0 to 10 MW, efficiency above
// 0 up to 1.
func FiringRate(heat units.Power, efficiency EfficiencyHHV, value HHV) (units.FuelRate, error) {
	if err := all(heating("heat", heat), efficient("efficiency", efficiency, 1), inside("hhv", value, HHV(leastValue), HHV(mostValue))); err != nil {
		return 0, err
	}
	return units.FuelRate(float64(heat) / (float64(efficiency) * float64(value))), nil
}

// FiringRateLHV is [FiringRate] on the lower heating value, V̇ = Q̇/(η·LHV).
// Range: efficiency above 0 up to 1.3.
func FiringRateLHV(heat units.Power, efficiency EfficiencyLHV, value LHV) (units.FuelRate, error) {
	if err := all(heating("heat", heat), efficient("efficiency", efficiency, 1.3), inside("lhv", value, LHV(leastValue), LHV(mostValue))); err != nil {
		return 0, err
	}
	return units.FuelRate(float64(heat) / (float64(efficiency) * float64(value))), nil
}

// HeatFromFiring returns the useful heat of a firing rate: its output rating.
//
//	Q̇ = V̇·HHV·η
//
// Range as [FiringRate]. An efficiency of 1 gives the input rating; see
// [InputRating].
func HeatFromFiring(rate units.FuelRate, efficiency EfficiencyHHV, value HHV) (units.Power, error) {
	if err := all(inside("rate", rate, 0, mostFuel), efficient("efficiency", efficiency, 1), inside("hhv", value, HHV(leastValue), HHV(mostValue))); err != nil {
		return 0, err
	}
	return units.Power(float64(rate) * float64(value) * float64(efficiency)), nil
}

// InputRating returns the heat that goes in with the fuel, on the higher heating
// value: what many plates print as BTU/h without saying so. A plate's input taken
// for its output is wrong by the whole stack loss, 15 % to 20 %.
func InputRating(rate units.FuelRate, value HHV) (units.Power, error) {
	return HeatFromFiring(rate, 1, value)
}

// OutputFromInput returns the useful heat of a heater rated by its input.
func OutputFromInput(input units.Power, efficiency EfficiencyHHV) (units.Power, error) {
	if err := all(heating("input", input), efficient("efficiency", efficiency, 1)); err != nil {
		return 0, err
	}
	return units.Power(float64(input) * float64(efficiency)), nil
}

// InputFromOutput returns the input of a heater rated by its output.
func InputFromOutput(output units.Power, efficiency EfficiencyHHV) (units.Power, error) {
	if err := all(heating("output", output), efficient("efficiency", efficiency, 1)); err != nil {
		return 0, err
	}
	return units.Power(float64(output) / float64(efficiency)), nil
}

// GasRate returns the volume of gas, at the standard conditions that its heating
// value is given for, that a heater burns for a heat: V̇ = Q̇/(η·HHV).
func GasRate(heat units.Power, efficiency EfficiencyHHV, value HHV) (units.VolumeFlow, error) {
	rate, err := FiringRate(heat, efficiency, value)
	return units.VolumeFlow(rate), err
}

// HeatFromGas returns the useful heat of a volume of gas at the standard
// conditions of its heating value.
func HeatFromGas(rate units.VolumeFlow, efficiency EfficiencyHHV, value HHV) (units.Power, error) {
	if err := all(inside("rate", rate, 0, 10*units.CubicMeterPerSecond), efficient("efficiency", efficiency, 1), inside("hhv", value, HHV(leastValue), HHV(mostValue))); err != nil {
		return 0, err
	}
	return units.Power(float64(rate) * float64(value) * float64(efficiency)), nil
}

// efficient accepts efficiencies from a thousandth up to hi.
func efficient[E scalar](path string, e, hi E) error { return inside(path, e, 1e-3, hi) }
