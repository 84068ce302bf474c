package electrical_test

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// bruteCases is the number of random cases of up to six loads whose start order,
// and whose assignment to places, is compared with every one there is; one
// twentieth of it is tried with eight loads.
var bruteCases = flag.Int("electrical.brute", bruteUsual(), "random start orders and assignments compared with an exhaustive search; a quarter where PROPERTY_CASES is set")

// bruteUsual is a quarter of 10,000 where fewer random cases than usual are
// wanted, as under the race detector.
func bruteUsual() int {
	if os.Getenv("PROPERTY_CASES") != "" {
		return 2_500
	}
	return 10_000
}

// bruteStart is what every order of the loads comes to, by trying them all.
// Volt-amperes are added as complex numbers, P + jN.
type bruteStart struct {
	best, worst float64 // by the yardstick
}

func brute(loads []electrical.Load, cost func(complex128) float64) bruteStart {
	n := len(loads)
	run, up := make([]complex128, n), make([]complex128, n)
	for i, l := range loads {
		run[i] = phasor(float64(l.Running), float64(l.RunningApparent))
		up[i] = phasor(float64(l.Starting), float64(l.StartingApparent))
	}
	waits := func(i int, done []bool) bool {
		for _, name := range loads[i].After {
			for j, l := range loads {
				if l.Name == name && !done[j] {
					return true
				}
			}
		}
		return false
	}
	var autoRun, autoUp complex128
	autos := 0
	for i, l := range loads {
		if l.Starts == electrical.ByItself {
			autoRun += run[i]
			autoUp += up[i]
			autos++
		}
	}
	res := bruteStart{best: math.Inf(1), worst: math.Inf(-1)}
	done := make([]bool, n)
	// visit starts the remaining hand loads in every order; autoAt is the
	// number of hand loads still to go when those that start by themselves do.
	var visit func(left int, running complex128, peak float64, autoAt int, record func(float64))
	visit = func(left int, running complex128, peak float64, autoAt int, record func(float64)) {
		if autos > 0 && left == autoAt {
			peak = max(peak, cost(running+autoUp))
			running += autoRun
		}
		if left == 0 {
			record(peak)
			return
		}
		for i, l := range loads {
			if l.Starts != electrical.ByHand || done[i] || waits(i, done) {
				continue
			}
			done[i] = true
			visit(left-1, running+run[i], max(peak, cost(running+up[i])), autoAt, record)
			done[i] = false
		}
	}
	hand := n - autos
	visit(hand, 0, 0, 0, func(p float64) { res.best = min(res.best, p) })
	for at := 0; at <= hand; at++ {
		visit(hand, 0, 0, at, func(p float64) { res.worst = max(res.worst, p) })
		if autos == 0 {
			break
		}
	}
	return res
}

func phasor(p, s float64) complex128 {
	if s == 0 {
		return complex(p, 0)
	}
	return complex(p, math.Sqrt(max(s*s-p*p, 0)))
}

func watts(s complex128) float64 { return real(s) }

// randomLoads draws loads of whole tens of watts out of a short range, so that
// ties are common and sums are exact.
func randomLoads(rng *rand.Rand, n int, apparent, precedence bool) []electrical.Load {
	loads := make([]electrical.Load, n)
	for i := range loads {
		run := 10 * float64(1+rng.IntN(12))
		start := run + 10*float64(rng.IntN(16))
		l := electrical.Load{
			Name:     fmt.Sprintf("load-%d", i),
			Running:  units.Power(run),
			Starting: units.Power(start),
			Starts:   electrical.ByHand,
		}
		if rng.IntN(3) == 0 {
			l.Starts = electrical.ByItself
		}
		if apparent {
			l.RunningApparent = units.ApparentPower(run + 5*float64(rng.IntN(8)))
			l.StartingApparent = max(units.ApparentPower(start+5*float64(rng.IntN(20))), l.RunningApparent)
		}
		loads[i] = l
	}
	if precedence {
		// Arrows from earlier to later places of a random order make no circle.
		order := rng.Perm(n)
		for a := range order {
			for b := a + 1; b < n; b++ {
				i, j := order[a], order[b]
				if rng.IntN(4) == 0 && loads[i].Starts == electrical.ByHand && loads[j].Starts == electrical.ByHand {
					loads[j].After = append(loads[j].After, loads[i].Name)
				}
			}
		}
	}
	return loads
}

