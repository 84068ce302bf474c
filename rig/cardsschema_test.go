package rig

import (
	"encoding/json"
	"reflect"
	"testing"

	"example.com/washrig/internal/jsonschema"
	"example.com/washrig/units"
)

// memberOf is the schema of a type that writes itself as JSON the way another type is
// written.
func memberOf(t *testing.T, as reflect.Type, types map[reflect.Type]jsonschema.Schema) jsonschema.Schema {
	t.Helper()
	b, err := jsonschema.Make(as, jsonschema.Options{Types: types})
	if err != nil {
		t.Fatal(err)
	}
	var s jsonschema.Schema
	if err := json.Unmarshal(b, &s); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"$schema", "$id", "title", "description", "$defs"} {
		delete(s, name) // the quantities it refers to stand in the document it goes into
	}
	return s
}

// The committed schema is the one the types give.
func TestCardsSchema_inStep(t *testing.T) {
	quantity := jsonschema.Schema{}
	for k, v := range quantitySchema {
		quantity[k] = v
	}
	quantity["type"] = []any{"object", "null"} // null: not known
	types := reportTypes()
	types[reflect.TypeFor[jsonQuantity]()], types[reflect.TypeFor[units.Quantity]()] = quantity, quantity
	types[reflect.TypeFor[CardStep]()] = memberOf(t, reflect.TypeFor[jsonStep](), types)
	types[reflect.TypeFor[CardFigure]()] = memberOf(t, reflect.TypeFor[jsonFigure](), types)
	inStep(t, CardsSchema(), reflect.TypeFor[Cards](), jsonschema.Options{ID: "cards.schema.json", Title: "Cards of a wash rig", Types: types,
		Doc: "What is done by hand: a card for each mode, plugs, the walk-round, parking and winter. Members may be added within a format number."})
}
