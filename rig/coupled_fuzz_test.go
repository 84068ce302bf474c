package rig_test

import (
	"errors"
	"math"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// FuzzCoupled changes what the joint states of rig B hang on. Each has an answer
// with a small residual, or the error says which state has none.
func FuzzCoupled(f *testing.F) {
	f.Add(5200.0, 0.04, 23.0, 166.0, 3690.0, 3.0, 2900.0)
	f.Add(9000.0, 0.15, 12.0, 210.0, 3000.0, 8.0, 200.0)
	f.Add(0.0, 0.001, 300.0, 330.0, 4500.0, 0.3, 60.0)
	f.Fuzz(func(t *testing.T, feet, droop, hp, set, rpm, gph, psi float64) {
		for _, x := range []float64{feet, droop, hp, set, rpm, gph, psi} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				return
			}
		}
		m, err := demo.Model("B")
		if err != nil {
			t.Fatal(err)
		}
		m, err = m.With(rig.Assign("site.elevation", units.ElevationAt(units.Length(feet)*units.Foot).Quantity()),
			rig.Set("engines[washer].no_load_speed", "3750 rpm"), rig.Assign("engines[washer].droop", units.Ratio(droop).Quantity()),
			rig.Assign("engines[washer].gross_power", (units.Power(hp)*units.Horsepower).Quantity()), rig.Assign("heaters[heater].thermostat", units.Fahrenheit(set).Quantity()),
			rig.Assign("sources[belt].speed", (units.RotationalSpeed(rpm)*units.RPM).Quantity()), rig.Assign("heaters[heater].oil_nozzle", (units.FuelRate(gph)*units.GallonPerHour).Quantity()),
			rig.Assign("pumps[main].unloader.setting", (units.Pressure(psi)*units.PSI).Quantity()))
		if err != nil {
			return // refused
		}
		r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		var failed *units.SolverError
		if errors.As(err, &failed) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		for x := range r.All("pumps[].coupled_residual") {
			if !(x.Value.SI() <= 1e-9) {
				t.Errorf("residual %g in %v", x.Value.SI(), x.State)
			}
		}
	})
}
