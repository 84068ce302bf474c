package sheet_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/rig/sheet"
	"example.com/washrig/units"
)

// A damage is what was done to a demo rig.
type damage struct {
	spec *rig.Spec
	done []string
}

// damaged takes a demo rig, which has everything a rig may have, and changes a few
// of its fields at random: numbers scaled, set to either end of their range, to
// nothing, or far outside; words and references exchanged; elements taken out or
// copied; whole lists emptied. What Set refuses is not done.
func damaged(g *property.G, table *fields.Table, most int) (damage, error) {
	s, err := demo.Spec(property.OneOf(g, demo.Names()...))
	if err != nil {
		return damage{}, err
	}
	d := damage{spec: s}
	for range g.Int(1, most) {
		var at []fields.Visit
		table.Walk(d.spec, func(v *fields.Visit) bool {
			at = append(at, v.Keep())
			return true
		})
		v := at[g.Pick(len(at))]
		d.do(g, table, v)
	}
	for _, line := range d.done {
		g.Note("%s", line)
	}
	return d, nil
}

func (d *damage) do(g *property.G, table *fields.Table, v fields.Visit) {
	p := rig.Path(v.Path())
	try := func(c rig.Change) {
		next := d.spec.Clone()
		if next.Apply(c) == nil {
			d.spec, d.done = next, append(d.done, c.String())
		}
	}
	switch f := v.Field; {
	case f.Role == fields.List:
		n := v.Value.Len()
		if n == 0 {
			return
		}
		id := v.Value.Index(g.Pick(n)).FieldByName("ID").String()
		element := rig.Path(fmt.Sprintf("%s[%s]", p, id))
		switch g.Pick(3) {
		case 0:
			try(rig.Remove(element))
		case 1:
			if n < 4 { // each copied load or gun doubles the states
				try(rig.Copy(element, fmt.Sprintf("other-%d", len(d.done))))
			}
		case 2:
			for i := range n {
				try(rig.Remove(rig.Path(fmt.Sprintf("%s[%s]", p, v.Value.Index(i).FieldByName("ID").String()))))
			}
		}
	case f.Kind != 0:
		low, high, hasLow, hasHigh := f.Range()
		q, given := table.Quantity(d.spec, v.Path())
		x := 1.0
		if given && q.SI() != 0 {
			x = q.SI()
		} else if hasLow && hasHigh {
			x = (low + high) / 2
		}
		switch g.Pick(7) {
		case 0:
			try(rig.Set(p, ""))
			return
		case 1:
			x *= g.LogFloat(0.2, 5)
		case 2:
			x *= g.LogFloat(0.9, 1.1)
		case 3:
			x = low
		case 4:
			x = high
		case 5:
			x = -x
		case 6:
			x *= property.OneOf(g, 1e-12, 1e12, 0)
		}
		if q, err := units.NewQuantity(f.Kind, x); err == nil {
			try(rig.Assign(p, q))
		}
	case len(f.Choices) > 0:
		try(rig.Set(p, property.OneOf(g, append(append([]string(nil), f.Choices...), "")...)))
	case f.Ref != "":
		words := []string{"", "nobody"}
		table.Walk(d.spec, func(o *fields.Visit) bool {
			if o.Field.Role == fields.List && o.Path() == f.Ref {
				for i := range o.Value.Len() {
					words = append(words, o.Value.Index(i).FieldByName("ID").String())
				}
			}
			return true
		})
		try(rig.Set(p, property.OneOf(g, words...)))
	case f.Role == fields.Count:
		try(rig.Set(p, property.OneOf(g, "", "1", "2", "3", "7")))
	case f.Role == fields.Text && strings.HasSuffix(f.Pattern, ".part"):
		try(rig.Set(p, ""))
	case f.Role == fields.Words:
		try(rig.Set(p, property.OneOf(g, "", "left right", "nobody")))
	}
}

// typed reports whether every error of a joined one names a field or a solver.
func typed(err error) bool {
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		for _, e := range j.Unwrap() {
			if !typed(e) {
				return false
			}
		}
		return true
	}
	var f *units.FieldError
	var s *units.SolverError
	var n *rig.StatesError
	return errors.As(err, &f) && f.Path != "" || errors.As(err, &s) || errors.As(err, &n)
}

// answered judges a damaged rig in every way there is and looks at every number.
// Models counts those that could be built.
func answered(d damage, pages bool, models *int) error {
	shelf, err := demo.Shelf()
	if err != nil {
		return err
	}
	m, err := rig.New(d.spec, shelf)
	if err != nil {
		if !typed(err) {
			return fmt.Errorf("refused without naming a field: %w", err)
		}
		return nil
	}
	r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: !pages})
	if err != nil {
		var s *units.SolverError
		var n *rig.StatesError
		if errors.As(err, &s) || errors.As(err, &n) {
			return nil
		}
		return fmt.Errorf("a model that was taken has no answer: %w", err)
	}
	*models++
	for x := range r.Every() {
		if v := x.Value.SI(); math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("%s is %g in %v", x.Path(), v, x.State)
		}
	}
	for _, f := range append(r.Findings(), r.Passed()...) {
		if math.IsNaN(f.Margin) || math.IsInf(f.Margin, 0) {
			return fmt.Errorf("margin of %s is %g", f.Code, f.Margin)
		}
	}
	if !pages {
		return nil
	}
	data, err := json.Marshal(r)
	if err != nil {
		return err
	}
	for _, word := range []string{"NaN", "Inf"} {
		if bytes.Contains(data, []byte(word)) {
			return fmt.Errorf("the report as data holds %s", word)
		}
	}
	var b bytes.Buffer
	if err := sheet.WriteText(&b, r, nil, sheet.Options{Full: true}); err != nil {
		return err
	}
	for _, page := range []func(*rig.Report, *sheet.Options) (*sheet.Document, error){sheet.Technician, sheet.Weights, sheet.StartCard, sheet.WalkRound} {
		doc, err := page(r, nil)
		if err != nil {
			return err
		}
		if err := doc.WriteHTML(&b); err != nil {
			return err
		}
	}
	for _, word := range []string{"NaN", "+Inf", "-Inf", "%!"} {
		if bytes.Contains(b.Bytes(), []byte(word)) {
			return fmt.Errorf("a page holds %s", word)
		}
	}
	return nil
}

func specFields(t testing.TB) *fields.Table {
	t.Helper()
	table, err := fields.Of(reflect.TypeFor[rig.Spec]())
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// Absent, extreme and contradictory specifications are refused with the path of
// what is wrong, or answered with finite numbers on every page.
func TestDamagedRigs(t *testing.T) {
	table := specFields(t)
	cases, models := 0, 0
	property.Check(t, func(g *property.G) error {
		cases++
		d, err := damaged(g, table, 5)
		if err != nil {
			return err
		}
		return answered(d, g.Pick(16) == 0, &models)
	})
	if models < cases/5 {
		t.Errorf("of %d damaged rigs only %d could be judged", cases, models)
	}
}

// FuzzDamage does the same with damage that the fuzzer chooses.
func FuzzDamage(f *testing.F) {
	table := specFields(f)
	for _, seed := range []string{"", "a", "lines", "0123456789abcdef", "\x00\xff\x80\x40\x20\x10\x08\x04\x02\x01"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		models := 0
		if err := property.Replay(data, func(g *property.G) error {
			d, err := damaged(g, table, 12)
			if err != nil {
				return err
			}
			return answered(d, false, &models)
		}); err != nil {
			t.Fatal(err)
		}
	})
}
