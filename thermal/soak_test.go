package thermal

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

func drawShutIn(g *property.G) ShutIn {
	water := units.Fahrenheit(g.Float(50, 190))
	s := ShutIn{
		Metal: units.Mass(g.LogFloat(5, 200)), MetalHeat: 490, MetalTemperature: water.Add(units.TemperatureDelta(g.Float(0.5, 90))),
		Conductance: units.ThermalConductance(g.LogFloat(200, 6000)),
		Coil:        units.Volume(g.LogFloat(1, 30)) * units.Liter, CoilTemperature: water,
		Pressure: units.AbsolutePressure(g.LogFloat(0.5, 25)) * units.MegapascalAbsolute,
	}
	if g.Bool() {
		s.Line, s.LineTemperature = units.Volume(g.LogFloat(0.5, 20))*units.Liter, units.Fahrenheit(g.Float(40, 190))
	}
	if g.Bool() {
		s.Loss, s.Surroundings = units.ThermalConductance(g.Float(0.5, 60)), units.Fahrenheit(g.Float(-10, 50))
	}
	if g.Bool() {
		s.Stretch, s.StretchAt = units.Volume(g.LogFloat(0.001, 2))*units.Liter, 3000*units.PSI
	}
	if g.Bool() {
		s.Air = units.Volume(g.LogFloat(0.001, 1)) * units.Liter
	}
	return s
}

// What the metal gave up is in the water or lost, at the peak where both are equal.
func TestSoak_energyCloses(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := drawShutIn(g)
		r, err := s.Soak()
		if err != nil {
			return err
		}
		p := float64(s.Pressure)
		if boils, ok := boilingAt(p); ok && s.MetalTemperature.Kelvin() >= boils {
			p = 17e6 // the parcel is followed as liquid that does not boil
		}
		rho, err0 := water.Density(float64(s.Pressure), s.CoilTemperature.Kelvin())
		h1, err1 := water.Enthalpy(p, s.CoilTemperature.Kelvin())
		h2, err2 := water.Enthalpy(p, r.Peak.Kelvin())
		if err := all(err0, err1, err2); err != nil {
			return err
		}
		m := rho * float64(s.Coil)
		given := float64(s.Metal) * float64(s.MetalHeat) * float64(s.MetalTemperature.Sub(r.Peak))
		taken := m * (h2 - h1)
		sum := float64(s.Metal)*float64(s.MetalHeat)*(s.MetalTemperature.Kelvin()+r.Peak.Kelvin()) + m*(h1+h2)
		if math.Abs(given-taken-float64(r.Lost)) > 1e-9*sum {
			return fmt.Errorf("metal gives %g, water takes %g, lost %g J", given, taken, float64(r.Lost))
		}
		if r.Peak.Kelvin() < s.CoilTemperature.Kelvin() || r.Peak.Kelvin() > s.MetalTemperature.Kelvin() {
			return fmt.Errorf("peak %v between water %v and metal %v", r.Peak, s.CoilTemperature, s.MetalTemperature)
		}
		return nil
	})
}

// What gives way lowers the pressure, hotter metal raises it, and a relief holds it.
func TestSoak_monotone(t *testing.T) {
	lifts := 0
	property.Check(t, func(g *property.G) error {
		s := drawShutIn(g)
		a, err0 := s.Soak()
		soft, airy, hot := s, s, s
		soft.Stretch, soft.StretchAt = s.Stretch+0.1*units.Liter, 3000*units.PSI
		airy.Air = s.Air + 0.05*units.Liter
		hot.MetalTemperature = s.MetalTemperature.Add(5)
		b, err1 := soft.Soak()
		c, err2 := airy.Soak()
		d, err3 := hot.Soak()
		if err := all(err0, err1, err2, err3); err != nil {
			return err
		}
		const tiny = 100 // Pa
		if b.Highest > a.Highest+tiny || c.Highest > a.Highest+tiny {
			return fmt.Errorf("%v; softer %v, with air %v", a.Highest, b.Highest, c.Highest)
		}
		if d.Peak.Kelvin() < a.Peak.Kelvin() {
			return fmt.Errorf("%v, from hotter metal %v", a.Peak, d.Peak)
		}
		if a.Highest <= s.Pressure+1e5 {
			return nil
		}
		relieved := s
		relieved.Relief = s.Pressure + (a.Highest-s.Pressure)/2
		e, err := relieved.Soak()
		if err != nil {
			return err
		}
		lifts++
		if !e.Lifts || e.Vented < 0 || e.After > e.Time || e.Highest != a.Highest {
			return fmt.Errorf("relief at %v of %v: %+v", relieved.Relief, a.Highest, e)
		}
		relieved.Relief = s.Pressure + (a.Highest-s.Pressure)/4
		lower, err := relieved.Soak()
		if err != nil {
			return err
		}
		if lower.Vented < e.Vented || lower.After > e.After {
			return fmt.Errorf("a lower relief vents %v after %v, the higher %v after %v", lower.Vented, lower.After, e.Vented, e.After)
		}
		return nil
	})
	if lifts == 0 {
		t.Error("no relief was tried")
	}
}

