package thermal

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestSiegert_byCarbonDioxide(t *testing.T) {
	for _, c := range []struct {
		name    string
		fuel    SiegertFuel
		co2     float64
		printed string
	}{
		{"light heating oil", SiegertOil(), 12, "9.7333 %"},
		{"natural gas", SiegertNaturalGas(), 10, "9.2000 %"},
		{"liquefied petroleum gas", SiegertLPG(), 11, "9.2364 %"},
	} {
		got := must[units.Ratio](t)(c.fuel.LossByCarbonDioxide(units.Celsius(220), units.Celsius(20), units.Ratio(c.co2/100)))
		worked.Check(t, worked.Case{
			Question: "The gauge shows carbon dioxide instead of oxygen: how much of the heat goes up the stack?",
			Source:   "1. BImSchV: qA = (tA − tL)(A1/CO2 + B), arithmetic with A1 from memory",
			Status:   worked.FromMemory,
			Given:    []string{c.name, f("%g %% CO2", c.co2), "220 °C, air 20 °C"},
			Printed:  c.printed, Got: got.In(units.Percent),
		})
	}
}

// The constants are those gathered on another occasion, and the two forms of the
// formula are one: CO2 is CO2max·(21 − O2)/21, so A1·21/CO2max is A2. A1 and A2
// are rounded to 0.01, of A1 half a unit is up to 1.4 %.
func TestSiegert_constants(t *testing.T) {
	fuels := map[string]SiegertFuel{"light heating oil": SiegertOil(), "natural gas": SiegertNaturalGas(), "liquefied petroleum gas": SiegertLPG()}
	for _, r := range table(t, "siegert_constants.csv") {
		s, ok := fuels[r["fuel"]]
		if want := (SiegertFuel{r.num(t, "A1"), r.num(t, "A2"), r.num(t, "B")}); !ok || s != want {
			t.Errorf("%s: %+v, table %+v", r["fuel"], s, want)
		}
		most := r.num(t, "CO2max_vol_percent")
		near(t, r["fuel"]+": A1·21/CO2max", s.A1*21/most, s.A2, s.A2, 0.005/s.A1+0.005/s.A2)
		delete(fuels, r["fuel"])
	}
	if len(fuels) > 0 {
		t.Errorf("not in the table: %v", fuels)
	}
}
