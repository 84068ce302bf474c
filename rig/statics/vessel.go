package statics

import (
	"errors"
	"math"

	"example.com/washrig/units"
)

// A Shape is the inside form of a vessel. The zero Shape is no vessel.
type Shape int

const (
	Box                Shape = iota + 1 // Length × Width × Height
	UprightCylinder                     // Diameter × Height
	LengthwiseCylinder                  // lying, axis fore and aft: Diameter × Length
	CrosswiseCylinder                   // lying, axis across: Diameter × Width
)

// String returns "box", "upright cylinder", "lengthwise cylinder" or "crosswise cylinder".
func (s Shape) String() string {
	switch s {
	case Box:
		return "box"
	case UprightCylinder:
		return "upright cylinder"
	case LengthwiseCylinder:
		return "lengthwise cylinder"
	case CrosswiseCylinder:
		return "crosswise cylinder"
	}
	return "no shape"
}

// A Vessel is the inside of a tank. Only the dimensions its Shape uses are given;
// flat ends are assumed, so that a tank with domed ends is a little shorter here.
type Vessel struct {
	Shape    Shape
	Length   units.Length // inside, fore and aft
	Width    units.Length // inside, across
	Height   units.Length // inside
	Diameter units.Length // inside
}

// A Way is the direction in which a tilt sends the liquid.
type Way int

const (
	Sideways   Way = iota + 1 // rolling: side slope and cornering
	Lengthwise                // pitching: grade and braking
)

func (v Vessel) check() error {
	if v.Shape < Box || v.Shape > CrosswiseCylinder {
		return &units.FieldError{Path: "vessel.shape", Want: "box, upright cylinder, lengthwise cylinder or crosswise cylinder", Err: units.ErrMissing}
	}
	uses := [...][4]bool{ // length, width, height, diameter
		Box:                {true, true, true, false},
		UprightCylinder:    {false, false, true, true},
		LengthwiseCylinder: {true, false, false, true},
		CrosswiseCylinder:  {false, true, false, true},
	}[v.Shape]
	var errs []error
	for i, d := range [...]struct {
		path string
		l    units.Length
	}{{"vessel.length", v.Length}, {"vessel.width", v.Width}, {"vessel.height", v.Height}, {"vessel.diameter", v.Diameter}} {
		switch {
		case uses[i] && d.l == 0:
			errs = append(errs, &units.FieldError{Path: d.path, Want: "inside dimension of the " + v.Shape.String(), Err: units.ErrMissing})
		case uses[i] && !(d.l >= 0.01 && d.l <= 20):
			errs = append(errs, &units.FieldError{Path: d.path, Value: d.l.String(), Want: "0.01 m to 20 m", Err: units.ErrRange})
		case !uses[i] && d.l != 0:
			errs = append(errs, &units.FieldError{Path: d.path, Value: d.l.String(), Want: "nothing for the " + v.Shape.String(), Err: units.ErrConflict})
		}
	}
	return errors.Join(errs...)
}

// section returns the vessel as a tilt in direction w sees it.
func (v Vessel) section(w Way) section {
	l, b, h, r := float64(v.Length), float64(v.Width), float64(v.Height), float64(v.Diameter)/2
	switch v.Shape {
	case Box:
		if w == Sideways {
			return section{kind: slab, a: b / 2, h: h, b: l}
		}
		return section{kind: slab, a: l / 2, h: h, b: b}
	case UprightCylinder:
		return section{kind: round, a: r, h: h, r: r}
	case LengthwiseCylinder:
		if w == Sideways {
			return section{kind: disk, a: r, h: 2 * r, b: l, r: r}
		}
		return section{kind: barrel, a: l / 2, h: 2 * r, r: r}
	}
	if w == Sideways {
		return section{kind: barrel, a: b / 2, h: 2 * r, r: r}
	}
	return section{kind: disk, a: r, h: 2 * r, b: b, r: r}
}

