package batch

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// Clear is the cell of a plan that takes away what the base gives; an empty
// cell leaves it.
const Clear = "(clear)"

// A PlanError is one row or heading of a plan that cannot be used.
type PlanError struct {
	Line    int    // in the file, from 1
	Heading string // of the column, empty for the row as a whole
	Err     error
}

// Error gives line and column, then the error.
func (e *PlanError) Error() string {
	s := fmt.Sprintf("line %d", e.Line)
	if e.Heading != "" {
		s += ", column " + e.Heading
	}
	return s + ": " + e.Err.Error()
}

// Unwrap returns the error behind the problem.
func (e *PlanError) Unwrap() error { return e.Err }

// ReadCSV reads a table of changes: a line of headings, then a line for each
// variant. It returns the headings of the inputs and the variants, which are
// read as they are drawn. Mistakes in the headings are returned at once; a line
// that cannot be read is a variant with an error.
//
// A heading says what its cells do, and changes are made from left to right:
//
//	name                     the cell names the variant
//	site.elevation           the field takes the cell's text; (clear) takes away what the base gives
//	replace lines[left].hose the component becomes the part of that number
//	add lines                an element with that id, and with a part number if one follows: third H5
//	copy lines[left]         a copy under that id
//	remove lines[left]       yes takes the element out
//
// An empty cell changes nothing. Spreadsheets' byte order mark, CRLF, quoted
// newlines and blank lines are read; semicolons and decimal commas are refused
// with a message that says so.
func ReadCSV(r io.Reader, base *rig.Model) (headings []string, v Variants, err error) {
	buffered := bufio.NewReader(r)
	if mark, _ := buffered.Peek(3); bytes.Equal(mark, []byte("\xef\xbb\xbf")) {
		_, _ = buffered.Discard(3)
	}
	c := csv.NewReader(buffered)
	c.FieldsPerRecord = -1
	head, err := c.Read()
	if err == io.EOF {
		return nil, nil, &units.FieldError{Path: "plan", Want: "a line of headings such as name,site.elevation", Err: units.ErrMissing}
	}
	if err != nil {
		return nil, nil, csvError(err)
	}
	if len(head) == 1 && strings.Contains(head[0], ";") {
		return nil, nil, &PlanError{1, "", fmt.Errorf("%w: columns are parted by semicolons; save the table with commas and decimal points", units.ErrSyntax)}
	}
	known, err := compileHeadings(head)
	if err != nil {
		return nil, nil, err
	}
	for _, h := range known {
		if h.op != opName {
			headings = append(headings, h.text)
		}
	}
	variants := func(yield func(Variant, error) bool) {
		for {
			record, err := c.Read()
			if err == io.EOF {
				return
			}
			if err != nil {
				var syntax *csv.ParseError
				if !yield(Variant{}, csvError(err)) || !errors.As(err, &syntax) {
					return
				}
				continue
			}
			line, _ := c.FieldPos(0)
			v, err := variantOf(known, record, line, base)
			if !yield(v, err) {
				return
			}
		}
	}
	return headings, variants, nil
}

func csvError(err error) error {
	var syntax *csv.ParseError
	if errors.As(err, &syntax) {
		return &PlanError{syntax.StartLine, "", fmt.Errorf("%w: %v", units.ErrSyntax, syntax.Err)}
	}
	return err
}

// The operations of a heading.
type operation uint8

const (
	opName operation = iota + 1
	opSet
	opReplace
	opAdd
	opCopy
	opRemove
)

type heading struct {
	text string
	op   operation
	path rig.Path
}

// compileHeadings says what each column does. Every mistake is reported.
func compileHeadings(head []string) ([]heading, error) {
	out := make([]heading, len(head))
	seen := map[string]bool{}
	var errs []error
	for i, text := range head {
		text = strings.Join(strings.Fields(text), " ")
		h, err := compileHeading(text)
		if err == nil && seen[text] {
			err = &units.FieldError{Want: "each heading once", Err: problem.Words("given twice", units.ErrConflict)}
		}
		if err != nil {
			errs = append(errs, &PlanError{1, printed(text), err})
		}
		seen[text] = true
		out[i] = h
	}
	return out, errors.Join(errs...)
}

