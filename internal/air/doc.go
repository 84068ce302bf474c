// Package air gives the standard atmosphere, the pressure on site, and the
// properties of dry and of humid air.
//
//	p, err := air.PressureAt(1609.344)      // 83,428 Pa at 5,280 ft
//	rho, err := air.Density(p, 308.15)      // 0.9432 kg/m³ at 95 °F
//
// Everything is float64 in SI units: Pa absolute, K, kg/m³, m, J/kg, Pa·s,
// W/(m·K), m/s. Humidity ratio is kg of water vapour per kg of dry air, relative
// humidity a fraction of 1. Enthalpy and specific volume of humid air are per kg
// of dry air, density is per m³ of the mixture.
//
// Elevations are geopotential heights: heights in a field of constant gravity,
// what the pressure formula is exact for and what maps and receivers differ from
// by 0.25 m at 1,250 m (0.4 m at a mile). [Geopotential] and [Geometric] convert.
//
// Dry air is the ideal gas of the standard atmosphere, R = 287.0529 J/(kg·K),
// in all functions; its volume is right within 0.1 % at site pressures.
// Outside its range a function returns a [*units.FieldError] that names the
// quantity, the value and the range, and zero; NaN is outside every range.
//
//	functions                                  source
//	PressureAt, TemperatureAt, ElevationAt,    U.S. Standard Atmosphere, 1976 (NOAA, NASA, USAF)
//	Density, Viscosity, Conductivity, …
//	StationPressure                            altimeter scale of the same atmosphere
//	SaturationPressure, HumidityRatio,         ASHRAE Handbook — Fundamentals (2017), chapter 1
//	FromWetBulb, …
//
// All functions are safe for concurrent use and allocate only on an error.
package air
