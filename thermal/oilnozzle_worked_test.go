package thermal

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestNozzle_worked(t *testing.T) {
	for _, c := range []struct {
		gph     units.FuelRate
		given   string
		printed string
	}{
		{1, "1.00 gph nozzle", "1.18 gph"}, {1.3, "1.30 gph nozzle", "1.54 gph"},
	} {
		worked.Check(t, worked.Case{
			Question: "What does an oil nozzle pass when the pump is set to 140 psi?",
			Source:   "published nozzle table, flow = rating × √(p/100)",
			Status:   worked.Published,
			Given:    []string{c.given, "140 psi"}, Printed: c.printed,
			Got: must[units.FuelRate](t)(NozzleFlow(c.gph*units.GallonPerHour, 140*units.PSI)).In(units.GallonPerHour),
		})
	}
	for _, r := range table(t, "oil_burner_pressure_factor.csv") {
		p := r.num(t, "pressure_psi")
		worked.Check(t, worked.Case{
			Question: "By what factor does the flow of an oil nozzle differ from its rating?",
			Source:   "arithmetic √(p/100 psi)", Status: worked.Identity,
			Given: []string{f("%g psi", p)}, Printed: r["flow_factor_vs_100_psi"],
			Got: must[units.FuelRate](t)(NozzleFlow(1*units.GallonPerHour, units.Pressure(p)*units.PSI)).In(units.GallonPerHour),
		})
	}
	worked.Check(t, worked.Case{
		Question: "To what pressure must the oil pump be set for 3.54 gph through a nozzle of 3.00?",
		Source:   "p = 100 psi × (3.54/3.00)²", Status: worked.Identity,
		Given: []string{"3.00 gph nozzle"}, Printed: "139.24 psi",
		Got: must[units.Pressure](t)(NozzlePressure(3*units.GallonPerHour, 3.54*units.GallonPerHour)).In(units.PSI),
	})
	worked.Check(t, worked.Case{
		Question: "How much denser is heating oil of 850 kg/m³ when it is 10 K warmer?",
		Source:   "ASTM D1250, Table 54B: volume correction factor of density 850 at 25 °C",
		Status:   worked.FromMemory,
		Given:    []string{"850 kg/m³ at 15 °C", "25 °C"}, Printed: "0.9917",
		Got: float64(must[units.Density](t)(OilDensity(850, units.Celsius(25)))) / 850,
	})
}

func TestNozzleChoice_worked(t *testing.T) {
	worked.Check(t, worked.Case{
		Question: "The pump is set to 140 psi and 3.54 gph are wanted: which nozzle?",
		Source:   "3.54 gph/√1.4", Status: worked.Identity,
		Given: []string{"3.54 gph at 140 psi"}, Printed: "2.992 gph",
		Got: must[units.FuelRate](t)(NozzleRating(3.54*units.GallonPerHour, 140*units.PSI)).In(units.GallonPerHour),
	})
	worked.Check(t, worked.Case{
		Question: "The oil comes cold, 6 cSt instead of 2.5 and 870 kg/m³ instead of 850: what does the nozzle pass of what it did?",
		Source:   "by hand: √(850/870) × (√(850/870) × 2.5/6)^−0.02, the exponent by Jones 1982 from memory", Status: worked.FromMemory,
		Given: []string{"6 cSt, 870 kg/m³; rated at 2.5 cSt, 850 kg/m³"}, Printed: "1.00613",
		Got: float64(must[units.Ratio](t)(NozzleOilFactor(Oil{870, 6 * units.Centistokes}, Oil{850, 2.5 * units.Centistokes}))),
	})
}
