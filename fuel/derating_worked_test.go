package fuel_test

import (
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// common is the rule of thumb for naturally aspirated engines.
var common = fuel.PlateDerating{PerThousandFeet: 0.035, PerTenFahrenheitAbove: 0.01}

// site is a place by its height and its air.
func site(feet, fahrenheit float64) fuel.Site {
	return fuel.Site{
		Elevation: units.ElevationAt(units.Length(feet) * units.Foot),
		Air:       units.Fahrenheit(fahrenheit),
	}
}

func TestPlateDerating_ruleOfThumb(t *testing.T) {
	for _, c := range []struct {
		given   []string
		feet, f float64
		printed string
	}{
		{[]string{"5,000 ft", "97 °F"}, 5000, 97, "0.8085"},
		{[]string{"5,000 ft", "77 °F"}, 5000, 77, "0.825"},
		{[]string{"sea level", "97 °F"}, 0, 97, "0.98"},
	} {
		s := site(c.feet, c.f)
		got, err := common.Factor(s.Elevation, s.Air)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "The plate takes off 3.5 % per 1,000 ft and 1 % per 10 °F above 77 °F. What share is left at the site?",
			Source:   "rule of thumb for naturally aspirated engines, worked by hand: (1 − 0.035 × 5)(1 − 0.01 × 2)",
			Status:   worked.CommonPractice,
			Given:    c.given,
			Printed:  c.printed,
			Got:      float64(got),
			// Products of three-digit numbers, given in full.
			Tolerance: 1e-15,
			Reason:    "the product is exact in the digits shown",
		})
	}
}

func TestEngine_availableAtSite(t *testing.T) {
	e := fuel.Engine{Gross: 23 * units.Horsepower, Continuous: 0.90, Plate: common}
	for _, c := range []struct {
		given   []string
		feet, f float64
		printed string
	}{
		{[]string{"23 hp gross", "continuous 0.90", "5,200 ft", "95 °F"}, 5200, 95, "16.63 hp"},
		{[]string{"23 hp gross", "continuous 0.90", "sea level", "77 °F"}, 0, 77, "20.70 hp"},
	} {
		got, err := e.Available(site(c.feet, c.f))
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "A 23 hp engine with a plate of 3.5 % per 1,000 ft and 1 % per 10 °F: what may be asked of it all day?",
			Source:   "hand sum with the rule of thumb: 23 × 0.90 × (1 − 0.035 h/1,000 ft)(1 − 0.01 ΔT/10 °F)",
			Status:   worked.CommonPractice,
			Given:    c.given,
			Printed:  c.printed,
			Got:      got.Power.In(units.Horsepower),
		})
	}
}
