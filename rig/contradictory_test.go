package rig_test

import (
	"strings"
	"testing"

	"example.com/washrig/rig"
)

// What contradicts itself and would quietly count for less is refused.
func TestContradictions_refused(t *testing.T) {
	t.Parallel()
	for _, x := range []struct {
		name string
		c    []rig.Change
		want string
	}{
		{"a hose end that is not there", set("modes[two-guns].ends", "retrun>fresh"), "modes[two-guns].ends = retrun>fresh: unknown name (want before the > one of the hose ends return, cart)"},
		{"into a tank that is not there", set("modes[two-guns].ends", "return>nowhere"), "modes[two-guns].ends = return>nowhere: unknown name (want after the > one of the tanks fresh, recovered, or nothing)"},
		{"no move", set("modes[two-guns].ends", "return"), "modes[two-guns].ends = return: cannot be read (want a hose end and a tank, such as return>recovered)"},
		{"an item within itself", set("items[skid].within", "skid"), "items[skid].within = skid: is within itself (want an item that counts its mass, or nothing)"},
		{"items within each other", set("items[skid].within", "recovery", "items[recovery].within", "skid"), "items[skid].within = recovery: is within itself (want an item that counts its mass, or nothing)"},
		{"a gun twice", set("modes[two-guns].guns", "left left"), "modes[two-guns].guns[#2] = left: given twice (want each name once)"},
	} {
		_, err := demoModel(t, "B").With(x.c...)
		if err == nil || !strings.Contains(err.Error(), x.want) {
			t.Errorf("%s: %v\nwant %s", x.name, err, x.want)
		}
	}
}

// Without a rating the number that is furthest on the bad side stands in the finding.
func TestCannotJudge_theWorst(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B", set("lines[left].hose.part", "", "lines[left].hose.bore", "0.375 in", "lines[left].hose.length", "150 ft", "lines[left].hose.roughness", "")...)
	r := assessed(t, m)
	f := judgement(t, r, "pressure-over-rating", "main")
	most := 0.0
	for x := range r.Among(f.Reading.Path(), rig.State{}, rig.Reachable) {
		most = max(most, x.Value.SI())
	}
	if f.Severity != rig.CannotJudge || f.Reading.Value.SI() != most || most == 0 {
		t.Errorf("%v at %v in %v; the most is %g Pa", f.Severity, f.Reading.Value, f.Reading.State, most)
	}
}
