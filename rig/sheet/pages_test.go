package sheet_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"html"
	"io"
	"math"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/golden"
	"example.com/washrig/internal/jsonschema"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/rig/parts"
	"example.com/washrig/rig/quote"
	"example.com/washrig/rig/sheet"
	"example.com/washrig/units"
)

func strict() *rig.Policy {
	return &rig.Policy{
		Limits: map[rig.Code]rig.Limit{"bypass-heating": {Stop: (12 * units.Hour).Quantity(), Fix: units.Quantity{}, Who: "the workshop", When: "2026-06-01", Why: "operators idle longer here"}},
		Off:    []rig.Code{"pressure-jump"},
	}
}

// Every page of a small rig in every form, as it was looked at on screen and on
// paper.
func TestPages_golden(t *testing.T) {
	rep := assess(t, small(t), strict())
	o := &sheet.Options{Letterhead: letterhead()}
	for name, d := range everyPage(t, rep, demoQuote(t, rep), o) {
		for _, f := range forms {
			golden.Equal(t, name+"."+f.name, []byte(written(t, d, f.write)))
		}
	}
	var b bytes.Buffer
	if err := sheet.WriteCSV(&b, rep, nil); err != nil {
		t.Fatal(err)
	}
	golden.Equal(t, "technician.csv", bytes.ReplaceAll(b.Bytes(), []byte("\r\n"), []byte("\n")))

	other := assess(t, small(t, rig.Set("lines[gun].nozzle.number", "4.5"), rig.Set("site.water", "60 °F")), nil)
	c, err := batch.Compare(nil, rep, other)
	if err != nil {
		t.Fatal(err)
	}
	d, err := sheet.ComparisonWithPrices(c, []parts.Money{demoQuote(t, rep).Price, {}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range forms {
		golden.Equal(t, "comparison."+f.name, []byte(written(t, d, f.write)))
	}
}

// Every section of the dealer's page that shows computed numbers says what they
// rest on.
func TestPages_sectionsSayTheirBasis(t *testing.T) {
	without := map[string]string{ // and why
		"What was found, worst first":         "each finding names its limit and what it leans on",
		"Price (the dealer's own page)":       "money of the shelf and the book",
		"Checked and passed, narrowest first": "judgements, as the findings",
		"Assumed values":                      "the basis itself",
		"Cautions":                            "standing texts",
		"Not checked here":                    "words",
		"Made from":                           "digests",
		"Left open":                           "what is not given",
	}
	for _, name := range demo.Names() {
		m, err := demo.Model(name)
		if err != nil {
			t.Fatal(err)
		}
		rep := assess(t, m, nil)
		d, err := sheet.Dealer(rep, demoQuote(t, rep), nil)
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(written(t, d, (*sheet.Document).WriteText), "\n")
		head, said, seen := "", true, 0
		for i, line := range lines {
			if i == 0 || line == "" || strings.Trim(line, "-") != "" {
				said = said || strings.Contains(strings.ToLower(line), "basis")
				continue
			}
			if without[head] == "" && !said {
				t.Errorf("rig %s, %s: nothing says what the numbers rest on", name, head)
			}
			head, said = lines[i-1], false // the heading over its line
			seen++
		}
		if without[head] == "" || seen < 12 {
			t.Errorf("rig %s: %d sections were looked at, the last is %q", name, seen, head)
		}
	}
}

// Cautions, what was not checked, what the dealer changed, and the digests are
// on every page in every form; so is every stop.
func TestPages_carryWhatMustNotBeHidden(t *testing.T) {
	rep := demoReport(t, "D", strict())
	if rep.Count(rig.Stop) == 0 {
		t.Fatal("rig D has no stop: the test shows nothing")
	}
	for name, d := range everyPage(t, rep, demoQuote(t, rep), nil) {
		for _, f := range forms {
			text := squeezed(read(f.name, written(t, d, f.write)))
			must := func(what, s string) {
				if !strings.Contains(text, squeezed(s)) {
					t.Errorf("%s.%s lacks %s: %s", name, f.name, what, s)
				}
			}
			for _, c := range rig.Cautions() {
				must("a caution", c.Text)
			}
			for _, x := range rig.NotChecked() {
				must("what was not checked", x)
			}
			must("the disclaimer", rig.Disclaimer)
			must("the digest of the specification", "specification "+rep.Model().Digest()[:12])
			must("the digest of the policy", "policy "+rep.PolicyDigest()[:12])
			for _, x := range rep.Findings() {
				if x.Severity >= rig.CannotJudge {
					doc, _ := rep.Doc(x.Code)
					must("a stop", doc.Title)
					must("the code of a stop", string(x.Code))
				}
			}
			must("who changed a limit", "the workshop, 2026-06-01, operators idle longer here")
			must("what was switched off", "not checked, switched off by the dealer's policy")
		}
	}
}

// read gives the words of a page as a person reads them, without what a form
// writes around them.
func read(form, text string) string {
	switch form {
	case "html":
		return html.UnescapeString(tag.ReplaceAllString(text, " "))
	case "md":
		return html.UnescapeString(regexp.MustCompile(`\\([^\\])`).ReplaceAllString(text, "$1"))
	}
	return text
}

// squeezed joins the words of a text by single spaces, so that it does not
// matter where lines break.
func squeezed(s string) string { return strings.Join(strings.Fields(s), " ") }

// The pages of one report are the same bytes each time, also made at once.
func TestPages_sameBytes(t *testing.T) {
	rep := demoReport(t, "C", nil)
	q := demoQuote(t, rep)
	first := map[string]string{}
	for name, d := range everyPage(t, rep, q, nil) {
		for _, f := range forms {
			first[name+f.name] = written(t, d, f.write)
		}
	}
	done := make(chan map[string]string)
	for range 4 {
		go func() {
			out := map[string]string{}
			for name, d := range everyPage(t, rep, q, nil) {
				for _, f := range forms {
					out[name+f.name] = written(t, d, f.write)
				}
			}
			done <- out
		}()
	}
	for range 4 {
		for k, v := range <-done {
			if v != first[k] {
				t.Errorf("%s differs between two makings", k)
			}
		}
	}
}

// Usable is set against nominal, and rated against start.
func TestPages_usableAndRated(t *testing.T) {
	rep := demoReport(t, "B", nil)
	s := rep.Model().Spec()
	pages := everyPage(t, rep, nil, nil)
	usable, nominal := s.Tanks[0].Usable.Quantity().Text(units.US, 4), s.Tanks[0].Nominal.Quantity().Text(units.US, 4)
	if usable == nominal {
		t.Fatal("the demo's tank is usable to the lid: the test shows nothing")
	}
	for _, name := range []string{"dealer", "customer", "walk-round"} {
		text := squeezed(written(t, pages[name], (*sheet.Document).WriteText))
		if !strings.Contains(text, usable) || !strings.Contains(text, nominal) || !strings.Contains(text, "nominal") {
			t.Errorf("%s does not set usable %s against nominal %s", name, usable, nominal)
		}
	}
	for _, name := range []string{"customer", "walk-round", "start"} {
		text := squeezed(written(t, pages[name], (*sheet.Document).WriteText))
		if !strings.Contains(text, "4800 W") || !strings.Contains(text, "5800 W") || !strings.Contains(text, "rated to run") {
			t.Errorf("%s does not set the run rating against the start rating", name)
		}
	}
}

// No figure of the customer's page is better than the worst state of the day.
func TestCustomer_nothingBetterThanTheWorst(t *testing.T) {
	for _, name := range demo.Names() {
		rep := demoReport(t, name, nil)
		p := sheet.Customer(rep, nil, nil)
		for i, mode := range rep.Model().Modes() {
			for _, f := range p.Modes[i].Figures {
				if !strings.HasPrefix(f.What, "pressure at the nozzle, line ") {
					continue
				}
				line := strings.TrimPrefix(f.What, "pressure at the nozzle, line ")
				worst := math.Inf(1)
				for r := range rep.Among(rig.Path("lines["+line+"].nozzle_pressure"), mode.State, rig.Reachable) {
					worst = math.Min(worst, r.Value.SI())
				}
				said, err := units.ParsePressure(f.Value)
				if err != nil || math.Abs(float64(said)-worst) > 1e-3*worst {
					t.Errorf("rig %s, %s, %s: %s is said, the worst is %v", name, mode.Title, f.What, f.Value, units.Pressure(worst))
				}
			}
		}
		for _, m := range p.Modes {
			for _, f := range m.Figures {
				if f.Value == "" || f.State == "" || f.Basis == "" || f.What == "" {
					t.Errorf("rig %s: a figure without value, state or basis: %+v", name, f)
				}
			}
		}
	}
}

// The types a customer's page is made of have no field for what is the
// dealer's own.
func TestCustomer_types(t *testing.T) {
	seen := map[reflect.Type]bool{}
	var walk func(reflect.Type)
	walk = func(rt reflect.Type) {
		if seen[rt] {
			return
		}
		seen[rt] = true
		switch rt.Kind() {
		case reflect.Slice, reflect.Pointer:
			walk(rt.Elem())
			return
		case reflect.Struct:
		case reflect.String, reflect.Bool, reflect.Int, reflect.Float64:
			return
		default:
			t.Errorf("%v could hold anything", rt)
			return
		}
		for i := range rt.NumField() {
			f := rt.Field(i)
			if !f.IsExported() {
				continue
			}
			for _, word := range []string{"cost", "margin", "markup", "mark_up", "supplier", "profit", "part"} {
				if strings.Contains(strings.ToLower(f.Name), word) || strings.Contains(f.Tag.Get("json"), word) {
					t.Errorf("%v has a field %s", rt, f.Name)
				}
			}
			if f.Type == reflect.TypeFor[parts.Money]() && f.Name != "Price" && f.Name != "Total" {
				t.Errorf("%v has an amount %s", rt, f.Name)
			}
			walk(f.Type)
		}
	}
	walk(reflect.TypeFor[sheet.CustomerPage]())
}

// Over random quotes, no cost, margin, mark-up, shelf number or supplier's
// number is among the bytes a customer is given, in any form.
func TestCustomer_bytes(t *testing.T) {
	cases, shown := 0, 0
	property.Check(t, func(g *property.G) error {
		cases++
		m, secrets, err := pricedRig(g)
		if err != nil {
			return err
		}
		rep, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			return err
		}
		book := &quote.Book{Format: quote.BookFormat, Currency: "USD", MarkUp: units.Ratio(float64(g.Int(1001, 9999)) / 1e4), HoldsFor: 30}
		for _, x := range []struct {
			to    *parts.Money
			cents int
		}{{&book.HourCost, g.Int(4_001, 6_999)}, {&book.HourPrice, g.Int(7_001, 9_999)}} {
			if *x.to, err = parts.Cents(int64(x.cents), "USD"); err != nil {
				return err
			}
		}
		q, err := quote.Of(m, book)
		if err != nil {
			return err
		}
		secrets = append(secrets, book.HourCost.String(), q.Cost.String(), bare(q.Cost))
		for _, r := range []float64{q.Margin, q.MarkUp, float64(book.MarkUp)} {
			secrets = append(secrets, strconv.FormatFloat(r, 'g', -1, 64), fmt.Sprintf("%.1f %%", 100*r), fmt.Sprintf("%.2f %%", 100*r))
		}
		for _, l := range q.Lines {
			if l.Cost.Cents() != 0 {
				secrets = append(secrets, l.Cost.String(), bare(l.Cost))
			}
		}
		c := q.Customer()
		page := sheet.Customer(rep, &c, nil)
		// Words that stand on the page of a rig without a price are no secret of
		// the quote, nor are the prices the customer pays.
		open := everything(sheet.Customer(rep, nil, nil))
		for _, l := range c.Lines {
			open += " " + l.Price.String()
		}
		open += " " + c.Total.String()
		text := everything(page)
		for _, s := range secrets {
			if strings.Contains(open, s) {
				continue
			}
			shown++
			if strings.Contains(text, s) {
				return fmt.Errorf("the customer is given %q", s)
			}
		}
		// The search can find something: the dealer's page has what it looks for.
		d, err := sheet.Dealer(rep, q, &sheet.Options{Full: true})
		if err != nil {
			return err
		}
		var b strings.Builder
		if err := d.WriteText(&b); err != nil {
			return err
		}
		if !strings.Contains(b.String(), q.Cost.String()) {
			return fmt.Errorf("the dealer's page lacks its own cost %v", q.Cost)
		}
		return nil
	})
	if shown < 5*cases {
		t.Errorf("only %d secrets were looked for in %d quotes", shown, cases)
	}
}

// A house rule about the price shows on the dealer's page and on no other.
func TestPages_priceRule(t *testing.T) {
	m, err := demo.Model("B")
	if err != nil {
		t.Fatal(err)
	}
	book, err := demo.Book()
	if err != nil {
		t.Fatal(err)
	}
	q, err := quote.Of(m, book)
	if err != nil {
		t.Fatal(err)
	}
	rep, err := m.Assess(&rig.Policy{Prices: []rig.HouseRule{{ID: "floor", Author: "sales", Text: "never below our floor", Price: "mark_up", AtLeast: "91.37 %", Severity: "stop"}}}, &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		t.Fatal(err)
	}
	d, err := sheet.Dealer(rep, q, nil)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := d.WriteText(&b); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "STOP never below our floor") || !strings.Contains(b.String(), "against 91.37 %") {
		t.Error("the dealer's page does not show the breach")
	}
	c := q.Customer()
	if text := everything(sheet.Customer(rep, &c, nil)); strings.Contains(text, "our floor") || strings.Contains(text, "91.37") {
		t.Error("the customer is shown the dealer's floor")
	}
}

