package rig

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/washrig/internal/water"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// staticsIn is what the weights depend on.
type staticsIn struct {
	work
	axes        *axisSet
	present     bool // on a trailer
	carried     bool // in the vehicle itself, without a trailer
	trailer     statics.Trailer
	independent bool // axles that spring each by itself, on springs
	springs     statics.Suspension
	fixed       []statics.Mass
	liquids     []statics.Varying // water by tank, then fuel by fuel tank
	density     []units.Density
	fills       []fillState
	contents    []string
	joined      [][2]int // tanks with an open crossover between them
	vehicle     units.Mass
	tankIDs     []string
	byName      []int // liquids in the order of names, in which a vehicle's load is summed
}

func (m *Model) staticsInput() staticsIn {
	in := weightsOf(m.spec)
	in.axes, in.fills = m.axes, m.fills
	return in
}

// weightsOf reads everything that weighs, in no fill state yet.
func weightsOf(s *Spec) staticsIn {
	in := staticsIn{present: s.Trailer != nil, carried: s.Trailer == nil && s.TowVehicle != nil}
	full := in.carried // nothing says that a van travels with empty hoses
	if t := s.Trailer; t != nil {
		full = t.HosesTravel == "full"
		in.trailer = statics.Trailer{Coupler: t.Coupler, AxleGroup: t.AxleGroup, Axles: t.Axles, Spacing: t.AxleSpacing, Track: t.Track, Tyres: t.TyresPerEnd, CouplerHeight: t.CouplerHeight}
		if t.Suspension == "independent" {
			in.independent = true
			in.springs.Ball = t.CouplerHeight - t.FreeHeight
			for range t.Axles {
				in.springs.Springs = append(in.springs.Springs, statics.Spring{Load: t.SpringLoad, Travel: t.SpringTravel})
			}
		}
	}
	for _, c := range components(s) {
		if c.weighs() {
			in.fixed = append(in.fixed, statics.Mass{Name: string(c.path), Mass: c.stock.Mass, X: c.stock.X, Y: c.stock.Y, Z: c.stock.Z})
		}
	}
	rho := waterDensity(s)
	for i := range s.Chemicals {
		c := &s.Chemicals[i]
		if x, y, z := placeOf(s, &c.Stock); c.Carried != 0 && (x.Given() || in.carried) {
			in.fixed = append(in.fixed, statics.Mass{Name: "chemicals[" + c.ID + "] carried", Mass: mass(c.Carried, c.densityIn(rho)), X: x, Y: y, Z: z})
		}
	}
	if full {
		for _, h := range hoses(s) {
			if v, err := statics.PipeContents(h.bore, h.length); err == nil && (h.place.Given() || in.carried) {
				in.fixed = append(in.fixed, statics.Mass{Name: h.list + "[" + h.id + "] water", Mass: mass(v, rho), X: h.place, Y: h.y, Z: h.z})
			}
		}
	}
	// Sums run in the order of names; in that order already they need no sorting.
	slices.SortStableFunc(in.fixed, func(a, b statics.Mass) int { return strings.Compare(a.Name, b.Name) })
	index := map[string]int{}
	for i := range s.Tanks {
		k := &s.Tanks[i]
		index[k.ID] = i
		in.tankIDs = append(in.tankIDs, k.ID)
		in.contents = append(in.contents, k.Contents)
		d := densityIn(k, rho)
		in.liquids = append(in.liquids, statics.Varying{Name: "tanks[" + k.ID + "]", Most: mass(k.Nominal, d), X: k.X, Y: k.Y, Z: k.Z})
		in.density = append(in.density, d)
	}
	for i := range s.FuelTanks {
		k := &s.FuelTanks[i]
		in.liquids = append(in.liquids, statics.Varying{Name: "fuel_tanks[" + k.ID + "]", Most: mass(k.Volume, k.Density), X: k.X, Y: k.Y, Z: k.Z})
		in.density = append(in.density, k.Density)
	}
	if in.carried {
		in.byName = inOrder(in.liquids, func(l *statics.Varying) string { return l.Name })
	}
	for _, c := range s.Crossovers {
		if c.Valve == "open" {
			in.joined = append(in.joined, [2]int{index[c.From], index[c.To]})
		}
	}
	if s.TowVehicle != nil {
		in.vehicle = s.TowVehicle.CurbAndCrew
	}
	return in
}

