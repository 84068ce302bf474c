package parts

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// MappingOf returns a mapping with one column, named by its path, for every
// field that any part of the shelf gives. Renaming its columns makes a
// spreadsheet with headings of the dealer's own.
func MappingOf(c *Catalog) (Mapping, error) {
	t, err := partTable()
	if err != nil {
		return Mapping{}, err
	}
	m := Mapping{Format: MappingFormat, Name: c.Name()}
	for _, f := range t.Rows() {
		slot, err := t.Slot(f.Pattern)
		if err != nil {
			continue // a group
		}
		given := f.Pattern == "number" || f.Pattern == "kind"
		for i := 0; !given && i < c.Len(); i++ {
			v, ok := slot.Value(&c.parts[i], false)
			given = ok && !v.IsZero()
		}
		if given {
			m.Columns = append(m.Columns, Column{Name: f.Pattern, Field: f.Pattern})
		}
	}
	return m, nil
}

// WriteCSV writes the shelf as a spreadsheet: the columns of the mapping, in
// its order, or all of [MappingOf] for the zero Mapping. ReadCSV with the same
// mapping reads the same parts, as far as the mapping has columns for them. A
// part that would be read back otherwise is an error: one that leaves out what
// the mapping gives to every row, or whose text is one of the mapping's blank
// words. For the zero Mapping so is one that a row has no place for: with a
// list, such as an engine's curve, or without any rating. [Catalog.WriteJSON]
// has a place for all.
//
// Rows end with CRLF, and a byte order mark is written if any character is not
// ASCII, since spreadsheets take the text for another code without it. A
// quantity stands as a bare number where its column has a unit and a short
// number gives back the same bits, and with its unit otherwise; money likewise. A cell
// that a spreadsheet could take for a formula gets an apostrophe in front, which
// ReadCSV takes off again.
//
// The columns hold whatever the mapping asks for: cost and supplier numbers are
// the dealer's own.
func (c *Catalog) WriteCSV(w io.Writer, m Mapping) error {
	own := len(m.Columns) == 0
	if own {
		own, err := MappingOf(c)
		if err != nil {
			return err
		}
		m.Columns = own.Columns
	}
	p, err := m.plan()
	if err != nil {
		return err
	}
	out := &writing{plan: p, whole: own}
	for i := range p.columns { // columns of one name stand together
		k := 0
		for k < len(out.at) && p.columns[out.at[k][0]].Name != p.columns[i].Name {
			k++
		}
		if k == len(out.at) {
			out.at = append(out.at, nil)
		}
		out.at[k] = append(out.at[k], i)
	}
	for k, list := range out.at {
		out.cell(k, fields.Inert(p.columns[list[0]].Name))
	}
	out.line()
	for i := 0; i < c.Len(); i++ {
		if err := out.part(&c.parts[i]); err != nil {
			return units.At(at(i, c.parts[i].Number), err)
		}
	}
	if out.wide {
		if _, err := io.WriteString(w, "\ufeff"); err != nil {
			return err
		}
	}
	_, err = w.Write(out.b)
	return err
}

type writing struct {
	plan  *plan
	whole bool    // nothing of a part may be lost
	at    [][]int // for each column of the file, columns of the plan
	b     []byte
	wide  bool // some character is not ASCII
}

func (out *writing) cell(k int, text string) {
	if k > 0 {
		out.b = append(out.b, ',')
	}
	out.b = fields.AppendCell(out.b, text)
	for i := range len(text) {
		out.wide = out.wide || text[i] >= 0x80
	}
}

func (out *writing) line() { out.b = append(out.b, '\r', '\n') }

func (out *writing) part(p *Part) error {
	written := map[string]bool{}
	for k, list := range out.at {
		text := ""
		for _, i := range list {
			c := &out.plan.columns[i]
			if c.kind != "" && c.kind != p.Kind {
				continue
			}
			s, err := out.text(p, c)
			if err != nil {
				return err
			}
			if text != "" && s != text {
				return &units.FieldError{Path: c.Field, Value: strconv.Quote(s), Err: problem.Words("another field of the part stands in the same column", units.ErrConflict),
					Want: fmt.Sprintf("the text of the other field in column %q, %q", c.Name, text)}
			}
			if s != "" {
				text = s
				written[c.Field] = true
			}
		}
		out.cell(k, fields.Inert(text))
	}
	out.line()
	if out.whole {
		if err := fits(p); err != nil {
			return err
		}
	}
	for i := range out.plan.fixed {
		f := &out.plan.fixed[i]
		path := f.slot.Path()
		if (f.kind != "" && f.kind != p.Kind) || written[path] {
			continue
		}
		want := new(Part)
		if err := f.slot.Set(want, f.Name); err != nil {
			return err
		}
		have, _, err := f.slot.Text(p)
		if err != nil {
			return err
		}
		if text, _, _ := f.slot.Text(want); text != have {
			return &units.FieldError{Path: path, Value: have, Want: "what the mapping gives to every row, " + text, Err: problem.Words("a file of this mapping has no place for another value", units.ErrConflict)}
		}
	}
	return nil
}

