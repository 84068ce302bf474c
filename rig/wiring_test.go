package rig_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// wired is a small rig of two portable generators for tests of plates.
func wired(loads ...rig.Load) *rig.Spec {
	s := &rig.Spec{Format: rig.Format, Name: "wired"}
	s.Site.Elevation = units.ElevationAt(0)
	s.Site.Conditions = []rig.Condition{{ID: "noon", Air: units.Fahrenheit(77)}}
	for _, id := range []string{"first", "second"} {
		s.Sources = append(s.Sources, rig.Source{Stock: rig.Stock{ID: id}, Type: "portable", Generator: parts.Generator{Running: 3000, Starting: 4000}})
	}
	for i := range loads {
		if loads[i].Source == "" {
			loads[i].Source = "first"
		}
	}
	s.Loads = loads
	return s
}

func modelOf(t *testing.T, s *rig.Spec) *rig.Model {
	t.Helper()
	m, err := rig.New(s, nil)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func reading(t *testing.T, r *rig.Report, p rig.Path) float64 {
	t.Helper()
	x, ok := r.Worst(p)
	if !ok {
		t.Fatalf("%s has no reading", p)
	}
	return x.Value.SI()
}

// Watts that a plate tells in another way: 115 V · 8 A · 0.80 = 736 W; a
// locked-rotor current of 40 A at 0.70 is 115·40·0.70 = 3,220 W.
func TestPlate_tellsWatts(t *testing.T) {
	m := modelOf(t, wired(rig.Load{Stock: rig.Stock{ID: "pump"}, Load: parts.Load{Voltage: 115, Current: 8, PowerFactor: 0.80, LockedRotor: 40, StartPowerFactor: 0.70}}))
	for p, want := range map[rig.Path]float64{"loads[pump].running": 736, "loads[pump].starting": 3220} {
		q, ok := m.Quantity(p)
		if !ok || math.Abs(q.SI()-want) > 1e-9*want {
			t.Errorf("%s is %v, hand sum %g W", p, q, want)
		}
		if o := m.Origin(p); o.Basis == rig.Assumed || !strings.Contains(o.Why, "plate") {
			t.Errorf("origin of %s: %+v", p, o)
		}
	}
	// 1/2 hp at 60 %: 621 W. Code letter L ends at 9.99 kVA/hp (NEMA MG 1): at
	// most 4,995 VA, which stands for the watts and is marked as assumed.
	m = modelOf(t, wired(rig.Load{Stock: rig.Stock{ID: "pump"}, Load: parts.Load{ShaftPower: units.Horsepower / 2, Efficiency: 0.60, CodeLetter: "L"}}))
	for p, want := range map[rig.Path]float64{"loads[pump].running": 0.5 * 745.6998715822702 / 0.60, "loads[pump].starting": 4995} {
		if q, ok := m.Quantity(p); !ok || math.Abs(q.SI()-want) > 1e-9*want {
			t.Errorf("%s is %v, hand sum %g W", p, q, want)
		}
	}
	if o := m.Origin("loads[pump].starting"); o.Basis != rig.Assumed || !strings.Contains(o.Why, "upper bound") {
		t.Errorf("origin of the code letter's start: %+v", o)
	}
}

// Plates and wiring that contradict themselves are refused at the field.
func TestWiring_refuses(t *testing.T) {
	load := func(change func(*rig.Load)) *rig.Spec {
		l := rig.Load{Stock: rig.Stock{ID: "pump"}, Starts: "by-hand", Load: parts.Load{Running: 750, Starting: 2000}}
		change(&l)
		return wired(l, rig.Load{Stock: rig.Stock{ID: "other"}, Starts: "by-itself", Load: parts.Load{Running: 100, Starting: 100}})
	}
	source := func(change func(*rig.Source)) *rig.Spec {
		s := load(func(*rig.Load) {})
		change(&s.Sources[0])
		return s
	}
	whole := func(change func(*rig.Spec)) *rig.Spec {
		s := load(func(*rig.Load) {})
		change(s)
		return s
	}
	for _, c := range []struct {
		name string
		s    *rig.Spec
		path string
		err  error
	}{
		{"watts above volts times amperes", load(func(l *rig.Load) { l.Voltage, l.Current = 115, 5 }), "loads[pump].running", units.ErrConflict},
		{"more at the shaft than goes in", load(func(l *rig.Load) { l.ShaftPower = 900 }), "loads[pump].shaft_power", units.ErrConflict},
		{"two ways to the watts", load(func(l *rig.Load) { l.ShaftPower, l.Efficiency = 300, 0.6 }), "loads[pump].efficiency", units.ErrConflict},
		{"locked rotor without voltage", load(func(l *rig.Load) { l.LockedRotor = 40 }), "loads[pump].voltage", units.ErrMissing},
		{"code letter without horsepower", load(func(l *rig.Load) { l.CodeLetter = "L" }), "loads[pump].shaft_power", units.ErrMissing},
		{"volt-amperes below watts", load(func(l *rig.Load) { l.RunningApparent = 700 }), "loads[pump].running_apparent", units.ErrConflict},
		{"waits for itself", load(func(l *rig.Load) { l.After = []string{"pump"} }), "loads[pump].after", units.ErrConflict},
		{"waits for a float switch", load(func(l *rig.Load) { l.After = []string{"other"} }), "loads[pump].after", units.ErrConflict},
		{"a float switch that waits", load(func(l *rig.Load) { l.Starts, l.After = "by-itself", []string{"other"} }), "loads[pump].after", units.ErrConflict},
		{"two that wait for each other", whole(func(s *rig.Spec) {
			s.Loads[1].Starts = "by-hand"
			s.Loads[0].After, s.Loads[1].After = []string{"other"}, []string{"pump"}
		}), "after", units.ErrConflict},
		{"shore cord on an engine", source(func(g *rig.Source) { g.Type, g.Engine = "shore", "washer" }), "sources[first].engine", nil},
		{"battery of a generator", source(func(g *rig.Source) { g.Battery = "starter" }), "sources[first].battery", nil},
		{"speed without poles", source(func(g *rig.Source) { g.Speed = 3600 * units.RPM }), "sources[first].poles", units.ErrMissing},
		{"odd poles", source(func(g *rig.Source) { g.Poles = 3 }), "sources[first].poles", units.ErrConflict},
		{"start volt-amperes below running", source(func(g *rig.Source) { g.RunningApparent, g.StartingApparent = 3000, 2000 }), "sources[first].starting_apparent", units.ErrConflict},
		{"alternator starts less than it runs", source(func(g *rig.Source) { g.AlternatorStarting = 2000 }), "sources[first].alternator_starting", units.ErrConflict},
		{"idles faster than it runs", source(func(g *rig.Source) { g.Poles, g.Speed, g.IdleSpeed = 2, 3600*units.RPM, 3700*units.RPM }), "sources[first].idle_speed", units.ErrConflict},
		{"outlet of another source", whole(func(s *rig.Spec) {
			s.Outlets = []rig.Outlet{{ID: "left", Source: "second", Breaker: 20}}
			s.Loads[0].Outlet = "left"
		}), "loads[pump].outlet", units.ErrConflict},
		{"cords that cross", whole(func(s *rig.Spec) {
			s.Loads = append(s.Loads, rig.Load{Stock: rig.Stock{ID: "third"}, Source: "first", Load: parts.Load{Running: 100, Starting: 100}})
			s.Cords = []rig.Cord{{Stock: rig.Stock{ID: "a"}, Loads: []string{"pump", "other"}, Length: 3}, {Stock: rig.Stock{ID: "b"}, Loads: []string{"other", "third"}, Length: 3}}
		}), "cords[b].loads", units.ErrConflict},
		{"cord on a source its load does not fit", whole(func(s *rig.Spec) {
			s.Cords = []rig.Cord{{Stock: rig.Stock{ID: "a"}, Loads: []string{"pump"}, Source: "second", Length: 3}}
		}), "cords[a].source", units.ErrConflict},
		{"fan faster than its field", whole(func(s *rig.Spec) {
			s.Sources[0].Voltage = 120
			s.Loads[0].Class, s.Loads[0].FanPoles, s.Loads[0].FanSpeed = "burner", 2, 3600*units.RPM
		}), "loads[pump].fan_speed", units.ErrConflict},
		{"shore cord that tells nothing", source(func(g *rig.Source) { g.Type, g.Running, g.Starting = "shore", 0, 0 }), "sources[first].running", units.ErrMissing},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := rig.New(c.s, nil)
			if err == nil || !strings.Contains(err.Error(), c.path) || (c.err != nil && !errors.Is(err, c.err)) {
				t.Errorf("want %s (%v), got %v", c.path, c.err, err)
			}
		})
	}
}

