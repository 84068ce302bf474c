package fuel_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// TestDensityAt_propaneSweep holds the propane form against the reference
// equation of state, whose saturated density testdata/propane_saturation.py
// computes, over the whole range.
func TestDensityAt_propaneSweep(t *testing.T) {
	f, err := os.Open("testdata/propane_saturation.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	p := row(t, fuel.Propane)
	var at60, worst float64
	for _, c := range rows[1:] {
		if c[0] == "60" {
			at60 = parse(t, c[2])
		}
	}
	for _, c := range rows[1:] {
		got, err := p.DensityAt(units.Fahrenheit(parse(t, c[0])))
		if err != nil {
			t.Fatal(err)
		}
		off := float64(got/p.Density)/(parse(t, c[2])/at60) - 1
		worst = max(worst, math.Abs(off))
	}
	// The doc says 0.53 %.
	if len(rows) != 24 || worst > 0.0053 || worst < 0.0052 {
		t.Errorf("%d rows, worst difference %.4f %%", len(rows)-1, 100*worst)
	}
}

func parse(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestDensityAt_metricTables holds the correction from 60 °F against that of the
// metric tables (53B and 54B), which start from 15 °C and whose constants are
// printed in many public copies.
func TestDensityAt_metricTables(t *testing.T) {
	correction := func(rho15, dT float64) float64 {
		var a float64
		switch {
		case rho15 < 770.5:
			a = 346.4228/(rho15*rho15) + 0.4388/rho15
		case rho15 < 787.5:
			a = 2680.3206/(rho15*rho15) - 0.00336312
		case rho15 < 838.5:
			a = 594.5418 / (rho15 * rho15)
		default:
			a = 186.9696/(rho15*rho15) + 0.4862/rho15
		}
		return math.Exp(-a * dT * (1 + 0.8*a*dT))
	}
	property.Check(t, func(g *property.G) error {
		p := fuel.Properties{Kind: fuel.Diesel2, Density: units.Density(g.Float(660, 1000))}
		c := g.Float(-50, 70)
		rho := float64(p.Density)
		for _, edge := range []float64{770.5, 787.5, 838.5} {
			if math.Abs(rho-edge) < 2 {
				return property.ErrDiscard // either table may be on the other side
			}
		}
		got, err := p.DensityAt(units.Celsius(c))
		if err != nil {
			return err
		}
		// Density at 15 °C from that at 60 °F, then down the metric table.
		rho15 := rho
		for range 20 {
			rho15 = rho / correction(rho15, 5./9)
		}
		want := rho15 * correction(rho15, c-15)
		// The tables name a fuel by its density at bases 0.56 °C apart, which
		// differ by at most 1 in 2,000. α goes with density to a power between −1
		// and −2, in the transition up to −8, and the whole expansion is at most
		// 8 %.
		tolerance := 2 * 0.0005 * 0.08
		if rho > 770.5 && rho < 787.5 {
			tolerance *= 4
		}
		if d := math.Abs(float64(got)/want - 1); d > tolerance {
			return fmt.Errorf("%g kg/m³ at %g °C: %g, metric tables %g", rho, c, float64(got), want)
		}
		return nil
	})
}

func TestDensityAt_expansionByTheTrade(t *testing.T) {
	for _, c := range []struct {
		given, printed string
		rho            units.Density
	}{
		{"gasoline, 730 kg/m³", "0.00125 per °C", 730},
		{"No. 1 diesel, 804 kg/m³", "0.0009 per °C", 804},
		{"diesel, 850 kg/m³", "0.0008 per °C", 850},
	} {
		p := fuel.Properties{Kind: fuel.Diesel2, Density: c.rho}
		cold, err := p.DensityAt(units.Celsius(15))
		if err != nil {
			t.Fatal(err)
		}
		warm, err := p.DensityAt(units.Celsius(16))
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "A tank is filled cold and warms up: by how much does the fuel expand?",
			Source:   "expansion coefficients at 15 °C as the fuel trade quotes them",
			Status:   worked.CommonPractice,
			Given:    []string{c.given},
			Printed:  c.printed,
			Got:      float64(cold/warm) - 1,
		})
	}
}

func TestDensityAt_fallsWithHeat(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		k := property.OneOf(g, fuel.Kinds()...)
		p, err := fuel.PropertiesOf(k)
		if err != nil {
			return err
		}
		f := g.Float(-60, 159)
		cold, err := p.DensityAt(units.Fahrenheit(f))
		if err != nil {
			return err
		}
		warm, err := p.DensityAt(units.Fahrenheit(f + g.Float(0.1, 160-f)))
		if err != nil {
			return err
		}
		if !(warm < cold) {
			return fmt.Errorf("%v at %g °F: %v, warmer %v", k, f, cold, warm)
		}
		return nil
	})
	for _, k := range fuel.Kinds() {
		p := row(t, k)
		if got, err := p.DensityAt(fuel.BaseTemperature()); err != nil || math.Abs(float64(got/p.Density)-1) > 1e-14 {
			t.Errorf("%v at its base: %v, %v, want %v", k, got, err, p.Density)
		}
	}
}

func TestDensityAt_badInput(t *testing.T) {
	p := row(t, fuel.Diesel2)
	for _, c := range []struct {
		at   units.Temperature
		kind error
	}{
		{units.Temperature{}, units.ErrMissing},
		{units.Fahrenheit(161), units.ErrRange},
		{units.Fahrenheit(-61), units.ErrRange},
		{units.Fahrenheit(math.NaN()), units.ErrRange},
	} {
		got, err := p.DensityAt(c.at)
		wantFieldError(t, c.at.String(), err, "temperature", c.kind)
		if got != 0 {
			t.Errorf("%v beside an error", got)
		}
	}
	for _, rho := range []units.Density{-1, 5000, units.Density(math.NaN())} {
		_, err := fuel.Properties{Density: rho}.DensityAt(units.Fahrenheit(60))
		wantFieldError(t, "density", err, "density", units.ErrRange)
	}
	_, err := fuel.Properties{}.DensityAt(units.Fahrenheit(60))
	wantFieldError(t, "zero value", err, "density", units.ErrMissing)
}
