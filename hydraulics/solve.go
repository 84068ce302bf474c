package hydraulics

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Workspace holds what a solution needs in between. A Workspace that is kept
// makes further solutions without allocating; it must not be used by two
// goroutines at once. The zero Workspace is ready.
type Workspace struct {
	builder  builder
	sections []section
	items    []item
	pipes    []friction
	bridges  []bridge
	fluids   []Fluid
	sources  []source

	// The supplies together: see prepare.
	breaks                   []float64
	total, free, first, last float64
	cornered                 bool

	rough bool    // a first look at the losses will do
	bent  bool    // a flow is between laminar and turbulent
	loose float64 // largest residual of Colebrook's equation before its step

	regulators bool    // there are any
	held       []held  // regulators at work
	demand     float64 // what they pass together
	sub        *Workspace

	open     bool // an outlet is open that no regulator at work feeds
	child    int  // first section at the manifold
	p        float64
	residual float64
	rounds   int
}

// A section is one section as numbers. The loss is c0 + c1 m + c2 m² and the
// friction of its pipes; of a section with an outlet the nozzles are part of it.
type section struct {
	parent       int
	item0, item1 int
	pipe0, pipe1 int
	c0, c1, c2   float64
	weight       float64 // what of c0 is height
	full, last   float64 // c0 where it is being approached, and the flow before: see climb
	nozzle       float64 // nozzle pressure over m²
	rho          float64
	invRho       float64
	invMu        float64
	leaf         bool // has an outlet
	child, twin  int  // first of the sections after it, and next with the same parent; −1
	branches     bool // has sections after it
	gun          bool // its own outlet is open
	open         bool // an outlet is open here or below, with no regulator at work before it
	holds        bool // begins with a regulator at work: passes fix, whatever the pressure
	regulator    *Regulator

	m       float64 // flow
	h, dh   float64 // loss at m and its derivative
	loss    float64 // what of h is due to flow
	r       float64 // loss over m²
	a, g    float64 // linear: p at the inlet = a + m/g
	na, nb  float64 // linear: p at the outlet = na + nb m, where it branches
	sg, sag float64 // sums over the branches; zero between steps
	scale   float64 // flow per conductance of the branches
	next    float64 // flow after the step
	from, d float64 // flow before a step, and its change
	in, out float64 // pressures after the step
	now     float64 // pressure left at the end before it; at an outlet, past the nozzle
	fix     float64 // flow where only regulators at work take any, and of such a regulator
}

// Solve returns the steady state of a network. See [Workspace.Solve].
func Solve(n *Network) (*Result, error) {
	var w Workspace
	var r Result
	if err := w.Solve(n, &r); err != nil {
		return nil, err
	}
	return &r, nil
}

// Solve finds the steady state of a network and writes it to r, whose slices it
// uses again.
//
// Each pump displaces its flow less what it leaks; unloader and relief let pass
// what their characteristic says at the pressure in the manifold; the rest
// splits over the open outlets so that every path loses the same pressure. Mass
// is conserved: hot water is faster, not more. A section without a Fluid has that
// of the section it continues, the first that of the pump. The velocity heads at
// the junctions are not modelled: give the junctions as fittings. An outlet
// that lies higher than the pressure reaches passes nothing; flow from the air
// into an outlet does not occur. A pressure below minus one atmosphere, at the top of
// a long descent, is reported as it comes out: there the column would part.
//
// Accuracy: every flow is found to 1e-10 of the flow of the pumps, a flow that is
// more than a trickle to 1e-10 of itself. Where branches differ by more than ten
// decades in flow a trickle may stay undecided; Iterations then is 400 or more.
//
// Method: Newton's on the flows of all outlets at once, by elimination along the
// tree, so that a step costs one evaluation of each section's loss; the supplies
// are piecewise linear and met exactly in each step. It starts from the split of
// a purely quadratic network.
//
// Errors: every problem of the input, as [units.FieldError]s in field order;
// [*DeadHeadError] where all outlets are closed and a pump has nowhere to go;
// [*units.SolverError] should the iteration not end.
func (w *Workspace) Solve(n *Network, r *Result) error {
	if err := w.compile(n); err != nil {
		return err
	}
	for {
		w.prepare()
		if err := w.regulated(n); err != nil {
			return err
		}
		if !w.dumpMore() {
			break
		}
	}
	w.report(n, r)
	return nil
}

