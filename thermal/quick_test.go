package thermal

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// Gauss's rule with three points against the solution step by step.
func TestFreezeTimes_againstFreeze(t *testing.T) {
	worst := 0.0
	property.Check(t, func(g *property.G) error {
		h, s := drawHose(g)
		s = Surroundings{Air: units.Fahrenheit(g.Float(-40, 31)), Site: s.Site, Wind: s.Wind}
		e, err := h.Exposed()
		if err != nil {
			return err
		}
		if g.Bool() { // bare metal
			e.Wall, e.Metal = 0, e.Metal*units.Mass(g.LogFloat(0.2, 20))
		}
		start, share := units.Fahrenheit(g.Float(32, 180)), units.Ratio(g.Float(0.01, 0.5))
		want, err := e.Freeze(start, s, share)
		if err != nil {
			return err
		}
		got, err := e.FreezeTimes(start, s, share)
		if err != nil {
			return err
		}
		// The heat leaves through the interpolated coefficient; see TestOutsideLine.
		if got.Never != want.Never || math.Abs(float64(got.Heat-want.Heat)) > 5e-5*float64(want.Heat) {
			return fmt.Errorf("%+v, Freeze %+v", got, want)
		}
		for _, x := range [][2]units.Duration{{got.ToFreezing, want.ToFreezing}, {got.ToShare, want.ToShare}} {
			if d := math.Abs(float64(x[0] - x[1])); d > 1e-4*float64(x[1]) {
				return fmt.Errorf("%v, step by step %v", x[0], x[1])
			} else if x[1] > 0 {
				worst = math.Max(worst, d/float64(x[1]))
			}
		}
		return nil
	})
	t.Logf("at most %.2g apart", worst)
}

// The interpolated coefficient against the one it stands for: within 1e-5, a tenth of
// what FreezeTimes keeps, where the
// surface gets to be five times as far from the air as at the start, 5e-5 over two
// orders of magnitude.
func TestOutsideLine(t *testing.T) {
	near, far := 0.0, 0.0
	property.Check(t, func(g *property.G) error {
		k := sinks{Ta: g.Float(233, 273), p: g.Float(70e3, 103e3), diameter: g.LogFloat(0.005, 0.2), emission: g.Float(0.1, 1)}
		if g.Bool() {
			k.wind = g.LogFloat(0.5, 30)
		}
		k.Tr = k.Ta
		lo := g.LogFloat(0.3, 40)
		hi := lo * math.Exp(g.Float(0, math.Log(95/lo)))
		o := k.outsideOver(lo, hi)
		u := math.Log(lo) + g.Float(0, 1)*math.Log(hi/lo)
		h, want := o.through(u, 0), k.from(k.Ta+math.Exp(u)).total()/math.Exp(u)
		off, most := math.Abs(h/want-1), 5e-5
		if hi < 5*lo {
			most, near = 1e-5, math.Max(near, off)
		}
		if far = math.Max(far, off); off > most {
			return fmt.Errorf("%g off between %g K and %g K of %+v", off, lo, hi, k)
		}
		return nil
	})
	t.Logf("at most %.2g off, over a factor of five %.2g", far, near)
}

// The polynomial that stands for the powers of the Prandtl number of air, against the
// powers, in the band and a little outside; air from 150 K to 600 K lies in the band.
func TestChurchillChu_air(t *testing.T) {
	for Pr := airPrandtl - 1.1*airPrandtlBand; Pr <= airPrandtl+1.1*airPrandtlBand; Pr += 1e-4 {
		if got, want := churchillChuAir(1e6, Pr), ChurchillChu(1e6, Pr); math.Abs(got/want-1) > 1e-11 {
			t.Errorf("Pr = %g: Nu = %.15g, by powers %.15g", Pr, got, want)
		}
	}
	for T := 150.0; T <= 600; T += 5 {
		if Pr := filmAt(101325, T).prandtl; math.Abs(Pr-airPrandtl) > airPrandtlBand {
			t.Errorf("air of %g K has the Prandtl number %g", T, Pr)
		}
	}
}

// The end by the balance of heat is where the solution step by step ends.
func TestShutInEnd_againstSoak(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := drawShutIn(g)
		s.Loss, s.Surroundings = 0, units.Temperature{}
		if g.Bool() {
			s.Relief = s.Pressure * units.AbsolutePressure(g.Float(1.01, 1.5))
		}
		want, err := s.Soak()
		if err != nil {
			return err
		}
		got, err := s.End()
		if err != nil {
			return err
		}
		if got.Peak != want.Peak || got.Highest != want.Highest || got.Lifts != want.Lifts || got.Boils != want.Boils || got.OffScale != want.OffScale || got.Even != want.Even {
			return fmt.Errorf("%+v, Soak %+v", got, want)
		}
		return nil
	})
}

func TestQuick_refuses(t *testing.T) {
	s := ShutIn{Metal: 70, MetalHeat: 490, MetalTemperature: units.Fahrenheit(190), Conductance: 9000, Coil: 7 * units.Liter, CoilTemperature: units.Fahrenheit(166),
		Pressure: 200 * units.BarAbsolute, Loss: 5, Surroundings: units.Fahrenheit(40)}
	if _, err := s.End(); !errors.Is(err, units.ErrConflict) {
		t.Errorf("with a loss: %v", err)
	}
	if _, err := (ShutIn{}).End(); !errors.Is(err, units.ErrMissing) {
		t.Errorf("zero value: %v", err)
	}
	if _, err := (Exposed{}).FreezeTimes(units.Temperature{}, Surroundings{}, 0); !errors.Is(err, units.ErrMissing) {
		t.Errorf("zero value: %v", err)
	}
	e := Exposed{Water: 1 * units.Liter, Area: 0.1, Diameter: 0.05, Bore: 0.02, Emissivity: 0.9}
	if _, err := e.FreezeTimes(units.Fahrenheit(45), Surroundings{Air: units.Fahrenheit(0), Site: 1 * units.AtmosphereAbsolute, Wet: 0.5, Humidity: 0.5}, 0.1); !errors.Is(err, units.ErrConflict) {
		t.Errorf("wet: %v", err)
	}
}
