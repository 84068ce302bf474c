package fuel_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func TestPlateDerating_zeroValueTakesNothing(t *testing.T) {
	for _, s := range []fuel.Site{site(0, 77), site(9000, 120), site(-200, -20)} {
		got, err := fuel.PlateDerating{}.Factor(s.Elevation, s.Air)
		if err != nil || got != 1 {
			t.Errorf("%v: %v, %v, want 1", s, got, err)
		}
	}
}

func TestPlateDerating_neverPaysBack(t *testing.T) {
	// Below the plate's height and in cold air it promises its rating, no more,
	// and cold air does not pay for altitude.
	for _, c := range []struct {
		feet, f, want float64
	}{
		{-1000, 77, 1},
		{0, 34, 1},
		{5200, 34, 1 - 0.035*5.2},
		{36000, 77, 0}, // 1 − 0.035·36 is below zero
	} {
		s := site(c.feet, c.f)
		got, err := common.Factor(s.Elevation, s.Air)
		if err != nil || math.Abs(float64(got)-c.want) > 1e-15 {
			t.Errorf("%g ft, %g °F: %v, %v, want %g", c.feet, c.f, got, err, c.want)
		}
	}
}

func TestPlateDerating_fromAndReference(t *testing.T) {
	d := common
	d.From = units.ElevationAt(500 * units.Foot)
	d.Reference = units.Fahrenheit(60)
	s := site(2500, 90)
	got, err := d.Factor(s.Elevation, s.Air)
	if want := (1 - 0.035*2) * (1 - 0.01*3); err != nil || math.Abs(float64(got)-want) > 1e-15 {
		t.Errorf("%v, %v, want %g", got, err, want)
	}
	if r := fuel.PlateReference(); r != units.Fahrenheit(77) {
		t.Errorf("plate reference is %v", r)
	}
}

func TestPlateDerating_fallsWithHeightAndHeat(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		d := fuel.PlateDerating{
			PerThousandFeet:       units.Ratio(g.Float(0, 0.2)),
			PerTenFahrenheitAbove: units.Ratio(g.Float(0, 0.2)),
		}
		h, f := g.Float(-3000, 30000), g.Float(-100, 149)
		low, high := site(h, f), site(h+g.Float(0, 6000), f+g.Float(0, 50))
		a, err := d.Factor(low.Elevation, low.Air)
		if err != nil {
			return err
		}
		b, err := d.Factor(high.Elevation, high.Air)
		if err != nil {
			return err
		}
		if !(b <= a && b >= 0 && a <= 1) {
			return fmt.Errorf("%g at the lower, cooler place and %g at the other", float64(a), float64(b))
		}
		return nil
	})
}

func TestPlateDerating_badInput(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name string
		d    fuel.PlateDerating
		s    fuel.Site
		path string
		kind error
	}{
		{"more than all lost", fuel.PlateDerating{PerThousandFeet: 3.5}, site(0, 77), "perThousandFeet", units.ErrRange},
		{"a gain", fuel.PlateDerating{PerTenFahrenheitAbove: -0.01}, site(0, 77), "perTenFahrenheitAbove", units.ErrRange},
		{"not a number", fuel.PlateDerating{PerThousandFeet: units.Ratio(nan)}, site(0, 77), "perThousandFeet", units.ErrRange},
		{"no elevation", common, fuel.Site{Air: units.Fahrenheit(77)}, "elevation", units.ErrMissing},
		{"no air", common, fuel.Site{Elevation: units.ElevationAt(0)}, "air", units.ErrMissing},
		{"elevation not a number", common, site(nan, 77), "elevation", units.ErrRange},
		{"air not a number", common, site(0, nan), "air", units.ErrRange},
		{"air in kelvins", common, site(0, 298), "air", units.ErrRange},
		{"infinite elevation", common, site(math.Inf(1), 77), "elevation", units.ErrRange},
		{"plate from the moon", fuel.PlateDerating{From: units.ElevationAt(1e6 * units.Foot)}, site(0, 77), "from", units.ErrRange},
		{"plate reference in kelvins", fuel.PlateDerating{Reference: units.Fahrenheit(298)}, site(0, 77), "reference", units.ErrRange},
	} {
		got, err := c.d.Factor(c.s.Elevation, c.s.Air)
		wantFieldError(t, c.name, err, c.path, c.kind)
		if got != 0 {
			t.Errorf("%s: %v beside an error", c.name, got)
		}
	}
}

// wantFieldError checks that err names path and is of a kind.
func wantFieldError(t *testing.T, name string, err error, path string, kind error) {
	t.Helper()
	for _, e := range flatten(err) {
		var f *units.FieldError
		if errors.As(e, &f) && f.Path == path && errors.Is(e, kind) && f.Want != "" {
			return
		}
	}
	t.Errorf("%s: %v, want a field error for %s: %v", name, err, path, kind)
}

// flatten takes joined errors apart.
func flatten(err error) []error {
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, e := range j.Unwrap() {
			all = append(all, flatten(e)...)
		}
		return all
	}
	return []error{err}
}
