package statics

import (
	"errors"
	"math"

	"example.com/washrig/units"
)

// A Placement is the answer to where things should stand.
type Placement struct {
	Possible bool
	Shifts   []units.Length // of each mover, aft positive
	Cost     float64        // Σ cost·|shift|
	Binding  []Case         // limits that are just met

	// If it is not possible: Shifts come closest, and every limit would have to
	// give by Short, as a share of itself, for them to pass. Proof names limits
	// and fills that contradict each other within the reach of the movers Stops.
	Short units.Ratio
	Proof []Case
	Stops []string
}

// Place returns the cheapest shifts of the movers that keep every limit, in every
// one of the listed states, or over every value of the varying masses if no states
// are listed; or proves that there are none.
//
//	minimise Σ cost·|d|  with every limit kept and −Forward ≤ d ≤ Back
//
// Multiplied by the distance from coupler to axles, each limit at each fill is a
// linear condition on all shifts together, that of the axle group among them. So
// this is a linear program, and its answer is the least over all shifts, not a
// local one. Limits are brought in only at the fills that are worst with the
// shifts reached so far, until none is missed.
//
// Where no shifts will do, the method ends at a row that is negative whatever the
// movers do: Proof and Stops list the limits, fills and end stops it is made of.
// Short is found by relaxing all limits alike, ratings and the upper share to
// 1 + Short times, the lower share to 1 − Short times, until shifts exist.
//
// Limits count as kept within 1e-9 m of moment arm at the greatest total.
//
// Errors: those of [Corners]; states with another number of masses; a mover that
// moves nothing, or a mass that is not there, or one that another moves; reach or
// cost out of range; no limits; a rating without Most; a tyre rating without sides.
func Place(t Trailer, fixed []Mass, varying []Varying, states [][]units.Mass, movers []Mover, limits Limits) (Placement, error) {
	m, err := newMovable(t, fixed, varying, states, movers, limits)
	if err != nil {
		return Placement{}, err
	}
	p := m.place(movers, m.rows)
	if p.Possible {
		return p, nil
	}
	track := float64(t.Track)
	lo, hi := 0.0, 1.0
	best := m.place(movers, t.rows(nil, limits, track, hi))
	for !best.Possible && hi < 1e9 {
		lo, hi = hi, 2*hi
		best = m.place(movers, t.rows(nil, limits, track, hi))
	}
	for range 100 {
		if hi-lo <= 1e-9*hi {
			break
		}
		mid := lo + (hi-lo)/2
		if q := m.place(movers, t.rows(nil, limits, track, mid)); q.Possible {
			hi, best = mid, q
		} else {
			lo = mid
		}
	}
	p.Short, p.Shifts, p.Cost, p.Binding = units.Ratio(hi), best.Shifts, best.Cost, best.Binding
	return p, nil
}

func (m *movable) place(movers []Mover, rows []row) Placement {
	n := len(movers)
	cost := make([]float64, 2*n) // aft, then forward
	for k, v := range movers {
		c := v.Cost
		if c == 0 {
			c = 1
		}
		cost[k], cost[n+k] = c, c
	}
	lp := newDual(cost)
	cases := make([]Case, 2*n) // of each row; the first are the end stops
	z := make([]float64, 2*n)
	for k, v := range movers {
		for side, reach := range [...]units.Length{v.Back, v.Forward} {
			clear(z)
			z[side*n+k] = -1
			lp.add(float64(reach), z)
		}
	}
	d := make([]float64, n)
	type rowCase struct {
		row int
		at  Case
	}
	seen := map[rowCase]bool{}
	var l line
	for {
		if bad, ok := lp.solve(1e-11); !ok {
			var p Placement
			stop := make([]bool, n)
			for _, v := range bad {
				switch {
				case v < 2*n:
					// z ≥ 0 itself: no stop, it only says which way.
				case v < 4*n:
					stop[(v-2*n)/2] = true
				default:
					p.Proof = append(p.Proof, cases[v-2*n])
				}
			}
			for k, s := range stop {
				if s {
					p.Stops = append(p.Stops, movers[k].Name)
				}
			}
			return p
		}
		for k := range d {
			d[k] = lp.value(k) - lp.value(n+k)
		}
		added := false
		for i := range rows {
			if m.worst(&rows[i], d, &l) >= -met/2 {
				continue
			}
			if seen[rowCase{i, l.at}] {
				continue // missed by rounding alone
			}
			seen[rowCase{i, l.at}] = true
			for k, v := range l.k {
				z[k], z[n+k] = v/m.mass, -v/m.mass
			}
			lp.add(l.c/m.mass, z)
			cases = append(cases, l.at)
			added = true
		}
		if added {
			continue
		}
		p := Placement{Possible: true, Shifts: make([]units.Length, n)}
		for k := range d {
			p.Shifts[k] = units.Length(d[k])
			p.Cost += cost[k] * math.Abs(d[k])
		}
		for i := range rows {
			if m.worst(&rows[i], d, &l) <= met {
				p.Binding = append(p.Binding, l.at)
			}
		}
		return p
	}
}