func TestStarts_everyOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(20, 26))
	for c := range *bruteCases + *bruteCases/20 {
		n := rng.IntN(7)
		if c >= *bruteCases {
			n = 8
		}
		loads := randomLoads(rng, n, false, c%2 == 1)
		want := brute(loads, watts)
		if n == 0 {
			want = bruteStart{}
		}
		got, err := electrical.Starts(loads)
		if err != nil {
			t.Fatalf("case %d: %v", c, err)
		}
		if b, w := float64(got.Best.Peak.Power), float64(got.Worst.Peak.Power); b != want.best || w != want.worst {
			t.Fatalf("case %d: best %g, worst %g W; every order gives %g, %g\n%+v", c, b, w, want.best, want.worst, loads)
		}
		if err := follows(loads, got); err != nil {
			t.Fatalf("case %d: %v\n%+v", c, err, loads)
		}
	}
}

func TestStartsOn_everyOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(20, 27))
	for c := range *bruteCases/4 + *bruteCases/100 {
		n := 1 + rng.IntN(6)
		if c >= *bruteCases/4 {
			n = 8
		}
		loads := randomLoads(rng, n, true, c%2 == 1)
		limits := electrical.Limits{
			Start:         units.Power(500 + rng.IntN(500)),
			StartApparent: units.ApparentPower(500 + rng.IntN(500)),
		}
		share := func(s complex128) float64 {
			return max(real(s)/float64(limits.Start), cmplx.Abs(s)/float64(limits.StartApparent))
		}
		want := brute(loads, share)
		got, err := electrical.StartsOn(loads, limits)
		if err != nil {
			t.Fatalf("case %d: %v", c, err)
		}
		ofDemand := func(d electrical.Demand) float64 {
			return max(float64(d.Power/limits.Start), float64(d.Apparent/limits.StartApparent))
		}
		// The two sides take square roots in different ways: a few roundings.
		const rounding = 1e-14
		if b := ofDemand(got.Best.Peak); math.Abs(b-want.best) > rounding {
			t.Fatalf("case %d: best share %g, every order gives %g\n%+v", c, b, want.best, loads)
		}
		if w := ofDemand(got.Worst.Peak); math.Abs(w-want.worst) > rounding {
			t.Fatalf("case %d: worst share %g, every order gives %g\n%+v", c, w, want.worst, loads)
		}
		if err := follows(loads, got); err != nil {
			t.Fatalf("case %d: %v\n%+v", c, err, loads)
		}
	}
}

