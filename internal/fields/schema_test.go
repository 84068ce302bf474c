package fields_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// judge says whether a JSON value keeps to a schema. It knows the keywords that
// [fields.Table.Schema] uses and fails on any other.
//
// Source: JSON Schema Core and Validation, draft 2020-12.
func judge(root, schema map[string]any, v any) error {
	for _, key := range slices.Sorted(func(yield func(string) bool) {
		for k := range schema {
			if !yield(k) {
				return
			}
		}
	}) {
		arg := schema[key]
		bad := func() error { return fmt.Errorf("%s %v: %v", key, arg, v) }
		object, isObject := v.(map[string]any)
		text, isText := v.(string)
		number, isNumber := v.(float64)
		switch key {
		case "$schema", "$id", "$comment", "$defs", "title", "description":
		case "$ref":
			name, ok := strings.CutPrefix(arg.(string), "#/$defs/")
			def, has := root["$defs"].(map[string]any)[name].(map[string]any)
			if !ok || !has {
				return fmt.Errorf("no definition %v", arg)
			}
			if err := judge(root, def, v); err != nil {
				return err
			}
		case "type":
			kinds, ok := arg.([]any)
			if !ok {
				kinds = []any{arg}
			}
			is := map[string]bool{"object": isObject, "string": isText, "number": isNumber, "integer": isNumber && number == math.Trunc(number)}
			_, is["array"] = v.([]any)
			_, is["boolean"] = v.(bool)
			if !slices.ContainsFunc(kinds, func(k any) bool { return is[k.(string)] }) {
				return bad()
			}
		case "enum":
			if !slices.Contains(arg.([]any), v) {
				return bad()
			}
		case "const":
			if arg != v {
				return bad()
			}
		case "pattern":
			if isText && !regexp.MustCompile(arg.(string)).MatchString(text) {
				return bad()
			}
		case "maxLength":
			if isText && utf8.RuneCountInString(text) > int(arg.(float64)) {
				return bad()
			}
		case "minimum":
			if isNumber && number < arg.(float64) {
				return bad()
			}
		case "maximum":
			if isNumber && number > arg.(float64) {
				return bad()
			}
		case "items":
			list, _ := v.([]any)
			for i, x := range list {
				if err := judge(root, arg.(map[string]any), x); err != nil {
					return fmt.Errorf("[%d]: %w", i, err)
				}
			}
		case "required":
			for _, name := range arg.([]any) {
				if _, has := object[name.(string)]; isObject && !has {
					return bad()
				}
			}
		case "properties":
			for name, s := range arg.(map[string]any) {
				if x, has := object[name]; has {
					if err := judge(root, s.(map[string]any), x); err != nil {
						return fmt.Errorf("%s: %w", name, err)
					}
				}
			}
		case "additionalProperties":
			known, _ := schema["properties"].(map[string]any)
			for name, x := range object {
				if _, has := known[name]; has {
					continue
				}
				if s, ok := arg.(map[string]any); !ok {
					return fmt.Errorf("%s is not known", name)
				} else if err := judge(root, s, x); err != nil {
					return err
				}
			}
		case "propertyNames":
			for name := range object {
				if err := judge(root, arg.(map[string]any), name); err != nil {
					return err
				}
			}
		case "anyOf":
			if !slices.ContainsFunc(arg.([]any), func(s any) bool { return judge(root, s.(map[string]any), v) == nil }) {
				return bad()
			}
		case "allOf":
			for _, s := range arg.([]any) {
				if err := judge(root, s.(map[string]any), v); err != nil {
					return err
				}
			}
		default:
			return fmt.Errorf("unknown keyword %s", key)
		}
	}
	return nil
}

// schemaOf returns the schema of sample as any JSON reader sees it.
func schemaOf(t testing.TB, o fields.SchemaOptions) func(doc string) error {
	t.Helper()
	var root map[string]any
	if err := json.Unmarshal(tableOf[sample](t).Schema(o).JSON(), &root); err != nil {
		t.Fatal(err)
	}
	return func(doc string) error {
		var v any
		if err := json.Unmarshal([]byte(doc), &v); err != nil {
			return err
		}
		return judge(root, root, v)
	}
}

