package thermal

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// Enthalpies of water at 1 atm by python iapws 1.5.2 (IAPWS-IF97): 65.40615 kJ/kg
// at 60 °F, 251.22274 at 140 °F, 391.01527 at 200 °F; density 999.01557 kg/m³ at
// 60 °F.
const iapwsAtOneAtmosphere = "computed with python iapws 1.5.2 (IAPWS-IF97) at 1 atm: 65.40615, 251.22274 and 391.01527 kJ/kg at 60, 140 and 200 °F, 999.01557 kg/m³ at 60 °F"

func TestMix_worked(t *testing.T) {
	got := must[units.Temperature](t)(Mix(1*units.Kilogram, units.Fahrenheit(60), 1.329231182810698*units.Kilogram, units.Fahrenheit(200), atm))
	worked.Check(t, worked.Case{
		Question: "Warm water of 200 °F is let into a feed of 60 °F: what comes of it?",
		Source:   iapwsAtOneAtmosphere + "; 185.81659/139.79253 = 1.3292312 of the one for one of the other make 140 °F",
		Status:   worked.Computed,
		Given:    []string{"1 kg of 60 °F", "1.3292312 kg of 200 °F"},
		Printed:  "140.0000 °F", Got: got.Fahrenheit(),
	})
}

func TestThermalReliefFlow_worked(t *testing.T) {
	got := must[units.VolumeFlow](t)(ThermalReliefFlow(8*units.Kilowatt, units.Fahrenheit(60), units.Fahrenheit(140), atm))
	worked.Check(t, worked.Case{
		Question: "8 kW of pump power end in a bypass loop: how much must a valve let out to hold 140 °F?",
		Source:   iapwsAtOneAtmosphere + "; 8/(999.01557 × 185.81659)",
		Status:   worked.Computed,
		Given:    []string{"8 kW", "supply 60 °F, hold 140 °F"},
		Printed:  "0.683080 gpm", Got: got.In(units.GallonPerMinute),
	})
}
