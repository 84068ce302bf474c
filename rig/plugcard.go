package rig

import (
	"math"
	"slices"
	"sort"

	"example.com/washrig/electrical"
	"example.com/washrig/units"
)

// A PlugCard says where movable loads may be plugged in, and what cannot be.
type PlugCard struct {
	// Passing are the plug assignments that no engine, source, outlet or cord
	// is too small for, widest margin first.
	Passing []PlugOption

	// Unplaceable is a smallest set of loads that cannot all be on at once
	// wherever they are plugged in, LeaveOut a smallest set without which the
	// others can; both are empty if everything can be. Both look at running and
	// starting ratings at the site's worst hour and at what the engines have
	// left beside their pumps, not at outlets and cords.
	Unplaceable, LeaveOut []string

	// Off says what leaving a source off all day saves. It needs modes with
	// their hours and sources with their fuel.
	Off []SourceOff
}

// A SourceOff is what comes of leaving one source off all day, against the
// plugs of widest margin with it.
type SourceOff struct {
	Source string
	Passes bool // whether the others carry everything
	Plugs  map[string]string
	Hours  units.Duration // running time of generator engines saved
	Fuel   units.Volume   // likewise; negative if the others burn more
	Noise  float64        // dB by which the loudest mode is quieter
}

// PlugCard returns the plug card of the rig. A rig with more loads or sources
// than can be searched is a *StatesError.
func (r *Report) PlugCard() (PlugCard, error) {
	var card PlugCard
	for _, o := range r.plugs {
		if o.Verdict <= Fix {
			card.Passing = append(card.Passing, o)
		}
	}
	sort.SliceStable(card.Passing, func(a, b int) bool { return card.Passing[a].Margin > card.Passing[b].Margin })
	in := r.model.blocks.wiring.in
	if len(in.loads) == 0 || len(in.sources) == 0 {
		return card, nil
	}
	if len(in.loads) > electrical.MaxPlugLoads || len(in.sources) > electrical.MaxPlaces {
		return card, &StatesError{AxisPlugs, len(in.loads), electrical.MaxPlugLoads}
	}
	room := new(wiringRoom)
	if err := in.plugPlan(room); err != nil {
		return card, err
	}
	plan := room.plan
	plan.Stages = nil
	p, err := electrical.Assign(plan)
	if err != nil {
		return card, err
	}
	card.Unplaceable, card.LeaveOut = p.Unplaceable(), p.LeaveOut()
	var off []electrical.Saving
	if len(room.sets) > 0 && len(in.stages) > 0 {
		if p, err = electrical.Assign(room.plan); err != nil {
			return card, err
		}
		if off, err = p.LeaveOff(room.sets); err != nil {
			return card, err
		}
	}
	for _, s := range off {
		x := SourceOff{Source: s.Place, Passes: s.Passes, Plugs: map[string]string{}, Hours: s.Hours, Fuel: s.Fuel, Noise: s.Noise}
		for i, at := range s.Best.Places {
			x.Plugs[plan.Loads[i].Name] = at
		}
		card.Off = append(card.Off, x)
	}
	return card, nil
}

