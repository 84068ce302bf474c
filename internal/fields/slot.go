package fields

import (
	"reflect"
	"strings"

	"example.com/washrig/units"
)

// A Slot is a path that was looked up once, to read or set the same field of
// many values. It is not changed after it is made and may be shared.
type Slot struct {
	path  string
	chain []*Field // groups on the way, then the field
}

// Slot looks up a path of one value; a path into a list has no slot.
func (t *Table) Slot(path string) (*Slot, error) {
	links, err := parse(path)
	if err != nil {
		return nil, err
	}
	s := &Slot{path: path}
	n := t.root
	for i, l := range links {
		f := n.byName[l.name]
		if f == nil {
			return nil, &units.FieldError{Path: path, Want: nearest(n, l.name), Err: ErrUnknown}
		}
		s.chain = append(s.chain, f)
		last := i == len(links)-1
		switch {
		case l.in || f.Role == List:
			return nil, &units.FieldError{Path: path, Want: "a path outside of lists", Err: units.ErrSyntax}
		case last && (f.Role == Group || f.Role == Words || f.Role == PathTable):
			return nil, &units.FieldError{Path: path, Want: "a field that holds one value" + below(f), Err: units.ErrSyntax}
		case !last && f.Role != Group:
			return nil, &units.FieldError{Path: path, Want: "nothing after " + l.name, Err: ErrUnknown}
		}
		n = f.sub
	}
	return s, nil
}

// below lists the fields of a group, for a path that stops at it.
func below(f *Field) string {
	if f.sub == nil {
		return ""
	}
	var names []string
	for _, s := range f.sub.fields {
		names = append(names, s.Name)
	}
	return ", one of " + strings.Join(names, ", ")
}

// Path returns the path the slot was made from.
func (s *Slot) Path() string { return s.path }

// Field returns the row of the table.
func (s *Slot) Field() *Field { return s.chain[len(s.chain)-1] }

// Value returns the value in root, a pointer to the table's type, for reading
// or for setting in place. Groups that are absent are made if make is set;
// otherwise ok is false below them.
func (s *Slot) Value(root any, make bool) (v reflect.Value, ok bool) {
	v = reflect.ValueOf(root).Elem()
	for i, f := range s.chain {
		v = v.FieldByIndex(f.index)
		if i == len(s.chain)-1 || !f.ptr {
			continue
		}
		if v.IsNil() {
			if !make {
				return reflect.Value{}, false
			}
			v.Set(reflect.New(f.typ.Elem()))
		}
		v = v.Elem()
	}
	return v, true
}

// Set gives the field in root the value that the text says. On an error root
// is unchanged.
func (s *Slot) Set(root any, text string) error {
	f := s.Field()
	sc, err := f.read(text)
	if err != nil {
		return withPath(err, s.path)
	}
	v, _ := s.Value(root, true)
	return withPath(f.store(v, sc), s.path)
}

// Text returns the text of the field in root; given is false if it holds
// nothing.
func (s *Slot) Text(root any) (text string, given bool, err error) {
	v, ok := s.Value(root, false)
	if !ok || v.IsZero() {
		return "", false, nil
	}
	b, err := s.Field().appendText(nil, v)
	return string(b), true, withPath(err, s.path)
}

// Quantity returns the quantity in root; ok is false if none is given or the
// field holds none.
func (s *Slot) Quantity(root any) (q units.Quantity, ok bool) {
	if s.Field().Kind == 0 {
		return q, false
	}
	v, ok := s.Value(root, false)
	if !ok || v.IsZero() {
		return q, false
	}
	return v.Addr().Interface().(quantified).Quantity(), true
}
