package statics_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func randomBlock(g *property.G, name string) statics.Block {
	b := statics.BlockAround(name, metres(g.Float(0, 4)), metres(g.Float(-1, 1)), units.Length(g.Float(0.1, 1.5)), units.Length(g.Float(0.1, 1.5)), units.Position{}, 0)
	if g.Bool() {
		b.Bottom = metres(g.Float(0, 1))
		b.Top = b.Bottom.Add(units.Length(g.Float(0.1, 1)))
	}
	return b
}

func randomZone(g *property.G) statics.Zone {
	z := statics.Zone{Name: "zone", Kind: statics.Access, Clearance: 100}
	switch g.Pick(3) {
	case 0:
		b := randomBlock(g, "")
		z.Block = &b
		return z
	case 1:
		from := g.Float(-6, 6)
		z.Swing = &statics.Swing{X: metres(g.Float(0, 4)), Y: metres(g.Float(-1, 1)), Radius: units.Length(g.Float(0.1, 1.5)), From: units.Angle(from), To: units.Angle(from + g.Float(0.1, 2*math.Pi))}
	default:
		for range g.Int(1, 3) {
			z.Path = append(z.Path, statics.Spot{X: metres(g.Float(0, 4)), Y: metres(g.Float(-1, 1))})
		}
		z.Width = units.Length(g.Float(0, 0.4))
	}
	if g.Bool() {
		z.Bottom = metres(g.Float(0, 1))
		z.Top = z.Bottom.Add(units.Length(g.Float(0.1, 1)))
	}
	return z
}

// sample returns points that cover a zone's shape in plan: n along each direction.
func sample(z statics.Zone, n int) (pts [][2]float64) {
	switch {
	case z.Block != nil:
		x0, y0 := float64(z.Block.Fore.Length()), float64(z.Block.Right.Length())
		l, w := float64(z.Block.Aft.Length())-x0, float64(z.Block.Left.Length())-y0
		for i := range n + 1 {
			for j := range n + 1 {
				pts = append(pts, [2]float64{x0 + l*float64(i)/float64(n), y0 + w*float64(j)/float64(n)})
			}
		}
	case z.Swing != nil:
		for i := range n + 1 {
			sin, cos := math.Sincos(float64(z.Swing.From) + float64(z.Swing.To-z.Swing.From)*float64(i)/float64(n))
			for j := range n + 1 {
				r := float64(z.Swing.Radius) * float64(j) / float64(n)
				pts = append(pts, [2]float64{float64(z.Swing.X.Length()) + r*cos, float64(z.Swing.Y.Length()) + r*sin})
			}
		}
	default:
		for i := range z.Path {
			a, b := z.Path[i], z.Path[min(i+1, len(z.Path)-1)]
			for k := range n*n + 1 {
				t := float64(k) / float64(n*n)
				pts = append(pts, [2]float64{float64(a.X.Length())*(1-t) + float64(b.X.Length())*t, float64(a.Y.Length())*(1-t) + float64(b.Y.Length())*t})
			}
		}
	}
	return pts
}

// Distances against points sampled all over the zone: never more than the nearest
// of them, never less by more than their spacing.
func TestClashes_sampled(t *testing.T) {
	const n = 60
	property.Check(t, func(g *property.G) error {
		b, z := randomBlock(g, "block"), randomZone(g)
		got, err := statics.Clashes([]statics.Block{b}, []statics.Zone{z}, 0)
		if err != nil {
			return err
		}
		if len(got) != 1 {
			return fmt.Errorf("within 100 m, but %+v", got)
		}
		plan := math.Inf(1)
		for _, p := range sample(z, n) {
			dx := max(float64(b.Fore.Length())-p[0], 0, p[0]-float64(b.Aft.Length()))
			dy := max(float64(b.Right.Length())-p[1], 0, p[1]-float64(b.Left.Length()))
			plan = min(plan, math.Hypot(dx, dy))
		}
		plan = max(0, plan-float64(z.Width)/2)
		lo, hi := z.Bottom, z.Top
		if z.Block != nil {
			lo, hi = z.Block.Bottom, z.Block.Top
		}
		up := 0.0
		if lo.Given() && b.Bottom.Given() {
			up = max(0, float64(lo.Sub(b.Top)), float64(b.Bottom.Sub(hi)))
		}
		// Neighbouring samples are at most 1.5 m·2π/60 apart on an arc.
		const spacing = 1.5 * 2 * math.Pi / n
		d, want := max(0, float64(got[0].Distance)), math.Hypot(plan, up)
		if d > want+1e-9 || d < want-spacing {
			return fmt.Errorf("distance %g, by samples %g", d, want)
		}
		return nil
	})
}

