package electrical_test

import (
	"errors"
	"fmt"
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// brutePlugs tries every assignment of a plan, and every start order of each.
type brutePlugs struct {
	margins map[string]float64 // every possible assignment, by the place of each load
	core    int                // size of a smallest set that cannot be placed, 0 if none
	out     int                // fewest loads to leave out
}

func bruteAssign(plan electrical.PlugPlan) brutePlugs {
	n, k := len(plan.Loads), len(plan.Places)
	stages := plan.Stages
	if len(stages) == 0 {
		all := electrical.Stage{}
		for _, l := range plan.Loads {
			all.On = append(all.On, l.Name)
		}
		stages = []electrical.Stage{all}
	}
	may := func(l, p int) bool {
		for _, c := range plan.Choices {
			if c.Load == plan.Loads[l].Name {
				return slices.Contains(c.Places, plan.Places[p].Name)
			}
		}
		return true
	}
	// Margin of every set of loads on every place, each by all its orders.
	table := make([][]float64, k)
	for p := range table {
		table[p] = make([]float64, 1<<n)
		limits := plan.Places[p].Limits
		for set := range table[p] {
			m := 1.0
			for _, st := range stages {
				var loads []electrical.Load
				var run complex128
				for l := range n {
					if set&(1<<l) == 0 {
						continue
					}
					if !may(l, p) {
						m = math.Inf(-1)
					}
					if slices.Contains(st.On, plan.Loads[l].Name) {
						loads = append(loads, plan.Loads[l])
						run += phasor(float64(plan.Loads[l].Running), float64(plan.Loads[l].RunningApparent))
					}
				}
				if len(loads) == 0 {
					continue
				}
				if limits.Start > 0 {
					peak := brute(loads, watts).best
					m = min(m, (float64(limits.Start)-peak)/float64(limits.Start))
				}
				if limits.Rated > 0 {
					m = min(m, (float64(limits.Rated)-real(run))/float64(limits.Rated))
				}
			}
			table[p][set] = m
		}
	}
	r := brutePlugs{margins: map[string]float64{}}
	placeable := make([]bool, 1<<n)
	at := make([]uint8, n)
	var visit func(l int, sub int)
	visit = func(l, sub int) {
		if l == n {
			sets := make([]int, k)
			for i, p := range at {
				if sub&(1<<i) != 0 {
					sets[p] |= 1 << i
				}
			}
			m := 1.0
			for p, set := range sets {
				m = min(m, table[p][set])
			}
			if sub == 1<<n-1 && !math.IsInf(m, -1) {
				r.margins[string(at)] = m
			}
			placeable[sub] = placeable[sub] || m >= float64(plan.Reserve)
			return
		}
		if sub&(1<<l) == 0 {
			at[l] = 0
			visit(l+1, sub)
			return
		}
		for p := range k {
			at[l] = uint8(p)
			visit(l+1, sub)
		}
	}
	all := 1<<n - 1
	visit(0, all)
	if placeable[all] {
		return r
	}
	r.core, r.out = n+1, n+1
	for sub := all - 1; sub >= 0; sub-- {
		visit(0, sub)
		if placeable[sub] {
			r.out = min(r.out, n-bits.OnesCount(uint(sub)))
		}
	}
	for sub, ok := range placeable {
		if !ok {
			r.core = min(r.core, bits.OnesCount(uint(sub)))
		}
	}
	return r
}

func randomPlan(rng *rand.Rand, n, k int) electrical.PlugPlan {
	plan := electrical.PlugPlan{Loads: randomLoads(rng, n, false, rng.IntN(2) == 0)}
	for p := range k {
		rated := units.Power(50 * (2 + rng.IntN(8)))
		plan.Places = append(plan.Places, electrical.Place{
			Name:   fmt.Sprintf("place-%d", p),
			Limits: electrical.Limits{Rated: rated, Start: rated + units.Power(50*rng.IntN(4))},
		})
	}
	for l := range n {
		if rng.IntN(4) == 0 {
			c := electrical.Choice{Load: plan.Loads[l].Name}
			for p := range k {
				if rng.IntN(2) == 0 {
					c.Places = append(c.Places, plan.Places[p].Name)
				}
			}
			if len(c.Places) > 0 {
				plan.Choices = append(plan.Choices, c)
			}
		}
	}
	if rng.IntN(2) == 0 {
		for s := range 1 + rng.IntN(3) {
			st := electrical.Stage{Name: fmt.Sprintf("stage-%d", s)}
			for _, l := range plan.Loads {
				if rng.IntN(3) > 0 {
					st.On = append(st.On, l.Name)
				}
			}
			plan.Stages = append(plan.Stages, st)
		}
	}
	if rng.IntN(3) == 0 {
		plan.Reserve = 0.125
	}
	return plan
}

func TestAssign_everyAssignment(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 26))
	passing := 0
	for c := range *bruteCases + *bruteCases/20 {
		n := rng.IntN(7)
		if c >= *bruteCases {
			n = 8
		}
		plan := randomPlan(rng, n, 1+rng.IntN(3))
		want := bruteAssign(plan)
		a, err := electrical.Assign(plan)
		if err != nil {
			t.Fatalf("case %d: %v", c, err)
		}
		fail := func(format string, args ...any) {
			t.Helper()
			t.Fatalf("case %d: %s\n%+v", c, fmt.Sprintf(format, args...), plan)
		}

		// Best, and yes or no.
		top := math.Inf(-1)
		var pass []string
		for at, m := range want.margins {
			top = max(top, m)
			if m >= float64(plan.Reserve) {
				pass = append(pass, at)
			}
		}
		best, ok := a.Best()
		if float64(best.Margin) != top || ok != (len(pass) > 0) {
			fail("best margin %v (passes %v), every assignment gives %v (%d pass)", best.Margin, ok, top, len(pass))
		}

		// All that pass, in order of margin, then of places.
		slices.SortFunc(pass, func(x, y string) int {
			if d := want.margins[y] - want.margins[x]; d != 0 {
				return int(math.Copysign(1, d))
			}
			return slices.Compare([]byte(x), []byte(y))
		})
		i := 0
		for got := range a.Passing() {
			if i == len(pass) {
				fail("more than %d assignments pass", len(pass))
			}
			var places []string
			for _, p := range []byte(pass[i]) {
				places = append(places, plan.Places[p].Name)
			}
			if !slices.Equal(got.Places, places) || float64(got.Margin) != want.margins[pass[i]] {
				fail("assignment %d is %v with %v, want %v with %v", i, got.Places, got.Margin, places, want.margins[pass[i]])
			}
			m := units.Ratio(1)
			for _, u := range got.Uses {
				m = min(m, u.RunningSlack, u.PeakSlack)
			}
			if m != got.Margin {
				fail("assignment %d: its uses leave %v, not %v", i, m, got.Margin)
			}
			i++
		}
		if i != len(pass) {
			fail("%d assignments pass, want %d", i, len(pass))
		}
		passing += i

		// What cannot be placed.
		core, out := a.Unplaceable(), a.LeaveOut()
		if len(core) != want.core || len(out) != want.out {
			fail("unplaceable %v, leave out %v, want sizes %d and %d", core, out, want.core, want.out)
		}
		if len(core) > 0 {
			if b := bruteAssign(only(plan, func(l string) bool { return slices.Contains(core, l) })); b.core != len(core) {
				fail("unplaceable %v can be placed, or is not smallest", core)
			}
			if b := bruteAssign(only(plan, func(l string) bool { return !slices.Contains(out, l) })); b.core != 0 {
				fail("without %v the rest cannot be placed", out)
			}
		}
	}
	if passing == 0 {
		t.Error("no assignment of any case passed: the cases are too hard to tell anything")
	}
}

