package rig

import (
	"maps"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/units"
)

// A Change is one change to a specification, made by Set, Assign, Remove, Copy
// or Add.
type Change struct {
	op    changeOp
	path  Path
	text  string
	part  string
	value units.Quantity
}

type changeOp uint8

const (
	opSet changeOp = iota + 1
	opAssign
	opRemove
	opCopy
	opAdd
)

// Set gives the field at a path the value the text says, as a file would:
// Set("lines[left].hose.length", "200 ft"). An empty text clears the field, and empties a
// list inside a component, such as engines[washer].curve. A list of words is given whole,
// with commas or spaces between its words.
// Setting a part number exchanges the part; what the specification gives
// beside it stays.
func Set(p Path, text string) Change { return Change{op: opSet, path: p, text: text} }

// Assign gives the field at a path a quantity: Assign("site.elevation", q).
func Assign(p Path, q units.Quantity) Change { return Change{op: opAssign, path: p, value: q} }

// Remove takes the element at a path out of its list, or leaves out a whole group:
// Remove("trailer"), Remove("pumps[main].relief"). What the tables basis and tolerance
// say about it goes with it. What refers to it stays, and With refuses to leave that
// dangling: remove or set it in the same call. A single field is cleared by Set with an
// empty text.
func Remove(p Path) Change { return Change{op: opRemove, path: p} }

// Copy adds a copy of the element at a path to the same list under a new id.
func Copy(p Path, id string) Change { return Change{op: opCopy, path: p, text: id} }

// Add adds an element with the given id, and a part number if it is not empty,
// to the list at a path.
func Add(list Path, id, part string) Change {
	return Change{op: opAdd, path: list, text: id, part: part}
}

// Path returns the path the change is made at.
func (c Change) Path() Path { return c.path }

// String describes the change.
func (c Change) String() string {
	switch c.op {
	case opSet:
		return string(c.path) + " = " + c.text
	case opAssign:
		return string(c.path) + " = " + c.value.String()
	case opRemove:
		return "remove " + string(c.path)
	case opCopy:
		return "copy " + string(c.path) + " as " + c.text
	case opAdd:
		if c.part != "" {
			return "add " + c.text + " (part " + c.part + ") to " + string(c.path)
		}
		return "add " + c.text + " to " + string(c.path)
	}
	return "no change"
}

// Apply makes the changes to s in order. On an error s may hold some of them.
func (s *Spec) Apply(changes ...Change) error {
	t, err := specTable()
	if err != nil {
		return err
	}
	for _, c := range changes {
		switch c.op {
		case opSet:
			if c.text == "" && s.emptied(t, c.path) {
				continue
			}
			err = t.Set(s, string(c.path), c.text)
		case opAssign:
			err = t.SetQuantity(s, string(c.path), c.value)
		case opRemove:
			if err = t.Remove(s, string(c.path)); err == nil {
				maps.DeleteFunc(s.Basis, func(p Path, _ string) bool { return c.path.covers(p) })
				maps.DeleteFunc(s.Tolerance, func(p Path, _ string) bool { return c.path.covers(p) })
			}
		case opCopy:
			err = t.Copy(s, string(c.path), c.text)
		case opAdd:
			if err = t.Add(s, string(c.path), c.text); err == nil && c.part != "" {
				err = t.Set(s, string(c.path)+"["+c.text+"].part", c.part)
			}
		default:
			err = &units.FieldError{Path: "change", Want: "a change made by Set, Assign, Remove, Copy or Add", Err: units.ErrMissing}
		}
		if mt := metricOf(c.path); err != nil && mt != nil && (c.op == opSet || c.op == opAssign) && t.Exists(s, string(c.path)) != nil {
			return mt.computed(t, s, c.path, "is computed, and only what is given can be set")
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// emptied empties the list at a path inside a component, and reports whether there is
// one. What the tables basis and tolerance say of its elements goes with it.
func (s *Spec) emptied(t *fields.Table, p Path) bool {
	row, ok := t.Lookup(string(p))
	if !ok || row.Role != fields.List || row.Pattern == row.Name || strings.HasSuffix(string(p), "]") {
		return false
	}
	v, ok := t.Value(s, string(p))
	if !ok {
		return false
	}
	v.SetZero()
	maps.DeleteFunc(s.Basis, func(at Path, _ string) bool { return p.covers(at) })
	maps.DeleteFunc(s.Tolerance, func(at Path, _ string) bool { return p.covers(at) })
	return true
}

// With returns a model with the changes made to the specification as it was
// written. The receiver is not changed, and blocks of numbers that the changes
// do not touch are shared with it.
func (m *Model) With(changes ...Change) (*Model, error) {
	s := m.written.Clone()
	if err := s.Apply(changes...); err != nil {
		return nil, err
	}
	n, err := build(s, m.shelf, m)
	if err != nil {
		return nil, m.dangling(s, err)
	}
	return n, nil
}
