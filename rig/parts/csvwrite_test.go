package parts_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/golden"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// What is written is read back as the same shelf, by the paths and by a mapping
// of the dealer's, and no cell of it can be taken for a formula.
func TestWriteCSV_roundTrip(t *testing.T) {
	table := partTable(t)
	property.Check(t, func(g *property.G) error {
		c := randomShelf(g, table, "a shelf", false)
		m, err := parts.MappingOf(c)
		if err != nil {
			return err
		}
		if g.Bool() { // headings of the dealer's, units and currencies in them
			for i := range m.Columns {
				col := &m.Columns[i]
				f, _ := table.Lookup(col.Field)
				col.Name = fmt.Sprintf("= %s, \"%d\"", f.Doc, i)
				switch {
				case f.Kind != 0:
					u := f.Kind.Units()[g.Pick(len(f.Kind.Units()))]
					col.Unit = u.Symbol()
				case col.Field == "cost" || col.Field == "price":
					col.Currency = "USD"
				case col.Field == "kind":
					col.Words = map[string]string{"Pumpe": "pump", "ein Ding": "item"}
				}
			}
			k := g.Perm(len(m.Columns))
			for i := range k {
				m.Columns[i], m.Columns[k[i]] = m.Columns[k[i]], m.Columns[i]
			}
		} else if g.Bool() {
			m = parts.Mapping{Name: "a shelf"}
		}
		var b strings.Builder
		if err := c.WriteCSV(&b, m); err != nil {
			return err
		}
		back, rep, err := read(b.String(), m)
		if err != nil {
			return fmt.Errorf("%w in\n%s", err, b.String())
		}
		if len(rep.Problems) > 0 {
			return fmt.Errorf("%v in\n%s", &rep.Problems[0], b.String())
		}
		if d := cmp.Diff(c.Parts(""), back.Parts(""), exact); d != "" {
			return fmt.Errorf("-written +read\n%s\n%s", d, b.String())
		}
		if len(rep.Unread) > 0 || back.Name() != "a shelf" {
			return fmt.Errorf("%+v", rep)
		}
		rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(b.String(), "\ufeff"))).ReadAll()
		if err != nil {
			return fmt.Errorf("encoding/csv: %w", err)
		}
		if len(rows) != c.Len()+1 {
			return fmt.Errorf("%d rows of %d parts", len(rows), c.Len())
		}
		for _, row := range rows {
			for _, cell := range row {
				if fields.Formula(cell) {
					return fmt.Errorf("the cell %q can be taken for a formula", cell)
				}
			}
		}
		return nil
	})
}

func TestWriteCSV(t *testing.T) {
	c, _, err := parts.ReadCSV(open(t, "raw/export.csv"), mapping(t), parts.CSVOptions{})
	if err != nil {
		t.Fatal(err)
	}
	var own, dealer strings.Builder
	if err := c.WriteCSV(&own, parts.Mapping{}); err != nil {
		t.Fatal(err)
	}
	golden.Equal(t, "raw/written_own.csv", []byte(own.String()))
	if err := c.WriteCSV(&dealer, mapping(t)); err != nil {
		t.Fatal(err)
	}
	golden.Equal(t, "raw/written_dealer.csv", []byte(dealer.String()))
	if !strings.HasPrefix(dealer.String(), "\ufeff") || strings.HasPrefix(own.String(), "\ufeff") {
		t.Error("a byte order mark is for text that is not ASCII")
	}
	for _, text := range []string{own.String(), dealer.String()} {
		m := mapping(t)
		if text == own.String() {
			m = parts.Mapping{}
		}
		back, rep, err := read(text, m)
		if err != nil || back.Digest() != c.Digest() {
			t.Errorf("read back: %v, %+v", err, rep)
		}
	}
}

