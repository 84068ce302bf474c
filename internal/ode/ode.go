package ode

import (
	"errors"
	"fmt"
	"math"

	"example.com/washrig/internal/root"
)

// A Func stores the derivative of y at t in dydt. It must not change y and
// must not keep either slice.
type Func func(t float64, y, dydt []float64)

// An Event ends the integration where G changes sign.
type Event struct {
	G func(t float64, y []float64) float64
	// Direction is +1 for a rise through zero only, -1 for a fall only, 0 for both.
	Direction int
}

// Options steer the integration. The zero value asks for the defaults.
type Options struct {
	Relative float64   // tolerance relative to |y|, 1e-9 if zero
	Absolute []float64 // tolerance of each component, 1e-9 each if nil
	Longest  float64   // longest step, no limit if zero
	Steps    int       // most steps tried, 100,000 if zero
}

// A Result says where the integration stopped.
type Result struct {
	T        float64 // end of the integration
	Event    int     // index of the event met, -1 if t1 was reached
	Steps    int     // steps accepted
	Rejected int     // steps tried and refused
}

// Reasons for a failed integration, for errors.Is.
var (
	// ErrInput: bounds, tolerances or state are not usable.
	ErrInput = errors.New("unusable input")
	// ErrNotANumber: the derivative is not finite however short the step.
	ErrNotANumber = errors.New("derivative is not finite")
	// ErrStep: the tolerance needs a step below the spacing of numbers at t.
	ErrStep = errors.New("step too short")
	// ErrSteps: the number of steps allowed was not enough.
	ErrSteps = errors.New("too many steps")
)

// An Error reports an integration that did not reach its end.
type Error struct {
	T        float64 // where it stood
	Step     float64 // last step tried
	Steps    int     // steps accepted
	Residual float64 // error estimate of the last step over the tolerance
	Err      error   // one of the reasons above
}

func (e *Error) Error() string {
	return fmt.Sprintf("ode: %v: at %g with step %g after %d steps, error %g of the tolerance",
		e.Err, e.T, e.Step, e.Steps, e.Residual)
}

// Unwrap returns the reason.
func (e *Error) Unwrap() error { return e.Err }

// Tableau of RK5(4)7M (Dormand and Prince 1980, Table 2).
const (
	c2, c3, c4, c5                = 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9
	a21                           = 1.0 / 5
	a31, a32                      = 3.0 / 40, 9.0 / 40
	a41, a42, a43                 = 44.0 / 45, -56.0 / 15, 32.0 / 9
	a51, a52, a53, a54            = 19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729
	a61, a62, a63, a64, a65       = 9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656
	b1, b3, b4, b5, b6            = 35.0 / 384, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84
	e1, e3, e4, e5, e6, e7        = b1 - 5179.0/57600, b3 - 7571.0/16695, b4 - 393.0/640, b5 + 92097.0/339200, b6 - 187.0/2100, -1.0 / 40
	shrink, grow, guard, exponent = 0.2, 5.0, 0.9, -0.2
)

// A Solver holds the workspace of an integration.
type Solver struct {
	n                      int
	k1, k2, k3, k4, k5, k6 []float64
	k7, stage, next, trial []float64
	g                      []float64
}

func (s *Solver) fit(n, events int) {
	if cap(s.k1) < n || s.k1 == nil {
		w := make([]float64, 10*n)
		cut := func() (p []float64) { p, w = w[:n:n], w[n:]; return p }
		s.k1, s.k2, s.k3, s.k4, s.k5, s.k6 = cut(), cut(), cut(), cut(), cut(), cut()
		s.k7, s.stage, s.next, s.trial = cut(), cut(), cut(), cut()
	}
	s.n = n
	for _, p := range [...]*[]float64{&s.k1, &s.k2, &s.k3, &s.k4, &s.k5, &s.k6, &s.k7, &s.stage, &s.next, &s.trial} {
		*p = (*p)[:n]
	}
	if cap(s.g) < events {
		s.g = make([]float64, events)
	}
	s.g = s.g[:events]
}

