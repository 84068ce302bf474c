package ode

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
)

// The Arenstorf orbit of the restricted three-body problem closes after one
// period. Source: Hairer, Nørsett and Wanner, Solving Ordinary Differential
// Equations I, 2nd edition, 1993, section II.0, equations 0.1 and 0.2, where
// the start and the period are printed to sixteen digits.
func TestIntegrate_ArenstorfOrbit(t *testing.T) {
	const mu = 0.012277471
	const mu1 = 1 - mu
	f := func(_ float64, y, d []float64) {
		d1 := math.Pow((y[0]+mu)*(y[0]+mu)+y[1]*y[1], 1.5)
		d2 := math.Pow((y[0]-mu1)*(y[0]-mu1)+y[1]*y[1], 1.5)
		d[0], d[1] = y[2], y[3]
		d[2] = y[0] + 2*y[3] - mu1*(y[0]+mu)/d1 - mu*(y[0]-mu1)/d2
		d[3] = y[1] - 2*y[2] - mu1*y[1]/d1 - mu*y[1]/d2
	}
	start := []float64{0.994, 0, 0, -2.00158510637908252240537862224}
	y := append([]float64(nil), start...)
	var s Solver
	r, err := s.Integrate(f, 0, 17.0652165601579625588917206249, y, Options{Relative: 1e-13, Absolute: []float64{1e-13, 1e-13, 1e-13, 1e-13}})
	if err != nil {
		t.Fatal(err)
	}
	// The orbit passes within 0.006 of the smaller body, where errors grow
	// by about 1e6 over the period: 1e-13 becomes 1e-7, with a margin of ten.
	for i := range y[:2] {
		if math.Abs(y[i]-start[i]) > 1e-6 {
			t.Errorf("y[%d] = %.12g after one period of %d steps, started at %.12g", i, y[i], r.Steps, start[i])
		}
	}
}

// y' = k y has the exact solution e^(kt), whatever the tolerance asked for.
func TestIntegrate_exponential(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		k, span := g.Float(-3, 3), g.Float(0.01, 5)
		tol := g.LogFloat(1e-11, 1e-5)
		y := []float64{1}
		var s Solver
		r, err := s.Integrate(func(_ float64, y, d []float64) { d[0] = k * y[0] }, 0, span, y,
			Options{Relative: tol, Absolute: []float64{0}})
		if err != nil {
			return err
		}
		// Local errors of at most tol each add up over the steps, amplified
		// by no more than the solution itself.
		want := math.Exp(k * span)
		if e := math.Abs(y[0]-want) / want; e > float64(r.Steps+1)*tol {
			return fmt.Errorf("relative error %g after %d steps", e, r.Steps)
		}
		if r.T != span || r.Event != -1 {
			return fmt.Errorf("ended at %g by event %d", r.T, r.Event)
		}
		return nil
	})
}

// A stone thrown up at v from h lands after (v + √(v² + 2gh))/g.
func TestIntegrate_eventTime(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		v, h, acc := g.Float(0, 30), g.Float(0.1, 50), g.Float(1, 20)
		y := []float64{h, v}
		var s Solver
		land := Event{G: func(_ float64, y []float64) float64 { return y[0] }, Direction: -1}
		apex := Event{G: func(_ float64, y []float64) float64 { return y[1] }, Direction: +1} // never: v only falls
		r, err := s.Integrate(func(_ float64, y, d []float64) { d[0], d[1] = y[1], -acc }, 0, 1000, y, Options{}, apex, land)
		if err != nil {
			return err
		}
		want := (v + math.Sqrt(v*v+2*acc*h)) / acc
		if r.Event != 1 || math.Abs(r.T-want) > 1e-9*(1+want) {
			return fmt.Errorf("event %d at %.12g, want 1 at %.12g", r.Event, r.T, want)
		}
		if math.Abs(y[0]) > 1e-7 {
			return fmt.Errorf("landed at height %g", y[0])
		}
		return nil
	})
}

