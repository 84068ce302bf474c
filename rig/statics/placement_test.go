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

// named gives every mass a name of its own, so that movers can tell them apart.
func named(fixed []statics.Mass, vary []statics.Varying) (names []string) {
	for i := range fixed {
		fixed[i].Name = fmt.Sprint("f", i)
		names = append(names, fixed[i].Name)
	}
	for i := range vary {
		vary[i].Name = fmt.Sprint("v", i)
		names = append(names, vary[i].Name)
	}
	return names
}

// shifted returns the trailer with its movers shifted.
func shifted(tr statics.Trailer, fixed []statics.Mass, vary []statics.Varying, movers []statics.Mover, d []units.Length) (statics.Trailer, []statics.Mass, []statics.Varying) {
	fixed, vary = slices.Clone(fixed), slices.Clone(vary)
	for k, m := range movers {
		if m.Axle {
			tr.AxleGroup = tr.AxleGroup.Add(d[k])
		}
		for i := range fixed {
			if slices.Contains(m.Masses, fixed[i].Name) {
				fixed[i].X = fixed[i].X.Add(d[k])
			}
		}
		for i := range vary {
			if slices.Contains(m.Masses, vary[i].Name) {
				vary[i].X = vary[i].X.Add(d[k])
			}
		}
	}
	return tr, fixed, vary
}

// randomMovers lets one or two parts move, perhaps the axle group with one.
func randomMovers(g *property.G, names []string) []statics.Mover {
	movers := make([]statics.Mover, 1+g.Pick(2))
	perm := g.Perm(len(names))
	for k := range movers {
		movers[k] = statics.Mover{
			Name: fmt.Sprint("m", k), Forward: units.Length(g.Float(0, 1.5)), Back: units.Length(g.Float(0, 1.5)), Cost: g.Float(0.1, 3),
		}
		if k < len(perm) {
			movers[k].Masses = []string{names[perm[k]]}
		} else {
			movers[k].Axle = true
		}
	}
	if g.Bool() {
		movers[0].Axle = true
		for k := range movers[1:] {
			movers[k+1].Axle = false
			if movers[k+1].Masses == nil {
				return movers[:1]
			}
		}
	}
	return movers
}

// worstMargin is the least margin over all corners, each a state of its own, by
// Corners; -Inf where a trailer cannot be summed.
func worstMargin(tr statics.Trailer, fixed []statics.Mass, vary []statics.Varying, l statics.Limits) float64 {
	x, err := statics.Corners(tr, fixed, vary)
	if err != nil {
		return math.Inf(-1)
	}
	return keeps(x, l)
}