// step makes one step of length h from (t, y), whose derivative is k1, into to.
// It leaves the derivatives of the stages in k2 to k6.
func (s *Solver) step(f Func, t, h float64, y, to []float64) {
	w := s.stage
	for i := range w {
		w[i] = y[i] + h*(a21*s.k1[i])
	}
	f(t+c2*h, w, s.k2)
	for i := range w {
		w[i] = y[i] + h*(a31*s.k1[i]+a32*s.k2[i])
	}
	f(t+c3*h, w, s.k3)
	for i := range w {
		w[i] = y[i] + h*(a41*s.k1[i]+a42*s.k2[i]+a43*s.k3[i])
	}
	f(t+c4*h, w, s.k4)
	for i := range w {
		w[i] = y[i] + h*(a51*s.k1[i]+a52*s.k2[i]+a53*s.k3[i]+a54*s.k4[i])
	}
	f(t+c5*h, w, s.k5)
	for i := range w {
		w[i] = y[i] + h*(a61*s.k1[i]+a62*s.k2[i]+a63*s.k3[i]+a64*s.k4[i]+a65*s.k5[i])
	}
	f(t+h, w, s.k6)
	for i := range to {
		to[i] = y[i] + h*(b1*s.k1[i]+b3*s.k3[i]+b4*s.k4[i]+b5*s.k5[i]+b6*s.k6[i])
	}
}

