package fields

import (
	"bytes"
	"encoding/json"
	"io"
	"reflect"
	"strconv"
)

// Encode writes root, a pointer to the table's type, as indented JSON in table
// order. What is not given is left out, so reading the result gives the same
// value again.
func (t *Table) Encode(w io.Writer, root any) error {
	e := &encoder{}
	if err := e.object(t.root, reflect.ValueOf(root).Elem(), 0); err != nil {
		return err
	}
	e.b.WriteByte('\n')
	_, err := w.Write(e.b.Bytes())
	return err
}

type encoder struct{ b bytes.Buffer }

func (e *encoder) line(depth int) {
	e.b.WriteByte('\n')
	for range depth {
		e.b.WriteString("  ")
	}
}

func (e *encoder) text(s string) {
	enc := json.NewEncoder(&e.b)
	enc.SetEscapeHTML(false)
	_ = enc.Encode(s) // a string cannot fail
	e.b.Truncate(e.b.Len() - 1)
}

func (e *encoder) object(n *node, v reflect.Value, depth int) error {
	e.b.WriteByte('{')
	first := true
	for _, f := range n.fields {
		fv := v.FieldByIndex(f.index)
		if empty(f, fv) {
			continue
		}
		if !first {
			e.b.WriteByte(',')
		}
		first = false
		e.line(depth + 1)
		e.text(f.Name)
		e.b.WriteString(": ")
		if err := e.value(f, fv, depth+1); err != nil {
			return err
		}
	}
	if !first {
		e.line(depth)
	}
	e.b.WriteByte('}')
	return nil
}

func empty(f *Field, v reflect.Value) bool {
	if f.Role == List || f.Role == Words || f.Role == PathTable {
		return v.Len() == 0
	}
	return v.IsZero()
}

func (e *encoder) value(f *Field, v reflect.Value, depth int) error {
	switch f.Role {
	case Group:
		if f.ptr {
			v = v.Elem()
		}
		return e.object(f.sub, v, depth)
	case List:
		e.b.WriteByte('[')
		for i := range v.Len() {
			if i > 0 {
				e.b.WriteByte(',')
			}
			e.line(depth + 1)
			if err := e.object(f.sub, v.Index(i), depth+1); err != nil {
				return err
			}
		}
		e.line(depth)
		e.b.WriteByte(']')
	case Words:
		e.b.WriteByte('[')
		for i := range v.Len() {
			if i > 0 {
				e.b.WriteString(", ")
			}
			e.text(v.Index(i).String())
		}
		e.b.WriteByte(']')
	case PathTable:
		e.b.WriteByte('{')
		keys := make(map[string]reflect.Value, v.Len())
		for it := v.MapRange(); it.Next(); {
			keys[it.Key().String()] = it.Value()
		}
		for i, k := range SortedKeys(keys) {
			if i > 0 {
				e.b.WriteByte(',')
			}
			e.line(depth + 1)
			e.text(k)
			e.b.WriteString(": ")
			e.text(keys[k].String())
		}
		e.line(depth)
		e.b.WriteByte('}')
	case Flag:
		e.b.WriteString(strconv.FormatBool(v.Bool()))
	case Count:
		e.b.WriteString(strconv.FormatInt(v.Int(), 10))
	default:
		s, err := textOf(f, v)
		if err != nil {
			return err
		}
		e.text(s)
	}
	return nil
}
