package statics

import (
	"errors"
	"fmt"
	"math"

	"example.com/washrig/units"
)

// Criteria are the accelerations that tie-downs must hold a load against, each by
// itself.
type Criteria struct {
	Forward, Rearward, Sideways units.Acceleration
	Upward                      units.Acceleration // force down on the load, as an acceleration; 0: contained otherwise
}

// FederalBreaking returns the accelerations under which the breaking strength of
// tie-downs must not be exceeded: 0.8 g forward, 0.5 g rearward, 0.5 g sideways;
// and 20 % of the weight as a force downward on a load that the vehicle's own
// structure does not contain.
//
// Source: 49 CFR 393.102(a)(1) and (b).
func FederalBreaking() Criteria {
	const g = units.StandardGravity
	return Criteria{0.8 * g, 0.5 * g, 0.5 * g, 0.2 * g}
}

// FederalWorking returns the accelerations under which the working load limit of
// tie-downs must not be exceeded: 0.435 g forward, 0.5 g rearward, 0.25 g sideways,
// and the same 20 % downward.
//
// Source: 49 CFR 393.102(a)(2) and (b).
func FederalWorking() Criteria {
	const g = units.StandardGravity
	return Criteria{0.435 * g, 0.5 * g, 0.25 * g, 0.2 * g}
}

// A Tie is how a load is held.
type Tie struct {
	Anchors  int         // bolts or straps that share the force in any one direction; 0: 1
	Angle    units.Angle // of straps, up from the deck; 0: bolts, square to it
	Friction units.Ratio // between load and deck; 0: not counted

	// Of the load, for tipping; 0: not judged. Height is its centre of mass above
	// the deck, Length and Width the distance between its anchors, fore and aft
	// and across.
	Height, Length, Width units.Length
}

// A Hold is what holding a load takes in one direction.
type Hold struct {
	Force  units.Force // m·a
	Net    units.Force // less friction
	Anchor units.Force // in each bolt, as shear, or along each strap
	Uplift units.Force // on the row of anchors at the far edge, from tipping; 0 if it does not tip
}

// Holds is what holding a load takes.
type Holds struct {
	Forward, Rearward, Sideways Hold
	Upward                      Hold // Anchor is the pull in each bolt or along each strap
}

// TieDown returns the forces that hold a load against accelerations. A tank is held
// at its full mass.
//
//	Force  = m·a
//	Net    = m·max(0, a − μ·g)
//	Anchor = Net/n for bolts, Net/(n·cos β) for straps
//	Uplift = m·max(0, a·h − g·b/2)/b
//
// β is the angle of the straps up from the deck, b the distance between the anchor
// rows along the acceleration. Friction counts the load's own weight alone, not what
// straps add to it. Upward Force = m·a and each anchor's share is Force/n, or
// Force/(n·sin β) for straps.
//
// Errors: a mass not more than zero; an acceleration outside 0 to 5 g; anchors,
// angle (0° to 80°), friction (0 to 100 %) or dimensions out of range.
//
// Source: Newton's second law and moments about the edge of the load.
func TieDown(m units.Mass, c Criteria, t Tie) (Holds, error) {
	var errs []error
	if !(m > 0 && m <= maxMass) {
		errs = append(errs, &units.FieldError{Path: "mass", Value: m.String(), Want: fmt.Sprintf("more than 0 kg, at most %d kg", maxMass), Err: units.ErrRange})
	}
	for _, a := range [...]struct {
		path string
		a    units.Acceleration
	}{{"criteria.forward", c.Forward}, {"criteria.rearward", c.Rearward}, {"criteria.sideways", c.Sideways}, {"criteria.upward", c.Upward}} {
		if !(a.a >= 0 && a.a <= 5*units.StandardGravity) {
			errs = append(errs, &units.FieldError{Path: a.path, Value: a.a.String(), Want: "0 g to 5 g", Err: units.ErrRange})
		}
	}
	if t.Anchors < 0 || t.Anchors > 1000 {
		errs = append(errs, &units.FieldError{Path: "tie.anchors", Value: fmt.Sprint(t.Anchors), Want: "1 to 1000", Err: units.ErrRange})
	}
	if !(t.Angle >= 0 && t.Angle <= 80*units.Degree) {
		errs = append(errs, &units.FieldError{Path: "tie.angle", Value: t.Angle.String(), Want: "0° to 80°", Err: units.ErrRange})
	}
	if !(t.Friction >= 0 && t.Friction <= 1) {
		errs = append(errs, &units.FieldError{Path: "tie.friction", Value: t.Friction.String(), Want: "0 % to 100 %", Err: units.ErrRange})
	}
	for _, l := range [...]struct {
		path string
		l    units.Length
	}{{"tie.height", t.Height}, {"tie.length", t.Length}, {"tie.width", t.Width}} {
		if !(l.l == 0 || l.l >= 1e-3 && l.l <= 20) {
			errs = append(errs, &units.FieldError{Path: l.path, Value: l.l.String(), Want: "0.001 m to 20 m", Err: units.ErrRange})
		}
	}
	if err := errors.Join(errs...); err != nil {
		return Holds{}, err
	}
	const g = float64(units.StandardGravity)
	n := float64(max(t.Anchors, 1))
	along, up := 1.0, 1.0
	if t.Angle > 0 {
		up, along = math.Sincos(float64(t.Angle))
	}
	hold := func(a units.Acceleration, b units.Length) Hold {
		f := float64(m) * float64(a)
		net := max(0, f-float64(t.Friction)*float64(m)*g)
		h := Hold{Force: units.Force(f), Net: units.Force(net), Anchor: units.Force(net / (n * along))}
		if t.Height > 0 && b > 0 {
			h.Uplift = units.Force(max(0, f*float64(t.Height)-float64(m)*g*float64(b)/2) / float64(b))
		}
		return h
	}
	f := units.Force(float64(m) * float64(c.Upward))
	return Holds{
		Forward: hold(c.Forward, t.Length), Rearward: hold(c.Rearward, t.Length), Sideways: hold(c.Sideways, t.Width),
		Upward: Hold{Force: f, Net: f, Anchor: f / units.Force(n*up)},
	}, nil
}
