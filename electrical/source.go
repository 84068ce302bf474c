package electrical

import (
	"fmt"

	"example.com/washrig/units"
)

// SourceKind says what a source of power is, and so which of its limits follow
// the air its engine breathes. The zero SourceKind is "not given".
type SourceKind int

const (
	// PortableSynchronous is a set with its own engine and an alternator on its
	// shaft. Its plate watts are what the engine can drive: they derate with it.
	PortableSynchronous SourceKind = iota + 1
	// PortableInverter is a set with its own engine and electronics behind the
	// alternator. Its plate watts derate with the engine as well.
	PortableInverter
	// EngineDriven is an alternator driven by the engine of another machine,
	// by belt or by shaft. Its plate watts are the alternator's and do not
	// derate; what the engine has left is judged by [ShaftPower].
	EngineDriven
	// Shore is a cord to the mains.
	Shore
	// BatteryInverter is an inverter fed by a battery.
	BatteryInverter
)

var sourceKinds = [...]string{
	PortableSynchronous: "portable generator",
	PortableInverter:    "portable inverter generator",
	EngineDriven:        "engine-driven generator",
	Shore:               "shore supply",
	BatteryInverter:     "battery inverter",
}

// String returns the kind in words.
func (k SourceKind) String() string {
	switch {
	case k == 0:
		return "not given"
	case k >= PortableSynchronous && k <= BatteryInverter:
		return sourceKinds[k]
	}
	return fmt.Sprintf("SourceKind(%d)", int(k))
}

// OwnEngine reports whether the source has an engine of its own, so that its
// plate watts fall with air pressure and heat.
func (k SourceKind) OwnEngine() bool { return k == PortableSynchronous || k == PortableInverter }

// Limits are what a source bears. Zero means that no such limit is given.
type Limits struct {
	Rated         units.Power         // continuous
	Start         units.Power         // for the seconds of a start
	RatedApparent units.ApparentPower // continuous
	StartApparent units.ApparentPower // for the seconds of a start
}

// Validate returns everything that is wrong with the limits, in field order.
func (l Limits) Validate() error {
	var p problems
	l.fields(&p, "")
	return p.err()
}

// sound reports whether fields would find nothing.
func (l *Limits) sound() bool {
	fits := func(x float64) bool { return x == 0 || x >= minPower && x <= maxPower }
	return fits(float64(l.Rated)) && fits(float64(l.Start)) && fits(float64(l.RatedApparent)) && fits(float64(l.StartApparent)) &&
		(l.Rated == 0 || l.Start == 0 || l.Start >= l.Rated) && (l.RatedApparent == 0 || l.StartApparent == 0 || l.StartApparent >= l.RatedApparent)
}

func (l *Limits) fields(p *problems, prefix string) {
	if l.sound() {
		return // paths are spelt where something is wrong
	}
	r := p.optional(prefix+"rated", float64(l.Rated), minPower, maxPower, inWatts)
	if p.optional(prefix+"start", float64(l.Start), minPower, maxPower, inWatts) && r && l.Start < l.Rated {
		p.conflict(prefix+"start", l.Start, fmt.Sprintf("at least the rated power, %v", l.Rated))
	}
	r = p.optional(prefix+"ratedApparent", float64(l.RatedApparent), minPower, maxPower, inVoltAmperes)
	if p.optional(prefix+"startApparent", float64(l.StartApparent), minPower, maxPower, inVoltAmperes) && r && l.StartApparent < l.RatedApparent {
		p.conflict(prefix+"startApparent", l.StartApparent, fmt.Sprintf("at least the rated volt-amperes, %v", l.RatedApparent))
	}
}

// RunningMargin returns how much of its limit a running demand leaves, the
// least over the limits given:
//
//	margin = (limit − value)/limit
//
// One means that nothing is drawn, zero that the limit is met, less than zero
// that it is passed. Without a rated limit it is one.
//
// Errors: units.ErrRange for a demand that is negative or not a number,
// units.ErrMissing for a demand without apparent power where the limits have
// one, and those of Validate.
func (l Limits) RunningMargin(d Demand) (units.Ratio, error) {
	if err := l.checkDemand(d, l.RatedApparent); err != nil {
		return 0, err
	}
	return margin(l.Rated, l.RatedApparent, d), nil
}

// StartMargin is RunningMargin for a start peak and the start limits.
func (l Limits) StartMargin(d Demand) (units.Ratio, error) {
	if err := l.checkDemand(d, l.StartApparent); err != nil {
		return 0, err
	}
	return margin(l.Start, l.StartApparent, d), nil
}