func bare(m parts.Money) string { return strings.TrimSuffix(m.String(), " "+m.Currency()) }

// everything is a customer's page in every form it can leave in.
func everything(p *sheet.CustomerPage) string {
	var b strings.Builder
	d, err := p.Document(nil)
	if err != nil {
		return err.Error()
	}
	for _, f := range forms {
		if err := f.write(d, &b); err != nil {
			return err.Error()
		}
	}
	data, err := json.Marshal(p)
	if err != nil {
		return err.Error()
	}
	b.Write(data)
	if p.Quote != nil {
		q, err := json.Marshal(p.Quote)
		if err != nil {
			return err.Error()
		}
		b.Write(q)
	}
	return b.String()
}

// pricedRig is a small rig with items of a random shelf; what must not be shown
// of it is returned beside it.
func pricedRig(g *property.G) (*rig.Model, []string, error) {
	var list []parts.Part
	var secrets []string
	s, err := rig.ReadSpec(strings.NewReader(smallSpec), rig.ReadLimits{})
	if err != nil {
		return nil, nil, err
	}
	for i := range g.Int(1, 5) {
		p := parts.Part{Kind: "item", Number: fmt.Sprintf("SH-%06d", g.Int(0, 999_999)), SupplierNumber: fmt.Sprintf("SUP%07d", g.Int(0, 9_999_999)), Description: "box"}
		p.Number += fmt.Sprint(i) // each once
		if p.Cost, err = parts.Cents(int64(g.Int(100_003, 9_999_999)), "USD"); err != nil {
			return nil, nil, err
		}
		if g.Bool() {
			if p.Price, err = parts.Cents(p.Cost.Cents()+int64(g.Int(1, 99_999)), "USD"); err != nil {
				return nil, nil, err
			}
		}
		secrets = append(secrets, p.Number, p.SupplierNumber, p.Cost.String(), bare(p.Cost))
		list = append(list, p)
		s.Items = append(s.Items, rig.Item{Stock: rig.Stock{ID: fmt.Sprintf("item-%d", i), Part: p.Number, Count: g.Int(1, 3)}})
	}
	shelf, err := parts.NewCatalog("random", list...)
	if err != nil {
		return nil, nil, err
	}
	m, err := rig.New(s, shelf)
	return m, secrets, err
}

