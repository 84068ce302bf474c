package quote_test

import (
	"os"
	"reflect"
	"testing"

	"example.com/washrig/internal/golden"
	"example.com/washrig/internal/jsonschema"
	"example.com/washrig/rig/quote"
)

// The committed schemas are those the types give.
func TestSchemas_inStep(t *testing.T) {
	for _, s := range []struct {
		name, have, title, doc string
		typ                    reflect.Type
	}{
		{"quote.schema.json", quote.Schema(), "Quote of a wash rig, the dealer's own", "Cost, price and both ratios. Not for customers.", reflect.TypeFor[quote.Quote]()},
		{"customer-quote.schema.json", quote.CustomerSchema(), "Quote of a wash rig for the customer", "Prices alone.", reflect.TypeFor[quote.CustomerQuote]()},
	} {
		got, err := jsonschema.Make(s.typ, jsonschema.Options{ID: s.name, Title: s.title, Doc: s.doc + " Members may be added within a format number."})
		if err != nil {
			t.Fatal(err)
		}
		if golden.Update() {
			if err := os.WriteFile("schema/"+s.name, got, 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if d := golden.Diff([]byte(s.have), got); d != "" {
			t.Errorf("schema/%s is out of step with the types (run the test with -update):\n%s", s.name, d)
		}
	}
}
