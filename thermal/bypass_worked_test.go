package thermal

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestBypass_worked(t *testing.T) {
	heat := func(b Bypass) BypassHeating { return must[BypassHeating](t)(b.Heat()) }
	// 7.4 gpm at 180 psi and at 2,700 psi.
	const unloaded = 7.4 * 180 * 7 / 12000 * units.Horsepower
	const full = 7.4 * 2700 * 7 / 12000 * units.Horsepower
	loop := Bypass{Power: full, Volume: 0.6 * units.Gallon, Start: units.Fahrenheit(60), Limit: units.Fahrenheit(145), Pressure: atm}
	perMinute := func(d units.TemperatureDelta) float64 { return d.In(units.FahrenheitDelta) * 60 }

	worked.Check(t, worked.Case{
		Question: "How fast does the water warm that a pump drives round in its own bypass loop?",
		Source:   "trade rule dT/dt = hp·42.4/(8.34·gal)",
		Status:   worked.CommonPractice,
		Given:    []string{"7.4 gpm at 2,700 psi", "0.6 gal"},
		Printed:  "98.8 °F/min",
		Got:      perMinute(heat(loop).Rule),
	})
	worked.Check(t, worked.Case{
		Question: "The same by the heat capacity of water?",
		Source:   "computed with python iapws 1.5.2 (IAPWS-IF97): pump power over ρ·V·cp at 60 °F and 1 atm, ρ 999.01557 kg/m³, cp 4188.530 J/(kg·K)",
		Status:   worked.Computed,
		Given:    []string{"7.4 gpm at 2,700 psi", "0.6 gal", "60 °F"},
		Printed:  "98.76 °F/min",
		Got:      perMinute(heat(loop).Rate),
	})
	loop.Power = unloaded
	worked.Check(t, worked.Case{
		Question: "And when the unloader lets it run without pressure?",
		Source:   "trade rule dT/dt = hp·42.4/(8.34·gal)",
		Status:   worked.CommonPractice,
		Given:    []string{"7.4 gpm at 180 psi", "0.6 gal"},
		Printed:  "6.6 °F/min",
		Got:      perMinute(heat(loop).Rule),
	})
	tank := loop
	tank.Power, tank.Volume = full, 250*units.Gallon
	worked.Check(t, worked.Case{
		Question: "How fast does a 250 gal tank warm when the unloader returns to it?",
		Source:   "trade rule dT/dt = hp·42.4/(8.34·gal)",
		Status:   worked.CommonPractice,
		Given:    []string{"7.4 gpm at 2,700 psi", "250 gal"},
		Printed:  "14 °F/h",
		Got:      perMinute(heat(tank).Rule) * 60,
	})
}
