package rig

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// stabilityIn is what rollover, parking, placement, tie-down and clearances
// depend on.
type stabilityIn struct {
	work
	axes    *axisSet
	weights *staticsIn // of the block of weights
	listed  int        // fills that the specification lists; the corners come after them

	tanks      []statics.Tank // of water, with their forms
	fuelHome   []units.Mass   // by fuel tank
	tips       bool           // everything that tipping needs is given
	sides      Path           // what is missing to tell the sides apart
	untold     Path           // what is missing to say where it tips
	unplaced   []Path         // parts that are neither weighed nor placed
	jackRating units.Mass

	jack, tail units.Position
	ratings    []statics.Rating

	layout layout
	ties   []heldLoad

	hoses       []hose
	water       units.Density
	fuelIDs     []string
	unweighed   []unweighedPart
	vehicleLeft units.Mass // for a load in the vehicle itself
	byName      []int      // unweighed parts in the order of names, for a load in the vehicle
}

// heldLoad is what a tie-down holds, and how.
type heldLoad struct {
	id        string
	mass      units.Mass
	tie       statics.Tie
	strap     bool
	contained bool
}

// unweighedPart is a component whose mass nobody gave, where it stands, and
// what it is likely to weigh.
type unweighedPart struct {
	name string // as it stands in the paths of metrics
	path Path   // of the mass
	mass statics.Mass
	band Band
}

func (m *Model) stabilityInput(b *blocks) stabilityIn {
	s := m.spec
	all := components(s)
	in := stabilityIn{axes: m.axes, weights: &b.statics.in, listed: min(len(s.Fills), len(m.fills)), layout: layoutOf(s, all), hoses: hoses(s), water: waterDensity(s)}
	for i := range s.FuelTanks {
		k := &s.FuelTanks[i]
		in.fuelIDs = append(in.fuelIDs, k.ID)
		in.fuelHome = append(in.fuelHome, mass(k.Home, k.Density))
	}
	for i := range s.TieDowns {
		in.ties = append(in.ties, loadOf(s, all, &s.TieDowns[i]))
	}
	if in.weights.carried {
		if in.vehicleLeft = vehicleLeft(s.TowVehicle); in.vehicleLeft >= 0 {
			in.unweighed, _ = unweighedParts(s, all)
			in.byName = inOrder(in.unweighed, func(p *unweighedPart) string { return p.name })
		}
	}
	if s.Trailer == nil {
		return in
	}
	in.jack, in.tail = s.Trailer.Jack, tailOf(s.Trailer)
	in.tips, in.sides = sidesMissing(s, all, true) == "", sidesMissing(s, all, false)
	for i := range s.Tanks {
		k := &s.Tanks[i]
		t := statics.Tank{Name: "tanks[" + k.ID + "]", Nominal: k.Nominal, Density: in.weights.density[i], X: k.X, Y: k.Y, Floor: k.Floor, Baffles: k.Baffles}
		t.Vessel, _ = vesselOf(k)
		in.tanks = append(in.tanks, t)
	}
	in.ratings = ratingsOf(s, in.sides == "")
	in.jackRating = s.Trailer.JackRating
	in.untold = sidesMissing(s, all, true)
	in.unweighed, in.unplaced = unweighedParts(s, all)
	return in
}

// tailOf is the furthest aft that someone may stand.
func tailOf(t *Trailer) units.Position {
	if !t.Tail.Given() && t.DeckFront.Given() && t.DeckLength != 0 {
		if end := t.DeckFront.Add(t.DeckLength); end.Length()-t.AxleGroup.Length() >= 0.1 {
			return end
		}
	}
	return t.Tail
}

