package fields_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func TestDecode(t *testing.T) {
	got, err := decode(t, `{
  "format": "sample/1", "plant": true, "count": 3, "flow": "6 1/2 gpm", "water": "160 °F",
  "height": "5200 ft", "share": 0.84, "number": "4.5", "color": "red", "valve": "shut",
  "basin": {"part": "WT240", "mass": "150 lb", "volume": "240 gal"},
  "spare": {},
  "lines": [{"id": "left", "bore": "3/8 in", "trim": {"offset": "-6 in", "rows": [{"name": "x"}]}}, {"id": "right"}],
  "rows": [{}, {"name": "b"}], "guns": ["left", "right"],
  "notes": {"lines[left].bore": "measured"}
}`)
	if err != nil {
		t.Fatal(err)
	}
	want := &sample{Format: "sample/1", Plant: true, Count: 3, Flow: 6.5 * units.GallonPerMinute,
		Water: units.Fahrenheit(160), Height: units.ElevationAt(5200 * units.Foot), Share: 0.84, Number: 4.5,
		Color: word{"red"}, Valve: "shut", Basin: basin{stock{"WT240", 150 * units.Pound}, 240 * units.Gallon},
		Spare: &basin{}, Rows: []row{{}, {"b"}}, Guns: []string{"left", "right"},
		Lines: []line{{ID: "left", Bore: 0.375 * units.Inch, Trim: &trim{Offset: -6 * units.Inch, Rows: []row{{"x"}}}}, {ID: "right"}},
		Notes: map[string]string{"lines[left].bore": "measured"}}
	if d := cmp.Diff(want, got, exported); d != "" {
		t.Errorf("-want +got\n%s", d)
	}
}

// exported compares by value, unexported fields included: decoding is exact.
var exported = cmp.Exporter(func(reflect.Type) bool { return true })

// one finds the only problem of a document.
func one(t *testing.T, err error) *fields.Problem {
	t.Helper()
	list, ok := err.(interface{ Unwrap() []error })
	if !ok || len(list.Unwrap()) != 1 {
		t.Fatalf("want one problem, got: %v", err)
	}
	p, ok := list.Unwrap()[0].(*fields.Problem)
	if !ok {
		t.Fatalf("want a *Problem, got %T: %v", list.Unwrap()[0], err)
	}
	return p
}

