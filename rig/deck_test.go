package rig_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// The trailer of the hand sums: 2,000 lb at 11 ft, 2 ft high, and 1,000 lb at
// 10 ft, half a foot left and 3 ft high. The centre of mass is at
// (22,000 + 10,000)/3,000 = 10.667 ft, 1/6 ft left and 7/3 ft high; the axles
// carry 3,000 − 333.3 lb.
func TestCentre_handSums(t *testing.T) {
	r := assessed(t, newModel(t, bare(2)))
	for _, c := range []struct {
		path rig.Path
		want float64
		unit units.Length
	}{
		{"trailer.centre_aft", 32.0 / 3, units.Foot}, {"trailer.centre_left", 1.0 / 6, units.Foot}, {"trailer.centre_height", 7.0 / 3, units.Foot},
	} {
		if got := value(t, r, c.path, "fill=road") / float64(c.unit); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %.9f ft, hand sum %.9f ft", c.path, got, c.want)
		}
	}
	if got, want := units.Mass(value(t, r, "trailer.group", "fill=road")).In(units.Pound), 3000-1000.0/3; math.Abs(got-want) > 1e-6 {
		t.Errorf("axle group %.6f lb, hand sum %.6f lb", got, want)
	}
}

// The axle group is the total less the tongue and the sum of its sides; the
// centre of mass is where the tongue, the sides and the stability factor put
// it.
func TestRandomStability_centre(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := deckSpec(g)
		_, r, err := mustModel(s)
		if err != nil {
			return err
		}
		n := 0
		for x := range r.All("trailer.total") {
			at := func(p rig.Path) (float64, bool) { v, ok := r.At(p, x.State); return v.Value.SI(), ok }
			total := x.Value.SI()
			tongue, _ := at("trailer.tongue")
			group, okGroup := at("trailer.group")
			aft, okAft := at("trailer.centre_aft")
			if !okGroup || !okAft {
				return fmt.Errorf("%v: no axle group or no centre", x.State)
			}
			base := float64(s.Trailer.AxleGroup.Sub(s.Trailer.Coupler))
			if d := total - tongue - group; math.Abs(d) > 1e-9*total {
				return fmt.Errorf("%v: tongue and axle group miss the total by %g", x.State, d)
			}
			if d := group*base - total*aft; math.Abs(d) > 1e-9*total*base {
				return fmt.Errorf("%v: the centre of mass makes another moment than the axles, by %g", x.State, d)
			}
			left, ok := at("trailer.left")
			right, _ := at("trailer.right")
			if across, okAcross := at("trailer.centre_left"); ok && okAcross {
				n++
				if d := (left-right)/2*float64(s.Trailer.Track) - total*across; math.Abs(d) > 1e-9*total {
					return fmt.Errorf("%v: the centre of mass makes another moment than the sides, by %g", x.State, d)
				}
			}
			factor, ok := at("trailer.static_stability")
			if height, okHeight := at("trailer.centre_height"); ok && okHeight {
				n++
				if want := float64(s.Trailer.Track) / 2 / factor; math.Abs(height-want) > 1e-9*want {
					return fmt.Errorf("%v: the centre of mass is %g high, the stability factor says %g", x.State, height, want)
				}
			}
		}
		if n == 0 {
			return fmt.Errorf("no centre was looked at")
		}
		return nil
	})
}

