package statics

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"example.com/washrig/units"
)

// A Verdict says for which masses of an unweighed part a limit is kept.
type Verdict int

const (
	Never  Verdict = iota + 1 // not even without it
	UpTo                      // up to a mass
	FromOn                    // from a mass on
	Always                    // whatever it weighs
)

// String returns "never", "up to", "from" or "always".
func (v Verdict) String() string {
	switch v {
	case Never:
		return "never"
	case UpTo:
		return "up to"
	case FromOn:
		return "from"
	case Always:
		return "always"
	}
	return "no verdict"
}

// A Turn is where the verdict of one limit turns as an unweighed part grows heavier.
type Turn struct {
	Verdict Verdict
	Mass    units.Mass // where it turns, for UpTo and FromOn
	Case    Case       // the limit, and the fill that is then the worst
}

// BreakEven returns, limit by limit, the mass of one unweighed part at which the
// verdict turns, in every listed state, or over every value of the varying masses
// if none are listed. The part is given by its place; its Mass is not looked at.
//
// A limit is linear in the masses, c + Σ m·(p + q·u + r·y) ≥ 0, so the worst fill
// of the others does not depend on the part, and the mass at which the limit is
// just met is a quotient. A limit of one tyre has two turns, one for each side.
//
// Several unweighed parts: give the others as varying masses over their plausible
// bands.
//
// Errors: those of [Place]; a part without X.
func BreakEven(t Trailer, fixed []Mass, varying []Varying, states [][]units.Mass, part Mass, limits Limits) ([]Turn, error) {
	var errs []error
	errs = checkPlace(errs, "part", part.X, part.Y, units.Position{})
	for i, r := range limits.Ratings {
		if r.On == OnTyre && !part.Y.Given() {
			errs = append(errs, &units.FieldError{Path: element("ratings", i, r.Name), Want: "y of every mass and the trailer's track", Err: units.ErrMissing})
		}
	}
	m, err := newMovable(t, fixed, varying, states, nil, limits)
	if err = errors.Join(err, errors.Join(errs...)); err != nil {
		return nil, err
	}
	u := float64(part.X.Length()-t.Coupler.Length()) / m.base
	turns := make([]Turn, len(m.rows))
	var l line
	for i := range m.rows {
		r := &m.rows[i]
		rest := m.worst(r, nil, &l) * m.mass / m.base
		k := r.p + r.q*u + r.r*float64(part.Y.Length())
		turns[i] = turn(rest, k, maxMass)
		turns[i].Case = l.at
	}
	return turns, nil
}

// BreakEven calls visit for each limit as [BreakEven] lists them, for the trailer that
// was set, in the listed states from first on to before end. It does not allocate.
//
// Errors: those of BreakEven that are the part's; states that are not listed.
func (p *Placer) BreakEven(part Mass, first, end int, visit func(Turn)) error {
	m := &p.m
	var errs []error
	if !fitPlace(part.X, part.Y, units.Position{}) {
		errs = checkPlace(errs, "part", part.X, part.Y, units.Position{})
	}
	for i := range m.rows {
		if r := &m.rows[i]; r.on == OnTyre && !part.Y.Given() {
			errs = append(errs, &units.FieldError{Path: element("ratings", i, r.name), Want: "y of every mass and the trailer's track", Err: units.ErrMissing})
		}
	}
	if !(first >= 0 && first < end && end <= len(m.sums)) {
		errs = append(errs, &units.FieldError{Path: "states", Value: fmt.Sprint(first, " to ", end), Want: fmt.Sprintf("some of the %d listed", len(m.sums)), Err: units.ErrRange})
	}
	if errs != nil {
		return errors.Join(errs...)
	}
	m.axle, m.moved = -1, m.moved[:0]
	u := (float64(part.X.Length()) - m.coupler) / m.base
	for i := range m.rows {
		r := &m.rows[i]
		worst, least := first, math.Inf(1)
		for s := first; s < end; s++ {
			if v := m.at(r, s, nil); v < least {
				worst, least = s, v
			}
		}
		t := turn(least/m.base, r.p+r.q*u+r.r*float64(part.Y.Length()), maxMass)
		t.Case = Case{Limit: r.name, On: r.on, State: worst + 1}
		visit(t)
	}
	return nil
}

// turn returns for which m ≥ 0 the condition rest + k·m ≥ 0 holds. A turn beyond
// most is none.
func turn(rest, k, most float64) Turn {
	switch {
	case rest >= 0 && (k >= 0 || rest >= -k*most):
		return Turn{Verdict: Always}
	case rest >= 0:
		return Turn{Verdict: UpTo, Mass: units.Mass(rest / -k)}
	case k <= 0 || -rest > k*most:
		return Turn{Verdict: Never}
	}
	return Turn{Verdict: FromOn, Mass: units.Mass(-rest / k)}
}

