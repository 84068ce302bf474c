package fields

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/washrig/units"
)

// Limits bound what the decoder accepts. Zero fields take the defaults.
type Limits struct {
	Bytes    int64 // default 1 MiB
	Depth    int   // default 32
	Elements int   // elements of all lists together, default 2000
	Problems int   // problems reported before a count, default 100
}

func (l Limits) orDefault() Limits {
	if l.Bytes == 0 {
		l.Bytes = 1 << 20
	}
	if l.Depth == 0 {
		l.Depth = 32
	}
	if l.Elements == 0 {
		l.Elements = 2000
	}
	if l.Problems == 0 {
		l.Problems = 100
	}
	return l
}

// A Problem is one thing that is wrong in a file: where it stands, the path it
// belongs to (empty for the text as a whole), and the error.
type Problem struct {
	Line, Column int
	Path         string
	Err          error
}

// Error gives line and column, then the error with its path.
func (p *Problem) Error() string {
	s := p.Err.Error()
	if p.Path != "" && !strings.HasPrefix(s, p.Path) {
		s = p.Path + ": " + s
	}
	if p.Line == 0 {
		return s
	}
	return fmt.Sprintf("line %d, column %d: %s", p.Line, p.Column, s)
}

// Unwrap returns the error behind the problem.
func (p *Problem) Unwrap() error { return p.Err }

// ErrTooLarge is the error of an input over one of the limits.
var ErrTooLarge = errors.New("input is too large")

// A step is one link of a path while a file is read; the id of a list element
// may become known after the problem below it.
type step struct {
	name string
	pos  int // position in a list from 1, or 0
	id   *string
}

type decoder struct {
	t        *Table
	data     []byte
	dec      *json.Decoder
	lim      Limits
	depth    int
	elements int
	problems []held
	dropped  int
	steps    []step
	counted  int64 // bytes that position has gone through
	lines    int   // line ends in them
}

type held struct {
	off   int64
	steps []step
	err   error
}

// Decode reads one JSON document into root, a pointer to the table's struct
// type. It is strict: names are case-sensitive; an unknown or repeated name, a
// null, text after the document, invalid UTF-8, control characters in text, a
// value out of range, or anything over a limit is an error. One leading byte
// order mark is skipped. All problems are returned together, joined.
func (t *Table) Decode(r io.Reader, root any, lim Limits) error {
	lim = lim.orDefault()
	data, err := readAll(r, lim.Bytes)
	if err != nil {
		return err
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	d := &decoder{t: t, data: data, lim: lim}
	if !utf8.Valid(data) {
		off := invalidAt(data)
		line, col := d.position(off)
		return errors.Join(&Problem{Line: line, Column: col, Err: fmt.Errorf("%w: not valid UTF-8 (save the file as UTF-8)", units.ErrSyntax)})
	}
	d.dec = json.NewDecoder(bytes.NewReader(data))
	d.dec.UseNumber()
	fatal := d.object(t.root, reflect.ValueOf(root).Elem())
	if fatal == nil {
		if tok, err := d.dec.Token(); err != io.EOF {
			off := d.start(d.dec.InputOffset())
			if err == nil {
				off = d.dec.InputOffset() - int64(len(fmt.Sprint(tok)))
			}
			fatal = &Problem{Err: fmt.Errorf("%w: text after the end of the document", units.ErrSyntax)}
			fatal.(*Problem).Line, fatal.(*Problem).Column = d.position(off)
		}
	}
	var all []error
	for _, h := range d.problems {
		path := pathOf(h.steps)
		p := &Problem{Path: path, Err: withPath(h.err, path)}
		p.Line, p.Column = d.position(h.off)
		all = append(all, p)
	}
	if d.dropped > 0 {
		all = append(all, fmt.Errorf("and %d more problems", d.dropped))
	}
	if fatal != nil {
		all = append(all, fatal)
	}
	return errors.Join(all...)
}

// readAll reads up to limit bytes and refuses more, having read no further
// than one byte beyond.
func readAll(r io.Reader, limit int64) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, min(limit, math.MaxInt64-1)+1))
	if err != nil {
		return nil, err
	}
	if int64(len(data)) > limit {
		return nil, tooLarge(limit)
	}
	return data, nil
}

