package tank_test

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/units"
)

// Every exported struct whose zero value means nothing says so and does not panic.
func TestZeroValues(t *testing.T) {
	for name, f := range map[string]func() error{
		"Shape":          func() error { _, err := tank.Shape{}.Capacity(); return err },
		"Opening":        func() error { _, err := tank.Opening{}.Flow(1, cold); return err },
		"Vent":           func() error { _, err := tank.Vent{}.Pressure(1e-3); return err },
		"Drain":          func() error { _, err := tank.Drain{}.Drain(); return err },
		"System":         func() error { _, err := new(tank.System).Run(nil, 1, tank.RunOptions{}); return err },
		"System, spread": func() error { _, err := new(tank.System).Spread(nil); return err },
		"System, levels": func() error { _, err := new(tank.System).Levels(nil); return err },
		"System, fill":   func() error { _, _, err := new(tank.System).LargestFill(nil, 0, 0.9, 1e-2); return err },
		"Suction":        func() error { _, err := tank.Suction{}.Head(); return err },
		"Suction, cures": func() error { _, err := tank.Suction{}.Cures(tank.CureOptions{}); return err },
		"Pulsation":      func() error { _, err := tank.Pulsation{}.Head(1e-3); return err },
		"RequiredHead":   func() error { _, err := tank.RequiredHead{}.At(100); return err },
		"Strainer":       func() error { _, err := tank.Strainer{}.Drop(1e-3); return err },
		"Mesh":           func() error { _, err := tank.Mesh{}.Opening(); return err },
		"Supply":         func() error { _, err := tank.Supply{}.PressureAt(1e-3); return err },
		"Filling":        func() error { _, err := tank.Filling{}.Flow(); return err },
		"PumpCurve":      func() error { _, err := tank.PumpCurve{}.FlowAt(1); return err },
		"Accumulator":    func() error { _, err := tank.Accumulator{}.Drawdown(); return err },
	} {
		var e *units.FieldError
		if err := f(); !errors.As(err, &e) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if (tank.Vent{}).Given() || (tank.Strainer{}).Given() || (tank.Pulsation{}).Given() {
		t.Error("a zero value counts as given")
	}
}

// A number that is none, negative or without end is refused in every field, and
// never comes back in an answer.
func TestNotANumber(t *testing.T) {
	bad := []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1}
	pipe := tank.Opening{Bore: 0.05, K: 2, Length: 1, Roughness: 1e-6}
	box := tank.Shape{Form: tank.Box, Length: 1, Width: 0.8, Height: 0.7}
	lying := tank.Shape{Form: tank.LyingCylinder, Length: 1, Diameter: 0.8, Ends: tank.Dished, Dish: 0.2}
	for name, c := range map[string]struct {
		value any // a struct; each of its numbers is spoilt in turn
		call  func(v any) error
		may   []string // fields in which a negative number is sound
	}{
		"Opening":     {pipe, func(v any) error { _, err := v.(tank.Opening).Flow(1, cold); return err }, nil},
		"box":         {box, func(v any) error { return v.(tank.Shape).Validate() }, nil},
		"lying":       {lying, func(v any) error { return v.(tank.Shape).Validate() }, nil},
		"Vent":        {tank.Vent{Bore: 0.02, Coefficient: 0.6, Air: 1.2}, func(v any) error { _, err := v.(tank.Vent).Pressure(1e-3); return err }, nil},
		"Drain":       {tank.Drain{Shape: box, From: 0.6, To: 0.1, Port: 0.05, Outlet: pipe, Fluid: cold}, func(v any) error { _, err := v.(tank.Drain).Drain(); return err }, nil},
		"Strainer":    {tank.Strainer{Loss: 1e4, Flow: 1e-3, Blocked: 0.5}, func(v any) error { _, err := v.(tank.Strainer).Drop(1e-3); return err }, nil},
		"Mesh":        {tank.Mesh{PerInch: 20, Wire: 4e-4}, func(v any) error { _, err := v.(tank.Mesh).OpenShare(); return err }, nil},
		"Supply":      {tank.Supply{Static: 4e5, Residual: 3e5, Flow: 1e-3}, func(v any) error { _, err := v.(tank.Supply).PressureAt(1e-3); return err }, nil},
		"Accumulator": {tank.Accumulator{Volume: 0.1, Precharge: 1e5, CutIn: 2e5, CutOut: 3e5, Site: 1e5}, func(v any) error { _, err := v.(tank.Accumulator).Drawdown(); return err }, nil},
		"Pulsation": {tank.Pulsation{Plungers: 3, Speed: 100, Line: tank.Stabilised, Bore: 0.03, Length: 2, Moved: 0.5, Liquid: 1.4},
			func(v any) error { _, err := v.(tank.Pulsation).Head(1e-3); return err }, []string{"Length"}},
		"Suction": {tank.Suction{Site: 9e4, Water: units.Celsius(20), Level: 1, Flow: 1e-3},
			func(v any) error { _, err := v.(tank.Suction).Head(); return err }, []string{"Level"}},
	} {
		if err := c.call(c.value); err != nil {
			t.Errorf("%s: the sound value is refused: %v", name, err)
			continue
		}
		typ := reflect.TypeOf(c.value)
		for i := range typ.NumField() {
			if typ.Field(i).Type.Kind() != reflect.Float64 || reflect.ValueOf(c.value).Field(i).Float() == 0 && name != "Suction" {
				continue
			}
			for _, x := range bad {
				if x == -1 && (typ.Field(i).Name == "Level" || (name == "Pulsation" && typ.Field(i).Name == "Length")) {
					continue
				}
				v := reflect.New(typ).Elem()
				v.Set(reflect.ValueOf(c.value))
				v.Field(i).SetFloat(x)
				var e *units.FieldError
				if err := c.call(v.Interface()); !errors.As(err, &e) {
					if name == "Pulsation" && typ.Field(i).Name == "Length" {
						continue // not read behind a stabiliser unless it is shorter than what moves
					}
					t.Errorf("%s.%s = %g: %v", name, typ.Field(i).Name, x, err)
				}
			}
		}
	}
	nan := math.NaN()
	for name, f := range map[string]func() error{
		"DrainTime":      func() error { _, err := tank.DrainTime(1, 0.05, 0.6, units.Length(nan), 0); return err },
		"DrainTime, to":  func() error { _, err := tank.DrainTime(1, 0.05, 0.6, 1, units.Length(nan)); return err },
		"Equalizing":     func() error { _, err := tank.EqualizingTime(1, 0, 0.05, 0.6, 1, 0); return err },
		"SteadyCrossing": func() error { _, err := tank.SteadyCrossing(units.VolumeFlow(nan), 1, 1, pipe, cold); return err },
		"Head":           func() error { _, err := pipe.Head(units.VolumeFlow(nan), cold); return err },
		"fluid": func() error {
			_, err := pipe.Flow(1, hydraulics.Fluid{Density: units.Density(nan), Viscosity: 1e-3})
			return err
		},
		"AirGap":        func() error { _, err := tank.AirGap(units.Length(nan), false); return err },
		"FlushVolume":   func() error { _, err := tank.FlushVolume(1, 1, 0); return err },
		"LeastSubmerg.": func() error { _, err := tank.LeastSubmergence(0.05, units.VolumeFlow(nan)); return err },
		"FillTrend":     func() error { _, err := tank.FillTrend(1e-3, 1e-3, 2, 1, 1); return err },
		"Boost":         func() error { _, err := tank.Boost(units.Length(nan), 1, 1); return err },
		"Acceleration":  func() error { _, err := tank.AccelerationHead(1, 1, 1, nan, 1.4); return err },
		"UsableVolume":  func() error { _, err := tank.UsableVolume(box, 5, 0, 0); return err },
		"ServiceLoss":   func() error { _, err := tank.ServiceLoss(box, 5, 0, false); return err },
		"line of nil": func() error {
			_, err := tank.Suction{Site: 9e4, Water: units.Celsius(20), Flow: 1e-3, Line: []hydraulics.Element{nil}}.Head()
			return err
		},
	} {
		var e *units.FieldError
		if err := f(); !errors.As(err, &e) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestShape_refuses(t *testing.T) {
	for name, s := range map[string]tank.Shape{
		"a box with a diameter":         {Form: tank.Box, Length: 1, Width: 1, Height: 1, Diameter: 1},
		"an area of a cylinder":         {Form: tank.UprightCylinder, Diameter: 1, Height: 1, Area: 1},
		"ends of a box":                 {Form: tank.Box, Length: 1, Width: 1, Height: 1, Ends: tank.Dished, Dish: 0.1},
		"a dish deeper than its sphere": {Form: tank.LyingCylinder, Diameter: 1, Length: 1, Ends: tank.Dished, Dish: 0.6},
	} {
		if err := s.Validate(); !errors.Is(err, units.ErrConflict) {
			t.Errorf("%s: %v", name, err)
		}
	}
	s := tank.Shape{Form: tank.Box, Length: 1, Width: 1, Height: 1}
	for _, h := range []units.Length{-0.1, 1.1} {
		if _, err := s.Volume(h); !errors.Is(err, units.ErrRange) {
			t.Errorf("level %v: %v", h, err)
		}
		if _, err := s.Level(units.Volume(h)); !errors.Is(err, units.ErrRange) {
			t.Errorf("volume %v: %v", h, err)
		}
	}
	if s := tank.UprightOf(1, 0); s.Validate() == nil {
		t.Error("a tank without height is sound")
	}
}

func TestNames(t *testing.T) {
	for got, want := range map[string]string{
		tank.Box.String(): "box", tank.Dished.String(): "dished", tank.StiffPipe.String(): "stiff pipe",
		tank.SpillBegins.String(): "spill begins", tank.CleanStrainer.String(): "clean the strainer",
		tank.Form(99).String(): "unknown form", tank.End(9).String(): "unknown end", tank.LineKind(9).String(): "unknown line",
		tank.EventKind(99).String(): "unknown event", tank.CureKind(99).String(): "unknown cure",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if b := tank.TypicalMoved(); !(b.Low < b.Usual && b.Usual < b.High && b.Source != "") {
		t.Errorf("%+v", b)
	}
}
