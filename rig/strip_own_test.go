package rig_test

import (
	"testing"

	"example.com/washrig/internal/fields"
	"example.com/washrig/rig"
)

// Each trigger that weighs a stop, without each of the values that it sets, references and
// lists among them: none makes it better.
func TestTriggers_strippedOfTheirOwn(t *testing.T) {
	t.Parallel()
	table := specFields(t)
	base, err := resolved(demoModel(t, "B"), table)
	if err != nil {
		t.Fatal(err)
	}
	texts := func(m *rig.Model) map[rig.Path]string {
		out := map[rig.Path]string{}
		table.Walk(m.Written(), func(v *fields.Visit) bool {
			f := v.Field
			if !f.Need && !v.Value.IsZero() && (f.Kind != 0 || len(f.Choices) > 0 || f.Ref != "" || f.Role == fields.Count) {
				text, _, _ := m.Get(rig.Path(v.Path()))
				out[rig.Path(v.Path())] = text
			}
			return true
		})
		return out
	}
	before := texts(base)
	tried := 0
	for _, x := range triggers() {
		if x.want < rig.CannotJudge {
			continue
		}
		m, err := resolved(demoModel(t, "B", x.c...), table)
		if err != nil {
			t.Fatal(err)
		}
		r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true, BandEnds: true})
		if err != nil {
			t.Fatal(err)
		}
		for p, text := range texts(m) {
			if before[p] == text && text != "" {
				continue
			}
			ok, err := strippedBetter(m, r, p)
			if ok {
				tried++
			}
			if err != nil {
				t.Errorf("%s: %v", x.code, err)
			}
		}
	}
	if tried < 50 {
		t.Errorf("%d values were stripped", tried)
	}
}
