package thermal

import (
	"example.com/washrig/units"
)

// HHV is the higher (gross) heating value by volume: the heat of a volume of
// fuel when the water it forms is condensed. Per volume of liquid fuel, or of
// gas at the standard conditions the gas is sold by.
//
// HHV and [LHV] differ by 6 % to 10 %, and so do the efficiencies on them. They
// are types of their own so that they cannot meet by mistake:
//
//	hhv := thermal.HHV(138_500 * units.BTUPerGallon)
type HHV units.HeatingValueByVolume

// LHV is the lower (net) heating value by volume: the water formed stays vapour.
type LHV units.HeatingValueByVolume

// HHVByMass is the higher heating value by mass of fuel.
type HHVByMass units.HeatingValueByMass

// LHVByMass is the lower heating value by mass of fuel.
type LHVByMass units.HeatingValueByMass

// EfficiencyHHV is useful heat over the input on the higher heating value, as
// American plates have it.
type EfficiencyHHV units.Ratio

// EfficiencyLHV is useful heat over the input on the lower heating value, as
// Siegert's formula and European plates have it. It can exceed 1 in a boiler that
// condenses.
type EfficiencyLHV units.Ratio

// Accepted heating values: gases of 1 MJ/m³ to liquids of 60 GJ/m³.
const (
	leastValue       = 1e6 * units.HeatingValueByVolume(1)
	mostValue        = 60e9 * units.HeatingValueByVolume(1)
	leastValueByMass = 1 * units.MegajoulePerKilogram
	mostValueByMass  = 150 * units.MegajoulePerKilogram
)

// String returns the value with its unit.
func (v HHV) String() string { return units.HeatingValueByVolume(v).String() }

// String returns the value with its unit.
func (v LHV) String() string { return units.HeatingValueByVolume(v).String() }

// String returns the value with its unit.
func (v HHVByMass) String() string { return units.HeatingValueByMass(v).String() }

// String returns the value with its unit.
func (v LHVByMass) String() string { return units.HeatingValueByMass(v).String() }

// String returns the efficiency in per cent.
func (e EfficiencyHHV) String() string { return units.Ratio(e).String() }

// String returns the efficiency in per cent.
func (e EfficiencyLHV) String() string { return units.Ratio(e).String() }

// OnLHV returns the same useful heat as an efficiency on the lower heating value:
// η·HHV/LHV.
func (e EfficiencyHHV) OnLHV(higher HHV, lower LHV) (EfficiencyLHV, error) {
	if err := all(inside("efficiency", e, 0, 1), bothValues(higher, lower)); err != nil {
		return 0, err
	}
	return EfficiencyLHV(float64(e) * float64(higher) / float64(lower)), nil
}

// OnHHV returns the same useful heat as an efficiency on the higher heating
// value: η·LHV/HHV.
func (e EfficiencyLHV) OnHHV(higher HHV, lower LHV) (EfficiencyHHV, error) {
	if err := all(inside("efficiency", e, 0, 1.3), bothValues(higher, lower)); err != nil {
		return 0, err
	}
	return EfficiencyHHV(float64(e) * float64(lower) / float64(higher)), nil
}

func bothValues(higher HHV, lower LHV) error {
	err := all(inside("hhv", higher, HHV(leastValue), HHV(mostValue)), inside("lhv", lower, LHV(leastValue), LHV(mostValue)))
	if err == nil && float64(lower) > float64(higher) {
		err = refuse("lhv", lower.String(), "at most the higher heating value, "+higher.String(), units.ErrConflict)
	}
	return err
}

// PerVolume returns the higher heating value by volume of a liquid of the given
// density.
func (v HHVByMass) PerVolume(density units.Density) (HHV, error) {
	if err := all(inside("hhv", v, HHVByMass(leastValueByMass), HHVByMass(mostValueByMass)), liquidDensity("density", density)); err != nil {
		return 0, err
	}
	return HHV(float64(v) * float64(density)), nil
}

// PerVolume returns the lower heating value by volume of a liquid of the given
// density.
func (v LHVByMass) PerVolume(density units.Density) (LHV, error) {
	if err := all(inside("lhv", v, LHVByMass(leastValueByMass), LHVByMass(mostValueByMass)), liquidDensity("density", density)); err != nil {
		return 0, err
	}
	return LHV(float64(v) * float64(density)), nil
}

// PerMass returns the higher heating value by mass of a liquid of the given
// density.
func (v HHV) PerMass(density units.Density) (HHVByMass, error) {
	if err := all(inside("hhv", v, HHV(leastValue), HHV(mostValue)), liquidDensity("density", density)); err != nil {
		return 0, err
	}
	return HHVByMass(float64(v) / float64(density)), nil
}

func liquidDensity(path string, d units.Density) error {
	return inside(path, d, 400*units.KilogramPerCubicMeter, 1400*units.KilogramPerCubicMeter)
}
