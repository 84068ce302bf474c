package vacuum

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// A DumpPoint is one point of a pump's sheet.
type DumpPoint struct {
	Flow units.VolumeFlow
	Head units.Length
}

// A DumpPump is a pump that empties the tank, by its curve. Make one with
// [NewDumpPump]; until Redraw is called it does not change and is safe to share.
type DumpPump struct {
	curve curve
	drawn bool
}

// NewDumpPump draws the curve of a pump from the head it makes against a shut valve
// to the flow it makes against none. Two points are joined by the shape that
// between names, three and more by the monotone cubics of [NewBlower].
//
// Errors: a *[units.FieldError] for points that do not begin at no flow, do not
// end at no head, or do not fall from one to the next; for a missing shape.
func NewDumpPump(points []DumpPoint, between Shape) (*DumpPump, error) {
	d := new(DumpPump)
	if err := d.Redraw(points, between); err != nil {
		return nil, err
	}
	return d, nil
}

// Redraw makes d the pump of some points, as [NewDumpPump] does, in the memory that it
// has. Nothing else may use d meanwhile. After an error d is no pump.
func (d *DumpPump) Redraw(points []DumpPoint, between Shape) error {
	d.drawn = false
	c := &d.curve
	c.x, c.y = c.x[:0], c.y[:0]
	for _, pt := range points {
		c.point(float64(pt.Flow), float64(pt.Head))
	}
	err := c.draw(between, "points", "flow", "head",
		func(v float64) string { return units.VolumeFlow(v).String() }, func(v float64) string { return units.Length(v).String() })
	var p problem.List
	p.Take("", err)
	if err == nil {
		ends(&p, ".flow", len(c.x)-1, units.VolumeFlow(c.open), minFlow, maxFlow)
		ends(&p, ".head", 0, units.Length(c.shut), minHead, maxHead)
	}
	d.drawn = len(p) == 0
	return p.Join()
}

// Shutoff returns the head against a shut valve.
func (d *DumpPump) Shutoff() units.Length {
	if !d.made() {
		return 0
	}
	return units.Length(d.curve.shut)
}

// made reports whether the pump comes from NewDumpPump.
func (d *DumpPump) made() bool { return d != nil && d.drawn }

// Runout returns the flow against no head.
func (d *DumpPump) Runout() units.VolumeFlow {
	if !d.made() {
		return 0
	}
	return units.VolumeFlow(d.curve.open)
}

// A Dump is what empties the vacuum tank: pumps, filters and the hose to where the
// water goes.
type Dump struct {
	Pump    *DumpPump
	Running int // equal pumps side by side; none stands still
	Liquid  Liquid

	Rise units.Length // from the water in the vacuum tank up to the end of the hose, or to the water it ends in; negative where it ends lower

	Bore      units.Length // of the discharge hose; zero: no hose
	Length    units.Length
	Roughness units.Length
	K         float64 // fittings and outlet, in velocity heads of the bore

	Filters Train
	Loaded  []units.Ratio // one for each filter: 0 new, 1 at change-out; nil is all new

	// CheckValve keeps the vacuum from drawing the return line back.
	CheckValve bool
	Cracking   units.Pressure // what it takes to open
}

// A Discharge is what leaves the vacuum tank, and what holds it back.
type Discharge struct {
	Flow units.VolumeFlow // out of the tank; negative where the vacuum draws water back
	Each units.VolumeFlow // of one pump

	// What the pumps' head goes into; Head is their sum where water moves. Water
	// that moves back gives hose and filters a minus sign. Without flow the pumps
	// stand at their shut-off head, and Short is what is missing.
	Head    units.Length
	Lift    units.Length // rise
	Vacuum  units.Length // drum vacuum as a column of the liquid
	Line    units.Length // hose and fittings
	Filters units.Length
	Valve   units.Length
	Short   units.Length // of the head that would start the flow; zero where there is flow

	Back  bool  // the vacuum draws the return line back: no check valve, and the pumps give less than lift and vacuum
	Limit Cause // the greatest of what the head goes into
}

// A drain is a dump as numbers.
type drain struct {
	n, rhog, nu         float64
	area, d, l, k, K    float64
	hose                bool
	sieve               sieve
	lift, vacuum, valve float64
	pump                *curve
	near                hydraulics.FrictionPoint // of free
	free                root.Tangent             // the head left over where it meets lift and valve, without vacuum; zero: not asked
}

