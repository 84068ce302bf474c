package statics_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// The extremes against every corner by enumeration, each corner's loads summed
// anew by Balance, and against a grid through the interior: no interior point
// lies outside, and each extreme is met at the corner it names.
func TestCorners_bruteForce(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 4)
		x, err := statics.Corners(tr, fixed, vary)
		if err != nil {
			return err
		}
		type reading struct {
			name        string
			least, most float64
			atL, atM    statics.Corner
			of          func(statics.Loads) float64
		}
		readings := []reading{
			{"total", float64(x.Total.Least.Value), float64(x.Total.Most.Value), x.Total.Least.At, x.Total.Most.At, func(l statics.Loads) float64 { return float64(l.Total) }},
			{"tongue", float64(x.Tongue.Least.Value), float64(x.Tongue.Most.Value), x.Tongue.Least.At, x.Tongue.Most.At, func(l statics.Loads) float64 { return float64(l.Tongue) }},
			{"share", float64(x.Share.Least.Value), float64(x.Share.Most.Value), x.Share.Least.At, x.Share.Most.At, func(l statics.Loads) float64 { return float64(l.Share) }},
			{"group", float64(x.Group.Least.Value), float64(x.Group.Most.Value), x.Group.Least.At, x.Group.Most.At, func(l statics.Loads) float64 { return float64(l.Group) }},
			{"axle", float64(x.Axle.Least.Value), float64(x.Axle.Most.Value), x.Axle.Least.At, x.Axle.Most.At, func(l statics.Loads) float64 { return float64(l.Axle) }},
		}
		if !x.SidesKnown {
			return fmt.Errorf("sides not known though every mass has y")
		}
		readings = append(readings,
			reading{"left", float64(x.Left.Least.Value), float64(x.Left.Most.Value), x.Left.Least.At, x.Left.Most.At, func(l statics.Loads) float64 { return float64(l.Left) }},
			reading{"right", float64(x.Right.Least.Value), float64(x.Right.Most.Value), x.Right.Least.At, x.Right.Most.At, func(l statics.Loads) float64 { return float64(l.Right) }})
		if x.LeanKnown {
			readings = append(readings, reading{"lean", float64(x.Lean.Least.Value), float64(x.Lean.Most.Value), x.Lean.Least.At, x.Lean.Most.At,
				func(l statics.Loads) float64 { return float64((l.Left - l.Right) / l.Group) }})
		} else if !(x.Group.Least.Value <= 0) {
			return fmt.Errorf("lean not known though every mass has y")
		}
		tyre, light := math.Inf(-1), math.Inf(1)
		least := make([]float64, len(readings))
		most := make([]float64, len(readings))
		for i := range readings {
			least[i], most[i] = math.Inf(1), math.Inf(-1)
		}
		const steps = 4
		points := 1
		for range vary {
			points *= steps + 1
		}
		for p := range points {
			all := append([]statics.Mass(nil), fixed...)
			for q, i := p, 0; i < len(vary); q, i = q/(steps+1), i+1 {
				v := vary[i]
				m := v.Least + (v.Most-v.Least)*units.Mass(q%(steps+1))/steps
				all = append(all, statics.Mass{Name: v.Name, Mass: m, X: v.X, Y: v.Y, Z: v.Z})
			}
			l, err := statics.Balance(tr, all)
			if err != nil {
				return err
			}
			tyre = max(tyre, float64(l.Tyre))
			light = min(light, float64(min(l.Left, l.Right))/float64(tr.Axles*max(tr.Tyres, 1)))
			for i, r := range readings {
				least[i], most[i] = min(least[i], r.of(l)), max(most[i], r.of(l))
			}
		}
		if math.Abs(tyre-float64(x.Tyre.Most.Value)) > 1e-6 || math.Abs(light-float64(x.Tyre.Least.Value)) > 1e-6 {
			return fmt.Errorf("tyre %v to %v, the grid %g to %g", x.Tyre.Least.Value, x.Tyre.Most.Value, light, tyre)
		}
		for i, r := range readings {
			// A dozen terms of at most 2000 kg and 10 axle distances.
			tol := 1e-9 * (1 + math.Abs(least[i]) + math.Abs(most[i]))
			if math.Abs(r.least-least[i]) > tol || math.Abs(r.most-most[i]) > tol {
				return fmt.Errorf("%s: %g to %g, the grid with its corners %g to %g", r.name, r.least, r.most, least[i], most[i])
			}
			for _, end := range []struct {
				at    statics.Corner
				value float64
			}{{r.atL, r.least}, {r.atM, r.most}} {
				l, err := statics.Balance(tr, atCorner(fixed, vary, end.at))
				if err != nil {
					return err
				}
				if d := r.of(l) - end.value; math.Abs(d) > tol {
					return fmt.Errorf("%s: %g said to be at %s, which gives %g", r.name, end.value, end.at.Text(vary), r.of(l))
				}
			}
		}
		return nil
	})
}

