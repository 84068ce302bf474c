package electrical

import (
	"math"
	"slices"
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
	byPlace, err := a.checkSets(sets)
	if err != nil {
		return nil, err
	}
	whole, _ := a.best(nil)
	hours, fuel, noise := a.day(whole, byPlace)
	var r []Saving
	for p := range a.k {
		off := make([]bool, a.k)
		off[p] = true
		s, ok := a.best(off)
		if a.k == 1 || !ok {
			continue
		}
		h, f, l := a.day(s, byPlace)
		r = append(r, Saving{
			Place:  a.plan.Places[p].Name,
			Best:   a.assignment(s),
			Passes: s.margin >= float64(a.plan.Reserve),
			Hours:  units.Duration(hours - h),
			Fuel:   units.Volume(fuel - f),
			Noise:  noise - l,
		})
	}
	return r, nil
}

// Greatest fuel rate (m³/s, about 1,000 US gallons an hour) and sound level
// taken.
const (
	maxFuel  = 1e-3
	maxLevel = 200 // dB
)

func (a *Plugs) checkSets(sets []Set) ([]Set, error) {
	var p problems
	if len(a.plan.Stages) == 0 {
		p.missing("stages", "what is on when, and for how long")
	}
	for i, st := range a.plan.Stages {
		if st.Duration == 0 {
			p.missing(element("stages", st.Name, i)+".duration", "how long the stage lasts")
		}
	}
	byPlace := make([]Set, a.k)
	for i, s := range sets {
		path := element("sets", s.Place, i)
		at := slices.IndexFunc(a.plan.Places, func(x Place) bool { return x.Name == s.Place })
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
		byPlace[at] = s
	}
	return byPlace, p.err()
}

// day returns engine hours (s), fuel (m³) and the level of the loudest stage.
func (a *Plugs) day(s solution, sets []Set) (hours, fuel, noise float64) {
	for i, on := range a.stages {
		t := float64(a.plan.Stages[i].Duration)
		var power float64 // sum of 10^(L/10)
		for p := range sets {
			var w float64
			for l, at := range s.at {
				if int(at) == p && on&(1<<l) != 0 {
					w += float64(a.plan.Loads[l].Running)
				}
			}
			if w == 0 || sets[p].Place == "" {
				continue
			}
			hours += t
			fuel += t * willans(float64(sets[p].Idle), float64(sets[p].Rated), w/float64(a.plan.Places[p].Limits.Rated))
			if sets[p].Noise > 0 {
				power += math.Pow(10, sets[p].Noise/10)
			}
		}
		if power > 0 {
			noise = max(noise, 10*math.Log10(power))
		}
	}
	return hours, fuel, noise
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
