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

// The wanted pressure falls between two stocked tips. The smaller would take more
// than the unloader allows, so part of the flow is bypassed.
func ExampleFitNozzles() {
	gun := []hydraulics.Element{hydraulics.Hose{Bore: 0.375 * units.Inch, Length: 100 * units.Foot}}
	tip := []hydraulics.Nozzle{{Number: 4}}
	n := &hydraulics.Network{
		Fluid: hydraulics.Fluid{Density: 999 * units.KilogramPerCubicMeter, Viscosity: 1.12 * units.Centipoise},
		Supplies: []hydraulics.Supply{{
			Flow:     6.8 * units.GallonPerMinute,
			Unloader: hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: 2800 * units.PSI},
		}},
		Sections: []hydraulics.Section{
			{Name: "left", Parent: hydraulics.Manifold, Elements: gun, Outlet: &hydraulics.Outlet{Nozzles: tip}},
			{Name: "right", Parent: hydraulics.Manifold, Elements: gun, Outlet: &hydraulics.Outlet{Nozzles: tip}},
		},
	}
	fit, err := hydraulics.FitNozzles(n, hydraulics.NozzleWish{
		Outlets:  []int{0, 1},
		Pressure: 2500 * units.PSI,
		Low:      2200 * units.PSI,
		High:     2700 * units.PSI,
		Stock:    []units.NozzleNumber{3, 3.5, 4, 4.5, 5},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("exact number %.2f\n", float64(fit.Exact.Number))
	for _, c := range []hydraulics.NozzleChoice{fit.Below, fit.Above} {
		fmt.Printf("number %.1f: %.0f psi, bypass %.2f gpm, within the band: %v\n",
			float64(c.Number), c.Pressure.In(units.PSI), c.Bypass.In(units.GallonPerMinute), c.Meets)
	}
	// Output:
	// exact number 4.30
	// number 4.0: 2751 psi, bypass 0.17 gpm, within the band: false
	// number 4.5: 2283 psi, bypass 0.00 gpm, within the band: true
}

func ExampleTriggerSurge() {
	s, err := hydraulics.TriggerSurge(hydraulics.Closing{
		Density: 999 * units.KilogramPerCubicMeter,
		Speed:   12 * units.FootPerSecond,
		Length:  150 * units.Foot,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f to %.0f psi on top of the working pressure\n", s.Low.In(units.PSI), s.High.In(units.PSI))
	// Output: 242 to 646 psi on top of the working pressure
}

func ExampleLadder() {
	rungs, err := hydraulics.Ladder(2450*units.PSI,
		hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: 2900 * units.PSI, Rise: 100 * units.PSI},
		hydraulics.Relief{Set: 3400 * units.PSI, Accumulation: 170 * units.PSI},
		6.8*units.GallonPerMinute, 4000*units.PSI)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range rungs {
		fmt.Printf("%4.0f psi  %s\n", r.Pressure.In(units.PSI), r.Name)
	}
	// Output:
	// 2450 psi  working
	// 2900 psi  unloader
	// 3000 psi  unloader, whole flow bypassed
	// 3400 psi  relief
	// 3570 psi  relief, whole flow
	// 4000 psi  weakest rating
}
