package thermal

import (
	"math"

	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// Mix returns the temperature of two waters mixed: a feed and recovered warm water,
// or a tank and what is added to it.
//
//	h(T) = (m1·h1 + m2·h2)/(m1 + m2)
//
// Range: masses 0 to 1e6 kg, not both zero; water from 0 °C to 350 °C, liquid at the
// pressure.
//
// Source: first law at constant pressure; enthalpy by IAPWS-IF97.
func Mix(first units.Mass, firstAt units.Temperature, second units.Mass, secondAt units.Temperature, pressure units.AbsolutePressure) (units.Temperature, error) {
	const most = 1e6 * units.Kilogram
	err := all(
		inside("first", first, 0, most), between("firstAt", firstAt, coldestWater, hottestWater),
		inside("second", second, 0, most), between("secondAt", secondAt, coldestWater, hottestWater),
		linePressure("pressure", pressure),
	)
	if err == nil && first == 0 && second == 0 {
		err = refuse("first", first.String(), "water in at least one of the two", units.ErrMissing)
	}
	p, T1, T2 := float64(pressure), firstAt.Kelvin(), secondAt.Kelvin()
	if err == nil {
		err = all(liquidAt("firstAt", p, T1), liquidAt("secondAt", p, T2))
	}
	if err != nil {
		return units.Temperature{}, err
	}
	h1, err1 := water.Enthalpy(p, T1)
	h2, err2 := water.Enthalpy(p, T2)
	x := float64(second) / (float64(first) + float64(second))
	T, err3 := water.TemperatureFromEnthalpy(p, h1+x*(h2-h1))
	if err := all(err1, err2, err3); err != nil {
		return units.Temperature{}, units.At("firstAt", err)
	}
	return units.Kelvin(math.Min(math.Max(T, math.Min(T1, T2)), math.Max(T1, T2))), nil
}
