package fields

import (
	"bytes"
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf16"

	"example.com/washrig/units"
)

// A Schema is a JSON object whose members keep their order: a JSON Schema, or
// a part of one.
type Schema struct {
	keys   []string
	values []any // string, bool, int, float64, []string, *Schema, []*Schema
}

// Set gives a member a value, in place of the one it had. A value is a string,
// a bool, an int, a float64, a []string, a *Schema or a []*Schema.
func (s *Schema) Set(key string, value any) *Schema {
	for i, k := range s.keys {
		if k == key {
			s.values[i] = value
			return s
		}
	}
	s.keys, s.values = append(s.keys, key), append(s.values, value)
	return s
}

// At returns the object below the given keys; nil if there is none.
func (s *Schema) At(keys ...string) *Schema {
	for _, key := range keys {
		var next *Schema
		if s != nil {
			for i, k := range s.keys {
				if k == key {
					next, _ = s.values[i].(*Schema)
				}
			}
		}
		s = next
	}
	return s
}

// Keys returns the names of the members in order.
func (s *Schema) Keys() []string { return append([]string(nil), s.keys...) }

// A Need says when a field that is needed has to stand in the file.
type Need struct {
	Never  bool
	Unless string // a member of the same object that may stand instead; empty if none may
}

// SchemaOptions are what a table does not know about its files.
type SchemaOptions struct {
	ID, Title, Comment string
	Need               func(f *Field) Need // nil: every needed field has to stand in the file
}

// Dialect is the version of JSON Schema that Schema writes.
const Dialect = "https://json-schema.org/draft/2020-12/schema"

// Schema returns a JSON Schema, draft 2020-12, of the files that Decode reads
// and in which nothing is missing that is needed. Quantities are text whose
// pattern is built from the spellings of their units. Patterns keep to what
// ECMA-262, Python and RE2 share.
//
// A schema cannot say, and so does not: that a quantity lies in its range
// (unless it is a bare number), that a fraction is less than one, that names,
// ids and references are unique or exist, the limits of [Limits], that a name
// stands once in its object, and what is text in UTF-8. Lengths of text count
// characters, where Decode counts bytes.
func (t *Table) Schema(o SchemaOptions) *Schema {
	b := &schemaBuilder{o: o, defs: &Schema{}}
	if b.o.Need == nil {
		b.o.Need = func(*Field) Need { return Need{} }
	}
	s := new(Schema).Set("$schema", Dialect)
	for _, m := range [...][2]string{{"$id", o.ID}, {"title", o.Title}, {"$comment", o.Comment}} {
		if m[1] != "" {
			s.Set(m[0], m[1])
		}
	}
	b.object(s, t.root, false)
	if len(b.defs.keys) > 0 {
		s.Set("$defs", b.defs)
	}
	return s
}

type schemaBuilder struct {
	o    SchemaOptions
	defs *Schema
}

func (b *schemaBuilder) object(s *Schema, n *node, element bool) {
	s.Set("type", "object")
	props := new(Schema)
	for _, f := range n.fields {
		props.Set(f.Name, b.field(f))
	}
	s.Set("properties", props).Set("additionalProperties", false)
	required, instead := b.needs(n, element)
	if len(required) > 0 {
		s.Set("required", required)
	}
	var all []*Schema
	for i, name := range instead.keys {
		either := []*Schema{new(Schema).Set("required", []string{name}), new(Schema).Set("required", instead.values[i])}
		all = append(all, new(Schema).Set("anyOf", either))
	}
	if len(all) > 0 {
		s.Set("allOf", all)
	}
}

