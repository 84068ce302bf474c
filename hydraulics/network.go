package hydraulics

import (
	"errors"
	"strconv"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Network is a tree of lines from one or several pumps, which deliver into one
// manifold, to any number of outlets into the open air.
type Network struct {
	Fluid    Fluid // at the pump; flows are metered at its density
	Supplies []Supply
	Sections []Section // each after its parent
}

// Manifold is the parent of the sections that leave the pump.
const Manifold = -1

// A Section is a run of elements that carry one flow. It ends at an outlet, at
// the sections that name it as their parent, or blind.
type Section struct {
	Name   string
	Parent int // index of the section it continues, or Manifold
	Fluid  Fluid

	Regulator *Regulator // at the beginning, before the elements; nil: none
	Elements  []Element  // in the order of flow
	Outlet    *Outlet    // nil: none
}

// A NozzleLaw says how a nozzle number is read for a liquid that is not cold.
type NozzleLaw uint8

const (
	// TradeLaw is q = N √(p/4000) with q metered cold, at the density of the pump:
	// the trade's arithmetic, whatever the temperature at the nozzle.
	TradeLaw NozzleLaw = iota

	// DensityLaw takes the number as a hole that passes N gpm of water of
	// [ReferenceDensity] at 4000 psi, so that ṁ = N √(p/4000) √(ρ ρ_ref). Hot water
	// then makes more pressure at the same mass flow: 2 % at 160 °F.
	DensityLaw
)

// An Outlet is where a section opens into the air: a gun with one or several
// nozzles, or the bare end of a hose where it has none.
type Outlet struct {
	Nozzles []Nozzle
	Closed  bool
	Law     NozzleLaw
}

// A Nozzle is one tip.
type Nozzle struct {
	Number  units.NozzleNumber // when new
	Wear    units.Ratio        // growth of the flow area: 0.054 costs 10 % of the pressure at constant flow
	Blocked bool
}

// A Supply is a positive-displacement pump with the valves at its outlet.
type Supply struct {
	Name     string
	Flow     units.VolumeFlow // at its speed against no pressure, metered at the density of Network.Fluid
	Leakage  Leakage
	Unloader Unloader
	Relief   Relief
}

// Leakage is what slips back through the valves and past the plungers; it rises
// in proportion to the pressure. The zero Leakage is none.
type Leakage struct {
	Flow     units.VolumeFlow
	Pressure units.Pressure // at which Flow leaks
}

// An UnloaderKind is how an unloader decides.
type UnloaderKind uint8

const (
	NoUnloader UnloaderKind = iota

	// PressureRegulating bypasses what would raise the pressure above Set. With
	// every outlet closed the pump works on against Set + Rise.
	PressureRegulating

	// FlowActuated regulates like the first kind while at least Actuation flows to
	// the line; below that it opens, and the pump works against Bypass alone.
	FlowActuated

	// TrappedPressure regulates while an outlet is open. When the last one closes
	// its check valve holds the pressure in the line and the pump is unloaded to
	// Bypass.
	TrappedPressure
)

var unloaderNames = [...]string{"none", "pressure-regulating", "flow-actuated", "trapped-pressure"}

// String returns the kind as the trade writes it.
func (k UnloaderKind) String() string {
	if int(k) < len(unloaderNames) {
		return unloaderNames[k]
	}
	return "unknown unloader"
}

// A Return is where bypassed water goes.
type Return uint8

const (
	ToTank  Return = iota // through the tank, where it can cool and mix
	ToInlet               // straight back to the inlet of the pump
)

// An Unloader returns surplus flow.
type Unloader struct {
	Kind      UnloaderKind
	Set       units.Pressure   // at which it begins to bypass
	Rise      units.Pressure   // further rise until the whole flow is bypassed; zero is an ideal valve
	Bypass    units.Pressure   // pressure at the pump when it is fully open; may be zero
	Actuation units.VolumeFlow // of a flow-actuated one
	Return    Return
}

// A Relief is a relief valve beside the pump; the zero Relief is none.
type Relief struct {
	Set          units.Pressure   // at which it begins to open
	Accumulation units.Pressure   // further rise until Flow passes; zero is an ideal valve
	Flow         units.VolumeFlow // passed at Set + Accumulation; zero: the flow of the pump
}

// Given reports whether there is a relief valve.
func (r Relief) Given() bool { return r != Relief{} }

// path names a section for an error: by name where that is an identifier, else
// by position from 1.
func (n *Network) path(i int) string {
	return problem.Element("sections", n.Sections[i].Name, i)
}

func (s *Supply) ok() bool {
	u, r := &s.Unloader, &s.Relief
	return s.Flow >= minFlow && s.Flow <= maxFlow && s.Leakage == Leakage{} &&
		u.Kind <= TrappedPressure && (u.Kind == NoUnloader || u.Set >= minPressure && u.Set <= maxPressure) &&
		u.Rise >= 0 && u.Rise <= maxPressure && u.Bypass >= 0 && u.Bypass <= u.Set && u.Kind != FlowActuated && u.Return <= ToInlet &&
		(*r == Relief{} || r.Set >= minPressure && r.Set <= maxPressure && r.Accumulation >= 0 && r.Accumulation <= maxPressure && r.Flow == 0)
}

func (s *Supply) check(p *problem.List) {
	within(p, "flow", s.Flow, minFlow, maxFlow)
	if l := s.Leakage; l != (Leakage{}) {
		within(p, "leakage.flow", l.Flow, minFlow, maxFlow)
		within(p, "leakage.pressure", l.Pressure, minPressure, maxPressure)
	}
	u := &s.Unloader
	if u.Kind > TrappedPressure {
		p.Add("unloader.kind", strconv.Itoa(int(u.Kind)), "0 to 3", units.ErrRange)
	}
	if u.Kind != NoUnloader {
		within(p, "unloader.set", u.Set, minPressure, maxPressure)
		atMost(p, "unloader.rise", u.Rise, maxPressure)
		atMost(p, "unloader.bypass", u.Bypass, maxPressure)
		if u.Bypass > u.Set {
			p.Add("unloader.bypass", u.Bypass.String(), "no more than the set point, "+u.Set.String(), units.ErrConflict)
		}
		if u.Kind == FlowActuated {
			within(p, "unloader.actuation", u.Actuation, minFlow, maxFlow)
		}
		if u.Return > ToInlet {
			p.Add("unloader.return", strconv.Itoa(int(u.Return)), "0 or 1", units.ErrRange)
		}
	}
	if r := &s.Relief; r.Given() {
		within(p, "relief.set", r.Set, minPressure, maxPressure)
		atMost(p, "relief.accumulation", r.Accumulation, maxPressure)
		atMost(p, "relief.flow", r.Flow, maxFlow)
	}
}

func (n *Network) supplyPath(i int) string {
	return problem.Element("supplies", n.Supplies[i].Name, i)
}

// Validate reports everything that [Solve] would refuse, in field order.
func (n *Network) Validate() error {
	var w Workspace
	return w.compile(n)
}

// ErrDeadHead is a positive-displacement pump against closed outlets, or against
// regulators that pass less than it moves, with neither unloader nor relief nor
// leakage: the pressure rises until something bursts.
var ErrDeadHead = errors.New("pump against closed outlets with no unloader, relief or leakage")

// A DeadHeadError is [ErrDeadHead] with the part that gives way first: of those
// between the pump and the closed outlets, up to the regulators, the one with the
// lowest pressure rating.
type DeadHeadError struct {
	Supply  string         // name or position of the pump
	Section string         // path of the section of Part; empty where no part has a rating
	Part    string         // name or position of the part in the section
	Rating  units.Pressure // zero where no part has a rating
	Unrated int            // parts on the way whose rating is not given; any of them may go first
}

// Error names the first part whose rating is passed.
func (e *DeadHeadError) Error() string {
	s := ErrDeadHead.Error()
	switch {
	case e.Section != "":
		s += ": first past its rating of " + e.Rating.String() + " is " + e.Part + " in " + e.Section
	default:
		s += ": no part has a pressure rating"
	}
	if e.Unrated > 0 && e.Section != "" {
		s += " (" + strconv.Itoa(e.Unrated) + " parts have no rating)"
	}
	return s
}

// Unwrap returns [ErrDeadHead].
func (e *DeadHeadError) Unwrap() error { return ErrDeadHead }
