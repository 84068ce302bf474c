package air

import (
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func near(what string, got, want, relative, absolute float64) error {
	if !(math.Abs(got-want) <= relative*math.Abs(want)+absolute) {
		return fmt.Errorf("%s: got %.15g, want %.15g", what, got, want)
	}
	return nil
}

// value fails the test on an error.
func value(t testing.TB, x float64, err error) float64 {
	t.Helper()
	if err != nil {
		t.Error(err)
	}
	return x
}

// The layer against python fluids 1.0.22 (testdata/atmosphere.py), whose table
// of layers runs to 11 km geopotential.
func TestAtmosphere_table(t *testing.T) {
	f, err := os.Open("testdata/atmosphere.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	r.FieldsPerRecord = 8
	records, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(records) < 100 {
		t.Fatalf("%d rows", len(records))
	}
	for _, rec := range records[1:] {
		var c [8]float64
		for i, s := range rec {
			if c[i], err = strconv.ParseFloat(s, 64); err != nil {
				t.Fatal(err)
			}
		}
		get := func(x float64, err error) float64 { return value(t, x, err) }
		H := get(Geopotential(c[0]))
		T := get(TemperatureAt(H))
		p := get(PressureAt(H))
		err := errors.Join(
			near("geopotential", H, c[1], 1e-12, 1e-9),
			near("geometric", get(Geometric(c[1])), c[0], 1e-12, 1e-9),
			near("temperature", T, c[2], 1e-12, 0),
			near("pressure", p, c[3], 1e-9, 0),
			near("density", get(Density(p, T)), c[4], 1e-9, 0),
			near("viscosity", get(Viscosity(T)), c[5], 1e-9, 0),
			near("conductivity", get(Conductivity(T)), c[6], 1e-9, 0),
			near("speed of sound", get(SpeedOfSound(T)), c[7], 1e-9, 0),
			near("pressure altitude", get(ElevationAt(c[3])), c[1], 1e-9, 1e-6),
		)
		if err != nil {
			t.Errorf("%g m: %v", c[0], err)
		}
	}
}

// The atmosphere is in hydrostatic balance: dp/dH = −ρ g0 at every height.
func TestPressureAt_hydrostatic(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		const d = 1.0
		H := g.Float(minElevation+d, maxElevation-d)
		up, down := pressureAt(H+d), pressureAt(H-d)
		T, err := TemperatureAt(H)
		if err != nil {
			return err
		}
		rho, err := Density(pressureAt(H), T)
		if err != nil {
			return err
		}
		// Differences over 2 m: d²/6 of the third derivative, 1e-9, and rounding.
		return near("dp/dH", (up-down)/(2*d), -rho*gravity, 1e-7, 0)
	})
}

func TestAtmosphere_inverses(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		H := g.Float(minElevation, maxElevation)
		p, err := PressureAt(H)
		if err != nil {
			return err
		}
		back, err := ElevationAt(p)
		if err != nil {
			return err
		}
		z, err := Geometric(H)
		if err != nil {
			return err
		}
		again, err := Geopotential(z)
		if err != nil {
			return err
		}
		setting := g.Float(85e3, 110e3)
		station, err := StationPressure(setting, H)
		if err != nil {
			return err
		}
		atSea, err := StationPressure(setting, 0)
		if err != nil {
			return err
		}
		standard, err := StationPressure(SeaLevelPressure, H)
		if err != nil {
			return err
		}
		if !(station > 0) || (H > 1 && station >= setting) || (H < -1 && station <= setting) {
			return fmt.Errorf("station pressure %g Pa at %g m for a setting of %g Pa", station, H, setting)
		}
		return errors.Join(
			near("elevation", back, H, 1e-9, 1e-6),
			near("geopotential", again, H, 1e-12, 1e-9),
			near("setting at sea level", atSea, setting, 1e-12, 0),
			near("standard setting", standard, p, 1e-12, 0),
		)
	})
}

