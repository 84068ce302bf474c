package electrical

import (
	"math"
	"strconv"

	"example.com/washrig/units"
)

// A Set is what it costs to keep an engine running for the sake of a place. An
// engine that runs anyway, for the pump, is none.
type Set struct {
	Place string
	Idle  units.FuelRate // with no load
	Rated units.FuelRate // at the rated limit of the place
	Noise float64        // sound pressure level in dB(A), all sets at one distance; zero: not given
}

// A Saving is what comes of leaving one place off all day.
type Saving struct {
	Place  string
	Best   Assignment     // of greatest margin without that place
	Passes bool           // whether it does
	Hours  units.Duration // running time of engines, less than in the best assignment of all
	Fuel   units.Volume   // likewise; negative if the others burn more
	Noise  float64        // dB by which the loudest stage is quieter
}

// LeaveOff returns, for each place without which all loads still have somewhere
// to go, the best assignment without it and what that saves against the best of
// all, over the durations of the stages.
//
// An engine runs in a stage if its place has a load on. It burns
//
//	q = q_idle + (q_rated − q_idle) · P/P_rated
//
// (the straight line that P. W. Willans found for engines at constant speed).
// Levels are added by [SumLevels]. A place without a Set burns and sounds
// nothing. Savings may be negative.
//
// Errors: units.ErrMissing for a plan without stages, for a stage without
// duration or for a set on a place without rated power, units.ErrConflict for
// the name of no place, units.ErrRange for values out of range.
func (a *Plugs) LeaveOff(sets []Set) ([]Saving, error) {
	var r []Saving
	var noise []float64
	var byPlace [MaxPlaces]Set
	if err := a.checkSets(sets, &byPlace); err != nil {
		return nil, err
	}
	a.eachOff(&byPlace, func(whole, s solution, o Off) {
		r = append(r, Saving{Place: a.plan.Places[o.Place].Name, Best: a.assignment(&s), Passes: o.Passes, Hours: o.Hours, Fuel: o.Fuel})
		if noise == nil {
			noise = append(noise, a.loudest(&whole, &byPlace))
		}
		r[len(r)-1].Noise = noise[0] - a.loudest(&s, &byPlace)
	})
	return r, nil
}

// An Off is a [Saving] without the assignment and the noise.
type Off struct {
	Place  int // in the order of the plan
	Passes bool
	Hours  units.Duration
	Fuel   units.Volume
}

// EachOff calls visit for each place that [Plugs.LeaveOff] lists. It does not allocate
// where there are at most 4096 ways to plug the loads in.
//
// Errors: those of LeaveOff.
func (a *Plugs) EachOff(sets []Set, visit func(Off)) error {
	var byPlace [MaxPlaces]Set
	if err := a.checkSets(sets, &byPlace); err != nil {
		return err
	}
	a.eachOff(&byPlace, func(_, _ solution, o Off) { visit(o) })
	return nil
}

func (a *Plugs) eachOff(byPlace *[MaxPlaces]Set, visit func(whole, s solution, o Off)) {
	whole, _ := a.best(0)
	hours, fuel := a.day(&whole, byPlace)
	for p := range a.k {
		s, ok := a.best(1 << p)
		if a.k == 1 || !ok {
			continue
		}
		h, f := a.day(&s, byPlace)
		visit(whole, s, Off{Place: p, Passes: s.margin >= float64(a.plan.Reserve), Hours: units.Duration(hours - h), Fuel: units.Volume(fuel - f)})
	}
}

// Greatest fuel rate (m³/s, about 1,000 US gallons an hour) and sound level
// taken.
const (
	maxFuel  = 1e-3
	maxLevel = 200 // dB
)

func (a *Plugs) checkSets(sets []Set, byPlace *[MaxPlaces]Set) error {
	var p problems
	if len(a.plan.Stages) == 0 {
		p.missing("stages", "what is on when, and for how long")
	}
	for i := range a.plan.Stages {
		if st := &a.plan.Stages[i]; st.Duration == 0 {
			p.missing(element("stages", st.Name, i)+".duration", "how long the stage lasts")
		}
	}
	for i := range sets {
		s := &sets[i]
		at := a.plan.place(s.Place)
		if at >= 0 && byPlace[at].Place == "" && a.plan.Places[at].Limits.Rated != 0 && s.Idle >= 0 && s.Rated >= s.Idle && s.Rated <= maxFuel && s.Noise >= 0 && s.Noise <= maxLevel {
			byPlace[at] = *s
			continue // paths are spelt where something is wrong
		}
		path := element("sets", s.Place, i)
		switch {
		case at < 0:
			p.conflict(path+".place", strconv.Quote(s.Place), "the name of a place of the plan")
			continue
		case byPlace[at].Place != "":
			p.conflict(path+".place", s.Place, "one set for each place")
			continue
		case a.plan.Places[at].Limits.Rated == 0:
			p.missing(element("places", s.Place, at)+".limits.rated", "the rated power that the fuel rate belongs to")
		}
		p.within(path+".idle", float64(s.Idle), 0, maxFuel, inFuelRate)
		if p.within(path+".rated", float64(s.Rated), 0, maxFuel, inFuelRate) && s.Rated < s.Idle {
			p.conflict(path+".rated", s.Rated, "at least the idle rate, "+s.Idle.String())
		}
		p.within(path+".noise", s.Noise, 0, maxLevel, plain("dB"))
		byPlace[at] = *s
	}
	return p.err()
}

// carries returns the watts of a place in a stage.
func (a *Plugs) carries(s *solution, p int, on uint32) (w float64) {
	for l := range a.n {
		if int(s.at[l]) == p && on&(1<<l) != 0 {
			w += float64(a.plan.Loads[l].Running)
		}
	}
	return w
}

// day returns engine hours (s) and fuel (m³).
func (a *Plugs) day(s *solution, sets *[MaxPlaces]Set) (hours, fuel float64) {
	for i, on := range a.stages {
		t := float64(a.plan.Stages[i].Duration)
		for p := range a.k {
			if sets[p].Place == "" {
				continue
			}
			if w := a.carries(s, p, on); w != 0 {
				hours += t
				fuel += t * willans(float64(sets[p].Idle), float64(sets[p].Rated), w/float64(a.plan.Places[p].Limits.Rated))
			}
		}
	}
	return hours, fuel
}

// loudest returns the level of the loudest stage; zero where nothing sounds.
func (a *Plugs) loudest(s *solution, sets *[MaxPlaces]Set) (noise float64) {
	for _, on := range a.stages {
		var power float64 // sum of 10^(L/10)
		for p := range a.k {
			if sets[p].Place != "" && sets[p].Noise > 0 && a.carries(s, p, on) != 0 {
				power += math.Pow(10, sets[p].Noise/10)
			}
		}
		if power > 0 {
			noise = max(noise, 10*math.Log10(power))
		}
	}
	return noise
}

func willans(idle, rated, share float64) float64 { return idle + (rated-idle)*share }

// SumLevels returns the level of several incoherent sources at one place:
//
//	L = 10 · log10 Σ 10^(Lᵢ/10)
//
// Levels in dB; of none it is −Inf. NaN if one of them is.
//
// Source: definition of the sound pressure level.
func SumLevels(levels ...float64) float64 {
	var sum float64
	for _, l := range levels {
		sum += math.Pow(10, l/10)
	}
	return 10 * math.Log10(sum)
}
