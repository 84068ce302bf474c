package fields

import (
	"reflect"

	"example.com/washrig/units"
)

// A Place is a pattern such as lines[].hose.length that was looked up once, to
// read the same field of many elements without parsing a path. It is not changed
// after it is made and may be shared.
type Place struct {
	chain []*Field
}

// Place looks up a pattern. Each pair of brackets stands for one id that Quantity
// is given.
func (t *Table) Place(pattern string) (*Place, error) {
	f, ok := t.pats[pattern]
	if !ok {
		return nil, &units.FieldError{Path: pattern, Want: "a pattern of the table", Err: ErrUnknown}
	}
	p := &Place{}
	n := t.root
	for start := 0; start < len(pattern); {
		end := start
		for end < len(pattern) && pattern[end] != '.' {
			end++
		}
		name := pattern[start:end]
		if len(name) > 2 && name[len(name)-2:] == "[]" {
			name = name[:len(name)-2]
		}
		step := n.byName[name]
		if step == nil {
			return nil, &units.FieldError{Path: pattern, Want: nearest(n, name), Err: ErrUnknown}
		}
		p.chain, n, start = append(p.chain, step), step.sub, end+1
	}
	if p.chain[len(p.chain)-1] != f || f.Role == List {
		return nil, &units.FieldError{Path: pattern, Want: "a field of one value", Err: units.ErrSyntax}
	}
	return p, nil
}

// Quantity returns the quantity in root, a pointer to the table's type, of the
// elements with the given ids; ok is false if there is no such element or it
// gives nothing. It is what Table.Quantity returns for the path, and allocates
// nothing.
func (p *Place) Quantity(root any, ids ...string) (q units.Quantity, ok bool) {
	if p == nil {
		return q, false
	}
	v := reflect.ValueOf(root).Elem()
	for i, f := range p.chain {
		v = v.FieldByIndex(f.index)
		switch {
		case f.Role == List:
			if len(ids) == 0 {
				return q, false
			}
			if v = element(f, v, ids[0]); !v.IsValid() {
				return q, false
			}
			ids = ids[1:]
		case i == len(p.chain)-1:
			if f.Kind == 0 || len(ids) > 0 || v.IsZero() {
				return q, false
			}
			return v.Addr().Interface().(quantified).Quantity(), true
		case f.ptr:
			if v.IsNil() {
				return q, false
			}
			v = v.Elem()
		}
	}
	return q, false
}
