package statics

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// StaticStabilityFactor returns half the track over the height of the centre of
// mass.
//
//	SSF = T/(2·h)
//
// It is the lateral acceleration, as a share of gravity, at which a rigid body on
// a rigid suspension begins to tip, and the tangent of the side slope at which it
// does.
//
// Errors: track or height missing or outside 0 to 10 m.
//
// Source: U.S. National Highway Traffic Safety Administration, rulemaking on
// rollover resistance (49 CFR part 575), chapter V: half the track width over the
// height of the centre of gravity.
func StaticStabilityFactor(track, height units.Length) (units.Ratio, error) {
	var errs []error
	for _, c := range [...]struct {
		path string
		l    units.Length
	}{{"track", track}, {"height", height}} {
		switch {
		case c.l == 0:
			errs = append(errs, &units.FieldError{Path: c.path, Want: "more than 0 m", Err: units.ErrMissing})
		case !(c.l >= 1e-3 && c.l <= 10):
			errs = append(errs, &units.FieldError{Path: c.path, Value: c.l.String(), Want: "0.001 m to 10 m", Err: units.ErrRange})
		}
	}
	if err := errors.Join(errs...); err != nil {
		return 0, err
	}
	return units.Ratio(float64(track) / (2 * float64(height))), nil
}

// A Filling is a tank whose level lies anywhere between two levels; equal levels
// are one known fill.
type Filling struct {
	Tank        Tank
	Least, Most units.Ratio
}

// A Side is left or right.
type Side int

const (
	Left  Side = iota + 1 // +Y
	Right                 // −Y
)

// String returns "left" or "right".
func (s Side) String() string {
	switch s {
	case Left:
		return "left"
	case Right:
		return "right"
	}
	return "no side"
}

// Stability is the worst of the fills a trailer can be in.
type Stability struct {
	Threshold units.Acceleration // lateral acceleration at which the inner wheels lift
	SideSlope units.Angle        // slope on which it tips at rest: its tangent is Threshold in g
	Side      Side               // over which it goes
	Above     bool               // it does not tip up to the 10 g searched, which Threshold then is

	// The fill it occurs at: the level of each tank as listed, and the corner of
	// the varying masses.
	Levels []units.Ratio
	At     Corner

	// What the same fill does at rest.
	Height units.Length // of the centre of mass
	Factor units.Ratio  // static stability factor, track/(2·Height)
}

const mostG = 10 // g, end of the search for a threshold

// Rollover returns the least lateral acceleration that lifts the inner wheels,
// over every fill between the given levels and every value of the varying masses,
// with the liquid where it has come to rest at that acceleration.
//
// Moments about the line of the outer wheels, per unit of gravity:
//
//	F(a) = Σ m·[T/2 ∓ y − a·z] + Σ_tanks m·[T/2 ∓ y − Δ(a) − a·(z + δ(a))] = 0
//
// T is the track, Δ the shift of the liquid's centre to the low side and δ its
// rise ([Vessel.Tilted] with tan θ = a), both less the share that Baffles hold
// back. A hitched trailer turns about the line from the ball to the outer wheel
// instead; if the trailer has a CouplerHeight h_c, a mass at the share
// u = (x − x_c)/(x_a − x_c) of the way to the axles counts with
//
//	T/2·u ∓ y − a·(z − h_c·(1 − u))
//
// which lowers the threshold of a rigid trailer with tongue share s and centre
// height h to T·(1 − s)/(2·(h − s·h_c)).
//
// Steady cornering on a level road, or standing on a side slope: both incline
// gravity to the deck alike. Suspension and tyres are taken as stiff and the
// liquid as calm; a sway, a kerb or a sudden swerve tips sooner.
//
// The worst fill is often a part fill and is searched, not taken from corners.
// For a fixed acceleration F is a sum of one function a tank, so each tank is
// minimised by itself (every valley of a grid of 64 steps refined), and the
// varying masses, linear, at an end. The threshold is then refined from above:
// solve F = 0 at the last worst fill, seek the worst fill at that acceleration,
// until F there is no longer negative. F falls as a grows, because the liquid is
// where its energy is least: its shift and a times its height together only grow.
//
// Errors: those of [Balance] and [Tank.Load]; no track; a mass of more than zero
// without Y or Z; a tank without Vessel or Floor.
func Rollover(t Trailer, fixed []Mass, varying []Varying, tanks []Filling) (Stability, error) {
	r, err := newRoller(t, fixed, varying, tanks)
	if err != nil {
		return Stability{}, err
	}
	best := r.search(Left)
	if r.lopsided {
		if right := r.search(Right); right.Threshold < best.Threshold {
			best = right
		}
	}
	return best, nil
}

