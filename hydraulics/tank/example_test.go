package tank_test

import (
	"fmt"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/units"
)

// The hydrant gives 50 gpm into the near tank: what overflows, and when?
func ExampleSystem_FirstSpill() {
	s := &tank.System{
		Fluid: hydraulics.Fluid{Density: 999 * units.KilogramPerCubicMeter, Viscosity: 1.12 * units.Centipoise},
		Tanks: []tank.Tank{
			{Name: "near", Shape: tank.UprightOf(240*units.Gallon, 30*units.Inch)},
			{Name: "far", Shape: tank.UprightOf(160*units.Gallon, 30*units.Inch)},
		},
		Links: []tank.Link{{From: 0, To: 1, Opening: tank.Opening{Bore: 2.067 * units.Inch, Length: 3 * units.Foot, K: 2}}},
		Fills: []tank.Fill{{Tank: 0, Flow: 50 * units.GallonPerMinute}},
	}
	empty := []tank.Content{{}, {}}
	first, ok, err := s.FirstSpill(empty, units.Hour)
	if err != nil || !ok {
		fmt.Println(err, ok)
		return
	}
	fmt.Printf("%s spills after %s\n", s.Tanks[first.Tank].Name, first.Time.Text(units.Minute, 1))
	q, _, err := s.LargestFill(empty, 0, 0.98, 200*units.GallonPerMinute)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("up to %s nothing is lost before they are 98 %% full\n", q.Text(units.GallonPerMinute, 0))
	// Output:
	// near spills after 7.8 min
	// up to 48 gpm nothing is lost before they are 98 % full
}

// Where does the suction head go?
func ExampleSuction_Head() {
	bore := 1.25 * units.Inch
	s := tank.Suction{
		Site: 83682 * units.PascalAbsolute, Water: units.Fahrenheit(110), Level: 6 * units.Inch, Flow: 6.8 * units.GallonPerMinute,
		Line: []hydraulics.Element{
			hydraulics.Fitting{Bore: bore, K: 2.5},
			hydraulics.Hose{Bore: bore, Length: 4 * units.Foot},
		},
		Strainer: tank.Strainer{Loss: 1 * units.PSI, Flow: 6.8 * units.GallonPerMinute, Blocked: 0.5},
		Pulsation: tank.Pulsation{Plungers: 3, Speed: 1150 * units.RPM, Line: tank.Stabilised, Bore: bore,
			Length: 4 * units.Foot, Moved: 1.5 * units.Foot, Liquid: 1.4},
	}
	h, err := s.Head()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, term := range []struct {
		name string
		head units.Length
	}{{"air", h.Atmosphere}, {"vapour", h.Vapour}, {"level", h.Static}, {"line", h.Line}, {"strainer", h.Strainer}, {"pulses", h.Acceleration}, {"available", h.Available}} {
		fmt.Printf("%-10s%6.1f ft\n", term.name, term.head.In(units.Foot))
	}
	cures, err := s.Cures(tank.CureOptions{Bore: 1.5 * units.Inch, Raise: 1 * units.Foot, Cooler: 20 * units.FahrenheitDelta})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range cures[:2] {
		fmt.Printf("%s: %.1f ft\n", c.Kind, c.Gain.In(units.Foot))
	}
	// Output:
	// air         28.3 ft
	// vapour      -3.0 ft
	// level        0.5 ft
	// line        -0.2 ft
	// strainer    -9.3 ft
	// pulses      -4.5 ft
	// available   11.8 ft
	// strainer without loss: 9.3 ft
	// clean the strainer: 7.0 ft
}

// How long does the dump take, and what does the vent cost?
func ExampleDrain_Drain() {
	d := tank.Drain{
		Shape: tank.UprightOf(160*units.Gallon, 30*units.Inch), From: 28 * units.Inch, To: 1 * units.Inch,
		Outlet: tank.Opening{Bore: 2.067 * units.Inch, Length: 2 * units.Foot, K: 2},
		Fluid:  hydraulics.Fluid{Density: 999 * units.KilogramPerCubicMeter, Viscosity: 1.12 * units.Centipoise},
		Vent:   tank.Vent{Bore: 1.5 * units.Inch, Coefficient: 0.6, Air: 1.0 * units.KilogramPerCubicMeter},
	}
	r, err := d.Drain()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s for %s, %s at first, vacuum %s\n", r.Time.Text(units.Minute, 1), r.Volume.Text(units.Gallon, 0),
		r.First.Text(units.GallonPerMinute, 0), r.Vacuum.Text(units.InchOfWater, 1))
	// Output:
	// 2.8 min for 144 gal, 86 gpm at first, vacuum 0.1 inH2O
}

// Does the bibb keep up with the guns?
func ExampleFilling_Flow() {
	f := tank.Filling{
		Supply: tank.Supply{Static: 60 * units.PSI, Residual: 45 * units.PSI, Flow: 15 * units.GallonPerMinute},
		Line: []hydraulics.Element{
			hydraulics.CheckValve{Cracking: 8 * units.PSI},
			hydraulics.Hose{Bore: 0.625 * units.Inch, Length: 75 * units.Foot},
		},
		Lift:  4 * units.Foot,
		Fluid: hydraulics.Fluid{Density: 999 * units.KilogramPerCubicMeter, Viscosity: 1.12 * units.Centipoise},
	}
	r, err := f.Flow()
	if err != nil {
		fmt.Println(err)
		return
	}
	trend, err := tank.FillTrend(r.Flow, 6.8*units.GallonPerMinute, 0.55, 100*units.Gallon, 232*units.Gallon)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s arrive; the tank gains %s\n", r.Flow.Text(units.GallonPerMinute, 1), trend.Rate.Text(units.GallonPerMinute, 1))
	// Output:
	// 13.4 gpm arrive; the tank gains 9.7 gpm
}
