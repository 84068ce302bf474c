package statics

import (
	"errors"
	"math"

	"example.com/washrig/units"
)

// PipeContents returns what a full hose, pipe or coil holds.
//
//	V = π/4·d²·L
//
// Errors: bore or length not more than zero, or beyond 1 m and 10 km.
func PipeContents(bore, length units.Length) (units.Volume, error) {
	var errs []error
	if !(bore > 0 && bore <= 1) {
		errs = append(errs, &units.FieldError{Path: "bore", Value: bore.String(), Want: "more than 0 m, at most 1 m", Err: units.ErrRange})
	}
	if !(length > 0 && length <= 1e4) {
		errs = append(errs, &units.FieldError{Path: "length", Value: length.String(), Want: "more than 0 m, at most 10 km", Err: units.ErrRange})
	}
	if err := errors.Join(errs...); err != nil {
		return 0, err
	}
	return units.Volume(math.Pi / 4 * float64(bore) * float64(bore) * float64(length)), nil
}

// BurnDown returns the level of a fuel tank after a consumer has drawn on it.
//
//	level after = max(0, level − rate·time/Usable)
//
// The answer is a level of the same tank, for [Tank.Load]; 0 is drawn dry.
//
// Errors: those of [Tank.Contents]; a rate or time that is negative or not finite.
func (t Tank) BurnDown(level units.Ratio, rate units.FuelRate, time units.Duration) (units.Ratio, error) {
	_, err := t.Contents(level)
	errs := []error{err}
	if !(rate >= 0 && rate <= 1) {
		errs = append(errs, &units.FieldError{Path: "rate", Value: rate.String(), Want: "0 to 1 m³/s", Err: units.ErrRange})
	}
	if !(time >= 0 && time <= 1e9) {
		errs = append(errs, &units.FieldError{Path: "time", Value: time.String(), Want: "0 s to 1e9 s", Err: units.ErrRange})
	}
	if err = errors.Join(errs...); err != nil {
		return 0, err
	}
	usable, _ := t.usable()
	if usable <= 0 {
		return level, nil
	}
	return max(0, level-units.Ratio(float64(rate)*float64(time)/float64(usable))), nil
}
