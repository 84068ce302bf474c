package statics

import (
	"cmp"
	"errors"
	"fmt"
	"math/bits"
	"strings"

	"example.com/washrig/units"
)

// A Varying is a mass that takes every value between Least and Most while its
// centre stays where it is: the water of a tank, fuel between full and what is
// left at night, a reel whose hose is out or in, a part nobody has weighed.
// Two tanks joined by an open crossover are one Varying, at their common centre.
type Varying struct {
	Name        string
	Least, Most units.Mass
	X           units.Position // aft of the coupler; required
	Y, Z        units.Position // optional
}

// A Corner is one combination of ends of the varying masses: bit i is set where
// the i-th of the list, as the caller listed it, is at Most. A mass that does not
// matter, or does not vary, is given at Least.
type Corner uint64

// maxVarying is the number of bits in a Corner.
const maxVarying = 64

// Most reports whether the i-th varying mass is at Most in this corner.
func (c Corner) Most(i int) bool { return c>>i&1 == 1 }

// Text names the corner: "fresh most, recovered least".
func (c Corner) Text(varying []Varying) string {
	var b strings.Builder
	for i, v := range varying {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(v.Name)
		if c.Most(i) {
			b.WriteString(" most")
		} else {
			b.WriteString(" least")
		}
	}
	return b.String()
}

// A Bound is an extreme value and the corner it occurs at.
type Bound[Q units.Mass | units.Ratio] struct {
	Value Q
	At    Corner
}

// A Band is the least and the most a quantity takes.
type Band[Q units.Mass | units.Ratio] struct{ Least, Most Bound[Q] }

// Extremes are the least and greatest loads over every combination of the
// varying masses, in between as well as at the ends.
type Extremes struct {
	Total  Band[units.Mass]
	Tongue Band[units.Mass]
	Share  Band[units.Ratio] // tongue share of the total
	Group  Band[units.Mass]
	Axle   Band[units.Mass] // each axle of an equalised group

	// The two sides of the group, and one tyre: Tyre.Most on whichever side is
	// then the heavier, Tyre.Least on the lighter. SidesKnown: every mass has Y
	// and there is a track.
	Left, Right, Tyre Band[units.Mass]
	SidesKnown        bool

	// Lean is left minus right as a share of the group, (Left − Right)/Group.
	// LeanKnown: SidesKnown, and the group always carries something.
	Lean      Band[units.Ratio]
	LeanKnown bool
}

// Corners returns the extremes of the loads over all values of the varying masses.
//
// Total, tongue, group and axle are linear in each mass, so each has its extremes
// where every mass sits at the end its own coefficient points to.
//
// The tongue share is a ratio of two linear functions. With all masses but one
// held, it is (A + n·m)/(B + m), whose derivative (n·B − A)/(B + m)² keeps one
// sign: it rises or falls over the whole interval, so an interior point can be
// moved to one end without loss, one mass after another, until a corner is
// reached. At the greatest share λ every mass whose own share n = (x_a − x)/(x_a − x_c)
// exceeds λ is at Most and every other at Least; the solver repeats that choice
// from the last λ until it stops growing (Dinkelbach's method), which takes at
// most one pass more than there are masses, since λ only grows and so the set at
// Most only shrinks. No corner is enumerated: 64 masses cost 64 times one.
//
// Errors: those of [Balance]; Least above Most; more than 64 varying masses; a
// total that can be zero.
func Corners(t Trailer, fixed []Mass, varying []Varying) (Extremes, error) {
	e, err := NewEnvelope(t, fixed, varying)
	if err != nil {
		return Extremes{}, err
	}
	return e.Extremes(), nil
}

// An Envelope is a trailer with fixed and varying masses, checked and summed
// once, for questions asked again and again. It is never changed after
// [NewEnvelope] and may be used by several goroutines, unless it is set anew.
type Envelope struct {
	span  span
	axles int
	ends  int     // tyres on one side
	track float64 // 0: unknown
	fixed sums
	vary  []varying // in the order of names
	room  []point
}

type varying struct {
	point
	least, most   float64
	tongue, group float64 // own shares 1 − u and u
	listed        int     // place in the caller's list
}

// NewEnvelope checks and prepares; see [Corners] for the errors.
func NewEnvelope(t Trailer, fixed []Mass, list []Varying) (*Envelope, error) {
	e := new(Envelope)
	if err := e.Set(t, fixed, list); err != nil {
		return nil, err
	}
	return e, nil
}