// The cheapest placement against a grid of placements: it keeps every limit, it
// stays within reach, no grid point that keeps them is cheaper; and where none is
// said to exist no grid point keeps them all, the closest comes as close as said,
// and no grid point comes closer.
func TestPlace_bruteForce(t *testing.T) {
	possible, impossible := 0, 0
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 2)
		names := named(fixed, vary)
		x, err := statics.Corners(tr, fixed, vary)
		if err != nil {
			return err
		}
		if x.Group.Least.Value < 0 || x.Tongue.Most.Value < 0 {
			return property.ErrDiscard // a rating of a load that lifts says nothing
		}
		limits := randomLimits(g, tr, x)
		movers := randomMovers(g, names)
		p, err := statics.Place(tr, fixed, vary, nil, movers, limits)
		if err != nil {
			return err
		}
		cost := 0.0
		for k, d := range p.Shifts {
			cost += movers[k].Cost * math.Abs(float64(d))
			if d < -movers[k].Forward-1e-9 || d > movers[k].Back+1e-9 {
				return fmt.Errorf("%s beyond its reach: %v", movers[k].Name, d)
			}
		}
		if math.Abs(cost-p.Cost) > 1e-9 {
			return fmt.Errorf("cost %g, by its shifts %g", p.Cost, cost)
		}
		t2, f2, v2 := shifted(tr, fixed, vary, movers, p.Shifts)
		got := worstMargin(t2, f2, v2, limits)
		// 1e-9 m of arm at the greatest total, as a share of limits that may be a
		// thousandth of it on a base of 2 m.
		const tol = 1e-6
		if p.Possible {
			possible++
			if got < -tol {
				return fmt.Errorf("said to keep all limits, misses one by %g", -got)
			}
			if cost > 1e-9 && len(p.Binding) == 0 {
				return fmt.Errorf("moved for no limit: %+v", p)
			}
		} else {
			impossible++
			if math.Abs(got+float64(p.Short)) > tol*(1+float64(p.Short)) {
				return fmt.Errorf("said to come within %v, comes within %g", p.Short, -got)
			}
			if err := provesIt(tr, fixed, vary, movers, limits, p); err != nil {
				return err
			}
		}
		const steps = 12
		points := 1
		for range movers {
			points *= steps + 1
		}
		d := make([]units.Length, len(movers))
		for i := range points {
			c := 0.0
			for q, k := i, 0; k < len(movers); q, k = q/(steps+1), k+1 {
				d[k] = -movers[k].Forward + (movers[k].Forward+movers[k].Back)*units.Length(q%(steps+1))/steps
				c += movers[k].Cost * math.Abs(float64(d[k]))
			}
			t2, f2, v2 := shifted(tr, fixed, vary, movers, d)
			m := worstMargin(t2, f2, v2, limits)
			if p.Possible && m >= 0 && c < p.Cost-1e-6 {
				return fmt.Errorf("cost %g said to be least, %v costs %g", p.Cost, d, c)
			}
			if !p.Possible && m > -float64(p.Short)+tol*(1+float64(p.Short)) {
				return fmt.Errorf("said to be short by %v, but %v is short by %g", p.Short, d, -m)
			}
		}
		return nil
	})
	if possible == 0 || impossible == 0 {
		t.Errorf("%d possible, %d impossible: one side was not tried", possible, impossible)
	}
}

// provesIt checks a proof: the limits and fills it names contradict each other by
// themselves, and go on doing so when the movers it does not name get more reach.
func provesIt(tr statics.Trailer, fixed []statics.Mass, vary []statics.Varying, movers []statics.Mover, limits statics.Limits, p statics.Placement) error {
	var states [][]units.Mass
	var few statics.Limits
	for _, c := range p.Proof {
		s := make([]units.Mass, len(vary))
		for i, v := range vary {
			s[i] = v.Least
			if c.At.Most(i) {
				s[i] = v.Most
			}
		}
		states = append(states, s)
		for _, r := range limits.Ratings {
			if r.Name == c.Limit && r.On == c.On {
				few.Ratings = append(few.Ratings, r)
			}
		}
		switch c.Limit {
		case statics.NameShareLeast:
			few.ShareLeast = limits.ShareLeast
		case statics.NameShareMost:
			few.ShareMost = limits.ShareMost
		}
	}
	if states == nil {
		return fmt.Errorf("no proof: %+v", p)
	}
	free := slices.Clone(movers)
	for k := range free {
		if !free[k].Axle && !slices.Contains(p.Stops, free[k].Name) {
			free[k].Forward += 30
			free[k].Back += 30
		}
	}
	again, err := statics.Place(tr, fixed, vary, states, free, few)
	if err != nil {
		return err
	}
	if again.Possible {
		return fmt.Errorf("said to contradict each other, but %+v keeps them: %+v, %v", again, p.Proof, p.Stops)
	}
	return nil
}

