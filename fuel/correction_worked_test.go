package fuel_test

import (
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestJ1349_testNotes(t *testing.T) {
	const source = "SAE J1349, June 1990, as worked in a public test note: 85 °F, 24.71 inHg absolute, 0.121 inHg of vapour"
	j := fuel.J1349{Ignition: fuel.Spark}
	f, err := j.Factor((24.71-0.121)*units.InchOfMercuryAbsolute, units.Fahrenheit(85))
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"85 °F", "24.71 inHg", "0.121 inHg of vapour"}
	worked.Check(t, worked.Case{
		Question: "An engine was tested on a warm day in the hills: by what is its power multiplied to compare it with the sheet?",
		Source:   source, Status: worked.Published, Given: given, Printed: "1.233", Got: 1 / float64(f),
	})
	worked.Check(t, worked.Case{
		Question: "What share of its rating did it give there?",
		Source:   source, Status: worked.Published, Given: given, Printed: "81.1 %", Got: 100 * float64(f),
	})
	for _, c := range []struct {
		given, printed string
		dry            units.AbsolutePressure
	}{
		{"990 mb dry, 25 °C: the standard's own air", "1.000", 99e3},
		{"850 mb dry, 25 °C", "1.19", 85e3},
	} {
		f, err := j.Factor(c.dry, units.Celsius(25))
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "By what does the standard multiply a power measured in this air?",
			Source:   "SAE J1349, June 1990, as worked in a public test note",
			Status:   worked.Published,
			Given:    []string{c.given}, Printed: c.printed, Got: 1 / float64(f),
		})
	}
}

func TestJ1349_standardAtmosphere(t *testing.T) {
	s := fuel.Site{Elevation: units.ElevationAt(5000 * units.Foot), Air: units.Celsius(25)}
	dry, err := s.DryPressure()
	if err != nil {
		t.Fatal(err)
	}
	f, err := fuel.J1349{Ignition: fuel.Spark}.Factor(dry, s.Air)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A carburetted engine at 5,000 ft and 77 °F: what share of its rating is left?",
		Source:   "U.S. Standard Atmosphere 1976, 843.0728 mb dry, in the formula of SAE J1349, worked by hand",
		Status:   worked.Identity,
		Given:    []string{"5,000 ft", "25 °C", "dry air"},
		Printed:  "0.8294312308",
		Got:      float64(f),
		// The pressure was given to seven digits.
		Tolerance: 1e-6, Reason: "the pressure of the hand sum has seven digits",
	})
}

func TestJ1349_compressionByHand(t *testing.T) {
	for _, c := range []struct {
		given   string
		j       fuel.J1349
		printed string
	}{
		{"naturally aspirated, engine factor 0.3: [(990/840)·(308/298)^0.7]^0.3", fuel.J1349{Ignition: fuel.Compression}, "0.945329"},
		{"turbocharged, engine factor 0.5: [(990/840)^0.7·(308/298)^1.2]^0.5", fuel.J1349{Ignition: fuel.Compression, Aspiration: fuel.Turbocharged, Fuel: 0.5}, "0.925603"},
		{"charge cooled, engine factor 0.5: [(990/840)^0.7·(308/298)^0.7]^0.5", fuel.J1349{Ignition: fuel.Compression, Aspiration: fuel.ChargeCooled, Fuel: 0.5}, "0.933272"},
	} {
		f, err := c.j.Factor(840*units.HectopascalAbsolute, units.Celsius(35))
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "A diesel in dry air of 840 mb and 35 °C: what share of its rating does SAE J1349 leave it?",
			Source:   "SAE J1349 with the exponents of ISO 1585 and ISO 15550 from memory, worked by hand",
			Status:   worked.FromMemory,
			Given:    []string{"840 mb dry, 35 °C", c.given},
			Printed:  c.printed,
			Got:      float64(f),
		})
	}
}

