package hydraulics_test

import (
	"math"
	"testing"

	"example.com/washrig/hydraulics"
)

// Each explicit correlation against the equation it stands for, over its stated
// range on a grid of 40 steps a decade. The bound is the figure in its
// documentation, rounded up; least holds the documentation to that.
func TestExplicit_sweep(t *testing.T) {
	smooth := func(f func(float64) float64) func(Re, k float64) float64 {
		return func(Re, _ float64) float64 { return f(Re) }
	}
	for _, c := range []struct {
		name         string
		f            func(Re, k float64) float64
		re0, re1     float64
		k0, k1       float64
		worst, least float64 // per cent
	}{
		{"Swamee–Jain", hydraulics.SwameeJain, 5e3, 1e8, 1e-6, 1e-2, 2.83, 2.82},
		{"Haaland", hydraulics.Haaland, 4e3, 1e8, 1e-6, 5e-2, 1.5, 1.3},
		{"Churchill", hydraulics.Churchill, 4e3, 1e8, 1e-6, 5e-2, 3.16, 3.14},
		{"Serghides", hydraulics.Serghides, 4e3, 1e8, 0, 5e-2, 0.0032, 0.0031},
		{"Chen", hydraulics.Chen, 4e3, 4e8, 1e-7, 5e-2, 0.33, 0.32},
		{"Blasius", smooth(hydraulics.Blasius), 4e3, 1e5, 0, 0, 2.84, 2.83},
	} {
		worst, atRe, atK := 0.0, 0.0, 0.0
		steps := func(lo, hi float64) []float64 {
			if lo == hi {
				return []float64{lo}
			}
			var v []float64
			if lo == 0 {
				v, lo = append(v, 0), 1e-6
			}
			n := int(math.Ceil(40 * math.Log10(hi/lo)))
			for i := 0; i <= n; i++ {
				v = append(v, lo*math.Pow(hi/lo, float64(i)/float64(n)))
			}
			return v
		}
		for _, Re := range steps(c.re0, c.re1) {
			for _, k := range steps(c.k0, c.k1) {
				e := 100 * math.Abs(c.f(Re, k)/hydraulics.FrictionFactor(Re, k)-1)
				if !(e <= worst) {
					worst, atRe, atK = e, Re, k
				}
			}
		}
		if !(worst <= c.worst && worst > c.least) {
			t.Errorf("%s is off by %.4g %% at Re %.4g, k %.4g; its documentation says at most %g %%", c.name, worst, atRe, atK, c.worst)
		}
	}
}

func TestChurchill_laminar(t *testing.T) {
	for Re := 1.0; Re <= 1000; Re *= 1.3 {
		if f := hydraulics.Churchill(Re, 1e-3); math.Abs(f*Re/64-1) > 1e-9 {
			t.Errorf("Re %g: f Re = %.12g, want 64", Re, f*Re)
		}
	}
}

func TestExplicit_NaN(t *testing.T) {
	nan := math.NaN()
	for name, f := range map[string]func(Re, k float64) float64{
		"SwameeJain": hydraulics.SwameeJain, "Haaland": hydraulics.Haaland, "Churchill": hydraulics.Churchill,
		"Serghides": hydraulics.Serghides, "Chen": hydraulics.Chen,
		"CoilSchmidt":        func(Re, k float64) float64 { return hydraulics.CoilSchmidt(Re, k, 0.03) },
		"CoilFrictionFactor": func(Re, k float64) float64 { return hydraulics.CoilFrictionFactor(Re, k, 0.03) },
	} {
		if !math.IsNaN(f(nan, 0)) || !math.IsNaN(f(1e5, nan)) {
			t.Errorf("%s does not answer NaN with NaN", name)
		}
	}
}
