package rig_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// numberIn returns the number of a path in a state, in SI.
func numberIn(r *rig.Report, path rig.Path, state string) (float64, error) {
	s, err := r.Model().ParseState(state)
	if err != nil {
		return 0, err
	}
	x, ok := r.At(path, s)
	if !ok {
		return 0, fmt.Errorf("%s has no reading in %s", path, state)
	}
	return x.Value.SI(), nil
}

func mustNumber(t *testing.T, r *rig.Report, path rig.Path, state string) float64 {
	t.Helper()
	v, err := numberIn(r, path, state)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// What is true of every recovery unit: dirt and length never help, a second motor
// never picks up less and never lets the dump pump move more, thin air makes less
// lift, and what a run of the loop adds settles where its two laws say.
func TestRecovery_properties(t *testing.T) {
	t.Parallel()
	b := demoModel(t, "B")
	property.Check(t, func(g *property.G) error {
		set := func(p rig.Path, text string) rig.Change { return rig.Set("recovery[plant]."+p, text) }
		changes := []rig.Change{
			set("motor.open_flow", fmt.Sprintf("%.3f cfm", g.Float(70, 200))), set("motor.sealed_lift", fmt.Sprintf("%.3f inH2O", g.Float(60, 140))),
			set("motor.curve", property.OneOf(g, "straight", "parabola")), set("arrangement", property.OneOf(g, "parallel", "series")),
			set("hose.bore", fmt.Sprintf("%.3f in", g.Float(1.25, 3))), set("hose.length", fmt.Sprintf("%.3f ft", g.Float(15, 100))), set("hose.wall", property.OneOf(g, "smooth", "corrugated")),
			set("lift", fmt.Sprintf("%.3f ft", g.Float(0, 8))), set("air_filter.dirty", fmt.Sprintf("%.3f inH2O", g.Float(2, 20)*float64(g.Int(0, 1))+2)),
			set("dump_pump.shut_off_head", fmt.Sprintf("%.3f ft", g.Float(8, 60))), set("dump_pump.run_out_flow", fmt.Sprintf("%.3f gpm", g.Float(4, 40))),
			set("discharge.check_valve", "no"), set("discharge.cracking", ""),
			rig.Set("site.elevation", fmt.Sprintf("%.1f ft", g.Float(0, 9000))),
		}
		if g.Bool() {
			changes = append(changes, set("discharge.check_valve", "yes"))
		}
		m, err := b.With(changes...)
		if err != nil {
			return err
		}
		r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			return err
		}
		var lost error
		at := func(name, state string) float64 {
			v, err := numberIn(r, rig.Path("recovery[plant]."+name), state)
			if err != nil {
				lost = err
			}
			return v
		}
		for _, hour := range []string{"afternoon", "morning"} {
			for _, f := range []string{"clean", "change-out"} {
				s := "site=" + hour + " filters=" + f
				one, two := at("pick_up", s+" motors=1"), at("pick_up", s+" motors=2")
				if one > two*(1+1e-9) {
					return fmt.Errorf("%s: one motor picks up %v, two %v", s, one, two)
				}
				if lo, hi := at("pick_up_low", s+" motors=2"), at("pick_up_high", s+" motors=2"); lo > two || hi < two {
					return fmt.Errorf("%s: pick-up %v outside its spread %v to %v", s, two, lo, hi)
				}
				for _, guns := range []string{"none", "left", "left+right"} {
					w := s + " guns=" + guns
					if at("drum_vacuum", w+" motors=1") > at("drum_vacuum", w+" motors=2")+1e-6 && at("air_speed", w+" motors=1") > 0 {
						return fmt.Errorf("%s: two motors pull less than one", w)
					}
					if at("air_speed", w+" motors=1") > 0 && at("dump_flow", w+" motors=2") > at("dump_flow", w+" motors=1")+1e-12 {
						return fmt.Errorf("%s: the dump pump moves more against two motors", w)
					}
				}
			}
			for _, k := range []string{"1", "2"} {
				s := "site=" + hour + " motors=" + k
				for _, name := range []string{"pick_up", "air_flow"} {
					if at(name, s+" filters=change-out") > at(name, s+" filters=clean")*(1+1e-9) {
						return fmt.Errorf("%s: %s rises with dirty filters", s, name)
					}
				}
				// A dirty air filter takes vacuum off the drum and gives the dump pump some
				// flow back; without one only the water filters count.
				if q, ok := m.Quantity("recovery[plant].air_filter.dirty"); !ok || q.SI() > 2.001*float64(units.InchOfWater) {
					continue
				}
				for _, guns := range []string{"left", "left+right"} {
					if at("dump_flow", s+" guns="+guns+" filters=change-out") > math.Max(at("dump_flow", s+" guns="+guns+" filters=clean"), 0)+1e-9 {
						return fmt.Errorf("%s: the dump pump moves more through dirty filters", s)
					}
				}
			}
		}
		if lost != nil {
			return lost
		}
		if at("sealed_lift", "site=afternoon motors=2") > at("sealed_lift", "site=morning motors=2") {
			return errors.New("hot air makes more lift than cold air")
		}
		longer, err := m.With(set("hose.length", "120 ft"))
		if err != nil {
			return err
		}
		o, err := longer.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			return err
		}
		if err := noMore(r, o, "recovery[plant].air_flow", 1e-9); err != nil {
			return err
		}
		return noMore(r, o, "recovery[plant].pick_up", 1e-9)
	})
}

