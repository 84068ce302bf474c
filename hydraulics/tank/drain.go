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
	out := new(Drained)
	if err := d.Into(out); err != nil {
		return nil, err
	}
	return out, nil
}

// Into is Drain written to out.
func (d *Drain) Into(out *Drained) error {
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
		return err
	}
	f := d.Shape.form()
	free := d.Outlet.passage(d.Fluid)
	w := free
	if d.Vent.Given() {
		w.c += d.Vent.perSquare()
	}
	port, from, to := float64(d.Port), float64(d.From), float64(d.To)
	first, last := w.running((from-port)*w.weight), w.running((to-port)*w.weight)
	*out = Drained{Heel: units.Volume(f.volume(to)), First: units.VolumeFlow(first.q), Last: units.VolumeFlow(last.q), Unvented: units.VolumeFlow(first.q)}
	out.Volume = units.Volume(f.volume(from)) - out.Heel
	if d.Vent.Given() {
		out.Unvented = units.VolumeFlow(free.running((from - port) * w.weight).q)
		out.Vacuum = units.Pressure(d.Vent.perSquare() * square(first.q))
	}
	u0, u1 := math.Sqrt(to-port), math.Sqrt(from-port)
	if u1-u0 <= 1e-7*u1 { // a film: the flow does not change
		out.Time = units.Duration(2 * float64(out.Volume) / float64(out.First+out.Last))
		return nil
	}
	// Over the flow nothing has to be solved: the level at which q leaves is port
	// plus the loss at q, and dh = slope(q)/(ρ g) dq. The integral is cut where the
	// friction law goes over from one regime to the next, see hydraulics.FrictionFactor.
	level := func(dp float64) float64 { return min(port+dp/w.weight, from) }
	overFlow := func(q float64) float64 {
		dp, slope := w.loss(q)
		return f.surface(level(dp)) * slope / (w.weight * q)
	}
	t, a := 0.0, last.q
	add := func(over func(float64) float64, a, b float64) error {
		part, ok := integral(over, a, b, 1e-12)
		if !ok || !finite(part) {
			return &units.SolverError{Solver: "drain", State: "time over flow", Residual: part, Lo: a, Hi: b}
		}
		t += part
		return nil
	}
	// Below the turbulent flows, or in a hole, over the flow itself; above over ln y with
	// y = q √f, of which the flow is an explicit function, and the smoother one.
	cuts := [...]float64{2000 / w.perRe, turbulent / w.perRe}
	if w.pipe == 0 {
		cuts[0], cuts[1] = first.q, first.q
	}
	for _, cut := range cuts {
		if to := math.Min(cut, first.q); to > a {
			if err := add(overFlow, a, to); err != nil {
				return err
			}
			a = to
		}
	}
	if first.q > a {
		y0, y1 := last.y, first.y
		if a != last.q || y0 == 0 {
			y0 = w.rooted(a)
		}
		if y1 == 0 {
			y1 = w.rooted(first.q)
		}
		err := add(func(s float64) float64 {
			y := math.Exp(s)
			q, dq := w.explicit(y)
			dp := q*(w.a+w.c*q) + w.pipe*y*y
			return f.surface(level(dp)) * ((w.a+2*w.c*q)*dq + 2*w.pipe*y) * y / (w.weight * q)
		}, math.Log(y0), math.Log(y1))
		if err != nil {
			return err
		}
	}
	out.Time = units.Duration(t)
	return nil
}
