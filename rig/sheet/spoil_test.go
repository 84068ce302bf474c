package sheet_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A leaf is one text of a file, with the object or list it stands in.
type leaf struct {
	name string
	text string
	put  func(any)
	drop func()
}

// leaves lists the texts and numbers of a decoded file, in the order of its names.
func leaves(v any, name string, put func(any), drop func(), out *[]leaf) {
	switch x := v.(type) {
	case map[string]any:
		for _, k := range fields.SortedKeys(x) {
			leaves(x[k], k, func(n any) { x[k] = n }, func() { delete(x, k) }, out)
		}
	case []any:
		for i := range x {
			leaves(x[i], name, func(n any) { x[i] = n }, drop, out)
		}
	default:
		*out = append(*out, leaf{name, fmt.Sprint(v), put, drop})
	}
}

// spoiled writes the file of a demo rig with a few of its values left out, far out, of
// another kind, or exchanged with another value of the same kind.
func spoiled(g *property.G, most int) (string, error) {
	s, err := demo.Spec(property.OneOf(g, demo.Names()...))
	if err != nil {
		return "", err
	}
	var b bytes.Buffer
	if err := s.Write(&b); err != nil {
		return "", err
	}
	var doc map[string]any
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
		return "", err
	}
	for range g.Int(1, most) {
		var at []leaf
		leaves(doc, "", func(any) {}, func() {}, &at)
		l := at[g.Pick(len(at))]
		number, unit, _ := strings.Cut(l.text, " ")
		var x float64
		_, err := fmt.Sscan(number, &x)
		quantity := err == nil && unit != ""
		g.Note("%s = %q", l.name, l.text)
		switch k := g.Pick(10); {
		case k == 0:
			l.drop()
		case !quantity:
			l.put(property.OneOf[any](g, "", "nobody", "yes", "1 ft", 7.0, true, nil, []any{}, map[string]any{}, "\u202e", strings.Repeat("a", 300)))
		case k == 1:
			l.put(property.OneOf(g, "0 ", "-0 ", "1e30 ", "1e-30 ", "-1e30 ", "1e400 ", "NaN ", "Inf ", "0x1p3 ", "1,5 ") + unit)
		case k == 2:
			l.put("-" + l.text)
		case k == 3:
			l.put(number + " " + property.OneOf(g, "psi", "ft", "gpm", "°F", "lb", "V", "%", "gal", "h", "rpm", "USD", "parsec"))
		case k == 4:
			l.put(property.OneOf[any](g, x, number, nil, []any{l.text}, map[string]any{unit: x}))
		case k == 5: // two values of a unit exchanged, so that they contradict each other
			var same []leaf
			for _, o := range at {
				if _, u, ok := strings.Cut(o.text, " "); ok && u == unit {
					same = append(same, o)
				}
			}
			o := same[g.Pick(len(same))]
			l.put(o.text)
			o.put(l.text)
		default:
			l.put(fmt.Sprintf("%g %s", x*g.LogFloat(0.05, 20), unit))
		}
	}
	data, err := json.Marshal(doc)
	return string(data), err
}

// answeredFile reads a file and, where it is taken, judges it in every way there is
// and explains one of its numbers.
func answeredFile(g *property.G, text string, pages bool, models *int) error {
	s, err := rig.ReadSpec(strings.NewReader(text), rig.ReadLimits{})
	if err != nil {
		return told(err)
	}
	if err := answered(damage{spec: s}, pages, models); err != nil || !pages {
		return err
	}
	shelf, err := demo.Shelf()
	if err != nil {
		return err
	}
	m, err := rig.New(s, shelf)
	if err != nil {
		return nil // judged above
	}
	r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		return nil
	}
	var list []rig.Reading
	for x := range r.Every() {
		list = append(list, x)
	}
	if len(list) == 0 {
		return nil
	}
	x := list[g.Pick(len(list))]
	tr, err := m.Explain(x.Path(), x.State)
	if err != nil {
		return fmt.Errorf("%s in %v is not explained: %w", x.Path(), x.State, err)
	}
	if math.Float64bits(tr.Reading.Value.SI()) != math.Float64bits(x.Value.SI()) {
		return fmt.Errorf("%s in %v is %v, explained is %v", x.Path(), x.State, x.Value, tr.Reading.Value)
	}
	for _, word := range []string{"NaN", "+Inf", "-Inf", "%!"} {
		if strings.Contains(tr.Text(units.SI)+tr.Text(units.US), word) {
			return fmt.Errorf("the trace of %s holds %s", x.Path(), word)
		}
	}
	return nil
}

// told holds that every problem of a file says where it is.
func told(err error) error {
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		for _, e := range j.Unwrap() {
			if err := told(e); err != nil {
				return err
			}
		}
		return nil
	}
	var p *rig.Problem
	var f *units.FieldError
	if !(errors.As(err, &p) && p.Line > 0) && !(errors.As(err, &f) && f.Path != "") {
		return fmt.Errorf("refused without a place: %w", err)
	}
	return nil
}

// Files with absent, extreme and contradictory values, and values of another kind, are
// refused with the place of what is wrong, or answered with finite numbers.
func TestSpoiledFiles(t *testing.T) {
	t.Parallel()
	cases, models := 0, 0
	property.Check(t, func(g *property.G) error {
		cases++
		text, err := spoiled(g, 2)
		if err != nil {
			return err
		}
		return answeredFile(g, text, g.Pick(32) == 0, &models)
	})
	if cases >= 100 && (models < cases/10 || models > cases*9/10) {
		t.Errorf("of %d files %d could be judged", cases, models)
	}
}

// FuzzSpoiledFile does the same with what the fuzzer chooses.
func FuzzSpoiledFile(f *testing.F) {
	for _, seed := range []string{"", "a", "lines", "0123456789abcdef", "\x00\xff\x80\x40\x20\x10\x08\x04\x02\x01"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		models := 0
		if err := property.Replay(data, func(g *property.G) error {
			text, err := spoiled(g, 6)
			if err != nil {
				return err
			}
			return answeredFile(g, text, false, &models)
		}); err != nil {
			t.Fatal(err)
		}
	})
}