// only is the plan with some of its loads.
func only(p electrical.PlugPlan, keep func(string) bool) electrical.PlugPlan {
	drop := func(s string) bool { return !keep(s) }
	p.Loads = slices.DeleteFunc(slices.Clone(p.Loads), func(l electrical.Load) bool { return drop(l.Name) })
	for i := range p.Loads {
		p.Loads[i].After = slices.DeleteFunc(slices.Clone(p.Loads[i].After), drop)
	}
	p.Choices = slices.DeleteFunc(slices.Clone(p.Choices), func(c electrical.Choice) bool { return drop(c.Load) })
	p.Stages = slices.Clone(p.Stages)
	for i := range p.Stages {
		p.Stages[i].On = slices.DeleteFunc(slices.Clone(p.Stages[i].On), drop)
	}
	return p
}

func drawPlan(g *property.G, n, k int) electrical.PlugPlan {
	plan := electrical.PlugPlan{Loads: drawLoads(g, n, true)}
	for p := range k {
		l := electrical.Limits{Rated: units.Power(g.LogFloat(1000, 8000))}
		l.Start = units.Power(float64(l.Rated) * g.Float(1, 2))
		if g.Bool() {
			l.RatedApparent = units.ApparentPower(float64(l.Rated) * g.Float(1, 1.4))
			l.StartApparent = units.ApparentPower(float64(l.RatedApparent) * g.Float(1, 2))
		}
		plan.Places = append(plan.Places, electrical.Place{Name: fmt.Sprintf("place-%d", p), Limits: l})
	}
	return plan
}