// needs returns the names an object must have, and by the name of a member
// those that it must have when that one is absent.
func (b *schemaBuilder) needs(n *node, element bool) (required []string, instead *Schema) {
	instead = new(Schema)
	for _, f := range n.fields {
		switch {
		case element && f == n.id:
			required = append(required, f.Name)
		case f.Need:
			need := b.o.Need(f)
			if need.Never {
				break
			}
			if need.Unless == "" {
				required = append(required, f.Name)
				break
			}
			var names []string
			for i, k := range instead.keys {
				if k == need.Unless {
					names = instead.values[i].([]string)
				}
			}
			instead.Set(need.Unless, append(names, f.Name))
		case f.Role == Group && !f.ptr:
			if r, i := b.needs(f.sub, false); len(r)+len(i.keys) > 0 {
				required = append(required, f.Name)
			}
		}
	}
	return required, instead
}

func (b *schemaBuilder) field(f *Field) *Schema {
	s := new(Schema)
	switch f.Role {
	case Text:
		switch {
		case len(f.Choices) > 0:
			s.Set("enum", f.Choices)
		case f.Name == "id":
			b.ref(s, "id", idSchema)
		default:
			b.ref(s, "text", textSchema)
		}
	case Flag:
		s.Set("type", "boolean")
	case Count:
		s.Set("type", "integer")
		if f.hasLow {
			s.Set("minimum", f.low)
		}
		if f.hasHigh {
			s.Set("maximum", f.high)
		}
	case Value:
		b.value(s, f)
	case Group:
		b.object(s, f.sub, false)
	case List:
		items := new(Schema)
		b.object(items, f.sub, true)
		s.Set("type", "array").Set("items", items)
	case Words:
		items := new(Schema)
		if len(f.Choices) > 0 {
			items.Set("type", "string").Set("enum", f.Choices)
		} else {
			b.ref(items, "text", textSchema)
		}
		s.Set("type", "array").Set("items", items)
	case PathTable:
		names, values := new(Schema), new(Schema)
		b.ref(names, "text", textSchema)
		b.ref(values, "text", textSchema)
		s.Set("type", "object").Set("propertyNames", names).Set("additionalProperties", values)
	}
	if d := b.describe(f); d != "" {
		s.Set("description", d)
	}
	return s
}

func (b *schemaBuilder) value(s *Schema, f *Field) {
	if f.Kind == 0 {
		name := strings.ToLower(f.typ.Name())
		b.ref(s, name, func() *Schema {
			p := new(Schema).Set("type", "string")
			if x, ok := reflect.Zero(f.typ).Interface().(interface{ Pattern() string }); ok {
				p.Set("pattern", x.Pattern())
			}
			return p
		})
		return
	}
	point := f.typ.Kind() != reflect.Float64
	signed := point || (f.hasLow && f.low < 0)
	name := f.Kind.String()
	if signed && !point {
		name = "signed-" + name
	}
	b.ref(s, name, func() *Schema { return quantitySchema(f.Kind, signed) })
	if _, bare := f.Kind.UnitOf(""); bare {
		if f.hasLow {
			s.Set("minimum", f.low)
		} else if !signed {
			s.Set("minimum", 0)
		}
		if f.hasHigh {
			s.Set("maximum", f.high)
		}
	}
}

func (b *schemaBuilder) ref(s *Schema, name string, def func() *Schema) {
	if b.defs.At(name) == nil {
		b.defs.Set(name, def())
	}
	s.Set("$ref", "#/$defs/"+name)
}

func (b *schemaBuilder) describe(f *Field) string {
	var out []string
	if f.Doc != "" {
		out = append(out, f.Doc)
	}
	if f.Low != "" || f.High != "" {
		out = append(out, f.rangeText())
	}
	if f.Default != "" {
		d := "when nothing is given: " + f.Default
		if f.Why != "" {
			d += " (" + f.Why + ")"
		}
		out = append(out, d)
	}
	if f.Ref != "" {
		out = append(out, "the id of one of "+f.Ref)
	}
	if f.Need && b.o.Need(f).Unless != "" {
		out = append(out, "needed, here or by "+b.o.Need(f).Unless)
	}
	return strings.Join(out, "; ")
}