// regulated solves for the flows with the unloaders as they are.
func (w *Workspace) regulated(n *Network) error {
	if !w.regulators {
		return w.flowing(n)
	}
	w.release()
	for {
		if err := w.flowing(n); err != nil {
			return err
		}
		if more, err := w.holdMore(n); !more {
			return err
		}
	}
}

// flowing solves for the flows with unloaders and regulators as they are.
func (w *Workspace) flowing(n *Network) error {
	if w.runs() {
		return w.newton()
	}
	return w.closed(n)
}

// runs reports whether anything takes water.
func (w *Workspace) runs() bool { return w.open || w.demand > 0 }

// dumpMore opens the flow-actuated unloaders that pass too little, and reports
// whether there were any.
func (w *Workspace) dumpMore() bool {
	w.share(w.p, w.flow())
	more := false
	for i := range w.sources {
		s := &w.sources[i]
		if !w.runs() && s.traps && !s.dumping { // the line keeps its pressure, the pump does not
			s.unload()
		}
		if s.actuation > 0 && !s.dumping && w.runs() && s.line < s.actuation {
			s.dump()
			more = true
		}
	}
	return more
}

// compile checks the network and turns it into numbers.
func (w *Workspace) compile(n *Network) error {
	b := &w.builder
	b.w, b.n, b.ref, b.problems = w, n, n.Fluid, nil
	w.items, w.pipes, w.bridges = w.items[:0], w.pipes[:0], w.bridges[:0]
	w.sections, w.sources, w.fluids = w.sections[:0], w.sources[:0], w.fluids[:0]
	w.regulators, w.held, w.demand = false, w.held[:0], 0

	fluidOK := n.Fluid.ok()
	if !fluidOK {
		n.Fluid.check(&b.problems, "fluid")
	}
	if len(n.Supplies) == 0 {
		b.problems.Add("supplies", "", "at least one pump", units.ErrMissing)
	}
	rho := float64(n.Fluid.Density)
	for i := range n.Supplies {
		u := &n.Supplies[i]
		if !u.ok() {
			var bad problem.List
			if u.check(&bad); bad != nil {
				b.problems = append(b.problems, units.At(n.supplyPath(i), bad.Join()))
				continue
			}
		}
		push(&w.sources).compile(u, rho)
	}
	if len(n.Sections) == 0 {
		b.problems.Add("sections", "", "at least one section", units.ErrMissing)
	}
	for i := range n.Sections {
		w.section(i)
	}
	for i := range w.sections {
		if s := &w.sections[i]; s.leaf && s.branches {
			b.problems.Add(n.path(i)+".outlet", "", "no outlet on a section that others continue", units.ErrConflict)
		}
	}
	b.n = nil
	if b.problems != nil {
		return b.problems.Join()
	}
	w.open, w.child, w.rounds = false, -1, 0
	for i := len(w.sections) - 1; i >= 0; i-- {
		s := &w.sections[i]
		if s.parent >= 0 {
			s.twin, w.sections[s.parent].child = w.sections[s.parent].child, i
		} else {
			s.twin, w.child = w.child, i
		}
		if s.open {
			if s.parent >= 0 {
				w.sections[s.parent].open = true
			} else {
				w.open = true
			}
		}
	}
	return nil
}