// Set is [NewEnvelope] in the memory that e has from the last trailer. After an error
// e answers nothing until it is set again.
func (e *Envelope) Set(t Trailer, fixed []Mass, list []Varying) error {
	s, errs := t.span()
	ps, more := points(e.room, fixed)
	errs = append(errs, more...)
	track := 0.0
	if t.Track != 0 {
		track, more = t.track()
		errs = append(errs, more...)
	}
	errs = append(errs, checkVarying(list)...)
	if err := errors.Join(errs...); err != nil {
		*e = Envelope{}
		return err
	}
	*e = Envelope{span: s, axles: t.Axles, ends: t.ends(), track: track, vary: e.vary[:0], room: ps}
	for i := range ps {
		e.fixed.add(s, &ps[i])
	}
	total := e.fixed.w
	for i := range list {
		v := &list[i]
		p := point{
			name: v.Name, m: float64(v.Most),
			x: float64(v.X.Length()), y: float64(v.Y.Length()), z: float64(v.Z.Length()),
			hasY: v.Y.Given(), hasZ: v.Z.Given(),
		}
		e.vary = append(e.vary, varying{
			point: p, least: float64(v.Least), most: float64(v.Most), listed: i,
			tongue: (s.group - p.x) / s.base, group: (p.x - s.coupler) / s.base,
		})
		total += float64(v.Least)
	}
	if total <= 0 {
		*e = Envelope{}
		return &units.FieldError{Path: "fixed", Value: "0 kg in all", Want: "more than 0 kg with every varying mass at its least", Err: units.ErrRange}
	}
	sortInPlace(e.vary, func(a, b *varying) int { return compareNamed(&list[a.listed], &list[b.listed]) })
	return nil
}

// compareNamed orders varying masses by name, then by everything else.
func compareNamed(a, b *Varying) int {
	if c := cmp.Compare(a.Name, b.Name); c != 0 {
		return c
	}
	return cmp.Or(
		cmp.Compare(a.X.Length(), b.X.Length()), cmp.Compare(a.Y.Length(), b.Y.Length()),
		cmp.Compare(a.Z.Length(), b.Z.Length()), cmp.Compare(a.Most, b.Most), cmp.Compare(a.Least, b.Least),
	)
}

func checkVarying(list []Varying) (errs []error) {
	if len(list) > maxVarying {
		errs = append(errs, &units.FieldError{Path: "varying", Value: fmt.Sprint(len(list)), Want: fmt.Sprintf("at most %d", maxVarying), Err: units.ErrRange})
	}
	for i := range list {
		v := &list[i]
		if fitMass(v.Least) && fitMass(v.Most) && v.Least <= v.Most && fitPlace(v.X, v.Y, v.Z) {
			continue
		}
		at := element("varying", i, v.Name)
		n := len(errs)
		errs = checkMass(errs, at+".least", v.Least)
		errs = checkMass(errs, at+".most", v.Most)
		if len(errs) == n && v.Least > v.Most {
			errs = append(errs, &units.FieldError{Path: at + ".least", Value: v.Least.String(), Want: "at most " + v.Most.String(), Err: units.ErrConflict})
		}
		errs = checkPlace(errs, at, v.X, v.Y, v.Z)
	}
	return errs
}

// Extremes returns the extremes over all values of the varying masses; see
// [Corners]. It does not allocate.
func (e *Envelope) Extremes() Extremes {
	var x Extremes
	x.Total.Least, x.Total.Most = e.linear(e.fixed.w, ownTotal)
	x.Tongue.Least, x.Tongue.Most = e.linear(e.fixed.tongue, ownTongue)
	x.Group.Least, x.Group.Most = e.linear(e.fixed.group, ownGroup)
	n := units.Mass(e.axles)
	x.Axle = x.Group
	x.Axle.Least.Value /= n
	x.Axle.Most.Value /= n
	x.Share.Least = e.ratio(e.fixed.tongue, ownTongue, e.fixed.w, ownTotal, -1)
	x.Share.Most = e.ratio(e.fixed.tongue, ownTongue, e.fixed.w, ownTotal, 1)
	if e.track > 0 && !e.lackY() {
		x.SidesKnown = true
		x.Left.Least, x.Left.Most = e.linear(e.fixed.group/2+e.fixed.my/e.track, ownLeft)
		x.Right.Least, x.Right.Most = e.linear(e.fixed.group/2-e.fixed.my/e.track, ownRight)
		x.Tyre = x.Left
		if x.Right.Most.Value > x.Left.Most.Value {
			x.Tyre.Most = x.Right.Most
		}
		if x.Right.Least.Value < x.Left.Least.Value {
			x.Tyre.Least = x.Right.Least
		}
		n := units.Mass(e.ends)
		x.Tyre.Least.Value /= n
		x.Tyre.Most.Value /= n
	}
	if x.SidesKnown && x.Group.Least.Value > 0 {
		k := 2 / e.track
		x.Lean.Least = e.ratio(e.fixed.my*k, ownLean, e.fixed.group, ownGroup, -1)
		x.Lean.Most = e.ratio(e.fixed.my*k, ownLean, e.fixed.group, ownGroup, 1)
		x.LeanKnown = true
	}
	return x
}

