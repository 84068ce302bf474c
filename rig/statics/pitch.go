package statics

import (
	"errors"
	"math"
	"slices"

	"example.com/washrig/units"
)

// An Attitude is how a hitched trailer stands or moves along the road.
type Attitude struct {
	Grade     units.Angle        // nose-up positive
	Braking   units.Acceleration // deceleration positive; 0: standing or at steady speed
	ByVehicle units.Ratio        // share of the force along the road that the ball carries; the wheels carry the rest
}

// A Pitched is one extreme of the tongue load in an attitude.
type Pitched struct {
	Tongue units.Mass    // on the ball, square to the road
	Group  units.Mass    // on the axle group, square to the road
	Share  units.Ratio   // Tongue over both
	Pull   units.Mass    // along the road on the ball: positive where the vehicle holds the trailer from running back
	Levels []units.Ratio // of each tank, as listed
	At     Corner        // of the varying masses
}

// PitchRange holds the extremes of the tongue over all fills in one attitude.
type PitchRange struct {
	LeastTongue, MostTongue Pitched
	LeastShare, MostShare   Pitched
}

// Pitch returns the tongue load on a grade or under the brakes, with the liquid
// where it has come to rest, at the extremes over every fill between the given
// levels and every value of the varying masses.
//
// Per unit of gravity a mass presses on the deck with cos γ and pulls aft with
// q = sin γ − b/g, γ the grade, nose-up positive, and b the deceleration. Moments
// about the wheels' contact, with the ball at height h_c carrying the share κ of
// the pull:
//
//	Tongue·(x_a − x_c) = Σ m·[(x_a − x)·cos γ − q·(z − κ·h_c)]
//	Tongue + Group     = Σ m·cos γ
//
// The liquid runs to the low end as far as [Vessel.Tilted] says with
// tan θ = |q|/cos γ, less the share that Baffles hold back. Loads are in mass, as
// a scale lying on the road would read.
//
// Standing on a grade, held by the vehicle: ByVehicle 1. Held by the trailer's own
// brakes: 0. The quasi-static answer leaves out the surge before the liquid rests.
//
// Part fills can be worst, so each tank is searched: tongue load is a sum of one
// function a tank; the share, a ratio of sums, is taken by Dinkelbach's method
// with the same search.
//
// Range: grade −30° to 30°, braking −1 g to 1 g.
//
// Errors: those of [Balance] and [Tank.Load]; no CouplerHeight; a mass of more
// than zero without Z; a tank without Vessel or Floor; an attitude outside its
// range.
func Pitch(t Trailer, fixed []Mass, varying []Varying, tanks []Filling, a Attitude) (PitchRange, error) {
	p, err := newPitcher(t, fixed, varying, tanks, a)
	if err != nil {
		return PitchRange{}, err
	}
	var r PitchRange
	r.LeastTongue = p.extreme(1, false)
	r.MostTongue = p.extreme(-1, false)
	r.LeastShare = p.extreme(1, true)
	r.MostShare = p.extreme(-1, true)
	return r, nil
}

type pitcher struct {
	cos, q, slope, way float64
	kappa, hc, base    float64
	fixedTongue, fixed float64
	vary               []pitchVary
	tanks              []pitchTank // in the order of names
}

type pitchVary struct {
	tongue, least, most float64
	listed              int
}

type pitchTank struct {
	tankArm
	lever float64 // x_a − x
}