func (w *Workspace) section(i int) {
	b := &w.builder
	sec := &b.n.Sections[i]
	b.section = i
	s := push(&w.sections)
	s.parent, s.child, s.twin = sec.Parent, -1, -1
	s.item0, s.pipe0 = len(w.items), len(w.pipes)
	fluid := b.ref
	switch {
	case sec.Parent < Manifold || sec.Parent >= i:
		b.problems.Add(b.n.path(i)+".parent", problem.Format(float64(sec.Parent)), "-1, or the index of an earlier section", units.ErrRange)
		s.parent = Manifold
	case sec.Parent >= 0:
		fluid = w.fluids[sec.Parent]
		w.sections[sec.Parent].branches = true
	}
	if sec.Fluid.Given() {
		fluid = sec.Fluid
		if !fluid.ok() {
			fluid.check(&b.problems, b.n.path(i)+".fluid")
		}
	}
	w.fluids = append(w.fluids, fluid)
	if rho, mu := float64(fluid.Density), float64(fluid.Viscosity); rho != b.rho || mu != b.mu {
		b.rho, b.mu = rho, mu
		b.invRho, b.invMu = 1/b.rho, 1/b.mu
	}
	s.rho, s.invRho, s.invMu = b.rho, b.invRho, b.invMu
	if sec.Regulator != nil {
		s.regulator, w.regulators = sec.Regulator, true
		var bad problem.List
		if sec.Regulator.check(&bad); bad != nil {
			b.problems = append(b.problems, units.At(b.n.path(i)+".regulator", bad.Join()))
		}
	}
	for j, e := range sec.Elements {
		b.element = j
		b.assemble(e)
	}
	s.item1, s.pipe1 = len(w.items), len(w.pipes)
	for j := s.item0; j < s.item1; j++ {
		it := &w.items[j]
		s.c0 += it.c0
		s.weight += it.static
		s.c1 += it.c1
		s.c2 += it.c2
	}
	if o := sec.Outlet; o != nil {
		s.leaf = true
		w.outlet(s, o)
	}
}

func (w *Workspace) outlet(s *section, o *Outlet) {
	b := &w.builder
	bad := o.Law > DensityLaw
	sum := 0.
	for i := range o.Nozzles {
		t := &o.Nozzles[i]
		bad = bad || !(t.Number >= minNumber && t.Number <= maxNumber && t.Wear >= 0 && t.Wear <= 1e6)
		if !t.Blocked {
			sum += float64(t.Number) * (1 + float64(t.Wear))
		}
	}
	if bad {
		w.badOutlet(o)
		return
	}
	if o.Closed {
		return
	}
	if len(o.Nozzles) == 0 {
		if s.c1 == 0 && s.c2 == 0 && s.pipe0 == s.pipe1 {
			b.problems.Add(b.n.path(b.section)+".elements", "", "an element with a loss before an end without a nozzle", units.ErrMissing)
		}
		s.gun, s.open = true, true
		return
	}
	if sum == 0 {
		return
	}
	s.gun, s.open = true, true
	m := sum * float64(ratedFlow) // m³/s at the rated pressure
	if o.Law == DensityLaw {
		s.nozzle = float64(ratedPressure) / (m * m * float64(ReferenceDensity) * s.rho)
	} else {
		m *= float64(b.ref.Density)
		s.nozzle = float64(ratedPressure) / (m * m)
	}
	s.c2 += s.nozzle
}

func (w *Workspace) badOutlet(o *Outlet) {
	b := &w.builder
	var bad problem.List
	for i := range o.Nozzles {
		t := &o.Nozzles[i]
		at := "outlet.nozzles[#" + problem.Format(float64(i+1)) + "]"
		within(&bad, at+".number", t.Number, minNumber, maxNumber)
		atMost(&bad, at+".wear", t.Wear, 1e6)
	}
	if o.Law > DensityLaw {
		bad.Add("outlet.law", problem.Format(float64(o.Law)), "0 or 1", units.ErrRange)
	}
	b.problems = append(b.problems, units.At(b.n.path(b.section), bad.Join()))
}

// closed is the state in which no outlet is open.
func (w *Workspace) closed(n *Network) error {
	w.p, w.residual, w.rounds = 0, 0, 0
	w.corner()
	for i := range w.sources {
		s := &w.sources[i]
		if math.IsInf(s.shut, 1) {
			return w.deadHead(n, i)
		}
		w.p = math.Max(w.p, s.shut)
	}
	for i := range w.sections {
		w.sections[i].m = 0
	}
	w.still()
	return nil
}

