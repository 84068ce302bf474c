package fuel_test

import (
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/units"
)

func BenchmarkAvailable(b *testing.B) {
	e := fuel.Engine{Gross: 23 * units.Horsepower, Continuous: 0.9, Plate: common}
	s := site(5200, 95)
	for b.Loop() {
		if _, err := e.Available(s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPowerBudget(b *testing.B) {
	demands := purse(13.62, 6.45)
	for b.Loop() {
		if _, err := fuel.PowerBudget(16.63*units.Horsepower, demands); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBurn(b *testing.B) {
	p, err := fuel.PropertiesOf(fuel.GasolineE10)
	if err != nil {
		b.Fatal(err)
	}
	w := fuel.Willans{Rated: 10 * units.Kilowatt, NoLoad: 12 * units.Kilowatt, FullLoad: 40 * units.Kilowatt}
	for b.Loop() {
		if _, err := w.Burn(7*units.Kilowatt, p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkContentAt(b *testing.B) {
	tank := box(fuel.PickUp{Height: 1 * units.Inch})
	s := fuel.Slope{NoseUp: 5 * units.Degree, LeftSideUp: 2 * units.Degree}
	for b.Loop() {
		if _, err := tank.ContentAt(0.5, s); err != nil {
			b.Fatal(err)
		}
	}
}

// TestSolvers_allocateNothing: a sheet that is recomputed on every keystroke, and
// sweeps of many thousand rigs, call these for each state.
func TestSolvers_allocateNothing(t *testing.T) {
	e := straight(t)
	e.Plate = common
	s := site(5200, 95)
	demands := []fuel.Demand{{Name: "pump", Shaft: 8 * units.Kilowatt, Exponent: fuel.ConstantTorque}, {Name: "generator", Shaft: 2 * units.Kilowatt}}
	p := row(t, fuel.GasolineE10)
	w := fuel.Willans{Rated: 10 * units.Kilowatt, NoLoad: 12 * units.Kilowatt, FullLoad: 40 * units.Kilowatt}
	for name, f := range map[string]func() error{
		"Available":       func() error { _, err := e.Available(s); return err },
		"Corrections":     func() error { x := e; x.Ignition = fuel.Spark; _, err := x.Corrections(s); return err },
		"PowerBudget":     func() error { _, err := fuel.PowerBudget(16e3, demands); return err },
		"LargestPressure": func() error { _, err := fuel.LargestPressure(16e3, demands, 0, 2e7); return err },
		"Settle":          func() error { _, err := e.Settle(s, demands); return err },
		"Burn":            func() error { _, err := w.Burn(7e3, p); return err },
		"DensityAt":       func() error { _, err := p.DensityAt(units.Fahrenheit(95)); return err },
		"ColdAt":          func() error { _, err := p.ColdAt(units.Fahrenheit(5)); return err },
	} {
		if err := f(); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if n := testing.AllocsPerRun(100, func() { _ = f() }); n != 0 {
			t.Errorf("%s allocates %g times", name, n)
		}
	}
}
