package thermal

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// atm is the standard atmosphere, at27 is 2,700 psi above it.
const (
	atm  = 1 * units.AtmosphereAbsolute
	at27 = atm + 2700*units.PSIA
)

func must[T any](t testing.TB) func(v T, err error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

const iapws152 = "computed with python iapws 1.5.2 (IAPWS-IF97), density and both enthalpies at the line pressure, flow metered at the inlet"

func TestHeatRequired_worked(t *testing.T) {
	for _, c := range []struct {
		gpm, in, out float64
		line         units.AbsolutePressure
		given        string
		printed      string
	}{
		{6.3, 60, 200, atm, "line = 0.101325 MPa abs", "441162.211 BTU/h"},
		{7.4, 60, 140, atm, "line = 0.101325 MPa abs", "295717.749 BTU/h"},
		{5.5, 50, 210, atm, "line = 0.101325 MPa abs", "440666.795 BTU/h"},
		{6.3, 60, 200, at27, "line = 2,700 psi gauge", "440376.694 BTU/h"},
		{7.4, 60, 250, at27, "line = 2,700 psi gauge", "703851.726 BTU/h"},
	} {
		got := must[units.Power](t)(HeatRequired(units.VolumeFlow(c.gpm)*units.GallonPerMinute, units.Fahrenheit(c.in), units.Fahrenheit(c.out), c.line))
		worked.Check(t, worked.Case{
			Question: "How much heat takes this flow from inlet to outlet, counted exactly?",
			Source:   iapws152,
			Status:   worked.Computed,
			Given:    []string{f("Q = %g gpm", c.gpm), f("%g to %g °F", c.in, c.out), c.given},
			Printed:  c.printed,
			Got:      got.In(units.BTUPerHour),
		})
	}
}

func TestRuleOf500_worked(t *testing.T) {
	got := must[units.Power](t)(RuleOf500(6.3*units.GallonPerMinute, 140*units.FahrenheitDelta))
	worked.Check(t, worked.Case{
		Question: "And by the rule of thumb?",
		Source:   "trade rule BTU/h = 500 × gpm × °F",
		Status:   worked.CommonPractice,
		Given:    []string{"Q = 6.3 gpm", "rise = 140 °F"},
		Printed:  "441000 BTU/h",
		Got:      got.In(units.BTUPerHour),
	})

	out := must[units.Power](t)(HeatFromFiring(1*units.GallonPerHour, 0.8, HHV(140000*units.BTUPerGallon)))
	worked.Check(t, worked.Case{
		Question: "What does one gallon an hour put into the water?",
		Source:   "published sizing example: 1 gal/h of oil at 140,000 BTU and 80 % gives 112,000 BTU/h",
		Status:   worked.Published,
		Given:    []string{"1 gph", "140000 BTU/gal", "80 %"},
		Printed:  "112000 BTU/h",
		Got:      out.In(units.BTUPerHour),
	})
}

func TestFiringRate_worked(t *testing.T) {
	for _, c := range []struct {
		value   float64
		fuel    string
		printed string
	}{
		{138500, "heating oil", "3.980144 gph"},
		{140000, "oil, sizing value", "3.9375 gph"},
		{137381, "distillate, EIA 2021", "4.012564 gph"},
		{91500, "propane", "6.024590 gph"},
	} {
		got := must[units.FuelRate](t)(FiringRate(441000*units.BTUPerHour, 0.8, HHV(units.HeatingValueByVolume(c.value)*units.BTUPerGallon)))
		worked.Check(t, worked.Case{
			Question: "How much fuel does a heat of 441,000 BTU/h take?",
			Source:   "arithmetic V = Q/(η·HHV)",
			Status:   worked.Identity,
			Given:    []string{c.fuel, f("%g BTU/gal", c.value), "80 % on HHV"},
			Printed:  c.printed,
			Got:      got.In(units.GallonPerHour),
		})
	}
}

func TestPassWarming_worked(t *testing.T) {
	const source = "computed with python iapws 1.5.2 (IAPWS-IF97)"
	throttle := func(f float64) float64 {
		return must[units.TemperatureDelta](t)(ThrottleWarming(units.Fahrenheit(f), at27, atm)).In(units.FahrenheitDelta)
	}
	worked.Check(t, worked.Case{
		Question: "How much does water of 60 °F warm in a valve that takes 2,700 psi off it?",
		Source:   source, Status: worked.Computed,
		Given:   []string{"60 °F", "2,700 psi gauge to 1 atm"},
		Printed: "7.5756 °F", Got: throttle(60),
	})
	worked.Check(t, worked.Case{
		Question: "And hot water?",
		Source:   source, Status: worked.Computed,
		Given:   []string{"180 °F", "2,700 psi gauge to 1 atm"},
		Printed: "6.3163 °F", Got: throttle(180),
	})
	worked.Check(t, worked.Case{
		Question: "How much of the warming on one pass is the pump's?",
		Source:   source, Status: worked.Computed,
		Given:   []string{"60 °F", "0.101325 to 2,700 psi gauge", "constant entropy"},
		Printed: "0.407 °F",
		Got:     must[units.TemperatureDelta](t)(PumpWarming(units.Fahrenheit(60), atm, at27)).In(units.FahrenheitDelta),
	})
	worked.Check(t, worked.Case{
		Question: "How much does the whole pass through pump and valve warm the water?",
		Source:   source, Status: worked.Computed,
		Given:   []string{"60 °F", "2,700 psi up and down again"},
		Printed: "7.978 °F",
		Got:     must[units.TemperatureDelta](t)(PassWarming(units.Fahrenheit(60), atm, at27)).In(units.FahrenheitDelta),
	})
}

func TestHeatingDuty_worked(t *testing.T) {
	d := must[Duty](t)(HeatingDuty(6.3*units.GallonPerMinute, units.Fahrenheit(60), units.Fahrenheit(200), atm))
	worked.Check(t, worked.Case{
		Question: "By how much is the rule of 500 off, for 6.3 gpm from 60 to 200 °F?",
		Source:   "computed with python iapws 1.5.2 (IAPWS-IF97): 441,000/441,162.211 − 1", Status: worked.Computed,
		Given:   []string{"6.3 gpm, 60 to 200 °F, 1 atm"},
		Printed: "-0.03677 %", Got: d.Difference.In(units.Percent),
	})
	o := must[Outlet](t)(OutletTemperature(6.3*units.GallonPerMinute, units.Fahrenheit(60), 441162.211*units.BTUPerHour, atm))
	worked.Check(t, worked.Case{
		Question: "441,162 BTU/h go into 6.3 gpm of 60 °F: how hot does it come out?",
		Source:   "computed with python iapws 1.5.2 (IAPWS-IF97): the heat of 60 to 200 °F", Status: worked.Computed,
		Given:   []string{"441162.211 BTU/h", "6.3 gpm at 60 °F, 1 atm"},
		Printed: "200.0000 °F", Got: o.Temperature.Fahrenheit(),
	})
}
