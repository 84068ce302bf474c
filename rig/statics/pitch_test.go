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

// The extremes against a grid of fills whose moments are summed with vectors about
// the wheels' contact, and at the fills they name.
func TestPitch_bruteForce(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary, tanks := randomRolling(g)
		tr.CouplerHeight = units.Length(g.Float(0.3, 0.7))
		a := statics.Attitude{
			Grade: units.Angle(g.Float(-20, 20)) * units.Degree, Braking: units.Acceleration(g.Float(-0.3, 0.8)) * units.StandardGravity,
			ByVehicle: units.Ratio(g.Float(0, 1)),
		}
		r, err := statics.Pitch(tr, fixed, vary, tanks, a)
		if err != nil {
			return err
		}
		base := float64(tr.AxleGroup.Length() - tr.Coupler.Length())
		down := math.Cos(float64(a.Grade))
		aft := math.Sin(float64(a.Grade)) - a.Braking.In(units.StandardGravity)
		loads := func(c statics.Corner, levels []units.Ratio) (tongue, share float64) {
			var moment, total float64
			add := func(m, x, z float64) {
				total += m
				// Turning moment about the contact point, nose-up positive, of the
				// weight's two components; the ball takes its share of the pull.
				moment += m * (aft*z + down*(x-float64(tr.AxleGroup.Length())))
			}
			for _, m := range atCorner(fixed, vary, c) {
				add(float64(m.Mass), float64(m.X.Length()), float64(m.Z.Length()))
			}
			for i, f := range tanks {
				k := f.Tank
				capacity, _ := k.Vessel.Capacity()
				v := units.Volume(levels[i]) * capacity
				s, z, err2 := k.Vessel.Tilted(v, units.Angle(math.Atan(math.Abs(aft)/down)), statics.Lengthwise)
				_, rest, _ := k.Vessel.Depth(v)
				if err2 != nil {
					err = err2
				}
				free := units.Length(1 - float64(k.Baffles))
				add(float64(v)*float64(k.Density), float64(k.X.Length())+math.Copysign(float64(free*s), aft), float64(k.Floor.Length()+rest+free*(z-rest)))
			}
			pull := float64(a.ByVehicle) * aft * total // forward on the trailer, at the ball
			tongue = (pull*float64(tr.CouplerHeight) - moment) / base
			return tongue, tongue / (total * down)
		}
		tol := 1e-9 * 1e4
		leastT, mostT, leastS, mostS := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		const steps = 8
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
				n, s := loads(c, levels)
				leastT, mostT, leastS, mostS = min(leastT, n), max(mostT, n), min(leastS, s), max(mostS, s)
			}
		}
		if err != nil {
			return err
		}
		if float64(r.LeastTongue.Tongue) > leastT+tol || float64(r.MostTongue.Tongue) < mostT-tol {
			return fmt.Errorf("tongue %v to %v, the grid %g to %g", r.LeastTongue.Tongue, r.MostTongue.Tongue, leastT, mostT)
		}
		if float64(r.LeastShare.Share) > leastS+1e-9 || float64(r.MostShare.Share) < mostS-1e-9 {
			return fmt.Errorf("share %v to %v, the grid %g to %g", r.LeastShare.Share, r.MostShare.Share, leastS, mostS)
		}
		for _, x := range []statics.Pitched{r.LeastTongue, r.MostTongue, r.LeastShare, r.MostShare} {
			n, s := loads(x.At, x.Levels)
			if math.Abs(n-float64(x.Tongue)) > tol || math.Abs(s-float64(x.Share)) > 1e-9 {
				return fmt.Errorf("tongue %v said to be at levels %v, which give %g", x.Tongue, x.Levels, n)
			}
		}
		return err
	})
}

// On the level and at rest Pitch is Balance.
func TestPitch_level(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 4)
		tr.CouplerHeight = 0.5
		r, err := statics.Pitch(tr, fixed, vary, nil, statics.Attitude{ByVehicle: units.Ratio(g.Float(0, 1))})
		if err != nil {
			return err
		}
		x, err := statics.Corners(tr, fixed, vary)
		if err != nil {
			return err
		}
		for _, c := range [][2]float64{
			{float64(r.LeastTongue.Tongue), float64(x.Tongue.Least.Value)}, {float64(r.MostTongue.Tongue), float64(x.Tongue.Most.Value)},
			{float64(r.LeastShare.Share), float64(x.Share.Least.Value)}, {float64(r.MostShare.Share), float64(x.Share.Most.Value)},
		} {
			if math.Abs(c[0]-c[1]) > 1e-9*(1+math.Abs(c[1])) {
				return fmt.Errorf("%g by Pitch, %g by Corners", c[0], c[1])
			}
		}
		if r.LeastTongue.Pull != 0 {
			return fmt.Errorf("a pull of %v on the level", r.LeastTongue.Pull)
		}
		return nil
	})
}

func TestPitch_errors(t *testing.T) {
	tr := statics.Trailer{AxleGroup: feet(12), Axles: 2}
	_, err := statics.Pitch(tr, []statics.Mass{lb("frame", 1, 1)}, []statics.Varying{{Name: "fuel", Most: 1, X: feet(1)}}, nil, statics.Attitude{})
	if d := cmp.Diff([]string{"trailer.coupler_height", "masses[frame].z", "varying[fuel].z"}, fields(t, err, units.ErrMissing)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
	tr.CouplerHeight = 0.5
	nan := math.NaN()
	_, err = statics.Pitch(tr, nil, nil, nil, statics.Attitude{Grade: units.Angle(nan), Braking: units.Acceleration(nan), ByVehicle: 2})
	if d := cmp.Diff([]string{"attitude.grade", "attitude.braking", "attitude.by_vehicle"}, fields(t, err, units.ErrRange)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
	_, err = statics.Pitch(tr, nil, nil, nil, statics.Attitude{})
	if d := cmp.Diff([]string{"masses"}, fields(t, err, units.ErrRange)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
}
