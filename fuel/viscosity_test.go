package fuel_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// sayboltUniversal turns mm²/s into Saybolt Universal seconds at 100 °F.
//
// Source: ASTM D2161, from memory.
func sayboltUniversal(nu float64) float64 {
	return 4.6324*nu + (1+0.03264*nu)*1e5/(3930.2+262.7*nu+23.97*nu*nu+1.646*nu*nu*nu)
}

func TestViscosityAt_sayboltOfTheTrade(t *testing.T) {
	for _, c := range []struct {
		given, printed string
		k              fuel.Kind
	}{
		{"No. 1 oil at 100 °F", "31 SSU", fuel.Diesel1},
		{"No. 2 oil at 100 °F", "35 SSU", fuel.Diesel2},
	} {
		nu, err := row(t, c.k).ViscosityAt(units.Fahrenheit(100))
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "What does the oil supplier mean by 31 or 35 seconds?",
			Source:   "viscosities of fuel oil grades at 100 °F as burner training prints them; conversion by ASTM D2161 from memory",
			Status:   worked.CommonPractice,
			Given:    []string{c.given},
			Printed:  c.printed,
			Got:      sayboltUniversal(nu.In(units.Centistokes)),
		})
	}
}

func TestViscosityAt_fallsWithHeat(t *testing.T) {
	kinds := []fuel.Kind{fuel.Diesel1, fuel.Diesel2, fuel.Kerosene, fuel.BiodieselB5, fuel.BiodieselB20}
	property.Check(t, func(g *property.G) error {
		p := row(t, property.OneOf(g, kinds...))
		f := g.Float(-60, 159)
		cold, err := p.ViscosityAt(units.Fahrenheit(f))
		if err != nil {
			return err
		}
		warm, err := p.ViscosityAt(units.Fahrenheit(f + g.Float(0.1, 160-f)))
		if err != nil {
			return err
		}
		if !(warm < cold && warm > 0) {
			return fmt.Errorf("%v at %g °F: %v, warmer %v", p.Kind, f, cold, warm)
		}
		return nil
	})
	for _, k := range kinds {
		p := row(t, k)
		if got, err := p.ViscosityAt(units.Celsius(40)); err != nil || math.Abs(float64(got/p.Viscosity)-1) > 1e-12 {
			t.Errorf("%v at 40 °C: %v, %v, want %v", k, got, err, p.Viscosity)
		}
	}
}

func TestNozzleAt_plateOil(t *testing.T) {
	got, err := row(t, fuel.Diesel2).NozzleAt(units.Fahrenheit(100))
	if err != nil || got.Flow != 1 || got.Heat != 1 || got.Droplet != 1 {
		t.Errorf("the plate's own oil: %+v, %v", got, err)
	}
}

func TestNozzleAt_coldThickens(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p := row(t, property.OneOf(g, fuel.Diesel2, fuel.BiodieselB5, fuel.BiodieselB20))
		f := g.Float(20, 99)
		cold, err := p.NozzleAt(units.Fahrenheit(f))
		if err != nil {
			return err
		}
		warm, err := p.NozzleAt(units.Fahrenheit(f + g.Float(0.5, 100-f)))
		if err != nil {
			return err
		}
		// Thicker oil makes larger drops and more heat for the same nozzle; the
		// volume moves both ways, as the oil gets denser too.
		if !(cold.Droplet > warm.Droplet && cold.Heat > warm.Heat && cold.Viscosity > warm.Viscosity) {
			return fmt.Errorf("%v at %g °F: %+v, warmer %+v", p.Kind, f, cold, warm)
		}
		return nil
	})
}

func TestNozzleAt_dropsByHand(t *testing.T) {
	p := row(t, fuel.Diesel2)
	nu, err := p.ViscosityAt(units.Fahrenheit(60))
	if err != nil {
		t.Fatal(err)
	}
	got, err := p.NozzleAt(units.Fahrenheit(60))
	if err != nil {
		t.Fatal(err)
	}
	plate, err := p.ViscosityAt(units.Fahrenheit(100))
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "How much coarser does the burner spray No. 2 at 60 °F than at the nozzle plate's 100 °F?",
		Source:   "A. Radcliffe's mean drop size, as ν^0.2, in A. H. Lefebvre, Atomization and Sprays, 1989",
		Status:   worked.FromMemory,
		Given:    []string{"No. 2 oil at 60 °F, " + nu.Text(units.Centistokes, 1), "plate oil at 100 °F, " + plate.Text(units.Centistokes, 1)},
		Printed:  "1.10",
		Got:      float64(got.Droplet),
	})
}

func TestViscosity_badInput(t *testing.T) {
	for _, k := range []fuel.Kind{fuel.GasolineE0, fuel.Propane, fuel.NaturalGas} {
		_, err := row(t, k).ViscosityAt(units.Fahrenheit(60))
		wantFieldError(t, k.String(), err, "viscosity", units.ErrMissing)
		_, err = row(t, k).NozzleAt(units.Fahrenheit(60))
		wantFieldError(t, k.String(), err, "viscosity", units.ErrMissing)
	}
	p := row(t, fuel.Diesel2)
	_, err := p.NozzleAt(units.Fahrenheit(-30))
	wantFieldError(t, "treacle", err, "temperature", units.ErrRange)
	p.ViscositySlope = math.NaN()
	_, err = p.ViscosityAt(units.Temperature{})
	wantFieldError(t, "slope", err, "viscositySlope", units.ErrRange)
	wantFieldError(t, "slope", err, "temperature", units.ErrMissing)
	p.Viscosity = -1
	_, err = p.ViscosityAt(units.Fahrenheit(60))
	wantFieldError(t, "negative", err, "viscosity", units.ErrRange)
	_, err = fuel.Properties{}.NozzleAt(units.Fahrenheit(60))
	wantFieldError(t, "zero value", err, "density", units.ErrMissing)
	wantFieldError(t, "zero value", err, "higher", units.ErrMissing)
}
