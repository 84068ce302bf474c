package tank

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// An EventKind is what happens to a tank at an [Event].
type EventKind uint8

const (
	SpillBegins EventKind = iota + 1
	SpillEnds
	PortDries  // a draw no longer gets its flow
	PortFloods // it does again
	FloatShuts // a float valve begins to throttle its fill, or is shut
	FloatOpens // it is fully open again
)

var eventNames = [...]string{"no event", "spill begins", "spill ends", "port dries", "port floods", "float shuts", "float opens"}

// String returns the event in words.
func (k EventKind) String() string {
	if int(k) < len(eventNames) {
		return eventNames[k]
	}
	return "unknown event"
}

// An Event is a change of what the levels do.
type Event struct {
	Time units.Duration
	Kind EventKind
	Tank int
}

// RunOptions choose when a run ends before its time and what is kept of it. The
// zero value runs to the end and keeps the end.
type RunOptions struct {
	StopAt []EventKind      // the first event of any of these kinds ends the run
	Sample []units.Duration // times at which the state is kept, rising
}

// A Passed is what went through one path, positive in the direction of its name;
// through a link that is the balance of both directions.
type Passed struct {
	Volume units.Volume
	Parts  []units.Volume // of each kind of water
}

// A Sample is the state at one time.
type Sample struct {
	Time     units.Duration
	Contents []Content
	Levels   []units.Length     // at the tanks' centres, above their floors
	Links    []units.VolumeFlow // from From to To
	Outlets  []units.VolumeFlow
	Draws    []units.VolumeFlow // what each really gets
	Fills    []units.VolumeFlow
	Spills   []units.VolumeFlow // by tank
}

// An Outcome is what a run of a system did.
type Outcome struct {
	Time    units.Duration
	Stop    *Event // that ended the run, nil if it ran its time
	End     []Content
	Links   []Passed
	Outlets []Passed
	Draws   []Passed
	Fills   []Passed
	Spills  []Passed // by tank
	Events  []Event
	Samples []Sample
	Steps   int

	// Closure is the largest difference, over tanks and kinds of water, between
	// what a tank holds at the end and what it held at the start with what passed
	// its paths, as a share of all volumes in the balance.
	Closure units.Ratio
}

// tolerance of one step, as a share of a tank's capacity.
const tolerance = 1e-10

// most switches and steps of one run.
const (
	maxSwitches = 10_000
	maxSteps    = 1_000_000
)

// Run follows the levels of the system for a time, from what the tanks hold.
//
// The volumes and what they carry are integrated with an L-stable method of order 4
// whose error is held to 1e-10 of a tank's capacity in each step. Ports that fall
// dry, float valves and overflow edges switch at the moment the level meets them;
// a level that can neither stay above nor below is held there, and what switches
// takes what the rest leaves. What stands over an overflow at the start has spilt at
// once. Water is well mixed in every tank.
//
// Errors: those of Validate; contents that do not fit; a negative time or one above
// a year; a [*units.SolverError] where the steps do not suffice.
func (s *System) Run(start []Content, until units.Duration, o RunOptions) (*Outcome, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if err := s.checkContents(start); err != nil {
		return nil, err
	}
	var p problem.List
	problem.Between(&p, "until", until, 0, float64(366*units.Day))
	for i, t := range o.Sample {
		if !(t >= 0 && t <= until) || (i > 0 && t < o.Sample[i-1]) {
			p.Add("sample[#"+strconv.Itoa(i+1)+"]", t.String(), "times in rising order, none after the end, "+until.String(), units.ErrConflict)
		}
	}
	if err := p.Join(); err != nil {
		return nil, err
	}
	r := newRunner(s, start)
	if err := r.run(float64(until), o); err != nil {
		return nil, err
	}
	return r.outcome(start), nil
}

// A runner carries one run.
type runner struct {
	s         *System
	f         *flowing
	st        *stepper
	t, h      float64
	y, next   []float64
	sum, over []float64 // integrals of the fluxes; of one step
	trial     []float64
	events    []Event
	samples   []Sample
	steps     int
	stop      *Event
}