func compileHeading(text string) (heading, error) {
	if err := fields.CleanText(text); err != nil {
		return heading{}, err
	}
	if text == "name" {
		return heading{text: text, op: opName}, nil
	}
	word, rest, two := strings.Cut(text, " ")
	h := heading{text: text, op: opSet, path: rig.Path(text)}
	if two {
		h.path = rig.Path(rest)
		h.op = map[string]operation{"replace": opReplace, "add": opAdd, "copy": opCopy, "remove": opRemove}[word]
		if h.op == 0 {
			return heading{}, &units.FieldError{Value: printed(word), Want: "a path, or replace, add, copy or remove and a path", Err: units.ErrSyntax}
		}
	}
	docs, err := rig.Fields()
	if err != nil {
		return heading{}, err
	}
	kind := map[rig.Path]string{}
	for _, d := range docs {
		kind[d.Path] = d.Kind
	}
	pattern := h.path.Pattern()
	element := strings.HasSuffix(string(pattern), "[]")
	if strings.Contains(string(h.path), "[]") {
		return heading{}, &units.FieldError{Want: "the id of an element in the brackets", Err: units.ErrSyntax}
	}
	k, exists := kind[pattern]
	if element {
		k, exists = kind[pattern[:len(pattern)-2]]
	}
	switch h.op {
	case opSet:
		if !exists || element || k == "list" || k == "group" || k == "table" {
			return heading{}, &units.FieldError{Want: "the path of a field that holds one value, such as site.elevation", Err: fields.ErrUnknown}
		}
	case opReplace:
		if _, has := kind[pattern+".part"]; !has {
			return heading{}, &units.FieldError{Want: "a component that has a part number, such as lines[left].hose", Err: fields.ErrUnknown}
		}
	case opAdd:
		if !exists || element || k != "list" {
			return heading{}, &units.FieldError{Want: "a list, such as lines", Err: fields.ErrUnknown}
		}
	default:
		if !exists || !element {
			return heading{}, &units.FieldError{Want: "an element of a list, such as lines[left]", Err: fields.ErrUnknown}
		}
	}
	return h, nil
}

// printed is text fit for an error message.
func printed(s string) string {
	if len(s) > 80 {
		s = s[:80] + "…"
	}
	q := fmt.Sprintf("%q", s)
	return q[1 : len(q)-1]
}

// variantOf makes a variant of one line. The variant has its name even where
// another cell cannot be used.
func variantOf(head []heading, cells []string, line int, base *rig.Model) (Variant, error) {
	var v Variant
	var errs []error
	if len(cells) != len(head) {
		errs = append(errs, &PlanError{line, "", fmt.Errorf("%w: %d cells under %d headings", units.ErrSyntax, len(cells), len(head))})
	}
	for i, cell := range cells {
		if i >= len(head) {
			break
		}
		h := &head[i]
		cell = strings.TrimSpace(cell)
		if !utf8.ValidString(cell) {
			errs = append(errs, &PlanError{line, h.text, fmt.Errorf("%w: not valid UTF-8 (save the file as UTF-8)", units.ErrSyntax)})
			continue
		}
		// a quoted newline is white space in a name or a note
		if h.op == opName {
			cell = strings.Join(strings.Fields(cell), " ")
		}
		if err := fields.CleanText(cell); err != nil {
			errs = append(errs, &PlanError{line, h.text, err})
			continue
		}
		if h.op == opName {
			v.Name = cell
			continue
		}
		v.Inputs = append(v.Inputs, Input{h.text, cell})
		changes, err := h.changes(cell, base)
		if err != nil {
			errs = append(errs, &PlanError{line, h.text, err})
			continue
		}
		v.Changes = append(v.Changes, changes...)
	}
	return v, errors.Join(errs...)
}

func (h *heading) changes(cell string, base *rig.Model) ([]rig.Change, error) {
	if cell == "" {
		return nil, nil
	}
	switch h.op {
	case opSet:
		if cell == Clear {
			cell = ""
		}
		return []rig.Change{rig.Set(h.path, cell)}, nil
	case opReplace:
		return Replace(base.Shelf(), h.path, cell)
	case opAdd:
		id, part, _ := strings.Cut(cell, " ")
		return []rig.Change{rig.Add(h.path, id, strings.TrimSpace(part))}, nil
	case opCopy:
		return []rig.Change{rig.Copy(h.path, cell)}, nil
	}
	switch cell {
	case "yes":
		return []rig.Change{rig.Remove(h.path)}, nil
	case "no":
		return nil, nil
	}
	return nil, &units.FieldError{Value: printed(cell), Want: "yes, no or nothing", Err: units.ErrSyntax}
}

// maxLine bounds a line of JSON Lines.
const maxLine = 1 << 20

