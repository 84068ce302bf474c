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

// randomRolling draws a trailer with fixed masses, at most one varying mass and up
// to two tanks with forms.
func randomRolling(g *property.G) (statics.Trailer, []statics.Mass, []statics.Varying, []statics.Filling) {
	tr, fixed, vary := randomTrailer(g, 1)
	if g.Bool() {
		tr.CouplerHeight = units.Length(g.Float(0.3, 0.7))
	}
	for i := range fixed {
		fixed[i].X = metres(float64(tr.Coupler.Length()) + g.Float(2, 6))
		fixed[i].Y = metres(g.Float(-0.2, 0.2))
		fixed[i].Mass += 300
	}
	for i := range vary {
		vary[i].X = metres(float64(tr.Coupler.Length()) + g.Float(2, 6))
		vary[i].Y = metres(g.Float(-0.3, 0.3))
	}
	tanks := make([]statics.Filling, g.Int(0, 2))
	for i := range tanks {
		a, b := g.Float(0, 1), g.Float(0, 1)
		v := randomVessel(g)
		tanks[i] = statics.Filling{
			Tank: statics.Tank{
				Name: fmt.Sprint("t", i), Density: 1000, Vessel: v, Baffles: units.Ratio(g.Float(0, 1) * float64(g.Int(0, 1))),
				X: metres(float64(tr.Coupler.Length()) + g.Float(2, 5)), Y: metres(g.Float(-0.3, 0.3)), Floor: metres(g.Float(0.4, 1)),
			},
			Least: units.Ratio(min(a, b)), Most: units.Ratio(max(a, b)),
		}
	}
	return tr, fixed, vary, tanks
}

