package statics_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// What is kept from one trailer to the next changes no bit of an answer, and a single
// fill is answered as the rig that has no other.
func TestTipping_kept(t *testing.T) {
	var kept statics.Tipping
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary, tanks := randomRolling(g)
		want, err := statics.Rollover(tr, fixed, vary, tanks)
		if err != nil {
			return err
		}
		if err := kept.Set(tr, fixed, vary, tanks); err != nil {
			return err
		}
		got := kept.Worst()
		if !cmp.Equal(got, want, cmpopts.EquateEmpty()) {
			return fmt.Errorf("kept %+v, anew %+v", got, want)
		}
		var masses []units.Mass
		var levels []units.Ratio
		one, single := slices.Clone(vary), slices.Clone(tanks)
		for i := range one {
			one[i].Least += (one[i].Most - one[i].Least) / 3
			one[i].Most = one[i].Least
			masses = append(masses, one[i].Most)
		}
		for i := range single {
			single[i].Least = (single[i].Least + single[i].Most) / 2
			single[i].Most = single[i].Least
			levels = append(levels, single[i].Most)
		}
		if want, err = statics.Rollover(tr, fixed, one, single); err != nil {
			return err
		}
		if got, err = kept.At(masses, levels); err != nil || !cmp.Equal(got, want, cmpopts.EquateEmpty()) {
			return fmt.Errorf("fill of many %+v, %v; alone %+v", got, err, want)
		}
		want, _ = statics.Rollover(tr, fixed, vary, tanks)
		if got = kept.Worst(); !cmp.Equal(got, want, cmpopts.EquateEmpty()) {
			return fmt.Errorf("after a single fill %+v, before %+v", got, want)
		}
		return nil
	})
}

func TestTipping_errors(t *testing.T) {
	r := demo("B")
	r.trailer.Track = units.Length(1.5)
	for i := range r.fixed {
		r.fixed[i].Y, r.fixed[i].Z = metres(0), metres(1)
	}
	var tip statics.Tipping
	if err := tip.Set(r.trailer, r.fixed, nil, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := tip.At([]units.Mass{1}, nil); err == nil {
		t.Error("a mass too many passes")
	}
	if _, err := tip.At(nil, []units.Ratio{0.5}); err == nil {
		t.Error("a level too many passes")
	}
	v := statics.Varying{Name: "fuel", Most: 10, X: metres(1), Y: metres(0), Z: metres(1)}
	if err := tip.Set(r.trailer, r.fixed, []statics.Varying{v}, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := tip.At([]units.Mass{-1}, nil); err == nil {
		t.Error("a mass below nothing passes")
	}
	if _, err := tip.At([]units.Mass{20}, nil); err != nil {
		t.Error("a mass outside the range that was set:", err)
	}
}

func TestParking_kept(t *testing.T) {
	var parking statics.Parking
	var envelope statics.Envelope
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 3)
		jack, tail := tr.Coupler.Add(units.Length(g.Float(0, 0.5))), tr.AxleGroup.Add(units.Length(g.Float(0.2, 3)))
		want, err := statics.NewParking(tr, fixed, vary, jack, tail)
		if err != nil {
			return err
		}
		wide, err := statics.NewEnvelope(tr, fixed, vary)
		if err != nil {
			return err
		}
		if err := parking.Set(tr, fixed, vary, jack, tail); err != nil {
			return err
		}
		if err := envelope.Set(tr, fixed, vary); err != nil {
			return err
		}
		masses := make([]units.Mass, len(vary))
		for i := range vary {
			masses[i] = vary[i].Most
		}
		j, s, err := want.At(masses)
		if j2, s2, err2 := parking.At(masses); j != j2 || s != s2 || err != nil || err2 != nil {
			return fmt.Errorf("kept %v and %v, anew %v and %v (%v, %v)", j2, s2, j, s, err2, err)
		}
		if a, b := wide.Extremes(), envelope.Extremes(); a != b {
			return fmt.Errorf("kept %+v, anew %+v", b, a)
		}
		return nil
	})
}

