package rig_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A word of a list that nothing would ever look at is refused with the words that
// count: "lead paint" must not pass for a surface without lead.
func TestWords_ofTheirList(t *testing.T) {
	m := demoModel(t, "B")
	for _, surface := range []string{"lead paint", "Lead-Paint", "degreaser"} {
		s := m.Written()
		s.Duty.Surface = []string{surface}
		_, err := rig.New(s, nil)
		var f *units.FieldError
		if !errors.As(err, &f) || !strings.Contains(err.Error(), "duty.surface") || !strings.Contains(err.Error(), "lead-paint") {
			t.Errorf("%q: %v", surface, err)
		}
	}
	for word, code := range map[string]rig.Code{"lead-paint": "surface-licensed", "asbestos": "surface-licensed", "fuel": "flammable-surface", "solvent": "flammable-surface", "flammable": "flammable-surface"} {
		if f := judgement(t, assessed(t, demoModel(t, "B", rig.Set("duty.surface", word))), code, ""); f.Severity != rig.Stop {
			t.Errorf("%s on the surface: %v", word, f.Severity)
		}
	}
	acid := []rig.Change{rig.Add("chemicals", "brightener", ""), rig.Set("chemicals[brightener].family", "acid")}
	if _, err := m.With(append(acid, rig.Set("chemicals[brightener].wets", "aluminum"))...); err == nil || !strings.Contains(err.Error(), "aluminium") {
		t.Errorf("aluminum: %v", err)
	}
	if f := judgement(t, assessed(t, demoModel(t, "B", append(acid, rig.Set("chemicals[brightener].wets", "aluminium"))...)), "chemical-attacks", "brightener"); f.Severity != rig.Stop {
		t.Errorf("acid on aluminium: %v", f.Severity)
	}
}

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

// A list of words is taken as pages and explanations print it, with commas, and with
// spaces; words that hold spaces need the commas.
func TestSet_listsOfWords(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B")
	for text, want := range map[string]string{"left, right": "left|right", "left right": "left|right", "right,left": "right|left", "left,": "left", "": ""} {
		n, err := m.With(rig.Set("modes[two-guns].guns", text))
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		for _, mode := range n.Spec().Modes {
			if got := strings.Join(mode.Guns, "|"); mode.ID == "two-guns" && got != want {
				t.Errorf("%q: %s, want %s", text, got, want)
			}
		}
	}
	n, err := m.With(rig.Set("pumps[main].pulley_stock", "4 in, 5 1/2 in"))
	if err != nil || strings.Join(n.Spec().Pumps[0].PulleyStock, "|") != "4 in|5 1/2 in" {
		t.Errorf("%v", err)
	}
	if _, err := m.With(rig.Set("modes[two-guns].guns", "left right, left")); err == nil {
		t.Error("one word of two was taken")
	}
}
