package fuel

import (
	"errors"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/stat"

	"example.com/washrig/units"
)

// A Consumption is what an engine, or a generator with its engine, burns at a
// load. [Willans] and *[ConsumptionCurve] are Consumptions.
//
// The load is whatever the data is of: shaft power for an engine, electric power
// for a generator set. It does not reach beyond the data's full load; an engine
// asked for more gives what it has ([Engine.Available]), and burns that.
type Consumption interface {
	// Burn returns what a load costs in a fuel. The heat of the load is the same
	// in every fuel; the volume goes with the lower heating value.
	Burn(load units.Power, p Properties) (Burn, error)
}

// A Burn is what a load costs.
type Burn struct {
	Load       units.Power
	Heat       units.Power                   // of the fuel, on the lower basis
	Loss       units.Power                   // Heat − Load: exhaust, cooling, friction
	Rate       units.FuelRate                // volume of fuel at 60 °F
	Mass       units.MassFlow                // mass of fuel
	Efficiency units.Ratio                   // Load/Heat
	Specific   units.SpecificFuelConsumption // Mass/Load; 0 without load, where it has no meaning
	Extended   bool                          // below the lowest point of a curve: on the line through its first two
}

// newBurn completes a Burn from its load and heat, in W.
func newBurn(load, heat float64, p Properties) Burn {
	rate := heat / float64(p.Lower)
	mass := rate * float64(p.Density)
	b := Burn{
		Load: units.Power(load), Heat: units.Power(heat), Loss: units.Power(heat - load),
		Rate: units.FuelRate(rate), Mass: units.MassFlow(mass),
		Efficiency: units.Ratio(load / heat),
	}
	if load > 0 {
		b.Specific = units.SpecificFuelConsumption(mass / load)
	}
	return b
}

// checkBurned wants a fuel that burns.
func checkBurned(p Properties) error {
	return units.At("fuel", errors.Join(checkDensity("density", p.Density), checkHeatingValue("lower", p.Lower.ByVolume())))
}

// checkLoad wants a load of 0 to full.
func checkLoad(load, full units.Power) error {
	if within(float64(load), 0, float64(full)*(1+1e-12)) {
		return nil
	}
	return outside("load", load.Text(units.Horsepower, 2), "0 to full load, "+full.Text(units.Horsepower, 2))
}

// bestEfficiency is above that of any engine that fits a trailer: data that
// claims more has its load or its fuel in the wrong unit.
const bestEfficiency = 0.6

// A Willans is an engine whose fuel rises in a straight line with its load, which
// engines held at one speed do within a few per cent.
//
//	heat = NoLoad + (FullLoad − NoLoad)·load/Rated
//
// Heat is on the lower basis, so that the line holds for any fuel the engine
// takes. [FitWillans] makes one from plate points, [WillansFromPlate] from two,
// [TypicalConsumption] from the class of the engine.
//
// Source: P. W. Willans, 1888, for steam engines; L. Guzzella and C. H. Onder,
// Introduction to Modeling and Control of Internal Combustion Engine Systems,
// for engines.
type Willans struct {
	Rated    units.Power // full load; required
	NoLoad   units.Power // heat without load at governed speed; required
	FullLoad units.Power // heat at full load; required, at least Rated/0.6
}

// Validate returns every problem of w, joined in field order.
func (w Willans) Validate() error {
	err := errors.Join(
		checkPositivePower("rated", w.Rated),
		checkPositivePower("noLoad", w.NoLoad),
		checkPositivePower("fullLoad", w.FullLoad))
	switch {
	case err != nil:
		return err
	case w.FullLoad <= w.NoLoad:
		return &units.FieldError{
			Path: "fullLoad", Value: w.FullLoad.Text(units.Kilowatt, 3),
			Want: "more than without load, " + w.NoLoad.Text(units.Kilowatt, 3), Err: units.ErrConflict,
		}
	case float64(w.Rated) > bestEfficiency*float64(w.FullLoad):
		return tooGood("fullLoad", w.Rated, w.FullLoad)
	}
	return nil
}

// tooGood is the error for a load got from too little heat.
func tooGood(path string, load, heat units.Power) error {
	return &units.FieldError{
		Path:  path,
		Value: heat.Text(units.Kilowatt, 3) + " of heat",
		Want:  "at least " + (load/bestEfficiency).Text(units.Kilowatt, 3) + " for " + load.Text(units.Kilowatt, 3) + " of load",
		Err:   units.ErrConflict,
	}
}