// Listed states ask less than all corners; the corners listed as states ask the same.
func TestPlace_states(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 3)
		names := named(fixed, vary)
		x, err := statics.Corners(tr, fixed, vary)
		if err != nil {
			return err
		}
		if x.Group.Least.Value < 0 || x.Tongue.Most.Value < 0 {
			return property.ErrDiscard
		}
		limits := randomLimits(g, tr, x)
		movers := randomMovers(g, names)
		var states [][]units.Mass
		for c := range statics.Corner(1) << len(vary) {
			s := make([]units.Mass, len(vary))
			for i, v := range vary {
				s[i] = v.Least
				if c.Most(i) {
					s[i] = v.Most
				}
			}
			states = append(states, s)
		}
		all, err := statics.Place(tr, fixed, vary, nil, movers, limits)
		if err != nil {
			return err
		}
		listed, err := statics.Place(tr, fixed, vary, states, movers, limits)
		if err != nil {
			return err
		}
		if all.Possible != listed.Possible || math.Abs(all.Cost-listed.Cost) > 1e-5*(1+all.Cost) && all.Possible || math.Abs(float64(all.Short-listed.Short)) > 1e-6*(1+float64(all.Short)) {
			return fmt.Errorf("corners %+v\nlisted %+v", all, listed)
		}
		one, err := statics.Place(tr, fixed, vary, states[:1], movers, limits)
		if err != nil {
			return err
		}
		if all.Possible && (!one.Possible || one.Cost > all.Cost+1e-6) || float64(one.Short) > float64(all.Short)+1e-6 {
			return fmt.Errorf("one state costs more than all: %+v against %+v", one, all)
		}
		return nil
	})
}

// Two tanks that may stand anywhere together, and a dry mass that may stand
// anywhere, can be placed just as long as their spacing is within the criterion.
func TestPlace_twoTankCriterion(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		lo := units.Ratio(g.Float(0.05, 0.12))
		hi := lo + units.Ratio(g.Float(0.02, 0.08))
		axle := units.Length(g.Float(3, 6))
		dry := units.Mass(g.Float(1000, 2500))
		w1, w2 := units.Mass(g.Float(200, 1200)), units.Mass(g.Float(200, 1200))
		s, err := statics.TwoTankSpacing(lo, hi, axle, dry, min(w1, w2))
		if err != nil {
			return err
		}
		for _, k := range []float64{0.999, 1.001} {
			gap := float64(s) * k
			tr := statics.Trailer{AxleGroup: units.PositionAt(axle), Axles: 2}
			front, rear := w1, w2
			if g.Bool() {
				front, rear = w2, w1
			}
			p, err := statics.Place(tr,
				[]statics.Mass{{Name: "dry", Mass: dry, X: metres(float64(axle))}},
				[]statics.Varying{{Name: "front", Most: front, X: metres(float64(axle) - gap/2)}, {Name: "rear", Most: rear, X: metres(float64(axle) + gap/2)}},
				nil,
				[]statics.Mover{{Name: "dry", Masses: []string{"dry"}, Forward: 20, Back: 20}, {Name: "pair", Masses: []string{"front", "rear"}, Forward: 20, Back: 20}},
				statics.Limits{ShareLeast: lo, ShareMost: hi})
			if err != nil {
				return err
			}
			if p.Possible != (k < 1) {
				return fmt.Errorf("spacing %g × the criterion: possible %v, short by %v", k, p.Possible, p.Short)
			}
		}
		return nil
	})
}

