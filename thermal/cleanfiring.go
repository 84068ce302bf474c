package thermal

import (
	"example.com/washrig/units"
)

// Air of the U.S. Standard Atmosphere 1976 at sea level: 59 °F, 101,325 Pa.
const (
	standardAirTemperature = 288.15   // K
	standardAirPressure    = 101325.0 // Pa
)

// CleanFiringFactor returns the density of dry air at a site over that at sea
// level and 59 °F.
//
//	f = (p/101,325 Pa)·(288.15 K/T)
//
// A pressure-atomising oil burner gets its fuel from nozzle and fuel pump and a
// fixed *volume* of air from its fan, so the air per gallon, and with it the firing
// rate up to which it burns clean, follow the density of the air: the pressure of
// the site and the temperature of the air, not altitude alone. The afternoon
// limits clean firing, the cold morning asks for the most heat; judge both.
// The code rules per 1,000 ft belong to gas appliances ([GasAltitudeFactor]).
//
// Range: 30 to 120 kPa, −60 °C to 70 °C. Above 1 in cold or dense air. Humidity,
// which takes up to 4 % more of the oxygen in hot wet air, is not in it.
//
// Source: ideal gas; U.S. Standard Atmosphere 1976 for the reference.
func CleanFiringFactor(site units.AbsolutePressure, air units.Temperature) (units.Ratio, error) {
	if err := all(sitePressure("site", site), between("air", air, coldestAir, hottestAir)); err != nil {
		return 0, err
	}
	return units.Ratio(float64(site) / standardAirPressure * (standardAirTemperature / air.Kelvin())), nil
}

// CleanFiring returns the largest rate at which a burner fires clean at a site:
// its rate in standard sea-level air, times [CleanFiringFactor], times the fan's
// speed over its rated speed, since a fan moves volume in proportion to its speed
// (fan law). fan is 1 at rated speed; see [FanSpeed] and [FanSpeedDC].
func CleanFiring(standard units.FuelRate, site units.AbsolutePressure, air units.Temperature, fan units.Ratio) (units.FuelRate, error) {
	f, err := CleanFiringFactor(site, air)
	if err := all(inside("standard", standard, 0, mostFuel), err, inside("fan", fan, 0, 2)); err != nil {
		return 0, err
	}
	return units.FuelRate(float64(standard) * float64(f) * float64(fan)), nil
}

// GasAltitudeFactor returns the share of its input at which a gas appliance is
// rated at an elevation: 4 % less for every 1,000 ft above sea level where it
// stands above 2,000 ft, else all of it.
//
// It is a code rule for gas appliances and says nothing about an oil burner. A
// nameplate that gives another rule goes before it.
//
// Range: −2,000 ft to 20,000 ft.
//
// Source: NFPA 54/ANSI Z223.1, National Fuel Gas Code; check the edition in force.
func GasAltitudeFactor(site units.Elevation) (units.Ratio, error) {
	if !site.Given() {
		return 0, refuse("site", "", "-2,000 ft to 20,000 ft", units.ErrMissing)
	}
	if err := inside("site", site.Length(), -2000*units.Foot, 20000*units.Foot); err != nil {
		return 0, err
	}
	if site.Length() <= 2000*units.Foot {
		return 1, nil
	}
	return units.Ratio(1 - 0.04*site.Length().In(1000*units.Foot)), nil
}
