package batch_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/internal/golden"
	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/units"
)

// planOf is a small plan as a file gives it, with one row that cannot be read
// and one that cannot be made.
func planOf(t testing.TB, m *rig.Model) batch.Plan {
	t.Helper()
	head, v, err := batch.ReadCSV(strings.NewReader("name,site.elevation,remove heaters[heater],remove tanks[fresh],lines[left].nozzle.number\n"+
		"low,0 ft,,,4.5\n"+
		"=HYPERLINK(1),8000 ft,,,\n"+
		"no heat,,yes,,\n"+
		"open site,(clear),,,\n"+
		"bad unit,8000,,,\n"+
		"no tank,,,yes,\n"+
		"bad cell,,maybe,,\n"), m)
	if err != nil {
		t.Fatal(err)
	}
	return batch.Plan{Variants: v, Headings: head, Columns: []batch.Column{"engines[washer].available", "heaters[].clean_firing", "lines[left].nozzle_pressure @ guns=left+right heat=off"}}
}

// The findings of the demo's rigs grow with the library, so the tables kept here
// have counts of their own; that they are the report's is tested elsewhere.
func TestTable_golden(t *testing.T) {
	m := small(t)
	for _, c := range []struct {
		name string
		o    batch.TableOptions
	}{{"wide.csv", batch.TableOptions{Plain: true}}, {"long.csv", batch.TableOptions{Plain: true, Long: true}}, {"wide-si.csv", batch.TableOptions{Plain: true, System: units.SI}}} {
		plan := planOf(t, m)
		var b bytes.Buffer
		w, err := batch.NewTable(&b, &plan, c.o)
		if err != nil {
			t.Fatal(err)
		}
		for row, err := range batch.Run(context.Background(), m, plan) {
			row.Counts = batch.Counts{Verdict: rig.Stop, Stops: 1, Unjudged: 2, Fixes: 3, Notes: 4}
			if err := w.Write(row, err); err != nil {
				t.Fatal(err)
			}
		}
		if err := w.Flush(); err != nil {
			t.Fatal(err)
		}
		golden.Equal(t, c.name, onlyLF(b.String()))
	}
	plan := planOf(t, m)
	for _, c := range []struct {
		name string
		o    batch.TableOptions
	}{{"dictionary-wide.csv", batch.TableOptions{}}, {"dictionary-long.csv", batch.TableOptions{Long: true}}} {
		var b bytes.Buffer
		if err := batch.WriteDictionary(&b, &plan, c.o); err != nil {
			t.Fatal(err)
		}
		golden.Equal(t, c.name, onlyLF(b.String()))
	}
}

// onlyLF gives the lines the ends that files of this project have; the CRLF of
// the table is checked on its own.
func onlyLF(s string) []byte { return []byte(strings.ReplaceAll(s, "\r\n", "\n")) }

// records reads a table back as any program would: comments first.
func records(t testing.TB, text string) (comments []string, rows [][]string) {
	t.Helper()
	c := csv.NewReader(strings.NewReader(text))
	c.FieldsPerRecord = -1
	for {
		r, err := c.Read()
		if err == io.EOF {
			return comments, rows
		}
		if err != nil {
			t.Fatal(err)
		}
		if len(rows) == 0 && strings.HasPrefix(r[0], "#") {
			comments = append(comments, r[0])
			continue
		}
		rows = append(rows, r)
	}
}