// plugPlan writes the question which load belongs on which source over room.plan, at
// the worst hour of the site, with what the engines have left beside their pumps, and
// the stages of the day; and what it costs to keep engines running over room.sets, none
// where no source with its fuel has any power left at the site.
func (in *wiringIn) plugPlan(room *wiringRoom) error {
	plan := &room.plan
	plan.Loads, plan.Places, plan.Choices, plan.Stages = plan.Loads[:0], plan.Places[:0], plan.Choices[:0], in.stages
	room.places, room.sets = room.places[:0], room.sets[:0]
	for k := range in.sources {
		src := &in.electric.in.sources[k]
		worst, err := worstFactor(&in.electric.in, k)
		if err != nil {
			return err
		}
		lim := src.limits(worst)
		spare, ok, err := in.engineSpare(src.id)
		if err != nil {
			return err
		}
		if ok {
			lim.Rated = min(lim.Rated, units.Power(max(spare, 1))) // a limit of nothing would be none at all
		}
		plan.Places = append(plan.Places, electrical.Place{Name: src.id, Limits: lim})
		if s := &in.sources[k].set; s.Place != "" && lim.Rated > 0 {
			room.sets = append(room.sets, *s)
		}
	}
	for j := range in.loads {
		l := *in.load(j)
		if l.RunningApparent == 0 { // no source it may be plugged into has a limit for them
			l.RunningApparent, l.StartingApparent = units.ApparentPower(l.Running), units.ApparentPower(l.Starting)
		}
		at := len(plan.Loads)
		for at > 0 && plan.Loads[at-1].Name > l.Name {
			at--
		}
		plan.Loads = slices.Insert(plan.Loads, at, l)
		w := &in.loads[j]
		first := len(room.places)
		room.places = append(room.places, in.electric.in.sources[w.source].id)
		for i, k := range w.may {
			if k != w.source && !slices.Contains(w.may[:i], k) {
				room.places = append(room.places, in.electric.in.sources[k].id)
			}
		}
		plan.Choices = append(plan.Choices, electrical.Choice{Load: l.Name, Places: room.places[first:len(room.places):len(room.places)]})
	}
	return nil
}

// engineSpare returns the electric power that a belt generator can make of what
// its engine has left beside its pumps in the worst state and hour; ok is false
// for other sources and where the engine's power is not known.
func (in *wiringIn) engineSpare(source string) (watts float64, ok bool, err error) {
	numbers, err := in.engines.within(in.w)
	if err != nil || len(numbers) < 2 {
		return 0, false, err
	}
	electric, err := in.electric.within(in.w)
	if err != nil {
		return 0, false, err
	}
	hours := max(len(in.electric.in.hours), 1)
	for i := range in.engines.in.engines {
		e := &in.engines.in.engines[i]
		for _, b := range e.belts {
			if b.id != source {
				continue
			}
			pumps := 0.0
			demand := numbers[0].of(mEngineDemand, e.id)
			taken := in.floats(hours) // by the belt generators, with the listed plugs
			for _, o := range e.belts {
				run := electric[0].of(mRunning, o.id)
				for h := range taken {
					taken[h] += run[h] / float64(o.eff*o.belt)
				}
			}
			for s := range numbers[0].states {
				st := &numbers[0].states[s]
				if st.v[AxisPlugs] > 1 {
					continue
				}
				at := max(int(st.v[AxisSite])-1, 0) % hours
				pumps = math.Max(pumps, demand[s]-taken[at])
			}
			has := math.Inf(1)
			for _, x := range numbers[1].of(mEngineHas, e.id) {
				has = math.Min(has, x)
			}
			return (has - pumps) * float64(b.eff*b.belt), !math.IsInf(has, 0), nil
		}
	}
	return 0, false, nil
}

// maxLeftOff is the greatest number of loads for which every assessment looks
// for savings; a plug card looks for more.
const maxLeftOff = 12

// solveLeftOff adds what leaving a source off saves, where the others carry
// everything.
func solveLeftOff(in *wiringIn, room *wiringRoom) error {
	if len(in.stages) == 0 || len(in.loads) == 0 || len(in.loads) > maxLeftOff || len(in.sources) < 2 || len(in.sources) > electrical.MaxPlaces {
		return nil
	}
	known := false
	for k := range in.sources {
		known = known || in.sources[k].set.Place != ""
	}
	if !known {
		return nil
	}
	if err := in.plugPlan(room); err != nil {
		return err
	}
	n := in.newNumbers(in.one(in.axes))
	room.out = append(room.out, n)
	if len(room.sets) == 0 {
		return nil
	}
	if err := room.plugs.Set(room.plan); err != nil {
		return err
	}
	return room.plugs.EachOff(room.sets, func(o electrical.Off) {
		if o.Passes {
			id := in.electric.in.sources[o.Place].id
			n.row(mOffFuel, id)[0] = float64(o.Fuel)
			n.row(mOffTime, id)[0] = float64(o.Hours)
		}
	})
}
