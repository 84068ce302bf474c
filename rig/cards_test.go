package rig_test

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/golden"
	"example.com/washrig/internal/jsonschema"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

func cardOf(t *testing.T, r *rig.Report, mode string) rig.ModeCard {
	t.Helper()
	list, err := r.ModeCards()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range list {
		if c.ID == mode {
			return c
		}
	}
	t.Fatalf("no card for %s", mode)
	return rig.ModeCard{}
}

func water(t *testing.T, c rig.ModeCard, tank string) rig.CardWater {
	t.Helper()
	for _, w := range c.Water {
		if w.Tank == tank {
			return w
		}
	}
	t.Fatalf("no tank %s on the card", tank)
	return rig.CardWater{}
}

func about(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// Hand sums for two guns of 3.4 gpm at 55 % trigger time and 72 % picked up:
// 6.8 × 0.55 = 3.74 gpm out of the fresh tank, 232/3.74 = 62.0 min; 3.74 × 0.72 =
// 2.693 gpm into the recovered tank, 154/2.693 = 57.2 min. One gun: 3.737 × 0.55 =
// 2.055 gpm, 232/2.055 = 112.9 min. The day draws 1.5 h × 224.4 + 4.5 h × 123.3 =
// 891.6 gal, 660 more than the tank gives.
func TestModeCard_waterByHand(t *testing.T) {
	r := assessed(t, demoModel(t, "B"))
	two, one := cardOf(t, r, "two-guns"), cardOf(t, r, "one-gun")
	fresh, back := water(t, two, "fresh"), water(t, two, "recovered")
	about(t, "drawn", fresh.Drawn.In(units.GallonPerMinute), 3.74, 0.001)
	about(t, "dry after", fresh.Lasts.In(units.Minute), 62.03, 0.05)
	about(t, "put in", back.Returned.In(units.GallonPerMinute), 2.693, 0.001)
	about(t, "full after", back.FullIn.In(units.Minute), 57.2, 0.05)
	about(t, "one gun, dry after", water(t, one, "fresh").Lasts.In(units.Minute), 112.9, 0.2)
	day, ok := r.At("tanks[fresh].day_drawn", rig.State{})
	if !ok {
		t.Fatal("no water of the day")
	}
	about(t, "drawn in the day", units.Volume(day.Value.SI()).In(units.Gallon), 891.6, 1)
	more, _ := r.At("tanks[fresh].day_make_up", rig.State{})
	about(t, "filled in during the day", units.Volume(more.Value.SI()).In(units.Gallon), 659.6, 1)
	dry, _ := r.At("tanks[fresh].day_dry_after", rig.State{})
	about(t, "the day's first dry tank", units.Duration(dry.Value.SI()).In(units.Minute), 62.03, 0.05)

	// Weight: in those 57.2 min the fresh tank loses 213.9 gal of 8.34 lb at 11.0 ft,
	// the recovered one gains 154 gal at 12.4 ft, axles at 12.6 ft; fuel burns 1.97
	// gal of gasoline (6.1 lb, 7.0 ft) and 1.85 gal of diesel (7.1 lb, 8.4 ft).
	lost, gained, gas, oil := 213.9*8.34, 154*8.34, 1.97*6.1, 1.85*7.1
	about(t, "lighter by", -two.Weight.Total.In(units.Pound), lost-gained+gas+oil, 4)
	about(t, "tongue lighter by", -two.Weight.Tongue.In(units.Pound), lost*(1-11.0/12.6)-gained*(1-12.4/12.6)+gas*(1-7.0/12.6)+oil*(1-8.4/12.6), 2)
	if two.Weight.Until != "tank recovered is full" {
		t.Errorf("until %q", two.Weight.Until)
	}
}

// With the crossover open in a mode both tanks give together, what comes back
// stays in the loop, and clean water is clean no more.
func TestModeCard_openCrossover(t *testing.T) {
	r := assessed(t, demoModel(t, "B", rig.Set("modes[two-guns].open", "joint")))
	c := cardOf(t, r, "two-guns")
	fresh := water(t, c, "fresh")
	if fresh.Becomes != "recovered" || !slices.Contains(fresh.Joined, "recovered") {
		t.Errorf("fresh becomes %s, joined to %v", fresh.Becomes, fresh.Joined)
	}
	// (232 + 154) gal over 3.74 × 0.28 gpm.
	about(t, "hours together", fresh.Lasts.In(units.Minute), 386/(3.74*0.28), 0.5)
	if one := water(t, cardOf(t, r, "one-gun"), "fresh"); one.Becomes != "clean" {
		t.Errorf("in the other mode fresh becomes %s", one.Becomes)
	}
	open := false
	for _, v := range c.Valves {
		open = open || v.Path == "crossovers[joint]" && v.Open
	}
	if !open {
		t.Error("the card does not say that the crossover is open")
	}
	if !wears(c, "respirator") {
		t.Errorf("mist of recovered water without a respirator: %v", c.Protect)
	}
}

// A mode that puts the end of the return hose into the clean tank fills it and
// fouls it.
func TestModeCard_movedEnd(t *testing.T) {
	r := assessed(t, demoModel(t, "B", rig.Set("modes[two-guns].ends", "return>fresh")))
	c := cardOf(t, r, "two-guns")
	fresh := water(t, c, "fresh")
	about(t, "put in", fresh.Returned.In(units.GallonPerMinute), 2.693, 0.001)
	if fresh.Becomes != "recovered" || water(t, c, "recovered").Returned != 0 {
		t.Errorf("fresh %+v", fresh)
	}
	moved := false
	for _, e := range c.Ends {
		moved = moved || e.ID == "return" && e.At == "fresh" && e.Moved
	}
	if !moved {
		t.Errorf("ends %v", c.Ends)
	}
}

func wears(c rig.ModeCard, word string) bool {
	for _, p := range c.Protect {
		if strings.Contains(p.Wear, word) {
			return true
		}
	}
	return false
}

// The respirator stands on the card of the mode that sprays, and on no other; a
// chemical that no mode names counts for every mode with a gun.
func TestModeCard_respirator(t *testing.T) {
	bleach := []rig.Change{rig.Add("chemicals", "bleach", ""), rig.Set("chemicals[bleach].family", "hypochlorite"), rig.Set("chemicals[bleach].mist", "yes")}
	r := assessed(t, demoModel(t, "B", append(bleach, rig.Set("modes[one-gun].sprays", "bleach"))...))
	for mode, want := range map[string]bool{"one-gun": true, "two-guns": false, "recover": false} {
		if got := wears(cardOf(t, r, mode), "respirator"); got != want {
			t.Errorf("%s: respirator %v, want %v", mode, got, want)
		}
	}
	r = assessed(t, demoModel(t, "B", bleach...))
	for mode, want := range map[string]bool{"one-gun": true, "two-guns": true, "recover": false} {
		if got := wears(cardOf(t, r, mode), "respirator"); got != want {
			t.Errorf("named by no mode, %s: respirator %v, want %v", mode, got, want)
		}
	}
}

// On every card of every rig of the demo nothing is opened before the burner is
// off, the water cold, the pump off and the guns squeezed; every load of the mode
// is switched on once or expected once; every text is said in both systems.
func TestModeCard_order(t *testing.T) {
	for _, name := range demo.Names() {
		r := assessed(t, demoModel(t, name))
		cards, err := r.ModeCards()
		if err != nil {
			t.Fatal(err)
		}
		if len(cards) != len(r.Model().Modes()) {
			t.Fatalf("%s: %d cards", name, len(cards))
		}
		for _, c := range cards {
			at := func(a rig.Action) int {
				return slices.IndexFunc(c.Stop, func(s rig.CardStep) bool { return s.Do == a })
			}
			if len(c.Guns) > 0 {
				last := -1
				for _, a := range []rig.Action{rig.DoBurnerOff, rig.DoRunCold, rig.DoStopEngine, rig.DoSqueeze, rig.DoOnlyThen} {
					if at(a) <= last {
						t.Errorf("%s, %s: %s comes at %d, after %d", name, c.ID, a, at(a), last)
					}
					last = at(a)
				}
				if len(c.Trapped) < len(c.Guns) {
					t.Errorf("%s, %s: %d sections that hold pressure", name, c.ID, len(c.Trapped))
				}
			}
			seen := map[rig.Path]int{}
			for _, s := range c.Start {
				if s.Do == rig.DoSwitchOn || s.Do == rig.DoExpect {
					for _, p := range s.Parts {
						seen[p]++
					}
				}
			}
			for _, p := range c.Plugs {
				if seen[rig.Path("loads["+p.Load+"]")] != 1 {
					t.Errorf("%s, %s: load %s stands %d times in the order", name, c.ID, p.Load, seen[rig.Path("loads["+p.Load+"]")])
				}
			}
			for _, s := range append(slices.Clone(c.Start), c.Stop...) {
				for _, sys := range []units.System{units.US, units.SI} {
					if text := s.Text(sys); !strings.HasSuffix(text, ".") || strings.Contains(text, "[") {
						t.Errorf("%s, %s: %q", name, c.ID, text)
					}
				}
			}
		}
	}
}

// A pump on a hydrant: its feed stands open while it washes, never shut as a filling
// valve does, and a pump that no engine drives is stopped before the pressure is let out.
func TestModeCard_fedPump(t *testing.T) {
	m, err := read(fed)
	if err != nil {
		t.Fatal(err)
	}
	cards, err := assessed(t, m).ModeCards()
	if err != nil || len(cards) == 0 {
		t.Fatalf("%d cards, %v", len(cards), err)
	}
	c := cards[0]
	feed := slices.IndexFunc(c.Valves, func(v rig.CardValve) bool { return v.Path == "supplies[hydrant]" })
	if feed < 0 || !c.Valves[feed].Open || !strings.Contains(c.Valves[feed].What, "pump main") {
		t.Errorf("the feed of the pump: %+v", c.Valves)
	}
	at := func(list []rig.CardStep, a rig.Action) int {
		return slices.IndexFunc(list, func(s rig.CardStep) bool { return s.Do == a && len(s.Parts) > 0 })
	}
	if on, purge := at(c.Start, rig.DoStartPump), at(c.Start, rig.DoPurge); on < 0 || c.Start[on].Parts[0] != "pumps[main]" || on > purge {
		t.Errorf("the pump is started at %d, the air let out at %d: %v", on, purge, c.Start)
	}
	if off, let := at(c.Stop, rig.DoStopPump), at(c.Stop, rig.DoSqueeze); off < 0 || c.Stop[off].Parts[0] != "pumps[main]" || off > let {
		t.Errorf("the pump is stopped at %d, the pressure let out at %d: %v", off, let, c.Stop)
	}
}

// No pump starts against shut guns: before engine or pump a gun is open, and the air is
// let out before any burner. That holds too for a pump that turns only because its engine
// drives a generator, as D's does while it recovers.
func TestModeCard_startsOpen(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"A", "B", "C", "D"} {
		m := demoModel(t, name)
		cards, err := assessed(t, m).ModeCards()
		if err != nil {
			t.Fatal(err)
		}
		runs := map[string][]rig.Path{}
		for _, x := range m.Modes() {
			runs[x.ID] = x.Runs
		}
		for _, c := range cards {
			at := func(a rig.Action) int {
				return slices.IndexFunc(c.Start, func(s rig.CardStep) bool { return s.Do == a })
			}
			if len(c.Guns) == 0 && !slices.ContainsFunc(runs[c.ID], func(p rig.Path) bool { return strings.HasPrefix(string(p), "pumps[") }) {
				if at(rig.DoOpenGun) >= 0 {
					t.Errorf("%s, %s: a gun is opened in a mode in which no pump turns", name, c.Title)
				}
				continue
			}
			open, start, purge, fire := at(rig.DoOpenGun), at(rig.DoStartEngine), at(rig.DoPurge), at(rig.DoBurnerOn)
			if open < 0 || start < open || purge < start || fire >= 0 && fire < purge {
				t.Errorf("%s, %s: gun opened at %d, engine at %d, air out at %d, burner at %d", name, c.Title, open, start, purge, fire)
			}
		}
	}
}

