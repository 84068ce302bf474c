package fuel_test

import (
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// purse are the demands of a two-gun rig on one engine, from the water power
// 6.8 gpm × 2,900 psi/1714 and a belt generator.
func purse(pump, generator units.Power) []fuel.Demand {
	return []fuel.Demand{
		{Name: "pump", Shaft: pump * units.Horsepower},
		{Name: "belt generator", Shaft: generator * units.Horsepower},
	}
}

func TestPowerBudget_oneEngineOnePurse(t *testing.T) {
	const source = "hand sum: pump 6.8 gpm × 2,900 psi/(1714 × 0.88 × 0.96) = 13.62 hp, generator 650 W or 3,600 W/(745.7 × 0.78 × 0.96)"
	for _, c := range []struct {
		question        string
		available       units.Power
		pump, generator units.Power
		printed         string
		got             func(fuel.Budget) float64
	}{
		{"Pump and burner off one engine at 5,200 ft and 95 °F: how much is asked?", 16.63, 13.62, 1.16, "14.78 hp",
			func(b fuel.Budget) float64 { return b.Total.In(units.Horsepower) }},
		{"Pump and burner off one engine at 5,200 ft and 95 °F: what is left?", 16.63, 13.62, 1.16, "11 %",
			func(b fuel.Budget) float64 { return 100 * float64(b.Margin) }},
		{"The same engine with everything on its belt generator: what is missing?", 16.63, 13.62, 6.45, "3.4 hp",
			func(b fuel.Budget) float64 { return b.Deficit.In(units.Horsepower) }},
		{"The same with everything on the belt, at sea level and 77 °F: what is left?", 20.70, 13.62, 6.45, "3 %",
			func(b fuel.Budget) float64 { return 100 * float64(b.Margin) }},
	} {
		b, err := fuel.PowerBudget(c.available*units.Horsepower, purse(c.pump, c.generator))
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: c.question,
			Source:   source,
			Status:   worked.Identity,
			Given: []string{
				"available " + (c.available*units.Horsepower).Text(units.Horsepower, 2),
				"pump " + (c.pump*units.Horsepower).Text(units.Horsepower, 2),
				"generator " + (c.generator*units.Horsepower).Text(units.Horsepower, 2),
			},
			Printed: c.printed,
			Got:     c.got(b),
		})
		if b.Largest != 0 || b.Name != "pump" {
			t.Errorf("%s: largest consumer is %d %q", c.question, b.Largest, b.Name)
		}
	}
}

func TestLargestPressure_byHand(t *testing.T) {
	got, err := fuel.LargestPressure(16.63*units.Horsepower, purse(13.62, 6.45), 0, 2900*units.PSI)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "With everything on the belt generator, what pump pressure still fits the engine?",
		Source:   "proportion worked by hand: 2,900 psi × (16.63 − 6.45)/13.62",
		Status:   worked.Identity,
		Given:    []string{"available 16.63 hp", "generator 6.45 hp", "pump 13.62 hp at 2,900 psi"},
		Printed:  "2,168 psi",
		Got:      got.In(units.PSI),
	})
}
