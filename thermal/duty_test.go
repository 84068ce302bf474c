package thermal

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// A drawn is a heater's inlet drawn at random.
type drawn struct {
	flow units.VolumeFlow
	in   units.Temperature
	line units.AbsolutePressure
}

func draw(g *property.G) drawn {
	return drawn{
		units.VolumeFlow(g.LogFloat(0.3, 20)) * units.GallonPerMinute,
		units.Fahrenheit(g.Float(32, 110)),
		units.AbsolutePressure(g.LogFloat(1, 45)) * units.MegapascalAbsolute,
	}
}

// The outlet for the heat that an outlet requires is that outlet.
func TestOutletTemperature_inverse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		d := draw(g)
		want := units.Fahrenheit(g.Float(d.in.Fahrenheit(), 340))
		heat, err := HeatRequired(d.flow, d.in, want, d.line)
		if err != nil {
			return err
		}
		o, err := OutletTemperature(d.flow, d.in, heat, d.line)
		if err != nil {
			return err
		}
		if o.Phase != Liquid || math.Abs(float64(o.Temperature.Sub(want))) > 1e-8 {
			return fmt.Errorf("outlet %v %v, want %v", o.Phase, o.Temperature, want)
		}
		return nil
	})
}

// More heat never lowers the outlet, more flow never raises it; enthalpy carried
// away is heat put in (first law), from water through boiling to steam.
func TestOutletTemperature_monotoneAndClosed(t *testing.T) {
	seen := map[Phase]int{}
	property.Check(t, func(g *property.G) error {
		d := draw(g)
		d.line = units.AbsolutePressure(g.LogFloat(0.1, 45)) * units.MegapascalAbsolute
		heat := units.Power(g.LogFloat(1, 3000)) * units.Kilowatt
		o, err := OutletTemperature(d.flow, d.in, heat, d.line)
		if err != nil {
			return err
		}
		seen[o.Phase]++
		more, err1 := OutletTemperature(d.flow, d.in, heat*units.Power(g.Float(1.001, 3)), d.line)
		less, err2 := OutletTemperature(d.flow*units.VolumeFlow(g.Float(1.001, 3)), d.in, heat, d.line)
		if err := all(err1, err2); err != nil {
			return err
		}
		hotness := func(o Outlet) float64 {
			if o.Phase == Runaway {
				return math.Inf(1)
			}
			return o.Temperature.Kelvin() + float64(o.Quality)
		}
		if hotness(more) < hotness(o) || hotness(less) > hotness(o) {
			return fmt.Errorf("hotness %g; with more heat %g, with more flow %g", hotness(o), hotness(more), hotness(less))
		}
		if o.Phase == Runaway {
			return nil
		}
		// The other side of the balance: enthalpy of the outlet state itself.
		h, err := outletEnthalpy(o, d.line)
		if err != nil {
			return err
		}
		h1, err := outletEnthalpy(Outlet{Phase: Liquid, Temperature: d.in}, d.line)
		if err != nil {
			return err
		}
		if out := float64(o.MassFlow) * (h - h1); math.Abs(out-float64(heat)) > 1e-9*(math.Abs(float64(o.MassFlow)*h)+float64(heat)) {
			return fmt.Errorf("%v: %g W in, %g W out", o.Phase, float64(heat), out)
		}
		return nil
	})
	for _, p := range []Phase{Liquid, TwoPhase, Steam, Runaway} {
		if seen[p] == 0 && seen[Liquid]+seen[TwoPhase]+seen[Steam]+seen[Runaway] >= 200 {
			t.Errorf("no case was %v", p)
		}
	}
}

// The rule of 500 against what it stands for, over the working range.
func TestRuleOf500_sweep(t *testing.T) {
	worst := 0.0
	for _, psi := range []units.AbsolutePressure{0, 1000, 2000, 3000, 4000} {
		for in := 40.0; in <= 80; in += 10 {
			for out := 120.0; out <= 250; out += 10 {
				line := 14.696*units.PSIA + psi*units.PSIA
				if out > 200 {
					line += 30 * units.PSIA // to stay liquid
				}
				d := must[Duty](t)(HeatingDuty(4*units.GallonPerMinute, units.Fahrenheit(in), units.Fahrenheit(out), line))
				worst = math.Max(worst, math.Abs(float64(d.Difference)))
			}
		}
	}
	t.Logf("at most %.3f %%", 100*worst)
	if worst > 0.008 || worst < 0.006 {
		t.Errorf("the rule of 500 is off by %.3f %%, documented within 0.8 %%", 100*worst)
	}
}

