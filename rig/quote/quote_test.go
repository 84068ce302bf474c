package quote_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/big"
	"reflect"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/jsonschema"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/rig/quote"
	"example.com/washrig/units"
)

func money(t testing.TB, s string) parts.Money {
	t.Helper()
	m, err := parts.ParseMoney(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func day(t testing.TB, s string) parts.Date {
	t.Helper()
	d, err := parts.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// book is a price book of a 35 % mark-up.
func book(t testing.TB) *quote.Book {
	return &quote.Book{Format: quote.BookFormat, Currency: "USD", MarkUp: 0.35, HourPrice: money(t, "95.00 USD"), HourCost: money(t, "52.00 USD"),
		HoldsFor: 90, QuoteDay: day(t, "2026-06-01"), ValidUntil: day(t, "2026-07-01")}
}

// box is a rig of generic items only.
func box(t testing.TB, shelf *parts.Catalog, items ...rig.Item) *rig.Model {
	t.Helper()
	m, err := rig.New(&rig.Spec{Format: rig.Format, Name: "box", Items: items}, shelf)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func item(id string, set func(*rig.Stock)) rig.Item {
	it := rig.Item{Stock: rig.Stock{ID: id}}
	set(&it.Stock)
	return it
}

func of(t testing.TB, m *rig.Model, b *quote.Book) *quote.Quote {
	t.Helper()
	q, err := quote.Of(m, b)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// A price follows from cost and mark-up to the cent: the exact product in
// decimals, rounded half away from zero, for every mark-up of two decimals.
func TestPrice_exactDecimal(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		cents, basis, count := int64(g.Int(0, 1_000_000)), int64(g.Int(0, 100_000)), g.Int(1, 40)
		c, err := parts.Cents(cents, "USD")
		if err != nil {
			return err
		}
		b := book(t)
		if b.MarkUp, err = units.ParseRatio(fmt.Sprintf("%d.%02d %%", basis/100, basis%100)); err != nil {
			return err
		}
		q := of(t, box(t, nil, item("a", func(s *rig.Stock) { s.Cost, s.Count = c, count })), b)
		cost := cents * int64(count)
		exact := new(big.Rat).Mul(big.NewRat(cost, 1), big.NewRat(10_000+basis, 10_000))
		half := new(big.Rat).Add(exact, big.NewRat(1, 2))
		want := new(big.Int).Quo(half.Num(), half.Denom()).Int64()
		if got := q.Lines[0].Price.Cents(); got != want {
			return fmt.Errorf("%d × %v at a mark-up of %v: %d cents, want %d", count, c, b.MarkUp, got, want)
		}
		if q.Cost.Cents() != cost {
			return fmt.Errorf("cost %v, want %d cents", q.Cost, cost)
		}
		return nil
	})
}

// The totals are the sums of the lines, and margin and mark-up of one quote
// belong together: k = m/(1 − m).
func TestTotals(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		var items []rig.Item
		for i := range g.Int(1, 12) {
			kind, cents, n := g.Pick(4), int64(g.Int(1, 500_000)), g.Int(1, 9)
			items = append(items, item(fmt.Sprintf("i%d", i), func(s *rig.Stock) {
				s.Count = n
				c, _ := parts.Cents(cents, "USD")
				p, _ := parts.Cents(cents+cents/3, "USD")
				if kind != 0 {
					s.Cost = c
				}
				if kind == 2 {
					s.Price = p
				}
				if kind == 3 {
					s.Cost, s.Price = parts.Money{}, p
				}
			}))
		}
		q := of(t, box(t, nil, items...), book(t))
		var cost, price, costed int64
		unpriced, uncosted := 0, 0
		for _, l := range q.Lines {
			cost += l.Cost.Cents()
			price += l.Price.Cents()
			if l.Uncosted {
				uncosted++
			} else {
				costed += l.Price.Cents()
			}
			if l.Unpriced {
				unpriced++
			}
		}
		if q.Cost.Cents() != cost || q.Price.Cents() != price || q.Unpriced != unpriced || q.Uncosted != uncosted {
			return fmt.Errorf("totals %v, %v, %d, %d; the lines say %d, %d, %d, %d", q.Cost, q.Price, q.Unpriced, q.Uncosted, cost, price, unpriced, uncosted)
		}
		if cost > 0 && math.Abs(q.MarkUp-q.Margin/(1-q.Margin)) > 1e-12*(1+q.MarkUp) {
			return fmt.Errorf("margin %v and mark-up %v do not belong together", q.Margin, q.MarkUp)
		}
		if c := q.Customer(); c.Complete != (unpriced == 0) || c.Total != q.Price || len(c.Lines) != len(q.Lines) {
			return fmt.Errorf("the customer's quote is %+v", c)
		}
		return nil
	})
}

func TestUnknownPrices(t *testing.T) {
	shelf, err := parts.NewCatalog("s",
		parts.Part{Number: "OLD", Kind: "item", Cost: money(t, "10.00 USD"), PriceDate: day(t, "2026-03-02"), LeadTime: 5 * units.Day},
		parts.Part{Number: "EDGE", Kind: "item", Cost: money(t, "10.00 USD"), PriceDate: day(t, "2026-03-03"), LeadTime: 40 * units.Day},
		parts.Part{Number: "DATELESS", Kind: "item", Cost: money(t, "10.00 USD"), SupplierNumber: "SUP-1"},
		parts.Part{Number: "BARE", Kind: "item"},
	)
	if err != nil {
		t.Fatal(err)
	}
	number := func(n string) func(*rig.Stock) { return func(s *rig.Stock) { s.Part = n } }
	m := box(t, shelf, item("old", number("OLD")), item("edge", number("EDGE")), item("dateless", number("DATELESS")), item("bare", number("BARE")),
		item("sold", func(s *rig.Stock) { s.Price = money(t, "99.00 USD") }), item("here", func(s *rig.Stock) { s.Cost = money(t, "1.00 USD") }))
	q := of(t, m, book(t))
	type flags struct{ unpriced, uncosted, stale, undated bool }
	want := map[rig.Path]flags{
		"items[old]":      {stale: true}, // 91 days on the day of the quote, held for 90
		"items[edge]":     {},            // 90 days
		"items[dateless]": {undated: true},
		"items[bare]":     {unpriced: true},
		"items[sold]":     {uncosted: true},
		"items[here]":     {},
	}
	for _, l := range q.Lines {
		if got := (flags{l.Unpriced, l.Uncosted, l.Stale, l.Undated}); got != want[l.Path] {
			t.Errorf("%s: %+v, want %+v", l.Path, got, want[l.Path])
		}
	}
	if q.Stale != 1 || q.Undated != 1 || q.Unpriced != 1 || q.Uncosted != 1 || q.Oldest != day(t, "2026-03-02") || q.Longest != "items[edge]" {
		t.Errorf("%+v", q)
	}
	// 31.00 of cost became 41.85; the 99.00 that cost nobody knows is no profit.
	if q.Price.String() != "140.85 USD" || math.Abs(q.MarkUp-0.35) > 1e-12 {
		t.Errorf("price %v, mark-up %v", q.Price, q.MarkUp)
	}
	if c := q.Customer(); c.Complete || c.Lines[3].Priced {
		t.Errorf("an incomplete quote passes for complete: %+v", c)
	}
	if strings.Contains(fmt.Sprintf("%+v", q.Customer()), "SUP-1") {
		t.Error("the supplier's number is in the customer's quote")
	}
	// No age is judged where the book does not hold prices to a day.
	b := book(t)
	b.HoldsFor = 0
	if q := of(t, m, b); q.Stale != 0 || q.Undated != 0 {
		t.Errorf("stale %d, undated %d without a time to hold", q.Stale, q.Undated)
	}
}

func TestOf_refuses(t *testing.T) {
	for _, c := range []struct {
		name string
		set  func(*rig.Stock)
		want error
	}{
		{"other currency of a cost", func(s *rig.Stock) { s.Cost = money(t, "10.00 CAD") }, units.ErrConflict},
		{"other currency of a price", func(s *rig.Stock) { s.Price = money(t, "10.00 CAD") }, units.ErrConflict},
		{"negative", func(s *rig.Stock) { s.Cost = money(t, "-10.00 USD") }, units.ErrRange},
		{"too large", func(s *rig.Stock) { s.Cost, s.Count = money(t, "90000000000000000.00 USD"), 1000 }, parts.ErrOverflow},
	} {
		_, err := quote.Of(box(t, nil, item("a", c.set)), book(t))
		if !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
		var fe *units.FieldError
		if errors.As(err, &fe) && fe.Path != "items[a]" {
			t.Errorf("%s: the error is at %q", c.name, fe.Path)
		}
	}
	// the sum, where each line still fits
	big := func(s *rig.Stock) { s.Price = money(t, "60000000000000000.00 USD") }
	if _, err := quote.Of(box(t, nil, item("a", big), item("b", big)), book(t)); !errors.Is(err, parts.ErrOverflow) {
		t.Errorf("a sum past 64 bits: %v", err)
	}
	if _, err := quote.Of(nil, book(t)); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no model: %v", err)
	}
	if _, err := quote.FuelCosts(nil); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no report: %v", err)
	}
}

