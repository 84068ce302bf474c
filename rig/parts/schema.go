package parts

import (
	"reflect"
	"slices"

	"example.com/washrig/internal/fields"
)

// Schema returns a JSON Schema, draft 2020-12, of the files ReadJSON reads.
//
// It takes every file that ReadJSON takes. It cannot say, and leaves to
// ReadJSON: whether a quantity lies in its range, whether a number stands twice
// on the shelf, a member twice in an object or a day in its month, how large a
// file may be, and whether it is UTF-8.
func Schema() ([]byte, error) {
	t, err := shelfTable()
	if err != nil {
		return nil, err
	}
	s := t.Schema(fields.SchemaOptions{
		ID:      "shelf.schema.json",
		Title:   "washrig shelf",
		Comment: "Generated from the field table. Not expressible: ranges of quantities, numbers that stand twice, sizes.",
		Need: func(f *fields.Field) fields.Need {
			// Ratings a part leaves out may be given by the specification.
			return fields.Need{Never: f.Owner() != reflect.TypeFor[shelf]() && f.Owner() != reflect.TypeFor[Part]()}
		},
	})
	s.At("properties", "format").Set("const", Format)
	// A part has the ratings of its kind, and no others.
	part := s.At("properties", "parts", "items")
	part.At("properties", "number").Set("minLength", 1)
	obj := func(key string, value any) *fields.Schema { return new(fields.Schema).Set(key, value) }
	var rules []*fields.Schema
	for _, k := range Kinds() {
		isKind := obj("properties", obj("kind", obj("const", string(k))))
		if k == KindItem {
			continue
		}
		rules = append(rules, obj("if", isKind).Set("then", obj("required", []string{string(k)})).
			Set("else", obj("properties", obj(string(k), false))))
	}
	part.Set("allOf", rules)
	return s.JSON(), nil
}

// MappingSchema returns a JSON Schema, draft 2020-12, of the files ReadMapping
// reads. It cannot say which unit fits which field.
func MappingSchema() ([]byte, error) {
	t, err := mappingTable()
	if err != nil {
		return nil, err
	}
	s := t.Schema(fields.SchemaOptions{
		ID:      "mapping.schema.json",
		Title:   "washrig mapping of a spreadsheet",
		Comment: "Generated from the field table. Not expressible: which unit, currency or order of days belongs to which field.",
	})
	s.At("properties", "format").Set("const", MappingFormat)
	if p, err := partTable(); err == nil {
		var paths []string
		for _, f := range p.Rows() {
			if f.Role != fields.Group {
				paths = append(paths, f.Pattern)
			}
		}
		s.At("properties", "columns", "items", "properties", "field").Set("enum", paths)
		shared := slices.DeleteFunc(slices.Clone(paths), func(p string) bool { return p == "number" })
		s.At("properties", "fixed", "propertyNames").Set("enum", shared)
	}
	return s.JSON(), nil
}
