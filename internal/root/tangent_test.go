package root_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/internal/root"
)

// A zero that Tangent finds is one, to what its last step promises: powers of x between
// laminar and beyond the square, as losses are, less a number.
func TestTangent(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		n, zero := g.Float(1, 2.5), g.LogFloat(1e-4, 1e4)
		line := g.Float(0, 1)
		scale := g.LogFloat(1e-3, 1e6)
		f := func(x float64) (float64, float64) {
			r := x / zero
			p := math.Pow(r, n)
			return scale * (p + line*r - 1 - line), scale * (n*p/r + line) / zero
		}
		start := zero * g.LogFloat(0.3, 30)
		v, s := f(start)
		at := root.Tangent{X: start, F: v, Slope: s}
		it, ok := at.Zero(f, 0, 1e6, 1e-5)
		if !ok || it > 12 || math.Abs(at.X-zero) > 1e-10*zero {
			return fmt.Errorf("zero at %.15g, from %g found %.15g after %d: %v", zero, start, at.X, it, ok)
		}
		return nil
	})
}

// It says where it has not found one, and asks for no memory.
func TestTangent_refuses(t *testing.T) {
	for name, f := range map[string]func(float64) (float64, float64){
		"outside":      func(x float64) (float64, float64) { return x - 7, 1 },
		"no zero":      func(x float64) (float64, float64) { return x*x + 1, 2 * x },
		"not a number": func(float64) (float64, float64) { return math.NaN(), 1 },
		"flat":         func(float64) (float64, float64) { return 1, 0 },
	} {
		v, s := f(1)
		at := root.Tangent{X: 1, F: v, Slope: s}
		if it, ok := at.Zero(f, 0, 3, 1e-5); ok || it > 20 {
			t.Errorf("%s: %g after %d", name, at.X, it)
		}
	}
	if n := testing.AllocsPerRun(100, func() {
		at := root.Tangent{X: 1, F: -1, Slope: 2}
		at.Zero(func(x float64) (float64, float64) { return x*x - 2, 2 * x }, 0, 3, 1e-5)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}