// waterDensity is the density of the supplied water at one atmosphere.
func waterDensity(s *Spec) units.Density {
	if d, err := water.Density(101325, s.Site.Water.Kelvin()); err == nil {
		return units.Density(d)
	}
	return 1000
}

// densityIn is the density of a chemical as supplied.
func (c *Chemical) densityIn(water units.Density) units.Density {
	if c.Density != 0 {
		return c.Density
	}
	return water
}

// densityIn is the density of what a tank holds.
func densityIn(k *Tank, water units.Density) units.Density {
	if k.Density != 0 {
		return k.Density
	}
	return water
}

// filled returns the liquid of every tank in a fill state, in the order of
// liquids.
func (in *staticsIn) filled(i int) []units.Mass {
	return in.filledInto(make([]units.Mass, 0, len(in.liquids)), i)
}

// filledInto is filled written over load.
func (in *staticsIn) filledInto(load []units.Mass, i int) []units.Mass {
	f := &in.fills[i]
	load = load[:0]
	for k := range f.water {
		load = append(load, units.Mass(f.water[k]*float64(in.density[k])))
	}
	for k := range f.fuel {
		j := len(f.water) + k
		load = append(load, units.Mass(f.fuel[k]*float64(in.density[j])))
	}
	for len(load) < len(in.liquids) {
		load = append(load, 0)
	}
	return load
}

// masses returns everything that weighs in a fill state.
func (in *staticsIn) masses(i int) []statics.Mass {
	out := append([]statics.Mass(nil), in.fixed...)
	for k, m := range in.filled(i) {
		l := &in.liquids[k]
		out = append(out, statics.Mass{Name: l.Name, Mass: m, X: l.X, Y: l.Y, Z: l.Z})
	}
	return out
}

// solvable reports whether there is anything to weigh and to rest it on.
func (in *staticsIn) solvable() bool {
	return in.present && len(in.fixed) > 0 && in.trailer.AxleGroup.Given()
}

func mass(v units.Volume, d units.Density) units.Mass { return units.Mass(float64(v) * float64(d)) }

// staticsRoom is what solving the block needs besides.
type staticsRoom struct {
	envelope statics.Envelope
	springs  statics.Suspending
	load     []units.Mass
}

// solveStatics returns the weights of every fill state, on a trailer or in the
// vehicle, and what its open crossovers mix.
func solveStatics(in *staticsIn) ([]*numbers, error) {
	if !in.solvable() && !in.carried && len(in.joined) == 0 {
		return nil, nil
	}
	states := in.room(len(in.fills))
	for i := range in.fills {
		states = append(states, State{set: in.axes}.with(AxisFill, i+1))
	}
	n := in.newNumbers(states)
	if in.solvable() {
		if err := in.onTrailer(scratch[staticsRoom](in.w), n); err != nil {
			return nil, err
		}
	}
	if in.carried {
		in.inVehicle(scratch[staticsRoom](in.w), n)
	}
	in.mixed(n)
	return in.out(n), nil
}

// onTrailer writes the weights of the trailer.
func (in *staticsIn) onTrailer(room *staticsRoom, n *numbers) error {
	env := &room.envelope
	if err := env.Set(in.trailer, in.fixed, in.liquids); err != nil {
		return err
	}
	if in.independent {
		if err := room.springs.Set(in.trailer, in.springs); err != nil {
			return units.At("trailer", err)
		}
	}
	for _, m := range [...]*Metric{mTotal, mTongue, mTongueShare, mGroup, mAxle, mCombination, mLeft, mRight, mImbalance, mTyre, mCentreAft, mCentreLeft} {
		n.row(m, "")
	}
	if in.independent {
		n.row(mNose, "")
		for k := range in.trailer.Axles {
			for _, m := range [...]*Metric{mAxleEach, mAxleLeft, mAxleRight} {
				n.row(m, axlePart(k))
			}
		}
	}
	total, tongue, share, axle, comb := n.of(mTotal, ""), n.of(mTongue, ""), n.of(mTongueShare, ""), n.of(mAxle, ""), n.of(mCombination, "")
	group, aft, across := n.of(mGroup, ""), n.of(mCentreAft, ""), n.of(mCentreLeft, "")
	left, right, imbalance, tyre := n.of(mLeft, ""), n.of(mRight, ""), n.of(mImbalance, ""), n.of(mTyre, "")
	for i := range in.fills {
		f := &in.fills[i]
		room.load = in.filledInto(room.load, i)
		l, err := env.At(room.load)
		if err != nil {
			return err
		}
		total[i], tongue[i], share[i], axle[i] = float64(l.Total), float64(l.Tongue), float64(l.Share), float64(l.Axle)
		group[i], aft[i] = float64(l.Group), float64(l.CenterX.Length()-in.trailer.Coupler.Length())
		if l.CenterY.Given() {
			across[i] = float64(l.CenterY.Length())
		}
		if l.SidesKnown {
			left[i], right[i], tyre[i] = float64(l.Left), float64(l.Right), float64(l.Tyre)
			if l.Group > 0 {
				imbalance[i] = math.Abs(float64(l.Left-l.Right)) / float64(l.Group)
			}
		}
		if in.independent {
			if err := in.suspend(room, n, i, l); err != nil {
				return fmt.Errorf("fill state %s: %w", f.name, units.At("trailer", err))
			}
		}
		if in.vehicle != 0 {
			comb[i] = float64(l.Total + in.vehicle)
		}
	}
	return nil
}