// Profit past 64 bits is not turned round.
func TestMargin_edges(t *testing.T) {
	for _, c := range []struct {
		cost, price    int64
		margin, markUp float64
	}{
		{0, 0, 0, 0}, {500, 0, 0, -1}, {0, 500, 1, 0}, {500, 400, -0.25, -0.2},
		{math.MinInt64, math.MaxInt64, 2, -2}, {math.MaxInt64, math.MinInt64, 2, -2},
	} {
		if m, k := quote.Margin(c.cost, c.price), quote.MarkUp(c.cost, c.price); math.Abs(m-c.margin) > 1e-12 || math.Abs(k-c.markUp) > 1e-12 {
			t.Errorf("cost %d, price %d: margin %g, mark-up %g; want %g and %g", c.cost, c.price, m, k, c.margin, c.markUp)
		}
	}
}

func TestBook_Validate(t *testing.T) {
	if err := book(t).Validate(); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		path string
		set  func(*quote.Book)
		want error
	}{
		{"currency", func(b *quote.Book) { b.Currency = "usd" }, units.ErrSyntax},
		{"hour_cost", func(b *quote.Book) { b.HourCost = parts.Money{} }, units.ErrMissing},
		{"hour_price", func(b *quote.Book) { b.HourPrice = money(t, "95.00 CAD") }, units.ErrConflict},
		{"hour_price", func(b *quote.Book) { b.HourPrice = money(t, "-95.00 USD") }, units.ErrRange},
		{"mark_up", func(b *quote.Book) { b.MarkUp = -0.01 }, units.ErrRange},
		{"mark_up", func(b *quote.Book) { b.MarkUp = units.Ratio(math.NaN()) }, units.ErrRange},
		{"holds_for", func(b *quote.Book) { b.HoldsFor = -1 }, units.ErrRange},
		{"valid_until", func(b *quote.Book) { b.ValidUntil = day(t, "2026-05-31") }, units.ErrConflict},
	} {
		b := book(t)
		c.set(b)
		err := b.Validate()
		if !errors.Is(err, c.want) || !strings.Contains(err.Error(), c.path) {
			t.Errorf("%s: %v, want %v", c.path, err, c.want)
		}
		if _, err := quote.Of(box(t, nil), b); err == nil {
			t.Errorf("%s: the quote was made all the same", c.path)
		}
	}
	if err := (*quote.Book)(nil).Validate(); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no book: %v", err)
	}
	// all at once
	b := book(t)
	b.MarkUp, b.HoldsFor, b.HourCost = -1, -1, parts.Money{}
	if err := b.Validate(); strings.Count(err.Error(), "\n") != 2 {
		t.Errorf("three mistakes: %v", err)
	}
}

