package units

import (
	"bytes"
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/internal/unitsgen"
)

func TestGenerated(t *testing.T) {
	want, err := unitsgen.Generate()
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile("zkinds.go")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Error("zkinds.go is not what the table generates: run go generate ./units")
	}
}

// readTable reads a CSV of testdata with "#" lines and a header.
func readTable(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
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
	if len(rows) < 2 {
		t.Fatalf("%s: no rows", name)
	}
	return rows[1:]
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Every unit against GNU units 2.22, to 1e-14 relative: the definitions there
// are the same exact ones, and a handful of products rounds to about 1e-15.
func TestFactors_gnuunits(t *testing.T) {
	// Figures that NIST SP 811 rounds; TestFactors_SP811_B8 has them.
	rounded := []string{"inHg(32F)", "inHg(60F)", "inH2O(39.2F)", "inH2O(60F)"}

	seen := map[Unit]bool{}
	for _, row := range readTable(t, "gnuunits.csv") {
		k, err := ParseKind(row[0])
		if err != nil {
			t.Error(err)
			continue
		}
		u, ok := k.UnitOf(row[1])
		if !ok || u.Symbol() != row[1] {
			t.Errorf("%v: no unit %q", k, row[1])
			continue
		}
		seen[u] = true
		want := number(t, row[5])
		if got := u.row().toSI(number(t, row[2])); math.Abs(got-want) > 1e-14*math.Abs(want) {
			t.Errorf("%v: %s %s = %v %s, GNU units has %v", k, row[2], row[1], got, k.Base(), want)
		}
		if got := (number(t, row[2]) + u.Offset()) * u.Factor(); math.Abs(got-want) > 1e-14*math.Abs(want) {
			t.Errorf("%v: factor and offset of %s give %v, GNU units has %v", k, row[1], got, want)
		}
	}
	for _, k := range Kinds() {
		for _, u := range k.Units() {
			if !seen[u] && !slices.Contains(rounded, u.Symbol()) {
				t.Errorf("%v: no row of GNU units for %q", k, u.Symbol())
			}
		}
	}
}

func TestTable(t *testing.T) {
	for _, k := range Kinds() {
		row := k.row()
		if !strings.HasPrefix(row.phrase, "a ") && !strings.HasPrefix(row.phrase, "an ") {
			t.Errorf("%v: the phrase %q has no article", k, row.phrase)
		}
		if got, err := ParseKind(k.String()); err != nil || got != k {
			t.Errorf("ParseKind(%q) = %v, %v", k.String(), got, err)
		}
		factors := map[[2]float64]string{}
		for i := range row.units {
			u := &row.units[i]
			key := [2]float64{u.factor, u.offset}
			if by, ok := factors[key]; ok {
				t.Errorf("%v: %q and %q are one unit", k, by, u.symbol)
			}
			factors[key] = u.symbol
			if !(u.factor > 0) || math.IsInf(u.factor, 0) {
				t.Errorf("%v: %q has the factor %v", k, u.symbol, u.factor)
			}

			// A decimal unit must be marked as one, or it would not round trip
			// to the last bit in as few digits as it could.
			e := math.Round(math.Log10(u.factor))
			power, err := strconv.ParseFloat("1e"+strconv.Itoa(int(e)), 64)
			if err != nil {
				t.Fatal(err)
			}
			if ten := u.factor == power && u.offset == 0; ten != u.ten || ten && int(e) != u.exp {
				t.Errorf("%v: %q: factor %v, marked %v 10^%d", k, u.symbol, u.factor, u.ten, u.exp)
			}

			if u.symbol != "" && (len(u.spellings) == 0 || u.spellings[0] != u.symbol) {
				t.Errorf("%v: %q does not come first in its spellings", k, u.symbol)
			}
			for _, s := range u.spellings {
				if strings.TrimSpace(s) != s || s == "" || digit(s[0]) || strings.ContainsAny(s[:1], "+-.,/eE_") {
					t.Errorf("%v: the spelling %q cannot be told from a number before it", k, s)
				}
				if row.units[k.find(s)].symbol != u.symbol {
					t.Errorf("%v: %q spells two units", k, s)
				}
			}
			ascii := slices.ContainsFunc(u.spellings, func(s string) bool {
				return strings.IndexFunc(s, func(r rune) bool { return r > 126 }) < 0
			})
			if !ascii && u.symbol != "" {
				t.Errorf("%v: %q has no spelling in ASCII", k, u.symbol)
			}
		}
		for _, s := range []System{US, SI} {
			if u := k.Unit(s); u.Kind() != k {
				t.Errorf("%v: no unit to print in %v", k, s)
			}
		}
		if _, err := ParseQuantity(k, k.Example()); err != nil {
			t.Errorf("%v: its example: %v", k, err)
		}
	}
}

func TestSteelPipe_fluids(t *testing.T) {
	n := 0
	for _, row := range readTable(t, "steelpipe.csv") {
		p, err := SteelPipe(Length(number(t, row[0]))*Inch, PipeSchedule(number(t, row[1])))
		if err != nil {
			t.Error(err)
			continue
		}
		n++
		// Half a unit of the digits that the metric table prints.
		if d := p.Outside.In(Millimeter) - number(t, row[2]); math.Abs(d) > 0.05+1e-9 {
			t.Errorf("%s schedule %d: outside differs by %v mm", p.Size, p.Schedule, d)
		}
		if d := p.Wall.In(Millimeter) - number(t, row[3]); math.Abs(d) > 0.005+1e-9 {
			t.Errorf("%s schedule %d: wall differs by %v mm", p.Size, p.Schedule, d)
		}
	}
	if n != 2*len(pipes) {
		t.Errorf("%d rows compared, the table has %d sizes in 2 schedules", n, len(pipes))
	}
}

// The rule of ASTM B258, computed elsewhere to eight digits.
func TestAWG_table(t *testing.T) {
	for _, row := range readTable(t, "awg_astm_b258.csv") {
		w, err := AWG(row[0])
		if err != nil {
			t.Error(err)
			continue
		}
		for i, got := range []float64{w.Diameter.In(Inch), w.Diameter.In(Millimeter), w.Area.In(CircularMil), w.Area.In(SquareMillimeter)} {
			want := number(t, row[1+i])
			decimals := len(row[1+i]) - 1 - strings.IndexByte(row[1+i], '.')
			if math.Abs(got-want) > 0.5*math.Pow10(-decimals)*(1+1e-9) {
				t.Errorf("%s AWG, column %d: got %v, want %v", row[0], 1+i, got, want)
			}
		}
	}
}