func (e *Envelope) lackY() bool {
	lack := e.fixed.lackY
	for i := range e.vary {
		lack = lack || !e.vary[i].hasY && e.vary[i].most > 0
	}
	return lack
}

// own is what one kilogram of a varying mass adds to a quantity.
type own uint8

const (
	ownTotal own = iota
	ownTongue
	ownGroup
	ownLean
	ownLeft
	ownRight
)

func (e *Envelope) own(o own, v *varying) float64 {
	switch o {
	case ownTongue:
		return v.tongue
	case ownGroup:
		return v.group
	case ownLean:
		return 2 * v.y / e.track
	case ownLeft:
		return v.group/2 + v.y/e.track
	case ownRight:
		return v.group/2 - v.y/e.track
	}
	return 1
}

func (e *Envelope) linear(fixed float64, o own) (least, most Bound[units.Mass]) {
	lo, hi := fixed, fixed
	for i := range e.vary {
		v := &e.vary[i]
		k := e.own(o, v)
		a, b := v.least, v.most
		bit := Corner(1) << v.listed
		if a == b {
			bit = 0
		}
		switch {
		case k > 0:
			lo += k * a
			hi += k * b
			most.At |= bit
		case k < 0:
			lo += k * b
			hi += k * a
			least.At |= bit
		}
	}
	least.Value, most.Value = units.Mass(lo), units.Mass(hi)
	return least, most
}

// ratio returns the extreme of (n0 + Σ n·m)/(d0 + Σ d·m) by Dinkelbach's method:
// the greatest for sign +1, the least for sign −1. The denominator is positive at
// every corner.
func (e *Envelope) ratio(n0 float64, on own, d0 float64, od own, sign float64) Bound[units.Ratio] {
	var best Bound[units.Ratio]
	for pass := 0; ; pass++ {
		n, d := n0, d0
		var at Corner
		for i := range e.vary {
			v := &e.vary[i]
			kn, kd := e.own(on, v), e.own(od, v)
			m := v.least
			if pass > 0 && sign*(kn-float64(best.Value)*kd) > 0 && v.most > v.least {
				m = v.most
				at |= 1 << v.listed
			}
			n += kn * m
			d += kd * m
		}
		r := units.Ratio(n / d)
		if pass > 0 && !(sign*float64(r-best.Value) > 0) {
			return best
		}
		best = Bound[units.Ratio]{r, at}
	}
}

// At returns the loads with the varying masses at given values, listed as the
// varying masses were. It does not allocate.
//
// Errors: another number of masses; a mass outside its range. Values outside
// Least to Most are allowed.
func (e *Envelope) At(masses []units.Mass) (Loads, error) {
	if len(masses) != len(e.vary) {
		return Loads{}, &units.FieldError{Path: "masses", Value: fmt.Sprint(len(masses)), Want: fmt.Sprintf("%d, one for each varying mass", len(e.vary)), Err: units.ErrConflict}
	}
	for i, m := range masses {
		if !fitMass(m) {
			return Loads{}, &units.FieldError{Path: fmt.Sprintf("masses[#%d]", i+1), Value: m.String(), Want: fmt.Sprintf("0 kg to %d kg", maxMass), Err: units.ErrRange}
		}
	}
	sum := e.fixed
	for i := range e.vary {
		v := &e.vary[i]
		sum.addMass(e.span, &v.point, float64(masses[v.listed]))
	}
	if sum.w <= 0 {
		return Loads{}, &units.FieldError{Path: "masses", Value: "0 kg in all", Want: "more than 0 kg", Err: units.ErrRange}
	}
	return sum.loads(e.span, e.axles, e.ends, e.track), nil
}

// AtCorner returns the loads at a corner. It does not allocate.
//
// Errors: a corner with a bit beyond the varying masses; a total of zero.
func (e *Envelope) AtCorner(c Corner) (Loads, error) {
	if bits.Len64(uint64(c)) > len(e.vary) {
		return Loads{}, &units.FieldError{Path: "corner", Value: fmt.Sprintf("%b", uint64(c)), Want: fmt.Sprintf("%d bits", len(e.vary)), Err: units.ErrRange}
	}
	sum := e.fixed
	for i := range e.vary {
		v := &e.vary[i]
		m := v.least
		if c.Most(v.listed) {
			m = v.most
		}
		sum.addMass(e.span, &v.point, m)
	}
	return sum.loads(e.span, e.axles, e.ends, e.track), nil
}
