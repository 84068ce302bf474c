package fuel

import (
	"errors"

	"example.com/washrig/units"
)

// A Burner is a heater as a consumer of fuel.
type Burner struct {
	Firing units.FuelRate // while it fires
	Duty   units.Ratio    // share of the time that it fires, 0 to 1
}

// Average returns the burner's fuel over the time its duty is meant for, Firing ×
// Duty.
//
// Errors: a *[units.FieldError] for a field of b.
func (b Burner) Average() (units.FuelRate, error) {
	if err := errors.Join(checkRate("firing", b.Firing), checkShare("duty", b.Duty)); err != nil {
		return 0, err
	}
	return b.Firing * units.FuelRate(b.Duty), nil
}

// FiringFor returns the firing rate that makes a heat input on the higher basis:
// the inverse of [HigherInput].
//
// Errors: a *[units.FieldError] for an input below zero, or a heating value that
// is not above zero.
func FiringFor(input units.Power, h HigherHeatingValue) (units.FuelRate, error) {
	if err := errors.Join(checkPower("input", input), checkHeatingValue("higher", h.ByVolume())); err != nil {
		return 0, err
	}
	return units.FuelRate(float64(input) / float64(h)), nil
}
