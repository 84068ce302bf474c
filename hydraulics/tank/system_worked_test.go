package tank_test

import (
	"math"
	"testing"

	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

const byScipy = "SciPy 1.10.1, solve_ivp method Radau, physics written down again in transients.py"

// moment is the time of an event in the reference.
func moment(t *testing.T, name, what string) string {
	t.Helper()
	for _, r := range readTable(t, "transients.csv") {
		if r[0] == name && r[1] == what {
			return units.FormatNumber(num(t, r[2])/60, 5) + " min"
		}
	}
	t.Fatalf("%s has no %s", name, what)
	return ""
}

func TestFirstSpill_hydrant(t *testing.T) {
	c := references()["hydrant"]
	first, ok, err := c.s.FirstSpill(c.start, units.Hour)
	if err != nil || !ok || first.Tank != 0 {
		t.Fatalf("%v %v %v", first, ok, err)
	}
	worked.Check(t, worked.Case{
		Question: "The hydrant gives 50 gpm into the near tank: what overflows, and when?", Source: byScipy, Status: worked.Computed,
		Given:   []string{"240 gal and 160 gal, 30 in high, 10 gal in each", "3 ft of 2.067 in pipe, K = 2", "50 gpm into the greater"},
		Printed: moment(t, "hydrant", "spill begins"), Got: first.Time.In(units.Minute),
	})
	// 380 gal of room at 50 gpm are 7.6 min: the near tank spills before that, because
	// the far one stands lower by the head of 20 gpm in the crossover.
	if m := first.Time.In(units.Minute); m > 7.59 || m < 4.6 {
		t.Errorf("%.2f min", m)
	}
	o := must[*tank.Outcome](t)(c.s.Run(c.start, units.Hour, tank.RunOptions{StopAt: []tank.EventKind{tank.SpillBegins}}))
	sp := must[*tank.Spread](t)(c.s.Spread([]tank.Content{{Volume: 120 * units.Gallon}, {Volume: 80 * units.Gallon}}))
	h := must[[]units.Length](t)(c.s.Levels(o.End))
	near(t, "difference when it spills", float64(h[0]-h[1]), float64(sp.Difference), 1e-6)
}

func TestStranded_farTank(t *testing.T) {
	c := references()["two"]
	st := must[*tank.Stranding](t)(c.s.Stranded(c.start, 0))
	worked.Check(t, worked.Case{
		Question: "Two joined tanks are drawn at 7.1 gpm: when does the pump draw air?", Source: byScipy, Status: worked.Computed,
		Given:   []string{"0.9 m² and 0.5 m², the far floor 0.1 m higher", "1.2 m of 52.5 mm pipe, K = 1.5", "0.45 L/s from 0.15 m up"},
		Printed: moment(t, "two", "port dries"), Got: st.Time.In(units.Minute),
	})
	// The port stands at 0.15 m, the far sill at 0.12 m: what stands above 0.15 m there
	// would still come.
	want := math.Max(0, float64(st.Left[1].Volume)-0.5*0.05)
	near(t, "stranded", float64(st.Total), want, 1e-9)
}

// Nose up by six degrees the front tank runs into the rear one over its lid: what is
// left in front is what stands over no more than the rear edge.
func TestRun_noseUp(t *testing.T) {
	c := references()["slope"]
	o := must[*tank.Outcome](t)(c.s.Run(c.start, units.Hour, tank.RunOptions{}))
	// equal heights: h₁ cos 6° = 0.60 cos 6° − 2 sin 6°, h₁ = 0.6 − 2 tan 6° = 0.3898 m
	worked.Check(t, worked.Case{
		Question: "The rig is parked nose up by 6° with the crossover open: how much stays in the front tank?", Source: "0.8 m² · (0.60 m − 2 m · tan 6°), by hand", Status: worked.Identity,
		Given:   []string{"0.8 m² and 0.5 m², 2 m apart", "6° nose up", "rear edge 0.60 m"},
		Printed: "311.83 L", Got: o.End[0].Volume.In(units.Liter),
	})
	worked.Check(t, worked.Case{
		Question: "And what runs over the rear lid?", Source: "400 + 250 − 311.83 − 0.5 m² · 0.60 m, by hand", Status: worked.Identity,
		Given:   []string{"400 L in front, 250 L in the rear"},
		Printed: "38.17 L", Got: o.Spills[1].Volume.In(units.Liter),
	})
}

// Recovered water reaches the clean tank with the water: 100 gal of it levelled with
// 100 gal of clean water in equal tanks.
func TestRun_mixes(t *testing.T) {
	s := pair()
	s.Kinds = []string{"recovered"}
	v := 100 * units.Gallon / 2
	o := must[*tank.Outcome](t)(s.Run([]tank.Content{{Volume: v}, {Volume: 2 * v, Parts: []units.Volume{2 * v}}}, units.Hour, tank.RunOptions{}))
	worked.Check(t, worked.Case{
		Question: "50 gal of clean water and 100 gal of recovered water in equal tanks: what is in the clean tank after the valve was opened?", Source: "levels meet at 75 gal, so 25 gal came over", Status: worked.Identity,
		Given: []string{"50 gal clean", "100 gal recovered"}, Printed: "25.00 gal", Got: o.End[0].Parts[0].In(units.Gallon),
	})
}

func TestLargestFill_worked(t *testing.T) {
	// Until 98 % of 400 gal the far tank of 160 may lack 8 gal: 1.5 in. That head drives
	// through the crossover what a fill of q gives it, 0.4 q.
	s := references()["hydrant"].s
	s.Fills = append([]tank.Fill(nil), s.Fills...)
	q, full, err := s.LargestFill([]tank.Content{{}, {}}, 0, 0.98, 500*units.GallonPerMinute)
	if err != nil || full {
		t.Fatal(q, full, err)
	}
	x := must[units.VolumeFlow](t)(s.Links[0].Opening.Flow(1.5*units.Inch, referenceWater))
	near(t, "largest fill", float64(q), float64(x)/0.4, 1e-6)
	if _, full, err := s.LargestFill([]tank.Content{{}, {}}, 0, 0.5, 1*units.GallonPerMinute); err != nil || !full {
		t.Errorf("a trickle spills half way: %v %v", full, err)
	}
	if _, _, err := s.LargestFill([]tank.Content{{}, {}}, 0, 1, 500*units.GallonPerMinute); err == nil {
		t.Error("a flow that fills both to the last drop was found")
	}
}
