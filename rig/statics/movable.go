package statics

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/washrig/units"
)

// A Mover is something that may be set elsewhere, and how far.
type Mover struct {
	Name          string
	Masses        []string     // names of the fixed and varying masses that go with it
	Axle          bool         // the axle group goes with it
	Forward, Back units.Length // how far it may go either way
	Cost          float64      // of moving it a metre, in any unit; 0: 1
}

// A Case is where a limit is at its worst: at a corner of the varying masses, or in
// one of the states that were listed.
type Case struct {
	Limit string // name of the rating, [NameShareLeast] or [NameShareMost]
	On    On     // load the rating is for; 0: the tongue share
	At    Corner
	State int // from 1 in the order of listing; 0: not from a list, see At
}

// movable is a trailer whose parts may shift, as a set of linear conditions.
//
// With base B = x_a − x_c + d_a and positions X + d from the coupler, a limit times
// B is linear in all shifts d together:
//
//	(c + Σ m·(p + r·y))·B + q·Σ m·(X + d) ≥ 0
//
// also when the axle group itself shifts. For given shifts it is a sum over the
// masses, so its worst corner takes each mass at the end that its own coefficient
// points to.
type movable struct {
	base   float64
	axle   int // the mover that takes the axle group along; −1: none
	points []movablePoint
	states [][]float64 // masses in the order of points; nil: all corners
	rows   []row
	mass   float64 // greatest total, the scale of a row
}

type movablePoint struct {
	point
	least, most float64
	mover       int // −1: stays
	listed      int // −1: fixed
}

// line is one limit at one case: value = c + Σ k·d in kg·m.
type line struct {
	c  float64
	k  []float64
	at Case
}

func newMovable(t Trailer, fixed []Mass, varying []Varying, states [][]units.Mass, movers []Mover, limits Limits) (*movable, error) {
	s, errs := t.span()
	track := 0.0
	if t.Track != 0 {
		var more []error
		track, more = t.track()
		errs = append(errs, more...)
	}
	ps, more := points(fixed)
	errs = append(errs, more...)
	errs = append(errs, checkVarying(varying)...)
	m := &movable{base: s.base, axle: -1, points: make([]movablePoint, 0, len(ps)+len(varying)), states: make([][]float64, 0, len(states))}
	if states == nil {
		m.states = nil
	}
	hasY := true
	for _, p := range ps {
		m.points = append(m.points, movablePoint{p, p.m, p.m, -1, -1})
		hasY = hasY && (p.hasY || p.m == 0)
	}
	order := make([]int, len(varying))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return compareNamed(varying[a], varying[b]) })
	for _, i := range order {
		v := varying[i]
		m.points = append(m.points, movablePoint{point{name: v.Name, x: float64(v.X.Length()), y: float64(v.Y.Length())}, float64(v.Least), float64(v.Most), -1, i})
		hasY = hasY && (v.Y.Given() || v.Most == 0)
	}
	for i := range m.points {
		m.points[i].x -= s.coupler
	}
	for i, list := range states {
		if len(list) != len(varying) {
			errs = append(errs, &units.FieldError{Path: fmt.Sprintf("states[#%d]", i+1), Value: fmt.Sprintf("%d masses", len(list)), Want: fmt.Sprintf("%d, one for each varying mass", len(varying)), Err: units.ErrConflict})
			continue
		}
		state := make([]float64, len(m.points))
		for j, p := range m.points {
			state[j] = p.most
			if p.listed >= 0 {
				state[j] = float64(list[p.listed])
				if !fitMass(list[p.listed]) {
					errs = checkMass(errs, fmt.Sprintf("states[#%d][#%d]", i+1, p.listed+1), list[p.listed])
				}
			}
		}
		m.states = append(m.states, state)
	}
	errs = append(errs, m.move(movers)...)
	errs = append(errs, limits.check(t, hasY)...)
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	least := 0.0
	for _, p := range m.points {
		least += p.least
		m.mass += p.most
	}
	for i, state := range m.states {
		sum := 0.0
		for _, v := range state {
			sum += v
		}
		if i == 0 {
			least = sum
		}
		least = min(least, sum)
		m.mass = max(m.mass, sum)
	}
	if least <= 0 {
		return nil, &units.FieldError{Path: "masses", Value: "0 kg in all", Want: "more than 0 kg in every state", Err: units.ErrRange}
	}
	m.rows = t.rows(limits, track, 0)
	return m, nil
}

