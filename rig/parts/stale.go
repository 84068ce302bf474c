package parts

import (
	"strconv"

	"example.com/washrig/units"
)

// Stale returns copies of the parts whose cost or price cannot be relied on at
// a given day, in order of number: its date lies more than the given number of
// days before, or it has no date. Parts without cost and price are not among
// them: they have nothing that could be stale. A date after the given day is
// not stale.
func (c *Catalog) Stale(on Date, days int) ([]Part, error) {
	if err := checkAge(on, days); err != nil {
		return nil, err
	}
	var out []Part
	for i := 0; i < c.Len(); i++ {
		if c.parts[i].stale(on, days) {
			out = append(out, c.parts[i].clone())
		}
	}
	return out, nil
}

// Prune returns a shelf of all the parts, without the costs and prices that
// [Catalog.Stale] finds: what was true of the ratings stays true, but a quote
// will say that the line is not priced. It also returns the number of parts
// that lost one.
func (c *Catalog) Prune(on Date, days int) (*Catalog, int, error) {
	if err := checkAge(on, days); err != nil {
		return nil, 0, err
	}
	if c == nil {
		return nil, 0, nil
	}
	list := append([]Part(nil), c.parts...) // ratings are shared: neither shelf changes them
	n := 0
	for i := range list {
		if p := &list[i]; p.stale(on, days) {
			p.Cost, p.Price, p.PriceDate = Money{}, Money{}, Date{}
			n++
		}
	}
	out := newCatalog(c.name, list)
	out.from = c.from
	return out, n, nil
}

func checkAge(on Date, days int) error {
	if !on.Given() {
		return &units.FieldError{Path: "on", Want: "the day the age is counted at, such as 2026-03-01", Err: units.ErrMissing}
	}
	if days < 0 {
		return &units.FieldError{Path: "days", Value: strconv.Itoa(days), Want: "zero days or more", Err: units.ErrRange}
	}
	return nil
}

func (p *Part) stale(on Date, days int) bool {
	if !p.Cost.Given() && !p.Price.Given() {
		return false
	}
	return !p.PriceDate.Given() || p.PriceDate.DaysUntil(on) > days
}
