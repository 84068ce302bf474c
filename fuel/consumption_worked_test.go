package fuel_test

import (
	"encoding/csv"
	"math"
	"os"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestSpecificRate_byHand(t *testing.T) {
	p, err := row(t, fuel.GasolineE0).With(fuel.Certificate{Density: 6.17 * units.PoundPerGallon})
	if err != nil {
		t.Fatal(err)
	}
	got, err := fuel.SpecificRate(0.5*units.PoundPerHorsepowerHour, 20*units.Horsepower, p)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "An engine gives 20 hp at 0.5 lb/(hp·h): how many gallons an hour?",
		Source:   "20 × 0.5/6.17",
		Status:   worked.Identity,
		Given:    []string{"20 hp", "0.5 lb/(hp·h)", "gasoline at 6.17 lb/gal"},
		Printed:  "1.6207455429 gph",
		Got:      got.In(units.GallonPerHour),
	})
}

// TestBurn_efficiencyOfSpecific ties specific consumption to efficiency by the
// heat of a horsepower hour, 2,544.43 BTU.
func TestBurn_efficiencyOfSpecific(t *testing.T) {
	p := row(t, fuel.GasolineE0)
	lower, err := fuel.LowerByMass(18_676*units.BTUPerPound, p.Density)
	if err != nil {
		t.Fatal(err)
	}
	if p, err = p.With(fuel.Certificate{Lower: lower}); err != nil {
		t.Fatal(err)
	}
	heat := units.Power(0.5*18_676*20) * units.BTUPerHour
	w := fuel.Willans{Rated: 20 * units.Horsepower, NoLoad: 0.3 * heat, FullLoad: heat}
	b, err := w.Burn(w.Rated, p)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "What efficiency is 0.50 lb/(hp·h) of gasoline?",
		Source:   "2544.4336/(0.50 × 18,676)",
		Status:   worked.Identity,
		Given:    []string{"0.50 lb/(hp·h)", "18,676 BTU/lb lower"},
		Printed:  "0.2724816449",
		Got:      float64(b.Efficiency),
		// The hand sum has 2544.4336 in eight digits.
		Tolerance: 5e-9, Reason: "the hand sum takes 2544.4336 for 2544.43358",
	})
	if lb := b.Specific.In(units.PoundPerHorsepowerHour); math.Abs(lb-0.5) > 1e-12 {
		t.Errorf("the same point is %.15g lb/(hp·h)", lb)
	}
}

// chart reads the part-load table: kW and four rates, at quarters of the load.
func chart(t *testing.T) (kw []float64, points [][]fuel.ConsumptionPoint) {
	t.Helper()
	f, err := os.Open("testdata/diesel_generator_fuel.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range rows[1:] {
		size := parse(t, c[0])
		kw = append(kw, size)
		var line []fuel.ConsumptionPoint
		for q := 1; q <= 4; q++ {
			line = append(line, fuel.ConsumptionPoint{
				Load: units.Power(size*float64(q)/4) * units.Kilowatt,
				Rate: units.FuelRate(parse(t, c[q])) * units.GallonPerHour,
			})
		}
		points = append(points, line)
	}
	return kw, points
}

