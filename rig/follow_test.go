package rig_test

import (
	"fmt"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
)

// What one mistake brings about stands in one group, and the mistake stands first: a
// pump without unloader and relief valve bursts hoses, stalls its engine and throws
// its guns, and only valves mend it.
func TestGroups_oneRoot(t *testing.T) {
	t.Parallel()
	b := demoModel(t, "B")
	usual := map[string]bool{}
	for _, f := range assessed(t, b).Findings() {
		usual[string(f.Code)+f.Reading.Part] = true
	}
	noValves := set("pumps[main].unloader.part", "", "pumps[main].unloader.setting", "", "pumps[main].unloader.return_to", "", "pumps[main].relief.part", "")
	for _, x := range []struct {
		name    string
		c       []rig.Change
		first   rig.Code
		follows []rig.Code
	}{
		{"no valves", noValves, "dead-head", []rig.Code{"pressure-over-rating", "fault-over-rating", "surge-over-rating", "engine-overload", "gun-reaction"}},
		{"no unloader", set("pumps[main].unloader.part", "", "pumps[main].unloader.return_to", ""), "relief-in-use", []rig.Code{"fault-over-rating", "fault-dead-head", "engine-overload", "surge-in-band"}},
		{"unloader above the relief valve", set("pumps[main].unloader.setting", "3450 psi"), "unloader-over-relief", []rig.Code{"relief-in-use", "engine-overload", "surge-in-band"}},
		{"relief valve above the hose", set("pumps[main].relief.setting", "3600 psi"), "relief-over-rating", []rig.Code{"fault-over-rating"}},
		{"no antifreeze", set("winter.volume", "", "winter.strength", ""), "coil-freezes-on-road", []rig.Code{}},
		{"weak source", set("loads[dump-pump].source", "belt", "loads[dump-pump].outlet", "belt-panel", "sources[belt].transient_reactance", "90 %"), "source-start", []rig.Code{"source-restart", "voltage-dip", "engine-start"}},
		{"tongue lifts", set("items[recovery].x", "40 ft", "tanks[recovered].x", "24 ft"), "tongue-share-low", []rig.Code{"tail-drop"}},
		{"no high limit", set("heaters[heater].high_limit", ""), "guard-missing", []rig.Code{"stuck-burner"}},
		{"small oil nozzle", set("heaters[heater].oil_nozzle", "2.5 gph"), "oil-nozzle-small", []rig.Code{"gun-cold", "outlet-cold-coupled"}},
	} {
		m, err := b.With(x.c...)
		if err != nil {
			t.Fatal(err)
		}
		var group []rig.Finding
		for _, g := range assessed(t, m).Groups() {
			for _, f := range g.Findings {
				if f.Code == x.first && f.Follows == "" {
					group = g.Findings
				}
			}
		}
		has := map[rig.Code]bool{}
		for _, f := range group {
			if f.Follows != "" {
				has[f.Code] = true
			}
		}
		for _, c := range x.follows {
			if !has[c] {
				t.Errorf("%s: %s does not follow from %s; its group is %v", x.name, c, x.first, codesIn(group))
			}
		}
		grave := 0
		for _, g := range assessed(t, m).Groups() {
			if f := g.Findings[0]; f.Severity >= rig.CannotJudge && !usual[string(f.Code)+f.Reading.Part] {
				grave++
			}
		}
		if grave > 1 {
			t.Errorf("%s: %d groups with a stop or what cannot be judged, want one", x.name, grave)
		}
	}
}

func codesIn(list []rig.Finding) []string {
	var out []string
	for _, f := range list {
		out = append(out, fmt.Sprintf("%s %s←%s", f.Code, f.Reading.Part, f.Follows))
	}
	return out
}

// A cause that is not one is not named: an engine too small in every state does not
// follow from a weak hose, nor do cold guns behind a long hose from a small nozzle.
func TestGroups_twoRoots(t *testing.T) {
	t.Parallel()
	for _, x := range []struct {
		name         string
		c            []rig.Change
		cause, other rig.Code
	}{
		{"small engine and weak hose", set("engines[washer].part", "E13", "lines[left].hose.maximum_pressure", "2700 psi"), "pressure-over-rating", "engine-overload"},
		{"small nozzle and guns wanted hotter", set("heaters[heater].oil_nozzle", "2.5 gph", "duty.gun_temperature", "170 °F"), "oil-nozzle-small", "gun-cold"},
	} {
		found, stands := false, false
		for _, f := range assessed(t, demoModel(t, "B", x.c...)).Findings() {
			found, stands = found || f.Code == x.cause, stands || f.Code == x.other
			if f.Code == x.other && f.Follows != "" {
				t.Errorf("%s: %s follows from %s", x.name, f.Code, f.Follows)
			}
		}
		if !found || !stands {
			t.Errorf("%s: %s found %v, %s found %v", x.name, x.cause, found, x.other, stands)
		}
	}
}

// Whatever follows has what it follows from: found in the same report, of the same
// root, as grave, and not following from it in turn.
func TestGroups_causesStand(t *testing.T) {
	t.Parallel()
	follows := 0
	property.Check(t, func(g *property.G) error {
		_, _, r, err := wholeRig(g)
		if err != nil {
			return err
		}
		for _, grp := range r.Groups() {
			if grp.Findings[0].Follows != "" {
				return fmt.Errorf("the group of %s begins with what follows from %s", grp.Findings[0].Code, grp.Findings[0].Follows)
			}
			for _, f := range grp.Findings {
				if f.Follows == "" {
					continue
				}
				follows++
				found := false
				for _, cause := range grp.Findings {
					found = found || cause.Code == f.Follows && rank(cause.Severity) >= rank(f.Severity) && cause.Follows != f.Code
				}
				if !found {
					return fmt.Errorf("%s follows from %s, which is not found as grave in group %q", f.Code, f.Follows, grp.Root)
				}
			}
		}
		return nil
	})
	if follows == 0 {
		t.Error("nothing followed from anything")
	}
}

// A surge that passes the rating with the softest hose is no question of the band any
// more: no line has both codes for one state.
func TestSurge_bandOrStop(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B", set("lines[left].hose.maximum_pressure", "2000 psi")...)
	r := assessed(t, m)
	if f := judgement(t, r, "surge-over-rating", "left"); f.Severity != rig.Stop {
		t.Fatalf("surge of the line: %v", f.Severity)
	}
	over := map[rig.State]bool{}
	for j := range r.Judgements() {
		if j.Code == "surge-over-rating" && j.Severity == rig.Stop && j.Reading.Part == "left" {
			over[j.Reading.State] = true
		}
	}
	if len(over) == 0 {
		t.Fatal("no state passes the rating")
	}
	for j := range r.Judgements() {
		if j.Code == "surge-in-band" && j.Reading.Part == "left" && j.Severity != rig.Pass && over[j.Reading.State] {
			t.Errorf("both in %s", j.Reading.State)
		}
	}
}

// Every finding says who decides: the library warns and certifies nothing.
func TestCodes_someoneDecides(t *testing.T) {
	t.Parallel()
	for _, d := range rig.Codes() {
		if d.Defers == "" {
			t.Errorf("%s names nobody who decides", d.Code)
		}
	}
}
