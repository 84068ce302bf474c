package rig_test

import (
	"math"
	"strings"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// Rig B recovers without washing with the portable generator left off: both
// vacuums stay on it in the other modes, and the dump pump is moved to the belt
// generator for this mode alone. A mode that moves a plug is judged with its own
// loads: the belt generator then carries the dump pump and nothing of the vacuums.
func TestModePlugs(t *testing.T) {
	b := demoModel(t, "B")
	var dump, burner units.Power
	for _, l := range b.Spec().Loads {
		switch l.ID {
		case "dump-pump":
			dump = l.Running
		case "burner":
			burner = l.Running
		}
	}
	m, err := b.With(rig.Add("modes", "dump", ""), rig.Set("modes[dump].title", "dump at the depot"), rig.Set("modes[dump].loads", "dump-pump"), rig.Set("modes[dump].plugs", "dump-pump>belt"))
	if err != nil {
		t.Fatal(err)
	}
	r := assessed(t, m)
	const state = "mode=dump site=afternoon"
	if got := mustNumber(t, r, "sources[belt].running", state); math.Abs(got-float64(dump)) > 1e-9 {
		t.Errorf("the belt generator carries %v W, the dump pump takes %v W", got, float64(dump))
	}
	if got := mustNumber(t, r, "sources[portable].running", state); got != 0 {
		t.Errorf("the portable generator carries %v W and stands", got)
	}
	// Listed plugs are as before.
	if got, want := mustNumber(t, r, "sources[belt].running", "plugs=as-listed site=afternoon"), float64(burner); math.Abs(got-want) > 1e-9 {
		t.Errorf("as listed the belt generator carries %v W, the burner takes %v W", got, want)
	}
	// The engine sees the generator of the mode and no pump that sprays.
	if _, ok := r.At("engines[washer].demand", mustState(t, m, "guns=none heat=steady mode=dump site=afternoon")); !ok {
		t.Error("the engine has no demand in the mode")
	}
	orders, err := m.StartOrders(mustState(t, m, "mode=dump"), []string{"dump-pump"})
	if err != nil || len(orders) != 1 || orders[0].Source != "belt" {
		t.Errorf("start order of the mode: %+v, %v", orders, err)
	}
	// A start that the belt generator cannot carry is a stop in this mode, though the listed plugs pass.
	weak, err := m.With(rig.Set("loads[dump-pump].starting", "3200 W"))
	if err != nil {
		t.Fatal(err)
	}
	f := judgement(t, assessed(t, weak), "source-start", "belt")
	if f.Severity != rig.Stop || f.Reading.State.On(rig.AxisMode) != "dump" {
		t.Errorf("%v in %v", f.Severity, f.Reading.State)
	}
	plain, err := b.With(rig.Set("loads[dump-pump].starting", "3200 W"))
	if err != nil {
		t.Fatal(err)
	}
	if f := judgement(t, assessed(t, plain), "source-start", "belt"); f.Severity != rig.Pass {
		t.Errorf("without the mode the belt generator is %v", f.Severity)
	}
	for _, c := range []struct{ plugs, want string }{
		{"dump-pump", "such as dump-pump>belt"}, {"nobody>belt", "a load of the rig"}, {"dump-pump>mains", "fits"}, {"burner>portable", "fits"}, {"dump-pump>belt dump-pump>portable", "once"},
	} {
		if _, err := m.With(rig.Set("modes[dump].plugs", c.plugs)); err == nil || !strings.Contains(err.Error(), "modes[dump].plugs") || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.plugs, err)
		}
	}
}

func mustState(t *testing.T, m *rig.Model, text string) rig.State {
	t.Helper()
	s, err := m.ParseState(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
