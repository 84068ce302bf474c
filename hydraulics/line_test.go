package hydraulics_test

import (
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/units"
)

// line is one straight hose with a bare end: density in kg/m³, viscosity in Pa·s,
// flow in gpm, bore in inches, length in feet, roughness in inches.
func line(rho, mu, flow, bore, length, roughness float64) *hydraulics.Network {
	return &hydraulics.Network{
		Fluid:    hydraulics.Fluid{Density: units.Density(rho), Viscosity: units.DynamicViscosity(mu)},
		Supplies: []hydraulics.Supply{{Flow: gpm(flow)}},
		Sections: []hydraulics.Section{{
			Parent:   hydraulics.Manifold,
			Elements: []hydraulics.Element{hydraulics.Hose{Bore: inch(bore), Length: feet(length), Roughness: inch(roughness)}},
			Outlet:   &hydraulics.Outlet{},
		}},
	}
}

// Source: fluids_lines.csv. Cold, warm and hot water, soap and oil, laminar and
// turbulent. Tolerance: the table prints twelve digits and both sides solve the
// same equation; 1e-10 is what the network leaves.
func TestSolve_singleLines(t *testing.T) {
	laminar, turbulent := 0, 0
	for _, row := range readTable(t, "fluids_lines.csv") {
		n := line(num(t, row[1]), num(t, row[2]), num(t, row[3]), num(t, row[4]), num(t, row[5]), num(t, row[6])*1e-6/0.0254)
		r, err := hydraulics.Solve(n)
		if err != nil {
			t.Fatal(err)
		}
		e := r.Sections[0].Elements[0]
		want := num(t, row[8])
		if math.Abs(float64(e.Loss)/want-1) > 1e-10 || math.Abs(e.Reynolds/num(t, row[7])-1) > 1e-7 {
			t.Errorf("%v: %.12g Pa at Re %.8g", row, float64(e.Loss), e.Reynolds)
		}
		switch e.Regime {
		case hydraulics.Laminar:
			laminar++
		case hydraulics.Turbulent:
			turbulent++
		default:
			t.Errorf("%v: %v", row, e.Regime)
		}
	}
	if laminar < 20 || turbulent < 20 {
		t.Errorf("only %d laminar and %d turbulent lines", laminar, turbulent)
	}
}