// A Placer that has answered other questions answers as the functions do, and one state
// after another bounds a reach as all corners together do, where the states are the
// corners.
func TestPlacer_kept(t *testing.T) {
	var kept statics.Placer
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 2)
		names := named(fixed, vary)
		x, err := statics.Corners(tr, fixed, vary)
		if err != nil {
			return err
		}
		limits := randomLimits(g, tr, x)
		var states [][]units.Mass
		for c := range statics.Corner(1) << len(vary) {
			var list []units.Mass
			for i := range vary {
				list = append(list, vary[i].Least)
				if c.Most(i) {
					list[i] = vary[i].Most
				}
			}
			states = append(states, list)
		}
		tank := []statics.Growth{{Name: "water", Share: 1, X: metres(g.Float(0, 7)), Y: metres(g.Float(-0.5, 0.5)), Density: 1000, Shell: units.Density(g.Float(0, 100))}}
		var growth []statics.GrowthState
		for i := range states {
			growth = append(growth, statics.GrowthState{Masses: states[i], Levels: []units.Ratio{units.Ratio(i % 2)}})
		}
		v, err := statics.MostVolume(tr, fixed, vary, tank, growth, limits)
		if err != nil {
			return err
		}
		if got, err := kept.MostVolume(tr, fixed, vary, tank, growth, limits); err != nil || got != v {
			return fmt.Errorf("kept %+v, %v; anew %+v", got, err, v)
		}
		if err := kept.Set(tr, fixed, vary, states, limits); err != nil {
			return err
		}
		part := statics.Mass{Name: "part", X: metres(g.Float(0, 7)), Y: metres(g.Float(-0.5, 0.5))}
		first := g.Pick(len(states))
		turns, err := statics.BreakEven(tr, fixed, vary, states[first:], part, limits)
		if err != nil {
			return err
		}
		for i := range turns {
			turns[i].Case.State += first
		}
		var got []statics.Turn
		if err := kept.BreakEven(part, first, len(states), func(t statics.Turn) { got = append(got, t) }); err != nil {
			return err
		}
		// Round-off of sums in another order: a turn is a quotient of two of them.
		near := cmp.Comparer(func(a, b units.Mass) bool { return math.Abs(float64(a-b)) <= 1e-9*(1+math.Abs(float64(a))) })
		if !cmp.Equal(got, turns, near) {
			return fmt.Errorf("kept %+v, anew %+v", got, turns)
		}
		if err := kept.BreakEven(part, 0, len(states)+1, func(statics.Turn) {}); err == nil {
			return fmt.Errorf("a state that is not listed passes")
		}
		for range 2 {
			mover := statics.Mover{Name: "m", Masses: []string{names[g.Pick(len(names))]}, Forward: units.Length(g.Float(0, 3)), Back: units.Length(g.Float(0, 3))}
			want, err := statics.PassingShifts(tr, fixed, vary, states, mover, limits)
			if err != nil {
				return err
			}
			if got, err := kept.PassingShifts(mover); err != nil || got != want {
				return fmt.Errorf("kept %+v, %v; anew %+v", got, err, want)
			}
			all, err := statics.PassingShifts(tr, fixed, vary, nil, mover, limits)
			if err != nil {
				return err
			}
			// Limits may be missed by a nanometre of moment arm at the greatest total; a
			// mass of a gram in tonnes makes kilometres of it.
			share := float64(1)
			for _, l := range [...]units.Mass{x.Total.Most.Value} {
				for i := range fixed {
					if fixed[i].Name == mover.Masses[0] {
						share = min(share, float64(fixed[i].Mass/l))
					}
				}
				for i := range vary {
					if vary[i].Name == mover.Masses[0] {
						share = min(share, float64(vary[i].Least/l))
					}
				}
			}
			if share < 1e-3 {
				continue
			}
			near := func(a, b units.Length) bool { return a-b < 1e-4 && b-a < 1e-4 }
			if want.Possible != all.Possible && !near(want.Forward, want.Back) && !near(all.Forward, all.Back) || want.Possible && all.Possible && !(near(want.Forward, all.Forward) && near(want.Back, all.Back)) {
				return fmt.Errorf("states %+v, corners %+v", want, all)
			}
		}
		return nil
	})
}

