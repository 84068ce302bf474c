package quote

import (
	"fmt"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// QuoteFormat and CustomerFormat are the first fields of quotes written as JSON.
const (
	QuoteFormat    = "washrig-quote/1"
	CustomerFormat = "washrig-customer-quote/1"
)

// A Line is one line of the dealer's own quote. It carries cost and supplier
// numbers; customers see a CustomerLine.
type Line struct {
	Path           rig.Path       `json:"path" doc:"the component or task"`
	Part           string         `json:"part,omitempty" doc:"number on the dealer's shelf"`
	SupplierNumber string         `json:"supplier_number,omitempty" doc:"the supplier's number"`
	Text           string         `json:"text" doc:"words for the quote"`
	Count          int            `json:"count" doc:"pieces"`
	Hours          units.Duration `json:"hours,omitzero" doc:"of a line of work"`
	Cost           parts.Money    `json:"cost" doc:"of the whole line"`
	Price          parts.Money    `json:"price" doc:"of the whole line"`
	Unpriced       bool           `json:"unpriced,omitempty" doc:"neither cost nor price is known; both count as nothing"`
	Uncosted       bool           `json:"uncosted,omitempty" doc:"the price is known and the cost is not; left out of margin and mark-up"`
	PriceDate      parts.Date     `json:"price_date,omitzero" doc:"day of the cost or price"`
	Stale          bool           `json:"stale,omitempty" doc:"the price is older than the book holds it"`
	Undated        bool           `json:"undated,omitempty" doc:"a price of the shelf without a day, so that its age is unknown"`
	LeadTime       units.Duration `json:"lead_time,omitzero" doc:"time from order to delivery"`
}

// A Quote is the roll-up of a rig.
type Quote struct {
	Format   string         `json:"format" const:"washrig-quote/1" doc:"format of this document"`
	Name     string         `json:"name" doc:"name of the rig"`
	Currency string         `json:"currency" doc:"three letters"`
	Lines    []Line         `json:"lines" doc:"parts, then work"`
	Cost     parts.Money    `json:"cost" doc:"sum of the lines"`
	Price    parts.Money    `json:"price" doc:"sum of the lines"`
	Margin   float64        `json:"margin" doc:"profit over price, of the lines whose cost is known"`
	MarkUp   float64        `json:"mark_up" doc:"profit over cost, of the same lines"`
	Unpriced int            `json:"unpriced" doc:"lines without cost and price; the totals lack them"`
	Uncosted int            `json:"uncosted" doc:"lines with a price and no cost"`
	Stale    int            `json:"stale" doc:"lines with a price that is too old"`
	Undated  int            `json:"undated" doc:"lines with a price of the shelf that has no day"`
	Oldest   parts.Date     `json:"oldest_price,omitzero" doc:"day of the oldest price used"`
	LeadTime units.Duration `json:"lead_time,omitzero" doc:"longest of the lines"`
	Longest  rig.Path       `json:"longest,omitempty" doc:"the line that sets the delivery time"`
	Shelf    string         `json:"shelf_digest,omitempty" doc:"names the contents of the shelf"`
	Book     Book           `json:"book" doc:"the price book used"`
}

// Of rolls up a model with the dealer's price book. A part is sold at its own
// price if it has one, else at cost and mark-up. An amount in another currency
// than the book's is an error that names the line.
func Of(m *rig.Model, b *Book) (*Quote, error) {
	if err := b.Validate(); err != nil {
		return nil, err
	}
	if m == nil {
		return nil, &units.FieldError{Path: "model", Want: "a model", Err: units.ErrMissing}
	}
	q := &Quote{Format: QuoteFormat, Name: m.Name(), Currency: b.Currency, Lines: []Line{}, Shelf: m.Shelf().Digest(), Book: *b}
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
		l.age(c, b)
		q.take(l)
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
		q.take(l)
	}
	return q, q.sum()
}

// take adds a line and counts what is wrong with it.
func (q *Quote) take(l Line) {
	for _, c := range []struct {
		wrong bool
		n     *int
	}{{l.Unpriced, &q.Unpriced}, {l.Uncosted, &q.Uncosted}, {l.Stale, &q.Stale}, {l.Undated, &q.Undated}} {
		if c.wrong {
			*c.n++
		}
	}
	if l.PriceDate.Given() && (!q.Oldest.Given() || l.PriceDate.Before(q.Oldest)) {
		q.Oldest = l.PriceDate
	}
	if l.LeadTime > q.LeadTime {
		q.LeadTime, q.Longest = l.LeadTime, l.Path
	}
	q.Lines = append(q.Lines, l)
}