func (w *Workspace) deadHead(n *Network, i int) error {
	e := &DeadHeadError{Supply: n.Supplies[i].Name}
	if e.Supply == "" {
		e.Supply = n.supplyPath(i)
	}
	behind := make([]bool, len(n.Sections)) // a regulator, which keeps the pressure out
	for i := range n.Sections {
		s := &n.Sections[i]
		if behind[i] = s.Regulator != nil || s.Parent >= 0 && behind[s.Parent]; behind[i] {
			continue
		}
		for j, el := range s.Elements {
			p := el.Plate()
			switch {
			case p.MaxPressure == 0:
				e.Unrated++
			case e.Section == "" || p.MaxPressure < e.Rating:
				e.Section, e.Rating, e.Part = n.path(i), p.MaxPressure, p.Name
				if e.Part == "" {
					e.Part = "element " + problem.Format(float64(j+1))
				}
			}
		}
	}
	return e
}

// still gives the sections without flow the pressure of the one before them,
// less their height. A check valve without flow is taken to be open; a regulator
// without flow shuts at its set point.
func (w *Workspace) still() {
	for i := range w.sections {
		s := &w.sections[i]
		if s.m > 0 {
			continue
		}
		s.in = w.p
		if s.parent >= 0 {
			s.in = w.sections[s.parent].out
		}
		s.out = s.in - s.shut() - s.weight
	}
}

const (
	// tolerance is the relative step below which the last step is taken and the
	// iteration ends. The method converges quadratically: what is left is of the
	// order of the square of this.
	tolerance = 6e-6

	// An outlet without flow is woken when all other steps are below this.
	settled = 0.5

	// tight is the residual of Colebrook's equation before a step that makes its
	// next one vanish: see colebrookStep.
	tight = 0.02

	// A flow below this share of the pumps' is none.
	trickle = 1e-60

	// An outlet under no pressure whose flow is below this share of the pumps' is dry.
	small = 1e-9

	// Where the first step is far from linear, steps with quadratic secants come
	// first: they cross decades at once. Newton's steps are searched along their
	// line when there have been many.
	maxSecants  = 25
	quickRounds = 8
	maxRounds   = 400 // then steps of 1e-10 of the pumps' flow will do
)

// newton solves for the flows while an outlet is open.
func (w *Workspace) newton() error {
	w.guess()
	w.rough = w.demand == 0 // a fixed flow is where it belongs from the start
	w.evaluate()
	w.rough = false
	if w.iterate(maxRounds) {
		return nil
	}
	return w.climb()
}

// iterate goes from the present flows to the answer, and reports whether it came
// there within the given number of steps.
func (w *Workspace) iterate(limit int) bool {
	secants := 0 // left
	for round := 1; ; round++ {
		rel, abs, far := w.step()
		w.rounds++
		w.residual = abs * math.Min(rel, 1)
		switch {
		case rel <= tolerance:
			w.finish()
			return true
		case round >= limit && abs <= 1e-10:
			w.still()
			return true
		case round == 1 && far:
			secants = maxSecants
		case round >= limit:
			return false
		}
		switch {
		case secants > 0 && far:
			secants--
			if !w.secant() {
				secants = 0
			}
		case round > quickRounds && rel > 0.01:
			w.search()
			continue
		case far:
			w.clip()
		case rel < 1:
			w.advance()
			w.evaluate()
			continue
		}
		w.carry()
		w.evaluate()
	}
}

// climb is for trees in which heights and cracking pressures decide which outlets
// flow, and no straight way was found: it solves the level tree first and raises it
// to its heights step by step, each from the last one's flows.
func (w *Workspace) climb() error {
	for i := range w.sections {
		s := &w.sections[i]
		s.full, s.c0 = s.c0, 0
	}
	defer func() {
		for i := range w.sections {
			w.sections[i].c0 = w.sections[i].full
		}
	}()
	w.guess()
	w.evaluate()
	ok := w.iterate(maxRounds)
	for at, by := 0.0, 0.25; ok && at < 1; {
		for i := range w.sections {
			s := &w.sections[i]
			s.last, s.c0 = s.m, math.Min(1, at+by)*s.full
		}
		w.evaluate()
		if w.iterate(maxRounds / 4) {
			at, by = math.Min(1, at+by), 2*by
			continue
		}
		for i := range w.sections {
			w.sections[i].m = w.sections[i].last
		}
		if by /= 4; by < 1e-4 {
			ok = false
		}
	}
	if !ok {
		return &units.SolverError{Solver: "hydraulics.Solve", State: "line network", Iterations: w.rounds, Residual: w.residual}
	}
	return nil
}