// Burn returns what a load costs in a fuel.
//
// Errors: a *[units.FieldError] for a field of w, a load below zero or above
// Rated, or a fuel without density or lower heating value ("fuel.…").
func (w Willans) Burn(load units.Power, p Properties) (Burn, error) {
	err := errors.Join(w.Validate(), checkBurned(p))
	if err == nil {
		err = checkLoad(load, w.Rated)
	}
	if err != nil {
		return Burn{}, err
	}
	heat := float64(w.NoLoad) + float64(w.FullLoad-w.NoLoad)*float64(load/w.Rated)
	return newBurn(float64(load), heat, p), nil
}

// A ConsumptionPoint is one line of a fuel table.
type ConsumptionPoint struct {
	Load units.Power
	Rate units.FuelRate
}

// checkPoints wants points of rising load and rate.
func checkPoints(points []ConsumptionPoint, p Properties) error {
	err := checkBurned(p)
	if len(points) < 2 {
		err = errors.Join(err, missing("points", "two or more"))
	}
	for i, x := range points {
		at := "points[" + strconv.Itoa(i) + "]"
		pointErr := errors.Join(units.At(at, checkPower("load", x.Load)), units.At(at, checkPositiveRate("rate", x.Rate)))
		if pointErr == nil && i > 0 {
			before := points[i-1]
			if !(x.Load > before.Load) {
				pointErr = &units.FieldError{
					Path: at + ".load", Value: x.Load.Text(units.Kilowatt, 3),
					Want: "more than the point before, " + before.Load.Text(units.Kilowatt, 3), Err: units.ErrConflict,
				}
			} else if !(x.Rate > before.Rate) {
				pointErr = &units.FieldError{
					Path: at + ".rate", Value: x.Rate.Text(units.GallonPerHour, 3),
					Want: "more than the point before, " + before.Rate.Text(units.GallonPerHour, 3), Err: units.ErrConflict,
				}
			}
		}
		if heat := units.Power(float64(x.Rate) * float64(p.Lower)); pointErr == nil && err == nil && float64(x.Load) > bestEfficiency*float64(heat) {
			pointErr = tooGood(at+".rate", x.Load, heat)
		}
		err = errors.Join(err, pointErr)
	}
	return err
}

// A ConsumptionCurve is a fuel table: straight lines between its points. Make
// one with [NewConsumptionCurve]; it does not change and is safe to share.
type ConsumptionCurve struct {
	load, heat []float64 // W; the first point is at no load
	extended   float64   // loads below this were not in the table
}

// NewConsumptionCurve makes a curve from the points of a fuel table, two or
// more, and the fuel it was measured with. Between points it is straight, since
// engines at one speed nearly are. Below the lowest load it goes on along the
// line through the first two points, and says so ([Burn.Extended]); above the
// highest it ends, because that is the rating.
//
// Errors: a *[units.FieldError] for fewer than two points, a fuel without density
// or lower heating value, and ErrConflict for loads or rates that do not rise, a
// load that would be more than 60 % of its fuel's heat, or two lowest points
// whose line has no fuel left without load.
func NewConsumptionCurve(points []ConsumptionPoint, p Properties) (*ConsumptionCurve, error) {
	if err := checkPoints(points, p); err != nil {
		return nil, err
	}
	c := &ConsumptionCurve{}
	first, second := points[0], points[1]
	if first.Load > 0 {
		slope := float64(second.Rate-first.Rate) / float64(second.Load-first.Load)
		none := float64(first.Rate) - slope*float64(first.Load)
		if !(none > 0) {
			return nil, &units.FieldError{
				Path:  "points[0].rate",
				Value: first.Rate.Text(units.GallonPerHour, 3),
				Want:  "a line through the first two points that still burns fuel without load, or a point without load",
				Err:   units.ErrConflict,
			}
		}
		c.load, c.heat = []float64{0}, []float64{none * float64(p.Lower)}
		c.extended = float64(first.Load)
	}
	for _, x := range points {
		c.load = append(c.load, float64(x.Load))
		c.heat = append(c.heat, float64(x.Rate)*float64(p.Lower))
	}
	return c, nil
}

// Full returns the highest load of the table.
func (c *ConsumptionCurve) Full() units.Power {
	if c == nil || len(c.load) == 0 {
		return 0
	}
	return units.Power(c.load[len(c.load)-1])
}

