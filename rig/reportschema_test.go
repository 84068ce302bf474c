package rig

import (
	"os"
	"reflect"
	"testing"

	"example.com/washrig/internal/golden"
	"example.com/washrig/internal/jsonschema"
)

// QuantitySchema is the schema of a quantity in documents of the project.
var quantitySchema = jsonschema.Schema{
	"type": "object", "required": []any{"kind", "value", "unit"}, "additionalProperties": false,
	"properties": jsonschema.Schema{
		"kind":  jsonschema.Schema{"type": "string", "description": "kind of quantity, such as pressure"},
		"value": jsonschema.Schema{"type": "number", "description": "the number, counted in the unit"},
		"unit":  jsonschema.Schema{"type": "string", "description": "the unit; empty for a plain number"},
	},
}

// The committed schema is the one the types give.
func TestReportSchema_inStep(t *testing.T) {
	got, err := jsonschema.Make(reflect.TypeFor[jsonReport](), jsonschema.Options{
		ID: "report.schema.json", Title: "Report of a wash rig", Doc: "What an assessment found, with every number of every state. Members may be added within a format number.",
		Types: map[reflect.Type]jsonschema.Schema{
			reflect.TypeFor[jsonQuantity](): quantitySchema,
			reflect.TypeFor[Severity]():     {"type": "string", "enum": []any{"pass", "note", "fix", "cannot judge", "stop"}},
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	if golden.Update() {
		if err := os.WriteFile("schema/report.schema.json", got, 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := golden.Diff([]byte(ReportSchema()), got); d != "" {
		t.Errorf("schema/report.schema.json is out of step with the types (run the test with -update):\n%s", d)
	}
}
