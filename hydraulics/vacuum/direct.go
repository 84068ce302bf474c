package vacuum

import (
	"math"

	"example.com/washrig/internal/root"
)

// A plant whose path has one hose, and to whose tank no other hole leads, is solved
// without passing the hose: the pressure before it follows from the air outside and
// the tool, the pressure behind it from the motors and their filter, and what is
// looked for is the flow that the hose takes between the two. Each trial is one mean
// of the hose's law. Plants of another kind, and flows that choke or that no smooth
// step reaches, are left to rig.try, which passes everything from the tool on.

// onlyHose returns which piece of the path is the hose.
func (r *rig) onlyHose() (at int, ok bool) {
	for i := range r.path {
		if r.path[i].hose {
			at, ok = i, !ok
			if !ok {
				return 0, false // a second one
			}
		}
	}
	for i := range r.duct {
		ok = ok && !r.duct[i].hose
	}
	return at, ok && r.bleed == 0 && r.n > 0
}

// made returns the pressures in the tank and at the motors that draw m kg/s.
func (r *rig) made(m float64) (tank, motors float64) {
	motors = r.g.p - r.bank.lift(&r.g, m)
	tank = motors
	all := flow{g: &r.g, air: m, spread: 1}
	for i := len(r.duct) - 1; i >= 0; i-- {
		tank = r.duct[i].before(&all, tank)
	}
	return tank, motors
}

// spare is by how much the motors' vacuum is more than what air and water take, Pa at
// the hose; NaN where it cannot be told.
func (r *rig) spare(f *flow, tank float64) float64 {
	p, ok := along(r.path[:r.hose], f, r.g.p, nil)
	if !ok {
		return math.NaN()
	}
	for i := len(r.path) - 1; i > r.hose; i-- {
		tank = r.path[i].before(f, tank)
	}
	return r.stream.spare(f, p, tank)
}

// balance is the trial of a settled flow.
func (r *rig) balance(f *flow, direct bool) balance {
	if !direct {
		return r.try(f)
	}
	b := balance{drawn: r.n * f.air}
	b.tank, b.motors = r.made(b.drawn)
	return b
}

// settleDirect is settle where the plant is direct; ok is false where it has to be
// done the long way.
func (r *rig) settleDirect(f *flow, near float64) (ok bool) {
	top := r.open / r.n
	lift := r.bank.lift(&r.g, 0)
	motors := r.g.p
	spare := func(air float64) float64 {
		f.air = air
		var tank float64
		tank, motors = r.made(r.n * air)
		return r.spare(f, tank)
	}
	const steps = 16
	a, rise := near, 1.85 // exponent of the losses in the flow of air
	if f.liquid > 0 {
		rise = 1.1
	}
	var fa float64
	switch {
	case near > 0 && near < top:
		fa = spare(a)
	case f.liquid == 0:
		a = r.nearDry(lift, top)
		fa = spare(a)
	default:
		for i := steps - 1; i > 0; i-- {
			a = top * square(float64(i)/steps)
			if fa = spare(a); fa > 0 {
				break
			}
		}
	}
	b := a - fa/-(lift/top+rise*math.Max(r.g.p-motors-fa, 0)/a)
	if !(b < top) { // the motors' curve has a corner there
		b = (a + top) / 2
	}
	air, slope, _, ok := root.Inverse(spare, a, fa, b, spare(b), 0, top, 1e-10*top)
	f.air = air
	return ok && slope < 0
}

// usualFriction is a friction factor of air in a smooth hose, to begin with.
const usualFriction = 0.018

// nearDry is about the air of each hose without water: losses that go with the square
// of the flow, and a lift that falls evenly.
func (r *rig) nearDry(lift, top float64) float64 {
	usual := 0.7 * top
	p := r.g.p - lift/4
	per := usualFriction * r.stream.tube.times * r.stream.gas * square(r.stream.perArea) * r.stream.tube.l
	for i := range r.path {
		per += (r.path[i].c2 + r.path[i].c1/usual) * r.g.rt
	}
	for i := range r.duct {
		per += (r.duct[i].c2*r.n + r.duct[i].c1/usual) * r.n * r.g.rt
	}
	m := lift / top
	return 2 * lift / (m + math.Sqrt(m*m+4*per/p*lift))
}

// mostDirect is most where the plant is direct.
func (r *rig) mostDirect(f *flow, tank, near float64) (w float64, ok bool) {
	spare := func(liquid float64) float64 {
		f.liquid = liquid
		return r.spare(f, tank)
	}
	a := near
	if !(a > 0) {
		a = r.nearMost(f, tank)
	}
	fa := spare(a)
	b := a + 1.1*fa*(f.air+a)/math.Max(r.g.p-tank-fa, 1)
	w, slope, _, ok := root.Inverse(spare, a, fa, b, spare(b), 1e-12, maxFlow/f.vl, 1e-10*a)
	return w, ok && slope < 0
}

// nearMost is about the water that each hose takes beside a flow of air. Tools lose in
// proportion to the mass of both, and the hose by the middle of MullerSteinhagenHeck,
//
//	2 x (dry loss)(M/air)^1.8 ≈ 2.2 (dry loss)(M/air)^0.75
//
// an eighth of a riser is full, and the air grows thin on the way.
func (r *rig) nearMost(f *flow, tank float64) float64 {
	all := r.g.p - tank
	v := r.g.rt / r.g.p
	hose := 1.17 * usualFriction * r.stream.tube.times * r.stream.gas * square(r.stream.perArea*f.air) * r.stream.tube.l / r.g.p
	tool := 0.0
	for i := range r.path {
		tool += (r.path[i].c2*f.air + r.path[i].c1) * f.air * v
	}
	all -= all*all/(2*r.g.p) + r.stream.weight*r.stream.tube.l/8
	times := all / (tool + 1.25*hose)
	times = all / (tool + 2.2*hose/math.Sqrt(math.Sqrt(math.Max(times, 1))))
	return f.air * math.Max(times-1, 0.5)
}

// falls reports whether the motors do not pass a flow.
func (r *rig) falls(f *flow) bool {
	if r.direct {
		tank, _ := r.made(r.n * f.air)
		if s := r.spare(f, tank); s == s {
			return s < 0
		}
	}
	return r.try(f).surplus < 0
}