// A Reach is how far one thing may be moved before a limit is passed.
type Reach struct {
	Possible      bool         // some place within the mover's reach keeps all limits
	Forward, Back units.Length // ends of the passing shifts, aft positive both
	AtForward     Case         // what stops it there; no Limit: the end of its own reach
	AtBack        Case
}

// PassingShifts returns the shifts of one mover, all else staying, that keep every
// limit in every listed state, or over every value of the varying masses if none
// are listed: the live answer to a box dragged along the deck.
//
// Each limit at each fill is linear in the shift, so the shifts that pass are one
// interval: each listed state bounds it at one end. Where all values of the varying
// masses are asked for it is narrowed from both ends by the fill that is worst there
// until none is missed.
//
// Errors: those of [Place].
func PassingShifts(t Trailer, fixed []Mass, varying []Varying, states [][]units.Mass, mover Mover, limits Limits) (Reach, error) {
	var p Placer
	p.mover[0] = mover
	m, err := newMovable(t, fixed, varying, states, p.mover[:], limits)
	if err != nil {
		return Reach{}, err
	}
	p.m = *m
	return p.reach(), nil
}

// A Placer is a trailer checked and summed once for [PassingShifts] of one mover after
// another, for [BreakEven] of some states after others, and for [MostVolume], in memory that it keeps from one question to the next.
// The zero Placer waits for [Placer.Set].
type Placer struct {
	m      movable
	l      line
	mover  [1]Mover
	shift  [1]float64
	masses [][]units.Mass
	order  []int
}

// Set checks and sums a trailer; see [Place] for the errors. After an error the Placer
// answers nothing until it is set again.
func (p *Placer) Set(t Trailer, fixed []Mass, varying []Varying, states [][]units.Mass, limits Limits) error {
	errs := p.m.set(t, fixed, varying, states)
	errs = append(errs, limits.check(t, p.m.hasY())...)
	err := errors.Join(errs...)
	if err == nil {
		err = p.m.weigh()
	}
	if err != nil {
		p.m = movable{}
		return err
	}
	p.m.rows = t.rows(p.m.rows[:0], limits, float64(t.Track), 0)
	return nil
}

// PassingShifts is [PassingShifts] for the trailer that was set. It does not allocate.
//
// Errors: those of [Place] that are the mover's.
func (p *Placer) PassingShifts(mover Mover) (Reach, error) {
	p.mover[0] = mover
	if errs := p.m.move(p.mover[:]); errs != nil {
		return Reach{}, errors.Join(errs...)
	}
	return p.reach(), nil
}