// What no cord, outlet or winding asks for is neither assumed nor computed.
func TestWiring_nothingAskedNothingAssumed(t *testing.T) {
	m := modelOf(t, wired(rig.Load{Stock: rig.Stock{ID: "pump"}, Load: parts.Load{Class: "burner", Running: 750, Starting: 2000}}))
	r := assessed(t, m)
	for x := range r.Every() {
		if p := string(x.Path()); strings.HasPrefix(p, "loads[") || strings.Contains(p, "apparent") || strings.HasSuffix(p, ".voltage") {
			t.Errorf("%s = %v", p, x.Value)
		}
	}
	for _, a := range m.Assumed() {
		if strings.HasPrefix(string(a.Path), "loads[") || strings.HasSuffix(string(a.Path), ".voltage") {
			t.Errorf("%s is assumed", a.Path)
		}
	}
}

// A power factor that nobody gave leaves volt-amperes open. With a dump pump of
// unknown power factor the portable generator of B carries
// √(2950² + (723 + 750·tan φ)²) VA; 3,250 VA are met at 0.76, inside the usual
// 0.55 to 0.85.
func TestWiring_powerFactorCannotBeJudged(t *testing.T) {
	open := []rig.Change{rig.Set("loads[dump-pump].part", ""), rig.Set("loads[dump-pump].class", "capacitor-start-motor"), rig.Set("loads[dump-pump].running", "750 W"),
		rig.Set("loads[dump-pump].starting", "2000 W")}
	f := judgement(t, assessed(t, demoModel(t, "B", append(open, rig.Set("sources[portable].running_apparent", "3250 VA"))...)), "source-apparent", "portable")
	if f.Severity != rig.CannotJudge || f.Leans[0] != "loads[dump-pump].power_factor" || !f.Typical.Given() || math.Abs(f.Turns.SI()-0.760) > 0.001 {
		t.Errorf("%v, leans on %v, turns at %v", f.Severity, f.Leans, f.Turns)
	}
	// 4,800 VA are enough at any usual power factor.
	f = judgement(t, assessed(t, demoModel(t, "B", open...)), "source-apparent", "portable")
	if f.Severity != rig.Pass || len(f.Leans) == 0 {
		t.Errorf("%v, leans on %v", f.Severity, f.Leans)
	}
}

