package fuel_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

var ignitions = []fuel.Ignition{fuel.Spark, fuel.Compression}
var aspirations = []fuel.Aspiration{fuel.NaturallyAspirated, fuel.Turbocharged, fuel.ChargeCooled}

// TestCorrections_oneAtTheirReference: each standard is 1 in its own air, at any
// engine, and the plate at sea level and 77 °F.
func TestCorrections_oneAtTheirReference(t *testing.T) {
	for _, i := range ignitions {
		for _, a := range aspirations {
			if i == fuel.Compression || a == fuel.NaturallyAspirated {
				got, err := fuel.J1349{Ignition: i, Aspiration: a, Fuel: 0.5}.Factor(99*units.KilopascalAbsolute, units.Celsius(25))
				if err != nil || math.Abs(float64(got)-1) > 1e-14 {
					t.Errorf("J1349 %v %v: %v, %v", i, a, got, err)
				}
			}
			s := fuel.Site{Elevation: units.ElevationAt(0), Air: units.Kelvin(298), Pressure: 100 * units.KilopascalAbsolute, Humidity: 0.30}
			got, err := fuel.ISO3046{Ignition: i, Aspiration: a, Mechanical: 0.85}.Factor(s)
			if err != nil || math.Abs(float64(got)-1) > 1e-14 {
				t.Errorf("ISO 3046-1 %v %v: %v, %v", i, a, got, err)
			}
		}
	}
}

func TestCorrections_fallWithHeightHeatAndHumidity(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		e := fuel.Engine{
			Gross: 20 * units.Horsepower, Continuous: 1, Plate: common,
			Ignition:   property.OneOf(g, ignitions...),
			Aspiration: property.OneOf(g, aspirations...),
		}
		a := fuel.Site{Elevation: units.ElevationAt(units.Length(g.Float(-500, 3000))), Air: units.Celsius(g.Float(-20, 40)), Humidity: units.Ratio(g.Float(0, 1))}
		b := a
		what := g.Pick(3)
		switch what {
		case 0:
			b.Elevation = units.ElevationAt(a.Elevation.Length() + 100*units.Meter)
		case 1:
			b.Air = a.Air.Add(5 * units.KelvinDelta)
		case 2:
			b.Humidity = min(1, a.Humidity+0.1)
		}
		x, err := e.Corrections(a)
		if err != nil {
			return err
		}
		y, err := e.Corrections(b)
		if err != nil {
			return err
		}
		for name, v := range map[string][2]units.Ratio{
			"plate": {x.Plate, y.Plate}, "thumb": {x.Thumb, y.Thumb}, "J1349": {x.J1349, y.J1349}, "ISO 3046-1": {x.ISO3046, y.ISO3046},
		} {
			if v[1] > v[0]+1e-15 {
				return fmt.Errorf("%s rises from %v to %v with change %d", name, v[0], v[1], what)
			}
		}
		return nil
	})
}

// TestCorrections_turbochargingKeepsPowerInThinAir: with heat left out, a boosted
// diesel loses less to height than the same engine without.
func TestCorrections_turbochargingKeepsPowerInThinAir(t *testing.T) {
	s := site(6000, 77)
	na, err := fuel.Engine{Gross: 1e4, Continuous: 1, Ignition: fuel.Compression}.Corrections(s)
	if err != nil {
		t.Fatal(err)
	}
	turbo, err := fuel.Engine{Gross: 1e4, Continuous: 1, Ignition: fuel.Compression, Aspiration: fuel.Turbocharged}.Corrections(s)
	if err != nil {
		t.Fatal(err)
	}
	if !(turbo.J1349 > na.J1349 && turbo.ISO3046 > na.ISO3046) {
		t.Errorf("turbocharged %+v, naturally aspirated %+v", turbo, na)
	}
	boosted, err := fuel.Engine{Gross: 1e4, Continuous: 1, Ignition: fuel.Spark, Aspiration: fuel.Turbocharged}.Corrections(s)
	if err != nil || boosted.J1349 != 0 || boosted.ISO3046 == 0 {
		t.Errorf("boosted spark engine %+v, %v", boosted, err)
	}
}

func TestEngine_availableByEachCorrection(t *testing.T) {
	e := fuel.Engine{Gross: 20 * units.Horsepower, Continuous: 0.9, Plate: common, Ignition: fuel.Spark}
	s := site(5200, 95)
	all, err := e.Corrections(s)
	if err != nil {
		t.Fatal(err)
	}
	for c, want := range map[fuel.Correction]units.Ratio{fuel.ByPlate: all.Plate, fuel.ByJ1349: all.J1349, fuel.ByISO3046: all.ISO3046} {
		e.Correction = c
		got, err := e.Available(s)
		if err != nil || got.Factor != want || got.Correction != c {
			t.Errorf("%v: %+v, %v, want factor %v", c, got, err, want)
		}
		cold, err := e.Available(site(0, 0))
		if err != nil || cold.Factor != 1 {
			t.Errorf("%v in dense air: %+v, %v", c, cold, err)
		}
	}
	barometer := s
	barometer.Pressure = 90 * units.KilopascalAbsolute
	e.Correction = fuel.ByJ1349
	got, err := e.Available(barometer)
	if err != nil || !(got.Factor > all.J1349) {
		t.Errorf("the barometer is not read: %+v, %v", got, err)
	}
}

