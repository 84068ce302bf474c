package units_test

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// Bores as pipe charts print them, to a thousandth of an inch.
func TestSteelPipe_B36_10(t *testing.T) {
	for _, c := range []struct {
		nominal  units.Length
		name     string
		schedule units.PipeSchedule
		printed  string
	}{
		{0.125 * units.Inch, "1/8 in schedule 40", 40, "0.269 in"},
		{0.125 * units.Inch, "1/8 in schedule 80", 80, "0.215 in"},
		{0.25 * units.Inch, "1/4 in schedule 40", 40, "0.364 in"},
		{0.25 * units.Inch, "1/4 in schedule 80", 80, "0.302 in"},
		{0.375 * units.Inch, "3/8 in schedule 40", 40, "0.493 in"},
		{0.375 * units.Inch, "3/8 in schedule 80", 80, "0.423 in"},
		{4 * units.Inch, "4 in schedule 40", 40, "4.026 in"},
		{4 * units.Inch, "4 in schedule 80", 80, "3.826 in"},
	} {
		p, err := units.SteelPipe(c.nominal, c.schedule)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "What is the true bore of a steel pipe?",
			Source:   "chart of ASME B36.10/B36.19 pipe, read in a public reproduction",
			Status:   worked.Published,
			Given:    []string{c.name},
			Printed:  c.printed,
			Got:      p.Bore.In(units.Inch),
		})
	}
	// The sizes of a tank outlet, as handbooks print them.
	for _, c := range []struct {
		nominal units.Length
		name    string
		printed string
	}{
		{0.5 * units.Inch, "1/2 in", "0.622 in"},
		{0.75 * units.Inch, "3/4 in", "0.824 in"},
		{1 * units.Inch, "1 in", "1.049 in"},
		{1.25 * units.Inch, "1-1/4 in", "1.380 in"},
		{1.5 * units.Inch, "1-1/2 in", "1.610 in"},
		{2 * units.Inch, "2 in", "2.067 in"},
		{2.5 * units.Inch, "2-1/2 in", "2.469 in"},
		{3 * units.Inch, "3 in", "3.068 in"},
		{6 * units.Inch, "6 in", "6.065 in"},
	} {
		p, err := units.SteelPipe(c.nominal, units.Schedule40)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "What is the true bore of a schedule 40 outlet?",
			Source:   "bores of schedule 40 pipe in handbooks of flow of fluids",
			Status:   worked.FromMemory,
			Given:    []string{c.name + " schedule 40"},
			Printed:  c.printed,
			Got:      p.Bore.In(units.Inch),
		})
	}
}

func TestAWG_B258(t *testing.T) {
	const library = "ASTM B258 diameters as tabulated in the library fluids 1.0.22 (AWG_inch)"
	for _, c := range []struct {
		size, printed string
	}{
		{"4/0", "0.46 in"},
		{"1/0", "0.3249 in"},
		{"1", "0.2893 in"},
		{"2", "0.2576 in"},
		{"6", "0.162 in"},
		{"10", "0.1019 in"},
		{"12", "0.0808 in"},
		{"14", "0.0641 in"},
		{"18", "0.0403 in"},
		{"36", "0.005 in"},
	} {
		w, err := units.AWG(c.size)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "How thick is a copper conductor?",
			Source:   library,
			Status:   worked.Computed,
			Given:    []string{c.size + " AWG"},
			Printed:  c.printed,
			Got:      w.Diameter.In(units.Inch),
		})
	}
	for _, c := range []struct {
		size, printed string
	}{
		// NEC chapter 9 table 8 lists these areas, from memory.
		{"12", "6530 cmil"},
		{"10", "10380 cmil"},
		{"6", "26240 cmil"},
		{"4/0", "211600 cmil"},
	} {
		w, err := units.AWG(c.size)
		if err != nil {
			t.Fatal(err)
		}
		k := worked.Case{
			Question: "What area does a conductor have?",
			Source:   "NEC (NFPA 70), Chapter 9, Table 8",
			Status:   worked.FromMemory,
			Given:    []string{c.size + " AWG"},
			Printed:  c.printed,
			Got:      w.Area.In(units.CircularMil),
		}
		if c.size == "6" || c.size == "10" {
			k.Tolerance, k.Reason = 15, "the table squares a diameter rounded to a tenth of a mil (162.0 mil gives 26244) and keeps four digits"
		}
		worked.Check(t, k)
	}
}

func TestHoseBore_ISO1307(t *testing.T) {
	for _, c := range []struct {
		nominal     units.Length
		name        string
		least, most string
	}{
		{0.25 * units.Inch, "1/4 in (6.3)", "6.2 mm", "7.0 mm"},
		{0.375 * units.Inch, "3/8 in (10)", "9.3 mm", "10.1 mm"},
		{0.5 * units.Inch, "1/2 in (12.5)", "12.3 mm", "13.5 mm"},
		{1 * units.Inch, "1 in (25)", "25.0 mm", "26.4 mm"},
		{2 * units.Inch, "2 in (51)", "50.4 mm", "52.0 mm"},
	} {
		h, err := units.HoseBore(c.nominal)
		if err != nil {
			t.Fatal(err)
		}
		for _, end := range []struct {
			question, printed string
			got               units.Length
		}{
			{"What is the smallest bore of a hose the standard lets pass?", c.least, h.Least},
			{"What is the largest bore of a hose the standard lets pass?", c.most, h.Most},
		} {
			worked.Check(t, worked.Case{
				Question: end.question,
				Source:   "ISO 1307:2006, Table 1, type A, read in a public reproduction",
				Status:   worked.Published,
				Given:    []string{c.name},
				Printed:  end.printed,
				Got:      end.got.In(units.Millimeter),
			})
		}
	}
}
