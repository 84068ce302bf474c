package hydraulics

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Regulator is a pressure-reducing valve: it throttles so that the pressure behind it
// is at most its set point, and stands wide open where the pressure before it is less.
//
//	p_behind = min( p_before, p_set − Δp_d q/q_d )
//
// q is the flow through it, Δp_d the droop at q_d. Without flow it shuts, and holds the
// set point. What it costs wide open is a [Fitting] or [RatedLoss] beside it. It throttles
// and bypasses nothing: a pump of fixed flow needs an unloader or another way out.
type Regulator struct {
	Part
	Set   units.Pressure   // behind it, without flow
	Droop units.Pressure   // by which what it holds has fallen at Flow; zero is an ideal valve
	Flow  units.VolumeFlow // of the liquid as it passes; needed with a droop
}

func (r *Regulator) check(bad *problem.List) {
	within(bad, "set", r.Set, minPressure, maxPressure)
	atMost(bad, "droop", r.Droop, float64(max(r.Set, 0)))
	if r.Droop != 0 || r.Flow != 0 {
		within(bad, "flow", r.Flow, minFlow, maxFlow)
	}
}

// behind returns the pressure that the regulator holds at a volume flow.
func (r *Regulator) behind(q float64) float64 {
	if r.Droop == 0 {
		return float64(r.Set)
	}
	return float64(r.Set) - float64(r.Droop)*q/float64(r.Flow)
}

// A held regulator is at work. The sections behind it are then a network of their own,
// fed at the set point, and what they take is a fixed demand on the rest.
//
// Which regulators work is found from the network with all of them wide open. One that
// would hold less than stands before it is put to work; that lessens the flow there and
// raises the pressure everywhere else, so that those at work stay so, and after at most
// as many rounds as there are regulators the set is complete.
type held struct {
	sections []int // of the network: the regulator's own, and those that continue it
	droop    bool  // the first element of the result is the droop
	result   Result
}

// release opens all regulators.
func (w *Workspace) release() {
	w.held, w.demand = w.held[:0], 0
	for i := range w.sections {
		s := &w.sections[i]
		s.holds, s.fix = false, 0
	}
	w.reopen()
}

// reopen finds the sections with an open outlet that no regulator at work feeds.
func (w *Workspace) reopen() {
	w.open = false
	for i := range w.sections {
		s := &w.sections[i]
		s.open = s.gun
	}
	for k := range w.held {
		for _, i := range w.held[k].sections {
			w.sections[i].open = false
		}
	}
	for i := len(w.sections) - 1; i >= 0; i-- {
		switch s := &w.sections[i]; {
		case !s.open:
		case s.parent >= 0:
			w.sections[s.parent].open = true
		default:
			w.open = true
		}
	}
}

// holdMore puts the regulators to work that would hold less than stands before them.
func (w *Workspace) holdMore(n *Network) (more bool, err error) {
	inside := make([]bool, len(w.sections)) // at or behind a regulator at work
	for i := range w.sections {
		s := &w.sections[i]
		if inside[i] = s.holds || s.parent >= 0 && inside[s.parent]; inside[i] {
			continue
		}
		if s.regulator == nil || s.m <= 0 {
			continue
		}
		before := w.p
		if s.parent >= 0 {
			before = w.sections[s.parent].out
		}
		if hold := s.regulator.behind(s.m * s.invRho); !(before > hold+1e-12*math.Abs(before)) {
			continue
		}
		if err := w.hold(n, i); err != nil {
			return false, err
		}
		more, inside[i] = true, true
	}
	if !more {
		return false, nil
	}
	// Those behind one that has just been put to work are its own affair now.
	kept := w.held[:0]
	w.demand = 0
	for _, h := range w.held {
		s := &w.sections[h.sections[0]]
		if s.parent >= 0 && inside[s.parent] {
			s.holds, s.fix = false, 0
			continue
		}
		kept = append(kept, h)
		w.demand += s.fix
	}
	w.held = kept
	w.reopen()
	if !w.open && w.demand > 0 {
		w.corner()
		if w.free > w.demand*(1+1e-9) {
			return false, w.deadHead(n, w.unlimited())
		}
	}
	return true, nil
}

