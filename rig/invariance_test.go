package rig_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// The same rig written in SI text has the same states and findings, and
// numbers within 1e-12.
func TestInvariance_unitsOfTheText(t *testing.T) {
	for _, name := range demo.Names() {
		m := demoModel(t, name)
		docs, err := rig.Fields()
		if err != nil {
			t.Fatal(err)
		}
		quantity := map[rig.Path]bool{}
		for _, d := range docs {
			if _, err := units.ParseKind(d.Kind); err == nil {
				quantity[d.Path] = true
			}
		}
		var c []rig.Change
		n := 0
		for _, p := range everyPath(t, m) {
			if !quantity[p.Pattern()] {
				continue
			}
			q, ok := m.Quantity(p)
			if !ok {
				continue
			}
			u := q.Kind().Unit(units.SI)
			v, err := q.In(u)
			if err != nil {
				t.Fatal(err)
			}
			text := strconv.FormatFloat(v, 'g', 17, 64)
			if strings.ContainsAny(text, "eE") {
				text = strconv.FormatFloat(v, 'f', -1, 64)
			}
			c = append(c, rig.Set(p, text+" "+u.Symbol()))
			n++
		}
		if n < 80 {
			t.Fatalf("rig %s: only %d quantities rewritten", name, n)
		}
		si, err := m.With(c...)
		if err != nil {
			t.Fatal(err)
		}
		if err := sameReport(assessed(t, m), assessed(t, si), 1e-12); err != nil {
			t.Errorf("rig %s: %v", name, err)
		}
	}
}

// everyPath lists the paths of every value of the resolved specification.
func everyPath(t *testing.T, m *rig.Model) []rig.Path {
	t.Helper()
	var out []rig.Path
	ids := map[string][]string{}
	s := m.Spec()
	add := func(list string, id string) { ids[list] = append(ids[list], id) }
	for _, c := range m.Components() {
		list, rest, ok := strings.Cut(string(c.Path), "[")
		if id, after, _ := strings.Cut(rest, "]"); ok && after == "" {
			add(list, id)
		}
	}
	for _, c := range s.Site.Conditions {
		add("site.conditions", c.ID)
	}
	docs, err := rig.Fields()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range docs {
		before, after, ok := strings.Cut(string(d.Path), "[]")
		if !ok {
			out = append(out, d.Path)
			continue
		}
		if strings.Contains(after, "[]") {
			continue
		}
		for _, id := range ids[before] {
			out = append(out, rig.Path(before+"["+id+"]"+after))
		}
	}
	return out
}

// sameReport compares states, findings and numbers of two reports.
func sameReport(a, b *rig.Report, within float64) error {
	x, y := numbersOf(a), numbersOf(b)
	if len(x) != len(y) {
		return fmt.Errorf("%d and %d readings", len(x), len(y))
	}
	for k, v := range x {
		w, ok := y[k]
		if !ok {
			return fmt.Errorf("%s is missing", k)
		}
		scale := math.Max(math.Abs(v), math.Abs(w))
		if strings.Contains(k, "relief_flow") || strings.Contains(k, "bypass_flow") {
			scale = math.Max(scale, 1e-4) // a difference of flows: compared with the pump's flow
		}
		if math.Abs(v-w) > within*scale {
			return fmt.Errorf("%s is %.17g and %.17g", k, v, w)
		}
	}
	f, g := a.Findings(), b.Findings()
	if len(f) != len(g) {
		return fmt.Errorf("%d and %d findings", len(f), len(g))
	}
	for i := range f {
		if f[i].Code != g[i].Code || f[i].Severity != g[i].Severity || f[i].Reading.Path() != g[i].Reading.Path() || f[i].Reading.State.String() != g[i].Reading.State.String() {
			return fmt.Errorf("finding %d is %v %s in %v, and %v %s in %v", i, f[i].Severity, f[i].Code, f[i].Reading.State, g[i].Severity, g[i].Code, g[i].Reading.State)
		}
	}
	return nil
}

// The same input gives the same bytes, from one goroutine or many.
func TestInvariance_sameBytes(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "D")
	want, err := assessed(t, m).MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	got := make(chan string, 8)
	for range 8 {
		go func() {
			fresh, err := demo.Model("D")
			if err != nil {
				got <- err.Error()
				return
			}
			for _, model := range []*rig.Model{fresh, m} {
				r, err := model.Assess(nil, nil)
				if err != nil {
					got <- err.Error()
					return
				}
				b, err := r.MarshalJSON()
				if err != nil || string(b) != string(want) {
					got <- fmt.Sprintf("another report (%v)", err)
					return
				}
			}
			got <- ""
		}()
	}
	for range 8 {
		if s := <-got; s != "" {
			t.Error(s)
		}
	}
}
