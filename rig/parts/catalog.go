package parts

import (
	"crypto/sha256"
	"encoding/hex"
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

// Format is the first field of a shelf file.
const Format = "washrig-parts/1"

// A shelf is the JSON form of a Catalog.
type shelf struct {
	Format string  `json:"format" need:"yes" doc:"washrig-parts/1"`
	Name   string  `json:"name" doc:"name of the shelf"`
	Parts  []entry `json:"parts" doc:"the parts"`
}

// An entry is a Part in a file. Parts are named by number, not by id.
type entry struct {
	Part
}

var shelfTable = sync.OnceValues(func() (*fields.Table, error) { return fields.Of(reflect.TypeFor[shelf]()) })

// A Catalog is the dealer's shelf: parts by the dealer's own numbers. It is not
// changed after it is made and may be shared; what it hands out are copies.
type Catalog struct {
	name   string
	parts  []Part   // in order of number
	from   []string // shelf each part came from; nil if that is this one
	digest func() string
}

// ErrUnknownPart is the error of a part number that is not on the shelf.
var ErrUnknownPart = errors.New("no such part on the shelf")

// errTaken is the error of a part number that stands twice.
var errTaken = problem.Words("this number is taken", units.ErrConflict)

// ErrTooLarge is the error of a file over one of its limits.
var ErrTooLarge = fields.ErrTooLarge

// A Problem is one thing that is wrong in a JSON file: line, column, path and
// the error behind it.
type Problem = fields.Problem

var partTable = sync.OnceValues(func() (*fields.Table, error) { return fields.Of(reflect.TypeFor[Part]()) })

// NewCatalog makes a shelf of copies of the given parts. A number may stand
// once, and a value has to be one that a file could hold. All problems are
// returned together; the shelf holds the parts that have none.
func NewCatalog(name string, list ...Part) (*Catalog, error) {
	t, err := partTable()
	if err != nil {
		return nil, err
	}
	var errs []error
	if err := fields.CleanText(name); err != nil {
		errs = append(errs, units.At("name", err))
	}
	good := make([]Part, 0, len(list))
	seen := make(map[string]bool, len(list))
	for i := range list {
		p := list[i].clone()
		found := t.Problems(&p)
		if err := p.check(); err != nil {
			found = append(found, err)
		}
		if seen[p.Number] {
			found = append(found, &units.FieldError{Path: "number", Value: p.Number, Want: "a number no other part has", Err: errTaken})
		}
		if len(found) > 0 {
			errs = append(errs, units.At(at(i, p.Number), errors.Join(found...)))
			continue
		}
		seen[p.Number] = true
		good = append(good, p)
	}
	return newCatalog(name, good), errors.Join(errs...)
}

// newCatalog makes a shelf of parts that have been checked, each number once.
// It keeps the list.
func newCatalog(name string, list []Part) *Catalog {
	slices.SortFunc(list, func(a, b Part) int { return strings.Compare(a.Number, b.Number) })
	c := &Catalog{name: name, parts: list}
	c.digest = sync.OnceValue(c.fingerprint)
	return c
}

func at(i int, number string) string {
	if number == "" || fields.CleanText(number) != nil {
		return fmt.Sprintf("parts[#%d]", i+1)
	}
	return "parts[" + number + "]"
}

// fingerprint hashes the parts as files hold them.
func (c *Catalog) fingerprint() string {
	t, err := shelfTable()
	if err != nil { // a mistake in the tags; every constructor reports it
		return ""
	}
	h := sha256.New()
	one := shelf{Parts: make([]entry, 1)}
	for i := range c.parts {
		one.Parts[0].Part = c.parts[i]
		_ = t.Encode(h, &one) // a hash takes everything, and the values have been checked
		h.Write([]byte{'\n'})
	}
	return hex.EncodeToString(h.Sum(nil))
}

// ReadJSON reads a shelf from its JSON form. It is as strict as the reader of
// specifications and reports all problems at once; maxBytes of zero means
// 64 MiB, and there may be 200,000 parts.
func ReadJSON(r io.Reader, maxBytes int64) (*Catalog, error) {
	t, err := shelfTable()
	if err != nil {
		return nil, err
	}
	if maxBytes == 0 {
		maxBytes = defaultBytes
	}
	var s shelf
	if err := t.Decode(r, &s, fields.Limits{Bytes: maxBytes, Elements: defaultRows}); err != nil {
		if newer := CheckFormat(s.Format, Format); newer != nil && s.Format != "" {
			return nil, newer
		}
		return nil, err
	}
	if err := CheckFormat(s.Format, Format); err != nil {
		return nil, err
	}
	list := make([]Part, len(s.Parts))
	seen := make(map[string]bool, len(s.Parts))
	var errs []error
	for i := range s.Parts {
		p := &s.Parts[i].Part // its values have been checked on reading
		err := p.check()
		if err == nil && seen[p.Number] {
			err = &units.FieldError{Path: "number", Value: p.Number, Want: "a number no other part has", Err: errTaken}
		}
		if err != nil {
			errs = append(errs, units.At(at(i, p.Number), err))
		}
		seen[p.Number] = true
		list[i] = *p
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	return newCatalog(s.Name, list), nil
}

// The default limits of files.
const (
	defaultBytes = 64 << 20
	defaultRows  = 200_000
)

// CheckFormat refuses a file whose format field is not the one wanted; a newer
// number is refused with both numbers.
func CheckFormat(got, want string) error {
	if got == want {
		return nil
	}
	e := &units.FieldError{Path: "format", Want: want, Err: units.ErrMissing}
	if got != "" {
		e.Value, e.Err = got, problem.Words("another kind of file", units.ErrConflict)
		name, num, ok := strings.Cut(got, "/")
		wantName, wantNum, _ := strings.Cut(want, "/")
		if n, err := strconv.Atoi(num); ok && err == nil && name == wantName {
			e.Err = problem.Words("a format this library does not read", units.ErrConflict)
			e.Want = fmt.Sprintf("%s; the file has format %d and this library reads format %s", want, n, wantNum)
		}
	}
	return e
}

// WriteJSON writes the shelf in the form ReadJSON reads.
func (c *Catalog) WriteJSON(w io.Writer) error {
	t, err := shelfTable()
	if err != nil {
		return err
	}
	s := shelf{Format: Format, Name: c.Name()}
	if c != nil {
		s.Parts = make([]entry, len(c.parts))
		for i := range c.parts {
			s.Parts[i].Part = c.parts[i]
		}
	}
	return t.Encode(w, &s)
}

// Name returns the name of the shelf.
func (c *Catalog) Name() string {
	if c == nil {
		return ""
	}
	return c.name
}

// Digest names the contents of the shelf: equal shelves have equal digests.
func (c *Catalog) Digest() string {
	if c == nil {
		return ""
	}
	return c.digest()
}

// Len returns the number of parts.
func (c *Catalog) Len() int {
	if c == nil {
		return 0
	}
	return len(c.parts)
}

// Part returns a copy of the part with the given number. A nil Catalog is an
// empty shelf.
func (c *Catalog) Part(number string) (Part, error) {
	if i, ok := c.find(number); ok {
		return c.parts[i].clone(), nil
	}
	want := "a number on the shelf"
	switch {
	case c == nil:
		want = "a shelf that has it; no shelf was given"
	case c.Len() == 0:
		want = "a shelf that has it; the one that was given is empty"
	}
	return Part{}, &units.FieldError{Value: strconv.Quote(number), Want: want, Err: ErrUnknownPart}
}

// find returns the place of a number in the list.
func (c *Catalog) find(number string) (int, bool) {
	if c == nil {
		return 0, false
	}
	return slices.BinarySearchFunc(c.parts, number, func(p Part, n string) int { return strings.Compare(p.Number, n) })
}

// Parts returns copies of the parts of one kind in order of their numbers, or
// of all parts for an empty kind.
func (c *Catalog) Parts(kind Kind) []Part {
	if c == nil {
		return nil
	}
	var out []Part
	for i := range c.parts {
		if kind == "" || c.parts[i].Kind == string(kind) {
			out = append(out, c.parts[i].clone())
		}
	}
	return out
}