func TestReadBook(t *testing.T) {
	good := `{"format":"washrig-book/1","currency":"USD","mark_up":"35 %","hour_price":"95 USD","hour_cost":"52 USD"}`
	if b, err := quote.ReadBook(strings.NewReader(good)); err != nil || b.MarkUp != 0.35 {
		t.Fatalf("%+v, %v", b, err)
	}
	for _, c := range []struct{ old, new, want string }{
		{"washrig-book/1", "washrig-book/2", "format 2"},
		{`"mark_up":"35 %"`, `"markup":"35 %"`, "mark_up"},
		{`"mark_up":"35 %"`, `"mark_up":35`, "mark_up"},
		{`"95 USD"`, `"95"`, "hour_price"},
		{`"95 USD"`, `"1,095 USD"`, "no comma"},
		{`"USD",`, `"USD","currency":"USD",`, "given twice"},
		{`"USD",`, "\"U\u0007D\",", "invalid character"},
		{`"USD",`, `"U\u0007D",`, "control characters"},
	} {
		text := strings.Replace(good, c.old, c.new, 1)
		if _, err := quote.ReadBook(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", text, err, c.want)
		}
	}
}

// The customer's types have no field that could hold what is the dealer's own.
func TestCustomerTypes(t *testing.T) {
	var walk func(reflect.Type)
	walk = func(rt reflect.Type) {
		switch rt.Kind() {
		case reflect.Slice, reflect.Pointer:
			walk(rt.Elem())
			return
		case reflect.Struct:
		default:
			return
		}
		if !strings.Contains(rt.PkgPath(), "quote") {
			return
		}
		for i := range rt.NumField() {
			f := rt.Field(i)
			for _, word := range []string{"cost", "margin", "mark", "supplier", "profit"} {
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
	walk(reflect.TypeFor[quote.CustomerQuote]())
}

func TestJSON(t *testing.T) {
	m, err := demo.Model("B")
	if err != nil {
		t.Fatal(err)
	}
	b, err := demo.Book()
	if err != nil {
		t.Fatal(err)
	}
	q := of(t, m, b)
	for _, c := range []struct {
		schema string
		value  any
		format string
	}{{quote.Schema(), q, quote.QuoteFormat}, {quote.CustomerSchema(), q.Customer(), quote.CustomerFormat}} {
		data, err := json.Marshal(c.value)
		if err != nil {
			t.Fatal(err)
		}
		if err := jsonschema.Check([]byte(c.schema), data); err != nil {
			t.Error(err)
		}
		if !strings.HasPrefix(string(data), `{"format":"`+c.format+`"`) {
			t.Errorf("the document begins %.60s", data)
		}
	}
}

// A line without words of its own has those of its path.
func TestLine_words(t *testing.T) {
	for path, want := range map[rig.Path]string{
		"engines[washer]": "engine washer", "batteries[starter]": "battery starter", "fuel_tanks[diesel]": "fuel tank diesel",
		"lines[left].hose": "line left hose", "trailer": "trailer", "pumps[main].thermal_relief": "pump main thermal relief",
	} {
		if got := (quote.Line{Path: path}).Words(); got != want {
			t.Errorf("%s is %q, want %q", path, got, want)
		}
	}
	if got := (quote.Line{Path: "engines[washer]", Text: "23 hp engine"}).Words(); got != "23 hp engine" {
		t.Errorf("its own words are %q", got)
	}
}