// A Growth is a tank whose size is open.
type Growth struct {
	Name  string
	Share units.Ratio // of the whole volume that goes into this tank; the shares sum to 1
	X, Y  units.Position

	Density     units.Density // of the liquid
	Shell       units.Density // mass of the shell for its volume; 0: the shell is among the fixed masses
	Least, Most units.Ratio   // levels between which it may be filled; Most 0: full
}

// A GrowthState is one fill of a trailer whose tanks are open in size.
type GrowthState struct {
	Masses []units.Mass  // of the varying masses, as listed
	Levels []units.Ratio // of the open tanks, as listed
}

// A Volumes is the answer to how large the tanks may be.
type Volumes struct {
	Possible    bool
	Least, Most units.Volume // all tanks together
	AtLeast     Case         // what asks for at least that much; no Limit: nothing does
	AtMost      Case         // what allows no more; no Limit: nothing up to 200 m³
}

// MostVolume returns how much water a trailer may be built for: the volumes of its
// open tanks together for which every limit is kept in every listed state, or over
// all levels and all values of the varying masses if none are listed. With the
// ratings of a tow vehicle among the limits it answers how many gallons that
// vehicle allows, and which rating decides.
//
// With V the whole volume, a tank of share f adds V·f·(shell + ρ·level) to the
// masses, so that each limit at each fill is linear in V, and the volumes that pass
// are one interval. A limit that is missed with no tank at all asks for at least a
// volume (a tank ahead of the axles brings the tongue up to its least share), or
// cannot be met. Cases number the open tanks after the varying masses: bit
// len(varying)+i of a [Corner] is the i-th open tank at its most.
//
// Errors: those of [Corners] and [Place] as far as they apply; shares that do not
// sum to 1; a tank without share, density or X; levels the wrong way round.
func MostVolume(t Trailer, fixed []Mass, varying []Varying, tanks []Growth, states []GrowthState, limits Limits) (Volumes, error) {
	var p Placer
	return p.MostVolume(t, fixed, varying, tanks, states, limits)
}

// MostVolume is [MostVolume] in the memory of the Placer. The trailer that was set is
// gone afterwards.
func (p *Placer) MostVolume(t Trailer, fixed []Mass, varying []Varying, tanks []Growth, states []GrowthState, limits Limits) (Volumes, error) {
	m, errs := &p.m, checkGrowth(tanks, len(varying), states, limits)
	p.masses = p.masses[:0]
	for i := range states {
		p.masses = append(p.masses, states[i].Masses)
	}
	masses := p.masses
	if states == nil {
		masses = nil
	}
	more := m.set(t, fixed, varying, masses)
	more = append(more, m.move(nil)...)
	more = append(more, limits.check(t, m.hasY())...)
	err := errors.Join(more...)
	if err == nil {
		err = m.weigh()
	}
	if err = errors.Join(err, errors.Join(errs...)); err != nil {
		*m = movable{}
		return Volumes{}, err
	}
	m.rows = t.rows(m.rows[:0], limits, float64(t.Track), 0)
	out := Volumes{Possible: true, Most: maxVolume}
	p.order = p.order[:0] // sums run in the order of names
	for j := range tanks {
		p.order = append(p.order, j)
	}
	sortInPlace(p.order, func(i, j *int) int {
		a, b := &tanks[*i], &tanks[*j]
		return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.X.Length(), b.X.Length()), cmp.Compare(a.Share, b.Share))
	})
	for i := range m.rows {
		r := &m.rows[i]
		if states == nil {
			rest := m.worst(r, nil, &p.l) * m.mass / m.base
			slope := 0.0
			for _, j := range p.order {
				g := &tanks[j]
				k := g.grows(r, t, m.base)
				level := g.Least
				if k < 0 && g.full() > g.Least {
					level = g.full()
					p.l.at.At |= 1 << (len(varying) + j)
				}
				slope += k * float64(g.Shell+units.Density(level)*g.Density)
			}
			out.take(rest, slope, p.l.at)
			continue
		}
		for s := range states {
			rest := m.at(r, s, nil) / m.base
			slope := 0.0
			for _, j := range p.order {
				g := &tanks[j]
				slope += g.grows(r, t, m.base) * float64(g.Shell+units.Density(states[s].Levels[j])*g.Density)
			}
			out.take(rest, slope, Case{Limit: r.name, On: r.on, State: s + 1})
		}
	}
	if !out.Possible || out.Least > out.Most || out.Most < 0 {
		out.Possible = false
		out.Least, out.Most = 0, 0
	}
	return out, nil
}

