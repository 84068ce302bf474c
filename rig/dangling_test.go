package rig_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// fieldErrors takes joined errors apart.
func fieldErrors(err error) []*units.FieldError {
	if list, ok := err.(interface{ Unwrap() []error }); ok {
		var out []*units.FieldError
		for _, one := range list.Unwrap() {
			out = append(out, fieldErrors(one)...)
		}
		return out
	}
	var f *units.FieldError
	if errors.As(err, &f) {
		return []*units.FieldError{f}
	}
	return nil
}

// advised reads what the error of a removal says would do: each a change.
func advised(f *units.FieldError) []rig.Change {
	at, _, _ := strings.Cut(f.Path, "[#")
	var out []rig.Change
	for _, w := range strings.Split(f.Want, ", or ") {
		if what, ok := strings.CutSuffix(w, " removed too"); ok {
			out = append(out, rig.Remove(rig.Path(what)))
		} else if strings.HasSuffix(w, "left out") {
			out = append(out, rig.Set(rig.Path(at), ""))
		} else if _, to, ok := strings.Cut(w, " set to "); ok && to != "another component" {
			if some, ok := strings.CutPrefix(to, "one of "); ok {
				for _, id := range strings.Split(some, ", ") {
					out = append(out, rig.Set(rig.Path(at), id))
				}
				continue
			}
			out = append(out, rig.Set(rig.Path(at), to))
		}
	}
	return out
}

// elementsOf are the paths of every element of every list of a specification.
func elementsOf(t testing.TB, m *rig.Model) []rig.Path {
	t.Helper()
	var b bytes.Buffer
	if err := m.Written().Write(&b); err != nil {
		t.Fatal(err)
	}
	var whole map[string]json.RawMessage
	if err := json.Unmarshal(b.Bytes(), &whole); err != nil {
		t.Fatal(err)
	}
	var out []rig.Path
	for _, d := range mustFields(t) {
		list, _ := strings.CutSuffix(string(d.Path), "[].id")
		var elements []struct{ ID string }
		if raw, ok := whole[list]; ok && json.Unmarshal(raw, &elements) == nil {
			for _, e := range elements {
				out = append(out, rig.Path(list+"["+e.ID+"]"))
			}
		}
	}
	return out
}

func mustFields(t testing.TB) []rig.FieldDoc {
	t.Helper()
	docs, err := rig.Fields()
	if err != nil {
		t.Fatal(err)
	}
	return docs
}

// Whatever is taken out of a rig of the demo, what the errors say would do does: once
// it is followed there is a model, and what stands in for what is gone does not bring a
// stop that is about what a tank holds.
func TestRemove_adviceIsTaken(t *testing.T) {
	t.Parallel()
	wrong := map[rig.Code]bool{"wrong-fuel": true, "fouled-water-sprayed": true}
	for _, name := range demo.Names() {
		m := demoModel(t, name)
		had := stopsOf(t, m, wrong)
		for _, gone := range elementsOf(t, m) {
			for way := range 3 {
				n := followed(t, m, gone, way)
				if n != nil && strings.Contains(string(gone), "tank") && stopsOf(t, n, wrong) > had {
					t.Errorf("rig %s: advice %d of what to do without %s brings a stop", name, way, gone)
				}
			}
		}
	}
}

// followed takes an element out and does what the errors say, the same way each time:
// the first value that is offered, the second, the last.
func followed(t *testing.T, m *rig.Model, gone rig.Path, way int) *rig.Model {
	t.Helper()
	changes := []rig.Change{rig.Remove(gone)}
	done := map[string]int{} // in which round a field was spoken of
	for round := 1; round <= 12; round++ {
		n, err := m.With(changes...)
		if err == nil {
			return n
		}
		for _, f := range fieldErrors(err) {
			list := advised(f)
			if !strings.Contains(f.Error(), "was removed") || len(list) == 0 || done[f.Path] < round && done[f.Path] > 0 {
				t.Errorf("without %s, after %v: %v", gone, changes[1:], f)
				return nil
			}
			done[f.Path] = round
			if values := slices.DeleteFunc(slices.Clone(list), func(c rig.Change) bool { return strings.HasPrefix(c.String(), "remove ") }); len(values) > 0 {
				list = values
			}
			if c := list[min(way, len(list)-1)]; !slices.Contains(changes, c) {
				changes = append(changes, c)
			}
		}
	}
	t.Errorf("without %s: no end of %v", gone, changes)
	return nil
}

func stopsOf(t *testing.T, m *rig.Model, codes map[rig.Code]bool) (n int) {
	t.Helper()
	rep, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range rep.Findings() {
		if codes[f.Code] {
			n++
		}
	}
	return n
}