// A trapped-pressure unloader and a check valve are named with what they hold, a
// burner that no gun of the mode needs stays off.
func TestModeCard_trapped(t *testing.T) {
	r := assessed(t, demoModel(t, "B", rig.Set("pumps[main].unloader.type", "trapped-pressure"), rig.Add("lines[left].elements", "behind", ""),
		rig.Set("lines[left].elements[behind].sort", "check-valve"), rig.Set("lines[left].elements[behind].loss", "5 psi"), rig.Set("lines[left].elements[behind].flow", "3.4 gpm")))
	c := cardOf(t, r, "one-gun")
	var text []string
	for _, x := range c.Trapped {
		text = append(text, x.Section)
		if x.Path == "lines[left]" && x.Pressure.In(units.PSI) < 2800 {
			t.Errorf("%s up to %v", x.Section, x.Pressure)
		}
	}
	for _, want := range []string{"trapped-pressure unloader", "check valve behind", "coil", "discharge"} {
		if !strings.Contains(strings.Join(text, "; "), want) {
			t.Errorf("%q is not among %v", want, text)
		}
	}
	if off := cardOf(t, r, "recover").Off; !slices.Contains(off, "heaters[heater]") || !slices.Contains(off, "engines[washer]") || slices.Contains(off, "sources[portable]") {
		t.Errorf("off when recovering only: %v", off)
	}
}

