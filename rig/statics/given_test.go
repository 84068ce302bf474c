package statics_test

import (
	"errors"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func feet(x float64) units.Position   { return units.PositionAt(units.Length(x) * units.Foot) }
func inches(x float64) units.Position { return units.PositionAt(units.Length(x) * units.Inch) }
func metres(x float64) units.Position { return units.PositionAt(units.Length(x)) }
func pounds(m float64) units.Mass     { return units.Mass(m) * units.Pound }

func lb(name string, m, x float64) statics.Mass {
	return statics.Mass{Name: name, Mass: pounds(m), X: feet(x)}
}

// fields lists the paths of a joined error and checks the sentinel of each.
func fields(t *testing.T, err error, sentinel error) (paths []string) {
	t.Helper()
	var walk func(error)
	walk = func(err error) {
		if fe, ok := err.(*units.FieldError); ok {
			if !errors.Is(fe, sentinel) {
				t.Errorf("%v: not %v", fe, sentinel)
			}
			paths = append(paths, fe.Path)
			return
		}
		if many, ok := err.(interface{ Unwrap() []error }); ok {
			for _, e := range many.Unwrap() {
				walk(e)
			}
		} else if e := errors.Unwrap(err); e != nil {
			walk(e)
		} else if err != nil {
			t.Errorf("%v: not a field error", err)
		}
	}
	walk(err)
	return paths
}

// paths lists the paths of a joined error, whatever its sentinels.
func paths(err error) (out []string) {
	switch e := err.(type) {
	case *units.FieldError:
		return []string{e.Path}
	case interface{ Unwrap() []error }:
		for _, one := range e.Unwrap() {
			out = append(out, paths(one)...)
		}
	}
	return out
}

// randomTrailer draws a trailer, some fixed masses and some varying ones, all
// with three coordinates.
func randomTrailer(g *property.G, most int) (statics.Trailer, []statics.Mass, []statics.Varying) {
	t := statics.Trailer{
		Coupler: metres(g.Float(-2, 2)),
		Axles:   g.Int(1, 3),
		Tyres:   g.Int(0, 2),
		Spacing: units.Length(g.Float(0.7, 1.2)),
		Track:   units.Length(g.Float(1.4, 2.2)),
	}
	t.AxleGroup = metres(float64(t.Coupler.Length()) + g.Float(2, 6))
	names := [...]string{"a", "b", "c", "d", "e", "f", "g", "h"}
	fixed := make([]statics.Mass, g.Int(1, 5))
	for i := range fixed {
		fixed[i] = statics.Mass{
			Name: names[g.Pick(len(names))], Mass: units.Mass(g.Float(1, 2000)),
			X: metres(g.Float(-2, 8)), Y: metres(g.Float(-1, 1)), Z: metres(g.Float(0.2, 2)),
		}
	}
	vary := make([]statics.Varying, g.Int(0, most))
	for i := range vary {
		a, b := g.Float(0, 1500), g.Float(0, 1500)
		vary[i] = statics.Varying{
			Name: names[g.Pick(len(names))], Least: units.Mass(min(a, b)), Most: units.Mass(max(a, b)),
			X: metres(g.Float(-2, 8)), Y: metres(g.Float(-1, 1)), Z: metres(g.Float(0.2, 2)),
		}
	}
	return t, fixed, vary
}

// atCorner lists every mass with the varying ones at a corner.
func atCorner(fixed []statics.Mass, vary []statics.Varying, c statics.Corner) []statics.Mass {
	all := append([]statics.Mass(nil), fixed...)
	for i, v := range vary {
		m := v.Least
		if c.Most(i) {
			m = v.Most
		}
		all = append(all, statics.Mass{Name: v.Name, Mass: m, X: v.X, Y: v.Y, Z: v.Z})
	}
	return all
}
