package electrical_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/units"
)

// readTable returns the rows of a table in testdata by their column names. Its
// first line names the source.
func readTable(t *testing.T, name string) []map[string]string {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(data, []byte("# source: ")) {
		t.Fatalf("%s does not name its source on line 1", name)
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, l := range lines[1:] {
		row := map[string]string{}
		for i, h := range lines[0] {
			row[h] = l[i]
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		t.Fatalf("%s has no rows", name)
	}
	return rows
}

func num(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func gauge(t *testing.T, s string) electrical.Gauge {
	t.Helper()
	g, err := electrical.ParseGauge(s)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// The figures in testdata were typed from the named reproductions on another
// occasion than the tables of the package; they must be the same to the digit.

func TestResistance_table8(t *testing.T) {
	rows := readTable(t, "nec_ch9_table8_dc_resistance.csv")
	for _, r := range rows {
		g := gauge(t, r["awg"])
		for m, column := range map[electrical.Material]string{
			electrical.Copper: "cu_uncoated_ohm_per_kft", electrical.CoatedCopper: "cu_coated_ohm_per_kft", electrical.Aluminum: "al_ohm_per_kft",
		} {
			c := electrical.Conductor{Gauge: g, Material: m, Solid: r["strands"] == "1"}
			got, err := c.Resistance(units.Celsius(75))
			if err != nil {
				t.Fatal(err)
			}
			if same := fmt.Sprintf("%.6g", got.In(units.OhmPerKilofoot)); same != fmt.Sprintf("%.6g", num(t, r[column])) {
				t.Errorf("%v: %s ohm/kft, table %s", c, same, r[column])
			}
		}
		// The table's area is rounded to ten circular mils.
		a, err := g.Area()
		if err != nil {
			t.Fatal(err)
		}
		d := a.In(units.SquareInch) * 4e6 / 3.141592653589793
		if table := num(t, r["area_cmil"]); d < table*0.996 || d > table*1.004 {
			t.Errorf("%v: %.0f circular mils, table %.0f", g, d, table)
		}
	}
	if len(rows) != 21 {
		t.Errorf("%d rows", len(rows))
	}
}

func TestConduitImpedance_table9(t *testing.T) {
	for _, r := range readTable(t, "nec_ch9_table9_ac_impedance_cu.csv") {
		for c, columns := range map[electrical.Conduit][3]string{
			electrical.PlasticConduit:  {"r_cu_pvc", "xl_pvc_al_conduit", "zeff_085pf_pvc"},
			electrical.AluminumConduit: {"r_cu_al_conduit", "xl_pvc_al_conduit", "zeff_085pf_al_conduit"},
			electrical.SteelConduit:    {"r_cu_steel", "xl_steel_conduit", "zeff_085pf_steel"},
		} {
			res, x, err := electrical.ConduitImpedance(gauge(t, r["awg"]), c)
			if err != nil {
				t.Fatal(err)
			}
			for i, got := range []units.ResistancePerLength{res, x} {
				if s := fmt.Sprintf("%.5g", got.In(units.OhmPerKilofoot)); s != fmt.Sprintf("%.5g", num(t, r[columns[i]])) {
					t.Errorf("%s AWG %s: %s, table %s", r["awg"], columns[i], s, r[columns[i]])
				}
			}
			// The third column is R cos φ + X sin φ at 0.85. R and X are printed to
			// two figures, and so is it: half a unit of each is allowed.
			if r[columns[2]] == "" {
				continue
			}
			z, err := electrical.EffectiveImpedance(res, x, 0.85)
			if err != nil {
				t.Fatal(err)
			}
			half := halfUnit(r[columns[2]]) + 0.85*halfUnit(r[columns[0]]) + 0.5268*halfUnit(r[columns[1]])
			if d := z.In(units.OhmPerKilofoot) - num(t, r[columns[2]]); d > half || d < -half {
				t.Errorf("%s AWG: effective %.4g, table %s ± %.3g", r["awg"], z.In(units.OhmPerKilofoot), r[columns[2]], half)
			}
		}
	}
}

// halfUnit is half a unit of the last printed digit.
func halfUnit(s string) float64 {
	_, frac, _ := strings.Cut(s, ".")
	h := 0.5
	for range frac {
		h /= 10
	}
	return h
}

func TestCordAmpacity_table400(t *testing.T) {
	status := map[string]electrical.Standing{"memory": electrical.FromMemory, "verified": electrical.Reproduced}
	for _, r := range readTable(t, "nec_400_5_a1_cord_ampacity.csv") {
		for carrying, column := range map[int][2]string{3: {"col_A_3_current_carrying_A", "status_A"}, 2: {"col_B_2_current_carrying_A", "status_B"}} {
			i, by, err := electrical.CordAmpacity(gauge(t, r["awg"]), carrying)
			if err != nil || i.In(units.Ampere) != num(t, r[column[0]]) || by != status[r[column[1]]] {
				t.Errorf("%s AWG, %d carrying: %v %v %v, table %s %s", r["awg"], carrying, i, by, err, r[column[0]], r[column[1]])
			}
		}
	}
	for _, r := range readTable(t, "nec_400_5_a2_type_w_ampacity.csv") {
		for n, column := range []string{"one_conductor_A", "two_conductor_A", "three_conductor_A"} {
			i, err := electrical.TypeWAmpacity(gauge(t, r["awg"]), units.Celsius(num(t, r["temp_rating_C"])), n+1)
			if err != nil || i.In(units.Ampere) != num(t, r[column]) {
				t.Errorf("%s AWG, %s °C, %s: %v %v, table %s", r["awg"], r["temp_rating_C"], column, i, err, r[column])
			}
		}
	}
}

func TestGauge_astmB258(t *testing.T) {
	for _, r := range readTable(t, "awg_astm_b258.csv") {
		g := gauge(t, r["awg"])
		d, err := g.Diameter()
		if err != nil {
			t.Fatal(err)
		}
		if s := fmt.Sprintf("%.8f", d.In(units.Inch)); s != r["diameter_in"] {
			t.Errorf("%v: diameter %s in, table %s", g, s, r["diameter_in"])
		}
		ohm, err := electrical.AnnealedCopperResistance(g, units.Celsius(20))
		if err != nil {
			t.Fatal(err)
		}
		if s := fmt.Sprintf("%.6f", ohm.In(units.OhmPerKilofoot)); s != r["r20C_ohm_per_kft"] {
			t.Errorf("%v: %s ohm/kft, table %s", g, s, r["r20C_ohm_per_kft"])
		}
	}
}

// The table's conductors against the resistance of annealed copper.
func TestResistance_annealedCopper(t *testing.T) {
	for _, r := range readTable(t, "nec_ch9_table8_dc_resistance.csv") {
		g := gauge(t, r["awg"])
		c := electrical.Conductor{Gauge: g, Solid: r["strands"] == "1"}
		for _, at := range []float64{20, 75} {
			table, err := c.Resistance(units.Celsius(at))
			if err != nil {
				t.Fatal(err)
			}
			pure, err := electrical.AnnealedCopperResistance(g, units.Celsius(at))
			if err != nil {
				t.Fatal(err)
			}
			lo, hi := -0.01, 0.01 // three printed figures: half a unit is up to 0.5 %
			if !c.Solid {
				lo, hi = 0.00, 0.035 // the lay of the strands adds 2 %
			}
			if d := float64(table/pure) - 1; d < lo || d > hi {
				t.Errorf("%v at %g °C: %.2f %% from annealed copper", c, at, 100*d)
			}
		}
	}
}
