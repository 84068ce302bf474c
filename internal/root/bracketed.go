package root

import "math"

// patience is the number of evaluations after which a search stops trusting
// halves of the interval and halves the set of floating-point numbers in it,
// which ends within 64 more evaluations whatever the function does.
const patience = 100

// Bracketed returns a zero of f between lo and hi.
//
// It keeps two points with function values of opposite sign. The next point
// comes from inverse quadratic interpolation through the last three when
// Chandrupatla's test says that the interpolation is monotone there, else from
// the middle; a bracket that has not halved in three steps is halved. It stops
// when the bracket is no wider than xtol, or than the spacing of floating-point
// numbers where that is wider, and returns the end with the smaller |f|. An
// exact zero ends the search at once. xtol = 0 asks for full precision.
//
// it is the number of evaluations of f. On an error x is NaN. If f jumps over
// zero the jump is the answer; if it grows without limit there (a pole) the
// error is [ErrPole].
//
// Source: T. R. Chandrupatla, "A new hybrid quadratic/bisection algorithm for
// finding the zero of a nonlinear function without using derivatives",
// Advances in Engineering Software 28(3), 1997, pp. 145–149.
func Bracketed(f func(float64) float64, lo, hi, xtol float64) (x float64, it int, err error) {
	const solver = "root.Bracketed"
	if !finite(lo) || !finite(hi) || !(xtol >= 0) {
		return math.NaN(), 0, &Error{solver, 0, math.NaN(), math.NaN(), lo, hi, ErrBracket}
	}
	if lo > hi {
		lo, hi = hi, lo
	}

	a, fa := lo, f(lo)
	it++
	if fa == 0 {
		return a, it, nil
	}
	if math.IsNaN(fa) {
		return math.NaN(), it, &Error{solver, it, a, fa, lo, hi, ErrNotANumber}
	}
	b, fb := hi, f(hi)
	it++
	if fb == 0 {
		return b, it, nil
	}
	if math.IsNaN(fb) {
		return math.NaN(), it, &Error{solver, it, b, fb, lo, hi, ErrNotANumber}
	}
	if (fa > 0) == (fb > 0) {
		return math.NaN(), it, &Error{solver, it, b, fb, lo, hi, ErrBracket}
	}

	first := math.Max(math.Abs(fa), math.Abs(fb))
	t := 0.5             // next point, as the share of the way from a to b
	c, fc := b, fb       // the point before, outside the bracket
	width := math.Inf(1) // bracket three steps ago
	for steps := 0; ; steps++ {
		l, h := math.Min(a, b), math.Max(a, b)
		if h-l <= xtol || math.Nextafter(l, h) >= h {
			x, fx := a, fa
			if math.Abs(fb) < math.Abs(fa) {
				x, fx = b, fb
			}
			if math.Abs(fx) > first || math.IsInf(fx, 0) {
				return math.NaN(), it, &Error{solver, it, x, fx, l, h, ErrPole}
			}
			return x, it, nil
		}

		var m float64
		switch {
		case it >= patience:
			m = middle(l, h)
		case steps%3 == 2 && h-l > 0.5*width:
			m = l + 0.5*(h-l)
			if math.IsInf(h-l, 0) {
				m = 0.5*l + 0.5*h
			}
		default:
			m = a + t*(b-a)
		}
		if steps%3 == 2 {
			width = h - l
		}
		// Keep a little way off both ends, so that the last step closes the
		// bracket from the far side.
		if it < patience {
			gap := 0.5*xtol + 2*spacing(l, h)
			if gap > 0.5*(h-l) {
				gap = 0.5 * (h - l)
			}
			m = math.Min(math.Max(m, l+gap), h-gap)
		}
		if !(m > l && m < h) {
			m = middle(l, h)
		}

		fm := f(m)
		it++
		if fm == 0 {
			return m, it, nil
		}
		if math.IsNaN(fm) {
			return math.NaN(), it, &Error{solver, it, m, fm, l, h, ErrNotANumber}
		}
		if (fm > 0) == (fa > 0) {
			c, fc = a, fa
		} else {
			c, fc = b, fb
			b, fb = a, fa
		}
		a, fa = m, fm // a is the newest point, b the other end

		t = 0.5
		xi := (a - b) / (c - b)
		phi := (fa - fb) / (fc - fb)
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			q := fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
			if q > 0 && q < 1 {
				t = q
			}
		}
	}
}

func finite(x float64) bool { return math.Abs(x) <= math.MaxFloat64 }

// spacing is about the distance of neighbouring floating-point numbers at the
// larger end of [l, h].
func spacing(l, h float64) float64 {
	return 0x1p-53 * math.Max(math.Abs(l), math.Abs(h))
}

// middle returns the number that has as many floating-point numbers above it
// in [l, h] as below.
func middle(l, h float64) float64 {
	i, j := rank(l), rank(h)
	return unrank(i + int64(uint64(j-i)/2))
}

// rank numbers the finite floating-point numbers in order.
func rank(x float64) int64 {
	i := int64(math.Float64bits(x))
	if i < 0 {
		return math.MinInt64 - i
	}
	return i
}

func unrank(i int64) float64 {
	if i < 0 {
		i = math.MinInt64 - i
	}
	return math.Float64frombits(uint64(i))
}