// Of two events in one step the earlier ends the integration.
func TestIntegrate_firstEventWins(t *testing.T) {
	at := func(when float64) Event {
		return Event{G: func(t float64, _ []float64) float64 { return t - when }}
	}
	y := []float64{0}
	var s Solver
	r, err := s.Integrate(func(_ float64, _, d []float64) { d[0] = 1 }, 0, 10, y, Options{}, at(7), at(3), at(5))
	if err != nil || r.Event != 1 || math.Abs(r.T-3) > 1e-14 || math.Abs(y[0]-3) > 1e-12 {
		t.Errorf("event %d at %g, y %g, error %v; want event 1 at 3", r.Event, r.T, y[0], err)
	}
	// Starting on a zero is not an event; leaving and coming back is.
	y[0] = 0
	r, err = s.Integrate(func(t float64, _, d []float64) { d[0] = math.Cos(t) }, 0, 10, y, Options{Longest: 0.5},
		Event{G: func(_ float64, y []float64) float64 { return y[0] }})
	if err != nil || r.Event != 0 || math.Abs(r.T-math.Pi) > 1e-7 {
		t.Errorf("event %d at %g, error %v; want the sine's zero at π", r.Event, r.T, err)
	}
}

func TestIntegrate_errors(t *testing.T) {
	one := func(_ float64, _, d []float64) { d[0] = 1 }
	nan := math.NaN()
	for _, c := range []struct {
		name   string
		f      Func
		t0, t1 float64
		y      []float64
		o      Options
		want   error
	}{
		{"backwards", one, 1, 0, []float64{0}, Options{}, ErrInput},
		{"endless", one, 0, math.Inf(1), []float64{0}, Options{}, ErrInput},
		{"no state", one, 0, 1, nil, Options{}, ErrInput},
		{"state is NaN", one, 0, 1, []float64{nan}, Options{}, ErrInput},
		{"tolerances do not fit", one, 0, 1, []float64{0}, Options{Absolute: []float64{1, 1}}, ErrInput},
		{"negative tolerance", one, 0, 1, []float64{0}, Options{Relative: -1}, ErrInput},
		{"derivative is NaN", func(_ float64, _, d []float64) { d[0] = nan }, 0, 1, []float64{0}, Options{}, ErrNotANumber},
		{"NaN later", func(t float64, _, d []float64) { d[0] = math.Sqrt(0.5 - t) }, 0, 1, []float64{0}, Options{}, ErrNotANumber},
		{"runs away", func(_ float64, y, d []float64) { d[0] = y[0] * y[0] }, 0, 2, []float64{1}, Options{}, nil},
		{"steps", one, 0, 1, []float64{0}, Options{Steps: 3, Longest: 0.1}, ErrSteps},
	} {
		var s Solver
		_, err := s.Integrate(c.f, c.t0, c.t1, c.y, c.o)
		var e *Error
		if !errors.As(err, &e) || c.want != nil && !errors.Is(err, c.want) {
			t.Errorf("%s: error %v, want %v", c.name, err, c.want)
		}
		if c.want != ErrInput && !allFinite(c.y) {
			t.Errorf("%s: state %v left behind", c.name, c.y)
		}
	}
}

func TestIntegrate_noAllocation(t *testing.T) {
	var s Solver
	y := []float64{1, 0}
	f := func(_ float64, y, d []float64) { d[0], d[1] = y[1], -y[0] }
	run := func() {
		y[0], y[1] = 1, 0
		if _, err := s.Integrate(f, 0, 5, y, Options{}); err != nil {
			t.Fatal(err)
		}
	}
	run()
	if n := testing.AllocsPerRun(20, run); n != 0 {
		t.Errorf("%v allocations with a kept solver", n)
	}
}

func FuzzIntegrate(f *testing.F) {
	f.Add(0.0, 1.0, 1.0, -1.0, 1e-6)
	f.Add(0.0, 10.0, 1e300, 1e10, 1e-9)
	f.Fuzz(func(t *testing.T, t0, t1, y0, k, tol float64) {
		y := []float64{y0}
		var s Solver
		r, err := s.Integrate(func(t float64, y, d []float64) { d[0] = k*y[0] + math.Sin(t) }, t0, t1, y,
			Options{Relative: tol, Steps: 2000}, Event{G: func(_ float64, y []float64) float64 { return y[0] - 0.5 }})
		if err == nil && (!allFinite(y) || !(r.T >= t0 && r.T <= t1)) {
			t.Errorf("y %v at %g of [%g, %g]", y, r.T, t0, t1)
		}
		if err != nil && !errors.Is(err, ErrInput) && !allFinite(y) {
			t.Errorf("%v left %v behind", err, y)
		}
	})
}

func BenchmarkIntegrate(b *testing.B) {
	var s Solver
	y := []float64{1, 0}
	for b.Loop() {
		y[0], y[1] = 1, 0
		if _, err := s.Integrate(func(_ float64, y, d []float64) { d[0], d[1] = y[1], -y[0] }, 0, 10, y, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
