package electrical

import (
	"fmt"
	"math"

	"example.com/washrig/units"
)

// StartMode says who starts a load. The zero StartMode is "not given".
type StartMode int

const (
	// ByHand is a load that a person switches on: the order can be chosen.
	ByHand StartMode = iota + 1
	// ByItself is a load that a float, a pressure switch, a thermostat or a
	// flow switch starts at any instant: no order can be relied on.
	ByItself
)

// String returns "by hand", "by itself" or "not given".
func (m StartMode) String() string {
	switch m {
	case ByHand:
		return "by hand"
	case ByItself:
		return "by itself"
	case 0:
		return "not given"
	}
	return fmt.Sprintf("StartMode(%d)", int(m))
}

// A Load is one consumer of alternating current as the start plan sees it: what
// it draws when running and the most it draws while it starts.
//
// Running, Starting and Starts are required. The apparent powers are optional,
// but go together: one without the other is an error, and neither may be less
// than the power beside it.
type Load struct {
	Name             string
	Running          units.Power         // drawn in steady running
	Starting         units.Power         // most drawn while starting, never below Running
	RunningApparent  units.ApparentPower // optional
	StartingApparent units.ApparentPower // optional
	Starts           StartMode
	After            []string // loads that must be running before this one is started, where they share its source
}

// A Demand is what a group of loads asks of a source. Apparent is zero where
// one of the loads does not say its apparent power.
type Demand struct {
	Power    units.Power
	Apparent units.ApparentPower
}

// MaxLoads is the number of loads one source can be asked to start.
const MaxLoads = 64

// Validate returns everything that is wrong with the load, in field order,
// with paths such as "starting".
func (l Load) Validate() error {
	var p problems
	l.fields(&p, "")
	return p.err()
}

// check adds what is wrong with the load as element i of a list.
func (l *Load) check(p *problems, list string, i int) {
	if l.sound() {
		return // without building the paths of errors that do not come up
	}
	l.fields(p, element(list, l.Name, i)+".")
}

// sound reports whether fields would find nothing.
func (l *Load) sound() bool {
	run, start := float64(l.Running), float64(l.Starting)
	if !(l.Name != "" && run >= minPower && start >= run && start <= maxPower && (l.Starts == ByHand || l.Starts == ByItself)) {
		return false
	}
	r, s := float64(l.RunningApparent), float64(l.StartingApparent)
	return r == 0 && s == 0 ||
		r >= run*(1-apparentSlack) && s >= start*(1-apparentSlack) && s >= r && s <= maxPower
}

func (l *Load) fields(p *problems, prefix string) {
	if l.Name == "" {
		p.missing(prefix+"name", "a name that tells this load from the others")
	}
	run, start := float64(l.Running), float64(l.Starting)
	runOK := p.power(prefix+"running", l.Running)
	switch {
	case start == 0:
		p.missing(prefix+"starting", "the most it draws while starting, from the plate or a clamp meter")
	case !p.power(prefix+"starting", l.Starting):
	case runOK && start < run:
		p.conflict(prefix+"starting", l.Starting, fmt.Sprintf("at least the running power, %v", l.Running))
	}
	l.checkApparent(p, prefix, runOK)
	switch l.Starts {
	case ByHand, ByItself:
	case 0:
		p.missing(prefix+"starts", "by hand or by itself")
	default:
		p.rangef(prefix+"starts", l.Starts, "by hand or by itself")
	}
}

func (l *Load) checkApparent(p *problems, prefix string, runOK bool) {
	run, start := float64(l.RunningApparent), float64(l.StartingApparent)
	if run == 0 && start == 0 {
		return
	}
	switch {
	case run == 0:
		p.missing(prefix+"runningApparent", "the running volt-amperes beside the starting ones")
	case !p.apparent(prefix+"runningApparent", l.RunningApparent):
	case runOK && run < float64(l.Running)*(1-apparentSlack):
		p.conflict(prefix+"runningApparent", l.RunningApparent, fmt.Sprintf("at least the running power, %v", l.Running))
	}
	switch {
	case start == 0:
		p.missing(prefix+"startingApparent", "the starting volt-amperes beside the running ones")
	case !p.apparent(prefix+"startingApparent", l.StartingApparent):
	case start < float64(l.Starting)*(1-apparentSlack):
		p.conflict(prefix+"startingApparent", l.StartingApparent, fmt.Sprintf("at least the starting power, %v", l.Starting))
	case start < run:
		p.conflict(prefix+"startingApparent", l.StartingApparent, fmt.Sprintf("at least the running volt-amperes, %v", l.RunningApparent))
	}
}

// apparentSlack lets an apparent power computed from a power and a power factor
// of one differ from that power by rounding.
const apparentSlack = 1e-9

// apparent reports whether the load says its volt-amperes.
func (l *Load) apparent() bool { return l.RunningApparent != 0 }

// nonActive returns the part of the volt-amperes that does no work:
//
//	N = √(S² − P²)
//
// The sum of loads is taken as √((ΣP)² + (ΣN)²): exact when every N lags by
// the same quarter turn, as in motors, and never too low otherwise, because
// the non-active currents of two loads cannot add to more than their sum.
func nonActive(apparent, power float64) float64 {
	d := (apparent - power) * (apparent + power)
	if d <= 0 {
		return 0
	}
	return math.Sqrt(d)
}
