package rig

import (
	"fmt"

	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// A Mover is something on the trailer that may be set elsewhere: components by
// their paths, and trailer.axle_group for the axles. What is named together
// moves together.
type Mover struct {
	Moves         []Path
	Forward, Back units.Length // how far it may go either way
	Cost          float64      // of moving it a metre, in any unit; 0: 1
}

// A PlacementQuery says what may be moved and what has to be kept. The zero
// query moves every water tank by up to six feet either way, in the fill states
// of the day, for a tongue share of 10 to 15 %.
type PlacementQuery struct {
	Movers                []Mover
	Corners               bool        // every corner of the tanks beside the fill states of the day
	ShareLeast, ShareMost units.Ratio // of the tongue; 0: 10 % and 15 %
}

// A LimitCase is a limit and the fill state in which it is narrowest.
type LimitCase struct {
	Limit string // name of the rating, or of the end of the tongue share
	State State
}

// A Move is how far something is to be moved.
type Move struct {
	Moves []Path
	By    units.Length // aft positive
}

// A Placement is the least movement that keeps every limit in every fill state
// asked for, or the proof that there is none.
type Placement struct {
	Possible bool
	Moves    []Move // of every mover, in the order of the query
	Cost     float64
	Binding  []LimitCase // limits that are just met
	Changes  []Change    // the same as changes to the specification, for With

	// If it is not possible: the moves come closest, and every limit would have to
	// give by Short, as a share of itself, for them to pass. Proof names limits and
	// states that contradict each other within the reach of the movers Stops.
	Short units.Ratio
	Proof []LimitCase
	Stops []Path
}

// Placement answers what is to be moved, and how far at least, for every plate
// and the tongue share to be kept: the least movement over all, by linear
// programming, not a local one. Moving what stands on the deck changes its
// clearances too: give Changes to With and assess the result before believing
// it.
//
// Errors: no trailer; independent axles, which do not share by place alone; no
// fill state; a mover that names no mass.
func (m *Model) Placement(q PlacementQuery) (Placement, error) {
	in, states, at, limits, err := m.placeable(q)
	if err != nil {
		return Placement{}, err
	}
	w := in.weights
	movers := q.Movers
	if movers == nil {
		const reach = 6 * units.Foot
		for k := range w.tankIDs {
			movers = append(movers, Mover{Moves: []Path{Path(w.liquids[k].Name)}, Forward: reach, Back: reach})
		}
	}
	list, err := m.movers(w, movers)
	if err != nil {
		return Placement{}, err
	}
	p, err := statics.Place(w.trailer, w.fixed, w.liquids, states, list, limits)
	if err != nil {
		return Placement{}, err
	}
	out := Placement{Possible: p.Possible, Cost: p.Cost, Short: p.Short, Binding: at(p.Binding), Proof: at(p.Proof)}
	for _, name := range p.Stops {
		out.Stops = append(out.Stops, Path(name))
	}
	for k, d := range p.Shifts {
		out.Moves = append(out.Moves, Move{Moves: append([]Path(nil), movers[k].Moves...), By: d})
		if d != 0 {
			out.Changes = append(out.Changes, m.shift(movers[k].Moves, d)...)
		}
	}
	return out, nil
}

// A PassingRange is where one thing may stand, all else staying.
type PassingRange struct {
	Possible bool
	Fore     units.Position // its foremost place
	Aft      units.Position
	AtFore   LimitCase // what stops it there; no Limit: the end of its reach
	AtAft    LimitCase
}

// PassingRange answers how far a component may be moved before a plate or the
// tongue share is passed in some fill state: the live answer to a box that is
// dragged along the deck. Its reach is that of the first mover of the query, or
// thirty feet either way; axles stay a foot aft of the coupler.
//
// Errors: those of [Model.Placement]; a component without a place.
func (m *Model) PassingRange(p Path, q PlacementQuery) (PassingRange, error) {
	in, states, at, limits, err := m.placeable(q)
	if err != nil {
		return PassingRange{}, err
	}
	w := in.weights
	mover := Mover{Moves: []Path{p}, Forward: 30 * units.Foot, Back: 30 * units.Foot}
	if len(q.Movers) > 0 {
		mover.Forward, mover.Back = q.Movers[0].Forward, q.Movers[0].Back
	}
	if ahead := w.trailer.AxleGroup.Sub(w.trailer.Coupler) - 1*units.Foot; p == axleGroup && mover.Forward > ahead {
		mover.Forward = max(ahead, 0)
	}
	list, err := m.movers(w, []Mover{mover})
	if err != nil {
		return PassingRange{}, err
	}
	x, ok := m.place(p)
	if !ok {
		return PassingRange{}, &units.FieldError{Path: string(p) + ".x", Want: "a place, such as 8.2 ft", Err: units.ErrMissing}
	}
	r, err := statics.PassingShifts(w.trailer, w.fixed, w.liquids, states, list[0], limits)
	if err != nil || !r.Possible {
		return PassingRange{}, err
	}
	out := PassingRange{Possible: true, Fore: x.Add(r.Forward), Aft: x.Add(r.Back)}
	if c := at([]statics.Case{r.AtForward, r.AtBack}); r.AtForward.Limit != "" || r.AtBack.Limit != "" {
		out.AtFore, out.AtAft = c[0], c[1]
	}
	return out, nil
}

// A MostWater is how much water a trailer may be built for, its tanks scaled
// alike.
type MostWater struct {
	Possible bool
	Least    units.Volume // what the tongue asks for; 0: nothing does
	Most     units.Volume // all tanks together
	AtLeast  LimitCase
	AtMost   LimitCase // the rating that binds; no Limit: nothing up to 200 m³
}

// MostWater answers how many gallons the tow vehicle and the trailer allow, the
// tanks scaled alike with their shells, in the levels of every fill state of
// the day. For another vehicle, ask a model made with its part.
//
// Errors: those of [Model.Placement]; no tanks.
func (m *Model) MostWater(q PlacementQuery) (MostWater, error) {
	in, _, at, limits, err := m.placeable(q)
	if err != nil {
		return MostWater{}, err
	}
	if len(in.tanks) == 0 {
		return MostWater{}, &units.FieldError{Path: "tanks", Want: "at least one tank", Err: units.ErrMissing}
	}
	v, err := in.mostWater(new(stabilityRoom), limits, in.asked(q.Corners))
	if err != nil {
		return MostWater{}, err
	}
	c := at([]statics.Case{v.AtLeast, v.AtMost})
	return MostWater{Possible: v.Possible && v.Most >= v.Least, Least: v.Least, Most: v.Most, AtLeast: c[0], AtMost: c[1]}, nil
}

// placeable prepares a question about places: the fills asked for, and how to
// read an answer's cases.
func (m *Model) placeable(q PlacementQuery) (in stabilityIn, states [][]units.Mass, at func([]statics.Case) []LimitCase, limits statics.Limits, err error) {
	in = m.blocks.stability.in
	w := in.weights
	switch {
	case !w.present:
		err = &units.FieldError{Path: "trailer", Want: "a trailer", Err: units.ErrMissing}
	case !w.solvable() || len(w.fills) == 0:
		err = &units.FieldError{Path: "trailer.mass", Want: "masses, and axles to rest them on", Err: units.ErrMissing}
	case w.independent:
		err = &units.FieldError{Path: "trailer.suspension", Value: "independent", Want: "equalised axles; what independent ones carry is not linear in places", Err: units.ErrConflict}
	}
	if err != nil {
		return in, nil, nil, limits, err
	}
	limits = statics.Limits{Ratings: in.ratings, ShareLeast: q.ShareLeast, ShareMost: q.ShareMost}
	if limits.ShareLeast == 0 {
		limits.ShareLeast = shareLeast
	}
	if limits.ShareMost == 0 {
		limits.ShareMost = shareMost
	}
	fills := in.asked(q.Corners)
	for _, i := range fills {
		states = append(states, w.filled(i))
	}
	at = func(cases []statics.Case) []LimitCase {
		var out []LimitCase
		for _, c := range cases {
			l := LimitCase{Limit: c.Limit, State: State{set: m.axes}}
			if c.State > 0 {
				l.State = l.State.with(AxisFill, fills[c.State-1]+1)
			}
			out = append(out, l)
		}
		return out
	}
	return in, states, at, limits, nil
}

const axleGroup Path = "trailer.axle_group"

// movers turns movers into those of package statics; names are the first paths.
func (m *Model) movers(w *staticsIn, list []Mover) ([]statics.Mover, error) {
	known := map[string]bool{}
	for _, f := range w.fixed {
		known[f.Name] = true
	}
	for _, l := range w.liquids {
		known[l.Name] = true
	}
	var out []statics.Mover
	for k, v := range list {
		if len(v.Moves) == 0 {
			return nil, &units.FieldError{Path: fmt.Sprintf("movers[#%d]", k+1), Want: "the paths of components", Err: units.ErrMissing}
		}
		s := statics.Mover{Name: string(v.Moves[0]), Forward: v.Forward, Back: v.Back, Cost: v.Cost}
		for _, p := range v.Moves {
			switch {
			case p == axleGroup:
				s.Axle = true
			case known[string(p)]:
				s.Masses = append(s.Masses, string(p))
			default:
				return nil, &units.FieldError{Path: fmt.Sprintf("movers[#%d]", k+1), Value: string(p), Want: "the path of a component with a mass of its own, such as items[skid], or trailer.axle_group", Err: units.ErrRange}
			}
		}
		out = append(out, s)
	}
	return out, nil
}

// place returns where a component stands along the trailer.
func (m *Model) place(p Path) (units.Position, bool) {
	if p == axleGroup {
		return m.spec.Trailer.AxleGroup, true
	}
	for _, c := range components(m.spec) {
		if c.path == p {
			return c.stock.X, c.stock.X.Given()
		}
	}
	return units.Position{}, false
}

// shift makes the changes that move components, with boxes that have a place
// of their own.
func (m *Model) shift(paths []Path, by units.Length) []Change {
	var out []Change
	for _, p := range paths {
		if p == axleGroup {
			out = append(out, Assign(p, m.spec.Trailer.AxleGroup.Add(by).Quantity()))
			continue
		}
		for _, c := range components(m.spec) {
			if c.path != p {
				continue
			}
			out = append(out, Assign(p+".x", c.stock.X.Add(by).Quantity()))
			if b := c.stock.Box.X; b.Given() {
				out = append(out, Assign(p+".box.x", b.Add(by).Quantity()))
			}
		}
	}
	return out
}