// Taking a load away never makes a plan fail, in watts and volt-amperes.
func TestAssign_fewerLoadsNeverFail(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		plan := drawPlan(g, g.Int(1, 7), g.Int(1, 3))
		a, err := electrical.Assign(plan)
		if err != nil {
			return err
		}
		gone := plan.Loads[g.Int(0, len(plan.Loads)-1)].Name
		b, err := electrical.Assign(only(plan, func(l string) bool { return l != gone }))
		if err != nil {
			return err
		}
		x, _ := a.Best()
		y, _ := b.Best()
		// The last bits of the sums depend on their order, and see
		// TestStarts_lessAsksNoMore for volt-amperes.
		const rounding = 1e-7
		if float64(y.Margin) < float64(x.Margin)-rounding*(1+math.Abs(float64(x.Margin))) {
			return fmt.Errorf("without %s the best margin falls from %v to %v", gone, float64(x.Margin), float64(y.Margin))
		}
		for _, u := range x.Uses {
			if min(u.RunningSlack, u.PeakSlack) < x.Margin-rounding {
				return fmt.Errorf("%s leaves less than the margin %v: %+v", u.Place, float64(x.Margin), u)
			}
		}
		return nil
	})
}

// A thinner air for one place never helps the plan.
func TestAssign_smallerLimitNeverHelps(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		plan := drawPlan(g, g.Int(0, 6), g.Int(1, 3))
		a, err := electrical.Assign(plan)
		if err != nil {
			return err
		}
		less := plan
		less.Places = slices.Clone(plan.Places)
		l := &less.Places[g.Int(0, len(less.Places)-1)].Limits
		f := units.Power(g.Float(0.5, 1))
		l.Rated *= f
		l.Start *= f
		b, err := electrical.Assign(less)
		if err != nil {
			return err
		}
		x, okA := a.Best()
		y, okB := b.Best()
		if y.Margin > x.Margin || okB && !okA {
			return fmt.Errorf("with less to give the best margin rises from %v to %v", float64(x.Margin), float64(y.Margin))
		}
		return nil
	})
}

