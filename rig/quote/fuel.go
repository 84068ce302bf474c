package quote

import (
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// A FuelCost is what the day's fuel from one tank costs.
type FuelCost struct {
	Tank                  string
	Day                   parts.Money
	Hour                  parts.Money // over the hours of the modes
	PerThousandSquareFeet parts.Money // not given without the area of the day
}

// FuelCosts prices the fuel that a report's day burns, by tank. A tank without
// a price is left out; each amount is rounded once, from the exact price of a
// gallon.
func FuelCosts(rep *rig.Report) ([]FuelCost, error) {
	if rep == nil {
		return nil, &units.FieldError{Path: "report", Want: "a report", Err: units.ErrMissing}
	}
	s := rep.Model().Spec()
	hours := 0.0
	for _, m := range s.Modes {
		hours += m.Time.In(units.Hour)
	}
	var out []FuelCost
	for _, t := range s.FuelTanks {
		day, ok := rep.Worst(rig.Path("fuel_tanks[" + t.ID + "].day"))
		if !ok || !t.FuelPrice.Given() || hours <= 0 {
			continue
		}
		gallons := units.Volume(day.Value.SI()).In(units.Gallon)
		c := FuelCost{Tank: t.ID}
		var err error
		if c.Day, err = t.FuelPrice.TimesRatio(gallons); err != nil {
			return nil, units.At("fuel_tanks["+t.ID+"]", err)
		}
		if c.Hour, err = t.FuelPrice.TimesRatio(gallons / hours); err != nil {
			return nil, units.At("fuel_tanks["+t.ID+"]", err)
		}
		if a := s.Duty.Area.In(units.SquareFoot); a > 0 {
			if c.PerThousandSquareFeet, err = t.FuelPrice.TimesRatio(gallons / a * 1000); err != nil {
				return nil, units.At("fuel_tanks["+t.ID+"]", err)
			}
		}
		out = append(out, c)
	}
	return out, nil
}
