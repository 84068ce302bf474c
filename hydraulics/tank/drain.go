package tank

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Drain empties one tank through an outlet by its own weight.
type Drain struct {
	Shape    Shape
	From, To units.Length // levels above the floor
	Port     units.Length // height of the outlet above the floor
	Outlet   Opening
	Fluid    hydraulics.Fluid
	Vent     Vent // not given: the tank breathes freely
}

// Drained is what a [Drain] takes.
type Drained struct {
	Time     units.Duration
	Volume   units.Volume     // drained
	Heel     units.Volume     // left at the end, what lies below the port included
	First    units.VolumeFlow // at the start
	Last     units.VolumeFlow // at the end
	Unvented units.VolumeFlow // at the start if the tank breathed freely
	Vacuum   units.Pressure   // in the tank at the start, when it is greatest
}

// Drain returns how long the level takes to fall, and what the vent costs.
//
//	t = ∫ A(h) dh / q(h) from To to From
//	ρ g (h − port) = Δp of the outlet + ½ ρ_air (q/(C a))²
//
// The vent's vacuum holds the water back and is solved together with it. To lies
// above the port: the last film takes for ever, and the last inch goes by swirls.
//
// Error: the integral is held to 1e-10. Errors: bad input as [*units.FieldError]; an
// integration that does not end as [*units.SolverError].
func (d Drain) Drain() (*Drained, error) {
	var p problem.List
	shape := d.Shape.Validate()
	p.Take("shape", shape)
	if shape == nil {
		top := d.Shape.form().h
		problem.Between(&p, "from", d.From, 0, top*(1+1e-12))
		problem.Between(&p, "port", d.Port, 0, top)
	}
	switch {
	case !(d.To > d.Port):
		p.Add("to", d.To.String(), "more than the height of the port, "+d.Port.String(), units.ErrConflict)
	case !(d.To <= d.From):
		p.Add("to", d.To.String(), "at most the level at the start, "+d.From.String(), units.ErrConflict)
	}
	p.Take("outlet", d.Outlet.Validate())
	checkFluid(&p, d.Fluid)
	if d.Vent.Given() {
		d.Vent.check(&p, "vent")
	}
	if err := p.Join(); err != nil {
		return nil, err
	}
	f := d.Shape.form()
	free := d.Outlet.passage(d.Fluid)
	w := free
	if d.Vent.Given() {
		w.c += d.Vent.perSquare()
	}
	port, from, to := float64(d.Port), float64(d.From), float64(d.To)
	flow := func(w *passage, h float64) float64 {
		q, _ := w.flow((h - port) * w.weight)
		return q
	}
	out := &Drained{Heel: units.Volume(f.volume(to))}
	out.Volume = units.Volume(f.volume(from)) - out.Heel
	out.First, out.Last = units.VolumeFlow(flow(&w, from)), units.VolumeFlow(flow(&w, to))
	out.Unvented = units.VolumeFlow(flow(&free, from))
	if d.Vent.Given() {
		out.Vacuum = units.Pressure(d.Vent.perSquare() * square(float64(out.First)))
	}
	u0, u1 := math.Sqrt(to-port), math.Sqrt(from-port)
	if u1-u0 <= 1e-7*u1 { // a film: the flow does not change
		out.Time = units.Duration(2 * float64(out.Volume) / float64(out.First+out.Last))
		return out, nil
	}
	// Over the flow nothing has to be solved: the level at which q leaves is port
	// plus the loss at q, and dh = slope(q)/(ρ g) dq. The integral is cut where the
	// friction law goes over from one regime to the next, see hydraulics.FrictionFactor.
	t, a, b := 0.0, float64(out.Last), float64(out.First)
	for _, cut := range [...]float64{2000 / w.perRe, 4000 / w.perRe, b} {
		if w.pipe == 0 {
			cut = b
		}
		to := math.Min(cut, b)
		if !(to > a) {
			continue
		}
		part, ok := integral(func(q float64) float64 {
			dp, slope := w.loss(q)
			return f.surface(math.Min(port+dp/w.weight, from)) * slope / (w.weight * q)
		}, a, to, 1e-12)
		if !ok || !finite(part) {
			return nil, &units.SolverError{Solver: "drain", State: "time over flow", Residual: part, Lo: a, Hi: to}
		}
		t, a = t+part, to
	}
	out.Time = units.Duration(t)
	return out, nil
}