// unlimited returns the first pump that nothing limits.
func (w *Workspace) unlimited() int {
	for i := range w.sources {
		if math.IsInf(w.sources[i].shut, 1) {
			return i
		}
	}
	return 0
}

// hold puts the regulator of a section to work: it solves what is behind it on its own.
func (w *Workspace) hold(n *Network, at int) error {
	if w.sub == nil {
		w.sub = new(Workspace)
	}
	r := w.sections[at].regulator
	h := held{sections: []int{at}, droop: r.Droop > 0}
	place := make([]int, len(n.Sections)) // in the small network, from 1
	place[at] = 1
	net := Network{Fluid: n.Fluid}
	first := n.Sections[at]
	first.Parent, first.Fluid, first.Regulator = Manifold, w.fluids[at], nil
	if h.droop {
		loss := RatedLoss{Flow: r.Flow, Pressure: r.Droop, Linear: 1, At: first.Fluid}
		first.Elements = append([]Element{loss}, first.Elements...)
	}
	net.Sections = append(net.Sections, first)
	for i := at + 1; i < len(n.Sections); i++ {
		s := n.Sections[i]
		if s.Parent < 0 || place[s.Parent] == 0 {
			continue
		}
		s.Parent = place[s.Parent] - 1
		net.Sections = append(net.Sections, s)
		h.sections = append(h.sections, i)
		place[i] = len(net.Sections)
	}
	// What comes when the regulator is wide open is enough, and that is no more than
	// the pumps move.
	flow := units.VolumeFlow(0)
	for i := range n.Supplies {
		flow += n.Supplies[i].Flow
	}
	net.Supplies = []Supply{{Flow: min(flow, maxFlow), Unloader: Unloader{Kind: PressureRegulating, Set: r.Set}}}
	if err := w.sub.Solve(&net, &h.result); err != nil {
		return err
	}
	s := &w.sections[at]
	s.holds, s.fix = true, float64(h.result.Sections[0].Mass)
	s.h, s.dh, s.loss = 0, 0, 0
	for _, i := range h.sections {
		w.sections[i].m = 0
	}
	w.held = append(w.held, h)
	return nil
}

// addHeld adds what the regulators at work pass to the flows of a split.
func (w *Workspace) addHeld() {
	for k := range w.held {
		s := &w.sections[w.held[k].sections[0]]
		m := s.fix
		for s.next += m; s.parent >= 0; {
			s = &w.sections[s.parent]
			s.next += m
		}
	}
}

// fixed adds a fixed flow to what the section before takes. It returns what is taken
// at the manifold.
func (w *Workspace) fixed(s *section) float64 {
	if s.parent < 0 {
		return s.fix
	}
	w.sections[s.parent].sag -= s.fix
	return 0
}

// shut returns what a regulator keeps out where nothing flows.
func (s *section) shut() float64 {
	if s.regulator == nil {
		return 0
	}
	return math.Max(0, s.in-float64(s.regulator.Set))
}

// pass moves a section that passes a fixed flow to that flow; now is the pressure before
// it as it stands.
func (w *Workspace) pass(s *section, now float64) {
	s.next = s.fix
	if s.holds {
		return
	}
	s.out = s.in - s.h - s.dh*(s.fix-s.m)
	s.now = now - s.h
	w.divide(s.child, s.out, s.fix)
}

// reportHeld writes what lies behind regulators at work.
func (w *Workspace) reportHeld(r *Result) {
	for k := range w.held {
		h := &w.held[k]
		for j, i := range h.sections {
			from, to := &h.result.Sections[j], &r.Sections[i]
			inlet, elements := to.Inlet, to.Elements
			*to = *from
			found := from.Elements
			if j == 0 {
				to.Inlet, to.Regulated = inlet, inlet-from.Inlet
				if h.droop {
					to.Regulated += found[0].Loss
					found = found[1:]
				}
			}
			to.Elements = append(elements[:0], found...)
		}
		r.Residual = max(r.Residual, h.result.Residual)
	}
}
