package worked

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		printed     string
		value, half float64
		unit        string
	}{
		{"2,283 psi", 2283, 0.5, "psi"},
		{"2283", 2283, 0.5, ""},
		{"1.2E-3 MPa", 0.0012, 0.00005, "MPa"},
		{"0.115331273e3 kJ/kg", 115.331273, 0.5e-6, "kJ/kg"},
		{"0.353658941E-2", 0.353658941e-2, 0.5e-11, ""},
		{"-40.0 °F", -40, 0.05, "°F"},
		{"−0.5 m", -0.5, 0.05, "m"},
		{"+3 V", 3, 0.5, "V"},
		{"1.80 × 10^-5 Pa·s", 1.8e-5, 0.5e-7, "Pa·s"},
		{"1.80x10^+5", 1.8e5, 0.5e3, ""},
		{"88 %", 88, 0.5, "%"},
		{"88%", 88, 0.5, "%"},
		{"$1,234.50", 1234.5, 0.005, "$"},
		{"1,234,567.8 J", 1234567.8, 0.05, "J"},
		{"0.0 in", 0, 0.05, "in"},
		{"12 in^3", 12, 0.5, "in^3"},
		{"5 eV", 5, 0.5, "eV"},
		{"5eV", 5, 0.5, "eV"},
	} {
		value, half, unit, err := Number(c.printed)
		if err != nil {
			t.Errorf("%q: %v", c.printed, err)
			continue
		}
		if value != c.value || math.Abs(half-c.half) > 1e-15*c.half || unit != c.unit {
			t.Errorf("%q: got %v, %v, %q, want %v, %v, %q", c.printed, value, half, unit, c.value, c.half, c.unit)
		}
	}
	for _, bad := range []string{
		"", " ", "psi", ".5 in", "--1", "1,23 psi", "12,34,567", "1234,567", "1/2 in", "6 1/2 gpm", "3-4 psi", "1.2.3",
		"about 5 psi", "NaN", "Inf", "1e999", "5e-400", "1e99999999999999999999", "0x10", "$5 USD", "12 30",
	} {
		if v, h, u, err := Number(bad); err == nil && !strings.Contains("3-4 psi 0x10", bad) {
			t.Errorf("%q: got %v, %v, %q, want an error", bad, v, h, u)
		}
	}
}

// A fakeTB records failures in place of failing.
type fakeTB struct {
	testing.TB
	name   string
	failed []string
}

func (f *fakeTB) Helper()      {}
func (f *fakeTB) Name() string { return f.name }
func (f *fakeTB) Errorf(format string, a ...any) {
	f.failed = append(f.failed, fmt.Sprintf(format, a...))
}

func tip() Case {
	return Case{
		Question: "One 4.5 tip on 3.4 gpm: what pressure does it make?",
		Source:   "trade convention q = N sqrt(P/4000)",
		Status:   CommonPractice,
		Given:    []string{"N = 4.5", "Q = 3.4 gpm"},
		Printed:  "2283 psi",
		Got:      4000 * (3.4 / 4.5) * (3.4 / 4.5),
	}
}

func TestCheck_reports(t *testing.T) {
	for _, c := range []struct {
		want   string
		change func(*Case)
	}{
		{"", func(c *Case) {}},
		{"", func(c *Case) { c.Got = 2283.5 }},
		{"off by", func(c *Case) { c.Got = 2283.51 }},
		{"off by", func(c *Case) { c.Got = 2282.49 }},
		{"off by", func(c *Case) { c.Got = math.NaN() }},
		{"off by", func(c *Case) { c.Got = math.Inf(1) }},
		{"no question", func(c *Case) { c.Question = " " }},
		{"no source", func(c *Case) { c.Source = "" }},
		{"no status", func(c *Case) { c.Status = 0 }},
		{"no status", func(c *Case) { c.Status = Identity + 1 }},
		{"no printed answer", func(c *Case) { c.Printed = "" }},
		{"not a printed number", func(c *Case) { c.Printed = "a lot" }},
		{"no text in Given[1]", func(c *Case) { c.Given[1] = "" }},
		{"needs a reason", func(c *Case) { c.Tolerance = 3 }},
		{"no tolerance", func(c *Case) { c.Reason = "none" }},
		{"not a positive number", func(c *Case) { c.Tolerance = -1 }},
		{"not a positive number", func(c *Case) { c.Tolerance = math.NaN() }},
		{"cannot fail", func(c *Case) { c.Tolerance, c.Reason = 2283, "wide" }},
		{"", func(c *Case) { c.Got, c.Tolerance, c.Reason = 2290, 8, "the source rounds on the way" }},
		{"off by", func(c *Case) { c.Got, c.Tolerance, c.Reason = 2290, 6, "the source rounds on the way" }},
	} {
		f := &fakeTB{name: "T"}
		k := tip()
		c.change(&k)
		e, problems := k.judge()
		new(collection).add(f, e, problems)
		got := strings.Join(f.failed, "\n")
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("want %q, got %q", c.want, got)
		}
	}
}

