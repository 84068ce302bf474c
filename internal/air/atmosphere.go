package air

import "math"

// Constants of the U.S. Standard Atmosphere, 1976, Tables 2 and 4.
const (
	SeaLevelPressure    = 101325.0 // Pa
	SeaLevelTemperature = 288.15   // K

	gasConstant  = 8.31432    // R*, J/(mol·K)
	molarMass    = 28.9644e-3 // M0, kg/mol
	gravity      = 9.80665    // g0', m²/(s²·m')
	lapse        = 6.5e-3     // −L, K per geopotential metre
	earthRadius  = 6356766.0  // r0, m
	heatRatio    = 1.400      // γ
	specificGas  = gasConstant / molarMass
	exponent     = gravity * molarMass / (gasConstant * lapse) // 5.25588
	sutherlandB  = 1.458e-6                                    // β, kg/(s·m·K^½)
	sutherlandS  = 110.4                                       // S, K
	minElevation = -1000.0
	maxElevation = 11000.0 // top of the layer with this lapse rate
)

// TemperatureAt returns the standard temperature in K at the geopotential height
// H (m) above mean sea level.
//
//	T = 288.15 K − 6.5 K/km · H
//
// Range: −1000 m ≤ H ≤ 11000 m; outside a [*units.FieldError].
//
// Source: U.S. Standard Atmosphere, 1976, Eq. 23 and Table 4.
func TemperatureAt(H float64) (float64, error) {
	if err := checkRange("elevation", H, minElevation, maxElevation, "m"); err != nil {
		return 0, err
	}
	return SeaLevelTemperature - lapse*H, nil
}

// PressureAt returns the standard pressure in Pa at the geopotential height H (m)
// above mean sea level.
//
//	p = p0 (1 − L H/T0)^(g0 M0/(R* L))
//
// Weather moves the true pressure by ± 3 % about it; [StationPressure] takes a
// barometer instead.
//
// Range: −1000 m ≤ H ≤ 11000 m; outside a [*units.FieldError].
//
// Source: U.S. Standard Atmosphere, 1976, Eq. 33a.
func PressureAt(H float64) (float64, error) {
	if err := checkRange("elevation", H, minElevation, maxElevation, "m"); err != nil {
		return 0, err
	}
	return pressureAt(H), nil
}

func pressureAt(H float64) float64 {
	return SeaLevelPressure * math.Pow(1-lapse*H/SeaLevelTemperature, exponent)
}

// ElevationAt returns the geopotential height in m where the standard atmosphere
// has the pressure p (Pa): the pressure altitude. It is the inverse of
// [PressureAt].
//
// Range: the pressures of −1000 m to 11000 m, 113,929 Pa to 22,632 Pa; outside a
// [*units.FieldError].
func ElevationAt(p float64) (float64, error) {
	lo, hi := pressureAt(maxElevation), pressureAt(minElevation)
	if err := checkRange("absolute pressure", p, lo, hi, "Pa"); err != nil {
		return 0, err
	}
	return elevationAt(p), nil
}

func elevationAt(p float64) float64 {
	return SeaLevelTemperature / lapse * (1 - math.Pow(p/SeaLevelPressure, 1/exponent))
}

// StationPressure returns the air pressure in Pa at the geopotential height H (m)
// when weather reports give the altimeter setting (Pa): the pressure reduced to
// sea level by the standard atmosphere, as in aviation reports (QNH). The
// reading of a barometer on site that is not reduced is the station pressure
// itself.
//
//	p = p0 [ (setting/p0)^(1/n) − L H/T0 ]^n,  n = g0 M0/(R* L)
//
// Range: 85 kPa ≤ setting ≤ 110 kPa (records are 87 and 108.4 kPa), H as
// [PressureAt]; outside a [*units.FieldError].
//
// Source: definition of the altimeter scale; Smithsonian Meteorological Tables,
// 6th rev. ed., 1951, p. 269, without its 0.3 mb for the height of the
// instrument. Sea-level pressures of weather maps, reduced with the day's
// temperature, differ by some tenths of a per cent on high ground.
func StationPressure(setting, H float64) (float64, error) {
	if err := checkRange("altimeter setting", setting, 85e3, 110e3, "Pa"); err != nil {
		return 0, err
	}
	if err := checkRange("elevation", H, minElevation, maxElevation, "m"); err != nil {
		return 0, err
	}
	return pressureAt(H + elevationAt(setting)), nil
}

// Geopotential returns the geopotential height in m of the geometric height z (m)
// above mean sea level.
//
//	H = r0 z/(r0 + z),  r0 = 6,356,766 m
//
// Range: −1000 m ≤ z ≤ 11020 m; outside a [*units.FieldError].
//
// Source: U.S. Standard Atmosphere, 1976, Eq. 18.
func Geopotential(z float64) (float64, error) {
	if err := checkRange("geometric height", z, minElevation, 11020, "m"); err != nil {
		return 0, err
	}
	return earthRadius * z / (earthRadius + z), nil
}

// Geometric returns the geometric height in m of the geopotential height H (m).
// It is the inverse of [Geopotential].
//
// Range: −1001 m ≤ H ≤ 11001 m; outside a [*units.FieldError].
//
// Source: U.S. Standard Atmosphere, 1976, Eq. 19.
func Geometric(H float64) (float64, error) {
	if err := checkRange("elevation", H, minElevation-1, maxElevation+1, "m"); err != nil {
		return 0, err
	}
	return earthRadius * H / (earthRadius - H), nil
}