func TestAssign_errors(t *testing.T) {
	good := func() electrical.PlugPlan {
		return electrical.PlugPlan{
			Loads:  washSide(),
			Places: []electrical.Place{{Name: "portable", Limits: electrical.Limits{Rated: 4800, Start: 5800}}, {Name: "belt", Limits: electrical.Limits{Rated: 2400, Start: 3000}}},
			Stages: []electrical.Stage{{Name: "wash", On: []string{"dump-pump"}}},
		}
	}
	for _, c := range []struct {
		name   string
		change func(*electrical.PlugPlan)
		path   string
		kind   error
	}{
		{"no place", func(p *electrical.PlugPlan) { p.Places = nil }, "places", units.ErrMissing},
		{"too many places", func(p *electrical.PlugPlan) {
			p.Places = make([]electrical.Place, electrical.MaxPlaces+1)
		}, "places", units.ErrRange},
		{"too many loads", func(p *electrical.PlugPlan) {
			p.Loads = make([]electrical.Load, electrical.MaxPlugLoads+1)
		}, "loads", units.ErrRange},
		{"bad load", func(p *electrical.PlugPlan) { p.Loads[0].Starting = 0 }, "loads[vacuum-left].starting", units.ErrMissing},
		{"nameless place", func(p *electrical.PlugPlan) { p.Places[1].Name = "" }, "places[#2].name", units.ErrMissing},
		{"twice the place", func(p *electrical.PlugPlan) { p.Places[1].Name = "portable" }, "places[portable].name", units.ErrConflict},
		{"bad limit", func(p *electrical.PlugPlan) { p.Places[1].Limits.Start = 5 }, "places[belt].limits.start", units.ErrConflict},
		{"volt-amperes", func(p *electrical.PlugPlan) { p.Places[1].Limits.StartApparent = 5000 }, "loads[vacuum-left].runningApparent", units.ErrMissing},
		{"after nothing", func(p *electrical.PlugPlan) { p.Loads[0].After = []string{"fan"} }, "loads[vacuum-left].after", units.ErrConflict},
		{"choice of nothing", func(p *electrical.PlugPlan) { p.Choices = []electrical.Choice{{Load: "fan", Places: []string{"belt"}}} }, "choices[fan].load", units.ErrConflict},
		{"two choices", func(p *electrical.PlugPlan) {
			p.Choices = []electrical.Choice{{Load: "dump-pump", Places: []string{"belt"}}, {Load: "dump-pump", Places: []string{"belt"}}}
		}, "choices[dump-pump].load", units.ErrConflict},
		{"no choice", func(p *electrical.PlugPlan) { p.Choices = []electrical.Choice{{Load: "dump-pump"}} }, "choices[dump-pump].places", units.ErrMissing},
		{"choice of no place", func(p *electrical.PlugPlan) {
			p.Choices = []electrical.Choice{{Load: "dump-pump", Places: []string{"shore"}}}
		}, "choices[dump-pump].places", units.ErrConflict},
		{"stage of nothing", func(p *electrical.PlugPlan) { p.Stages[0].On = []string{"fan"} }, "stages[wash].on", units.ErrConflict},
		{"nameless stage", func(p *electrical.PlugPlan) { p.Stages[0].Name = "" }, "stages[#1].name", units.ErrMissing},
		{"endless stage", func(p *electrical.PlugPlan) { p.Stages[0].Duration = units.Duration(math.Inf(1)) }, "stages[wash].duration", units.ErrRange},
		{"reserve", func(p *electrical.PlugPlan) { p.Reserve = units.Ratio(math.NaN()) }, "reserve", units.ErrRange},
	} {
		p := good()
		c.change(&p)
		_, err := electrical.Assign(p)
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path || !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v, want %v at %s", c.name, err, c.kind, c.path)
		}
	}
}

func TestAssign_none(t *testing.T) {
	a, err := electrical.Assign(electrical.PlugPlan{Places: []electrical.Place{{Name: "shore"}}})
	if err != nil {
		t.Fatal(err)
	}
	best, ok := a.Best()
	if !ok || best.Margin != 1 || len(best.Places) != 0 || a.Unplaceable() != nil || a.LeaveOut() != nil {
		t.Errorf("no loads: %+v, %v", best, ok)
	}
}

// Answers do not depend on who asks at the same time, nor on later changes to
// the caller's plan.
func TestPlugs_concurrent(t *testing.T) {
	plan := randomPlan(rand.New(rand.NewPCG(4, 4)), 6, 3)
	a, err := electrical.Assign(plan)
	if err != nil {
		t.Fatal(err)
	}
	want, _ := a.Best()
	for i := range plan.Loads {
		plan.Loads[i] = electrical.Load{}
	}
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			got, _ := a.Best()
			if d := cmp.Diff(want, got); d != "" {
				t.Error(d)
			}
		})
	}
	wg.Wait()
}

