package quote_test

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig"
	"example.com/washrig/rig/quote"
)

// Margin and mark-up are two ratios of one profit: m = (P − C)/P and
// k = (P − C)/C, so k = m/(1 − m) and m = k/(1 + k). Exact algebra.
func TestMarginAndMarkUp_worked(t *testing.T) {
	for _, x := range []struct {
		given   string
		cost    int64 // cents
		price   int64
		markUp  string
		decimal string
	}{
		{"margin 20 %", 800, 1000, "25.0000000 %", "k = 1/4"},
		{"margin 25 %", 750, 1000, "33.3333333 %", "k = 1/3"},
		{"margin 30 %", 700, 1000, "42.8571429 %", "k = 3/7"},
		{"margin 35 %", 650, 1000, "53.8461538 %", "k = 7/13"},
		{"margin 40 %", 600, 1000, "66.6666667 %", "k = 2/3"},
		{"margin 50 %", 500, 1000, "100.000000 %", "k = 1"},
	} {
		worked.Check(t, worked.Case{
			Question: "What mark-up on the cost leaves this margin of the price?",
			Source:   "k = m/(1 − m), algebra of the two definitions: " + x.decimal,
			Status:   worked.Identity,
			Given:    []string{x.given},
			Printed:  x.markUp,
			Got:      100 * quote.MarkUp(x.cost, x.price),
		})
	}
	worked.Check(t, worked.Case{
		Question: "We put 35 % on the cost. What margin is that?",
		Source:   "m = k/(1 + k), algebra of the two definitions",
		Status:   worked.Identity,
		Given:    []string{"mark-up 35 %"},
		Printed:  "25.92592593 %",
		Got:      100 * quote.Margin(10000, 13500),
	})
}

// The tempting mistake is to take a mark-up of 35 % for a margin of 35 %: the
// price would have to be 153.85 for a cost of 100.00.
func TestMarkUpIsNoMargin(t *testing.T) {
	q := of(t, box(t, nil, item("a", func(s *rig.Stock) { s.Cost = money(t, "100.00 USD") })), book(t))
	if q.Price.String() != "135.00 USD" || q.Margin > 0.26 {
		t.Errorf("%v", q)
	}
}

// A line is rounded to the cent half away from zero, then added.
func TestRounding_worked(t *testing.T) {
	q := of(t, box(t, nil,
		item("nozzle", func(s *rig.Stock) { s.Cost = money(t, "9.50 USD") }),
		item("other", func(s *rig.Stock) { s.Cost = money(t, "9.50 USD") })), book(t))
	worked.Check(t, worked.Case{
		Question: "Two nozzles cost 9.50 each and carry 35 %. What do they sell for together, when each line is rounded?",
		Source:   "9.50 × 1.35 = 12.825, half a cent away from zero 12.83, twice",
		Status:   worked.Identity,
		Given:    []string{"two lines of 9.50 USD", "mark-up 35 %"},
		Printed:  "25.66 USD",
		Got:      float64(q.Price.Cents()) / 100,
	})
	worked.Check(t, worked.Case{
		Question: "One line of two nozzles at 9.50 and 35 %: what does it sell for?",
		Source:   "19.00 × 1.35 = 25.65, nothing to round",
		Status:   worked.Identity,
		Given:    []string{"one line of 2 × 9.50 USD", "mark-up 35 %"},
		Printed:  "25.65 USD",
		Got:      float64(of(t, box(t, nil, item("nozzles", func(s *rig.Stock) { s.Cost, s.Count = money(t, "9.50 USD"), 2 })), book(t)).Price.Cents()) / 100,
	})
}
