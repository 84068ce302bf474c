package fuel

import (
	"errors"
	"strconv"

	"example.com/washrig/units"
)

// A Demand is one thing the engine's shaft turns, belt losses included.
type Demand struct {
	Name     string      // what the crew calls it
	Shaft    units.Power // at the crankshaft, 0 or more, at the engine's rated speed
	Exponent float64     // how Shaft goes with speed, for [Engine.Settle] alone: [ConstantPower], [ConstantTorque], [CubeOfSpeed] or between
}

// A Budget is what an engine has against what is asked of it.
type Budget struct {
	Available units.Power // as given
	Total     units.Power // all demands together
	Reserve   units.Power // Available − Total; negative when the engine is short
	Deficit   units.Power // what is missing; 0 when everything fits
	Margin    units.Ratio // Reserve/Available; 0.11 is 11 % to spare, negative is short
	Largest   int         // index of the largest demand, the first of equals; −1 if nothing is asked
	Name      string      // its name
	Share     units.Ratio // its share of Total
}

// Fits reports whether the engine carries everything asked of it.
func (b Budget) Fits() bool { return b.Reserve >= 0 }

// PowerBudget adds up what is asked of an engine and compares it with what the
// engine has at the site:
//
//	margin = (P_available − ΣP)/P_available
//
// It adds in the order given. With no demands, or none above zero, the margin
// is 1 and Largest is −1.
//
// Errors: a *[units.FieldError] for available, which must be above zero, or for
// a demand ("demands[1].shaft"), which may be zero but not negative.
func PowerBudget(available units.Power, demands []Demand) (Budget, error) {
	if err := checkBudget(available, demands); err != nil {
		return Budget{}, err
	}
	b := Budget{Available: available, Largest: -1}
	var most units.Power
	for i, d := range demands {
		b.Total += d.Shaft
		if d.Shaft > most {
			most, b.Largest, b.Name = d.Shaft, i, d.Name
		}
	}
	b.Reserve = available - b.Total
	b.Deficit = max(-b.Reserve, 0)
	b.Margin = units.Ratio(b.Reserve / available)
	if b.Largest >= 0 {
		b.Share = units.Ratio(most / b.Total)
	}
	return b, nil
}

// checkBudget returns every problem of a budget's input, joined.
func checkBudget(available units.Power, demands []Demand) error {
	return errors.Join(checkPositivePower("available", available), checkDemands(demands))
}

// LargestPressure returns the highest pump pressure the engine carries with
// everything else running:
//
//	p = p0·(P_available − ΣP_other)/P_pump
//
// P_pump is what demands[pump] takes at the pressure p0 (at), and ΣP_other all
// the other demands. The power of a positive-displacement pump at one speed
// goes with its pressure, so one point gives the line. If the others alone use
// up the engine the answer is 0.
//
// The answer is what the engine carries, not what pump, hose or nozzle allow:
// it may lie above any rating of theirs.
//
// Errors: a *[units.FieldError] as for [PowerBudget], for a pump that is not an
// index of demands or asks for less than a watt, or for at, which must be above
// zero and below 10,000 bar.
func LargestPressure(available units.Power, demands []Demand, pump int, at units.Pressure) (units.Pressure, error) {
	err := checkBudget(available, demands)
	switch {
	case at == 0:
		err = errors.Join(err, missing("at", "more than 0 psi"))
	case !within(float64(at), 0, float64(10_000*units.Bar)):
		err = errors.Join(err, outside("at", number(at.In(units.PSI))+" psi", "more than 0 psi, below 145,000 psi"))
	}
	switch {
	case pump < 0 || pump >= len(demands):
		err = errors.Join(err, outside("pump", strconv.Itoa(pump), "an index of demands, of which there are "+strconv.Itoa(len(demands))))
	case demands[pump].Shaft == 0:
		err = errors.Join(err, missing("demands["+strconv.Itoa(pump)+"].shaft", "more than 0 hp for a pump under pressure"))
	case demands[pump].Shaft > 0 && demands[pump].Shaft < 1*units.Watt:
		err = errors.Join(err, outside("demands["+strconv.Itoa(pump)+"].shaft", number(demands[pump].Shaft.In(units.Watt))+" W", "1 W or more for a pump under pressure"))
	}
	if err != nil {
		return 0, err
	}
	left := available
	for i, d := range demands {
		if i != pump {
			left -= d.Shaft
		}
	}
	return at * units.Pressure(max(left, 0)/demands[pump].Shaft), nil
}
