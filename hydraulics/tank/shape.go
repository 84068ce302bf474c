package tank

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// A Form is the inside form of a tank. The zero Form is none.
type Form uint8

const (
	Upright         Form = iota + 1 // any constant cross-section: Area × Height
	Box                             // Length × Width × Height
	UprightCylinder                 // Diameter × Height
	LyingCylinder                   // axis level: Diameter × Length between the ends, and the Ends
)

var formNames = [...]string{"no form", "upright", "box", "upright cylinder", "lying cylinder"}

// String returns the form in words.
func (f Form) String() string {
	if int(f) < len(formNames) {
		return formNames[f]
	}
	return "unknown form"
}

// An End is the form of both ends of a lying cylinder.
type End uint8

const (
	Flat        End = iota
	Dished          // part of a sphere, Dish deep; a hemisphere where that is the radius
	Ellipsoidal     // half an ellipsoid, Dish deep; a quarter of the diameter is the usual 2:1
)

var endNames = [...]string{"flat", "dished", "ellipsoidal"}

// String returns the form of the ends in words.
func (e End) String() string {
	if int(e) < len(endNames) {
		return endNames[e]
	}
	return "unknown end"
}

// A Shape is the inside of a tank. Only the dimensions that its Form uses are
// given.
type Shape struct {
	Form     Form
	Area     units.Area   // of the cross-section
	Length   units.Length // of a box; of a lying cylinder between the joints with its ends
	Width    units.Length
	Height   units.Length
	Diameter units.Length
	Ends     End
	Dish     units.Length // how far each end stands out
}

// UprightOf is the upright shape that holds a volume below a lid: what is left
// to say of a tank whose sheet gives no more.
func UprightOf(nominal units.Volume, height units.Length) Shape {
	if !(height > 0) {
		return Shape{Form: Upright}
	}
	return Shape{Form: Upright, Area: units.Area(float64(nominal) / float64(height)), Height: height}
}

// Validate reports what is missing, out of range or of no use to the form, in
// field order.
func (s Shape) Validate() error {
	var p problem.List
	if s.Form < Upright || s.Form > LyingCylinder {
		p.Add("form", "", "upright, box, upright cylinder or lying cylinder", units.ErrMissing)
		return p.Join()
	}
	use := func(path string, used bool, v units.Length) {
		switch {
		case used:
			problem.Within(&p, path, v, minSize, maxSize)
		case v != 0:
			p.Add(path, v.String(), "nothing for the form "+s.Form.String(), units.ErrConflict)
		}
	}
	if s.Form == Upright {
		problem.Within(&p, "area", s.Area, minSize*minSize, maxSize*maxSize)
	} else if s.Area != 0 {
		p.Add("area", s.Area.String(), "nothing for the form "+s.Form.String(), units.ErrConflict)
	}
	lying := s.Form == LyingCylinder
	use("length", s.Form == Box || lying, s.Length)
	use("width", s.Form == Box, s.Width)
	use("height", !lying, s.Height)
	use("diameter", s.Form == UprightCylinder || lying, s.Diameter)
	if s.Ends > Ellipsoidal || (s.Ends != Flat && !lying) {
		p.Add("ends", s.Ends.String(), "flat, or on a lying cylinder dished or ellipsoidal", units.ErrConflict)
	}
	use("dish", lying && s.Ends != Flat, s.Dish)
	if lying && s.Ends == Dished && s.Dish > s.Diameter/2 {
		p.Add("dish", s.Dish.String(), "at most the radius of the cylinder, "+(s.Diameter/2).String(), units.ErrConflict)
	}
	return p.Join()
}

// Top returns the inside height, floor to lid.
func (s Shape) Top() (units.Length, error) {
	if err := s.Validate(); err != nil {
		return 0, err
	}
	return units.Length(s.form().h), nil
}

// Capacity returns the volume to the lid.
func (s Shape) Capacity() (units.Volume, error) {
	if err := s.Validate(); err != nil {
		return 0, err
	}
	f := s.form()
	return units.Volume(f.volume(f.h)), nil
}

// Volume returns what the tank holds when the water stands at a level above its
// floor, on level ground.
//
//	upright, box, upright cylinder   V = A h
//	lying cylinder, flat ends        V = L r² (φ − sin φ cos φ),  cos φ = 1 − h/r
//	ellipsoidal ends, both           + π b h² (1 − h/(3 r))
//	dished ends, both                + 2 ∫ segment of the sphere, over the height
//
// with r the radius and b the depth of an end. The sphere of a dished end has the
// radius (r² + b²)/(2 b).
//
// Range: levels from floor to lid; outside a [*units.FieldError].
//
// Source: geometry; printed examples in D. Jones, "Calculating Tank Volume".
func (s Shape) Volume(level units.Length) (units.Volume, error) {
	f, err := s.at(level)
	if err != nil {
		return 0, err
	}
	return units.Volume(f.volume(float64(level))), nil
}

// Surface returns the area of the free surface at a level, the rate at which the
// volume grows with the level. Range and errors as Volume.
func (s Shape) Surface(level units.Length) (units.Area, error) {
	f, err := s.at(level)
	if err != nil {
		return 0, err
	}
	return units.Area(f.surface(float64(level))), nil
}

