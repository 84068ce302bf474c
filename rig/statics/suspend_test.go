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

func randomSuspension(g *property.G, axles int) statics.Suspension {
	s := statics.Suspension{Ball: units.Length(g.Float(-0.08, 0.03)), Springs: make([]statics.Spring, axles)}
	for i := range s.Springs {
		s.Springs[i] = statics.Spring{Load: units.Mass(g.Float(1000, 3000)), Travel: units.Length(g.Float(0.03, 0.1))}
	}
	return s
}

// aft moves masses so that something rests on the axles.
func aft(tr statics.Trailer, fixed []statics.Mass, vary []statics.Varying) {
	for i := range fixed {
		fixed[i].X = metres(float64(tr.Coupler.Length()) + math.Abs(float64(fixed[i].X.Length())) + 0.5)
	}
	for i := range vary {
		vary[i].X = metres(float64(tr.Coupler.Length()) + math.Abs(float64(vary[i].X.Length())) + 0.5)
	}
}

// Axle loads are those of springs under a stiff frame found by halving the
// inclination; they and the tongue balance the weight and its moment; sides sum to
// axles and carry the lateral moment.
func TestSuspend_balances(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, masses, _ := randomTrailer(g, 0)
		aft(tr, masses, nil)
		s := randomSuspension(g, tr.Axles)
		got, err := statics.Suspend(tr, masses, s)
		if err != nil {
			return property.ErrDiscard // inclined too far
		}
		at, err := tr.AxlePositions()
		if err != nil {
			return err
		}
		var w, moment, roll float64
		for _, m := range masses {
			w += float64(m.Mass)
			moment += float64(m.Mass) * float64(m.X.Length()-tr.Coupler.Length())
			roll += float64(m.Mass) * float64(m.Y.Length())
		}
		force := func(i int, phi float64) float64 {
			x := float64(at[i].Length() - tr.Coupler.Length())
			return max(0, float64(s.Springs[i].Load/1)/float64(s.Springs[i].Travel)*(phi*x-float64(s.Ball)))
		}
		lo, hi := -1.0, 1.0
		for range 60 {
			mid := (lo + hi) / 2
			m := 0.0
			for i := range at {
				m += force(i, mid) * float64(at[i].Length()-tr.Coupler.Length())
			}
			if m < moment {
				lo = mid
			} else {
				hi = mid
			}
		}
		var sum, reaction, lean float64
		for i, a := range got.Axles {
			f := float64(a.Load)
			if d := f - force(i, lo); math.Abs(d) > 1e-6*w {
				return fmt.Errorf("axle %d carries %g kg, by halving %g", i, f, force(i, lo))
			}
			sum += f
			reaction += f * float64(at[i].Length()-tr.Coupler.Length())
			lean += float64(a.Left-a.Right) * float64(tr.Track) / 2
			if math.Abs(float64(a.Left+a.Right)-f) > 1e-9*w {
				return fmt.Errorf("sides of axle %d make %g, not %g", i, float64(a.Left+a.Right), f)
			}
		}
		if d := w - sum - float64(got.Tongue); math.Abs(d) > 1e-9*w {
			return fmt.Errorf("loads miss the weight by %g", d)
		}
		if d := moment - reaction; math.Abs(d) > 1e-9*(moment+reaction) {
			return fmt.Errorf("moments miss by %g", d)
		}
		if d := lean - roll; math.Abs(d) > 1e-9*(math.Abs(lean)+math.Abs(roll)) {
			return fmt.Errorf("lateral moments miss by %g", d)
		}
		return nil
	})
}

// With the ball of a level frame, equal springs share like an equalised group,
// and the frame is level.
func TestSuspend_levelIsEqualised(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, masses, _ := randomTrailer(g, 0)
		aft(tr, masses, nil)
		s := randomSuspension(g, tr.Axles)
		for i := range s.Springs {
			s.Springs[i] = s.Springs[0]
		}
		ball, err := statics.LevelBall(tr, masses, s)
		if err != nil {
			return err
		}
		s.Ball = ball
		if s.Ball < -1 {
			return property.ErrDiscard
		}
		got, err := statics.Suspend(tr, masses, s)
		if err != nil {
			return err
		}
		l, err := statics.Balance(tr, masses)
		if err != nil {
			return err
		}
		for _, a := range got.Axles {
			if math.Abs(float64(a.Load-l.Axle)) > 1e-9*float64(l.Total) {
				return fmt.Errorf("axle %v, equalised %v", a.Load, l.Axle)
			}
		}
		if math.Abs(float64(got.Nose)) > 1e-12 || math.Abs(float64(got.Tongue-l.Tongue)) > 1e-9*float64(l.Total) {
			return fmt.Errorf("nose %v, tongue %v, equalised %v", got.Nose, got.Tongue, l.Tongue)
		}
		return nil
	})
}

func TestSuspendExtremes_bruteForce(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 3)
		aft(tr, fixed, vary)
		s := randomSuspension(g, tr.Axles)
		bands, err := statics.SuspendExtremes(tr, fixed, vary, s)
		if err != nil {
			return property.ErrDiscard
		}
		const steps = 4
		points := 1
		for range vary {
			points *= steps + 1
		}
		least, most := make([]float64, tr.Axles), make([]float64, tr.Axles)
		for i := range least {
			least[i] = math.Inf(1)
		}
		for p := range points {
			all := append([]statics.Mass(nil), fixed...)
			for q, i := p, 0; i < len(vary); q, i = q/(steps+1), i+1 {
				v := vary[i]
				all = append(all, statics.Mass{Name: v.Name, Mass: v.Least + (v.Most-v.Least)*units.Mass(q%(steps+1))/steps, X: v.X})
			}
			got, err := statics.Suspend(tr, all, s)
			if err != nil {
				return err
			}
			for i, a := range got.Axles {
				least[i], most[i] = min(least[i], float64(a.Load)), max(most[i], float64(a.Load))
			}
		}
		for i, b := range bands {
			if math.Abs(float64(b.Least.Value)-least[i]) > 1e-6 || math.Abs(float64(b.Most.Value)-most[i]) > 1e-6 {
				return fmt.Errorf("axle %d: %v to %v, the grid with its corners %g to %g", i, b.Least.Value, b.Most.Value, least[i], most[i])
			}
		}
		return nil
	})
}

