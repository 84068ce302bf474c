package statics

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/washrig/units"
)

// Accepted ranges. They are wide for any road trailer and narrow enough that a
// figure in the wrong unit (pounds taken for tonnes, inches for metres) and
// anything that is not a number are refused rather than summed.
const (
	maxMass     = 200_000 // kg, one item
	maxPosition = 100     // m, either side of the origin
)

// A Mass is one thing on the trailer, the bare trailer among them.
type Mass struct {
	Name string
	Mass units.Mass     // 0 is allowed: an empty tank
	X    units.Position // aft of the coupler; required
	Y    units.Position // left of the centreline; optional
	Z    units.Position // above level ground; optional
}

// point is a mass in SI base units. Positions not given are zero, with hasY and
// hasZ telling them apart.
type point struct {
	name       string
	m, x, y, z float64
	hasY, hasZ bool
}

func (a *point) compare(b *point) int {
	if c := cmp.Compare(a.name, b.name); c != 0 {
		return c
	}
	for _, c := range [...]int{
		cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y), cmp.Compare(a.z, b.z), cmp.Compare(a.m, b.m),
	} {
		if c != 0 {
			return c
		}
	}
	return 0
}

// points checks masses and writes them over ps in the order of names. Masses that
// share a name are ordered by position and mass, so that the order of listing never
// decides the order of a sum.
func points(ps []point, masses []Mass) ([]point, []error) {
	var errs []error
	ps = slices.Grow(ps[:0], len(masses))
	ordered := true
	for i := range masses {
		m := &masses[i]
		if !fitMass(m.Mass) || !fitPlace(m.X, m.Y, m.Z) {
			at := element("masses", i, m.Name)
			errs = checkMass(errs, at+".mass", m.Mass)
			errs = checkPlace(errs, at, m.X, m.Y, m.Z)
		}
		ps = append(ps, point{
			name: m.Name, m: float64(m.Mass),
			x: float64(m.X.Length()), y: float64(m.Y.Length()), z: float64(m.Z.Length()),
			hasY: m.Y.Given(), hasZ: m.Z.Given(),
		})
		ordered = ordered && (i == 0 || ps[i-1].compare(&ps[i]) <= 0)
	}
	if !ordered {
		slices.SortFunc(ps, func(a, b point) int { return a.compare(&b) })
	}
	return ps, errs
}

// fitMass and fitPlace say whether there is anything to report, so that the paths
// of errors are spelt only where one is.
func fitMass(m units.Mass) bool { return m >= 0 && m <= maxMass }

func fitPlace(x, y, z units.Position) bool {
	return x.Given() && fitLength(x.Length()) && fitLength(y.Length()) && fitLength(z.Length())
}

func fitLength(l units.Length) bool { return l >= -maxPosition && l <= maxPosition }

func checkMass(errs []error, path string, m units.Mass) []error {
	if !fitMass(m) {
		errs = append(errs, &units.FieldError{Path: path, Value: m.String(), Want: fmt.Sprintf("0 kg to %d kg", maxMass), Err: units.ErrRange})
	}
	return errs
}

func checkPlace(errs []error, at string, x, y, z units.Position) []error {
	if !x.Given() {
		errs = append(errs, &units.FieldError{Path: at + ".x", Want: "distance aft of the coupler", Err: units.ErrMissing})
	}
	for _, c := range [...]struct {
		path string
		p    units.Position
	}{{".x", x}, {".y", y}, {".z", z}} {
		if c.p.Given() {
			errs = checkPosition(errs, at+c.path, c.p)
		}
	}
	return errs
}

func checkPosition(errs []error, path string, p units.Position) []error {
	if l := p.Length(); !fitLength(l) {
		errs = append(errs, &units.FieldError{Path: path, Value: l.String(), Want: fmt.Sprintf("-%d m to %d m", maxPosition, maxPosition), Err: units.ErrRange})
	}
	return errs
}

// element names one element of a list: by its name if that is an identifier,
// else by its place from 1.
func element(list string, i int, name string) string {
	if identifier(name) {
		return list + "[" + name + "]"
	}
	return fmt.Sprintf("%s[#%d]", list, i+1)
}

func identifier(s string) bool {
	for i, r := range s {
		switch {
		case r >= 'a' && r <= 'z':
		case i > 0 && (r >= '0' && r <= '9' || r == '-'):
		default:
			return false
		}
	}
	return s != ""
}
