package fuel_test

import (
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// heating asks for a heating value as a table prints it.
func heating(t *testing.T, question, source string, status worked.Status, given, printed string, got, tolerance float64, reason string) {
	t.Helper()
	worked.Check(t, worked.Case{
		Question: question, Source: source, Status: status,
		Given: []string{given}, Printed: printed, Got: got,
		Tolerance: tolerance, Reason: reason,
	})
}

func row(t *testing.T, k fuel.Kind) fuel.Properties {
	t.Helper()
	p, err := fuel.PropertiesOf(k)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestProperties_heatingValuesAsPrinted(t *testing.T) {
	const (
		afdc  = "Alternative Fuels Data Center, U.S. Department of Energy, fuel properties (GREET)"
		greet = "GREET fuel specifications as reprinted by the Hydrogen Analysis Resource Center, Lower and Higher Heating Values of Hydrogen and Fuels"
		cfr   = "40 CFR 98, Subpart C, Table C-1 (81 FR 89188, 9 December 2016)"
	)
	for _, c := range []struct {
		source, given, printed string
		got                    float64
	}{
		{afdc, "gasoline, lower", "116,090 BTU/gal", row(t, fuel.GasolineE0).Lower.In(units.BTUPerGallon)},
		{afdc, "gasoline E10, lower", "112,114 BTU/gal", row(t, fuel.GasolineE10).Lower.In(units.BTUPerGallon)},
		{afdc, "gasoline E10, higher", "120,388 BTU/gal", row(t, fuel.GasolineE10).Higher.In(units.BTUPerGallon)},
		{afdc, "low-sulfur diesel, higher", "138,490 BTU/gal", row(t, fuel.Diesel2).Higher.In(units.BTUPerGallon)},
		{afdc, "propane, lower", "84,250 BTU/gal", row(t, fuel.Propane).Lower.In(units.BTUPerGallon)},
		{greet, "conventional gasoline, higher", "124,340 BTU/gal", row(t, fuel.GasolineE0).Higher.In(units.BTUPerGallon)},
		{greet, "low-sulfur diesel, lower", "129,488 BTU/gal", row(t, fuel.Diesel2).Lower.In(units.BTUPerGallon)},
		{cfr, "kerosene, higher", "135,000 BTU/gal", row(t, fuel.Kerosene).Higher.In(units.BTUPerGallon)},
	} {
		heating(t, "How much heat is in a gallon?", c.source, worked.Published, c.given, c.printed, c.got, 0, "")
	}
	// The same fuel by mass, which checks density and heating value together.
	for _, c := range []struct {
		given, printed string
		k              fuel.Kind
		lower          bool
	}{
		{"conventional gasoline, lower", "18,680 BTU/lb", fuel.GasolineE0, true},
		{"conventional gasoline, higher", "20,007 BTU/lb", fuel.GasolineE0, false},
		{"low-sulfur diesel, lower", "18,320 BTU/lb", fuel.Diesel2, true},
		{"low-sulfur diesel, higher", "19,594 BTU/lb", fuel.Diesel2, false},
	} {
		p := row(t, c.k)
		h := float64(p.Higher.ByVolume())
		if c.lower {
			h = float64(p.Lower.ByVolume())
		}
		heating(t, "How much heat is in a pound?", greet, worked.Published, c.given, c.printed,
			units.HeatingValueByMass(h/float64(p.Density)).In(units.BTUPerPound),
			4, "the source prints the density to 1 g/gal, 1 part in 2,800, and rounds heat by mass and by volume on its own")
	}
}

// TestHigherInput_burner is a burner plate: 4.75 gph of oil at 138,500 BTU/gal.
func TestHigherInput_burner(t *testing.T) {
	got, err := fuel.HigherInput(4.75*units.GallonPerHour, fuel.HigherHeatingValue(138_500*units.BTUPerGallon))
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A burner fires 4.75 gph of heating oil: what input should its plate say?",
		Source:   "4.75 × 138,500; heating oil 138,500 BTU/gal HHV is the figure of the U.S. Energy Information Administration",
		Status:   worked.Identity,
		Given:    []string{"4.75 gph", "138,500 BTU/gal HHV"},
		Printed:  "657,875 BTU/h",
		Got:      got.In(units.BTUPerHour),
	})
}