// clip keeps the flows of a step within reach of a linear model.
func (w *Workspace) clip() {
	for i := range w.sections {
		if s := &w.sections[i]; s.leaf && s.m > 0 && s.next > 0 {
			s.next = math.Max(0.01*s.m, math.Min(s.next, 100*s.m))
		} else if s.next < 0 {
			s.next = 0.01 * s.m
		}
	}
}

// search goes along the step as far as no flow turns round and the sum of losses
// times flow changes says that it is downhill. The flows of the answer minimise a
// convex function, the content of the network, of which that sum is the
// derivative along the step.
func (w *Workspace) search() {
	t, dry := 1., false
	for i := range w.sections {
		s := &w.sections[i]
		s.from, s.d = s.m, 0
		if s.leaf && s.open {
			s.d = s.next - s.m
			if s.next < 0.01*s.m {
				t = math.Min(t, 0.99*s.m/(s.m-s.next))
				dry = dry || s.next == 0
			}
		}
	}
	if dry { // an outlet fell dry: let the others find out
		for i := range w.sections {
			s := &w.sections[i]
			if !(s.leaf || s.holds) || s.next == 0 {
				s.m = 0
			}
		}
		w.sum()
		w.evaluate()
		return
	}
	w.gather()
	// The content knows nothing of a flow that the pumps do not deliver: first get
	// back to theirs.
	restore := w.p < w.first && math.Abs(w.flow()-w.total) > small*w.total
	start, noise := w.downhill()
	if start > noise && !restore {
		// A valve opened or closed on the way, so that the linear model was another
		// network's. Move only what the pressures of now would move that way.
		for i := range w.sections {
			s := &w.sections[i]
			if !s.leaf || s.d*s.now < 0 {
				s.d = 0
			}
		}
		w.gather()
		start, _ = w.downhill()
	}
	for range 60 {
		for i := range w.sections {
			s := &w.sections[i]
			s.m = 0
			if s.leaf || s.holds {
				s.m = math.Max(0, s.from+t*s.d)
			}
		}
		w.sum()
		w.evaluate()
		g, noise := w.downhill()
		if restore || !(g > 0.5*math.Abs(start)+noise) {
			return
		}
		t *= math.Max(0.1, math.Min(0.5, math.Abs(start)/(math.Abs(start)+g)))
	}
}

// gather sums the changes of the outlets' flows along the tree.
func (w *Workspace) gather() {
	for i := len(w.sections) - 1; i >= 0; i-- {
		if s := &w.sections[i]; s.parent >= 0 {
			w.sections[s.parent].d += s.d
		}
	}
}

// downhill returns the derivative of the content along the step, and what of it
// may be rounding.
func (w *Workspace) downhill() (g, noise float64) {
	m, d := 0., 0.
	for i := range w.sections {
		s := &w.sections[i]
		h := s.h
		if s.m <= 0 {
			h = s.c0
		}
		g += h * s.d
		noise += math.Abs(h) * (10*math.Abs(s.d) + s.m)
		if s.parent < 0 {
			d += s.d
			m += s.m
		}
	}
	p := w.supplied(m) * d
	return g - p, 1e-15 * (noise + math.Abs(p))
}

// secant replaces the step by the split of a network in which each loss is the
// square law through its present value. It reports whether that moves any flow
// much.
func (w *Workspace) secant() bool {
	for i := range w.sections {
		if s := &w.sections[i]; s.m > 0 {
			s.r = s.loss / (s.m * s.m)
		}
	}
	w.split()
	for i := range w.sections {
		if s := &w.sections[i]; s.leaf && s.m > 0 && math.Abs(s.next-s.m) > 0.3*s.m {
			return true
		}
	}
	return false
}

// flow returns the flow into the lines.
func (w *Workspace) flow() float64 {
	m := 0.
	for i := w.child; i >= 0; i = w.sections[i].twin {
		m += w.sections[i].m
	}
	return m
}

// carry moves to the flows of the step: those of the outlets, and their sums.
func (w *Workspace) carry() {
	for i := range w.sections {
		s := &w.sections[i]
		s.m = 0
		if (s.leaf || s.holds) && s.next > trickle*w.total {
			s.m = s.next
		}
	}
	w.sum()
}

