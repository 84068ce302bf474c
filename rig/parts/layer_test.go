package parts_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

func TestLayer(t *testing.T) {
	gpm := units.GallonPerMinute
	list := shelf(t, "list", pump("P36", 3.6*gpm), pump("P44", 4.4*gpm), pump("P68", 6.8*gpm))
	own := shelf(t, "own", pump("P44", 4.5*gpm), pump("P99", 9.9*gpm))
	job := shelf(t, "job", pump("P99", 9*gpm))
	c, err := parts.Layer(list, nil, own, job)
	if err != nil {
		t.Fatal(err)
	}
	if c.Name() != "job over own over list" {
		t.Errorf("name %q", c.Name())
	}
	for _, want := range []struct {
		number, from string
		flow         units.VolumeFlow
	}{{"P36", "list", 3.6 * gpm}, {"P44", "own", 4.5 * gpm}, {"P68", "list", 6.8 * gpm}, {"P99", "job", 9 * gpm}} {
		p, err := c.Part(want.number)
		from, ok := c.Origin(want.number)
		if err != nil || !ok || from != want.from || p.Pump.RatedFlow != want.flow {
			t.Errorf("%s: %v from %q, %v", want.number, p.Pump, from, err)
		}
	}
	if _, ok := c.Origin("P1"); ok {
		t.Error("an unknown part has an origin")
	}
	if from, ok := list.Origin("P36"); !ok || from != "list" {
		t.Errorf("on its own shelf: %q", from)
	}
	again, err := parts.Layer(c, shelf(t, "last", pump("P1", gpm)))
	if err != nil {
		t.Fatal(err)
	}
	if from, _ := again.Origin("P44"); from != "own" {
		t.Errorf("through two layers: %q", from)
	}
	if pruned, _, _ := again.Prune(day(t, "2026-03-01"), 0); pruned != nil {
		if from, _ := pruned.Origin("P44"); from != "own" {
			t.Errorf("after pruning: %q", from)
		}
	}
}

func TestLayer_clash(t *testing.T) {
	a := shelf(t, "one", pump("10", units.GallonPerMinute), pump("11", units.GallonPerMinute), pump("12", units.GallonPerMinute))
	b := shelf(t, "two", parts.Part{Number: "10", Kind: "item"}, parts.Part{Number: "12", Kind: "item"})
	c, err := parts.Layer(a, b)
	if c != nil || !errors.Is(err, units.ErrConflict) || len(err.(interface{ Unwrap() []error }).Unwrap()) != 2 {
		t.Errorf("got %v, %v", c, err)
	}
	var fe *units.FieldError
	if !errors.As(err, &fe) || fe.Path != "parts[10].kind" || fe.Value != "item on shelf two" {
		t.Errorf("got %+v", fe)
	}
}

func TestLayer_none(t *testing.T) {
	for _, list := range [][]*parts.Catalog{nil, {nil, nil}} {
		if c, err := parts.Layer(list...); err != nil || c.Len() != 0 || c.Name() != "" {
			t.Errorf("got %v, %v", c, err)
		}
	}
}

// Against a map that is filled from the bottom to the top.
func TestLayer_oracle(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		want, from := map[string]parts.Part{}, map[string]string{}
		var shelves []*parts.Catalog
		for k := range g.Int(1, 4) {
			name := fmt.Sprint("shelf ", k)
			var list []parts.Part
			for i := range 6 {
				if g.Bool() {
					p := pump(fmt.Sprint("P", i), units.VolumeFlow(g.Float(1e-5, 1e-3)))
					list, want[p.Number], from[p.Number] = append(list, p), p, name
				}
			}
			shelves = append(shelves, shelf(t, name, list...))
		}
		c, err := parts.Layer(shelves...)
		if err != nil {
			return err
		}
		if c.Len() != len(want) {
			return fmt.Errorf("%d parts, want %d", c.Len(), len(want))
		}
		var list []parts.Part
		for number, p := range want {
			got, err := c.Part(number)
			if err != nil {
				return err
			}
			if d := cmp.Diff(p, got, exact); d != "" {
				return fmt.Errorf("-want +got\n%s", d)
			}
			if o, ok := c.Origin(number); !ok || o != from[number] {
				return fmt.Errorf("%s comes from %q, want %q", number, o, from[number])
			}
			list = append(list, p)
		}
		if flat := shelf(t, "flat", list...); flat.Digest() != c.Digest() {
			return errors.New("the same parts on one shelf have another digest")
		}
		return nil
	})
}
