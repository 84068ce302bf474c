package parts_test

import (
	"errors"
	"testing"

	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

func day(t testing.TB, s string) parts.Date {
	t.Helper()
	d, err := parts.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func priced(t testing.TB, number, cost, price, date string) parts.Part {
	t.Helper()
	p := parts.Part{Number: number, Kind: "item", Mass: units.Pound}
	var err error
	if cost != "" {
		p.Cost, err = parts.ParseMoney(cost)
	}
	if price != "" && err == nil {
		p.Price, err = parts.ParseMoney(price)
	}
	if err != nil {
		t.Fatal(err)
	}
	if date != "" {
		p.PriceDate = day(t, date)
	}
	return p
}

func TestStale(t *testing.T) {
	c := shelf(t, "own",
		priced(t, "a-fresh", "1.00 USD", "", "2026-03-01"),
		priced(t, "b-at-the-limit", "1.00 USD", "", "2026-01-30"), // 30 days before 1 March
		priced(t, "c-over", "", "2.00 USD", "2026-01-29"),
		priced(t, "d-undated", "1.00 USD", "2.00 USD", ""),
		priced(t, "e-unpriced", "", "", "2020-01-01"),
		priced(t, "f-later", "1.00 USD", "", "2026-03-02"),
		priced(t, "g-free", "0.00 USD", "", "2020-01-01"))
	on := day(t, "2026-03-01")
	list, err := c.Stale(on, 30)
	if got := numbers(list); err != nil || got != "c-over d-undated g-free" {
		t.Errorf("stale: %q, %v", got, err)
	}
	before := c.Digest()
	pruned, n, err := c.Prune(on, 30)
	if err != nil || n != 3 || pruned.Len() != c.Len() || pruned.Name() != "own" {
		t.Fatalf("%d pruned, %v", n, err)
	}
	for _, p := range pruned.Parts("") {
		was, _ := c.Part(p.Number)
		gone := p.Number == "c-over" || p.Number == "d-undated" || p.Number == "g-free"
		if gone && (p.Cost.Given() || p.Price.Given() || p.PriceDate.Given()) || !gone && (p.Cost != was.Cost || p.PriceDate != was.PriceDate) || p.Mass != was.Mass {
			t.Errorf("%s: %+v", p.Number, p)
		}
	}
	if c.Digest() != before || pruned.Digest() == before {
		t.Error("the digests do not tell the shelves apart")
	}
	if again, _ := pruned.Stale(on, 30); len(again) != 0 {
		t.Errorf("still stale: %s", numbers(again))
	}
	for _, c := range []*parts.Catalog{c, nil} {
		if _, err := c.Stale(parts.Date{}, 30); !errors.Is(err, units.ErrMissing) {
			t.Errorf("no day: %v", err)
		}
		if _, _, err := c.Prune(on, -1); !errors.Is(err, units.ErrRange) {
			t.Errorf("less than no days: %v", err)
		}
	}
}
