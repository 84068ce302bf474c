package jsonschema

import (
	"reflect"
	"strings"
	"testing"
)

type inner struct {
	Unit string `json:"unit" enum:"psi|bar"`
}

type outer struct {
	Format string            `json:"format" const:"x/1" doc:"format"`
	Count  int               `json:"count"`
	Size   float64           `json:"size,omitempty"`
	List   []inner           `json:"list"`
	Any    map[string]string `json:"any,omitempty"`
	Hidden string            `json:"-"`
	Flag   bool              `json:"flag,omitzero"`
}

func TestMakeAndCheck(t *testing.T) {
	schema, err := Make(reflect.TypeFor[outer](), Options{ID: "x.schema.json", Title: "X", Doc: "about x", Closed: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, doc string
		want      []string // parts of the error; none if the document is right
	}{
		{"least", `{"format":"x/1","count":0,"list":[]}`, nil},
		{"all", `{"format":"x/1","count":2,"size":1.5,"list":[{"unit":"psi"}],"any":{"a":"b"},"flag":true}`, nil},
		{"a whole number is a number", `{"format":"x/1","count":2,"size":1,"list":[]}`, nil},
		{"missing", `{"format":"x/1","list":[]}`, []string{"count is missing"}},
		{"other format", `{"format":"x/2","count":0,"list":[]}`, []string{"/format"}},
		{"not whole", `{"format":"x/1","count":0.5,"list":[]}`, []string{"/count"}},
		{"word", `{"format":"x/1","count":0,"list":[{"unit":"Pa"}]}`, []string{"/list/0/unit"}},
		{"null", `{"format":"x/1","count":0,"list":null}`, []string{"/list"}},
		{"unknown", `{"format":"x/1","count":0,"list":[],"more":1}`, []string{`"more"`}},
		{"value of a map", `{"format":"x/1","count":0,"list":[],"any":{"a":1}}`, []string{"/any/a"}},
		{"two problems", `{"format":"x/2","list":[]}`, []string{"/format", "count is missing"}},
		{"not JSON", `{`, []string{"document"}},
	} {
		err := Check(schema, []byte(c.doc))
		if (err == nil) != (c.want == nil) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: %v lacks %q", c.name, err, w)
			}
		}
	}
	if err := Check([]byte(`{"type":"object","maxProperties":1}`), []byte(`{}`)); err == nil {
		t.Error("a keyword the kit does not know passed in silence")
	}
	if _, err := Make(reflect.TypeFor[struct{ X int }](), Options{}); err == nil {
		t.Error("a field without a tag passed")
	}
}