func TestCustomer_json(t *testing.T) {
	for _, name := range demo.Names() {
		rep := demoReport(t, name, strict())
		q := demoQuote(t, rep).Customer()
		for _, x := range []*quote.CustomerQuote{nil, &q} {
			data, err := json.Marshal(sheet.Customer(rep, x, nil))
			if err != nil {
				t.Fatal(err)
			}
			if err := jsonschema.Check([]byte(sheet.CustomerPageSchema()), data); err != nil {
				t.Errorf("rig %s: %v", name, err)
			}
		}
	}
}

// The technician's table has every reading with its value, and every judgement
// with its limit.
func TestCSV(t *testing.T) {
	rep := demoReport(t, "B", strict())
	for _, sys := range []units.System{units.US, units.SI} {
		var b bytes.Buffer
		if err := sheet.WriteCSV(&b, rep, &sheet.Options{System: sys}); err != nil {
			t.Fatal(err)
		}
		if strings.Count(b.String(), "\n") != strings.Count(b.String(), "\r\n") {
			t.Error("a line does not end in CRLF")
		}
		rows := records(t, b.String())
		col := map[string]int{}
		for i, h := range sheet.TableColumns() {
			if rows[0][i] != h[0] || h[1] == "" {
				t.Errorf("column %d is %q, described as %q: %q", i, rows[0][i], h[0], h[1])
			}
			col[h[0]] = i
		}
		type key struct{ path, state string }
		said := map[key][]string{}
		verdicts := 0
		for _, r := range rows[1:] {
			if len(r) != len(rows[0]) {
				t.Fatalf("a row of %d cells", len(r))
			}
			said[key{r[col["path"]], r[col["state"]]}] = r
			if r[col["verdict"]] != "" {
				verdicts++
			}
		}
		n := 0
		for r := range rep.Every() {
			n++
			row := said[key{string(r.Path()), r.State.String()}]
			if row == nil {
				t.Fatalf("%s in %v is not in the table", r.Path(), r.State)
			}
			x, err := strconv.ParseFloat(row[col["value"]], 64)
			want, _ := r.Value.In(r.Metric.Unit(sys))
			if err != nil || math.Abs(x-want) > 5e-6*math.Abs(want)+1e-9 || row[col["unit"]] != r.Metric.Unit(sys).Symbol() {
				t.Errorf("%s in %v is %s %s, want %g", r.Path(), r.State, row[col["value"]], row[col["unit"]], want)
			}
		}
		judgements := 0
		for range rep.Judgements() {
			judgements++
		}
		if len(said) != n || verdicts != judgements {
			t.Errorf("%d readings and %d verdicts, want %d and %d", len(said), verdicts, n, judgements)
		}
	}
}

