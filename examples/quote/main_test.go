package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/washrig/internal/jsonschema"
	"example.com/washrig/rig"
)

func try(t testing.TB, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	code = run(args, &out, &errs)
	return code, out.String(), errs.String()
}

func file(t testing.TB, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestForms(t *testing.T) {
	for _, c := range []struct {
		args  []string
		has   []string
		hasNo []string
	}{
		{[]string{"-rig", "B"}, []string{"Rig B: two guns on one pump\n====", "Price (the dealer's own page)", "Margin"}, []string{"Comparison"}},
		{[]string{"-rig", "b", "-md"}, []string{"# Rig B: two guns on one pump\n", "| total |"}, nil},
		{[]string{"-rig", "B", "-page", "customer"}, []string{"Sized for: Site"}, []string{"Margin", "mark-up", "52.00 USD"}},
		{[]string{"-rig", "B", "-page", "technician", "-units", "si"}, []string{"technician's table", " bar"}, []string{" psi  "}},
		{[]string{"-rig", "B", "-page", "weights"}, []string{"Over every corner of the tanks"}, []string{"Price"}},
		{[]string{"-rig", "B", "-page", "start"}, []string{"Order of switching on"}, nil},
		{[]string{"-rig", "B", "-page", "walk-round"}, []string{"What a visitor asks"}, nil},
		{[]string{"-rig", "B", "-csv"}, []string{"# Rig B", "path,state,reach,value"}, nil},
		{[]string{"-compare"}, []string{"Comparison against rig A\n====", "There is no score."}, []string{"What was found"}},
		{[]string{"-compare", "-md"}, []string{"# Comparison against rig A\n"}, []string{"What was found"}},
	} {
		code, out, errs := try(t, c.args...)
		if code != ran || errs != "" {
			t.Fatalf("%q: exit %d: %s", c.args, code, errs)
		}
		for _, x := range c.has {
			if !strings.Contains(out, x) {
				t.Errorf("%q lacks %q", c.args, x)
			}
		}
		for _, x := range c.hasNo {
			if strings.Contains(out, x) {
				t.Errorf("%q has %q", c.args, x)
			}
		}
	}
}

func TestJSON(t *testing.T) {
	code, out, errs := try(t, "-rig", "D", "-json")
	if code != ran {
		t.Fatal(errs)
	}
	var doc struct{ Reports []json.RawMessage }
	if err := json.Unmarshal([]byte(out), &doc); err != nil || len(doc.Reports) != 1 {
		t.Fatalf("%v", err)
	}
	if err := jsonschema.Check([]byte(rig.ReportSchema()), doc.Reports[0]); err != nil {
		t.Error(err)
	}
}

func TestCards(t *testing.T) {
	code, out, errs := try(t, "-rig", "D", "-cards")
	if code != ran {
		t.Fatal(errs)
	}
	var doc struct{ Cards []json.RawMessage }
	if err := json.Unmarshal([]byte(out), &doc); err != nil || len(doc.Cards) != 1 {
		t.Fatalf("%v", err)
	}
	if err := jsonschema.Check([]byte(rig.CardsSchema()), doc.Cards[0]); err != nil {
		t.Error(err)
	}
}

// What a number rests on, as text and as data.
func TestExplain(t *testing.T) {
	const number = "lines[left].flow @ guns=left heat=off"
	code, out, errs := try(t, "-rig", "B", "-explain", number)
	if code != ran || !strings.HasPrefix(out, "Rig B\nlines[left].flow = ") || !strings.Contains(out, "lines[left].nozzle.number = 4.5") {
		t.Errorf("%s%s", out, errs)
	}
	if code, out, errs = try(t, "-rig", "B", "-explain", number, "-json"); code != ran {
		t.Fatal(errs)
	}
	var doc struct{ Traces []json.RawMessage }
	if err := json.Unmarshal([]byte(out), &doc); err != nil || len(doc.Traces) != 1 {
		t.Fatalf("%v", err)
	}
	if err := jsonschema.Check([]byte(rig.TraceSchema()), doc.Traces[0]); err != nil {
		t.Error(err)
	}
	if code, out, errs = try(t, "-rig", "B", "-explain", "lines[left].flow"); code != badInput || out != "" || !strings.Contains(errs, "guns=left heat=off") {
		t.Errorf("%d %s%s", code, out, errs)
	}
}

// Every page of the rig, made twice with the same bytes.
func TestHTML(t *testing.T) {
	head := file(t, "head.json", `{"format":"washrig-letterhead/1","name":"An <Invented> Dealer"}`)
	var first map[string]string
	for range 2 {
		dir := filepath.Join(t.TempDir(), "new", "pages")
		code, out, errs := try(t, "-rig", "B", "-html", dir, "-letterhead", head)
		if code != ran || errs != "" {
			t.Fatalf("exit %d: %s", code, errs)
		}
		got := map[string]string{}
		for _, name := range strings.Fields(out) {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			got[filepath.Base(name)] = string(data)
		}
		for _, p := range pageNames() {
			text := got["rig-b-"+p+".html"]
			if !strings.HasSuffix(text, "</html>\n") || !strings.Contains(text, "An &lt;Invented&gt; Dealer") {
				t.Errorf("page %s is not whole: %.80s", p, text)
			}
		}
		if deck := got["rig-b-deck.svg"]; !strings.HasPrefix(deck, "<?xml") || !strings.HasSuffix(deck, "</svg>\n") {
			t.Errorf("the deck is not whole: %.80s", deck)
		}
		if len(got) != len(pageNames())+1 {
			t.Errorf("%d files", len(got))
		}
		if first == nil {
			first = got
		}
		for name, text := range got {
			if first[name] != text {
				t.Errorf("%s differs between two runs", name)
			}
		}
	}
}

// Bad input prints its problems, nothing on standard output, and writes nothing.
func TestBadInput(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "pages")
	good := file(t, "good.json", `{"format":"washrig/1","name":"x"}`)
	for _, c := range []struct {
		want string
		args []string
	}{
		{"-units", []string{"-units", "metric", "-fail-on", "x"}},
		{"-fail-on", []string{"-units", "metric", "-fail-on", "x"}},
		{"want one of them", []string{"-json", "-md"}},
		{"want one of them", []string{"-json", "-cards"}},
		{"want one of them", []string{"-csv"}},
		{"-compare", []string{"-compare"}},
		{"-page", []string{"-page", "front"}},
		{"-rig", []string{"-rig", "Z"}},
		{"goes with -spec", []string{"-parts", good}},
		{"no-such", []string{"-spec", "no-such.json"}},
		{"ends too early", []string{"-spec", good, file(t, "bad.json", `{"format":"washrig/1"`)}},
		{"control characters", []string{"-spec", file(t, "bell.json", `{"format":"washrig/1","name":"a\u0007"}`)}},
		{"control characters", []string{"-letterhead", file(t, "h.json", `{"format":"washrig-letterhead/1","name":"a\u001b[31m"}`)}},
		{"format 2", []string{"-spec", file(t, "new.json", `{"format":"washrig/2"}`)}},
		{"mark_up", []string{"-book", file(t, "b.json", `{"format":"washrig-book/1","markup":"5 %"}`)}},
		{"no check has this code", []string{"-policy", file(t, "p.json", `{"format":"washrig-policy/1","limits":[{"id":"no-such","who":"a","when":"b","why":"c"}]}`)}},
		{"a stop is never switched off", []string{"-policy", file(t, "p.json", `{"format":"washrig-policy/1","off":["engine-overload"]}`)}},
		{"not defined", []string{"-colour"}},
	} {
		code, out, errs := try(t, append(c.args, "-html", dir)...)
		if code != badInput || out != "" || !strings.Contains(errs, c.want) {
			t.Errorf("%q: exit %d, %d bytes on standard output, %s", c.args, code, len(out), errs)
		}
		if _, err := os.Stat(dir); err == nil {
			t.Fatalf("%q: the directory was made", c.args)
		}
		if strings.ContainsAny(errs, "\x07\x1b") {
			t.Errorf("%q: the message passes a control character on", c.args)
		}
	}
	// -csv of several rigs, where nothing is wrong with the input itself
	if code, out, errs := try(t, "-csv"); code != badInput || out != "" || !strings.Contains(errs, "one rig") {
		t.Errorf("exit %d, %s", code, errs)
	}
	// output that cannot be written
	if code, _, errs := try(t, "-rig", "A", "-html", good); code != badInput || errs == "" {
		t.Errorf("a file for a directory: exit %d, %s", code, errs)
	}
}

func TestExitCodes(t *testing.T) {
	for _, c := range []struct {
		args []string
		want int
	}{
		{[]string{"-rig", "D", "-page", "walk-round", "-fail-on", "stop"}, found},
		{[]string{"-rig", "A", "-page", "walk-round", "-fail-on", "stop"}, ran},
		{[]string{"-rig", "A", "-page", "walk-round", "-fail-on", "note"}, found},
		{[]string{"-h"}, ran},
	} {
		if code, _, errs := try(t, c.args...); code != c.want {
			t.Errorf("%q: exit %d, want %d: %s", c.args, code, c.want, errs)
		}
	}
}

func TestFileName(t *testing.T) {
	taken := map[string]bool{}
	for i, c := range [][2]string{{"B", "rig-b"}, {"b", "rig-b-2"}, {"", "rig-3"}, {"../../etc", "rig-etc"}, {"two guns", "rig-two-guns"}, {"水", "rig-6"}, {strings.Repeat("x", 90), "rig-" + strings.Repeat("x", 40)}} {
		if got := fileName(c[0], i, taken); got != c[1] {
			t.Errorf("%q is written as %q, want %q", c[0], got, c[1])
		}
	}
}
