package tank

import (
	"errors"
	"math"
	"strconv"

	"example.com/washrig/units"
)

// Bounds of what is accepted as input. They are far outside the trade, and near
// enough that no product of them overflows.
const (
	minBore, maxBore           = 1e-4, 5   // m
	maxLength                  = 1e4       // m
	minSize, maxSize           = 1e-3, 100 // m, of a tank
	maxHeight                  = 1e3       // m, of anything above anything
	minFlow, maxFlow           = 1e-9, 10  // m³/s
	maxPressure                = 1e8       // Pa
	minDensity, maxDensity     = 1, 2e4    // kg/m³
	minViscosity, maxViscosity = 1e-8, 10  // Pa·s
	minK, maxK                 = 1e-3, 1e9
	maxRoughness               = 0.05 // of the bore
	maxTilt                    = 30 * units.Degree
)

const gravity = float64(units.StandardGravity)

// A quantity is any scalable kind of package units.
type quantity interface {
	~float64
	String() string
}

// problems collects what is wrong with an input, in field order.
type problems []error

func (p *problems) add(path, value, want string, err error) {
	*p = append(*p, &units.FieldError{Path: path, Value: value, Want: want, Err: err})
}

// take adds what a part reports, behind the path of the part.
func (p *problems) take(path string, err error) {
	if err != nil {
		*p = append(*p, units.At(path, err))
	}
}

func (p problems) join() error { return errors.Join(p...) }

// within asks for a given value between lo and hi; zero means not given.
func within[Q quantity](p *problems, path string, v Q, lo, hi float64) {
	switch {
	case v == 0:
		p.add(path, "", Q(lo).String()+" to "+Q(hi).String(), units.ErrMissing)
	case !(float64(v) >= lo && float64(v) <= hi):
		p.add(path, v.String(), Q(lo).String()+" to "+Q(hi).String(), units.ErrRange)
	}
}

// between asks for a value from lo to hi; zero is a value like any other.
func between[Q quantity](p *problems, path string, v Q, lo, hi float64) {
	if !(float64(v) >= lo && float64(v) <= hi) {
		p.add(path, v.String(), Q(lo).String()+" to "+Q(hi).String(), units.ErrRange)
	}
}

// number asks for a dimensionless value between lo and hi.
func number(p *problems, path string, v, lo, hi float64) {
	if !(v >= lo && v <= hi) {
		p.add(path, format(v), format(lo)+" to "+format(hi), units.ErrRange)
	}
}

func format(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

// element names the i-th element of a list for an error: by name where that is
// an identifier, else by position from 1.
func element(list, name string, i int) string {
	if identifier(name) {
		return list + "[" + name + "]"
	}
	return list + "[#" + strconv.Itoa(i+1) + "]"
}

func identifier(s string) bool {
	for i := 0; i < len(s); i++ {
		c := s[i]
		if !(c >= 'a' && c <= 'z' || i > 0 && (c >= '0' && c <= '9' || c == '-')) {
			return false
		}
	}
	return s != ""
}

func finite(v float64) bool { return math.Abs(v) <= math.MaxFloat64 }

func square(x float64) float64 { return x * x }
