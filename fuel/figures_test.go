package fuel_test

import (
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/units"
)

// TestFigures_tableTakesTheUsedOnes ties every row of the table to its sources.
func TestFigures_tableTakesTheUsedOnes(t *testing.T) {
	total := 0
	for _, k := range fuel.Kinds() {
		p := row(t, k)
		want := map[fuel.Property]float64{
			fuel.PropertyDensity:   float64(p.Density),
			fuel.PropertyHigher:    float64(p.Higher),
			fuel.PropertyLower:     float64(p.Lower),
			fuel.PropertyFossil:    float64(p.CarbonDioxide.Fossil),
			fuel.PropertyBiogenic:  float64(p.CarbonDioxide.Biogenic),
			fuel.PropertyCloud:     p.Cold.Cloud.Kelvin(),
			fuel.PropertyGel:       p.Cold.Gel.Kelvin(),
			fuel.PropertyBoiling:   p.Cold.Boiling.Kelvin(),
			fuel.PropertyViscosity: float64(p.Viscosity),
		}
		if k == fuel.BiodieselB5 || k == fuel.BiodieselB20 {
			// Cold limits and viscosity of the blends come from Blend, not from a figure.
			delete(want, fuel.PropertyCloud)
			delete(want, fuel.PropertyGel)
			delete(want, fuel.PropertyViscosity)
		}
		figures, err := fuel.Figures(k)
		if err != nil {
			t.Fatal(err)
		}
		total += len(figures)
		used := map[fuel.Property]bool{}
		var last fuel.Property
		for _, f := range figures {
			q := f.Quantity()
			if f.Kind != k || f.Source == "" || f.Basis == "" || f.Property.String() == "invalid" || f.Status.String() == "invalid" || !q.Given() {
				t.Errorf("%v: incomplete figure %+v", k, f)
			}
			if f.Property < last {
				t.Errorf("%v: %v out of order", k, f.Property)
			}
			if f.Property != last && !f.Used {
				t.Errorf("%v: the first figure for %v is not the used one", k, f.Property)
			}
			last = f.Property
			if !f.Used {
				// Agencies differ by a few per cent, in kelvins by more than that
				// only if a unit was mistaken.
				if d := math.Abs(q.SI()/want[f.Property] - 1); d > 0.07 && f.Property != fuel.PropertyBiogenic {
					t.Errorf("%v: %v of %s is %.3g off the table", k, f.Property, f.Source, d)
				}
				continue
			}
			if used[f.Property] {
				t.Errorf("%v: two used figures for %v", k, f.Property)
			}
			used[f.Property] = true
			if w := want[f.Property]; math.Abs(q.SI()-w) > 1e-12*w {
				t.Errorf("%v: %v is %g in the table, %g in its figure", k, f.Property, w, q.SI())
			}
		}
		for property, w := range want {
			if w != 0 && !used[property] {
				t.Errorf("%v: no figure for %v", k, property)
			}
		}
		// The list is a copy.
		figures[0].Value = 0
		if again, _ := fuel.Figures(k); again[0].Value == 0 {
			t.Errorf("%v: the caller can change the table", k)
		}
	}
	if total < 80 {
		t.Errorf("%d figures", total)
	}
	_, err := fuel.Figures(0)
	wantFieldError(t, "no kind", err, "kind", units.ErrMissing)
	if fuel.Status(0).String() != "invalid" || fuel.Property(0).String() != "invalid" || (fuel.Figure{}).Quantity().Given() {
		t.Error("zero values pass for something")
	}
}