// A small warming in rigid steel rises by the coefficient.
func TestSoak_rigidSlope(t *testing.T) {
	for _, F := range []float64{60, 100, 150, 200} {
		T := units.Fahrenheit(F)
		s := ShutIn{
			Metal: 60, MetalHeat: 490, MetalTemperature: T.Add(0.02), Conductance: 2500, Coil: 7 * units.Liter, CoilTemperature: T,
			Pressure: 5 * units.MegapascalAbsolute,
		}
		r := must[Soak](t)(s.Soak())
		slope := must[units.Pressure](t)(PressureRise(T, s.Pressure))
		got := float64(r.Highest-s.Pressure) / float64(r.Peak.Sub(T))
		if math.Abs(got/float64(slope)-1) > 1e-3 {
			t.Errorf("%g °F: %g Pa/K, coefficient %g", F, got, float64(slope))
		}
	}
}

func TestSoak_edges(t *testing.T) {
	s := ShutIn{
		Metal: 60, MetalHeat: 490, MetalTemperature: units.Fahrenheit(160), Conductance: 2500, Coil: 7 * units.Liter, CoilTemperature: units.Fahrenheit(166),
		Pressure: at27,
	}
	if r := must[Soak](t)(s.Soak()); !r.Even || r.Peak != s.CoilTemperature || r.Highest != s.Pressure {
		t.Errorf("metal colder than the water: %+v", r)
	}
	s.MetalTemperature = units.Fahrenheit(500)
	r := must[Soak](t)(s.Soak())
	if !r.OffScale || r.Highest != mostLine {
		t.Errorf("rigid steel from 500 °F: %+v", r)
	}
	s.Pressure, s.Relief = 2*units.BarAbsolute, 5*units.BarAbsolute
	if r = must[Soak](t)(s.Soak()); !r.Lifts || !r.Boils {
		t.Errorf("relief below boiling: %+v", r)
	}
	if p := must[units.Pressure](t)(PressureRise(units.Celsius(2), atm)); p >= 0 {
		t.Errorf("water of 2 °C gains %v a kelvin", p)
	}
	if q := must[units.VolumeFlow](t)(ExpansionFlow(1000, units.Celsius(2), atm)); q != 0 {
		t.Errorf("water of 2 °C expands by %v", q)
	}
}

func FuzzSoak(f *testing.F) {
	f.Add(60.0, 400.0, 2500.0, 7e-3, 347.0, 3e-3, 340.0, 5.0, 2e7, 1e-4, 1e-5, 2.2e7)
	f.Fuzz(func(t *testing.T, metal, Ts, K, coil, Tw, line, Tl, loss, p, stretch, air, relief float64) {
		s := ShutIn{
			Metal: units.Mass(metal), MetalHeat: 490, MetalTemperature: units.Kelvin(Ts), Conductance: units.ThermalConductance(K),
			Coil: units.Volume(coil), CoilTemperature: units.Kelvin(Tw), Line: units.Volume(line), LineTemperature: units.Kelvin(Tl),
			Loss: units.ThermalConductance(loss), Surroundings: units.Celsius(5), Pressure: units.AbsolutePressure(p),
			Stretch: units.Volume(stretch), StretchAt: 3000 * units.PSI, Air: units.Volume(air), Relief: units.AbsolutePressure(relief),
		}
		r, err := s.Soak()
		if err != nil {
			return
		}
		if !finite(r.Peak.Kelvin()) || !finite(float64(r.Highest)) || !finite(float64(r.Vented)) || !finite(float64(r.Time)) || !finite(float64(r.Lost)) {
			t.Errorf("%+v", r)
		}
	})
}

func BenchmarkSoak(b *testing.B) {
	s := ShutIn{
		Metal: 60, MetalHeat: 490, MetalTemperature: units.Fahrenheit(240), Conductance: 2500, Coil: 7 * units.Liter, CoilTemperature: units.Fahrenheit(166),
		Line: 3 * units.Liter, LineTemperature: units.Fahrenheit(160), Pressure: at27, Stretch: 0.05 * units.Liter, StretchAt: 3000 * units.PSI,
	}
	for b.Loop() {
		if _, err := s.Soak(); err != nil {
			b.Fatal(err)
		}
	}
}
