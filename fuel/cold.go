package fuel

import (
	"errors"

	"example.com/washrig/units"
)

// ColdLimits are the temperatures at which a fuel stops behaving like a fuel.
// One that does not apply is not given: gasoline has none above −60 °F.
type ColdLimits struct {
	Cloud   units.Temperature // wax shows; filters begin to plug
	Gel     units.Temperature // the fuel no longer pours
	Boiling units.Temperature // a liquefied gas gives no vapour pressure below this
}

// A ColdState says how a fuel behaves at a temperature.
type ColdState uint8

// The states of a fuel in the cold, from fair to foul. The zero state is invalid.
const (
	Flows    ColdState = iota + 1 // above every limit of its row
	Clouded                       // at or below the cloud point: filters plug sooner or later
	Gelled                        // at or below the gel point: it does not pour
	NoVapour                      // at or below the boiling point: the cylinder gives nothing
)

// String returns the state in a word.
func (s ColdState) String() string {
	switch s {
	case Flows:
		return "flows"
	case Clouded:
		return "clouded"
	case Gelled:
		return "gelled"
	case NoVapour:
		return "no vapour"
	}
	return "invalid"
}

// A ColdReading is a fuel at one temperature beside its own limit.
type ColdReading struct {
	State  ColdState
	Limit  units.Temperature      // the warmest limit of the fuel; not given if it has none
	Margin units.TemperatureDelta // how far above that limit; negative is below, 0 if there is none
}

// ColdAt returns how the fuel behaves at a temperature.
//
// The table's limits are typical, and they scatter: refiners set them by season
// and place, and No. 2 diesel is sold with cloud points from about −20 to 40 °F.
// A fuel's certificate decides ([Properties.With]). Additives move the point at
// which filters plug, hardly the cloud point.
//
// Errors: a *[units.FieldError] for a temperature outside −60 to 160 °F, or for a
// cold limit of p that no fuel has ("cold.…").
func (p Properties) ColdAt(t units.Temperature) (ColdReading, error) {
	if err := errors.Join(checkFuelTemperature("temperature", t), units.At("cold", checkColdLimits(p.Cold))); err != nil {
		return ColdReading{}, err
	}
	r := ColdReading{State: Flows}
	for _, l := range []struct {
		at    units.Temperature
		below ColdState
	}{{p.Cold.Cloud, Clouded}, {p.Cold.Gel, Gelled}, {p.Cold.Boiling, NoVapour}} {
		if !l.at.Given() {
			continue
		}
		if !r.Limit.Given() || l.at.Sub(r.Limit) > 0 {
			r.Limit = l.at
		}
		if t.Sub(l.at) <= 0 {
			r.State = l.below
		}
	}
	if r.Limit.Given() {
		r.Margin = t.Sub(r.Limit)
	}
	return r, nil
}

// checkColdLimits wants limits a fuel can have, in order.
func checkColdLimits(c ColdLimits) error {
	var errs []error
	for _, l := range []struct {
		path string
		at   units.Temperature
	}{{"cloud", c.Cloud}, {"gel", c.Gel}, {"boiling", c.Boiling}} {
		if l.at.Given() && !within(l.at.Fahrenheit(), -150, 160) {
			errs = append(errs, outside(l.path, number(l.at.Fahrenheit())+" °F", "-150 to 160 °F"))
		}
	}
	if c.Cloud.Given() && c.Gel.Given() && c.Gel.Sub(c.Cloud) > 0 {
		errs = append(errs, &units.FieldError{
			Path:  "gel",
			Value: number(c.Gel.Fahrenheit()) + " °F",
			Want:  "at most the cloud point, " + number(c.Cloud.Fahrenheit()) + " °F",
			Err:   units.ErrConflict,
		})
	}
	return errors.Join(errs...)
}
