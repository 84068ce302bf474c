package hydraulics_test

import (
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/units"
)

// Source: epanet_networks.csv, trees of hoses, heights and tips solved by a general
// pipe-network engine. The manifold is held by an ideal regulating unloader.
//
// Tolerance, as measured: the engine's friction factor above Re 4000 is Swamee and
// Jain's, which lies up to 3 % from Colebrook's, and between 2000 and 4000 a
// cubic of its own. What that does to a flow depends on how much of the pressure
// friction takes. Where all flow is laminar both sides have 64/Re and agree to the
// engine's constants: 448.831 gpm a ft³/s, 0.4333 psi/ft and 32.2 ft/s² are rounded.
func TestSolve_epanet(t *testing.T) {
	within := map[string]struct{ flow, pressure float64 }{ // relative; of the manifold's
		"two guns cold":                 {1.0e-4, 2.0e-4},
		"three guns hot":                {5.0e-4, 8.0e-4},
		"two levels of branches":        {6.0e-4, 1.1e-3},
		"chemical tips at low pressure": {1.2e-3, 1.0e-3},
		"thick soap":                    {3.0e-5, 4.0e-6},
	}
	rows := readTable(t, "epanet_networks.csv")
	for len(rows) > 0 {
		name := rows[0][0]
		count := 0
		for count < len(rows) && rows[count][0] == name {
			count++
		}
		pipes := rows[:count]
		rows = rows[count:]

		manifold := psi(num(t, pipes[0][1]))
		// The engine's density: 0.4333 psi/ft over 32.2 ft/s².
		rho := 0.4333 * 6894.757293168361 / 0.3048 / (32.2 * 0.3048)
		nu := num(t, pipes[0][2]) * 0.3048 * 0.3048
		n := &hydraulics.Network{
			Fluid:    hydraulics.Fluid{Density: units.Density(rho), Viscosity: units.DynamicViscosity(rho * nu)},
			Supplies: []hydraulics.Supply{{Flow: gpm(100), Unloader: hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: manifold}}},
		}
		section := map[string]int{"0": hydraulics.Manifold}
		for i, p := range pipes {
			bore := inch(num(t, p[6]))
			s := hydraulics.Section{Parent: section[p[3]], Elements: []hydraulics.Element{
				hydraulics.Pipe{Bore: bore, Length: feet(num(t, p[5])), Roughness: feet(num(t, p[7]) / 1000)},
				hydraulics.Fitting{K: num(t, p[8]), Bore: bore},
				hydraulics.StaticHeight{Rise: feet(num(t, p[9]))},
			}}
			if tip := num(t, p[10]); tip > 0 {
				s.Outlet = &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: units.NozzleNumber(tip)}}}
			}
			section[p[4]] = i
			n.Sections = append(n.Sections, s)
		}
		r, err := hydraulics.Solve(n)
		if err != nil {
			t.Fatal(err)
		}
		tol, ok := within[name]
		if !ok {
			t.Fatalf("no tolerance for %q", name)
		}
		delete(within, name)
		worstFlow, worstPressure := 0.0, 0.0
		for i, p := range pipes {
			worstFlow = max(worstFlow, math.Abs(r.Sections[i].Metered.In(units.GallonPerMinute)/num(t, p[11])-1))
			worstPressure = max(worstPressure, math.Abs(float64(r.Sections[i].Outlet-psi(num(t, p[12])))/float64(manifold)))
		}
		t.Logf("%s: flows within %.2g, pressures within %.2g of the manifold's", name, worstFlow, worstPressure)
		if worstFlow > tol.flow || worstPressure > tol.pressure {
			t.Errorf("%s: flows off by %.3g, allowed %g; pressures by %.3g of the manifold's, allowed %g", name, worstFlow, tol.flow, worstPressure, tol.pressure)
		}
	}
	if len(within) > 0 {
		t.Errorf("not in the table: %v", within)
	}
}