func TestDecode_refuses(t *testing.T) {
	for _, c := range []struct {
		name, text string
		line, col  int
		path       string
		is         error
		says       string
	}{
		{"unknown name", `{"flows": "4 gpm"}`, 1, 2, "flows", fields.ErrUnknown, "want flow"},
		{"unknown name, nothing near", `{"upholstery": 1}`, 1, 2, "upholstery", fields.ErrUnknown, "one of format, plant"},
		{"unknown name with a value of any depth", `{"x": {"y": [1, {"z": null}]}, "plant": true}`, 1, 2, "x", fields.ErrUnknown, ""},
		{"misspelt case", "{\n\t\"Flow\": \"4 gpm\"}", 2, 2, "Flow", fields.ErrUnknown, "want flow"},
		{"hyphen for underscore", `{"lines": [{"id": "a", "No-te": ""}]}`, 1, 24, "lines[a].No-te", fields.ErrUnknown, "note"},
		{"name given twice", `{"plant": true, "plant": true}`, 1, 17, "plant", units.ErrConflict, "given twice"},
		{"group given twice", `{"basin": {}, "basin": {}}`, 1, 15, "basin", units.ErrConflict, "given twice"},
		{"bare number", `{"flow": 4}`, 1, 10, "flow", units.ErrSyntax, "4 gpm or 15.1 L/min"},
		{"bare number in quotes", `{"flow": "4"}`, 1, 10, "flow", units.ErrSyntax, "4 gpm"},
		{"wrong dimension", `{"flow": "4 psi"}`, 1, 10, "flow", units.ErrSyntax, "psi is a pressure"},
		{"negative, with a range", `{"flow": "-4 gpm"}`, 1, 10, "flow", units.ErrRange, "0.1 gpm to 40 gpm"},
		{"negative, without a lower end", `{"drop": "-4 psi"}`, 1, 10, "drop", units.ErrRange, "zero or more"},
		{"minus zero", `{"drop": "-0 psi"}`, 1, 10, "drop", units.ErrRange, "zero or more"},
		{"above the upper end", `{"drop": "901 psi"}`, 1, 10, "drop", units.ErrRange, "at most 900 psi"},
		{"count out of range", `{"count": 10}`, 1, 11, "count", units.ErrRange, "1 to 9"},
		{"count with a fraction", `{"count": 2.0}`, 1, 11, "count", units.ErrSyntax, "whole number"},
		{"count in quotes", `{"count": "2"}`, 1, 11, "count", units.ErrSyntax, "whole number"},
		{"count too long for the machine", `{"count": 99999999999999999999}`, 1, 11, "count", units.ErrSyntax, "whole number"},
		{"flag in quotes", `{"plant": "true"}`, 1, 11, "plant", units.ErrSyntax, "true or false"},
		{"flag as number", `{"plant": 1}`, 1, 11, "plant", units.ErrSyntax, "true or false"},
		{"text as number", `{"valve": 1}`, 1, 11, "valve", units.ErrSyntax, "one of open, shut"},
		{"unknown choice", `{"valve": "Open"}`, 1, 11, "valve", units.ErrRange, "one of open, shut"},
		{"NaN", `{"flow": "NaN gpm"}`, 1, 10, "flow", units.ErrSyntax, "begin with a number"},
		{"infinity", `{"flow": "1e999 gpm"}`, 1, 10, "flow", units.ErrRange, "too large"},
		{"NaN as a word of the document", `{"flow": NaN}`, 1, 10, "flow", units.ErrSyntax, "invalid character"},
		{"null", `{"flow": null}`, 1, 10, "flow", units.ErrSyntax, "leave the name out"},
		{"null group", `{"spare": null}`, 1, 11, "spare", units.ErrSyntax, "leave the name out"},
		{"empty text for a quantity", `{"flow": ""}`, 1, 10, "flow", units.ErrMissing, "leave the name out"},
		{"empty text for a point", `{"height": ""}`, 1, 12, "height", units.ErrMissing, "leave the name out"},
		{"quantity as flag", `{"flow": true}`, 1, 10, "flow", units.ErrSyntax, ""},
		{"quantity as list", `{"flow": ["4 gpm"]}`, 1, 10, "flow", units.ErrSyntax, "a list"},
		{"word that is none", `{"color": "green"}`, 1, 11, "color", units.ErrSyntax, "red or blue"},
		{"word as number", `{"color": 5}`, 1, 11, "color", units.ErrSyntax, "text in quotes"},
		{"group as list", `{"basin": []}`, 1, 11, "basin", units.ErrSyntax, "an object in braces"},
		{"list as object", `{"lines": {}}`, 1, 11, "lines", units.ErrSyntax, "a list in brackets"},
		{"element as text", `{"lines": ["left"]}`, 1, 12, "lines[#1]", units.ErrSyntax, "an object in braces"},
		{"element without id", `{"lines": [{"id": "a"}, {}]}`, 1, 25, "lines[#2]", units.ErrMissing, "an id such as"},
		{"id of wrong form", `{"lines": [{"id": "Left"}]}`, 1, 12, "lines[#1]", units.ErrSyntax, "small letters"},
		{"id given twice", `{"lines": [{"id": "a"}, {"id": "a"}]}`, 1, 25, "lines[a]", units.ErrConflict, "no other element"},
		{"below an id that comes later", `{"lines": [{"bore": 3, "id": "left"}]}`, 1, 21, "lines[left].bore", units.ErrSyntax, "3 ft"},
		{"word of a list as number", `{"guns": [1]}`, 1, 11, "guns", units.ErrSyntax, "text in quotes"},
		{"entry of a table as number", `{"notes": {"a": 1}}`, 1, 17, "notes.a", units.ErrSyntax, "text in quotes"},
		{"entry of a table twice", `{"notes": {"a": "", "a": ""}}`, 1, 21, "notes.a", units.ErrConflict, "given twice"},
		{"text after the end", "{}\n{}", 2, 1, "", units.ErrSyntax, "after the end"},
		{"text after the end, no token", `{} x`, 1, 4, "", units.ErrSyntax, "after the end"},
		{"ends too early", `{"flow": "4 gpm"`, 1, 17, "", units.ErrSyntax, "ends too early"},
		{"empty", ``, 1, 1, "", units.ErrSyntax, "ends too early"},
		{"not an object", `[]`, 1, 1, "", units.ErrSyntax, "an object in braces"},
		{"wrong escape", `{"valve": "op\xen"}`, 1, 15, "valve", units.ErrSyntax, "in string escape code"},
		{"number that stops", `{"lines": [{"id": "a", "bore": 1.}]}`, 1, 34, "lines[a].bore", units.ErrSyntax, "after decimal point"},
		{"comma at the end", `{"plant": true,}`, 1, 16, "", units.ErrSyntax, "invalid character"},
		{"no comma", `{"plant": true "count": 1}`, 1, 16, "", units.ErrSyntax, "invalid character"},
		{"comment", "{\n  // gun\n}", 2, 3, "", units.ErrSyntax, "invalid character"},
		{"not UTF-8", "{\"color\": \"red\",\n \"valve\": \"\xb0F\"}", 2, 12, "", units.ErrSyntax, "UTF-8"},
		{"half a surrogate pair", `{"valve": "\ud800"}`, 1, 11, "valve", units.ErrRange, "U+FFFD"},
		{"line break in text", `{"basin": {"part": "a\nb"}}`, 1, 20, "basin.part", units.ErrRange, "U+000A"},
		{"escape of a terminal", `{"basin": {"part": "\u001b[2J"}}`, 1, 20, "basin.part", units.ErrRange, "U+001B"},
		{"control of the upper half", `{"basin": {"part": "\u009b2J"}}`, 1, 20, "basin.part", units.ErrRange, "U+009B"},
		{"override of reading direction", `{"basin": {"part": "P\u202e68"}}`, 1, 20, "basin.part", units.ErrRange, "U+202E"},
		{"isolate of reading direction", `{"basin": {"part": "P\u206668"}}`, 1, 20, "basin.part", units.ErrRange, "U+2066"},
		{"mark of reading direction", `{"basin": {"part": "P\u200f68"}}`, 1, 20, "basin.part", units.ErrRange, "U+200F"},
		{"space without width", `{"basin": {"part": "P\u200b68"}}`, 1, 20, "basin.part", units.ErrRange, "U+200B"},
		{"byte order mark inside", `{"basin": {"part": "P\ufeff68"}}`, 1, 20, "basin.part", units.ErrRange, "U+FEFF"},
		{"control in a word", `{"guns": ["a\u0007"]}`, 1, 11, "guns", units.ErrRange, "U+0007"},
		{"control in the name of an entry", `{"notes": {"a\u0007": ""}}`, 1, 12, `notes.a\a`, units.ErrRange, "U+0007"},
		{"control in an entry", `{"notes": {"a": "\u0007"}}`, 1, 17, "notes.a", units.ErrRange, "U+0007"},
		{"long text", `{"basin": {"part": "` + strings.Repeat("x", 2001) + `"}}`, 1, 20, "basin.part", units.ErrRange, "2001 bytes"},
		{"columns are characters", `{"basin": {"part": "°°°°", "mass": 1}}`, 1, 36, "basin.mass", units.ErrSyntax, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := decode(t, c.text)
			if err == nil {
				t.Fatal("read without an error")
			}
			p := one(t, err)
			if p.Path != c.path || p.Line != c.line || p.Column != c.col {
				t.Errorf("at line %d, column %d, path %q; want %d, %d, %q (%v)", p.Line, p.Column, p.Path, c.line, c.col, c.path, err)
			}
			if !errors.Is(err, c.is) || !strings.Contains(err.Error(), c.says) {
				t.Errorf("got %v; want %v saying %q", err, c.is, c.says)
			}
		})
	}
}

