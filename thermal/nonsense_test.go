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
					if mustWork || !errors.As(err, &field) || field.Path == "" {
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
	return []call{
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
