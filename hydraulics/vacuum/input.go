package vacuum

import (
	"errors"
	"math"
	"strconv"

	"example.com/washrig/units"
)

// Bounds of what is accepted as input. They are far outside the trade, and near
// enough that no product of them overflows.
const (
	minAir, maxAir             = 20e3, 120e3 // Pa, outside pressure
	coldest, hottest           = 220.0, 340.0
	minBore, maxBore           = 1e-3, 1.0   // m
	minLength, maxLength       = 1e-3, 1e4   // m
	maxRise                    = 100.0       // m
	minAirFlow, maxAirFlow     = 1e-6, 100.0 // m³/s
	minLift, maxLift           = 1.0, 100e3  // Pa
	minFlow, maxFlow           = 1e-9, 1.0   // m³/s of liquid
	minHead, maxHead           = 1e-3, 1e3   // m
	maxPressure                = 1e8         // Pa
	minArea, maxArea           = 1e-8, 1.0   // m²
	minDensity, maxDensity     = 100.0, 1e4  // kg/m³ of liquid
	minViscosity, maxViscosity = 1e-5, 10.0  // Pa·s of liquid
	minTension, maxTension     = 1e-4, 1.0   // N/m
	minPower, maxPower         = 1.0, 1e6    // W
	minVolume, maxVolume       = 1e-6, 1e4   // m³
	minMass, maxMass           = 1e-9, 1e6   // kg
	maxK                       = 1e6
	maxRoughness               = 0.05 // of the bore
	maxCount                   = 100
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

// number asks for a dimensionless value from lo to hi.
func number(p *problems, path string, v, lo, hi float64) {
	if !(v >= lo && v <= hi) {
		p.add(path, format(v), format(lo)+" to "+format(hi), units.ErrRange)
	}
}

// whole asks for a count from lo to hi.
func whole(p *problems, path string, v, lo, hi int) {
	if v < lo || v > hi {
		p.add(path, strconv.Itoa(v), strconv.Itoa(lo)+" to "+strconv.Itoa(hi), units.ErrRange)
	}
}

func format(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

// at names the i-th element of a list, from 1.
func at(list string, i int) string { return list + "[#" + strconv.Itoa(i+1) + "]" }

func finite(v float64) bool { return math.Abs(v) <= math.MaxFloat64 }

func square(v float64) float64 { return v * v }

// circle is the area of a round bore.
func circle(d float64) float64 { return math.Pi / 4 * d * d }
