package hydraulics_test

import (
	"fmt"

	"example.com/washrig/hydraulics"
	"example.com/washrig/units"
)

// Two guns on one pump behind a pressure-regulating unloader; then one of them is
// released. The flow that is no longer sprayed is bypassed at full pressure, so
// the engine notices little.
func ExampleSolve() {
	gun := []hydraulics.Element{hydraulics.Hose{Bore: 0.375 * units.Inch, Length: 100 * units.Foot}}
	tip := []hydraulics.Nozzle{{Number: 4.5}}
	left, right := &hydraulics.Outlet{Nozzles: tip}, &hydraulics.Outlet{Nozzles: tip}
	n := &hydraulics.Network{
		Fluid: hydraulics.Fluid{Density: 999 * units.KilogramPerCubicMeter, Viscosity: 1.12 * units.Centipoise},
		Supplies: []hydraulics.Supply{{
			Flow:     6.8 * units.GallonPerMinute,
			Unloader: hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: 2900 * units.PSI},
		}},
		Sections: []hydraulics.Section{
			{Name: "left", Parent: hydraulics.Manifold, Elements: gun, Outlet: left},
			{Name: "right", Parent: hydraulics.Manifold, Elements: gun, Outlet: right},
		},
	}
	for _, right.Closed = range []bool{false, true} {
		r, err := hydraulics.Solve(n)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("pump %.0f psi, left gun %.2f gpm at %.0f psi, bypass %.2f gpm\n",
			r.Pressure.In(units.PSI),
			r.Sections[0].Metered.In(units.GallonPerMinute),
			r.Sections[0].Outlet.In(units.PSI),
			r.Supplies[0].Bypass.In(units.GallonPerMinute))
	}
	// Output:
	// pump 2335 psi, left gun 3.40 gpm at 2283 psi, bypass 0.00 gpm
	// pump 2900 psi, left gun 3.79 gpm at 2838 psi, bypass 3.01 gpm
}

func ExampleNozzleNumberFor() {
	n, err := hydraulics.NozzleNumberFor(3.4*units.GallonPerMinute, 2540*units.PSI)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f\n", float64(n))
	// Output: 4.27
}
