package thermal

import (
	"math"

	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// firstCrossing returns the first zero of f above lo, where f is negative just
// above lo and positive at hi. It scans 256 parts, so two crossings closer than
// that count as none.
func firstCrossing(f func(float64) float64, lo, hi float64) (float64, error) {
	const parts = 256
	tiny := (hi - lo) * 1e-9
	a := lo + tiny
	if fa := f(a); fa >= 0 {
		return a, nil
	}
	for i := 1; i <= parts; i++ {
		b := lo + (hi-lo)*float64(i)/parts
		if f(b) >= 0 {
			return bracketed("first crossing", f, a, b, 0)
		}
		a = b
	}
	return 0, &units.SolverError{Solver: "first crossing", Iterations: parts, Residual: residual(f(hi)), Lo: lo, Hi: hi}
}

// bracketed is root.Bracketed with an error of package units.
func bracketed(what string, f func(float64) float64, lo, hi, xtol float64) (float64, error) {
	x, n, err := root.Bracketed(f, lo, hi, xtol)
	if err != nil {
		return 0, &units.SolverError{Solver: what, Iterations: n, Residual: residual(f(lo)), Lo: lo, Hi: hi}
	}
	return x, nil
}

func residual(x float64) float64 {
	if finite(x) {
		return x
	}
	return math.MaxFloat64
}
