package fuel

import (
	"errors"

	"example.com/washrig/units"
)

// A Price is money for a volume of fuel. Money is a plain number in the caller's
// currency; rounding it to cents belongs to whoever writes the bill.
type Price struct {
	Amount float64      // for Per, 0 or more
	Per    units.Volume // units.Gallon, units.Liter; required unless Amount is 0
}

// Validate returns every problem of p, joined in field order.
func (p Price) Validate() error {
	var err error
	if !within(p.Amount, 0, 1e6) {
		err = outside("amount", number(p.Amount), "0 to 1,000,000")
	}
	switch {
	case p.Per == 0 && p.Amount != 0:
		err = errors.Join(err, missing("per", "a gallon, a litre"))
	case p.Per != 0 && !within(float64(p.Per), 1e-6, 1e3):
		err = errors.Join(err, outside("per", number(p.Per.In(units.Gallon))+" gal", "a gallon, a litre"))
	}
	return err
}

// A Tally is what a volume of fuel weighs, costs and leaves in the air.
type Tally struct {
	Volume   units.Volume // at 60 °F
	Mass     units.Mass   // of the fuel
	Cost     float64      // in the currency of the price, not rounded
	Fossil   units.Mass   // carbon dioxide from petroleum and natural gas
	Biogenic units.Mass   // carbon dioxide from ethanol and biodiesel
}

// Plus returns t and u together: two fuels on one job.
func (t Tally) Plus(u Tally) Tally {
	return Tally{t.Volume + u.Volume, t.Mass + u.Mass, t.Cost + u.Cost, t.Fossil + u.Fossil, t.Biogenic + u.Biogenic}
}

// times returns t of x.
func (t Tally) times(x float64) Tally {
	return Tally{
		t.Volume * units.Volume(x), t.Mass * units.Mass(x), t.Cost * x,
		t.Fossil * units.Mass(x), t.Biogenic * units.Mass(x),
	}
}

// Tally returns what a volume of the fuel weighs, costs and leaves in the air.
//
//	mass = ρ·V, cost = amount·V/per, CO2 = factor·V
//
// Errors: a *[units.FieldError] for a volume below zero or above 1,000 m³ (of
// natural gas, 1,000,000 m³), a field of price ("price.…") or of p.
func (p Properties) Tally(v units.Volume, price Price) (Tally, error) {
	err := errors.Join(
		checkDensity("density", p.Density),
		checkEmission("carbonDioxide.fossil", p.CarbonDioxide.Fossil),
		checkEmission("carbonDioxide.biogenic", p.CarbonDioxide.Biogenic),
		units.At("price", price.Validate()))
	if most := p.mostVolume(); !within(float64(v), 0, most) {
		err = errors.Join(outside("volume", number(v.In(units.Gallon))+" gal", "0 to "+units.Volume(most).Text(units.Gallon, 0)), err)
	}
	if err != nil {
		return Tally{}, err
	}
	t := Tally{
		Volume:   v,
		Mass:     units.Mass(float64(p.Density) * float64(v)),
		Fossil:   units.Mass(float64(p.CarbonDioxide.Fossil) * float64(v)),
		Biogenic: units.Mass(float64(p.CarbonDioxide.Biogenic) * float64(v)),
	}
	if price.Amount != 0 {
		t.Cost = price.Amount * float64(v/price.Per)
	}
	return t, nil
}

func (p Properties) mostVolume() float64 {
	if p.Kind.Gas() {
		return 1e6
	}
	return 1e3
}

// A JobFuel is what one fuel comes to on a job.
type JobFuel struct {
	PerHour               Tally // of the time it burns
	Job                   Tally
	PerThousandSquareFeet Tally // zero if no area is given
}

// Job returns what burning a fuel at a mean rate for a time comes to, by the hour,
// for the job and for each 1,000 ft² of it.
//
// rate is the mean over the time: duty and idling are in it. An area of zero is
// not given.
//
// Errors: a *[units.FieldError] for a rate or time below zero, an area below zero
// or under 1 ft², or as for [Properties.Tally].
func (p Properties) Job(rate units.FuelRate, lasts units.Duration, area units.Area, price Price) (JobFuel, error) {
	err := errors.Join(checkRate("rate", rate), checkDuration("lasts", lasts))
	if area != 0 && !within(area.In(units.SquareFoot), 1, 1e9) {
		err = errors.Join(err, outside("area", number(area.In(units.SquareFoot))+" ft²", "1 to 1,000,000,000 ft²"))
	}
	if err != nil {
		return JobFuel{}, err
	}
	job, err := p.Tally(units.Volume(float64(rate)*float64(lasts)), price)
	if err != nil {
		return JobFuel{}, err
	}
	hour, err := p.Tally(units.Volume(float64(rate)*float64(units.Hour)), price)
	if err != nil {
		return JobFuel{}, err
	}
	out := JobFuel{PerHour: hour, Job: job}
	if area != 0 {
		out.PerThousandSquareFeet = job.times(1000 / area.In(units.SquareFoot))
	}
	return out, nil
}
