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

// randomLimits draws limits around what a trailer carries, so that some are kept
// and some are not.
func randomLimits(g *property.G, tr statics.Trailer, x statics.Extremes) statics.Limits {
	near := func(b statics.Band[units.Mass]) units.Mass {
		return units.Mass(max(1, float64(b.Most.Value)*g.Float(0.8, 1.3)))
	}
	l := statics.Limits{Ratings: []statics.Rating{
		{Name: "gross vehicle", On: statics.OnTotal, Most: near(x.Total)},
		{Name: "combination", On: statics.OnTotal, Most: near(x.Total) + 3000, Beside: 3000},
		{Name: "coupler", On: statics.OnTongue, Most: near(x.Tongue)},
		{Name: "gross axle", On: statics.OnAxle, Most: near(x.Axle)},
		{Name: "group", On: statics.OnGroup, Most: near(x.Group)},
		{Name: "tyre", On: statics.OnTyre, Most: near(x.Tyre)},
	}}
	l.Ratings = slices.Delete(l.Ratings, 0, g.Int(0, 5))
	lo, hi := float64(x.Share.Least.Value), float64(x.Share.Most.Value)
	if g.Bool() && lo > 0 && lo < 0.8 {
		l.ShareLeast = units.Ratio(lo * g.Float(0.7, 1.1))
	}
	if g.Bool() && hi > 0 && hi < 0.9 {
		l.ShareMost = units.Ratio(max(float64(l.ShareLeast), hi*g.Float(0.9, 1.1)))
	}
	return l
}

// keeps reports by how much, as a share of each, the extremes keep all limits: the
// least margin.
func keeps(t statics.Extremes, l statics.Limits) float64 {
	least := math.Inf(1)
	for _, r := range l.Ratings {
		b := map[statics.On]statics.Band[units.Mass]{
			statics.OnTotal: t.Total, statics.OnTongue: t.Tongue, statics.OnGroup: t.Group, statics.OnAxle: t.Axle, statics.OnTyre: t.Tyre,
		}[r.On]
		least = min(least, float64((r.Most-r.Beside-b.Most.Value)/r.Most))
	}
	if l.ShareLeast != 0 {
		least = min(least, float64((t.Share.Least.Value-l.ShareLeast)/l.ShareLeast))
	}
	if l.ShareMost != 0 {
		least = min(least, float64((l.ShareMost-t.Share.Most.Value)/l.ShareMost))
	}
	return least
}

func TestMargins_sorted(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 3)
		x, err := statics.Corners(tr, fixed, vary)
		if err != nil {
			return err
		}
		l := randomLimits(g, tr, x)
		ms, err := statics.Margins(x, l.Ratings)
		if err != nil {
			return err
		}
		l.ShareLeast, l.ShareMost = 0, 0
		if math.Abs(float64(ms[0].Margin)-keeps(x, l)) > 1e-12 {
			return fmt.Errorf("narrowest margin %v, want %g", ms[0].Margin, keeps(x, l))
		}
		for i := 1; i < len(ms); i++ {
			if ms[i].Margin < ms[i-1].Margin {
				return fmt.Errorf("margins not in order: %v", ms)
			}
		}
		return nil
	})
}

func TestMargins_errors(t *testing.T) {
	tr := statics.Trailer{AxleGroup: feet(10), Axles: 1}
	x, err := statics.Corners(tr, []statics.Mass{lb("frame", 100, 9)}, nil)
	if err != nil {
		t.Fatal(err)
	}
	_, err = statics.Margins(x, []statics.Rating{{Name: "plate"}, {Name: "tyre", On: statics.OnTyre, Most: 100}})
	if d := cmp.Diff([]string{"ratings[plate].on", "ratings[plate].most", "ratings[tyre]"}, fields(t, err, units.ErrMissing)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
	_, err = statics.Margins(x, []statics.Rating{{Name: "plate", On: statics.OnTotal, Most: -1, Beside: units.Mass(math.NaN())}})
	if d := cmp.Diff([]string{"ratings[plate].most", "ratings[plate].beside"}, fields(t, err, units.ErrRange)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
	if _, _, ok := statics.Lowest(demoRatings(), statics.OnTyre); ok {
		t.Error("a rating of tyres where none was given")
	}
	ms, err := statics.Margins(x, nil)
	if err != nil || len(ms) != 0 {
		t.Errorf("no ratings: %v, %v", ms, err)
	}
}
