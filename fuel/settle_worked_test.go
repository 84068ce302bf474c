package fuel_test

import (
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// straight is an engine whose full-throttle power is a straight line, 12 kW at
// 2,000 rpm and 18 kW at 3,600 rpm, governed to 3,750 rpm without load and 3,600
// at full load.
func straight(t *testing.T) fuel.Engine {
	t.Helper()
	curve, err := fuel.NewPowerCurve([]fuel.PowerPoint{
		{Speed: 2000 * units.RPM, Power: 12 * units.Kilowatt},
		{Speed: 3600 * units.RPM, Power: 18 * units.Kilowatt},
	})
	if err != nil {
		t.Fatal(err)
	}
	return fuel.Engine{
		Gross: 18 * units.Kilowatt, Continuous: 0.9, Curve: curve,
		Governor: fuel.Governor{NoLoad: 3750 * units.RPM, Droop: 150. / 3600},
	}
}

func TestSettle_byAlgebra(t *testing.T) {
	const engine = "12 kW at 2,000 rpm and 18 kW at 3,600 rpm, straight between; 3,750 rpm without load"
	for _, c := range []struct {
		question, source string
		demands          []fuel.Demand
		given, printed   string
		got              func(fuel.Settling) float64
	}{
		{"The pump is held at its pressure by the unloader: at what speed does the engine carry it?",
			"18(3750 − n)/150 = 12n/3600, so n = 450/0.123333",
			[]fuel.Demand{{Name: "pump", Shaft: 12 * units.Kilowatt, Exponent: fuel.ConstantTorque}},
			"pump 12 kW at 3,600 rpm", "3,648.6 rpm",
			func(s fuel.Settling) float64 { return s.Speed.In(units.RPM) }},
		{"The pump asks for more than full throttle gives: where does the engine settle?",
			"4.5 + 0.00375n = 20n/3600, so n = 4.5/0.00180556",
			[]fuel.Demand{{Name: "pump", Shaft: 20 * units.Kilowatt, Exponent: fuel.ConstantTorque}},
			"pump 20 kW at 3,600 rpm", "2,492.3 rpm",
			func(s fuel.Settling) float64 { return s.Speed.In(units.RPM) }},
		{"A generator that keeps its load asks for 20 kW: what is missing?",
			"20 − 18",
			[]fuel.Demand{{Name: "generator", Shaft: 20 * units.Kilowatt, Exponent: fuel.ConstantPower}},
			"generator 20 kW at any speed", "2.000 kW",
			func(s fuel.Settling) float64 { return s.Deficit.In(units.Kilowatt) }},
	} {
		got, err := straight(t).Settle(site(0, 77), c.demands)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: c.question, Source: "algebra: " + c.source, Status: worked.Identity,
			Given: []string{engine, c.given}, Printed: c.printed, Got: c.got(got),
		})
	}
}
