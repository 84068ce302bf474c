package vacuum

import (
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Type is how a blower moves air. It decides how its current moves.
type Type uint8

// Types of blower.
const (
	_            Type = iota
	Centrifugal       // fan wheels, as in nearly every vacuum motor: least power when sealed
	Displacement      // lobes or vanes that carry a volume round: most power when sealed
)

var typeNames = [...]string{"no type", "centrifugal", "displacement"}

// String returns the type as a word.
func (t Type) String() string {
	if int(t) < len(typeNames) {
		return typeNames[t]
	}
	return "unknown type"
}

// A BlowerPoint is one point of a test: the air that passes, as a volume of
// outside air, and the lift, the vacuum at the inlet.
type BlowerPoint struct {
	Flow units.VolumeFlow
	Lift units.Pressure
}

// A BlowerPlate is what the plate or the sheet of a vacuum motor says.
//
// Flow is read as a volume of the air outside, mass flow over outside density,
// as a test with an orifice at the inlet of the box gives it. The first point is
// the sealed lift with no flow, the last the open flow with no lift; a plate
// prints those two and nothing between, and then Between names what is assumed.
type BlowerPlate struct {
	Points  []BlowerPoint
	Between Shape // for two points; otherwise empty
	Air     Air   // of the test; see [StandardAir]

	// For the electrical load alone; may be left out.
	Type                   Type
	OpenPower, SealedPower units.Power // drawn at the open and at the sealed end
}

// A Blower is a vacuum motor by its plate. Make one with [NewBlower]; until Redraw is
// called it does not change and is safe to share.
type Blower struct {
	curve        curve
	rho, perRho  float64 // of the test, and its inverse
	kind         Type
	open, sealed float64 // W
}

// NewBlower draws the curve of a vacuum motor. Two points are joined by the shape
// that Between names; three and more by the monotone cubics of Fritsch and
// Butland, which pass through every point and make no peak that the sheet does
// not have.
//
// Errors: a *[units.FieldError] for points that do not begin at no flow, do not
// end at no lift, or do not fall from one to the next; for a missing shape; for
// powers without a type.
//
// Source: F. N. Fritsch and J. Butland, "A method for constructing local monotone
// piecewise cubic interpolants", SIAM J. Sci. Stat. Comput. 5(2), 1984.
func NewBlower(b BlowerPlate) (*Blower, error) {
	out := new(Blower)
	if err := out.Redraw(b); err != nil {
		return nil, err
	}
	return out, nil
}

// Redraw makes b the blower of a plate, as [NewBlower] does, in the memory that it has.
// Nothing else may use b meanwhile. After an error b is no blower.
func (b *Blower) Redraw(plate BlowerPlate) error {
	b.rho = 0
	c := &b.curve
	c.x, c.y = c.x[:0], c.y[:0]
	for _, pt := range plate.Points {
		c.point(float64(pt.Flow), float64(pt.Lift))
	}
	err := c.draw(plate.Between, "points", "flow", "lift",
		func(v float64) string { return units.VolumeFlow(v).String() }, func(v float64) string { return units.Pressure(v).String() })
	var p problem.List
	p.Take("", err)
	if err == nil {
		ends(&p, ".flow", len(c.x)-1, units.VolumeFlow(c.open), minAirFlow, maxAirFlow)
		ends(&p, ".lift", 0, units.Pressure(c.shut), minLift, maxLift)
	}
	p.Take("air", plate.Air.Validate())
	if plate.Type > Displacement {
		p.Add("type", plate.Type.String(), "centrifugal or displacement", units.ErrRange)
	}
	if plate.OpenPower != 0 || plate.SealedPower != 0 {
		if plate.Type == 0 {
			p.Add("type", "", "centrifugal or displacement, where powers are given", units.ErrMissing)
		}
		problem.Within(&p, "openPower", plate.OpenPower, minPower, maxPower)
		problem.Within(&p, "sealedPower", plate.SealedPower, minPower, maxPower)
		switch {
		case plate.Type == Centrifugal && plate.SealedPower > plate.OpenPower:
			p.Add("sealedPower", plate.SealedPower.String(), "at most the power at the open end, "+plate.OpenPower.String()+": a centrifugal blower works less when sealed", units.ErrConflict)
		case plate.Type == Displacement && plate.SealedPower < plate.OpenPower:
			p.Add("sealedPower", plate.SealedPower.String(), "at least the power at the open end, "+plate.OpenPower.String()+": a displacement blower works most when sealed", units.ErrConflict)
		}
	}
	if err := p.Join(); err != nil {
		return err
	}
	g, err := plate.Air.gas()
	if err != nil {
		return units.At("air", err)
	}
	if c.shut >= g.p {
		p.Add(problem.At("points", 0)+".lift", units.Pressure(c.shut).String(), "less than the air pressure of the test, "+plate.Air.Pressure.String(), units.ErrConflict)
		return p.Join()
	}
	b.rho, b.perRho, b.kind, b.open, b.sealed = g.rho, 1/g.rho, plate.Type, float64(plate.OpenPower), float64(plate.SealedPower)
	return nil
}

// ends checks one end of a curve.
func ends[Q problem.Quantity](p *problem.List, field string, at int, v Q, lo, hi float64) {
	if !(float64(v) >= lo && float64(v) <= hi) { // the path is written where something is wrong
		problem.Between(p, problem.At("points", at)+field, v, lo, hi)
	}
}

// OpenFlow returns the greatest flow of outside air, with no lift at all.
func (b *Blower) OpenFlow() units.VolumeFlow {
	if !b.made() {
		return 0
	}
	return units.VolumeFlow(b.curve.open)
}

// made reports whether the blower comes from NewBlower.
func (b *Blower) made() bool { return b != nil && b.rho != 0 }

// SealedLift returns the vacuum behind a closed inlet in the air of the plate.
func (b *Blower) SealedLift() units.Pressure {
	if !b.made() {
		return 0
	}
	return units.Pressure(b.curve.shut)
}

// Lift returns the vacuum that the blower makes while it passes a flow of outside
// air, in the air outside.
//
//	h = h₀(q) ρ/ρ₀
//
// h₀ is the curve of the plate, ρ₀ the density of its test. The ratio of the
// pressures before and behind a fan depends on its speed, the temperature and the
// volume it passes, not on the pressure (similarity of turbomachines); the same
// holds of a displacement blower, whose leak through its clearances goes with
// √(h/ρ). So lift falls with the pressure of the place and the volume stays.
// Hot air counts by its density, which is the first-order effect of temperature.
// A brush motor turns a little faster in thin air; that is left out.
//
// Errors: a *[units.FieldError] for the air, or for a flow beyond the open flow,
// where the plate says nothing.
//
// Source: fan laws as in AMCA 201 and any textbook of turbomachines.
func (b *Blower) Lift(outside Air, q units.VolumeFlow) (units.Pressure, error) {
	var p problem.List
	if !b.made() {
		p.Add("blower", "", "a blower made by NewBlower", units.ErrMissing)
		return 0, p.Join()
	}
	p.Take("air", outside.Validate())
	problem.Between(&p, "flow", q, 0, b.curve.open)
	if err := p.Join(); err != nil {
		return 0, err
	}
	g, err := outside.gas()
	if err != nil {
		return 0, units.At("air", err)
	}
	return units.Pressure(b.lift(g.rho, float64(q))), nil
}

func (b *Blower) lift(rho, q float64) float64 { return b.curve.at(q) * rho * b.perRho }

// power returns the electrical power at flow q of air of density rho in front of
// the outlet, with lift h.
func (b *Blower) power(rho, q, h float64) float64 {
	if b.kind == Displacement {
		return b.open + (b.sealed-b.open)*h/b.curve.shut
	}
	return (b.sealed + (b.open-b.sealed)*q/b.curve.open) * rho / b.rho
}