// roller holds a trailer in the form moments about a tilting axis need.
type roller struct {
	half     float64 // T/2
	hc       float64 // height of the ball; 0: turn about the wheel line
	hitched  bool
	lopsided bool // some y is not zero
	fixed    arm  // summed
	mass     float64
	mz       float64 // Σ m·z at rest of the fixed masses
	vary     []varyArm
	tanks    []tankArm // in the order of names
}

// arm is what turns about the axis: hold·1 − y·(±1) − a·tip.
type arm struct{ hold, y, tip float64 }

type varyArm struct {
	arm         // of one kilogram
	z           float64
	least, most float64
	listed      int
}

type tankArm struct {
	name        string
	arm         // of one kilogram, tip at the inside floor
	floor       float64
	free        float64 // 1 − baffles
	section     section
	scale       float64 // volume of the form for a kilogram of liquid, m³/kg
	least, most float64 // kg
	least0      float64 // heel, kg
	span        float64 // usable, kg
	listed      int
}

func newRoller(t Trailer, fixed []Mass, varying []Varying, tanks []Filling) (*roller, error) {
	var errs []error
	s, more := t.span()
	errs = append(errs, more...)
	track, more := t.track()
	errs = append(errs, more...)
	if t.CouplerHeight != 0 && !(t.CouplerHeight > 0 && t.CouplerHeight <= 3) {
		errs = append(errs, &units.FieldError{Path: "trailer.coupler_height", Value: t.CouplerHeight.String(), Want: "more than 0 m, at most 3 m", Err: units.ErrRange})
	}
	ps, more := points(fixed)
	errs = append(errs, more...)
	errs = append(errs, checkVarying(varying)...)
	lack := func(list string, i int, name string, hasY, hasZ bool) {
		for _, c := range [...]struct {
			has        bool
			path, want string
		}{{hasY, ".y", "distance left of the centreline"}, {hasZ, ".z", "height above ground"}} {
			if !c.has {
				errs = append(errs, &units.FieldError{Path: element(list, i, name) + c.path, Want: c.want, Err: units.ErrMissing})
			}
		}
	}
	for i, m := range fixed {
		if m.Mass != 0 {
			lack("masses", i, m.Name, m.Y.Given(), m.Z.Given())
		}
	}
	for i, v := range varying {
		if v.Most != 0 {
			lack("varying", i, v.Name, v.Y.Given(), v.Z.Given())
		}
	}
	r := &roller{half: track / 2, hc: float64(t.CouplerHeight), hitched: t.CouplerHeight != 0}
	for i, f := range tanks {
		k, err := newTankArm(f)
		if err != nil {
			errs = append(errs, units.At(element("tanks", i, f.Tank.Name), err))
			continue
		}
		k.listed = i
		k.arm = r.arm(s, float64(f.Tank.X.Length()), float64(f.Tank.Y.Length()), k.floor)
		r.lopsided = r.lopsided || k.y != 0
		r.tanks = append(r.tanks, k)
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	for _, p := range ps {
		a := r.arm(s, p.x, p.y, p.z)
		r.fixed.hold += p.m * a.hold
		r.fixed.y += p.m * a.y
		r.fixed.tip += p.m * a.tip
		r.mass += p.m
		r.mz += p.m * p.z
		r.lopsided = r.lopsided || p.y != 0 && p.m != 0
	}
	for i, v := range varying {
		y, z := float64(v.Y.Length()), float64(v.Z.Length())
		r.vary = append(r.vary, varyArm{r.arm(s, float64(v.X.Length()), y, z), z, float64(v.Least), float64(v.Most), i})
		r.lopsided = r.lopsided || y != 0 && v.Most != 0
	}
	slices.SortStableFunc(r.vary, func(a, b varyArm) int { return compareNamed(varying[a.listed], varying[b.listed]) })
	slices.SortStableFunc(r.tanks, func(a, b tankArm) int {
		return compareFilling(tanks[a.listed], tanks[b.listed])
	})
	least := r.mass
	for i := range r.vary {
		least += r.vary[i].least
	}
	for i := range r.tanks {
		least += r.tanks[i].least
	}
	if least <= 0 {
		return nil, &units.FieldError{Path: "masses", Value: "0 kg in all", Want: "more than 0 kg with everything at its least", Err: units.ErrRange}
	}
	return r, nil
}

// compareFilling orders tanks by name, then by everything a sum depends on.
func compareFilling(a, b Filling) int {
	return cmp.Or(
		cmp.Compare(a.Tank.Name, b.Tank.Name), cmp.Compare(a.Tank.X.Length(), b.Tank.X.Length()),
		cmp.Compare(a.Tank.Y.Length(), b.Tank.Y.Length()), cmp.Compare(a.Tank.Floor.Length(), b.Tank.Floor.Length()),
		cmp.Compare(a.Tank.Nominal, b.Tank.Nominal), cmp.Compare(a.Tank.Density, b.Tank.Density),
		cmp.Compare(a.Most, b.Most), cmp.Compare(a.Least, b.Least),
	)
}

func newTankArm(f Filling) (tankArm, error) {
	t := f.Tank
	var errs []error
	if t.Vessel.Shape == 0 {
		errs = append(errs, &units.FieldError{Path: "vessel", Want: "inside form of the tank", Err: units.ErrMissing})
	}
	for _, c := range [...]struct {
		p          units.Position
		path, want string
	}{{t.X, "x", "distance aft of the coupler"}, {t.Y, "y", "distance left of the centreline"}, {t.Floor, "floor", "height of the inside floor above ground"}} {
		if !c.p.Given() {
			errs = append(errs, &units.FieldError{Path: c.path, Want: c.want, Err: units.ErrMissing})
		} else if c.path != "floor" {
			errs = checkPosition(errs, c.path, c.p)
		}
	}
	if err := errors.Join(errs...); err != nil {
		return tankArm{}, err
	}
	v, err := t.Range(f.Least, f.Most)
	if err != nil {
		return tankArm{}, err
	}
	nominal, err := t.nominal()
	if err != nil {
		return tankArm{}, err
	}
	k := tankArm{
		name: t.Name, floor: float64(t.Floor.Length()), free: 1 - float64(t.Baffles),
		section: t.Vessel.section(Sideways), least: float64(v.Least), most: float64(v.Most),
	}
	k.scale = k.section.capacity() / (float64(nominal) * float64(t.Density))
	usable, _ := t.usable()
	k.least0 = float64(t.Heel) * float64(t.Density)
	k.span = float64(usable) * float64(t.Density)
	return k, nil
}

// arm returns the arms of one kilogram at a place.
func (r *roller) arm(s span, x, y, z float64) arm {
	if !r.hitched {
		return arm{r.half, y, z}
	}
	u := (x - s.coupler) / s.base
	return arm{r.half * u, y, z - r.hc*(1-u)}
}

// holds returns what m kilograms in a tank hold against tipping at a.
func (k *tankArm) holds(m, a, sign float64) float64 {
	v := m * k.scale
	s, z := k.section.tilted(v, a)
	if k.free < 1 {
		_, rest := k.section.level(v)
		s, z = k.free*s, rest+k.free*(z-rest)
	}
	return m * (k.hold - sign*k.y - s - a*(k.tip+z))
}

// fill is one value for each varying mass (at which end) and each tank.
type fill struct {
	at   Corner
	tank []float64 // kg, in the order of r.tanks
}

// holds returns F at a fill.
func (r *roller) holds(f *fill, a, sign float64) float64 {
	sum := r.fixed.hold - sign*r.fixed.y - a*r.fixed.tip
	for i := range r.vary {
		v := &r.vary[i]
		m := v.least
		if f.at.Most(v.listed) {
			m = v.most
		}
		sum += m * (v.hold - sign*v.y - a*v.tip)
	}
	for i := range r.tanks {
		sum += r.tanks[i].holds(f.tank[i], a, sign)
	}
	return sum
}

// worst sets f to the fill that holds least at a.
func (r *roller) worst(f *fill, a, sign float64) {
	f.at = 0
	for i := range r.vary {
		if v := &r.vary[i]; v.most > v.least && v.hold-sign*v.y-a*v.tip < 0 {
			f.at |= 1 << v.listed
		}
	}
	for i := range r.tanks {
		k := &r.tanks[i]
		f.tank[i] = lowest(func(m float64) float64 { return k.holds(m, a, sign) }, k.least, k.most)
	}
}

func (r *roller) search(side Side) Stability {
	sign := 1.0
	if side == Right {
		sign = -1
	}
	f := fill{tank: make([]float64, len(r.tanks))}
	next := fill{tank: make([]float64, len(r.tanks))}
	st := Stability{Side: side, Threshold: mostG * units.StandardGravity}
	a := float64(mostG)
	r.worst(&f, a, sign)
	if r.holds(&f, a, sign) > 0 {
		st.Above = true
	} else {
		for range 50 {
			if r.holds(&f, 0, sign) <= 0 {
				a = 0 // tips standing still
				break
			}
			b, _, err := root.Bracketed(func(a float64) float64 { return r.holds(&f, a, sign) }, 0, a, 1e-13)
			if err != nil {
				break // not reached: F(0) > 0 and F(a) ≤ 0 at this fill
			}
			a = b
			r.worst(&next, a, sign)
			if !(r.holds(&next, a, sign) < -1e-12*(r.mass+1)) {
				break
			}
			f, next = next, f
		}
		st.Threshold = units.Acceleration(a) * units.StandardGravity
	}
	st.SideSlope = units.Angle(math.Atan(a))
	st.At = f.at
	st.Levels = make([]units.Ratio, len(r.tanks))
	m, mz := r.mass, r.mz
	for i := range r.vary {
		v := &r.vary[i]
		w := v.least
		if f.at.Most(v.listed) {
			w = v.most
		}
		m += w
		mz += w * v.z
	}
	for i := range r.tanks {
		k := &r.tanks[i]
		w := f.tank[i]
		_, rest := k.section.level(w * k.scale)
		m += w
		mz += w * (k.floor + rest)
		if k.span > 0 {
			st.Levels[k.listed] = units.Ratio(min(max((w-k.least0)/k.span, 0), 1))
		}
	}
	st.Height = units.Length(mz / m)
	if mz > 0 {
		st.Factor = units.Ratio(r.half * m / mz)
	}
	return st
}

// lowest returns where f is least between lo and hi: the best of a grid's points
// and of its valleys, each refined by golden sections.
func lowest(f func(float64) float64, lo, hi float64) float64 {
	best, least := lo, f(lo)
	if !(hi > lo) {
		return best
	}
	const steps = 64
	at := func(i int) float64 {
		if i == steps {
			return hi
		}
		return lo + (hi-lo)*float64(i)/steps
	}
	take := func(x, fx float64) {
		if fx < least {
			best, least = x, fx
		}
	}
	before, here := math.Inf(1), least
	for i := range steps + 1 {
		after := math.Inf(1)
		if i < steps {
			after = f(at(i + 1))
			take(at(i+1), after)
		}
		if here <= before && here <= after {
			take(golden(f, at(max(i-1, 0)), at(min(i+1, steps))))
		}
		before, here = here, after
	}
	return best
}

// golden narrows a valley of f between lo and hi to 1e-7 of its width, where f
// itself is settled to 1e-14.
func golden(f func(float64) float64, lo, hi float64) (x, fx float64) {
	const g = 0.6180339887498949 // (√5 − 1)/2
	width := hi - lo
	a, b := hi-g*(hi-lo), lo+g*(hi-lo)
	fa, fb := f(a), f(b)
	for hi-lo > 1e-7*width {
		if fa <= fb {
			hi, b, fb = b, a, fa
			a = hi - g*(hi-lo)
			fa = f(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + g*(hi-lo)
			fb = f(b)
		}
	}
	if fa <= fb {
		return a, fa
	}
	return b, fb
}
