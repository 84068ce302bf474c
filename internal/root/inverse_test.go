package root_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/internal/root"
)

// Where Inverse says that it has found a zero, it has, to the tolerance asked for, and
// it tells which way the function passes it. Cubics and exponentials whose zero, slope
// and bend are known.
func TestInverse(t *testing.T) {
	found, cases := 0, 0
	property.Check(t, func(g *property.G) error {
		zero := g.Float(0.5, 5)
		slope := g.LogFloat(1e-3, 1e3) * float64(1-2*g.Pick(2))
		bend, twist := g.Float(-0.5, 0.5), g.Float(-0.3, 0.3)
		f := func(x float64) float64 {
			d := (x - zero) / zero
			return slope * d * (1 + d*(bend+d*twist))
		}
		if g.Bool() {
			f = func(x float64) float64 { return slope * math.Expm1(bend*(x-zero)/zero) / bend }
			if bend == 0 {
				return property.ErrDiscard
			}
		}
		a := zero * g.Float(0.9, 1.1)
		b := zero * (1 + g.Float(-0.03, 0.03))
		if a == b {
			return property.ErrDiscard
		}
		const tol = 1e-10
		x, s, it, ok := root.Inverse(f, a, f(a), b, f(b), 0, 10, tol)
		cases++
		if !ok {
			return nil
		}
		found++
		if math.Abs(x-zero) > tol*5 || s*slope < 0 {
			return fmt.Errorf("zero at %.15g with slope %g, found %.15g with %g after %d", zero, slope, x, s, it)
		}
		return nil
	})
	if found < cases*9/10 {
		t.Errorf("%d of %d found", found, cases)
	}
}

// A smooth function costs two evaluations more, and no memory.
func TestInverse_fewEvaluations(t *testing.T) {
	n := 0
	f := func(x float64) float64 { n++; return x*x - 2 }
	x, slope, it, ok := root.Inverse(f, 1.4, f(1.4), 1.42, f(1.42), 0, 2, 1e-10)
	if !ok || math.Abs(x-math.Sqrt2) > 1e-10 || slope < 2 || it != n-2 || it > 2 {
		t.Errorf("%.15g, slope %g after %d of %d: %v", x, slope, it, n, ok)
	}
	if n := testing.AllocsPerRun(100, func() { root.Inverse(f, 1.4, f(1.4), 1.42, f(1.42), 0, 2, 1e-10) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// It says where it has not found a zero: none in the bracket, none at all, no number.
func TestInverse_refuses(t *testing.T) {
	for name, f := range map[string]func(float64) float64{
		"outside":      func(x float64) float64 { return x - 7 },
		"no zero":      func(x float64) float64 { return x*x + 1 },
		"not a number": func(x float64) float64 { return math.Sqrt(x - 2) },
		"flat":         func(float64) float64 { return 1 },
	} {
		if x, _, it, ok := root.Inverse(f, 1, f(1), 1.5, f(1.5), 0, 3, 1e-10); ok || it > 12 {
			t.Errorf("%s: %g after %d", name, x, it)
		}
	}
}
