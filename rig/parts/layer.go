package parts

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// Layer lays shelves on one another, the last on top: of several parts with one
// number the part of the later shelf is seen, as a whole, and those below are
// hidden. The usual order is a supplier's list first, then the dealer's own
// shelf, then what was agreed for one job. Shelves that are nil are passed over.
//
// A number that is a pump on one shelf and a hose on another is no newer price
// but a clash of numbers: every such number is an error, joined, and there is no
// shelf then.
//
// [Catalog.Origin] tells which shelf a part came from. The name of the result
// is "own over supplier".
func Layer(shelves ...*Catalog) (*Catalog, error) {
	type place struct {
		part *Part
		from string
	}
	var names []string
	var errs []error
	total := 0
	for _, c := range shelves {
		total += c.Len()
	}
	seen := make(map[string]place, total)
	for _, c := range shelves {
		if c == nil {
			continue
		}
		names = append(names, c.name)
		for i := range c.parts {
			p := &c.parts[i]
			from, _ := c.Origin(p.Number)
			if below, dup := seen[p.Number]; dup && below.part.Kind != p.Kind {
				errs = append(errs, units.At(at(i, p.Number), &units.FieldError{Path: "kind", Value: p.Kind + " on shelf " + from, Err: problem.Words("one number for two kinds of part", units.ErrConflict),
					Want: fmt.Sprintf("the kind of the part below it, %s on shelf %s, or another number", below.part.Kind, below.from)}))
				continue
			}
			seen[p.Number] = place{p, from}
		}
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	slices.Reverse(names)
	list := make([]Part, 0, len(seen))
	for _, x := range seen {
		list = append(list, *x.part) // ratings are shared: neither shelf changes them
	}
	out := newCatalog(strings.Join(names, " over "), list)
	out.from = make([]string, len(out.parts))
	for i := range out.parts {
		out.from[i] = seen[out.parts[i].Number].from
	}
	return out, nil
}

// Origin returns the name of the shelf a part came from: one of the shelves
// given to Layer, or this one. It reports whether the number is on the shelf.
func (c *Catalog) Origin(number string) (shelf string, ok bool) {
	i, ok := c.find(number)
	if !ok {
		return "", false
	}
	if c.from == nil {
		return c.name, true
	}
	return c.from[i], true
}