func tooLarge(limit int64) error {
	return fmt.Errorf("%w: more than %d bytes (raise the limit to read it)", ErrTooLarge, limit)
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

func invalidAt(data []byte) int64 {
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && n == 1 {
			return int64(i)
		}
		i += n
	}
	return int64(len(data))
}

// position counts the lines up to off and the characters of the last of them.
// It goes on from where it was last asked if that is possible, so that many
// problems of a long file cost one pass.
func (d *decoder) position(off int64) (line, col int) {
	off = min(off, int64(len(d.data)))
	if off < d.counted {
		d.counted, d.lines = 0, 0
	}
	d.lines += bytes.Count(d.data[d.counted:off], []byte("\n"))
	d.counted = off
	head := d.data[:off]
	return 1 + d.lines, utf8.RuneCount(head[bytes.LastIndexByte(head, '\n')+1:]) + 1
}

// start skips white space and punctuation from the end of one token to the
// beginning of the next.
func (d *decoder) start(off int64) int64 {
	for off < int64(len(d.data)) && strings.IndexByte(" \t\r\n,:", d.data[off]) >= 0 {
		off++
	}
	return off
}

func pathOf(steps []step) string {
	var b strings.Builder
	for i, s := range steps {
		if s.pos > 0 {
			if s.id != nil && ValidID(*s.id) {
				fmt.Fprintf(&b, "[%s]", *s.id)
			} else {
				fmt.Fprintf(&b, "[#%d]", s.pos)
			}
			continue
		}
		if i > 0 {
			b.WriteByte('.')
		}
		b.WriteString(s.name)
	}
	return b.String()
}

// full reports whether another problem would only be counted.
func (d *decoder) full() bool { return len(d.problems) >= d.lim.Problems }

func (d *decoder) problem(off int64, err error) {
	if d.full() {
		d.dropped++
		return
	}
	d.problems = append(d.problems, held{off, append([]step(nil), d.steps...), err})
}

func (d *decoder) token() (json.Token, int64, error) {
	off := d.start(d.dec.InputOffset())
	tok, err := d.dec.Token()
	if err != nil {
		p := &Problem{Path: pathOf(d.steps)}
		var se *json.SyntaxError
		switch {
		case errors.As(err, &se):
			// The offset of a token's error does not count from the beginning
			// of the document; that of a check of the whole does.
			var whole json.RawMessage
			if errors.As(json.Unmarshal(d.data, &whole), &se) {
				off = max(se.Offset-1, 0)
			}
			p.Line, p.Column = d.position(off)
			p.Err = fmt.Errorf("%w: %s", units.ErrSyntax, strings.TrimPrefix(se.Error(), "json: "))
		case err == io.EOF || err == io.ErrUnexpectedEOF:
			p.Line, p.Column = d.position(int64(len(d.data)))
			p.Err = fmt.Errorf("%w: the document ends too early", units.ErrSyntax)
		default:
			p.Line, p.Column = d.position(off)
			p.Err = fmt.Errorf("%w: %v", units.ErrSyntax, err)
		}
		return nil, off, p
	}
	return tok, off, nil
}

func (d *decoder) object(n *node, v reflect.Value) error {
	tok, off, err := d.token()
	if err != nil {
		return err
	}
	if tok != json.Delim('{') {
		d.problem(off, wrongForm(tok, "an object in braces"))
		return d.skip(tok)
	}
	return d.members(n, v)
}

func (d *decoder) enter(off int64) error {
	d.depth++
	if d.depth > d.lim.Depth {
		p := &Problem{Path: pathOf(d.steps), Err: fmt.Errorf("%w: nested more than %d deep", ErrTooLarge, d.lim.Depth)}
		p.Line, p.Column = d.position(off)
		return p
	}
	return nil
}

