package thermal

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"testing"

	"example.com/washrig/units"
)

// A call is an exported function with arguments that it accepts.
type call struct {
	name string
	f    any
	args []any
}

var temperatureType = reflect.TypeFor[units.Temperature]()

// spots returns a setter for every number inside v, with its path.
func spots(path string, v reflect.Value) (names []string, set []func(float64)) {
	add := func(n string, s func(float64)) { names, set = append(names, n), append(set, s) }
	switch {
	case v.Type() == temperatureType:
		add(path, func(x float64) { v.Set(reflect.ValueOf(units.Kelvin(x))) })
	case v.Kind() == reflect.Float64:
		add(path, v.SetFloat)
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if !v.Type().Field(i).IsExported() {
				continue
			}
			n, s := spots(path+"."+v.Type().Field(i).Name, v.Field(i))
			names, set = append(names, n...), append(set, s...)
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			n, s := spots(fmt.Sprintf("%s[%d]", path, i), v.Index(i))
			names, set = append(names, n...), append(set, s...)
		}
	}
	return names, set
}

// copied returns a deep copy of v that can be set.
func copied(v reflect.Value) reflect.Value {
	c := reflect.New(v.Type()).Elem()
	c.Set(v)
	switch v.Kind() {
	case reflect.Slice:
		c.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		for i := range v.Len() {
			c.Index(i).Set(copied(v.Index(i)))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				c.Field(i).Set(copied(v.Field(i)))
			}
		}
	}
	return c
}

// notANumber finds a NaN or an infinity inside a result.
func notANumber(path string, v reflect.Value) string {
	switch {
	case v.Type() == temperatureType:
		if k := v.Interface().(units.Temperature).Kelvin(); !finite(k) || k < 0 {
			return fmt.Sprintf("%s = %v K", path, k)
		}
	case v.Kind() == reflect.Float64:
		if !finite(v.Float()) {
			return fmt.Sprintf("%s = %v", path, v.Float())
		}
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if s := notANumber(path+"."+v.Type().Field(i).Name, v.Field(i)); s != "" && v.Type().Field(i).IsExported() {
				return s
			}
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			if s := notANumber(fmt.Sprintf("%s[%d]", path, i), v.Index(i)); s != "" {
				return s
			}
		}
	}
	return ""
}

// Whatever number stands in whatever place, a function returns finite results or
// an error that names a field, and the arguments listed in [calls] are accepted.
func TestNonsense(t *testing.T) {
	strange := []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, -1e300, 1e-300, math.MaxFloat64}
	for _, c := range calls() {
		t.Run(c.name, func(t *testing.T) {
			fn := reflect.ValueOf(c.f)
			run := func(args []reflect.Value, what string, mustWork bool) {
				defer func() {
					if r := recover(); r != nil {
						t.Errorf("%s: panic: %v", what, r)
					}
				}()
				out := fn.Call(args)
				last := out[len(out)-1]
				if err, _ := last.Interface().(error); err != nil {
					var field *units.FieldError
					var solver *units.SolverError
					if mustWork || !(errors.As(err, &field) && field.Path != "" || errors.As(err, &solver)) {
						t.Errorf("%s: error %v", what, err)
					}
					for _, o := range out[:len(out)-1] {
						if !o.IsZero() && o.Kind() != reflect.Slice {
							t.Errorf("%s: a result beside the error: %+v", what, o)
						}
					}
					return
				}
				for i, o := range out[:len(out)-1] {
					if s := notANumber(fmt.Sprintf("result %d", i), o); s != "" {
						t.Errorf("%s: %s", what, s)
					}
				}
			}
			args := func() []reflect.Value {
				a := make([]reflect.Value, len(c.args))
				for i := range c.args {
					a[i] = copied(reflect.ValueOf(c.args[i]))
					if want := fn.Type().In(i); a[i].Type() != want {
						a[i] = a[i].Convert(want)
						w := reflect.New(want).Elem()
						w.Set(a[i])
						a[i] = w
					}
				}
				return a
			}
			run(args(), "as listed", true)
			total := 0
			for i := range c.args {
				names, _ := spots(fmt.Sprintf("argument %d", i), args()[i])
				total += len(names)
				for j := range names {
					for _, x := range strange {
						a := args()
						_, set := spots("", a[i])
						set[j](x)
						run(a, fmt.Sprintf("%s = %v", names[j], x), false)
					}
				}
			}
			if total == 0 {
				t.Error("no number to spoil")
			}
		})
	}
}

