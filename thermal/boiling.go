package thermal

import (
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// BoilingPoint returns the temperature at which water boils under the absolute
// pressure p: the pressure of the air at the site for an open tip or tank, the
// line pressure inside a coil.
//
// Range: 10 kPa up to the critical pressure, 22.064 MPa; above it there is no
// boiling and an error says so.
//
// Source: IAPWS-IF97, Eq. 31. It gives 99.974 °C at 101.325 kPa.
func BoilingPoint(p units.AbsolutePressure) (units.Temperature, error) {
	const critical = 22.064 * units.MegapascalAbsolute
	if err := inside("pressure", p, leastLine, critical); err != nil {
		return units.Temperature{}, err
	}
	T, err := water.SaturationTemperature(float64(p))
	if err != nil {
		return units.Temperature{}, units.At("pressure", err)
	}
	return units.Kelvin(T), nil
}

// PressureToStayLiquid returns the least absolute pressure under which water of
// the given temperature does not boil. Range: 0 °C to 350 °C.
//
// Source: IAPWS-IF97, Eq. 30.
func PressureToStayLiquid(at units.Temperature) (units.AbsolutePressure, error) {
	if err := between("at", at, coldestWater, hottestWater); err != nil {
		return 0, err
	}
	p, err := water.SaturationPressure(at.Kelvin())
	if err != nil {
		return 0, units.At("at", err)
	}
	return units.AbsolutePressure(p), nil
}

// BoilingMargin returns how far water of the given temperature is below its
// boiling point under the absolute pressure p; negative if it would boil. Range
// as [BoilingPoint], water from 0 °C to 350 °C.
func BoilingMargin(at units.Temperature, p units.AbsolutePressure) (units.TemperatureDelta, error) {
	boils, err := BoilingPoint(p)
	if err := all(between("at", at, coldestWater, hottestWater), err); err != nil {
		return 0, err
	}
	return boils.Sub(at), nil
}

// FlashFraction returns the share by mass of hot water that turns to steam when
// its pressure falls from line to site, at a nozzle or an opened gun.
//
//	x = (h(p1, T1) − h′(p2))/(h″(p2) − h′(p2)), not below 0 nor above 1
//
// h′ and h″ are the enthalpies of boiling liquid and of steam at the site. Water
// under high pressure carries more enthalpy than boiling water of the same
// temperature, so more of it flashes: 4.5 % at 250 °F and 2,700 psi against 4.0 %.
// The trade's (T − T_boil)/970 with °F leaves that out; see [FlashByRule].
//
// Range: line not below site. Water above its boiling point in the line is steam
// already and flashes whole. For a mixture use [FlashOfEnthalpy].
//
// Source: first law at constant enthalpy; IAPWS-IF97.
func FlashFraction(at units.Temperature, line, site units.AbsolutePressure) (units.Ratio, error) {
	if err := pass("at", at, "site", site, "line", line); err != nil {
		return 0, err
	}
	h, err := water.Enthalpy(float64(line), at.Kelvin())
	if err != nil {
		return 0, units.At("at", err)
	}
	return FlashOfEnthalpy(units.SpecificEnthalpy(h), site)
}

// FlashOfEnthalpy is [FlashFraction] of water, mixture or steam of known specific
// enthalpy, such as [Outlet].Enthalpy.
func FlashOfEnthalpy(h units.SpecificEnthalpy, site units.AbsolutePressure) (units.Ratio, error) {
	f, err := FlashAt(site)
	if err := all(inside("enthalpy", h, -1e6, 1e7), err); err != nil {
		return 0, err
	}
	return f.of(float64(h)), nil
}

// A Flashing is what hot water flashes to at a site: [FlashFraction] of many waters.
type Flashing struct {
	site          units.AbsolutePressure
	liquid, steam float64 // J/kg, at the boiling point
}

// FlashAt returns the Flashing of a site. Range as [BoilingPoint].
func FlashAt(site units.AbsolutePressure) (Flashing, error) {
	boils, err := BoilingPoint(site)
	if err != nil {
		return Flashing{}, units.At("site", err)
	}
	liquid, steam, err := water.SaturatedEnthalpies(boils.Kelvin())
	if err != nil {
		return Flashing{}, units.At("site", err)
	}
	return Flashing{site, liquid, steam}, nil
}

// Fraction is [FlashFraction] at the site of f. The zero Flashing has no site.
func (f Flashing) Fraction(at units.Temperature, line units.AbsolutePressure) (units.Ratio, error) {
	if err := pass("at", at, "site", f.site, "line", line); err != nil {
		return 0, err
	}
	h, err := water.Enthalpy(float64(line), at.Kelvin())
	if err != nil {
		return 0, units.At("at", err)
	}
	return f.of(h), nil
}

func (f Flashing) of(h float64) units.Ratio {
	return units.Ratio(min(max((h-f.liquid)/(f.steam-f.liquid), 0), 1))
}

// FlashByRule returns the flashed share by the trade's rule
//
//	x = (T − T_boil)/970, °F, not below 0
//
// 970 BTU/lb being the heat of evaporation at 1 atm and 1 BTU/(lb·°F) the heat
// capacity. Common practice; compare [FlashFraction].
func FlashByRule(at units.Temperature, site units.AbsolutePressure) (units.Ratio, error) {
	margin, err := BoilingMargin(at, site)
	if err != nil {
		return 0, err
	}
	return units.Ratio(max(0, -margin.In(units.FahrenheitDelta)/970)), nil
}