func TestOutletTemperature_edges(t *testing.T) {
	in := units.Celsius(0)
	for _, c := range []struct {
		name string
		flow units.VolumeFlow
		heat units.Power
		line units.AbsolutePressure
		want Phase
	}{
		{"no flow with the burner on", 0, 100 * units.Kilowatt, at27, Runaway},
		{"a drip with the burner on", 1e-9 * units.GallonPerMinute, 100 * units.Kilowatt, at27, Runaway},
		{"no flow, no fire", 0, 0, at27, Liquid},
		{"firing zero, water of 0 °C", 4 * units.GallonPerMinute, 0, at27, Liquid},
		{"a smallest fire", 4 * units.GallonPerMinute, 1e-300, at27, Liquid},
		{"steam meant", 0.5 * units.GallonPerMinute, 90 * units.Kilowatt, 10 * units.BarAbsolute, Steam},
		{"wet steam", 1 * units.GallonPerMinute, 100 * units.Kilowatt, 10 * units.BarAbsolute, TwoPhase},
		{"above the critical pressure", 1 * units.GallonPerMinute, 80 * units.Kilowatt, 25 * units.MegapascalAbsolute, Liquid},
		{"above the critical pressure, too hot", 1 * units.GallonPerMinute, 300 * units.Kilowatt, 25 * units.MegapascalAbsolute, Runaway},
	} {
		o, err := OutletTemperature(c.flow, in, c.heat, c.line)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if o.Phase != c.want || o.Temperature.Given() != (c.want != Runaway) {
			t.Errorf("%s: %v at %v, want %v", c.name, o.Phase, o.Temperature, c.want)
		}
		if wet := o.Quality > 0 && o.Quality < 1; wet != (c.want == TwoPhase) {
			t.Errorf("%s: quality %v", c.name, o.Quality)
		}
		if o.Boiling.Given() != (c.line < 22*units.MegapascalAbsolute) {
			t.Errorf("%s: boiling point %v", c.name, o.Boiling)
		}
	}
}

// A pass costs its hydraulic power: ṁ·Δh = Q·Δp but for the compression of the
// water, which is what (v1 − v2)/2 times Δp is, below 1.5 % at 30 MPa.
func TestPassWarming_energy(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		in, low := units.Celsius(g.Float(5, 90)), 1*units.AtmosphereAbsolute
		high := low + units.AbsolutePressure(g.Float(1, 30))*units.MegapascalAbsolute
		rise, err := PassWarming(in, low, high)
		if err != nil {
			return err
		}
		const q = 4 * units.GallonPerMinute
		heat, err := HeatRequired(q, in, in.Add(rise), low)
		if err != nil {
			return err
		}
		power := float64(q) * float64(high-low)
		if r := float64(heat) / power; r > 1 || r < 0.985 {
			return fmt.Errorf("heat %g of a hydraulic power %g W", float64(heat), power)
		}
		return nil
	})
}

func FuzzOutletTemperature(f *testing.F) {
	f.Add(1e-4, 280.0, 1e5, 2e7)
	f.Add(0.0, 273.15, 1.0, 1e5)
	f.Add(1e-5, 300.0, 5e4, 1.0e6)
	f.Fuzz(func(t *testing.T, q, T, heat, p float64) {
		o, err := OutletTemperature(units.VolumeFlow(q), units.Kelvin(T), units.Power(heat), units.AbsolutePressure(p))
		if err != nil {
			return
		}
		if !finite(o.Temperature.Kelvin()) || o.Quality < 0 || o.Quality > 1 || o.Phase < Liquid || o.Phase > Runaway ||
			o.Phase != Runaway && o.Temperature.Kelvin() < T-1e-6 {
			t.Errorf("%g m³/s, %g K, %g W, %g Pa: %+v", q, T, heat, p, o)
		}
	})
}

// outletEnthalpy is the enthalpy of an outlet state in J/kg, by phase.
func outletEnthalpy(o Outlet, line units.AbsolutePressure) (float64, error) {
	if o.Phase == TwoPhase {
		return mixtureEnthalpy(o.Temperature.Kelvin(), float64(o.Quality))
	}
	return water.Enthalpy(float64(line), o.Temperature.Kelvin())
}