// Two generators of 3,000 W that burn 0.2 gph idle and 1.0 gph at the rating.
// A load of 600 W on each: 2·(0.2 + 0.8·0.2) = 0.72 gph, both on one
// 0.2 + 0.8·0.4 = 0.52 gph. In 4 h 0.8 gal and 4 engine hours are saved, and two
// of 70 dB together are 3.0 dB louder than one.
func TestPlugCard_leaveOff(t *testing.T) {
	load := func(id, on, may string) rig.Load {
		return rig.Load{Stock: rig.Stock{ID: id}, Starts: "by-hand", Source: on, May: []string{may}, Load: parts.Load{Running: 600, Starting: 900}}
	}
	s := wired(load("left", "first", "second"), load("right", "second", "first"))
	for i := range s.Sources {
		s.Sources[i].FullLoadRate, s.Sources[i].HalfLoadRate, s.Sources[i].Noise = 1.0*units.GallonPerHour, 0.6*units.GallonPerHour, 70
	}
	s.Modes = []rig.Mode{{ID: "both", Loads: []string{"left", "right"}, Time: 4 * units.Hour}}
	r := assessed(t, modelOf(t, s))
	card, err := r.PlugCard()
	if err != nil {
		t.Fatal(err)
	}
	if len(card.Passing) != 4 || card.Passing[0].State.On(rig.AxisPlugs) != "as-listed" || len(card.Off) != 2 {
		t.Fatalf("%+v", card)
	}
	for _, o := range card.Off {
		if !o.Passes || math.Abs(o.Fuel.In(units.Gallon)-0.8) > 1e-9 || math.Abs(o.Hours.In(units.Hour)-4) > 1e-9 || math.Abs(o.Noise-3.01) > 0.005 {
			t.Errorf("%s off: %+v", o.Source, o)
		}
		if got := reading(t, r, rig.Path("sources["+o.Source+"].fuel_saved_off")); math.Abs(got-float64(o.Fuel)) > 1e-12 {
			t.Errorf("the table says %v", got)
		}
	}
}

