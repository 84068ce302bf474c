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

// comparePositions lets go-cmp compare points bit by bit.
var comparePositions = cmp.Comparer(func(a, b units.Position) bool { return a == b })

// Loads sum to the weight, and the moments of the reactions cancel those of the
// masses about any point: 1e-9 of the sum of absolute terms.
func TestBalance_closes(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, masses, _ := randomTrailer(g, 0)
		l, err := statics.Balance(tr, masses)
		if err != nil {
			return err
		}
		about := g.Float(-5, 5)
		var w, mx, my, absW, absX, absY float64
		for _, m := range masses {
			k := float64(m.Mass)
			w += k
			mx += k * (float64(m.X.Length()) - about)
			my += k * float64(m.Y.Length())
			absW += math.Abs(k)
			absX += math.Abs(k * (float64(m.X.Length()) - about))
			absY += math.Abs(k * float64(m.Y.Length()))
		}
		xc, xa := float64(tr.Coupler.Length()), float64(tr.AxleGroup.Length())
		tongue, group := float64(l.Tongue), float64(l.Group)
		reaction := tongue*(xc-about) + group*(xa-about)
		absX += math.Abs(tongue*(xc-about)) + math.Abs(group*(xa-about))
		if d := w - tongue - group; math.Abs(d) > 1e-9*absW {
			return fmt.Errorf("tongue + group miss the weight by %g kg", d)
		}
		if d := mx - reaction; math.Abs(d) > 1e-9*absX {
			return fmt.Errorf("moments about x = %g m miss by %g kg·m", about, d)
		}
		roll := (float64(l.Left) - float64(l.Right)) * float64(tr.Track) / 2
		if d := my - roll; !l.SidesKnown || math.Abs(d) > 1e-9*(absY+math.Abs(roll)) {
			return fmt.Errorf("lateral moments miss by %g kg·m (known: %v)", d, l.SidesKnown)
		}
		if d := float64(l.Left + l.Right - l.Group); math.Abs(d) > 1e-9*absW {
			return fmt.Errorf("sides miss the group by %g kg", d)
		}
		if d := float64(l.Axle)*float64(tr.Axles) - group; math.Abs(d) > 1e-9*absW {
			return fmt.Errorf("axles miss the group by %g kg", d)
		}
		return nil
	})
}

func TestBalance_listingOrder(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, masses, _ := randomTrailer(g, 0)
		a, err := statics.Balance(tr, masses)
		if err != nil {
			return err
		}
		shuffled := make([]statics.Mass, len(masses))
		for i, j := range g.Perm(len(masses)) {
			shuffled[i] = masses[j]
		}
		before := slices.Clone(shuffled)
		b, err := statics.Balance(tr, shuffled)
		if err != nil {
			return err
		}
		if a != b {
			return fmt.Errorf("listed otherwise:\n%+v\n%+v", a, b)
		}
		if d := cmp.Diff(before, shuffled, comparePositions); d != "" {
			return fmt.Errorf("Balance changed its argument: %s", d)
		}
		return nil
	})
}

