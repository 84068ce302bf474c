package statics

import (
	"errors"
	"fmt"

	"example.com/washrig/units"
)

// A Trailer is what carries the masses: where it is supported and how.
// The bare trailer's own weight is one of the masses.
type Trailer struct {
	Coupler   units.Position // where the ball is; not given: the origin, x = 0
	AxleGroup units.Position // centre of the axle group; required, aft of the coupler
	Axles     int            // number of axles, 1 to 6; required
	Spacing   units.Length   // between neighbouring axles; needed by [Trailer.AxlePositions] from two axles on
	Track     units.Length   // between the wheel centrelines of one axle; needed by [Sides] and for stability
	Tyres     int            // on each end of an axle: 1, or 2 for twins; 0: 1

	// CouplerHeight is the ball above level ground; 0: not given. [Pitch] needs
	// it, and [Rollover] takes the hitched trailer's tilting axis if it is there.
	CouplerHeight units.Length
}

const maxAxles = 6

// span is the trailer in metres: coupler, axle group, and the distance between.
type span struct{ coupler, group, base float64 }

func (t Trailer) span() (span, []error) {
	var errs []error
	if t.Coupler.Given() {
		errs = checkPosition(errs, "trailer.coupler", t.Coupler)
	}
	s := span{coupler: float64(t.Coupler.Length()), group: float64(t.AxleGroup.Length())}
	s.base = s.group - s.coupler
	if !t.AxleGroup.Given() {
		errs = append(errs, &units.FieldError{Path: "trailer.axle_group", Want: "distance of the axle group aft of the coupler", Err: units.ErrMissing})
	} else if errs = checkPosition(errs, "trailer.axle_group", t.AxleGroup); !(s.base >= 0.1) {
		errs = append(errs, &units.FieldError{Path: "trailer.axle_group", Value: t.AxleGroup.Length().String(), Want: "at least 0.1 m aft of the coupler", Err: units.ErrRange})
	}
	switch {
	case t.Axles == 0:
		errs = append(errs, &units.FieldError{Path: "trailer.axles", Want: "number of axles", Err: units.ErrMissing})
	case t.Axles < 0 || t.Axles > maxAxles:
		errs = append(errs, &units.FieldError{Path: "trailer.axles", Value: fmt.Sprint(t.Axles), Want: fmt.Sprintf("1 to %d", maxAxles), Err: units.ErrRange})
	}
	if t.Tyres < 0 || t.Tyres > 4 {
		errs = append(errs, &units.FieldError{Path: "trailer.tyres", Value: fmt.Sprint(t.Tyres), Want: "1 to 4 on each end of an axle", Err: units.ErrRange})
	}
	return s, errs
}

// ends returns the number of tyres on one side of the group.
func (t Trailer) ends() int { return t.Axles * max(t.Tyres, 1) }

// track returns the track in metres, refusing one that is missing or not positive.
func (t Trailer) track() (float64, []error) {
	switch {
	case t.Track == 0:
		return 0, []error{&units.FieldError{Path: "trailer.track", Want: "distance between wheel centrelines", Err: units.ErrMissing}}
	case !(t.Track > 0 && t.Track <= 10):
		return 0, []error{&units.FieldError{Path: "trailer.track", Value: t.Track.String(), Want: "more than 0 m, at most 10 m", Err: units.ErrRange}}
	}
	return float64(t.Track), nil
}

// AxlePositions returns the position of each axle, front to rear: the group's
// centre for one axle, else spread about it by Spacing.
func (t Trailer) AxlePositions() ([]units.Position, error) { return t.axlesAt(nil) }

