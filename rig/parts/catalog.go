package parts

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"reflect"
	"sort"
	"strconv"
	"strings"
	"sync"

	"example.com/washrig/internal/fields"
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
// changed after it is made and may be shared.
type Catalog struct {
	name    string
	parts   []Part
	numbers map[string]int
	digest  string
}

// ErrUnknownPart is the error of a part number that is not on the shelf.
var ErrUnknownPart = errors.New("no such part on the shelf")

// NewCatalog makes a shelf of the given parts. A number may stand once.
func NewCatalog(name string, list ...Part) (*Catalog, error) {
	c := &Catalog{name: name, numbers: make(map[string]int, len(list))}
	var errs []error
	for i, p := range list {
		if err := p.check(); err != nil {
			errs = append(errs, units.At(at(i, p.Number), err))
			continue
		}
		if _, dup := c.numbers[p.Number]; dup {
			errs = append(errs, units.At(at(i, p.Number), &units.FieldError{Path: "number", Value: p.Number, Want: "a number no other part has", Err: units.ErrConflict}))
			continue
		}
		c.numbers[p.Number] = len(c.parts)
		c.parts = append(c.parts, p)
	}
	sort.SliceStable(c.parts, func(i, j int) bool { return c.parts[i].Number < c.parts[j].Number })
	h := sha256.New()
	for i := range c.parts {
		c.numbers[c.parts[i].Number] = i
		fmt.Fprintf(h, "%s\n", c.parts[i].fingerprint())
	}
	c.digest = hex.EncodeToString(h.Sum(nil))
	return c, errors.Join(errs...)
}

func at(i int, number string) string {
	if number == "" {
		return fmt.Sprintf("parts[#%d]", i+1)
	}
	return "parts[" + number + "]"
}

func (p *Part) fingerprint() string {
	t, err := shelfTable()
	if err != nil {
		return err.Error()
	}
	var b strings.Builder
	_ = t.Encode(&b, &shelf{Parts: []entry{{*p}}}) // a builder cannot fail
	return b.String()
}

// ReadJSON reads a shelf from its JSON form. It is as strict as the reader of
// specifications and reports all problems at once; maxBytes of zero means
// 16 MiB.
func ReadJSON(r io.Reader, maxBytes int64) (*Catalog, error) {
	t, err := shelfTable()
	if err != nil {
		return nil, err
	}
	if maxBytes == 0 {
		maxBytes = 16 << 20
	}
	var s shelf
	if err := t.Decode(r, &s, fields.Limits{Bytes: maxBytes, Elements: 100_000}); err != nil {
		return nil, err
	}
	if err := CheckFormat(s.Format, Format); err != nil {
		return nil, err
	}
	list := make([]Part, len(s.Parts))
	for i := range s.Parts {
		list[i] = s.Parts[i].Part
	}
	c, err := NewCatalog(s.Name, list...)
	if err != nil {
		return nil, err
	}
	return c, nil
}

// CheckFormat refuses a file whose format field is not the one wanted; a newer
// number is refused with both numbers.
func CheckFormat(got, want string) error {
	if got == want {
		return nil
	}
	e := &units.FieldError{Path: "format", Want: want, Err: units.ErrMissing}
	if got != "" {
		e.Value, e.Err = got, units.ErrConflict
		name, num, ok := strings.Cut(got, "/")
		wantName, wantNum, _ := strings.Cut(want, "/")
		if n, err := strconv.Atoi(num); ok && err == nil && name == wantName {
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
	s := shelf{Format: Format, Name: c.name}
	for _, p := range c.parts {
		s.Parts = append(s.Parts, entry{p})
	}
	return t.Encode(w, &s)
}

// Name returns the name of the shelf.
func (c *Catalog) Name() string { return c.name }

// Digest names the contents of the shelf: equal shelves have equal digests.
func (c *Catalog) Digest() string {
	if c == nil {
		return ""
	}
	return c.digest
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
	if c != nil {
		if i, ok := c.numbers[number]; ok {
			return c.parts[i], nil
		}
	}
	want := "a number on the shelf"
	if c.Len() == 0 {
		want = "a shelf that has it; no shelf was given"
	}
	return Part{}, &units.FieldError{Value: strconv.Quote(number), Want: want, Err: ErrUnknownPart}
}

// Parts returns the parts of one kind in order of their numbers, or all parts
// for an empty kind.
func (c *Catalog) Parts(kind Kind) []Part {
	if c == nil {
		return nil
	}
	var out []Part
	for _, p := range c.parts {
		if kind == "" || p.Kind == string(kind) {
			out = append(out, p)
		}
	}
	return out
}
