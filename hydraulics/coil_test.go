package hydraulics_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/property"
)

func TestCoilFrictionFactor_straight(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		Re, k := g.LogFloat(1, 1e7), g.Float(0, 0.05)
		straight := hydraulics.FrictionFactor(Re, k)
		if f := hydraulics.CoilFrictionFactor(Re, k, 0); f != straight {
			return fmt.Errorf("d/D = 0: %g, straight %g", f, straight)
		}
		// A helix of 1e9 bores is straight, but that the transition begins later by
		// 8.6 (1e-9)^0.45 = 8e-4, where the factor rises with less than the cube of Re.
		if f := hydraulics.CoilFrictionFactor(Re, k, 1e-9); math.Abs(f-straight) > 3*8e-4*straight {
			return fmt.Errorf("Re %g, k %g, d/D = 1e-9: %g, straight %g", Re, k, f, straight)
		}
		return nil
	})
}

func TestCoilFrictionFactor_lossRises(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		k, ratio := g.Float(0, 0.05), g.LogFloat(1e-6, 0.3)
		Re := g.LogFloat(1, 1e7)
		if g.Bool() { // near the bridge, which is longest and latest where the coil is tight
			Re = hydraulics.CoilCriticalSchmidt(ratio) * g.Float(0.5, 3)
		}
		more := Re * (1 + g.LogFloat(1e-6, 3))
		a, b := hydraulics.CoilFrictionFactor(Re, k, ratio), hydraulics.CoilFrictionFactor(more, k, ratio)
		if !(b*more*more > a*Re*Re) {
			return fmt.Errorf("k %g, d/D %g: f Re² fell from Re %g to %g", k, ratio, Re, more)
		}
		// No step anywhere: over 1e-7 of Re the factor moves by no more than its
		// steepest slope, which is that of laminar flow twice over.
		if c := hydraulics.CoilFrictionFactor(Re*(1+1e-7), k, ratio); math.Abs(c/a-1) > 4e-7 {
			return fmt.Errorf("k %g, d/D %g: a step at Re %g, %g to %g", k, ratio, Re, a, c)
		}
		return nil
	})
}

// The turbulent correlations for a heating coil of 160 ft of 0.527 in wound at 16 in
// multiply the loss of the straight tube by 1.18 to 1.25; the law of the solvers
// lies in that band. Water at 50 °F, 6.3 gpm.
func TestCoilFrictionFactor_withinTheBand(t *testing.T) {
	const Re, ratio = 28930.0, 0.527 / 16
	straight := hydraulics.FrictionFactor(Re, 0)
	for name, f := range map[string]float64{
		"solvers":           hydraulics.CoilFrictionFactor(Re, 0, ratio),
		"Ito":               hydraulics.CoilIto(Re, ratio),
		"Mishra and Gupta":  hydraulics.CoilMishraGupta(Re, ratio),
		"Schmidt":           hydraulics.CoilSchmidt(Re, 0, ratio),
		"Mori and Nakayama": hydraulics.CoilMoriNakayama(Re, ratio),
	} {
		if m := f / straight; !(m > 1.17 && m < 1.26) {
			t.Errorf("%s multiply by %.3f", name, m)
		}
	}
}

// Outside the bridge the solvers' law is Mishra and Gupta's, with the exact smooth
// law for Blasius.
func TestCoilFrictionFactor_isMishraGupta(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		ratio := g.LogFloat(0.003, 0.15)
		if Re := hydraulics.CoilCriticalSchmidt(ratio) * g.Float(0.01, 0.86); hydraulics.CoilFrictionFactor(Re, 0, ratio) != hydraulics.CoilMishraGuptaLaminar(Re, ratio) {
			return fmt.Errorf("laminar at Re %g, d/D %g", Re, ratio)
		}
		Re := hydraulics.CoilCriticalSchmidt(ratio) * g.Float(1.75, 4)
		f, want := hydraulics.CoilFrictionFactor(Re, 0, ratio), hydraulics.CoilMishraGupta(Re, ratio)
		if math.Abs(f/want-1) > 0.0284 {
			return fmt.Errorf("turbulent at Re %g, d/D %g: %g, want %g within what Blasius is off", Re, ratio, f, want)
		}
		return nil
	})
}

// The laminar form ends where Schmidt's critical number, scaled to 2000 in a straight
// tube, says.
func TestCoilFrictionFactor_laminarEnd(t *testing.T) {
	for _, ratio := range []float64{0.003, 0.03, 0.15} {
		end := hydraulics.CoilCriticalSchmidt(ratio) * 2000 / 2300
		if f := hydraulics.CoilFrictionFactor(end*(1-1e-9), 0, ratio); f != hydraulics.CoilMishraGuptaLaminar(end*(1-1e-9), ratio) {
			t.Errorf("d/D %g: not laminar just below Re %g", ratio, end)
		}
		if f := hydraulics.CoilFrictionFactor(end*1.01, 0, ratio); f == hydraulics.CoilMishraGuptaLaminar(end*1.01, ratio) {
			t.Errorf("d/D %g: still laminar above Re %g", ratio, end)
		}
	}
}
