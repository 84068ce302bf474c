package parts

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// CSVOptions bound what ReadCSV accepts. Zero fields take the defaults.
type CSVOptions struct {
	Bytes    int64 // default 64 MiB
	Rows     int   // rows below the headings, default 200,000
	Problems int   // problems listed before a count, default 1,000
}

// A RowProblem is one thing that keeps a row of a spreadsheet off the shelf.
type RowProblem struct {
	Row    int    // row of the spreadsheet, from 1, the headings and blank rows counted
	Line   int    // line of the file in which the row begins, from 1
	Column int    // from 1; 0 if the row as a whole is meant
	Name   string // the dealer's heading of the column
	Err    error  // a *units.FieldError whose path is that of the part's field
}

// Error gives row, column and heading, then the error.
func (p *RowProblem) Error() string {
	s := fmt.Sprintf("row %d", p.Row)
	if p.Column > 0 {
		s += fmt.Sprintf(", column %d (%s)", p.Column, letters(p.Column))
		if p.Name != "" {
			s += " " + strconv.Quote(p.Name)
		}
	}
	return s + ": " + p.Err.Error()
}

// Unwrap returns the error without its place.
func (p *RowProblem) Unwrap() error { return p.Err }

// letters names a column as spreadsheets do: A, Z, AA.
func letters(column int) string {
	s := ""
	for ; column > 0; column = (column - 1) / 26 {
		s = string(rune('A'+(column-1)%26)) + s
	}
	return s
}

// A CSVReport says what became of the rows of a file.
type CSVReport struct {
	Rows     int          // rows below the headings that hold any text
	Loaded   int          // of them, parts on the shelf
	Left     int          // of them, left out because the mapping says so
	Broken   int          // of them, kept out by the problems below
	Problems []RowProblem // in order of row and column
	More     int          // problems beyond those listed
	Unread   []string     // headings that no column of the mapping names
}

// ReadCSV reads a shelf from a spreadsheet saved as comma-separated text, its
// columns named by the dealer and explained by the mapping. The first rows may
// be a title; the headings are the row in which that of the part number stands.
//
// A row with anything wrong in it stays off the shelf as a whole, and the rest
// is loaded; the report lists what is wrong by row and column. The error is for
// a file of which nothing can be loaded: one that lacks a column of the mapping,
// is separated by semicolons, or is over a limit.
//
// The file may begin with a byte order mark, its rows may end with CRLF, LF or
// CR, cells in quotes may hold commas and line breaks (which count as spaces),
// and rows may be blank. Spaces around the text of a cell are dropped. Numbers
// have a decimal point and no separators of thousands. Bare numbers take the
// unit and bare amounts the currency of their column.
//
// A cell is never computed: one that looks like a formula is kept as the text
// it is, and is an error where a number is wanted. An apostrophe in front of
// such a cell, which spreadsheets use to show it as text, is taken off. Control
// characters, bytes that are not UTF-8 and the error values of spreadsheets
// (#N/A, #REF!, ####) are refused.
func ReadCSV(r io.Reader, m Mapping, o CSVOptions) (*Catalog, *CSVReport, error) {
	if o.Bytes == 0 {
		o.Bytes = defaultBytes
	}
	if o.Rows == 0 {
		o.Rows = defaultRows
	}
	if o.Problems == 0 {
		o.Problems = 1000
	}
	p, err := m.plan()
	if err != nil {
		return nil, nil, err
	}
	text, err := fields.ReadText(r, o.Bytes)
	if err != nil {
		return nil, nil, err
	}
	n := min(strings.Count(text, "\n"), o.Rows) // about as many rows
	in := &reading{plan: p, o: o, rows: fields.NewRows(text), report: new(CSVReport), list: make([]Part, 0, n), seen: make(map[string]int, n)}
	if err := in.header(text, len(m.Columns) == 0); err != nil {
		return nil, nil, err
	}
	for in.rows.Next() {
		if in.report.Rows++; in.report.Rows > o.Rows {
			return nil, nil, fmt.Errorf("%w: more than %d rows (raise the limit to read them)", ErrTooLarge, o.Rows)
		}
		in.row()
	}
	in.report.Loaded = len(in.list)
	return newCatalog(m.Name, slices.Clip(in.list)), in.report, nil
}

type reading struct {
	plan   *plan
	o      CSVOptions
	rows   *fields.Rows
	names  []string       // headings
	at     []position     // columns of the file that are read, from the left
	kinds  *position      // the one that gives the kind; nil if all rows have one
	seen   map[string]int // row of every number
	list   []Part
	report *CSVReport
	bad    int    // problems of the row at hand
	buf    []byte // kept for the next cell
}

// A position is a column of the file and what it means.
type position struct {
	at      int // in the row, from 0
	columns []planned
}

