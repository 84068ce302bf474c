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

// Each turn against Corners with the part weighing a little less and a little more.
func TestBreakEven_bruteForce(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 3)
		x, err := statics.Corners(tr, fixed, vary)
		if err != nil {
			return err
		}
		limits := randomLimits(g, tr, x)
		part := statics.Mass{Name: "part", X: metres(g.Float(-1, 8)), Y: metres(g.Float(-1, 1))}
		turns, err := statics.BreakEven(tr, fixed, vary, nil, part, limits)
		if err != nil {
			return err
		}
		// Turns come in the order of limits; the two of a tyre decide together.
		kept := func(i int, m units.Mass) bool {
			switch v := turns[i]; v.Verdict {
			case statics.UpTo:
				return m <= v.Mass
			case statics.FromOn:
				return m >= v.Mass
			default:
				return v.Verdict == statics.Always
			}
		}
		masses := []units.Mass{0.001, units.Mass(g.LogFloat(1, 5000))}
		for _, v := range turns {
			if v.Verdict == statics.UpTo || v.Verdict == statics.FromOn {
				masses = append(masses, v.Mass*0.999, v.Mass*1.001+0.001)
			}
		}
		for _, m := range masses {
			if m > 1e5 {
				continue
			}
			part.Mass = m
			x, err := statics.Corners(tr, append(fixed[:len(fixed):len(fixed)], part), vary)
			if err != nil {
				return err
			}
			i := 0
			one := func(l statics.Limits, n int) error {
				said := true
				for range n {
					said = said && kept(i, m)
					i++
				}
				if margin := keeps(x, l); math.Abs(margin) > 1e-9 && said != (margin > 0) {
					return fmt.Errorf("part of %v: %+v said to be kept %v, margin %g", m, turns[i-1], said, margin)
				}
				return nil
			}
			for _, r := range limits.Ratings {
				n := 1
				if r.On == statics.OnTyre {
					n = 2
				}
				if err := one(statics.Limits{Ratings: []statics.Rating{r}}, n); err != nil {
					return err
				}
			}
			if limits.ShareLeast != 0 {
				if err := one(statics.Limits{ShareLeast: limits.ShareLeast}, 1); err != nil {
					return err
				}
			}
			if limits.ShareMost != 0 {
				if err := one(statics.Limits{ShareMost: limits.ShareMost}, 1); err != nil {
					return err
				}
			}
		}
		return nil
	})
}

func TestBreakEven_errors(t *testing.T) {
	tr := statics.Trailer{AxleGroup: feet(10), Axles: 1, Track: 2}
	frame := []statics.Mass{{Name: "frame", Mass: 100, X: feet(9), Y: feet(0)}}
	_, err := statics.BreakEven(tr, frame, nil, nil, statics.Mass{Name: "part"}, statics.Limits{Ratings: []statics.Rating{{Name: "tyre", On: statics.OnTyre, Most: 100}}})
	if d := cmp.Diff([]string{"part.x", "ratings[tyre]"}, fields(t, err, units.ErrMissing)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
}

// The volumes against Corners with tanks of that size: inside all limits are kept,
// a little outside one is not.
func TestMostVolume_bruteForce(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, fuel := randomTrailer(g, 2)
		x, err := statics.Corners(tr, fixed, fuel)
		if err != nil {
			return err
		}
		limits := randomLimits(g, tr, x)
		split := g.Float(0.2, 0.8)
		tanks := []statics.Growth{
			{Name: "t0", Share: units.Ratio(split), X: metres(g.Float(0, 7)), Y: metres(g.Float(-0.5, 0.5)), Density: 1000, Shell: units.Density(g.Float(0, 100))},
			{Name: "t1", Share: units.Ratio(1 - split), X: metres(g.Float(0, 7)), Y: metres(g.Float(-0.5, 0.5)), Density: 1100, Least: units.Ratio(g.Float(0, 0.1)), Most: units.Ratio(g.Float(0.8, 1))},
		}
		got, err := statics.MostVolume(tr, fixed, fuel, tanks, nil, limits)
		if err != nil {
			return err
		}
		margin := func(v float64) float64 {
			f, w := fixed[:len(fixed):len(fixed)], fuel[:len(fuel):len(fuel)]
			for _, k := range tanks {
				own := v * float64(k.Share)
				most := k.Most
				if most == 0 {
					most = 1
				}
				f = append(f, statics.Mass{Name: k.Name + "-shell", Mass: units.Mass(own * float64(k.Shell)), X: k.X, Y: k.Y})
				w = append(w, statics.Varying{Name: k.Name, Least: units.Mass(own * float64(k.Density) * float64(k.Least)), Most: units.Mass(own * float64(k.Density) * float64(most)), X: k.X, Y: k.Y})
			}
			return worstMargin(tr, f, w, limits)
		}
		for _, v := range []float64{0, 0.01, 0.1, 0.5, 1, 2, 5, float64(got.Least), float64(got.Most), float64(got.Least) * 0.99, float64(got.Most) * 1.01} {
			if v > 100 {
				continue
			}
			m := margin(v)
			inside := got.Possible && v >= float64(got.Least) && v <= float64(got.Most)
			if inside && m < -1e-7 || !inside && m > 1e-7 {
				return fmt.Errorf("%g m³: margin %g, but %+v", v, m, got)
			}
		}
		return nil
	})
}

