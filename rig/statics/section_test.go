package statics

import (
	"math"
	"testing"
)

// The quadrature rule against what it is made to be exact for: powers up to 31.
func TestGauss16_polynomials(t *testing.T) {
	for power := 0; power <= 31; power++ {
		sum := 0.0
		for _, g := range gauss16 {
			sum += g.w * (math.Pow(g.x, float64(power)) + math.Pow(-g.x, float64(power)))
		}
		want := 0.0
		if power%2 == 0 {
			want = 2 / float64(power+1)
		}
		if math.Abs(sum-want) > 4e-15 {
			t.Errorf("x^%d: %.17g, want %.17g", power, sum, want)
		}
	}
}

// The half-angle of a circular segment over every share from a film to the brim:
// φ − sin φ·cos φ = π·f, by the other of the two formulas for it.
func TestSegment_sweep(t *testing.T) {
	for e := -15.0; e <= -0.302; e += 0.05 {
		f := math.Pow(10, e)
		for _, share := range []float64{f, 1 - f} {
			phi := segment(share)
			area := (2*phi - math.Sin(2*phi)) / 2 / math.Pi
			// sin cancels for small angles: compare with what rounding leaves.
			if math.Abs(area-share) > 1e-15+4e-16*phi {
				t.Errorf("share %g: φ = %.17g gives %g", share, phi, area)
			}
			if share < 1e-6 {
				if approx := math.Cbrt(1.5 * math.Pi * share); math.Abs(phi/approx-1) > approx*approx {
					t.Errorf("share %g: φ = %g, for a film %g", share, phi, approx)
				}
			}
		}
	}
}
