package rig_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
)

// orderly holds what must be true of the order of every mode card: a pump starts with
// water at its inlet and a gun of its own open, air goes out before any fire, the fire
// goes out first and the water runs cold, drives stop before the pressure is let out, a
// main is shut before it too, and nothing is opened before that. Common practice.
func orderly(m *rig.Model, cards []rig.ModeCard) error {
	s := m.Spec()
	runs := map[string][]rig.Path{}
	for _, x := range m.Modes() {
		runs[x.ID] = x.Runs
	}
	in := func(list, id string) rig.Path { return rig.Path(list + "[" + id + "]") }
	for i := range cards {
		c := &cards[i]
		bad := func(format string, args ...any) error {
			return fmt.Errorf("mode %s: %s\nstart %v\nstop %v", c.ID, fmt.Sprintf(format, args...), c.Start, c.Stop)
		}
		// first and last say where an action stands for a part, or for any where that is
		// empty; −1 for nowhere.
		find := func(list []rig.CardStep, do rig.Action, part rig.Path) (first, last int) {
			first, last = -1, -1
			for k, x := range list {
				if x.Do == do && (part == "" || slices.Contains(x.Parts, part)) {
					if last = k; first < 0 {
						first = k
					}
				}
			}
			return first, last
		}
		begins := func(do rig.Action, part rig.Path) int { k, _ := find(c.Start, do, part); return k }
		ends := func(do rig.Action, part rig.Path) int { k, _ := find(c.Stop, do, part); return k }
		drives, halts := -1, -1 // the last drive started and stopped
		for k, x := range c.Start {
			if x.Do == rig.DoStartEngine || x.Do == rig.DoStartPump {
				drives = k
			}
		}
		for k, x := range c.Stop {
			if x.Do == rig.DoStopEngine || x.Do == rig.DoStopPump {
				halts = k
			}
		}
		fire, _ := find(c.Start, rig.DoBurnerOn, "")
		_, purge := find(c.Start, rig.DoPurge, "")
		if purge >= 0 && (purge < drives || fire >= 0 && fire < purge) {
			return bad("the air is let out at %d, the last drive starts at %d, the first burner at %d", purge, drives, fire)
		}
		for k := range s.Pumps {
			p := &s.Pumps[k]
			at := in("pumps", p.ID)
			if !slices.Contains(runs[c.ID], at) {
				continue
			}
			start := begins(rig.DoStartPump, at)
			stop := ends(rig.DoStopPump, at)
			if p.Engine != "" {
				start, stop = begins(rig.DoStartEngine, in("engines", p.Engine)), ends(rig.DoStopEngine, in("engines", p.Engine))
			}
			if start < 0 || stop < 0 {
				return bad("pump %s is started at %d and stopped at %d", p.ID, start, stop)
			}
			if water := begins(rig.DoWaterToPump, at); water < 0 || water > start {
				return bad("pump %s starts at %d and has its water at %d", p.ID, start, water)
			}
			open, has := -1, false
			for n := range s.Lines {
				l := &s.Lines[n]
				if l.Pump != p.ID {
					continue
				}
				has = true
				if k := begins(rig.DoOpenGun, in("lines", l.ID)); k >= 0 {
					open = k
				}
				if let := ends(rig.DoSqueeze, in("lines", l.ID)); let < stop || let < halts {
					return bad("line %s lets its pressure out at %d, its pump stops at %d", l.ID, let, stop)
				}
			}
			if has && (open < 0 || open > start) {
				return bad("pump %s starts at %d against shut guns; one is opened at %d", p.ID, start, open)
			}
			for n := range s.Supplies {
				w := &s.Supplies[n]
				if w.Pump != p.ID {
					continue
				}
				feed := slices.IndexFunc(c.Valves, func(v rig.CardValve) bool { return v.Path == in("supplies", w.ID) })
				if feed < 0 || !c.Valves[feed].Open {
					return bad("the feed %s of a pump that turns is not listed as open", w.ID)
				}
				shut, let := ends(rig.DoShutFeed, in("supplies", w.ID)), ends(rig.DoSqueeze, "")
				if shut < stop || has && shut > let {
					return bad("the feed %s is shut at %d, the pump stops at %d, the pressure is let out at %d", w.ID, shut, stop, let)
				}
			}
		}
		if set, water := begins(rig.DoSetValves, ""), begins(rig.DoWaterToPump, ""); len(c.Valves) > 0 && set < 0 || water >= 0 && set > water {
			return bad("valves are set at %d, the water is looked for at %d", set, water)
		}
		for _, id := range c.Guns {
			if begins(rig.DoPurge, in("lines", id)) < 0 {
				return bad("line %s keeps its air", id)
			}
		}
		for k := range s.Loads {
			l := &s.Loads[k]
			at := in("loads", l.ID)
			first, _ := find(c.Start, rig.DoSwitchOn, at)
			if wait, _ := find(c.Start, rig.DoExpect, at); first < 0 {
				first = wait
			}
			if first < 0 {
				continue
			}
			if off := ends(rig.DoSwitchOff, at); off < 0 || halts >= 0 && off > halts {
				return bad("load %s is switched off at %d, the drives stop at %d", l.ID, off, halts)
			}
			from := -1
			for _, p := range c.Plugs {
				if p.Load == l.ID {
					from = begins(rig.DoStartSource, in("sources", p.Source))
					for n := range s.Sources {
						if g := &s.Sources[n]; g.ID == p.Source && g.Engine != "" {
							from = begins(rig.DoStartEngine, in("engines", g.Engine))
						}
					}
				}
			}
			if from < 0 || from > first {
				return bad("load %s is switched on at %d, its source starts at %d", l.ID, first, from)
			}
		}
		off, lastOff := find(c.Stop, rig.DoBurnerOff, "")
		if off >= 0 && (off != 0 || lastOff != 0) {
			return bad("a burner goes out at %d", lastOff)
		}
		for k := range s.Heaters {
			h := in("heaters", s.Heaters[k].ID)
			if begins(rig.DoBurnerOn, h) < 0 {
				continue
			}
			if out, cold := ends(rig.DoBurnerOff, h), ends(rig.DoRunCold, h); out < 0 || cold < out || halts < cold {
				return bad("%s goes out at %d, runs cold at %d, the drives stop at %d", h, out, cold, halts)
			}
		}
		_, let := find(c.Stop, rig.DoSqueeze, "")
		if then := ends(rig.DoOnlyThen, ""); then >= 0 && then < let || then < 0 && let >= 0 {
			return bad("sections are opened at %d, the pressure is let out at %d", then, let)
		}
		if stow := ends(rig.DoShutAndStow, ""); stow >= 0 && stow != len(c.Stop)-1 {
			return bad("valves are shut at %d, before the last step", stow)
		}
	}
	return nil
}

