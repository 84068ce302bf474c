package rig_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
)

// rank puts cannot judge beside stop.
func rank(s rig.Severity) int { return int(min(s, rig.CannotJudge)) }

// strippable lists what a specification gives and could leave out: quantities, words
// of a choice and counts. What an element is not an element without stays.
func strippable(table *fields.Table, s *rig.Spec) []rig.Path {
	var out []rig.Path
	table.Walk(s, func(v *fields.Visit) bool {
		f := v.Field
		if !f.Need && !v.Value.IsZero() && (f.Kind != 0 || len(f.Choices) > 0 || f.Role == fields.Count) {
			out = append(out, rig.Path(v.Path()))
		}
		return true
	})
	return out
}

// silent are the fields whose absence may take a stop away without a word, each with
// why. Every other one keeps the verdict: what it guards cannot be judged.
var silent = map[rig.Path]string{
	"cords[].ends":                  "two plugs on a cord are named by whoever made it",
	"sources[].tie":                 "nothing ties two sources unless somebody built it",
	"crossovers[].valve":            "a valve is shut unless said otherwise, and recorded as assumed",
	"cords[].ampacity":              "the ampacity of its gauge stands",
	"fills[].levels[].volume":       "a tank left out of a fill is empty: another fill, not a guard",
	"outlets[].breaker":             "the rating of the receptacle stands",
	"pumps[].relief.accumulation":   "nothing means none: a valve that opens at once",
	"pumps[].suction.strainer.loss": "nothing means no strainer",
	"pumps[].suction.warmest_water": "nothing means the supply's",
	"sources[].legs":                "nothing means one hot wire: another source",
	"sources[].running_apparent":    "volt-amperes are asked for only where a winding is given",
	"sources[].starting_apparent":   "volt-amperes are asked for only where a winding is given",
	"tie_downs[].breaking_load":     "the working load stands",
	"zones[].clearance":             "nothing means only out of it",
	"heaters[].relief":              "nothing means no valve there; what is shut in is judged without one",
	"hose_ends[].at":                "nothing means in no tank",
	"tow_vehicle.payload_rating":    "its gross rating stands; with neither it cannot be judged",
	"tanks[].maximum_temperature":   "no tank is rated below 120 °F, which cooler water does not reach; warmer cannot be judged",
}

// strippedBetter reports a verdict that is better without a value than with it.
func strippedBetter(m *rig.Model, a *rig.Report, p rig.Path) (tried bool, err error) {
	if silent[p.Pattern()] != "" {
		return false, nil
	}
	n, err := m.With(rig.Set(p, ""))
	if err != nil {
		return false, nil // refused: it is asked for
	}
	b, err := n.Assess(nil, &rig.AssessOptions{SkipBreakEven: true, BandEnds: true})
	if err != nil || rank(b.Verdict()) >= rank(a.Verdict()) {
		return true, nil
	}
	had := map[rig.Path]bool{}
	for _, o := range m.Open() {
		had[o.Path] = true
	}
	for _, o := range n.Open() {
		switch {
		case had[o.Path]:
		case strings.HasPrefix(string(p), string(o.Path)+"."):
			return true, nil // it was the last word about a part, and the whole part is listed as open
		case o.Path == p && strings.HasSuffix(string(p), ".mass"):
			return true, nil // judged by what the part is likely to weigh; TestStability_breakEven
		}
	}
	return true, fmt.Errorf("without %s the verdict goes from %v to %v", p, a.Verdict(), b.Verdict())
}

// resolved makes the model of a rig whose every value stands in its specification, so
// that what is left out does not come back from the shelf.
func resolved(m *rig.Model, table *fields.Table) (*rig.Model, error) {
	s := m.Spec()
	var off []rig.Change
	table.Walk(s, func(v *fields.Visit) bool {
		if strings.HasSuffix(v.Path(), ".part") {
			off = append(off, rig.Set(rig.Path(v.Path()), ""))
		}
		return true
	})
	if err := s.Apply(off...); err != nil {
		return nil, err
	}
	return rig.New(s, nil)
}

// Rig B with one thing wrong that stops it: whatever single value is left out, it is
// not judged better.
func TestTriggers_stripped(t *testing.T) {
	t.Parallel()
	table := specFields(t)
	type stopped struct {
		m  *rig.Model
		r  *rig.Report
		at []rig.Path
	}
	var list []trigger
	for _, x := range triggers() {
		if x.want >= rig.CannotJudge {
			list = append(list, x)
		}
	}
	made := map[rig.Code]*stopped{}
	tried := 0
	property.Check(t, func(g *property.G) error {
		x := list[g.Pick(len(list))]
		s := made[x.code]
		if s == nil {
			m, err := resolved(demoModel(t, "B", x.c...), table)
			if err != nil {
				return err
			}
			r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true, BandEnds: true})
			if err != nil {
				return err
			}
			if rank(r.Verdict()) < rank(rig.CannotJudge) {
				return fmt.Errorf("%s: rig B resolved is only %v", x.code, r.Verdict())
			}
			s = &stopped{m, r, strippable(table, m.Written())}
			made[x.code] = s
		}
		p := s.at[g.Pick(len(s.at))]
		g.Note("%s without %s", x.code, p)
		ok, err := strippedBetter(s.m, s.r, p)
		if ok {
			tried++
		}
		if err != nil {
			return fmt.Errorf("%s: %w", x.code, err)
		}
		return nil
	})
	if tried == 0 {
		t.Error("nothing was stripped")
	}
}

// The same of any rig.
func TestWholeRigs_stripped(t *testing.T) {
	t.Parallel()
	table := specFields(t)
	tried := 0
	property.Check(t, func(g *property.G) error {
		s, m, _, err := wholeRig(g)
		if err != nil {
			return err
		}
		a, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true, BandEnds: true})
		if err != nil {
			return err
		}
		at := strippable(table, s)
		ok, err := strippedBetter(m, a, at[g.Pick(len(at))])
		if ok {
			tried++
		}
		return err
	})
	if tried == 0 {
		t.Error("nothing was stripped")
	}
}