// sum adds the lines. Margin and mark-up are of the lines whose cost is known:
// a price without a cost would pass for pure profit.
func (q *Quote) sum() error {
	var err error
	var price int64 // of the lines with a cost
	for _, l := range q.Lines {
		if q.Cost, err = q.Cost.Add(l.Cost); err == nil {
			q.Price, err = q.Price.Add(l.Price)
		}
		if err != nil {
			return units.At(string(l.Path), err)
		}
		if !l.Uncosted {
			price += l.Price.Cents()
		}
	}
	cost := q.Cost.Cents()
	q.Margin, q.MarkUp = Margin(cost, price), MarkUp(cost, price)
	return nil
}

// Margin returns profit over price, m = (P − C)/P, both in cents; zero where
// the price is zero. A margin is never a mark-up: k = m/(1 − m).
func Margin(cost, price int64) float64 {
	if price == 0 {
		return 0
	}
	return profit(cost, price) / float64(price)
}

// profit is the price less the cost, whole while it fits.
func profit(cost, price int64) float64 {
	if d := price - cost; (d > price) == (cost < 0) {
		return float64(d)
	}
	return float64(price) - float64(cost)
}

// MarkUp returns profit over cost, k = (P − C)/C, both in cents; zero where the
// cost is zero. A mark-up is never a margin: m = k/(1 + k).
func MarkUp(cost, price int64) float64 {
	if cost == 0 {
		return 0
	}
	return profit(cost, price) / float64(cost)
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
	if c.Price.Given() {
		l.Uncosted = !c.Cost.Given()
		l.Price, err = c.Price.Times(int64(c.Count), 1)
		return err
	}
	profit, err := l.Cost.TimesRatio(float64(b.MarkUp))
	if err != nil {
		return err
	}
	l.Price, err = l.Cost.Add(profit)
	return err
}

// age says whether a price is too old, or of unknown age. A price that stands
// in the specification itself has the day of the quote; nothing at all has no
// age.
func (l *Line) age(c rig.Component, b *Book) {
	if b.HoldsFor == 0 || !b.QuoteDay.Given() || (l.Cost.Cents() == 0 && l.Price.Cents() == 0) {
		return
	}
	switch {
	case l.PriceDate.Given():
		l.Stale = l.PriceDate.DaysUntil(b.QuoteDay) > b.HoldsFor
	case c.Part != "":
		l.Undated = true
	}
}

// A CustomerLine is a line as the customer sees it. It has no field for cost,
// margin or supplier numbers.
type CustomerLine struct {
	Text   string      `json:"text" doc:"words for the quote"`
	Count  int         `json:"count" doc:"pieces"`
	Price  parts.Money `json:"price" doc:"of the whole line"`
	Priced bool        `json:"priced" doc:"false: the price is still to come and counts as nothing"`
}

// A CustomerQuote is a quote as the customer sees it. It has no field for
// cost, margin or supplier numbers.
type CustomerQuote struct {
	Format     string         `json:"format" const:"washrig-customer-quote/1" doc:"format of this document"`
	Name       string         `json:"name" doc:"name of the rig"`
	Lines      []CustomerLine `json:"lines" doc:"parts, then work"`
	Total      parts.Money    `json:"total" doc:"sum of the prices"`
	Complete   bool           `json:"complete" doc:"every line has a price"`
	LeadTime   units.Duration `json:"lead_time,omitzero" doc:"time from order to delivery"`
	QuoteDay   parts.Date     `json:"quote_day,omitzero" doc:"day of the quote"`
	ValidUntil parts.Date     `json:"valid_until,omitzero" doc:"last day the quote holds"`
}

// Customer returns the quote without what is the dealer's own.
func (q *Quote) Customer() CustomerQuote {
	c := CustomerQuote{Format: CustomerFormat, Name: q.Name, Lines: make([]CustomerLine, 0, len(q.Lines)), Total: q.Price, Complete: q.Unpriced == 0,
		LeadTime: q.LeadTime, QuoteDay: q.Book.QuoteDay, ValidUntil: q.Book.ValidUntil}
	for _, l := range q.Lines {
		c.Lines = append(c.Lines, CustomerLine{Text: l.Words(), Count: l.Count, Price: l.Price, Priced: !l.Unpriced})
	}
	return c
}

// Words returns the text of the line, or words made of its path: "engine
// washer" for engines[washer].
func (l Line) Words() string {
	if l.Text != "" {
		return l.Text
	}
	list, rest, _ := strings.Cut(string(l.Path), "[")
	id, tail, _ := strings.Cut(rest, "]")
	words := strings.ReplaceAll(list, "_", " ")
	if id != "" {
		if many, ok := strings.CutSuffix(words, "ies"); ok {
			words = many + "y"
		}
		words = strings.TrimSuffix(words, "s") + " " + id
	}
	return words + strings.NewReplacer(".", " ", "_", " ").Replace(tail)
}

// String returns the total and both ratios in a line.
func (q *Quote) String() string {
	return fmt.Sprintf("%s: price %s, cost %s, margin %.1f %%, mark-up %.1f %%", q.Name, q.Price, q.Cost, 100*q.Margin, 100*q.MarkUp)
}