func (l Limits) checkDemand(d Demand, apparent units.ApparentPower) error {
	var p problems
	l.fields(&p, "")
	p.within("power", float64(d.Power), 0, MaxLoads*maxPower, inWatts)
	p.within("apparent", float64(d.Apparent), 0, MaxLoads*maxPower, inVoltAmperes)
	if apparent > 0 && d.Apparent == 0 && d.Power > 0 {
		p.missing("apparent", "the volt-amperes, since the source has a limit for them")
	}
	return p.err()
}

func margin(power units.Power, apparent units.ApparentPower, d Demand) units.Ratio {
	m := 1.0
	if power > 0 {
		m = min(m, float64((power-d.Power)/power))
	}
	if apparent > 0 {
		m = min(m, float64((apparent-d.Apparent)/apparent))
	}
	return units.Ratio(m)
}

// A Source is something with outlets: a generator, a shore cord, an inverter.
//
// Kind and Rated are required, and Start too for anything that an engine or a
// battery feeds. What is zero otherwise is no limit.
//
// Rated and Start are the watts on the plate, at the reference conditions of
// the plate. The alternator of a portable set may be bigger than its engine;
// where its own limits are known, AlternatorRated and AlternatorStart cap the
// result and let the plate watts derate alone.
type Source struct {
	Name            string
	Kind            SourceKind
	Rated           units.Power         // running limit
	Start           units.Power         // starting limit
	AlternatorRated units.Power         // optional, the alternator's or the electronics' own running limit
	AlternatorStart units.Power         // optional, the same for starting
	RatedApparent   units.ApparentPower // optional, limit of the winding or the electronics
	StartApparent   units.ApparentPower // optional
}

// Validate returns everything that is wrong with the source, in field order.
func (s Source) Validate() error {
	var p problems
	s.fields(&p, "")
	return p.err()
}

func (s *Source) fields(p *problems, prefix string) {
	if s.Name == "" {
		p.missing(prefix+"name", "a name that tells this source from the others")
	}
	switch {
	case s.Kind == 0:
		p.missing(prefix+"kind", "what the source is")
	case s.Kind < 0 || s.Kind > BatteryInverter:
		p.rangef(prefix+"kind", s.Kind, "one of the kinds of source")
	}
	if s.Rated == 0 {
		p.missing(prefix+"rated", "the running watts of its plate")
	}
	if s.Start == 0 && s.Kind != Shore {
		p.missing(prefix+"start", "the starting watts of its plate")
	}
	l := Limits{s.Rated, s.Start, s.RatedApparent, s.StartApparent}
	l.fields(p, prefix)
	r := p.optional(prefix+"alternatorRated", float64(s.AlternatorRated), minPower, maxPower, inWatts)
	if p.optional(prefix+"alternatorStart", float64(s.AlternatorStart), minPower, maxPower, inWatts) && r && s.AlternatorStart < s.AlternatorRated {
		p.conflict(prefix+"alternatorStart", s.AlternatorStart, fmt.Sprintf("at least the alternator's rated power, %v", s.AlternatorRated))
	}
}

// A Bound says which part of a source sets one of its limits.
type Bound int

// The zero Bound is no limit.
const (
	Unbound         Bound = iota
	PlateBound            // the plate figure as it stands
	EngineBound           // the plate figure derated with the engine
	AlternatorBound       // the alternator or the electronics
)

// String returns the bound in a word.
func (b Bound) String() string {
	switch b {
	case Unbound:
		return "no limit"
	case PlateBound:
		return "plate"
	case EngineBound:
		return "engine"
	case AlternatorBound:
		return "alternator"
	}
	return fmt.Sprintf("Bound(%d)", int(b))
}

// DeratedLimits are the limits of a source at a site and what sets each.
type DeratedLimits struct {
	Limits
	RatedBound, StartBound Bound
}

// Derated returns the limits of the source where its engine gives the share
// engine of its plate power:
//
//	limit = min(engine · plate, alternator)   with an engine of its own
//	limit = min(plate, alternator)            otherwise
//
// Volt-ampere limits belong to windings and electronics and stay as they are.
// A share above one (cold air below the reference height) counts as one: it
// does not stretch a plate. engine must lie in [0.001, 2] and is not looked at for
// a source without its own engine.
//
// Errors: units.ErrRange or units.ErrMissing for engine, and those of Validate.
func (s Source) Derated(engine units.Ratio) (DeratedLimits, error) {
	var p problems
	s.fields(&p, "")
	if s.Kind.OwnEngine() {
		p.required("engine", float64(engine), minShare, 2, ratio("(200 %)"))
	}
	if err := p.err(); err != nil {
		return DeratedLimits{}, err
	}
	f := 1.0
	if s.Kind.OwnEngine() {
		f = min(float64(engine), 1)
	}
	d := DeratedLimits{Limits: Limits{RatedApparent: s.RatedApparent, StartApparent: s.StartApparent}}
	d.Rated, d.RatedBound = derate(s.Rated, s.AlternatorRated, f)
	d.Start, d.StartBound = derate(s.Start, s.AlternatorStart, f)
	return d, nil
}

