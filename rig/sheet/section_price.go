package sheet

import (
	"fmt"
	"strings"

	"example.com/washrig/units"
)

// price is the dealer's own table of cost and price. Customers have a page of
// another type.
func price(d *Document, in *source) error {
	q := in.q
	if q == nil {
		return nil
	}
	d.Add(Heading{Text: "Price (the dealer's own page)"})
	t := Table{Columns: []Column{left("item"), right("count"), right("cost"), right("price")}}
	for _, l := range q.Lines {
		text := l.Words()
		if l.Hours != 0 {
			text += ", " + l.Hours.Quantity().Text(units.US, digits)
		}
		for _, x := range []struct {
			is   bool
			word string
		}{{l.Unpriced, "no price"}, {l.Uncosted, "no cost"}, {l.Stale, "price is old"}, {l.Undated, "price has no day"}} {
			if x.is {
				text += " (" + x.word + ")"
			}
		}
		if !in.o.Full && l.Cost.Cents() == 0 && !l.Unpriced && !l.Uncosted {
			continue
		}
		t.Rows = append(t.Rows, []string{text, fmt.Sprint(l.Count), l.Cost.String(), l.Price.String()})
	}
	t.Rows = append(t.Rows, []string{"total", "", q.Cost.String(), q.Price.String()})
	line := fmt.Sprintf("Margin %.1f %% of the price; mark-up %.1f %% of the cost.", 100*q.Margin, 100*q.MarkUp)
	if q.Longest != "" {
		line += fmt.Sprintf(" Longest lead time %s (%s).", days(q.LeadTime), q.Longest)
	}
	d.Add(t, Paragraph{Text: line})
	breaches, err := q.Judge(in.rep.PriceRules())
	if err != nil {
		return err
	}
	for _, b := range breaches {
		what := "the rig's"
		if b.Line != "" {
			what = string(b.Line) + ","
		}
		word := map[string]string{"mark_up": "mark-up", "margin": "margin", "line_mark_up": "mark-up"}[b.Rule.Price]
		d.Add(Remark{Mark: strings.ToUpper(b.Severity.String()), Title: b.Rule.Text + " (house rule of " + b.Rule.Author + ", " + b.Rule.ID + ")",
			Body: []string{fmt.Sprintf("%s %s %s against %s.", what, word, b.Value.Quantity().Text(units.US, digits), b.Limit.Quantity().Text(units.US, digits))}})
	}
	for _, x := range []struct {
		n    int
		word string
	}{
		{q.Unpriced, "Incomplete: lines without any price: %d."},
		{q.Uncosted, "Prices without a cost, left out of margin and mark-up: %d."},
		{q.Stale, fmt.Sprintf("Prices older than %d days: %%d.", q.Book.HoldsFor)},
		{q.Undated, "Prices without a day, so that their age is unknown: %d."},
	} {
		if x.n > 0 {
			d.Add(Paragraph{Text: fmt.Sprintf(x.word, x.n)})
		}
	}
	if q.Book.ValidUntil.Given() {
		d.Add(Paragraph{Text: "Valid until " + q.Book.ValidUntil.String() + "."})
	}
	return nil
}