func TestLeaveOff_errors(t *testing.T) {
	plan := electrical.PlugPlan{
		Loads:  washSide(),
		Places: []electrical.Place{{Name: "portable", Limits: electrical.Limits{Rated: 4800, Start: 5800}}, {Name: "shore"}},
		Stages: []electrical.Stage{{Name: "wash", On: []string{"dump-pump"}, Duration: 3600}},
	}
	with := func(change func(*electrical.PlugPlan)) electrical.PlugPlan {
		p := plan
		p.Stages = slices.Clone(plan.Stages)
		change(&p)
		return p
	}
	set := electrical.Set{Place: "portable", Idle: 1e-7, Rated: 5e-7, Noise: 70}
	for _, c := range []struct {
		name string
		plan electrical.PlugPlan
		sets []electrical.Set
		path string
	}{
		{"no stages", with(func(p *electrical.PlugPlan) { p.Stages = nil }), nil, "stages"},
		{"no duration", with(func(p *electrical.PlugPlan) { p.Stages[0].Duration = 0 }), nil, "stages[wash].duration"},
		{"no such place", plan, []electrical.Set{{Place: "solar"}}, "sets[solar].place"},
		{"twice", plan, []electrical.Set{set, set}, "sets[portable].place"},
		{"no rating", plan, []electrical.Set{{Place: "shore"}}, "places[shore].limits.rated"},
		{"rated below idle", plan, []electrical.Set{{Place: "portable", Idle: 1e-7}}, "sets[portable].rated"},
		{"endless noise", plan, []electrical.Set{{Place: "portable", Noise: math.Inf(1)}}, "sets[portable].noise"},
		{"no number", plan, []electrical.Set{{Place: "portable", Idle: units.FuelRate(math.NaN())}}, "sets[portable].idle"},
	} {
		a, err := electrical.Assign(c.plan)
		if err != nil {
			t.Fatal(err)
		}
		_, err = a.LeaveOff(c.sets)
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path {
			t.Errorf("%s: got %v, want an error at %s", c.name, err, c.path)
		}
	}
}

func FuzzAssign(f *testing.F) {
	f.Add(uint64(1), 3, 2, 0.0)
	f.Add(uint64(7), 6, 3, 0.5)
	f.Fuzz(func(t *testing.T, seed uint64, n, k int, reserve float64) {
		if n < 0 || n > 7 || k < 1 || k > 4 {
			t.Skip()
		}
		plan := randomPlan(rand.New(rand.NewPCG(seed, 1)), n, k)
		plan.Reserve = units.Ratio(reserve)
		a, err := electrical.Assign(plan)
		if err != nil {
			if reserve >= 0 && reserve <= 1 {
				t.Fatal(err)
			}
			return
		}
		best, ok := a.Best()
		if ok != (a.Unplaceable() == nil) || ok != (a.LeaveOut() == nil) {
			t.Fatalf("passes %v, unplaceable %v, leave out %v", ok, a.Unplaceable(), a.LeaveOut())
		}
		last := best.Margin
		for x := range a.Passing() {
			if x.Margin > last || x.Margin < plan.Reserve {
				t.Fatalf("margin %v after %v, reserve %v", x.Margin, last, plan.Reserve)
			}
			last = x.Margin
		}
	})
}

func BenchmarkAssign(b *testing.B) {
	for _, c := range []struct{ n, k int }{{4, 2}, {8, 3}, {12, 4}, {16, 4}, {20, 4}} {
		b.Run(fmt.Sprintf("loads=%d/places=%d", c.n, c.k), func(b *testing.B) {
			rng := rand.New(rand.NewPCG(uint64(c.n), 20))
			plan := electrical.PlugPlan{Loads: randomLoads(rng, c.n, false, false)}
			var run float64
			for i := range plan.Loads {
				// Odd watts, so that hardly two sets of loads weigh the same.
				plan.Loads[i].Running += units.Power(rng.Float64())
				plan.Loads[i].Starting += 2
				run += float64(plan.Loads[i].Running)
			}
			for p := range c.k {
				rated := units.Power(run / float64(c.k) * (1 + 0.1*float64(p)))
				plan.Places = append(plan.Places, electrical.Place{Name: fmt.Sprint("p", p), Limits: electrical.Limits{Rated: rated, Start: 2 * rated}})
			}
			b.ReportAllocs()
			for b.Loop() {
				a, err := electrical.Assign(plan)
				if err != nil {
					b.Fatal(err)
				}
				if x, _ := a.Best(); len(x.Places) != c.n {
					b.Fatal("no answer")
				}
			}
		})
	}
}