// inVehicle writes what the vehicle carries where there is no trailer.
func (in *staticsIn) inVehicle(room *staticsRoom, n *numbers) {
	room.load = slices.Grow(room.load[:0], len(in.liquids))
	n.row(mVehicleLoad, "")
	row := n.of(mVehicleLoad, "")
	for i := range in.fills {
		row[i] = in.load(room.load[:0], i)
	}
}

// load is everything that weighs in a fill state, in the order of names.
func (in *staticsIn) load(room []units.Mass, i int) float64 {
	kg, held := in.dry(), in.filledInto(room, i)
	for _, k := range in.byName {
		kg += float64(held[k])
	}
	return kg
}

// dry is everything that weighs, without what the tanks hold.
func (in *staticsIn) dry() (kg float64) {
	for i := range in.fixed {
		kg += float64(in.fixed[i].Mass)
	}
	return kg
}

// mixed writes what open crossovers mix.
func (in *staticsIn) mixed(n *numbers) {
	for _, id := range in.tankIDs {
		n.row(mMixed, id)
	}
	for k, id := range in.tankIDs {
		row := n.of(mMixed, id)
		for i := range in.fills {
			f := &in.fills[i]
			row[i] = 0
			for _, j := range in.joined {
				a, b := j[0], j[1]
				if (a == k || b == k) && in.contents[a] != in.contents[b] && f.water[a]+f.water[b] > 0 {
					row[i] = f.water[k]
				}
			}
		}
	}
}

// axlePart names an axle, of which there are at most six.
func axlePart(k int) string { return "123456"[k : k+1] }

// suspend writes what independent axles carry in a fill state, in place of what
// equalised ones would.
func (in *staticsIn) suspend(room *staticsRoom, n *numbers, i int, l statics.Loads) error {
	s, err := room.springs.At(l)
	if err != nil {
		return err
	}
	n.of(mTongue, "")[i], n.of(mTongueShare, "")[i], n.of(mNose, "")[i] = float64(s.Tongue), float64(s.Share), levelled(s.Nose)
	n.of(mGroup, "")[i] = float64(s.Group)
	ends := float64(max(in.trailer.Tyres, 1))
	var heaviest, tyre, left, right float64
	for k, a := range s.Axles {
		n.of(mAxleEach, axlePart(k))[i] = float64(a.Load)
		if s.SidesKnown {
			n.of(mAxleLeft, axlePart(k))[i], n.of(mAxleRight, axlePart(k))[i] = float64(a.Left), float64(a.Right)
		}
		heaviest = max(heaviest, float64(a.Load))
		tyre = max(tyre, float64(a.Left)/ends, float64(a.Right)/ends)
		left, right = left+float64(a.Left), right+float64(a.Right)
	}
	n.of(mAxle, "")[i] = heaviest
	if s.SidesKnown && s.Group > 0 {
		n.of(mLeft, "")[i], n.of(mRight, "")[i], n.of(mTyre, "")[i] = left, right, tyre
		n.of(mImbalance, "")[i] = math.Abs(left-right) / float64(s.Group)
	}
	return nil
}

// levelled is an inclination without the noise of the balance: a level frame is level.
func levelled(nose units.Angle) float64 {
	if math.Abs(float64(nose)) < 1e-12 {
		return 0
	}
	return float64(nose)
}
