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
	base    float64
	coupler float64
	axle    int // the mover that takes the axle group along; −1: none
	points  []movablePoint
	listed  bool      // states were listed; else all corners
	states  []float64 // of each state the varying masses, in the order of points
	sums    []sums3   // of each state
	rows    []row
	mass    float64 // greatest total, the scale of a row

	room  []point
	moved []float64 // of each state what every mover takes along
}

// sums3 are the sums over all masses of a state that a limit is made of.
type sums3 struct{ m, mx, my float64 }

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
	m := new(movable)
	errs := m.set(t, fixed, varying, states)
	errs = append(errs, m.move(movers)...)
	errs = append(errs, limits.check(t, m.hasY())...)
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	if err := m.weigh(); err != nil {
		return nil, err
	}
	m.rows = t.rows(nil, limits, float64(t.Track), 0)
	return m, nil
}

// set makes m anew, with the memory it has, but for movers, weights and rows.
func (m *movable) set(t Trailer, fixed []Mass, varying []Varying, states [][]units.Mass) []error {
	s, errs := t.span()
	if t.Track != 0 {
		_, more := t.track()
		errs = append(errs, more...)
	}
	ps, more := points(m.room, fixed)
	errs = append(errs, more...)
	errs = append(errs, checkVarying(varying)...)
	*m = movable{base: s.base, coupler: s.coupler, axle: -1, listed: states != nil, points: m.points[:0], states: m.states[:0], sums: m.sums[:0], rows: m.rows[:0], room: ps, moved: m.moved[:0]}
	for i := range ps {
		m.points = append(m.points, movablePoint{ps[i], ps[i].m, ps[i].m, -1, -1})
	}
	for i := range varying {
		v := &varying[i]
		p := point{name: v.Name, x: float64(v.X.Length()), y: float64(v.Y.Length()), hasY: v.Y.Given()}
		m.points = append(m.points, movablePoint{p, float64(v.Least), float64(v.Most), -1, i})
	}
	sortInPlace(m.points[len(ps):], func(a, b *movablePoint) int { return compareNamed(&varying[a.listed], &varying[b.listed]) })
	for i := range m.points {
		m.points[i].x -= s.coupler
	}
	for i, list := range states {
		if len(list) != len(varying) {
			errs = append(errs, &units.FieldError{Path: fmt.Sprintf("states[#%d]", i+1), Value: fmt.Sprintf("%d masses", len(list)), Want: fmt.Sprintf("%d, one for each varying mass", len(varying)), Err: units.ErrConflict})
			continue
		}
		for _, p := range m.points[len(ps):] {
			if !fitMass(list[p.listed]) {
				errs = checkMass(errs, fmt.Sprintf("states[#%d][#%d]", i+1, p.listed+1), list[p.listed])
			}
			m.states = append(m.states, float64(list[p.listed]))
		}
	}
	if errs != nil {
		return errs
	}
	for i := range states {
		var sum sums3
		for j := range m.points {
			p := &m.points[j]
			w := m.in(i, j)
			sum.m += w
			sum.mx += w * p.x
			sum.my += w * p.y
		}
		m.sums = append(m.sums, sum)
	}
	return nil
}

// in returns the mass of a point in a listed state.
func (m *movable) in(state, i int) float64 {
	if fixed := len(m.room); i >= fixed {
		return m.states[state*(len(m.points)-fixed)+i-fixed]
	}
	return m.points[i].m
}

// hasY reports whether everything that weighs has Y.
func (m *movable) hasY() bool {
	for i := range m.points {
		if p := &m.points[i]; !p.hasY && p.most != 0 {
			return false
		}
	}
	return true
}

// weigh finds the greatest total, and refuses one that can be zero.
func (m *movable) weigh() error {
	least := 0.0
	for i := range m.points {
		least += m.points[i].least
		m.mass += m.points[i].most
	}
	for i := range m.sums {
		if i == 0 {
			least = m.sums[i].m
		}
		least = min(least, m.sums[i].m)
		m.mass = max(m.mass, m.sums[i].m)
	}
	if least <= 0 {
		return &units.FieldError{Path: "masses", Value: "0 kg in all", Want: "more than 0 kg in every state", Err: units.ErrRange}
	}
	return nil
}