// members reads the inside of an object whose brace has been read.
func (d *decoder) members(n *node, v reflect.Value) error {
	if err := d.enter(d.dec.InputOffset()); err != nil {
		return err
	}
	defer func() { d.depth-- }()
	seen := map[string]bool{}
	for {
		tok, off, err := d.token()
		if err != nil {
			return err
		}
		if tok == json.Delim('}') {
			return nil
		}
		name := tok.(string)
		d.steps = append(d.steps, step{name: printable(name)})
		f := n.byName[name]
		switch {
		case f == nil:
			if d.full() { // looking for what was meant takes its time
				d.problem(off, ErrUnknown)
			} else {
				d.problem(off, &units.FieldError{Want: nearest(n, name), Err: ErrUnknown})
			}
			err = d.skipNext()
		case seen[name]:
			d.problem(off, &units.FieldError{Want: "the name once", Err: errTwice})
			err = d.skipNext()
		default:
			seen[name] = true
			err = d.field(f, v.FieldByIndex(f.index))
			if up := len(d.steps) - 2; f == n.id && up >= 0 && d.steps[up].id != nil {
				*d.steps[up].id = v.FieldByIndex(f.index).String()
			}
		}
		if err != nil {
			return err
		}
		d.steps = d.steps[:len(d.steps)-1]
	}
}

func printable(s string) string {
	if len(s) > 80 {
		s = s[:80] + "…"
	}
	q := strconv.Quote(s)
	return q[1 : len(q)-1]
}

// ErrUnknown is the error of a name that the table does not have.
var ErrUnknown = errors.New("unknown name")

// nearest suggests the name that was probably meant, or lists the names.
func nearest(n *node, name string) string {
	best, dist := "", 3
	joined := strings.Map(func(r rune) rune {
		if r == '-' || r == ' ' {
			return '_'
		}
		return r
	}, name)
	for _, f := range n.fields {
		if strings.EqualFold(joined, f.Name) {
			return f.Name
		}
		if d := distance(f.Name, name, dist); d < dist {
			best, dist = f.Name, d
		}
	}
	if best != "" {
		return best
	}
	var names []string
	for _, f := range n.fields {
		names = append(names, f.Name)
	}
	return "one of " + strings.Join(names, ", ")
}

// Near returns the names of a list that are nearest to a name, the nearest first, at
// most so many: by the letters of each word of it, then by all letters. Names that are
// equally near keep their order.
func Near(name string, list []string, most int) []string {
	type near struct {
		name string
		d    int
	}
	var found []near
	seen := map[string]bool{}
	for _, x := range list {
		if !seen[x] {
			seen[x] = true
			found = append(found, near{x, 8*apart(words(name), words(x)) + distance(x, name, 64)})
		}
	}
	slices.SortStableFunc(found, func(a, b near) int { return a.d - b.d })
	var out []string
	for _, x := range found[:min(most, len(found))] {
		if len(out) > 0 && x.d >= found[0].d+16 {
			break // two letters of a word farther than the best
		}
		out = append(out, x.name)
	}
	return out
}

// words are the words of a path or a code.
func words(name string) []string {
	return strings.FieldsFunc(name, func(r rune) bool { return strings.ContainsRune("-._[]", r) })
}

// apart sums how far each word is from the nearest of the others, four at most.
func apart(words, others []string) int {
	sum := 0
	for _, w := range words {
		least := 4
		for _, o := range others {
			least = min(least, distance(w, o, 4))
		}
		sum += least
	}
	return sum
}

// distance is the edit distance of two short names, or limit when it is larger.
func distance(a, b string, limit int) int {
	if len(a) > 64 || len(b) > 64 || a == b {
		if a == b {
			return 0
		}
		return limit
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		prev := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := prev
			if a[i] != b[j] {
				cost++
			}
			prev = row[j+1]
			row[j+1] = min(cost, row[j]+1, prev+1)
		}
	}
	return min(row[len(b)], limit)
}

