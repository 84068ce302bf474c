package rig

import (
	"reflect"
	"sync"

	"example.com/washrig/internal/fields"
)

// A Path names a field, an element or a result: names joined by dots, an
// element of a list by its id in brackets, as in lines[left].hose.length. A
// path with empty brackets, lines[].hose.length, is a pattern that covers
// every element. Errors, findings, defaults, basis, tolerances, changes and
// results share this grammar.
type Path string

// Pattern returns the path with every id left out of its brackets.
func (p Path) Pattern() Path { return Path(fields.Pattern(string(p))) }

// covers reports whether an entry of a path table applies to path: it names
// the path itself or a subtree above it.
func (p Path) covers(path Path) bool {
	return p == path || (len(path) > len(p) && path[:len(p)] == p && (path[len(p)] == '.' || path[len(p)] == '['))
}

var specTable = sync.OnceValues(func() (*fields.Table, error) { return fields.Of(reflect.TypeFor[Spec]()) })

// A FieldDoc describes one field of the specification's vocabulary.
type FieldDoc struct {
	Path     Path // a pattern such as lines[].hose.length
	Kind     string
	Low      string // smallest accepted value, empty if open
	High     string
	Default  string // value taken, and recorded as assumed, when nothing is given
	Why      string // where the default comes from
	Choices  []string
	Required bool
	Group    string
	Doc      string
}

// Fields returns the vocabulary of a specification in file order: what a form,
// a spreadsheet header or a schema is made from.
func Fields() ([]FieldDoc, error) {
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	var out []FieldDoc
	for _, f := range t.Rows() {
		kind := f.Role.String()
		if f.Role == fields.Value {
			kind = f.Type().Name()
			if f.Kind != 0 {
				kind = f.Kind.String()
			}
		}
		out = append(out, FieldDoc{
			Path: Path(f.Pattern), Kind: kind, Low: f.Low, High: f.High, Default: f.Default, Why: f.Why,
			Choices: append([]string(nil), f.Choices...), Required: f.Need, Group: f.Group, Doc: f.Doc,
		})
	}
	return out, nil
}
