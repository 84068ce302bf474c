package vacuum

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// A Cause names what holds a number down.
type Cause uint8

// Causes that results name.
const (
	NoCause       Cause = iota
	NoMotor             // no motor runs
	Closed              // every hose is closed
	AirShort            // even dry air does not reach the speed asked for
	LiftShort           // the vacuum is used up by hose, tool and riser
	MoreVacuum          // a deeper vacuum in the tank pulls back on the dump pump
	HigherLift          // the discharge ends higher
	DirtierFilter       // the filters take more
	LongerLine          // the discharge hose takes more
	WeakerPump          // fewer or smaller pumps run
)

var causeNames = [...]string{"nothing", "no motor runs", "hoses closed", "the air is too slow even when dry", "hose, tool and riser use up the lift",
	"deeper vacuum in the tank", "higher discharge", "dirtier filters", "more loss in the discharge hose", "less pump"}

// String returns the cause in words.
func (c Cause) String() string {
	if int(c) < len(causeNames) {
		return causeNames[c]
	}
	return "unknown cause"
}

// A PickUp is how much water a plant takes up while the air keeps a speed.
type PickUp struct {
	Rate units.VolumeFlow // all hoses together

	// Low and High are the rates with the loss of two-phase flow at the far ends of
	// its spread: multiplied and divided by 1 + [TwoPhaseSpread].
	Low, High units.VolumeFlow

	Limit Cause            // what holds it at Rate
	Air   units.VolumeFlow // of outside air that the speed takes, all hoses together
	Tank  units.Pressure   // vacuum in the tank at Rate

	// Drowned is what the hoses take with the tool under water and no air at all.
	// It is no duty: the hose is a pump then, and nothing else of the pad is dried.
	Drowned units.VolumeFlow

	// Column is the height of solid water that the sealed lift holds.
	Column units.Length
}

// PickUp returns the greatest flow of water that the plant carries while the air in
// its widest hose keeps at least a speed, read as outside air alone in the bore.
// The speed is the caller's: [CarryVelocity] by physics, 4,000 ft/min by common
// practice.
//
// More water makes the hose cost more, so that the motors pass less air; at Rate
// the air has come down to the speed. The two-phase correlation is
// [MullerSteinhagenHeck] with the water left in a riser by [VoidFraction]; Low and
// High carry its published spread. What a tool leaves on the ground is not in it.
//
// A hose that is longer, narrower or higher never raises Rate; nor does a dirtier
// filter. A motor more never lowers it.
//
// Errors: a *[units.FieldError] for an input; ErrMissing where the path holds no
// hose, in which a speed could be read.
func (p Plant) PickUp(speed units.Velocity) (PickUp, error) {
	r, err := p.compile(true)
	if err != nil {
		return PickUp{}, err
	}
	return p.pickUp(r, speed, true)
}

func (p *Plant) pickUp(r *rig, speed units.Velocity, drowned bool) (PickUp, error) {
	var bad problem.List
	problem.Within(&bad, "speed", speed, 0.01, 300)
	if r.widest == 0 {
		bad.Add("path", "", "a hose, in which the air has a speed", units.ErrMissing)
	}
	if err := bad.Join(); err != nil {
		return PickUp{}, err
	}
	var out PickUp
	if r.open == 0 {
		out.Limit = NoMotor
		return out, nil
	}
	out.Column = units.Length(r.bank.lift(&r.g, 0) * r.flow.vl / gravity)
	if p.Hoses == 0 {
		out.Limit = Closed
		return out, nil
	}
	f := r.start()
	f.air = float64(speed) * r.g.rho * r.widest
	out.Air = units.VolumeFlow(r.n * f.air / r.g.rho)
	dry, err := r.shut()
	if err != nil {
		return PickUp{}, err
	}
	out.Tank = units.Pressure(r.g.p - dry.tank)
	if r.direct {
		f.alone = r.stream.alone(&f)
	}
	if r.falls(&f) {
		out.Limit = AirShort
		if drowned {
			f.air = 0
			if out.Drowned, err = r.most(&f, 0); err != nil {
				return PickUp{}, err
			}
		}
		return out, nil
	}
	out.Limit = LiftShort
	rate, err := r.mostAt(&f, 1, 0, &out.Tank)
	if err != nil {
		return PickUp{}, err
	}
	out.Rate = rate
	if out.Low, err = r.mostAt(&f, 1+TwoPhaseSpread, rate, nil); err != nil {
		return PickUp{}, err
	}
	if out.High, err = r.mostAt(&f, 1/(1+TwoPhaseSpread), rate, nil); err != nil {
		return PickUp{}, err
	}
	// a rate of the solver's own tolerance has no spread
	out.Low, out.High = min(out.Low, out.Rate), max(out.High, out.Rate)
	if drowned {
		f.air, f.spread = 0, 1
		if out.Drowned, err = r.most(&f, 0); err != nil {
			return PickUp{}, err
		}
	}
	return out, nil
}

