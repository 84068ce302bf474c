package sheet

import (
	"errors"
	"fmt"
	"io"
	"reflect"
	"sync"

	"example.com/washrig/internal/fields"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// LetterheadFormat is the first field of a letterhead file.
const LetterheadFormat = "washrig-letterhead/1"

// A Letterhead is the dealer's own name block, with terms and lines to sign on.
// It is input to a page and never part of a model; a page without one is
// neutral.
type Letterhead struct {
	Format     string   `json:"format" need:"yes" doc:"washrig-letterhead/1"`
	Mark       string   `json:"mark" doc:"the dealer's mark as text"`
	Name       string   `json:"name" doc:"name of the dealer"`
	Address    []string `json:"address" doc:"address and ways to reach the dealer, a line each"`
	Terms      []string `json:"terms" doc:"terms of the quote, a paragraph each"`
	Validity   string   `json:"validity" doc:"how long the quote holds, in words"`
	Signatures []string `json:"signatures" doc:"what stands below each line to sign on"`
}

var letterheadTable = sync.OnceValues(func() (*fields.Table, error) { return fields.Of(reflect.TypeFor[Letterhead]()) })

// ReadLetterhead reads a letterhead from JSON. It is as strict as the reader of
// specifications.
func ReadLetterhead(r io.Reader) (*Letterhead, error) {
	t, err := letterheadTable()
	if err != nil {
		return nil, err
	}
	l := new(Letterhead)
	if err := t.Decode(r, l, fields.Limits{}); err != nil {
		return nil, err
	}
	if err := parts.CheckFormat(l.Format, LetterheadFormat); err != nil {
		return nil, err
	}
	return l, l.Validate()
}

// Validate refuses control characters and more text than a page carries. A nil
// letterhead is valid.
func (l *Letterhead) Validate() error {
	if l == nil {
		return nil
	}
	var errs []error
	check := func(path, text string) {
		if err := fields.CleanText(text); err != nil {
			errs = append(errs, units.At("letterhead."+path, err))
		}
	}
	check("mark", l.Mark)
	check("name", l.Name)
	check("validity", l.Validity)
	for _, list := range []struct {
		path  string
		lines []string
		most  int
	}{{"address", l.Address, 12}, {"terms", l.Terms, 40}, {"signatures", l.Signatures, 6}} {
		if len(list.lines) > list.most {
			errs = append(errs, &units.FieldError{Path: "letterhead." + list.path, Value: fmt.Sprint(len(list.lines), " lines"), Want: fmt.Sprintf("at most %d", list.most), Err: units.ErrRange})
			continue
		}
		for i, s := range list.lines {
			check(fmt.Sprintf("%s[#%d]", list.path, i+1), s)
		}
	}
	return errors.Join(errs...)
}

// lines are the name block, empty if there is none.
func (l *Letterhead) lines() []string {
	if l == nil {
		return nil
	}
	var out []string
	for _, s := range append([]string{l.Mark, l.Name}, l.Address...) {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}

// closing adds terms, validity and lines to sign on.
func (l *Letterhead) closing(d *Document) {
	if l == nil {
		return
	}
	if len(l.Terms) > 0 || l.Validity != "" {
		d.Add(Heading{Text: "Terms"})
		if l.Validity != "" {
			d.Add(Paragraph{Text: l.Validity})
		}
		if len(l.Terms) > 0 {
			d.Add(List{Items: l.Terms})
		}
	}
	if len(l.Signatures) > 0 {
		d.Add(Signatures{l.Signatures})
	}
}