// errNotBack is the error of a text that would be read back as another.
var errNotBack = problem.Words("would not be read back as it is", units.ErrConflict)

// fits refuses a part that a row has no place for: one with a list, such as an
// engine's curve, or without any rating.
func fits(p *Part) error {
	t, err := partTable()
	if err != nil {
		return err
	}
	rated := p.Ratings() == nil // an item
	t.Walk(p, func(v *fields.Visit) bool {
		switch v.Field.Role {
		case fields.List, fields.Words, fields.PathTable:
			if v.Value.Len() > 0 {
				err = &units.FieldError{Path: v.Path(), Want: "a JSON file", Err: problem.Words("a row of a spreadsheet has no place for a list", units.ErrConflict)}
			}
		case fields.Group:
		default:
			rated = rated || strings.Contains(v.Path(), ".") && !v.Value.IsZero()
		}
		return err == nil
	})
	if err == nil && !rated {
		err = &units.FieldError{Path: p.Kind, Want: "a rating; a row without any is no " + p.Kind, Err: units.ErrMissing}
	}
	return err
}

// text returns the cell of a field; empty if nothing is given.
func (out *writing) text(p *Part, c *planned) (string, error) {
	s, given, err := c.slot.Text(p)
	if err != nil || !given {
		return "", err
	}
	switch {
	case c.form == quantity && c.Unit != "":
		s = bareIn(p, c, s)
	case c.form == money && c.Currency != "":
		v, _ := c.slot.Value(p, false)
		if m := v.Interface().(Money); m.Currency() == c.Currency {
			s = s[:len(s)-len(" USD")]
		}
	}
	for _, w := range fields.SortedKeys(c.Words) {
		if c.Words[w] == s {
			s = w
			break
		}
	}
	to, isWord := c.Words[s]
	back := new(Part)
	reader := &reading{plan: out.plan}
	switch {
	case fields.Fold(s) != s:
		err = &units.FieldError{Want: "text without spaces around it", Err: errNotBack}
	case isIn(out.plan.blank, s):
		err = &units.FieldError{Want: "text that the mapping does not take for an empty cell", Err: errNotBack}
	case isWord && to == "":
		err = &units.FieldError{Want: "text that the mapping's words do not drop", Err: errNotBack}
	default:
		if err = reader.set(back, c, s); err == nil {
			want, _, _ := c.slot.Text(p)
			if got, _, _ := c.slot.Text(back); got != want {
				err = &units.FieldError{Want: "text that is read back as " + want, Err: errNotBack}
			}
		}
	}
	if err != nil {
		err = withPath(err, c.Field)
		if fe, ok := err.(*units.FieldError); ok && fe.Value == "" {
			fe.Value = strconv.Quote(s)
		}
	}
	return s, err
}

func isIn(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// bareIn returns the number of a quantity in the column's unit if it is short
// and reads as the same bits, and the text with its own unit otherwise. A ratio
// that is written without a unit is always put in that of the column, which
// would be taken for its own.
func bareIn(p *Part, c *planned, text string) string {
	q, _ := c.slot.Quantity(p)
	u, _ := q.Kind().UnitOf(c.Unit)
	number, unit, hasUnit := strings.Cut(text, " ")
	if own, ok := q.Kind().UnitOf(unit); ok && own == u {
		return number
	}
	n, err := q.In(u)
	if err != nil {
		return text
	}
	plain := strconv.FormatFloat(n, 'f', -1, 64)
	mantissa, exp, _ := strings.Cut(strconv.FormatFloat(q.SI(), 'e', -1, 64), "e")
	e, _ := strconv.Atoi(exp)
	for _, s := range [...]string{plain, mantissa + "e" + strconv.Itoa(e+2)} { // the second for percent, by its digits
		if back, err := units.ParseQuantity(q.Kind(), s+" "+c.Unit); err == nil && back == q && (len(s) <= 8 || !hasUnit) {
			return s
		}
	}
	return text
}
