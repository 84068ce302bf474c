package rig

import (
	"testing"

	"example.com/washrig/internal/water"
)

// Below the bounds of surelyLiquid water is liquid by IAPWS-IF97 (table 35: 99.606 °C
// at 0.1 MPa, 179.886 °C at 1 MPa), and the point that is taken for it is its own.
func TestSurelyLiquid(t *testing.T) {
	for p := 1e3; p < 20e6; p *= 1.01 {
		ts, err := water.SaturationTemperature(p)
		if err != nil {
			t.Fatal(err)
		}
		for T := 273.2; T < 640; T++ {
			if surelyLiquid(p, T) && T > ts-liquidSide {
				t.Errorf("%g Pa, %g K: boils at %g K", p, T, ts)
			}
		}
	}
	for _, c := range []struct {
		p, T float64
		want bool
	}{{1.013e5, 300, false}, {1.02e5, 372, true}, {10e6, 522, true}, {10e6, 524, false}} {
		if surelyLiquid(c.p, c.T) != c.want {
			t.Errorf("%g Pa, %g K: want %v", c.p, c.T, c.want)
		}
	}
}
