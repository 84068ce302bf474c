package root

import "math"

// alone is the number of evaluations after which Newton's method must show a
// bracket: near a multiple zero it halves |f| many times without closing in.
const alone = 20

// Safeguarded returns a zero between lo and hi of a function that comes with
// its derivative.
//
// It starts with Newton's method at x0 (at the middle if x0 is not inside the
// bracket). As long as every step stays inside and at least halves |f|, for at
// most twenty steps, the ends are not evaluated. Otherwise the ends are brought
// in, must have opposite signs, and from then on a Newton step is taken only if
// it lands inside the bracket and is at most half as long as the one before;
// else the bracket is halved.
//
// The search stops when |f| ≤ ftol, when a Newton step is no longer than xtol
// (its end is returned), or when the bracket is no wider than xtol; the spacing
// of floating-point numbers is added to xtol, so zero asks for full precision.
//
// it is the number of evaluations. On an error x is NaN. A derivative that is
// too small, of the wrong sign or not finite costs time only; one that is far
// too large can end the search early, because its steps are too short.
//
// Source: W. H. Press et al., Numerical Recipes, 3rd ed., section 9.4
// ("Newton-Raphson method using derivative"), for the idea of the safeguard;
// the deferred evaluation of the ends is our own.
func Safeguarded(f func(x float64) (f, df float64), lo, hi, x0, xtol, ftol float64) (x float64, it int, err error) {
	const solver = "root.Safeguarded"
	if !finite(lo) || !finite(hi) || !(xtol >= 0) || !(ftol >= 0) {
		return math.NaN(), 0, &Error{solver, 0, math.NaN(), math.NaN(), lo, hi, ErrBracket}
	}
	if lo > hi {
		lo, hi = hi, lo
	}
	x = x0
	if !(x > lo && x < hi) {
		x = 0.5*lo + 0.5*hi
	}

	// Newton alone, while it does well.
	fx, df := f(x)
	it++
	for {
		if math.IsNaN(fx) {
			return math.NaN(), it, &Error{solver, it, x, fx, lo, hi, ErrNotANumber}
		}
		if math.Abs(fx) <= ftol {
			return x, it, nil
		}
		step := fx / df
		next := x - step
		if it >= alone || !(next >= lo && next <= hi) || !finite(df) || math.IsInf(fx, 0) {
			break
		}
		if math.Abs(step) <= xtol+spacing(x, next) {
			return next, it, nil
		}
		fn, dn := f(next)
		it++
		well := math.Abs(fn) <= 0.5*math.Abs(fx)
		if !well && !math.IsNaN(fn) && math.Abs(fn) >= math.Abs(fx) {
			break // the start of the step was the better point
		}
		x, fx, df = next, fn, dn
		if !well && !math.IsNaN(fn) {
			break
		}
	}

	// Bring in the ends.
	fl, _ := f(lo)
	it++
	if math.IsNaN(fl) {
		return math.NaN(), it, &Error{solver, it, lo, fl, lo, hi, ErrNotANumber}
	}
	if math.Abs(fl) <= ftol {
		return lo, it, nil
	}
	fh, _ := f(hi)
	it++
	if math.IsNaN(fh) {
		return math.NaN(), it, &Error{solver, it, hi, fh, lo, hi, ErrNotANumber}
	}
	if math.Abs(fh) <= ftol {
		return hi, it, nil
	}
	if (fl > 0) == (fh > 0) {
		return math.NaN(), it, &Error{solver, it, x, fx, lo, hi, ErrBracket}
	}
	first := math.Max(math.Abs(fl), math.Abs(fh))
	if !(x > lo && x < hi) { // Newton stopped on an end: nothing new there
		x = 0.5*lo + 0.5*hi
		fx, df = f(x)
		it++
	}

	length := hi - lo // of the step before
	for {
		if math.IsNaN(fx) {
			return math.NaN(), it, &Error{solver, it, x, fx, lo, hi, ErrNotANumber}
		}
		if math.Abs(fx) <= ftol {
			return x, it, nil
		}
		if (fx > 0) == (fl > 0) {
			lo, fl = x, fx
		} else {
			hi, fh = x, fx
		}
		if hi-lo <= xtol || math.Nextafter(lo, hi) >= hi {
			x, fx = lo, fl
			if math.Abs(fh) < math.Abs(fl) {
				x, fx = hi, fh
			}
			if math.Abs(fx) > first || math.IsInf(fx, 0) {
				return math.NaN(), it, &Error{solver, it, x, fx, lo, hi, ErrPole}
			}
			return x, it, nil
		}

		step := fx / df
		next := x - step
		newton := it < patience && finite(df) && !math.IsInf(fx, 0) &&
			next > lo && next < hi && math.Abs(step) <= 0.5*length
		switch {
		case newton:
			if math.Abs(step) <= xtol+spacing(x, next) {
				return next, it, nil
			}
		case it < patience:
			next = 0.5*lo + 0.5*hi
			step = 0.5*hi - 0.5*lo
		default:
			next = middle(lo, hi)
			step = hi - lo
		}
		if !(next > lo && next < hi) {
			next = middle(lo, hi)
		}
		length = math.Abs(step)
		x = next
		fx, df = f(x)
		it++
	}
}
