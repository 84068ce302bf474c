package thermal

import (
	"errors"
	"testing"

	"example.com/washrig/units"
)

// The zero value of every struct that is passed in asks for what it lacks.
func TestZeroValues(t *testing.T) {
	_, heat := Bypass{}.Heat()
	_, _, after := Heater{}.After(Feed{}, units.Temperature{}, HeaterState{}, true, 1)
	_, warm := Heater{}.WarmUp(Feed{}, units.Temperature{}, units.Temperature{})
	_, cycle := Heater{}.Cycle(Feed{}, Thermostat{})
	_, faults := FaultTable(Heater{}, units.Temperature{}, 0, Controls{}, []Fault{{}}, []Limit{{}})
	_, soak := ShutIn{}.Soak()
	_, deliver := Hose{}.Deliver(0, units.Temperature{}, 0, Surroundings{})
	_, arrival := Hose{}.Arrival(0, units.Temperature{}, 0, 0)
	_, exposed := Hose{}.Exposed()
	_, freeze := Exposed{}.Freeze(units.Temperature{}, Surroundings{}, 0)
	_, displace := Displace([]Trapped{{}}, 0, 0)
	_, burn := Fuel{}.Burn(FlueReading{})
	_, fired := FiredCoil{}.With(Layer{}, Layer{})
	_, tube := Tube{}.Water()
	_, scaling := Scaling{}.TimeToLoss(0, 0)
	_, spray := Spray{}.AtSurface()
	_, fan := InductionFan{}.FanSpeed(1, 1)
	_, oil := NozzleOilFactor(Oil{}, Oil{})
	_, line := OilViscosityLine{}.At(units.Temperature{})
	_, gas := GasAltitudeFactor(units.Elevation{})
	for name, err := range map[string]error{
		"Bypass.Heat": heat, "Heater.After": after, "Heater.WarmUp": warm, "Heater.Cycle": cycle, "FaultTable": faults, "ShutIn.Soak": soak,
		"Hose.Deliver": deliver, "Hose.Arrival": arrival, "Hose.Exposed": exposed, "Exposed.Freeze": freeze, "Displace": displace,
		"Fuel.Burn": burn, "FiredCoil.With": fired, "Tube.Water": tube, "Scaling.TimeToLoss": scaling, "Spray.AtSurface": spray,
		"InductionFan.FanSpeed": fan, "NozzleOilFactor": oil, "OilViscosityLine.At": line, "GasAltitudeFactor": gas,
	} {
		if !errors.Is(err, units.ErrMissing) {
			t.Errorf("%s: %v", name, err)
		}
	}
	// What has no required part works.
	if n, err := (DCFan{}).FanSpeed(0.5); err != nil || n != 0.5 {
		t.Errorf("a motor without drop turns at %v, %v", n, err)
	}
	// Words for values out of range.
	for _, s := range []string{Phase(0).String(), Phase(9).String(), Regime(0).String(), Regime(9).String(), Guard(0).String(), Guard(9).String(), ScaldSeries(0).String()} {
		if len(s) < 7 || s[:7] != "invalid" {
			t.Errorf("%q", s)
		}
	}
}

// A problem deep inside names its place by the path a form knows.
func TestErrorPaths(t *testing.T) {
	h, s := stillAir()
	s.Wind = -1
	h.Bore = -1
	_, err := h.Deliver(0.2, units.Fahrenheit(170), at27, s)
	want := []string{"hose.bore", "surroundings.wind"}
	var paths []string
	for _, e := range flat(err) {
		var field *units.FieldError
		if errors.As(e, &field) {
			paths = append(paths, field.Path)
		}
	}
	if len(paths) != 2 || paths[0] != want[0] || paths[1] != want[1] {
		t.Errorf("paths %q, want %q", paths, want)
	}
}

// What is required with something else is asked for by its name, and only then.
func TestRequiredWith(t *testing.T) {
	shut := ShutIn{
		Metal: 60, MetalHeat: 490, MetalTemperature: units.Fahrenheit(260), Conductance: 2500, Coil: 7 * units.Liter,
		CoilTemperature: units.Fahrenheit(166), Pressure: at27,
	}
	heater := Heater{Output: 1e5, Metal: 60, MetalHeat: 490, Water: 7 * units.Liter, Conductance: 2500}
	bypass := Bypass{Power: 5e3, Volume: 2 * units.Liter, Start: units.Fahrenheit(45), Limit: units.Fahrenheit(145), Pressure: atm}
	part := Exposed{Water: 3 * units.Liter, Area: 2, Diameter: 0.02, Bore: 0.01, Emissivity: 0.9}
	around := Surroundings{Air: units.Celsius(-10), Site: atm}
	for name, err := range map[string]error{
		"ShutIn": shut.Validate(), "Heater": heater.Validate(), "Bypass": bypass.Validate(), "Exposed": part.Validate(), "Surroundings": around.Validate(),
	} {
		if err != nil {
			t.Errorf("%s without any of it: %v", name, err)
		}
	}
	line, stretch, loss := shut, shut, shut
	line.Line = 1 * units.Liter
	stretch.Stretch = 0.1 * units.Liter
	loss.Loss = 5
	leaky, flame := heater, heater
	leaky.Loss = 5
	flame.Flame = units.Kelvin(1900)
	tank, metal := bypass, part
	tank.Loss = 3
	metal.Metal = 10
	lying := around
	lying.Contact = 0.2
	for _, c := range []struct {
		path string
		err  error
	}{
		{"lineTemperature", line.Validate()}, {"stretchAt", stretch.Validate()}, {"surroundings", loss.Validate()},
		{"surroundings", leaky.Validate()}, {"reference", flame.Validate()}, {"surroundings", tank.Validate()},
		{"metalHeat", metal.Validate()}, {"ground", lying.Validate()}, {"contactCoefficient", lying.Validate()},
	} {
		var found bool
		for _, err := range flat(c.err) {
			var field *units.FieldError
			found = found || errors.As(err, &field) && field.Path == c.path && errors.Is(err, units.ErrMissing)
		}
		if !found {
			t.Errorf("%s is not asked for: %v", c.path, c.err)
		}
	}
}

// flat are the errors that were joined.
func flat(err error) []error {
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		var out []error
		for _, e := range j.Unwrap() {
			out = append(out, flat(e)...)
		}
		return out
	}
	return []error{err}
}