func newPitcher(t Trailer, fixed []Mass, varying []Varying, tanks []Filling, a Attitude) (*pitcher, error) {
	s, errs := t.span()
	switch {
	case t.CouplerHeight == 0:
		errs = append(errs, &units.FieldError{Path: "trailer.coupler_height", Want: "height of the ball above ground", Err: units.ErrMissing})
	case !(t.CouplerHeight > 0 && t.CouplerHeight <= 3):
		errs = append(errs, &units.FieldError{Path: "trailer.coupler_height", Value: t.CouplerHeight.String(), Want: "more than 0 m, at most 3 m", Err: units.ErrRange})
	}
	if !(a.Grade >= -30*units.Degree && a.Grade <= 30*units.Degree) {
		errs = append(errs, &units.FieldError{Path: "attitude.grade", Value: a.Grade.String(), Want: "-30° to 30°", Err: units.ErrRange})
	}
	if !(a.Braking >= -units.StandardGravity && a.Braking <= units.StandardGravity) {
		errs = append(errs, &units.FieldError{Path: "attitude.braking", Value: a.Braking.String(), Want: "-1 g to 1 g", Err: units.ErrRange})
	}
	if !(a.ByVehicle >= 0 && a.ByVehicle <= 1) {
		errs = append(errs, &units.FieldError{Path: "attitude.by_vehicle", Value: a.ByVehicle.String(), Want: "0 % to 100 %", Err: units.ErrRange})
	}
	ps, more := points(nil, fixed)
	errs = append(errs, more...)
	errs = append(errs, checkVarying(varying)...)
	for i, m := range fixed {
		if m.Mass != 0 && !m.Z.Given() {
			errs = append(errs, &units.FieldError{Path: element("masses", i, m.Name) + ".z", Want: "height above ground", Err: units.ErrMissing})
		}
	}
	for i, v := range varying {
		if v.Most != 0 && !v.Z.Given() {
			errs = append(errs, &units.FieldError{Path: element("varying", i, v.Name) + ".z", Want: "height above ground", Err: units.ErrMissing})
		}
	}
	sin, cos := math.Sincos(float64(a.Grade))
	q := sin - a.Braking.In(units.StandardGravity)
	p := &pitcher{
		cos: cos, q: q, slope: math.Abs(q) / cos, way: math.Copysign(1, q),
		kappa: float64(a.ByVehicle), hc: float64(t.CouplerHeight), base: s.base,
	}
	for i, f := range tanks {
		f.Tank.Y = units.PositionAt(0) // which side does not matter here
		k, err := newTankArm(&f)
		if err != nil {
			errs = append(errs, units.At(element("tanks", i, f.Tank.Name), err))
			continue
		}
		k.listed = i
		k.section = f.Tank.Vessel.section(Lengthwise)
		p.tanks = append(p.tanks, pitchTank{k, s.group - float64(f.Tank.X.Length())})
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	least := 0.0
	for _, m := range ps {
		p.fixed += m.m
		p.fixedTongue += m.m * p.arm(s.group-m.x, m.z)
	}
	least = p.fixed
	for i, v := range varying {
		p.vary = append(p.vary, pitchVary{p.arm(s.group-float64(v.X.Length()), float64(v.Z.Length())), float64(v.Least), float64(v.Most), i})
		least += float64(v.Least)
	}
	slices.SortStableFunc(p.vary, func(a, b pitchVary) int { return compareNamed(&varying[a.listed], &varying[b.listed]) })
	slices.SortStableFunc(p.tanks, func(a, b pitchTank) int { return compareFilling(&tanks[a.listed], &tanks[b.listed]) })
	for i := range p.tanks {
		least += p.tanks[i].least
	}
	if least <= 0 {
		return nil, &units.FieldError{Path: "masses", Value: "0 kg in all", Want: "more than 0 kg with everything at its least", Err: units.ErrRange}
	}
	return p, nil
}

// arm returns what one kilogram adds to the tongue.
func (p *pitcher) arm(lever, z float64) float64 {
	return (lever*p.cos - p.q*(z-p.kappa*p.hc)) / p.base
}

// adds returns what m kilograms in a tank add to the tongue.
func (p *pitcher) adds(k *pitchTank, m float64) float64 {
	v := m * k.scale
	s, z := k.section.tilted(v, p.slope)
	if k.free < 1 {
		_, rest := k.section.level(v)
		s, z = k.free*s, rest+k.free*(z-rest)
	}
	return m * p.arm(k.lever-p.way*s, k.floor+z)
}

// extreme returns the fill of the least (sign 1) or greatest (sign −1) tongue load
// or share.
func (p *pitcher) extreme(sign float64, share bool) Pitched {
	tank := make([]float64, len(p.tanks))
	next := make([]float64, len(p.tanks))
	var best Pitched
	lambda := 0.0
	for pass := 0; pass < 100; pass++ {
		tongue, total := p.fixedTongue, p.fixed
		var at Corner
		for i := range p.vary {
			v := &p.vary[i]
			m := v.least
			if sign*(v.tongue-lambda) < 0 && v.most > v.least {
				m = v.most
				at |= 1 << v.listed
			}
			tongue += m * v.tongue
			total += m
		}
		for i := range p.tanks {
			k := &p.tanks[i]
			m := lowest(func(m float64) float64 { return sign * (p.adds(k, m) - lambda*m) }, k.least, k.most)
			next[i] = m
			tongue += p.adds(k, m)
			total += m
		}
		r := tongue / (total * p.cos)
		if pass > 0 && !(sign*(r-float64(best.Share)) < 0) {
			break
		}
		tank, next = next, tank
		best = Pitched{
			Tongue: units.Mass(tongue), Group: units.Mass(total*p.cos - tongue), Share: units.Ratio(r),
			Pull: units.Mass(p.kappa * p.q * total), At: at,
		}
		if !share {
			break
		}
		lambda = r * p.cos
	}
	best.Levels = make([]units.Ratio, len(p.tanks))
	for i := range p.tanks {
		if k := &p.tanks[i]; k.span > 0 {
			best.Levels[k.listed] = units.Ratio(min(max((tank[i]-k.heel)/k.span, 0), 1))
		}
	}
	return best
}
