package root

import "math"

// Near returns a zero of f between lo and hi that lies near the two points a and b.
//
// It draws secants through the last two points, which for a nearly straight function
// costs a third of a search that has to close a bracket. It stops when a step is no
// longer than xtol, which leaves an error far below it. Where a secant leaves the
// bracket or does not get there within 12 steps, [Bracketed] does it from the start,
// with its conditions and errors.
//
// it is the number of evaluations of f. Nothing is allocated unless it fails.
//
// Source: the secant method, any text on numerical analysis.
func Near(f func(float64) float64, a, b, lo, hi, xtol float64) (x float64, it int, err error) {
	if lo > hi {
		lo, hi = hi, lo
	}
	if !(a >= lo && a <= hi && b >= lo && b <= hi && a != b && xtol > 0) {
		return Bracketed(f, lo, hi, xtol)
	}
	fa := f(a)
	if fa == 0 {
		return a, 1, nil
	}
	x, it, err = NearFrom(f, a, fa, b, f(b), lo, hi, xtol)
	return x, it + 2, err
}

// NearFrom is [Near] where the function is known at the two points.
func NearFrom(f func(float64) float64, a, fa, b, fb, lo, hi, xtol float64) (x float64, it int, err error) {
	for range 12 {
		if fb == 0 {
			return b, it, nil
		}
		if !finite(fa) || !finite(fb) {
			break
		}
		c := b - fb*(b-a)/(fb-fa)
		if !(c >= lo && c <= hi) {
			break
		}
		if math.Abs(c-b) <= xtol {
			return c, it, nil
		}
		a, fa, b = b, fb, c
		fb = f(b)
		it++
	}
	x, n, err := Bracketed(f, lo, hi, xtol)
	return x, it + n, err
}