// mostThatStands returns, by bisection, the greatest acceleration at which the
// moment of all forces about the tilting axis still presses the trailer down: a
// triple product of axis, arm and force, written out with vectors.
func mostThatStands(tr statics.Trailer, masses []statics.Mass, tanks []statics.Tank, levels []units.Ratio, side float64) float64 {
	type vec [3]float64
	cross := func(a, b vec) vec {
		return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
	}
	ball := vec{float64(tr.Coupler.Length()), 0, float64(tr.CouplerHeight)}
	wheel := vec{float64(tr.AxleGroup.Length()), side * float64(tr.Track) / 2, 0}
	axis := vec{wheel[0] - ball[0], wheel[1] - ball[1], wheel[2] - ball[2]}
	if tr.CouplerHeight == 0 {
		axis = vec{1, 0, 0}
	}
	stands := func(a float64) bool {
		sum := 0.0
		add := func(m, x, y, z float64) {
			n := cross(vec{x - wheel[0], y - wheel[1], z - wheel[2]}, vec{0, side * a * m, -m})
			sum += side * (axis[0]*n[0] + axis[1]*n[1] + axis[2]*n[2])
		}
		for _, m := range masses {
			add(float64(m.Mass), float64(m.X.Length()), float64(m.Y.Length()), float64(m.Z.Length()))
		}
		for i, k := range tanks {
			capacity, _ := k.Vessel.Capacity()
			v := units.Volume(levels[i]) * capacity
			_, rest, err := k.Vessel.Depth(v)
			s, z, err2 := k.Vessel.Tilted(v, units.Angle(math.Atan(a)), statics.Sideways)
			if err != nil || err2 != nil {
				panic(fmt.Sprint(err, err2))
			}
			free := 1 - float64(k.Baffles)
			add(float64(v)*float64(k.Density), float64(k.X.Length()), float64(k.Y.Length())+side*free*float64(s),
				float64(k.Floor.Length())+float64(rest)+free*float64(z-rest))
		}
		return sum > 0
	}
	lo, hi := 0.0, 10.0
	if stands(hi) {
		return hi
	}
	for range 40 { // 10 g halved to 1e-11 g
		if mid := (lo + hi) / 2; stands(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// The threshold against a grid of fills, each solved by bisection with vectors:
// never above the grid's least, hardly below it, and met at the fill it names.
func TestRollover_bruteForce(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary, tanks := randomRolling(g)
		st, err := statics.Rollover(tr, fixed, vary, tanks)
		if err != nil {
			return err
		}
		list := make([]statics.Tank, len(tanks))
		for i := range tanks {
			list[i] = tanks[i].Tank
		}
		a := st.Threshold.In(units.StandardGravity)
		sign := 1.0
		if st.Side == statics.Right {
			sign = -1
		}
		if got := mostThatStands(tr, atCorner(fixed, vary, st.At), list, st.Levels, sign); math.Abs(got-a) > 1e-9 {
			return fmt.Errorf("said to tip at %.9g g over the %v at levels %v, but stands to %.9g g there", a, st.Side, st.Levels, got)
		}
		const steps = 4
		least := math.Inf(1)
		points := 1
		for range tanks {
			points *= steps + 1
		}
		levels := make([]units.Ratio, len(tanks))
		for p := range points {
			for q, i := p, 0; i < len(tanks); q, i = q/(steps+1), i+1 {
				levels[i] = tanks[i].Least + (tanks[i].Most-tanks[i].Least)*units.Ratio(q%(steps+1))/steps
			}
			for c := range statics.Corner(1) << len(vary) {
				for _, side := range []float64{1, -1} {
					least = min(least, mostThatStands(tr, atCorner(fixed, vary, c), list, levels, side))
				}
			}
		}
		if a > least+1e-9 {
			return fmt.Errorf("threshold %.9g g, but a fill of the grid tips at %.9g g", a, least)
		}
		return nil
	})
}

// Without tanks the threshold is T/(2h), whatever the masses; with the ball in the
// axis it is T(1 − s)/(2(h − s·h_c)).
func TestRollover_rigid(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, _ := randomTrailer(g, 0)
		for i := range fixed {
			fixed[i].Y = metres(0)
		}
		l, err := statics.Balance(tr, fixed)
		if err != nil {
			return err
		}
		h := l.CenterZ.Length()
		f, err := statics.StaticStabilityFactor(tr.Track, h)
		if err != nil {
			return err
		}
		st, err := statics.Rollover(tr, fixed, nil, nil)
		if err != nil {
			return err
		}
		a := st.Threshold.In(units.StandardGravity)
		if math.Abs(a-float64(f)) > 1e-10*a || math.Abs(float64(st.Factor-f)) > 1e-10 || math.Abs(math.Tan(float64(st.SideSlope))-a) > 1e-9*a {
			return fmt.Errorf("threshold %g g, factor %g, slope %v, T/2h %g", a, st.Factor, st.SideSlope, f)
		}
		tr.CouplerHeight = units.Length(g.Float(0.3, 0.6))
		s, hc := float64(l.Share), float64(tr.CouplerHeight)
		want := float64(tr.Track) * (1 - s) / (2 * (float64(h) - s*hc))
		if want <= 0 || want > 9 || float64(h) <= s*hc {
			return property.ErrDiscard
		}
		if st, err = statics.Rollover(tr, fixed, nil, nil); err != nil {
			return err
		}
		if a = st.Threshold.In(units.StandardGravity); math.Abs(a-want) > 1e-9*want {
			return fmt.Errorf("hitched: threshold %g g, want %g", a, want)
		}
		return nil
	})
}

