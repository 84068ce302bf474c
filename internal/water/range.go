package water

import (
	"strconv"

	"example.com/washrig/units"
)

// Range of the package: ordinary water from 0 °C to 350 °C and up to 50 MPa.
const (
	MinTemperature = 273.15 // K
	MaxTemperature = 623.15 // K
	MinPressure    = 1      // Pa; a margin against overflow, far below any use
	MaxPressure    = 50e6   // Pa
)

// The ends of the range are widened by a few roundings, so that 32 °F or
// 350 °C converted to kelvins counts as inside.
const (
	slackT = 1e-9  // K
	slackP = 1e-12 // of the pressure
)

func within(p, T float64) bool {
	return T >= MinTemperature-slackT && T <= MaxTemperature+slackT &&
		p >= MinPressure && p <= MaxPressure*(1+slackP)
}

// check returns the error for the first of the two that is out of range.
func check(p, T float64) error {
	if err := checkTemperature(T); err != nil {
		return err
	}
	return checkPressure(p)
}

func checkTemperature(T float64) error {
	return checkRange("temperature", T, MinTemperature, MaxTemperature, slackT, "K")
}

func checkPressure(p float64) error {
	return checkRange("absolute pressure", p, MinPressure, MaxPressure, MaxPressure*slackP, "Pa")
}

// checkRange returns nil or a *units.FieldError with the quantity as its path.
func checkRange(quantity string, x, lo, hi, slack float64, unit string) error {
	if x >= lo-slack && x <= hi+slack {
		return nil
	}
	text := func(x float64) string { return strconv.FormatFloat(x, 'g', 9, 64) + " " + unit }
	return &units.FieldError{
		Path:  quantity,
		Value: text(x),
		Want:  text(lo) + " to " + text(hi),
		Err:   units.ErrRange,
	}
}