// An alternator bigger or smaller than its engine: 3,000 W of engine at sea
// level, 1 − 0.035·10 = 65 % of it at 10,000 ft, against an alternator of 2,500 W.
func TestWiring_alternatorCapsTheEngine(t *testing.T) {
	s := wired()
	s.Sources[0].AlternatorRunning = 2500
	m := modelOf(t, s)
	if got := reading(t, assessed(t, m), "sources[first].run_limit"); got != 2500 {
		t.Errorf("at sea level %g W", got)
	}
	high, err := m.With(rig.Set("site.elevation", "10000 ft"))
	if err != nil {
		t.Fatal(err)
	}
	if got := reading(t, assessed(t, high), "sources[first].run_limit"); math.Abs(got-1950) > 1e-9*1950 {
		t.Errorf("at 10,000 ft %g W, hand sum 1,950 W", got)
	}
}

// A battery inverter feels no thin air, and its battery pays: 440 W at 88 % and
// 12 W idle are 512 W, 42.7 A of 12 V against 30 A of charging.
func TestWiring_batteryInverter(t *testing.T) {
	s := wired(rig.Load{Stock: rig.Stock{ID: "lamp"}, Load: parts.Load{Class: "resistance", Running: 440, Starting: 440}})
	s.Batteries = []rig.Battery{{Stock: rig.Stock{ID: "house"}, Charging: 30}}
	g := &s.Sources[0]
	g.Type, g.Battery, g.IdlePower = "inverter", "house", 12
	s.Site.Elevation = units.ElevationAt(9000 * units.Foot)
	r := assessed(t, modelOf(t, s))
	if got := reading(t, r, "sources[first].run_limit"); got != 3000 {
		t.Errorf("run limit %g W", got)
	}
	if got, want := reading(t, r, "batteries[house].net_current"), 30-512./12; math.Abs(got-want) > 1e-9 {
		t.Errorf("%g A left, hand sum %g A", got, want)
	}
	if f := judgement(t, r, "battery-deficit", "house"); f.Severity != rig.Fix {
		t.Errorf("deficit is %v", f.Severity)
	}
	// with an engine of its own it does feel it
	g.Battery, g.IdlePower = "", 0
	s.Batteries = nil
	if got, want := reading(t, assessed(t, modelOf(t, s)), "sources[first].run_limit"), 3000*(1-0.035*9); math.Abs(got-want) > 1e-9*want {
		t.Errorf("with its own engine %g W, hand sum %g W", got, want)
	}
}

// A 120/240 V generator of 3,000 VA gives 1,500 on each leg: three loads of 900
// VA cannot be shared out, two can, and a 240 V load lies on both.
func TestWiring_legs(t *testing.T) {
	lamp := func(id string, volts units.Voltage) rig.Load {
		return rig.Load{Stock: rig.Stock{ID: id}, Load: parts.Load{Class: "resistance", Voltage: volts, Running: 900, Starting: 900, PowerFactor: 1, StartPowerFactor: 1}}
	}
	for _, c := range []struct {
		loads []rig.Load
		leg   float64
		want  rig.Severity
	}{
		{[]rig.Load{lamp("a", 120), lamp("b", 120)}, 900, rig.Pass},
		{[]rig.Load{lamp("a", 120), lamp("b", 120), lamp("c", 120)}, 1800, rig.Stop},
		{[]rig.Load{lamp("a", 120), lamp("b", 120), lamp("c", 240)}, 1350, rig.Pass},
	} {
		s := wired(c.loads...)
		s.Sources[0].Legs, s.Sources[0].Voltage, s.Sources[0].RunningApparent = 2, 120, 3000
		r := assessed(t, modelOf(t, s))
		if got := reading(t, r, "sources[first].leg_apparent"); math.Abs(got-c.leg) > 1e-6 {
			t.Errorf("%d loads: %g VA, hand sum %g", len(c.loads), got, c.leg)
		}
		if f := judgement(t, r, "leg-overload", "first"); f.Severity != c.want {
			t.Errorf("%d loads: %v, want %v", len(c.loads), f.Severity, c.want)
		}
	}
}