func (w *Workspace) sum() {
	for i := len(w.sections) - 1; i >= 0; i-- {
		if s := &w.sections[i]; s.parent >= 0 {
			w.sections[s.parent].m += s.m
		}
	}
}

// advance moves to the flows of a step that needed no correction: those of
// branches add up as they are.
func (w *Workspace) advance() {
	for i := range w.sections {
		s := &w.sections[i]
		s.m = s.next
	}
}

// finish takes the last step, in the losses to first order as in the flows.
func (w *Workspace) finish() {
	dry := false
	for i := range w.sections {
		s := &w.sections[i]
		if s.m <= 0 {
			dry = true
			continue
		}
		d := s.next - s.m
		for j := s.pipe0; j < s.pipe1; j++ {
			w.pipes[j].dp += w.pipes[j].slope * d
		}
		s.m = s.next
	}
	if dry {
		w.still()
	}
}

// guess splits the flow as if every friction factor were 0.02.
func (w *Workspace) guess() {
	for i := range w.sections {
		s := &w.sections[i]
		s.m = 0
		if s.open {
			s.m = 1
		}
		s.r = s.c2
		if s.c1 > 0 {
			s.r += s.c1 / w.total
		}
		for j := s.pipe0; j < s.pipe1; j++ {
			s.r += 0.022 * w.pipes[j].loss
		}
	}
	w.split()
	w.advance()
}

// split solves the network with losses r m²; it puts the flows in next.
func (w *Workspace) split() {
	top := 0. // sum of 1/√r over the sections at the manifold
	for i := len(w.sections) - 1; i >= 0; i-- {
		s := &w.sections[i]
		s.g = 0
		if !s.open || s.m <= 0 {
			continue
		}
		r := s.r
		if s.branches {
			s.scale = 1 / s.sg
			r += s.scale * s.scale
			s.sg = 0
		}
		s.g = 1 / math.Sqrt(r)
		if s.parent >= 0 {
			w.sections[s.parent].sg += s.g
		} else {
			top += s.g
		}
	}
	m := math.Max(w.total-w.demand, small*w.total)
	if root := m / top; root*root > w.first {
		p := w.first
		if p <= 0 {
			w.corner()
			p = 0.5 * w.last
		}
		if p <= 0 || math.IsInf(p, 1) {
			p = 1e-12 * root * root
		}
		m = math.Min(m, math.Sqrt(p)*top)
	}
	scale := m / top
	for i := range w.sections {
		s := &w.sections[i]
		switch {
		case s.g == 0:
			s.next = 0
		case s.parent < 0:
			s.next = s.g * scale
		default:
			s.next = s.g * w.sections[s.parent].scale
		}
		s.scale *= s.next // from here on per unit of the branches' conductance
	}
	w.addHeld()
}

// evaluate computes loss and slope of every section that flows.
func (w *Workspace) evaluate() {
	w.loose, w.bent = 0, false
	for i := range w.sections {
		s := &w.sections[i]
		m := s.m
		if m <= 0 || s.holds {
			continue
		}
		h := (s.c1 + s.c2*m) * m
		dh := s.c1 + 2*s.c2*m
		if s.pipe0 < s.pipe1 {
			inv := 1 / m
			for j := s.pipe0; j < s.pipe1; j++ {
				p := &w.pipes[j]
				p.drop(w, m, inv)
				h += p.dp
				dh += p.slope
			}
		}
		s.loss, s.h, s.dh = h, s.c0+h, dh
	}
}

