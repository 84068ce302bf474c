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

func empty(d rig.Difference) bool {
	return len(d.Numbers)+len(d.Appeared)+len(d.Cleared)+len(d.Changed) == 0
}

// A report does not differ from itself; the difference of two is that of the two the
// other way about with before and after exchanged; a change that is changed back
// leaves none. What Diff leaves out is the same in both.
func TestWholeRigs_diff(t *testing.T) {
	t.Parallel()
	table := specFields(t)
	tried, moved := 0, 0
	property.Check(t, func(g *property.G) error {
		if g.Pick(3) != 0 {
			return nil // a rig is solved three times
		}
		_, m, a, err := wholeRig(g)
		if err != nil {
			return err
		}
		if d := rig.Diff(a, a); !empty(d) {
			return fmt.Errorf("a report differs from itself: %+v", d)
		}
		paths, err := rig.Quantities(m)
		if err != nil {
			return err
		}
		p := paths[g.Pick(len(paths))]
		text, given, err := m.Get(p)
		if err != nil || !given {
			return err
		}
		q, _ := m.Quantity(p)
		nq, err := units.NewQuantity(q.Kind(), q.SI()*g.Float(0.8, 1.25))
		if err != nil {
			return property.ErrDiscard
		}
		n, err := m.With(rig.Assign(p, nq))
		if err != nil {
			return property.ErrDiscard // contradicts another value
		}
		b, err := n.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			return property.ErrDiscard
		}
		tried++
		x, y := rig.Diff(a, b), rig.Diff(b, a)
		if err := turned(x, y); err != nil {
			return fmt.Errorf("%s to %v: %w", p, nq, err)
		}
		if err := told(a, b, x); err != nil {
			return fmt.Errorf("%s to %v: %w", p, nq, err)
		}
		if !empty(x) {
			moved++
		}
		if _, written, err := table.Get(m.Written(), string(p)); err != nil || !written {
			return err // a default: With writes it, and the basis changes
		}
		back, err := n.With(rig.Set(p, text))
		if err != nil {
			return fmt.Errorf("%s back to %s: %w", p, text, err)
		}
		c, err := back.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			return err
		}
		if d := rig.Diff(a, c); !empty(d) {
			return fmt.Errorf("%s changed to %v and back to %s: %+v", p, nq, text, d)
		}
		return nil
	})
	if tried >= 10 && moved == 0 {
		t.Error("no change moved anything")
	}
}

// turned holds a difference against the one the other way about.
func turned(x, y rig.Difference) error {
	if len(x.Numbers) != len(y.Numbers) || len(x.Appeared) != len(y.Cleared) || len(x.Cleared) != len(y.Appeared) || len(x.Changed) != len(y.Changed) {
		return fmt.Errorf("%d numbers, %d appeared, %d cleared, %d changed; back %d, %d, %d, %d", len(x.Numbers), len(x.Appeared), len(x.Cleared), len(x.Changed), len(y.Numbers), len(y.Appeared), len(y.Cleared), len(y.Changed))
	}
	back := map[rig.Path]rig.NumberChange{}
	for _, n := range y.Numbers {
		back[n.Path] = n
	}
	for _, n := range x.Numbers {
		o, ok := back[n.Path]
		if !ok || o.Before != n.After || o.After != n.Before {
			return fmt.Errorf("%s goes from %v to %v, and back from %v to %v", n.Path, n.Before.Value, n.After.Value, o.Before.Value, o.After.Value)
		}
	}
	return nil
}

// told reports a worst number that moved and is not in the difference, or is in it and
// did not.
func told(a, b *rig.Report, d rig.Difference) error {
	in := map[rig.Path]bool{}
	for _, n := range d.Numbers {
		in[n.Path] = true
	}
	seen := map[rig.Path]bool{}
	for x := range a.Every() {
		p := x.Path()
		if seen[p] || x.Metric.Rule {
			continue
		}
		seen[p] = true
		v, ok := a.Worst(p)
		w, ok2 := b.Worst(p)
		if !ok && !ok2 {
			continue
		}
		far := ok != ok2 || math.Abs(v.Value.SI()-w.Value.SI()) > 1e-12*math.Max(math.Abs(v.Value.SI()), math.Abs(w.Value.SI()))
		if far != in[p] {
			return fmt.Errorf("%s was %v and is %v; in the difference: %v", p, v.Value, w.Value, in[p])
		}
	}
	return nil
}

// What Explain explains is the reading of the report, to the bit, and so is every
// number it is traced to; the shifts it gives are finite.
func TestWholeRigs_explain(t *testing.T) {
	t.Parallel()
	tried, inputs := 0, 0
	property.Check(t, func(g *property.G) error {
		if g.Pick(8) != 0 {
			return nil // a trace solves the rig once for each of its values
		}
		_, m, r, err := wholeRig(g)
		if err != nil {
			return err
		}
		var list []rig.Reading
		for x := range r.Every() {
			list = append(list, x)
		}
		if len(list) == 0 {
			return property.ErrDiscard
		}
		x := list[g.Pick(len(list))]
		tr, err := m.Explain(x.Path(), x.State)
		if err != nil {
			return err
		}
		tried++
		inputs += len(tr.Inputs)
		if len(tr.Inputs) > 0 && strings.Count(tr.Text(units.SI), "\n") < 3 {
			return fmt.Errorf("%s is explained in no words", x.Path())
		}
		if tr.Reading.Path() != x.Path() || math.Float64bits(tr.Reading.Value.SI()) != math.Float64bits(x.Value.SI()) {
			return fmt.Errorf("%s in %v is %.17g, explained is %.17g", x.Path(), x.State, x.Value.SI(), tr.Reading.Value.SI())
		}
		return traced(r, tr)
	})
	if tried >= 10 && inputs == 0 {
		t.Error("nothing was traced to an input")
	}
}

func traced(r *rig.Report, tr *rig.Trace) error {
	y, ok := r.At(tr.Reading.Path(), tr.Reading.State)
	if !ok || math.Float64bits(y.Value.SI()) != math.Float64bits(tr.Reading.Value.SI()) {
		return fmt.Errorf("%s in %v is traced as %v and reported as %v", tr.Reading.Path(), tr.Reading.State, tr.Reading.Value, y.Value)
	}
	for _, in := range tr.Inputs {
		for _, v := range []float64{in.Gain, in.Shift} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("%s moves %s by %g, gain %g", in.Path, tr.Reading.Path(), in.Shift, in.Gain)
			}
		}
	}
	for _, u := range tr.Uses {
		if err := traced(r, u); err != nil {
			return err
		}
	}
	return nil
}
