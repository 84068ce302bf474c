package vacuum

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Filter is one stage of a filtration train: a screen, bag or cartridge. Its loss
// is a share that is turbulent, a share that is laminar, and what the dirt adds.
//
//	Δp = Δp_c [ (1−s)(ρ/ρ₀)(q/q₀)² + s (μ/μ₀)(q/q₀) ] + (Δp_d − Δp_c)(m/M)(μ/μ₀)(q/q₀)
//
// Δp_c and Δp_d are the losses at the flow q₀, clean and at change-out, s the
// laminar share of the clean loss, m the dirt held and M the dirt it holds at
// change-out. The dirt is a cake: its loss goes with the mass held, the viscosity
// and the flow.
//
// Source: Darcy's law for the cake, as in B. F. Ruth, "Studies in filtration III",
// Ind. Eng. Chem. 27, 1935, pp. 708–723; the turbulent screen as any orifice. A bag
// that blinds its pores rises faster than in proportion: the middle of its life is
// then better than told here, and the end the same.
type Filter struct {
	Name string

	Flow   units.VolumeFlow // at which the losses are read
	Clean  units.Pressure   // loss at that flow when new; zero is none
	Dirty  units.Pressure   // loss at that flow at change-out
	Linear units.Ratio      // s of the clean loss; zero to one
	Liquid Liquid           // they were read with; not given: the liquid that passes

	Capacity units.Mass  // M, dirt held at change-out; needed for intervals
	Captures units.Ratio // share of the dirt that arrives which stays; needed for intervals
}

// Validate returns every problem of f, joined in field order.
func (f Filter) Validate() error {
	var p problem.List
	f.check(&p)
	return p.Join()
}

func (f Filter) check(p *problem.List) {
	problem.Within(p, "flow", f.Flow, minFlow, maxFlow)
	problem.Between(p, "clean", f.Clean, 0, maxPressure)
	switch {
	case f.Dirty == 0:
		p.Add("dirty", "", "the loss at change-out", units.ErrMissing)
	case !(f.Dirty > 0 && f.Dirty <= maxPressure):
		p.Add("dirty", f.Dirty.String(), "more than 0", units.ErrRange)
	case f.Dirty < f.Clean:
		p.Add("dirty", f.Dirty.String(), "at least the clean loss, "+f.Clean.String(), units.ErrConflict)
	}
	problem.Number(p, "linear", float64(f.Linear), 0, 1)
	if f.Liquid.Given() {
		p.Take("liquid", f.Liquid.Validate())
	}
	if f.Capacity != 0 {
		problem.Between(p, "capacity", f.Capacity, minMass, maxMass)
	}
	problem.Between(p, "captures", f.Captures, 0, 1)
}

// A sieve is a filter as numbers: Δp = square q² + line q.
type sieve struct{ square, line float64 }

func (f *Filter) sieve(l *Liquid, loaded float64) sieve {
	rho, mu := 1.0, 1.0
	if f.Liquid.Given() {
		rho = float64(l.Density) / float64(f.Liquid.Density)
		mu = float64(l.Viscosity) / float64(f.Liquid.Viscosity)
	}
	q, c, s := float64(f.Flow), float64(f.Clean), float64(f.Linear)
	return sieve{
		square: c * (1 - s) * rho / (q * q),
		line:   (c*s + (float64(f.Dirty)-c)*loaded) * mu / q,
	}
}

func (s sieve) loss(q float64) float64 { return (s.square*q + s.line) * q }

// Loss returns the loss of the filter at a flow of a liquid. Loaded is the dirt it
// holds over its capacity: 0 is new, 1 is at change-out; above 1, up to 10, the
// line goes on.
//
// Errors: a *[units.FieldError] for each input.
func (f Filter) Loss(q units.VolumeFlow, l Liquid, loaded units.Ratio) (units.Pressure, error) {
	var p problem.List
	f.check(&p)
	problem.Between(&p, "flow", q, 0, maxFlow)
	p.Take("liquid", l.Validate())
	problem.Between(&p, "loaded", loaded, 0, 10)
	if err := p.Join(); err != nil {
		return 0, err
	}
	return units.Pressure(f.sieve(&l, float64(loaded)).loss(float64(q))), nil
}

// A Train is filters one behind another, in the order in which the water meets
// them: coarse before fine.
type Train []Filter

