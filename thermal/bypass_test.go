package thermal

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/ode"
	"example.com/washrig/internal/property"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// Heat put in is heat stored and lost: the time of the closed form against an
// integration of the power and of the loss along the way.
func TestBypass_energyCloses(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		b := Bypass{
			Power:    units.Power(g.LogFloat(0.1, 20)) * units.Kilowatt,
			Volume:   units.Volume(g.LogFloat(0.3, 500)) * units.Gallon,
			Start:    units.Fahrenheit(g.Float(33, 120)),
			Limit:    units.Fahrenheit(g.Float(121, 200)),
			Pressure: atm,
		}
		if g.Bool() {
			b.Loss = units.ThermalConductance(g.Float(0.1, 30))
			b.Surroundings = units.Fahrenheit(g.Float(-20, 110))
		}
		r, err := b.Heat()
		if err != nil || r.Never || r.Past {
			if r.Never && b.Loss == 0 {
				return fmt.Errorf("never without loss: %+v", r)
			}
			return err
		}
		rho, err := water.Density(float64(atm), b.Start.Kelvin())
		if err != nil {
			return err
		}
		h1, err1 := water.Enthalpy(float64(atm), b.Start.Kelvin())
		h2, err2 := water.Enthalpy(float64(atm), b.Limit.Kelvin())
		if err := all(err1, err2); err != nil {
			return err
		}
		stored := rho * float64(b.Volume) * (h2 - h1)
		// The loss integrated on its own along the exponential that the same
		// mean heat capacity gives.
		span := b.Limit.Sub(b.Start)
		c := stored / float64(span)
		y := []float64{b.Start.Kelvin(), 0}
		var s ode.Solver
		if _, err := s.Integrate(func(_ float64, y, d []float64) {
			d[1] = float64(b.Loss) * (y[0] - b.Surroundings.Kelvin())
			d[0] = (float64(b.Power) - d[1]) / c
		}, 0, float64(r.Time), y, ode.Options{Relative: 1e-12, Absolute: []float64{1e-10, 1e-6}}); err != nil {
			return err
		}
		in := float64(b.Power) * float64(r.Time)
		if sum := in + math.Abs(y[1]) + math.Abs(stored); math.Abs(in-y[1]-stored) > 1e-9*sum {
			return fmt.Errorf("in %g, lost %g, stored %g J", in, y[1], stored)
		}
		return nil
	})
}

func TestBypass_edges(t *testing.T) {
	b := Bypass{Power: 5 * units.Kilowatt, Volume: 2 * units.Liter, Start: units.Fahrenheit(150), Limit: units.Fahrenheit(145), Pressure: atm}
	if r := must[BypassHeating](t)(b.Heat()); !r.Past || r.Never || r.Time != 0 {
		t.Errorf("above the limit at the start: %+v", r)
	}
	b.Start, b.Power = units.Celsius(0), 0
	if r := must[BypassHeating](t)(b.Heat()); !r.Never || r.Past || r.Rate != 0 {
		t.Errorf("no power: %+v", r)
	}
	b.Power, b.Loss, b.Surroundings = 100*units.Watt, 10*units.WattPerKelvin, units.Celsius(20)
	if r := must[BypassHeating](t)(b.Heat()); !r.Never || math.Abs(r.Settles.Celsius()-30) > 1e-9 {
		t.Errorf("settles at 30 °C below the limit: %+v", r)
	}
	b.Limit = units.Celsius(105)
	if _, err := b.Heat(); err == nil {
		t.Error("a limit above boiling is accepted")
	}
}
