package sheet_test

import (
	"os"
	"reflect"
	"testing"

	"example.com/washrig/internal/golden"
	"example.com/washrig/internal/jsonschema"
	"example.com/washrig/rig/sheet"
)

// The committed schema is the one the types give.
func TestCustomerPageSchema_inStep(t *testing.T) {
	got, err := jsonschema.Make(reflect.TypeFor[sheet.CustomerPage](), jsonschema.Options{ID: "customer-page.schema.json",
		Title: "What a customer is shown of a wash rig", Doc: "Words and prices alone. Members may be added within a format number."})
	if err != nil {
		t.Fatal(err)
	}
	if golden.Update() {
		if err := os.WriteFile("schema/customer-page.schema.json", got, 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := golden.Diff([]byte(sheet.CustomerPageSchema()), got); d != "" {
		t.Errorf("schema/customer-page.schema.json is out of step with the types (run the test with -update):\n%s", d)
	}
}
