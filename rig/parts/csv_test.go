package parts_test

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

func open(t testing.TB, name string) *os.File {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func mapping(t testing.TB) parts.Mapping {
	t.Helper()
	m, err := parts.ReadMapping(open(t, "mapping.json"))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func mustMoney(s string) parts.Money {
	m, err := parts.ParseMoney(s)
	if err != nil {
		panic(err)
	}
	return m
}

// A spreadsheet's export: byte order mark, CRLF, a title, line breaks in cells
// and in a heading, blank rows, columns in another order than the mapping's and
// columns it does not name, units and currencies in headings and in cells, days
// in American order, formulas and cells marked as text.
func TestReadCSV(t *testing.T) {
	c, rep, err := parts.ReadCSV(open(t, "raw/export.csv"), mapping(t), parts.CSVOptions{})
	if err != nil {
		t.Fatal(err)
	}
	list, older := day(t, "2026-03-02"), day(t, "2025-12-31")
	want := []parts.Part{
		{Number: "H-9", Kind: "hose", Description: "-9 series", Basis: "catalogue", Cost: mustMoney("96.00 EUR"), PriceDate: day(t, "2026-03-05"),
			LeadTime: 2 * units.Day, Mass: 9.25 * units.Pound, Hose: &parts.Hose{Bore: 0.375 * units.Inch, Length: 25 * units.Foot, MaximumPressure: 276 * units.Bar}},
		{Number: "H50", Kind: "hose", Description: "=HYPERLINK(0)", Basis: "catalogue", Cost: mustMoney("148.00 USD"), PriceDate: list,
			Mass: 18 * units.Pound, Hose: &parts.Hose{Bore: 0.375 * units.Inch, Length: 50 * units.Foot, MaximumPressure: 4000 * units.PSI}},
		{Number: "P44", Kind: "pump", Description: `Plunger pump "small", invented`, Basis: "catalogue", Cost: mustMoney("612.50 USD"), PriceDate: list,
			LeadTime: 12 * units.Day, Mass: 31 * units.Pound, Pump: &parts.Pump{RatedFlow: 26 * units.LiterPerMinute, MaximumPressure: 3500 * units.PSI}},
		{Number: "P68", Kind: "pump", Description: "Triplex plunger pump, 6.8 gpm, invented", Basis: "catalogue", Cost: mustMoney("890.00 USD"), PriceDate: list,
			LeadTime: 12 * units.Day, Mass: 44.5 * units.Pound, Pump: &parts.Pump{RatedFlow: 6.8 * units.GallonPerMinute, MaximumPressure: 3500 * units.PSI}},
		{Number: "R1", Kind: "item", Description: "tool box", Basis: "catalogue", Cost: mustMoney("75.00 USD"), PriceDate: older,
			LeadTime: 30 * units.Day, Mass: 62 * units.Pound},
	}
	if d := cmp.Diff(want, c.Parts(""), exact); d != "" {
		t.Errorf("-want +got\n%s", d)
	}
	report := &parts.CSVReport{Rows: 6, Loaded: 5, Left: 1, Unread: []string{"Shelf place", "Notes"}}
	if d := cmp.Diff(report, rep, exact); d != "" {
		t.Errorf("-want +got\n%s", d)
	}
	if c.Name() != "own shelf" {
		t.Errorf("name %q", c.Name())
	}
}

func brokenMapping() parts.Mapping {
	return parts.Mapping{Columns: []parts.Column{
		{Name: "Item no.", Field: "number"},
		{Name: "Category", Field: "kind", Words: map[string]string{"Pump": "pump", "Hose": "hose"}},
		{Name: "Our cost", Field: "cost", Currency: "USD"},
		{Name: "Flow (gpm)", Field: "pump.rated_flow", Unit: "gpm"},
		{Name: "Bore (in)", Field: "hose.bore", Unit: "in"},
		{Name: "Description", Field: "description"},
	}}
}

// Every broken row is told by its place, and the good ones are loaded.
func TestReadCSV_brokenRows(t *testing.T) {
	c, rep, err := parts.ReadCSV(open(t, "raw/broken.csv"), brokenMapping(), parts.CSVOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if got := numbers(c.Parts("")); got != "H2 P1 P25" {
		t.Errorf("loaded: %s", got)
	}
	type place struct {
		Row, Column int
		Name, Path  string
		is          error
		says        string
	}
	want := []place{
		{3, 7, "", "", units.ErrConflict, "decimal comma"},
		{4, 4, "Flow (gpm)", "pump.rated_flow", units.ErrSyntax, "no decimal comma"},
		{5, 3, "Our cost", "cost", units.ErrSyntax, "separators of thousands"},
		{6, 3, "Our cost", "cost", units.ErrSyntax, "without a sign"},
		{7, 3, "Our cost", "cost", units.ErrRange, "whole cents"},
		{8, 4, "Flow (gpm)", "pump.rated_flow", units.ErrSyntax, "psi is a pressure"},
		{9, 4, "Flow (gpm)", "pump.rated_flow", units.ErrRange, "0.01 gpm to 1000 gpm"},
		{10, 4, "Flow (gpm)", "pump.rated_flow", units.ErrRange, "0.01 gpm to 1000 gpm"},
		{11, 4, "Flow (gpm)", "pump.rated_flow", units.ErrSyntax, "formulas are not computed"},
		{12, 4, "Flow (gpm)", "pump.rated_flow", units.ErrSyntax, "shows an error"},
		{13, 3, "Our cost", "cost", units.ErrSyntax, "too narrow"},
		{14, 0, "", "pump", units.ErrMissing, "the ratings of a pump"},
		{15, 5, "Bore (in)", "hose.bore", units.ErrConflict, "the row is of kind pump"},
		{16, 2, "Category", "kind", units.ErrRange, "one of pump, engine"},
		{17, 2, "Category", "kind", units.ErrMissing, "such as pump"},
		{18, 1, "Item no.", "number", units.ErrMissing, "part number"},
		{19, 1, "Item no.", "number", units.ErrConflict, "row 2 has it"},
		{20, 6, "Description", "description", units.ErrRange, "U+0007"},
		{21, 6, "Description", "description", units.ErrRange, "U+202E"},
		{22, 6, "Description", "", units.ErrSyntax, "written twice"},
		{23, 3, "Our cost", "cost", units.ErrSyntax, "1234.50"},
		{23, 4, "Flow (gpm)", "pump.rated_flow", units.ErrSyntax, "bar is a pressure"},
		{24, 1, "Item no.", "", units.ErrSyntax, "closes the cell"},
		{25, 6, "Description", "description", units.ErrRange, "U+0009"},
		{26, 5, "Bore (in)", "hose.bore", units.ErrSyntax, "fraction"},
		{27, 6, "Description", "description", units.ErrSyntax, "CSV UTF-8"},
	}
	for i, p := range rep.Problems {
		var fe *units.FieldError
		if !errors.As(&p, &fe) {
			t.Errorf("%v: no FieldError", &p)
			continue
		}
		if i >= len(want) {
			t.Errorf("one more: %v", &p)
			continue
		}
		w := want[i]
		if p.Row != w.Row || p.Line != w.Row || p.Column != w.Column || p.Name != w.Name || fe.Path != w.Path || !errors.Is(&p, w.is) || !strings.Contains(p.Error(), w.says) {
			t.Errorf("row %d, line %d, column %d %q, path %q: %v\nwant %+v", p.Row, p.Line, p.Column, p.Name, fe.Path, &p, w)
		}
		if !strings.HasPrefix(p.Error(), fmt.Sprintf("row %d", w.Row)) || w.Name != "" && !strings.Contains(p.Error(), fmt.Sprintf("column %d (%c) %q", w.Column, 'A'+w.Column-1, w.Name)) {
			t.Errorf("the text has no place: %v", &p)
		}
	}
	if len(rep.Problems) != len(want) || rep.More != 0 {
		t.Errorf("%d problems and %d more, want %d", len(rep.Problems), rep.More, len(want))
	}
	if rep.Rows != 28 || rep.Loaded != 3 || rep.Broken != 25 || rep.Left != 0 {
		t.Errorf("report %+v", rep)
	}

	_, rep, err = parts.ReadCSV(open(t, "raw/broken.csv"), brokenMapping(), parts.CSVOptions{Problems: 2})
	if err != nil || len(rep.Problems) != 2 || rep.More != len(want)-2 || rep.Broken != 25 {
		t.Errorf("with a limit of 2: %d and %d more, %v", len(rep.Problems), rep.More, err)
	}
}

func read(text string, m parts.Mapping) (*parts.Catalog, *parts.CSVReport, error) {
	return parts.ReadCSV(strings.NewReader(text), m, parts.CSVOptions{})
}

// Files of which nothing is loaded.
func TestReadCSV_refuses(t *testing.T) {
	m := brokenMapping()
	whole := "Item no.,Category,Our cost,Flow (gpm),Bore (in),Description\nP1,Pump,1,4,,\n"
	if c, rep, err := read(whole, m); err != nil || c.Len() != 1 {
		t.Fatalf("the file that the others are made from: %v, %+v", err, rep)
	}
	raw := func(name string) string {
		b, err := io.ReadAll(open(t, "raw/"+name))
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	for name, x := range map[string]struct {
		text string
		m    parts.Mapping
		is   error
		says []string
	}{
		"empty":                  {"", m, units.ErrMissing, []string{`"Item no."`}},
		"no headings":            {"P1,Pump,1,4,,\n", m, units.ErrMissing, []string{`"Item no."`, `"P1"`}},
		"headings too deep":      {strings.Repeat("title\n", 60) + whole, m, units.ErrMissing, []string{`"Item no."`}},
		"semicolons":             {raw("semicolons.csv"), m, units.ErrSyntax, []string{"semicolons", "decimal"}},
		"semicolons in quotes":   {`"Item no.";"Category"` + "\n", m, units.ErrSyntax, []string{"semicolons"}},
		"tabs":                   {strings.ReplaceAll(whole, ",", "\t"), m, units.ErrSyntax, []string{"tabs"}},
		"UTF-16":                 {raw("utf16.csv"), m, units.ErrSyntax, []string{"UTF-8"}},
		"column missing":         {"Item no.,Category,Our cost,Flow (GPM),Bore (in),Description\n", m, units.ErrMissing, []string{`"Flow (gpm)"`, `"Flow (GPM)"`}},
		"column in another code": {"Item no.,Category,Our cost,Flow (gpm),Bore (in),Descripti\xf3n\n", m, units.ErrMissing, []string{`"Description"`, "UTF-8"}},
		"column twice":           {"Item no.,Category,Our cost,Flow (gpm),Bore (in),Description,Our cost\n", m, units.ErrConflict, []string{`"Our cost"`, "once"}},
		"no kind":                {"number,cost\n", parts.Mapping{}, units.ErrMissing, []string{"kind"}},
		"bad mapping":            {whole, parts.Mapping{Columns: []parts.Column{{Name: "a", Field: "numbr"}}}, nil, []string{"number"}},
	} {
		c, rep, err := read(x.text, x.m)
		if c != nil || rep != nil || err == nil || x.is != nil && !errors.Is(err, x.is) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, s := range x.says {
			if !strings.Contains(err.Error(), s) {
				t.Errorf("%s: %v; does not say %s", name, err, s)
			}
		}
	}
	if _, _, err := parts.ReadCSV(strings.NewReader(whole), m, parts.CSVOptions{Bytes: 20}); !errors.Is(err, parts.ErrTooLarge) {
		t.Errorf("over the size: %v", err)
	}
	two := whole + "P2,Pump,1,4,,\n"
	if _, _, err := parts.ReadCSV(strings.NewReader(two), m, parts.CSVOptions{Rows: 1}); !errors.Is(err, parts.ErrTooLarge) {
		t.Errorf("over the rows: %v", err)
	}
	if _, _, err := parts.ReadCSV(strings.NewReader(two), m, parts.CSVOptions{Rows: 2}); err != nil {
		t.Errorf("at the limit of rows: %v", err)
	}
	broken := errors.New("broken")
	if _, _, err := parts.ReadCSV(io.MultiReader(strings.NewReader(two), failing{broken}), m, parts.CSVOptions{}); !errors.Is(err, broken) {
		t.Errorf("a reader that fails: %v", err)
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// The kind of every row from the mapping, or from the column where it has one;
// what is fixed gives way to a cell.
func TestReadCSV_fixed(t *testing.T) {
	m := parts.Mapping{
		Columns: []parts.Column{{Name: "No", Field: "number"}, {Name: "Priced", Field: "price_date"}, {Name: "Flow", Field: "pump.rated_flow", Unit: "gpm"}},
		Fixed:   map[string]string{"kind": "pump", "price_date": "2026-03-01", "pump.efficiency": "88 %", "hose.roughness": "1.5 um"},
	}
	c, rep, err := read("No,Priced,Flow\nA,,4\nB,2026-04-01,5\n", m)
	if err != nil || rep.Loaded != 2 {
		t.Fatalf("%v, %+v", err, rep)
	}
	a, _ := c.Part("A")
	b, _ := c.Part("B")
	if a.PriceDate != day(t, "2026-03-01") || b.PriceDate != day(t, "2026-04-01") || a.Pump.Efficiency != 0.88 || a.Hose != nil {
		t.Errorf("%+v, %+v", a, b)
	}
	m.Columns = append(m.Columns, parts.Column{Name: "Kind", Field: "kind"})
	c, rep, err = read("No,Priced,Flow,Kind\nA,,4,\nB,,,item\n", m)
	if err != nil || rep.Loaded != 2 {
		t.Fatalf("%v, %+v", err, rep)
	}
	if b, _ := c.Part("B"); b.Kind != "item" || b.Pump != nil {
		t.Errorf("%+v", b)
	}
}

func TestReadCSV_cells(t *testing.T) {
	m := parts.Mapping{Columns: []parts.Column{
		{Name: "number", Field: "number"}, {Name: "kind", Field: "kind"}, {Name: "description", Field: "description"},
		{Name: "cost", Field: "cost", Currency: "USD"}, {Name: "price", Field: "price"},
		{Name: "day", Field: "price_date", Date: "day-month-year"}, {Name: "mass (lb)", Field: "mass", Unit: "lb"},
		{Name: "fuel", Field: "heater.fuel", Words: map[string]string{"Fuel oil": "oil", "?": ""}},
	}}
	for _, x := range []struct{ cell, path, want string }{
		{"cost:12", "cost", "12.00 USD"}, {"cost:12.5", "cost", "12.50 USD"}, {"cost:12.50", "cost", "12.50 USD"}, {"cost:12.5000", "cost", "12.50 USD"},
		{"cost:-3.25", "cost", "-3.25 USD"}, {"cost:12 EUR", "cost", "12.00 EUR"}, {"cost: 12.5 \u00a0 EUR ", "cost", "12.50 EUR"},
		{"cost:'-3.25", "cost", ""}, {"cost:.5", "cost", ""}, {"cost:1e3", "cost", ""}, {"cost:12,50", "cost", ""}, {"cost:€12", "cost", ""},
		{"cost:12.005", "cost", ""}, {"cost:100000000000000000", "cost", ""}, {"cost:USD 12", "cost", ""},
		{"price:12.50", "price", ""}, {"price:12.50 USD", "price", "12.50 USD"},
		{"day:2026-03-01", "price_date", "2026-03-01"}, {"day:1.3.2026", "price_date", "2026-03-01"}, {"day:31/12/2025", "price_date", "2025-12-31"},
		{"day:1-3-2026", "price_date", "2026-03-01"}, {"day:3/31/2026", "price_date", ""}, {"day:1.3.26", "price_date", ""}, {"day:1.3", "price_date", ""},
		{"day:29.2.2025", "price_date", ""}, {"day:46083", "price_date", ""}, {"day:1.Mar.2026", "price_date", ""},
		{"mass (lb):12", "mass", "12 lb"}, {"mass (lb):1.2E+01", "mass", "12 lb"}, {"mass (lb):12 1/2", "mass", "200 oz"}, {"mass (lb):12 kg", "mass", "12 kg"},
		{"mass (lb):1 200", "mass", ""}, {"mass (lb):12 lbs", "mass", "12 lb"}, {"mass (lb):12 stone", "mass", ""}, {"mass (lb):-", "mass", ""},
		{"description:=1+1", "description", "=1+1"}, {"description:'=1+1", "description", "=1+1"}, {"description:'tis", "description", "'tis"},
		{"description:a\r\n  b", "description", "a b"}, {"description:a\x00b", "description", ""}, {"description:#N/A", "description", ""},
		{"description:#5 washer", "description", "#5 washer"}, {"description:" + strings.Repeat("x", 2001), "description", ""},
		{"fuel:Fuel oil", "heater.fuel", "oil"}, {"fuel:propane", "heater.fuel", "propane"}, {"fuel:Propane", "heater.fuel", ""},
	} {
		name, text, _ := strings.Cut(x.cell, ":")
		cells := map[string]string{"number": "X", "kind": "item", name: text}
		if name == "fuel" {
			cells["kind"] = "heater"
		}
		var head, row []string
		for _, c := range m.Columns {
			head = append(head, c.Name)
			row = append(row, `"`+strings.ReplaceAll(cells[c.Name], `"`, `""`)+`"`)
		}
		c, rep, err := read(strings.Join(head, ",")+"\n"+strings.Join(row, ",")+"\n", m)
		if err != nil {
			t.Errorf("%s: %v", x.cell, err)
			continue
		}
		if x.want == "" {
			if c.Len() != 0 || len(rep.Problems) != 1 || rep.Problems[0].Name != name {
				t.Errorf("%.40q: read: %+v", x.cell, rep)
			}
			continue
		}
		if len(rep.Problems) > 0 {
			t.Errorf("%q: %v", x.cell, &rep.Problems[0])
			continue
		}
		p, _ := c.Part("X")
		if got, _, err := partTable(t).Get(&p, x.path); got != x.want || err != nil {
			t.Errorf("%q is read as %q, %v; want %q", x.cell, got, err, x.want)
		}
	}
	// A word that stands for nothing: an empty cell.
	c, rep, err := read("number,kind,description,cost,price,day,mass (lb),fuel\nX,item,,,,,,?\n", m)
	if err != nil || c.Len() != 1 {
		t.Errorf("%v, %+v", err, rep)
	}
}

// The file's text is not kept alive by the parts that came from it.
func TestReadCSV_doesNotHoldTheFile(t *testing.T) {
	var b strings.Builder
	b.WriteString("number,kind,note\n")
	for i := range 1000 {
		fmt.Fprintf(&b, "X%d,item,%s\n", i, strings.Repeat("x", 10_000)) // a column that is not read
	}
	text := b.String()
	c, size := held(func() *parts.Catalog {
		c, _, err := read(text, parts.Mapping{})
		if err != nil || c.Len() != 1000 {
			t.Fatal(err)
		}
		return c
	})
	if size > 2<<20 { // of a file of 10 MB; a part is less than 1 kB
		t.Errorf("%v bytes are held", size)
	}
	runtime.KeepAlive(c)
}

func FuzzReadCSV(f *testing.F) {
	for _, name := range []string{"export.csv", "broken.csv", "semicolons.csv", "utf16.csv"} {
		b, err := io.ReadAll(open(f, "raw/"+name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(b))
	}
	f.Add("number,kind,cost,pump.rated_flow\nP,pump,1 USD,4 gpm\n")
	maps := []parts.Mapping{{}, mapping(f), brokenMapping()}
	f.Fuzz(func(t *testing.T, text string) {
		for _, m := range maps {
			c, rep, err := parts.ReadCSV(strings.NewReader(text), m, parts.CSVOptions{Problems: 5})
			if err != nil {
				continue
			}
			if rep.Rows != rep.Loaded+rep.Broken+rep.Left || rep.Loaded != c.Len() {
				t.Fatalf("%+v does not add up", rep)
			}
			if (rep.Broken > 0) != (len(rep.Problems) > 0) || rep.More > 0 && len(rep.Problems) != 5 {
				t.Errorf("%+v", rep)
			}
			for i := range rep.Problems {
				if p := &rep.Problems[i]; p.Row < 2 || p.Line < p.Row && !strings.ContainsAny(text, "\"") || p.Err == nil {
					t.Errorf("%+v", p)
				}
			}
			again, err := parts.NewCatalog("", c.Parts("")...) // checks what a file could hold
			if err != nil || again.Digest() != c.Digest() {
				t.Errorf("read, but %v", err)
			}
			var b strings.Builder
			if err := c.WriteCSV(&b, parts.Mapping{}); err != nil {
				t.Fatal(err)
			}
			back, rep, err := read(b.String(), parts.Mapping{})
			if err != nil || back.Digest() != c.Digest() {
				t.Errorf("written and read: %v, %+v", err, rep)
			}
		}
	})
}