// calls lists every exported function and method that takes quantities.
func calls() []call {
	const (
		gpm = 3.5 * units.GallonPerMinute
		kw  = 100 * units.Kilowatt
	)
	in, out := units.Fahrenheit(45), units.Fahrenheit(166)
	oil := HHV(138500 * units.BTUPerGallon)
	bypass := Bypass{
		Power: 5 * units.Kilowatt, Volume: 2 * units.Liter, Start: in, Limit: units.Fahrenheit(145),
		Pressure: atm, Loss: 3 * units.WattPerKelvin, Surroundings: in,
	}
	heater := Heater{
		Output: kw, Flame: units.Kelvin(1900), Reference: units.Kelvin(400), Metal: 60 * units.Kilogram, MetalHeat: 490,
		Water: 7 * units.Liter, Conductance: 2500, Loss: 5, Surroundings: in,
	}
	feed := Feed{Flow: gpm, In: in, Line: at27}
	thermostat := Thermostat{Setting: out, Differential: 10 * units.FahrenheitDelta, StopDelay: 1, FireDelay: 10}
	state := HeaterState{units.Fahrenheit(250), out}
	around := Surroundings{
		Air: in, Site: atm, Wind: 3, Radiant: units.Fahrenheit(30), Wet: 0.3, Humidity: 0.5,
		Contact: 0.2, Ground: in, ContactCoefficient: 80,
	}
	frost := around
	frost.Air, frost.Radiant, frost.Ground = units.Celsius(-15), units.Celsius(-20), units.Celsius(-5)
	hose := Hose{
		Length: 150 * units.Foot, Bore: 3. / 8 * units.Inch, Outside: 0.69 * units.Inch, Conductivity: 0.2,
		Emissivity: 0.9, WallDensity: 1200, WallHeat: 1500,
	}
	part, err := hose.Exposed()
	if err != nil {
		panic(err)
	}
	part.Wall = 50
	dry := Surroundings{Air: frost.Air, Site: frost.Site, Wind: frost.Wind}
	shut := ShutIn{
		Metal: 60 * units.Kilogram, MetalHeat: 490, MetalTemperature: units.Fahrenheit(260), Conductance: 2500,
		Coil: 7 * units.Liter, CoilTemperature: out, Line: 3 * units.Liter, LineTemperature: units.Fahrenheit(160),
		Loss: 5, Surroundings: in, Pressure: at27, Stretch: 0.1 * units.Liter, StretchAt: 3000 * units.PSI,
		Air: 0.01 * units.Liter, Relief: at27 + 500*units.PSIA,
	}
	closed := shut
	closed.Loss, closed.Surroundings = 0, units.Temperature{}
	tube := Tube{Bore: 0.546 * units.Inch, Outside: 0.84 * units.Inch, Length: 150 * units.Foot, Helix: 16 * units.Inch, Conductivity: 50}
	fired := FiredCoil{
		Input: kw, Efficiency: 0.9, Flame: units.Kelvin(1900), Air: in, Inlet: in, Flow: 0.4 * units.KilogramPerSecond,
		Outside: 3, Inside: 2,
	}
	soot, scale := Layer{0.5 * units.Millimeter, 0.1}, Layer{1 * units.Millimeter, 2}
	controls := Controls{Thermostat: thermostat, HighLimit: units.Fahrenheit(200), HighLimitDelay: 2, FlowSwitchDelay: 1}
	limits := []Limit{{"hose", units.Fahrenheit(250)}, {"coil", units.Fahrenheit(200)}}
	scaling := Scaling{Hardness: 300e-6, Deposited: 0.03, Flow: gpm, Bore: 0.546 * units.Inch, Length: 50 * units.Foot}
	spray := Spray{
		Temperature: out, Line: at27, Standoff: 1 * units.Foot, Velocity: 150, Fine: 100 * units.Micrometer,
		Coarse: 1 * units.Millimeter, Slowed: 0.3, Air: in, Humidity: 0.5, Site: atm,
	}
	flue := FlueReading{Oxygen: 0.05, Stack: units.Fahrenheit(420), Air: in, Humidity: 0.005, Site: atm}
	rated, now := Oil{850, 2.5 * units.Centistokes}, Oil{870, 6 * units.Centistokes}
	walther := OilViscosityLine{6 * units.Centistokes, 2.5 * units.Centistokes, units.Celsius(0), units.Celsius(40)}
	const ms = 0.3 * units.KilogramPerSecond
	return []call{
		{"InductionFan.FanSpeed", InductionFan.FanSpeed, []any{InductionFan{0.04, 2.2}, units.Ratio(0.9), units.Ratio(0.98)}},
		{"DCFan.FanSpeed", DCFan.FanSpeed, []any{DCFan{0.2}, units.Ratio(0.9)}},
		{"NozzleFlow", NozzleFlow, []any{1.5 * units.GallonPerHour, 140 * units.PSI}},
		{"NozzlePressure", NozzlePressure, []any{1.5 * units.GallonPerHour, 1.8 * units.GallonPerHour}},
		{"NozzleRating", NozzleRating, []any{1.8 * units.GallonPerHour, 140 * units.PSI}},
		{"NozzleOilFactor", NozzleOilFactor, []any{now, rated}},
		{"OilDensity", OilDensity, []any{units.Density(850), in}},
		{"OilViscosityLine.At", OilViscosityLine.At, []any{walther, units.Celsius(20)}},
		{"Fuel.Lower", Fuel.Lower, []any{LightHeatingOil()}},
		{"Fuel.MostCarbonDioxide", Fuel.MostCarbonDioxide, []any{LightHeatingOil()}},
		{"Fuel.Burn", Fuel.Burn, []any{LightHeatingOil(), flue}},
		{"Fuel.WaterDewPoint", Fuel.WaterDewPoint, []any{LightHeatingOil(), units.Ratio(0.11), atm}},
		{"SiegertFuel.LossByOxygen", SiegertFuel.LossByOxygen, []any{SiegertOil(), units.Fahrenheit(420), in, units.Ratio(0.05)}},
		{"SiegertFuel.LossByCarbonDioxide", SiegertFuel.LossByCarbonDioxide, []any{SiegertOil(), units.Fahrenheit(420), in, units.Ratio(0.11)}},
		{"Heater.After", Heater.After, []any{heater, feed, out, state, true, 30 * units.Second}},
		{"Heater.WarmUp", Heater.WarmUp, []any{heater, feed, in, units.Fahrenheit(150)}},
		{"Heater.Cycle", Heater.Cycle, []any{heater, feed, thermostat}},
		{"Heater.Release", Heater.Release, []any{heater, at27, state, 2 * units.Second}},
		{"Heater.Condensing", Heater.Condensing, []any{heater, feed, in, out, units.Fahrenheit(112)}},
		{"Heater.StandingHeatUp", Heater.StandingHeatUp, []any{heater, state, units.Fahrenheit(250), at27}},
		{"FaultTable", FaultTable, []any{heater, in, at27, controls, Faults(2*gpm, gpm), limits}},
		{"Outside", Outside, []any{0.69 * units.Inch, out, units.Ratio(0.9), around}},
		{"Hose.Deliver", Hose.Deliver, []any{hose, ms, out, at27, around}},
		{"Hose.Overall", Hose.Overall, []any{hose, ms, out, at27, around}},
		{"Cooled", Cooled, []any{out, in, units.ThermalConductance(20), ms, units.SpecificHeat(4186)}},
		{"Hose.Arrival", Hose.Arrival, []any{hose, ms, out, at27, units.Ratio(0.95)}},
		{"Hose.Exposed", Hose.Exposed, []any{hose}},
		{"Exposed.FreezeTimes", Exposed.FreezeTimes, []any{part, in, dry, units.Ratio(0.1)}},
		{"Exposed.Freeze", Exposed.Freeze, []any{part, in, frost, units.Ratio(0.1)}},
		{"CoolingTime", CoolingTime, []any{2 * units.Inch, units.ThermalConductance(0.3), in, units.Fahrenheit(32), units.Fahrenheit(0)}},
		{"PlankTime", PlankTime, []any{2 * units.Inch, units.HeatTransferCoefficient(20), units.Fahrenheit(0)}},
		{"PropyleneGlycolFreezingPoint", PropyleneGlycolFreezingPoint, []any{units.Ratio(0.4)}},
		{"PropyleneGlycolFor", PropyleneGlycolFor, []any{units.Fahrenheit(0)}},
		{"Dilute", Dilute, []any{units.Ratio(0.5), 2 * units.Gallon, 1 * units.Gallon}},
		{"AntifreezeNeeded", AntifreezeNeeded, []any{units.Ratio(0.5), units.Ratio(0.3), 1 * units.Gallon}},
		{"Displace", Displace, []any{[]Trapped{{1 * units.Gallon, 0.3 * units.Gallon}, {0.5 * units.Gallon, 0.5 * units.Gallon}}, units.Ratio(0.5), 2 * units.Gallon}},
		{"ScaldTime", ScaldTime, []any{ScaldCPSC, units.Fahrenheit(135)}},
		{"Mix", Mix, []any{10 * units.Kilogram, in, 30 * units.Kilogram, out, atm}},
		{"ThermalReliefFlow", ThermalReliefFlow, []any{8 * units.Kilowatt, in, units.Fahrenheit(140), atm}},
		{"ExpansionFlow", ExpansionFlow, []any{8 * units.Kilowatt, out, at27}},
		{"PressureRise", PressureRise, []any{out, at27}},
		{"ShutIn.Soak", ShutIn.Soak, []any{shut}},
		{"ShutIn.End", ShutIn.End, []any{closed}},
		{"TypicalDeposit", TypicalDeposit, []any{out}},
		{"Scaling.TimeToLoss", Scaling.TimeToLoss, []any{scaling, 60 * units.PSI, 100 * units.PSI}},
		{"FiredCoil.With", FiredCoil.With, []any{fired, soot, scale}},
		{"Tube.Conductance", Tube.Conductance, []any{tube, ms, out, at27, scale}},
		{"Tube.Water", Tube.Water, []any{tube}},
		{"Tube.Metal", Tube.Metal, []any{tube, units.Density(7850)}},
		{"Spray.AtSurface", Spray.AtSurface, []any{spray}},
		{"Evaporated", Evaporated, []any{out, at27, in, units.Ratio(0.5), atm}},
		{"MassFlow", MassFlow, []any{gpm, in, at27}},
		{"HeatRequired", HeatRequired, []any{gpm, in, out, at27}},
		{"OutletTemperature", OutletTemperature, []any{gpm, in, kw, at27}},
		{"RuleOf500", RuleOf500, []any{gpm, 100 * units.KelvinDelta}},
		{"RiseByRuleOf500", RiseByRuleOf500, []any{gpm, kw}},
		{"HeatingDuty", HeatingDuty, []any{gpm, in, out, at27}},
		{"PumpWarming", PumpWarming, []any{in, atm, at27}},
		{"ThrottleWarming", ThrottleWarming, []any{in, at27, atm}},
		{"PassWarming", PassWarming, []any{in, atm, at27}},
		{"BoilingPoint", BoilingPoint, []any{atm}},
		{"PressureToStayLiquid", PressureToStayLiquid, []any{out}},
		{"BoilingMargin", BoilingMargin, []any{out, atm}},
		{"FlashFraction", FlashFraction, []any{units.Fahrenheit(250), at27, atm}},
		{"FlashOfEnthalpy", FlashOfEnthalpy, []any{500 * units.SpecificEnthalpy(1e3), atm}},
		{"FlashByRule", FlashByRule, []any{units.Fahrenheit(250), atm}},
		{"EfficiencyHHV.OnLHV", EfficiencyHHV.OnLHV, []any{EfficiencyHHV(0.84), oil, LHV(128488 * units.BTUPerGallon)}},
		{"EfficiencyLHV.OnHHV", EfficiencyLHV.OnHHV, []any{EfficiencyLHV(0.9), oil, LHV(128488 * units.BTUPerGallon)}},
		{"HHVByMass.PerVolume", HHVByMass.PerVolume, []any{HHVByMass(45 * units.MegajoulePerKilogram), 850 * units.KilogramPerCubicMeter}},
		{"LHVByMass.PerVolume", LHVByMass.PerVolume, []any{LHVByMass(42 * units.MegajoulePerKilogram), 850 * units.KilogramPerCubicMeter}},
		{"HHV.PerMass", HHV.PerMass, []any{oil, 850 * units.KilogramPerCubicMeter}},
		{"FiringRate", FiringRate, []any{kw, EfficiencyHHV(0.84), oil}},
		{"FiringRateLHV", FiringRateLHV, []any{kw, EfficiencyLHV(0.9), LHV(128488 * units.BTUPerGallon)}},
		{"HeatFromFiring", HeatFromFiring, []any{3.5 * units.GallonPerHour, EfficiencyHHV(0.84), oil}},
		{"InputRating", InputRating, []any{3.5 * units.GallonPerHour, oil}},
		{"OutputFromInput", OutputFromInput, []any{kw, EfficiencyHHV(0.84)}},
		{"InputFromOutput", InputFromOutput, []any{kw, EfficiencyHHV(0.84)}},
		{"GasRate", GasRate, []any{kw, EfficiencyHHV(0.84), HHV(38e6)}},
		{"HeatFromGas", HeatFromGas, []any{0.01 * units.CubicMeterPerSecond, EfficiencyHHV(0.84), HHV(38e6)}},
		{"CleanFiringFactor", CleanFiringFactor, []any{atm, in}},
		{"CleanFiring", CleanFiring, []any{4.75 * units.GallonPerHour, atm, in, 1 * units.Ratio(1)}},
		{"Bypass.Heat", Bypass.Heat, []any{bypass}},
		{"HeatAtFlow", HeatAtFlow, []any{gpm, in, kw, out, at27}},
		{"HeatAtFlows", HeatAtFlows, []any{[]units.VolumeFlow{gpm, gpm / 2, 0}, in, kw, out, at27}},
	}
}
