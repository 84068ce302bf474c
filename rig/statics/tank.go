package statics

import (
	"errors"

	"example.com/washrig/units"
)

// A Tank holds a liquid: water, chemical or fuel. Its shell is a [Mass] of its own.
type Tank struct {
	Name    string
	Nominal units.Volume   // what it holds brim-full; 0: the capacity of the Vessel
	Heel    units.Volume   // what stays when it is drawn dry; 0: nothing
	Usable  units.Volume   // what can be drawn from a full tank; 0: Nominal − Heel
	Density units.Density  // of the liquid, required
	X, Y, Z units.Position // centre of the liquid; X required

	// Vessel and Floor, if given, say where the liquid lies at each level, in
	// place of Z: it fills the same share of the form as of Nominal, which must
	// agree within a tenth.
	Vessel Vessel
	Floor  units.Position // the inside floor above level ground

	// Baffles is the share of the free shift of the liquid that baffles hold
	// back: 0 none, 1 all of it. It is stated by whoever knows the tank.
	Baffles units.Ratio
}

// Contents returns the volume in the tank at a level.
//
//	V = Heel + level·Usable
//
// level is the share of the usable volume that is still there: 0 drawn dry, 1
// full. What stays below the outlet is carried at every level.
//
// Errors: neither Nominal nor Vessel, or the two apart; Heel and Usable together more than Nominal; level outside
// 0 to 1.
func (t Tank) Contents(level units.Ratio) (units.Volume, error) {
	usable, errs := t.usable()
	errs = checkLevel(errs, "level", level)
	if err := errors.Join(errs...); err != nil {
		return 0, err
	}
	return t.Heel + units.Volume(level)*usable, nil
}

func checkLevel(errs []error, path string, level units.Ratio) []error {
	if !(level >= 0 && level <= 1) {
		errs = append(errs, &units.FieldError{Path: path, Value: level.String(), Want: "0 % to 100 %", Err: units.ErrRange})
	}
	return errs
}

// Load returns the mass of the liquid at a level, at the tank's centre.
//
//	m = ρ·(Heel + level·Usable)
//
// Its height follows the level in a tank with Vessel and Floor, else it is Z.
//
// Errors: those of [Tank.Contents]; no Density.
func (t Tank) Load(level units.Ratio) (Mass, error) {
	g, err := t.Gauge()
	if errs := checkLevel(nil, "level", level); err != nil || errs != nil {
		return Mass{}, errors.Join(err, errors.Join(errs...))
	}
	return g.at(level), nil
}

// A Gauged is a tank that was checked once, for many levels. Its value does not change.
type Gauged struct {
	tank            Tank
	nominal, usable units.Volume
	section         section // of a tank with Vessel
	full            float64 // what the vessel holds
}

// Gauge checks a tank.
//
// Errors: those of [Tank.Load] but for the level.
func (t Tank) Gauge() (Gauged, error) {
	usable, errs := t.usable()
	if errs != nil || !(t.Density > 0 && t.Density <= maxDensity) {
		return Gauged{}, errors.Join(errors.Join(errs...), errors.Join(t.density()...))
	}
	g := Gauged{tank: t, nominal: t.Nominal, usable: usable}
	if t.Vessel.Shape != 0 {
		g.section = t.Vessel.section(Sideways)
		g.full = g.section.capacity()
		if g.nominal == 0 {
			g.nominal = units.Volume(g.full)
		}
	}
	return g, nil
}

// Load is [Tank.Load] of the tank. It does not allocate.
//
// Errors: a level outside 0 to 1.
func (g *Gauged) Load(level units.Ratio) (Mass, error) {
	if !(level >= 0 && level <= 1) {
		return Mass{}, errors.Join(checkLevel(nil, "level", level)...)
	}
	return g.at(level), nil
}

func (g *Gauged) at(level units.Ratio) Mass {
	t := &g.tank
	v := t.Heel + units.Volume(level)*g.usable
	m := Mass{Name: t.Name, Mass: units.Mass(float64(v) * float64(t.Density)), X: t.X, Y: t.Y, Z: t.Z}
	if t.form() {
		_, z := g.section.level(g.full * float64(v/g.nominal))
		m.Z = t.Floor.Add(units.Length(z))
	}
	return m
}

// form reports whether the level decides the height of the liquid.
func (t Tank) form() bool { return t.Vessel.Shape != 0 && t.Floor.Given() }

// nominal returns the volume of the full tank. It must agree with the vessel.
func (t Tank) nominal() (units.Volume, error) {
	switch {
	case t.Vessel.Shape == 0 && t.Nominal == 0:
		return 0, &units.FieldError{Path: "nominal", Want: "volume of the full tank", Err: units.ErrMissing}
	case t.Vessel.Shape == 0:
		return t.Nominal, nil
	}
	v, err := t.Vessel.Capacity()
	if err != nil || t.Nominal == 0 {
		return v, err
	}
	if !(t.Nominal >= v*0.9 && t.Nominal <= v*1.1) {
		return 0, &units.FieldError{Path: "nominal", Value: t.Nominal.String(), Want: "within a tenth of the vessel's " + v.String(), Err: units.ErrConflict}
	}
	return t.Nominal, nil
}

// Range returns the liquid as a mass that varies between two levels, for
// [Corners] and every other question over fills.
//
// Errors: those of [Tank.Load], with the levels named least and most; least above
// most.
func (t Tank) Range(least, most units.Ratio) (Varying, error) {
	errs := checkLevel(checkLevel(nil, "least", least), "most", most)
	if errs == nil && least > most {
		errs = append(errs, &units.FieldError{Path: "least", Value: least.String(), Want: "at most " + most.String(), Err: units.ErrConflict})
	}
	g, err := t.Gauge()
	if err != nil || errs != nil {
		return Varying{}, errors.Join(err, errors.Join(errs...))
	}
	v := Varying{Name: t.Name, Least: g.at(least).Mass, Most: g.at(most).Mass, X: t.X, Y: t.Y, Z: t.Z}
	if t.form() {
		v.Z = units.Position{} // it moves with the level
	}
	return v, nil
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
	}{{"nominal", t.Nominal}, {"heel", t.Heel}, {"usable", t.Usable}} {
		if !(c.v >= 0 && c.v <= maxVolume) {
			errs = append(errs, &units.FieldError{Path: c.path, Value: c.v.String(), Want: "0 to 200 m³", Err: units.ErrRange})
		}
	}
	if !(t.Baffles >= 0 && t.Baffles <= 1) {
		errs = append(errs, &units.FieldError{Path: "baffles", Value: t.Baffles.String(), Want: "0 % to 100 %", Err: units.ErrRange})
	}
	if t.Floor.Given() {
		errs = checkPosition(errs, "floor", t.Floor)
	}
	nominal, err := t.nominal()
	if errs != nil || err != nil {
		return 0, append(errs, err)
	}
	if t.Heel > nominal {
		return 0, []error{&units.FieldError{Path: "heel", Value: t.Heel.String(), Want: "at most the nominal " + nominal.String(), Err: units.ErrConflict}}
	}
	usable := t.Usable
	if usable == 0 {
		usable = nominal - t.Heel
	}
	// A typed usable volume may miss Nominal − Heel in the last bit of a conversion.
	if t.Heel+usable > nominal*(1+1e-12) {
		return 0, []error{&units.FieldError{Path: "usable", Value: t.Usable.String(), Want: "with the heel at most the nominal " + nominal.String(), Err: units.ErrConflict}}
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
