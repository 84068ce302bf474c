package thermal

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestFanSpeed_worked(t *testing.T) {
	const kloss = "M. Kloss 1916 and the affinity laws, 4k/(Δ/559.81 + 559.81/Δ) = (n/3,450)² with k = (V/120 · 60/f)², solved with scipy 1.10.1 (brentq)"
	m := InductionFan{Slip: 150. / 3600, Breakdown: 2}
	for _, c := range []struct {
		question string
		V, hz    float64
		printed  string
	}{
		{"The burner gets 96 of its 120 V: how much of its air is left?", 96, 60, "97.1968 %"},
		{"And 110 V at 55 Hz, with the engine pulled down?", 110, 55, "92.0455 %"},
	} {
		worked.Check(t, worked.Case{
			Question: c.question, Source: kloss, Status: worked.Computed,
			Given:   []string{"two poles, 3,450 rpm at 120 V and 60 Hz", "breakdown torque twice the rated one", f("%g V, %g Hz", c.V, c.hz)},
			Printed: c.printed,
			Got:     must[units.Ratio](t)(m.FanSpeed(units.Ratio(c.V/120), units.Ratio(c.hz/60))).In(units.Percent),
		})
	}
	worked.Check(t, worked.Case{
		Question: "A 12 V burner gets 10 V at the end of its cable: how fast does its fan turn?",
		Source:   "0.8 n + 0.2 n² = 10/12, solved by hand",
		Status:   worked.Identity,
		Given:    []string{"windings take 20 % of the voltage at rated load", "10 V of 12 V"},
		Printed:  "85.77 %",
		Got:      must[units.Ratio](t)(DCFan{0.2}.FanSpeed(10. / 12)).In(units.Percent),
	})
}