func newRunner(s *System, start []Content) *runner {
	r := &runner{s: s, f: s.compile()}
	r.st = newStepper(r.f)
	size, fluxN := r.f.size()
	r.y, r.next, r.trial = make([]float64, size), make([]float64, size), make([]float64, size)
	r.sum, r.over = make([]float64, fluxN), make([]float64, fluxN)
	w := r.f.width
	for i := range start {
		r.y[i*w] = math.Min(float64(start[i].Volume), r.f.vessels[i].full)
		for k, v := range start[i].Parts {
			r.y[i*w+1+k] = float64(v)
		}
	}
	return r
}

// slack is how far a level passes a threshold, and leak by what flow a balance fails,
// before anything switches: without them rounding would switch without end.
func (r *runner) slack(i int) float64 { return 1e-11 * r.f.vessels[i].full }
func (r *runner) leak(i int) float64  { return 1e-12 * r.f.vessels[i].full }

// begin lets what stands over an overflow run off at once, and puts every tank on
// its side of each threshold.
func (r *runner) begin() {
	w := r.f.width
	for i := range r.f.modes {
		m := &r.f.modes[i]
		for _, t := range m.at {
			if over := r.y[i*w] - t.volume; t.brim && over > 0 {
				part := over / r.y[i*w]
				for c := range w {
					r.sum[m.brim*w+c] += part * r.y[i*w+c]
					r.y[i*w+c] -= part * r.y[i*w+c]
				}
				r.y[i*w] = t.volume
			}
		}
		for t := range m.at {
			m.above[t] = r.y[i*w] > m.at[t].volume+r.slack(i) && !m.at[t].brim
		}
	}
	for i := range r.f.modes {
		m := &r.f.modes[i]
		for t := range m.at {
			if math.Abs(r.y[i*w]-m.at[t].volume) <= r.slack(i) {
				r.decide(i, t)
			}
		}
	}
}

// decide chooses what a tank does whose level stands at a threshold.
func (r *runner) decide(i, t int) {
	m := &r.f.modes[i]
	m.held, m.spill = t, false // switches its devices off for the balance
	r.f.flows(r.y)
	net := r.f.nets[i]
	m.held = -1
	th := &m.at[t]
	fill, draw := r.f.rates(th)
	switch {
	case net+fill <= 0:
		m.above[t] = false
	case net-draw >= 0 && !th.brim:
		m.above[t] = true
	default:
		m.above[t] = false
		m.held, m.spill = t, net-draw > 0
	}
}

// what names the state of a tank for events: spilling, starved, throttled.
func (r *runner) what(i int) (spill, starved, throttled bool) {
	m := &r.f.modes[i]
	spill = m.held >= 0 && m.spill
	for t := range m.at {
		th := &m.at[t]
		held := m.held == t
		for _, k := range th.draws {
			if r.f.paths[k].rate > 0 && (!m.above[t] && !(held && m.spill)) {
				starved = true
			}
		}
		for _, k := range th.fills {
			if r.f.paths[k].rate > 0 && (m.above[t] || held) {
				throttled = true
			}
		}
	}
	return spill, starved, throttled
}

// note records what changed about a tank, and whether it ends the run.
func (r *runner) note(i int, was [3]bool, o RunOptions) {
	spill, starved, throttled := r.what(i)
	now := [3]bool{spill, starved, throttled}
	kinds := [3][2]EventKind{{SpillEnds, SpillBegins}, {PortFloods, PortDries}, {FloatOpens, FloatShuts}}
	for k := range now {
		if now[k] == was[k] {
			continue
		}
		e := Event{Time: units.Duration(r.t), Kind: kinds[k][0], Tank: i}
		if now[k] {
			e.Kind = kinds[k][1]
		}
		r.events = append(r.events, e)
		if r.stop == nil && slices.Contains(o.StopAt, e.Kind) {
			r.stop = &e
		}
	}
}

func (r *runner) fail(why string, residual float64) error {
	return &units.SolverError{Solver: "levels of joined tanks", State: fmt.Sprintf("%s at %g s", why, r.t), Iterations: r.steps, Residual: residual}
}

