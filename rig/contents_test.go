package rig_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// chain is rig B with a third tank between the fresh and the recovered one and a
// crossover on either side of it.
func chain(first, second string) []rig.Change {
	out := []rig.Change{rig.Add("tanks", "middle", ""), rig.Set("tanks[middle].nominal", "40 gal"), rig.Set("tanks[middle].x", "11.5 ft"), rig.Set("tanks[middle].contents", "clean"),
		rig.Add("crossovers", "front", ""), rig.Set("crossovers[front].from", "fresh"), rig.Set("crossovers[front].to", "middle"), rig.Set("crossovers[front].valve", first),
		rig.Add("crossovers", "back", ""), rig.Set("crossovers[back].from", "middle"), rig.Set("crossovers[back].to", "recovered"), rig.Set("crossovers[back].valve", second)}
	return out
}

func sprayed(r *rig.Report) []string {
	var out []string
	for _, f := range r.Findings() {
		if f.Code == "fouled-water-sprayed" {
			out = append(out, f.Severity.String()+": "+f.Source)
		}
	}
	return out
}

// One crossover listed open and one that a mode opens join three tanks in that
// mode alone; the way is named from end to end.
func TestContents_throughSeveral(t *testing.T) {
	m := demoModel(t, "B", append(chain("open", "shut"), rig.Set("modes[two-guns].open", "back"))...)
	r := assessed(t, m)
	got := sprayed(r)
	want := "fix: in mode two-guns pump main draws recovered water from tanks[recovered] through crossovers[back], crossovers[front] to tanks[fresh]"
	if len(got) != 1 || got[0] != want {
		t.Errorf("%q, want %q", got, want)
	}
	for _, w := range m.Contents() {
		holds := "clean"
		if w.Tank == "recovered" || w.Mode == "two-guns" {
			holds = "recovered"
		}
		if w.Holds != holds {
			t.Errorf("mode %q: tank %s holds %s, want %s", w.Mode, w.Tank, w.Holds, holds)
		}
	}
	if got := sprayed(assessed(t, demoModel(t, "B", append(chain("shut", "open"), rig.Set("modes[two-guns].open", ""))...))); len(got) != 0 {
		t.Errorf("with the front crossover shut: %q", got)
	}
}

// A hose end that a mode moves, a recovery unit that delivers into clean water and
// a pump on the recovered tank.
func TestContents_brought(t *testing.T) {
	for _, c := range []struct {
		name string
		c    []rig.Change
		want string
	}{
		{"a moved hose end", append(chain("open", "shut"), rig.Set("modes[one-gun].ends", "return>middle")), "in mode one-gun pump main draws recovered water from hose_ends[return] through tanks[middle], crossovers[front] to tanks[fresh]"},
		{"a unit that delivers into clean water", []rig.Change{rig.Remove("hose_ends[return]"), rig.Set("recovery[plant].tank", "fresh")}, "as listed, pump main draws recovered water from recovery[plant] to tanks[fresh]"},
		{"a pump on the recovered tank", []rig.Change{rig.Set("pumps[main].tank", "recovered")}, "as listed, pump main draws recovered water from tanks[recovered] and sprays it as a mist"},
	} {
		got := sprayed(assessed(t, demoModel(t, "B", c.c...)))
		if len(got) == 0 || got[0] != "fix: "+c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	got := sprayed(assessed(t, demoModel(t, "B", rig.Set("tanks[fresh].contents", "chemical"))))
	if len(got) == 0 || !strings.HasPrefix(got[0], "stop: ") {
		t.Errorf("chemical water through the coil: %q", got)
	}
}

// The water of a tank reaches exactly the tanks that open crossovers join to it,
// found here by joining sets.
func TestContents_random(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		words := []string{"clean", "clean", "recovered", "treated", "chemical"}
		rank := map[string]int{"clean": 0, "treated": 1, "recovered": 2, "chemical": 3}
		s.Tanks = s.Tanks[:1]
		for i := range g.Int(1, 4) {
			s.Tanks = append(s.Tanks, rig.Tank{Stock: rig.Stock{ID: fmt.Sprintf("t%d", i), X: units.PositionAt(9 * units.Foot)}, Tank: parts.Tank{Nominal: 100 * units.Gallon}, Contents: words[g.Pick(len(words))]})
		}
		mode := rig.Mode{ID: "wash", Guns: []string{s.Lines[0].ID}}
		for i := range g.Int(0, 6) {
			a, b := g.Pick(len(s.Tanks)), g.Pick(len(s.Tanks))
			if a == b {
				continue
			}
			c := rig.Crossover{ID: fmt.Sprintf("c%d", i), From: s.Tanks[a].ID, To: s.Tanks[b].ID, Valve: property.OneOf(g, "open", "shut")}
			s.Crossovers = append(s.Crossovers, c)
			if g.Bool() {
				mode.Open = append(mode.Open, c.ID)
			}
		}
		s.Modes = []rig.Mode{mode}
		m, err := rig.New(s, nil)
		if err != nil {
			return err
		}
		for _, w := range m.Contents() {
			group := map[string]int{}
			for i, t := range s.Tanks {
				group[t.ID] = i
			}
			for range s.Tanks {
				for _, c := range s.Crossovers {
					open := c.Valve == "open"
					for _, id := range mode.Open {
						open = open || w.Mode != "" && id == c.ID
					}
					if open {
						low := min(group[c.From], group[c.To])
						group[c.From], group[c.To] = low, low
					}
				}
			}
			worst := 0
			for i, t := range s.Tanks {
				own := t.Contents
				if i == 0 {
					own = "clean"
				}
				if group[t.ID] == group[w.Tank] {
					worst = max(worst, rank[own])
				}
			}
			if rank[w.Holds] != worst {
				return fmt.Errorf("mode %q: tank %s holds %s, the joined tanks rank %d", w.Mode, w.Tank, w.Holds, worst)
			}
			for _, p := range w.Paths {
				if p.Tank != w.Tank || !strings.HasPrefix(string(p.From), "tanks[") || len(p.Via) == 0 {
					return fmt.Errorf("path %v of %s", p, w.Tank)
				}
			}
		}
		return nil
	})
}
