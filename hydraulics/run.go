package hydraulics

import (
	"example.com/washrig/units"
)

// A Run is elements one behind another that carry one flow: what a line takes at a flow
// that is known, where no network has to be solved. Lay it with Set, ask with Loss. It
// keeps its memory from one line to the next and must not be used by two goroutines at
// once; the zero Run is ready.
type Run struct {
	w        Workspace
	net      Network
	supplies [1]Supply
	sections [1]Section
	outlet   Outlet
	nozzles  [1]Nozzle
}

// Set lays the elements of a line, named so in errors, for a fluid.
//
// Errors: every problem of the fluid and the elements, as [units.FieldError]s in field
// order.
func (r *Run) Set(fluid Fluid, line string, elements []Element) error {
	// A wide nozzle at the end lets every line pass the flow, one without loss too.
	r.nozzles[0] = Nozzle{Number: maxNumber}
	r.outlet = Outlet{Nozzles: r.nozzles[:]}
	r.supplies[0] = Supply{Flow: 1}
	r.sections[0] = Section{Name: line, Parent: Manifold, Elements: elements, Outlet: &r.outlet}
	r.net = Network{Fluid: fluid, Supplies: r.supplies[:], Sections: r.sections[:]}
	return r.w.compile(&r.net)
}

// Loss returns the pressure that a flow takes, height included, and the derivative of
// it by the flow, Pa/(m³/s). The losses are those of [Solve]. Without flow it is that
// of the heights and of closed check valves, and the derivative is that of a trickle.
func (r *Run) Loss(q units.VolumeFlow) (loss units.Pressure, slope float64) {
	s := &r.w.sections[0]
	s.m = float64(q) * s.rho
	sum, rise := 0.0, 0.0
	if s.m > 0 {
		for range 2 { // once more where a start lay too far off
			r.w.loose = 0
			inv := 1 / s.m
			for j := s.pipe0; j < s.pipe1; j++ {
				r.w.pipes[j].drop(&r.w, s.m, inv)
			}
			if r.w.loose <= tight {
				break
			}
		}
		for j := s.pipe0; j < s.pipe1; j++ {
			sum += r.w.pipes[j].dp
			rise += r.w.pipes[j].slope
		}
	} else {
		s.m = 0
		for j := s.pipe0; j < s.pipe1; j++ {
			if p := &r.w.pipes[j]; p.curve == 0 {
				rise += p.lam
			}
		}
	}
	for j := s.item0; j < s.item1; j++ {
		it := &r.w.items[j]
		sum += it.c0 + (it.c1+it.c2*s.m)*s.m
		rise += it.c1 + 2*it.c2*s.m
	}
	return units.Pressure(sum), rise * s.rho
}

// Element returns what one element takes of the last Loss.
func (r *Run) Element(i int) (e ElementResult) {
	s := &r.w.sections[0]
	r.w.elementResult(s, &r.w.items[s.item0+i], &e)
	return e
}

// Elements returns how many elements the line has.
func (r *Run) Elements() int { return len(r.w.items) }