func (r *runner) run(until float64, o RunOptions) error {
	r.begin()
	for i := range r.f.modes {
		r.note(i, [3]bool{}, o)
	}
	samples := o.Sample
	r.h = math.Min(until, 1e-3)
	switches := 0
	for {
		for len(samples) > 0 && float64(samples[0]) <= r.t {
			r.keep()
			samples = samples[1:]
		}
		if r.stop != nil || r.t >= until {
			return nil
		}
		goal := until
		if len(samples) > 0 {
			goal = math.Min(goal, float64(samples[0]))
		}
		i, t, err := r.advance(goal)
		if err != nil {
			return err
		}
		if i < 0 {
			continue
		}
		var was [3]bool
		was[0], was[1], was[2] = r.what(i)
		r.decide(i, t)
		r.note(i, was, o)
		if switches++; switches > maxSwitches {
			return r.fail("a level that does not settle at its threshold", 0)
		}
	}
}

// A watch is one function whose change of sign ends a step.
type watch struct {
	tank, threshold int
	kind            uint8 // 0: the level; 1: the balance below; 2: the balance above
	rising          bool
}

// sign returns the watched number, positive once the event is due.
func (r *runner) sign(w watch, y []float64) float64 {
	m := &r.f.modes[w.tank]
	th := &m.at[w.threshold]
	if w.kind == 0 {
		d := y[w.tank*r.f.width] - th.volume
		if !w.rising {
			d = -d
		}
		return d - r.slack(w.tank)
	}
	r.f.flows(y)
	// The nets hold what the devices at the threshold leave out.
	net := r.f.nets[w.tank]
	fill, draw := r.f.rates(th)
	leak := r.leak(w.tank)
	if w.kind == 1 {
		return -(net + fill) - leak
	}
	if w.rising {
		return net - draw - leak
	}
	return draw - net - leak
}

func (r *runner) watches(list []watch) []watch {
	list = list[:0]
	for i := range r.f.modes {
		m := &r.f.modes[i]
		if m.held < 0 {
			for t := range m.at {
				list = append(list, watch{i, t, 0, !m.above[t]})
			}
			continue
		}
		t := m.held
		switch {
		case m.spill:
			list = append(list, watch{i, t, 2, false})
		default:
			list = append(list, watch{i, t, 1, false}, watch{i, t, 2, true})
		}
	}
	return list
}

// advance makes one accepted step towards goal, cut short at the first event,
// whose tank and threshold it returns; −1 without one.
func (r *runner) advance(goal float64) (tank, threshold int, err error) {
	if r.steps >= maxSteps {
		return -1, 0, r.fail("too many steps", 0)
	}
	list := r.watches(nil)
	from := make([]float64, len(list))
	for k, w := range list {
		from[k] = r.sign(w, r.y)
	}
	r.st.linearize(r.y)
	h := math.Min(r.h, goal-r.t)
	for {
		last := r.t+h >= goal*(1-1e-15)
		clear(r.over)
		estimate, ok := r.st.step(h, r.y, r.next, r.over)
		r.steps++
		size := math.Inf(1)
		if ok {
			size = r.size(estimate)
		}
		if !(size <= 1) {
			if finite(size) {
				h *= math.Max(0.1, 0.9*math.Pow(size, -0.25))
			} else {
				h *= 0.1
			}
			if r.t+h == r.t || r.steps >= maxSteps {
				return -1, 0, r.fail("no step is short enough", size)
			}
			continue
		}
		if last {
			h = goal - r.t
		}
		hit, at := -1, h
		for k, w := range list {
			now := r.sign(w, r.next)
			if now < 0 || (now == 0 && from[k] == 0) {
				continue
			}
			if from[k] >= 0 {
				hit, at = k, 0
				break
			}
			x := r.locate(w, h, from[k], now)
			if x < at || hit < 0 {
				hit, at = k, x
			}
		}
		grow := 5.0
		if size > 0 {
			grow = math.Min(5, math.Max(0.2, 0.9*math.Pow(size, -0.25)))
		}
		if hit < 0 {
			r.t += h
			if last {
				r.t = goal
			}
			copy(r.y, r.next)
			r.collect()
			if h*grow > r.h || !last {
				r.h = h * grow
			}
			return -1, 0, nil
		}
		if at > 0 {
			if at < h {
				clear(r.over)
				if _, ok := r.st.step(at, r.y, r.next, r.over); !ok {
					return -1, 0, r.fail("event not reached", 0)
				}
			}
			r.t += at
			copy(r.y, r.next)
			r.collect()
		}
		r.h = math.Max(math.Min(r.h, h)*0.1, 1e-6)
		return list[hit].tank, list[hit].threshold, nil
	}
}