// ReadLines reads a table of changes as JSON Lines: an object a line, whose
// names are the headings of ReadCSV and whose values are texts. Changes are made
// in the order of the names, which need not be the same on every line. Blank
// lines are skipped; a line that cannot be read is a variant with an error. The
// headings are those of the first line.
func ReadLines(r io.Reader, base *rig.Model) (headings []string, v Variants, err error) {
	buffered := bufio.NewReader(r)
	if mark, _ := buffered.Peek(3); bytes.Equal(mark, []byte("\xef\xbb\xbf")) {
		_, _ = buffered.Discard(3)
	}
	s := bufio.NewScanner(buffered)
	s.Buffer(make([]byte, 0, 64<<10), maxLine)
	line := 0
	scan := func() bool {
		for s.Scan() {
			line++
			if len(bytes.TrimSpace(s.Bytes())) > 0 {
				return true
			}
		}
		return false
	}
	if !scan() {
		if err := s.Err(); err != nil {
			return nil, nil, lineError(err, line+1)
		}
		return nil, nil, &units.FieldError{Path: "plan", Want: `an object a line, such as {"name":"high","site.elevation":"8000 ft"}`, Err: units.ErrMissing}
	}
	names, cells, err := objectOf(s.Bytes())
	if err != nil {
		return nil, nil, &PlanError{line, "", err}
	}
	known, err := compileHeadings(names)
	if err != nil {
		return nil, nil, err
	}
	for _, h := range known {
		if h.op != opName {
			headings = append(headings, h.text)
		}
	}
	cache := map[string][]heading{strings.Join(names, "\x00"): known}
	variants := func(yield func(Variant, error) bool) {
		v, err := variantOf(known, cells, line, base)
		if !yield(v, err) {
			return
		}
		for scan() {
			names, cells, err := objectOf(s.Bytes())
			if err != nil {
				if !yield(Variant{}, &PlanError{line, "", err}) {
					return
				}
				continue
			}
			key := strings.Join(names, "\x00")
			head, ok := cache[key]
			if !ok {
				if head, err = compileHeadings(names); err != nil {
					if !yield(Variant{}, atLine(err, line)) {
						return
					}
					continue
				}
				if len(cache) < 64 {
					cache[key] = head
				}
			}
			v, err := variantOf(head, cells, line, base)
			if !yield(v, err) {
				return
			}
		}
		if err := s.Err(); err != nil {
			yield(Variant{}, lineError(err, line+1))
		}
	}
	return headings, variants, nil
}

func lineError(err error, line int) error {
	if errors.Is(err, bufio.ErrTooLong) {
		return &PlanError{line, "", fmt.Errorf("%w: a line of more than %d bytes", fields.ErrTooLarge, maxLine)}
	}
	return err
}

// atLine puts the line of the file into errors of headings.
func atLine(err error, line int) error {
	list, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return err
	}
	var out []error
	for _, e := range list.Unwrap() {
		var p *PlanError
		if errors.As(e, &p) {
			e = &PlanError{line, p.Heading, p.Err}
		}
		out = append(out, e)
	}
	return errors.Join(out...)
}

// objectOf reads an object of texts, its names in order, each once.
func objectOf(data []byte) (names, texts []string, err error) {
	syntax := func(format string, args ...any) error {
		return fmt.Errorf("%w: %s", units.ErrSyntax, fmt.Sprintf(format, args...))
	}
	if !utf8.Valid(data) {
		return nil, nil, syntax("not valid UTF-8 (save the file as UTF-8)")
	}
	d := json.NewDecoder(bytes.NewReader(data))
	tok, err := d.Token()
	if err != nil || tok != json.Delim('{') {
		return nil, nil, syntax("want an object in braces")
	}
	seen := map[string]bool{}
	for d.More() {
		key, err := d.Token()
		if err != nil {
			return nil, nil, syntax("%v", err)
		}
		name := key.(string)
		if seen[name] {
			return nil, nil, syntax("%s is given twice", printed(name))
		}
		seen[name] = true
		value, err := d.Token()
		if err != nil {
			return nil, nil, syntax("%v", err)
		}
		text, ok := value.(string)
		if !ok {
			return nil, nil, syntax("%s: want a text in quotes with its unit", printed(name))
		}
		names, texts = append(names, name), append(texts, text)
	}
	if _, err := d.Token(); err != nil {
		return nil, nil, syntax("%v", err)
	}
	if _, err := d.Token(); err != io.EOF {
		return nil, nil, syntax("text after the end of the object")
	}
	return names, texts, nil
}
