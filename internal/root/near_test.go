package root_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/internal/root"
)

// Near finds what Bracketed finds, from any two points, good or bad.
func TestNear(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		zero, steep, bend := g.Float(-5, 5), g.LogFloat(1e-3, 1e3), g.Float(-0.09, 0.09)
		f := func(x float64) float64 { return steep * (x - zero) * (1 + bend*(x-zero)) } // one zero in the bracket
		a, b := g.Float(-6, 6), g.Float(-6, 6)
		x, it, err := root.Near(f, a, b, -5.5, 5.5, 1e-9)
		if err != nil || math.Abs(x-zero) > 1e-9 {
			return fmt.Errorf("zero at %g, found %g after %d: %v", zero, x, it, err)
		}
		return nil
	})
}

// A nearly straight function costs few evaluations.
func TestNear_fewEvaluations(t *testing.T) {
	n := 0
	x, it, err := root.Near(func(x float64) float64 { n++; return math.Expm1(0.1 * (x - 1)) }, 0.9, 1.2, -10, 10, 1e-12)
	if err != nil || math.Abs(x-1) > 1e-12 || it != n || n > 7 {
		t.Errorf("%g after %d of %d: %v", x, it, n, err)
	}
}

// Bad input and bad functions end as they do in Bracketed.
func TestNear_errors(t *testing.T) {
	if _, _, err := root.Near(func(x float64) float64 { return x*x + 1 }, 0, 1, -3, 3, 1e-9); !errors.Is(err, root.ErrBracket) {
		t.Errorf("no zero: %v", err)
	}
	if _, _, err := root.Near(func(float64) float64 { return math.NaN() }, 0, 1, -3, 3, 1e-9); !errors.Is(err, root.ErrNotANumber) {
		t.Errorf("no number: %v", err)
	}
	if x, _, err := root.Near(func(x float64) float64 { return x - 2 }, 7, 9, -3, 3, 1e-9); err != nil || math.Abs(x-2) > 1e-9 {
		t.Errorf("points outside: %g, %v", x, err)
	}
	if n := testing.AllocsPerRun(100, func() { _, _, _ = root.Near(func(x float64) float64 { return x*x*x - 2 }, 1, 1.5, 0, 2, 1e-12) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}
