package vacuum

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Loop is water that is used again: what is sprayed, recovered and topped up.
//
// Oil and anything flammable have no law here. Oil floats, coats what it touches
// and goes into the coil and the mist; a vapour meets the brushes of a vacuum
// motor. Neither is a matter of how often.
type Loop struct {
	Return    units.Ratio // r, recovered water over sprayed water, as volumes
	Evaporate units.Ratio // e, share of the sprayed water that evaporates; its dirt stays behind
}

func (l Loop) check(p *problem.List) {
	problem.Between(p, "return", l.Return, 0, 1)
	problem.Between(p, "evaporate", l.Evaporate, 0, 0.99)
	if l.Return <= 1 && l.Evaporate >= 0 && l.Evaporate <= 0.99 && float64(l.Return+l.Evaporate) > 1+1e-12 {
		p.Add("return", l.Return.String(), "at most what does not evaporate, "+(1-l.Evaporate).String(), units.ErrConflict)
	}
}

// kept is the share of what is dissolved that comes back.
func (l Loop) kept() units.Ratio { return l.Return / (1 - l.Evaporate) }

// A BuildUp is where the concentration of something dissolved goes as the water is
// used again and again.
type BuildUp struct {
	Without bool        // it rises without bound: all of it comes back, and more is added
	Tank    units.Ratio // settled concentration in the tank, in units of the law; zero where without bound
	Return  units.Ratio // settled concentration in the recovered water; zero where without bound

	// The law itself: from Start, each pass makes C into Kept C + Step.
	Start, Kept, Step units.Ratio
}

// Added is the law of what every pass adds: detergent, soil, foam. Concentrations
// are in units of what one pass adds to the sprayed water.
//
//	C ← k (C + 1),  k = r/(1 − e);  settles at  k/(1 − k) in the tank
//	and at 1/[(1 − e)(1 − k)] in the recovered water
//
// Without evaporation the recovered water carries 1/(1 − r): 2.86 for r = 0.65, and
// the tank 1.86.
//
// Errors: a *[units.FieldError] for the loop.
func (l Loop) Added() (BuildUp, error) {
	var p problem.List
	l.check(&p)
	if err := p.Join(); err != nil {
		return BuildUp{}, err
	}
	k := l.kept()
	return l.settles(BuildUp{Kept: k, Step: k}), nil
}

// MakeUp is the law of what the make-up water brings: hardness, chloride.
// Concentrations are in units of the make-up water's. What is topped up is what
// does not come back, 1 − r.
//
//	C ← k C + 1 − r,  k = r/(1 − e);  settles at  (1 − r)/(1 − k) in the tank
//
// Without evaporation it does not rise at all. With it: 1.19 for r = 0.65 and
// e = 0.08, and without bound as e nears 1 − r.
//
// Errors: a *[units.FieldError] for the loop.
func (l Loop) MakeUp() (BuildUp, error) {
	var p problem.List
	l.check(&p)
	if err := p.Join(); err != nil {
		return BuildUp{}, err
	}
	return l.settles(BuildUp{Start: 1, Kept: l.kept(), Step: 1 - l.Return}), nil
}

// settles fills in where a law ends.
func (l Loop) settles(b BuildUp) BuildUp {
	switch {
	case b.Kept < 1-1e-12:
		b.Tank = b.Step / (1 - b.Kept)
	case b.Step > 0:
		b.Kept, b.Without = 1, true
		return b
	default: // nothing leaves and nothing comes: the first fill stays
		b.Kept, b.Tank = 1, b.Start
	}
	b.Return = b.Tank
	if b.Start == 0 {
		b.Return++
	}
	b.Return /= 1 - l.Evaporate
	return b
}

// After returns the concentration in the tank after a number of passes. A pass is
// the tank's content sprayed once; parts of a pass count.
//
//	C(n) = C_∞ + (C_0 − C_∞) kⁿ;  without bound C(n) = C_0 + n s
//
// s is what a pass adds.
//
// Errors: a *[units.FieldError] for passes below zero or above a million.
func (b BuildUp) After(passes float64) (units.Ratio, error) {
	var p problem.List
	problem.Number(&p, "passes", passes, 0, 1e6)
	if err := p.Join(); err != nil {
		return 0, err
	}
	if b.Without {
		return b.Start + units.Ratio(passes)*b.Step, nil
	}
	return b.Tank + (b.Start-b.Tank)*units.Ratio(math.Pow(float64(b.Kept), passes)), nil
}

// PassesTo returns the passes after which the concentration in the tank reaches a
// limit. Reached is false where it settles below.
//
//	n = ln[ (C_∞ − C)/(C_∞ − C_0) ] / ln k
//
// Errors: a *[units.FieldError] for a limit that is not above zero.
func (b BuildUp) PassesTo(limit units.Ratio) (passes float64, reached bool, err error) {
	var p problem.List
	problem.Within(&p, "limit", limit, 1e-9, 1e9)
	if err := p.Join(); err != nil {
		return 0, false, err
	}
	switch {
	case limit <= b.Start:
		return 0, true, nil
	case b.Without:
		return float64((limit - b.Start) / b.Step), true, nil
	case !(limit < b.Tank):
		return 0, false, nil
	}
	n := math.Log(float64((b.Tank-limit)/(b.Tank-b.Start))) / math.Log(float64(b.Kept))
	return n, finite(n), nil
}

// A ChangeOut is the day on which the water of a loop is changed.
type ChangeOut struct {
	Reached bool           // the limit is reached; otherwise the water settles below it
	Passes  float64        // until then
	Worked  units.Duration // hours of work until then
	Day     int            // the working day on which it happens, from 1
}

// ChangeOutAt returns when the tank reaches a limit of concentration, in the units
// of the law. Content is the water of the loop, sprayed the flow while work goes on,
// day the working time of a day.
//
// Errors: a *[units.FieldError] for each input.
func (b BuildUp) ChangeOutAt(limit units.Ratio, content units.Volume, sprayed units.VolumeFlow, day units.Duration) (ChangeOut, error) {
	n, reached, err := b.PassesTo(limit)
	var p problem.List
	p.Take("", err)
	problem.Within(&p, "content", content, minVolume, maxVolume)
	problem.Within(&p, "sprayed", sprayed, minFlow, maxFlow)
	problem.Within(&p, "day", day, 60, 86400)
	if err := p.Join(); err != nil || !reached {
		return ChangeOut{}, err
	}
	worked := n * float64(content) / float64(sprayed)
	days := math.Ceil(worked / float64(day))
	return ChangeOut{true, n, units.Duration(worked), int(math.Min(math.Max(days, 1), 1e9))}, nil
}
