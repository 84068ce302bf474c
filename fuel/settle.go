package fuel

import (
	"errors"
	"math"
	"strconv"

	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// Speed exponents of common demands, for [Demand.Exponent]: the power goes with
// speed to this exponent.
const (
	ConstantPower  = 0 // a generator under an electric load
	ConstantTorque = 1 // a pump held at its pressure by the unloader
	CubeOfSpeed    = 3 // a pump on open nozzles, a fan
)

// A Settling is where an engine and its demands come to rest.
type Settling struct {
	Speed    units.RotationalSpeed // 0 if the engine stalls
	Power    units.Power           // at the shaft at that speed; 0 if the engine stalls
	Rated    units.RotationalSpeed // where the governor is wide open
	Full     units.Power           // full throttle at the rated speed and the site, for a short time
	Throttle units.Ratio           // Power over what full throttle gives at Speed; 1 when the governor is wide open
	Stalls   bool
	Deficit  units.Power           // the least that is missing at any speed of the curve; 0 unless the engine stalls
	At       units.RotationalSpeed // the speed where that is so; 0 unless the engine stalls
}

// Lugs reports whether the engine runs below its rated speed, wide open.
func (s Settling) Lugs() bool { return !s.Stalls && s.Speed < s.Rated }

// Settle returns the speed at which an engine carries its demands at a site.
//
// Above the rated speed n_r the governor gives
//
//	P(n) = f·P_c(n_r)·(n_0 − n)/(n_0 − n_r)
//
// and below it the engine is wide open, P(n) = f·P_c(n), where P_c is e's curve,
// f the factor of its correction, not above 1, and n_0 the governor's speed
// without load; a net rating scales the curve by Net/Gross. The demands take
//
//	ΣP_i·(n/n_r)^k_i
//
// with each Shaft meant at the rated speed and k_i its Exponent. The engine
// settles at the highest speed where the two agree. A small overload pulls a
// pump down along with its speed, so that it still settles, below the rated
// speed; if nothing on the curve carries the demands the engine stalls, and
// Deficit says what is missing where it is missing least.
//
// This is the power of a short time: the continuous share is not taken off
// ([Engine.Available] and [PowerBudget] do). Below the lowest point of the curve
// nothing is known, and an engine that would settle there counts as stalled. A
// droop read to a whole per cent can put the rated speed just above the curve; up
// to 2 % above, the curve's highest point stands for it.
//
// Errors: a *[units.FieldError] for a field of e ("engine.…"), of s ("site.…")
// or a demand ("demands[1].…"), for a missing curve or governor, or for a rated
// speed outside the curve (ErrConflict).
func (e Engine) Settle(s Site, demands []Demand) (Settling, error) {
	f, err := e.siteFactor(s)
	err = errors.Join(err, e.checkSpeed(), checkDemands(demands))
	if err != nil {
		return Settling{}, err
	}
	_, share := e.rating()
	share *= float64(min(f, 1))
	n0, nr := float64(e.Governor.NoLoad), e.ratedSpeed()
	open := func(n float64) float64 { return share * e.Curve.curve.Predict(n) }
	full := open(nr)
	out := Settling{Rated: units.RotationalSpeed(nr), Full: units.Power(full)}

	need := func(n float64) float64 {
		var sum float64
		for _, d := range demands {
			sum += float64(d.Shaft) * math.Pow(n/nr, d.Exponent)
		}
		return sum
	}
	settle := func(n, p float64) (Settling, error) {
		out.Speed, out.Power = units.RotationalSpeed(n), units.Power(p)
		out.Throttle = 1
		if n >= nr {
			out.Throttle = units.Ratio(math.Min(p/full, 1))
		}
		return out, nil
	}

	// On the governor: spare power falls from full at nr to none at n0.
	if full >= need(nr) {
		if n0 == nr {
			return settle(nr, need(nr))
		}
		n, _, err := root.Bracketed(func(n float64) float64 {
			return full*(n0-n)/(n0-nr) - need(n)
		}, nr, n0, n0*1e-12)
		if err != nil {
			return Settling{}, err
		}
		return settle(n, need(n))
	}

	// Wide open: the highest speed below nr that carries the demands.
	lo := float64(e.Curve.Lowest())
	spare := func(n float64) float64 { return open(n) - need(n) }
	const steps = 256
	at := func(i int) float64 { return nr + (lo-nr)*float64(i)/steps }
	best, bestAt := spare(nr), nr
	above, here := spare(nr), spare(at(1))
	for i := 1; i <= steps; i++ {
		n := at(i)
		below := math.Inf(-1)
		if i < steps {
			below = spare(at(i + 1))
		}
		// A crest between two steps may reach zero though both ends do not.
		if here < 0 && here >= above && here >= below {
			n, here = crest(spare, at(min(i+1, steps)), at(i-1))
		}
		if here > best {
			best, bestAt = here, n
		}
		if here >= 0 {
			n, _, err := root.Bracketed(spare, n, at(i-1), nr*1e-12)
			if err != nil {
				return Settling{}, err
			}
			return settle(n, need(n))
		}
		above, here = spare(at(i)), below
	}
	out.Stalls = true
	out.Deficit, out.At = units.Power(-best), units.RotationalSpeed(bestAt)
	return out, nil
}

// crest returns the highest value of a function with one crest between lo and
// hi, by golden sections.
func crest(f func(float64) float64, lo, hi float64) (x, fx float64) {
	const g = 0.6180339887498949
	a, b := hi-g*(hi-lo), lo+g*(hi-lo)
	fa, fb := f(a), f(b)
	for range 60 {
		if fa > fb {
			hi, b, fb = b, a, fa
			a = hi - g*(hi-lo)
			fa = f(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + g*(hi-lo)
			fb = f(b)
		}
	}
	if fa > fb {
		return a, fa
	}
	return b, fb
}

// checkSpeed wants a curve and a governor that belong together.
func (e Engine) checkSpeed() error {
	if e.Curve == nil || len(e.Curve.points) == 0 {
		return errors.Join(missing("engine.curve", "a full-throttle curve"), units.At("engine.governor", e.Governor.Validate()))
	}
	if err := e.Governor.Validate(); err != nil {
		return units.At("engine.governor", err)
	}
	if r := e.Governor.rated(); !within(float64(r), float64(e.Curve.Lowest())*(1-1e-9), float64(e.Curve.Highest())*1.02) {
		return &units.FieldError{
			Path:  "engine.governor.noLoad",
			Value: e.Governor.NoLoad.Text(units.RPM, 0) + ", " + r.Text(units.RPM, 0) + " at full load",
			Want:  "full load on the curve, " + e.Curve.Lowest().Text(units.RPM, 0) + " to " + e.Curve.Highest().Text(units.RPM, 0),
			Err:   units.ErrConflict,
		}
	}
	return nil
}

// ratedSpeed is the governor's rated speed, held to the curve, in rad/s.
func (e Engine) ratedSpeed() float64 {
	r := float64(e.Governor.rated())
	return math.Min(math.Max(r, float64(e.Curve.Lowest())), float64(e.Curve.Highest()))
}

// checkDemands returns every problem of demands, joined.
func checkDemands(demands []Demand) error {
	var errs []error
	for i, d := range demands {
		err := checkPower("shaft", d.Shaft)
		if !within(d.Exponent, 0, 5) {
			err = errors.Join(err, outside("exponent", number(d.Exponent), "0 to 5"))
		}
		if err != nil {
			errs = append(errs, units.At("demands["+strconv.Itoa(i)+"]", err))
		}
	}
	return errors.Join(errs...)
}
