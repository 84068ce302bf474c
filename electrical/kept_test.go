package electrical_test

import (
	"fmt"
	"math/bits"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// A Starter that has had other loads says what StartsOn says, step by step.
func TestStarter_kept(t *testing.T) {
	var kept electrical.Starter
	property.Check(t, func(g *property.G) error {
		apparent := g.Bool()
		loads := drawLoads(g, g.Int(0, 12), apparent)
		limits := electrical.Limits{Start: units.Power(g.LogFloat(100, 1e4))}
		if apparent && g.Bool() {
			limits.StartApparent = units.ApparentPower(g.LogFloat(100, 1e4))
		}
		want, err := electrical.StartsOn(loads, limits)
		if err != nil {
			return err
		}
		if err := kept.Set(loads); err != nil {
			return err
		}
		got, err := kept.Peaks(limits)
		if p := (electrical.Peaks{Running: want.Running, Best: want.Best.Peak, Worst: want.Worst.Peak, Restart: want.Restart.Peak}); err != nil || got != p {
			return fmt.Errorf("%+v, %v; StartsOn says %+v", got, err, p)
		}
		i := 0
		var bad error
		if err := kept.EachBest(limits, func(starts uint64, before, peak electrical.Demand) {
			if i >= len(want.Best.Steps) {
				bad = fmt.Errorf("step %d of %d", i, len(want.Best.Steps))
				return
			}
			st := want.Best.Steps[i]
			i++
			if before != st.Before || peak != st.Peak || bits.OnesCount64(starts) != len(st.Start) {
				bad = fmt.Errorf("step %d: %+v to %+v with %b, not %+v", i, before, peak, starts, st)
			}
			for _, name := range st.Start {
				for k := range loads {
					if loads[k].Name == name && starts&(1<<k) == 0 {
						bad = fmt.Errorf("step %d: %s does not start in %b", i, name, starts)
					}
				}
			}
		}); err != nil {
			return err
		}
		if bad == nil && i != len(want.Best.Steps) {
			bad = fmt.Errorf("%d of %d steps", i, len(want.Best.Steps))
		}
		return bad
	})
}

func TestStarter_errors(t *testing.T) {
	var s electrical.Starter
	loads := []electrical.Load{{Name: "a", Running: 100, Starting: 200, Starts: electrical.ByHand}}
	if err := s.Set(loads); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Peaks(electrical.Limits{StartApparent: 1000}); err == nil {
		t.Error("volt-amperes that no load tells pass")
	}
	if err := s.EachBest(electrical.Limits{Start: -1}, func(uint64, electrical.Demand, electrical.Demand) {}); err == nil {
		t.Error("a limit below nothing passes")
	}
	loads[0].Starting = 50
	if err := s.Set(loads); err == nil {
		t.Error("a start below running passes")
	}
	if p, err := s.Peaks(electrical.Limits{}); err != nil || p != (electrical.Peaks{}) {
		t.Errorf("after an error: %+v, %v", p, err)
	}
}

// Plugs that have had other plans answer as those that were made for one, where every
// assignment is tried and where margins are halved.
func TestPlugs_kept(t *testing.T) {
	rng := rand.New(rand.NewPCG(25, 11))
	var kept electrical.Plugs
	for c := range *bruteCases {
		plan := randomPlan(rng, rng.IntN(8), 1+rng.IntN(4))
		for len(plan.Stages) == 0 {
			plan.Stages = append(plan.Stages, electrical.Stage{Name: "all", On: []string{}})
			for _, l := range plan.Loads {
				plan.Stages[0].On = append(plan.Stages[0].On, l.Name)
			}
		}
		var sets []electrical.Set
		for i := range plan.Stages {
			plan.Stages[i].Duration = units.Duration(600 * (1 + rng.IntN(20)))
		}
		for _, p := range plan.Places {
			if rng.IntN(2) == 0 {
				sets = append(sets, electrical.Set{Place: p.Name, Idle: 1e-7, Rated: 3e-7, Noise: float64(60 + rng.IntN(20))})
			}
		}
		a, err := electrical.Assign(plan)
		if err != nil {
			t.Fatal(err)
		}
		if err := kept.Set(plan); err != nil {
			t.Fatal(err)
		}
		best, passes := a.Best()
		if got, ok := kept.Best(); ok != passes || !cmp.Equal(got, best) {
			t.Fatalf("case %d: kept %+v, anew %+v", c, got, best)
		}
		for got := range kept.Passing() {
			if !passes || !cmp.Equal(got, best) {
				t.Fatalf("case %d: the first that passes is %+v, the best %+v (%v)", c, got, best, passes)
			}
			break
		}
		want, err := a.LeaveOff(sets)
		if err != nil {
			t.Fatal(err)
		}
		i := 0
		if err := kept.EachOff(sets, func(o electrical.Off) {
			if w := want[i]; plan.Places[o.Place].Name != w.Place || o.Passes != w.Passes || o.Hours != w.Hours || o.Fuel != w.Fuel {
				t.Fatalf("case %d: %+v, anew %+v", c, o, w)
			}
			i++
		}); err != nil || i != len(want) {
			t.Fatalf("case %d: %d of %d, %v", c, i, len(want), err)
		}
	}
}

func TestKept_allocations(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	plan := randomPlan(rng, 4, 2)
	plan.Choices = nil
	plan.Stages = []electrical.Stage{{Name: "all", On: []string{plan.Loads[0].Name, plan.Loads[1].Name}, Duration: 3600}}
	sets := []electrical.Set{{Place: plan.Places[0].Name, Idle: 1e-7, Rated: 3e-7}}
	var plugs electrical.Plugs
	var starter electrical.Starter
	all := func() {
		err := starter.Set(plan.Loads)
		if err == nil {
			_, err = starter.Peaks(electrical.Limits{Start: 100})
		}
		if err == nil {
			err = starter.EachBest(electrical.Limits{}, func(uint64, electrical.Demand, electrical.Demand) {})
		}
		if err == nil {
			err = plugs.Set(plan)
		}
		if err == nil {
			err = plugs.EachOff(sets, func(electrical.Off) {})
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if n := testing.AllocsPerRun(10, all); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// A Wire is its circuit with another supply, bit by bit, and refuses what that refuses.
func TestWire_kept(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		c := drawCircuit(g)
		w, err := c.Wire()
		if err != nil {
			return err
		}
		c.Supply = units.Voltage(g.LogFloat(0.5, 2e4)) // beyond both ends as well
		current, factor := units.Current(g.LogFloat(1e-7, 1e4)), units.Ratio(g.Float(0.01, 1.1))
		at := units.Voltage(g.LogFloat(0.5, 1000))
		same := func(what string, got, want electrical.Drop, err, err2 error) error {
			if got != want || fmt.Sprint(err) != fmt.Sprint(err2) {
				return fmt.Errorf("%s: wire %+v, %v; circuit %+v, %v", what, got, err, want, err2)
			}
			return nil
		}
		got, err := w.Drop(c.Supply, current, factor)
		want, err2 := c.Drop(current, factor)
		if err := same("drop", got, want, err, err2); err != nil {
			return err
		}
		got, err = w.StartDrop(c.Supply, current, at, factor)
		want, err2 = c.StartDrop(current, at, factor)
		return same("start", got, want, err, err2)
	})
	if _, err := (electrical.Circuit{Length: 1}).Wire(); err == nil {
		t.Error("a circuit without a gauge passes")
	}
}

// The fuller leg is the greater current of the balance.
func TestFullerLeg(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		loads := make([]electrical.LegLoad, g.Int(0, 8))
		told := g.Bool()
		for i := range loads {
			l := electrical.LegLoad{Name: fmt.Sprint("load-", i), Power: units.Power(g.LogFloat(20, 3000))}
			if told {
				l.Apparent = units.ApparentPower(float64(l.Power) * g.Float(1, 2))
			}
			switch g.Pick(4) {
			case 0:
				l.BothLegs = true
			case 1:
				l.Leg = g.Int(1, 2)
			}
			loads[i] = l
		}
		b, err := electrical.BalanceLegs(loads, 120)
		if err != nil {
			return err
		}
		if got, err := electrical.FullerLeg(loads, 120); err != nil || got != max(b.Current[0], b.Current[1]) {
			return fmt.Errorf("%v, %v; the balance has %v", got, err, b.Current)
		}
		return nil
	})
	if _, err := electrical.FullerLeg([]electrical.LegLoad{{Name: "a"}}, 120); err == nil {
		t.Error("a load of nothing passes")
	}
}