// Level returns the level at which the tank holds a volume: the inverse of
// Volume, to the last bits. Range: nothing to the capacity.
func (s Shape) Level(volume units.Volume) (units.Length, error) {
	if err := s.Validate(); err != nil {
		return 0, err
	}
	f := s.form()
	full := f.volume(f.h)
	// A volume worked out from the same dimensions may miss the capacity by rounding.
	if !(volume >= 0 && float64(volume) <= full*(1+1e-12)) {
		return 0, &units.FieldError{Path: "volume", Value: volume.String(), Want: "0 to the capacity, " + units.Volume(full).String(), Err: units.ErrRange}
	}
	return units.Length(f.level(float64(volume))), nil
}

func (s Shape) at(level units.Length) (form, error) {
	if err := s.Validate(); err != nil {
		return form{}, err
	}
	f := s.form()
	if !(level >= 0 && float64(level) <= f.h*(1+1e-12)) {
		return f, &units.FieldError{Path: "level", Value: level.String(), Want: "0 to the lid, " + units.Length(f.h).String(), Err: units.ErrRange}
	}
	return f, nil
}

// A form is a shape as numbers, m.
type form struct {
	area float64 // of an upright one, else 0
	h    float64 // floor to lid
	r, l float64 // of a lying cylinder
	ends End
	dish float64
	full float64 // capacity
}

func (s Shape) form() form {
	var f form
	switch s.Form {
	case Upright:
		f = form{area: float64(s.Area), h: float64(s.Height)}
	case Box:
		f = form{area: float64(s.Length) * float64(s.Width), h: float64(s.Height)}
	case UprightCylinder:
		f = form{area: math.Pi / 4 * square(float64(s.Diameter)), h: float64(s.Height)}
	default:
		f = form{h: float64(s.Diameter), r: float64(s.Diameter) / 2, l: float64(s.Length), ends: s.Ends, dish: float64(s.Dish)}
	}
	f.full = f.volume(f.h)
	return f
}

// half returns the half-angle of the segment below h, exact near both ends.
func (f *form) half(h float64) float64 {
	return 2 * math.Asin(math.Min(1, math.Sqrt(math.Max(h, 0)/(2*f.r))))
}

func (f *form) volume(h float64) float64 {
	if h <= 0 {
		return 0
	}
	h = math.Min(h, f.h)
	if f.area > 0 {
		return f.area * h
	}
	phi := f.half(h)
	v := f.l * f.r * f.r * segment(phi)
	switch f.ends {
	case Ellipsoidal:
		v += math.Pi * f.dish * h * h * (1 - h/(3*f.r))
	case Dished:
		v += 2 * f.cap(phi)
	}
	return v
}

// surface returns dV/dh.
func (f *form) surface(h float64) float64 {
	if f.area > 0 {
		return f.area
	}
	h = math.Min(math.Max(h, 0), f.h)
	w := math.Sqrt(h * (2*f.r - h)) // half the width of the surface
	a := 2 * w * f.l
	switch f.ends {
	case Ellipsoidal:
		a += math.Pi * f.dish * h * (2 - h/f.r)
	case Dished:
		a += 2 * f.slice(w)
	}
	return a
}

func (f *form) level(v float64) float64 {
	switch {
	case v <= 0:
		return 0
	case v >= f.full:
		return f.h
	case f.area > 0:
		return v / f.area
	}
	h, _, err := root.Safeguarded(func(h float64) (float64, float64) { return f.volume(h) - v, f.surface(h) },
		0, f.h, f.h*v/f.full, 0, 0)
	if err != nil { // cannot be: the volume rises from 0 to full between the ends
		return f.h * v / f.full
	}
	return h
}

// segment returns φ − sin φ cos φ, which a small φ would cancel.
func segment(phi float64) float64 {
	if phi < 0.05 {
		q := phi * phi
		return phi * q * (2./3 - q*(2./15-q*(4./315-q*(2./2835))))
	}
	return phi - math.Sin(phi)*math.Cos(phi)
}

// slice returns the area that the level surface of half-width w cuts out of one
// dished end: a segment of a circle of radius √(d² + w²) cut off at distance d.
func (f *form) slice(w float64) float64 {
	d := (f.r*f.r+f.dish*f.dish)/(2*f.dish) - f.dish
	if t := w / d; t < 0.1 { // d² ((1 + t²) arctan t − t), which a flat end would cancel
		q := t * t
		return d * w * q * (2./3 - q*(2./15-q*(2./35-q*(2./63-q*(2./99-q*(2./143-q*(2./195)))))))
	}
	return (d*d+w*w)*math.Atan2(w, d) - d*w
}

// cap integrates slice over the height, as r sin θ dθ to the half-angle phi: the
// integrand is smooth there, and eight Gauss–Legendre nodes in each of three parts
// leave less than 1e-12 of it.
func (f *form) cap(phi float64) float64 {
	const parts = 3
	sum, step := 0.0, phi/parts
	for k := range parts {
		sum += gauss(func(t float64) float64 {
			w := f.r * math.Sin(t)
			return f.slice(w) * w
		}, float64(k)*step, float64(k+1)*step)
	}
	return sum
}