// A kept Layout visits the pairs that Distances visits, the bound it asks with is never
// above the distance, and what nobody wants is not visited.
func TestLayout_kept(t *testing.T) {
	var kept statics.Layout
	property.Check(t, func(g *property.G) error {
		blocks := []statics.Block{randomBlock(g, "a"), randomBlock(g, "c"), randomBlock(g, "b")}
		zones := []statics.Zone{randomZone(g), randomZone(g)}
		zones[1].Name, zones[1].Owner = "other", "a"
		var want []statics.Clash
		if err := statics.Distances(blocks, zones, func(c statics.Clash) { want = append(want, c) }); err != nil {
			return err
		}
		if err := kept.Set(blocks, zones); err != nil {
			return err
		}
		var got []statics.Clash
		var least units.Length
		above := error(nil)
		kept.Distances(func(_, _ int, d units.Length) bool { least = d; return true }, func(i, j int, c statics.Clash) {
			if least > c.Distance {
				above = fmt.Errorf("bound %v of %+v", least, c)
			}
			second := ""
			if j < len(blocks) {
				second = blocks[j].Name
			} else {
				second = zones[j-len(blocks)].Name
			}
			if first := blocks[i].Name; min(first, second) != min(c.A, c.B) || max(first, second) != max(c.A, c.B) {
				above = fmt.Errorf("pair %d, %d is %+v", i, j, c)
			}
			got = append(got, c)
		})
		if above != nil {
			return above
		}
		if !slices.Equal(got, want) {
			return fmt.Errorf("kept %+v, anew %+v", got, want)
		}
		calls := 0
		kept.Distances(func(_, _ int, d units.Length) bool { return d <= 0.1 }, func(_, _ int, c statics.Clash) {
			if c.Distance <= 0.1 {
				calls++
			}
		})
		near := 0
		for _, c := range want {
			if c.Distance <= 0.1 {
				near++
			}
		}
		if calls != near {
			return fmt.Errorf("%d of %d near pairs visited", calls, near)
		}
		deck := randomBlock(g, "deck")
		over, err := statics.Overhangs(deck, blocks)
		if err != nil {
			return err
		}
		n := 0
		if err := kept.Overhangs(deck, func(i int, c statics.Clash) {
			if c.A == blocks[i].Name && slices.Contains(over, c) {
				n++
			}
		}); err != nil || n != len(over) {
			return fmt.Errorf("%d overhangs of %d, %v", n, len(over), err)
		}
		return nil
	})
}

// The answers of what was set are asked in every assessment.
func TestKept_allocations(t *testing.T) {
	r := demo("B")
	masses := make([]units.Mass, len(r.liquids))
	states := [][]units.Mass{masses}
	limits := statics.Limits{Ratings: demoRatings()}
	r.trailer.Track = units.Length(1.5)
	box := statics.Vessel{Shape: statics.Box, Length: 1, Width: 1, Height: 1}
	tanks := []statics.Filling{{Tank: statics.Tank{Name: "t", Density: 1000, Vessel: box, X: metres(3), Y: metres(0), Floor: metres(0.5)}, Most: 1}}
	for i := range r.fixed {
		r.fixed[i].Y, r.fixed[i].Z = metres(0), metres(1)
	}
	mover := statics.Mover{Name: "m", Masses: []string{r.fixed[0].Name}, Back: 1}
	var tip statics.Tipping
	var envelope statics.Envelope
	var parking statics.Parking
	var placer statics.Placer
	levels := []units.Ratio{0.5}
	all := func() {
		for _, err := range [...]error{
			tip.Set(r.trailer, r.fixed, nil, tanks), envelope.Set(r.trailer, r.fixed, r.liquids),
			parking.Set(r.trailer, r.fixed, r.liquids, metres(0.1), units.Position{}), placer.Set(r.trailer, r.fixed, r.liquids, states, limits),
		} {
			if err != nil {
				t.Fatal(err)
			}
		}
		tip.Worst()
		_, err := tip.At(nil, levels)
		_, err2 := placer.PassingShifts(mover)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
	}
	if n := testing.AllocsPerRun(10, all); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// A Suspending answers what Suspend answers, from the loads of equalised axles.
func TestSuspending_kept(t *testing.T) {
	var kept statics.Suspending
	property.Check(t, func(g *property.G) error {
		tr, masses, _ := randomTrailer(g, 0)
		aft(tr, masses, nil)
		s := randomSuspension(g, tr.Axles)
		want, err := statics.Suspend(tr, masses, s)
		l, err2 := statics.Balance(tr, masses)
		if err2 != nil {
			return err2
		}
		if err2 := kept.Set(tr, s); err2 != nil {
			return err2
		}
		got, err2 := kept.At(l)
		if (err == nil) != (err2 == nil) || err == nil && !cmp.Equal(got, want) {
			return fmt.Errorf("kept %+v, %v; anew %+v, %v", got, err2, want, err)
		}
		return nil
	})
}