// The list of refused documents: those that the schema cannot see to be wrong
// are named, so that the list of its limits in the documentation stays true.
func TestSchema_refuses(t *testing.T) {
	check := schemaOf(t, fields.SchemaOptions{})
	for _, c := range []struct {
		doc  string
		sees bool
	}{
		{`{}`, true},
		{`[]`, true},
		{`{"format": "a", "flows": "4 gpm"}`, true},
		{`{"format": "a", "Flow": "4 gpm"}`, true},
		{`{"format": "a", "flow": 4}`, true},
		{`{"format": "a", "flow": "4"}`, true},
		{`{"format": "a", "flow": "4 psi"}`, true},
		{`{"format": "a", "flow": "-4 gpm"}`, true},
		{`{"format": "a", "flow": "4,5 gpm"}`, true},
		{`{"format": "a", "flow": "4 gpm 5"}`, true},
		{`{"format": "a", "flow": "1/0 gpm"}`, true},
		{`{"format": "a", "flow": "-1/2 gpm"}`, true},
		{`{"format": "a", "flow": "gpm"}`, true},
		{`{"format": "a", "flow": ""}`, true},
		{`{"format": "a", "flow": null}`, true},
		{`{"format": "a", "drop": "-0 psi"}`, true},
		{`{"format": "a", "height": "5 psi"}`, true},
		{`{"format": "a", "count": 10}`, true},
		{`{"format": "a", "count": 2.5}`, true},
		{`{"format": "a", "share": 84}`, true},
		{`{"format": "a", "share": true}`, true},
		{`{"format": "a", "number": 0}`, true},
		{`{"format": "a", "valve": "ajar"}`, true},
		{`{"format": "a", "color": "green"}`, true},
		{`{"format": "a", "plant": "true"}`, true},
		{`{"format": "a", "basin": []}`, true},
		{`{"format": "a", "lines": [{}]}`, true},
		{`{"format": "a", "lines": [{"id": "Left"}]}`, true},
		{`{"format": "a", "basin": {"part": "a\u202e"}}`, true},
		{`{"format": "a", "basin": {"part": "a\u001b"}}`, true},
		{`{"format": "a", "basin": {"part": "` + strings.Repeat("x", 2001) + `"}}`, true},
		{`{"format": "a", "guns": ["a\n"]}`, true},
		{`{"format": "a", "notes": {"a": 1}}`, true},
		{`{"format": "a", "notes": {"a\u0000": ""}}`, true},
		// Beyond a schema:
		{`{"format": "a", "flow": "400 gpm"}`, false},
		{`{"format": "a", "share": "1 %"}`, false},
		{`{"format": "a", "flow": "1 9/8 gpm"}`, false},
		{`{"format": "a", "flow": "1e999 gpm"}`, false},
		{`{"format": "a", "count": 2.0}`, false},
		{`{"format": "a", "lines": [{"id": "a"}, {"id": "a"}]}`, false},
		{`{"format": "a", "plant": true, "plant": true}`, false},
		{`{"format": "a", "basin": {"part": "` + strings.Repeat("水", 1000) + `"}}`, false},
		{`{"format": "a", "lines": [` + strings.Repeat(`{"id": "a"},`, 2000) + `{"id": "b"}]}`, false},
	} {
		short := c.doc[:min(len(c.doc), 80)]
		if err := check(c.doc); (err != nil) != c.sees {
			t.Errorf("%s: the schema says %v", short, err)
		}
		if _, err := decode(t, c.doc); err == nil && c.doc != "{}" { // Decode leaves what is missing to others
			t.Errorf("%s: Decode takes it", short)
		}
	}
}

// Whatever the library writes keeps to the schema.
func TestSchema_takesWhatIsWritten(t *testing.T) {
	check, table := schemaOf(t, fields.SchemaOptions{}), tableOf[sample](t)
	property.Check(t, func(g *property.G) error {
		var b bytes.Buffer
		if err := table.Encode(&b, randomSample(g)); err != nil {
			return err
		}
		if err := check(b.String()); err != nil {
			return fmt.Errorf("%w in\n%s", err, b.String())
		}
		return nil
	})
}

// Every spelling of every unit, in every form of a number: the schema's pattern
// and package units agree.
func TestSchema_quantities(t *testing.T) {
	type any1 struct {
		A units.AbsolutePressure    `json:"a"`
		B units.Temperature         `json:"b"`
		C units.Length              `json:"c"`
		D units.Position            `json:"d"`
		E units.Ratio               `json:"e"`
		F units.NozzleNumber        `json:"f"`
		G units.Duration            `json:"g"`
		H units.ResistancePerLength `json:"h"`
		I units.Pressure            `json:"i"`
	}
	table := tableOf[any1](t)
	var root map[string]any
	if err := json.Unmarshal(table.Schema(fields.SchemaOptions{}).JSON(), &root); err != nil {
		t.Fatal(err)
	}
	property.Check(t, func(g *property.G) error {
		f := table.Rows()[g.Pick(len(table.Rows()))]
		u := f.Kind.Units()[g.Pick(len(f.Kind.Units()))]
		if g.Int(0, 9) == 9 { // a unit of another kind now and then
			u = units.KindPower.Units()[0]
		}
		unit := ""
		if s := u.Spellings(); len(s) > 0 {
			unit = s[g.Pick(len(s))]
		}
		number := property.OneOf(g, "1", "007", "1.", ".5", "1.5", "1e2", "1.5E-2", "+2", "-2", "-0", "3/8", "+3/8", "-3/8", "6 1/2", "1-1/2", "1\u00a01/2",
			"1 9/8", "1/0", "1/00", "1.5/2", "1 1.5/2", "1/1234567890", "1,5", "1_000", "1 000", "", ".", "e5", "1e", "0x1p2", "NaN", "Inf", "−1", "1e999", "--1")
		text := property.OneOf(g, "", " ", "\u00a0") + number + property.OneOf(g, "", " ", "\u202f\t") + unit + property.OneOf(g, "", " ", "\n", "x")
		doc, _ := json.Marshal(map[string]string{f.Name: text})
		reads := table.Decode(bytes.NewReader(doc), new(any1), fields.Limits{})
		var v any
		if err := json.Unmarshal(doc, &v); err != nil {
			return err
		}
		keeps := judge(root, root, v)
		// What a pattern cannot tell: the size of a number and of a fraction.
		beyond := strings.Contains(number, "9/8") || strings.Contains(number, "1e999") ||
			f.Kind == units.KindTemperature && strings.HasPrefix(number, "-")
		if (reads == nil) != (keeps == nil) && (keeps != nil || !beyond) {
			return fmt.Errorf("%q as %v: Decode says %v, the schema %v", text, f.Kind, reads, keeps)
		}
		return nil
	})
}

