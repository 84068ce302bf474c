package water

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/washrig/units"
)

// Every function refuses what is outside, names the quantity, and returns zero.
func TestRange(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	pT := func(f func(p, T float64) (float64, error)) func(p, T float64) (float64, error) { return f }
	two := map[string]func(p, T float64) (float64, error){
		"At":                         func(p, T float64) (float64, error) { s, err := At(p, T); return s.Density, err },
		"PropertiesAt":               func(p, T float64) (float64, error) { s, err := PropertiesAt(p, T); return s.Density, err },
		"PhaseAt":                    func(p, T float64) (float64, error) { s, err := PhaseAt(p, T); return float64(s), err },
		"Density":                    pT(Density),
		"Enthalpy":                   pT(Enthalpy),
		"HeatCapacity":               pT(HeatCapacity),
		"Entropy":                    pT(Entropy),
		"SpeedOfSound":               pT(SpeedOfSound),
		"ConductivityAt":             pT(ConductivityAt),
		"ThermalPressureCoefficient": pT(ThermalPressureCoefficient),
	}
	for name, f := range two {
		for _, c := range []struct {
			p, T float64
			path string
		}{
			{1e5, 273.14, "temperature"}, {1e5, 623.16, "temperature"}, {1e5, nan, "temperature"},
			{1e5, inf, "temperature"}, {1e5, -inf, "temperature"}, {1e5, 0, "temperature"},
			{0, 300, "absolute pressure"}, {-1e5, 300, "absolute pressure"}, {50.1e6, 300, "absolute pressure"},
			{nan, 300, "absolute pressure"}, {inf, 300, "absolute pressure"},
		} {
			x, err := f(c.p, c.T)
			refused(t, name, x, err, c.path)
		}
		for _, c := range [][2]float64{
			{1e5, 273.15}, {1e5, 623.15}, {1, 300}, {50e6, 300},
			{50e6, (32 + 459.67) * 5. / 9}, {50e6, (662 + 459.67) * 5. / 9}, {7251.8868 * 6894.757293168, 300},
		} {
			if x, err := f(c[0], c[1]); err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("%s(%g, %g) = %g, %v", name, c[0], c[1], x, err)
			}
		}
	}
	one := map[string]struct {
		f      func(float64) (float64, error)
		lo, hi float64
		path   string
	}{
		"SaturationPressure":    {SaturationPressure, 273.15, 647.096, "temperature"},
		"SaturationTemperature": {SaturationTemperature, 611.213, 22.064e6, "absolute pressure"},
		"SaturatedLiquid":       {func(T float64) (float64, error) { s, err := SaturatedLiquid(T); return s.Density, err }, 273.15, 623.15, "temperature"},
		"SaturatedSteam":        {func(T float64) (float64, error) { s, err := SaturatedSteam(T); return s.Density, err }, 273.15, 623.15, "temperature"},
		"LatentHeat":            {LatentHeat, 273.15, 623.15, "temperature"},
		"SurfaceTension":        {SurfaceTension, 273.15, 647.096, "temperature"},
		"MeltingPressure":       {MeltingPressure, 251.165, 273.16, "temperature"},
		"MeltingTemperature":    {MeltingTemperature, 611.657, 50e6, "absolute pressure"},
		"Viscosity":             {func(T float64) (float64, error) { return Viscosity(1, T) }, 273.15, 1173.15, "temperature"},
		"Viscosity of density":  {func(rho float64) (float64, error) { return Viscosity(rho, 300) }, 0, 1250, "density"},
		"Conductivity":          {func(T float64) (float64, error) { return Conductivity(1, T) }, 273.15, 1173.15, "temperature"},
		"Conductivity, density": {func(rho float64) (float64, error) { return Conductivity(rho, 300) }, 0, 1250, "density"},
		"Flash":                 {func(p float64) (float64, error) { m, err := Flash(p, 4e5); return m.Density, err }, 2e3, 50e6, "absolute pressure"},
		"FromEntropy":           {func(p float64) (float64, error) { return TemperatureFromEntropy(p, 1000) }, 2e3, 50e6, "absolute pressure"},
		"Flash, enthalpy":       {func(h float64) (float64, error) { m, err := Flash(1e5, h); return m.Density, err }, 0.1e3, 3170e3, "specific enthalpy"},
		"FromEntropy, entropy":  {func(s float64) (float64, error) { return TemperatureFromEntropy(1e5, s) }, 0, 8380, "specific entropy"},
	}
	for name, c := range one {
		for _, x := range []float64{c.lo, c.hi, 0.5 * (c.lo + c.hi)} {
			if y, err := c.f(x); err != nil || math.IsNaN(y) || math.IsInf(y, 0) {
				t.Errorf("%s(%g) = %g, %v", name, x, y, err)
			}
		}
		span := c.hi - c.lo
		for _, x := range []float64{c.lo - 0.02*span, c.hi + 0.02*span, nan, inf, -inf} {
			y, err := c.f(x)
			refused(t, name, y, err, c.path)
		}
	}
}

