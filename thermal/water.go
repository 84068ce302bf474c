package thermal

import (
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// hottestLiquid is the upper end in K of the steam tables used (internal/water).
const hottestLiquid = water.MaxTemperature

// boilingAt returns the boiling point in K under p (Pa) and whether there is
// one: above the critical pressure, 22.064 MPa, water does not boil.
func boilingAt(p float64) (float64, bool) { return water.BoilingPoint(p) }

// liquidAt reports a temperature T (K) at which water boils under p (Pa).
func liquidAt(path string, p, T float64) error {
	if water.Boils(p, T, 0) {
		boils, _ := boilingAt(p)
		return refuse(path, units.Kelvin(T).String(), "liquid: at most "+units.Kelvin(boils).String()+" under "+units.AbsolutePressure(p).String(), units.ErrRange)
	}
	return nil
}

// MassFlow returns the mass that passes per second when flow is metered at the
// given temperature and line pressure:
//
//	ṁ = ρ(p, T)·Q
//
// ρ is the density of water (IAPWS-IF97). Range: liquid from 0 °C to boiling at
// the line pressure, at most 350 °C; 10 kPa to 50 MPa.
func MassFlow(flow units.VolumeFlow, at units.Temperature, line units.AbsolutePressure) (units.MassFlow, error) {
	if err := all(flowing("flow", flow), between("at", at, coldestWater, hottestWater), linePressure("line", line)); err != nil {
		return 0, err
	}
	p, T := float64(line), at.Kelvin()
	if err := liquidAt("at", p, T); err != nil {
		return 0, err
	}
	rho, err := water.Density(p, T)
	if err != nil {
		return 0, units.At("at", err)
	}
	return units.MassFlow(rho * float64(flow)), nil
}