// PassingShifts against a grid of shifts.
func TestPassingShifts_bruteForce(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, vary := randomTrailer(g, 3)
		names := named(fixed, vary)
		x, err := statics.Corners(tr, fixed, vary)
		if err != nil {
			return err
		}
		limits := randomLimits(g, tr, x)
		mover := randomMovers(g, names)[0]
		got, err := statics.PassingShifts(tr, fixed, vary, nil, mover, limits)
		if err != nil {
			return err
		}
		movers := []statics.Mover{mover}
		margin := func(d units.Length) float64 {
			t2, f2, v2 := shifted(tr, fixed, vary, movers, []units.Length{d})
			return worstMargin(t2, f2, v2, limits)
		}
		const steps = 40
		for i := range steps + 1 {
			d := -mover.Forward + (mover.Forward+mover.Back)*units.Length(i)/steps
			m := margin(d)
			inside := got.Possible && d >= got.Forward-1e-12 && d <= got.Back+1e-12
			if inside && m < -1e-4 || !inside && m > 1e-4 {
				return fmt.Errorf("shift %v: margin %g, but passing %+v", d, m, got)
			}
		}
		if got.Possible {
			for _, end := range []struct {
				d    units.Length
				at   statics.Case
				stop units.Length
			}{{got.Forward, got.AtForward, -mover.Forward}, {got.Back, got.AtBack, mover.Back}} {
				m := margin(end.d)
				if m < -1e-4 || end.at.Limit != "" && m > 1e-4 || end.at.Limit == "" && math.Abs(float64(end.d-end.stop)) > 1e-12 {
					return fmt.Errorf("end %v at %+v: margin %g", end.d, end.at, m)
				}
			}
		}
		return nil
	})
}

func TestPlace_errors(t *testing.T) {
	tr := statics.Trailer{AxleGroup: feet(10), Axles: 1}
	frame := []statics.Mass{lb("frame", 1000, 9)}
	water := []statics.Varying{{Name: "water", Most: 100, X: feet(8)}}
	ok := statics.Limits{ShareLeast: 0.1}
	move := []statics.Mover{{Name: "water", Masses: []string{"water"}, Back: 1}}
	for _, c := range []struct {
		name     string
		states   [][]units.Mass
		movers   []statics.Mover
		limits   statics.Limits
		sentinel error
		want     []string
	}{
		{"no limits", nil, move, statics.Limits{}, units.ErrMissing, []string{"limits"}},
		{"tyres without sides", nil, move, statics.Limits{Ratings: []statics.Rating{{Name: "tyre", On: statics.OnTyre, Most: 1}}}, units.ErrMissing, []string{"ratings[tyre]"}},
		{"shares crossed", nil, move, statics.Limits{ShareLeast: 0.2, ShareMost: 0.1}, units.ErrConflict, []string{"shareLeast"}},
		{"shares out of range", nil, move, statics.Limits{ShareLeast: -0.2, ShareMost: units.Ratio(math.NaN())}, units.ErrRange, []string{"shareLeast", "shareMost"}},
		{"a state too short", [][]units.Mass{{}}, move, ok, units.ErrConflict, []string{"states[#1]"}},
		{"a negative state", [][]units.Mass{{1}, {-1}}, move, ok, units.ErrRange, []string{"states[#2][#1]"}},
		{"moves nothing", nil, []statics.Mover{{Name: "air"}}, ok, units.ErrMissing, []string{"movers[air].masses"}},
		{"moves what is not there", nil, []statics.Mover{{Name: "m", Masses: []string{"box"}}}, ok, units.ErrRange, []string{"movers[m].masses"}},
		{"moved twice", nil, append(move, statics.Mover{Name: "again", Masses: []string{"water"}}), ok, units.ErrConflict, []string{"movers[again].masses"}},
		{"two axle groups", nil, []statics.Mover{{Name: "a", Axle: true}, {Name: "b", Axle: true}}, ok, units.ErrConflict, []string{"movers[b].axle"}},
		{"axles to the ball", nil, []statics.Mover{{Name: "a", Axle: true, Forward: 3}}, ok, units.ErrConflict, []string{"movers[a].forward"}},
		{"reach", nil, []statics.Mover{{Name: "a", Masses: []string{"water"}, Forward: -1, Back: units.Length(math.NaN()), Cost: -1}}, ok, units.ErrRange, []string{"movers[a].forward", "movers[a].back", "movers[a].cost"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := statics.Place(tr, frame, water, c.states, c.movers, c.limits)
			if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
				t.Errorf("fields (-want +got):\n%s", d)
			}
		})
	}
	_, err := statics.TwoTankSpacing(0.2, 0.1, 0, 0, units.Mass(math.NaN()))
	if d := cmp.Diff([]string{"hi", "axle", "dry", "smaller"}, fields(t, err, units.ErrRange)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
}