// Two overlapping blocks are parted by moving one as far as said, and not by less,
// along one of the axes.
func TestClashes_overlap(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		a, b := randomBlock(g, "a"), randomBlock(g, "b")
		b.Bottom, b.Top = units.Position{}, units.Position{}
		got, err := statics.Clashes([]statics.Block{a, b}, nil, 0)
		if err != nil {
			return err
		}
		if len(got) == 0 {
			return property.ErrDiscard
		}
		d := -got[0].Distance
		parted := func(by units.Length) bool {
			for _, s := range [][2]units.Length{{by, 0}, {-by, 0}, {0, by}, {0, -by}} {
				c := b
				c.Fore, c.Aft = c.Fore.Add(s[0]), c.Aft.Add(s[0])
				c.Right, c.Left = c.Right.Add(s[1]), c.Left.Add(s[1])
				if got, err := statics.Clashes([]statics.Block{a, c}, nil, 0); err == nil && len(got) == 0 {
					return true
				}
			}
			return false
		}
		if !(d > 0) || !parted(d+1e-9) || parted(d-1e-9) {
			return fmt.Errorf("overlap %v: parted by a little more %v, by a little less %v", d, parted(d+1e-9), parted(d-1e-9))
		}
		return nil
	})
}

// Listing otherwise, and moving everything together, changes nothing but rounding.
func TestClashes_order(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		var blocks []statics.Block
		for i := range g.Int(1, 5) {
			blocks = append(blocks, randomBlock(g, fmt.Sprint("b", i)))
		}
		zones := []statics.Zone{randomZone(g)}
		zones[0].Clearance = units.Length(g.Float(0, 1))
		gap := units.Length(g.Float(0, 0.5))
		a, err := statics.Clashes(blocks, zones, gap)
		if err != nil {
			return err
		}
		slices.Reverse(blocks)
		b, err := statics.Clashes(blocks, zones, gap)
		if err != nil {
			return err
		}
		if d := cmp.Diff(a, b); d != "" {
			return fmt.Errorf("listed otherwise (-before +after):\n%s", d)
		}
		for _, c := range a {
			if !(c.Distance < c.Need || c.Distance <= 0) {
				return fmt.Errorf("no clash: %+v", c)
			}
		}
		return nil
	})
}