// Integrate carries y from t0 to t1 ≥ t0 and leaves the state reached in y.
//
// The error of a step is the largest over the components of the estimate
// divided by Absolute + Relative·|y|, and kept at or below 1. An event is seen
// when its function has changed sign between the ends of an accepted step; two
// changes inside one step go unseen, so set Longest where that can happen. The
// time of an event is found by repeating the step with other lengths, so the
// state there is as exact as the integration itself. An event function that is
// zero at t0 counts from where it leaves zero. If several events fall into one
// step the earliest ends the integration.
//
// On an error y holds the state at Error.T. No state with a NaN or an infinity
// is ever accepted.
func (s *Solver) Integrate(f Func, t0, t1 float64, y []float64, o Options, events ...Event) (Result, error) {
	res := Result{T: t0, Event: -1}
	if o.Relative == 0 {
		o.Relative = 1e-9
	}
	if o.Steps == 0 {
		o.Steps = 100_000
	}
	ok := finite(t0) && finite(t1) && t1 >= t0 && o.Relative > 0 && o.Longest >= 0 &&
		len(y) > 0 && (o.Absolute == nil || len(o.Absolute) == len(y)) && allFinite(y)
	for _, a := range o.Absolute {
		ok = ok && a >= 0
	}
	if !ok {
		return res, &Error{T: t0, Err: ErrInput}
	}
	s.fit(len(y), len(events))
	f(t0, y, s.k1)
	if !allFinite(s.k1) {
		return res, &Error{T: t0, Err: ErrNotANumber}
	}
	for i, e := range events {
		s.g[i] = e.G(t0, y)
	}
	if t1 == t0 {
		return res, nil
	}

	t, h := t0, s.first(y, o, t1-t0)
	rejected := false
	for {
		if o.Longest > 0 {
			h = math.Min(h, o.Longest)
		}
		last := false
		if rest := t1 - t; h >= rest*(1-1e-12) {
			h, last = rest, true
		}
		if t+h <= t {
			return res, &Error{T: t, Step: h, Steps: res.Steps, Err: ErrStep}
		}
		if res.Steps+res.Rejected >= o.Steps {
			return res, &Error{T: t, Step: h, Steps: res.Steps, Err: ErrSteps}
		}
		s.step(f, t, h, y, s.next)
		tn := t + h
		if last {
			tn = t1
		}
		f(tn, s.next, s.k7)
		err := 0.0
		for i := range y {
			e := h * (e1*s.k1[i] + e3*s.k3[i] + e4*s.k4[i] + e5*s.k5[i] + e6*s.k6[i] + e7*s.k7[i])
			scale := o.Relative * max(math.Abs(y[i]), math.Abs(s.next[i]))
			if o.Absolute == nil {
				scale += 1e-9
			} else {
				scale += o.Absolute[i]
			}
			if q := math.Abs(e) / scale; !(q <= err) && e != 0 { // a NaN is kept
				err = q
			}
		}
		if !(err <= 1) || !allFinite(s.next) || !allFinite(s.k7) {
			res.Rejected++
			rejected = true
			if finite(err) && allFinite(s.next) && allFinite(s.k7) {
				h *= max(shrink, guard*math.Exp(exponent*math.Log(err)))
			} else {
				h *= shrink
				if t+h <= t {
					return res, &Error{T: t, Step: h, Steps: res.Steps, Residual: finiteOr(err, -1), Err: ErrNotANumber}
				}
			}
			continue
		}

		// Events inside this step.
		hit, at := -1, h
		for i, e := range events {
			now := e.G(tn, s.next)
			if crosses(s.g[i], now, e.Direction) {
				g0 := s.g[i]
				x, _, rerr := root.Bracketed(func(d float64) float64 {
					if d <= 0 {
						return g0
					}
					if d >= h {
						return now
					}
					s.step(f, t, d, y, s.trial)
					return e.G(t+d, s.trial)
				}, 0, h, 0)
				if rerr != nil {
					x = h
				}
				if hit < 0 || x < at {
					hit, at = i, x
				}
			} else if s.g[i] == 0 || now != 0 {
				s.g[i] = now
			}
		}
		if hit >= 0 {
			if at > 0 && at < h {
				s.step(f, t, at, y, s.trial)
				copy(y, s.trial)
			} else if at >= h {
				copy(y, s.next)
			}
			res.Steps++
			res.T, res.Event = t+at, hit
			return res, nil
		}

		res.Steps++
		t = tn
		copy(y, s.next)
		copy(s.k1, s.k7)
		res.T = t
		if last {
			return res, nil
		}
		factor := grow
		if err > 0 {
			factor = min(grow, max(shrink, guard*math.Exp(exponent*math.Log(err))))
		}
		if rejected {
			factor = math.Min(factor, 1)
		}
		rejected = false
		h *= factor
	}
}

// first chooses a first step whose change of y is about a hundredth of y
// (Hairer, Nørsett and Wanner 1993, section II.4, the first of its two steps).
func (s *Solver) first(y []float64, o Options, span float64) float64 {
	d0, d1 := 0.0, 0.0
	for i := range y {
		scale := o.Relative * math.Abs(y[i])
		if o.Absolute == nil {
			scale += 1e-9
		} else {
			scale += o.Absolute[i]
		}
		if scale > 0 {
			d0 = math.Max(d0, math.Abs(y[i])/scale)
			d1 = math.Max(d1, math.Abs(s.k1[i])/scale)
		}
	}
	h := 0.01 * d0 / d1
	if !(d0 > 1e-5 && d1 > 1e-5) || !finite(h) || h == 0 {
		h = 1e-6 * span
	}
	return math.Min(h, span)
}

func crosses(from, to float64, direction int) bool {
	switch {
	case from < 0 && to >= 0:
		return direction >= 0
	case from > 0 && to <= 0:
		return direction <= 0
	}
	return false
}

func finite(x float64) bool { return math.Abs(x) <= math.MaxFloat64 }

func allFinite(x []float64) bool {
	for _, v := range x {
		if !finite(v) {
			return false
		}
	}
	return true
}

func finiteOr(x, otherwise float64) float64 {
	if finite(x) {
		return x
	}
	return otherwise
}
