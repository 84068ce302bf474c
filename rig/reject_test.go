package rig_test

import (
	"bytes"
	"errors"
	"io"
	"runtime"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/fields"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

const small = `{
  "format": "washrig/1",
  "name": "small",
  "site": {"elevation": "1000 ft", "conditions": [{"id": "noon", "air": "80 °F"}]},
  "pumps": [{"id": "main", "rated_flow": "4 gpm", "maximum_pressure": "3500 psi"}],
  "lines": [{"id": "left", "pump": "main", "hose": {"bore": "3/8 in", "length": "100 ft"}, "nozzle": {"number": 4}}]
}`

// edit returns the small specification with one text replaced.
func edit(t *testing.T, old, new string) string {
	t.Helper()
	if !strings.Contains(small, old) {
		t.Fatalf("the small specification does not hold %q", old)
	}
	return strings.Replace(small, old, new, 1)
}

// read makes a model the way a program does: read, then resolve.
func read(text string) (*rig.Model, error) {
	s, err := rig.ReadSpec(strings.NewReader(text), rig.ReadLimits{})
	if err != nil {
		return nil, err
	}
	return rig.New(s, nil)
}

// Every kind of bad input is refused with its path and what would do.
func TestReadSpec_refuses(t *testing.T) {
	if _, err := read(small); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, text string
		path, want string // must stand in the message
		err        error
	}{
		{"unknown field", edit(t, `"rated_flow"`, `"colour": "red", "rated_flow"`), "pumps[main].colour", "rated_flow", fields.ErrUnknown},
		{"misspelt case", edit(t, `"rated_flow"`, `"Rated_Flow"`), "pumps[main].Rated_Flow", "want rated_flow", fields.ErrUnknown},
		{"duplicate field", edit(t, `"rated_flow": "4 gpm"`, `"rated_flow": "4 gpm", "rated_flow": "5 gpm"`), "pumps[main].rated_flow", "once", units.ErrConflict},
		{"bare number", edit(t, `"4 gpm"`, `4`), "pumps[main].rated_flow", "gpm", nil},
		{"bare number as text", edit(t, `"4 gpm"`, `"4"`), "pumps[main].rated_flow", "gpm", nil},
		{"wrong dimension", edit(t, `"4 gpm"`, `"4 psi"`), "pumps[main].rated_flow", "gpm", nil},
		{"negative", edit(t, `"100 ft"`, `"-100 ft"`), "lines[left].hose.length", "0.1 ft to 10000 ft", units.ErrRange},
		{"NaN", edit(t, `"100 ft"`, `"NaN ft"`), "lines[left].hose.length", "", nil},
		{"bare NaN", edit(t, `"100 ft"`, `NaN`), "lines[left].hose.length", "", units.ErrSyntax},
		{"infinite", edit(t, `"100 ft"`, `"1e999 ft"`), "lines[left].hose.length", "", nil},
		{"null", edit(t, `"100 ft"`, `null`), "lines[left].hose.length", "leave the name out", units.ErrSyntax},
		{"missing required", edit(t, `"bore": "3/8 in", `, ``), "lines[left].hose.bore", "true inside diameter", units.ErrMissing},
		{"unknown part", edit(t, `"rated_flow": "4 gpm"`, `"part": "P99"`), "pumps[main].part", "shelf", parts.ErrUnknownPart},
		{"two components with one id", edit(t, `"lines": [`, `"lines": [{"id": "left", "pump": "main", "hose": {"bore": "3/8 in", "length": "50 ft"}, "nozzle": {"number": 4}},`), "lines[left]", "no other element", units.ErrConflict},
		{"no id", edit(t, `{"id": "left", "pump"`, `{"pump"`), "lines[#1]", "an id", units.ErrMissing},
		{"bad id", edit(t, `"id": "left"`, `"id": "Left Gun"`), "lines[#1]", "small letters", units.ErrSyntax},
		{"dangling tolerance", edit(t, `"name": "small",`, `"name": "small", "tolerance": {"lines[right].hose.length": "2 ft"},`), "lines[right].hose.length", "left", fields.ErrUnknown},
		{"dangling basis", edit(t, `"name": "small",`, `"name": "small", "basis": {"lines[left].hose.colour": "measured"},`), "lines[left].hose.colour", "bore", fields.ErrUnknown},
		{"unknown basis", edit(t, `"name": "small",`, `"name": "small", "basis": {"lines[left].hose.length": "guessed"},`), "lines[left].hose.length", "assumed", units.ErrRange},
		{"tolerance of another dimension", edit(t, `"name": "small",`, `"name": "small", "tolerance": {"lines[left].hose.length": "2 psi"},`), "lines[left].hose.length", "", nil},
		{"dangling reference", edit(t, `"pump": "main"`, `"pump": "spare"`), "lines[left].pump", "main", fields.ErrUnknown},
		{"trailing data", small + ` {}`, "", "after the end", units.ErrSyntax},
		{"invalid UTF-8", edit(t, `"small"`, "\"sm\xffall\""), "", "UTF-8", units.ErrSyntax},
		{"deep nesting", edit(t, `"name": "small"`, `"name": `+strings.Repeat("[", 200)+strings.Repeat("]", 200)), "name", "deep", fields.ErrTooLarge},
		{"control character", edit(t, `"small"`, `"small\u001b[31m"`), "name", "control", units.ErrRange},
		{"reversed reading", edit(t, `"small"`, `"small\u202e"`), "name", "control", units.ErrRange},
		{"list for an object", edit(t, `{"bore": "3/8 in", "length": "100 ft"}`, `[]`), "lines[left].hose", "object", units.ErrSyntax},
		{"object for a text", edit(t, `"100 ft"`, `{"ft": 100}`), "lines[left].hose.length", "text", units.ErrSyntax},
		{"number for a text", edit(t, `"name": "small"`, `"name": 7`), "name", "quotes", units.ErrSyntax},
		{"decimal comma", edit(t, `"100 ft"`, `"100,5 ft"`), "lines[left].hose.length", "point", nil},
		{"out of range", edit(t, `"100 ft"`, `"90000 ft"`), "lines[left].hose.length", "10000 ft", units.ErrRange},
		{"unknown word", edit(t, `"rated_flow"`, `"unloader": {"return_to": "ground"}, "rated_flow"`), "pumps[main].unloader.return_to", "tank, inlet", units.ErrRange},
		{"newer format", edit(t, `washrig/1`, `washrig/7`), "format", "7", units.ErrConflict},
		{"no format", edit(t, `"format": "washrig/1",`, ``), "format", "washrig/1", units.ErrMissing},
		{"cut short", small[:len(small)-4], "", "too early", units.ErrSyntax},
		{"empty", "", "", "too early", units.ErrSyntax},
		{"contradiction", edit(t, `"rated_flow"`, `"unloader": {"setting": "3000 psi", "return_to": "inlet"}, "rated_flow"`), "pumps[main].unloader.loop_volume", "0.5 gal", units.ErrMissing},
	} {
		t.Run(c.name, func(t *testing.T) {
			m, err := read(c.text)
			if err == nil {
				t.Fatalf("accepted: %v", m)
			}
			msg := err.Error()
			if !strings.Contains(msg, c.path) || !strings.Contains(msg, c.want) {
				t.Errorf("message lacks %q or %q:\n%s", c.path, c.want, msg)
			}
			if c.err != nil && !errors.Is(err, c.err) {
				t.Errorf("error is not %v:\n%s", c.err, msg)
			}
		})
	}
}

