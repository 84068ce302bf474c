package thermal

import (
	"testing"

	"example.com/washrig/internal/air"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// The questions of one invented rig: 6.8 gpm for two guns, 45 °F water heated to
// 166 °F, a heater of 84 % on 138,500 BTU/gal, clean to 4.75 gph in standard air, at
// 5,200 ft.
func TestRig_worked(t *testing.T) {
	const hand = "hand sum with the rule of 500"
	const rule = "the hand sum rounds the heat of water to 500 BTU/h per gpm and °F, within 0.8 % of the enthalpy"
	oil := HHV(138_500 * units.BTUPerGallon)
	in, set := units.Fahrenheit(45), units.Fahrenheit(166)
	line := (2760 * units.PSI).Above(0.825839 * units.AtmosphereAbsolute)
	site := units.AbsolutePressure(must[float64](t)(air.PressureAt(float64(5200 * units.Foot))))

	need := must[units.Power](t)(HeatRequired(6.8*units.GallonPerMinute, in, set, line))
	rate := must[units.FuelRate](t)(FiringRate(need, 0.84, oil))
	worked.Check(t, worked.Case{
		Question: "How much oil do two guns take?",
		Source:   hand, Status: worked.CommonPractice,
		Given: []string{"6.8 gpm, 45 to 166 °F", "84 % on 138,500 BTU/gal"}, Printed: "3.54 gph",
		Got: rate.In(units.GallonPerHour), Tolerance: 0.008 * 3.54, Reason: rule,
	})
	clean := must[units.FuelRate](t)(CleanFiring(4.75*units.GallonPerHour, site, units.Fahrenheit(95), 1))
	worked.Check(t, worked.Case{
		Question: "How much does the burner fire clean on the hot afternoon?",
		Source:   "4.75 gph × air density ratio 0.7722", Status: worked.Identity,
		Given: []string{"5,200 ft, 95 °F"}, Printed: "3.67 gph", Got: clean.In(units.GallonPerHour),
	})
	worked.Check(t, worked.Case{
		Question: "And on the cold morning, as a share of its sea-level rate?",
		Source:   "air density ratio of U.S. Standard Atmosphere 1976 pressure", Status: worked.Identity,
		Given: []string{"5,200 ft, 34 °F"}, Printed: "0.868",
		Got: float64(must[units.Ratio](t)(CleanFiringFactor(site, units.Fahrenheit(34)))),
	})
	output := must[units.Power](t)(HeatFromFiring(3.54*units.GallonPerHour, 0.84, oil))
	one := must[GunHeat](t)(HeatAtFlow(3.74*units.GallonPerMinute, in, output, set, line))
	worked.Check(t, worked.Case{
		Question: "One gun is let go and the thermostat sticks: how hot does the other get?",
		Source:   hand, Status: worked.CommonPractice,
		Given: []string{"3.54 gph fires on", "3.74 gpm"}, Printed: "265 °F", Got: one.Uncontrolled.Temperature.Fahrenheit(),
		Tolerance: 0.008 * 220, Reason: rule + ", here over a rise of 220 °F",
	})
	worked.Check(t, worked.Case{
		Question: "What share of the time must the thermostat let it fire?",
		Source:   "3.74/6.8, both guns needing all of the fire", Status: worked.CommonPractice,
		Given: []string{"3.74 gpm of 6.8"}, Printed: "55 %", Got: one.Duty.In(units.Percent),
	})
	worked.Check(t, worked.Case{
		Question: "At what temperature does water boil out of an open tip at this site?",
		Source:   "IAPWS-IF97 at 0.825839 atm, computed with python iapws 1.5.2", Status: worked.Computed,
		Given: []string{"5,200 ft"}, Printed: "202.5 °F", Got: must[units.Temperature](t)(BoilingPoint(site)).Fahrenheit(),
	})
	for _, c := range []struct {
		ft      float64
		printed string
	}{{4200, "204.3 °F"}, {7400, "198.4 °F"}} {
		p := units.AbsolutePressure(must[float64](t)(air.PressureAt(c.ft * 0.3048)))
		worked.Check(t, worked.Case{
			Question: "And elsewhere?",
			Source:   "IAPWS-IF97 at the pressure of U.S. Standard Atmosphere 1976", Status: worked.Computed,
			Given: []string{f("%g ft", c.ft)}, Printed: c.printed, Got: must[units.Temperature](t)(BoilingPoint(p)).Fahrenheit(),
		})
	}
	loop := must[BypassHeating](t)(Bypass{
		Power: 11.5 * units.Horsepower, Volume: 0.5 * units.Gallon, Start: in, Limit: units.Fahrenheit(145), Pressure: site,
	}.Heat())
	worked.Check(t, worked.Case{
		Question: "Both triggers are released and the unloader returns to the pump inlet: how fast does half a gallon warm?",
		Source:   "trade rule hp·42.4/(8.34·gal)", Status: worked.CommonPractice,
		Given: []string{"11.5 hp", "0.5 gal"}, Printed: "117 °F/min", Got: loop.Rule.In(units.FahrenheitDelta) * 60,
	})
	worked.Check(t, worked.Case{
		Question: "How long until the pump's limit of 145 °F?",
		Source:   "100 °F over 117 °F/min", Status: worked.CommonPractice,
		Given: []string{"11.5 hp", "0.5 gal from 45 °F"}, Printed: "0.85 min", Got: loop.Time.In(units.Minute), Tolerance: 0.007,
		Reason: "the hand sum takes water as 8.34 lb/gal and 1 BTU/(lb·°F), the enthalpy is 0.2 % off that, and 0.8547 is printed as 0.85",
	})
	tank := must[BypassHeating](t)(Bypass{
		Power: 11.5 * units.Horsepower, Volume: 240 * units.Gallon, Start: in, Limit: units.Fahrenheit(145), Pressure: site,
	}.Heat())
	worked.Check(t, worked.Case{
		Question: "And when it returns to a tank of 240 gallons?",
		Source:   "trade rule hp·42.4/(8.34·gal), 60 minutes", Status: worked.CommonPractice,
		Given: []string{"11.5 hp", "240 gal"}, Printed: "15 °F/h", Got: tank.Rule.In(units.FahrenheitDelta) * 3600,
		Tolerance: 0.5, Reason: "printed as about 15; 14.6 by the rule",
	})
	gph := must[units.Power](t)(HeatFromFiring(1*units.GallonPerHour, 0.82, oil))
	worked.Check(t, worked.Case{
		Question: "What rise does a gallon of oil an hour give to 7.4 gpm?",
		Source:   "trade rule: 138,500 BTU at 82 % over 500 × 7.4", Status: worked.CommonPractice,
		Given: []string{"1 gph", "7.4 gpm"}, Printed: "30.7 °F",
		Got: must[units.TemperatureDelta](t)(RiseByRuleOf500(7.4*units.GallonPerMinute, gph)).In(units.FahrenheitDelta),
	})
}

func TestStandingHeatUp_worked(t *testing.T) {
	h := Heater{Output: 100 * units.Kilowatt, Metal: 60, MetalHeat: 490, Water: 7 * units.Liter, Conductance: 2500}
	hot := units.Fahrenheit(166)
	got := must[HeatUp](t)(h.StandingHeatUp(HeaterState{hot, hot}, units.Fahrenheit(250), 5*units.MegapascalAbsolute))
	worked.Check(t, worked.Case{
		Question: "The flow switch sticks and the guns are shut: how fast does a coil of 60 kg and 7 L warm at 100 kW?",
		Source:   "by hand: 100 kW over 60 kg × 0.49 + 6.8 kg × 4.2 kJ/(kg·K)", Status: worked.Identity,
		Given: []string{"100 kW", "60 kg of steel, 7 L of water, 166 °F"}, Printed: "1.7 K/s", Got: float64(got.Rate),
	})
}