func (d *Dump) compile(vacuum units.Pressure) (*drain, error) {
	out := new(drain)
	return out, d.compileInto(out, vacuum)
}

func (d *Dump) compileInto(out *drain, vacuum units.Pressure) error {
	var p problem.List
	problem.Whole(&p, "running", d.Running, 0, maxCount)
	if d.Running > 0 && !d.Pump.made() {
		p.Add("pump", "", "a pump made by NewDumpPump", units.ErrMissing)
	}
	p.Take("liquid", d.Liquid.Validate())
	problem.Between(&p, "rise", d.Rise, -maxRise, maxRise)
	if d.Bore != 0 || d.Length != 0 || d.K != 0 || d.Roughness != 0 {
		problem.Within(&p, "bore", d.Bore, minBore, maxBore)
		problem.Between(&p, "length", d.Length, 0, maxLength)
		if !(d.Roughness >= 0 && float64(d.Roughness) <= maxRoughness*float64(d.Bore)) {
			p.Add("roughness", d.Roughness.String(), "0 to a twentieth of the bore", units.ErrRange)
		}
		problem.Number(&p, "k", d.K, 0, maxK)
	}
	d.Filters.check(&p)
	d.Filters.loads(&p, d.Loaded)
	problem.Between(&p, "cracking", d.Cracking, 0, maxPressure)
	if d.Cracking != 0 && !d.CheckValve {
		p.Add("cracking", d.Cracking.String(), "a check valve", units.ErrConflict)
	}
	problem.Between(&p, "vacuum", vacuum, 0, maxAir)
	if err := p.Join(); err != nil {
		return err
	}
	rho := float64(d.Liquid.Density)
	*out = drain{
		n: float64(d.Running), rhog: rho * gravity, nu: float64(d.Liquid.Viscosity) / rho,
		hose: d.Bore != 0, d: float64(d.Bore), l: float64(d.Length), area: circle(float64(d.Bore)), K: d.K,
		sieve: d.Filters.sieve(&d.Liquid, d.Loaded),
		lift:  float64(d.Rise), vacuum: float64(vacuum) / (rho * gravity), valve: float64(d.Cracking) / (rho * gravity),
	}
	if out.hose {
		out.k = float64(d.Roughness) / out.d
	}
	if d.Running > 0 {
		out.pump = &d.Pump.curve
	}
	return nil
}

// line is the head lost in hose and fittings.
func (d *drain) line(q float64) float64 {
	if !d.hose || q == 0 {
		return 0
	}
	v := q / d.area
	k := d.K
	if d.l > 0 {
		k += hydraulics.FrictionFactor(v*d.d/d.nu, d.k) * d.l / d.d
	}
	return k * v * v / (2 * gravity)
}

func (d *drain) filters(q float64) float64 { return d.sieve.loss(q) / d.rhog }

// head is what the pumps make at a flow of them all.
func (d *drain) head(q float64) float64 {
	if d.pump == nil {
		return 0
	}
	return d.pump.at(q / d.n)
}

// At returns what leaves the tank while a vacuum stands in it.
//
//	H(q/n) = z + h_v + h_l(q) + h_f(q) + h_c,  h_v = Δp_v/(ρ g)
//
// H is the curve of the pump, n how many run side by side (at one head their flows
// add), z the rise, h_v the vacuum as a column of the liquid (80 in of water is
// 6.67 ft), h_l hose and fittings, h_f the filters, h_c the check valve. The pump
// draws out of the vacuum: every inch of it is lift.
//
// Where the pumps' shut-off head is less than z + h_v + h_c nothing leaves. With a
// check valve the flow is then zero; without one the vacuum draws the return line
// back into the tank, at the flow that its friction allows with the pumps turning
// at their shut-off head. That lasts as long as the end of the line is under
// water; after that it draws air, and the vacuum at the tool is gone.
//
// Whether the pump can draw at that vacuum without cavitating is a matter of its
// required head: package hydraulics/tank.
//
// Errors: a *[units.FieldError] for each input; ErrMissing where a line without
// check valve has nothing that resists the back flow.
func (d Dump) At(vacuum units.Pressure) (Discharge, error) {
	var f FittedDump
	if err := f.fit(d, vacuum); err != nil {
		return Discharge{}, err
	}
	return f.at()
}

