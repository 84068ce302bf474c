package hydraulics

import "math"

// A source is one supply as numbers: masses in kg/s, pressures in Pa. Its flow
// into the line falls with the pressure in the line, piece by piece in straight
// lines, and steps down where an ideal valve opens.
type source struct {
	m             float64 // moved by the pump
	leak          float64 // lost per Pa
	set, rise     float64 // unloader; set is +Inf without one
	rset, racc    float64 // relief; rset is +Inf without one
	rm            float64 // passed by the relief at rset + racc
	shut          float64 // pressure from which nothing goes to the line; +Inf without any valve or leak
	actuation     float64 // least flow to the line of a flow-actuated unloader, else 0
	bypass        float64 // pressure when dumping
	held          float64 // flow to the line before it dumped
	dumping       bool
	steps         bool // at shut an ideal valve takes all that is left
	traps         bool // holds the line when nothing flows
	line          float64
	p             float64
	byp, rel, lkg float64
}

func (s *source) compile(u *Supply, rho float64) {
	s.m, s.set, s.rset = float64(u.Flow)*rho, math.Inf(1), math.Inf(1)
	if l := &u.Leakage; l.Flow > 0 {
		s.leak = float64(l.Flow) * rho / float64(l.Pressure)
	}
	if v := &u.Unloader; v.Kind != NoUnloader {
		s.set, s.rise, s.bypass = float64(v.Set), float64(v.Rise), float64(v.Bypass)
		s.traps = v.Kind != PressureRegulating
		if v.Kind == FlowActuated {
			s.actuation = float64(v.Actuation) * rho
		}
	}
	if r := &u.Relief; r.Set > 0 {
		s.rset, s.racc, s.rm = float64(r.Set), float64(r.Accumulation), float64(r.Flow)*rho
		if s.rm == 0 {
			s.rm = s.m
		}
	}
}

// dump opens a flow-actuated unloader.
func (s *source) dump() {
	s.dumping, s.held = true, s.line
	s.set, s.rise = s.bypass, 0
}

// opened returns the share 0 to 1 by which a valve with the given set point and
// rise is open at p; after decides at the step of an ideal one.
func opened(p, set, rise float64, after bool) float64 {
	switch {
	case p < set || p == set && !(after && rise == 0):
		return 0
	case rise == 0:
		return math.Inf(1)
	case p == set+rise:
		return 1 // whatever the quotient rounds to
	}
	return (p - set) / rise
}

// unload is the state of a valve that holds the line and lets the pump run
// against its bypass.
func (s *source) unload() {
	s.dumping = true
	s.p, s.line, s.rel = s.bypass, 0, 0
	s.lkg = s.leak * s.bypass
	s.byp = s.m - s.lkg
}

// sinks returns what leak, unloader and relief would take at pump pressure p.
func (s *source) sinks(p float64, after bool) float64 {
	t := s.leak * math.Max(p, 0)
	if u := opened(p, s.set, s.rise, after); u > 0 {
		t += math.Min(u, 1) * s.m
	}
	if u := opened(p, s.rset, s.racc, after); u > 0 {
		t += u * s.rm
	}
	return t
}

// into returns the flow into a line at pressure p, just before or after a step.
func (s *source) into(p float64, after bool) float64 {
	if p > s.shut || p == s.shut && (after || !s.steps) {
		return 0 // whatever the sum of the sinks rounds to
	}
	return math.Max(0, s.m-s.sinks(p, after))
}

// corners returns the pressures at which the sinks change slope, +Inf where
// there is none.
func (s *source) corners() [4]float64 {
	c := [4]float64{math.Inf(1), s.set, s.set + s.rise, s.rset}
	if s.leak > 0 {
		c[0] = 0
	}
	for i := 1; i < len(c); i++ {
		for j := i; j > 0 && c[j] < c[j-1]; j-- {
			c[j], c[j-1] = c[j-1], c[j]
		}
	}
	return c
}

// findShut finds the pressure at which the sinks take all.
func (s *source) findShut() {
	if s.steps = s.leak == 0 && s.rise == 0 && s.set <= s.rset; s.steps {
		s.shut = s.set
		return
	}
	c := s.corners()
	lo, at := 0., 0.
	for _, p := range c {
		if math.IsInf(p, 1) {
			break
		}
		if before := s.sinks(p, false); before >= s.m {
			s.shut = lo + (p-lo)*(s.m-at)/(before-at)
			return
		}
		lo, at = p, s.sinks(p, true)
		if at >= s.m {
			s.shut, s.steps = p, true
			return
		}
	}
	slope := s.leak
	if lo >= s.rset {
		slope += s.rm / s.racc
	}
	s.shut = math.Inf(1)
	if slope > 0 {
		s.shut = lo + (s.m-at)/slope
	}
}

