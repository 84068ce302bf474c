package rig

import (
	"slices"
	"strings"
)

// A WaterPath is how water that is not clean comes to a tank.
type WaterPath struct {
	Water string // recovered, treated or chemical
	From  Path   // the tank that holds it, the hose end or the recovery unit that brings it
	Via   []Path // the tank it is brought to, then the open crossovers, in order
	Tank  string // where it gets to
}

// Text names the path in words: from, through, to.
func (p WaterPath) Text() string {
	b := strings.Builder{}
	b.WriteString(p.Water + " water from " + string(p.From))
	for i, v := range p.Via {
		if i == 0 {
			b.WriteString(" through ")
		} else {
			b.WriteString(", ")
		}
		b.WriteString(string(v))
	}
	b.WriteString(" to tanks[" + p.Tank + "]")
	return b.String()
}

// A TankWater is what one tank holds in one mode: its own contents, or the worst
// that reaches it.
type TankWater struct {
	Mode  string // empty: as listed, in no mode
	Tank  string
	Holds string // clean, treated, recovered or chemical
	Own   string // as the specification says
	Paths []WaterPath
	Pumps []string // that draw from it
}

// Contents returns what every tank holds in every mode, first as listed. The water
// of each tank, of each hose end at its place in the mode and of each recovery unit
// that runs in it is followed through every open crossover, however many there are:
// crossovers that stand open as listed and those the mode opens. Of several ways
// from one source to a tank the shortest is told.
func (m *Model) Contents() []TankWater { return watersOf(m.spec) }

func watersOf(s *Spec) []TankWater {
	if len(s.Tanks) == 0 {
		return nil
	}
	out := contentsIn(s, &Mode{}, true)
	for i := range s.Modes {
		out = append(out, contentsIn(s, &s.Modes[i], false)...)
	}
	return out
}

// contentsIn follows the water of one mode; listed is the rig in none, where every
// unit counts as running.
func contentsIn(s *Spec, mode *Mode, listed bool) []TankWater {
	index := map[string]int{}
	out := make([]TankWater, len(s.Tanks))
	for i := range s.Tanks {
		t := &s.Tanks[i]
		index[t.ID] = i
		own := t.Contents
		if own == "" {
			own = "clean"
		}
		out[i] = TankWater{Mode: mode.ID, Tank: t.ID, Holds: own, Own: own}
		for k := range s.Pumps {
			if s.Pumps[k].Tank == t.ID {
				out[i].Pumps = append(out[i].Pumps, s.Pumps[k].ID)
			}
		}
	}
	// spread follows water from a tank, breadth first.
	spread := func(water string, from Path, start int, brought bool) {
		type step struct {
			tank int
			via  []Path
		}
		seen := make([]bool, len(out))
		queue := []step{{start, nil}}
		if brought {
			queue[0].via = []Path{Path("tanks[" + out[start].Tank + "]")}
		}
		seen[start] = true
		for len(queue) > 0 {
			at := queue[0]
			queue = queue[1:]
			if t := &out[at.tank]; (at.tank != start || brought) && foulness[water] > foulness[t.Own] {
				via := at.via
				if brought && at.tank == start {
					via = nil
				}
				t.Paths = append(t.Paths, WaterPath{water, from, via, t.Tank})
				if foulness[water] > foulness[t.Holds] {
					t.Holds = water
				}
			}
			for k := range s.Crossovers {
				c := &s.Crossovers[k]
				a, okA := index[c.From]
				b, okB := index[c.To]
				if !okA || !okB || !openIn(c, mode) {
					continue
				}
				for _, e := range [2][2]int{{a, b}, {b, a}} {
					if e[0] == at.tank && !seen[e[1]] {
						seen[e[1]] = true
						queue = append(queue, step{e[1], append(append([]Path(nil), at.via...), Path("crossovers["+c.ID+"]"))})
					}
				}
			}
		}
	}
	for i := range out {
		if foulness[out[i].Own] > 0 {
			spread(out[i].Own, Path("tanks["+out[i].Tank+"]"), i, false)
		}
	}
	bring := func(water string, from Path, place string) {
		if i, ok := index[place]; ok && foulness[water] > foulness[out[i].Own] {
			spread(water, from, i, true)
		}
	}
	for i := range s.HoseEnds {
		e := &s.HoseEnds[i]
		bring(e.Carries, Path("hose_ends["+e.ID+"]"), endIn(e, mode))
	}
	for i := range s.Recovery {
		r := &s.Recovery[i]
		if r.Tank == "" || !listed && r.motorsIn(mode) == 0 {
			continue
		}
		own := false // the loose end that lies where it delivers is its own, and followed above
		for k := range s.HoseEnds {
			e := &s.HoseEnds[k]
			own = own || e.At == r.Tank && (e.Carries == "recovered" || e.Carries == "treated")
		}
		if !own {
			bring("recovered", Path("recovery["+r.ID+"]"), returnTank(s, r, mode))
		}
	}
	return out
}

// sprayedWater finds pumps that draw water that is not clean, by a way that no
// other check names: a tank that holds it, more than one crossover, or a recovery
// unit or hose end with what it is brought to between. One crossover between two
// tanks is named by clean-water-mixed and mode-mixes-water, a hose end in the
// pump's own tank by hose-end-fouls.
func sprayedWater(m *Model) []hazard {
	s := m.spec
	if !slices.ContainsFunc(m.waters, func(t TankWater) bool { return t.Holds != "clean" && len(t.Pumps) > 0 }) {
		return nil
	}
	heated := map[string]bool{}
	for i := range s.Heaters {
		heated[s.Heaters[i].Pump] = true
	}
	lines := map[string]bool{}
	for i := range s.Lines {
		lines[s.Lines[i].Pump] = true
	}
	var out []hazard
	told := map[string]bool{}
	for i := range m.waters {
		t := &m.waters[i]
		where := "as listed, "
		if t.Mode != "" {
			where = "in mode " + t.Mode + " "
		}
		for _, pump := range t.Pumps {
			if !lines[pump] {
				continue
			}
			say := func(water, why string) {
				if told[pump+" "+why] {
					return
				}
				told[pump+" "+why] = true
				sev := Fix
				switch {
				case water == "chemical" && heated[pump]:
					sev = Stop
				case water == "treated":
					sev = Note
				}
				out = append(out, hazard{pump, sev, where + "pump " + pump + " draws " + why, ""})
			}
			if t.Own != "clean" {
				say(t.Own, t.Own+" water from tanks["+t.Tank+"] and sprays it as a mist")
			}
			for _, p := range t.Paths {
				list, _, _ := strings.Cut(string(p.From), "[")
				direct := list == "tanks" && len(p.Via) == 1 || list == "hose_ends" && len(p.Via) == 0
				if !direct && t.Own == "clean" {
					say(p.Water, p.Text())
				}
			}
		}
	}
	return out
}