// reach answers PassingShifts for p.mover, which the masses are tied to.
func (p *Placer) reach() Reach {
	m, l, d := &p.m, &p.l, p.shift[:]
	lo, hi := -float64(p.mover[0].Forward), float64(p.mover[0].Back)
	var r Reach
	if m.listed {
		low, high := [2]int{-1, -1}, [2]int{-1, -1} // row and state that bind
		for i := range m.rows {
			row := &m.rows[i]
			for s := range m.sums {
				sum := &m.sums[s]
				a := row.c + sum.m*row.p + sum.my*row.r
				c, k := a*m.base+row.q*sum.mx, row.q*m.moved[s]
				if m.axle >= 0 {
					k += a
				}
				switch {
				case k > 0 && c+k*lo < -met/2*m.mass:
					lo, low = -c/k, [2]int{i, s}
				case k < 0 && c+k*hi < -met/2*m.mass:
					hi, high = -c/k, [2]int{i, s}
				case k == 0 && c < -met/2*m.mass:
					m.stateLine(row, s, 1, l)
					return Reach{AtForward: l.at}
				}
			}
		}
		for _, b := range [...]struct {
			at [2]int
			to *Case
		}{{low, &r.AtForward}, {high, &r.AtBack}} {
			if b.at[0] >= 0 {
				m.stateLine(&m.rows[b.at[0]], b.at[1], 1, l)
				*b.to = l.at
			}
		}
		if lo > hi+1e-9 {
			return r
		}
		r.Possible, r.Forward, r.Back = true, units.Length(lo), units.Length(max(lo, hi))
		return r
	}
	for _, end := range [...]struct {
		x    *float64
		sign float64
		at   *Case
	}{{&lo, 1, &r.AtForward}, {&hi, -1, &r.AtBack}} {
		for {
			d[0] = *end.x
			worst, at := -met/2, -1
			for i := range m.rows {
				if v := m.worst(&m.rows[i], d, l); v < worst {
					worst, at = v, i
				}
			}
			if at < 0 {
				break
			}
			m.worst(&m.rows[at], d, l)
			*end.at = l.at
			if end.sign*l.k[0] <= 0 {
				return r // it only gets worse further in
			}
			*end.x = -l.c / l.k[0]
			if lo > hi+1e-9 {
				return r
			}
		}
	}
	r.Possible, r.Forward, r.Back = true, units.Length(lo), units.Length(max(lo, hi))
	return r
}

// TwoTankSpacing returns how far apart, fore and aft, the centres of two tanks may
// be if the tongue share is to stay between two limits with both full, both empty
// and either alone, the other loads being free within the same limits.
//
//	s = (hi − lo)·x_a·(1 + W/w)
//
// x_a is the distance from coupler to axle group, W the dry mass with fuel, w the
// full liquid of the smaller tank. A layout exists if and only if the spacing is no
// more than s: alone, the front tank may stand so far ahead that the share reaches
// hi, the rear tank so far aft that it reaches lo, and of all dry shares from lo to
// hi the one at the end that favours the smaller tank leaves them furthest apart;
// with both full the share is then between the limits, being a mean of shares that
// are.
//
// A coupler rating, a given dry share or unequal levels are further limits: [Place].
//
// Errors: a share outside 0 to 100 % or lo above hi; distance or masses not
// positive.
func TwoTankSpacing(lo, hi units.Ratio, axle units.Length, dry, smaller units.Mass) (units.Length, error) {
	var errs []error
	if !(lo >= 0 && lo <= 1) {
		errs = append(errs, &units.FieldError{Path: "lo", Value: lo.String(), Want: "0 % to 100 %", Err: units.ErrRange})
	}
	if !(hi >= lo && hi <= 1) {
		errs = append(errs, &units.FieldError{Path: "hi", Value: hi.String(), Want: "from the lower limit to 100 %", Err: units.ErrRange})
	}
	if !(axle >= 0.1 && axle <= maxPosition) {
		errs = append(errs, &units.FieldError{Path: "axle", Value: axle.String(), Want: "0.1 m to 100 m", Err: units.ErrRange})
	}
	for _, c := range [...]struct {
		path string
		m    units.Mass
	}{{"dry", dry}, {"smaller", smaller}} {
		if !(c.m >= 1e-3 && c.m <= maxMass) {
			errs = append(errs, &units.FieldError{Path: c.path, Value: c.m.String(), Want: "0.001 kg to 200000 kg", Err: units.ErrRange})
		}
	}
	if err := errors.Join(errs...); err != nil {
		return 0, err
	}
	return units.Length(float64(hi-lo) * float64(axle) * (1 + float64(dry)/float64(smaller))), nil
}
