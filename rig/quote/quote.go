package quote

import (
	"fmt"

	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// A Line is one line of the dealer's own quote. It carries cost and supplier
// numbers; customers see a CustomerLine.
type Line struct {
	Path           rig.Path
	Part           string
	SupplierNumber string
	Text           string
	Count          int
	Hours          units.Duration // of a line of work
	Cost           parts.Money    // of the whole line
	Price          parts.Money    // of the whole line
	Unpriced       bool           // neither cost nor price is known
	PriceDate      parts.Date
	Stale          bool // the price is older than the book holds it
	LeadTime       units.Duration
}

// A Quote is the roll-up of a rig.
type Quote struct {
	Name     string
	Currency string
	Lines    []Line // parts, then work
	Cost     parts.Money
	Price    parts.Money
	Margin   float64 // profit over price
	MarkUp   float64 // profit over cost
	Unpriced int     // lines without cost and price; the totals lack them
	Stale    int     // lines with a price that is too old
	LeadTime units.Duration
	Longest  rig.Path // the line that sets the delivery time
	Shelf    string   // digest of the shelf
	Book     Book
}

// Of rolls up a model with the dealer's price book. A part is sold at its own
// price if it has one, else at cost and mark-up. An amount in another currency
// than the book's is an error that names the line.
func Of(m *rig.Model, b *Book) (*Quote, error) {
	if err := b.Validate(); err != nil {
		return nil, err
	}
	q := &Quote{Name: m.Name(), Currency: b.Currency, Shelf: m.Shelf().Digest(), Book: *b}
	zero, err := parts.Cents(0, b.Currency)
	if err != nil {
		return nil, units.At("currency", err)
	}
	q.Cost, q.Price = zero, zero
	for _, c := range m.Components() {
		if c.Part == "" && !c.Cost.Given() && !c.Price.Given() && c.Within != "" {
			continue // described in place and delivered with its item
		}
		l := Line{Path: c.Path, Part: c.Part, Text: c.Note, Count: c.Count, PriceDate: c.PriceDate, LeadTime: c.LeadTime}
		if p, err := m.Shelf().Part(c.Part); c.Part != "" && err == nil {
			l.SupplierNumber = p.SupplierNumber
		}
		if err := l.price(c, b, zero); err != nil {
			return nil, units.At(string(c.Path), err)
		}
		if b.HoldsFor > 0 && b.QuoteDay.Given() && l.PriceDate.Given() && l.PriceDate.DaysUntil(b.QuoteDay) > b.HoldsFor {
			l.Stale = true
			q.Stale++
		}
		if l.Unpriced {
			q.Unpriced++
		}
		if l.LeadTime > q.LeadTime {
			q.LeadTime, q.Longest = l.LeadTime, l.Path
		}
		q.Lines = append(q.Lines, l)
	}
	for _, w := range m.Spec().Labour {
		l := Line{Path: rig.Path("labour[" + w.ID + "]"), Text: w.Title, Count: 1, Hours: w.Time}
		hours := w.Time.In(units.Hour)
		if l.Cost, err = b.HourCost.TimesRatio(hours); err != nil {
			return nil, units.At(string(l.Path), err)
		}
		if l.Price, err = b.HourPrice.TimesRatio(hours); err != nil {
			return nil, units.At(string(l.Path), err)
		}
		q.Lines = append(q.Lines, l)
	}
	for _, l := range q.Lines {
		if q.Cost, err = q.Cost.Add(l.Cost); err != nil {
			return nil, units.At(string(l.Path), err)
		}
		if q.Price, err = q.Price.Add(l.Price); err != nil {
			return nil, units.At(string(l.Path), err)
		}
	}
	if p := q.Price.Cents(); p != 0 {
		q.Margin = float64(p-q.Cost.Cents()) / float64(p)
	}
	if c := q.Cost.Cents(); c != 0 {
		q.MarkUp = float64(q.Price.Cents()-c) / float64(c)
	}
	return q, nil
}

func (l *Line) price(c rig.Component, b *Book, zero parts.Money) error {
	l.Cost, l.Price = zero, zero
	for _, m := range []parts.Money{c.Cost, c.Price} {
		if m.Given() && m.Currency() != b.Currency {
			return &units.FieldError{Value: m.String(), Want: "an amount in the book's currency, " + b.Currency, Err: units.ErrConflict}
		}
		if m.Cents() < 0 {
			return &units.FieldError{Value: m.String(), Want: "zero or more", Err: units.ErrRange}
		}
	}
	if !c.Cost.Given() && !c.Price.Given() {
		l.Unpriced = true
		return nil
	}
	var err error
	if c.Cost.Given() {
		if l.Cost, err = c.Cost.Times(int64(c.Count), 1); err != nil {
			return err
		}
	}
	switch {
	case c.Price.Given():
		l.Price, err = c.Price.Times(int64(c.Count), 1)
	default:
		l.Price, err = l.Cost.TimesRatio(1 + float64(b.MarkUp))
	}
	return err
}

// A CustomerLine is a line as the customer sees it. It has no field for cost,
// margin or supplier numbers.
type CustomerLine struct {
	Text  string
	Count int
	Price parts.Money
}

// A CustomerQuote is a quote as the customer sees it. It has no field for
// cost, margin or supplier numbers.
type CustomerQuote struct {
	Name       string
	Lines      []CustomerLine
	Total      parts.Money
	Complete   bool // every line has a price
	LeadTime   units.Duration
	ValidUntil parts.Date
}

// Customer returns the quote without what is the dealer's own.
func (q *Quote) Customer() CustomerQuote {
	c := CustomerQuote{Name: q.Name, Total: q.Price, Complete: q.Unpriced == 0, LeadTime: q.LeadTime, ValidUntil: q.Book.ValidUntil}
	for _, l := range q.Lines {
		text := l.Text
		if text == "" {
			text = string(l.Path)
		}
		c.Lines = append(c.Lines, CustomerLine{Text: text, Count: l.Count, Price: l.Price})
	}
	return c
}

// String returns the total and both ratios in a line.
func (q *Quote) String() string {
	return fmt.Sprintf("%s: price %s, cost %s, margin %.1f %%, mark-up %.1f %%", q.Name, q.Price, q.Cost, 100*q.Margin, 100*q.MarkUp)
}