func TestCorners_listingOrder(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 8)
		a, err := statics.Corners(tr, fixed, vary)
		if err != nil {
			return err
		}
		perm := g.Perm(len(vary))
		shuffled := make([]statics.Varying, len(vary))
		for i, j := range perm {
			shuffled[i] = vary[j]
		}
		backwards := make([]statics.Mass, len(fixed))
		for i := range fixed {
			backwards[i] = fixed[len(fixed)-1-i]
		}
		b, err := statics.Corners(tr, backwards, shuffled)
		if err != nil {
			return err
		}
		back := func(c statics.Corner) (d statics.Corner) {
			for i, j := range perm {
				if c.Most(i) {
					d |= 1 << j
				}
			}
			return d
		}
		for _, x := range []*statics.Bound[units.Mass]{
			&b.Total.Least, &b.Total.Most, &b.Tongue.Least, &b.Tongue.Most, &b.Group.Least, &b.Group.Most, &b.Axle.Least, &b.Axle.Most,
			&b.Left.Least, &b.Left.Most, &b.Right.Least, &b.Right.Most, &b.Tyre.Least, &b.Tyre.Most,
		} {
			x.At = back(x.At)
		}
		for _, x := range []*statics.Bound[units.Ratio]{&b.Share.Least, &b.Share.Most, &b.Lean.Least, &b.Lean.Most} {
			x.At = back(x.At)
		}
		if a != b {
			return fmt.Errorf("listed otherwise:\n%+v\n%+v", a, b)
		}
		return nil
	})
}

// Envelope.AtCorner and At agree with each other to the bit and with Balance
// closely; an envelope with nothing varying is one state.
func TestEnvelope_states(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 6)
		e, err := statics.NewEnvelope(tr, fixed, vary)
		if err != nil {
			return err
		}
		c := statics.Corner(g.Int(0, 1<<len(vary)-1))
		masses := make([]units.Mass, len(vary))
		for i, v := range vary {
			masses[i] = v.Least
			if c.Most(i) {
				masses[i] = v.Most
			}
		}
		a, err := e.AtCorner(c)
		if err != nil {
			return err
		}
		b, err := e.At(masses)
		if err != nil {
			return err
		}
		if a != b {
			return fmt.Errorf("corner %+v, masses %+v", a, b)
		}
		l, err := statics.Balance(tr, atCorner(fixed, vary, c))
		if err != nil {
			return err
		}
		if d := float64(l.Tongue - a.Tongue); math.Abs(d) > 1e-9*float64(l.Total) {
			return fmt.Errorf("tongue %v, by Balance %v", a.Tongue, l.Tongue)
		}
		if len(vary) == 0 {
			x := e.Extremes()
			if x.Share.Least.Value != a.Share || x.Share.Most.Value != a.Share || x.Total.Most.Value != a.Total {
				return fmt.Errorf("nothing varies, but %+v", x)
			}
		}
		return nil
	})
}

// Sixty-four tanks: the extremes stay exact although no one could enumerate
// their corners. Every pair of ends that can be swapped at the corner is tried.
func TestCorners_manyTanks(t *testing.T) {
	tr := statics.Trailer{AxleGroup: metres(4), Axles: 2}
	vary := make([]statics.Varying, 64)
	for i := range vary {
		vary[i] = statics.Varying{Name: fmt.Sprintf("tank-%02d", i*37%64), Least: units.Mass(i % 5), Most: units.Mass(10 + i%7), X: metres(float64(i) * 0.11)}
	}
	x, err := statics.Corners(tr, []statics.Mass{{Name: "frame", Mass: 900, X: metres(3.5)}}, vary)
	if err != nil {
		t.Fatal(err)
	}
	share := func(c statics.Corner) units.Ratio {
		l, err := statics.Balance(tr, atCorner([]statics.Mass{{Name: "frame", Mass: 900, X: metres(3.5)}}, vary, c))
		if err != nil {
			t.Fatal(err)
		}
		return l.Share
	}
	for i := range vary {
		if s := share(x.Share.Most.At ^ 1<<i); s > x.Share.Most.Value+1e-12 {
			t.Errorf("moving %s raises the greatest share from %v to %v", vary[i].Name, x.Share.Most.Value, s)
		}
		if s := share(x.Share.Least.At ^ 1<<i); s < x.Share.Least.Value-1e-12 {
			t.Errorf("moving %s lowers the least share from %v to %v", vary[i].Name, x.Share.Least.Value, s)
		}
	}
	if _, err := statics.Corners(tr, []statics.Mass{{Name: "frame", Mass: 900, X: metres(3.5)}}, append(vary, vary[0])); len(fields(t, err, units.ErrRange)) != 1 {
		t.Errorf("65 tanks: %v", err)
	}
}

