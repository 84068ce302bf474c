package tank_test

import (
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/units"
)

// must stops the test on an error: must(t)(f()).
func must[T any](t testing.TB) func(T, error) T {
	t.Helper()
	return func(x T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

// near fails where got is further than a share of want from it.
func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: %.12g, want %.12g within %g of it", what, got, want, share)
	}
}

func circle(d units.Length) units.Area { return units.Area(math.Pi / 4 * float64(d) * float64(d)) }

// thin is water with so little viscosity that only the losses in K are left: the
// liquid of the textbooks.
var thin = hydraulics.Fluid{Density: 1000, Viscosity: 1e-8}

// cold is water at 60 °F: density and viscosity by IAPWS.
var cold = hydraulics.Fluid{Density: 999.016, Viscosity: 1.1217e-3}

// column is what an upright tank holds at a level.
func column(t tank.Tank, level float64) units.Volume {
	return units.Volume(float64(t.Shape.Area) * level)
}