// Moving coupler, axle and everything on the trailer together changes nothing;
// scaling every length changes no load. Moving the masses past a coupler that
// stays does change the tongue.
func TestBalance_originAndScale(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, masses, _ := randomTrailer(g, 0)
		a, err := statics.Balance(tr, masses)
		if err != nil {
			return err
		}
		shift, k := g.Float(-3, 3), g.LogFloat(0.2, 5)
		moved := func(p units.Position) units.Position { return metres(float64(p.Length()) + shift) }
		scaled := func(p units.Position) units.Position { return metres(float64(p.Length()) * k) }
		for _, move := range []struct {
			name   string
			change func(units.Position) units.Position
			track  float64
		}{{"moved", moved, 1}, {"scaled", scaled, k}} {
			tr2, m2 := tr, slices.Clone(masses)
			tr2.Coupler, tr2.AxleGroup = move.change(tr.Coupler), move.change(tr.AxleGroup)
			tr2.Track = 0
			for i := range m2 {
				m2[i].X = move.change(m2[i].X)
			}
			b, err := statics.Balance(tr2, m2)
			if err != nil {
				return err
			}
			// Terms of 2000 kg at up to 5 axle distances, rounded a few dozen times.
			if math.Abs(float64(a.Share-b.Share)) > 1e-11 || math.Abs(float64(a.Tongue-b.Tongue)) > 1e-9*float64(a.Total) {
				return fmt.Errorf("%s by %g, %g: tongue %v became %v", move.name, shift, k, a.Tongue, b.Tongue)
			}
		}
		m2 := slices.Clone(masses)
		for i := range m2 {
			m2[i].X = metres(float64(m2[i].X.Length()) + 0.5)
		}
		b, err := statics.Balance(tr, m2)
		if err != nil {
			return err
		}
		if !(b.Tongue < a.Tongue) {
			return fmt.Errorf("everything 0.5 m further aft: tongue %v became %v", a.Tongue, b.Tongue)
		}
		return nil
	})
}

// Loads of two sets of masses together are the sums of their loads.
func TestBalance_superposition(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, a, _ := randomTrailer(g, 0)
		_, b, _ := randomTrailer(g, 0)
		la, err := statics.Balance(tr, a)
		if err != nil {
			return err
		}
		lb, err := statics.Balance(tr, b)
		if err != nil {
			return err
		}
		l, err := statics.Balance(tr, append(slices.Clone(a), b...))
		if err != nil {
			return err
		}
		if d := float64(l.Tongue - la.Tongue - lb.Tongue); math.Abs(d) > 1e-9*float64(l.Total) {
			return fmt.Errorf("tongue off by %g kg", d)
		}
		return nil
	})
}

func TestBalance_edges(t *testing.T) {
	one := statics.Trailer{AxleGroup: feet(10), Axles: 1}
	three := statics.Trailer{AxleGroup: feet(10), Axles: 3}

	t.Run("behind the axle lifts the vehicle", func(t *testing.T) {
		l, err := statics.Balance(one, []statics.Mass{lb("rack", 300, 14)})
		if err != nil {
			t.Fatal(err)
		}
		// 300 lb at 14 ft on a 10 ft base: 420 lb on the axle, −120 lb on the ball.
		if got := l.Tongue.In(units.Pound); math.Abs(got+120) > 1e-9 {
			t.Errorf("tongue %g lb, want -120", got)
		}
		if !(l.Share < 0) {
			t.Errorf("share %v, want negative", l.Share)
		}
	})
	t.Run("three axles share alike", func(t *testing.T) {
		l, err := statics.Balance(three, []statics.Mass{lb("load", 3000, 9)})
		if err != nil {
			t.Fatal(err)
		}
		if got := l.Axle.In(units.Pound); math.Abs(got-900) > 1e-9 {
			t.Errorf("axle %g lb, want 900", got)
		}
	})
	t.Run("an empty tank weighs nothing and needs no height", func(t *testing.T) {
		l, err := statics.Balance(one, []statics.Mass{
			{Name: "frame", Mass: 1000, X: feet(9), Z: feet(2)}, {Name: "tank", X: feet(8)},
		})
		if err != nil {
			t.Fatal(err)
		}
		if l.Total != 1000 || !l.CenterZ.Given() {
			t.Errorf("total %v, height given %v", l.Total, l.CenterZ.Given())
		}
	})
	t.Run("a missing height leaves only the height open", func(t *testing.T) {
		l, err := statics.Balance(one, []statics.Mass{{Name: "frame", Mass: 1000, X: feet(9), Y: feet(0)}})
		if err != nil {
			t.Fatal(err)
		}
		if l.CenterZ.Given() || !l.CenterY.Given() || l.SidesKnown {
			t.Errorf("z given %v, y given %v, sides known %v", l.CenterZ.Given(), l.CenterY.Given(), l.SidesKnown)
		}
	})
}

