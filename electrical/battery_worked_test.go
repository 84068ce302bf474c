package electrical_test

import (
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestBattery_worked(t *testing.T) {
	b := electrical.Battery{Capacity: 100 * units.AmpereHour, Rate: 20 * units.Hour, Exponent: 1.2}
	for _, c := range []struct {
		question string
		current  units.Current
		printed  string
	}{
		{"A 100 Ah battery gives 5 A: for how long?", 5, "20 h"},
		{"And 10 A?", 10, "8.7055 h"},
		{"And 25 A?", 25, "2.89912 h"},
	} {
		r, err := b.Runtime(c.current)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: c.question, Source: "Peukert 1897, t = H·(C/(I·H))^k, worked by hand", Status: worked.Identity,
			Given: []string{"100 Ah at 20 h", "k = 1.2", c.current.String()}, Printed: c.printed, Got: r.In(units.Hour),
		})
	}
	k, err := electrical.PeukertExponent(5, 20*units.Hour, 60, 1*units.Hour)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A sheet gives 5 A for 20 h and 60 A for 1 h: which exponent is that?",
		Source:   "ln 20/ln 12", Status: worked.Identity, Given: []string{"5 A, 20 h", "60 A, 1 h"},
		Printed: "1.20557", Got: k,
	})
}

func TestCold_worked(t *testing.T) {
	for _, c := range []struct {
		fahrenheit   float64
		at           string
		gives, needs string
	}{{80, "80 °F", "100 %", "100 %"}, {32, "32 °F", "65 %", "155 %"}, {0, "0 °F", "40 %", "210 %"}, {-20, "-20 °F", "25 %", "350 %"}} {
		share, err := electrical.CapacityShare(units.Fahrenheit(c.fahrenheit))
		if err != nil {
			t.Fatal(err)
		}
		ask, err := electrical.CrankingDemand(units.Fahrenheit(c.fahrenheit))
		if err != nil {
			t.Fatal(err)
		}
		const source = "table handed on by workshops, two public copies"
		worked.Check(t, worked.Case{
			Question: "How much of its charge does a lead-acid battery give in the cold?", Source: source, Status: worked.CommonPractice,
			Given: []string{c.at}, Printed: c.gives, Got: share.In(units.Percent),
		})
		worked.Check(t, worked.Case{
			Question: "And how much more does the engine ask to be cranked?", Source: source, Status: worked.CommonPractice,
			Given: []string{c.at}, Printed: c.needs, Got: ask.In(units.Percent),
		})
	}
	r, err := electrical.Cranking(350, 0.75, 120, units.Fahrenheit(34))
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"350 A cold-cranking, three quarters charged", "starter 120 A at 80 °F", "34 °F"}
	worked.Check(t, worked.Case{
		Question: "What does the engine ask of the battery on a 34 °F morning?",
		Source:   "120 × [1.55 − 0.55 × 2/48]", Status: worked.CommonPractice, Given: given,
		Printed: "183 A", Got: r.Needed.In(units.Ampere),
	})
	worked.Check(t, worked.Case{
		Question: "And how much has it left over?",
		Source:   "350 × 0.75 = 262.5 A, not cut again for cold: (262.5 − 183.25)/262.5", Status: worked.CommonPractice, Given: given,
		Printed: "30 %", Got: r.Reserve.In(units.Percent),
	})
}