// move ties the points to the movers that carry them.
func (m *movable) move(movers []Mover) (errs []error) {
	for k, v := range movers {
		at := element("movers", k, v.Name)
		for _, d := range [...]struct {
			path string
			l    units.Length
		}{{".forward", v.Forward}, {".back", v.Back}} {
			if !(d.l >= 0 && d.l <= maxPosition) {
				errs = append(errs, &units.FieldError{Path: at + d.path, Value: d.l.String(), Want: fmt.Sprintf("0 m to %d m", maxPosition), Err: units.ErrRange})
			}
		}
		if !(v.Cost >= 0 && v.Cost <= 1e9) {
			errs = append(errs, &units.FieldError{Path: at + ".cost", Value: fmt.Sprint(v.Cost), Want: "0 to 1e9", Err: units.ErrRange})
		}
		if v.Axle {
			if m.axle >= 0 {
				errs = append(errs, &units.FieldError{Path: at + ".axle", Want: "one mover that takes the axle group along", Err: units.ErrConflict})
			}
			m.axle = k
			if !(m.base-float64(v.Forward) >= 0.1) {
				errs = append(errs, &units.FieldError{Path: at + ".forward", Value: v.Forward.String(), Want: "an axle group at least 0.1 m aft of the coupler", Err: units.ErrConflict})
			}
		}
		if !v.Axle && len(v.Masses) == 0 {
			errs = append(errs, &units.FieldError{Path: at + ".masses", Want: "names of masses, or the axle group", Err: units.ErrMissing})
		}
		for _, name := range v.Masses {
			found := false
			for i := range m.points {
				p := &m.points[i]
				if p.name != name {
					continue
				}
				found = true
				if p.mover >= 0 && p.mover != k {
					errs = append(errs, &units.FieldError{Path: at + ".masses", Value: name, Want: "a mass that no other mover takes along", Err: units.ErrConflict})
				}
				p.mover = k
			}
			if !found {
				errs = append(errs, &units.FieldError{Path: at + ".masses", Value: name, Want: "the name of a fixed or varying mass", Err: units.ErrRange})
			}
		}
	}
	return errs
}

// shift returns how far a point has gone.
func (p *movablePoint) shift(d []float64) float64 {
	if p.mover < 0 {
		return 0
	}
	return d[p.mover]
}

// worst sets l to a limit at its worst case with shifts d and returns its value
// there over the scale of the row, in metres.
func (m *movable) worst(r *row, d []float64, l *line) float64 {
	base := m.base
	if m.axle >= 0 {
		base += d[m.axle]
	}
	if m.states == nil {
		at := Case{Limit: r.name, On: r.on}
		m.line(r, len(d), l, func(i int) float64 {
			p := &m.points[i]
			if p.most > p.least && (r.p+r.r*p.y)*base+r.q*(p.x+p.shift(d)) < 0 {
				at.At |= 1 << p.listed
				return p.most
			}
			return p.least
		})
		l.at = at
		return l.value(d) / m.mass
	}
	best, least := 0, math.Inf(1)
	for s, state := range m.states {
		sum := r.c * base
		for i := range m.points {
			p := &m.points[i]
			sum += state[i] * ((r.p+r.r*p.y)*base + r.q*(p.x+p.shift(d)))
		}
		if sum < least {
			best, least = s, sum
		}
	}
	m.line(r, len(d), l, func(i int) float64 { return m.states[best][i] })
	l.at = Case{Limit: r.name, On: r.on, State: best + 1}
	return l.value(d) / m.mass
}

// line sets l to a limit with given masses.
func (m *movable) line(r *row, movers int, l *line, mass func(i int) float64) {
	if cap(l.k) < movers {
		l.k = make([]float64, movers)
	}
	l.k = l.k[:movers]
	clear(l.k)
	a, moment := r.c, 0.0
	for i := range m.points {
		p := &m.points[i]
		w := mass(i)
		a += w * (r.p + r.r*p.y)
		moment += w * p.x
		if p.mover >= 0 {
			l.k[p.mover] += r.q * w
		}
	}
	l.c = a*m.base + r.q*moment
	if m.axle >= 0 {
		l.k[m.axle] += a
	}
}

func (l *line) value(d []float64) float64 {
	sum := l.c
	for i, k := range l.k {
		sum += k * d[i]
	}
	return sum
}

// met is how far, in metres of moment arm at the greatest total, a limit may be
// missed by rounding and still count as kept: a nanometre.
const met = 1e-9