func records(t testing.TB, text string) [][]string {
	t.Helper()
	c := csv.NewReader(strings.NewReader(text))
	c.Comment = '#'
	c.FieldsPerRecord = -1
	var rows [][]string
	for {
		r, err := c.Read()
		if err == io.EOF {
			return rows
		}
		if err != nil {
			t.Fatal(err)
		}
		rows = append(rows, r)
	}
}

// A rig with a name that is a formula does not run in a spreadsheet, and its
// cautions still begin with #.
func TestCSV_inert(t *testing.T) {
	s := small(t).Written()
	s.Name, s.Title = `=HYPERLINK("x","y")`, "+1, a\"b"
	m, err := rig.New(s, nil)
	if err != nil {
		t.Fatal(err)
	}
	p := &rig.Policy{Limits: map[rig.Code]rig.Limit{"bypass-heating": {Stop: (10 * units.Minute).Quantity(), Who: "=1+1", When: "@now", Why: "-2\r\n=3"}}}
	var b bytes.Buffer
	if err := sheet.WriteCSV(&b, assess(t, m, p), nil); err != nil {
		t.Fatal(err)
	}
	comments := 0
	for _, line := range strings.Split(strings.TrimSuffix(b.String(), "\r\n"), "\r\n") {
		if strings.HasPrefix(line, "#") {
			comments++
			continue
		}
		for _, cell := range strings.Split(line, ",") {
			cell = strings.Trim(cell, `"`)
			if cell == "" {
				continue
			}
			_, err := strconv.ParseFloat(cell, 64)
			if strings.ContainsRune("=+@", rune(cell[0])) || (cell[0] == '-' && err != nil) {
				t.Errorf("the cell %q could be run", cell)
			}
		}
	}
	if comments < len(rig.Cautions())+3 {
		t.Errorf("%d lines of comment", comments)
	}
}