func TestDirect_worked(t *testing.T) {
	out, err := electrical.ChargingOutput([]electrical.OutputPoint{
		{Speed: 1800 * units.RPM, Output: 8}, {Speed: 3600 * units.RPM, Output: 20},
	}, 3200*units.RPM)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "The charging coil gives 8 A at 1,800 rpm and 20 A at 3,600 rpm: what at 3,200 rpm?",
		Source:   "straight line, 8 + 12 × 1,400/1,800", Status: worked.Identity, Given: []string{"3,200 rpm"},
		Printed: "17.3 A", Got: out.In(units.Ampere),
	})
	b, err := electrical.BudgetDirect(20, []electrical.DirectLoad{
		{Name: "clutch", Current: 5, Duty: 1}, {Name: "lights", Current: 6, Duty: 0.5}, {Name: "reel", Current: 45, Duty: 0.05},
	})
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"20 A charged", "clutch 5 A always, lights 6 A half the time, reel 45 A for 3 min of an hour"}
	worked.Check(t, worked.Case{
		Question: "20 A are charged; clutch, lights and reel draw: what is left for the battery on the average?",
		Source:   "20 − 5 − 3 − 2.25", Status: worked.Identity, Given: given, Printed: "9.75 A", Got: b.Net.In(units.Ampere),
	})
	worked.Check(t, worked.Case{
		Question: "And with everything on at once?",
		Source:   "20 − 5 − 6 − 45", Status: worked.Identity, Given: given, Printed: "-36 A", Got: b.PeakNet.In(units.Ampere),
	})
	d, err := electrical.SustainedDuty(12, 45, 0.85)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "12 A are to spare: how many minutes of an hour may a 45 A reel motor run without emptying the battery?",
		Source:   "balance of charge, 60 × 0.85 × 12/(33 + 10.2)", Status: worked.Identity, Given: []string{"12 A to spare", "45 A", "85 % of a charge comes back"},
		Printed: "14.2 min", Got: 60 * float64(d),
	})
	s, err := electrical.StandingTime(80*units.AmpereHour, 0.5, 0.05)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A tracker draws 50 mA from an 80 Ah battery of which half may be used: how many days may the trailer stand?",
		Source:   "80 × 0.5/0.05/24", Status: worked.Identity, Given: []string{"80 Ah", "half of it", "50 mA"},
		Printed: "33 d", Got: s.In(units.Day),
	})
	i, err := electrical.InverterInput(600, 0.88, 12, 12)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "An inverter makes 600 W from the 12 V battery: what does it draw?",
		Source:   "(600/0.88 + 12)/12", Status: worked.Identity, Given: []string{"600 W", "efficiency 0.88, 12 W idle", "12.0 V under load"},
		Printed: "57.8 A", Got: i.In(units.Ampere),
	})
	c := electrical.Circuit{Conductor: electrical.Conductor{Gauge: 8}, Length: 15 * units.Foot, Temperature: units.Celsius(75), Supply: 12.6}
	drop, err := c.Drop(45, 1)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "The reel motor's 45 A go through 15 ft of 8 AWG: how many volts reach it?",
		Source:   "12.6 − 2 × 15 × 0.778 × 45/1,000, NEC Chapter 9 Table 8", Status: worked.Identity, Given: []string{"12.6 V at the battery", "15 ft of 8 AWG stranded copper at 75 °C", "45 A"},
		Printed: "11.55 V", Got: drop.AtLoad.In(units.Volt),
	})
}

func TestLeakage_worked(t *testing.T) {
	sum, margin, err := electrical.SumLeakage([]electrical.Leak{{Name: "cord", Current: 1e-3}, {Name: "burner", Current: 2e-3}, {Name: "vacuum", Current: 0.5e-3}})
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"cord 1.0 mA, burner transformer 2.0 mA, vacuum 0.5 mA"}
	worked.Check(t, worked.Case{
		Question: "How much leaks behind one ground-fault outlet?",
		Source:   "sum", Status: worked.Identity, Given: given, Printed: "3.5 mA", Got: 1000 * sum.In(units.Ampere),
	})
	worked.Check(t, worked.Case{
		Question: "And how far is that from a trip?",
		Source:   "NFPA 70 (NEC) 2020, 422.5(A), Class A 4 to 6 mA: (4 − 3.5)/4", Status: worked.Published, Given: given, Printed: "12.5 %", Got: margin.In(units.Percent),
	})
}

func TestPumpCycles_worked(t *testing.T) {
	f, err := electrical.PumpCycles(2*units.Gallon, 5*units.GallonPerMinute, 10*units.GallonPerMinute)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A 10 gpm pump on a pressure switch draws down 2 gal while half of it is used: how often does it start?",
		Source:   "sump sizing T = 4·V/Q: 10 × 60/(4 × 2)", Status: worked.Identity, Given: []string{"2 gal between off and on", "5 gpm drawn, 10 gpm delivered"},
		Printed: "75 starts/h", Got: f.In(units.Hertz) * 3600,
	})
}
