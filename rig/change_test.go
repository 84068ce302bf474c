package rig_test

import (
	"testing"

	"example.com/washrig/rig"
)

// A rig moves from its trailer into a van, and loses a relief valve: whole groups are
// left out.
func TestRemove_group(t *testing.T) {
	m := demoModel(t, "B", rig.Remove("trailer"), rig.Remove("tow_vehicle"), rig.Remove("pumps[main].relief"))
	s := m.Written()
	if s.Trailer != nil || s.TowVehicle != nil || s.Pumps[0].Relief.Setting != 0 {
		t.Fatalf("left over: %v, %v, %+v", s.Trailer, s.TowVehicle, s.Pumps[0].Relief)
	}
	r := assessed(t, m)
	if _, ok := r.Worst("trailer.tongue"); ok {
		t.Error("a rig without a trailer has a tongue")
	}
	open := false
	for _, o := range m.Open() {
		open = open || o.Path == "trailer"
	}
	if !open {
		t.Error("the trailer is not listed as open")
	}
	if f := judgement(t, r, "unloader-over-relief", "main"); f.Severity != rig.CannotJudge {
		t.Errorf("without its relief valve: %v", f.Severity)
	}
}
