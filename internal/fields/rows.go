package fields

import (
	"fmt"
	"io"
	"math"
	"strings"

	"example.com/washrig/units"
)

// ReadText reads a text file of at most limit bytes. One leading byte order
// mark is dropped; UTF-16 is refused with words that say how to save the file.
func ReadText(r io.Reader, limit int64) (string, error) {
	var b strings.Builder
	if _, err := io.Copy(&b, io.LimitReader(r, min(limit, math.MaxInt64-1)+1)); err != nil {
		return "", err
	}
	if int64(b.Len()) > limit {
		return "", tooLarge(limit)
	}
	s := b.String()
	head := s[:min(len(s), 4)]
	if strings.HasPrefix(head, "\xff\xfe") || strings.HasPrefix(head, "\xfe\xff") || strings.IndexByte(head, 0) >= 0 {
		return "", fmt.Errorf("%w: the text is UTF-16 (save the file as CSV UTF-8)", units.ErrSyntax)
	}
	return strings.TrimPrefix(s, "\xef\xbb\xbf"), nil
}

// Rows goes through comma-separated text as spreadsheets write it: cells in
// quotes may hold commas, line breaks and doubled quotes; a quote inside a cell
// that does not begin with one stands for itself; a row ends with LF, CRLF or
// CR; rows without any text are passed over but counted.
//
// A row whose quotes are wrong is reported by Err, and reading goes on at the
// line below the one where the wrong quote opened: one slip does not swallow
// the rest of the file.
//
// Source of the form: RFC 4180, section 2. It has CRLF alone at the end of
// rows and no quotes in unquoted cells; what is read beyond that is what
// spreadsheets take.
type Rows struct {
	s     string
	pos   int
	row   int // number of the row, from 1, as a spreadsheet counts them
	line  int // line of the text that pos stands in, from 1
	first int // line of the text the row begins in
	cells []string
	bad   int // cell, from 1, that err belongs to
	err   error
}

// maxCell bounds a cell in quotes; a longer one is taken for a quote that was
// never closed.
const maxCell = 64 << 10

// NewRows returns the rows of a text.
func NewRows(text string) *Rows { return &Rows{s: text, line: 1} }

// Next moves to the next row that holds any text and reports whether there is
// one.
func (r *Rows) Next() bool {
	for r.pos < len(r.s) {
		r.row++
		r.first = r.line
		r.read()
		if r.err != nil {
			return true
		}
		for _, c := range r.cells {
			if Trim(c) != "" {
				return true
			}
		}
	}
	return false
}

// Row returns the number of the row, from 1, and the line of the text in which
// it begins.
func (r *Rows) Row() (row, line int) { return r.row, r.first }

// Cells returns the row's cells. They are parts of the text; the slice is
// overwritten by Next.
func (r *Rows) Cells() []string { return r.cells }

// Err returns what is wrong with the row's quotes and in which cell, from 1.
func (r *Rows) Err() (column int, err error) { return r.bad, r.err }

// read takes one row off the text.
func (r *Rows) read() {
	r.cells, r.bad, r.err = r.cells[:0], 0, nil
	for {
		if r.pos < len(r.s) && r.s[r.pos] == '"' {
			if !r.quoted() {
				return
			}
		} else {
			n := strings.IndexAny(r.s[r.pos:], ",\r\n")
			if n < 0 {
				n = len(r.s) - r.pos
			}
			r.cells = append(r.cells, r.s[r.pos:r.pos+n])
			r.pos += n
		}
		if r.pos == len(r.s) {
			return
		}
		if r.s[r.pos] != ',' {
			r.endLine()
			return
		}
		r.pos++
	}
}