// TestJ1349_theTwoReferences: the standard's own air is 990 mb dry, but it also
// describes it as 100 kPa and 30 % humidity, which is not quite the same.
func TestJ1349_theTwoReferences(t *testing.T) {
	s := fuel.Site{Elevation: units.ElevationAt(0), Air: units.Celsius(25), Pressure: 100 * units.KilopascalAbsolute, Humidity: 0.30}
	dry, err := s.DryPressure()
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "Air of 100 kPa, 25 °C and 30 % humidity: what is its dry pressure?",
		Source:   "100 kPa less 0.30 of the saturation pressure of water at 25 °C, 3.1697 kPa (steam tables)",
		Status:   worked.Identity,
		Given:    []string{"100 kPa", "25 °C", "30 %"},
		Printed:  "990.49 mb",
		Got:      dry.In(units.HectopascalAbsolute),
	})
	f, err := fuel.J1349{Ignition: fuel.Spark}.Factor(990.49*units.HectopascalAbsolute, s.Air)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "And by what does the standard multiply a power measured in it?",
		Source:   "formula of SAE J1349 at 990.49 mb dry, worked by hand",
		Status:   worked.Identity,
		Given:    []string{"990.49 mb dry", "25 °C"},
		Printed:  "0.99942",
		Got:      1 / float64(f),
	})
}

func TestISO3046_byHand(t *testing.T) {
	for _, c := range []struct {
		given    []string
		engine   fuel.ISO3046
		humidity units.Ratio
		printed  string
	}{
		// 14.23 % at 308 K is the same share of vapour as the reference's 30 % at
		// 298 K, so that (p_x − φp_s)/(p_r − φ_r p_sr) is 84.3/100.
		{[]string{"compression, naturally aspirated", "84.3 kPa", "308 K", "vapour as in the reference", "η 0.80"},
			fuel.ISO3046{Ignition: fuel.Compression}, 0.1423, "0.7913"},
		{[]string{"spark, naturally aspirated", "84.3 kPa", "308 K", "vapour as in the reference", "η 0.80"},
			fuel.ISO3046{Ignition: fuel.Spark}, 0.1423, "0.8212"},
		{[]string{"compression, turbocharged", "84.3 kPa", "308 K", "η 0.80"},
			fuel.ISO3046{Ignition: fuel.Compression, Aspiration: fuel.Turbocharged}, 0, "0.8010"},
		{[]string{"compression, charge cooled, coolant 300 K", "84.3 kPa", "308 K", "η 0.90"},
			fuel.ISO3046{Ignition: fuel.Compression, Aspiration: fuel.ChargeCooled, Coolant: units.Kelvin(300), Mechanical: 0.90}, 0, "0.8353"},
		{[]string{"spark, turbocharged, coolant 300 K", "84.3 kPa", "308 K", "η 0.80"},
			fuel.ISO3046{Ignition: fuel.Spark, Aspiration: fuel.Turbocharged, Coolant: units.Kelvin(300)}, 0, "0.8596"},
	} {
		s := fuel.Site{Elevation: units.ElevationAt(0), Air: units.Kelvin(308), Pressure: 84.3 * units.KilopascalAbsolute, Humidity: c.humidity}
		f, err := c.engine.Factor(s)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "A hot place in the hills: what share of its rating does ISO 3046-1 leave the engine?",
			Source:   "ISO 3046-1, α = k − 0.7(1 − k)(1/η − 1) with its exponents from memory, worked by hand",
			Status:   worked.FromMemory,
			Given:    c.given, Printed: c.printed, Got: float64(f),
		})
	}
}

// TestCorrections_sideBySide is one engine at the same site by every rule.
func TestCorrections_sideBySide(t *testing.T) {
	e := fuel.Engine{Gross: 23 * units.Horsepower, Continuous: 0.9, Plate: common, Ignition: fuel.Spark}
	got, err := e.Corrections(site(5200, 95))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		given, source, printed string
		got                    units.Ratio
		status                 worked.Status
	}{
		{"rule of thumb", "(1 − 0.035 × 5.2)(1 − 0.01 × 1.8)", "0.803", got.Thumb, worked.CommonPractice},
		{"SAE J1349, dry air", "836.78 mb by the U.S. Standard Atmosphere 1976: 1/(1.18 × 990/836.78 × √(308/298) − 0.18)", "0.807", got.J1349, worked.Identity},
	} {
		worked.Check(t, worked.Case{
			Question: "The rig is to work at 5,200 ft and 95 °F: what does each rule leave of a carburetted engine?",
			Source:   c.source, Status: c.status,
			Given: []string{c.given}, Printed: c.printed, Got: float64(c.got),
		})
	}
	if got.Plate != got.Thumb {
		t.Errorf("the plate of the rule of thumb gives %v, the rule %v", got.Plate, got.Thumb)
	}
}