// How high liquid stands, by the forms of textbooks: a box by its share, a
// lying cylinder half full to its axis, a tank without a form by its share of
// its box.
func TestModel_Surfaces(t *testing.T) {
	s := bare(2)
	tank := func(id string, x float64, k parts.Tank) rig.Tank {
		return rig.Tank{Stock: rig.Stock{ID: id, Mass: pounds(50), X: feet(x), Y: feet(0), Z: feet(3)}, Tank: k, Floor: feet(2)}
	}
	s.Tanks = []rig.Tank{
		tank("box", 8, parts.Tank{Nominal: 100 * units.Gallon, Shape: "box", InsideLength: 22 * units.Inch, InsideWidth: 35 * units.Inch, Height: 30 * units.Inch}), // 23,100 in³
		tank("drum", 11, parts.Tank{Nominal: 100 * units.Gallon, Shape: "crosswise-cylinder", Diameter: 28 * units.Inch, InsideWidth: 37.515 * units.Inch}),         // π·14²·37.515 in³
		tank("long", 14, parts.Tank{Nominal: 100 * units.Gallon, Shape: "lengthwise-cylinder", Diameter: 28 * units.Inch, InsideLength: 37.515 * units.Inch}),       // the same, turned
		tank("boxed", 5, parts.Tank{Nominal: 100 * units.Gallon}),   // by its box
		tank("nowhere", 5, parts.Tank{Nominal: 100 * units.Gallon}), // no box: not shown
		tank("standing", 17, parts.Tank{Nominal: 100 * units.Gallon, Shape: "upright-cylinder", Diameter: 30 * units.Inch, Height: units.Length(23100/706.858) * units.Inch}), // π·15² = 706.858 in²
	}
	s.Tanks[3].Box = rig.Box{Length: 2 * units.Foot, Width: 2 * units.Foot, Height: 4 * units.Foot, Bottom: feet(1)}
	s.Fills[0].Levels = []rig.Level{{ID: "box", Volume: 25 * units.Gallon}, {ID: "drum", Volume: 50 * units.Gallon}, {ID: "long", Volume: 50 * units.Gallon}, {ID: "boxed", Volume: 75 * units.Gallon}, {ID: "standing", Volume: 50 * units.Gallon}}
	m := newModel(t, s)
	state, err := m.ParseState("fill=road")
	if err != nil {
		t.Fatal(err)
	}
	want := []struct {
		name                  string
		fore, aft, level, top float64 // in
		round, inferred       bool
		within                float64 // in; the volumes agree to five digits
	}{
		{"box", 96 - 11, 96 + 11, 24 + 7.5, 24 + 30, false, false, 1e-9},
		{"drum", 132 - 14, 132 + 14, 24 + 14, 24 + 28, true, false, 1e-3},
		{"long", 168 - 18.7575, 168 + 18.7575, 24 + 14, 24 + 28, false, false, 1e-3},
		{"boxed", 60 - 12, 60 + 12, 12 + 36, 12 + 48, false, true, 1e-9},
		{"standing", 204 - 15, 204 + 15, 24 + 16.34, 24 + 32.68, false, false, 1e-2},
	}
	got := m.Surfaces(state)
	if len(got) != len(want) {
		t.Fatalf("%d surfaces, want %d: %+v", len(got), len(want), got)
	}
	for i, w := range want {
		x := got[i]
		if x.Name != w.name || x.Round != w.round || x.Inferred != w.inferred {
			t.Errorf("%s: %+v", w.name, x)
		}
		for _, c := range []struct {
			what string
			got  units.Position
			want float64
		}{{"fore", x.Fore, w.fore}, {"aft", x.Aft, w.aft}, {"level", x.Level, w.level}, {"top", x.Top, w.top}} {
			if d := c.got.Length().In(units.Inch); math.Abs(d-c.want) > w.within {
				t.Errorf("%s, %s: %.6f in, want %.6f in", w.name, c.what, d, c.want)
			}
		}
	}
	if x := m.Surfaces(rig.State{}); x != nil {
		t.Errorf("in no fill state: %+v", x)
	}
}

// Without a trailer a deck is what has a box; without either there is none.
func TestModel_Deck_withoutTrailer(t *testing.T) {
	s := bare(1)
	s.Trailer, s.Fills = nil, nil
	if d, ok := newModel(t, s).Deck(); ok {
		t.Errorf("of nothing: %+v", d)
	}
	s.Items[0].Box = rig.Box{Length: 1 * units.Foot, Width: 1 * units.Foot}
	d, ok := newModel(t, s).Deck()
	if !ok || d.Trailer.Axles != 0 || len(d.Axles) != 0 || len(d.Boxes) != 1 || len(d.NoBox) != 0 {
		t.Errorf("of one box: %v, %+v", ok, d)
	}
	b := bare(1)
	if d, ok := newModel(t, b).Deck(); !ok || len(d.NoBox) != 1 || d.NoBox[0] != "items[box]" {
		t.Errorf("with a trailer: %v, %+v", ok, d.NoBox)
	}
}