type modelOrError struct {
	m   *rig.Model
	err error
}

// demoModelOf is demoModel for a property.
func demoModelOf(name string, c ...rig.Change) modelOrError {
	m, err := demo.Model(name)
	if err == nil {
		m, err = m.With(c...)
	}
	return modelOrError{m, err}
}

// A vacuum that the drum may bear guards a stop: without it nothing is passed.
func TestRecovery_guard(t *testing.T) {
	f := judgement(t, assessed(t, demoModel(t, "B", rig.Set("recovery[plant].drum.maximum_vacuum", ""))), "drum-over-vacuum", "plant")
	if f.Severity != rig.CannotJudge || len(f.Leans) != 1 || f.Leans[0] != "recovery[plant].drum.maximum_vacuum" {
		t.Errorf("severity %v, leans on %v", f.Severity, f.Leans)
	}
}

// The share that comes back is seldom known: a band is taken, and the verdict says
// what it leans on and where it turns.
func TestRecovery_assumedShare(t *testing.T) {
	m := demoModel(t, "B", rig.Set("duty.recovered_share", ""))
	if q, ok := m.Quantity("duty.recovered_share"); !ok || q.SI() != 0.70 || m.Origin("duty.recovered_share").Basis != rig.Assumed {
		t.Errorf("recovered share %v, %+v", q, m.Origin("duty.recovered_share"))
	}
	r := assessed(t, m)
	f := judgement(t, r, "recovery-puddles", "plant")
	leans := false
	for _, p := range f.Leans {
		leans = leans || p == "duty.recovered_share"
	}
	if !leans || !f.Turns.Given() {
		t.Fatalf("leans on %v, turns at %v", f.Leans, f.Turns)
	}
	// It turns where 6.8 gpm × share is the pick-up at change-out.
	pick := mustNumber(t, r, "recovery[plant].pick_up", "site=afternoon motors=2 filters=change-out")
	if want := pick / float64(6.8*units.GallonPerMinute); f.Leans[0] == "duty.recovered_share" && math.Abs(f.Turns.SI()-want) > 1e-6 {
		t.Errorf("turns at %.5f, want %.5f", f.Turns.SI(), want)
	}
	// Cold water comes back as cold as it went out, without a heater.
	cold, err := rig.New(&rig.Spec{Site: rig.Site{Water: units.Fahrenheit(50)}, Recovery: []rig.Recovery{{Stock: rig.Stock{ID: "plant"}}}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if o := cold.Origin("recovery[plant].return_temperature"); o.Basis != rig.Assumed || !strings.Contains(o.Why, "supply") {
		t.Errorf("%+v", o)
	}
}

// Water that is used again builds up by two laws: k = 0.72/0.95 = 0.7579; what each
// pass adds settles at k/(1 − k) = 3.130, what the make-up brings at 0.28/(1 − k) =
// 1.157. Two doses are reached after ln(1 − 2/3.130)/ln k = 3.674 passes.
func TestRecovery_loop(t *testing.T) {
	r := assessed(t, demoModel(t, "B", rig.Set("crossovers[joint].valve", "open"), rig.Set("recovery[plant].dose_limit", "2")))
	for _, c := range []struct {
		name string
		want float64
	}{{"build_up", 3.1304}, {"hardness", 1.1565}} {
		if got := mustNumber(t, r, rig.Path("recovery[plant]."+c.name), "any"); math.Abs(got-c.want) > 5e-5 {
			t.Errorf("%s: %.5f, want %.4f", c.name, got, c.want)
		}
	}
	usable := 0.0
	for _, id := range []string{"fresh", "recovered"} {
		q, ok := r.Model().Quantity(rig.Path("tanks[" + id + "].usable"))
		if !ok {
			t.Fatal("no usable volume of", id)
		}
		usable += q.SI()
	}
	want := 3.6743 * usable / float64(6.8*units.GallonPerMinute)
	if got := mustNumber(t, r, "recovery[plant].change_out", "any"); math.Abs(got/want-1) > 1e-4 {
		t.Errorf("changed after %.0f s, want %.0f s", got, want)
	}
	if _, ok := r.Worst("recovery[plant].returned"); ok {
		t.Error("water that is used again needs room of its own")
	}
	apart := assessed(t, demoModel(t, "B"))
	if _, ok := apart.Worst("recovery[plant].build_up"); ok {
		t.Error("water that is kept apart builds up")
	}
}

// What is not given is listed and makes no numbers.
func TestRecovery_partial(t *testing.T) {
	m := demoModel(t, "B", rig.Remove("recovery[plant]"), rig.Add("recovery", "other", ""))
	r := assessed(t, m)
	for _, p := range []rig.Path{"recovery[other].pick_up", "recovery[other].dump_flow", "recovery[other].sealed_lift"} {
		if x, ok := r.Worst(p); ok {
			t.Errorf("%s is %v", p, x.Value)
		}
	}
	open := map[rig.Path]bool{}
	for _, o := range m.Open() {
		open[o.Path] = true
	}
	for _, p := range []rig.Path{"recovery[other].motor.open_flow", "recovery[other].hose", "recovery[other].dump_pump.shut_off_head", "recovery[other].drum.volume", "recovery[other].tank", "recovery[other].mass"} {
		if !open[p] {
			t.Errorf("%s is not listed as open", p)
		}
	}
	// Without a dump pump the air side still answers; without a site nothing does.
	r = assessed(t, demoModel(t, "B", rig.Set("recovery[plant].dump_pump.shut_off_head", ""), rig.Set("recovery[plant].dump_pump.run_out_flow", "")))
	if _, ok := r.Worst("recovery[plant].pick_up"); !ok {
		t.Error("no pick-up without a dump pump")
	}
	if _, ok := r.Worst("recovery[plant].dump_flow"); ok {
		t.Error("a dump flow without a dump pump")
	}
	g, err := r.FilterGauges("plant")
	if err != nil || g != nil {
		t.Errorf("%v, %v", g, err)
	}
	if _, err = r.FilterGauges("nobody"); err == nil {
		t.Error("gauges of a unit that does not exist")
	}
	// A discharge without hose and filters is no error, whatever the vacuum.
	r = assessed(t, demoModel(t, "B", rig.Set("recovery[plant].discharge.bore", ""), rig.Set("recovery[plant].discharge.length", ""), rig.Remove("recovery[plant].filters[bag]"),
		rig.Remove("recovery[plant].filters[cartridge]"), rig.Set("recovery[plant].discharge.check_valve", "no"), rig.Set("recovery[plant].discharge.cracking", ""), rig.Set("recovery[plant].dump_pump.shut_off_head", "2 ft")))
	if v := mustNumber(t, r, "recovery[plant].dump_flow", "guns=left+right site=afternoon motors=2 filters=clean"); v != 0 {
		t.Errorf("2 ft of pump moves %v m³/s against the drum", v)
	}
}

func TestRecovery_refuses(t *testing.T) {
	for _, c := range []struct {
		want string
		c    []rig.Change
	}{
		{"recovery[plant].motors", []rig.Change{rig.Set("recovery[plant].motors", "1")}},
		{"recovery[plant].motor", []rig.Change{rig.Set("recovery[plant].motor.open_flow", "")}},
		{"recovery[plant].motor", []rig.Change{rig.Set("recovery[plant].motor.open_power", "")}},
		{"recovery[plant].motor.sealed_power", []rig.Change{rig.Set("recovery[plant].motor.sealed_power", "1200 W")}},
		{"recovery[plant].motor.sealed_power", []rig.Change{rig.Set("recovery[plant].motor.type", "displacement")}},
		{"recovery[plant].motor.points[mid].flow", []rig.Change{rig.Add("recovery[plant].motor.points", "mid", ""), rig.Set("recovery[plant].motor.points[mid].flow", "130 cfm"), rig.Set("recovery[plant].motor.points[mid].lift", "50 inH2O")}},
		{"recovery[plant].motor.points[mid].lift", []rig.Change{rig.Add("recovery[plant].motor.points", "mid", ""), rig.Set("recovery[plant].motor.points[mid].flow", "60 cfm"), rig.Set("recovery[plant].motor.points[mid].lift", "120 inH2O")}},
		{"recovery[plant].dump_pump", []rig.Change{rig.Set("recovery[plant].dump_pump.run_out_flow", "")}},
		{"recovery[plant].dump_pump.points[mid].head", []rig.Change{rig.Add("recovery[plant].dump_pump.points", "mid", ""), rig.Set("recovery[plant].dump_pump.points[mid].flow", "10 gpm"), rig.Set("recovery[plant].dump_pump.points[mid].head", "30 ft")}},
		{"recovery[plant].dump_pump.points[mid].flow", []rig.Change{rig.Add("recovery[plant].dump_pump.points", "mid", ""), rig.Set("recovery[plant].dump_pump.points[mid].flow", "25 gpm"), rig.Set("recovery[plant].dump_pump.points[mid].head", "20 ft")}},
		{"recovery[plant].lift", []rig.Change{rig.Set("recovery[plant].lift", "30 ft")}},
		{"recovery[plant].air_filter", []rig.Change{rig.Set("recovery[plant].air_filter.clean", "")}},
		{"recovery[plant].air_filter.dirty", []rig.Change{rig.Set("recovery[plant].air_filter.dirty", "1 inH2O")}},
		{"recovery[plant].discharge.bore", []rig.Change{rig.Set("recovery[plant].discharge.bore", "")}},
		{"recovery[plant].discharge.cracking", []rig.Change{rig.Set("recovery[plant].discharge.check_valve", "no")}},
		{"recovery[plant].filters[bag].dirty", []rig.Change{rig.Set("recovery[plant].filters[bag].dirty", "0.1 psi")}},
		{"recovery[plant].filters[bag]", []rig.Change{rig.Set("recovery[plant].filters[bag].captures", "")}},
		{"recovery[plant].evaporated", []rig.Change{rig.Set("recovery[plant].evaporated", "40 %")}},
		{"recovery[plant].loads", []rig.Change{rig.Set("recovery[plant].loads", "nobody")}},
	} {
		m := demoModelOf("B", c.c...)
		var f *units.FieldError
		if m.err == nil || !errors.As(m.err, &f) || !strings.Contains(m.err.Error(), c.want) || f.Want == "" {
			t.Errorf("%s: %v", c.want, m.err)
		}
	}
}

// Curves of more than two points, two units, and two hoses are taken as they are
// given.
func TestRecovery_shapes(t *testing.T) {
	base := assessed(t, demoModel(t, "B"))
	const state = "site=afternoon motors=2 filters=clean"
	pick := func(r *rig.Report, unit string) float64 {
		return mustNumber(t, r, rig.Path("recovery["+unit+"].pick_up"), state)
	}
	point := assessed(t, demoModel(t, "B", rig.Add("recovery[plant].motor.points", "mid", ""), rig.Set("recovery[plant].motor.points[mid].flow", "60 cfm"), rig.Set("recovery[plant].motor.points[mid].lift", "82.5 inH2O")))
	full := assessed(t, demoModel(t, "B", rig.Set("recovery[plant].motor.curve", "parabola")))
	// A point on the parabola comes close to the parabola, which is fuller than the
	// straight line.
	if a, b, c := pick(base, "plant"), pick(point, "plant"), pick(full, "plant"); !(b > a*1.1) || math.Abs(b/c-1) > 0.05 {
		t.Errorf("straight %v, with a point %v, parabola %v", a, b, c)
	}
	two := assessed(t, demoModel(t, "B", rig.Copy("recovery[plant]", "second")))
	if a, b := pick(two, "plant"), pick(two, "second"); a != b || a != pick(base, "plant") {
		t.Errorf("two equal units pick up %v and %v, one alone %v", a, b, pick(base, "plant"))
	}
	hoses := assessed(t, demoModel(t, "B", rig.Set("recovery[plant].hoses", "2")))
	if a := pick(hoses, "plant"); !(a < pick(base, "plant")) {
		t.Errorf("two 2 in hoses share the air and pick up %v, one %v", a, pick(base, "plant"))
	}
	own := assessed(t, demoModel(t, "B", rig.Set("recovery[plant].guns", "left")))
	if a, b := mustNumber(t, own, "recovery[plant].recovered_flow", "guns=left+right "+state), mustNumber(t, base, "recovery[plant].recovered_flow", "guns=left+right "+state); math.Abs(a/b-0.5) > 1e-6 {
		t.Errorf("of one gun of two %v comes back, of both %v", a, b)
	}
}

func TestRecovery_sharesItsBlock(t *testing.T) {
	a := demoModel(t, "B")
	for _, c := range []struct {
		path, text string
		shares     bool
	}{{"tanks[fresh].x", "10.9 ft", true}, {"recovery[plant].lift", "4 ft", false}, {"lines[left].hose.length", "160 ft", false}, {"duty.recovered_share", "60 %", false}} {
		b, err := a.With(rig.Set(rig.Path(c.path), c.text))
		if err != nil {
			t.Fatal(err)
		}
		if rig.SharesRecovery(a, b) != c.shares {
			t.Errorf("%s: shared %v", c.path, !c.shares)
		}
	}
}

// A number of the recovery says what it is made of.
func TestRecovery_explains(t *testing.T) {
	m := demoModel(t, "B")
	s, err := m.ParseState("guns=left+right heat=steady site=afternoon motors=2 filters=clean")
	if err != nil {
		t.Fatal(err)
	}
	tr, err := m.Explain("recovery[plant].dump_flow", s)
	if err != nil {
		t.Fatal(err)
	}
	text := tr.Text(units.US)
	for _, want := range []string{"balance of heads", "recovery[plant].drum_vacuum", "recovery[plant].recovered_flow", "lines[left].flow", "recovery[plant].dump_pump.shut_off_head"} {
		if !strings.Contains(text, want) {
			t.Errorf("text lacks %q:\n%s", want, text)
		}
	}
}