// Capacity returns the volume of the full vessel.
//
// Errors: no shape; a dimension the shape needs missing or outside 0.01 m to 20 m;
// one it does not use.
func (v Vessel) Capacity() (units.Volume, error) {
	if err := v.check(); err != nil {
		return 0, err
	}
	c := v.section(Sideways)
	return units.Volume(c.capacity()), nil
}

// Depth returns the depth of a volume at rest on level ground, and the height of
// its centre above the inside floor.
//
// Box and upright cylinder: depth = V/A, centre at half of it. Lying cylinder of
// radius r: with the half-angle φ of the filled segment,
//
//	φ − sin φ·cos φ = V/(r²·L)
//	depth  = r·(1 − cos φ)
//	centre = r − ⅔ r³ sin³φ·L/V
//
// An empty vessel has both at 0. Range: 0 to the capacity.
//
// Errors: those of [Vessel.Capacity]; a volume outside the range.
func (v Vessel) Depth(volume units.Volume) (depth, center units.Length, err error) {
	c, err := v.filled(volume, Sideways)
	if err != nil {
		return 0, 0, err
	}
	d, z := c.level(float64(volume))
	return units.Length(d), units.Length(z), nil
}

// Tilted returns how far the centre of a liquid runs to the low side, and its
// height above the inside floor (both measured in the vessel), when the surface is
// inclined to the floor: on a slope, or in a bend or under the brakes with
// tan(tilt) = acceleration/gravity, once the liquid has come to rest.
//
// Exact for every fill. While the surface meets neither floor nor lid,
//
//	box, w along the tilt:      shift = w²/(12 h)·tan θ,  rise = w²/(24 h)·tan²θ
//	upright cylinder, radius r: shift = r²/(4 h)·tan θ,   rise = r²/(8 h)·tan²θ
//
// h being the depth at rest. A box whose liquid reaches floor or lid is a triangle,
// a trapezium or the rest of one; the liquid of a lying cylinder turns about its
// axis when it is tilted across it, centre at ⅔ r³ sin³φ·L/V from the axis. The
// upright cylinder beyond its floor or lid, and a lying one tilted along its axis,
// are integrated slice by slice to rounding.
//
// Range: tilt 0° to 85°; volume 0 to the capacity. An empty vessel gives 0, 0.
//
// Errors: those of [Vessel.Depth]; a tilt outside its range; no direction.
//
// Source: for small tilts the shift I/V·tan θ, I the second moment of the free
// surface, as in C. B. Barrass and D. R. Derrett, Ship Stability for Masters and
// Mates, 5th ed., chapter 20; the rest is geometry.
func (v Vessel) Tilted(volume units.Volume, tilt units.Angle, way Way) (shift, center units.Length, err error) {
	c, err := v.filled(volume, way)
	var errs []error
	if way != Sideways && way != Lengthwise {
		errs = append(errs, &units.FieldError{Path: "way", Want: "sideways or lengthwise", Err: units.ErrMissing})
	}
	if !(tilt >= 0 && tilt <= 85*units.Degree) {
		errs = append(errs, &units.FieldError{Path: "tilt", Value: tilt.String(), Want: "0° to 85°", Err: units.ErrRange})
	}
	if err = errors.Join(err, errors.Join(errs...)); err != nil {
		return 0, 0, err
	}
	s, z := c.tilted(float64(volume), math.Tan(float64(tilt)))
	return units.Length(s), units.Length(z), nil
}

func (v Vessel) filled(volume units.Volume, w Way) (section, error) {
	if err := v.check(); err != nil {
		return section{}, err
	}
	c := v.section(w)
	// A volume worked out from the same dimensions may miss the capacity in the last bits.
	if !(volume >= 0 && float64(volume) <= c.capacity()*(1+1e-12)) {
		return section{}, &units.FieldError{Path: "volume", Value: volume.String(), Want: "0 to " + units.Volume(c.capacity()).String(), Err: units.ErrRange}
	}
	return c, nil
}