// prepare finds the pressure up to which the pumps' whole flow goes to the line.
func (w *Workspace) prepare() {
	w.total, w.first, w.cornered = 0, math.Inf(1), false
	for i := range w.sources {
		s := &w.sources[i]
		w.total += s.m
		if s.set < w.first {
			w.first = s.set
		}
		if s.rset < w.first {
			w.first = s.rset
		}
		if s.leak > 0 {
			w.first = 0
		}
	}
}

// corner gathers the corners of all supplies, which only matter above w.first.
func (w *Workspace) corner() {
	if w.cornered {
		return
	}
	w.cornered = true
	w.breaks, w.free, w.last = w.breaks[:0], 0, 0
	for i := range w.sources {
		s := &w.sources[i]
		s.findShut()
		w.last = math.Max(w.last, s.shut)
		if math.IsInf(s.shut, 1) {
			w.free += s.m
			continue
		}
		if s.shut == w.first { // an ideal valve: nothing matters above it
			w.breaks = append(w.breaks, s.shut)
			continue
		}
		for _, p := range s.corners() {
			if !math.IsInf(p, 1) {
				w.breaks = append(w.breaks, p)
			}
		}
		w.breaks = append(w.breaks, s.shut)
	}
	b := w.breaks
	for i := 1; i < len(b); i++ {
		for j := i; j > 0 && b[j] < b[j-1]; j-- {
			b[j], b[j-1] = b[j-1], b[j]
		}
	}
}

func (w *Workspace) into(p float64, after bool) float64 {
	t := 0.
	for i := range w.sources {
		t += w.sources[i].into(p, after)
	}
	return t
}

// meet returns the manifold pressure at which the supplies deliver what a line
// with p = α + m/g takes, and that flow: by the line or by the supplies,
// whichever depends less on the pressure.
func (w *Workspace) meet(alpha, g float64) (p, m float64) {
	if p = alpha + w.total/g; p <= w.first {
		return p, w.total
	}
	w.corner()
	lo, at := w.first, w.total // at: flow just after lo
	for i, b := range w.breaks {
		before := w.total
		if i > 0 {
			before = w.into(b, false)
		}
		if before <= (b-alpha)*g {
			// The supplies fall by k from lo to b; the line rises by g.
			if b == lo {
				return b, before
			}
			k := (at - before) / (b - lo)
			p = lo + (at-(lo-alpha)*g)/(g+k)
			if k < g {
				return p, at - k*(p-lo)
			}
			return p, (p - alpha) * g
		}
		lo, at = b, w.into(b, true)
		if at <= (b-alpha)*g {
			return b, (b - alpha) * g
		}
	}
	if w.free > 0 {
		return alpha + w.free/g, w.free
	}
	return lo, (lo - alpha) * g
}

// supplied returns the pressure at which the supplies deliver m.
func (w *Workspace) supplied(m float64) float64 {
	if w.corner(); m >= w.total || len(w.breaks) == 0 {
		return math.Min(w.p, w.first)
	}
	lo, at := w.first, w.total
	for i, b := range w.breaks {
		before := w.total
		if i > 0 {
			before = w.into(b, false)
		}
		if before <= m {
			if at == before {
				return b
			}
			return lo + (b-lo)*(at-m)/(at-before)
		}
		lo, at = b, w.into(b, true)
		if at <= m {
			return b
		}
	}
	return math.Max(w.p, lo)
}

// share settles what each supply does when m goes into the lines at pressure p.
func (w *Workspace) share(p, m float64) {
	if p < w.first {
		for i := range w.sources {
			s := &w.sources[i]
			s.p, s.line, s.byp, s.rel, s.lkg = p, s.m, 0, 0, 0
		}
		return
	}
	w.corner()
	if len(w.sources) == 1 {
		s := &w.sources[0]
		s.p, s.line = math.Min(p, s.shut), math.Min(m, s.m)
		s.settle()
		return
	}
	before, after := w.into(p, false), w.into(p, true)
	part := 1.
	if before > after {
		part = math.Min(1, math.Max(0, (m-after)/(before-after)))
	}
	for i := range w.sources {
		s := &w.sources[i]
		s.p = p
		s.line = 0
		if p > s.shut {
			s.p = s.shut
		} else {
			b, a := s.into(p, false), s.into(p, true)
			s.line = a + part*(b-a)
		}
		s.settle()
	}
}

// settle divides what does not go to the line among leak, unloader and relief.
func (s *source) settle() {
	p := s.p
	s.lkg = math.Min(s.leak*math.Max(p, 0), s.m-s.line)
	rest := s.m - s.line - s.lkg
	s.byp, s.rel = 0, 0
	switch unloads, relieves := s.set <= p, s.rset <= p; {
	case unloads && relieves && s.rise > 0:
		s.byp = math.Min(rest, math.Min(1, (p-s.set)/s.rise)*s.m)
		s.rel = rest - s.byp
	case unloads && relieves && s.racc > 0:
		s.rel = math.Min(rest, (p-s.rset)/s.racc*s.rm)
		s.byp = rest - s.rel
	case unloads:
		s.byp = rest
	case relieves:
		s.rel = rest
	}
}
