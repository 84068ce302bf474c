package statics

import (
	"errors"

	"example.com/washrig/units"
)

// A Tank holds a liquid: water, chemical or fuel. Its shell is a [Mass] of its own.
type Tank struct {
	Name    string
	Nominal units.Volume   // what it holds brim-full, required
	Heel    units.Volume   // what stays when it is drawn dry; 0: nothing
	Usable  units.Volume   // what can be drawn from a full tank; 0: Nominal − Heel
	Density units.Density  // of the liquid, required
	X, Y, Z units.Position // centre of the liquid; X required
}

// Contents returns the volume in the tank at a level.
//
//	V = Heel + level·Usable
//
// level is the share of the usable volume that is still there: 0 drawn dry, 1
// full. What stays below the outlet is carried at every level.
//
// Errors: no Nominal; Heel and Usable together more than Nominal; level outside
// 0 to 1.
func (t Tank) Contents(level units.Ratio) (units.Volume, error) {
	usable, errs := t.usable()
	if !(level >= 0 && level <= 1) {
		errs = append(errs, &units.FieldError{Path: "level", Value: level.String(), Want: "0 % to 100 %", Err: units.ErrRange})
	}
	if err := errors.Join(errs...); err != nil {
		return 0, err
	}
	return t.Heel + units.Volume(level)*usable, nil
}

// Load returns the mass of the liquid at a level, at the tank's centre.
//
//	m = ρ·(Heel + level·Usable)
//
// The centre is that of X, Y, Z at every level.
//
// Errors: those of [Tank.Contents]; no Density.
func (t Tank) Load(level units.Ratio) (Mass, error) {
	v, err := t.Contents(level)
	if err = errors.Join(err, errors.Join(t.density()...)); err != nil {
		return Mass{}, err
	}
	return Mass{Name: t.Name, Mass: units.Mass(float64(v) * float64(t.Density)), X: t.X, Y: t.Y, Z: t.Z}, nil
}

// Range returns the liquid as a mass that varies between two levels, for
// [Corners] and every other question over fills.
//
// Errors: those of [Tank.Load] at either level; least above most.
func (t Tank) Range(least, most units.Ratio) (Varying, error) {
	lo, err := t.Load(least)
	if err != nil {
		return Varying{}, units.At("least", err)
	}
	hi, err := t.Load(most)
	if err != nil {
		return Varying{}, units.At("most", err)
	}
	if lo.Mass > hi.Mass {
		return Varying{}, &units.FieldError{Path: "least", Value: least.String(), Want: "at most " + most.String(), Err: units.ErrConflict}
	}
	return Varying{Name: t.Name, Least: lo.Mass, Most: hi.Mass, X: t.X, Y: t.Y, Z: t.Z}, nil
}

// Honest ranges of a tank: a thimble to a large road tanker, gas to mercury.
const (
	maxVolume  = 200   // m³
	maxDensity = 20000 // kg/m³
)

func (t Tank) usable() (units.Volume, []error) {
	var errs []error
	for _, c := range [...]struct {
		path string
		v    units.Volume
		need bool
	}{{"nominal", t.Nominal, true}, {"heel", t.Heel, false}, {"usable", t.Usable, false}} {
		switch {
		case c.v == 0 && c.need:
			errs = append(errs, &units.FieldError{Path: c.path, Want: "volume of the full tank", Err: units.ErrMissing})
		case !(c.v >= 0 && c.v <= maxVolume):
			errs = append(errs, &units.FieldError{Path: c.path, Value: c.v.String(), Want: "0 to 200 m³", Err: units.ErrRange})
		}
	}
	if errs != nil {
		return 0, errs
	}
	if t.Heel > t.Nominal {
		return 0, []error{&units.FieldError{Path: "heel", Value: t.Heel.String(), Want: "at most the nominal " + t.Nominal.String(), Err: units.ErrConflict}}
	}
	usable := t.Usable
	if usable == 0 {
		usable = t.Nominal - t.Heel
	}
	// A typed usable volume may miss Nominal − Heel in the last bit of a conversion.
	if t.Heel+usable > t.Nominal*(1+1e-12) {
		return 0, []error{&units.FieldError{Path: "usable", Value: t.Usable.String(), Want: "with the heel at most the nominal " + t.Nominal.String(), Err: units.ErrConflict}}
	}
	return usable, nil
}

func (t Tank) density() []error {
	switch {
	case t.Density == 0:
		return []error{&units.FieldError{Path: "density", Want: "density of the liquid", Err: units.ErrMissing}}
	case !(t.Density > 0 && t.Density <= maxDensity):
		return []error{&units.FieldError{Path: "density", Value: t.Density.String(), Want: "more than 0, at most 20000 kg/m³", Err: units.ErrRange}}
	}
	return nil
}
