package fuel_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func TestHeatingValues_areDistinctTypes(t *testing.T) {
	higher, lower := reflect.TypeFor[fuel.HigherHeatingValue](), reflect.TypeFor[fuel.LowerHeatingValue]()
	if higher.AssignableTo(lower) || lower.AssignableTo(higher) {
		t.Errorf("%v and %v can be taken for each other", higher, lower)
	}
}

func TestHeatingValues_higherIsHigher(t *testing.T) {
	for _, k := range fuel.Kinds() {
		p, err := fuel.PropertiesOf(k)
		if err != nil {
			t.Fatal(err)
		}
		// A hydrocarbon of 12 % to 25 % hydrogen by mass makes 1.07 to 2.25 kg of
		// water a kilogram, whose latent heat is 2.442 MJ/kg at 25 °C.
		water := float64(p.Higher.ByVolume()-p.Lower.ByVolume()) / float64(p.Density) / 2.442e6
		if !(water > 1.05 && water < 2.3) {
			t.Errorf("%v: higher less lower is the latent heat of %.3g kg of water per kg", k, water)
		}
		if p.CarbonDioxide.Fossil < 0 || p.CarbonDioxide.Biogenic < 0 {
			t.Errorf("%v: %+v", k, p.CarbonDioxide)
		}
		// Carbon is 12.011/44.009 of its dioxide; fuels hold 72 % to 90 % of it.
		carbon := float64(p.CarbonDioxide.Fossil+p.CarbonDioxide.Biogenic) / float64(p.Density) * 12.011 / 44.009
		if !(carbon > 0.70 && carbon < 0.93) {
			t.Errorf("%v: carbon dioxide of %.3g carbon by mass", k, carbon)
		}
	}
}

func TestBlends_lieBetweenParents(t *testing.T) {
	get := func(k fuel.Kind) fuel.Properties {
		p, err := fuel.PropertiesOf(k)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	d, b5, b20 := get(fuel.Diesel2), get(fuel.BiodieselB5), get(fuel.BiodieselB20)
	if !(d.Density < b5.Density && b5.Density < b20.Density) {
		t.Errorf("density %v, %v, %v", d.Density, b5.Density, b20.Density)
	}
	if !(d.Higher > b5.Higher && b5.Higher > b20.Higher && d.Lower > b5.Lower && b5.Lower > b20.Lower) {
		t.Errorf("heat %v, %v, %v", d.Higher, b5.Higher, b20.Higher)
	}
	if !(d.CarbonDioxide.Fossil > b5.CarbonDioxide.Fossil && b5.CarbonDioxide.Fossil > b20.CarbonDioxide.Fossil) ||
		!(d.CarbonDioxide.Biogenic == 0 && b5.CarbonDioxide.Biogenic > 0 && b5.CarbonDioxide.Biogenic < b20.CarbonDioxide.Biogenic) {
		t.Errorf("carbon dioxide %v, %v, %v", d.CarbonDioxide, b5.CarbonDioxide, b20.CarbonDioxide)
	}
	e0, e10 := get(fuel.GasolineE0), get(fuel.GasolineE10)
	if !(e10.Higher < e0.Higher && e10.Lower < e0.Lower && e10.CarbonDioxide.Fossil < e0.CarbonDioxide.Fossil && e10.CarbonDioxide.Biogenic > 0 && e10.Density > e0.Density) {
		t.Errorf("E10 is %+v beside E0 %+v", e10, e0)
	}
}

func TestInput_ofARate(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		k := property.OneOf(g, fuel.Kinds()...)
		p, err := fuel.PropertiesOf(k)
		if err != nil {
			return err
		}
		rate := units.FuelRate(g.LogFloat(1e-9, 1e-2))
		higher, err := fuel.HigherInput(rate, p.Higher)
		if err != nil {
			return err
		}
		lower, err := fuel.LowerInput(rate, p.Lower)
		if err != nil {
			return err
		}
		if !(higher > lower && lower > 0) {
			return fmt.Errorf("%v at %v: %v higher, %v lower", k, rate, higher, lower)
		}
		return nil
	})
	zero, err := fuel.HigherInput(0, fuel.HigherHeatingValue(138_500*units.BTUPerGallon))
	if err != nil || zero != 0 {
		t.Errorf("no flow brings %v, %v", zero, err)
	}
}

func TestInput_badInput(t *testing.T) {
	_, err := fuel.HigherInput(-1, 0)
	wantFieldError(t, "higher", err, "rate", units.ErrRange)
	wantFieldError(t, "higher", err, "higher", units.ErrMissing)
	_, err = fuel.LowerInput(units.FuelRate(math.NaN()), fuel.LowerHeatingValue(math.Inf(1)))
	wantFieldError(t, "lower", err, "rate", units.ErrRange)
	wantFieldError(t, "lower", err, "lower", units.ErrRange)
}
