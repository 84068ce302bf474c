package fuel_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
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

// The figures in testdata were gathered on another occasion than the package's;
// every one of a fuel of the table must stand among its figures, with the digits
// printed and with a standing that is no better than the one noted there.
func TestFigures_gatheredTwice(t *testing.T) {
	data, err := os.ReadFile("testdata/fuel_properties.csv")
	if err != nil {
		t.Fatal(err)
	}
	source, text, _ := strings.Cut(string(data), "\n")
	if !strings.HasPrefix(source, "# source: ") {
		t.Fatalf("the first line is %q", source)
	}
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil || len(rows) < 40 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	kinds := map[string][]fuel.Kind{
		"gasoline (E0-E10)":       {fuel.GasolineE10, fuel.GasolineE0}, // a range from the one to the other
		"finished motor gasoline": {fuel.GasolineE10}, "motor gasoline": {fuel.GasolineE0}, "gasoline": {fuel.GasolineE0},
		"low-sulfur diesel": {fuel.Diesel2}, "distillate 15 ppm S or less": {fuel.Diesel2}, "heating oil": {fuel.Diesel2}, "No. 2 fuel oil": {fuel.Diesel2},
		"No. 2 fuel oil / diesel": {fuel.Diesel2}, "distillate oil": {fuel.Diesel2}, "diesel": {fuel.Diesel2},
		"No. 1 fuel oil": {fuel.Diesel1}, "kerosene": {fuel.Kerosene}, "propane": {fuel.Propane},
		"natural gas": {fuel.NaturalGas}, "compressed natural gas": {fuel.NaturalGas}, "biodiesel B20": {fuel.BiodieselB20},
	}
	// Of no fuel of the table: propane as a gas, the mixture sold as LPG, and pure
	// biodiesel, which TestFigures_tableTakesTheUsedOnes sees in its blends.
	others := map[string]bool{"propane gas": true, "LPG mixture": true, "biodiesel B100": true}
	properties := map[string]fuel.Property{"density": fuel.PropertyDensity, "HHV": fuel.PropertyHigher, "LHV": fuel.PropertyLower,
		"CO2": fuel.PropertyFossil, "CO2 fossil part": fuel.PropertyFossil}
	const million = 1e6
	scale := map[string]units.Quantity{
		"Btu/US gal": units.BTUPerGallon.Quantity(), "mmBtu/US gal": (million * units.BTUPerGallon).Quantity(),
		"mmBtu/bbl (42 gal)": (million / 42 * units.BTUPerGallon).Quantity(), "mmBtu/scf": (million * units.BTUPerCubicFoot).Quantity(),
		"Btu/ft3": units.BTUPerCubicFoot.Quantity(), "Btu/scf": units.BTUPerCubicFoot.Quantity(),
		"lb/US gal": units.PoundPerGallon.Quantity(), "lb/US gal at 60 F": units.PoundPerGallon.Quantity(), "kg/US gal": kilogramPerGallon.Quantity(),
	}
	// Where 40 CFR 98 gives carbon dioxide by heat, the heat is its own.
	heat := map[fuel.Kind]float64{}
	seen := 0
	for _, cells := range rows[1:] {
		name, property, value, unit, origin, status := cells[0], cells[1], cells[2], cells[3], cells[4], cells[5]
		list, known := kinds[name]
		if !known {
			if !others[name] {
				t.Errorf("%s: what fuel is that?", name)
			}
			continue
		}
		for i, text := range strings.Split(value, " to ") {
			k := list[i]
			x, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatal(err)
			}
			if origin == "40CFR98" && property == "HHV" {
				heat[k] = x * scale[unit].SI()
			}
			want := x * scale[unit].SI()
			if unit == "kg/mmBtu HHV" {
				want = x * heat[k] / (million * units.BTU.In(units.Joule))
			}
			share := 1e-9 // of rounding
			if name == "biodiesel B20" && property == "CO2 fossil part" {
				share = 0.005 / 10.21 // made from a factor printed to 0.01 kg/gal
			}
			if s := standing(t, k, properties[property], want, share); s == 0 {
				t.Errorf("%s: %s %s %s of %s is not among the figures of %v", name, property, text, unit, origin, k)
			} else if strings.HasPrefix(status, "memory") && s == fuel.Published {
				t.Errorf("%s: %s %s of %s is from memory, the figure says %v", name, property, text, origin, s)
			}
			seen++
		}
	}
	if seen < 35 {
		t.Errorf("%d figures were looked for", seen)
	}
}

// standing returns the worst standing among the figures of a fuel that lie within a
// share of a value, 0 if there is none.
func standing(t *testing.T, k fuel.Kind, p fuel.Property, want, share float64) (worst fuel.Status) {
	t.Helper()
	figures, err := fuel.Figures(k)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range figures {
		if f.Property == p && math.Abs(f.Quantity().SI()/want-1) <= share {
			worst = max(worst, f.Status)
		}
	}
	return worst
}
