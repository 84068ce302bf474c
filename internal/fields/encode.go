package fields

import (
	"bytes"
	"io"
	"reflect"
	"strconv"

	"example.com/washrig/units"
)

// Encode writes root, a pointer to the table's type, as indented JSON in table
// order. What is not given is left out, so reading the result gives the same
// value again. Text that Decode would refuse, and numbers that are not finite,
// are errors with their path, and then nothing is written.
func (t *Table) Encode(w io.Writer, root any) error {
	e := &encoder{}
	if err := e.object(t.root, reflect.ValueOf(root).Elem(), 0); err != nil {
		return err
	}
	e.b.WriteByte('\n')
	_, err := w.Write(e.b.Bytes())
	return err
}

type encoder struct {
	b    bytes.Buffer
	text []byte // kept for the next scalar
}

func (e *encoder) line(depth int) {
	e.b.WriteByte('\n')
	for range depth {
		e.b.WriteString("  ")
	}
}

// quote writes s, which is clean text, as a JSON string.
func (e *encoder) quote(s []byte) {
	e.b.WriteByte('"')
	for len(s) > 0 {
		i := bytes.IndexAny(s, `"\`)
		if i < 0 {
			e.b.Write(s)
			break
		}
		e.b.Write(s[:i])
		e.b.WriteByte('\\')
		e.b.WriteByte(s[i])
		s = s[i+1:]
	}
	e.b.WriteByte('"')
}

func (e *encoder) string(s string) error {
	if err := CleanText(s); err != nil {
		return err
	}
	e.text = append(e.text[:0], s...)
	e.quote(e.text)
	return nil
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
		e.quote([]byte(f.Name))
		e.b.WriteString(": ")
		if err := e.value(f, fv, depth+1); err != nil {
			return units.At(f.Name, err)
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
				return units.At(elementName(f, v.Index(i), i), err)
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
			if err := e.string(v.Index(i).String()); err != nil {
				return err
			}
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
			if err := e.string(k); err != nil {
				return err
			}
			e.b.WriteString(": ")
			if err := e.string(keys[k].String()); err != nil {
				return units.At(k, err)
			}
		}
		e.line(depth)
		e.b.WriteByte('}')
	case Flag:
		e.b.WriteString(strconv.FormatBool(v.Bool()))
	case Count:
		e.text = strconv.AppendInt(e.text[:0], v.Int(), 10)
		e.b.Write(e.text)
	case Text:
		return e.string(v.String())
	default:
		var err error
		if e.text, err = f.appendText(e.text[:0], v); err != nil {
			return err
		}
		e.quote(e.text)
	}
	return nil
}
