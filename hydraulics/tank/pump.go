package tank

import (
	"math"

	"gonum.org/v1/gonum/interp"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// A PumpPoint is one point of a centrifugal pump's curve.
type PumpPoint struct {
	Flow units.VolumeFlow
	Head units.Length
}

// A PumpCurve is the head of a feed or transfer pump by its flow, from closed valve
// (flow zero) on: flows rise, heads fall.
type PumpCurve []PumpPoint

// Validate reports points that are out of range or out of order.
func (c PumpCurve) Validate() error {
	var p problem.List
	if len(c) < 2 {
		p.Add("curve", "", "at least two points, the first at no flow", units.ErrMissing)
		return p.Join()
	}
	for i, x := range c {
		at := problem.Element("curve", "", i)
		problem.Between(&p, at+".flow", x.Flow, 0, maxFlow)
		problem.Between(&p, at+".head", x.Head, 0, maxHeight)
		switch {
		case i == 0 && x.Flow != 0:
			p.Add(at+".flow", x.Flow.String(), "nothing: the head against a closed valve", units.ErrConflict)
		case i > 0 && !(x.Flow > c[i-1].Flow):
			p.Add(at+".flow", x.Flow.String(), "more than that of the point before", units.ErrConflict)
		}
		if i > 0 && !(x.Head < c[i-1].Head) {
			p.Add(at+".head", x.Head.String(), "less than that of the point before", units.ErrConflict)
		}
	}
	return p.Join()
}

// SideBySide returns the curve of n such pumps that run together: at one head their
// flows add. Behind one pressure switch they start and stop together
// ([Accumulator.Cycles]); pumps that differ are for [Deliver].
func (c PumpCurve) SideBySide(n int) (PumpCurve, error) {
	var p problem.List
	p.Take("", c.Validate())
	problem.Number(&p, "count", float64(n), 1, 100)
	if err := p.Join(); err != nil {
		return nil, err
	}
	out := make(PumpCurve, len(c))
	for i, x := range c {
		out[i] = PumpPoint{Flow: x.Flow * units.VolumeFlow(n), Head: x.Head}
	}
	return out, out.Validate()
}

// A fitted curve gives the flow by the head: monotone, so that it can be read both
// ways.
type fitted struct {
	f           interp.FittablePredictor
	least, shut float64 // heads of the last and the first point
	most        float64 // flow of the last point
}

func (c PumpCurve) fit() (*fitted, error) {
	if err := c.Validate(); err != nil {
		return nil, err
	}
	heads, flows := make([]float64, len(c)), make([]float64, len(c))
	for i, x := range c {
		heads[len(c)-1-i], flows[len(c)-1-i] = float64(x.Head), float64(x.Flow)
	}
	g := &fitted{f: &interp.FritschButland{}, least: heads[0], shut: heads[len(c)-1], most: flows[0]}
	if len(c) == 2 {
		g.f = &interp.PiecewiseLinear{}
	}
	return g, g.f.Fit(heads, flows)
}

// flow returns the flow at a head that is at least that of the last point; behind a
// check valve it is nothing above the head at closed valve.
func (g *fitted) flow(head float64) float64 {
	if head >= g.shut {
		return 0
	}
	return math.Min(math.Max(g.f.Predict(math.Max(head, g.least)), 0), g.most)
}

// FlowAt returns the flow at a head, by monotone cubic interpolation (F. N. Fritsch
// and J. Butland); nothing above the head at closed valve. A head below the last
// point is outside the curve and an error.
func (c PumpCurve) FlowAt(head units.Length) (units.VolumeFlow, error) {
	g, err := c.fit()
	if err != nil {
		return 0, err
	}
	if !(float64(head) >= g.least && float64(head) <= maxHeight) {
		return 0, &units.FieldError{Path: "head", Value: head.String(), Want: "at least that of the last point, " + units.Length(g.least).String(), Err: units.ErrRange}
	}
	return units.VolumeFlow(g.flow(float64(head))), nil
}

// HeadAt returns the head at a flow, the inverse of FlowAt. A flow beyond the last
// point is an error.
func (c PumpCurve) HeadAt(q units.VolumeFlow) (units.Length, error) {
	g, err := c.fit()
	if err != nil {
		return 0, err
	}
	if !(q >= 0 && float64(q) <= g.most) {
		return 0, &units.FieldError{Path: "flow", Value: q.String(), Want: "0 to that of the last point, " + units.VolumeFlow(g.most).String(), Err: units.ErrRange}
	}
	x, _, err := root.Bracketed(func(h float64) float64 { return g.flow(h) - float64(q) }, g.least, g.shut, 0)
	return units.Length(x), err
}

// A Delivery is what pumps do in a line.
type Delivery struct {
	Flow  units.VolumeFlow
	Head  units.Length       // of the pumps
	Pumps []units.VolumeFlow // of each; zero where its check valve stays shut
}

// Deliver returns the flow at which the head of pumps side by side, each behind its
// check valve, is used up by a line and its height.
//
//	H = static + Δp(q)/(ρ g),  q = Σ q_i(H)
//
// Duty and stand-by are two calls with one pump each; both running is one with both,
// and gives less than twice the flow. Pumps that do not reach the static height give
// nothing, without an error.
//
// Errors: bad input; a line with so little loss that the pumps run off the end of
// their curves.
func Deliver(pumps []PumpCurve, static units.Length, elements []hydraulics.Element, fluid hydraulics.Fluid) (*Delivery, error) {
	var p problem.List
	if len(pumps) == 0 {
		p.Add("pumps", "", "at least one curve", units.ErrMissing)
	}
	fits := make([]*fitted, len(pumps))
	for i, c := range pumps {
		g, err := c.fit()
		p.Take(problem.Element("pumps", "", i), err)
		fits[i] = g
	}
	problem.Between(&p, "static", static, -maxHeight, maxHeight)
	checkFluid(&p, fluid)
	if err := p.Join(); err != nil {
		return nil, err
	}
	var w Workspace
	if err := w.lay(fluid, elements); err != nil {
		return nil, err
	}
	lo, hi := 0.0, 0.0
	for _, g := range fits {
		lo, hi = math.Max(lo, g.least), math.Max(hi, g.shut)
	}
	sum := func(h float64) float64 {
		q := 0.0
		for _, g := range fits {
			q += g.flow(h)
		}
		return q
	}
	weight := float64(fluid.Density) * gravity
	short := func(h float64) float64 {
		need := float64(static) - h
		if q := sum(h); q >= minFlow {
			dp, _ := w.run.Loss(units.VolumeFlow(q))
			need += float64(dp) / weight
		}
		return need
	}
	out := &Delivery{Pumps: make([]units.VolumeFlow, len(pumps))}
	if short(hi) >= 0 { // not lifted
		out.Head = units.Length(hi)
		return out, nil
	}
	if short(lo) < 0 {
		return nil, &units.FieldError{Path: "line", Want: "more loss or height: the pumps run beyond the last points of their curves", Err: units.ErrRange}
	}
	h, _, err := root.Bracketed(short, lo, hi, 0)
	if err != nil {
		return nil, err
	}
	out.Head, out.Flow = units.Length(h), units.VolumeFlow(sum(h))
	for i, g := range fits {
		out.Pumps[i] = units.VolumeFlow(g.flow(h))
	}
	return out, nil
}

// Boost returns the head that a feed pump must add where the head available at the
// pressure pump's inlet does not leave the reserve wanted; zero where it does.
func Boost(available, required, reserve units.Length) (units.Length, error) {
	var p problem.List
	problem.Between(&p, "available", available, -maxHeight, maxHeight)
	problem.Between(&p, "required", required, 0, maxHeight)
	problem.Between(&p, "reserve", reserve, 0, maxHeight)
	if err := p.Join(); err != nil {
		return 0, err
	}
	return max(required+reserve-available, 0), nil
}
