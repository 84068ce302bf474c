package electrical_test

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestBalanceLegs_everyShare(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 24))
	for c := range 400 {
		n := rng.IntN(9)
		apparent := rng.IntN(2) == 0
		loads := make([]electrical.LegLoad, n)
		s := make([]complex128, n)
		for i := range loads {
			p := float64(50 * (1 + rng.IntN(30)))
			loads[i] = electrical.LegLoad{Name: fmt.Sprintf("l%d", i), Power: units.Power(p)}
			if apparent {
				loads[i].Apparent = units.ApparentPower(p + float64(10*rng.IntN(40)))
			}
			s[i] = phasor(p, float64(loads[i].Apparent))
			switch rng.IntN(4) {
			case 0:
				loads[i].BothLegs = true
			case 1:
				loads[i].Leg = 1 + rng.IntN(2)
			}
		}
		got, err := electrical.BalanceLegs(loads, 120)
		if err != nil {
			t.Fatal(err)
		}
		least := math.Inf(1)
		for set := range 1 << n {
			var legs [2]complex128
			ok := true
			for i, l := range loads {
				leg := set >> i & 1
				switch {
				case l.BothLegs:
					legs[0] += s[i] / 2
					legs[1] += s[i] / 2
				case l.Leg > 0 && l.Leg-1 != leg:
					ok = false
				default:
					legs[leg] += s[i]
				}
			}
			if ok {
				least = min(least, max(cmplx.Abs(legs[0]), cmplx.Abs(legs[1])))
			}
		}
		const rounding = 1e-10 // A; sums in another order
		if top := float64(max(got.Current[0], got.Current[1])); math.Abs(top-least/120) > rounding {
			t.Fatalf("case %d: %v A on the fuller leg, every share gives %v\n%+v", c, top, least/120, loads)
		}
		var legs [2]complex128
		for i, l := range loads {
			in := [2]bool{slices.Contains(got.First, l.Name), slices.Contains(got.Second, l.Name)}
			if l.BothLegs != (!in[0] && !in[1]) || in[0] && in[1] || l.Leg > 0 && !in[l.Leg-1] {
				t.Fatalf("case %d: %s lies on %v", c, l.Name, in)
			}
			for k := range in {
				if in[k] {
					legs[k] += s[i]
				}
				if l.BothLegs {
					legs[k] += s[i] / 2
				}
			}
		}
		if neutral := cmplx.Abs(legs[0]-legs[1]) / 120; math.Abs(float64(got.Neutral)-neutral) > rounding || got.FromPower == (apparent || n == 0) {
			t.Fatalf("case %d: neutral %v, want %v; from power %v", c, got.Neutral, neutral, got.FromPower)
		}
	}
}

func TestBalanceLegs_errors(t *testing.T) {
	many := make([]electrical.LegLoad, electrical.MaxLegLoads+1)
	for i := range many {
		many[i] = electrical.LegLoad{Name: fmt.Sprint(i), Power: 100}
	}
	for _, c := range []struct {
		name  string
		loads []electrical.LegLoad
		volts units.Voltage
		path  string
	}{
		{"no volts", nil, 0, "legVoltage"},
		{"no name", []electrical.LegLoad{{Power: 1}}, 120, "loads[#1].name"},
		{"no power", []electrical.LegLoad{{Name: "a"}}, 120, "loads[a].power"},
		{"volt-amperes", []electrical.LegLoad{{Name: "a", Power: 100, Apparent: 90}}, 120, "loads[a].apparent"},
		{"leg", []electrical.LegLoad{{Name: "a", Power: 100, Leg: 3}}, 120, "loads[a].leg"},
		{"both and one", []electrical.LegLoad{{Name: "a", Power: 100, Leg: 1, BothLegs: true}}, 120, "loads[a].leg"},
		{"twice", []electrical.LegLoad{{Name: "a", Power: 100}, {Name: "a", Power: 100}}, 120, "loads[a].name"},
		{"too many", many, 120, "loads"},
	} {
		_, err := electrical.BalanceLegs(c.loads, c.volts)
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path {
			t.Errorf("%s: got %v, want an error at %s", c.name, err, c.path)
		}
	}
}

func TestBalanceLegs_worked(t *testing.T) {
	b, err := electrical.BalanceLegs([]electrical.LegLoad{
		{Name: "heater", Power: 2400, BothLegs: true},
		{Name: "vacuum", Power: 1200},
		{Name: "pump", Power: 960},
		{Name: "burner", Power: 600},
	}, 120)
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"240 V heater 2,400 W", "120 V vacuum 1,200 W, pump 960 W, burner 600 W", "watts only"}
	for _, c := range []struct {
		question, sum, printed string
		got                    units.Current
	}{
		{"A 120/240 V set feeds a 240 V heater and three 120 V loads: what is the least that the fuller leg carries?", "pump and burner on one leg: (1,200 + 960 + 600)/120", "23.0 A", max(b.Current[0], b.Current[1])},
		{"And the other leg?", "the vacuum alone: (1,200 + 1,200)/120", "20.0 A", min(b.Current[0], b.Current[1])},
		{"And the neutral?", "23 − 20, the heater needs none", "3.0 A", b.Neutral},
	} {
		worked.Check(t, worked.Case{Question: c.question, Source: "hand sum: " + c.sum, Status: worked.Identity, Given: given, Printed: c.printed, Got: c.got.In(units.Ampere)})
	}
}

func BenchmarkBalanceLegs(b *testing.B) {
	rng := rand.New(rand.NewPCG(8, 8))
	for _, n := range []int{6, electrical.MaxLegLoads} {
		loads := make([]electrical.LegLoad, n)
		for i := range loads {
			loads[i] = electrical.LegLoad{Name: fmt.Sprint(i), Power: units.Power(100 + 1000*rng.Float64())}
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := electrical.BalanceLegs(loads, 120); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