// follows checks that the sequences of a result say what they come to: every
// load once, precedences kept, and the stated demands those of a plain walk.
func follows(loads []electrical.Load, r electrical.StartResult) error {
	for _, q := range []struct {
		name string
		electrical.Sequence
	}{{"best", r.Best}, {"worst", r.Worst}, {"restart", r.Restart}} {
		names := q.Order()
		sorted := slices.Sorted(slices.Values(names))
		var all []string
		for _, l := range loads {
			all = append(all, l.Name)
		}
		slices.Sort(all)
		if !slices.Equal(sorted, all) {
			return fmt.Errorf("%s order %v does not name every load once", q.name, names)
		}
		var running, peak units.Power
		for i, st := range q.Steps {
			if st.Before.Power != running {
				return fmt.Errorf("%s step %d: before %v, walk says %v", q.name, i, st.Before.Power, running)
			}
			start := running
			for _, n := range st.Start {
				l := loads[slices.IndexFunc(loads, func(l electrical.Load) bool { return l.Name == n })]
				start += l.Starting
				running += l.Running
				if len(st.Start) > 1 && l.Starts == electrical.ByHand && q.name != "restart" {
					return fmt.Errorf("%s step %d starts hand load %s together with others", q.name, i, n)
				}
				for _, a := range l.After {
					at := slices.Index(names, a)
					if at >= 0 && slices.Index(names, n) < at && q.name != "restart" {
						return fmt.Errorf("%s order %v starts %s before %s", q.name, names, n, a)
					}
				}
			}
			if st.Peak.Power != start || st.After.Power != running {
				return fmt.Errorf("%s step %d: peak %v after %v, walk says %v and %v", q.name, i, st.Peak.Power, st.After.Power, start, running)
			}
			peak = max(peak, start)
		}
		if q.Peak.Power != peak || running != r.Running.Power {
			return fmt.Errorf("%s: peak %v running %v, walk says %v and %v", q.name, q.Peak.Power, r.Running.Power, peak, running)
		}
	}
	return nil
}

func drawLoads(g *property.G, n int, apparent bool) []electrical.Load {
	loads := make([]electrical.Load, n)
	for i := range loads {
		run := g.LogFloat(20, 3000)
		l := electrical.Load{
			Name:     fmt.Sprintf("load-%d", i),
			Running:  units.Power(run),
			Starting: units.Power(run * g.Float(1, 6)),
			Starts:   electrical.ByHand,
		}
		if apparent {
			n := float64(l.Running) * g.Float(0, 2)
			l.RunningApparent = units.ApparentPower(math.Hypot(float64(l.Running), n))
			l.StartingApparent = units.ApparentPower(math.Hypot(float64(l.Starting), n*g.Float(1, 6)))
		}
		if g.Bool() {
			l.Starts = electrical.ByItself
		}
		loads[i] = l
	}
	return loads
}

func TestStarts_peaksAgree(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		loads := drawLoads(g, g.Int(0, 20), g.Bool())
		r, err := electrical.Starts(loads)
		if err != nil {
			return err
		}
		p, err := electrical.StartPeaks(loads)
		if err != nil {
			return err
		}
		want := electrical.Peaks{Running: r.Running, Best: r.Best.Peak, Worst: r.Worst.Peak, Restart: r.Restart.Peak}
		if d := cmp.Diff(want, p); d != "" {
			return errors.New(d)
		}
		if !(r.Running.Power <= r.Best.Peak.Power*(1+1e-12) && r.Best.Peak.Power <= r.Worst.Peak.Power*(1+1e-12) && r.Worst.Peak.Power <= r.Restart.Peak.Power*(1+1e-12)) {
			return fmt.Errorf("not running ≤ best ≤ worst ≤ restart: %+v", p)
		}
		return nil
	})
}

// A load fewer, a smaller start or a start that waits for a hand asks no more.
func TestStarts_lessAsksNoMore(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		loads := drawLoads(g, g.Int(1, 9), true)
		limits := electrical.Limits{Start: 5000, StartApparent: units.ApparentPower(g.LogFloat(2000, 9000))}
		r, err := electrical.StartsOn(loads, limits)
		if err != nil {
			return err
		}
		k := g.Int(0, len(loads)-1)
		less := slices.Clone(loads)
		switch g.Int(0, 2) {
		case 0:
			less = slices.Delete(less, k, k+1)
		case 1:
			less[k].Starting = less[k].Running + (less[k].Starting-less[k].Running)*0.5
			n := imag(phasor(float64(loads[k].Starting), float64(loads[k].StartingApparent)))
			less[k].StartingApparent = units.ApparentPower(math.Hypot(float64(less[k].Starting), n))
		case 2:
			less[k].Starts = electrical.ByHand
		}
		// A volt-ampere figure near its watts says the non-active part to half
		// its digits only: one unit in the 16th digit of S is √(2e-16) of it.
		const rounding = 1e-7
		s, err := electrical.StartsOn(less, limits)
		if err != nil {
			return err
		}
		for _, x := range []struct {
			name string
			a, b electrical.Demand
		}{{"best", r.Best.Peak, s.Best.Peak}, {"worst", r.Worst.Peak, s.Worst.Peak}} {
			before, err1 := limits.StartMargin(x.a)
			after, err2 := limits.StartMargin(x.b)
			if err1 != nil || err2 != nil {
				return errors.Join(err1, err2)
			}
			if after < before-rounding {
				return fmt.Errorf("%s: margin fell from %v to %v", x.name, before, after)
			}
		}
		return nil
	})
}

