package parts_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// exact compares by value, unexported fields included.
var exact = cmp.Exporter(func(reflect.Type) bool { return true })

func partTable(t testing.TB) *fields.Table {
	t.Helper()
	table, err := fields.Of(reflect.TypeFor[parts.Part]())
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// randomPart fills a part with values that a file could hold: some of the
// common fields and some of the ratings of its kind; lists too if wanted.
func randomPart(g *property.G, table *fields.Table, number string, lists bool) parts.Part {
	kind := parts.Kinds()[g.Pick(len(parts.Kinds()))]
	p := parts.Part{Number: number, Kind: string(kind)}
	must := func(err error) {
		if err != nil {
			panic(err)
		}
	}
	ids := map[string][]string{} // of the elements that were made
	for _, f := range table.Rows() {
		if f.Role == fields.Group || f.Pattern == "number" || f.Pattern == "kind" || f.Name == "id" {
			continue
		}
		if group, _, ok := strings.Cut(f.Pattern, "."); ok && group != string(kind) {
			continue
		}
		if f.Role == fields.List {
			if lists {
				for _, id := range []string{"a", "b-2"}[:g.Int(0, 2)] {
					must(table.Add(&p, f.Pattern, id))
					ids[f.Pattern] = append(ids[f.Pattern], id)
				}
			}
			continue
		}
		list, rest, inList := strings.Cut(f.Pattern, "[]")
		if !inList {
			randomField(g, table, &p, f, f.Pattern)
		}
		for _, id := range ids[list] {
			if inList && !strings.Contains(rest, "[]") {
				randomField(g, table, &p, f, list+"["+id+"]"+rest)
			}
		}
	}
	unrated := func() bool { r := p.Ratings(); return r == nil || reflect.ValueOf(r).Elem().IsZero() }
	for _, f := range table.Rows() { // a row without any rating is no part of a spreadsheet
		group, _, ok := strings.Cut(f.Pattern, ".")
		if low, _, _, _ := f.Range(); ok && group == string(kind) && f.Kind != 0 && low > 0 && unrated() {
			q, err := units.NewQuantity(f.Kind, low)
			must(err)
			must(table.SetQuantity(&p, f.Pattern, q))
		}
	}
	return p
}

// randomField sets one field, or leaves it out.
func randomField(g *property.G, table *fields.Table, p *parts.Part, f *fields.Field, path string) {
	must := func(err error) {
		if err != nil {
			panic(err)
		}
	}
	if g.Bool() {
		return
	}
	low, high, _, _ := f.Range()
	switch {
	case f.Kind != 0:
		v := g.Float(low, high)
		if g.Bool() { // a number as a person would write it
			u := f.Kind.Units()[g.Pick(len(f.Kind.Units()))]
			q, err := units.NewQuantity(f.Kind, v)
			must(err)
			n, err := q.In(u)
			must(err)
			if q, err := u.Of(math.Round(n*10) / 10); err == nil && q.SI() >= low && q.SI() <= high {
				v = q.SI()
			}
		}
		q, err := units.NewQuantity(f.Kind, v)
		must(err)
		must(table.SetQuantity(p, path, q))
	case f.Role == fields.Count:
		must(table.Set(p, path, fmt.Sprint(g.Int(int(low), int(high)))))
	case f.Role == fields.Flag:
		must(table.Set(p, path, "true"))
	case f.Role == fields.Words:
		must(table.Set(p, path, "left right"))
	case f.Role == fields.PathTable:
	case len(f.Choices) > 0:
		must(table.Set(p, path, f.Choices[g.Pick(len(f.Choices))]))
	case f.Role == fields.Text:
		must(table.Set(p, path, property.OneOf(g, "plain", `3/8" hose, hot`, "=1+1", "'-5", "水 °F", "-5 ft", "12", "a;b", "USD", "@x", "''=x", "'", "#5")))
	case f.Type() == reflect.TypeFor[parts.Money]():
		must(table.Set(p, path, fmt.Sprintf("%d.%02d %s", g.Int(-1000, 100_000), g.Int(0, 99), property.OneOf(g, "USD", "EUR"))))
	case f.Type() == reflect.TypeFor[parts.Date]():
		must(table.Set(p, path, fmt.Sprintf("%04d-%02d-%02d", g.Int(1, 9999), g.Int(1, 12), g.Int(1, 28))))
	}
}

func randomShelf(g *property.G, table *fields.Table, name string, lists bool) *parts.Catalog {
	var list []parts.Part
	for i := range g.Int(0, 6) {
		list = append(list, randomPart(g, table, fmt.Sprintf("%s%d", property.OneOf(g, "P", "=", "0", "a b"), i), lists))
	}
	c, err := parts.NewCatalog(name, list...)
	if err != nil {
		panic(err)
	}
	return c
}
