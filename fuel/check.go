package fuel

import (
	"math"
	"strconv"

	"example.com/washrig/units"
)

// number prints a bare number the way a person typed it.
func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// missing is the error for a value that was needed and not given.
func missing(path, want string) error {
	return &units.FieldError{Path: path, Want: want, Err: units.ErrMissing}
}

// outside is the error for a value that was given and will not do.
func outside(path, value, want string) error {
	return &units.FieldError{Path: path, Value: value, Want: want, Err: units.ErrRange}
}

// within reports whether x is a number from lo to hi.
func within(x, lo, hi float64) bool { return x >= lo && x <= hi }

// checkShare wants a share of 0 to 1.
func checkShare(path string, x units.Ratio) error {
	if within(float64(x), 0, 1) {
		return nil
	}
	return outside(path, number(float64(x)), "0 to 1")
}

// checkPositiveShare wants a share above 0, up to 1.
func checkPositiveShare(path string, x units.Ratio) error {
	switch {
	case x == 0:
		return missing(path, "above 0, up to 1")
	case within(float64(x), 0, 1):
		return nil
	}
	return outside(path, number(float64(x)), "above 0, up to 1")
}

// mostPower is far above anything a trailer carries; it catches watts typed as
// kilowatts and keeps products finite.
const mostPower = 10e6 * units.Watt

// checkPower wants a power of 0 to mostPower.
func checkPower(path string, p units.Power) error {
	if within(float64(p), 0, float64(mostPower)) {
		return nil
	}
	return outside(path, number(p.In(units.Horsepower))+" hp", "0 to 13,000 hp")
}

// checkPositivePower wants a power above zero.
func checkPositivePower(path string, p units.Power) error {
	if p == 0 {
		return missing(path, "more than 0 hp")
	}
	return checkPower(path, p)
}

// checkAir wants air people work in, with room to spare.
func checkAir(path string, t units.Temperature) error {
	if !t.Given() {
		return missing(path, "-100 to 200 °F")
	}
	if within(t.Fahrenheit(), -100, 200) {
		return nil
	}
	return outside(path, number(math.Round(t.Fahrenheit()*1e3)/1e3)+" °F", "-100 to 200 °F")
}

// checkElevation wants a height inside the first layer of the standard
// atmosphere.
func checkElevation(path string, e units.Elevation) error {
	if !e.Given() {
		return missing(path, "-3,000 to 36,000 ft")
	}
	if within(e.Length().In(units.Foot), -3000, 36000) {
		return nil
	}
	return outside(path, number(math.Round(e.Length().In(units.Foot)*1e3)/1e3)+" ft", "-3,000 to 36,000 ft")
}

// checkBarometer wants a barometer reading of 20 to 120 kPa.
func checkBarometer(path string, p units.AbsolutePressure) error {
	if within(float64(p), 20e3, 120e3) {
		return nil
	}
	return outside(path, number(float64(p)/1e3)+" kPa absolute", "20 to 120 kPa absolute")
}

// mostRate is far above any burner or engine on a trailer.
const mostRate = 1000.0 / 3600 // m³/s

// checkRate wants a fuel flow of 0 to mostRate.
func checkRate(path string, r units.FuelRate) error {
	if within(float64(r), 0, mostRate) {
		return nil
	}
	return outside(path, number(r.In(units.GallonPerHour))+" gph", "0 to 264,000 gph")
}

// checkHeatingValue wants the heat of a volume of some fuel, from a thin gas to
// the heaviest oil.
func checkHeatingValue(path string, h units.HeatingValueByVolume) error {
	switch {
	case h == 0:
		return missing(path, "more than 0 BTU/gal")
	case within(float64(h), 1e6, 1e11):
		return nil
	}
	return outside(path, number(h.In(units.BTUPerGallon))+" BTU/gal", "3.6 to 359,000 BTU/gal")
}

// checkPositiveRate wants a fuel flow above zero.
func checkPositiveRate(path string, r units.FuelRate) error {
	if r == 0 {
		return missing(path, "more than 0 gph")
	}
	return checkRate(path, r)
}