func TestStarts_errors(t *testing.T) {
	good := electrical.Load{Name: "fan", Running: 500, Starting: 900, Starts: electrical.ByHand}
	many := make([]electrical.Load, electrical.MaxLoads+1)
	for i := range many {
		many[i] = good
		many[i].Name = fmt.Sprint("l", i)
	}
	with := func(change func(*electrical.Load)) []electrical.Load {
		l := good
		change(&l)
		return []electrical.Load{l}
	}
	for _, c := range []struct {
		name  string
		loads []electrical.Load
		path  string
		kind  error
	}{
		{"no name", with(func(l *electrical.Load) { l.Name = "" }), "loads[#1].name", units.ErrMissing},
		{"no running", with(func(l *electrical.Load) { l.Running = 0 }), "loads[fan].running", units.ErrMissing},
		{"no start", with(func(l *electrical.Load) { l.Starting = 0 }), "loads[fan].starting", units.ErrMissing},
		{"start below running", with(func(l *electrical.Load) { l.Starting = 400 }), "loads[fan].starting", units.ErrConflict},
		{"not a number", with(func(l *electrical.Load) { l.Running = units.Power(math.NaN()) }), "loads[fan].running", units.ErrRange},
		{"infinite", with(func(l *electrical.Load) { l.Starting = units.Power(math.Inf(1)) }), "loads[fan].starting", units.ErrRange},
		{"negative", with(func(l *electrical.Load) { l.Running = -5 }), "loads[fan].running", units.ErrRange},
		{"no start mode", with(func(l *electrical.Load) { l.Starts = 0 }), "loads[fan].starts", units.ErrMissing},
		{"unknown start mode", with(func(l *electrical.Load) { l.Starts = 9 }), "loads[fan].starts", units.ErrRange},
		{"half of the volt-amperes", with(func(l *electrical.Load) { l.RunningApparent = 600 }), "loads[fan].startingApparent", units.ErrMissing},
		{"the other half", with(func(l *electrical.Load) { l.StartingApparent = 1200 }), "loads[fan].runningApparent", units.ErrMissing},
		{"fewer volt-amperes than watts", with(func(l *electrical.Load) { l.RunningApparent, l.StartingApparent = 400, 1200 }), "loads[fan].runningApparent", units.ErrConflict},
		{"fewer starting", with(func(l *electrical.Load) { l.RunningApparent, l.StartingApparent = 500, 800 }), "loads[fan].startingApparent", units.ErrConflict},
		{"twice the name", []electrical.Load{good, good}, "loads[fan].name", units.ErrConflict},
		{"waits for itself", with(func(l *electrical.Load) { l.After = []string{"fan"} }), "loads[fan].after", units.ErrConflict},
		{"waits for a float", []electrical.Load{
			{Name: "fan", Running: 500, Starting: 900, Starts: electrical.ByHand, After: []string{"pump"}},
			{Name: "pump", Running: 500, Starting: 900, Starts: electrical.ByItself},
		}, "loads[fan].after", units.ErrConflict},
		{"a float that waits", []electrical.Load{
			{Name: "fan", Running: 500, Starting: 900, Starts: electrical.ByHand},
			{Name: "pump", Running: 500, Starting: 900, Starts: electrical.ByItself, After: []string{"fan"}},
		}, "loads[pump].after", units.ErrConflict},
		{"too many", many, "loads", units.ErrRange},
	} {
		_, err := electrical.Starts(c.loads)
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path || !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v, want %v at %s", c.name, err, c.kind, c.path)
		}
	}
	// All at once, in field order.
	_, err := electrical.Starts([]electrical.Load{{}, {Name: "pump", Running: 100, Starting: 50}})
	var paths []string
	for _, e := range err.(interface{ Unwrap() []error }).Unwrap() {
		paths = append(paths, e.(*units.FieldError).Path)
	}
	want := "loads[#1].name loads[#1].running loads[#1].starting loads[#1].starts loads[pump].starting loads[pump].starts"
	if got := strings.Join(paths, " "); got != want {
		t.Errorf("paths %s, want %s", got, want)
	}
	// A limit in volt-amperes asks the loads for theirs.
	if _, err := electrical.StartsOn([]electrical.Load{good}, electrical.Limits{StartApparent: 4000}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no volt-amperes: %v", err)
	}
}