// A FittedDump is a dump that was checked once, for several vacua. It is for one
// goroutine at a time. The zero FittedDump takes a dump with Refit.
type FittedDump struct {
	dump  Dump
	drain drain
}

// Refit checks a dump, in the memory that f has; see [Dump.At] for the errors. The
// dump's pump, filters and their loads must not change while f is used.
func (f *FittedDump) Refit(d Dump) error { return f.fit(d, 0) }

func (f *FittedDump) fit(d Dump, vacuum units.Pressure) error {
	f.dump = d
	return f.dump.compileInto(&f.drain, vacuum)
}

// At is [Dump.At].
func (f *FittedDump) At(vacuum units.Pressure) (Discharge, error) {
	if err := f.under(vacuum); err != nil {
		return Discharge{}, err
	}
	return f.at()
}

// Flow is the flow of [Dump.At], negative where the vacuum draws water back, and what
// the filters lose to it, not less than nothing.
func (f *FittedDump) Flow(vacuum units.Pressure) (units.VolumeFlow, units.Pressure, error) {
	if err := f.under(vacuum); err != nil {
		return 0, 0, err
	}
	q, err := f.drain.settle(f.dump.CheckValve)
	return units.VolumeFlow(q), units.Pressure(f.drain.sieve.loss(math.Max(q, 0))), err
}

// BackFlow is what the vacuum draws back with every pump standing, not less than
// nothing.
func (f *FittedDump) BackFlow(vacuum units.Pressure) (units.VolumeFlow, error) {
	if err := f.under(vacuum); err != nil {
		return 0, err
	}
	c := f.drain
	c.pump, c.free = nil, root.Tangent{}
	q, err := c.settle(f.dump.CheckValve)
	return units.VolumeFlow(math.Max(-q, 0)), err
}

// under lays a vacuum on the tank.
func (f *FittedDump) under(vacuum units.Pressure) error {
	if !(vacuum >= 0 && vacuum <= maxAir) {
		var p problem.List
		problem.Between(&p, "vacuum", vacuum, 0, maxAir)
		return p.Join()
	}
	c := &f.drain
	if c.free.X == 0 && c.pump != nil && c.head(0) > c.lift+c.valve {
		var err error
		if c.free, err = c.flow(c.lift+c.valve, root.Tangent{}); err != nil {
			return err
		}
	}
	c.vacuum = float64(vacuum) / c.rhog
	return nil
}

// settle is the flow out of the tank, negative where it comes back.
func (d *drain) settle(check bool) (float64, error) {
	still := d.lift + d.vacuum + d.valve // the head at which the flow starts
	shut := d.head(0)
	switch {
	case shut > still:
		at, err := d.flow(still, d.free)
		return at.X, err
	case !check && shut < still:
		q, err := d.run(func(float64) float64 { return still - shut })
		return -q, err
	}
	return 0, nil
}

func (f *FittedDump) at() (out Discharge, err error) {
	d, c := &f.dump, &f.drain
	q, err := c.settle(d.CheckValve)
	if err != nil {
		return Discharge{}, err
	}
	if q <= 0 {
		out.Short = units.Length(math.Max(c.lift+c.vacuum+c.valve-c.head(0), 0))
	}
	out.Back = q < 0
	out.Flow = units.VolumeFlow(q)
	if d.Running > 0 {
		out.Each = units.VolumeFlow(q / c.n)
	}
	out.Head = units.Length(c.head(math.Max(q, 0)))
	out.Lift, out.Vacuum, out.Valve = units.Length(c.lift), units.Length(c.vacuum), units.Length(c.valve)
	out.Line, out.Filters = units.Length(math.Copysign(c.line(math.Abs(q)), q)), units.Length(math.Copysign(c.filters(math.Abs(q)), q))
	out.Limit = out.greatest()
	return out, nil
}

// flow is where what the pumps make and the water takes meets a head that stands still,
// looked for from where it met without vacuum or, where nobody knows that, from the far
// end of the pumps' curve. Where it does not come to stand, run brackets it.
func (d *drain) flow(still float64, from root.Tangent) (root.Tangent, error) {
	if d.pump != nil { // else the water runs down by itself
		near := d.near
		left := func(q float64) (float64, float64) { return d.left(q, still, &near) }
		from.F = d.lift + d.valve - still // there, by definition
		first := from.X == 0
		if first {
			from.X = d.pump.open * d.n
			from.F, from.Slope = left(from.X)
		}
		if _, ok := from.Zero(left, 0, maxFlow, 1e-5); ok && from.Slope < 0 {
			if first {
				d.near = near
			}
			return from, nil
		}
	}
	q, err := d.run(func(q float64) float64 { return d.head(q) - still })
	return root.Tangent{X: q}, err
}