// Rig D's recovered tank stands 3.0 ft behind the axles at 12.6 ft: 160 gal of 8.34
// lb there take 1334 × 3.0/12.6 = 318 lb off the tongue, so it is dumped first;
// both tanks of B stand ahead of them and nothing is dumped before unhitching.
func TestParkedCard_order(t *testing.T) {
	c := assessed(t, demoModel(t, "D")).ParkedCard()
	if len(c.Dump) != 2 || c.Dump[0].Tank != "recovered" {
		t.Fatalf("order %+v", c.Dump)
	}
	about(t, "tongue heavier by", c.Dump[0].Tongue.In(units.Pound), 318, 1)
	if i := slices.IndexFunc(c.Steps, func(s rig.CardStep) bool { return s.Do == rig.DoDump }); i < 0 || c.Steps[i].Parts[0] != "tanks[recovered]" {
		t.Errorf("steps %v", c.Steps)
	}
	chock := slices.IndexFunc(c.Steps, func(s rig.CardStep) bool { return s.Do == rig.DoChock })
	unhitch := slices.IndexFunc(c.Steps, func(s rig.CardStep) bool { return s.Do == rig.DoUnhitch })
	if chock < 0 || unhitch < chock {
		t.Errorf("chocks at %d, unhitching at %d", chock, unhitch)
	}
	b := assessed(t, demoModel(t, "B")).ParkedCard()
	if slices.ContainsFunc(b.Steps, func(s rig.CardStep) bool { return s.Do == rig.DoDump }) {
		t.Errorf("B dumps: %v", b.Steps)
	}
	// 917.3 lb on the coupler at 12.6 ft from the axles; the jack lies 1.5 ft aft of it.
	for _, x := range b.States {
		if x.Jack.Given() && x.Jack.SI() <= x.Tongue.SI() {
			t.Errorf("%s: %v on the jack, which lies nearer the axles than the coupler with %v", x.Title, x.Jack, x.Tongue)
		}
	}
}