func TestClashes_whoIsMeant(t *testing.T) {
	around := func(name string, x float64) statics.Block {
		return statics.BlockAround(name, metres(x), metres(0), 1, 1, metres(0), 1)
	}
	stack := around("", 1)
	zone := statics.Zone{Name: "stack", Kind: statics.Exhaust, Owner: "engine", Clearance: 1, Block: &stack}
	blocks := []statics.Block{around("engine", 1), around("hose", 2.5), around("tank", 2.7)}
	names := func(z statics.Zone) (out []string) {
		got, err := statics.Clashes(blocks, []statics.Zone{z}, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range got {
			if c.Kind == statics.Exhaust {
				out = append(out, c.A)
			}
		}
		return out
	}
	if d := cmp.Diff([]string{"hose", "tank"}, names(zone)); d != "" {
		t.Errorf("all but the owner (-want +got):\n%s", d)
	}
	zone.Against = []string{"tank"}
	if d := cmp.Diff([]string{"tank"}, names(zone)); d != "" {
		t.Errorf("only whom it concerns (-want +got):\n%s", d)
	}
	zone.Against = nil
	stack.Bottom, stack.Top = metres(5), metres(6)
	if got := names(zone); got != nil {
		t.Errorf("4 m above everything: %v", got)
	}
}

// Blocks that touch do not clash, unless a gap is asked for.
func TestClashes_touching(t *testing.T) {
	a := statics.BlockAround("a", metres(0), metres(0), 1, 1, units.Position{}, 0)
	b := statics.BlockAround("b", metres(1), metres(0), 1, 1, units.Position{}, 0)
	if got, err := statics.Clashes([]statics.Block{a, b}, nil, 0); err != nil || len(got) != 0 {
		t.Errorf("%+v, %v", got, err)
	}
	got, err := statics.Clashes([]statics.Block{a, b}, nil, 0.01)
	if err != nil || len(got) != 1 || got[0].Distance != 0 {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestOverhangs(t *testing.T) {
	deck := statics.Block{Name: "deck", Fore: metres(1), Aft: metres(5), Right: metres(-1), Left: metres(1)}
	got, err := statics.Overhangs(deck, []statics.Block{
		statics.BlockAround("inside", metres(3), metres(0), 2, 2, units.Position{}, 0),
		statics.BlockAround("left", metres(3), metres(0.8), 1, 1, units.Position{}, 0),
		statics.BlockAround("behind", metres(5), metres(0), 1, 1, units.Position{}, 0),
	})
	if err != nil || len(got) != 2 || got[0].A != "behind" || got[1].A != "left" {
		t.Fatalf("%+v, %v", got, err)
	}
	if math.Abs(float64(got[0].Distance)+0.5) > 1e-12 || math.Abs(float64(got[1].Distance)+0.3) > 1e-12 {
		t.Errorf("%+v", got)
	}
}

func TestExtent(t *testing.T) {
	tr := statics.Trailer{AxleGroup: metres(4), Axles: 2, Spacing: 1, Track: 2, CouplerHeight: 0.5}
	z := statics.Zone{Name: "gate", Kind: statics.GateSwing, Swing: &statics.Swing{X: metres(6), Y: metres(0), Radius: 1, From: -90 * units.Degree, To: 90 * units.Degree}}
	path := statics.Zone{Name: "pull", Kind: statics.HosePath, Path: []statics.Spot{{X: metres(5), Y: metres(1)}}, Width: 0.5}
	got, err := statics.Extent(tr, []statics.Block{statics.BlockAround("tank", metres(3), metres(0), 2, 2, metres(0.6), 1)}, []statics.Zone{z, path})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		got  units.Position
		want float64
	}{{"fore", got.Fore, 0}, {"aft", got.Aft, 7}, {"right", got.Right, -1}, {"left", got.Left, 1.25}, {"bottom", got.Bottom, 0}, {"top", got.Top, 1.6}} {
		if math.Abs(float64(c.got.Length())-c.want) > 1e-12 {
			t.Errorf("%s %v, want %g m", c.name, c.got, c.want)
		}
	}
}

// A zone's outline stays inside its extent and closes around the area of its shape.
func TestZone_Outline(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		z := randomZone(g)
		pts, err := z.Outline()
		if err != nil {
			return err
		}
		if z.Path != nil {
			if len(pts) != len(z.Path) {
				return fmt.Errorf("%d points of a path of %d", len(pts), len(z.Path))
			}
			return nil
		}
		area := 0.0
		for i, p := range pts {
			q := pts[(i+1)%len(pts)]
			area += float64(p.X.Length()*q.Y.Length()-q.X.Length()*p.Y.Length()) / 2
		}
		want := 0.0
		if z.Block != nil {
			want = float64(z.Block.Aft.Sub(z.Block.Fore) * z.Block.Left.Sub(z.Block.Right))
		} else {
			want = float64(z.Swing.To-z.Swing.From) / 2 * float64(z.Swing.Radius*z.Swing.Radius)
		}
		// A chord of 5° leaves 0.13 % of its sector.
		if area > want*(1+1e-9) || area < want*0.9985 {
			return fmt.Errorf("area %g, shape %g", area, want)
		}
		return nil
	})
}