func TestFitWillans_partLoadTable(t *testing.T) {
	p := row(t, fuel.Diesel2)
	kw, tables := chart(t)
	if len(kw) != 6 {
		t.Fatalf("%d sizes", len(kw))
	}
	for i, points := range tables {
		fit, err := fuel.FitWillans(points, p)
		if err != nil {
			t.Fatal(err)
		}
		if kw[i] == 20 {
			for q, printed := range []string{"0.6 gph", "0.9 gph", "1.3 gph", "1.6 gph"} {
				b, err := fit.Willans.Burn(points[q].Load, p)
				if err != nil {
					t.Fatal(err)
				}
				worked.Check(t, worked.Case{
					Question: "Does one straight line say what a 20 kW diesel generator burns at any load?",
					Source:   "approximate fuel consumption chart for diesel generator sets, printed on several public pages",
					Status:   worked.Published,
					Given:    []string{[]string{"quarter", "half", "three quarter", "full"}[q] + " load"},
					Printed:  printed,
					Got:      b.Rate.In(units.GallonPerHour),
				})
			}
		}
		worst, at := 0.0, 0
		for q, point := range points {
			b, err := fit.Willans.Burn(point.Load, p)
			if err != nil {
				t.Fatal(err)
			}
			if off := math.Abs(float64(b.Rate/point.Rate) - 1); off > worst {
				worst, at = off, q
			}
		}
		if math.Abs(worst-float64(fit.Worst)) > 1e-12 || at != fit.At {
			t.Errorf("%g kW: the line is %.4f off at point %d, said to be %.4f at %d", kw[i], worst, at, float64(fit.Worst), fit.At)
		}
		// Every size of the chart is straight within 5 %, of which its rounding to
		// 0.1 gph is up to 4 % at the smallest.
		if fit.Worst > 0.05 {
			t.Errorf("%g kW: the line is %.1f %% off at point %d", kw[i], 100*fit.Worst, fit.At)
		}
		// The class of small diesels is said to burn 0.15 to 0.30 of full-load fuel
		// without load; the larger sets of the chart go below.
		if share := float64(fit.Willans.NoLoad / fit.Willans.FullLoad); share > 0.30 || kw[i] <= 60 && share < 0.15 {
			t.Errorf("%g kW: %.3f of the fuel without load", kw[i], share)
		}
	}
}

// TestTypicalConsumption_diesel holds the class against the smallest generator
// of the chart, through an alternator.
func TestTypicalConsumption_diesel(t *testing.T) {
	p := row(t, fuel.Diesel2)
	const alternator = 0.88
	typical, err := fuel.TypicalConsumption(fuel.SmallDiesel, 20/alternator*units.Kilowatt)
	if err != nil {
		t.Fatal(err)
	}
	b, err := typical.Usual.Burn(10/alternator*units.Kilowatt, p)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question:  "A 20 kW diesel generator at half load, and no fuel table: what does it burn?",
		Source:    "approximate fuel consumption chart for diesel generator sets, printed on several public pages",
		Status:    worked.Published,
		Given:     []string{"10 kW through an alternator of 0.88"},
		Printed:   "0.9 gph",
		Got:       b.Rate.In(units.GallonPerHour),
		Tolerance: 0.20, Reason: "a class of engine against one of its kind: the band of the class is ± 20 %",
	})
}

// tractor is the fuel of a gasoline tractor engine in L/(kW·h) at a share X of
// its power, ASAE D497, from memory.
func tractor(X float64) float64 { return 2.74*X + 3.15 - 0.203*math.Sqrt(697*X) }

func TestTypicalConsumption_gasoline(t *testing.T) {
	p := row(t, fuel.GasolineE0)
	typical, err := fuel.TypicalConsumption(fuel.SmallGasoline, 20*units.Horsepower)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		given, printed string
		line           fuel.Willans
	}{
		{"least", "0.50 lb/(hp·h)", typical.Low},
		{"most", "0.60 lb/(hp·h)", typical.High},
	} {
		b, err := c.line.Burn(20*units.Horsepower, p)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "What does a small carburetted engine burn at full load?",
			Source:   "the trade's band for small gasoline engines",
			Status:   worked.CommonPractice,
			Given:    []string{c.given},
			Printed:  c.printed,
			Got:      b.Specific.In(units.PoundPerHorsepowerHour),
		})
	}
	half, err := typical.High.Burn(10*units.Horsepower, p)
	if err != nil {
		t.Fatal(err)
	}
	full, err := typical.High.Burn(20*units.Horsepower, p)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "At half its load a thirsty gasoline engine burns what share of full-load fuel?",
		Source:   "ASAE D497, gasoline tractors: 0.5 (2.74/2 + 3.15 − 0.203 √348.5)/(2.74 + 3.15 − 0.203 √697)",
		Status:   worked.FromMemory,
		Given:    []string{"half load"},
		Printed:  "0.688",
		Got:      float64(half.Rate / full.Rate),
		// 0.38 without load is that curve drawn straight and rounded to 0.01, which
		// is 0.005 at half load.
		Tolerance: 0.005, Reason: "the line's share without load is rounded to 0.01, half of which counts at half load",
	})
	// Over the loads that the curve is for, the line stays within 5 % of full-load
	// fuel.
	for X := 0.2; X <= 1; X += 0.01 {
		b, err := typical.High.Burn(units.Power(20*X)*units.Horsepower, p)
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(float64(b.Rate/full.Rate) - X*tractor(X)/tractor(1)); d > 0.05 {
			t.Errorf("at %.2f of the load the line is %.3f off", X, d)
		}
	}
}

