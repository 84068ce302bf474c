package root

import "math"

// Inverse returns a zero of a smooth f between lo and hi that lies near a and b, from
// the values of f there. It draws the parabola of x over f through the last three
// points, and stops when two signs show that what is left is below xtol: the step from
// the secant to the parabola, times the share by which the oldest of the three points
// lies off, and the product of the three distances over the square of x, which is the
// size of the error where the curve bends on the scale of x itself.
//
// ok is false where a point leaves the bracket, f is not finite, or twelve evaluations
// are not enough: [Bracketed] is then what a caller wants. slope is the last known
// difference of f over x, which tells a zero that is passed upwards from one that is
// passed downwards. it is the number of evaluations of f. Nothing is allocated.
//
// Source: inverse quadratic interpolation, as in R. P. Brent, Algorithms for
// Minimization Without Derivatives, Prentice-Hall, 1973, chapter 4.
func Inverse(f func(float64) float64, a, fa, b, fb, lo, hi, xtol float64) (zero, slope float64, it int, ok bool) {
	rate := (b - a) / (fb - fa) // of x over f
	c := b - fb*rate
	for it < 12 {
		if !(c > lo && c < hi) {
			return c, 1 / rate, it, false
		}
		fc := f(c)
		it++
		if fc == 0 {
			return c, 1 / rate, it, true
		}
		if c == b {
			return c, 1 / rate, it, math.Abs(fc) <= math.Abs(fb)
		}
		last := (c - b) / (fc - fb)
		bend := fc * fb * (last - rate) / (fc - fa)
		d := c - fc*last + bend
		if !(d > lo && d < hi) {
			return d, 1 / last, it, false
		}
		ea, eb, ec := math.Abs(a-d), math.Abs(b-d), math.Abs(c-d)
		x := math.Max(math.Abs(d), math.Abs(a))
		if ec <= 0x1p-51*x || 8*math.Abs(bend)*ea <= xtol*x && ea*eb*ec <= xtol*x*x {
			return d, 1 / last, it, true
		}
		a, fa, b, fb, c = b, fb, c, fc, d
		rate = last
	}
	return c, 1 / rate, it, false
}