func (t Train) check(p *problem.List) {
	for i := range t {
		if err := t[i].Validate(); err != nil {
			p.Take(problem.At("filters", i), err)
		}
	}
}

// loads checks how far each stage is loaded; nil is every stage new.
func (t Train) loads(p *problem.List, loaded []units.Ratio) {
	if loaded != nil && len(loaded) != len(t) {
		p.Add("loaded", problem.Format(float64(len(loaded)))+" values", "one for each filter, or none", units.ErrConflict)
		return
	}
	for i, l := range loaded {
		if !(l >= 0 && l <= 10) {
			problem.Between(p, problem.At("loaded", i), l, 0, 10)
		}
	}
}

// sieve adds the stages up.
func (t Train) sieve(l *Liquid, loaded []units.Ratio) (sum sieve) {
	for i := range t {
		m := 0.0
		if loaded != nil {
			m = float64(loaded[i])
		}
		s := t[i].sieve(l, m)
		sum.square += s.square
		sum.line += s.line
	}
	return sum
}

// Loss returns the loss of the whole train. Loaded has one value for each filter,
// or is nil where all are new.
//
// Errors: a *[units.FieldError] for each input.
func (t Train) Loss(q units.VolumeFlow, l Liquid, loaded []units.Ratio) (units.Pressure, error) {
	var p problem.List
	t.check(&p)
	problem.Between(&p, "flow", q, 0, maxFlow)
	p.Take("liquid", l.Validate())
	t.loads(&p, loaded)
	if err := p.Join(); err != nil {
		return 0, err
	}
	return units.Pressure(t.sieve(&l, loaded).loss(float64(q))), nil
}

// Gauges returns what the gauges read: before the first filter, between each two,
// and behind the last, from the pressure behind the last.
//
// Errors: a *[units.FieldError] for each input.
func (t Train) Gauges(q units.VolumeFlow, l Liquid, loaded []units.Ratio, behind units.Pressure) ([]units.Pressure, error) {
	if _, err := t.Loss(q, l, loaded); err != nil {
		return nil, err
	}
	var p problem.List
	problem.Between(&p, "behind", behind, -maxLift, maxPressure)
	if err := p.Join(); err != nil {
		return nil, err
	}
	out := make([]units.Pressure, len(t)+1)
	out[len(t)] = behind
	for i := len(t) - 1; i >= 0; i-- {
		m := 0.0
		if loaded != nil {
			m = float64(loaded[i])
		}
		out[i] = out[i+1] + units.Pressure(t[i].sieve(&l, m).loss(float64(q)))
	}
	return out, nil
}

// An Interval is the dirt that one filter meets.
type Interval struct {
	Arrives units.MassFlow // dirt
	Keeps   units.MassFlow
	Lasts   units.Duration // from new to change-out; zero where it keeps nothing
	Never   bool           // it keeps nothing
}

// Intervals returns what each filter keeps of the dirt that the water brings, and
// how long it lasts.
//
//	t = M/(c_i ṁ_i),  ṁ_(i+1) = (1 − c_i) ṁ_i
//
// c is the share that a filter captures. A stage upstream that is changed late or
// torn passes its share on.
//
// Errors: a *[units.FieldError] for each input; ErrMissing where a filter has no
// capacity or captures nothing that was said.
func (t Train) Intervals(dirt units.MassFlow) ([]Interval, error) {
	var p problem.List
	t.check(&p)
	for i, f := range t {
		if f.Capacity == 0 && f.Captures > 0 {
			p.Add(problem.At("filters", i)+".capacity", "", "the dirt it holds at change-out", units.ErrMissing)
		}
	}
	problem.Within(&p, "dirt", dirt, 1e-12, 1e3)
	if err := p.Join(); err != nil {
		return nil, err
	}
	out := make([]Interval, len(t))
	left := float64(dirt)
	for i, f := range t {
		keeps := left * float64(f.Captures)
		out[i] = Interval{Arrives: units.MassFlow(left), Keeps: units.MassFlow(keeps)}
		if keeps > 0 {
			out[i].Lasts = units.Duration(float64(f.Capacity) / keeps)
		}
		if !(keeps > 0) || !finite(float64(out[i].Lasts)) {
			out[i].Never, out[i].Lasts = true, 0
		}
		left = math.Max(left-keeps, 0)
	}
	return out, nil
}