// Baffles only help; a wider track only helps; mirroring the trailer changes the
// side and nothing else; listing otherwise changes nothing, to the bit.
func TestRollover_changes(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary, tanks := randomRolling(g)
		st, err := statics.Rollover(tr, fixed, vary, tanks)
		if err != nil {
			return err
		}
		mirror := func(p units.Position) units.Position { return metres(-float64(p.Length())) }
		f2, v2, t2 := append([]statics.Mass(nil), fixed...), append([]statics.Varying(nil), vary...), append([]statics.Filling(nil), tanks...)
		for i := range f2 {
			f2[i].Y = mirror(f2[i].Y)
		}
		for i := range v2 {
			v2[i].Y = mirror(v2[i].Y)
		}
		for i := range t2 {
			t2[i].Tank.Y = mirror(t2[i].Tank.Y)
		}
		m, err := statics.Rollover(tr, f2, v2, t2)
		if err != nil {
			return err
		}
		if math.Abs(float64(m.Threshold-st.Threshold)) > 1e-12 || m.Side == st.Side && st.Threshold > 0 && !st.Above && len(fixed) > 1 {
			return fmt.Errorf("mirrored: %v over the %v became %v over the %v", st.Threshold, st.Side, m.Threshold, m.Side)
		}
		backwards := append([]statics.Mass(nil), fixed...)
		for i := range fixed {
			backwards[i] = fixed[len(fixed)-1-i]
		}
		swapped := append([]statics.Filling(nil), tanks...)
		for i := range tanks {
			swapped[i] = tanks[len(tanks)-1-i]
		}
		o, err := statics.Rollover(tr, backwards, vary, swapped)
		if err != nil {
			return err
		}
		if o.Threshold != st.Threshold || o.Height != st.Height {
			return fmt.Errorf("listed otherwise: %v became %v", st.Threshold, o.Threshold)
		}
		wide := tr
		wide.Track *= 1.1
		w, err := statics.Rollover(wide, fixed, vary, tanks)
		if err != nil {
			return err
		}
		if w.Threshold < st.Threshold {
			return fmt.Errorf("a wider track lowered the threshold from %v to %v", st.Threshold, w.Threshold)
		}
		for i := range t2 {
			t2[i] = tanks[i]
			t2[i].Tank.Baffles = 1
		}
		b, err := statics.Rollover(tr, fixed, vary, t2)
		if err != nil {
			return err
		}
		if b.Threshold < st.Threshold-1e-9 {
			return fmt.Errorf("baffles lowered the threshold from %v to %v", st.Threshold, b.Threshold)
		}
		return nil
	})
}

func TestRollover_edges(t *testing.T) {
	tr := statics.Trailer{AxleGroup: feet(12), Axles: 2, Track: 6 * units.Foot}
	low := []statics.Mass{{Name: "keel", Mass: 100, X: feet(11), Y: feet(0), Z: inches(1)}}
	st, err := statics.Rollover(tr, low, nil, nil)
	if err != nil || !st.Above || st.Threshold != 10*units.StandardGravity {
		t.Errorf("an inch high: %+v, %v", st, err)
	}
	out := []statics.Mass{{Name: "boom", Mass: 100, X: feet(11), Y: feet(-4), Z: feet(3)}}
	st, err = statics.Rollover(tr, out, nil, nil)
	if err != nil || st.Threshold != 0 || st.Side != statics.Right {
		t.Errorf("outside the wheels: %+v, %v", st, err)
	}
	// An empty tank is no mass: nothing but the frame tips.
	tank := statics.Tank{Name: "fresh", Density: 1000, X: feet(9), Y: feet(0), Floor: feet(2), Vessel: statics.Vessel{Shape: statics.Box, Length: 1, Width: 1, Height: 1}}
	frame := []statics.Mass{{Name: "frame", Mass: 100, X: feet(11), Y: feet(0), Z: feet(3)}}
	st, err = statics.Rollover(tr, frame, nil, []statics.Filling{{Tank: tank}})
	if err != nil || math.Abs(st.Threshold.In(units.StandardGravity)-1) > 1e-12 || st.Levels[0] != 0 {
		t.Errorf("empty tank: %+v, %v", st, err)
	}
}

func TestRollover_errors(t *testing.T) {
	ok := statics.Trailer{AxleGroup: feet(12), Axles: 2, Track: 6 * units.Foot}
	frame := []statics.Mass{{Name: "frame", Mass: 100, X: feet(11), Y: feet(0), Z: feet(3)}}
	noTrack := ok
	noTrack.Track = 0
	tall := ok
	tall.CouplerHeight = 4
	for _, c := range []struct {
		name     string
		trailer  statics.Trailer
		fixed    []statics.Mass
		vary     []statics.Varying
		tanks    []statics.Filling
		sentinel error
		want     []string
	}{
		{"no track", noTrack, frame, nil, nil, units.ErrMissing, []string{"trailer.track"}},
		{"no heights", ok, []statics.Mass{lb("frame", 1, 1), lb("nothing", 0, 1)}, []statics.Varying{{Name: "fuel", Most: 1, X: feet(1), Y: feet(0)}}, nil, units.ErrMissing, []string{"masses[frame].y", "masses[frame].z", "varying[fuel].z"}},
		{"a tank without a form", ok, frame, nil, []statics.Filling{{Tank: statics.Tank{Name: "fresh", Nominal: 1, Density: 1000}}}, units.ErrMissing, []string{"tanks[fresh].vessel", "tanks[fresh].x", "tanks[fresh].y", "tanks[fresh].floor"}},
		{"nothing there", ok, nil, nil, nil, units.ErrRange, []string{"masses"}},
		{"a ball above the roof", tall, frame, nil, nil, units.ErrRange, []string{"trailer.coupler_height"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := statics.Rollover(c.trailer, c.fixed, c.vary, c.tanks)
			if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
				t.Errorf("fields (-want +got):\n%s", d)
			}
		})
	}
	for _, c := range []struct {
		track, height units.Length
		sentinel      error
		want          []string
	}{
		{0, 0, units.ErrMissing, []string{"track", "height"}},
		{-1, units.Length(math.NaN()), units.ErrRange, []string{"track", "height"}},
	} {
		_, err := statics.StaticStabilityFactor(c.track, c.height)
		if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
			t.Errorf("fields (-want +got):\n%s", d)
		}
	}
}