func TestReadSpec_byteOrderMark(t *testing.T) {
	if _, err := read("\ufeff" + small); err != nil {
		t.Error(err)
	}
}

// All problems come at once, each with its place in the file.
func TestReadSpec_allProblems(t *testing.T) {
	text := strings.NewReplacer(`"4 gpm"`, `4`, `"100 ft"`, `"-1 ft"`, `"80 °F"`, `null`).Replace(small)
	_, err := rig.ReadSpec(strings.NewReader(text), rig.ReadLimits{})
	var list interface{ Unwrap() []error }
	if !errors.As(err, &list) || len(list.Unwrap()) != 3 {
		t.Fatalf("want three problems, got %v", err)
	}
	for _, e := range list.Unwrap() {
		var p *rig.Problem
		if !errors.As(e, &p) || p.Line == 0 || p.Column == 0 || p.Path == "" {
			t.Errorf("no place in %v", e)
		}
	}
}

// endless gives as many bytes as are asked for and counts them.
type endless struct{ n, limit int }

func (e *endless) Read(p []byte) (int, error) {
	if e.n >= e.limit {
		return 0, io.EOF
	}
	for i := range p {
		p[i] = ' '
	}
	e.n += len(p)
	return len(p), nil
}

// A file of 100 MB is refused after its first mebibyte.
func TestReadSpec_hugeFile(t *testing.T) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	src := &endless{limit: 100 << 20}
	_, err := rig.ReadSpec(src, rig.ReadLimits{})
	runtime.ReadMemStats(&after)
	if !errors.Is(err, fields.ErrTooLarge) {
		t.Fatalf("got %v", err)
	}
	if src.n > 4<<20 {
		t.Errorf("read %d bytes before refusing", src.n)
	}
	if used := after.TotalAlloc - before.TotalAlloc; used > 16<<20 {
		t.Errorf("allocated %d bytes", used)
	}
}

