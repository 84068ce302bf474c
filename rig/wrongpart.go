package rig

import (
	"errors"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// fits reports whether a component has a field for every rating of a part that is
// given, or with all set, for every rating that parts of its kind can have.
func fits(v *fields.Visit, p *parts.Part, all bool) bool {
	r := p.Ratings()
	if r == nil {
		return true // an item has a mass and a price alone
	}
	rv := reflect.ValueOf(r).Elem()
	for i := range rv.NumField() {
		if _, _, ok := v.Sibling(rv.Type().Field(i).Tag.Get("json")); !ok && (all || !rv.Field(i).IsZero()) {
			return false
		}
	}
	return true
}

// noPart is the error of a number that is not on the shelf, with the numbers that the
// component could have.
func (m *Model) noPart(v *fields.Visit, err error) error {
	var f *units.FieldError
	if m.shelf.Len() == 0 || !errors.As(err, &f) {
		return err
	}
	e := *f
	if want := m.fitting(v); want != "" {
		e.Want = want
	}
	return &e
}

// wrongPart is the error of a part whose ratings the component has no fields for.
func (m *Model) wrongPart(v *fields.Visit, p *parts.Part) error {
	e := &units.FieldError{Value: strconv.Quote(p.Number), Want: "a part with other ratings", Err: problem.Words(p.Number+" is the number of "+parts.Kind(p.Kind).Phrase(), units.ErrConflict)}
	if want := m.fitting(v); want != "" {
		e.Want = want
	}
	return e
}

// fitting lists the parts of the shelf that fit a component, those first whose numbers
// are nearest to the one given; empty if there are none.
func (m *Model) fitting(v *fields.Visit) string {
	var kinds, numbers []string
	for _, k := range parts.Kinds() {
		list := m.shelf.Parts(k)
		if k == parts.KindItem || len(list) == 0 || !fits(v, &list[0], true) {
			continue
		}
		kinds = append(kinds, k.Phrase())
		for i := range list {
			numbers = append(numbers, list[i].Number)
		}
	}
	if len(numbers) == 0 {
		return ""
	}
	given := v.Value.String()
	if len(numbers) > mostListed {
		if near := fields.Near(given, numbers, mostListed); len(near) > 0 {
			rank := func(n string) int { // of the near ones in their order, then of the others
				if i := slices.Index(near, n); i >= 0 {
					return i
				}
				return len(near)
			}
			slices.SortStableFunc(numbers, func(a, b string) int { return rank(a) - rank(b) })
		}
	}
	return "the number of " + strings.Join(kinds, " or ") + " on the shelf: " + fields.Some(numbers, mostListed)
}