// headerRows is how far down the headings are looked for.
const headerRows = 50

// header finds the headings and the columns of the plan among them.
func (in *reading) header(text string, own bool) error {
	number := "number"
	for _, c := range in.plan.columns {
		if c.Field == "number" {
			number = c.Name
		}
	}
	first := ""
	for n := 0; n < headerRows && in.rows.Next(); n++ {
		if _, err := in.rows.Err(); err != nil {
			continue
		}
		names := make([]string, len(in.rows.Cells()))
		for i, c := range in.rows.Cells() {
			names[i] = fields.Revive(fields.Fold(c))
		}
		if slices.Contains(names, number) {
			in.names = names
			return in.locate(own)
		}
		if first == "" && len(names) > 1 {
			first = shown(names)
		}
	}
	if mark := separator(text, number); mark != "" {
		return &units.FieldError{Path: "file", Value: "cells separated by " + mark, Err: units.ErrSyntax,
			Want: "commas between cells and points in numbers; where the comma is the decimal mark, spreadsheets write semicolons: save the file with English settings"}
	}
	e := &units.FieldError{Path: "file", Want: fmt.Sprintf("a row of headings with the column %q of part numbers", number), Err: units.ErrMissing}
	if first != "" {
		e.Value = "headings " + first
	}
	return e
}

// separator looks for a heading between other marks than commas, and names
// the mark.
func separator(text, heading string) string {
	for range headerRows {
		line, rest, more := strings.Cut(text, "\n")
		for _, mark := range [...][2]string{{";", "semicolons"}, {"\t", "tabs"}, {"|", "bars"}} {
			for _, cell := range strings.Split(line, mark[0]) {
				if cell != line && strings.Trim(fields.Fold(cell), `"`) == heading {
					return mark[1]
				}
			}
		}
		if !more {
			break
		}
		text = rest
	}
	return ""
}

// shown lists headings for a message.
func shown(names []string) string {
	var out []string
	for _, n := range names {
		if len(out) == 12 {
			out = append(out, "…")
			break
		}
		if n != "" {
			out = append(out, strconv.QuoteToGraphic(n[:min(len(n), 40)]))
		}
	}
	return strings.Join(out, ", ")
}

func (in *reading) locate(own bool) error {
	if own {
		in.plan.own(in.names)
	}
	where := map[string]int{}
	var errs []error
	bad := func(name, want string, err error) {
		errs = append(errs, &units.FieldError{Path: "file", Value: "column " + strconv.Quote(name), Want: want, Err: err})
	}
	wanted := map[string]bool{}
	for _, c := range in.plan.columns {
		wanted[c.Name] = true
	}
	for i, n := range in.names {
		_, twice := where[n]
		switch {
		case n == "":
		case !wanted[n]:
			in.report.Unread = append(in.report.Unread, n)
		case twice:
			bad(n, "the heading once", problem.Words("given twice", units.ErrConflict))
		default:
			where[n] = i
		}
	}
	by := map[int]int{} // index in in.at
	for _, c := range in.plan.columns {
		i, has := where[c.Name]
		if !has {
			if c.Optional {
				continue
			}
			want := "a column of this heading; there are " + shown(in.names)
			if slices.ContainsFunc(in.names, func(n string) bool { return !utf8.ValidString(n) }) {
				want += "; the file is not UTF-8: save it as CSV UTF-8"
			}
			bad(c.Name, want, units.ErrMissing)
			continue
		}
		k, has := by[i]
		if !has {
			k = len(in.at)
			by[i] = k
			in.at = append(in.at, position{at: i})
		}
		in.at[k].columns = append(in.at[k].columns, c)
	}
	slices.SortFunc(in.at, func(a, b position) int { return a.at - b.at })
	fixedKind := false
	for _, f := range in.plan.fixed {
		fixedKind = fixedKind || f.slot.Path() == "kind"
	}
	for i := range in.at {
		for _, c := range in.at[i].columns {
			if c.Field == "kind" {
				in.kinds = &in.at[i]
			}
		}
	}
	if in.kinds == nil && !fixedKind && len(errs) == 0 {
		bad("kind", "a column for the kind, or a kind in fixed", units.ErrMissing)
	}
	return errors.Join(errs...)
}

// problem lists one thing that is wrong with the row at hand; column is an
// index from 0, or less for the whole row.
func (in *reading) problem(column int, err error) {
	in.bad++
	if len(in.report.Problems) >= in.o.Problems {
		in.report.More++
		return
	}
	row, line := in.rows.Row()
	p := RowProblem{Row: row, Line: line, Column: column + 1, Err: err}
	if column >= 0 && column < len(in.names) {
		p.Name = in.names[column]
	}
	in.report.Problems = append(in.report.Problems, p)
}

