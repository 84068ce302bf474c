package thermal

import (
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// ThermalReliefFlow returns the flow that a thermal relief valve must dump, and
// fresh water replace, to hold a bypass loop at a temperature.
//
//	Q = P/[ρ(supply)·(h(T) − h(supply))]
//
// P is the heat that ends in the loop. The flow counts as metered at the supply;
// what leaves is hot and must run where nobody stands.
//
// Range: hold above supply by 0.1 K or more; liquid at the pressure.
//
// Source: first law; IAPWS-IF97.
func ThermalReliefFlow(power units.Power, supply, hold units.Temperature, pressure units.AbsolutePressure) (units.VolumeFlow, error) {
	if err := all(heating("power", power), between("supply", supply, coldestWater, hottestWater), between("hold", hold, coldestWater, hottestWater), linePressure("pressure", pressure)); err != nil {
		return 0, err
	}
	if hold.Sub(supply) < 0.1 {
		return 0, refuse("hold", hold.String(), "more than 0.1 K above the supply, "+supply.String(), units.ErrConflict)
	}
	unit, err := HeatRequired(1*units.LiterPerSecond, supply, hold, pressure)
	if err != nil {
		return 0, err
	}
	if err := liquidAt("hold", float64(pressure), hold.Kelvin()); err != nil {
		return 0, err
	}
	return units.VolumeFlow(float64(power/unit) * float64(1*units.LiterPerSecond)), nil
}

// ExpansionFlow returns the flow that a relief valve on a shut-in volume must pass
// while heat goes into the water: the rate at which it expands.
//
//	Q = β·Q̇/(ρ·cp)
//
// β is the expansivity. Cold water below 39 °F shrinks when heated and needs none:
// the result is then zero.
//
// Range: water liquid from 0 °C to 350 °C.
//
// Source: API Standard 521, thermal expansion of blocked-in liquid,
// q = α·φ/(1000·d·c); properties by IAPWS-IF97.
func ExpansionFlow(heat units.Power, at units.Temperature, pressure units.AbsolutePressure) (units.VolumeFlow, error) {
	if err := all(heating("heat", heat), between("at", at, coldestWater, hottestWater), linePressure("pressure", pressure)); err != nil {
		return 0, err
	}
	if err := liquidAt("at", float64(pressure), at.Kelvin()); err != nil {
		return 0, err
	}
	s, err := water.PropertiesAt(float64(pressure), at.Kelvin())
	if err != nil {
		return 0, units.At("at", err)
	}
	return units.VolumeFlow(max(0, s.Expansivity*float64(heat)/(s.Density*s.HeatCapacity))), nil
}
