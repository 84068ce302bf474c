package jsonschema

import (
	"bytes"
	"encoding"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
)

// Draft is the schema dialect that Make writes.
const Draft = "https://json-schema.org/draft/2020-12/schema"

// A Schema is a JSON Schema as encoding/json reads one.
type Schema = map[string]any

// Options say what a schema is about.
type Options struct {
	ID     string // its name, relative: "report.schema.json"
	Title  string
	Doc    string
	Closed bool                    // refuse members the type does not have: for what is read, not for what is written
	Types  map[reflect.Type]Schema // schemas of types that write themselves as JSON
}

// Make returns the schema of a struct type as indented JSON. Each field gives
// its name by the tag json, its description by doc, its only value by const,
// its words by enum, separated by bars. A field with omitempty or omitzero need
// not be there.
func Make(t reflect.Type, o Options) ([]byte, error) {
	m := &maker{Options: o, defs: Schema{}}
	root, err := m.object(t)
	if err != nil {
		return nil, err
	}
	root["$schema"], root["$id"], root["title"], root["description"] = Draft, o.ID, o.Title, o.Doc
	if len(m.defs) > 0 {
		root["$defs"] = m.defs
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	err = enc.Encode(root)
	return b.Bytes(), err
}

type maker struct {
	Options
	defs Schema
}

func (m *maker) object(t reflect.Type) (Schema, error) {
	props := Schema{}
	required := []string{}
	for i := range t.NumField() {
		f := t.Field(i)
		name, opts, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "-" {
			continue
		}
		if name == "" {
			return nil, fmt.Errorf("jsonschema: %v.%s has no json tag", t, f.Name)
		}
		s, err := m.of(f.Type)
		if err != nil {
			return nil, fmt.Errorf("%v.%s: %w", t, f.Name, err)
		}
		s = with(s, f.Tag)
		props[name] = s
		if opts == "" {
			required = append(required, name)
		}
	}
	s := Schema{"type": "object", "properties": props, "required": required}
	if m.Closed {
		s["additionalProperties"] = false
	}
	return s, nil
}

// with adds what a field's tags say to the schema of its type.
func with(s Schema, tag reflect.StructTag) Schema {
	out := Schema{}
	for k, v := range s {
		out[k] = v
	}
	if d := tag.Get("doc"); d != "" {
		out["description"] = d
	}
	if c := tag.Get("const"); c != "" {
		out["const"] = c
	}
	if e := tag.Get("enum"); e != "" {
		out["enum"] = strings.Split(e, "|")
	}
	if p := tag.Get("pattern"); p != "" {
		out["pattern"] = p
	}
	return out
}

var text = reflect.TypeFor[encoding.TextMarshaler]()

func (m *maker) of(t reflect.Type) (Schema, error) {
	if s, ok := m.Types[t]; ok {
		return m.named(t, func() (Schema, error) { return s, nil })
	}
	if t.Kind() == reflect.Pointer {
		return m.of(t.Elem())
	}
	if t.Implements(text) {
		return Schema{"type": "string"}, nil
	}
	switch t.Kind() {
	case reflect.String:
		return Schema{"type": "string"}, nil
	case reflect.Bool:
		return Schema{"type": "boolean"}, nil
	case reflect.Int, reflect.Int64, reflect.Int32:
		return Schema{"type": "integer"}, nil
	case reflect.Float64:
		return Schema{"type": "number"}, nil
	case reflect.Slice:
		s, err := m.of(t.Elem())
		return Schema{"type": "array", "items": s}, err
	case reflect.Map:
		s, err := m.of(t.Elem())
		return Schema{"type": "object", "additionalProperties": s}, err
	case reflect.Struct:
		return m.named(t, func() (Schema, error) { return m.object(t) })
	}
	return nil, fmt.Errorf("jsonschema: no schema for %v", t)
}

// named puts the schema of a type among the definitions and returns a
// reference to it.
func (m *maker) named(t reflect.Type, s func() (Schema, error)) (Schema, error) {
	name := strings.ToLower(strings.TrimPrefix(t.Name(), "json"))
	if _, done := m.defs[name]; !done {
		m.defs[name] = nil
		d, err := s()
		if err != nil {
			return nil, err
		}
		m.defs[name] = d
	}
	return Schema{"$ref": "#/$defs/" + name}, nil
}
