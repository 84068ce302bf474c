package parts_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

func pump(number string, flow units.VolumeFlow) parts.Part {
	return parts.Part{Number: number, Kind: "pump", Pump: &parts.Pump{RatedFlow: flow}}
}

func shelf(t testing.TB, name string, list ...parts.Part) *parts.Catalog {
	t.Helper()
	c, err := parts.NewCatalog(name, list...)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func numbers(list []parts.Part) string {
	var out []string
	for _, p := range list {
		out = append(out, p.Number)
	}
	return strings.Join(out, " ")
}

// clash finds memory that two values share and that either could change.
func clash(a, b reflect.Value, path string) string {
	switch a.Kind() {
	case reflect.Pointer, reflect.Map, reflect.Slice:
		if a.IsNil() || (a.Kind() == reflect.Slice && a.Len() == 0) {
			return ""
		}
		if a.Pointer() == b.Pointer() {
			return path
		}
	}
	switch a.Kind() {
	case reflect.Pointer:
		return clash(a.Elem(), b.Elem(), path)
	case reflect.Slice:
		for i := range a.Len() {
			if s := clash(a.Index(i), b.Index(i), fmt.Sprintf("%s[%d]", path, i)); s != "" {
				return s
			}
		}
	case reflect.Struct:
		for i := range a.NumField() {
			if s := clash(a.Field(i), b.Field(i), path+"."+a.Type().Field(i).Name); s != "" {
				return s
			}
		}
	}
	return ""
}

// Whatever goes into a shelf or comes out of it is a copy of all of it.
func TestCatalog_copies(t *testing.T) {
	table := partTable(t)
	property.Check(t, func(g *property.G) error {
		p := randomPart(g, table, "X", true)
		c, err := parts.NewCatalog("", p)
		if err != nil {
			return err
		}
		a, err := c.Part("X")
		if err != nil {
			return err
		}
		found, err := c.Find(parts.Kind(p.Kind))
		if err != nil {
			return err
		}
		all := []parts.Part{p, a, c.Parts("")[0], found[0]}
		for i, x := range all {
			for _, y := range all[:i] {
				if s := clash(reflect.ValueOf(x), reflect.ValueOf(y), p.Kind); s != "" {
					return fmt.Errorf("%s is shared", s)
				}
				if d := cmp.Diff(x, y, exact); d != "" {
					return fmt.Errorf("a copy differs\n%s", d)
				}
			}
		}
		if (p.Ratings() == nil) != (p.Kind == "item") {
			return fmt.Errorf("ratings of a %s: %v", p.Kind, p.Ratings())
		}
		return nil
	})
}

func TestCatalog_cannotBeChanged(t *testing.T) {
	p := pump("P68", 6.8*units.GallonPerMinute)
	c := shelf(t, "", p)
	before := c.Digest()
	p.Pump.RatedFlow = 1
	q, _ := c.Part("P68")
	q.Pump.RatedFlow = 2
	c.Parts("")[0].Pump.RatedFlow = 3
	found, _ := c.Find(parts.KindPump)
	found[0].Pump.RatedFlow = 4
	near, _ := c.Neighbours(parts.KindPump, "pump.rated_flow", 6.8*units.GallonPerMinute)
	near.At[0].Pump.RatedFlow = 5
	if got, _ := c.Part("P68"); got.Pump.RatedFlow != 6.8*units.GallonPerMinute {
		t.Errorf("the shelf now says %v", got.Pump.RatedFlow)
	}
	again := shelf(t, "", c.Parts("")...)
	if c.Digest() != before || again.Digest() != before {
		t.Error("the digest changed")
	}
}

func TestNewCatalog_refuses(t *testing.T) {
	flow := 4 * units.GallonPerMinute
	for _, c := range []struct {
		name, path string
		p          parts.Part
		is         error
	}{
		{"no number", "parts[#1].number", parts.Part{Kind: "item"}, units.ErrMissing},
		{"no kind", "parts[X].kind", parts.Part{Number: "X"}, units.ErrMissing},
		{"unknown kind", "parts[X].kind", parts.Part{Number: "X", Kind: "Pump"}, units.ErrRange},
		{"no ratings", "parts[X].pump", parts.Part{Number: "X", Kind: "pump"}, units.ErrMissing},
		{"ratings of another kind", "parts[X].pump", parts.Part{Number: "X", Kind: "item", Pump: &parts.Pump{RatedFlow: flow}}, units.ErrConflict},
		{"out of range", "parts[X].pump.rated_flow", pump("X", 5000*units.GallonPerMinute), units.ErrRange},
		{"NaN", "parts[X].pump.rated_flow", pump("X", units.VolumeFlow(math.NaN())), units.ErrRange},
		{"control character", "parts[X].description", parts.Part{Number: "X", Kind: "item", Description: "\x1b[2J"}, units.ErrRange},
		{"control character in the number", "parts[#1].number", parts.Part{Number: "X\n", Kind: "item"}, units.ErrRange},
		{"unknown basis", "parts[X].basis", parts.Part{Number: "X", Kind: "item", Basis: "hearsay"}, units.ErrRange},
	} {
		shelf, err := parts.NewCatalog("", c.p, pump("good", flow))
		var fe *units.FieldError
		if !errors.Is(err, c.is) || !errors.As(err, &fe) || fe.Path != c.path {
			t.Errorf("%s: %v", c.name, err)
		}
		if shelf == nil || numbers(shelf.Parts("")) != "good" {
			t.Errorf("%s: the good part is not on the shelf", c.name)
		}
	}
	c, err := parts.NewCatalog("", pump("A", flow), pump("A", 2*flow))
	if !errors.Is(err, units.ErrConflict) || c.Len() != 1 {
		t.Errorf("a number twice: %v", err)
	}
	if got, _ := c.Part("A"); got.Pump.RatedFlow != flow {
		t.Error("the second of two parts is on the shelf")
	}
	if _, err := parts.NewCatalog("a\n"); !errors.Is(err, units.ErrRange) {
		t.Errorf("control character in the name: %v", err)
	}
}

func TestCatalog_none(t *testing.T) {
	var c *parts.Catalog
	if c.Len() != 0 || c.Digest() != "" || c.Name() != "" || c.Parts("") != nil {
		t.Error("a nil shelf is not empty")
	}
	if _, err := c.Part("X"); !errors.Is(err, parts.ErrUnknownPart) || !strings.Contains(err.Error(), "no shelf was given") {
		t.Errorf("got %v", err)
	}
	empty, err := parts.NewCatalog("empty")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := empty.Part("X"); !errors.Is(err, parts.ErrUnknownPart) || strings.Contains(err.Error(), "no shelf") || !strings.Contains(err.Error(), "the one that was given is empty") {
		t.Errorf("an empty shelf: %v", err)
	}
	for kind, want := range map[parts.Kind]string{parts.KindEngine: "the ratings of an engine", parts.KindUnloader: "the ratings of an unloader", parts.KindPump: "the ratings of a pump", parts.KindFuelTank: "the ratings of a fuel tank"} {
		if _, err := parts.NewCatalog("x", parts.Part{Number: "X", Kind: string(kind)}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s without ratings: %v", kind, err)
		}
	}
	if list, err := c.Find(""); err != nil || len(list) != 0 {
		t.Errorf("found %v, %v", list, err)
	}
	if _, ok := c.Origin("X"); ok {
		t.Error("a part of no shelf has an origin")
	}
	var b bytes.Buffer
	if err := c.WriteJSON(&b); err != nil {
		t.Error(err)
	}
	if empty, err := parts.ReadJSON(&b, 0); err != nil || empty.Len() != 0 {
		t.Errorf("read back: %v", err)
	}
	if err := c.WriteCSV(&b, parts.Mapping{}); err != nil || b.String() != "number,kind\r\n" {
		t.Errorf("%q, %v", b.String(), err)
	}
}

func TestCatalog_Part_unknown(t *testing.T) {
	_, err := shelf(t, "", pump("P68", units.GallonPerMinute)).Part("P86")
	if !errors.Is(err, parts.ErrUnknownPart) || !strings.Contains(err.Error(), "P86") {
		t.Errorf("got %v", err)
	}
}

// JSON gives back the same parts, and digests tell shelves apart by content
// alone.
func TestCatalog_jsonRoundTrip(t *testing.T) {
	table := partTable(t)
	property.Check(t, func(g *property.G) error {
		c := randomShelf(g, table, "a shelf", true)
		var b bytes.Buffer
		if err := c.WriteJSON(&b); err != nil {
			return err
		}
		text := b.String()
		back, err := parts.ReadJSON(&b, 0)
		if err != nil {
			return fmt.Errorf("%w in\n%s", err, text)
		}
		if d := cmp.Diff(c.Parts(""), back.Parts(""), exact); d != "" {
			return fmt.Errorf("-written +read\n%s", d)
		}
		if back.Digest() != c.Digest() || back.Name() != "a shelf" {
			return errors.New("digest or name differ")
		}
		// The order of arrival and the name do not matter.
		list := c.Parts("")
		for i, k := range g.Perm(len(list)) {
			list[i], list[k] = list[k], list[i]
		}
		other, err := parts.NewCatalog("another", list...)
		if err != nil || other.Digest() != c.Digest() {
			return fmt.Errorf("in another order: %v", err)
		}
		if len(list) > 0 { // any change does
			k := g.Pick(len(list))
			list[k].Description += "!"
			if changed, _ := parts.NewCatalog("", list...); changed.Digest() == c.Digest() {
				return errors.New("a changed part, the same digest")
			}
			if fewer, _ := parts.NewCatalog("", list[1:]...); fewer.Digest() == c.Digest() {
				return errors.New("a part less, the same digest")
			}
		}
		return nil
	})
}

func TestCatalog_sharedDigest(t *testing.T) {
	c := shelf(t, "", pump("P68", units.GallonPerMinute))
	var all [4]string
	var wg sync.WaitGroup
	for i := range all {
		wg.Go(func() { all[i] = c.Digest() })
	}
	wg.Wait()
	for _, d := range all {
		if d != all[0] || len(d) != 64 {
			t.Errorf("digests %q", all)
		}
	}
}

func TestReadJSON_refuses(t *testing.T) {
	head := `{"format": "washrig-parts/1", "parts": [`
	for _, c := range []struct {
		name, text string
		is         error
		says       string
	}{
		{"no format", `{"parts": []}`, units.ErrMissing, "washrig-parts/1"},
		{"newer format", `{"format": "washrig-parts/2", "parts": [{"new": 1}]}`, units.ErrConflict, "format 2 and this library reads format 1"},
		{"other format", `{"format": "washrig/1"}`, units.ErrConflict, "washrig-parts/1"},
		{"unknown field", head + `{"number": "A", "kind": "item", "colour": "red"}]}`, units.ErrSyntax, ""},
		{"ratings of another kind", head + `{"number": "A", "kind": "item", "pump": {}}]}`, units.ErrConflict, "parts[A].pump"},
		{"no ratings", head + `{"number": "A", "kind": "pump"}]}`, units.ErrMissing, "parts[A].pump"},
		{"number twice", head + `{"number": "A", "kind": "item"}, {"number": "A", "kind": "item"}]}`, units.ErrConflict, "parts[A].number"},
		{"no number", head + `{"kind": "item"}]}`, units.ErrMissing, "parts[#1].number"},
		{"money without currency", head + `{"number": "A", "kind": "item", "cost": "12.50"}]}`, units.ErrSyntax, "1234.50 USD"},
		{"money as number", head + `{"number": "A", "kind": "item", "cost": 12.5}]}`, units.ErrSyntax, "text in quotes"},
		{"day that is none", head + `{"number": "A", "kind": "item", "price_date": "2026-02-30"}]}`, units.ErrRange, "2026-03-01"},
		{"negative", head + `{"number": "A", "kind": "item", "mass": "-1 lb"}]}`, units.ErrRange, "0 lb"},
	} {
		shelf, err := parts.ReadJSON(strings.NewReader(c.text), 0)
		if err == nil || shelf != nil || !strings.Contains(err.Error(), c.says) || (c.is != units.ErrSyntax && !errors.Is(err, c.is)) {
			t.Errorf("%s: %v", c.name, err)
		}
		var p *parts.Problem
		if errors.As(err, &p) && p.Line != 1 {
			t.Errorf("%s: line %d", c.name, p.Line)
		}
	}
	big := head + strings.Repeat(" ", 1000) + `]}`
	if _, err := parts.ReadJSON(strings.NewReader(big), 1000); !errors.Is(err, parts.ErrTooLarge) {
		t.Errorf("over the limit: %v", err)
	}
}