// take narrows the volumes to those with rest + slope·V ≥ 0.
func (v *Volumes) take(rest, slope float64, at Case) {
	switch {
	case slope < 0 && units.Volume(rest/-slope) < v.Most:
		v.Most, v.AtMost = units.Volume(max(rest/-slope, -1)), at
	case slope > 0 && units.Volume(-rest/slope) > v.Least:
		v.Least, v.AtLeast = units.Volume(-rest/slope), at
	case slope == 0 && rest < 0:
		v.Possible = false
		v.AtMost = at
	}
}

// grows returns what a kilogram of liquid for each unit of the whole volume adds to a
// limit.
func (g *Growth) grows(r *row, t Trailer, base float64) float64 {
	return float64(g.Share) * (r.p + r.q*float64(g.X.Length()-t.Coupler.Length())/base + r.r*float64(g.Y.Length()))
}

// checkGrowth returns what is wrong with tanks of open size and their states.
func checkGrowth(tanks []Growth, varying int, states []GrowthState, limits Limits) (errs []error) {
	hasY, sum := true, 0.0
	for i := range tanks {
		g := &tanks[i]
		sum += float64(g.Share)
		hasY = hasY && g.Y.Given()
		if g.Share > 0 && g.Share <= 1 && fitPlace(g.X, g.Y, units.Position{}) && g.Density > 0 && g.Density <= maxDensity && g.Shell >= 0 && g.Shell <= maxDensity &&
			g.Most >= 0 && g.Most <= 1 && g.Least >= 0 && g.Least <= g.full() {
			continue
		}
		at := element("tanks", i, g.Name)
		if !(g.Share > 0 && g.Share <= 1) {
			errs = append(errs, &units.FieldError{Path: at + ".share", Value: g.Share.String(), Want: "more than 0 %, at most 100 %", Err: units.ErrRange})
		}
		errs = checkPlace(errs, at, g.X, g.Y, units.Position{})
		for _, e := range (Tank{Density: g.Density}).density() {
			errs = append(errs, units.At(at, e))
		}
		if !(g.Shell >= 0 && g.Shell <= maxDensity) {
			errs = append(errs, &units.FieldError{Path: at + ".shell", Value: g.Shell.String(), Want: "0 to 20000 kg/m³", Err: units.ErrRange})
		}
		if !(g.Most >= 0 && g.Most <= 1) {
			errs = append(errs, &units.FieldError{Path: at + ".most", Value: g.Most.String(), Want: "0 % to 100 %", Err: units.ErrRange})
		} else if !(g.Least >= 0 && g.Least <= g.full()) {
			errs = append(errs, &units.FieldError{Path: at + ".least", Value: g.Least.String(), Want: "0 % to " + g.full().String(), Err: units.ErrRange})
		}
	}
	if len(tanks) == 0 {
		errs = append(errs, &units.FieldError{Path: "tanks", Want: "at least one tank of open size", Err: units.ErrMissing})
	} else if len(errs) == 0 && !(sum >= 1-1e-9 && sum <= 1+1e-9) {
		errs = append(errs, &units.FieldError{Path: "tanks", Value: units.Ratio(sum).String(), Want: "shares that sum to 100 %", Err: units.ErrConflict})
	}
	if varying+len(tanks) > maxVarying {
		errs = append(errs, &units.FieldError{Path: "tanks", Value: fmt.Sprint(len(tanks)), Want: fmt.Sprintf("with the varying masses at most %d", maxVarying), Err: units.ErrRange})
	}
	for i := range states {
		s := &states[i]
		if len(s.Levels) != len(tanks) {
			errs = append(errs, &units.FieldError{Path: fmt.Sprintf("states[#%d].levels", i+1), Value: fmt.Sprint(len(s.Levels)), Want: fmt.Sprintf("%d, one for each open tank", len(tanks)), Err: units.ErrConflict})
		}
		for j, level := range s.Levels {
			if !(level >= 0 && level <= 1) {
				errs = append(errs, &units.FieldError{Path: fmt.Sprintf("states[#%d].levels[#%d]", i+1, j+1), Value: level.String(), Want: "0 % to 100 %", Err: units.ErrRange})
			}
		}
	}
	for i := range limits.Ratings {
		if r := &limits.Ratings[i]; r.On == OnTyre && !hasY {
			errs = append(errs, &units.FieldError{Path: element("ratings", i, r.Name), Want: "y of every mass and the trailer's track", Err: units.ErrMissing})
		}
	}
	return errs
}

// full is the highest level of a tank of open size.
func (g *Growth) full() units.Ratio {
	if g.Most == 0 {
		return 1
	}
	return g.Most
}
