package rig

import (
	"example.com/washrig/internal/fields"
	"example.com/washrig/units"
)

// A Lever moves one field of a model: what an app recomputes on every
// keystroke. It is safe for concurrent use.
type Lever struct {
	model *Model
	path  Path
	kind  units.Kind
}

// Lever prepares a model for changes of one quantity. A field that holds
// nothing cannot be moved: set it with With first.
func (m *Model) Lever(p Path) (*Lever, error) {
	q, ok := m.Quantity(p)
	if !ok {
		t, err := specTable()
		if err != nil {
			return nil, err
		}
		if err := t.Exists(m.spec, string(p)); err != nil {
			return nil, err
		}
		return nil, &units.FieldError{Path: string(p), Want: "a quantity that is given", Err: units.ErrMissing}
	}
	return &Lever{m, p, q.Kind()}, nil
}

// To returns the model with the field at q. Only the blocks that read the field
// are solved again; the numbers are, to the bit, those of a new model with that
// value. A value that contradicts another field is an error, as in New.
func (l *Lever) To(q units.Quantity) (*Model, error) {
	if q.Kind() != l.kind {
		return nil, &units.FieldError{Path: string(l.path), Value: q.String(), Want: "a " + l.kind.String(), Err: units.ErrConflict}
	}
	m, err := l.model.vary(l.path, q)
	if err != nil {
		return nil, err
	}
	if errs := m.checkSense(); len(errs) > 0 {
		return nil, errs[0]
	}
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	m.written = t.Clone(l.model.written).(*Spec)
	if err := t.SetQuantity(m.written, string(l.path), q); err != nil {
		return nil, err
	}
	m.own(t, l.path)
	return m, nil
}

// own makes the tables of a varied model its own and marks the moved value as
// given.
func (m *Model) own(t *fields.Table, p Path) {
	origins := make(map[Path]Origin, len(m.origins))
	for k, v := range m.origins {
		if k != p {
			origins[k] = v
		}
	}
	m.origins = origins
	m.assumed = nil
	m.sortAssumed()
}
