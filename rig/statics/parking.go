package statics

import (
	"errors"

	"example.com/washrig/units"
)

// Parked is how a trailer rests unhitched, on its axles and its jack.
type Parked struct {
	// Jack is the load on the jack. Where its least is negative the tail drops in
	// that fill: the jack lifts off and the trailer turns about its axles.
	Jack  Band[units.Mass]
	Group Band[units.Mass]
	Drops bool

	// If the tail was given. Spare is the least mass that must step on the tail, or
	// be set there, to lift the jack, in the fill where that is least; negative
	// where it has dropped already. Stand is the most that a stand under the tail
	// has to carry, with the jack then free; 0 if the tail never drops.
	Spare Bound[units.Mass]
	Stand Bound[units.Mass]
}

// Park rests an unhitched trailer on its jack and one equalised axle group, over
// every value of the varying masses.
//
//	Jack  = Σ m·(x_a − x)/(x_a − x_j)
//	Spare = Jack·(x_a − x_j)/(x_t − x_a)
//	Stand = −Spare where that is positive
//
// x_a is the axle group, about whose centre an equalised group rocks, x_j the jack
// and x_t the tail. The jack need not stand at the coupler. All are linear in the
// masses and have their extremes at corners. Level ground, wheels chocked. For
// axles that do not equalise take [Suspend] with the jack as Coupler.
//
// Errors: those of [Corners]; no jack, or one not ahead of the axles; a tail not
// behind them. A tail that is not given leaves Spare and Stand zero.
func Park(t Trailer, fixed []Mass, varying []Varying, jack, tail units.Position) (Parked, error) {
	k, err := checkParking(t, jack, tail)
	if err != nil {
		return Parked{}, err
	}
	t.Coupler = jack
	x, err := Corners(t, fixed, varying)
	if err != nil {
		return Parked{}, err
	}
	p := Parked{Jack: x.Tongue, Group: x.Group, Drops: x.Tongue.Least.Value < 0}
	if tail.Given() {
		p.Spare = Bound[units.Mass]{x.Tongue.Least.Value * k, x.Tongue.Least.At}
		p.Stand = Bound[units.Mass]{max(0, -p.Spare.Value), p.Spare.At}
	}
	return p, nil
}

// checkParking returns the spare at the tail for each kilogram on the jack; zero
// without a tail.
func checkParking(t Trailer, jack, tail units.Position) (units.Mass, error) {
	var errs []error
	if !jack.Given() {
		errs = append(errs, &units.FieldError{Path: "jack", Want: "distance of the jack aft of the coupler", Err: units.ErrMissing})
	} else if errs = checkPosition(errs, "jack", jack); t.AxleGroup.Given() && !(t.AxleGroup.Sub(jack) >= 0.1) {
		errs = append(errs, &units.FieldError{Path: "jack", Value: jack.String(), Want: "at least 0.1 m ahead of the axle group", Err: units.ErrRange})
	}
	if tail.Given() {
		if errs = checkPosition(errs, "tail", tail); !(tail.Sub(t.AxleGroup) >= 0.1) {
			errs = append(errs, &units.FieldError{Path: "tail", Value: tail.String(), Want: "at least 0.1 m behind the axle group", Err: units.ErrRange})
		}
	}
	if err := errors.Join(errs...); err != nil || !tail.Given() {
		return 0, err
	}
	return units.Mass(t.AxleGroup.Sub(jack) / tail.Sub(t.AxleGroup)), nil
}

// A Parking is an unhitched trailer checked and summed once, for many fillings. It
// is never changed after [NewParking], unless it is set anew.
type Parking struct {
	envelope Envelope
	k        units.Mass
}

// NewParking checks and prepares; see [Park] for the errors.
func NewParking(t Trailer, fixed []Mass, varying []Varying, jack, tail units.Position) (*Parking, error) {
	p := new(Parking)
	if err := p.Set(t, fixed, varying, jack, tail); err != nil {
		return nil, err
	}
	return p, nil
}

// Set is [NewParking] in the memory that p has from the last trailer. After an error p
// answers nothing until it is set again.
func (p *Parking) Set(t Trailer, fixed []Mass, varying []Varying, jack, tail units.Position) error {
	k, err := checkParking(t, jack, tail)
	if err != nil {
		*p = Parking{}
		return err
	}
	t.Coupler, p.k = jack, k
	return p.envelope.Set(t, fixed, varying)
}

// At returns the load on the jack and what the tail may still be loaded with, as
// [Park] does, with the varying masses at given values. Spare is zero without a tail.
// It does not allocate.
//
// Errors: those of [Envelope.At].
func (p *Parking) At(masses []units.Mass) (jack, spare units.Mass, err error) {
	l, err := p.envelope.At(masses)
	return l.Tongue, l.Tongue * p.k, err
}