// The winter card adds up: what is held, what is left, and a margin that is the
// difference of its two temperatures.
func TestWinterCard(t *testing.T) {
	c, err := assessed(t, demoModel(t, "B")).WinterCard()
	if err != nil {
		t.Fatal(err)
	}
	sum, weak := units.Volume(0), math.Inf(-1)
	for _, p := range c.Parts {
		sum += p.Holds
		weak = math.Max(weak, p.Protects.Kelvin())
	}
	about(t, "held", float64(sum), float64(c.Holds), 1e-12)
	about(t, "weakest", c.Protects.Kelvin(), weak, 1e-9)
	about(t, "margin", c.Margin.SI(), c.Coldest.Kelvin()-c.Protects.Kelvin(), 1e-9)
	// 150 ft of 3/8 in hose: π/4 × 0.375² × 1800 in³ = 198.8 in³ = 0.861 gal.
	about(t, "a hose", c.Parts[len(c.Parts)-1].Holds.In(units.Gallon), 0.861, 0.001)
	if len(c.Freezing) < 3 || len(c.Not) == 0 {
		t.Errorf("freezing %v, not counted %v", c.Freezing, c.Not)
	}
	bare, err := assessed(t, demoModel(t, "B", rig.Set("winter.antifreeze", ""), rig.Set("winter.volume", ""), rig.Set("winter.strength", ""), rig.Set("winter.coldest", ""))).WinterCard()
	if err != nil {
		t.Fatal(err)
	}
	if bare.Protects.Given() || bare.Margin.Given() || bare.Needed != 0 {
		t.Errorf("without antifreeze: %+v", bare)
	}
}

