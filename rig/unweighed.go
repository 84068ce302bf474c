package rig

import (
	"slices"
	"strings"

	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// unweighedParts lists the components that nobody weighed but whose place is
// known, with what they are likely to weigh, and those whose place is not known.
// In a vehicle without a trailer the place does not matter.
func unweighedParts(s *Spec, all []stocked) (out []unweighedPart, unplaced []Path) {
	for _, c := range all {
		st := c.stock
		if st.Mass != 0 || st.Within != "" {
			continue
		}
		b, ok := massBand(s, c.path)
		if !ok {
			continue
		}
		if !st.X.Given() && s.Trailer != nil {
			unplaced = append(unplaced, c.path)
			continue
		}
		list, id, _ := strings.Cut(strings.TrimSuffix(string(c.path), "]"), "[")
		name := strings.ReplaceAll(strings.TrimSuffix(list, "s"), "_", "-")
		if id != "" {
			name += "-" + id
		}
		out = append(out, unweighedPart{name: name, path: c.path + ".mass", mass: statics.Mass{Name: string(c.path), X: st.X, Y: st.Y, Z: st.Z}, band: b})
	}
	return out, unplaced
}

// massBand returns what a component is likely to weigh, by its class and size.
// All of these are common practice: read off many sheets, quoted from none.
func massBand(s *Spec, p Path) (Band, bool) {
	of := func(low, usual, high units.Mass, by string) (Band, bool) {
		return Band{low.Quantity(), usual.Quantity(), high.Quantity(), by + ", common practice"}, low > 0 || high > 0
	}
	per := func(x float64, low, usual, high float64, by string) (Band, bool) {
		b, ok := of(units.Mass(x*low)*units.Pound, units.Mass(x*usual)*units.Pound, units.Mass(x*high)*units.Pound, by)
		return b, ok && x > 0
	}
	list, id, _ := strings.Cut(strings.TrimSuffix(string(p), "]"), "[")
	switch list {
	case "engines":
		for i := range s.Engines {
			if e := &s.Engines[i]; e.ID == id {
				return per(e.GrossPower.In(units.Horsepower), 3, 5, 12, "engines, 3 to 12 lb/hp")
			}
		}
	case "pumps":
		for i := range s.Pumps {
			if e := &s.Pumps[i]; e.ID == id {
				return per(e.RatedFlow.In(units.GallonPerMinute), 3, 6, 15, "plunger pumps, 3 to 15 lb/gpm")
			}
		}
	case "heaters":
		for i := range s.Heaters {
			if e := &s.Heaters[i]; e.ID == id {
				return per(e.CleanFiring.In(units.GallonPerHour), 40, 80, 150, "coil heaters, 40 to 150 lb/gph")
			}
		}
	case "lines":
		for i := range s.Lines {
			if e := &s.Lines[i]; e.ID == id {
				ft := units.Mass(e.Hose.Length.In(units.Foot)) * units.Pound
				return of(0.15*ft, 0.25*ft+60*units.Pound, 0.6*ft+150*units.Pound, "hose 0.15 to 0.6 lb/ft, reel up to 150 lb")
			}
		}
	case "tanks":
		for i := range s.Tanks {
			if e := &s.Tanks[i]; e.ID == id {
				return per(e.Nominal.In(units.Gallon), 0.4, 0.65, 2, "tank shells, 0.4 to 2 lb/gal")
			}
		}
	case "sources":
		for i := range s.Sources {
			if e := &s.Sources[i]; e.ID == id && e.Type != "shore" {
				return per(e.Running.In(units.Kilowatt), 15, 35, 80, "generators, 15 to 80 lb/kW")
			}
		}
	case "loads":
		for i := range s.Loads {
			if e := &s.Loads[i]; e.ID == id {
				return per(e.Running.In(units.Kilowatt), 5, 20, 60, "motors and burners, 5 to 60 lb/kW")
			}
		}
	case "fuel_tanks":
		for i := range s.FuelTanks {
			if e := &s.FuelTanks[i]; e.ID == id {
				return per(e.Volume.In(units.Gallon), 0.5, 1.2, 4, "fuel tanks, 0.5 to 4 lb/gal")
			}
		}
	case "items":
		return of(0, 100*units.Pound, 500*units.Pound, "an item nobody weighed, up to 500 lb")
	case "trailer":
		if s.Trailer != nil {
			m := s.Trailer.GrossRating
			return of(0.15*m, 0.28*m, 0.5*m, "bare trailers, 15 to 50 % of the gross rating")
		}
	}
	return Band{}, false
}

// breakEven writes, fill state by fill state, between which masses an unweighed
// part keeps every rating and, in a fill state of the day, 5 % on the tongue.
// Other unweighed parts stand at both ends of what they are likely to weigh.
func (in *stabilityIn) breakEven(room *stabilityRoom, n *numbers, k int) error {
	w := in.weights
	part := &in.unweighed[k]
	if w.independent {
		return nil // what a mass does to independent axles is not linear
	}
	known := part.mass.Y.Given()
	varying := append(room.varying[:0], w.liquids...)
	for j := range in.unweighed {
		if o := &in.unweighed[j]; j != k {
			varying = append(varying, statics.Varying{Name: o.mass.Name, Least: units.Mass(o.band.Low.SI()), Most: units.Mass(o.band.High.SI()), X: o.mass.X, Y: o.mass.Y, Z: o.mass.Z})
			known = known && o.mass.Y.Given()
		}
	}
	room.varying = varying
	room.ratings = room.ratings[:0]
	for i := range in.ratings {
		if r := &in.ratings[i]; r.On != statics.OnTyre || known {
			room.ratings = append(room.ratings, *r)
		}
	}
	each := room.ends(in, varying[len(w.liquids):])
	n.row(mUnweighedMost, part.name)
	n.row(mUnweighedLeast, part.name)
	most, least := n.of(mUnweighedMost, part.name), n.of(mUnweighedLeast, part.name)
	turns := func(t statics.Trailer, limits statics.Limits) error {
		if err := room.placer.Set(t, w.fixed, varying, room.states, limits); err != nil {
			return err
		}
		for i := range w.fills {
			if err := room.placer.BreakEven(part.mass, i*each, (i+1)*each, func(t statics.Turn) {
				if t.Case.Limit == statics.NameShareLeast && w.fills[i].reach != Reachable {
					return
				}
				switch t.Verdict {
				case statics.UpTo:
					if !(most[i] <= float64(t.Mass)) {
						most[i] = float64(t.Mass)
					}
				case statics.FromOn:
					if !(least[i] >= float64(t.Mass)) {
						least[i] = float64(t.Mass)
					}
				}
			}); err != nil {
				return err
			}
		}
		return nil
	}
	if err := turns(w.trailer, statics.Limits{Ratings: room.ratings, ShareLeast: shareStop}); err != nil {
		return err
	}
	if in.jackRating == 0 || !in.jack.Given() {
		return nil
	}
	unhitched := w.trailer // the jack carries what the coupler would, standing there
	unhitched.Coupler = in.jack
	room.ratings = append(room.ratings[:0], statics.Rating{Name: "rating of the jack", On: statics.OnTongue, Most: in.jackRating})
	return turns(unhitched, statics.Limits{Ratings: room.ratings})
}

// inVehicle writes how heavy each unweighed part may be before the vehicle that
// carries it passes its rating, the other unweighed parts as heavy as they are
// likely to be.
func (in *stabilityIn) inVehicle(room *stabilityRoom) *numbers {
	w := in.weights
	states := in.room(len(w.fills))
	for i := range w.fills {
		states = append(states, State{set: in.axes}.with(AxisFill, i+1))
	}
	n := in.newNumbers(states)
	room.load = slices.Grow(room.load[:0], len(w.liquids))
	for k := range in.unweighed {
		n.row(mUnweighedMost, in.unweighed[k].name)
	}
	for k := range in.unweighed {
		row := n.of(mUnweighedMost, in.unweighed[k].name)
		others := 0.0
		for _, j := range in.byName {
			if j != k {
				others += in.unweighed[j].band.High.SI()
			}
		}
		for i := range w.fills {
			row[i] = max(float64(in.vehicleLeft)-w.load(room.load[:0], i)-others, 0)
		}
	}
	return n
}

// vehicleLeft is what payload and gross rating of a vehicle leave for a load in it;
// negative where too little is said.
func vehicleLeft(t *TowVehicle) units.Mass {
	left := units.Mass(-1)
	take := func(most, beside units.Mass) {
		if x := max(most-beside, 0); most != 0 && beside != 0 && (left < 0 || x < left) {
			left = x
		}
	}
	take(t.PayloadRating, t.Gear)
	take(t.GrossRating, t.CurbAndCrew)
	return left
}

// ends lists every fill state with the other unweighed parts light and heavy, and
// returns how many states that makes of each: every combination of up to four parts, of
// more only all light and all heavy.
func (room *stabilityRoom) ends(in *stabilityIn, others []statics.Varying) (each int) {
	each = 1 << len(others)
	if len(others) > 4 {
		each = 2
	}
	room.masses, room.states = room.masses[:0], room.states[:0]
	for i := range in.weights.fills {
		room.load = in.weights.filledInto(room.load, i)
		for bits := range each {
			room.masses = append(room.masses, room.load...)
			for j := range others {
				heavy := bits&(1<<j) != 0
				if len(others) > 4 {
					heavy = bits == 1
				}
				if heavy {
					room.masses = append(room.masses, others[j].Most)
				} else {
					room.masses = append(room.masses, others[j].Least)
				}
			}
		}
	}
	n := len(in.weights.liquids) + len(others)
	for k := range len(in.weights.fills) * each {
		room.states = append(room.states, room.masses[k*n:(k+1)*n])
	}
	return each
}

// bandOf returns the likely mass of an unweighed part by its name in metrics.
func (m *Model) bandOf(name string) (unweighedPart, bool) {
	for _, p := range m.blocks.stability.in.unweighed {
		if p.name == name {
			return p, true
		}
	}
	return unweighedPart{}, false
}