// sidesMissing names the first field without which the sides of the trailer
// cannot be told apart, or with tipping set, without which tipping cannot be
// computed. It is empty if nothing is missing.
func sidesMissing(s *Spec, all []stocked, tipping bool) Path {
	if s.Trailer == nil {
		return "trailer"
	}
	if s.Trailer.Track == 0 {
		return "trailer.track"
	}
	lacks := func(at Path, y, z units.Position, high bool) Path {
		switch {
		case !y.Given():
			return at + ".y"
		case tipping && high && !z.Given():
			return at + ".z"
		}
		return ""
	}
	for _, c := range all {
		if c.weighs() {
			if p := lacks(c.path, c.stock.Y, c.stock.Z, true); p != "" {
				return p
			}
		}
	}
	for i := range s.Tanks {
		k := &s.Tanks[i]
		at := Path("tanks[" + k.ID + "]")
		if p := lacks(at, k.Y, k.Z, false); p != "" {
			return p
		}
		if tipping && k.Shape == "" {
			return at + ".shape"
		}
		if tipping && !k.Floor.Given() {
			return at + ".floor"
		}
	}
	for i := range s.FuelTanks {
		k := &s.FuelTanks[i]
		if p := lacks(Path("fuel_tanks["+k.ID+"]"), k.Y, k.Z, true); p != "" {
			return p
		}
	}
	for i := range s.Chemicals {
		c := &s.Chemicals[i]
		if x, y, z := placeOf(s, &c.Stock); c.Carried != 0 && x.Given() {
			if p := lacks(Path("chemicals["+c.ID+"]"), y, z, true); p != "" {
				return p
			}
		}
	}
	if s.Trailer.HosesTravel == "full" {
		for _, h := range hoses(s) {
			if p := lacks(Path(h.list+"["+h.id+"]"), h.y, h.z, true); p != "" {
				return p
			}
		}
	}
	return ""
}

// ratingsOf lists every plate that a weight of the trailer is held against.
// The name of a rating is what a finding calls it. Tyres are among them where
// the sides are known.
func ratingsOf(s *Spec, sides bool) []statics.Rating {
	var out []statics.Rating
	add := func(name string, on statics.On, most, beside units.Mass) {
		if most > beside {
			out = append(out, statics.Rating{Name: name, On: on, Most: most, Beside: beside})
		}
	}
	t := &s.Trailer.Trailer
	add("gross rating of the trailer", statics.OnTotal, t.GrossRating, 0)
	add("rating of one axle", statics.OnAxle, t.AxleRating, 0)
	add("rating of the coupler", statics.OnTongue, t.CouplerRating, 0)
	add("heaviest trailer of the coupler", statics.OnTotal, t.CouplerTrailerRating, 0)
	if sides {
		add("rating of one tyre", statics.OnTyre, t.TyreRating, 0)
	}
	if v := s.TowVehicle; v != nil {
		add("rating of the hitch", statics.OnTongue, v.HitchRating, 0)
		add("heaviest trailer of the vehicle", statics.OnTotal, v.TrailerRating, 0)
		if v.CurbAndCrew != 0 {
			add("gross combination rating", statics.OnTotal, v.CombinationRating, v.CurbAndCrew)
			add("gross rating of the vehicle", statics.OnTongue, v.GrossRating, v.CurbAndCrew)
		}
		add("rating of the receiver", statics.OnTongue, v.ReceiverRating, 0)
		add("heaviest trailer of the receiver", statics.OnTotal, v.ReceiverTrailerRating, 0)
		add("heaviest trailer of the ball", statics.OnTotal, v.BallRating, 0)
		if v.Gear != 0 {
			add("payload rating of the vehicle", statics.OnTongue, v.PayloadRating, v.Gear)
		}
	}
	return out
}

// loadOf reads what a tie-down holds.
func loadOf(s *Spec, all []stocked, t *TieDown) heldLoad {
	h := heldLoad{id: t.ID, strap: t.Type == "strap", contained: t.Contained == "yes",
		tie: statics.Tie{Anchors: t.Anchors, Angle: t.Angle, Friction: t.Friction, Height: t.Height, Length: t.Length, Width: t.Width}}
	for _, p := range t.Holds {
		h.mass += heldMass(s, all, Path(p))
	}
	return h
}