func TestText_reports(t *testing.T) {
	e, problems := TextCase{Question: "q", Source: "s", Status: Identity, Printed: "G", Got: "H"}.judge()
	if len(problems) != 1 || !strings.Contains(problems[0], `got "H"`) || e.ours != "H" {
		t.Errorf("got %q", problems)
	}
}

func TestCollection_duplicates(t *testing.T) {
	var c collection
	e, _ := tip().judge()
	a, b := &fakeTB{name: "A"}, &fakeTB{name: "B"}
	c.add(a, e, nil)
	if len(a.failed) != 0 {
		t.Fatalf("the first of its kind failed: %q", a.failed)
	}
	c.add(a, e, nil)
	c.add(b, e, nil)
	if len(a.failed) != 1 || len(b.failed) != 1 {
		t.Errorf("duplicates passed: %q, %q", a.failed, b.failed)
	}
	// The same test run again, as -count=2 does, is no duplicate.
	again := &fakeTB{name: "A"}
	c.add(again, e, nil)
	if len(again.failed) != 0 {
		t.Errorf("second run failed: %q", again.failed)
	}
	if got := len(c.tests["A"].entries); got != 1 {
		t.Errorf("%d entries after the second run, want 1", got)
	}
}

func TestLike(t *testing.T) {
	for _, c := range []struct {
		printed string
		x       float64
		want    string
	}{
		{"2283 psi", 2283.4567, "2283.5"},
		{"0.353658941E-2", 0.00353658941123, "0.3536589411E-2"},
		{"0.115331273e3", 115.331273, "0.1153312730e3"},
		{"1.80 × 10^-5", 1.7999e-5, "1.800 × 10^-5"},
		{"0.5", -1e-17, "0.00"},
		{"0.5", 0.125, "0.12"},
		{"0.5", math.Nextafter(0.125, 0), "0.12"},
		{"0.5", math.Nextafter(0.125, 1), "0.12"},
		{"12345.6789012", 12345.6789012345, "12345.678901"},
		{"123456789012", 123456789012.4, "123456789012"},
	} {
		p, err := parse(c.printed)
		if err != nil {
			t.Fatal(err)
		}
		if got := p.like(c.x); got != c.want {
			t.Errorf("%v like %q: got %q, want %q", c.x, c.printed, got, c.want)
		}
	}
}

func TestSettle(t *testing.T) {
	file := filepath.Join(t.TempDir(), "testdata", "handbook.md")
	var c collection
	var log bytes.Buffer
	if got := c.settle(&log, file, false); got != 0 {
		t.Errorf("no examples and no file: exit %d, %s", got, &log)
	}
	e, _ := tip().judge()
	c.record(&fakeTB{name: "A"}, e)
	if got := c.settle(&log, file, false); got != 1 {
		t.Error("a missing file passed")
	}
	if got := c.settle(&log, file, true); got != 0 {
		t.Errorf("update: exit %d, %s", got, &log)
	}
	if got := c.settle(&log, file, false); got != 0 {
		t.Errorf("after update: exit %d, %s", got, &log)
	}
	e.given = "N = 5"
	c.record(&fakeTB{name: "B"}, e)
	log.Reset()
	if got := c.settle(&log, file, false); got != 1 || !strings.Contains(log.String(), "N = 5") {
		t.Errorf("a new example passed: exit %d, %s", got, &log)
	}
	if got := new(collection).settle(&log, file, false); got != 1 {
		t.Error("a file without examples passed")
	}
	if got := new(collection).settle(&log, file, true); got != 0 {
		t.Error("update without examples failed")
	}
	if _, err := os.Stat(file); !os.IsNotExist(err) {
		t.Error("update without examples left the file")
	}
}