// No movers at all: Place only says whether the trailer keeps its limits.
func TestPlace_nothingMoves(t *testing.T) {
	r := demo("B")
	limits := statics.Limits{Ratings: demoRatings(), ShareLeast: 0.10, ShareMost: 0.15}
	p, err := statics.Place(r.trailer, r.fixed, r.liquids, nil, nil, limits)
	if err != nil || !p.Possible || p.Cost != 0 {
		t.Errorf("rig B: %+v, %v", p, err)
	}
	r = demo("D")
	p, err = statics.Place(r.trailer, r.fixed, r.liquids, nil, nil, limits)
	// 3.84 % of at least 10 %: short by 61.6 % of the limit.
	if err != nil || p.Possible || math.Abs(float64(p.Short)-0.616) > 5e-4 || len(p.Stops) != 0 {
		t.Errorf("rig D: %+v, %v", p, err)
	}
}

func BenchmarkPlace(b *testing.B) {
	r := demo("D")
	limits := statics.Limits{Ratings: demoRatings(), ShareLeast: 0.10, ShareMost: 0.15}
	movers := demoMovers(6 * units.Foot)
	for b.Loop() {
		if _, err := statics.Place(r.trailer, r.fixed, r.liquids, nil, movers, limits); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPassingShifts(b *testing.B) {
	r := demo("B")
	limits := statics.Limits{Ratings: demoRatings(), ShareLeast: 0.10, ShareMost: 0.15}
	mover := demoMovers(6 * units.Foot)[1]
	for b.Loop() {
		if _, err := statics.PassingShifts(r.trailer, r.fixed, r.liquids, nil, mover, limits); err != nil {
			b.Fatal(err)
		}
	}
}

// FuzzPlace: whatever is given, an error or shifts within reach; it always ends.
func FuzzPlace(f *testing.F) {
	f.Add(4.0, 1000.0, 3.5, 900.0, 3.0, 500.0, 5.0, 1.0, 1.0, 0.5, 0.1, 0.15, 1500.0, 0.0)
	f.Add(4.0, 1e-9, 3.5, 1e5, 99.0, 1e-9, -99.0, 90.0, 90.0, 90.0, 0.999, 1.0, 1e-9, 1e5)
	f.Fuzz(func(t *testing.T, group, m, x, w1, x1, w2, x2, back, forward, axle, lo, hi, most, beside float64) {
		movers := []statics.Mover{
			{Name: "a", Masses: []string{"a"}, Back: units.Length(back), Forward: units.Length(forward)},
			{Name: "axle", Axle: true, Back: units.Length(axle), Cost: 2},
		}
		p, err := statics.Place(statics.Trailer{AxleGroup: metres(group), Axles: 2},
			[]statics.Mass{{Name: "frame", Mass: units.Mass(m), X: metres(x)}},
			[]statics.Varying{{Name: "a", Most: units.Mass(w1), X: metres(x1)}, {Name: "b", Most: units.Mass(w2), X: metres(x2)}},
			nil, movers,
			statics.Limits{ShareLeast: units.Ratio(lo), ShareMost: units.Ratio(hi), Ratings: []statics.Rating{{Name: "plate", On: statics.OnTotal, Most: units.Mass(most), Beside: units.Mass(beside)}}})
		if err != nil {
			return
		}
		if math.IsNaN(p.Cost) || math.IsInf(p.Cost, 0) || math.IsNaN(float64(p.Short)) || math.IsInf(float64(p.Short), 0) {
			t.Errorf("%+v", p)
		}
		for k, d := range p.Shifts {
			if !(d >= -movers[k].Forward-1e-6 && d <= movers[k].Back+1e-6) {
				t.Errorf("beyond its reach: %+v", p)
			}
		}
	})
}
