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

// inStep holds a committed schema against the one that the types give.
func inStep(t *testing.T, committed string, of reflect.Type, o jsonschema.Options) {
	t.Helper()
	got, err := jsonschema.Make(of, o)
	if err != nil {
		t.Fatal(err)
	}
	file := "schema/" + o.ID
	if golden.Update() {
		if err := os.WriteFile(file, got, 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := golden.Diff([]byte(committed), got); d != "" {
		t.Errorf("%s is out of step with the types (run the test with -update):\n%s", file, d)
	}
}

// reportTypes are the schemas of what writes itself in a report.
func reportTypes() map[reflect.Type]jsonschema.Schema {
	return map[reflect.Type]jsonschema.Schema{
		reflect.TypeFor[jsonQuantity](): quantitySchema,
		reflect.TypeFor[Severity]():     {"type": "string", "enum": []any{"pass", "note", "fix", "cannot judge", "stop"}},
	}
}

// The committed schemas are those that the types give.
func TestReportSchema_inStep(t *testing.T) {
	inStep(t, ReportSchema(), reflect.TypeFor[jsonReport](), jsonschema.Options{ID: "report.schema.json", Title: "Report of a wash rig", Types: reportTypes(),
		Doc: "What an assessment found, with every number of every state. Members may be added within a format number."})
}

func TestTraceSchema_inStep(t *testing.T) {
	inStep(t, TraceSchema(), reflect.TypeFor[jsonTrace](), jsonschema.Options{ID: "trace.schema.json", Title: "What a number of a wash rig rests on", Types: reportTypes(),
		Doc: "One number with its formula, the inputs that move it and the numbers it is computed from. Members may be added within a format number."})
}

func TestDifferenceSchema_inStep(t *testing.T) {
	inStep(t, DifferenceSchema(), reflect.TypeFor[jsonDifference](), jsonschema.Options{ID: "difference.schema.json", Title: "What changed between two reports of wash rigs", Types: reportTypes(),
		Doc: "Numbers and findings that are not the same in both. Members may be added within a format number."})
}