func TestStarts_none(t *testing.T) {
	r, err := electrical.Starts(nil)
	if d := cmp.Diff(electrical.StartResult{}, r); err != nil || d != "" {
		t.Errorf("no loads: %v %s", err, d)
	}
}

func TestStarts_most(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	loads := randomLoads(rng, electrical.MaxLoads, true, true)
	r, err := electrical.Starts(loads)
	if err != nil {
		t.Fatal(err)
	}
	if err := follows(loads, r); err != nil {
		t.Error(err)
	}
}

func TestStartPeaks_allocations(t *testing.T) {
	loads := washSide()
	if n := testing.AllocsPerRun(100, func() {
		if _, err := electrical.StartPeaks(loads); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func FuzzStarts(f *testing.F) {
	f.Add(1100.0, 2000.0, 750.0, 2000.0, 0.0, 0.0, 1, 2)
	f.Add(math.NaN(), 2000.0, 750.0, -1.0, 1e300, 5e-324, 0, 3)
	f.Fuzz(func(t *testing.T, r1, s1, r2, s2, a1, a2 float64, m1, m2 int) {
		loads := []electrical.Load{
			{Name: "a", Running: units.Power(r1), Starting: units.Power(s1), RunningApparent: units.ApparentPower(a1), StartingApparent: units.ApparentPower(a2), Starts: electrical.StartMode(m1)},
			{Name: "b", Running: units.Power(r2), Starting: units.Power(s2), RunningApparent: units.ApparentPower(a1), StartingApparent: units.ApparentPower(a2), Starts: electrical.StartMode(m2), After: []string{"a"}},
		}
		r, err := electrical.Starts(loads)
		if err != nil {
			var field *units.FieldError
			if !errors.As(err, &field) {
				t.Fatalf("error without a field: %v", err)
			}
			return
		}
		for _, d := range []electrical.Demand{r.Running, r.Best.Peak, r.Worst.Peak, r.Restart.Peak} {
			if !(d.Power > 0 && d.Power < 1e9 && d.Apparent >= 0 && d.Apparent < 1e9) {
				t.Fatalf("demand %+v from %+v", d, loads)
			}
		}
	})
}

func BenchmarkStartPeaks(b *testing.B) {
	for _, n := range []int{4, 8, 20} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			loads := randomLoads(rand.New(rand.NewPCG(3, uint64(n))), n, true, false)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := electrical.StartPeaks(loads); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// washSide is a portable set's side of a two-gun recovery rig: two vacuum
// motors by hand and a dump pump on its float.
func washSide() []electrical.Load {
	return []electrical.Load{
		{Name: "vacuum-left", Running: 1100, Starting: 2000, Starts: electrical.ByHand},
		{Name: "vacuum-right", Running: 1100, Starting: 2000, Starts: electrical.ByHand},
		{Name: "dump-pump", Running: 750, Starting: 2000, Starts: electrical.ByItself},
	}
}
