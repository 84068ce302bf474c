package rig

import (
	"errors"
	"maps"
	"reflect"
	"slices"
	"strconv"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Lever moves one field of a model: what an app recomputes on every
// keystroke. It is safe for concurrent use.
type Lever struct {
	model *Model
	path  Path
	kind  units.Kind
	plain bool // nothing else of the resolved specification follows from the field
}

// Lever prepares a model for changes of one quantity of its specification. A
// field that holds nothing cannot be moved: set it with With first. Words and
// whole numbers are changed with With and Set.
func (m *Model) Lever(p Path) (*Lever, error) {
	q, ok := m.Quantity(p)
	if !ok {
		t, err := specTable()
		if err != nil {
			return nil, err
		}
		if err := t.Movable(m.spec, string(p)); err != nil {
			if mt := metricOf(p); mt != nil {
				return nil, mt.computed(t, m.spec, p, "is computed, and a lever moves what is given")
			}
			return nil, err
		}
		row, _ := t.Lookup(string(p))
		return nil, &units.FieldError{Path: string(p), Want: "With(Set(" + strconv.Quote(string(p)) + ", " + strconv.Quote(m.settable(row, p)) + ")) first", Err: problem.Words("holds nothing that could be moved", units.ErrMissing)}
	}
	l := &Lever{m, p, q.Kind(), false}
	l.plain = l.tried(q)
	return l, nil
}

// tried moves the field both ways, a little and far, and reports whether the quick
// way comes to the model that New does. Where defaults follow from the field, as the
// usable volume of a tank does from its nominal one, it does not.
func (l *Lever) tried(q units.Quantity) bool {
	t, err := specTable()
	if err != nil {
		return false
	}
	row, ok := t.Lookup(string(l.path))
	if !ok {
		return false
	}
	same, tries := true, 0
	for _, x := range []float64{q.SI() * 1.01, q.SI() * 0.99, q.SI() * 1.9, q.SI() * 0.4, q.SI() + 1} {
		v, err := units.NewQuantity(l.kind, clampField(row, x))
		if err != nil {
			continue
		}
		slow, err := l.slow(v)
		if err != nil {
			continue // this value contradicts another
		}
		quick, err := l.quick(v)
		if err != nil {
			return false
		}
		tries++
		same = same && reflect.DeepEqual(slow.spec, quick.spec) && reflect.DeepEqual(slow.assumed, quick.assumed) && reflect.DeepEqual(slow.fills, quick.fills) &&
			reflect.DeepEqual(slow.axes, quick.axes) && reflect.DeepEqual(slow.bands, quick.bands) && slices.Equal(slow.openings, quick.openings) &&
			maps.Equal(slow.spreads, quick.spreads) && maps.Equal(slow.origins, quick.origins)
	}
	return same && tries > 0
}

// To returns the model with the field at q. Only the blocks that read the field
// are solved again; the numbers are, to the bit, those of a new model with that
// value. A value that contradicts another field is an error, as in New.
func (l *Lever) To(q units.Quantity) (*Model, error) {
	if err := l.kind.Check(q); err != nil {
		return nil, units.At(string(l.path), err)
	}
	if !l.plain {
		return l.slow(q)
	}
	return l.quick(q)
}

// slow makes the model as New does, sharing the blocks that are the same.
func (l *Lever) slow(q units.Quantity) (*Model, error) {
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	s, err := moved(t, l.model.written, l.path, q)
	if err != nil {
		return nil, err
	}
	return build(s, l.model.shelf, l.model)
}

// quick changes the one value of the resolved specification.
func (l *Lever) quick(q units.Quantity) (*Model, error) {
	m, err := l.model.vary(l.path, q)
	if err != nil {
		return nil, err
	}
	if errs := m.checkSense(); len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	if m.written, err = moved(t, l.model.written, l.path, q); err != nil {
		return nil, err
	}
	m.own(l.path)
	return m, nil
}

// own marks the moved value as given in the tables of a varied model.
func (m *Model) own(p Path) {
	if _, had := m.origins[p]; had {
		m.origins = maps.Clone(m.origins)
		delete(m.origins, p)
	}
	if i, assumed := slices.BinarySearch(m.assumed, p); assumed && m.Origin(p).Basis != Assumed {
		m.assumed = slices.Delete(slices.Clone(m.assumed), i, i+1)
	}
}