// heldMass is the mass of a component with its tank full.
func heldMass(s *Spec, all []stocked, p Path) units.Mass {
	var m units.Mass
	for _, c := range all {
		if c.path == p && c.weighs() {
			m += c.stock.Mass
		}
	}
	for i := range s.Tanks {
		if k := &s.Tanks[i]; Path("tanks["+k.ID+"]") == p {
			m += mass(k.Nominal, densityIn(k, waterDensity(s)))
		}
	}
	for i := range s.FuelTanks {
		if k := &s.FuelTanks[i]; Path("fuel_tanks["+k.ID+"]") == p {
			m += mass(k.Volume, k.Density)
		}
	}
	return m
}

// stabilityRoom is what solving the block needs besides.
type stabilityRoom struct {
	tip     statics.Tipping
	parking statics.Parking
	dry     statics.Envelope
	placer  statics.Placer

	hoses  []hose
	load   []units.Mass
	levels []units.Ratio
	tanks  []statics.Filling
	fuel   []statics.Varying
	gauged []statics.Gauged
	order  []int
	name   [1]string

	day    []int
	masses []units.Mass // of the day's fills, one after another
	states [][]units.Mass
	fixed  []statics.Mass
	open   []statics.Growth
	growth []statics.GrowthState

	varying []statics.Varying
	ratings []statics.Rating
}

// solveStability returns the numbers of rollover, parking, placement, tie-down
// and clearances.
func solveStability(in *stabilityIn) ([]*numbers, error) {
	room := scratch[stabilityRoom](in.w)
	fixed := in.newNumbers(in.one(in.axes))
	put := func(m *Metric, part string, v float64) { fixed.row(m, part)[0] = v }
	in.contents(room, put)
	for i := range in.ties {
		if err := in.ties[i].solve(put); err != nil {
			return nil, fmt.Errorf("tie_downs[%s]: %w", in.ties[i].id, err)
		}
	}
	if err := in.layout.solve(in.w, put); err != nil {
		return nil, fmt.Errorf("zones: %w", err)
	}
	if in.weights.carried && len(in.unweighed) > 0 {
		return in.out(fixed, in.inVehicle(room)), nil
	}
	if !in.weights.solvable() || len(in.weights.fills) == 0 {
		return in.out(fixed), nil
	}
	if in.tips {
		if err := in.tipping(room); err != nil {
			return nil, err
		}
	}
	byFill, err := in.byFill(room)
	if err != nil {
		return nil, err
	}
	if in.tips {
		in.tipWorst(room, put)
	}
	if !in.weights.independent {
		if err := in.places(room, put); err != nil {
			return nil, err
		}
	}
	return in.out(fixed, byFill), nil
}

// contents writes what hoses, coils and burnt fuel weigh.
func (in *stabilityIn) contents(room *stabilityRoom, put func(*Metric, string, float64)) {
	var total float64
	room.hoses = append(room.hoses[:0], in.hoses...) // summed in the order of names
	slices.SortFunc(room.hoses, func(a, b hose) int {
		if c := strings.Compare(a.list, b.list); c != 0 {
			return c
		}
		return strings.Compare(a.id, b.id)
	})
	for i := range room.hoses {
		h := &room.hoses[i]
		v, err := statics.PipeContents(h.bore, h.length)
		if err != nil {
			continue // longer than 10 km; nothing to carry on a trailer
		}
		m := mHoseWater
		if h.list == "heaters" {
			m = mCoilWater
		}
		put(m, h.id, float64(v))
		total += float64(mass(v, in.water))
	}
	if len(in.hoses) > 0 {
		put(mLineWater, "", total)
	}
	for k, id := range in.fuelIDs {
		j := len(in.weights.tankIDs) + k
		if j >= len(in.weights.liquids) {
			break // no trailer
		}
		l := &in.weights.liquids[j]
		burned := float64(l.Most - in.fuelHome[k])
		put(mBurned, id, burned)
		if t := &in.weights.trailer; t.AxleGroup.Given() && l.X.Given() {
			put(mBurnShift, id, burned*float64(t.AxleGroup.Sub(l.X))/float64(t.AxleGroup.Sub(t.Coupler)))
		}
	}
}

