package air

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/internal/water"
)

// An independent equation for the same line: IAPWS-IF97 region 4 over water.
// Hyland and Wexler fitted other data on an older temperature scale. Swept in
// steps of 0.01 K the two differ by at most 2.6e-4 (at 200 °C); 3e-4 is held.
func TestSaturationPressure_againstIF97(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		T := g.Float(triplePoint, maxHumid)
		p, err := SaturationPressure(T)
		if err != nil {
			return err
		}
		want, err := water.SaturationPressure(T)
		if err != nil {
			return err
		}
		return near("saturation", p, want, 3e-4, 0)
	})
}

func TestSaturation_derivativeAndOrder(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		const d = 1e-3
		T := g.Float(minHumid+d, maxHumid-d)
		if math.Abs(T-triplePoint) < 2*d {
			return property.ErrDiscard
		}
		up, _ := saturation(T + d)
		down, _ := saturation(T - d)
		_, dp := saturation(T)
		return near("dp/dT", (up-down)/(2*d), dp, 1e-6, 0)
	})
	// Ice and water meet at the triple point within 1e-8.
	ice, _ := saturation(math.Nextafter(triplePoint, 0))
	liquid, _ := saturation(triplePoint)
	if err := near("triple point", ice, liquid, 1e-8, 0); err != nil {
		t.Error(err)
	}
}

func TestDewPoint_inverse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		T := g.Float(minHumid, maxHumid)
		p, err := SaturationPressure(T)
		if err != nil {
			return err
		}
		back, err := DewPoint(p)
		if err != nil {
			return err
		}
		return near("dew point", back, T, 0, 1e-8)
	})
}

// draw returns a state well inside the range, with p and T of a site or a blower.
func draw(g *property.G) (Humid, error) {
	p := g.LogFloat(2e4, 2e5)
	T := g.Float(223.15, 373.15)
	ps, _ := saturation(T)
	phi := g.Float(0.001, 0.999) * math.Min(1, 0.98*p/ps)
	return FromRelativeHumidity(p, T, phi)
}

// A state is the same from whichever humidity it is given by.
func TestHumid_fourWays(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		h, err := draw(g)
		if err != nil {
			return err
		}
		same := func(how string, k Humid, err error) error {
			if err != nil {
				return fmt.Errorf("%s: %w", how, err)
			}
			return errors.Join(
				near(how+", humidity ratio", k.HumidityRatio, h.HumidityRatio, 1e-7, 1e-12),
				near(how+", dew point", k.DewPoint, h.DewPoint, 0, 1e-6),
				near(how+", wet bulb", k.WetBulb, h.WetBulb, 0, 1e-6),
				near(how+", density", k.Density, h.Density, 1e-9, 0),
				near(how+", enthalpy", k.Enthalpy, h.Enthalpy, 1e-7, 1e-4),
			)
		}
		w, errW := FromHumidityRatio(h.Pressure, h.Temperature, h.HumidityRatio)
		b, errB := FromWetBulb(h.Pressure, h.Temperature, h.WetBulb)
		errs := []error{same("humidity ratio", w, errW), same("wet bulb", b, errB)}
		if h.DewPoint > 0 {
			d, errD := FromDewPoint(h.Pressure, h.Temperature, h.DewPoint)
			errs = append(errs, same("dew point", d, errD))
		}
		return errors.Join(errs...)
	})
}

// Dew point, wet bulb and dry bulb stand in this order; they are one at
// saturation; moist air is lighter than dry; vapour and air share the pressure.
func TestHumid_order(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		h, err := draw(g)
		if err != nil {
			return err
		}
		dry, err := Density(h.Pressure, h.Temperature)
		if err != nil {
			return err
		}
		// Over ice the constants of Eq. 35 let the wet bulb sink below the dew
		// point by some hundredths of a kelvin near saturation.
		slack := 1e-6
		if h.WetBulb < zeroCelsius+1 {
			slack = 0.1
		}
		if !(h.DewPoint <= h.WetBulb+slack && h.WetBulb <= h.Temperature && h.Density < dry) {
			return fmt.Errorf("%+v, dry air %g kg/m³", h, dry)
		}
		vapour := h.VapourPressure / (specificGas / massRatio * h.Temperature)
		air := (h.Pressure - h.VapourPressure) / (specificGas * h.Temperature)
		return errors.Join(
			near("density of the two gases", vapour+air, h.Density, 1e-12, 0),
			near("ratio of the two gases", vapour/air, h.HumidityRatio, 1e-9, 0),
			near("1 kg of dry air", 1/air, h.SpecificVolume, 1e-12, 0),
		)
	})
	sat, err := FromRelativeHumidity(101325, 303.15, 1)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(near("dew point", sat.DewPoint, 303.15, 0, 1e-6), near("wet bulb", sat.WetBulb, 303.15, 0, 1e-6)); err != nil {
		t.Error(err)
	}
	none, err := FromRelativeHumidity(101325, 303.15, 0)
	if err != nil {
		t.Fatal(err)
	}
	dry, err := Density(101325, 303.15)
	if err != nil {
		t.Fatal(err)
	}
	if none.DewPoint != 0 || none.HumidityRatio != 0 || !(none.WetBulb > 273.15 && none.WetBulb < 303.15) {
		t.Errorf("dry air: %+v", none)
	}
	if err := near("dry air", none.Density, dry, 1e-15, 0); err != nil {
		t.Error(err)
	}
}

// More vapour: higher dew point, wet bulb and enthalpy, less density.
func TestHumid_monotone(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p, T := g.LogFloat(2e4, 2e5), g.Float(293.15, 373.15)
		ps, _ := saturation(T)
		top := math.Min(1, 0.98*p/ps)
		a := g.Float(0.01, 0.98) * top
		b := a + g.Float(0.01, 1)*(top-a)
		h, err := FromRelativeHumidity(p, T, a)
		if err != nil {
			return err
		}
		k, err := FromRelativeHumidity(p, T, b)
		if err != nil {
			return err
		}
		// Where the wet bulb passes 0 °C the ice branch ends above the water
		// branch's start; the order across it still holds.
		if !(k.DewPoint > h.DewPoint && k.WetBulb > h.WetBulb && k.Enthalpy > h.Enthalpy && k.Density < h.Density) {
			return fmt.Errorf("from %+v to %+v", h, k)
		}
		return nil
	})
}

func BenchmarkFromRelativeHumidity(b *testing.B) {
	b.ReportAllocs()
	for i := range b.N {
		h, err := FromRelativeHumidity(101325, 293.15+float64(i&15), 0.5)
		if err != nil {
			b.Fatal(err)
		}
		benchmarkSink = h.WetBulb
	}
}

func BenchmarkPressureAt(b *testing.B) {
	b.ReportAllocs()
	for i := range b.N {
		p, err := PressureAt(float64(i & 1023))
		if err != nil {
			b.Fatal(err)
		}
		benchmarkSink = p
	}
}

var benchmarkSink float64