func TestBalance_errors(t *testing.T) {
	ok := statics.Trailer{AxleGroup: feet(10), Axles: 2}
	frame := lb("frame", 1000, 9)
	nan := units.Mass(math.NaN())
	for _, c := range []struct {
		name     string
		trailer  statics.Trailer
		masses   []statics.Mass
		sentinel error
		want     []string
	}{
		{"nothing given", statics.Trailer{}, nil, units.ErrMissing, []string{"trailer.axle_group", "trailer.axles", "masses"}},
		{"no masses", ok, nil, units.ErrMissing, []string{"masses"}},
		{"only empty ones", ok, []statics.Mass{lb("tank", 0, 8)}, units.ErrRange, []string{"masses"}},
		{"no position", ok, []statics.Mass{{Name: "frame", Mass: 1}, {Name: "Ünnamed", Mass: 1}}, units.ErrMissing, []string{"masses[frame].x", "masses[#2].x"}},
		{"negative", ok, []statics.Mass{lb("frame", -1, 3)}, units.ErrRange, []string{"masses[frame].mass"}},
		{"not a number", ok, []statics.Mass{{Name: "a", Mass: nan, X: feet(1)}, {Name: "b", Mass: 1, X: metres(math.NaN())}}, units.ErrRange, []string{"masses[a].mass", "masses[b].x"}},
		{"axle at the coupler", statics.Trailer{AxleGroup: feet(3), Coupler: feet(3), Axles: 1}, []statics.Mass{frame}, units.ErrRange, []string{"trailer.axle_group"}},
		{"infinite", statics.Trailer{AxleGroup: metres(math.Inf(1)), Axles: 7}, []statics.Mass{frame}, units.ErrRange, []string{"trailer.axle_group", "trailer.axles"}},
		{"negative track", statics.Trailer{AxleGroup: feet(10), Axles: 1, Track: -1}, []statics.Mass{frame}, units.ErrRange, []string{"trailer.track"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, err := statics.Balance(c.trailer, c.masses)
			if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
				t.Errorf("fields (-want +got):\n%s", d)
			}
			if l != (statics.Loads{}) {
				t.Errorf("a result beside an error: %+v", l)
			}
		})
	}
}

func TestSides_errors(t *testing.T) {
	tr := statics.Trailer{AxleGroup: feet(10), Axles: 2}
	_, _, err := statics.Sides(tr, []statics.Mass{lb("frame", 1000, 9), lb("tank", 0, 8)})
	want := []string{"trailer.track", "masses[frame].y"}
	if d := cmp.Diff(want, fields(t, err, units.ErrMissing)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
}

func TestTrailer_AxlePositions(t *testing.T) {
	tr := statics.Trailer{AxleGroup: metres(4), Axles: 3, Spacing: 0.9}
	got, err := tr.AxlePositions()
	if err != nil {
		t.Fatal(err)
	}
	if want := []units.Position{metres(3.1), metres(4), metres(4.9)}; !cmp.Equal(got, want, comparePositions) {
		t.Errorf("got %v, want %v", got, want)
	}
	tr.Spacing = 0
	if _, err := tr.AxlePositions(); len(fields(t, err, units.ErrMissing)) != 1 {
		t.Errorf("no spacing: %v", err)
	}
	tr.Axles = 1
	if got, err := tr.AxlePositions(); err != nil || len(got) != 1 || got[0] != metres(4) {
		t.Errorf("one axle: %v, %v", got, err)
	}
}

func BenchmarkBalance(b *testing.B) {
	r := demo("B")
	masses := r.at(240, 0, 14, 30)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := statics.Balance(r.trailer, masses); err != nil {
			b.Fatal(err)
		}
	}
}