func TestLayout_errors(t *testing.T) {
	ok := statics.BlockAround("a", metres(0), metres(0), 1, 1, units.Position{}, 0)
	shape := ok
	for _, c := range []struct {
		name     string
		blocks   []statics.Block
		zones    []statics.Zone
		gap      units.Length
		sentinel error
		want     []string
	}{
		{"no places", []statics.Block{{Name: "a"}}, nil, 0, units.ErrMissing, []string{"blocks[a].fore", "blocks[a].aft", "blocks[a].right", "blocks[a].left"}},
		{"a bottom without a top", []statics.Block{{Name: "a", Fore: metres(0), Aft: metres(1), Right: metres(0), Left: metres(1), Bottom: metres(1)}}, nil, 0, units.ErrMissing, []string{"blocks[a].top"}},
		{"turned round", []statics.Block{{Name: "a", Fore: metres(1), Aft: metres(0), Right: metres(0), Left: metres(1)}}, nil, 0, units.ErrConflict, []string{"blocks[a].fore"}},
		{"twice", []statics.Block{ok, ok}, nil, 0, units.ErrConflict, []string{"blocks[a].name"}},
		{"gap", []statics.Block{ok}, nil, units.Length(math.NaN()), units.ErrRange, []string{"gap"}},
		{"an empty zone", []statics.Block{ok}, []statics.Zone{{Name: "z"}}, 0, units.ErrMissing, []string{"zones[z].kind", "zones[z]"}},
		{"two shapes", []statics.Block{ok}, []statics.Zone{{Name: "z", Kind: statics.Heat, Block: &shape, Path: []statics.Spot{{X: metres(0), Y: metres(0)}}}}, 0, units.ErrConflict, []string{"zones[z]"}},
		{"heights twice", []statics.Block{ok}, []statics.Zone{{Name: "z", Kind: statics.Heat, Block: &shape, Top: metres(1)}}, 0, units.ErrConflict, []string{"zones[z].bottom"}},
		{"strangers", []statics.Block{ok}, []statics.Zone{{Name: "z", Kind: statics.Heat, Block: &shape, Owner: "b", Against: []string{"c"}}}, 0, units.ErrRange, []string{"zones[z]", "zones[z]"}},
		{"a swing of nothing", []statics.Block{ok}, []statics.Zone{{Name: "z", Kind: statics.GateSwing, Clearance: -1, Swing: &statics.Swing{X: metres(0), Y: metres(0)}}}, 0, units.ErrRange, []string{"zones[z].clearance", "zones[z].swing.radius", "zones[z].swing.to"}},
		{"a path of nowhere", []statics.Block{ok}, []statics.Zone{{Name: "z", Kind: statics.HosePath, Path: []statics.Spot{{}}}}, 0, units.ErrMissing, []string{"zones[z].path[#1].x", "zones[z].path[#1].y"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := statics.Clashes(c.blocks, c.zones, c.gap)
			if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
				t.Errorf("fields (-want +got):\n%s", d)
			}
		})
	}
}

// FuzzClashes: whatever is given, an error or finite distances.
func FuzzClashes(f *testing.F) {
	f.Add(0.0, 1.0, 0.0, 1.0, 2.0, 0.0, 1.0, 0.0, 1.5)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1e-9, 3.0, 9.0)
	f.Fuzz(func(t *testing.T, x0, x1, y0, y1, hx, hy, r, from, to float64) {
		b := statics.Block{Name: "b", Fore: metres(x0), Aft: metres(x1), Right: metres(y0), Left: metres(y1)}
		zones := []statics.Zone{
			{Name: "swing", Kind: statics.GateSwing, Clearance: 100, Swing: &statics.Swing{X: metres(hx), Y: metres(hy), Radius: units.Length(r), From: units.Angle(from), To: units.Angle(to)}},
			{Name: "path", Kind: statics.HosePath, Clearance: 100, Width: units.Length(r), Path: []statics.Spot{{X: metres(hx), Y: metres(hy)}, {X: metres(from), Y: metres(to)}}},
		}
		got, err := statics.Clashes([]statics.Block{b}, zones, 0)
		if err != nil {
			return
		}
		for _, c := range got {
			if math.IsNaN(float64(c.Distance)) || math.IsInf(float64(c.Distance), 0) {
				t.Errorf("%+v", c)
			}
		}
	})
}