func BenchmarkRollover(b *testing.B) {
	tr := statics.Trailer{AxleGroup: feet(12.6), Axles: 2, Track: 6 * units.Foot}
	frame := []statics.Mass{{Name: "frame", Mass: 1800, X: feet(11), Y: feet(0.1), Z: feet(2.5)}}
	for _, v := range []statics.Vessel{
		{Shape: statics.Box, Length: 1, Width: 1.4, Height: 0.6},
		{Shape: statics.LengthwiseCylinder, Diameter: 1, Length: 1.2},
	} {
		b.Run(v.Shape.String(), func(b *testing.B) {
			tank := statics.Tank{Name: "fresh", Density: 1000, X: feet(11), Y: feet(0), Floor: feet(2), Vessel: v}
			other := tank
			other.Name = "recovered"
			tanks := []statics.Filling{{Tank: tank, Most: 1}, {Tank: other, Most: 1}}
			b.ReportAllocs()
			for b.Loop() {
				if _, err := statics.Rollover(tr, frame, nil, tanks); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// FuzzRollover: whatever is given, an error or finite numbers in their ranges.
func FuzzRollover(f *testing.F) {
	f.Add(1, 4.0, 1.8, 0.5, 1000.0, 3.5, 0.0, 0.8, 1.0, 1.4, 0.5, 0.0, 1.0)
	f.Add(3, 4.0, 1.8, 0.0, 1e-9, 3.5, 0.3, 1e-9, 1.0, 0.0, 1.2, 0.0, 0.0)
	f.Add(2, 1.0, 0.01, 3.0, 1.0, -50.0, -5.0, 90.0, 0.0, 1.0, 1.0, 1.0, 1.0)
	f.Fuzz(func(t *testing.T, shape int, group, track, ball, m, x, y, z, l, w, h, least, most float64) {
		v := statics.Vessel{Shape: statics.Shape(shape), Length: units.Length(l), Width: units.Length(w), Height: units.Length(h)}
		switch v.Shape {
		case statics.UprightCylinder:
			v = statics.Vessel{Shape: v.Shape, Diameter: v.Width, Height: v.Height}
		case statics.LengthwiseCylinder:
			v = statics.Vessel{Shape: v.Shape, Diameter: v.Height, Length: v.Length}
		case statics.CrosswiseCylinder:
			v = statics.Vessel{Shape: v.Shape, Diameter: v.Height, Width: v.Length}
		}
		st, err := statics.Rollover(statics.Trailer{AxleGroup: metres(group), Axles: 1, Track: units.Length(track), CouplerHeight: units.Length(ball)},
			[]statics.Mass{{Name: "frame", Mass: units.Mass(m), X: metres(x), Y: metres(y), Z: metres(z)}}, nil,
			[]statics.Filling{{Tank: statics.Tank{Name: "t", Density: 1000, X: metres(x), Y: metres(0), Floor: metres(0.5), Vessel: v}, Least: units.Ratio(least), Most: units.Ratio(most)}})
		if err != nil {
			return
		}
		if a := st.Threshold.In(units.StandardGravity); !(a >= 0 && a <= 10) || !(st.Levels[0] >= 0 && st.Levels[0] <= 1) || math.IsNaN(float64(st.Factor)) || math.IsInf(float64(st.Factor), 0) {
			t.Errorf("%+v", st)
		}
	})
}