func TestDecode_allProblemsAtOnce(t *testing.T) {
	_, err := decode(t, "{\"flow\": \"4\",\n\"valve\": \"ajar\",\n\"lines\": [{\"id\": \"a\", \"bore\": \"x\"}],\n\"colour\": 1}")
	var got []string
	for _, e := range err.(interface{ Unwrap() []error }).Unwrap() {
		p := e.(*fields.Problem)
		got = append(got, fmt.Sprintf("%d:%d %s", p.Line, p.Column, p.Path))
	}
	want := []string{"1:10 flow", "2:10 valve", "3:31 lines[a].bore", "4:1 colour"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("-want +got\n%s", d)
	}
}

func TestDecode_byteOrderMark(t *testing.T) {
	s, err := decode(t, "\ufeff{\"format\": \"sample/1\"}")
	if err != nil || s.Format != "sample/1" {
		t.Errorf("got %q, %v", s.Format, err)
	}
	if _, err := decode(t, "\ufeff\ufeff{}"); err == nil {
		t.Error("two marks were read")
	}
}

func TestDecode_depth(t *testing.T) {
	deep := func(n int) string { return `{"x": ` + strings.Repeat("[", n) + strings.Repeat("]", n) + `}` }
	_, err := decode(t, deep(31)) // with the document itself 32
	if errors.Is(err, fields.ErrTooLarge) || !errors.Is(err, fields.ErrUnknown) {
		t.Errorf("32 deep: %v", err)
	}
	for _, n := range []int{32, 100_000} {
		_, err := decode(t, deep(n))
		if !errors.Is(err, fields.ErrTooLarge) || !strings.Contains(err.Error(), "32 deep") {
			t.Errorf("%d deep: %v", n+1, err)
		}
	}
}