func TestCorners_errors(t *testing.T) {
	tr := statics.Trailer{AxleGroup: feet(10), Axles: 2}
	for _, c := range []struct {
		name     string
		fixed    []statics.Mass
		vary     []statics.Varying
		sentinel error
		want     []string
	}{
		{"least above most", []statics.Mass{lb("frame", 1, 1)}, []statics.Varying{{Name: "fresh", Least: 2, Most: 1, X: feet(1)}}, units.ErrConflict, []string{"varying[fresh].least"}},
		{"no position", []statics.Mass{lb("frame", 1, 1)}, []statics.Varying{{Name: "fresh", Most: 1}}, units.ErrMissing, []string{"varying[fresh].x"}},
		{"may weigh nothing", nil, []statics.Varying{{Name: "fresh", Most: 1, X: feet(1)}}, units.ErrRange, []string{"fixed"}},
		{"not a number", []statics.Mass{lb("frame", 1, 1)}, []statics.Varying{{Name: "fresh", Most: units.Mass(math.NaN()), X: feet(1)}}, units.ErrRange, []string{"varying[fresh].most"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := statics.Corners(tr, c.fixed, c.vary)
			if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
				t.Errorf("fields (-want +got):\n%s", d)
			}
		})
	}
	e, err := statics.NewEnvelope(tr, []statics.Mass{lb("frame", 1, 1)}, []statics.Varying{{Name: "fresh", Most: 1, X: feet(1)}})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := e.At(nil); len(fields(t, err, units.ErrConflict)) != 1 {
		t.Errorf("no masses: %v", err)
	}
	if _, err := e.At([]units.Mass{-1}); len(fields(t, err, units.ErrRange)) != 1 {
		t.Errorf("negative mass: %v", err)
	}
	if _, err := e.AtCorner(2); len(fields(t, err, units.ErrRange)) != 1 {
		t.Errorf("corner of a tank that is not there: %v", err)
	}
}

// An axle group lifted by what stands ahead of the coupler has no lean.
func TestCorners_leanNotKnown(t *testing.T) {
	tr := statics.Trailer{AxleGroup: feet(10), Axles: 1, Track: 2}
	x, err := statics.Corners(tr, []statics.Mass{{Name: "box", Mass: 10, X: feet(-1), Y: feet(0)}}, nil)
	if err != nil || x.LeanKnown || !(x.Group.Least.Value < 0) {
		t.Errorf("lean known %v, group %v, %v", x.LeanKnown, x.Group.Least.Value, err)
	}
}

func TestEnvelope_allocatesNothing(t *testing.T) {
	r := demo("B")
	e, err := statics.NewEnvelope(r.trailer, r.fixed, r.liquids)
	if err != nil {
		t.Fatal(err)
	}
	masses := []units.Mass{900, 0, 30, 90}
	if n := testing.AllocsPerRun(10, func() {
		e.Extremes()
		if _, err := e.At(masses); err != nil {
			t.Error(err)
		}
		if _, err := e.AtCorner(5); err != nil {
			t.Error(err)
		}
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// FuzzCorners: whatever is given, an error or finite numbers in order.
func FuzzCorners(f *testing.F) {
	f.Add(4.0, 1000.0, 3.5, 0.0, 900.0, 3.0, 0.0, 500.0, 5.0)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(4.0, 1e-300, 3.5, 0.0, 1e5, 99.0, 0.0, 1e-320, -99.0)
	f.Fuzz(func(t *testing.T, group, m, x, lo1, hi1, x1, lo2, hi2, x2 float64) {
		ex, err := statics.Corners(statics.Trailer{AxleGroup: metres(group), Axles: 2},
			[]statics.Mass{{Name: "frame", Mass: units.Mass(m), X: metres(x)}},
			[]statics.Varying{
				{Name: "a", Least: units.Mass(lo1), Most: units.Mass(hi1), X: metres(x1)},
				{Name: "b", Least: units.Mass(lo2), Most: units.Mass(hi2), X: metres(x2)},
			})
		if err != nil {
			return
		}
		for _, b := range []statics.Band[units.Mass]{ex.Total, ex.Tongue, ex.Group, ex.Axle} {
			if !(b.Least.Value <= b.Most.Value) || math.IsInf(float64(b.Most.Value-b.Least.Value), 0) {
				t.Errorf("%+v", b)
			}
		}
		if b := ex.Share; !(b.Least.Value <= b.Most.Value) || math.IsInf(float64(b.Most.Value-b.Least.Value), 0) {
			t.Errorf("share %+v", b)
		}
	})
}

func BenchmarkEnvelope_Extremes(b *testing.B) {
	r := demo("B")
	e, err := statics.NewEnvelope(r.trailer, r.fixed, r.liquids)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		e.Extremes()
	}
}

func BenchmarkEnvelope_At(b *testing.B) {
	r := demo("B")
	e, err := statics.NewEnvelope(r.trailer, r.fixed, r.liquids)
	if err != nil {
		b.Fatal(err)
	}
	masses := []units.Mass{900, 0, 30, 90}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := e.At(masses); err != nil {
			b.Fatal(err)
		}
	}
}