func TestModeCards_ordered(t *testing.T) {
	t.Parallel()
	for _, name := range demo.Names() {
		m := demoModel(t, name)
		cards, err := assessed(t, m).ModeCards()
		if err == nil {
			err = orderly(m, cards)
		}
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, x := range []struct {
		name    string
		rig     string
		changes []rig.Change
	}{
		{"no heater", "B", []rig.Change{rig.Remove("heaters[heater]"), rig.Set("loads[burner].heater", ""), rig.Set("zones[stack].owner", "")}},
		{"a pump that no engine drives", "B", []rig.Change{rig.Set("pumps[main].engine", "")}},
		{"two pumps on one engine", "C", []rig.Change{rig.Set("pumps[main-2].engine", "washer-1")}},
		{"one of two pumps without an engine", "C", []rig.Change{rig.Set("pumps[main-1].engine", "")}},
		{"a chemical behind the pump", "B", []rig.Change{rig.Add("chemicals", "soap", ""), rig.Set("chemicals[soap].family", "detergent"), rig.Set("chemicals[soap].enters", "at-gun")}},
	} {
		m, err := demoModel(t, x.rig).With(x.changes...)
		if err != nil {
			t.Errorf("%s: %v", x.name, err)
			continue
		}
		cards, err := assessed(t, m).ModeCards()
		if err == nil {
			err = orderly(m, cards)
		}
		if err != nil {
			t.Errorf("%s: %v", x.name, err)
		}
	}
	m, err := read(fed)
	if err != nil {
		t.Fatal(err)
	}
	cards, err := assessed(t, m).ModeCards()
	if err == nil {
		err = orderly(m, cards)
	}
	if err != nil {
		t.Errorf("on a hydrant: %v", err)
	}
}

// The order holds on whatever rig is drawn.
func TestModeCards_orderedWhole(t *testing.T) {
	t.Parallel()
	pumps, fires, mains, idle := 0, 0, 0, 0
	property.Check(t, func(g *property.G) error {
		_, m, r, err := wholeRig(g)
		if err != nil {
			return err
		}
		cards, err := r.ModeCards()
		if err != nil {
			return err
		}
		for i := range cards {
			for _, x := range append(slices.Clone(cards[i].Start), cards[i].Stop...) {
				switch x.Do {
				case rig.DoWaterToPump:
					pumps++
				case rig.DoBurnerOn:
					fires++
				case rig.DoShutFeed:
					mains++
				case rig.DoOpenGun:
					if len(cards[i].Guns) == 0 {
						idle++
					}
				}
			}
		}
		return orderly(m, cards)
	})
	for name, n := range map[string]int{"pumps": pumps, "burners": fires, "feeds from a main": mains, "pumps that turn without a gun": idle} {
		if n == 0 {
			t.Errorf("no rig had %s to order", name)
		}
	}
	t.Logf("%d pumps, %d burners, %d feeds from a main, %d pumps that turn without a gun", pumps, fires, mains, idle)
}

// A card that is out of order is found: each step moved to the front or to the back
// breaks the order, but for those that may stand anywhere.
func TestModeCards_orderIsHeld(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "C")
	r := assessed(t, m)
	for _, do := range []rig.Action{rig.DoWaterToPump, rig.DoOpenGun, rig.DoStartEngine, rig.DoPurge, rig.DoBurnerOn, rig.DoBurnerOff, rig.DoRunCold, rig.DoSwitchOff, rig.DoStopEngine, rig.DoSqueeze, rig.DoOnlyThen, rig.DoShutAndStow} {
		broken := 0
		for _, back := range []bool{false, true} {
			cards, err := r.ModeCards()
			if err != nil {
				t.Fatal(err)
			}
			for _, list := range []*[]rig.CardStep{&cards[0].Start, &cards[0].Stop} {
				var moved, rest []rig.CardStep
				for _, x := range *list {
					if x.Do == do {
						moved = append(moved, x)
					} else {
						rest = append(rest, x)
					}
				}
				if back {
					*list = append(rest, moved...)
				} else {
					*list = append(moved, rest...)
				}
			}
			if err := orderly(m, cards); err != nil {
				broken++
				if !strings.Contains(err.Error(), "mode ") {
					t.Errorf("%s: %v", do, err)
				}
			}
		}
		if broken == 0 {
			t.Errorf("%s may stand at either end", do)
		}
	}
}