// solve writes what one anchor of a tie-down has to bear.
func (h *heldLoad) solve(put func(*Metric, string, float64)) error {
	each := func(x statics.Hold) float64 { // tipping lifts the half of the anchors at the far edge
		up := float64(x.Uplift) / max(float64(h.tie.Anchors)/2, 1)
		if h.strap {
			up /= math.Sin(float64(h.tie.Angle))
		}
		return max(float64(x.Anchor), up)
	}
	worst := func(c statics.Criteria, dirs bool) (float64, error) {
		if h.contained {
			c.Upward = 0
		}
		x, err := statics.TieDown(h.mass, c, h.tie)
		if err != nil {
			return 0, err
		}
		forward, rearward, sideways, upward := each(x.Forward), each(x.Rearward), each(x.Sideways), float64(x.Upward.Anchor)
		if dirs {
			put(mPullForward, h.id, forward)
			put(mPullRearward, h.id, rearward)
			put(mPullSideways, h.id, sideways)
			if !h.contained {
				put(mPullUpward, h.id, upward)
			}
		}
		return max(forward, rearward, sideways, upward), nil
	}
	pull, err := worst(statics.FederalWorking(), true)
	if err != nil {
		return err
	}
	put(mPull, h.id, pull)
	if pull, err = worst(statics.FederalBreaking(), false); err != nil {
		return err
	}
	put(mPullBreaking, h.id, pull)
	return nil
}

// byFill returns the numbers that each fill state has: the trailer on its jack,
// where it tips, and how heavy what nobody weighed may be.
func (in *stabilityIn) byFill(room *stabilityRoom) (*numbers, error) {
	w := in.weights
	states := in.room(len(w.fills))
	for i := range w.fills {
		states = append(states, State{set: in.axes}.with(AxisFill, i+1))
	}
	n := in.newNumbers(states)
	if in.jack.Given() && !w.independent {
		n.row(mJack, "")
		if in.tail.Given() {
			n.row(mTailSpare, "")
		}
		if err := room.parking.Set(w.trailer, w.fixed, w.liquids, in.jack, in.tail); err != nil {
			return nil, err
		}
		onJack, onTail := n.of(mJack, ""), n.of(mTailSpare, "")
		for i := range w.fills {
			room.load = w.filledInto(room.load, i)
			jack, spare, err := room.parking.At(room.load)
			if err != nil {
				return nil, err
			}
			onJack[i] = float64(jack)
			if onTail != nil {
				onTail[i] = float64(spare)
			}
		}
	}
	if in.tips && in.listed > 0 {
		n.row(mTipOver, "")
		n.row(mSideSlope, "")
		n.row(mStability, "")
		over, slope, factor := n.of(mTipOver, ""), n.of(mSideSlope, ""), n.of(mStability, "")
		for i := range in.listed {
			s, err := in.tip(room, i)
			if err != nil {
				return nil, err
			}
			over[i], slope[i], factor[i] = float64(s.Threshold), float64(s.SideSlope), float64(s.Factor)
		}
	}
	if err := in.centreHeights(room, n.row(mCentreHeight, "")); err != nil {
		return nil, err
	}
	for k := range in.unweighed {
		if err := in.breakEven(room, n, k); err != nil {
			return nil, err
		}
	}
	return n, nil
}

// centreHeights writes how high the centre of mass is in every fill state in
// which everything that weighs has a height.
func (in *stabilityIn) centreHeights(room *stabilityRoom, row []float64) error {
	w := in.weights
	if err := room.dry.Set(w.trailer, w.fixed, nil); err != nil {
		return err
	}
	dry, err := room.dry.At(nil)
	if err != nil || !dry.CenterZ.Given() {
		return err
	}
	order, gauged := room.order[:0], room.gauged[:0] // summed in the order of names
	for k := range w.liquids {
		order = append(order, k)
		gauged = append(gauged, statics.Gauged{})
		if k < len(in.tanks) && in.tanks[k].Vessel.Shape != 0 && in.tanks[k].Floor.Given() {
			if gauged[k], err = in.tanks[k].Gauge(); err != nil {
				return err
			}
		}
	}
	slices.SortFunc(order, func(a, b int) int { return strings.Compare(w.liquids[a].Name, w.liquids[b].Name) })
	room.order, room.gauged = order, gauged
	for i := range w.fills {
		weight, moment, known := float64(dry.Total), float64(dry.Total)*float64(dry.CenterZ.Length()), true
		room.load = w.filledInto(room.load, i)
		for _, k := range order {
			m := room.load[k]
			if m == 0 {
				continue
			}
			z := w.liquids[k].Z
			if k < len(in.tanks) && in.tanks[k].Vessel.Shape != 0 && in.tanks[k].Floor.Given() {
				at, err := gauged[k].Load(in.level(i, k))
				if err != nil {
					return err
				}
				z = at.Z
			}
			weight, moment, known = weight+float64(m), moment+float64(m)*float64(z.Length()), known && z.Given()
		}
		if known {
			row[i] = moment / weight
		}
	}
	return nil
}

