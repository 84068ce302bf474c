package rig_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// boxed is rig B of the demo with a gasoline tank of 24 × 14 × 12 in whose
// suction tube ends an inch above the floor.
func boxed(t testing.TB, c ...rig.Change) (*rig.Model, error) {
	t.Helper()
	m, err := demo.Model("B")
	if err != nil {
		t.Fatal(err)
	}
	at := rig.Path("fuel_tanks[gasoline].")
	return m.With(append([]rig.Change{rig.Set(at+"inside_length", "24 in"), rig.Set(at+"inside_width", "14 in"), rig.Set(at+"inside_height", "12 in"),
		rig.Set(at+"pick_up_height", "1 in"), rig.Set(at+"volume", "17.4 gal")}, c...)...)
}

// usable is the fuel of the gasoline tank that reaches its pick-up.
func usable(t testing.TB, c ...rig.Change) float64 {
	t.Helper()
	m, err := boxed(t, c...)
	if err != nil {
		t.Fatal(err)
	}
	rep, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		t.Fatal(err)
	}
	x, ok := rep.Worst("fuel_tanks[gasoline].usable_fuel")
	if !ok {
		t.Fatal("no usable fuel")
	}
	return units.Volume(x.Value.SI()).In(units.Gallon)
}

// By hand: an inch of 24 × 14 in is 1.4545 gal of 17.4545. On a slope of which
// the surface runs out 1/tan 20° = 2.747 in beside a pick-up in the middle, a
// wedge of 9.747 in is left: ½·9.747²·tan 20°·24/231 = 1.7964 gal. With the
// pick-up at the right wall and the left side down the surface rises from 1 in
// to 1 + 14·tan 20° = 6.0956 in: 3.5478·14·24/231 = 5.1604 gal. Of the 17.4 gal on
// the plate 17.4/17.4545 are in each.
func TestFuelTank_slope(t *testing.T) {
	const plate = 17.4 / (24 * 14 * 12 / 231.)
	slope := rig.Set("site.side_slope", "20 deg")
	for _, c := range []struct {
		name    string
		changes []rig.Change
		left    float64
	}{
		{"on the level", nil, 1.4545},
		{"on a slope", []rig.Change{slope}, 1.7964},
		{"pick-up at the right wall", []rig.Change{slope, rig.Set("fuel_tanks[gasoline].pick_up_left", "0 in")}, 5.1604},
		{"pick-up at the left wall", []rig.Change{slope, rig.Set("fuel_tanks[gasoline].pick_up_left", "14 in")}, 5.1604},
	} {
		if got, want := usable(t, c.changes...), 17.4-c.left*plate; math.Abs(got-want) > 0.0002 {
			t.Errorf("%s: %.4f gal usable, by hand %.4f", c.name, got, want)
		}
	}
}

// A steeper slope or a higher pick-up never leaves more to draw, and the day that
// fitted may then not.
func TestFuelTank_worseNeverHelps(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		deg, up := g.Float(0, 30), g.Float(0, 6)
		set := func(deg, up float64) []rig.Change {
			return []rig.Change{rig.Set("site.side_slope", fmt.Sprintf("%g deg", deg)), rig.Set("fuel_tanks[gasoline].pick_up_height", fmt.Sprintf("%g in", up))}
		}
		a := usable(t, set(deg, up)...)
		if b := usable(t, set(deg+g.Float(0, 10), up+g.Float(0, 2))...); b > a+1e-9 {
			return fmt.Errorf("%g gal, when worse %g gal", a, b)
		}
		return nil
	})
}

func TestFuelTank_sense(t *testing.T) {
	at := rig.Path("fuel_tanks[gasoline].")
	for _, c := range []struct {
		change rig.Change
		path   string
		is     error
	}{
		{rig.Set(at+"inside_height", ""), "fuel_tanks[gasoline].inside_length", units.ErrMissing},
		{rig.Set(at+"volume", "18 gal"), "fuel_tanks[gasoline].volume", units.ErrConflict},
		{rig.Set(at+"pick_up_height", "13 in"), "fuel_tanks[gasoline].pick_up_height", units.ErrConflict},
		{rig.Set(at+"pick_up_forward", "25 in"), "fuel_tanks[gasoline].pick_up_forward", units.ErrConflict},
		{rig.Set(at+"pick_up_left", "15 in"), "fuel_tanks[gasoline].pick_up_left", units.ErrConflict},
	} {
		_, err := boxed(t, c.change)
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path || !errors.Is(err, c.is) {
			t.Errorf("%v: %v, want %v at %s", c.change, err, c.is, c.path)
		}
	}
}