func TestDecode_elements(t *testing.T) {
	table := tableOf[sample](t)
	for _, c := range []struct{ name, open, one, shut string }{
		{"list", `{"rows": [`, `{}`, `]}`},
		{"words", `{"guns": [`, `"a"`, `]}`},
		{"words of a wrong form", `{"guns": [`, `1`, `]}`},
		{"table", `{"notes": {`, ``, `}}`},
	} {
		text := func(n int) string {
			var parts []string
			for i := range n {
				s := c.one
				if s == "" {
					s = fmt.Sprintf(`"k%d": ""`, i)
				}
				parts = append(parts, s)
			}
			return c.open + strings.Join(parts, ",") + c.shut
		}
		for n, tooLarge := range map[int]bool{20: false, 21: true, 5000: true} {
			err := table.Decode(strings.NewReader(text(n)), new(sample), fields.Limits{Elements: 20})
			if errors.Is(err, fields.ErrTooLarge) != tooLarge {
				t.Errorf("%s: %d elements: %v", c.name, n, err)
			}
		}
		if err := table.Decode(strings.NewReader(text(2001)), new(sample), fields.Limits{}); !errors.Is(err, fields.ErrTooLarge) {
			t.Errorf("%s: 2001 elements by default: %v", c.name, err)
		}
	}
}

func TestDecode_problemsAreCounted(t *testing.T) {
	var parts []string
	for i := range 1000 {
		parts = append(parts, fmt.Sprintf(`"x%d": 0`, i))
	}
	_, err := decode(t, "{"+strings.Join(parts, ",")+"}")
	list := err.(interface{ Unwrap() []error }).Unwrap()
	if len(list) != 101 || list[100].Error() != "and 900 more problems" {
		t.Errorf("%d errors, the last is %v", len(list), list[len(list)-1])
	}
}

// An endless document of spaces, and how much of it was read.
type spaces struct{ read int64 }

func (s *spaces) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	s.read += int64(len(p))
	return len(p), nil
}

// 100 MB, of which the default limit reads 1 MiB. A buffer that grows by a
// quarter passes through at most 1/(1 − 1/1.25) = 5 times its last size; with
// what the first small steps add, 8 MiB cannot be passed.
func TestDecode_largeInputIsRefusedEarly(t *testing.T) {
	table := tableOf[sample](t)
	in := new(spaces)
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	err := table.Decode(io.LimitReader(in, 100<<20), new(sample), fields.Limits{})
	runtime.ReadMemStats(&after)
	if !errors.Is(err, fields.ErrTooLarge) {
		t.Fatalf("got %v", err)
	}
	if in.read > 2<<20 {
		t.Errorf("%d bytes were read", in.read)
	}
	if got := after.TotalAlloc - before.TotalAlloc; got > 8<<20 {
		t.Errorf("%d bytes were allocated", got)
	}
}

func TestDecode_sizeIsExact(t *testing.T) {
	table := tableOf[sample](t)
	const doc = `{"format":"sample/1"}`
	if err := table.Decode(strings.NewReader(doc), new(sample), fields.Limits{Bytes: int64(len(doc))}); err != nil {
		t.Error(err)
	}
	if err := table.Decode(strings.NewReader(doc), new(sample), fields.Limits{Bytes: int64(len(doc)) - 1}); !errors.Is(err, fields.ErrTooLarge) {
		t.Errorf("one byte over the limit: %v", err)
	}
	if err := table.Decode(strings.NewReader(doc), new(sample), fields.Limits{Bytes: 1<<63 - 1}); err != nil {
		t.Errorf("without a limit: %v", err)
	}
}

var errBroken = errors.New("broken")

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errBroken }