// level is how full a tank is in a fill state.
func (in *stabilityIn) level(fill, tank int) units.Ratio {
	return units.Ratio(min(in.weights.fills[fill].water[tank]/float64(in.tanks[tank].Nominal), 1))
}

// tipping sets up the trailer for the questions where it tips, over every level of
// every tank. Levels of tanks that an open crossover joins are searched apart, which
// covers every level they can have together.
func (in *stabilityIn) tipping(room *stabilityRoom) error {
	w := in.weights
	room.tanks, room.fuel = room.tanks[:0], room.fuel[:0]
	for k := range in.tanks {
		room.tanks = append(room.tanks, statics.Filling{Tank: in.tanks[k], Most: 1})
	}
	for k := range in.fuelIDs {
		v := w.liquids[len(in.tanks)+k]
		v.Least = in.fuelHome[k]
		room.fuel = append(room.fuel, v)
	}
	return room.tip.Set(w.trailer, w.fixed, room.fuel, room.tanks)
}

// tip returns where the trailer tips in one fill state.
func (in *stabilityIn) tip(room *stabilityRoom, i int) (statics.Stability, error) {
	room.load, room.levels = in.weights.filledInto(room.load, i), room.levels[:0]
	for k := range in.tanks {
		room.levels = append(room.levels, in.level(i, k))
	}
	return room.tip.At(room.load[len(in.tanks):], room.levels)
}

// tipWorst writes the least threshold over every level of every tank, and the
// fill it occurs at.
func (in *stabilityIn) tipWorst(room *stabilityRoom, put func(*Metric, string, float64)) {
	s := room.tip.Worst()
	put(mTipWorst, "", float64(s.Threshold))
	put(mSlopeWorst, "", float64(s.SideSlope))
	for k, id := range in.weights.tankIDs {
		put(mTipLevel, id, float64(s.Levels[k]))
	}
	for k, id := range in.fuelIDs {
		v := &room.fuel[k]
		level := v.Least
		if s.At.Most(k) {
			level = v.Most
		}
		if v.Most > 0 {
			put(mTipFuel, id, float64(level/v.Most))
		}
	}
}

// The band of tongue shares that placements and volumes are asked for. It is
// that of the codes tongue-share-low and tongue-share-high.
const (
	shareLeast units.Ratio = 0.10
	shareMost  units.Ratio = 0.15
	shareStop  units.Ratio = 0.05
)

// asked returns the fill states of the day, or with corners set, or if none is
// listed, every one.
func (in *stabilityIn) asked(corners bool) []int { return in.askedInto(nil, corners) }

// askedInto is asked written over list.
func (in *stabilityIn) askedInto(list []int, corners bool) []int {
	fills := in.weights.fills
	list = list[:0]
	for i := range fills {
		if fills[i].reach == Reachable && !corners {
			list = append(list, i)
		}
	}
	if len(list) == 0 {
		for i := range fills {
			list = append(list, i)
		}
	}
	return list
}