// quoted takes a cell in quotes; false means that the row is given up.
func (r *Rows) quoted() bool {
	open, line := r.pos, r.line
	fail := func(want string) bool {
		r.bad = len(r.cells) + 1
		r.err = &units.FieldError{Value: fmt.Sprintf("quote in line %d", line), Want: want, Err: units.ErrSyntax}
		r.pos, r.line = open, line
		if n := strings.IndexAny(r.s[open:], "\r\n"); n >= 0 {
			r.pos += n
			r.endLine()
		} else {
			r.pos = len(r.s)
		}
		return false
	}
	doubled := false
	for i := open + 1; ; {
		n := -1
		if end := min(len(r.s), open+1+maxCell); i < end {
			n = strings.IndexByte(r.s[i:end], '"')
		}
		if n < 0 {
			return fail(fmt.Sprintf("a quote that is closed within %d bytes", maxCell))
		}
		i += n + 1
		if i < len(r.s) && r.s[i] == '"' {
			doubled = true
			i++
			continue
		}
		cell := r.s[open+1 : i-1]
		if i < len(r.s) && strings.IndexByte(",\r\n", r.s[i]) < 0 {
			return fail("a comma or the end of the row after the quote that closes the cell; a quote inside is written twice")
		}
		r.line += lineEnds(cell)
		if doubled {
			cell = strings.ReplaceAll(cell, `""`, `"`)
		}
		r.cells = append(r.cells, cell)
		r.pos = i
		return true
	}
}

// endLine passes over one end of a line.
func (r *Rows) endLine() {
	if strings.HasPrefix(r.s[r.pos:], "\r\n") {
		r.pos++
	}
	r.pos++
	r.line++
}

// lineEnds counts LF, CRLF and CR.
func lineEnds(s string) int {
	if strings.IndexByte(s, '\r') < 0 {
		return strings.Count(s, "\n")
	}
	return strings.Count(s, "\n") + strings.Count(s, "\r") - strings.Count(s, "\r\n")
}

// blanks are the spaces that stand around the text of a cell.
const blanks = " \u00a0\u202f"

// Trim takes spaces and line breaks off both ends of a cell.
func Trim(s string) string {
	if s == "" {
		return s
	}
	if a, b := s[0], s[len(s)-1]; ' ' < a && a < 0x7F && ' ' < b && b < 0x7F {
		return s
	}
	return strings.Trim(s, blanks+"\r\n")
}

// Fold is [Trim], and makes one space of every line break inside with the
// spaces around it: a cell of two lines reads like one of one line.
func Fold(s string) string {
	s = Trim(s)
	if strings.IndexByte(s, '\n') < 0 && strings.IndexByte(s, '\r') < 0 {
		return s
	}
	lines := strings.FieldsFunc(s, func(r rune) bool { return r == '\n' || r == '\r' })
	out := lines[:0]
	for _, l := range lines {
		if l = Trim(l); l != "" {
			out = append(out, l)
		}
	}
	return strings.Join(out, " ")
}

// Formula reports whether a spreadsheet could take the text of a cell for a
// formula: it begins with = + - @, wide forms of them included, and is no
// number.
//
// Source: MITRE, CWE-1236, "Improper neutralization of formula elements in a
// CSV file"; OWASP Application Security Verification Standard 5.0, 1.2.10.
// Tabs and NUL, which the latter names too, cannot stand in clean text.
func Formula(s string) bool {
	s = Trim(s)
	for _, sign := range [...]string{"=", "+", "-", "@", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"} {
		if strings.HasPrefix(s, sign) {
			return !plainNumber(s)
		}
	}
	return false
}

// plainNumber reports whether s is digits with a sign and a point, no more.
func plainNumber(s string) bool {
	if s != "" && (s[0] == '-' || s[0] == '+') {
		s = s[1:]
	}
	whole, frac, point := strings.Cut(s, ".")
	return onlyDigits(whole) && (!point || onlyDigits(frac))
}

func onlyDigits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

// Inert puts an apostrophe in front of text that is a [Formula], apart from
// apostrophes that already stand there, so that a spreadsheet shows it and does
// not compute it. [Revive] takes it off again.
func Inert(s string) string {
	if Formula(strings.TrimLeft(s, "'")) {
		return "'" + s
	}
	return s
}

// Revive is the inverse of [Inert].
func Revive(s string) string {
	if rest, ok := strings.CutPrefix(s, "'"); ok && Formula(strings.TrimLeft(rest, "'")) {
		return rest
	}
	return s
}

// AppendCell appends the text of a cell, in quotes where it needs them.
func AppendCell(b []byte, s string) []byte {
	if s == "" || (!strings.ContainsAny(s, ",\"\r\n") && Trim(s) == s) {
		return append(b, s...)
	}
	b = append(b, '"')
	for i := range len(s) {
		if s[i] == '"' {
			b = append(b, '"')
		}
		b = append(b, s[i])
	}
	return append(b, '"')
}
