package rig

import (
	"fmt"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Default is a default that the dealer changed: what is taken where a
// specification gives nothing. It stays an assumed value on every output.
type Default struct {
	Value          string // as a specification would write it, such as 94 %
	Who, When, Why string // all three are needed
}

// why is what the origin of such a value says.
func (d Default) why() string {
	return "default of the dealer (" + d.Who + ", " + d.When + "): " + d.Why
}

// A StandingDefault is a default that is in force.
type StandingDefault struct {
	Path   Path // the pattern of the field
	Value  string
	Source string // where the library's own comes from
	When   string // name=word: it holds only where that sibling field says so
	Change *Default
}

// A Standing is everything a policy decides, changed or not: each code with its
// limits and their source, each default with its source.
type Standing struct {
	Codes    []CodeDoc // in order of rank; a changed limit has who, when and why
	Defaults []StandingDefault
	Off      []Code
}

// InForce returns every limit, default and source that an assessment with the
// policy goes by. A nil policy gives the library's own.
func (p *Policy) InForce() (*Standing, error) {
	r, err := p.compile()
	if err != nil {
		return nil, err
	}
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	out := &Standing{}
	out.Codes = make([]CodeDoc, len(r.code))
	for _, k := range r.code {
		out.Codes[k.rank] = k.doc
	}
	out.Off = r.switchedOff()
	for _, f := range t.Rows() {
		if f.Default == "" {
			continue
		}
		d := StandingDefault{Path: Path(f.Pattern), Value: f.Default, Source: f.Why, When: f.When}
		if p != nil {
			if h, ok := p.Defaults[d.Path]; ok {
				d.Value, d.Change = h.Value, &h
			}
		}
		out.Defaults = append(out.Defaults, d)
	}
	return out, nil
}

// ChangedDefaults returns the defaults that the policy of the report changed, in
// order of path. They are printed on every output, used or not.
func (r *Report) ChangedDefaults() []StandingDefault {
	var out []StandingDefault
	t, err := specTable()
	if err != nil {
		return nil
	}
	for _, p := range fields.SortedKeys(r.model.house) {
		h := r.model.house[p]
		if f, ok := t.Lookup(string(p)); ok {
			out = append(out, StandingDefault{Path: p, Value: h.Value, Source: f.Why, When: f.When, Change: &h})
		}
	}
	return out
}

// checkDefaults refuses changes of defaults that do not exist, that are not
// signed, and values that a specification would not take.
func (p *Policy) checkDefaults() error {
	t, err := specTable()
	if err != nil {
		return err
	}
	for _, path := range fields.SortedKeys(p.Defaults) {
		d := p.Defaults[path]
		at := fmt.Sprintf("policy.defaults[%s]", path)
		f, ok := t.Lookup(string(path))
		switch {
		case !ok:
			return &units.FieldError{Path: at, Want: "a field such as " + strings.Join(fields.Near(string(path), defaulted(t), 3), ", "), Err: problem.Words("no field of this name has a default", units.ErrRange)}
		case f.Default == "":
			return &units.FieldError{Path: at, Want: "a field that has one, such as " + strings.Join(fields.Near(string(path), defaulted(t), 1), ", "), Err: problem.Words("the field has no default", units.ErrRange)}
		case f.Pattern != string(path):
			return &units.FieldError{Path: at, Want: f.Pattern, Err: problem.Words("a default holds for every component", units.ErrRange)}
		case path == "fills[].reach":
			return &units.FieldError{Path: at, Want: "the reach of a fill state in its specification", Err: problem.Words("would take stops out of the day on every rig, and a stop is never switched off", units.ErrConflict)}
		case d.Value == "":
			return &units.FieldError{Path: at, Want: "a value, such as " + f.Default, Err: units.ErrMissing}
		case blank(d.Who) || blank(d.When) || blank(d.Why):
			return &units.FieldError{Path: at, Want: "who changed it, when and why", Err: units.ErrMissing}
		}
		if err := f.Accepts(d.Value); err != nil {
			return units.At(at, err)
		}
	}
	return nil
}

// blank reports whether a text says nothing.
func blank(text string) bool { return strings.TrimSpace(text) == "" }

// defaulted are the patterns of the fields that have a default.
func defaulted(t *fields.Table) []string {
	var out []string
	for _, f := range t.Rows() {
		if f.Default != "" {
			out = append(out, f.Pattern)
		}
	}
	return out
}

// under returns the model with the defaults of a policy; the model itself where
// it changes none.
func (m *Model) under(p *Policy) (*Model, error) {
	if p == nil || len(p.Defaults) == 0 {
		return m, nil
	}
	house := make(map[Path]Default, len(p.Defaults))
	for k, v := range p.Defaults {
		house[k] = v
	}
	n, err := build(m.written, m.shelf, &Model{house: house, axes: m.axes, blocks: m.blocks})
	if err != nil {
		return nil, units.At("policy.defaults", err)
	}
	return n, nil
}