func TestWriteCSV_refuses(t *testing.T) {
	item := func(f func(*parts.Part)) *parts.Catalog {
		p := parts.Part{Number: "X", Kind: "item"}
		f(&p)
		return shelf(t, "", p)
	}
	base := []parts.Column{{Name: "No", Field: "number"}, {Name: "Kind", Field: "kind"}, {Name: "Text", Field: "description"}}
	with := func(m parts.Mapping, more ...parts.Column) parts.Mapping {
		m.Columns = append(append([]parts.Column(nil), base...), more...)
		return m
	}
	for _, c := range []struct {
		name string
		c    *parts.Catalog
		m    parts.Mapping
		path string
		is   error
	}{
		{"fixed value that the part has not", item(func(p *parts.Part) {}), with(parts.Mapping{Fixed: map[string]string{"basis": "assumed"}}), "parts[X].basis", units.ErrConflict},
		{"fixed value that the part has otherwise", item(func(p *parts.Part) { p.Mass = 2 * units.Pound }), with(parts.Mapping{Fixed: map[string]string{"mass": "1 lb"}}), "parts[X].mass", units.ErrConflict},
		{"blank word", item(func(p *parts.Part) { p.Description = "n/a" }), with(parts.Mapping{Blank: []string{"n/a"}}), "parts[X].description", units.ErrConflict},
		{"word with another meaning", item(func(p *parts.Part) { p.SupplierNumber = "a" }), with(parts.Mapping{}, parts.Column{Name: "S", Field: "supplier_number", Words: map[string]string{"a": "b"}}), "parts[X].supplier_number", units.ErrConflict},
		{"word for nothing", item(func(p *parts.Part) { p.SupplierNumber = "a" }), with(parts.Mapping{}, parts.Column{Name: "S", Field: "supplier_number", Words: map[string]string{"a": ""}}), "parts[X].supplier_number", units.ErrConflict},
		{"error of a spreadsheet", item(func(p *parts.Part) { p.Description = "#N/A" }), with(parts.Mapping{}), "parts[X].description", units.ErrSyntax},
		{"space around", item(func(p *parts.Part) { p.Description = "a " }), with(parts.Mapping{}), "parts[X].description", units.ErrConflict},
		{"list", shelf(t, "", parts.Part{Number: "X", Kind: "engine", Engine: &parts.Engine{GrossPower: units.Horsepower, Curve: []parts.PowerPoint{{ID: "a"}}}}), parts.Mapping{}, "parts[X].engine.curve", units.ErrConflict},
		{"no rating", shelf(t, "", parts.Part{Number: "X", Kind: "pump", Pump: &parts.Pump{}}), parts.Mapping{}, "parts[X].pump", units.ErrMissing},
		{"bad mapping", item(func(p *parts.Part) {}), with(parts.Mapping{}, parts.Column{Name: "S", Field: "nothing"}), "columns[#4].field", nil},
	} {
		var b strings.Builder
		err := c.c.WriteCSV(&b, c.m)
		var fe *units.FieldError
		if !errors.As(err, &fe) || fe.Path != c.path || c.is != nil && !errors.Is(err, c.is) || b.Len() > 0 {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	// What a part does not have in common with a mapping is not lost where the
	// mapping gives it anyway.
	same := item(func(p *parts.Part) { p.Mass = units.Pound })
	var b strings.Builder
	if err := same.WriteCSV(&b, with(parts.Mapping{Fixed: map[string]string{"mass": "16 oz"}})); err != nil {
		t.Error(err)
	}
	disk := errors.New("disk is full")
	if err := same.WriteCSV(full{disk}, parts.Mapping{}); !errors.Is(err, disk) {
		t.Errorf("a writer that fails: %v", err)
	}
}

type full struct{ err error }

func (f full) Write([]byte) (int, error) { return 0, f.err }

// One column for two fields of a part must not give two texts.
func TestWriteCSV_sharedColumn(t *testing.T) {
	m := parts.Mapping{Columns: []parts.Column{
		{Name: "No", Field: "number"}, {Name: "Kind", Field: "kind"}, {Name: "Name", Field: "description"}, {Name: "Max psi", Field: "pump.maximum_pressure", Unit: "psi"},
		{Name: "Max psi", Field: "hose.maximum_pressure", Unit: "psi"}, {Name: "Max psi", Field: "description"}, {Name: "Flow", Field: "pump.rated_flow"},
	}}
	if err := m.Validate(); !errors.Is(err, units.ErrConflict) {
		t.Errorf("a field in two columns: %v", err)
	}
	m.Columns = append(m.Columns[:2:2], m.Columns[3:]...)
	p := pump("A", units.GallonPerMinute)
	p.Pump.MaximumPressure, p.Description = 3500*units.PSI, "other"
	var b strings.Builder
	if err := shelf(t, "", p).WriteCSV(&b, m); !errors.Is(err, units.ErrConflict) {
		t.Errorf("two texts for a cell: %v", err)
	}
	p.Description = "3500"
	if err := shelf(t, "", p).WriteCSV(&b, m); err != nil || !strings.Contains(b.String(), "A,pump,3500,1 gpm\r\n") {
		t.Errorf("%q, %v", b.String(), err)
	}
}