func TestRange(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	humid := func(f func(p, T, x float64) (Humid, error), x float64) func(p, T float64) (float64, error) {
		return func(p, T float64) (float64, error) { h, err := f(p, T, x); return h.Density, err }
	}
	one := func(f func(x float64) (float64, error)) func(x, _ float64) (float64, error) {
		return func(x, _ float64) (float64, error) { return f(x) }
	}
	for _, c := range []struct {
		name string
		f    func(a, b float64) (float64, error)
		a, b float64
		path string
	}{
		{"TemperatureAt", one(TemperatureAt), -1001, 0, "elevation"},
		{"TemperatureAt", one(TemperatureAt), nan, 0, "elevation"},
		{"PressureAt", one(PressureAt), 11001, 0, "elevation"},
		{"PressureAt", one(PressureAt), inf, 0, "elevation"},
		{"ElevationAt", one(ElevationAt), 22e3, 0, "absolute pressure"},
		{"ElevationAt", one(ElevationAt), nan, 0, "absolute pressure"},
		{"StationPressure", StationPressure, 84e3, 0, "altimeter setting"},
		{"StationPressure", StationPressure, nan, 0, "altimeter setting"},
		{"StationPressure", StationPressure, 1e5, 12e3, "elevation"},
		{"Geopotential", one(Geopotential), 11021, 0, "geometric height"},
		{"Geometric", one(Geometric), nan, 0, "elevation"},
		{"Density", Density, 0, 300, "absolute pressure"},
		{"Density", Density, 1e5, 0, "temperature"},
		{"Density", Density, 1e5, nan, "temperature"},
		{"Viscosity", one(Viscosity), 149, 0, "temperature"},
		{"Conductivity", one(Conductivity), 2001, 0, "temperature"},
		{"SpeedOfSound", one(SpeedOfSound), -1, 0, "temperature"},
		{"SaturationPressure", one(SaturationPressure), 173, 0, "temperature"},
		{"SaturationPressure", one(SaturationPressure), nan, 0, "temperature"},
		{"DewPoint", one(DewPoint), 0, 0, "vapour pressure"},
		{"DewPoint", one(DewPoint), 2e6, 0, "vapour pressure"},
		{"HumidityRatio", HumidityRatio, 9e3, 10, "absolute pressure"},
		{"HumidityRatio", HumidityRatio, 1e5, -1, "vapour pressure"},
		{"HumidityRatio", HumidityRatio, 1e5, 1e5, "vapour pressure"},
		{"FromRelativeHumidity", humid(FromRelativeHumidity, 0.5), 1e3, 300, "absolute pressure"},
		{"FromRelativeHumidity", humid(FromRelativeHumidity, 0.5), 1e5, 500, "temperature"},
		{"FromRelativeHumidity", humid(FromRelativeHumidity, 1.01), 1e5, 300, "relative humidity"},
		{"FromRelativeHumidity", humid(FromRelativeHumidity, -0.01), 1e5, 300, "relative humidity"},
		{"FromRelativeHumidity", humid(FromRelativeHumidity, nan), 1e5, 300, "relative humidity"},
		{"FromRelativeHumidity", humid(FromRelativeHumidity, 0.9), 1e5, 400, "relative humidity"},
		{"FromHumidityRatio", humid(FromHumidityRatio, 0.03), 1e5, 300, "humidity ratio"},
		{"FromHumidityRatio", humid(FromHumidityRatio, nan), 1e5, 300, "humidity ratio"},
		{"FromHumidityRatio", humid(FromHumidityRatio, 0.01), nan, 300, "absolute pressure"},
		{"FromDewPoint", humid(FromDewPoint, 301), 1e5, 300, "dew point"},
		{"FromDewPoint", humid(FromDewPoint, 100), 1e5, 300, "dew point"},
		{"FromDewPoint", humid(FromDewPoint, 300), 1e5, nan, "temperature"},
		{"FromWetBulb", humid(FromWetBulb, 301), 1e5, 300, "wet-bulb temperature"},
		{"FromWetBulb", humid(FromWetBulb, 275), 1e5, 313, "wet-bulb temperature"},
		{"FromWetBulb", humid(FromWetBulb, nan), 1e5, 300, "wet-bulb temperature"},
		{"FromWetBulb", humid(FromWetBulb, 290), -1, 300, "absolute pressure"},
	} {
		x, err := c.f(c.a, c.b)
		var f *units.FieldError
		if !errors.As(err, &f) || !errors.Is(err, units.ErrRange) || f.Path != c.path || f.Value == "" || f.Want == "" || x != 0 {
			t.Errorf("%s(%g, %g) = %g, %v; want a range error at %q", c.name, c.a, c.b, x, err, c.path)
		}
	}
}

func FuzzAir(f *testing.F) {
	f.Add(101325.0, 293.15, 0.5)
	f.Add(10e3, 473.15, 1.0)
	f.Add(61640.0, 273.16, 273.15)
	f.Add(1e6, 173.15, 0.0)
	f.Fuzz(func(t *testing.T, p, T, x float64) {
		ok := func(what string, err error, values ...float64) {
			for _, v := range values {
				if math.IsNaN(v) || math.IsInf(v, 0) || (err != nil && v != 0) {
					t.Fatalf("%s(%g, %g, %g) gives %g, %v", what, p, T, x, v, err)
				}
			}
			if err != nil && !errors.Is(err, units.ErrRange) {
				t.Fatalf("%s(%g, %g, %g): %v", what, p, T, x, err)
			}
		}
		for name, f := range map[string]func(p, T, x float64) (Humid, error){
			"FromRelativeHumidity": FromRelativeHumidity, "FromHumidityRatio": FromHumidityRatio,
			"FromDewPoint": FromDewPoint, "FromWetBulb": FromWetBulb,
		} {
			h, err := f(p, T, x)
			ok(name, err, h.Pressure, h.Temperature, h.HumidityRatio, h.VapourPressure, h.RelativeHumidity,
				h.DewPoint, h.WetBulb, h.Density, h.SpecificVolume, h.Enthalpy)
			if err == nil && !(h.DewPoint <= h.WetBulb+1e-6 && h.WetBulb <= h.Temperature &&
				h.RelativeHumidity >= 0 && h.RelativeHumidity <= 1 && h.HumidityRatio >= 0) && h.Temperature >= 273.15+20 {
				t.Fatalf("%s(%g, %g, %g) = %+v", name, p, T, x, h)
			}
		}
		for name, f := range map[string]func(float64) (float64, error){
			"TemperatureAt": TemperatureAt, "PressureAt": PressureAt, "ElevationAt": ElevationAt,
			"Geopotential": Geopotential, "Geometric": Geometric, "Viscosity": Viscosity,
			"Conductivity": Conductivity, "SpeedOfSound": SpeedOfSound,
			"SaturationPressure": SaturationPressure, "DewPoint": DewPoint,
		} {
			y, err := f(x)
			ok(name, err, y)
		}
		y, err := StationPressure(p, x)
		ok("StationPressure", err, y)
		y, err = Density(p, T)
		ok("Density", err, y)
		y, err = HumidityRatio(p, x)
		ok("HumidityRatio", err, y)
	})
}
