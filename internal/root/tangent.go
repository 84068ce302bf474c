package root

import "math"

// A Tangent is a point of a smooth function with its slope and, from the second point
// on, its bend, the second derivative.
type Tangent struct{ X, F, Slope, Bend float64 }

// Zero moves t to a zero of f between lo and hi, by the parabola that value, slope and
// bend describe; the bend is what the slope changed by in the last step. It ends with a
// step no longer than close, a share of x: what is left is of the order of the cube of
// that, and of its square times the share by which the bend is wrong. For a close of
// 1e-5 that is some 1e-11, a step before Newton's method would say so.
//
// ok is false where a point leaves the bracket or twenty steps are not enough, and t is
// then somewhere: [Bracketed] is what a caller wants. it is the number of evaluations
// of f. Nothing is allocated.
//
// Source: Newton's method with the next term of Taylor's series, any text on numerical
// analysis.
func (t *Tangent) Zero(f func(x float64) (f, slope float64), lo, hi, close float64) (it int, ok bool) {
	for it < 20 {
		move := -t.F / t.Slope
		if root := t.Slope*t.Slope - 2*t.Bend*t.F; root > 0 {
			move = -2 * t.F / (t.Slope + math.Copysign(math.Sqrt(root), t.Slope))
		}
		x := t.X + move
		if !(x > lo && x < hi) {
			return it, false
		}
		if math.Abs(move) <= close*math.Abs(x) {
			t.X = x
			return it, true
		}
		was := t.Slope
		t.X = x
		t.F, t.Slope = f(x)
		t.Bend = (t.Slope - was) / move
		it++
	}
	return it, false
}