// row reads one row.
func (in *reading) row() {
	in.bad = 0
	in.list = append(in.list, Part{})
	p := &in.list[len(in.list)-1]
	left := in.part(p)
	if in.bad > 0 || left {
		in.list = in.list[:len(in.list)-1]
	}
	switch {
	case in.bad > 0:
		in.report.Broken++
	case left:
		in.report.Left++
	default:
		in.seen[p.Number], _ = in.rows.Row()
	}
}

// part fills p from the row at hand; left means that the row is no part.
func (in *reading) part(p *Part) (left bool) {
	if column, err := in.rows.Err(); err != nil {
		in.problem(column-1, err)
		return false
	}
	cells := in.rows.Cells()
	for i := len(in.names); i < len(cells); i++ {
		if fields.Fold(cells[i]) != "" {
			in.problem(i, &units.FieldError{Value: fmt.Sprintf("%d cells", len(cells)), Err: problem.Words("more cells than headings", units.ErrConflict),
				Want: fmt.Sprintf("at most %d, as there are headings; a comma inside a cell, such as a decimal comma, needs quotes around the cell", len(in.names))})
			return false
		}
	}
	cell := func(at position) string {
		if at.at >= len(cells) {
			return ""
		}
		c := fields.Revive(fields.Fold(cells[at.at]))
		if slices.Contains(in.plan.blank, c) {
			return ""
		}
		return c
	}
	if in.kinds != nil {
		for i := range in.kinds.columns {
			c := &in.kinds.columns[i]
			text := cell(*in.kinds)
			if to, ok := c.Words[text]; ok && to == "" && c.Field == "kind" && text != "" {
				return true
			}
			if c.Field == "kind" && text != "" {
				if err := in.set(p, c, text); err != nil {
					in.problem(in.kinds.at, err)
					return false
				}
			}
		}
	}
	for i := range in.plan.fixed {
		if f := &in.plan.fixed[i]; f.slot.Path() == "kind" && p.Kind == "" {
			p.Kind = f.Name
		}
	}
	if p.Kind == "" {
		at := -1
		if in.kinds != nil {
			at = in.kinds.at
		}
		in.problem(at, &units.FieldError{Path: "kind", Want: "the kind of part, such as pump", Err: units.ErrMissing})
		return false
	}
	for k := range in.at {
		text := cell(in.at[k])
		if text == "" {
			continue
		}
		used := false
		for i := range in.at[k].columns {
			c := &in.at[k].columns[i]
			if c.kind != "" && c.kind != p.Kind {
				continue
			}
			used = true
			if c.Field == "kind" {
				continue
			}
			if err := in.set(p, c, text); err != nil {
				in.problem(in.at[k].at, err)
			}
		}
		if c := &in.at[k].columns[0]; !used {
			if to, ok := c.Words[text]; ok && to == "" {
				continue
			}
			in.problem(in.at[k].at, &units.FieldError{Path: c.Field, Value: strconv.Quote(text), Want: "an empty cell", Err: problem.Words("the row is of kind "+p.Kind+", which has no such field", units.ErrConflict)})
		}
	}
	for i := range in.plan.fixed {
		f := &in.plan.fixed[i]
		if f.kind != "" && f.kind != p.Kind {
			continue
		}
		if v, ok := f.slot.Value(p, false); ok && !v.IsZero() {
			continue
		}
		if err := f.slot.Set(p, f.Name); err != nil {
			in.problem(-1, err)
		}
	}
	if in.bad > 0 {
		return false
	}
	if err := p.check(); err != nil {
		in.problem(in.columnOf(err), err)
	} else if row, dup := in.seen[p.Number]; dup {
		err := &units.FieldError{Path: "number", Value: p.Number, Want: fmt.Sprintf("a number no other row has; row %d has it", row), Err: errTaken}
		in.problem(in.columnOf(err), err)
	}
	return false
}

// columnOf finds the column of the field that an error is about, or -1.
func (in *reading) columnOf(err error) int {
	var fe *units.FieldError
	if errors.As(err, &fe) {
		for _, at := range in.at {
			for _, c := range at.columns {
				if c.Field == fe.Path {
					return at.at
				}
			}
		}
	}
	return -1
}

