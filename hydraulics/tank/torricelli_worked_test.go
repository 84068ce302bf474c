package tank_test

import (
	"math"
	"testing"

	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// bookGravity turns a time under standard gravity into one under the 9.81 m/s² of
// the books: it goes with 1/√g.
var bookGravity = math.Sqrt(float64(units.StandardGravity) / 9.81)

func TestDrainTime_textbooks(t *testing.T) {
	for _, c := range []struct {
		source, printed string
		area            units.Area
		bore, from      units.Length
		given           []string
	}{
		{"Choudhary and Om Prakash, Fluid Mechanics, Ex. 6.17 (12 min 30.8 s)", "750.8 s", circle(1.2), 50 * units.Millimeter, 3,
			[]string{"tank 1.2 m across", "orifice 50 mm", "H = 3 m", "C = 0.6", "g = 9.81 m/s²"}},
		{"Choudhary and Om Prakash, Fluid Mechanics, Ex. 6.19 (1 h 29 min 44.7 s)", "5384.7 s", 3.2, units.Length(math.Sqrt(4 / math.Pi * 10e-4)), 5,
			[]string{"A = 3.2 m²", "a = 10 cm²", "H = 5 m", "C = 0.6", "g = 9.81 m/s²"}},
	} {
		got := must[units.Duration](t)(tank.DrainTime(c.area, c.bore, 0.6, c.from, 0))
		worked.Check(t, worked.Case{
			Question: "How long does the tank take to run empty?", Source: c.source, Status: worked.Published,
			Given: c.given, Printed: c.printed, Got: got.In(units.Second) * bookGravity,
		})
	}
}

// A nominal pipe size is not its bore: that of 1-1/2 in pipe is 1.610 in, and the
// tank is empty a minute before the sum with 1.5 in says.
func TestDrainTime_trueBore(t *testing.T) {
	for _, c := range []struct{ bore, printed string }{
		{"1.610 in", "6.0 min"}, {"1.500 in", "6.9 min"}, {"2.067 in", "3.6 min"}, {"2.000 in", "3.9 min"},
	} {
		got := must[units.Duration](t)(tank.DrainTime(8.6*units.SquareFoot, units.MustParseLength(c.bore), 0.5, 26*units.Inch, 1*units.Inch))
		worked.Check(t, worked.Case{
			Question: "The dump valve of a 139 gal tank is opened: how long until an inch is left?",
			Source:   "Torricelli's formula by hand, 2 · 0.799 m²/(0.5 a √(2 g)) · (√0.6604 − √0.0254)", Status: worked.Identity,
			Given:   []string{"A = 8.6 ft²", "26 in to 1 in", "C = 0.5", "true bore " + c.bore},
			Printed: c.printed, Got: got.In(units.Minute),
		})
	}
	pipe := must[units.Duration](t)(tank.DrainTime(8.6*units.SquareFoot, 1.61*units.Inch, 0.5, 26*units.Inch, 1*units.Inch))
	if m := pipe.In(units.Minute); math.Abs(m-6.9) < 0.5 {
		t.Errorf("1-1/2 in pipe drains in %.1f min: the nominal size was taken for the bore", m)
	}
}

func TestEqualizingTime_byHand(t *testing.T) {
	for _, c := range []struct {
		to      units.Length
		printed string
	}{{0, "307.8571932 s"}, {0.5, "130.1157598 s"}} {
		got := must[units.Duration](t)(tank.EqualizingTime(2, 1, 50*units.Millimeter, 0.61, 1.5, c.to))
		worked.Check(t, worked.Case{
			Question: "Two tanks stand 1.5 m apart in level: how long does the opening between them take?",
			Source:   "2 A₁A₂/((A₁ + A₂) C a √(2 g)) (√H₁ − √H₂) with g = 9.80665 m/s², by hand", Status: worked.Identity,
			Given:   []string{"A₁ = 2 m²", "A₂ = 1 m²", "orifice 50 mm", "C = 0.61", "to " + c.to.Text(units.Meter, 1)},
			Printed: c.printed, Got: got.In(units.Second),
		})
	}
	// Identical tanks: a textbook problem asks for the time to level, A √H/(C a √(2 g)).
	same := must[units.Duration](t)(tank.EqualizingTime(1, 1, 50*units.Millimeter, 0.61, 1.5, 0))
	one := must[units.Duration](t)(tank.DrainTime(1, 50*units.Millimeter, 0.61, 1.5, 0))
	near(t, "identical tanks against one tank of half the area", float64(same), float64(one)/2, 1e-15)
}

// The published form of the flow through a short pipe between two tanks.
func TestOpening_crossover(t *testing.T) {
	for _, c := range []struct {
		head    units.Length
		printed string
	}{{0.05, "24.77525 gpm"}, {0.10, "35.03749 gpm"}, {0.30, "60.68672 gpm"}} {
		o := tank.Opening{Bore: 52.5 * units.Millimeter, K: 1.5 + 0.02*1/0.0525}
		got := must[units.VolumeFlow](t)(o.Flow(c.head, thin))
		worked.Check(t, worked.Case{
			Question: "What runs through a 2 in crossover at this difference of level?",
			Source:   "Q = A √(2 g Δh/(K + f L/D)) by hand, f constant", Status: worked.Identity,
			Given:   []string{"bore 52.5 mm", "K = 1.5", "f L/D = 0.02 · 1/0.0525", "Δh = " + c.head.Text(units.Meter, 2)},
			Printed: c.printed, Got: got.In(units.GallonPerMinute),
		})
		back := must[units.Length](t)(o.Head(got, thin))
		near(t, "head of that flow", float64(back), float64(c.head), 1e-13)
	}
}

func TestSteadyCrossing_worked(t *testing.T) {
	// Far tank half as wide: it gives a third of 7.4 gpm.
	o := tank.Opening{Bore: 2.067 * units.Inch, K: 2}
	x := must[tank.Crossing](t)(tank.SteadyCrossing(7.4*units.GallonPerMinute, 12*units.SquareFoot, 6*units.SquareFoot, o, thin))
	worked.Check(t, worked.Case{
		Question: "The pump draws from the near tank: what comes through the crossover?", Source: "share by area: 7.4 · 6/(12 + 6), by hand",
		Status: worked.Identity, Given: []string{"q = 7.4 gpm", "A = 12 and 6 ft²"}, Printed: "2.467 gpm", Got: x.Flow.In(units.GallonPerMinute),
	})
	// V = 0.40850 · 2.467/2.067² = 0.23585 ft/s; 2 V²/2g = 0.055625/32.174 ft.
	worked.Check(t, worked.Case{
		Question: "How much lower does the near tank stand meanwhile?", Source: "K V²/(2 g) by hand, V = 0.40850 gpm/in² ft/s",
		Status: worked.Identity, Given: []string{"2.467 gpm", "bore 2.067 in", "K = 2"}, Printed: "0.02075 in", Got: x.Difference.In(units.Inch),
	})
}
