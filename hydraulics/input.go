package hydraulics

import (
	"errors"
	"strconv"

	"example.com/washrig/units"
)

// Bounds of what is accepted as input. They are far outside the trade, and near
// enough that no product of them overflows.
const (
	minBore, maxBore           = 1e-6, 100  // m
	minLength, maxLength       = 1e-6, 1e7  // m
	minFlow, maxFlow           = 1e-18, 1e3 // m³/s
	minPressure, maxPressure   = 1e-6, 1e12 // Pa
	minDensity, maxDensity     = 1e-3, 1e5  // kg/m³
	minViscosity, maxViscosity = 1e-8, 1e5  // Pa·s
	minNumber, maxNumber       = 1e-9, 1e9
	maxK                       = 1e9
	maxRoughness               = 0.05 // of the bore
)

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

func (p problems) join() error { return errors.Join(p...) }

// within asks for a given value between lo and hi; zero means not given.
func within[Q quantity](p *problems, path string, v Q, lo, hi float64) {
	switch {
	case v == 0:
		p.add(path, "", "more than 0", units.ErrMissing)
	case !(float64(v) >= lo && float64(v) <= hi):
		p.add(path, v.String(), Q(lo).String()+" to "+Q(hi).String(), units.ErrRange)
	}
}

// atMost asks for a value from zero to hi.
func atMost[Q quantity](p *problems, path string, v Q, hi float64) {
	if !(v >= 0 && float64(v) <= hi) {
		p.add(path, v.String(), "0 to "+Q(hi).String(), units.ErrRange)
	}
}

// number asks for a dimensionless value between lo and hi.
func number(p *problems, path string, v, lo, hi float64) {
	if !(v >= lo && v <= hi) {
		p.add(path, format(v), format(lo)+" to "+format(hi), units.ErrRange)
	}
}

func format(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }
