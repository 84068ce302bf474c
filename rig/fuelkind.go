package rig

import (
	"example.com/washrig/fuel"
	"example.com/washrig/units"
)

// fuelWord maps the words of a specification to the fuels of the table. What
// a pump label calls gasoline holds ethanol; heating oil is No. 2 diesel.
func fuelWord(word string) fuel.Kind {
	switch word {
	case "gasoline":
		return fuel.GasolineE10
	case "gasoline-e0":
		return fuel.GasolineE0
	case "diesel", "oil":
		return fuel.Diesel2
	case "diesel-1":
		return fuel.Diesel1
	case "kerosene":
		return fuel.Kerosene
	case "biodiesel-b5":
		return fuel.BiodieselB5
	case "biodiesel-b20":
		return fuel.BiodieselB20
	case "propane":
		return fuel.Propane
	case "natural-gas":
		return fuel.NaturalGas
	}
	return 0
}

func fuelOf(word string) (fuel.Properties, bool) {
	p, err := fuel.PropertiesOf(fuelWord(word))
	return p, err == nil
}

// A family groups fuels that one machine takes: a spark engine takes either
// gasoline, a diesel engine and an oil burner any of the middle distillates.
func fuelFamily(word string) string {
	switch word {
	case "gasoline", "gasoline-e0":
		return "gasoline"
	case "diesel", "diesel-1", "oil", "kerosene", "biodiesel-b5", "biodiesel-b20":
		return "distillate"
	}
	return word
}

// consumptionClass is the family of engines that burn a fuel.
func consumptionClass(word string) fuel.Class {
	switch fuelFamily(word) {
	case "gasoline":
		return fuel.SmallGasoline
	case "distillate":
		return fuel.SmallDiesel
	}
	return fuel.SmallGas
}

// ownGenerator is the efficiency that stands for a generator with its own
// engine when its fuel is derived from its run rating.
const ownGenerator = 0.78

// deriveFuelRates fills the two points of a fuel table that an engine's plate
// leaves out, from engines of its class.
func (m *Model) deriveFuelRates() []error {
	s := m.spec
	tankFuel := func(id string) string {
		for i := range s.FuelTanks {
			if s.FuelTanks[i].ID == id {
				return s.FuelTanks[i].Fuel
			}
		}
		return ""
	}
	// rates returns the band of what a class burns at a share of its rating.
	rates := func(word string, rated units.Power, share float64) (Band, bool) {
		p, ok := fuelOf(word)
		if !ok || rated <= 0 {
			return Band{}, false
		}
		line, err := fuel.TypicalConsumption(consumptionClass(word), rated)
		if err != nil {
			return Band{}, false
		}
		var b Band
		for _, x := range []struct {
			w  fuel.Willans
			to *units.Quantity
		}{{line.Low, &b.Low}, {line.Usual, &b.Usual}, {line.High, &b.High}} {
			burn, err := x.w.Burn(rated*units.Power(share), p)
			if err != nil {
				return Band{}, false
			}
			*x.to = burn.Rate.Quantity()
		}
		b.Source = "engines of its class: " + line.Source
		return b, true
	}
	fill := func(at Path, word string, rated units.Power, full, half *units.FuelRate) {
		for _, x := range []struct {
			name  string
			share float64
			to    *units.FuelRate
		}{{"full_load_rate", 1, full}, {"half_load_rate", 0.5, half}} {
			if *x.to != 0 {
				continue
			}
			if b, ok := rates(word, rated, x.share); ok {
				*x.to = units.FuelRate(b.Usual.SI())
				m.assume(at+"."+Path(x.name), b)
			}
		}
	}
	for i := range s.Engines {
		e := &s.Engines[i]
		if (e.FullLoadRate == 0) != (e.HalfLoadRate == 0) {
			continue // half a table is asked for whole; see checkSense
		}
		fill(Path("engines["+e.ID+"]"), tankFuel(e.FuelTank), e.GrossPower, &e.FullLoadRate, &e.HalfLoadRate)
	}
	for i := range s.Sources {
		g := &s.Sources[i]
		if g.FuelTank == "" || g.Engine != "" || (g.FullLoadRate == 0) != (g.HalfLoadRate == 0) {
			continue
		}
		fill(Path("sources["+g.ID+"]"), tankFuel(g.FuelTank), g.Running/ownGenerator, &g.FullLoadRate, &g.HalfLoadRate)
	}
	return nil
}

// siteEngine is an engine of the specification as package fuel takes it.
func siteEngine(s *Spec, e *Engine) fuel.Engine {
	out := fuel.Engine{Gross: e.GrossPower, Net: e.NetPower, Continuous: e.ContinuousShare, Ignition: fuel.Spark, Aspiration: fuel.NaturallyAspirated,
		Plate: fuel.PlateDerating{PerThousandFeet: e.PerThousandFeet, PerTenFahrenheitAbove: e.PerTenFahrenheit}}
	word := e.Burns
	for i := range s.FuelTanks {
		if word == "" && s.FuelTanks[i].ID == e.FuelTank {
			word = s.FuelTanks[i].Fuel
		}
	}
	if fuelFamily(word) == "distillate" {
		out.Ignition = fuel.Compression
	}
	if e.Aspiration == "turbocharged" {
		out.Aspiration = fuel.Turbocharged
	}
	switch e.Correction {
	case "j1349":
		out.Correction = fuel.ByJ1349
	case "iso3046":
		out.Correction = fuel.ByISO3046
	}
	return out
}

// senseOfCurve refuses full-throttle curves whose points do not make one.
func senseOfCurve(e *Engine) []error {
	at := "engines[" + e.ID + "].curve"
	if len(e.Curve) == 1 {
		return []error{&units.FieldError{Path: at, Want: "two points or more", Err: units.ErrMissing}}
	}
	var errs []error
	for i := 1; i < len(e.Curve); i++ {
		p, before := &e.Curve[i], &e.Curve[i-1]
		if p.Speed != 0 && !(float64(p.Speed) > float64(before.Speed)*(1+1e-9)) {
			errs = append(errs, &units.FieldError{Path: at + "[" + p.ID + "].speed", Value: exact(p.Speed), Want: "more than the point before, " + exact(before.Speed), Err: units.ErrConflict})
		}
	}
	if len(errs) > 0 || len(e.Curve) == 0 || e.NoLoadSpeed == 0 {
		return errs
	}
	full := e.NoLoadSpeed / units.RotationalSpeed(1+e.Droop)
	if low, high := e.Curve[0].Speed, e.Curve[len(e.Curve)-1].Speed; low != 0 && high != 0 && (full < low || full > high) {
		errs = append(errs, &units.FieldError{Path: "engines[" + e.ID + "].no_load_speed", Value: exact(e.NoLoadSpeed),
			Want: "full load on the curve, with the droop between " + exact(low) + " and " + exact(high), Err: units.ErrConflict})
	}
	return errs
}