func TestGenerator_tradeRule(t *testing.T) {
	// A portable generator of 4.8 kW on a small gasoline engine: 3 kW of load
	// through an alternator of 0.80.
	typical, err := fuel.TypicalConsumption(fuel.SmallGasoline, 4.8/0.80*units.Kilowatt)
	if err != nil {
		t.Fatal(err)
	}
	b, err := typical.Usual.Burn(4.8/0.80*units.Kilowatt, row(t, fuel.GasolineE10))
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question:  "How many gallons does a portable generator burn for a kilowatt hour?",
		Source:    "rule of thumb: 0.12 to 0.2 gal/(kW·h), the middle",
		Status:    worked.CommonPractice,
		Given:     []string{"4.8 kW, full load", "alternator 0.80"},
		Printed:   "0.16 gal/(kW·h)",
		Got:       b.Rate.In(units.GallonPerHour) / 4.8,
		Tolerance: 0.04, Reason: "half the width of the rule's band",
	})
}

func TestIdleDown_byHand(t *testing.T) {
	p := row(t, fuel.GasolineE10)
	w, err := fuel.WillansFromPlate(
		fuel.ConsumptionPoint{Rate: 0.40 * units.GallonPerHour},
		fuel.ConsumptionPoint{Load: 10 * units.Horsepower, Rate: 1.0 * units.GallonPerHour}, p)
	if err != nil {
		t.Fatal(err)
	}
	got, err := fuel.IdleDown(w, p, 3600*units.RPM, 1800*units.RPM)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "The engine idles down from 3,600 to 1,800 rpm while nobody washes: what does that save?",
		Source:   "0.40 × (1 − 1800/3600), friction alone",
		Status:   worked.Identity,
		Given:    []string{"0.40 gph without load at 3,600 rpm"},
		Printed:  "0.20 gph",
		Got:      got.Saved.In(units.GallonPerHour),
	})
}

// TestIdleDown_againstTractorTests: the throttled-back formula of ASABE EP496,
// from tractor tests, saves 88 % of what constant friction does, which is what
// the doc says.
func TestIdleDown_againstTractorTests(t *testing.T) {
	// (0.22 X + 0.096)(1 − (−0.0045 X N + 0.00877 N)) L/(kW·h), N the per cent of
	// speed taken off; R. Grisso and others, 2004, from memory. Without load X = 0.
	for _, N := range []float64{10, 20, 30} {
		theirs := 0.00877 * N
		p := row(t, fuel.Diesel2)
		w := fuel.Willans{Rated: 10 * units.Kilowatt, NoLoad: 9.6 * units.Kilowatt, FullLoad: 31.6 * units.Kilowatt}
		got, err := fuel.IdleDown(w, p, 2400*units.RPM, units.RotationalSpeed(2400*(1-N/100))*units.RPM)
		if err != nil {
			t.Fatal(err)
		}
		if ratio := theirs / float64(got.Saved/got.Governed); math.Abs(ratio-0.877) > 1e-9 {
			t.Errorf("%g %% off: tractor tests save %.4f of ours", N, ratio)
		}
	}
}

func TestBurner_byHand(t *testing.T) {
	b := fuel.Burner{Firing: 3.5 * units.GallonPerHour, Duty: 0.55}
	got, err := b.Average()
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "The burner fires 3.5 gph and runs 55 % of the clock: what does it use an hour?",
		Source:   "3.5 × 0.55",
		Status:   worked.Identity,
		Given:    []string{"3.5 gph", "duty 0.55"},
		Printed:  "1.925 gph",
		Got:      got.In(units.GallonPerHour),
	})
	firing, err := fuel.FiringFor(490_290*units.BTUPerHour, fuel.HigherHeatingValue(138_500*units.BTUPerGallon))
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "The plate says 490,290 BTU/h input: what nozzle rate is that?",
		Source:   "490,290/138,500",
		Status:   worked.Identity,
		Given:    []string{"490,290 BTU/h", "138,500 BTU/gal HHV"},
		Printed:  "3.54 gph",
		Got:      firing.In(units.GallonPerHour),
	})
}
