package thermal

import (
	"example.com/washrig/units"
)

// A SiegertFuel holds the constants of Siegert's formula for a fuel.
type SiegertFuel struct {
	A1, A2, B float64
}

// Constants of the German first ordinance on small firing installations
// (1. BImSchV). A2 of oil and natural gas and B of oil were read in a public
// reproduction; the others are from memory.
var (
	siegertOil        = SiegertFuel{A1: 0.50, A2: 0.68, B: 0.007}
	siegertNaturalGas = SiegertFuel{A1: 0.37, A2: 0.66, B: 0.009}
	siegertLPG        = SiegertFuel{A1: 0.42, A2: 0.63, B: 0.008}
)

// SiegertOil returns the constants of light heating oil.
func SiegertOil() SiegertFuel { return siegertOil }

// SiegertNaturalGas returns the constants of natural gas.
func SiegertNaturalGas() SiegertFuel { return siegertNaturalGas }

// SiegertLPG returns the constants of liquefied petroleum gas.
func SiegertLPG() SiegertFuel { return siegertLPG }

// LossByOxygen returns the stack loss from the oxygen in the dry flue gas, as a
// share of the input on the *lower* heating value.
//
//	qA[%] = (tA − tL)·(A2/(21 − O2) + B)
//
// tA is the flue gas, tL the combustion air, °C; O2 in per cent by volume. On the
// higher heating value use 1 less the loss with [EfficiencyLHV.OnHHV].
//
// Range: O2 0 to 20 %, flue gas from the air to 1000 K. From 2 % to 9 % oxygen and
// 120 °C to 320 °C it agrees with the full balance [Fuel.Burn] within 0.3 percentage
// points for oil, 0.5 for natural gas and 1.1 for liquefied gas
// (TestSiegert_againstBalance).
//
// Source: 1. BImSchV; formula of A. Siegert.
func (f SiegertFuel) LossByOxygen(stack, air units.Temperature, oxygen units.Ratio) (units.Ratio, error) {
	if err := all(f.validate(), siegertTemperatures(stack, air), inside("oxygen", oxygen, 0, 0.20)); err != nil {
		return 0, err
	}
	return units.Ratio(float64(stack.Sub(air)) * (f.A2/(21-100*float64(oxygen)) + f.B) / 100), nil
}

// LossByCarbonDioxide is [SiegertFuel.LossByOxygen] from the carbon dioxide.
//
//	qA[%] = (tA − tL)·(A1/CO2 + B)
//
// Range: CO2 2 % to 20 %.
func (f SiegertFuel) LossByCarbonDioxide(stack, air units.Temperature, carbonDioxide units.Ratio) (units.Ratio, error) {
	if err := all(f.validate(), siegertTemperatures(stack, air), inside("carbonDioxide", carbonDioxide, 0.02, 0.20)); err != nil {
		return 0, err
	}
	return units.Ratio(float64(stack.Sub(air)) * (f.A1/(100*float64(carbonDioxide)) + f.B) / 100), nil
}

func (f SiegertFuel) validate() error {
	return all(number("A1", f.A1, 0.1, 2), number("A2", f.A2, 0.1, 2), number("B", f.B, 0, 0.1))
}

func siegertTemperatures(stack, air units.Temperature) error {
	err := all(between("stack", stack, coldestAir, units.Kelvin(1000)), between("air", air, coldestAir, hottestAir))
	if err == nil && stack.Kelvin() < air.Kelvin() {
		err = refuse("stack", stack.String(), "at least the air's "+air.String(), units.ErrConflict)
	}
	return err
}
