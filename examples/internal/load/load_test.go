package load_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/washrig/examples/internal/load"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

func file(t testing.TB, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

// A dealer's spreadsheet under a shelf of the job: the job's part is on top, a
// broken row is told and the rest loads.
func TestRead_layeredShelves(t *testing.T) {
	mapping := file(t, "mapping.json", `{"format":"washrig-mapping/1","columns":[{"name":"No.","field":"number"},{"name":"Words","field":"description"},{"name":"Our cost","field":"cost","currency":"USD"}],"fixed":{"kind":"item"}}`)
	list := file(t, "list.csv", "\ufeffNo.,Words,Our cost\r\nBOX,tool box,420.00\r\nRACK,\"hose\r\nrack\",cheap\r\nSTEP,step,35.00\r\n")
	job := file(t, "job.json", `{"format":"washrig-parts/1","parts":[{"number":"BOX","kind":"item","description":"tool box, agreed","cost":"400.00 USD"}]}`)
	spec := file(t, "spec.json", `{"format":"washrig/1","name":"x","items":[{"id":"box","part":"BOX"},{"id":"step","part":"STEP"}]}`)
	s, err := load.Files{Specs: []string{spec}, Parts: []string{list, job}, Mapping: mapping}.Read()
	if err != nil {
		t.Fatal(err)
	}
	if p, err := s.Shelf.Part("BOX"); err != nil || p.Description != "tool box, agreed" || s.Shelf.Len() != 2 {
		t.Errorf("%+v, %v, %d parts", p, err, s.Shelf.Len())
	}
	if len(s.Warnings) != 1 || !strings.Contains(s.Warnings[0], "list.csv: row 3") || s.Book != nil || len(s.Models) != 1 {
		t.Errorf("%q, %d models", s.Warnings, len(s.Models))
	}
}

// Problems of all files come at once, each with the name of its file.
func TestRead_everyProblem(t *testing.T) {
	_, err := load.Files{
		Specs: []string{file(t, "spec.json", `{}`)}, Parts: []string{file(t, "parts.json", `{"format":"washrig-parts/1","parts":[{"kind":"item"}]}`)},
		Book: file(t, "book.json", `{"format":"washrig-book/1","colour":1,"size":2}`), Policy: "no-such-policy.json", Letterhead: file(t, "head.json", `[]`), Rig: "B",
	}.Read()
	if err == nil {
		t.Fatal("everything wrong passed")
	}
	for _, want := range []string{"parts.json: ", "book.json: line 1, column 28: colour", "book.json: line 1, column 39: size", "no-such-policy.json", "head.json: ", "-rig goes with"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%v\nlacks %q", err, want)
		}
	}
	_, err = load.Files{Specs: []string{file(t, "a.json", `{"format":"washrig/1","sites":1}`), file(t, "b.json", `{"format":"washrig/1","name":3}`)}}.Read()
	if err == nil || !strings.Contains(err.Error(), "a.json: ") || !strings.Contains(err.Error(), "b.json: ") {
		t.Errorf("two specifications: %v", err)
	}
}

func TestRead_demo(t *testing.T) {
	s, err := load.Files{}.Read()
	if err != nil || len(s.Models) != 4 || s.Book == nil || s.Shelf == nil {
		t.Errorf("%+v, %v", s, err)
	}
}

func TestFlags(t *testing.T) {
	if s, err := load.System("si"); s != units.SI || err != nil {
		t.Errorf("%v, %v", s, err)
	}
	if _, err := load.System("SI"); err == nil {
		t.Error("another spelling passed")
	}
	for word, want := range map[string]rig.Severity{"": 0, "stop": rig.CannotJudge, "fix": rig.Fix, "note": rig.Note} {
		if s, err := load.FailOn(word); s != want || err != nil {
			t.Errorf("%q: %v, %v", word, s, err)
		}
	}
	if _, err := load.FailOn("pass"); err == nil {
		t.Error("a weight that is none passed")
	}
	var l load.List
	for _, x := range []string{"a", "b"} {
		if err := l.Set(x); err != nil {
			t.Fatal(err)
		}
	}
	if l.String() != "a b" {
		t.Errorf("%q", l.String())
	}
}