// locate finds the length of step, at most h, at which an event falls due.
func (r *runner) locate(w watch, h, from, now float64) float64 {
	over := make([]float64, len(r.over))
	g := func(d float64) float64 {
		switch {
		case d <= 0:
			return from
		case d >= h:
			return now
		}
		if _, ok := r.st.step(d, r.y, r.trial, over); !ok {
			return now
		}
		return r.sign(w, r.trial)
	}
	x, _, err := root.Bracketed(g, 0, h, 1e-12*h)
	if err != nil {
		return h
	}
	return x
}

// size is the largest error of a step over what is allowed.
func (r *runner) size(estimate []float64) float64 {
	most := 0.0
	for k, e := range estimate {
		x := math.Abs(e) / (tolerance * r.f.vessels[k/r.f.width].full)
		if !(x <= most) {
			most = x
		}
	}
	return most
}

func (r *runner) collect() {
	for k, x := range r.over {
		r.sum[k] += x
	}
}

func (r *runner) contents() []Content {
	w := r.f.width
	out := make([]Content, r.f.n)
	for i := range out {
		out[i].Volume = units.Volume(math.Max(r.y[i*w], 0))
		for k := 1; k < w; k++ {
			out[i].Parts = append(out[i].Parts, units.Volume(math.Max(r.y[i*w+k], 0)))
		}
	}
	return out
}

// keep adds a sample of the present.
func (r *runner) keep() {
	s := Sample{Time: units.Duration(r.t), Contents: r.contents(), Levels: make([]units.Length, r.f.n)}
	r.f.flows(r.y)
	for i := range s.Levels {
		s.Levels[i] = units.Length(r.f.level[i])
	}
	for k := range r.f.paths {
		q := units.VolumeFlow(r.f.flow[k])
		switch r.f.paths[k].kind {
		case linkPath:
			s.Links = append(s.Links, q)
		case outletPath:
			s.Outlets = append(s.Outlets, q)
		case drawPath:
			s.Draws = append(s.Draws, q)
		case fillPath:
			s.Fills = append(s.Fills, q)
		case spillPath:
			s.Spills = append(s.Spills, q)
		}
	}
	r.samples = append(r.samples, s)
}

func (r *runner) outcome(start []Content) *Outcome {
	o := &Outcome{Time: units.Duration(r.t), Stop: r.stop, End: r.contents(), Events: r.events, Samples: r.samples, Steps: r.steps}
	w := r.f.width
	for k := range r.f.paths {
		p := Passed{Volume: units.Volume(r.sum[k*w])}
		for c := 1; c < w; c++ {
			p.Parts = append(p.Parts, units.Volume(r.sum[k*w+c]))
		}
		switch r.f.paths[k].kind {
		case linkPath:
			o.Links = append(o.Links, p)
		case outletPath:
			o.Outlets = append(o.Outlets, p)
		case drawPath:
			o.Draws = append(o.Draws, p)
		case fillPath:
			o.Fills = append(o.Fills, p)
		case spillPath:
			o.Spills = append(o.Spills, p)
		}
	}
	o.Closure = units.Ratio(r.closure(start))
	return o
}

// closure compares contents with integrated flows.
func (r *runner) closure(start []Content) float64 {
	size, _ := r.f.size()
	gain := make([]float64, size)
	r.f.gather(r.sum, gain)
	w := r.f.width
	scale, worst := 0.0, 0.0
	for _, x := range r.sum {
		scale += math.Abs(x)
	}
	for i := range start {
		scale += float64(start[i].Volume)
	}
	for i := range start {
		for c := range w {
			had := float64(start[i].Volume)
			if c > 0 {
				had = 0
				if start[i].Parts != nil {
					had = float64(start[i].Parts[c-1])
				}
			}
			worst = math.Max(worst, math.Abs(r.y[i*w+c]-had-gain[i*w+c]))
		}
	}
	if scale == 0 {
		return 0
	}
	return worst / scale
}