func TestDecode_readerFails(t *testing.T) {
	if err := tableOf[sample](t).Decode(broken{}, new(sample), fields.Limits{}); !errors.Is(err, errBroken) {
		t.Errorf("got %v", err)
	}
}

// Whatever is encoded reads back as the same value, and package encoding/json
// reads the same document to the same value.
func TestEncode_roundTrip(t *testing.T) {
	table := tableOf[sample](t)
	property.Check(t, func(g *property.G) error {
		want := randomSample(g)
		var b bytes.Buffer
		if err := table.Encode(&b, want); err != nil {
			return err
		}
		got := new(sample)
		if err := table.Decode(bytes.NewReader(b.Bytes()), got, fields.Limits{}); err != nil {
			return fmt.Errorf("%w in\n%s", err, b.Bytes())
		}
		if d := cmp.Diff(want, got, exported); d != "" {
			return fmt.Errorf("-written +read\n%s", d)
		}
		std := new(sample)
		if err := json.Unmarshal(b.Bytes(), std); err != nil {
			return fmt.Errorf("encoding/json: %w", err)
		}
		if d := cmp.Diff(want, std, exported); d != "" {
			return fmt.Errorf("-written +read by encoding/json\n%s", d)
		}
		var again bytes.Buffer
		if err := table.Encode(&again, got); err != nil {
			return err
		}
		if !bytes.Equal(b.Bytes(), again.Bytes()) {
			return fmt.Errorf("written again as\n%s\nafter\n%s", again.Bytes(), b.Bytes())
		}
		return nil
	})
}

func TestEncode_refuses(t *testing.T) {
	table := tableOf[sample](t)
	nan := units.Length(0)
	nan /= nan
	for path, s := range map[string]*sample{
		"basin.part":       {Basin: basin{stock: stock{Part: "a\nb"}}},
		"guns":             {Guns: []string{"\x1b"}},
		"notes.flow":       {Notes: map[string]string{"flow": "\u202e"}},
		"lines[left].bore": {Lines: []line{{ID: "left", Bore: nan}}},
		"rows[#2].name":    {Rows: []row{{}, {"\xff"}}},
	} {
		var b bytes.Buffer
		err := table.Encode(&b, s)
		var fe *units.FieldError
		if !errors.As(err, &fe) || fe.Path != path || b.Len() > 0 {
			t.Errorf("%s: %v, %d bytes written", path, err, b.Len())
		}
	}
}

func FuzzDecode(f *testing.F) {
	for _, s := range []string{
		`{}`, `{"format": "sample/1", "flow": "6 1/2 gpm", "height": "0 ft"}`, `{"flow": 4, "flow": null, "x": [[[]]]}`,
		`{"lines": [{"id": "a", "trim": {"rows": [{}]}}, {}], "guns": ["a"], "notes": {"a": "b"}}`,
		"\ufeff{\"share\": 0.5}", `{"count": 1e1}`, `{"valve": "\ud83d\ude00"}`, "{\"a\xff\": 1}", `{"plant": true}}`, `[`, `{"basin": {"part": 3}`,
	} {
		f.Add(s)
	}
	table := tableOf[sample](f)
	f.Fuzz(func(t *testing.T, text string) {
		s := new(sample)
		err := table.Decode(strings.NewReader(text), s, fields.Limits{Bytes: 1 << 16})
		if err != nil {
			var p *fields.Problem
			for _, e := range err.(interface{ Unwrap() []error }).Unwrap() {
				if errors.As(e, &p) && (p.Line < 1 || p.Column < 1) {
					t.Errorf("no place: %v", e)
				}
			}
			return
		}
		if !json.Valid([]byte(strings.TrimPrefix(text, "\ufeff"))) {
			t.Errorf("read, but encoding/json finds it invalid: %q", text)
		}
		if list := table.Problems(s); len(list) > 0 {
			t.Errorf("read, but %v", list)
		}
		var b bytes.Buffer
		if err := table.Encode(&b, s); err != nil {
			t.Fatal(err)
		}
		again := new(sample)
		if err := table.Decode(&b, again, fields.Limits{}); err != nil {
			t.Fatal(err)
		}
		var c bytes.Buffer
		if err := table.Encode(&c, again); err != nil {
			t.Fatal(err)
		}
		var first bytes.Buffer
		_ = table.Encode(&first, s)
		if !bytes.Equal(first.Bytes(), c.Bytes()) {
			t.Errorf("%s\nis written, after reading, as\n%s", first.Bytes(), c.Bytes())
		}
	})
}
