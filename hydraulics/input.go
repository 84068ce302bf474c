package hydraulics

import (
	"example.com/washrig/internal/problem"
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

// within asks for a given value between lo and hi; zero means not given.
func within[Q problem.Quantity](p *problem.List, path string, v Q, lo, hi float64) {
	if v == 0 {
		p.Add(path, "", "more than 0", units.ErrMissing)
		return
	}
	problem.Between(p, path, v, lo, hi)
}

// atMost asks for a value from zero to hi.
func atMost[Q problem.Quantity](p *problem.List, path string, v Q, hi float64) {
	if !(v >= 0 && float64(v) <= hi) {
		p.Add(path, v.String(), "0 to "+Q(hi).String(), units.ErrRange)
	}
}