// step finds the next flows. It returns the largest correction of an outlet's
// flow relative to that flow, the largest relative to the flow of the pumps, and
// whether any went too far for a linear model.
func (w *Workspace) step() (rel, abs float64, far bool) {
	sections := w.sections
	var sg, sag float64
	for i := len(sections) - 1; i >= 0; i-- {
		s := &sections[i]
		if s.m <= 0 || s.holds {
			s.g = 0
			if s.holds {
				sag -= w.fixed(s)
			} else {
				s.fix = 0
			}
			continue
		}
		a, b := s.h-s.dh*s.m, s.dh
		if s.branches {
			if s.sg == 0 { // only what regulators pass
				s.g, s.fix = 0, -s.sag
				s.sag = 0
				sag -= w.fixed(s)
				continue
			}
			s.nb = 1 / s.sg
			s.na = s.sag * s.nb
			s.sg, s.sag = 0, 0
			a += s.na
			b += s.nb
		}
		s.a, s.g = a, 1/b
		if s.parent >= 0 {
			p := &sections[s.parent]
			p.sg += s.g
			p.sag += a * s.g
		} else {
			sg += s.g
			sag += a * s.g
		}
	}
	m := 0.
	switch {
	case sg > 0:
		w.p, m = w.meet(sag/sg, sg)
	case sag < 0:
		m = -sag
		w.p = w.supplied(m)
	default:
		w.corner()
		w.p = w.last
	}

	pressure := w.p
	if now := w.flow(); w.p >= w.first && math.Abs(now-m) > small*w.total {
		pressure = w.supplied(now)
	}
	w.divide(w.child, w.p, m)
	late := false
	for i := range sections {
		s := &sections[i]
		now := pressure
		if s.parent >= 0 {
			now = sections[s.parent].now
		}
		if s.g == 0 {
			s.out = s.in - s.c0
			s.now = now - s.c0
			s.next = 0
			if s.fix > 0 {
				w.pass(s, now)
				continue
			}
			late = late || s.leaf && s.open && s.out > 0
			if s.branches {
				w.divide(s.child, s.out, 0)
			}
			continue
		}
		s.now = now - s.h
		next := s.next
		if s.branches {
			s.out = s.na + s.nb*next
			if w.demand > 0 && math.Abs(s.na) > math.Abs(s.in)+math.Abs(s.h) { // a trickle beside a fixed flow: from above it is certain
				s.out = s.in - s.h - s.dh*(next-s.m)
			}
			w.divide(s.child, s.out, next)
			continue
		}
		s.out = s.nozzle * next * next
		d := math.Abs(next - s.m)
		if d > abs {
			abs = d
		}
		if d > rel*s.m {
			rel = d / s.m
		}
		if next < 0.3*s.m || next > 3*s.m {
			far = true
			if dry := now <= s.c0; next < 0.01*s.m && (dry && s.m < small*w.total || s.m < 1e-13*w.total) {
				s.next = 0
				if !dry {
					rel = math.Inf(1) // it will wake with a better guess
				}
			}
		}
	}
	if w.bent {
		rel *= 10 // the bridge bends more than a square law
	}
	if w.loose > tight {
		rel = math.Max(rel, 1) // the friction factors are still on their way
	}
	if late && rel <= settled { // what flows has found its place nearly, and left an outlet dry that is under pressure
		for i, done := 0, rel <= tolerance; i < len(sections); i++ {
			s := &sections[i]
			if !(s.leaf && s.open && s.g == 0 && s.out > 0 && (done || s.now > 0)) {
				continue
			}
			if done {
				s.now = s.out
			}
			s.now = math.Min(s.now, s.out)
			if s.next = w.wake(s); s.next > 0 {
				rel = math.Inf(1)
				abs = math.Max(abs, s.next)
			}
		}
	}
	return rel, abs / w.total, far
}

// divide gives each of the sections from i on, which begin at pressure p and pass
// m together, its flow by the linear model. That with the least resistance gets
// what the others leave: its own loss may be too small to tell. Fixed flows come first.
func (w *Workspace) divide(i int, p, m float64) {
	var wide *section
	fixed := 0.
	for ; i >= 0; i = w.sections[i].twin {
		s := &w.sections[i]
		s.in = p
		s.next = 0
		if s.g == 0 {
			fixed += s.fix
			continue
		}
		if wide == nil {
			wide = s
			continue
		}
		narrow := s
		if s.g > wide.g {
			narrow, wide = wide, s
		}
		narrow.next = (p - narrow.a) * narrow.g
		m -= narrow.next
	}
	if wide == nil {
		return
	}
	wide.next = m
	if fixed > 0 {
		wide.next -= fixed
		if math.Max(math.Abs(p), math.Abs(wide.a))*wide.g < fixed { // the difference says less than its own loss
			wide.next = (p - wide.a) * wide.g
		}
	}
}