func TestEngineFactor(t *testing.T) {
	for _, c := range []struct{ q, r, want float64 }{
		{30, 1, 0.2}, {37.2, 1, 0.2}, {40, 1, 0.3}, {50, 1, 0.66}, {65, 1, 1.2}, {80, 1, 1.2}, {80, 2, 0.3},
	} {
		if got := fuel.EngineFactor(c.q, c.r); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("q %g, r %g: %g, want %g", c.q, c.r, got, c.want)
		}
	}
	if !math.IsNaN(fuel.EngineFactor(math.NaN(), 1)) || !math.IsNaN(fuel.EngineFactor(40, math.NaN())) {
		t.Error("NaN in, a number out")
	}
}

func TestCorrections_badInput(t *testing.T) {
	nan := math.NaN()
	spark := fuel.J1349{Ignition: fuel.Spark}
	for _, c := range []struct {
		j    fuel.J1349
		dry  units.AbsolutePressure
		air  units.Temperature
		path string
		kind error
	}{
		{fuel.J1349{}, 99e3, units.Celsius(25), "ignition", units.ErrMissing},
		{fuel.J1349{Ignition: 7}, 99e3, units.Celsius(25), "ignition", units.ErrRange},
		{fuel.J1349{Ignition: fuel.Spark, Aspiration: fuel.Turbocharged}, 99e3, units.Celsius(25), "aspiration", units.ErrConflict},
		{fuel.J1349{Ignition: fuel.Compression, Aspiration: 9}, 99e3, units.Celsius(25), "aspiration", units.ErrRange},
		{fuel.J1349{Ignition: fuel.Compression, Fuel: 3}, 99e3, units.Celsius(25), "fuel", units.ErrRange},
		{spark, 0, units.Celsius(25), "dry", units.ErrRange},
		{spark, units.AbsolutePressure(nan), units.Celsius(25), "dry", units.ErrRange},
		{spark, 99e3, units.Temperature{}, "air", units.ErrMissing},
	} {
		got, err := c.j.Factor(c.dry, c.air)
		wantFieldError(t, "J1349", err, c.path, c.kind)
		if got != 0 {
			t.Errorf("%v beside %v", got, err)
		}
	}
	for _, c := range []struct {
		i    fuel.ISO3046
		s    fuel.Site
		path string
		kind error
	}{
		{fuel.ISO3046{}, site(0, 77), "ignition", units.ErrMissing},
		{fuel.ISO3046{Ignition: fuel.Spark, Aspiration: 9}, site(0, 77), "aspiration", units.ErrRange},
		{fuel.ISO3046{Ignition: fuel.Spark, Mechanical: 0.1}, site(0, 77), "mechanical", units.ErrRange},
		{fuel.ISO3046{Ignition: fuel.Spark, Coolant: units.Fahrenheit(300)}, site(0, 77), "coolant", units.ErrRange},
		{fuel.ISO3046{Ignition: fuel.Spark}, fuel.Site{}, "site.air", units.ErrMissing},
	} {
		got, err := c.i.Factor(c.s)
		wantFieldError(t, "ISO 3046-1", err, c.path, c.kind)
		if got != 0 {
			t.Errorf("%v beside %v", got, err)
		}
	}
	s := site(0, 77)
	s.Pressure, s.Humidity = 30, 50
	_, err := s.DryPressure()
	wantFieldError(t, "site", err, "pressure", units.ErrRange)
	wantFieldError(t, "site", err, "humidity", units.ErrRange)
	e := fuel.Engine{Gross: 1e4, Continuous: 1}
	_, err = e.Corrections(site(0, 77))
	wantFieldError(t, "engine", err, "engine.ignition", units.ErrMissing)
	e.Correction = fuel.ByISO3046
	_, err = e.Available(site(0, 77))
	wantFieldError(t, "engine", err, "engine.ignition", units.ErrMissing)
	e.Correction = 7
	_, err = e.Available(site(0, 77))
	wantFieldError(t, "engine", err, "engine.correction", units.ErrRange)
	for got, want := range map[string]string{
		fuel.Correction(7).String(): "invalid", fuel.ByPlate.String(): "plate", fuel.ByJ1349.String(): "SAE J1349", fuel.ByISO3046.String(): "ISO 3046-1",
		fuel.Ignition(0).String(): "not given", fuel.Spark.String(): "spark", fuel.Compression.String(): "compression",
		fuel.Aspiration(3).String(): "invalid", fuel.NaturallyAspirated.String(): "naturally aspirated",
		fuel.Turbocharged.String(): "turbocharged", fuel.ChargeCooled.String(): "turbocharged and charge cooled",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