func wrongForm(tok json.Token, want string) error {
	return &units.FieldError{Value: describe(tok), Want: want, Err: units.ErrSyntax}
}

func describe(tok json.Token) string {
	switch v := tok.(type) {
	case nil:
		return "null"
	case json.Delim:
		if v == '{' {
			return "an object"
		}
		return "a list"
	case string:
		return strconv.Quote(printable(v))
	default:
		return fmt.Sprint(v)
	}
}

func (d *decoder) skipNext() error {
	tok, _, err := d.token()
	if err != nil {
		return err
	}
	return d.skip(tok)
}

// skip passes over the rest of a value whose first token has been read.
func (d *decoder) skip(tok json.Token) error {
	open, ok := tok.(json.Delim)
	if !ok || open == '}' || open == ']' {
		return nil
	}
	base := d.depth
	defer func() { d.depth = base }()
	if err := d.enter(d.dec.InputOffset()); err != nil {
		return err
	}
	for d.depth > base {
		tok, off, err := d.token()
		if err != nil {
			return err
		}
		switch tok {
		case json.Delim('{'), json.Delim('['):
			if err := d.enter(off); err != nil {
				return err
			}
		case json.Delim('}'), json.Delim(']'):
			d.depth--
		}
	}
	return nil
}

func (d *decoder) field(f *Field, v reflect.Value) error {
	tok, off, err := d.token()
	if err != nil {
		return err
	}
	if tok == nil {
		d.problem(off, &units.FieldError{Value: "null", Want: "a value, or leave the name out", Err: units.ErrSyntax})
		return nil
	}
	switch f.Role {
	case Group:
		if tok != json.Delim('{') {
			d.problem(off, wrongForm(tok, "an object in braces"))
			return d.skip(tok)
		}
		if f.ptr {
			v.Set(reflect.New(f.typ.Elem()))
			v = v.Elem()
		}
		return d.members(f.sub, v)
	case List:
		if tok != json.Delim('[') {
			d.problem(off, wrongForm(tok, "a list in brackets"))
			return d.skip(tok)
		}
		return d.list(f, v)
	case Words:
		if tok != json.Delim('[') {
			d.problem(off, wrongForm(tok, "a list of texts in brackets"))
			return d.skip(tok)
		}
		return d.words(f, v)
	case PathTable:
		if tok != json.Delim('{') {
			d.problem(off, wrongForm(tok, "an object of path and text"))
			return d.skip(tok)
		}
		return d.table(v)
	}
	text, ok := tokenText(tok)
	if !ok {
		d.problem(off, wrongForm(tok, f.want()))
		return d.skip(tok)
	}
	if _, isText := tok.(string); !isText {
		switch f.Role {
		case Flag, Count:
		case Value:
			if f.Kind == 0 {
				d.problem(off, wrongForm(tok, f.want()))
				return nil
			}
		default:
			d.problem(off, wrongForm(tok, f.want()))
			return nil
		}
	} else if f.Role == Flag || f.Role == Count {
		d.problem(off, wrongForm(tok, f.want()))
		return nil
	}
	if err := f.set(v, text); err != nil {
		d.problem(off, err)
	}
	return nil
}

func tokenText(tok json.Token) (string, bool) {
	switch v := tok.(type) {
	case string:
		return v, true
	case json.Number:
		return v.String(), true
	case bool:
		return strconv.FormatBool(v), true
	}
	return "", false
}

func (f *Field) want() string {
	switch f.Role {
	case Flag:
		return "true or false"
	case Count:
		return "a whole number"
	case Text, Words:
		if len(f.Choices) > 0 {
			return "one of " + strings.Join(f.Choices, ", ")
		}
		return "a text in quotes"
	}
	return "a text in quotes with its unit"
}

