package quote_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/quote"
)

// A floor for the mark-up: the quote of rig B is held against a floor a little
// below and a little above its own mark-up, and line by line.
func TestQuote_judge(t *testing.T) {
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
	text := func(v float64) string { return strconv.FormatFloat(100*v, 'g', -1, 64) + " %" }
	for _, c := range []struct {
		price, demand string
		value         float64
		broken        bool
	}{
		{"mark_up", "at_least", q.MarkUp - 1e-3, false}, {"mark_up", "at_least", q.MarkUp + 1e-3, true},
		{"margin", "at_least", q.Margin - 1e-3, false}, {"margin", "at_least", q.Margin + 1e-3, true},
		{"margin", "at_most", q.Margin + 1e-3, false}, {"margin", "at_most", q.Margin - 1e-3, true},
	} {
		p, err := rig.ReadPolicy(strings.NewReader(`{"format":"washrig-policy/1","rules":[{"id":"floor","author":"sales","text":"the floor of the house","severity":"stop","price":"` + c.price + `","` + c.demand + `":"` + text(c.value) + `"}]}`))
		if err != nil {
			t.Fatal(err)
		}
		rep, err := m.Assess(p, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			t.Fatal(err)
		}
		list, err := q.Judge(rep.PriceRules())
		if err != nil {
			t.Fatal(err)
		}
		if (len(list) > 0) != c.broken || c.broken && (list[0].Severity != rig.Stop || math.Abs(float64(list[0].Limit)-c.value) > 1e-9) {
			t.Errorf("%s %s %v: %+v", c.price, c.demand, c.value, list)
		}
	}
	// By line: every line whose price over cost is below the floor, and no other.
	floor := 0.30
	list, err := q.Judge([]rig.HouseRule{{ID: "line", Author: "sales", Text: "no line below 30 %", Price: "line_mark_up", AtLeast: "30 %"}})
	if err != nil {
		t.Fatal(err)
	}
	want := 0
	for _, l := range q.Lines {
		if c := l.Cost.Cents(); c != 0 && !l.Unpriced && !l.Uncosted && float64(l.Price.Cents()-c)/float64(c) < floor {
			want++
		}
	}
	if len(list) != want {
		t.Errorf("%d lines below the floor, counted %d", len(list), want)
	}
	if _, err := q.Judge([]rig.HouseRule{{ID: "x", Author: "a", Text: "t", Price: "discount", AtLeast: "1 %"}}); err == nil || !strings.Contains(err.Error(), "rules[x]") {
		t.Errorf("a rule about nothing: %v", err)
	}
}