// What is written is read back as the same specification.
func TestSpec_roundTrip(t *testing.T) {
	for _, n := range demo.Names() {
		s, err := demo.Spec(n)
		if err != nil {
			t.Fatal(err)
		}
		var a, b bytes.Buffer
		if err := s.Write(&a); err != nil {
			t.Fatal(err)
		}
		again, err := rig.ReadSpec(bytes.NewReader(a.Bytes()), rig.ReadLimits{})
		if err != nil {
			t.Fatal(err)
		}
		if err := again.Write(&b); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("rig %s changes when it is written and read", n)
		}
		if !strings.Contains(a.String(), `"5200 ft"`) {
			t.Errorf("rig %s: the elevation does not come back as it was typed", n)
		}
	}
}

func FuzzReadSpec(f *testing.F) {
	f.Add(small)
	f.Add("\ufeff" + small)
	f.Add(`{"format":"washrig/1","lines":[{"id":"left"},{"id":"left"}],"basis":{"site":"assumed"}}`)
	f.Add(`{"format":"washrig/1","tolerance":{"lines[left]":"5 % k=2"}}`)
	for _, n := range demo.Names() {
		if s, err := demo.Spec(n); err == nil {
			var b strings.Builder
			if s.Write(&b) == nil {
				f.Add(b.String())
			}
		}
	}
	shelf, err := demo.Shelf()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := rig.ReadSpec(strings.NewReader(text), rig.ReadLimits{})
		if err != nil {
			return
		}
		var a, b strings.Builder
		if err := s.Write(&a); err != nil {
			t.Fatalf("read but not written: %v", err)
		}
		again, err := rig.ReadSpec(strings.NewReader(a.String()), rig.ReadLimits{})
		if err != nil {
			t.Fatalf("written but not read: %v\n%s", err, a.String())
		}
		if err := again.Write(&b); err != nil || a.String() != b.String() {
			t.Fatalf("round trip changed the text (%v)", err)
		}
		m, err := rig.New(s, shelf)
		if err != nil {
			return
		}
		rep, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			return
		}
		if _, err := rep.MarshalJSON(); err != nil {
			t.Fatalf("report has no JSON: %v", err)
		}
	})
}