// axlesAt is AxlePositions appended to ps.
func (t Trailer) axlesAt(ps []units.Position) ([]units.Position, error) {
	s, errs := t.span()
	if t.Axles > 1 {
		switch {
		case t.Spacing == 0:
			errs = append(errs, &units.FieldError{Path: "trailer.spacing", Want: "distance between neighbouring axles", Err: units.ErrMissing})
		case !(t.Spacing > 0 && t.Spacing <= 10):
			errs = append(errs, &units.FieldError{Path: "trailer.spacing", Value: t.Spacing.String(), Want: "more than 0 m, at most 10 m", Err: units.ErrRange})
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	for i := range t.Axles {
		ps = append(ps, units.PositionAt(units.Length(s.group+(float64(i)-float64(t.Axles-1)/2)*float64(t.Spacing))))
	}
	return ps, nil
}

// Loads is how a set of masses rests on coupler and axles.
type Loads struct {
	Total  units.Mass
	Tongue units.Mass  // on the ball; negative when it lifts the vehicle
	Share  units.Ratio // Tongue / Total
	Group  units.Mass  // on the axle group
	Axle   units.Mass  // on each axle of an equalised group: Group / Axles

	// CenterX is the centre of mass. CenterY and CenterZ are given only when
	// every mass of more than zero has that coordinate.
	CenterX, CenterY, CenterZ units.Position

	// Left and Right are the loads of the two sides of the axle group, and Tyre
	// that of one tyre on the heavier side, filled in when CenterY is given and the
	// trailer has a track; SidesKnown says so.
	Left, Right units.Mass
	Tyre        units.Mass
	SidesKnown  bool
}

// Balance rests masses on the coupler and one equalised axle group.
//
//	u = (x − x_c)/(x_a − x_c)
//	Total  = Σ m
//	Group  = Σ m·u
//	Tongue = Σ m·(1 − u)
//	Share  = Tongue/Total
//	Axle   = Group/Axles
//	Left, Right = Group/2 ± Σ m·y/track
//	Tyre   = max(Left, Right)/(Axles·Tyres)
//
// x_c is the coupler, x_a the centre of the axle group. The frame is taken as
// level, the ball as a point on the centreline that carries no moment, and the
// group as equalised: its axles share alike whatever the attitude of the frame.
// Axles that do not equalise (torsion axles, separate springs) are for [Suspend].
//
// Range: any positions, also behind the last axle or ahead of the coupler.
// Errors: no masses, or all of them zero; a position or mass outside its range;
// no axle group or number of axles. A track that is not given is no error here,
// it leaves the sides unknown; [Sides] insists on it.
//
// Source: moments about two supports, any textbook of statics.
func Balance(t Trailer, masses []Mass) (Loads, error) {
	s, errs := t.span()
	ps, more := points(nil, masses)
	errs = append(errs, more...)
	track := 0.0
	if t.Track != 0 {
		track, more = t.track()
		errs = append(errs, more...)
	}
	if len(masses) == 0 {
		errs = append(errs, &units.FieldError{Path: "masses", Want: "at least one mass", Err: units.ErrMissing})
	}
	if err := errors.Join(errs...); err != nil {
		return Loads{}, err
	}
	var sum sums
	for i := range ps {
		sum.add(s, &ps[i])
	}
	if sum.w <= 0 {
		return Loads{}, &units.FieldError{Path: "masses", Value: "0 kg in all", Want: "more than 0 kg", Err: units.ErrRange}
	}
	return sum.loads(s, t.Axles, t.ends(), track), nil
}

// Sides returns the loads on the left and the right of the axle group.
//
//	Left, Right = Group/2 ± Σ m·y/track
//
// The ball lies on the centreline and carries no moment, so the whole lateral
// moment goes to the wheels. A side that comes out negative would have lifted.
//
// Errors: those of [Balance]; a mass of more than zero without Y; no track.
func Sides(t Trailer, masses []Mass) (left, right units.Mass, err error) {
	var errs []error
	if _, more := t.track(); more != nil && t.Track == 0 {
		errs = append(errs, more...) // one of the wrong size is reported by Balance
	}
	for i, m := range masses {
		if !m.Y.Given() && m.Mass != 0 {
			errs = append(errs, &units.FieldError{Path: element("masses", i, m.Name) + ".y", Want: "distance left of the centreline", Err: units.ErrMissing})
		}
	}
	l, err := Balance(t, masses)
	if err = errors.Join(err, errors.Join(errs...)); err != nil {
		return 0, 0, err
	}
	return l.Left, l.Right, nil
}

// sums holds the moments of a set of masses. Tongue and group are summed apart,
// so that their closing to the total is a check and not a definition.
type sums struct {
	w, tongue, group float64 // kg
	mx, my, mz       float64 // kg·m, x from the coupler
	lackY, lackZ     bool
}

func (a *sums) add(s span, p *point) { a.addMass(s, p, p.m) }

// addMass adds a point with mass m in place of its own.
func (a *sums) addMass(s span, p *point, m float64) {
	if m == 0 {
		return
	}
	x := p.x - s.coupler
	a.w += m
	a.mx += m * x
	a.group += m * (x / s.base)
	a.tongue += m * ((s.group - p.x) / s.base)
	a.my += m * p.y
	a.mz += m * p.z
	a.lackY = a.lackY || !p.hasY
	a.lackZ = a.lackZ || !p.hasZ
}

func (a *sums) loads(s span, axles, ends int, track float64) Loads {
	l := Loads{
		Total:   units.Mass(a.w),
		Tongue:  units.Mass(a.tongue),
		Share:   units.Ratio(a.tongue / a.w),
		Group:   units.Mass(a.group),
		Axle:    units.Mass(a.group / float64(axles)),
		CenterX: units.PositionAt(units.Length(s.coupler + a.mx/a.w)),
	}
	if !a.lackZ {
		l.CenterZ = units.PositionAt(units.Length(a.mz / a.w))
	}
	if !a.lackY {
		l.CenterY = units.PositionAt(units.Length(a.my / a.w))
		if track > 0 {
			l.Left = units.Mass(a.group/2 + a.my/track)
			l.Right = units.Mass(a.group/2 - a.my/track)
			l.Tyre = max(l.Left, l.Right) / units.Mass(ends)
			l.SidesKnown = true
		}
	}
	return l
}
