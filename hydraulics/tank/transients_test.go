package tank_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/units"
)

// readTable returns the rows of a table in testdata, without its source line and
// its heading.
func readTable(t *testing.T, name string) [][]string {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

func num(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// The water of the reference: water near 20 °C, rounded.
var referenceWater = hydraulics.Fluid{Density: 998.2, Viscosity: 1e-3}

func upright(area, height float64) tank.Shape {
	return tank.Shape{Form: tank.Upright, Area: units.Area(area), Height: units.Length(height)}
}

// references are the cases of transients.py, typed again.
func references() map[string]struct {
	s     tank.System
	start []tank.Content
} {
	kinds := []string{"recovered"}
	type tc = struct {
		s     tank.System
		start []tank.Content
	}
	at := func(h float64) tank.Point { return tank.Point{Height: units.Length(h)} }
	v := func(volume, recovered float64) tank.Content {
		return tank.Content{Volume: units.Volume(volume), Parts: []units.Volume{units.Volume(recovered)}}
	}
	cases := map[string]tc{
		"drain": {
			s: tank.System{
				Tanks: []tank.Tank{{Shape: tank.Shape{Form: tank.UprightCylinder, Diameter: 1, Height: 1.5}}},
				Outlets: []tank.Outlet{{Port: at(0.05), Opening: tank.Opening{
					Bore: 0.040894, K: 1.9, Length: 0.6, Roughness: 1.5e-6}}},
			},
			start: []tank.Content{v(math.Pi/4*1.4, 0)},
		},
		"lying": {
			s: tank.System{
				Tanks:   []tank.Tank{{Shape: tank.Shape{Form: tank.LyingCylinder, Diameter: 0.9, Length: 1.6, Ends: tank.Dished, Dish: 0.15}}},
				Outlets: []tank.Outlet{{Opening: tank.Opening{Bore: 0.030, K: 2.7}}},
			},
		},
		"two": {
			s: tank.System{
				Tanks: []tank.Tank{{Shape: upright(0.9, 0.8)}, {Shape: upright(0.5, 0.7), Floor: 0.1}},
				Links: []tank.Link{{From: 0, To: 1, FromPort: at(0.03), ToPort: at(0.02),
					Opening: tank.Opening{Bore: 0.0525, K: 1.5, Length: 1.2}}},
				Draws: []tank.Draw{{Tank: 0, Port: at(0.15), Flow: 4.5e-4}},
			},
			start: []tank.Content{v(0.9*0.75, 0), v(0.5*0.4, 0.5*0.4)},
		},
		"three": {
			s: tank.System{
				Tanks: []tank.Tank{{Shape: upright(0.5, 0.75), Overflow: at(0.72)}, {Shape: upright(0.4, 0.75), Overflow: at(0.70)},
					{Shape: upright(0.6, 0.75), Overflow: at(0.71)}},
				Links: []tank.Link{
					{From: 0, To: 1, FromPort: at(0.02), ToPort: at(0.02), Opening: tank.Opening{Bore: 0.0525, K: 2, Length: 0.8}},
					{From: 1, To: 2, FromPort: at(0.02), ToPort: at(0.02), Opening: tank.Opening{Bore: 0.0409, K: 2.5, Length: 1.5, Roughness: 4.5e-5}}},
				Fills: []tank.Fill{{Tank: 0, Flow: 3e-3, Parts: []units.Ratio{0.25}}},
			},
			start: []tank.Content{v(0.5*0.3, 0), v(0.4*0.1, 0.04), v(0.6*0.05, 0)},
		},
		"slope": {
			s: tank.System{
				Tanks: []tank.Tank{{Shape: upright(0.8, 0.76)}, {Shape: upright(0.5, 0.76), X: 2, Overflow: at(0.60)}},
				Links: []tank.Link{{From: 0, To: 1, FromPort: at(0.05), ToPort: at(0.05),
					Opening: tank.Opening{Bore: 0.0525, K: 2.2, Length: 1}}},
				NoseUp: 6 * units.Degree,
			},
			start: []tank.Content{v(0.4, 0), v(0.25, 0.25)},
		},
	}
	gal, high := float64(units.Gallon), float64(30*units.Inch)
	cases["hydrant"] = tc{
		s: tank.System{
			Tanks: []tank.Tank{{Shape: upright(240*gal/high, high)}, {Shape: upright(160*gal/high, high)}},
			Links: []tank.Link{{From: 0, To: 1, Opening: tank.Opening{Bore: 2.067 * units.Inch, K: 2, Length: 3 * units.Foot}}},
			Fills: []tank.Fill{{Tank: 0, Flow: 50 * units.GallonPerMinute}},
		},
		start: []tank.Content{v(10*gal, 0), v(10*gal, 0)},
	}
	full, _ := cases["lying"].s.Tanks[0].Shape.Volume(0.85)
	c := cases["lying"]
	c.start = []tank.Content{v(float64(full), 0)}
	cases["lying"] = c
	for k, c := range cases {
		c.s.Fluid, c.s.Kinds = referenceWater, kinds
		cases[k] = c
	}
	return cases
}

// The reference was integrated by another method of another library; both hold
// their error to about 1e-10, and 1e-6 of what a tank holds is asked for.
func TestRun_scipy(t *testing.T) {
	rows := readTable(t, "transients.csv")
	for name, c := range references() {
		t.Run(name, func(t *testing.T) {
			var o tank.RunOptions
			var want [][]string
			var events [][]string
			for _, r := range rows {
				switch {
				case r[0] != name:
				case r[1] == "state":
					o.Sample = append(o.Sample, units.Duration(num(t, r[2])))
					want = append(want, r)
				default:
					events = append(events, r)
				}
			}
			if len(want) == 0 {
				t.Fatal("no reference")
			}
			until := o.Sample[len(o.Sample)-1]
			for _, e := range events {
				until = max(until, units.Duration(num(t, e[2]))+1)
			}
			got, err := c.s.Run(c.start, until, o)
			if err != nil {
				t.Fatal(err)
			}
			for k, r := range want {
				for i := range c.s.Tanks {
					full, err := c.s.Tanks[i].Shape.Capacity()
					if err != nil {
						t.Fatal(err)
					}
					x := got.Samples[k].Contents[i]
					if d := math.Abs(float64(x.Volume)-num(t, r[3+i])) / float64(full); d > 1e-6 {
						t.Errorf("at %s s tank %d holds %v m³, reference %s: %.1e of its capacity", r[2], i, float64(x.Volume), r[3+i], d)
					}
					if d := math.Abs(float64(x.Parts[0])-num(t, r[6+i])) / float64(full); d > 1e-6 {
						t.Errorf("at %s s tank %d holds %v m³ of recovered water, reference %s: %.1e of its capacity", r[2], i, float64(x.Parts[0]), r[6+i], d)
					}
				}
			}
			if got.Closure > 1e-9 {
				t.Errorf("contents and integrated flows differ by %v of the water", float64(got.Closure))
			}
			var found []tank.Event
			for _, e := range got.Events {
				if e.Kind == tank.SpillBegins || e.Kind == tank.PortDries {
					found = append(found, e)
				}
			}
			if len(found) != len(events) {
				t.Fatalf("events %v, reference has %d", got.Events, len(events))
			}
			for k, r := range events {
				e := found[k]
				at := num(t, r[2])
				if e.Kind.String() != r[1] || strconv.Itoa(e.Tank) != r[3] || math.Abs(float64(e.Time)-at) > 1e-6*at {
					t.Errorf("event %v, reference %v", e, r[:4])
				}
			}
		})
	}
}
