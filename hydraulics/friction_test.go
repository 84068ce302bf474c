package hydraulics_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/property"
)

// Source: colebrook_mpmath.csv. The promise is 1e-12; what is seen is a few units
// in the last place.
func TestFrictionFactor_solvesColebrook(t *testing.T) {
	for _, row := range readTable(t, "colebrook_mpmath.csv") {
		Re, k, want := num(t, row[0]), num(t, row[1]), num(t, row[2])
		if f := hydraulics.FrictionFactor(Re, k); !(math.Abs(f/want-1) <= 1e-12) {
			t.Errorf("Re %g, k %g: f = %.16g, want %.16g, off by %.2g", Re, k, f, want, f/want-1)
		}
	}
}

// The equation itself, put to the answer: no start value anywhere may be too far
// off for the one step that follows it.
func TestFrictionFactor_everywhere(t *testing.T) {
	for i := 0; i <= 1100; i++ {
		Re := 4000 * math.Pow(10, float64(i)/100)
		for j := 0; j <= 100; j++ {
			k := math.Pow(10, -float64(j)/10)
			if j == 100 {
				k = 0
			}
			f := hydraulics.FrictionFactor(Re, k)
			// d ln f = −2 r/(x (1+u')): twice the residual over x bounds the error.
			x := 1 / math.Sqrt(f)
			r := x + 2*math.Log10(k/3.7+2.51*x/Re)
			if k <= 0.05 && !(math.Abs(2*r/x) <= 1e-12) {
				t.Fatalf("Re %g, k %g: residual %g", Re, k, r)
			}
		}
	}
}

func TestFrictionFactorSlope_differences(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		Re := g.LogFloat(1, 1e8)
		k := g.Float(0, 0.05)
		f, slope := hydraulics.FrictionFactorSlope(Re, k)
		if f != hydraulics.FrictionFactor(Re, k) {
			return fmt.Errorf("two friction factors at Re %g, k %g", Re, k)
		}
		h := Re * 1e-5
		d := (hydraulics.FrictionFactor(Re+h, k) - hydraulics.FrictionFactor(Re-h, k)) / (2 * h)
		// Central differences: truncation 1e-10, rounding 1e-11, both of f/Re; a
		// step across a joint of the law costs one order more.
		if math.Abs(d-slope) > 1e-4*f/Re {
			return fmt.Errorf("Re %g, k %g: slope %g, differences %g", Re, k, slope, d)
		}
		return nil
	})
}

func TestFrictionFactor_bridge(t *testing.T) {
	for _, k := range []float64{0, 1e-6, 1e-4, 1e-3, 1e-2, 0.05} {
		for _, joint := range []float64{2000, 4000} {
			f0, s0 := hydraulics.FrictionFactorSlope(math.Nextafter(joint, 0), k)
			f1, s1 := hydraulics.FrictionFactorSlope(math.Nextafter(joint, 1e9), k)
			if math.Abs(f0/f1-1) > 1e-12 || math.Abs(s0-s1) > 1e-12*f0/joint*1e3 {
				t.Errorf("k %g: at Re %g factor %.15g | %.15g, slope %.12g | %.12g", k, joint, f0, f1, s0, s1)
			}
		}
	}
}

// The loss of a pipe is proportional to f Re².
func TestFrictionFactor_lossRises(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		k := g.Float(0, 0.05)
		Re := g.LogFloat(1, 1e7)
		more := Re * (1 + g.LogFloat(1e-6, 10))
		if g.Bool() { // stay near the bridge
			Re = g.Float(1500, 5000)
			more = Re + g.LogFloat(1e-2, 1000)
		}
		a, b := hydraulics.FrictionFactor(Re, k)*Re*Re, hydraulics.FrictionFactor(more, k)*more*more
		if !(b > a) {
			return fmt.Errorf("k %g: f Re² fell from %g at %g to %g at %g", k, a, Re, b, more)
		}
		return nil
	})
}

func TestFrictionFactor_special(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct{ Re, k, want float64 }{
		{nan, 0, nan}, {1e5, nan, nan}, {100, nan, nan}, {-1, 0, nan}, {1e5, -1e-9, nan}, {1e5, 1.01, nan},
		{0, 0, inf}, {inf, 0, 0}, {64, 0, 1}, {2000, 0.05, 0.032},
	} {
		if f := hydraulics.FrictionFactor(c.Re, c.k); !(f == c.want || math.IsNaN(f) && math.IsNaN(c.want)) {
			t.Errorf("FrictionFactor(%g, %g) = %g, want %g", c.Re, c.k, f, c.want)
		}
	}
	// Fully rough limit, 1/(2 log10(3.7/k))².
	want := 1 / math.Pow(2*math.Log10(3.7/0.01), 2)
	if f := hydraulics.FrictionFactor(inf, 0.01); math.Abs(f/want-1) > 1e-14 {
		t.Errorf("fully rough: %g, want %g", f, want)
	}
}

// From the last point, near or far, the factor and its slope are those of a standing
// start: both solve the equation to a relative 1e-12. The slope is corrected to the
// first order of the step, which is half a per cent of 1/√f: (0.15 · 0.025 · ln 10/2)² is
// left at the most, where its weight u is 0.15.
func TestFrictionPoint(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		k := g.Float(0, 0.05)
		if g.Bool() {
			k = 0
		}
		var p hydraulics.FrictionPoint
		Re := g.LogFloat(500, 1e8)
		for range 6 {
			f, slope := p.Factor(Re, k)
			want, wantSlope := hydraulics.FrictionFactorSlope(Re, k)
			if math.Abs(f-want) > 2e-12*want || math.Abs(slope-wantSlope) > 2e-5*math.Abs(wantSlope) || math.Abs(f-hydraulics.FrictionFactor(Re, k)) > 2e-12*want {
				return fmt.Errorf("at Re = %g, k = %g: %.15g with slope %.12g, from a standing start %.15g, %.12g", Re, k, f, slope, want, wantSlope)
			}
			switch g.Pick(3) {
			case 0:
				Re *= g.Float(0.999, 1.001)
			case 1:
				Re *= g.Float(0.65, 1.5)
			case 2:
				Re *= g.LogFloat(0.01, 100)
			}
		}
		return nil
	})
	var p hydraulics.FrictionPoint
	for _, x := range [][2]float64{{math.NaN(), 0}, {-1, 0}, {1e5, 2}, {1e5, math.NaN()}} {
		if f, s := p.Factor(x[0], x[1]); !math.IsNaN(f) || !math.IsNaN(s) {
			t.Errorf("at %v: %g, %g", x, f, s)
		}
	}
	if f, s := p.Factor(math.Inf(1), 0); f != 0 || s != 0 {
		t.Errorf("at no viscosity: %g, %g", f, s)
	}
}
