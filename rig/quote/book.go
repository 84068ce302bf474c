package quote

import (
	"errors"
	"io"
	"reflect"
	"strconv"
	"sync"

	"example.com/washrig/internal/fields"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// BookFormat is the first field of a price-book file.
const BookFormat = "washrig-book/1"

// A Book is the dealer's price book: what an hour of work costs and is sold
// for, and the mark-up on parts that have no price of their own.
type Book struct {
	Format     string      `json:"format" need:"yes" doc:"washrig-book/1"`
	Currency   string      `json:"currency" need:"yes" doc:"currency of the quote, three letters"`
	MarkUp     units.Ratio `json:"mark_up" range:"0 %..1000 %" doc:"profit over cost on parts without a price of their own"`
	HourPrice  parts.Money `json:"hour_price" need:"yes" doc:"what the customer pays for an hour of work"`
	HourCost   parts.Money `json:"hour_cost" need:"yes" doc:"what an hour of work costs the dealer"`
	HoldsFor   int         `json:"holds_for" range:"0..3650" doc:"days a part's price may be old"`
	QuoteDay   parts.Date  `json:"quote_day" doc:"day of the quote; ages of prices are counted to it"`
	ValidUntil parts.Date  `json:"valid_until" doc:"last day the quote holds"`
}

var bookTable = sync.OnceValues(func() (*fields.Table, error) { return fields.Of(reflect.TypeFor[Book]()) })

// ReadBook reads a price book. It is as strict as the reader of specifications.
func ReadBook(r io.Reader) (*Book, error) {
	t, err := bookTable()
	if err != nil {
		return nil, err
	}
	b := new(Book)
	if err := t.Decode(r, b, fields.Limits{}); err != nil {
		return nil, err
	}
	if err := parts.CheckFormat(b.Format, BookFormat); err != nil {
		return nil, err
	}
	return b, b.Validate()
}

// Validate returns everything that is wrong with the book.
func (b *Book) Validate() error {
	if b == nil {
		return &units.FieldError{Path: "book", Want: "a price book", Err: units.ErrMissing}
	}
	var errs []error
	add := func(path, value, want string, err error) {
		errs = append(errs, &units.FieldError{Path: path, Value: value, Want: want, Err: err})
	}
	if _, err := parts.Cents(0, b.Currency); err != nil {
		errs = append(errs, units.At("currency", err))
	}
	if !(b.MarkUp >= 0) || b.MarkUp > 10 {
		add("mark_up", b.MarkUp.String(), "0 % to 1000 %", units.ErrRange)
	}
	for _, m := range []struct {
		path string
		m    parts.Money
	}{{"hour_price", b.HourPrice}, {"hour_cost", b.HourCost}} {
		switch {
		case !m.m.Given():
			add(m.path, "", "an amount such as 95.00 USD", units.ErrMissing)
		case m.m.Currency() != b.Currency:
			add(m.path, m.m.String(), "an amount in the book's currency, "+b.Currency, units.ErrConflict)
		case m.m.Cents() < 0:
			add(m.path, m.m.String(), "zero or more", units.ErrRange)
		}
	}
	if b.HoldsFor < 0 || b.HoldsFor > 3650 {
		add("holds_for", strconv.Itoa(b.HoldsFor), "0 to 3650 days", units.ErrRange)
	}
	if b.QuoteDay.Given() && b.ValidUntil.Given() && b.ValidUntil.Before(b.QuoteDay) {
		add("valid_until", b.ValidUntil.String(), "the day of the quote, "+b.QuoteDay.String()+", or a later one", units.ErrConflict)
	}
	return errors.Join(errs...)
}