// left is the head that a flow leaves over, and how it changes with the flow.
func (d *drain) left(q, still float64, near *hydraulics.FrictionPoint) (left, slope float64) {
	left = d.head(q) - still - d.filters(q)
	slope = d.pump.slope(q/d.n)/d.n - (2*d.sieve.square*q+d.sieve.line)/d.rhog
	if d.hose {
		v := q / d.area
		k, rise := d.K, 0.0
		if d.l > 0 {
			f, df := near.Factor(v*d.d/d.nu, d.k)
			k += f * d.l / d.d
			rise = df * v * d.l / d.nu
		}
		left -= k * v * v / (2 * gravity)
		slope -= (2*k + rise) * v / (2 * gravity * d.area)
	}
	return left, slope
}

// run returns the flow at which hose and filters take the head that drives it.
func (d *drain) run(head func(q float64) float64) (float64, error) {
	left := func(q float64) float64 { return head(q) - d.line(q) - d.filters(q) }
	lo, hi := 0.0, 1e-4
	low, high := left(lo), left(hi)
	for high > 0 {
		if hi > maxFlow {
			return 0, &units.FieldError{Path: "bore", Want: "a hose or a filter that resists the flow", Err: units.ErrMissing}
		}
		lo, low = hi, high
		hi *= 2
		high = left(hi)
	}
	q, _, err := root.NearFrom(left, lo, low, hi, high, lo, hi, 1e-10*hi)
	return q, err
}

// greatest names the greatest of what the head goes into.
func (d *Discharge) greatest() Cause {
	c, most := NoCause, units.Length(0)
	for _, x := range []struct {
		c Cause
		h units.Length
	}{{MoreVacuum, d.Vacuum}, {HigherLift, d.Lift}, {DirtierFilter, d.Filters}, {LongerLine, d.Line}} {
		if x.h > most {
			c, most = x.c, x.h
		}
	}
	return c
}

// WhyLess names why a dump moves less than another: what takes most more of the
// head at the flow it moves, or that its pumps give less. A second vacuum motor,
// for one, deepens the vacuum. NoCause where it does not move less.
//
// Errors: as [Dump.At], of either.
func WhyLess(d Dump, vacuum units.Pressure, than Dump, thanVacuum units.Pressure) (Cause, error) {
	less, err := d.At(vacuum)
	if err != nil {
		return NoCause, err
	}
	more, err := than.At(thanVacuum)
	if err != nil || !(less.Flow < more.Flow) {
		return NoCause, err
	}
	c, err := d.compile(vacuum)
	if err != nil {
		return NoCause, err
	}
	o, err := than.compile(thanVacuum)
	if err != nil {
		return NoCause, err
	}
	q := math.Max(float64(less.Flow), 0)
	cause, most := NoCause, 0.0
	for _, x := range []struct {
		cause Cause
		head  float64
	}{
		{MoreVacuum, c.vacuum - o.vacuum},
		{HigherLift, c.lift + c.valve - o.lift - o.valve},
		{DirtierFilter, c.filters(q) - o.filters(q)},
		{LongerLine, c.line(q) - o.line(q)},
		{WeakerPump, o.head(q) - c.head(q)},
	} {
		if x.head > most {
			cause, most = x.cause, x.head
		}
	}
	return cause, nil
}

// FilterAllowance returns the loss of all filters together at which the dump still
// moves a wanted flow against a vacuum: the change-out loss for that flow. It is
// negative where the flow is not reached without any filter.
//
//	Δp = ρ g [ H(q/n) − z − h_v − h_l(q) − h_c ]
//
// Errors: as [Dump.At].
func (d Dump) FilterAllowance(want units.VolumeFlow, vacuum units.Pressure) (units.Pressure, error) {
	c, err := d.compile(vacuum)
	var p problem.List
	p.Take("", err)
	problem.Within(&p, "want", want, minFlow, maxFlow)
	if err := p.Join(); err != nil {
		return 0, err
	}
	q := float64(want)
	return units.Pressure(c.rhog * (c.head(q) - c.lift - c.vacuum - c.valve - c.line(q))), nil
}
