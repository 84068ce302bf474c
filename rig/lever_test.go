package rig_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// anyRig draws a rig of any of the kinds that the tests of the blocks draw.
func anyRig(g *property.G) *rig.Spec {
	return property.OneOf(g, randomSpec, hotSpec, stableSpec, wiredSpec)(g)
}

// sameBits compares everything two reports hold: every number by its bits, every
// judgement and the order of all.
func sameBits(a, b *rig.Report) error {
	var x, y []rig.Reading
	for r := range a.Every() {
		x = append(x, r)
	}
	for r := range b.Every() {
		y = append(y, r)
	}
	if len(x) != len(y) {
		return fmt.Errorf("%d numbers and %d", len(x), len(y))
	}
	for i := range x {
		if x[i].Path() != y[i].Path() || x[i].State.String() != y[i].State.String() || math.Float64bits(x[i].Value.SI()) != math.Float64bits(y[i].Value.SI()) {
			return fmt.Errorf("%v in %v: %v and %v in %v: %v", x[i].Path(), x[i].State, x[i].Value, y[i].Path(), y[i].State, y[i].Value)
		}
	}
	for _, l := range [][2][]rig.Finding{{a.Findings(), b.Findings()}, {a.Passed(), b.Passed()}} {
		if len(l[0]) != len(l[1]) {
			return fmt.Errorf("%d judgements and %d", len(l[0]), len(l[1]))
		}
		for i := range l[0] {
			if f, g := l[0][i], l[1][i]; text(&f) != text(&g) {
				return fmt.Errorf("%s and %s", text(&f), text(&g))
			}
		}
	}
	for i, o := range a.PlugOptions() {
		p := b.PlugOptions()[i]
		if o.State.String() != p.State.String() || o.Verdict != p.Verdict || o.Code != p.Code || math.Float64bits(o.Margin) != math.Float64bits(p.Margin) {
			return fmt.Errorf("plugs %+v and %+v", o, p)
		}
	}
	return nil
}

func text(f *rig.Finding) string {
	return fmt.Sprint(f.Code, f.Severity, f.Reading.Path(), f.Reading.State, f.Reading.Value.SI(), f.Limit.SI(), math.Float64bits(f.Margin), f.Source, f.Leans, f.Turns.SI(), f.Typical, f.Root, f.Override)
}

// leverIs holds a lever against a model made from the changed specification.
func leverIs(m *rig.Model, p rig.Path, factor float64) error {
	q, ok := m.Quantity(p)
	if !ok {
		return nil
	}
	nq, err := units.NewQuantity(q.Kind(), q.SI()*factor)
	if err != nil {
		return nil
	}
	l, err := m.Lever(p)
	if err != nil {
		return err
	}
	a, errA := l.To(nq)
	s := m.Written()
	errB := s.Apply(rig.Assign(p, nq))
	var b *rig.Model
	if errB == nil {
		b, errB = rig.New(s, m.Shelf())
	}
	if (errA == nil) != (errB == nil) {
		return fmt.Errorf("%s to %v: the lever says %v, a new model %v", p, nq, errA, errB)
	}
	if errA != nil {
		return nil
	}
	quick := &rig.AssessOptions{SkipBreakEven: true}
	ra, errA := a.Assess(nil, quick)
	rb, errB := b.Assess(nil, quick)
	if errA != nil || errB != nil {
		if (errA == nil) != (errB == nil) {
			return fmt.Errorf("%s to %v: the lever says %v, a new model %v", p, nq, errA, errB)
		}
		return nil
	}
	if a.Digest() != b.Digest() {
		return fmt.Errorf("%s to %v: another specification", p, nq)
	}
	if err := sameBits(ra, rb); err != nil {
		return fmt.Errorf("%s to %v: %w", p, nq, err)
	}
	return nil
}

// A lever on any field of a random rig comes to the bits of a new model.
func TestLever_anyRig(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		m, err := rig.New(anyRig(g), nil)
		if err != nil {
			return nil // the draws are plausible one by one
		}
		paths, err := rig.Quantities(m)
		if err != nil {
			return err
		}
		return leverIs(m, property.OneOf(g, paths...), g.Float(0.8, 1.2))
	})
}

// Every field of the rigs of the demo has a lever that comes to the bits of a new
// model. Of the elements of a list the first is moved.
func TestLever_everyField(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"B"} {
		m := demoModel(t, name)
		paths, err := rig.Quantities(m)
		if err != nil {
			t.Fatal(err)
		}
		seen := map[rig.Path]bool{}
		for _, p := range paths {
			if seen[p.Pattern()] || testing.Short() {
				continue
			}
			seen[p.Pattern()] = true
			if err := leverIs(m, p, 1.013); err != nil {
				t.Errorf("rig %s: %v", name, err)
			}
		}
	}
}

// What a moved field is said not to touch is what it does not touch: the inputs of all
// blocks, made from the specification again, are those that were shared.
func TestBlocks_reads(t *testing.T) {
	t.Parallel()
	moved := 0
	check := func(m *rig.Model, p rig.Path, factor float64) error {
		q, _ := m.Quantity(p)
		nq, err := units.NewQuantity(q.Kind(), q.SI()*factor)
		if err != nil {
			return nil
		}
		n, err := rig.Moved(m, p, nq)
		if err != nil {
			return nil // out of the field's range
		}
		moved++
		if left := rig.NotReread(n); len(left) > 0 {
			return fmt.Errorf("%s is read by %s", p, strings.Join(left, ", "))
		}
		return nil
	}
	for _, name := range []string{"A", "B", "C", "D"} {
		m := demoModel(t, name)
		paths, err := rig.Quantities(m)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range paths {
			for _, f := range []float64{0.9, 1.07} {
				if err := check(m, p, f); err != nil {
					t.Errorf("rig %s: %v", name, err)
				}
			}
		}
	}
	property.Check(t, func(g *property.G) error {
		m, err := rig.New(anyRig(g), nil)
		if err != nil {
			return nil
		}
		paths, err := rig.Quantities(m)
		if err != nil {
			return err
		}
		for range 20 {
			if err := check(m, property.OneOf(g, paths...), g.Float(0.7, 1.4)); err != nil {
				return err
			}
		}
		return nil
	})
	if moved < 500 {
		t.Errorf("only %d fields were moved", moved)
	}
}

// A lever shares the blocks that its field does not touch, and they are solved once.
func TestLever_sharesTheRest(t *testing.T) {
	m := demoModel(t, "B")
	for _, c := range []struct {
		p      rig.Path
		factor float64
		own    string // blocks that are made anew
	}{
		{"site.elevation", 1.1, "lines heat engines electric plumbing suction gun burner service frost wiring recovery fuel chemical coupled water fault"},
		{"duty.standoff", 1.1, "gun"},
		{"winter.coldest", 0.99, "frost"},
		{"trailer.jack", 1.01, "stability"},
	} {
		q, ok := m.Quantity(c.p)
		if !ok {
			t.Errorf("rig B does not give %s", c.p)
			continue
		}
		nq, err := units.NewQuantity(q.Kind(), q.SI()*c.factor)
		if err != nil {
			t.Fatal(err)
		}
		l, err := m.Lever(c.p)
		if err != nil {
			t.Fatal(err)
		}
		n, err := l.To(nq)
		if err != nil {
			t.Fatal(err)
		}
		var own []string
		for _, b := range rig.BlockNames() {
			if !rig.SameBlock(m, n, b) {
				own = append(own, b)
			}
		}
		if got := strings.Join(own, " "); got != c.own {
			t.Errorf("%s: made anew %q, want %q", c.p, got, c.own)
		}
	}
}
