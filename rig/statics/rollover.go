package statics

import (
	"cmp"
	"errors"
	"fmt"
	"math"

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
// minimised by itself, and the varying masses, linear, at an end. Of a box the
// function is known piece by piece, with at most two places in each where it does not
// change; of other forms every valley of a grid of 64 steps is refined. The threshold
// is then refined from above: solve F = 0 at the last worst fill by Newton's method
// ([Vessel.Tilted] has dδ/da = a·dΔ/da), seek the worst fill at that acceleration,
// until F there is no longer negative. F falls as a grows, because the liquid is
// where its energy is least: its shift and a times its height together only grow.
//
// Errors: those of [Balance] and [Tank.Load]; no track; a mass of more than zero
// without Y or Z; a tank without Vessel or Floor.
func Rollover(t Trailer, fixed []Mass, varying []Varying, tanks []Filling) (Stability, error) {
	var tip Tipping
	if err := tip.Set(t, fixed, varying, tanks); err != nil {
		return Stability{}, err
	}
	return tip.Worst(), nil
}

// A Tipping is a trailer checked and summed once for [Rollover], for all its fills
// and for single ones, in memory that it keeps from one trailer to the next. The zero
// Tipping waits for [Tipping.Set].
type Tipping struct {
	half     float64 // T/2
	hc       float64 // height of the ball; 0: turn about the wheel line
	hitched  bool
	lopsided bool // some y is not zero
	fixed    arm  // summed
	mass     float64
	mz       float64 // Σ m·z at rest of the fixed masses
	vary     []varyArm
	tanks    []tankArm // in the order of names

	points    []point
	now, next []float64 // of a fill: kg, in the order of tanks
	levels    []units.Ratio
}

// arm is what turns about the axis: hold·1 − y·(±1) − a·tip.
type arm struct{ hold, y, tip float64 }

type varyArm struct {
	arm         // of one kilogram
	z           float64
	least, most float64
	lo, hi      float64 // of the question asked
	listed      int
}

type tankArm struct {
	arm           // of one kilogram, tip at the inside floor
	floor         float64
	free          float64 // 1 − baffles
	section       section
	scale         float64 // volume of the form for a kilogram of liquid, m³/kg
	least, most   float64 // kg
	lo, hi        float64 // kg, of the question asked
	heel          float64 // kg
	span          float64 // usable, kg
	density, heap float64 // kg/m³; heel, m³
	usable        float64 // m³
	listed        int
}

// Set checks and sums a trailer; see [Rollover] for the errors. After an error the
// Tipping answers nothing until it is set again.
func (r *Tipping) Set(t Trailer, fixed []Mass, varying []Varying, tanks []Filling) error {
	s, errs := t.span()
	track, more := t.track()
	errs = append(errs, more...)
	if t.CouplerHeight != 0 && !(t.CouplerHeight > 0 && t.CouplerHeight <= 3) {
		errs = append(errs, &units.FieldError{Path: "trailer.coupler_height", Value: t.CouplerHeight.String(), Want: "more than 0 m, at most 3 m", Err: units.ErrRange})
	}
	r.points, more = points(r.points, fixed)
	errs = append(errs, more...)
	errs = append(errs, checkVarying(varying)...)
	for i := range fixed {
		if m := &fixed[i]; m.Mass != 0 && !(m.Y.Given() && m.Z.Given()) {
			errs = lackPlace(errs, element("masses", i, m.Name), m.Y, m.Z)
		}
	}
	for i := range varying {
		if v := &varying[i]; v.Most != 0 && !(v.Y.Given() && v.Z.Given()) {
			errs = lackPlace(errs, element("varying", i, v.Name), v.Y, v.Z)
		}
	}
	*r = Tipping{half: track / 2, hc: float64(t.CouplerHeight), hitched: t.CouplerHeight != 0,
		vary: r.vary[:0], tanks: r.tanks[:0], points: r.points, now: r.now[:0], next: r.next[:0], levels: r.levels[:0]}
	for i := range tanks {
		f := &tanks[i]
		k, err := newTankArm(f)
		if err != nil {
			errs = append(errs, units.At(element("tanks", i, f.Tank.Name), err))
			continue
		}
		k.listed = i
		k.arm = r.arm(s, float64(f.Tank.X.Length()), float64(f.Tank.Y.Length()), k.floor)
		r.lopsided = r.lopsided || k.y != 0
		r.tanks = append(r.tanks, k)
		r.now, r.next, r.levels = append(r.now, 0), append(r.next, 0), append(r.levels, 0)
	}
	if err := errors.Join(errs...); err != nil {
		*r = Tipping{}
		return err
	}
	for i := range r.points {
		p := &r.points[i]
		a := r.arm(s, p.x, p.y, p.z)
		r.fixed.hold += p.m * a.hold
		r.fixed.y += p.m * a.y
		r.fixed.tip += p.m * a.tip
		r.mass += p.m
		r.mz += p.m * p.z
		r.lopsided = r.lopsided || p.y != 0 && p.m != 0
	}
	for i := range varying {
		v := &varying[i]
		y, z := float64(v.Y.Length()), float64(v.Z.Length())
		r.vary = append(r.vary, varyArm{arm: r.arm(s, float64(v.X.Length()), y, z), z: z, least: float64(v.Least), most: float64(v.Most), listed: i})
		r.lopsided = r.lopsided || y != 0 && v.Most != 0
	}
	sortInPlace(r.vary, func(a, b *varyArm) int { return compareNamed(&varying[a.listed], &varying[b.listed]) })
	sortInPlace(r.tanks, func(a, b *tankArm) int { return compareFilling(&tanks[a.listed], &tanks[b.listed]) })
	r.ask()
	if !(r.least() > 0) {
		*r = Tipping{}
		return &units.FieldError{Path: "masses", Value: "0 kg in all", Want: "more than 0 kg with everything at its least", Err: units.ErrRange}
	}
	return nil
}

func lackPlace(errs []error, at string, y, z units.Position) []error {
	if !y.Given() {
		errs = append(errs, &units.FieldError{Path: at + ".y", Want: "distance left of the centreline", Err: units.ErrMissing})
	}
	if !z.Given() {
		errs = append(errs, &units.FieldError{Path: at + ".z", Want: "height above ground", Err: units.ErrMissing})
	}
	return errs
}

// ask makes the whole of what was set the question.
func (r *Tipping) ask() {
	for i := range r.vary {
		r.vary[i].lo, r.vary[i].hi = r.vary[i].least, r.vary[i].most
	}
	for i := range r.tanks {
		r.tanks[i].lo, r.tanks[i].hi = r.tanks[i].least, r.tanks[i].most
	}
}

// least returns what everything weighs at its least.
func (r *Tipping) least() float64 {
	least := r.mass
	for i := range r.vary {
		least += r.vary[i].lo
	}
	for i := range r.tanks {
		least += r.tanks[i].lo
	}
	return least
}

// Worst is [Rollover] of what was set. It does not allocate; Levels are good until the
// next question.
func (r *Tipping) Worst() Stability {
	r.ask()
	return r.answer()
}

// At is [Rollover] of one fill: masses are those of the varying masses and levels those
// of the tanks, each in the order of listing. They may lie outside the ranges that were
// set. It does not allocate; Levels are good until the next question.
//
// Errors: another number of masses or levels; a mass outside its range, a level outside
// 0 to 1; nothing that weighs.
func (r *Tipping) At(masses []units.Mass, levels []units.Ratio) (Stability, error) {
	var errs []error
	if len(masses) != len(r.vary) {
		errs = append(errs, &units.FieldError{Path: "masses", Value: fmt.Sprint(len(masses)), Want: fmt.Sprintf("%d, one for each varying mass", len(r.vary)), Err: units.ErrConflict})
	}
	for i, m := range masses {
		if !fitMass(m) {
			errs = checkMass(errs, fmt.Sprintf("masses[#%d]", i+1), m)
		}
	}
	if len(levels) != len(r.tanks) {
		errs = append(errs, &units.FieldError{Path: "levels", Value: fmt.Sprint(len(levels)), Want: fmt.Sprintf("%d, one for each tank", len(r.tanks)), Err: units.ErrConflict})
	}
	for i, l := range levels {
		if !(l >= 0 && l <= 1) {
			errs = checkLevel(errs, fmt.Sprintf("levels[#%d]", i+1), l)
		}
	}
	if errs != nil {
		return Stability{}, errors.Join(errs...)
	}
	for i := range r.vary {
		v := &r.vary[i]
		v.lo = float64(masses[v.listed])
		v.hi = v.lo
	}
	for i := range r.tanks {
		k := &r.tanks[i]
		k.lo = k.at(float64(levels[k.listed]))
		k.hi = k.lo
	}
	if !(r.least() > 0) {
		return Stability{}, &units.FieldError{Path: "masses", Value: "0 kg in all", Want: "more than 0 kg", Err: units.ErrRange}
	}
	return r.answer(), nil
}

func (r *Tipping) answer() Stability {
	a, at := r.search(Left)
	if r.lopsided {
		// The other side tips sooner only if some fill no longer holds there.
		most := min(a, mostG)
		right := r.worst(r.next, most, -1)
		if f, _ := r.holds(right, r.next, most, -1); f < 0 {
			if b, at := r.search(Right); b < a {
				return r.stability(Right, b, at)
			}
			a, at = r.search(Left) // its fill
		}
	}
	return r.stability(Left, a, at)
}

// sortInPlace puts a short list in order, which it mostly is, without moving equals.
func sortInPlace[T any](list []T, compare func(a, b *T) int) {
	for i := 1; i < len(list); i++ {
		for j := i; j > 0 && compare(&list[j], &list[j-1]) < 0; j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
}

// compareFilling orders tanks by name, then by everything a sum depends on.
func compareFilling(a, b *Filling) int {
	if c := cmp.Compare(a.Tank.Name, b.Tank.Name); c != 0 {
		return c
	}
	return cmp.Or(
		cmp.Compare(a.Tank.X.Length(), b.Tank.X.Length()),
		cmp.Compare(a.Tank.Y.Length(), b.Tank.Y.Length()), cmp.Compare(a.Tank.Floor.Length(), b.Tank.Floor.Length()),
		cmp.Compare(a.Tank.Nominal, b.Tank.Nominal), cmp.Compare(a.Tank.Density, b.Tank.Density),
		cmp.Compare(a.Most, b.Most), cmp.Compare(a.Least, b.Least),
	)
}

func newTankArm(f *Filling) (tankArm, error) {
	t := &f.Tank
	if t.Vessel.Shape == 0 || !t.X.Given() || !t.Y.Given() || !t.Floor.Given() || !fitPlace(t.X, t.Y, t.Floor) {
		if err := t.lacks(); err != nil {
			return tankArm{}, err
		}
	}
	g, err := t.Gauge()
	if err != nil || !(f.Least >= 0 && f.Least <= f.Most && f.Most <= 1) {
		_, err := t.Range(f.Least, f.Most)
		return tankArm{}, err
	}
	k := tankArm{
		floor: float64(t.Floor.Length()), free: 1 - float64(t.Baffles), section: g.section,
		density: float64(t.Density), heap: float64(t.Heel), usable: float64(g.usable),
	}
	k.least, k.most = k.at(float64(f.Least)), k.at(float64(f.Most))
	k.lo, k.hi = k.least, k.most
	k.scale = g.full / (float64(g.nominal) * k.density)
	k.heel, k.span = k.heap*k.density, k.usable*k.density
	return k, nil
}

// at returns what a tank holds at a level, kg.
func (k *tankArm) at(level float64) float64 { return (k.heap + level*k.usable) * k.density }

// lacks says what a tank that tips lacks.
func (t *Tank) lacks() error {
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
	return errors.Join(errs...)
}

// arm returns the arms of one kilogram at a place.
func (r *Tipping) arm(s span, x, y, z float64) arm {
	if !r.hitched {
		return arm{r.half, y, z}
	}
	u := (x - s.coupler) / s.base
	return arm{r.half * u, y, z - r.hc*(1-u)}
}

// holds returns what m kilograms in a tank hold against tipping at a, and by how much
// more as a grows.
func (k *tankArm) holds(m, a, sign float64) (f, df float64) {
	v := m * k.scale
	s, z, ds := k.section.turned(v, a)
	if k.free < 1 {
		_, rest := k.section.level(v)
		s, z, ds = k.free*s, rest+k.free*(z-rest), k.free*ds
	}
	return m * (k.hold - sign*k.y - s - a*(k.tip+z)), -m * (k.tip + z + (1+a*a)*ds)
}

// holds returns F at a fill, and dF/da.
func (r *Tipping) holds(at Corner, tank []float64, a, sign float64) (f, df float64) {
	f, df = r.fixed.hold-sign*r.fixed.y-a*r.fixed.tip, -r.fixed.tip
	for i := range r.vary {
		v := &r.vary[i]
		m := v.lo
		if at.Most(v.listed) {
			m = v.hi
		}
		f += m * (v.hold - sign*v.y - a*v.tip)
		df -= m * v.tip
	}
	for i := range r.tanks {
		g, dg := r.tanks[i].holds(tank[i], a, sign)
		f += g
		df += dg
	}
	return f, df
}

// worst sets the masses of tanks to the fill that holds least at a and returns the
// corner of the varying masses.
func (r *Tipping) worst(tank []float64, a, sign float64) (at Corner) {
	for i := range r.vary {
		if v := &r.vary[i]; v.hi > v.lo && v.hold-sign*v.y-a*v.tip < 0 {
			at |= 1 << v.listed
		}
	}
	for i := range r.tanks {
		k := &r.tanks[i]
		switch {
		case !(k.hi > k.lo):
			tank[i] = k.lo
		case k.section.kind == slab:
			tank[i] = k.worstSlab(a, sign)
		default:
			tank[i] = lowest(func(m float64) float64 { f, _ := k.holds(m, a, sign); return f }, k.lo, k.hi)
		}
	}
	return at
}

// worstSlab returns the mass between the ends of the question with which a box holds
// least at a.
//
// Let f be the share of the box that is full, K = hold ∓ y − a·tip, φ = 1 − Baffles,
// w the width, h the height, and B = √(2wh/a), c = B(1 − a²)/3. What the full box
// would weigh times the following is what it holds, but for constants:
//
//	triangle in the low corner        f·(K − φ·w/2) + φ·c·f^1.5 − a(1 − φ)·h/2·f²
//	from wall to wall                 f·K − a·h/2·f²
//	from floor to lid                 f·(K − φ·(w + a·h)/2) + φ·w/2·f² − a(1 − φ)·h/2·f²
//	all but a triangle, e = 1 − f     −e·(K + φ·(w/2 − a·h)) + φ·c·e^1.5 − a(1 − φ)·h/2·f²
//
// The second is concave and has its least at an end; the others have one at an end or
// where the derivative is zero, which is a quadratic in √f, a linear equation in f and a
// quadratic in √e. All of those are tried.
func (k *tankArm) worstSlab(a, sign float64) float64 {
	full := k.section.capacity() / k.scale
	best := k.lo
	least, _ := k.holds(best, a, sign)
	try := func(m float64) {
		if m > k.lo && m < k.hi {
			if f, _ := k.holds(m, a, sign); f < least {
				best, least = m, f
			}
		}
	}
	if a > 0 {
		w, h := 2*k.section.a, k.section.h
		K, held := k.hold-sign*k.y-a*k.tip, 1-k.free
		c := math.Sqrt(2*w*h/a) * (1 - a*a) / 3
		edge, steep := a*w/(2*h), false
		if edge > 0.5 {
			edge, steep = 0.25/edge, true
		}
		// roots calls try with q²·full or (1 − q²)·full where p2·q² + p1·q + p0 = 0.
		p2, p1 := -a*held*h, 1.5*k.free*c
		for _, q := range quadratic(p2, p1, K-k.free*w/2) {
			if q > 0 && q*q < edge {
				try(q * q * full)
			}
		}
		try(edge * full)
		if slope := k.free*w - a*held*h; steep && slope != 0 {
			if f := (k.free*(w+a*h)/2 - K) / slope; f > edge && f < 1-edge {
				try(f * full)
			}
		}
		try((1 - edge) * full)
		for _, q := range quadratic(p2, p1, a*held*h-K-k.free*(w/2-a*h)) {
			if q > 0 && q*q < edge {
				try((1 - q*q) * full)
			}
		}
	}
	if f, _ := k.holds(k.hi, a, sign); f < least {
		return k.hi
	}
	return best
}

// quadratic returns the real zeros of p2·x² + p1·x + p0; NaN for one that is not there.
func quadratic(p2, p1, p0 float64) [2]float64 {
	if p2 == 0 {
		return [...]float64{-p0 / p1, math.NaN()} // an infinite one is of no use to anyone
	}
	q := -(p1 + math.Copysign(math.Sqrt(p1*p1-4*p2*p0), p1)) / 2
	return [...]float64{q / p2, p0 / q}
}

// rigid returns the threshold of the least fill with its liquid frozen at rest. The
// liquid moves to where it holds less, so that the fill no longer holds there.
func (r *Tipping) rigid(sign float64) float64 {
	hold, tip := r.fixed.hold-sign*r.fixed.y, r.fixed.tip
	for i := range r.vary {
		v := &r.vary[i]
		hold += v.lo * (v.hold - sign*v.y)
		tip += v.lo * v.tip
	}
	for i := range r.tanks {
		k := &r.tanks[i]
		_, z := k.section.level(k.lo * k.scale)
		hold += k.lo * (k.hold - sign*k.y)
		tip += k.lo * (k.tip + z)
	}
	if hold > 0 && tip > 0 {
		return hold / tip
	}
	return math.Inf(1)
}

// search returns the threshold over a side and its corner; its fill is then r.now. It is
// infinite beyond the end of the search.
func (r *Tipping) search(side Side) (a float64, at Corner) {
	sign := 1.0
	if side == Right {
		sign = -1
	}
	a = min(mostG, r.rigid(sign))
	at = r.worst(r.now, a, sign)
	if f, _ := r.holds(at, r.now, a, sign); f > 0 {
		if a == mostG {
			return math.Inf(1), at
		}
		a = mostG // the frozen load was met by rounding
		at = r.worst(r.now, a, sign)
	}
	for range 50 {
		if f, _ := r.holds(at, r.now, 0, sign); f <= 0 {
			return 0, at // tips standing still
		}
		b, _, err := root.Safeguarded(func(a float64) (float64, float64) { return r.holds(at, r.now, a, sign) }, 0, a, a*(1-1e-9), 1e-13, 0)
		if err != nil {
			break // not reached: F(0) > 0 and F(a) ≤ 0 at this fill
		}
		a = b
		next := r.worst(r.next, a, sign)
		if f, _ := r.holds(next, r.next, a, sign); !(f < -1e-12*(r.mass+1)) {
			break
		}
		at = next
		r.now, r.next = r.next, r.now
	}
	return a, at
}

// stability says what the trailer does at the fill r.now, which tips at a.
func (r *Tipping) stability(side Side, a float64, at Corner) Stability {
	st := Stability{Side: side, Above: a > mostG}
	a = min(a, mostG)
	st.Threshold = units.Acceleration(a) * units.StandardGravity
	st.SideSlope = units.Angle(math.Atan(a))
	st.At = at
	st.Levels = r.levels
	m, mz := r.mass, r.mz
	for i := range r.vary {
		v := &r.vary[i]
		w := v.lo
		if at.Most(v.listed) {
			w = v.hi
		}
		m += w
		mz += w * v.z
	}
	for i := range r.tanks {
		k := &r.tanks[i]
		w := r.now[i]
		_, rest := k.section.level(w * k.scale)
		m += w
		mz += w * (k.floor + rest)
		r.levels[k.listed] = 0
		if k.span > 0 {
			r.levels[k.listed] = units.Ratio(min(max((w-k.heel)/k.span, 0), 1))
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
