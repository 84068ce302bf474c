package statics

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
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

// The derivative of the shift against a difference of two tilts, and that of the height,
// which is the tilt times it, for every form.
func TestSection_turned(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		v := Vessel{Shape: Shape(g.Int(int(Box), int(CrosswiseCylinder)))}
		l, w, h, d := units.Length(g.Float(0.3, 2)), units.Length(g.Float(0.3, 2)), units.Length(g.Float(0.3, 2)), units.Length(g.Float(0.3, 2))
		switch v.Shape {
		case Box:
			v.Length, v.Width, v.Height = l, w, h
		case UprightCylinder:
			v.Height, v.Diameter = h, d
		case LengthwiseCylinder:
			v.Length, v.Diameter = l, d
		default:
			v.Width, v.Diameter = w, d
		}
		c := v.section(Sideways)
		vol := c.capacity() * g.Float(0.02, 0.98)
		tan := g.LogFloat(1e-3, 5)
		if g.Pick(4) == 0 {
			tan = 0
		}
		_, _, ds := c.turned(vol, tan)
		const step = 1e-5
		lo := max(tan-step, 0)
		a, za := c.tilted(vol, lo)
		b, zb := c.tilted(vol, tan+step)
		got := (b - a) / (tan + step - lo)
		rise := (zb - za) / (tan + step - lo)
		// A difference of 1e-5 errs by its square times the third derivative, or where the
		// surface meets an edge or the tilt is none by itself times the second; shifts are
		// known to 1e-14 m.
		near := 1e-3*(1+math.Abs(ds)) + 1e-9
		if math.Abs(got-ds) > near || math.Abs(rise-tan*ds) > near*(1+tan) {
			return fmt.Errorf("%+v, %g m³, slope %g: ds/dt %g, difference %g; dz/dt %g, difference %g", v, vol, tan, ds, got, tan*ds, rise)
		}
		return nil
	})
}

// The worst fill of a box against a grid of fills: none holds less.
func TestTankArm_worstSlab(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		n := g.Float(0.1, 1)
		k, err := newTankArm(&Filling{Tank: Tank{
			Name: "t", Density: 1000, Vessel: Vessel{Shape: Box, Length: 1, Width: units.Length(g.Float(0.3, 2)), Height: units.Length(g.Float(0.3, 2))},
			X: units.PositionAt(3), Y: units.PositionAt(units.Length(g.Float(-0.3, 0.3))), Floor: units.PositionAt(units.Length(g.Float(0.3, 1))), Baffles: units.Ratio(g.Float(0, 1) * float64(g.Pick(2))),
		}, Least: units.Ratio(g.Float(0, 0.1)), Most: units.Ratio(n)})
		if err != nil {
			return err
		}
		k.arm = arm{g.Float(0.3, 1.2), g.Float(-0.3, 0.3), g.Float(-0.2, 1.5)}
		a := g.LogFloat(1e-3, 10)
		m := k.worstSlab(a, 1)
		least, _ := k.holds(m, a, 1)
		if !(m >= k.lo && m <= k.hi) {
			return fmt.Errorf("%g kg outside %g to %g", m, k.lo, k.hi)
		}
		for i := range 401 {
			x := k.lo + (k.hi-k.lo)*float64(i)/400
			if f, _ := k.holds(x, a, 1); f < least-1e-10*(1+math.Abs(least)) { // sums of a tonne to rounding
				return fmt.Errorf("%+v at %g g: %.15g at %g kg, but %.15g at %g kg", k, a, least, m, f, x)
			}
		}
		return nil
	})
}
