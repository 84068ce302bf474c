package rig_test

import (
	"math"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

func demoModel(t *testing.T, name string, c ...rig.Change) *rig.Model {
	t.Helper()
	m, err := demo.Model(name)
	if err != nil {
		t.Fatal(err)
	}
	if m, err = m.With(c...); err != nil {
		t.Fatal(err)
	}
	return m
}

func assessed(t *testing.T, m *rig.Model) *rig.Report {
	t.Helper()
	r, err := m.Assess(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func judgement(t *testing.T, r *rig.Report, c rig.Code, part string) rig.Finding {
	t.Helper()
	for _, f := range append(r.Findings(), r.Passed()...) {
		if f.Code == c && f.Reading.Part == part {
			return f
		}
	}
	t.Fatalf("%s of %q was not judged", c, part)
	return rig.Finding{}
}

// A verdict that leans on an assumed value names it and the value at which it
// turns. B's portable generator starts at most 4,659 W at the site; with
// 2,200 W of vacuum motors running, the dump pump may take 2,459 W.
func TestLean_turns(t *testing.T) {
	s, err := demo.Spec("B")
	if err != nil {
		t.Fatal(err)
	}
	s.Basis["loads[dump-pump].starting"] = "assumed"
	shelf, err := demo.Shelf()
	if err != nil {
		t.Fatal(err)
	}
	m, err := rig.New(s, shelf)
	if err != nil {
		t.Fatal(err)
	}
	f := judgement(t, assessed(t, m), "source-start", "portable")
	if f.Severity != rig.Pass || len(f.Leans) != 1 || f.Leans[0] != "loads[dump-pump].starting" {
		t.Fatalf("severity %v, leans on %v", f.Severity, f.Leans)
	}
	want := 5800*0.818*0.982 - 2200 // W
	if got := f.Turns.SI(); math.Abs(got-want) > 1e-3 {
		t.Errorf("turns at %.3f W, hand sum %.3f W", got, want)
	}
	for _, c := range []struct {
		factor float64
		want   rig.Severity
	}{{0.999, rig.Pass}, {1.001, rig.Stop}} {
		q := (units.Power(f.Turns.SI() * c.factor)).Quantity()
		n, err := m.With(rig.Assign("loads[dump-pump].starting", q))
		if err != nil {
			t.Fatal(err)
		}
		if got := judgement(t, assessed(t, n), "source-start", "portable").Severity; got != c.want {
			t.Errorf("at %v × the turn: %v, want %v", c.factor, got, c.want)
		}
	}
}

// A start that the plate does not give is taken from the usual band of its
// class. If the verdict turns inside that band it cannot be judged.
func TestLean_cannotJudge(t *testing.T) {
	// A capacitor-start motor takes 2.5 to 4 times its 750 W: 1,875 to 3,000 W
	// (common practice). The verdict turns at 2,459 W, inside the band.
	f := judgement(t, assessed(t, demoModel(t, "B", rig.Set("loads[dump-pump].part", ""), rig.Set("loads[dump-pump].class", "capacitor-start-motor"),
		rig.Set("loads[dump-pump].running", "750 W"))), "source-start", "portable")
	if f.Severity != rig.CannotJudge || !f.Typical.Given() || f.Leans[0] != "loads[dump-pump].starting" {
		t.Errorf("severity %v, leans on %v, band %v", f.Severity, f.Leans, f.Typical)
	}
	// A brush motor takes 1.5 to 2 times: 1,125 to 1,500 W. The verdict turns
	// above the band: it passes and says what it leans on.
	f = judgement(t, assessed(t, demoModel(t, "B", rig.Set("loads[dump-pump].part", ""), rig.Set("loads[dump-pump].class", "brush-motor"),
		rig.Set("loads[dump-pump].running", "750 W"))), "source-start", "portable")
	if f.Severity != rig.Pass || len(f.Leans) == 0 {
		t.Errorf("severity %v, leans on %v", f.Severity, f.Leans)
	}
}

// Defaults the library takes are recorded with where they come from.
func TestModel_defaultsAreRecorded(t *testing.T) {
	m := demoModel(t, "B", rig.Set("pumps[main].belt_efficiency", ""))
	o := m.Origin("pumps[main].belt_efficiency")
	if o.Basis != rig.Assumed || !strings.Contains(o.Why, "common practice") {
		t.Errorf("origin %+v", o)
	}
	found := false
	for _, a := range m.Assumed() {
		found = found || a.Path == "pumps[main].belt_efficiency"
	}
	if !found {
		t.Error("the default is not in the list of assumed values")
	}
	if o := m.Origin("pumps[main].rated_flow"); o.Basis != rig.Nameplate || o.Why != "part P68" {
		t.Errorf("origin of a value from the shelf: %+v", o)
	}
	if o := m.Origin("site.elevation"); o.Basis != rig.Measured {
		t.Errorf("origin of a value with a stated basis: %+v", o)
	}
}

func TestModel_tolerance(t *testing.T) {
	m := demoModel(t, "B")
	tol, ok := m.Tolerance("lines[left].hose.length")
	if !ok || tol.HalfWidth != (2*units.Foot).Quantity() || tol.Normal {
		t.Errorf("%+v, %v", tol, ok)
	}
	tol, ok = m.Tolerance("pumps[main].rated_flow")
	if !ok || tol.Share != 0.02 || !tol.Normal {
		t.Errorf("%+v, %v", tol, ok)
	}
}

// Blocks of numbers that a change does not touch are not solved again: the
// readings are those of the first model, and the touched ones are not.
func TestModel_withTouchesOnlyItsBlocks(t *testing.T) {
	a := demoModel(t, "B")
	b, err := a.With(rig.Set("tanks[fresh].x", "9 ft"))
	if err != nil {
		t.Fatal(err)
	}
	if !rig.SharesLines(a, b) || rig.SharesStatics(a, b) {
		t.Error("moving a tank solves the lines again, or not the weights")
	}
	c, err := a.With(rig.Set("lines[left].hose.length", "200 ft"))
	if err != nil {
		t.Fatal(err)
	}
	if rig.SharesLines(a, c) || !rig.SharesStatics(a, c) {
		t.Error("a longer hose solves the weights again, or not the lines")
	}
}

func TestState_text(t *testing.T) {
	m := demoModel(t, "B")
	for _, text := range []string{"any", "guns=left+right heat=steady site=afternoon", "guns=none", "fill=home", "plugs=dump-pump>belt"} {
		s, err := m.ParseState(text)
		if err != nil || s.String() != text {
			t.Errorf("%q reads as %q, %v", text, s, err)
		}
	}
	for _, text := range []string{"guns", "guns=middle", "colour=red", "guns=left guns=right", "fill="} {
		if s, err := m.ParseState(text); err == nil {
			t.Errorf("%q is accepted as %v", text, s)
		}
	}
}

func TestPolicy_refuses(t *testing.T) {
	m := demoModel(t, "B")
	limit := func(c rig.Code, l rig.Limit) *rig.Policy { return &rig.Policy{Limits: map[rig.Code]rig.Limit{c: l}} }
	signed := rig.Limit{Who: "w", When: "d", Why: "y", Stop: (9 * units.Minute).Quantity()}
	for _, c := range []struct {
		name string
		p    *rig.Policy
		want string
	}{
		{"unknown code", limit("no-such-code", signed), "no check has this code"},
		{"a plate", limit("trailer-over-rating", signed), "plate"},
		{"unsigned", limit("bypass-heating", rig.Limit{Stop: signed.Stop}), "who"},
		{"empty", limit("bypass-heating", rig.Limit{Who: "w", When: "d", Why: "y"}), "changes no threshold"},
		{"another kind", limit("bypass-heating", rig.Limit{Who: "w", When: "d", Why: "y", Stop: (9 * units.PSI).Quantity()}), "want a duration"},
		{"a stop switched off", &rig.Policy{Off: []rig.Code{"bypass-heating"}}, "never switched off"},
		{"a plate switched off", &rig.Policy{Off: []rig.Code{"engine-overload"}}, "never switched off"},
		{"an unknown code switched off", &rig.Policy{Off: []rig.Code{"nothing"}}, "a code"},
	} {
		if _, err := m.Assess(c.p, nil); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	r, err := m.Assess(&rig.Policy{Off: []rig.Code{"pressure-jump"}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range r.Findings() {
		if f.Code == "pressure-jump" {
			t.Error("a check that is off still reports")
		}
	}
}

// A trigger is one change to rig B that makes a code weigh what is wanted.
type trigger struct {
	code rig.Code
	part string
	want rig.Severity
	c    []rig.Change // nil: B has it as it stands
}

// set makes changes of pairs of path and text.
func set(pairs ...string) []rig.Change {
	var out []rig.Change
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, rig.Set(rig.Path(pairs[i]), pairs[i+1]))
	}
	return out
}

// triggers has at least one of every code of the library's own checks.
func triggers() []trigger {
	return []trigger{
		{"pressure-over-rating", "main", rig.Stop, set("lines[left].hose.maximum_pressure", "2000 psi")},
		{"dead-head", "main", rig.Stop, set("pumps[main].unloader.part", "", "pumps[main].unloader.setting", "", "pumps[main].unloader.return_to", "", "pumps[main].relief.part", "")},
		{"relief-in-use", "main", rig.Stop, set("pumps[main].unloader.part", "", "pumps[main].unloader.return_to", "")},
		{"relief-over-rating", "main", rig.Stop, set("pumps[main].relief.setting", "3600 psi")},
		{"unloader-over-relief", "main", rig.Stop, set("pumps[main].unloader.setting", "3450 psi")},
		{"engine-overload", "washer", rig.Stop, set("engines[washer].part", "E13")},
		{"source-overload", "portable", rig.Stop, set("sources[portable].running", "3000 W")},
		{"source-start", "portable", rig.Stop, set("sources[portable].starting", "5000 W")},
		{"source-restart", "portable", rig.Fix, nil},
		{"source-apparent", "portable", rig.Stop, set("sources[portable].running_apparent", "3000 VA")},
		{"source-start-apparent", "portable", rig.Stop, set("sources[portable].running_apparent", "3500 VA", "sources[portable].starting_apparent", "4000 VA")},
		{"source-start-order", "portable", rig.Fix, set("loads[vacuum-1].starting", "3000 W")},
		{"ground-fault", "left", rig.Stop, set("outlets[left].ground_fault", "no")},
		{"outlet-overload", "left", rig.Stop, set("outlets[left].breaker", "8 A")},
		{"outlet-continuous", "left", rig.Fix, set("outlets[left].breaker", "12 A")},
		{"leakage", "left", rig.Fix, set("loads[vacuum-1].leakage", "7 mA")},
		{"neutral-differs", "dump-pump", rig.Fix, set("sources[portable].neutral", "floating")},
		{"leg-overload", "portable", rig.Stop, set("sources[portable].legs", "2", "sources[portable].running_apparent", "3400 VA")},
		{"cord-overload", "vacuum-1", rig.Stop, set("cords[vacuum-1].ampacity", "9 A")},
		{"cord-protection", "vacuum-1", rig.Fix, set("cords[vacuum-1].gauge", "14 AWG")},
		{"cord-drop", "vacuum-1", rig.Fix, set("cords[vacuum-1].length", "200 ft")},
		{"cord-start-drop", "dump-pump", rig.Fix, set("cords[dump-pump].length", "400 ft")},
		{"supply-low", "burner", rig.Fix, set("sources[belt].voltage", "102 V")},
		{"frequency-off", "belt", rig.Fix, set("sources[belt].speed", "3850 rpm")},
		{"idle-voltage", "portable", rig.Fix, set("sources[portable].idle_speed", "2400 rpm")},
		{"voltage-dip", "belt", rig.Fix, set("sources[belt].transient_reactance", "90 %")},
		{"frequency-dip", "portable", rig.Fix, set("sources[portable].inertia", "0.02 s")},
		{"clean-firing-voltage", "heater", rig.Fix, set("sources[belt].speed", "3450 rpm")},
		{"clean-firing-dip", "heater", rig.Note, set("loads[dump-pump].source", "belt", "loads[dump-pump].outlet", "belt-panel", "sources[belt].transient_reactance", "90 %")},
		{"engine-overload-coupled", "washer", rig.Stop, set("engines[washer].part", "E13", "engines[washer].no_load_speed", "3750 rpm", "engines[washer].droop", "4 %")},
		{"frequency-coupled", "belt", rig.Fix, set("engines[washer].no_load_speed", "3750 rpm", "engines[washer].droop", "10 %")},
		{"clean-firing-coupled", "heater", rig.Fix, set("engines[washer].no_load_speed", "3750 rpm", "engines[washer].droop", "9 %")},
		{"fire-starved", "heater", rig.Fix, set("heaters[heater].clean_firing", "3.8 gph")},
		{"outlet-cold-coupled", "heater", rig.Fix, set("heaters[heater].oil_nozzle", "2.5 gph")},
		{"engine-start", "washer", rig.Fix, set("loads[burner].starting", "2900 W")},
		{"battery-deficit", "starter", rig.Fix, set("batteries[starter].charging", "4 A")},
		{"cranking-reserve", "starter", rig.Fix, set("batteries[starter].cold_cranking", "200 A")},
		{"cable-drop", "reel-left", rig.Fix, set("direct_loads[reel-left].gauge", "12 AWG")},
		{"fuel-fill-in-heat", "fuel-fill", rig.Stop, set("zones[fuel-fill].x", "8.4 ft", "zones[fuel-fill].y", "0.5 ft")},
		{"outlet-unknown", "vacuum-2", rig.CannotJudge, set("loads[vacuum-2].outlet", "")},
		{"supply-high", "vacuum-1", rig.Fix, set("sources[portable].voltage", "240 V")},
		{"bypass-heating-warm", "main", rig.Stop, set("pumps[main].unloader.return_to", "inlet", "pumps[main].unloader.loop_volume", "4 gal", "pumps[main].suction.warmest_water", "105 °F")},
		{"coil-relief-over-rating", "heater", rig.Stop, set("heaters[heater].relief", "4500 psi")},
		{"coil-relief-low", "heater", rig.Stop, set("heaters[heater].relief", "2800 psi")},
		{"bypass-heating", "main", rig.Stop, set("pumps[main].unloader.return_to", "inlet", "pumps[main].unloader.loop_volume", "1 gal")},
		{"thermostat-over-rating", "heater", rig.Stop, set("heaters[heater].thermostat", "205 °F")},
		{"high-limit-over-rating", "heater", rig.Stop, set("heaters[heater].high_limit", "220 °F")},
		{"thermostat-over-high-limit", "heater", rig.Fix, set("heaters[heater].high_limit", "160 °F")},
		{"stuck-burner", "heater", rig.Stop, set("heaters[heater].high_limit", "220 °F")},
		{"thermostat-boiling", "heater", rig.Fix, set("site.elevation", "9000 ft", "heaters[heater].thermostat", "198 °F")},
		{"boiling-margin", "heater", rig.Note, nil},
		{"clean-firing", "heater", rig.Fix, set("site.elevation", "7000 ft")},
		{"outlet-cold", "heater", rig.Fix, set("heaters[heater].thermostat", "150 °F")},
		{"gun-cold", "left", rig.Fix, set("site.conditions[morning].wind", "15 mph")},
		{"gun-cold-in-wind", "left", rig.Note, nil},
		{"flash-at-nozzle", "left", rig.Fix, set("heaters[heater].thermostat", "215 °F", "heaters[heater].oil_nozzle", "5 gph")},
		{"recovered-share-high", "left", rig.Note, set("heaters[heater].thermostat", "260 °F", "heaters[heater].oil_nozzle", "7 gph", "duty.recovered_share", "99 %", "recovery[plant].evaporated", "")},
		{"fires-without-flow", "heater", rig.Stop, set("heaters[heater].flow_switch", "no", "heaters[heater].pressure_switch", "no")},
		{"release-over-rating", "heater", rig.Stop, set("heaters[heater].maximum_temperature", "175 °F", "heaters[heater].high_limit", "172 °F")},
		{"soak-over-rating", "heater", rig.Stop, set("heaters[heater].maximum_pressure", "3150 psi")},
		{"high-limit-late", "heater", rig.Fix, nil},
		{"short-cycles", "heater", rig.Note, nil},
		{"oil-nozzle-small", "heater", rig.Fix, set("heaters[heater].oil_nozzle", "2.5 gph")},
		{"oil-nozzle-large", "heater", rig.Fix, set("heaters[heater].oil_nozzle", "3.5 gph")},
		{"efficiency-low", "heater", rig.Fix, set("heaters[heater].stack.temperature", "600 °F")},
		{"coil-fouled", "heater", rig.Fix, set("heaters[heater].soot", "2 mm")},
		{"coil-scales", "heater", rig.Note, set("site.hardness", "0.4 kg/m³")},
		{"thermal-relief-high", "main", rig.Fix, set("pumps[main].thermal_relief.setting", "160 °F")},
		{"thermal-relief-small", "main", rig.Fix, set("pumps[main].thermal_relief.setting", "140 °F", "pumps[main].thermal_relief.flow", "0.3 gpm")},
		{"coil-freezes", "heater", rig.Fix, set("winter.volume", "", "winter.strength", "")},
		{"coil-freezes-on-road", "heater", rig.Fix, set("winter.volume", "", "winter.strength", "")},
		{"hose-freezes", "left", rig.Fix, set("winter.volume", "", "winter.strength", "")},
		{"hose-freezes-on-road", "left", rig.Fix, set("winter.volume", "", "winter.strength", "")},
		{"pump-freezes", "main", rig.Fix, set("winter.volume", "", "winter.strength", "")},
		{"pump-freezes-on-road", "main", rig.Fix, set("winter.volume", "", "winter.strength", "")},
		{"antifreeze-weak", "", rig.Fix, set("winter.strength", "35 %")},
		{"antifreeze-poison", "", rig.Stop, set("winter.antifreeze", "ethylene-glycol")},
		{"nozzle-pressure-low", "left", rig.Fix, set("lines[left].nozzle.part", "N55", "lines[right].nozzle.part", "N55")},
		{"nozzle-pressure-high", "left", rig.Fix, set("lines[left].nozzle.part", "N40", "lines[right].nozzle.part", "N40")},
		{"pressure-jump", "left", rig.Note, nil},
		{"tongue-share-low", "", rig.Stop, set("items[recovery].x", "24 ft", "tanks[recovered].x", "16 ft")},
		{"tongue-share-high", "", rig.Fix, set("tanks[fresh].x", "9 ft")},
		{"tongue-over-rating", "", rig.Stop, set("trailer.coupler_rating", "700 lb")},
		{"trailer-over-rating", "", rig.Stop, set("trailer.gross_rating", "6500 lb")},
		{"axle-over-rating", "", rig.Stop, set("trailer.axle_rating", "2800 lb")},
		{"combination-over-rating", "", rig.Stop, set("tow_vehicle.combination_rating", "13000 lb")},
		{"vehicle-over-rating", "", rig.Stop, append(set("tow_vehicle.gross_rating", "15000 lb", "tow_vehicle.payload_rating", "5000 lb"), rig.Remove("trailer"))},
		{"tongue-negative", "", rig.Stop, set("items[recovery].x", "40 ft", "tanks[recovered].x", "24 ft")},
		{"tyre-over-rating", "", rig.Stop, set("trailer.tyre_rating", "1500 lb")},
		{"lateral-imbalance", "", rig.Fix, set("items[skid].y", "3 ft")},
		{"tip-over", "", rig.Stop, set("trailer.track", "2 ft")},
		{"side-slope", "", rig.Fix, set("site.side_slope", "30 deg")},
		{"tail-drop", "", rig.Stop, set("items[recovery].x", "40 ft", "tanks[recovered].x", "24 ft")},
		{"jack-over-rating", "", rig.Stop, set("trailer.jack_rating", "1000 lb")},
		{"tanks-far-apart", "", rig.Note, set("tanks[recovered].x", "15.6 ft")},
		{"fuel-near-heat", "gasoline/stack", rig.Stop, set("zones[stack].clearance", "14 in")},
		{"clash", "recovery/recovered", rig.Fix, set("tanks[recovered].x", "15.6 ft")},
		{"beyond-deck", "reels", rig.Note, set("items[reels].box.x", "18.2 ft")},
		{"tie-down-short", "fresh-bands", rig.Stop, set("tie_downs[fresh-bands].working_load", "350 lbf")},
		{"tie-down-breaks", "fresh-bands", rig.Stop, set("tie_downs[fresh-bands].breaking_load", "550 lbf")},
		{"unweighed-heavy", "item-tools", rig.CannotJudge, set("items[tools].part", "", "trailer.coupler_rating", "1000 lb")},
		{"unweighed-light", "item-tools", rig.CannotJudge, set("items[tools].part", "", "tanks[recovered].x", "14.8 ft")},
		{"clean-water-mixed", "fresh", rig.Fix, set("crossovers[joint].valve", "open")},
		{"fuel-short", "diesel", rig.Fix, set("modes[two-guns].time", "24 h")},
		{"fuel-clouds", "diesel", rig.Fix, set("site.conditions[morning].air", "5 °F")},
		{"fuel-gels", "diesel", rig.Stop, set("site.conditions[morning].air", "-20 °F")},
		{"plate-generous", "washer", rig.Note, set("engines[washer].loss_per_1000_ft", "1 %")},
		{"engine-lugs", "washer", rig.Fix, append([]rig.Change{rig.Add("engines[washer].curve", "low", ""), rig.Add("engines[washer].curve", "high", "")},
			set("engines[washer].no_load_speed", "3740 rpm", "engines[washer].droop", "4 %", "engines[washer].curve[low].speed", "2000 rpm", "engines[washer].curve[low].power", "16 hp",
				"engines[washer].curve[high].speed", "3600 rpm", "engines[washer].curve[high].power", "17 hp")...)},
		{"wrong-fuel", "gasoline", rig.Stop, set("engines[washer].burns", "diesel")},
		{"surge-over-rating", "left", rig.Stop, set("lines[left].hose.maximum_pressure", "3050 psi", "pumps[main].relief.setting", "3000 psi")},
		{"surge-in-band", "left", rig.CannotJudge, set("lines[left].hose.maximum_pressure", "3420 psi")},
		{"gun-reaction", "left", rig.Fix, set("lines[left].nozzle.number", "22", "lines[left].hose.bore", "0.75 in", "lines[left].hose.outside_diameter", "1.1 in", "lines[left].fittings.flow", "20 gpm", "pumps[main].rated_flow", "40 gpm")},
		{"relief-close", "main", rig.Fix, set("pumps[main].unloader.setting", "3300 psi")},
		{"unloader-close", "main", rig.Note, set("pumps[main].unloader.setting", "2480 psi")},
		{"worn-too-low", "left", rig.Note, nil},
		{"reel-small", "left", rig.Fix, set("lines[left].hose.outside_diameter", "0.69 in", "lines[left].reel.core", "6 in", "lines[left].reel.flange", "12 in", "lines[left].reel.width", "8 in")},
		{"pump-fast", "main", rig.Fix, set("engines[washer].no_load_speed", "3750 rpm", "pumps[main].speed", "1450 rpm", "pumps[main].engine_pulley", "4 in", "pumps[main].pump_pulley", "8 in")},
		{"geometry-differs", "main", rig.Note, set("pumps[main].plungers", "3", "pumps[main].plunger_diameter", "18 mm", "pumps[main].stroke", "18 mm", "pumps[main].speed", "1450 rpm")},
		{"carbon-monoxide", "", rig.Stop, set("site.place", "in-building")},
		{"chemicals-meet", "bleach", rig.Stop, append([]rig.Change{rig.Add("chemicals", "bleach", ""), rig.Add("chemicals", "brightener", "")},
			set("chemicals[bleach].family", "hypochlorite", "chemicals[brightener].family", "acid")...)},
		{"chemical-in-coil", "soap", rig.Stop, append([]rig.Change{rig.Add("chemicals", "soap", "")}, set("chemicals[soap].family", "detergent", "chemicals[soap].enters", "before-pump")...)},
		{"chemical-attacks", "lye", rig.Stop, append([]rig.Change{rig.Add("chemicals", "lye", "")}, set("chemicals[lye].family", "caustic", "chemicals[lye].wets", "aluminium steel")...)},
		{"chemical-mist", "bleach", rig.Fix, append([]rig.Change{rig.Add("chemicals", "bleach", "")}, set("chemicals[bleach].family", "hypochlorite", "chemicals[bleach].mist", "yes")...)},
		{"feed-short", "depot", rig.Fix, set("supplies[depot].tank", "", "supplies[depot].pump", "main", "supplies[depot].air_gap", "", "supplies[depot].spout", "", "pumps[main].tank", "", "pumps[main].unloader.return_to", "inlet", "pumps[main].unloader.loop_volume", "1 gal", "pumps[main].minimum_inlet_pressure", "90 psi")},
		{"feed-over-pressure", "depot", rig.Stop, set("supplies[depot].tank", "", "supplies[depot].pump", "main", "supplies[depot].air_gap", "", "supplies[depot].spout", "", "pumps[main].tank", "", "pumps[main].unloader.return_to", "inlet", "pumps[main].unloader.loop_volume", "1 gal", "pumps[main].maximum_inlet_pressure", "5 psi")},
		{"feed-unprotected", "depot", rig.Stop, set("supplies[depot].tank", "", "supplies[depot].pump", "main", "supplies[depot].air_gap", "", "supplies[depot].spout", "", "pumps[main].tank", "", "pumps[main].unloader.return_to", "inlet", "pumps[main].unloader.loop_volume", "1 gal", "supplies[depot].device", "none", "supplies[depot].device_loss", "")},
		{"injector-starved", "soap", rig.Fix, soap("injector.minimum_flow", "5 gpm")},
		{"injector-drowned", "soap", rig.Fix, soap("injector.tip", "4")},
		{"injector-lift", "soap", rig.Fix, soap("injector.vacuum", "5 inHg", "injector.lift", "12 ft")},
		{"chemical-weak", "soap", rig.Fix, soap("wanted_low", "0.7 %")},
		{"chemical-strong", "soap", rig.Fix, soap("wanted_high", "0.8 %")},
		{"chemical-robs-gun", "soap", rig.Note, soap()},
		{"chemical-pump-short", "soap", rig.Fix, soap("chemical_pump.wanted_flow", "0.8 gpm")},
		{"chemical-pump-cycles", "soap", rig.Fix, soap("chemical_pump.tip", "3", "chemical_pump.least_cycle", "60 s")},
		{"hydrofluoric-carried", "bright", rig.Fix, append([]rig.Change{rig.Add("chemicals", "bright", "")}, set("chemicals[bright].family", "hydrofluoric", "chemicals[bright].enters", "at-gun", "chemicals[bright].wets", "steel")...)},
		{"surface-painted", "", rig.Note, set("duty.surface", "paint")},
		{"surface-licensed", "", rig.Stop, set("duty.surface", "paint lead-paint")},
		{"flammable-surface", "", rig.Stop, set("duty.surface", "soil flammable")},
		{"run-off", "", rig.Stop, set("duty.run_off", "storm-drain")},
		{"freezing-pavement", "morning", rig.Fix, set("site.conditions[morning].air", "30 °F")},
		{"gun-at-height", "", rig.Stop, set("duty.height", "ladder")},
		{"trapped-pressure", "main", rig.Note, set("pumps[main].unloader.type", "trapped-pressure")},
		{"warm-storage", "recovered", rig.Fix, set("tanks[recovered].stored", "4 day")},
		{"dump-unlocked", "recovered", rig.Fix, set("tanks[recovered].dump_valve", "free")},
		{"confined-space", "fresh", rig.Note, set("tanks[fresh].way_in", "yes")},
		{"mode-mixes-water", "two-guns", rig.Fix, set("modes[two-guns].open", "joint")},
		{"fouled-water-sprayed", "main", rig.Fix, set("pumps[main].tank", "recovered")},
		{"hose-end-fouls", "return", rig.Stop, set("hose_ends[return].at", "fresh")},
		{"drum-over-vacuum", "plant", rig.Stop, set("recovery[plant].drum.maximum_vacuum", "80 inH2O")},
		{"recovery-puddles", "plant", rig.Fix, set("recovery[plant].hose.length", "200 ft")},
		{"recovery-air-slow", "plant", rig.Note, nil},
		{"recovery-stalls", "plant", rig.Fix, set("recovery[plant].lift", "8 ft")},
		{"dump-out-short", "plant", rig.Fix, set("recovery[plant].dump_pump.shut_off_head", "14 ft")},
		{"dump-draws-back", "plant", rig.Fix, set("recovery[plant].discharge.check_valve", "no", "recovery[plant].discharge.cracking", "")},
		{"recovery-no-room", "plant", rig.Fix, nil},
		{"filter-short", "plant", rig.Note, set("recovery[plant].dirt", "0.1 lb/gal")},
		{"recovery-flammable", "plant", rig.Stop, set("recovery[plant].flammables", "yes")},
		{"recovery-oil-reused", "plant", rig.Stop, set("recovery[plant].oil", "yes", "crossovers[joint].valve", "open")},
		{"suction-head", "main", rig.Stop, set("pumps[main].required_head", "14 ft")},
		{"suction-reserve", "main", rig.Note, set("pumps[main].required_head", "11 ft")},
		{"suction-fast", "main", rig.Note, set("pumps[main].suction.bore", "1.1 in")},
		{"low-side-hot", "main", rig.Stop, set("pumps[main].suction.maximum_temperature", "100 °F")},
		{"strainer-coarse", "main", rig.Fix, set("pumps[main].suction.strainer.opening", "0.03 in")},
		{"strainer-service", "main", rig.Fix, set("pumps[main].suction.strainer.valve", "no")},
		{"tank-vacuum", "fresh", rig.Stop, set("tanks[fresh].vent", "5/8 in")},
		{"air-gap", "depot", rig.Stop, set("supplies[depot].air_gap", "1 in", "supplies[depot].device", "", "supplies[depot].device_loss", "")},
		{"supply-loses-ground", "depot", rig.Note, set("supplies[depot].hose.length", "2000 ft", "supplies[depot].static", "20 psi", "supplies[depot].residual", "10 psi", "supplies[depot].hose.bore", "0.5 in")},
		{"crossover-spills", "joint", rig.Fix, set("crossovers[joint].valve", "open", "crossovers[joint].bore", "1 in")},
		{"crossover-strands", "joint", rig.Note, set("crossovers[joint].valve", "open", "crossovers[joint].bore", "0.4 in")},
		{"water-short", "fresh", rig.Note, []rig.Change{rig.Remove("supplies[depot]")}},
		{"noise-level", "", rig.Note, set("lines[left].noise", "86")},
		{"noise-dose", "", rig.Fix, set("lines[left].noise", "94")},
		{"noise-criterion", "", rig.Note, set("lines[left].noise", "88")},
		{"pad-overtops", "", rig.Fix, set("site.pad.length", "20 ft", "site.pad.width", "20 ft", "site.pad.berm", "1 in", "site.pad.slope", "1 deg")},
		{"sources-tied", "portable", rig.Stop, set("sources[portable].tie", "direct")},
		{"live-pins", "vacuum-1", rig.Stop, set("cords[vacuum-1].ends", "two-plugs")},
		{"neutral-unknown", "dump-pump", rig.Note, set("sources[portable].part", "", "sources[portable].running", "4800 W", "sources[portable].starting", "5800 W")},
		{"age-unknown", "heater", rig.Fix, set("heaters[heater].history", "unknown")},
		{"tank-hot", "recovered", rig.Stop, set("tanks[recovered].maximum_temperature", "80 °F")},
		{"fault-over-rating", "main", rig.Stop, set("pumps[main].relief.accumulation", "200 psi")},
		{"fault-dead-head", "main", rig.Stop, set("pumps[main].relief.part", "")},
		{"fault-reaction", "left", rig.Note, set("lines[left].nozzle.number", "22", "lines[left].hose.bore", "0.75 in", "lines[left].hose.outside_diameter", "1.1 in", "lines[left].fittings.flow", "20 gpm", "pumps[main].rated_flow", "40 gpm")},
		{"fault-overloads-engine", "washer", rig.Note, nil},
		{"fault-over-temperature", "heater", rig.Fix, set("heaters[heater].maximum_temperature", "172 °F", "heaters[heater].high_limit", "171 °F")},
		{"motor-out-puddles", "plant", rig.Note, nil},
		{"guard-missing", "heater", rig.CannotJudge, set("heaters[heater].high_limit", "")},
	}
}

// Each code of the library's own checks is triggered by one change to rig B,
// and is not a finding of the grave kind without it.
func TestCodes_eachIsTriggered(t *testing.T) {
	list := triggers()
	quickly := func(m *rig.Model) *rig.Report {
		t.Helper()
		r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	base := quickly(demoModel(t, "B"))
	seen := map[rig.Code]bool{}
	for _, x := range list {
		seen[x.code] = true
		t.Run(string(x.code), func(t *testing.T) {
			r := quickly(demoModel(t, "B", x.c...))
			got := rig.Pass
			for _, f := range r.Findings() {
				if f.Code == x.code && f.Reading.Part == x.part {
					got = f.Severity
				}
			}
			if got != x.want {
				t.Errorf("%v, want %v; found: %v", got, x.want, codesOf(r))
			}
			if off := (&rig.Policy{Off: []rig.Code{x.code}}).Validate(); x.want >= rig.CannotJudge && off == nil {
				t.Errorf("it weighs %v and can be switched off", x.want)
			}
			if x.c == nil {
				return // B has this one as it stands
			}
			for _, f := range base.Findings() {
				if f.Code == x.code && f.Reading.Part == x.part && f.Severity >= x.want {
					t.Errorf("B has it without the change: %v", f.Severity)
				}
			}
		})
	}
	for _, d := range rig.Codes() {
		if !seen[d.Code] {
			t.Errorf("no test triggers %s", d.Code)
		}
		if d.Title == "" || d.Meaning == "" {
			t.Errorf("%s is not documented", d.Code)
		}
	}
}

func codesOf(r *rig.Report) []string {
	var out []string
	for _, f := range r.Findings() {
		out = append(out, f.Severity.String()+" "+string(f.Code)+" "+f.Reading.Part)
	}
	return out
}