// places writes how far each tank may be moved, how far apart two may stand,
// and how much water the plates allow.
func (in *stabilityIn) places(room *stabilityRoom, put func(*Metric, string, float64)) error {
	w := in.weights
	limits := statics.Limits{Ratings: in.ratings, ShareLeast: shareLeast, ShareMost: shareMost}
	room.day = in.askedInto(room.day, false)
	room.fill(in, room.day)
	const reach = 30 * units.Foot
	if len(w.tankIDs) > 0 {
		if err := room.placer.Set(w.trailer, w.fixed, w.liquids, room.states, limits); err != nil {
			return err
		}
	}
	for k, id := range w.tankIDs {
		room.name[0] = w.liquids[k].Name
		r, err := room.placer.PassingShifts(statics.Mover{Name: id, Masses: room.name[:], Forward: reach, Back: reach})
		if err != nil {
			return err
		}
		x := w.liquids[k].X.Length()
		if r.Possible && r.AtForward.Limit != "" {
			put(mTankFore, id, float64(x+r.Forward))
		}
		if r.Possible && r.AtBack.Limit != "" {
			put(mTankAft, id, float64(x+r.Back))
		}
	}
	if len(w.tankIDs) == 2 && len(w.joined) == 0 {
		var dry units.Mass
		for i := range w.fixed {
			dry += w.fixed[i].Mass
		}
		for _, m := range in.fuelHome {
			dry += m
		}
		a, b := &w.liquids[0], &w.liquids[1]
		if most, err := statics.TwoTankSpacing(shareLeast, shareMost, w.trailer.AxleGroup.Sub(w.trailer.Coupler), dry, min(a.Most, b.Most)); err == nil {
			put(mSpacing, "", math.Abs(float64(a.X.Sub(b.X))))
			put(mSpacingMost, "", float64(most))
		}
	}
	v, err := in.mostWater(room, limits, room.day)
	if err != nil {
		return err
	}
	if v.Possible && v.AtMost.Limit != "" && v.Most >= v.Least && v.Most > 0 {
		put(mMostWater, "", float64(v.Most))
	}
	return nil
}

// fill lists what the tanks hold in some fill states.
func (room *stabilityRoom) fill(in *stabilityIn, fills []int) {
	room.masses, room.states = room.masses[:0], room.states[:0]
	for _, i := range fills {
		room.load = in.weights.filledInto(room.load, i)
		room.masses = append(room.masses, room.load...)
	}
	n := len(in.weights.liquids)
	for k := range fills {
		room.states = append(room.states, room.masses[k*n:(k+1)*n])
	}
}

// mostWater scales all tanks alike, shells included, until a limit binds in
// some of the fills.
func (in *stabilityIn) mostWater(room *stabilityRoom, limits statics.Limits, fills []int) (statics.Volumes, error) {
	w := in.weights
	var sum units.Volume
	for k := range in.tanks {
		sum += in.tanks[k].Nominal
	}
	if sum == 0 {
		return statics.Volumes{}, nil
	}
	fixed, open, growth, levels := room.fixed[:0], room.open[:0], room.growth[:0], room.levels[:0]
	for k := range in.tanks {
		t := &in.tanks[k]
		open = append(open, statics.Growth{Name: t.Name, Share: units.Ratio(t.Nominal / sum), X: t.X, Y: t.Y, Density: t.Density})
	}
	for i := range w.fixed {
		m, shell := &w.fixed[i], false
		for k := range in.tanks {
			if t := &in.tanks[k]; t.Name == m.Name {
				open[k].Shell, shell = units.Density(float64(m.Mass)/float64(t.Nominal)), true
			}
		}
		if !shell {
			fixed = append(fixed, *m)
		}
	}
	room.fill(in, fills)
	for _, i := range fills {
		for k := range in.tanks {
			levels = append(levels, in.level(i, k))
		}
	}
	n := len(in.tanks)
	for k := range fills {
		growth = append(growth, statics.GrowthState{Masses: room.states[k][n:], Levels: levels[k*n : (k+1)*n]})
	}
	room.fixed, room.open, room.growth, room.levels = fixed, open, growth, levels
	if len(fixed) == 0 {
		return statics.Volumes{}, nil
	}
	return room.placer.MostVolume(w.trailer, fixed, w.liquids[n:], open, growth, limits)
}