// move ties the points to the movers that carry them.
func (m *movable) move(movers []Mover) (errs []error) {
	m.axle = -1
	for i := range m.points {
		m.points[i].mover = -1
	}
	for k := range movers {
		if m.tie(k, &movers[k]) {
			continue
		}
		errs = append(errs, m.wrong(movers, k)...)
	}
	n := len(movers)
	m.moved = m.moved[:0]
	if len(errs) > 0 {
		return errs
	}
	for s := range m.sums {
		for range n {
			m.moved = append(m.moved, 0)
		}
		for i := range m.points {
			if k := m.points[i].mover; k >= 0 {
				m.moved[s*n+k] += m.in(s, i)
			}
		}
	}
	return errs
}

// tie ties the points that a mover takes along to it; ok is false where there is
// something to report.
func (m *movable) tie(k int, v *Mover) (ok bool) {
	ok = v.Forward >= 0 && v.Forward <= maxPosition && v.Back >= 0 && v.Back <= maxPosition && v.Cost >= 0 && v.Cost <= 1e9
	if v.Axle {
		ok = ok && m.axle < 0 && m.base-float64(v.Forward) >= 0.1
		m.axle = k
	}
	ok = ok && (v.Axle || len(v.Masses) > 0)
	for _, name := range v.Masses {
		found := false
		for i := range m.points {
			p := &m.points[i]
			if p.name != name {
				continue
			}
			ok = ok && (p.mover < 0 || p.mover == k)
			found, p.mover = true, k
		}
		ok = ok && found
	}
	return ok
}

// wrong says what is wrong with a mover.
func (m *movable) wrong(movers []Mover, k int) (errs []error) {
	v := &movers[k]
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
		if slices.ContainsFunc(movers[:k], func(v Mover) bool { return v.Axle }) {
			errs = append(errs, &units.FieldError{Path: at + ".axle", Want: "one mover that takes the axle group along", Err: units.ErrConflict})
		}
		if !(m.base-float64(v.Forward) >= 0.1) {
			errs = append(errs, &units.FieldError{Path: at + ".forward", Value: v.Forward.String(), Want: "an axle group at least 0.1 m aft of the coupler", Err: units.ErrConflict})
		}
	} else if len(v.Masses) == 0 {
		errs = append(errs, &units.FieldError{Path: at + ".masses", Want: "names of masses, or the axle group", Err: units.ErrMissing})
	}
	for _, name := range v.Masses {
		switch {
		case !slices.ContainsFunc(m.points, func(p movablePoint) bool { return p.name == name }):
			errs = append(errs, &units.FieldError{Path: at + ".masses", Value: name, Want: "the name of a fixed or varying mass", Err: units.ErrRange})
		case slices.ContainsFunc(movers[:k], func(v Mover) bool { return slices.Contains(v.Masses, name) }):
			errs = append(errs, &units.FieldError{Path: at + ".masses", Value: name, Want: "a mass that no other mover takes along", Err: units.ErrConflict})
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
	if !m.listed {
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
	for s := range m.sums {
		if v := m.at(r, s, d); v < least {
			best, least = s, v
		}
	}
	m.stateLine(r, best, len(d), l)
	return l.value(d) / m.mass
}

// at returns the value of a limit in a listed state with shifts d.
func (m *movable) at(r *row, state int, d []float64) float64 {
	sum := &m.sums[state]
	a, moment, base := r.c+sum.m*r.p+sum.my*r.r, sum.mx, m.base
	for k, x := range d {
		moment += m.moved[state*len(d)+k] * x
	}
	if m.axle >= 0 {
		base += d[m.axle]
	}
	return a*base + r.q*moment
}

// stateLine sets l to a limit in a listed state.
func (m *movable) stateLine(r *row, state, movers int, l *line) {
	l.clear(movers)
	sum := &m.sums[state]
	a := r.c + sum.m*r.p + sum.my*r.r
	for k := range l.k {
		l.k[k] = r.q * m.moved[state*movers+k]
	}
	l.c = a*m.base + r.q*sum.mx
	if m.axle >= 0 {
		l.k[m.axle] += a
	}
	l.at = Case{Limit: r.name, On: r.on, State: state + 1}
}

// clear makes room for the shifts of some movers.
func (l *line) clear(movers int) {
	if cap(l.k) < movers {
		l.k = make([]float64, movers)
	}
	l.k = l.k[:movers]
	clear(l.k)
}

// line sets l to a limit with given masses.
func (m *movable) line(r *row, movers int, l *line, mass func(i int) float64) {
	l.clear(movers)
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
