package parts

import (
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// MappingFormat is the first field of a mapping file.
const MappingFormat = "washrig-mapping/1"

// A Mapping says what the columns of a dealer's own spreadsheet mean. It is
// written once for an export and kept beside it, in Go or as JSON.
//
// The zero Mapping is for files whose columns are named by the paths
// themselves, as [Catalog.WriteCSV] writes them.
type Mapping struct {
	Format  string            `json:"format" need:"yes" doc:"washrig-mapping/1"`
	Name    string            `json:"name" doc:"name of the shelf that is read"`
	Columns []Column          `json:"columns" doc:"the dealer's columns, in any order; columns that are not named are not read"`
	Fixed   map[string]string `json:"fixed" doc:"values of every row, by path, where the row gives none itself: its kind, a price date, a basis"`
	Blank   []string          `json:"blank" doc:"words that say a cell is empty, such as - or n/a"`
}

// A Column is one column of the dealer's. A column that means different fields
// for different kinds of part, such as one of maximum pressures, is named once
// for each.
type Column struct {
	Name     string            `json:"name" need:"yes" doc:"the heading, as it stands in the file; line breaks in it count as spaces"`
	Field    string            `json:"field" need:"yes" doc:"path of the field of a part: number, cost, pump.rated_flow"`
	Unit     string            `json:"unit" doc:"unit of bare numbers in the column; a cell with a unit of its own keeps it"`
	Currency string            `json:"currency" doc:"currency of bare amounts in the column, three capital letters"`
	Date     string            `json:"date" choice:"year-month-day|month-day-year|day-month-year" doc:"order of days written with other marks than 2026-03-01"`
	Words    map[string]string `json:"words" doc:"the dealer's words and what they stand for here; a word for a kind that stands for nothing leaves the row out"`
	Optional bool              `json:"optional" doc:"the column may be missing from the file"`
}

var mappingTable = sync.OnceValues(func() (*fields.Table, error) { return fields.Of(reflect.TypeFor[Mapping]()) })

// ReadMapping reads a mapping from its JSON form, of at most 1 MiB. It is as
// strict as the reader of specifications and reports all problems at once.
func ReadMapping(r io.Reader) (Mapping, error) {
	t, err := mappingTable()
	if err != nil {
		return Mapping{}, err
	}
	var m Mapping
	if err := t.Decode(r, &m, fields.Limits{}); err != nil {
		if newer := CheckFormat(m.Format, MappingFormat); newer != nil && m.Format != "" {
			return Mapping{}, newer
		}
		return Mapping{}, err
	}
	if err := CheckFormat(m.Format, MappingFormat); err != nil {
		return Mapping{}, err
	}
	return m, m.Validate()
}

// Write writes the mapping in the form ReadMapping reads.
func (m Mapping) Write(w io.Writer) error {
	t, err := mappingTable()
	if err != nil {
		return err
	}
	m.Format = MappingFormat
	return t.Encode(w, &m)
}

// Validate returns everything that is wrong with the mapping, joined, each a
// [*units.FieldError] with a path such as columns[#3].unit.
func (m Mapping) Validate() error {
	_, err := m.plan()
	return err
}

// A form is how the text of a column is read.
type form uint8

const (
	textual form = iota
	quantity
	money
	date
)

// A planned column is a Column that was looked up.
type planned struct {
	Column
	slot *fields.Slot
	kind string // kind whose ratings the field belongs to; empty for all
	form form
}

// A plan is a mapping that was looked up.
type plan struct {
	columns []planned
	fixed   []planned // Name holds the text of the value
	blank   []string
}

// look finds what a path of a part is.
func look(path string) (planned, error) {
	t, err := partTable()
	if err != nil {
		return planned{}, err
	}
	slot, err := t.Slot(path)
	if err != nil {
		return planned{}, err
	}
	p := planned{slot: slot}
	if group, _, ok := strings.Cut(path, "."); ok {
		p.kind = group
	}
	switch f := slot.Field(); {
	case f.Kind != 0:
		p.form = quantity
	case f.Type() == reflect.TypeFor[Money]():
		p.form = money
	case f.Type() == reflect.TypeFor[Date]():
		p.form = date
	}
	return p, nil
}

func (m Mapping) plan() (*plan, error) {
	t, err := mappingTable()
	if err != nil {
		return nil, err
	}
	out := new(plan)
	errs := t.Problems(&m)
	if m.Format != "" {
		if err := CheckFormat(m.Format, MappingFormat); err != nil {
			errs = append(errs, err)
		}
	}
	names := map[[2]string]bool{}
	given := map[string]bool{}
	for i, c := range m.Columns {
		p, list := c.plan()
		if len(list) == 0 {
			key := [2]string{p.Name, p.kind}
			if names[key] {
				list = append(list, &units.FieldError{Path: "name", Value: strconv.Quote(p.Name), Want: "one field of a kind for a column", Err: problem.Words("another field of that kind stands in this column", units.ErrConflict)})
			}
			if given[c.Field] {
				list = append(list, &units.FieldError{Path: "field", Value: c.Field, Want: "one column for a field", Err: problem.Words("given twice", units.ErrConflict)})
			}
			names[key], given[c.Field] = true, true
			out.columns = append(out.columns, p)
		}
		for _, err := range list {
			errs = append(errs, units.At(fmt.Sprintf("columns[#%d]", i+1), err))
		}
	}
	for _, path := range fields.SortedKeys(m.Fixed) {
		p, err := look(path)
		if err == nil && path == "number" {
			err = &units.FieldError{Want: "a field that parts may share", Err: problem.Words("every part has a number of its own", units.ErrConflict)}
		}
		if err == nil {
			p.Name = m.Fixed[path]
			err = p.slot.Set(new(Part), p.Name)
		}
		if err != nil {
			errs = append(errs, units.At("fixed", withPath(err, path)))
			continue
		}
		given[path] = true
		out.fixed = append(out.fixed, p)
	}
	if len(m.Columns) > 0 && len(errs) == 0 {
		for _, path := range [...]string{"number", "kind"} {
			if !given[path] {
				want := "a column for the " + path
				if path == "kind" {
					want += ", or a kind in fixed"
				}
				errs = append(errs, &units.FieldError{Path: "columns", Want: want, Err: units.ErrMissing})
			}
		}
	}
	for _, w := range m.Blank {
		out.blank = append(out.blank, fields.Fold(w))
	}
	return out, errors.Join(errs...)
}

func withPath(err error, path string) error {
	if err == nil {
		return nil
	}
	var fe *units.FieldError
	if errors.As(err, &fe) {
		c := *fe
		c.Path = path
		return &c
	}
	return err
}

func (c Column) plan() (planned, []error) {
	var errs []error
	bad := func(path, value, want string, err error) {
		errs = append(errs, &units.FieldError{Path: path, Value: value, Want: want, Err: err})
	}
	if c.Name = fields.Revive(fields.Fold(c.Name)); c.Name == "" {
		bad("name", "", "the heading of a column", units.ErrMissing)
	}
	if c.Field == "" {
		bad("field", "", "a path such as number or pump.rated_flow", units.ErrMissing)
		return planned{}, errs
	}
	p, err := look(c.Field)
	if err != nil {
		var fe *units.FieldError
		if errors.As(err, &fe) {
			want := fe.Want
			if errors.Is(fe, units.ErrSyntax) && strings.Contains(c.Field, "[") {
				want = "a field of one value; lists, such as an engine's curve, are given in a JSON shelf"
			}
			bad("field", c.Field, want, fe.Err)
			return planned{}, errs
		}
		return planned{}, append(errs, err)
	}
	p.Column = c
	if c.Unit != "" {
		if p.form != quantity {
			bad("unit", c.Unit, "no unit here", problem.Words(c.Field+" is no quantity", units.ErrConflict))
		} else if u, ok := p.slot.Field().Kind.UnitOf(c.Unit); !ok {
			bad("unit", c.Unit, "a unit of "+c.Field+", as in "+p.slot.Field().Kind.Example(), units.ErrSyntax)
		} else if other, ok := p.slot.Field().Kind.UnitOf(inBrackets(c.Name)); ok && other != u {
			bad("unit", c.Unit, "the unit in the heading, "+other.Symbol(), problem.Words("the heading says another unit", units.ErrConflict))
		}
	}
	if c.Currency != "" {
		if p.form != money {
			bad("currency", c.Currency, "no currency here", problem.Words(c.Field+" is no amount of money", units.ErrConflict))
		} else if !isCurrency(c.Currency) {
			bad("currency", c.Currency, "a currency of three capital letters", units.ErrSyntax)
		}
	}
	if c.Date != "" && p.form != date {
		bad("date", c.Date, "no order of days here", problem.Words(c.Field+" is no day", units.ErrConflict))
	}
	for _, w := range fields.SortedKeys(c.Words) {
		if to := c.Words[w]; to != "" {
			if err := p.slot.Set(new(Part), to); err != nil {
				errs = append(errs, withPath(err, "words."+w))
			}
		}
	}
	return p, errs
}

// inBrackets returns what stands in brackets at the end of a heading:
// "Flow (gpm)" and "Flow [gpm]" name a unit.
func inBrackets(name string) string {
	for _, pair := range [...]string{"()", "[]"} {
		if i := strings.LastIndexByte(name, pair[0]); i >= 0 && name[len(name)-1] == pair[1] {
			return fields.Trim(name[i+1 : len(name)-1])
		}
	}
	return "?" // no unit; the empty text is one
}

// own makes the plan of a file whose headings are paths: those that are
// become columns, the others are left for the report.
func (p *plan) own(header []string) {
	for _, name := range header {
		c, errs := Column{Name: name, Field: name}.plan()
		if len(errs) == 0 && !slices.ContainsFunc(p.columns, func(q planned) bool { return q.Field == name }) {
			p.columns = append(p.columns, c)
		}
	}
}