func TestSchema_needs(t *testing.T) {
	type pump struct {
		ID    string           `json:"id"`
		Part  string           `json:"part"`
		Flow  units.VolumeFlow `json:"flow" need:"yes"`
		Head  units.Length     `json:"head" need:"yes"`
		Tank  string           `json:"tank" need:"yes"`
		Valve struct {
			Part    string         `json:"part"`
			Setting units.Pressure `json:"setting" need:"yes"`
		} `json:"valve"`
		Note string `json:"note" need:"yes"`
	}
	type doc struct {
		Pumps []pump `json:"pumps"`
		Spare *pump  `json:"spare"`
		Rest  struct {
			Count int `json:"count"`
		} `json:"rest"`
	}
	need := func(f *fields.Field) fields.Need {
		switch f.Name {
		case "note":
			return fields.Need{Never: true}
		case "tank":
			return fields.Need{}
		}
		return fields.Need{Unless: "part"}
	}
	var root map[string]any
	if err := json.Unmarshal(tableOf[doc](t).Schema(fields.SchemaOptions{Need: need}).JSON(), &root); err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]bool{
		`{}`:             true,
		`{"pumps": []}`:  true,
		`{"rest": {}}`:   true,
		`{"pumps":[{}]}`: false,
		`{"pumps":[{"id": "a", "part": "P68", "tank": "t", "valve": {"part": "V"}}]}`:                                      true,
		`{"pumps":[{"id": "a", "flow": "4 gpm", "head": "9 ft", "tank": "t", "valve": {"setting": "2900 psi"}}]}`:          true,
		`{"pumps":[{"part": "P68", "tank": "t", "valve": {"part": "V"}}]}`:                                                 false,
		`{"pumps":[{"id": "a", "flow": "4 gpm", "tank": "t", "valve": {"part": "V"}}]}`:                                    false,
		`{"pumps":[{"id": "a", "part": "P68", "valve": {"part": "V"}}]}`:                                                   false,
		`{"pumps":[{"id": "a", "part": "P68", "tank": "t"}]}`:                                                              false,
		`{"pumps":[{"id": "a", "part": "P68", "tank": "t", "valve": {}}]}`:                                                 false,
		`{"spare": {"part": "P68", "tank": "t", "valve": {"part": "V"}}}`:                                                  true, // not an element
		`{"spare": {"flow": "4 gpm", "head": "9 ft", "valve": {"setting": "2900 psi"}}}`:                                   false,
		`{"pumps":[{"id": "a", "part": "P68", "tank": "t", "valve": {"part": "V"}}], "spare": {"part": "x", "tank": "t"}}`: false,
	} {
		var v any
		if err := json.Unmarshal([]byte(text), &v); err != nil {
			t.Fatal(err)
		}
		if err := judge(root, root, v); (err == nil) != want {
			t.Errorf("%s: %v", text, err)
		}
	}
}

func TestSchema_tree(t *testing.T) {
	s := tableOf[sample](t).Schema(fields.SchemaOptions{ID: "https://example.com/sample", Title: "a sample", Comment: "none"})
	s.At("properties", "format").Set("const", "sample/1")
	if s.At("properties", "nothing", "below") != nil {
		t.Error("found what is not there")
	}
	if got := s.At("properties").Keys(); !reflect.DeepEqual(got[:3], []string{"format", "plant", "count"}) {
		t.Errorf("order of properties: %q", got)
	}
	text := string(s.JSON())
	for _, want := range []string{`"const": "sample/1"`, `"$id": "https://example.com/sample"`, `"additionalProperties": false`, `\u0000-\u001f`, `\udb40\udc00`,
		`delivery; 0.1 gpm to 40 gpm`, `when nothing is given: 2 (a pair)`, `the id of one of lines`, `"minimum": 0.05`} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in\n%s", want, text)
		}
	}
	if !json.Valid([]byte(text)) {
		t.Error("not JSON")
	}
}