// Burn returns what a load costs in a fuel.
//
// Errors: a *[units.FieldError] for a curve not made by [NewConsumptionCurve], a
// load below zero or above [ConsumptionCurve.Full], or a fuel without density or
// lower heating value ("fuel.…").
func (c *ConsumptionCurve) Burn(load units.Power, p Properties) (Burn, error) {
	if c == nil || len(c.load) == 0 {
		return Burn{}, missing("points", "two or more")
	}
	if err := errors.Join(checkLoad(load, c.Full()), checkBurned(p)); err != nil {
		return Burn{}, err
	}
	x := float64(load)
	i, _ := slices.BinarySearch(c.load, x)
	i = min(max(i, 1), len(c.load)-1)
	share := (x - c.load[i-1]) / (c.load[i] - c.load[i-1])
	b := newBurn(x, c.heat[i-1]+share*(c.heat[i]-c.heat[i-1]), p)
	b.Extended = x < c.extended
	return b, nil
}

// A WillansFit is a line drawn through a fuel table.
type WillansFit struct {
	Willans Willans
	Worst   units.Ratio // largest difference of line and point, over the point
	At      int         // index of that point
}

// FitWillans draws the line of least squares through the points of a fuel table,
// two or more, measured with a fuel. Worst says how straight the table is.
//
// Errors: as for [NewConsumptionCurve]; ErrConflict too if the line has no fuel
// left without load.
func FitWillans(points []ConsumptionPoint, p Properties) (WillansFit, error) {
	if err := checkPoints(points, p); err != nil {
		return WillansFit{}, err
	}
	x, y := make([]float64, len(points)), make([]float64, len(points))
	for i, q := range points {
		x[i], y[i] = float64(q.Load), float64(q.Rate)*float64(p.Lower)
	}
	none, slope := stat.LinearRegression(x, y, nil, false)
	full := x[len(x)-1]
	f := WillansFit{Willans: Willans{
		Rated: units.Power(full), NoLoad: units.Power(none), FullLoad: units.Power(none + slope*full),
	}}
	if !(none > 0) {
		return WillansFit{}, &units.FieldError{
			Path: "points", Value: "no fuel without load on the line through them",
			Want: "points whose line still burns fuel without load", Err: units.ErrConflict,
		}
	}
	if err := f.Willans.Validate(); err != nil {
		return WillansFit{}, units.At("points", err)
	}
	for i := range x {
		if d := units.Ratio(max(none+slope*x[i]-y[i], y[i]-none-slope*x[i]) / y[i]); d > f.Worst {
			f.Worst, f.At = d, i
		}
	}
	return f, nil
}

// WillansFromPlate returns the line through two points of a fuel table, of which
// the second is the rating: half and full load, or no load and full load.
//
// Errors: as for [NewConsumptionCurve].
func WillansFromPlate(part, full ConsumptionPoint, p Properties) (Willans, error) {
	c, err := NewConsumptionCurve([]ConsumptionPoint{part, full}, p)
	if err != nil {
		return Willans{}, err
	}
	return Willans{Rated: full.Load, NoLoad: units.Power(c.heat[0]), FullLoad: units.Power(c.heat[len(c.heat)-1])}, nil
}

// SpecificRate returns the volume flow of a fuel at a load and a specific
// consumption b, b·P/ρ.
//
// Errors: a *[units.FieldError] for a specific consumption outside 0.05 to 5
// lb/(hp·h), a load below zero, or a fuel without density.
func SpecificRate(b units.SpecificFuelConsumption, load units.Power, p Properties) (units.FuelRate, error) {
	err := errors.Join(checkPower("load", load), units.At("fuel", checkDensity("density", p.Density)))
	switch lb := b.In(units.PoundPerHorsepowerHour); {
	case b == 0:
		err = errors.Join(missing("specific", "0.05 to 5 lb/(hp·h)"), err)
	case !within(lb, 0.05, 5):
		err = errors.Join(outside("specific", number(lb)+" lb/(hp·h)", "0.05 to 5 lb/(hp·h)"), err)
	}
	if err != nil {
		return 0, err
	}
	return units.FuelRate(float64(b) * float64(load) / float64(p.Density)), nil
}

// A Class is a family of engines with consumption in common.
type Class uint8

// The classes. The zero Class is "not given".
const (
	SmallGasoline Class = iota + 1 // carburetted or injected, air cooled, below 40 hp
	SmallDiesel                    // below 100 hp
	SmallGas                       // spark ignition on propane or natural gas
)