func idSchema() *Schema {
	return new(Schema).Set("type", "string").Set("pattern", idForm.String()).Set("maxLength", maxID)
}

func textSchema() *Schema {
	var class strings.Builder
	for _, r := range unclean {
		class.WriteRune(r.low)
		if r.high > r.low {
			class.WriteByte('-')
			class.WriteRune(r.high)
		}
	}
	return new(Schema).Set("type", "string").Set("pattern", "^[^"+class.String()+"]*$").Set("maxLength", maxText)
}

// quantitySchema describes the text of a quantity: a decimal number or a shop
// fraction, then one of the spellings of the kind's units.
func quantitySchema(k units.Kind, signed bool) *Schema {
	const blank = "[" + blanks + "]"
	sign := `\+?`
	if signed {
		sign = `[+-]?`
	}
	var spellings []string
	bare := false
	for _, u := range k.Units() {
		if u.Symbol() == "" {
			bare = true
		}
		for _, s := range u.Spellings() {
			spellings = append(spellings, regexp.QuoteMeta(s))
		}
	}
	unit := ""
	if len(spellings) > 0 {
		unit = "(?:" + strings.Join(spellings, "|") + ")"
		if bare {
			unit += "?"
		}
	}
	number := sign + `(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?`
	fraction := `\+?(?:[0-9]{1,9}(?:` + blank + `+|-))?[0-9]{1,9}/0*[1-9][0-9]{0,8}`
	pattern := "^" + blank + "*(?:" + number + "|" + fraction + ")" + blank + "*" + unit + blank + "*$"
	s := new(Schema)
	if bare {
		s.Set("type", []string{"string", "number"})
	} else {
		s.Set("type", "string")
	}
	return s.Set("pattern", pattern).Set("maxLength", 200).
		Set("description", fmt.Sprintf("%s: a number and its unit, such as %s", strings.ReplaceAll(k.String(), "-", " "), k.Example()))
}

// JSON returns the text of the schema, indented, characters that do not print
// escaped.
func (s *Schema) JSON() []byte {
	var b bytes.Buffer
	s.write(&b, 0)
	b.WriteByte('\n')
	return b.Bytes()
}

func (s *Schema) write(b *bytes.Buffer, depth int) {
	indent := func(n int) {
		b.WriteByte('\n')
		for range n {
			b.WriteString("  ")
		}
	}
	b.WriteByte('{')
	for i, k := range s.keys {
		if i > 0 {
			b.WriteByte(',')
		}
		indent(depth + 1)
		writeString(b, k)
		b.WriteString(": ")
		switch v := s.values[i].(type) {
		case string:
			writeString(b, v)
		case bool:
			b.WriteString(strconv.FormatBool(v))
		case int:
			b.WriteString(strconv.Itoa(v))
		case float64:
			b.WriteString(strconv.FormatFloat(v, 'f', -1, 64))
		case []string:
			b.WriteByte('[')
			for j, x := range v {
				if j > 0 {
					b.WriteString(", ")
				}
				writeString(b, x)
			}
			b.WriteByte(']')
		case *Schema:
			v.write(b, depth+1)
		case []*Schema:
			b.WriteByte('[')
			for j, x := range v {
				if j > 0 {
					b.WriteByte(',')
				}
				indent(depth + 2)
				x.write(b, depth+2)
			}
			indent(depth + 1)
			b.WriteByte(']')
		}
	}
	if len(s.keys) > 0 {
		indent(depth)
	}
	b.WriteByte('}')
}

func writeString(b *bytes.Buffer, s string) {
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case unicode.IsPrint(r) && r != unicode.ReplacementChar:
			b.WriteRune(r)
		default:
			for _, u := range utf16.Encode([]rune{r}) {
				fmt.Fprintf(b, `\u%04x`, u)
			}
		}
	}
	b.WriteByte('"')
}