// set reads the text of a cell into a field.
func (in *reading) set(p *Part, c *planned, text string) error {
	fail := func(want string, err error) error {
		return &units.FieldError{Path: c.Field, Value: strconv.Quote(text), Want: want, Err: err}
	}
	if err := fields.CleanText(text); err != nil {
		if errors.Is(err, units.ErrSyntax) {
			err.(*units.FieldError).Want = "text in UTF-8: save the file as CSV UTF-8"
		}
		return withPath(err, c.Field)
	}
	if sheetError(text) {
		return fail("a value; the spreadsheet shows an error, or a column too narrow for its number", units.ErrSyntax)
	}
	if to, ok := c.Words[text]; ok {
		if to == "" {
			return nil
		}
		return c.slot.Set(p, to)
	}
	switch c.form {
	case money:
		m, err := parseAmount(text, c.Currency)
		if err != nil {
			return withPath(err, c.Field)
		}
		v, _ := c.slot.Value(p, true)
		*v.Addr().Interface().(*Money) = m
		return nil
	case date:
		d, err := parseDay(text, c.Date)
		if err != nil {
			return withPath(err, c.Field)
		}
		v, _ := c.slot.Value(p, true)
		*v.Addr().Interface().(*Date) = d
		return nil
	case quantity:
		if strings.HasPrefix(text, "=") {
			return fail("a number; formulas are not computed here: save their results", units.ErrSyntax)
		}
		if c.Unit != "" && bare(text) {
			in.buf = append(append(append(in.buf[:0], text...), ' '), c.Unit...)
			text = string(in.buf)
		}
		return c.slot.Set(p, text)
	}
	if len(c.slot.Field().Choices) == 0 {
		text = strings.Clone(text) // the file's text is not kept for it
	}
	return c.slot.Set(p, text)
}

// sheetError reports whether a cell shows an error of the spreadsheet's.
func sheetError(s string) bool {
	if s[0] != '#' {
		return false
	}
	switch s {
	case "#N/A", "#REF!", "#VALUE!", "#DIV/0!", "#NAME?", "#NULL!", "#NUM!", "#SPILL!", "#CALC!":
		return true
	}
	return strings.Trim(s, "#") == ""
}

// bare reports whether a cell is a number or a fraction without a unit.
func bare(s string) bool {
	for i := range len(s) {
		switch c := s[i]; {
		case '0' <= c && c <= '9', c == '.', c == '-', c == '+', c == '/', c == ' ', c == ',':
		case (c == 'e' || c == 'E') && i > 0:
		default:
			return false
		}
	}
	return true
}

// parseAmount reads an amount of a spreadsheet: bare in the currency given, or
// with one of its own. Missing cents are none; fractions of a cent are refused.
func parseAmount(s, currency string) (Money, error) {
	num := s
	if i := strings.LastIndexByte(s, ' '); i >= 0 && isCurrency(s[i+1:]) {
		num, currency = fields.Trim(s[:i]), strings.Clone(s[i+1:])
	}
	bad := func(want string, err error) (Money, error) {
		return Money{}, &units.FieldError{Value: strconv.Quote(s), Want: want, Err: err}
	}
	whole, cents, point := strings.Cut(num, ".")
	if !digits(strings.TrimPrefix(whole, "-")) || point && !digits(cents) {
		switch {
		case strings.Contains(num, ","):
			return bad("a decimal point and no separators of thousands, such as 1234.50", units.ErrSyntax)
		case strings.HasPrefix(num, "="):
			return bad("an amount; formulas are not computed here: save their results", units.ErrSyntax)
		case strings.ContainsAny(num, "$€£¥"):
			return bad("an amount without a sign, such as 1234.50; the mapping names the currency", units.ErrSyntax)
		}
		return bad("an amount such as 1234.50", units.ErrSyntax)
	}
	if currency == "" {
		return bad("an amount with its currency, such as 1234.50 USD, or a currency for the column", units.ErrSyntax)
	}
	cents += "00"
	if strings.Trim(cents[2:], "0") != "" {
		return bad("whole cents", units.ErrRange)
	}
	c, err := strconv.ParseInt(whole+cents[:2], 10, 64)
	if err != nil {
		return bad("an amount below 9e16", units.ErrRange)
	}
	return Money{c, currency}, nil
}

// parseDay reads 2026-03-01, and days in the order given.
func parseDay(s, order string) (Date, error) {
	d, err := ParseDate(s)
	if err == nil {
		return d, nil
	}
	part := strings.FieldsFunc(s, func(r rune) bool { return r == '/' || r == '-' || r == '.' })
	if len(part) != 3 {
		return Date{}, err
	}
	if order == "" {
		err.(*units.FieldError).Want = "a day such as 2026-03-01; other orders are named in the mapping"
		return Date{}, err
	}
	year, month, day := part[0], part[1], part[2]
	switch order {
	case "month-day-year":
		year, month, day = part[2], part[0], part[1]
	case "day-month-year":
		year, month, day = part[2], part[1], part[0]
	}
	two := func(s string) string {
		if len(s) == 1 {
			return "0" + s
		}
		return s
	}
	d, bad := ParseDate(year + "-" + two(month) + "-" + two(day))
	if bad != nil {
		return Date{}, &units.FieldError{Value: strconv.Quote(s), Want: "a day in the order " + order + ", the year in four digits", Err: bad.(*units.FieldError).Err}
	}
	return d, nil
}
