package fuel_test

import (
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// kilograms of carbon dioxide a gallon.
const kilogramPerGallon = units.Density(1 / (231 * 0.0254 * 0.0254 * 0.0254))

func TestProperties_carbonDioxideAsPrinted(t *testing.T) {
	const (
		question = "How much carbon dioxide does a gallon make?"
		hub      = "U.S. Environmental Protection Agency, Emission Factors for Greenhouse Gas Inventories"
	)
	for _, c := range []struct {
		given, printed string
		got            units.Density
	}{
		{"motor gasoline", "8.78 kg/gal", row(t, fuel.GasolineE0).CarbonDioxide.Fossil},
		{"No. 2 fuel oil and diesel", "10.21 kg/gal", row(t, fuel.Diesel2).CarbonDioxide.Fossil},
		{"kerosene", "10.15 kg/gal", row(t, fuel.Kerosene).CarbonDioxide.Fossil},
		{"propane", "5.72 kg/gal", row(t, fuel.Propane).CarbonDioxide.Fossil},
	} {
		worked.Check(t, worked.Case{
			Question: question, Source: hub, Status: worked.Published,
			Given: []string{c.given}, Printed: c.printed, Got: c.got.In(kilogramPerGallon),
		})
	}
	worked.Check(t, worked.Case{
		Question: question, Source: hub, Status: worked.FromMemory,
		Given: []string{"biodiesel, from the fifth of B20, biogenic"}, Printed: "9.45 kg/gal",
		Got: row(t, fuel.BiodieselB20).CarbonDioxide.Biogenic.In(kilogramPerGallon) / 0.2,
	})
	// The other agency, which counts denaturant and carbon its own way.
	const eia = "U.S. Energy Information Administration, frequently asked question 307, 2015"
	for _, c := range []struct {
		given, printed string
		got            units.Density
	}{
		{"gasoline without ethanol", "19.64 lb/gal", row(t, fuel.GasolineE0).CarbonDioxide.Fossil},
		{"gasoline E10, fossil", "17.68 lb/gal", row(t, fuel.GasolineE10).CarbonDioxide.Fossil},
		{"gasoline E10, all", "18.95 lb/gal", row(t, fuel.GasolineE10).CarbonDioxide.Fossil + row(t, fuel.GasolineE10).CarbonDioxide.Biogenic},
		{"diesel", "22.38 lb/gal", row(t, fuel.Diesel2).CarbonDioxide.Fossil},
		{"B20, fossil", "17.90 lb/gal", row(t, fuel.BiodieselB20).CarbonDioxide.Fossil},
	} {
		worked.Check(t, worked.Case{
			Question: question, Source: eia, Status: worked.Published,
			Given: []string{c.given}, Printed: c.printed, Got: c.got.In(units.PoundPerGallon),
			Tolerance: 0.45, Reason: "ours is the factor of 40 CFR 98, this is another agency's; they differ by up to 2 %",
		})
	}
	// The same page prints 20.22 lb/gal for all of B20, which its own 17.90 and a
	// fifth of 20.13 do not make: 21.93. We hold to the parts.
	worked.Check(t, worked.Case{
		Question: question, Source: eia, Status: worked.Published,
		Given: []string{"biodiesel, from the fifth of B20"}, Printed: "20.13 lb/gal",
		Got:       row(t, fuel.BiodieselB20).CarbonDioxide.Biogenic.In(units.PoundPerGallon) / 0.2,
		Tolerance: 0.75, Reason: "40 CFR 98 and this agency differ by 3.5 % for biodiesel",
	})
}

// TestProperties_netHeatByDensity checks the lower heating values that were
// computed from density, and by the same line the two of diesel that disagree.
func TestProperties_netHeatByDensity(t *testing.T) {
	const source = "C. S. Cragoe, Thermal Properties of Petroleum Products, NBS Miscellaneous Publication 97, 1929: 19,960 − 3,780 d² + 1,362 d BTU/lb net; from memory"
	net := func(k fuel.Kind) float64 {
		d := row(t, k).Density.In(units.KilogramPerCubicMeter) / 999.016
		return 19_960 - 3_780*d*d + 1_362*d
	}
	lower := func(k fuel.Kind) float64 {
		p := row(t, k)
		return units.HeatingValueByMass(float64(p.Lower) / float64(p.Density)).In(units.BTUPerPound)
	}
	worked.Check(t, worked.Case{
		Question: "The sheet of No. 1 diesel gives its gravity only: how much heat is in a pound?",
		Source:   source, Status: worked.FromMemory,
		Given: []string{"41.5 °API, d = 0.8179"}, Printed: "18,545 BTU/lb", Got: lower(fuel.Diesel1),
		Tolerance: 2, Reason: "the row is rounded to 10 BTU/gal, 1.5 BTU/lb",
	})
	if n := net(fuel.Diesel1); n < 18_544 || n > 18_546 {
		t.Errorf("the formula gives %.1f BTU/lb for No. 1", n)
	}
	// NBS 97 claims 1 %; 129,488 BTU/gal is within 0.5 % of it and AFDC's 128,488
	// is 1.2 % below, so the table takes the former.
	if ratio := lower(fuel.Diesel2) / net(fuel.Diesel2); ratio < 0.995 || ratio > 1 {
		t.Errorf("lower heat of No. 2 is %.4f of what its density tells", ratio)
	}
	if ratio := lower(fuel.Diesel2) / net(fuel.Diesel2) * 128_488 / 129_488; ratio > 0.99 {
		t.Errorf("the other printed value is %.4f of what the density tells", ratio)
	}
}

func TestProperties_weightOfAGallon(t *testing.T) {
	for _, c := range []struct {
		given, printed, source string
		status                 worked.Status
		k                      fuel.Kind
		tolerance              float64
		reason                 string
	}{
		{"gasoline E0", "6.17 lb/gal", "EPA nonroad modelling convention, from memory", worked.FromMemory, fuel.GasolineE0, 0.06, "gasoline runs from 6.0 to 6.4 lb/gal with season"},
		{"diesel", "7.1 lb/gal", "trade", worked.CommonPractice, fuel.Diesel2, 0, ""},
		{"propane", "4.24 lb/gal", "handbook value at 60 °F, two public fuel tables", worked.Published, fuel.Propane, 0, ""},
		{"biodiesel, from the fifth of B20", "7.3 lb/gal", "Alternative Fuels Data Center, biodiesel basics: 7.3 lb/gal at 15.5 °C", worked.Published, fuel.BiodieselB20, 0.15, "printed density of ordinary biodiesel; GREET's, which the blend uses, is 7.41"},
	} {
		got := row(t, c.k).Density
		if c.k == fuel.BiodieselB20 {
			got = (got - 0.8*row(t, fuel.Diesel2).Density) / 0.2
		}
		worked.Check(t, worked.Case{
			Question: "What does a gallon of it weigh?", Source: c.source, Status: c.status,
			Given: []string{c.given}, Printed: c.printed, Got: got.In(units.PoundPerGallon),
			Tolerance: c.tolerance, Reason: c.reason,
		})
	}
	// Natural gas both ways: the density and the heat by mass give a printed heat by volume.
	worked.Check(t, worked.Case{
		Question: "How much heat is in a cubic foot of natural gas?",
		Source:   "Transportation Energy Data Book, as the Alternative Fuels Data Center prints it, lower",
		Status:   worked.Published,
		Given:    []string{"20,160 BTU/lb, 0.0458 lb/ft³"},
		Printed:  "923 BTU/ft³",
		Got:      row(t, fuel.NaturalGas).Lower.In(units.BTUPerCubicFoot),
	})
}

// The reprint of GREET gives heat by the pound and by the gallon, and the density
// between them.
func TestByMass_worked(t *testing.T) {
	higher, err1 := fuel.HigherByMass(20_007*units.BTUPerPound, row(t, fuel.GasolineE0).Density)
	lower, err2 := fuel.LowerByMass(18_680*units.BTUPerPound, row(t, fuel.GasolineE0).Density)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	const source = "GREET fuel specifications as reprinted by the Hydrogen Analysis Resource Center, Lower and Higher Heating Values of Hydrogen and Fuels"
	for _, c := range []struct {
		given, printed string
		got            float64
	}{
		{"gasoline, 20,007 BTU/lb higher, 2,819 g/gal", "124,340 BTU/gal", higher.In(units.BTUPerGallon)},
		{"gasoline, 18,680 BTU/lb lower, 2,819 g/gal", "116,090 BTU/gal", lower.In(units.BTUPerGallon)},
	} {
		worked.Check(t, worked.Case{
			Question: "A certificate gives heat by the pound: what is that by the gallon?",
			Source:   source, Status: worked.Published, Given: []string{c.given}, Printed: c.printed, Got: c.got,
			Tolerance: 25, Reason: "the source prints the density to 1 g/gal, half of which is 22 BTU/gal, and the heat to 1 BTU/lb, half of which is 3",
		})
	}
}