// Reachable fills ask less than all levels: a second tank that is only filled while
// the first is empty leaves room for more.
func TestMostVolume_states(t *testing.T) {
	r := demo("B")
	limits := statics.Limits{Ratings: demoRatings()}
	tanks := []statics.Growth{
		{Name: "fresh", Share: 0.6, X: feet(11), Density: demoWater},
		{Name: "recovered", Share: 0.4, X: feet(12.4), Density: demoWater},
	}
	fuel := r.liquids[demoGasoline:]
	all, err := statics.MostVolume(r.trailer, r.fixed, fuel, tanks, nil, limits)
	if err != nil {
		t.Fatal(err)
	}
	out, home := []units.Mass{fuel[0].Most, fuel[1].Most}, []units.Mass{fuel[0].Least, fuel[1].Least}
	some, err := statics.MostVolume(r.trailer, r.fixed, fuel, tanks, []statics.GrowthState{
		{Masses: out, Levels: []units.Ratio{1, 0}}, {Masses: home, Levels: []units.Ratio{0, 1}},
	}, limits)
	if err != nil {
		t.Fatal(err)
	}
	// All full: (9400 − 4923.4)/8.34 = 536.8 gal by the combination. Leaving with
	// fresh water only: (1050 − 663.0)/(0.6·8.34·1.6/12.6) = 609.0 gal by the hitch.
	if got := all.Most.In(units.Gallon); math.Abs(got-536.8) > 0.05 || all.AtMost.Limit != "combination" {
		t.Errorf("all fills: %.2f gal at %+v", got, all.AtMost)
	}
	if got := some.Most.In(units.Gallon); math.Abs(got-609.0) > 0.05 || some.AtMost != (statics.Case{Limit: "hitch", On: statics.OnTongue, State: 1}) {
		t.Errorf("reachable fills: %.2f gal at %+v", got, some.AtMost)
	}
}

func TestMostVolume_edges(t *testing.T) {
	tr := statics.Trailer{AxleGroup: feet(10), Axles: 1}
	frame := []statics.Mass{lb("frame", 1000, 10)} // nothing on the tongue
	tank := []statics.Growth{{Name: "water", Share: 1, X: feet(5), Density: 1000, Least: 1}}
	// A tank that is always full, half way: with w on it the share is w/2/(1000 + w)
	// in pounds; 10 % needs 250 lb and no limit asks for less.
	v, err := statics.MostVolume(tr, frame, nil, tank, nil, statics.Limits{ShareLeast: 0.10})
	if err != nil || !v.Possible || v.Most != 200 || v.AtMost.Limit != "" {
		t.Errorf("always full: %+v, %v", v, err)
	}
	if got := units.Mass(float64(v.Least) * 1000).In(units.Pound); math.Abs(got-250) > 1e-9 {
		t.Errorf("least %g lb, want 250", got)
	}
	// One that may be empty cannot help.
	tank[0].Least = 0
	v, err = statics.MostVolume(tr, frame, nil, tank, nil, statics.Limits{ShareLeast: 0.10})
	if err != nil || v.Possible {
		t.Errorf("may be empty: %+v, %v", v, err)
	}
	// Nor is there a volume where the plate is passed dry.
	v, err = statics.MostVolume(tr, frame, nil, tank, nil, statics.Limits{Ratings: []statics.Rating{{Name: "plate", On: statics.OnTotal, Most: pounds(900)}}})
	if err != nil || v.Possible || v.AtMost.Limit != "plate" {
		t.Errorf("plate passed: %+v, %v", v, err)
	}
}

func TestMostVolume_errors(t *testing.T) {
	tr := statics.Trailer{AxleGroup: feet(10), Axles: 1}
	frame := []statics.Mass{lb("frame", 1000, 9)}
	ok := statics.Limits{ShareLeast: 0.05}
	for _, c := range []struct {
		name     string
		tanks    []statics.Growth
		states   []statics.GrowthState
		sentinel error
		want     []string
	}{
		{"no tank", nil, nil, units.ErrMissing, []string{"tanks"}},
		{"nothing given", []statics.Growth{{Name: "a", Share: 1}}, nil, units.ErrMissing, []string{"tanks[a].x", "tanks[a].density"}},
		{"half a tank", []statics.Growth{{Name: "a", Share: 0.5, X: feet(9), Density: 1000}}, nil, units.ErrConflict, []string{"tanks"}},
		{"levels", []statics.Growth{{Name: "a", Share: 2, X: feet(9), Density: 1000, Shell: -1, Least: 0.9, Most: 0.5}}, nil, units.ErrRange, []string{"tanks[a].share", "tanks[a].shell", "tanks[a].least"}},
		{"a state without level", []statics.Growth{{Name: "a", Share: 1, X: feet(9), Density: 1000}}, []statics.GrowthState{{}}, units.ErrConflict, []string{"states[#1].levels"}},
		{"a state too full", []statics.Growth{{Name: "a", Share: 1, X: feet(9), Density: 1000}}, []statics.GrowthState{{Levels: []units.Ratio{1.1}}}, units.ErrRange, []string{"states[#1].levels[#1]"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := statics.MostVolume(tr, frame, nil, c.tanks, c.states, ok)
			if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
				t.Errorf("fields (-want +got):\n%s", d)
			}
		})
	}
}