// mostAt is most with a factor on the loss of two-phase flow, near a rate that is known
// without one; it gives the vacuum in the tank as well.
func (r *rig) mostAt(f *flow, spread float64, near units.VolumeFlow, tank *units.Pressure) (units.VolumeFlow, error) {
	f.spread = spread
	if r.direct {
		made, _ := r.made(r.n * f.air)
		from := float64(near) / (r.n * f.vl)
		if spread != 1 {
			from /= math.Sqrt(spread)
		}
		if w, ok := r.mostDirect(f, made, from); ok {
			if tank != nil {
				*tank = units.Pressure(r.g.p - made)
			}
			return units.VolumeFlow(w * r.n * f.vl), nil
		}
		f.liquid = 0
	}
	w, err := r.most(f, float64(near)/(r.n*f.vl))
	if err == nil && tank != nil {
		f.liquid = float64(w) / (r.n * f.vl)
		if b := r.try(f); !math.IsInf(b.surplus, 0) {
			*tank = units.Pressure(r.g.p - b.tank)
		}
	}
	return w, err
}

// most returns the greatest flow of water, all hoses together, that passes beside
// a flow of air. It begins to look near a flow in kg/s for each hose, or where none
// is given, at a tenth of a kilogram.
func (r *rig) most(f *flow, near float64) (units.VolumeFlow, error) {
	surplus := func(w float64) float64 {
		f.liquid = w
		return r.try(f).surplus
	}
	const least = 1e-12 // kg/s
	low := surplus(least)
	if low <= 0 {
		return 0, nil
	}
	lo, hi, step := least, 0.1, 4.0
	if near > 100*least {
		hi, step = near, 1.5
	}
	high := surplus(hi)
	for high > 0 {
		if hi > maxFlow/f.vl {
			return 0, &units.FieldError{Path: "path", Want: "a hose, tool or opening that resists the water", Err: units.ErrMissing}
		}
		lo, low = hi, high
		hi *= step
		high = surplus(hi)
	}
	w, _, err := root.NearFrom(surplus, lo, low, hi, high, lo, hi, 1e-10*hi)
	return units.VolumeFlow(w * r.n * f.vl), err
}

// MotorsFor returns the least number of motors in each stage, up to a most, with
// which the plant picks up at least a flow of water while the air keeps a speed,
// and what it then picks up. The number is zero where even the most do not: the
// PickUp is theirs.
//
// Errors: as [Plant.PickUp].
func (p Plant) MotorsFor(need units.VolumeFlow, speed units.Velocity, most int) (int, PickUp, error) {
	var bad problem.List
	problem.Within(&bad, "need", need, minFlow, maxFlow)
	problem.Whole(&bad, "most", most, 1, maxCount)
	if err := bad.Join(); err != nil {
		return 0, PickUp{}, err
	}
	motors := make(Bank, len(p.Motors))
	copy(motors, p.Motors)
	p.Motors = motors
	var last PickUp
	for n := 1; n <= most; n++ {
		for i := range motors {
			motors[i].Running = n
		}
		u, err := p.PickUp(speed)
		if err != nil {
			return 0, PickUp{}, err
		}
		if u.Rate >= need {
			return n, u, nil
		}
		last = u
	}
	return 0, last, nil
}

// Puddle returns what stays on the ground of the water that could be recovered:
//
//	left = r q − pick-up, or nothing where the pick-up is the greater
//
// q is what is sprayed, r the share of it that reaches the tool (60 to 85 % is
// usual, common practice; hot, dry or porous ground returns less).
//
// Errors: a *[units.FieldError] for each input.
func Puddle(sprayed units.VolumeFlow, recovered units.Ratio, pickUp units.VolumeFlow) (units.VolumeFlow, error) {
	var p problem.List
	problem.Between(&p, "sprayed", sprayed, 0, maxFlow)
	problem.Between(&p, "recovered", recovered, 0, 1)
	problem.Between(&p, "pickUp", pickUp, 0, maxFlow)
	if err := p.Join(); err != nil {
		return 0, err
	}
	return max(0, units.VolumeFlow(float64(sprayed)*float64(recovered))-pickUp), nil
}