// element counts one element of a list or table against the limit.
func (d *decoder) element(off int64) error {
	d.elements++
	if d.elements <= d.lim.Elements {
		return nil
	}
	p := &Problem{Path: pathOf(d.steps), Err: fmt.Errorf("%w: more than %d elements in all lists", ErrTooLarge, d.lim.Elements)}
	p.Line, p.Column = d.position(off)
	return p
}

func (d *decoder) list(f *Field, v reflect.Value) error {
	if err := d.enter(d.dec.InputOffset()); err != nil {
		return err
	}
	defer func() { d.depth-- }()
	seen := map[string]bool{}
	for pos := 1; ; pos++ {
		tok, off, err := d.token()
		if err != nil {
			return err
		}
		if tok == json.Delim(']') {
			return nil
		}
		if err := d.element(off); err != nil {
			return err
		}
		elem := reflect.New(f.typ.Elem()).Elem()
		id := new(string)
		d.steps = append(d.steps, step{pos: pos, id: id})
		if tok != json.Delim('{') {
			d.problem(off, wrongForm(tok, "an object in braces"))
			err = d.skip(tok)
		} else if err = d.members(f.sub, elem); err == nil && f.sub.id != nil {
			*id = elem.FieldByIndex(f.sub.id.index).String()
			switch {
			case *id == "":
				d.problem(off, &units.FieldError{Want: "an id such as left or pump-1", Err: units.ErrMissing})
			case !ValidID(*id):
				d.problem(off, &units.FieldError{Value: strconv.Quote(printable(*id)), Want: "an id of small letters, digits and hyphens that begins with a letter", Err: units.ErrSyntax})
			case seen[*id]:
				d.problem(off, &units.FieldError{Value: *id, Want: "an id no other element of this list has", Err: errTaken})
			}
			seen[*id] = true
		}
		if err != nil {
			return err
		}
		d.steps = d.steps[:len(d.steps)-1]
		v.Set(reflect.Append(v, elem))
	}
}

func (d *decoder) words(f *Field, v reflect.Value) error {
	for {
		tok, off, err := d.token()
		if err != nil {
			return err
		}
		if tok == json.Delim(']') {
			return nil
		}
		if err := d.element(off); err != nil {
			return err
		}
		s, ok := tok.(string)
		if !ok {
			d.problem(off, wrongForm(tok, "a text in quotes"))
			if err := d.skip(tok); err != nil {
				return err
			}
			continue
		}
		if _, err := f.read(s); err != nil {
			d.problem(off, err)
			continue
		}
		v.Set(reflect.Append(v, reflect.ValueOf(s).Convert(v.Type().Elem())))
	}
}

func (d *decoder) table(v reflect.Value) error {
	m := reflect.MakeMap(v.Type())
	v.Set(m)
	for {
		tok, off, err := d.token()
		if err != nil {
			return err
		}
		if tok == json.Delim('}') {
			return nil
		}
		if err := d.element(off); err != nil {
			return err
		}
		name := tok.(string)
		key := reflect.ValueOf(name).Convert(v.Type().Key())
		d.steps = append(d.steps, step{name: printable(name)})
		if err := CleanText(name); err != nil {
			d.problem(off, err)
		} else if m.MapIndex(key).IsValid() {
			d.problem(off, &units.FieldError{Want: "the name once", Err: errTwice})
		}
		tok, off, err = d.token()
		if err != nil {
			return err
		}
		if s, ok := tok.(string); !ok {
			d.problem(off, wrongForm(tok, "a text in quotes"))
			if err := d.skip(tok); err != nil {
				return err
			}
		} else if err := CleanText(s); err != nil {
			d.problem(off, err)
		} else {
			m.SetMapIndex(key, reflect.ValueOf(s).Convert(v.Type().Elem()))
		}
		d.steps = d.steps[:len(d.steps)-1]
	}
}

func (f *Field) rangeText() string {
	switch {
	case f.hasLow && f.hasHigh:
		return f.Low + " to " + f.High
	case f.hasLow:
		return "at least " + f.Low
	default:
		return "at most " + f.High
	}
}
