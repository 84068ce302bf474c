package rig

import (
	"math"
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
	plan, err := in.plugPlan()
	if err != nil {
		return card, err
	}
	p, err := electrical.Assign(plan)
	if err != nil {
		return card, err
	}
	card.Unplaceable, card.LeaveOut = p.Unplaceable(), p.LeaveOut()
	off, err := in.leaveOff(plan)
	if err != nil {
		return card, err
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

// plugPlan is the question which load belongs on which source, at the worst
// hour of the site, with what the engines have left beside their pumps.
func (in *wiringIn) plugPlan() (electrical.PlugPlan, error) {
	var plan electrical.PlugPlan
	for k := range in.sources {
		src := &in.electric.in.sources[k]
		worst, err := worstFactor(in.electric.in, k)
		if err != nil {
			return plan, err
		}
		lim := src.limits(worst)
		spare, ok, err := in.engineSpare(src.id)
		if err != nil {
			return plan, err
		}
		if ok {
			lim.Rated = min(lim.Rated, units.Power(max(spare, 1))) // a limit of nothing would be none at all
		}
		plan.Places = append(plan.Places, electrical.Place{Name: src.id, Limits: lim})
	}
	for j := range in.loads {
		l := *in.load(j)
		if l.RunningApparent == 0 { // no source it may be plugged into has a limit for them
			l.RunningApparent, l.StartingApparent = units.ApparentPower(l.Running), units.ApparentPower(l.Starting)
		}
		plan.Loads = append(plan.Loads, l)
		c := electrical.Choice{Load: in.load(j).Name}
		seen := map[int]bool{}
		for _, k := range append([]int{in.loads[j].source}, in.loads[j].may...) {
			if !seen[k] {
				c.Places = append(c.Places, in.electric.in.sources[k].id)
			}
			seen[k] = true
		}
		plan.Choices = append(plan.Choices, c)
	}
	sort.Slice(plan.Loads, func(a, b int) bool { return plan.Loads[a].Name < plan.Loads[b].Name })
	return plan, nil
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
			for s, st := range numbers[0].states {
				if st.v[AxisPlugs] > 1 {
					continue
				}
				at := max(int(st.v[AxisSite])-1, 0) % hours
				sum := demand[s]
				for _, o := range e.belts {
					sum -= electric[0].of(mRunning, o.id)[at] / float64(o.eff*o.belt)
				}
				pumps = math.Max(pumps, sum)
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

// leaveOff returns the savings of leaving sources off over the modes whose
// hours are known; none where no mode has hours or no source its fuel.
func (in *wiringIn) leaveOff(plan electrical.PlugPlan) ([]electrical.Saving, error) {
	var sets []electrical.Set
	for k := range in.sources {
		if s := in.sources[k].set; s.Place != "" && carriesAnything(plan, s.Place) {
			sets = append(sets, s)
		}
	}
	if len(sets) == 0 || len(in.stages) == 0 {
		return nil, nil
	}
	plan.Stages = in.stages
	p, err := electrical.Assign(plan)
	if err != nil {
		return nil, err
	}
	return p.LeaveOff(sets)
}

// carriesAnything reports whether a source has any power left at the site.
func carriesAnything(plan electrical.PlugPlan, place string) bool {
	for i := range plan.Places {
		if plan.Places[i].Name == place {
			return plan.Places[i].Limits.Rated > 0
		}
	}
	return false
}

// maxLeftOff is the greatest number of loads for which every assessment looks
// for savings; a plug card looks for more.
const maxLeftOff = 12

// solveLeftOff returns what leaving a source off saves, where the others carry
// everything.
func solveLeftOff(in *wiringIn) ([]*numbers, error) {
	if len(in.stages) == 0 || len(in.loads) == 0 || len(in.loads) > maxLeftOff || len(in.sources) < 2 || len(in.sources) > electrical.MaxPlaces {
		return nil, nil
	}
	known := false
	for k := range in.sources {
		known = known || in.sources[k].set.Place != ""
	}
	if !known {
		return nil, nil
	}
	plan, err := in.plugPlan()
	if err != nil {
		return nil, err
	}
	list, err := in.leaveOff(plan)
	if err != nil {
		return nil, err
	}
	n := in.newNumbers(in.one(in.axes))
	for _, s := range list {
		if s.Passes {
			n.row(mOffFuel, s.Place)[0] = float64(s.Fuel)
			n.row(mOffTime, s.Place)[0] = float64(s.Hours)
		}
	}
	return in.out(n), nil
}
