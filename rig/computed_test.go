package rig_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// Every number of a rig, taken for a field: the error says that it is computed, and
// what it offers to move moves, and is among what the number is computed from.
func TestComputed_namesWhatMoves(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"B", "D"} {
		m := demoModel(t, name)
		refused := map[string]error{} // by what was offered
		rep, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			t.Fatal(err)
		}
		done := map[rig.Path]bool{}
		for r := range rep.Every() {
			p := r.Path()
			if _, _, err := m.Get(p); done[p] || err == nil { // a field of the same name is moved as a field
				continue
			}
			done[p] = true
			_, lever := m.Lever(p)
			_, set := m.With(rig.Set(p, "1"))
			_, assign := m.With(rig.Assign(p, r.Value))
			for what, err := range map[string]error{"lever": lever, "set": set, "assign": assign} {
				var f *units.FieldError
				if !errors.As(err, &f) || f.Path != string(p) || !strings.Contains(err.Error(), "is computed") {
					t.Errorf("rig %s, %s of %s: %v", name, what, p, err)
					continue
				}
				_, at, ok := strings.Cut(f.Want, ", such as ")
				if ok != (len(r.Metric.Inputs) > 0 && strings.HasPrefix(f.Want, "one of its inputs")) {
					t.Errorf("rig %s, %s of %s: %v", name, what, p, err)
				}
				if !ok {
					continue
				}
				among := false
				for _, in := range r.Metric.Inputs {
					among = among || rig.Path(at).Pattern() == in || strings.HasPrefix(string(rig.Path(at).Pattern()), string(in)+".") || strings.HasPrefix(string(rig.Path(at).Pattern()), string(in)+"[")
				}
				if !among {
					t.Errorf("rig %s, %s of %s: %s is none of %v", name, what, p, at, r.Metric.Inputs)
				}
				if _, had := refused[at]; !had {
					_, refused[at] = m.Lever(rig.Path(at))
				}
				if err := refused[at]; err != nil && !strings.Contains(f.Want, "changed by Set") {
					t.Errorf("rig %s, %s of %s: %s was offered, and then: %v", name, what, p, at, err)
				} else if _, _, err := m.Get(rig.Path(at)); err != nil {
					t.Errorf("rig %s, %s of %s: %s was offered, and then: %v", name, what, p, at, err)
				}
			}
		}
		if len(done) < 50 {
			t.Errorf("rig %s: %d numbers", name, len(done))
		}
	}
}