// Cards as JSON carry the cautions, what was not checked and the words of each step.
func TestCards_json(t *testing.T) {
	c, err := assessed(t, demoModel(t, "D")).Cards()
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Format, Verdict, Disclaimer string
		Grave                       []string
		Cautions                    []rig.Caution
		NotChecked                  []string `json:"not_checked"`
		Modes                       []struct{ Stop []struct{ Do, Text string } }
	}
	if err := json.Unmarshal(b, &got); err != nil {
		t.Fatal(err)
	}
	if got.Format != rig.CardsFormat || got.Verdict != "stop" || len(got.Grave) == 0 || len(got.Cautions) != len(rig.Cautions()) || len(got.NotChecked) == 0 || got.Disclaimer == "" {
		t.Errorf("%+v", got)
	}
	if len(got.Modes) == 0 || len(got.Modes[0].Stop) == 0 || got.Modes[0].Stop[0].Text == "" {
		t.Error("no words")
	}
}

// A rig without anything has cards without anything.
func TestCards_empty(t *testing.T) {
	m, err := rig.New(&rig.Spec{Name: "empty"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	r := assessed(t, m)
	c, err := r.Cards()
	if err != nil || len(c.Modes) != 0 || len(c.Parked.Steps) != 0 || len(c.Winter.Steps) != 0 {
		t.Errorf("%+v, %v", c, err)
	}
}

// waterIn lists every component of a rig that holds water after the day: tanks and what
// joins and fills them, suction, pump, coil and hoses, what meters chemicals, and the
// recovered water with all it passes.
func waterIn(s *rig.Spec) (drained, flow, recovered []rig.Path) {
	at := func(list, id, part string) rig.Path { return rig.Path(list + "[" + id + "]" + part) }
	for _, x := range s.Tanks {
		drained = append(drained, at("tanks", x.ID, ""))
	}
	for _, x := range s.Crossovers {
		drained = append(drained, at("crossovers", x.ID, ""))
	}
	for _, x := range s.Supplies {
		drained = append(drained, at("supplies", x.ID, ".hose"))
	}
	for _, x := range s.Pumps {
		flow = append(flow, at("pumps", x.ID, ""), at("pumps", x.ID, ".suction"))
		if x.Suction.Strainer != (rig.Strainer{}) {
			flow = append(flow, at("pumps", x.ID, ".suction.strainer"))
		}
	}
	for _, x := range s.Heaters {
		flow = append(flow, at("heaters", x.ID, ""))
	}
	for _, x := range s.Trunks {
		flow = append(flow, at("trunks", x.ID, ""))
	}
	for _, x := range s.Lines {
		flow = append(flow, at("lines", x.ID, ""))
	}
	for _, x := range s.Chemicals {
		if x.Injector != (rig.Injector{}) || x.ChemicalPump != (rig.ChemicalPump{}) {
			flow = append(flow, at("chemicals", x.ID, ""))
		}
	}
	for _, x := range s.Recovery {
		recovered = append(recovered, at("recovery", x.ID, ".hose"), at("recovery", x.ID, ".drum"), at("recovery", x.ID, ".dump_pump"), at("recovery", x.ID, ".discharge"))
		for _, f := range x.Filters {
			recovered = append(recovered, at("recovery", x.ID, ".filters["+f.ID+"]"))
		}
	}
	return drained, flow, recovered
}

// wintersAll holds that everything with water in it is drained on the winter card, and
// protected where there is antifreeze and a way for it.
func wintersAll(s *rig.Spec, c rig.WinterCard) error {
	if len(c.Steps) == 0 && len(s.Pumps)+len(s.Tanks)+len(s.Lines) == 0 {
		return nil
	}
	named := func(p rig.Path, in ...rig.Action) bool {
		return slices.ContainsFunc(c.Steps, func(x rig.CardStep) bool { return slices.Contains(in, x.Do) && slices.Contains(x.Parts, p) })
	}
	drained, flow, recovered := waterIn(s)
	glycol := slices.ContainsFunc(c.Steps, func(x rig.CardStep) bool { return x.Do == rig.DoAntifreeze })
	for _, p := range slices.Concat(drained, flow, recovered) {
		if !named(p, rig.DoDrain, rig.DoEmptyRecovery, rig.DoBlowDown) {
			return fmt.Errorf("%s keeps its water: %v", p, c.Steps)
		}
	}
	if !glycol {
		return nil
	}
	for _, p := range slices.Concat(flow, recovered) {
		if strings.HasPrefix(string(p), "recovery[") && strings.HasSuffix(string(p), "].hose") {
			continue // open at both ends, and the vacuum has emptied it
		}
		if !named(p, rig.DoAntifreeze, rig.DoAntifreezeRecovery) {
			return fmt.Errorf("%s has no antifreeze: %v", p, c.Steps)
		}
	}
	return nil
}

func TestWinterCard_everythingWet(t *testing.T) {
	t.Parallel()
	for _, name := range demo.Names() {
		m := demoModel(t, name)
		c, err := assessed(t, m).WinterCard()
		if err == nil {
			err = wintersAll(m.Spec(), c)
		}
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for _, s := range c.Steps {
			if text := s.Text(units.US); strings.ContainsAny(text, "[]_") || !strings.HasSuffix(text, ".") {
				t.Errorf("%s: %q", name, text)
			}
		}
	}
	glycol := 0
	property.Check(t, func(g *property.G) error {
		_, m, r, err := wholeRig(g)
		if err != nil {
			return err
		}
		c, err := r.WinterCard()
		if err != nil {
			return err
		}
		if slices.ContainsFunc(c.Steps, func(x rig.CardStep) bool { return x.Do == rig.DoAntifreeze }) {
			glycol++
		}
		return wintersAll(m.Spec(), c)
	})
	if glycol == 0 {
		t.Error("no rig has antifreeze")
	}
}

// Every card there is stands in the cards as data, as their schema says, for demo and
// generated rigs, and for one that has nothing.
func TestCards_schema(t *testing.T) {
	t.Parallel()
	check := func(r *rig.Report) error {
		c, err := r.Cards()
		if err != nil {
			return err
		}
		b, err := json.Marshal(c)
		if err != nil {
			return err
		}
		return jsonschema.Check([]byte(rig.CardsSchema()), b)
	}
	for _, name := range demo.Names() {
		r := assessed(t, demoModel(t, name))
		if err := check(r); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		c, err := r.Cards()
		if err != nil || len(c.Modes) == 0 || len(c.Plugs.Passing)+len(c.Plugs.Unplaceable) == 0 || len(c.WalkRound.Figures) < 12 || len(c.Parked.Steps) == 0 || len(c.Winter.Steps) == 0 {
			t.Errorf("%s: a card is missing: %d modes, %d figures, %v", name, len(c.Modes), len(c.WalkRound.Figures), err)
		}
	}
	empty, err := rig.New(&rig.Spec{Name: "empty"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := check(assessed(t, empty)); err != nil {
		t.Errorf("empty: %v", err)
	}
	property.Check(t, func(g *property.G) error {
		_, _, r, err := wholeRig(g)
		if err != nil {
			return err
		}
		return check(r)
	})
}

// The walk-round card of rig A and its plugs, as data.
func TestCards_golden(t *testing.T) {
	c, err := assessed(t, demoModel(t, "A")).Cards()
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.MarshalIndent(struct {
		Plugs any `json:"plugs"`
		Walk  any `json:"walk_round"`
	}{c.Plugs, c.WalkRound}, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	golden.Equal(t, "cards-a.json", append(b, '\n'))
}

// A metering valve is shut when the valves are set, and stays so until the step that opens
// it, after the burner and with protection on: common practice.
func TestModeCard_meteringShutUntilItsStep(t *testing.T) {
	t.Parallel()
	var changes []rig.Change
	changes = append(changes, rig.Add("chemicals", "bright", ""))
	for _, x := range [][2]string{{"family", "acid"}, {"mist", "no"}, {"injector.line", "left"}, {"injector.flow", "3.4 gpm"}, {"injector.loss", "300 psi"},
		{"injector.vacuum", "20 inHg"}, {"injector.draw", "0.3 gpm"}, {"injector.maximum_back", "65 %"}} {
		changes = append(changes, rig.Set(rig.Path("chemicals[bright]."+x[0]), x[1]))
	}
	c := cardOf(t, assessed(t, demoModel(t, "B", append(changes, rig.Set("modes[one-gun].sprays", "bright"))...)), "one-gun")
	valve := slices.IndexFunc(c.Valves, func(v rig.CardValve) bool { return v.Path == "chemicals[bright]" })
	if valve < 0 || c.Valves[valve].Open || !strings.Contains(c.Valves[valve].Why, "its step") {
		t.Errorf("the metering valve is listed as %+v", c.Valves)
	}
	at := func(a rig.Action) int {
		return slices.IndexFunc(c.Start, func(s rig.CardStep) bool { return s.Do == a })
	}
	if on, fire := at(rig.DoChemicalOn), at(rig.DoBurnerOn); on < 0 || on < fire {
		t.Errorf("the chemical is opened at %d, the burner lit at %d", on, fire)
	}
}

// Cards as data say every change of a policy: thresholds, defaults, what is switched off.
func TestCards_policy(t *testing.T) {
	t.Parallel()
	p := &rig.Policy{Limits: map[rig.Code]rig.Limit{"bypass-heating": {Stop: (10 * units.Minute).Quantity(), Who: "workshop", When: "2026-06-01", Why: "idles longer"}},
		Defaults: map[rig.Path]rig.Default{"pumps[].belt_efficiency": {Value: "94 %", Who: "workshop", When: "2026-06-01", Why: "old belts"}}, Off: []rig.Code{"pressure-jump"}}
	r, err := demoModel(t, "B").Assess(p, nil)
	if err != nil {
		t.Fatal(err)
	}
	c, err := r.Cards()
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	if err := jsonschema.Check([]byte(rig.CardsSchema()), b); err != nil {
		t.Error(err)
	}
	for _, want := range []string{`"code":"bypass-heating","stop":{"kind":"duration","value":`, `"path":"pumps[].belt_efficiency","value":"94 %","who":"workshop"`, `"switched_off":["pressure-jump"]`} {
		if !strings.Contains(string(b), want) {
			t.Errorf("no %s", want)
		}
	}
}

// In a mode without a gun a burner is plugged in and stays off: it does not start by
// itself with nobody at a gun.
func TestModeCard_burnerWithoutGun(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B", rig.Add("modes", "rest", ""), rig.Set("modes[rest].loads", "burner"))
	cards, err := assessed(t, m).ModeCards()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cards {
		for _, s := range c.Start {
			if c.ID == "rest" && (s.Do == rig.DoExpect || s.Do == rig.DoBurnerOn) {
				t.Errorf("%s", s.Text(units.US))
			}
		}
	}
}

// What has no figures is named among what is not counted, and antifreeze is wanted
// wherever it freezes, with a volume only of what is listed.
func TestWinterCard_uncounted(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B", set("heaters[heater].part", "", "heaters[heater].coil_bore", "", "heaters[heater].coil_length", "", "heaters[heater].helix_diameter", "", "winter.volume", "", "winter.strength", "", "lines[left].hose.part", "", "lines[left].hose.bore", "0.375 in", "lines[left].hose.length", "150 ft", "lines[left].hose.outside_diameter", "")...)
	c, err := assessed(t, m).WinterCard()
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Contains(c.Not, "coil of the heater") {
		t.Errorf("the coil is neither counted nor named: %v, %q", c.Parts, c.Not)
	}
	for _, line := range []string{"line left", "line right"} {
		listed := slices.ContainsFunc(c.Parts, func(p rig.CardFrost) bool { return p.Part == line })
		if listed == slices.Contains(c.Not, "hose of "+line) {
			t.Errorf("%s is counted: %v, and among those not counted: %q", line, c.Parts, c.Not)
		}
	}
	if !slices.ContainsFunc(c.Steps, func(s rig.CardStep) bool { return s.Do == rig.DoAntifreeze }) {
		t.Error("antifreeze is wanted and no step takes it")
	}
}