// A very high ball takes the front axle off the ground.
func TestSuspend_axleLifts(t *testing.T) {
	tr := statics.Trailer{AxleGroup: metres(4), Axles: 2, Spacing: 1}
	s := statics.Suspension{Ball: 0.4, Springs: []statics.Spring{{Load: 1500, Travel: 0.05}, {Load: 1500, Travel: 0.05}}}
	got, err := statics.Suspend(tr, []statics.Mass{{Name: "rig", Mass: 1000, X: metres(3.6)}}, s)
	if err != nil {
		t.Fatal(err)
	}
	if got.Axles[0].Load != 0 || math.Abs(float64(got.Axles[1].Load)-800) > 1e-9 {
		t.Errorf("axles %v and %v, want 0 and 800 kg", got.Axles[0].Load, got.Axles[1].Load)
	}
	// On a short drawbar a metre is more than the range of the answer.
	s.Ball, tr.AxleGroup = 1, metres(2.5)
	if _, err := statics.Suspend(tr, []statics.Mass{{Name: "rig", Mass: 1000, X: metres(3.6)}}, s); len(fields(t, err, units.ErrRange)) != 1 {
		t.Errorf("a frame on end: %v", err)
	}
}

func TestSuspend_errors(t *testing.T) {
	ok := statics.Trailer{AxleGroup: metres(4), Axles: 2, Spacing: 1}
	rig := []statics.Mass{{Name: "rig", Mass: 1000, X: metres(3.6)}}
	good := statics.Suspension{Springs: []statics.Spring{{Load: 1500, Travel: 0.05}, {Load: 1500, Travel: 0.05}}}
	near := ok
	near.Spacing = 8
	for _, c := range []struct {
		name     string
		trailer  statics.Trailer
		masses   []statics.Mass
		s        statics.Suspension
		sentinel error
		want     []string
	}{
		{"no axle group", statics.Trailer{Axles: 2}, rig, good, units.ErrMissing, []string{"trailer.axle_group"}},
		{"no spacing", statics.Trailer{AxleGroup: metres(4), Axles: 2}, rig, good, units.ErrMissing, []string{"trailer.spacing"}},
		{"no springs", ok, rig, statics.Suspension{}, units.ErrConflict, []string{"suspension.springs"}},
		{"springs without figures", ok, rig, statics.Suspension{Springs: make([]statics.Spring, 2)}, units.ErrMissing, []string{"suspension.springs[#1].load", "suspension.springs[#1].travel", "suspension.springs[#2].load", "suspension.springs[#2].travel"}},
		{"springs that push up", ok, rig, statics.Suspension{Ball: units.Length(math.NaN()), Springs: []statics.Spring{{Load: -1, Travel: 2}, good.Springs[1]}}, units.ErrRange, []string{"suspension.springs[#1].load", "suspension.springs[#1].travel", "suspension.ball"}},
		{"an axle at the ball", near, rig, good, units.ErrConflict, []string{"trailer.spacing"}},
		{"all ahead of the ball", ok, []statics.Mass{{Name: "rig", Mass: 1000, X: metres(-1)}}, good, units.ErrRange, []string{"masses"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := statics.Suspend(c.trailer, c.masses, c.s)
			if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
				t.Errorf("Suspend (-want +got):\n%s", d)
			}
			_, err = statics.LevelBall(c.trailer, c.masses, c.s)
			if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
				t.Errorf("LevelBall (-want +got):\n%s", d)
			}
			_, err = statics.SuspendExtremes(c.trailer, c.masses, nil, c.s)
			if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
				t.Errorf("SuspendExtremes (-want +got):\n%s", d)
			}
		})
	}
}

// FuzzSuspend: whatever is given, an error or finite loads.
func FuzzSuspend(f *testing.F) {
	f.Add(4.0, 1.0, 1000.0, 3.5, 1500.0, 0.05, 1500.0, 0.05, -0.03)
	f.Add(4.0, 1e-300, 1.0, 1e-300, 1.0, 1e-4, 1e5, 1.0, 1.0)
	f.Fuzz(func(t *testing.T, group, spacing, m, x, l1, t1, l2, t2, ball float64) {
		got, err := statics.Suspend(statics.Trailer{AxleGroup: metres(group), Axles: 2, Spacing: units.Length(spacing)},
			[]statics.Mass{{Name: "rig", Mass: units.Mass(m), X: metres(x)}},
			statics.Suspension{Ball: units.Length(ball), Springs: []statics.Spring{{Load: units.Mass(l1), Travel: units.Length(t1)}, {Load: units.Mass(l2), Travel: units.Length(t2)}}})
		if err != nil {
			return
		}
		for _, v := range []float64{float64(got.Axles[0].Load), float64(got.Axles[1].Load), float64(got.Tongue), float64(got.Share), float64(got.Nose)} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%+v", got)
			}
		}
		if got.Axles[0].Load < 0 || got.Axles[1].Load < 0 {
			t.Errorf("an axle pulls: %+v", got)
		}
	})
}