// String returns the class in words.
func (c Class) String() string {
	switch c {
	case SmallGasoline:
		return "small gasoline engine"
	case SmallDiesel:
		return "small diesel engine"
	case SmallGas:
		return "small gas engine"
	}
	return "not given"
}

// A TypicalLine is a band of lines for a class of engine.
type TypicalLine struct {
	Low, Usual, High Willans // least, usual and most fuel
	Source           string
	Status           Status
}

// TypicalConsumption returns what engines of a class burn at a rating, for want
// of a fuel table. It is a starting guess: two points of the engine's own table
// are worth more ([WillansFromPlate]).
//
//	full load, lb/(hp·h)      fuel without load over full load
//	gasoline  0.50 0.55 0.60  0.20 0.30 0.38
//	diesel    0.38 0.408 0.44 0.15 0.20 0.30
//
// A gas engine takes the heat of a gasoline engine.
//
// Errors: a *[units.FieldError] for a class that is none, or a rating that is not
// above zero.
func TypicalConsumption(c Class, rated units.Power) (TypicalLine, error) {
	if err := checkPositivePower("rated", rated); err != nil {
		return TypicalLine{}, err
	}
	line := func(lb float64, lower units.HeatingValueByMass, share float64) Willans {
		full := float64(rated) * lb * float64(units.PoundPerHorsepowerHour) * float64(lower)
		return Willans{Rated: rated, NoLoad: units.Power(share * full), FullLoad: units.Power(full)}
	}
	switch c {
	case SmallGasoline, SmallGas:
		const lower = 18_680 * units.BTUPerPound // gasoline, GREET
		return TypicalLine{
			Low: line(0.50, lower, 0.20), Usual: line(0.55, lower, 0.30), High: line(0.60, lower, 0.38),
			Source: "full load 0.50 to 0.60 lb/(hp·h) in the trade; without load 0.20 from generator sheets, 0.38 from ASAE D497 for gasoline tractors",
			Status: CommonPractice,
		}, nil
	case SmallDiesel:
		const lower = 18_320 * units.BTUPerPound // low-sulfur diesel, GREET
		return TypicalLine{
			Low: line(0.38, lower, 0.15), Usual: line(0.408, lower, 0.20), High: line(0.44, lower, 0.30),
			Source: "full load 0.408 lb/(hp·h) from the EPA nonroad model below 100 hp, 0.44 and 0.30 without load from ASABE EP496 for tractors, 0.38 and 0.15 from generator charts",
			Status: FromMemory,
		}, nil
	}
	if c == 0 {
		return TypicalLine{}, missing("class", "small gasoline, small diesel or small gas engine")
	}
	return TypicalLine{}, outside("class", number(float64(c)), "small gasoline, small diesel or small gas engine")
}

// An Idle is what an engine burns without load at two speeds.
type Idle struct {
	Governed units.FuelRate // at governed speed
	Idling   units.FuelRate // at idle speed
	Saved    units.FuelRate // the difference
}

// IdleDown returns what an idle-down device saves while nothing is asked of the
// engine.
//
//	idling = governed·n_idle/n_governed
//
// Without load the fuel pays for friction, whose power falls with the speed if
// its mean pressure stays. Tractor tests save 0.88 of that (ASABE EP496, from
// memory), so take the saving as high by an eighth. What the slow engine does to
// its generator's voltage and frequency is not fuel's to say.
//
// Errors: a *[units.FieldError] for the fuel, a consumption that is missing, or
// an idle speed that is not above zero and at most the governed one.
//
// Source: constant friction mean effective pressure; no published value for small
// engines was found.
func IdleDown(c Consumption, p Properties, governed, idle units.RotationalSpeed) (Idle, error) {
	err := errors.Join(checkPositiveSpeed("governed", governed), checkPositiveSpeed("idle", idle))
	if err == nil && idle > governed {
		err = &units.FieldError{
			Path: "idle", Value: idle.Text(units.RPM, 0),
			Want: "at most the governed speed, " + governed.Text(units.RPM, 0), Err: units.ErrConflict,
		}
	}
	if c == nil {
		err = errors.Join(err, missing("consumption", "a line or a table"))
	}
	if err != nil {
		return Idle{}, err
	}
	b, err := c.Burn(0, p)
	if err != nil {
		return Idle{}, err
	}
	slow := b.Rate * units.FuelRate(idle/governed)
	return Idle{Governed: b.Rate, Idling: slow, Saved: b.Rate - slow}, nil
}