func derate(plate, alternator units.Power, f float64) (units.Power, Bound) {
	if plate == 0 && alternator == 0 {
		return 0, Unbound
	}
	limit, bound := plate, PlateBound
	if f < 1 {
		limit, bound = units.Power(f*float64(plate)), EngineBound
	}
	if alternator > 0 && (plate == 0 || alternator < limit) {
		limit, bound = alternator, AlternatorBound
	}
	return limit, bound
}

// A SourceResult is a source with its loads at a site.
type SourceResult struct {
	Limits  DeratedLimits
	Starts  StartResult
	Running units.Ratio // margin of the running demand to the rated limits
	Best    units.Ratio // margins of the start peaks to the start limits
	Worst   units.Ratio
	Restart units.Ratio
}

// Carry returns what the loads ask of the source where its engine gives the
// share engine of its plate power, and the margins left. The orders are those
// of [StartsOn] with the derated limits.
//
// Errors: as of [Source.Derated] and StartsOn.
func (s Source) Carry(loads []Load, engine units.Ratio) (SourceResult, error) {
	limits, err := s.Derated(engine)
	if err != nil {
		return SourceResult{}, err
	}
	st, err := StartsOn(loads, limits.Limits)
	if err != nil {
		return SourceResult{}, err
	}
	if err := needApparent(loads, limits.Limits); err != nil {
		return SourceResult{}, err
	}
	return SourceResult{
		Limits:  limits,
		Starts:  st,
		Running: margin(limits.Rated, limits.RatedApparent, st.Running),
		Best:    margin(limits.Start, limits.StartApparent, st.Best.Peak),
		Worst:   margin(limits.Start, limits.StartApparent, st.Worst.Peak),
		Restart: margin(limits.Start, limits.StartApparent, st.Restart.Peak),
	}, nil
}

// ShaftPower returns what an engine must give to make an electric power through
// a generator and its belt:
//
//	P_shaft = P_electric / (η_generator · η_belt)
//
// Powers in watts, efficiencies from 0.001 to 1. A generator coupled to the shaft has
// a belt efficiency of one. An electric power of zero gives zero: the drag of
// an unloaded generator is not in an efficiency.
//
// Errors: units.ErrRange and units.ErrMissing, paths "electric", "generator"
// and "belt".
//
// Source: definition of efficiency.
func ShaftPower(electric units.Power, generator, belt units.Ratio) (units.Power, error) {
	var p problems
	p.within("electric", float64(electric), 0, MaxLoads*maxPower, inWatts)
	p.share("generator", generator)
	p.share("belt", belt)
	if err := p.err(); err != nil {
		return 0, err
	}
	return units.Power(shaft(float64(electric), float64(generator), float64(belt))), nil
}

func shaft(electric, generator, belt float64) float64 { return electric / (generator * belt) }

// A ShaftStep is the shaft load at one step of a sequence.
type ShaftStep struct {
	Start  []string
	Before units.Power
	Peak   units.Power
	After  units.Power
}

// ShaftSteps returns the power at the driving engine's shaft at each step of a
// start sequence, by [ShaftPower]. The efficiency is taken as constant, the
// starting peak included.
//
// Errors: as of ShaftPower.
func ShaftSteps(s Sequence, generator, belt units.Ratio) ([]ShaftStep, error) {
	var p problems
	p.share("generator", generator)
	p.share("belt", belt)
	if err := p.err(); err != nil {
		return nil, err
	}
	steps := make([]ShaftStep, len(s.Steps))
	for i, st := range s.Steps {
		steps[i].Start = st.Start
		for _, x := range []struct {
			to *units.Power
			e  units.Power
		}{{&steps[i].Before, st.Before.Power}, {&steps[i].Peak, st.Peak.Power}, {&steps[i].After, st.After.Power}} {
			w, err := ShaftPower(x.e, generator, belt)
			if err != nil {
				return nil, units.At(fmt.Sprintf("steps[#%d]", i+1), err)
			}
			*x.to = w
		}
	}
	return steps, nil
}
