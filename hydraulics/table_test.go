package hydraulics_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"
)

// readTable reads testdata/name without its comment lines and header; empty
// cells and words are NaN only where the caller does not look.
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
		t.Fatalf("%s: %v", name, err)
	}
	if len(rows) < 2 {
		t.Fatalf("%s has no rows", name)
	}
	return rows[1:]
}

// num reads a cell.
func num(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