// wake returns a first flow for an outlet that had none and is now under
// pressure: the least of what the parts on its way that had none would each pass.
func (w *Workspace) wake(s *section) float64 {
	m := w.total
	for p := s; ; p = &w.sections[p.parent] {
		quadratic, linear := p.c2, p.c1
		for j := p.pipe0; j < p.pipe1; j++ {
			quadratic += 0.022 * w.pipes[j].loss
			linear += w.pipes[j].lam
		}
		if quadratic > 0 {
			m = math.Min(m, math.Sqrt(s.now/quadratic))
		}
		if linear > 0 {
			m = math.Min(m, s.now/linear)
		}
		if p.parent < 0 || w.sections[p.parent].m > 0 {
			break
		}
	}
	if m < trickle*w.total {
		return 0
	}
	return m
}

// report writes the result.
func (w *Workspace) report(n *Network, r *Result) {
	rho := float64(n.Fluid.Density)
	perRho := 1 / rho
	m, out := 0., 0.
	r.Sections = resize(r.Sections, len(w.sections))
	for i := range w.sections {
		s := &w.sections[i]
		if s.parent < 0 {
			m += s.m
		}
		if s.leaf || s.holds {
			out += s.m
		}
		t := &r.Sections[i]
		t.Mass = units.MassFlow(s.m)
		t.Flow = units.VolumeFlow(s.m * s.invRho)
		t.Metered = units.VolumeFlow(s.m * perRho)
		t.Inlet, t.Outlet, t.Regulated = units.Pressure(s.in), units.Pressure(s.out), 0
		if s.m <= 0 {
			t.Regulated = units.Pressure(s.shut())
		}
		t.Elements = resize(t.Elements, s.item1-s.item0)
		for j := s.item0; j < s.item1; j++ {
			w.elementResult(s, &w.items[j], &t.Elements[j-s.item0])
		}
	}
	r.Pressure = units.Pressure(w.p)
	r.Flow = units.VolumeFlow(m * perRho)
	r.Residual = units.Ratio(w.residual)
	r.Iterations = w.rounds
	r.Supplies = resize(r.Supplies, len(w.sources))
	lost := w.total - out
	for i := range w.sources {
		s := &w.sources[i]
		lost -= s.byp + s.rel + s.lkg
		leaves := (s.m - s.lkg) * perRho
		u := &n.Supplies[i].Unloader
		t := &r.Supplies[i]
		*t = SupplyResult{
			Pressure: units.Pressure(s.p),
			Line:     units.VolumeFlow(s.line * perRho),
			Bypass:   units.VolumeFlow(s.byp * perRho),
			Relief:   units.VolumeFlow(s.rel * perRho),
			Leakage:  units.VolumeFlow(s.lkg * perRho),
			Feed:     units.VolumeFlow(leaves),
			Power:    units.Power(leaves * s.p),
			Held:     units.VolumeFlow(s.held * perRho),
		}
		if u.Return == ToInlet {
			t.Feed -= t.Bypass
		}
		switch {
		case s.dumping:
			t.Unloader = Dumping
		case s.byp > 0:
			t.Unloader = Regulating
		}
	}
	r.Closure = units.Ratio(math.Abs(lost) / w.total)
	w.reportHeld(r)
}

func (w *Workspace) elementResult(s *section, it *item, t *ElementResult) {
	*t = ElementResult{}
	if s.m <= 0 {
		t.Loss = units.Pressure(it.static)
		return
	}
	loss := it.c0 + (it.c1+it.c2*s.m)*s.m
	if it.invBore > 0 {
		q := 4 / math.Pi * s.m * it.invBore
		t.Velocity = units.Velocity(q * s.invRho * it.invBore)
		t.Reynolds = q * s.invMu
	}
	if it.pipe >= 0 {
		p := &w.pipes[it.pipe]
		loss += p.dp
		t.Friction = p.dp / (p.loss * s.m * s.m)
		t.Regime = p.regime(s.m)
	}
	t.Loss = units.Pressure(loss)
}

// resize returns s with length n, keeping what it holds where it can.
func resize[T any](s []T, n int) []T {
	for cap(s) < n {
		s = append(s[:cap(s)], *new(T))
	}
	return s[:n]
}