// Every table is rectangular, says its numbers to six digits in the unit of its
// heading, and holds nothing a spreadsheet would run.
func TestTable_isTidy(t *testing.T) {
	m := small(t)
	for _, o := range []batch.TableOptions{{}, {Long: true}, {System: units.SI}, {Long: true, System: units.SI}} {
		plan := planOf(t, m)
		text := table(t, m, plan, o)
		if strings.Count(text, "\n") != strings.Count(text, "\r\n") {
			t.Error("a line does not end in CRLF")
		}
		comments, rows := records(t, text)
		if !strings.Contains(strings.Join(comments, "\n"), "Carbon monoxide") || !strings.Contains(strings.Join(comments, "\n"), "Not checked here") {
			t.Errorf("the cautions do not travel with the table: %q", comments)
		}
		wantRows := 7
		if o.Long {
			wantRows *= len(plan.Columns)
		}
		if len(rows) != wantRows+1 {
			t.Fatalf("%d rows, want %d", len(rows)-1, wantRows)
		}
		for i, r := range rows {
			if len(r) != len(rows[0]) {
				t.Errorf("row %d has %d cells under %d headings", i, len(r), len(rows[0]))
			}
			for k, cell := range r {
				if cell != "" && strings.ContainsRune("=+@\t\r", rune(cell[0])) {
					t.Errorf("row %d, column %s: %q could be run", i, rows[0][k], cell)
				}
				if strings.HasPrefix(cell, "-") {
					if _, err := strconv.ParseFloat(cell, 64); err != nil {
						t.Errorf("row %d, column %s: %q could be run", i, rows[0][k], cell)
					}
				}
			}
		}
		var d bytes.Buffer
		if err := batch.WriteDictionary(&d, &plan, o); err != nil {
			t.Fatal(err)
		}
		_, dict := records(t, d.String())
		for i, h := range rows[0] {
			if i+1 >= len(dict) || dict[i+1][0] != h || dict[i+1][1] == "" {
				t.Errorf("column %q is not described in its place", h)
			}
		}
	}
}

// A number in the table is the reading in the heading's unit, to six digits.
func TestTable_numbers(t *testing.T) {
	m := small(t)
	plan := batch.Plan{Variants: batch.Sweep("site.elevation", "0 ft", "5200 ft"), Columns: []batch.Column{"engines[washer].available", "site.boiling_point", "lines[left].flow"}}
	us, si := map[string]string{}, map[string]string{}
	for _, x := range []struct {
		o   batch.TableOptions
		out map[string]string
	}{{batch.TableOptions{Plain: true}, us}, {batch.TableOptions{Plain: true, System: units.SI}, si}} {
		_, rows := records(t, table(t, m, plan, x.o))
		for i, h := range rows[0] {
			x.out[h] = rows[2][i]
		}
	}
	rep, err := m.Assess(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	near := func(got, heading string, want float64) {
		t.Helper()
		x, err := strconv.ParseFloat(got, 64)
		if err != nil || math.Abs(x-want) > 5e-6*math.Abs(want) {
			t.Errorf("%s: %q, want %g", heading, got, want)
		}
	}
	power, _ := rep.Worst("engines[washer].available")
	boil, _ := rep.Worst("site.boiling_point")
	near(us["engines[washer].available (hp)"], "hp", units.Power(power.Value.SI()).In(units.Horsepower))
	near(si["engines[washer].available (kW)"], "kW", power.Value.SI()/1000)
	near(us["site.boiling_point (°F)"], "°F", units.Kelvin(boil.Value.SI()).Fahrenheit())
	near(si["site.boiling_point (°C)"], "°C", units.Kelvin(boil.Value.SI()).Celsius())
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("disk is full") }

func TestTable_saysWhenItCannotWrite(t *testing.T) {
	plan := batch.Plan{Columns: []batch.Column{"trailer.total"}}
	w, err := batch.NewTable(fullDisk{}, &plan, batch.TableOptions{})
	if err == nil {
		err = w.Flush()
	}
	if err == nil || !strings.Contains(err.Error(), "disk is full") {
		t.Errorf("%v", err)
	}
	plan.Columns = []batch.Column{"nonsense"}
	if _, err := batch.NewTable(io.Discard, &plan, batch.TableOptions{}); !errors.Is(err, units.ErrRange) {
		t.Errorf("a column that is none: %v", err)
	}
	if err := batch.WriteDictionary(io.Discard, &plan, batch.TableOptions{}); !errors.Is(err, units.ErrRange) {
		t.Errorf("a dictionary of a column that is none: %v", err)
	}
}