func refused(t *testing.T, name string, x float64, err error, path string) {
	t.Helper()
	var f *units.FieldError
	if !errors.As(err, &f) || !errors.Is(err, units.ErrRange) {
		t.Errorf("%s: %v, want a range error", name, err)
		return
	}
	if f.Path != path || !strings.Contains(f.Want, " to ") || f.Value == "" || x != 0 {
		t.Errorf("%s: path %q, value %q, want %q, result %g", name, f.Path, f.Value, f.Want, x)
	}
}

func TestPhaseAt_dispatch(t *testing.T) {
	for _, c := range []struct {
		p, T float64
		want Phase
	}{
		{101325, 372, Liquid}, {101325, 374, Steam}, {saturationPressure(400), 400, Liquid},
		{600, 273.15, Steam}, {20e6, 623.15, Liquid}, {16e6, 623.15, Steam},
	} {
		if got, err := PhaseAt(c.p, c.T); err != nil || got != c.want {
			t.Errorf("%g Pa, %g K: %v, %v, want %v", c.p, c.T, got, err, c.want)
		}
	}
	for p, s := range map[Phase]string{Liquid: "liquid", TwoPhase: "liquid and steam", Steam: "steam", 0: "invalid phase"} {
		if p.String() != s {
			t.Errorf("%d prints %q", p, p)
		}
	}
}

func FuzzWater(f *testing.F) {
	f.Add(101325.0, 293.15, 83e3)
	f.Add(1.0, 273.15, 2.5e6)
	f.Add(16529164.2526, 623.15, 1.67e6)
	f.Add(611.2126774443, 273.15, 0.0)
	f.Fuzz(func(t *testing.T, p, T, x float64) {
		ok := func(what string, err error, values ...float64) {
			for _, v := range values {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%s(%g, %g, %g) gives %g, %v", what, p, T, x, v, err)
				}
				if err != nil && v != 0 {
					t.Fatalf("%s(%g, %g, %g) gives %g with %v", what, p, T, x, v, err)
				}
			}
			if err != nil && !errors.Is(err, units.ErrRange) {
				t.Fatalf("%s(%g, %g, %g): %v", what, p, T, x, err)
			}
		}
		a, err := At(p, T)
		ok("At", err, a.Density, a.Enthalpy, a.HeatCapacity, a.Viscosity)
		if err == nil && !(a.Density > 0 && a.HeatCapacity > 0 && a.Viscosity > 0) {
			t.Fatalf("At(%g, %g) = %+v", p, T, a)
		}
		s, err := PropertiesAt(p, T)
		ok("PropertiesAt", err, s.Density, s.InternalEnergy, s.Enthalpy, s.Entropy, s.HeatCapacity,
			s.HeatCapacityConstantVolume, s.SpeedOfSound, s.Expansivity, s.Compressibility, s.Viscosity, s.Conductivity)
		m, err := Flash(p, x)
		ok("Flash", err, m.Temperature, m.Quality, m.Density)
		y, err := TemperatureFromEntropy(p, x)
		ok("TemperatureFromEntropy", err, y)
		y, err = MeltingTemperature(p)
		ok("MeltingTemperature", err, y)
		y, err = SaturationTemperature(p)
		ok("SaturationTemperature", err, y)
		for name, f := range map[string]func(float64) (float64, error){
			"SaturationPressure": SaturationPressure, "SurfaceTension": SurfaceTension,
			"MeltingPressure": MeltingPressure, "LatentHeat": LatentHeat,
		} {
			y, err = f(T)
			ok(name, err, y)
		}
		y, err = Viscosity(x, T)
		ok("Viscosity", err, y)
		y, err = Conductivity(x, T)
		ok("Conductivity", err, y)
	})
}