// A trunk of 50 ft 12 AWG before two branches of 25 ft 14 AWG, two heaters of
// 1,200 W at 120 V. Running, 20 A in the trunk and 10 A in each branch:
// 2·50·1.98/1000·20 = 3.96 V and 2·25·3.14/1000·10 = 1.57 V, together 4.61 %. The
// same as impedances, of 6 Ω behind the trunk and 12 Ω behind a branch:
// 120·6/6.198·12/12.157 = 114.67 V; solving the whole network gives 114.69 V,
// since the branches hold back the trunk's current a little.
func TestWiring_trunkAndBranches(t *testing.T) {
	heater := func(id string) rig.Load {
		return rig.Load{Stock: rig.Stock{ID: id}, Starts: "by-itself", Load: parts.Load{Class: "resistance", Running: 1200, Starting: 1200, PowerFactor: 1, StartPowerFactor: 1}}
	}
	s := wired(heater("a"), heater("b"))
	s.Sources[0].Voltage = 120
	cord := func(id, gauge string, feet units.Length, loads ...string) rig.Cord {
		return rig.Cord{Stock: rig.Stock{ID: id}, Loads: loads, Length: feet * units.Foot, Gauge: gauge}
	}
	s.Cords = []rig.Cord{cord("branch-a", "14 AWG", 25, "a"), cord("branch-b", "14 AWG", 25, "b"), cord("trunk", "12 AWG", 50, "a", "b")}
	r := assessed(t, modelOf(t, s))
	for _, c := range []struct {
		p      rig.Path
		want   float64
		within float64 // half of the last digit of the hand sum
	}{
		{"cords[trunk].current", 20, 1e-9}, {"cords[branch-a].current", 10, 1e-9},
		{"loads[a].cord_drop", 0.0461, 5e-5}, {"loads[a].supply", 114.47, 5e-3}, {"loads[a].start_supply", 114.67, 5e-3},
	} {
		if got := reading(t, r, c.p); math.Abs(got-c.want) > c.within {
			t.Errorf("%s is %.5g, hand sum %.5g", c.p, got, c.want)
		}
	}
}

// Precedence is kept on the start card although it costs: a pump of 900 to
// 2,500 W that has to wait for a fan of 600 to 700 W peaks at 3,100 W.
func TestStartOrders_precedence(t *testing.T) {
	fan := rig.Load{Stock: rig.Stock{ID: "fan"}, Starts: "by-hand", Load: parts.Load{Running: 600, Starting: 700}}
	pump := rig.Load{Stock: rig.Stock{ID: "pump"}, Starts: "by-hand", Load: parts.Load{Running: 900, Starting: 2500}}
	for _, c := range []struct {
		after []string
		first string
		peak  units.Power
	}{{nil, "pump", 2500}, {[]string{"fan"}, "fan", 3100}} {
		pump.After = c.after
		o, err := modelOf(t, wired(fan, pump)).StartOrders(rig.State{}, nil)
		if err != nil {
			t.Fatal(err)
		}
		peak := units.Power(0)
		for _, st := range o[0].Steps {
			peak = max(peak, st.Peak)
		}
		if o[0].Steps[0].Loads[0] != c.first || peak != c.peak {
			t.Errorf("after %v: first %v, peak %v; want %s, %v", c.after, o[0].Steps[0].Loads, peak, c.first, c.peak)
		}
	}
}

// Where does the burner's limit at its voltage come from? From the speed of the
// belt generator: the fan moves air as it turns, less what its slip grows by. At
// a held voltage the slip of 4.2 % goes with the cube of the frequency (torque of
// the fan with its square, pull of the motor with 1/f²; slip speed over field
// speed), so the gain is 1 − 3·0.042/0.958 = 0.87.
func TestExplain_cleanFiringAtVoltage(t *testing.T) {
	m := demoModel(t, "B")
	s, err := m.ParseState("site=afternoon")
	if err != nil {
		t.Fatal(err)
	}
	tr, err := m.Explain("heaters[heater].clean_firing_at_voltage", s)
	if err != nil {
		t.Fatal(err)
	}
	gain := map[rig.Path]float64{}
	for _, in := range tr.Inputs {
		gain[in.Path] = in.Gain
	}
	if g := gain["sources[belt].speed"]; math.Abs(g-0.87) > 0.02 {
		t.Errorf("gain of the speed %g", g)
	}
	if g := gain["heaters[heater].clean_firing"]; math.Abs(g-1) > 1e-6 {
		t.Errorf("gain of the rate in standard air %g", g)
	}
	if g := gain["cords[burner].length"]; !(g < 0) {
		t.Errorf("gain of the cord's length %g", g)
	}
}

// Every input that a number of the wiring moves with is among those its metric
// names: what a verdict leans on would be missed otherwise.
func TestWiring_inputsAreNamed(t *testing.T) {
	for _, name := range demo.Names() {
		n, unnamed, err := rig.UnnamedInputs(demoModel(t, name))
		if err != nil {
			t.Fatal(err)
		}
		for _, u := range unnamed {
			t.Errorf("rig %s: %s, which its metric does not name", name, u)
		}
		if n < 40 {
			t.Errorf("rig %s: only %d numbers", name, n)
		}
	}
}