// What stands in a cell of a comparison is the comparison's own.
func TestComparison(t *testing.T) {
	var reports []*rig.Report
	for _, n := range demo.Names() {
		reports = append(reports, demoReport(t, n, nil))
	}
	c, err := batch.Compare(nil, reports...)
	if err != nil {
		t.Fatal(err)
	}
	d, err := sheet.Comparison(c, nil)
	if err != nil {
		t.Fatal(err)
	}
	text := written(t, d, (*sheet.Document).WriteMarkdown)
	ties := 0
	for _, r := range c.Rows {
		for _, x := range r.Cells {
			if x.Against == batch.Tie {
				ties++
			}
		}
	}
	if got := len(regexp.MustCompile(`, tie \|`).FindAllString(text, -1)); got != ties {
		t.Errorf("%d cells are called a tie, %d are one", got, ties)
	}
	for _, want := range []string{"There is no score.", "1 %", "A tie lies inside"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if _, err := sheet.ComparisonWithPrices(c, nil, nil); err == nil {
		t.Error("no prices for four rigs passed")
	}
	p, err := sheet.ComparisonWithPrices(c, []parts.Money{amount(t, "1.00 USD"), {}, amount(t, "2.00 USD"), {}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if text := written(t, p, (*sheet.Document).WriteMarkdown); !strings.Contains(text, "| price | 1.00 USD | – | 2.00 USD | – |") {
		t.Error("the prices are not in the table")
	}
}

// A rig that says next to nothing still makes every page.
func TestPages_ofAlmostNothing(t *testing.T) {
	m, err := rig.New(&rig.Spec{Format: rig.Format}, nil)
	if err != nil {
		t.Fatal(err)
	}
	rep := assess(t, m, nil)
	for name, d := range everyPage(t, rep, nil, nil) {
		for _, f := range forms {
			if text := written(t, d, f.write); !strings.Contains(text, "Carbon monoxide") {
				t.Errorf("%s.%s has no cautions", name, f.name)
			}
		}
	}
	if err := sheet.WriteCSV(io.Discard, rep, nil); err != nil {
		t.Error(err)
	}
}

func BenchmarkDealerHTML(b *testing.B) {
	rep := demoReport(b, "B", nil)
	q := demoQuote(b, rep)
	for b.Loop() {
		if err := sheet.WriteHTML(io.Discard, rep, q, sheet.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
