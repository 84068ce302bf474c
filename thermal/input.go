package thermal

import (
	"errors"
	"fmt"
	"math"

	"example.com/washrig/units"
)

// Accepted ranges. They are wide enough for any wash rig and narrow enough to
// catch a number typed without its unit, such as 3500 for 3500 psi.
const (
	leastLine = 10 * units.KilopascalAbsolute
	mostLine  = 50 * units.MegapascalAbsolute // end of the steam tables used

	leastSite = 30 * units.KilopascalAbsolute  // about 30,000 ft
	mostSite  = 120 * units.KilopascalAbsolute // below any sea

	mostFlow  = 0.1 * units.CubicMeterPerSecond // 1,585 gpm
	mostHeat  = 10e6 * units.Watt
	mostDelay = 1e8 * units.Second // three years
)

// Ends of the scales for water (IAPWS-IF97) and for weather.
var (
	coldestWater = units.Celsius(0)
	hottestWater = units.Kelvin(623.15)
	coldestAir   = units.Celsius(-60)
	hottestAir   = units.Celsius(70)
)

// A scalar is any of the quantities of package units that are numbers.
type scalar interface {
	~float64
	String() string
}

// inside reports a v that is not in [lo, hi]. Where zero lies outside, a zero
// counts as not given.
func inside[Q scalar](path string, v, lo, hi Q) error {
	switch {
	case v >= lo && v <= hi:
		return nil
	case v == 0:
		return &units.FieldError{Path: path, Want: lo.String() + " to " + hi.String(), Err: units.ErrMissing}
	}
	return &units.FieldError{Path: path, Value: v.String(), Want: lo.String() + " to " + hi.String(), Err: units.ErrRange}
}

// positive reports a v that is not above zero and at most hi. A zero counts as
// not given.
func positive[Q scalar](path string, v, hi Q) error {
	switch {
	case v > 0 && v <= hi:
		return nil
	case v == 0:
		return &units.FieldError{Path: path, Want: "more than 0, at most " + hi.String(), Err: units.ErrMissing}
	}
	return &units.FieldError{Path: path, Value: v.String(), Want: "more than 0, at most " + hi.String(), Err: units.ErrRange}
}

// between reports a temperature that is not given or not in [lo, hi].
func between(path string, t, lo, hi units.Temperature) error {
	switch k := t.Kelvin(); {
	case !t.Given():
		return &units.FieldError{Path: path, Want: span(lo, hi), Err: units.ErrMissing}
	case k >= lo.Kelvin() && k <= hi.Kelvin():
		return nil
	}
	return &units.FieldError{Path: path, Value: t.String(), Want: span(lo, hi), Err: units.ErrRange}
}

func span(lo, hi units.Temperature) string {
	return fmt.Sprintf("%.5g °F to %.5g °F", lo.Fahrenheit(), hi.Fahrenheit())
}

// number reports a plain number that is not in [lo, hi].
func number(path string, v, lo, hi float64) error {
	if v >= lo && v <= hi {
		return nil
	}
	return &units.FieldError{Path: path, Value: fmt.Sprint(v), Want: fmt.Sprintf("%g to %g", lo, hi), Err: units.ErrRange}
}

// refuse makes an error of an input that is well formed but does not fit.
func refuse(path, value, want string, kind error) error {
	return &units.FieldError{Path: path, Value: value, Want: want, Err: kind}
}

// all joins the problems found, in the order given; nil if there are none.
func all(problems ...error) error { return errors.Join(problems...) }

// linePressure and sitePressure check the two absolute pressures.
func linePressure(path string, p units.AbsolutePressure) error {
	return inside(path, p, leastLine, mostLine)
}

func sitePressure(path string, p units.AbsolutePressure) error {
	return inside(path, p, leastSite, mostSite)
}

// flowing accepts a flow of zero as well.
func flowing(path string, q units.VolumeFlow) error { return inside(path, q, 0, mostFlow) }

// heating accepts a heat of zero as well.
func heating(path string, q units.Power) error { return inside(path, q, 0, mostHeat) }

// share accepts 0 to 1.
func share(path string, r units.Ratio) error { return inside(path, r, 0, 1) }

func finite(x float64) bool { return math.Abs(x) <= math.MaxFloat64 }
