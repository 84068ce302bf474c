package jsonschema

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strings"
)

// Check holds a JSON document against a schema and returns everything that is
// wrong, joined.
func Check(schema, document []byte) error {
	var s Schema
	if err := json.Unmarshal(schema, &s); err != nil {
		return fmt.Errorf("schema: %w", err)
	}
	var doc any
	d := json.NewDecoder(bytes.NewReader(document))
	if err := d.Decode(&doc); err != nil {
		return fmt.Errorf("document: %w", err)
	}
	c := &checker{root: s}
	c.value(s, doc, "")
	return errors.Join(c.errs...)
}

type checker struct {
	root Schema
	errs []error
}

func (c *checker) fail(at, format string, args ...any) {
	if at == "" {
		at = "/"
	}
	c.errs = append(c.errs, fmt.Errorf("%s: %s", at, fmt.Sprintf(format, args...)))
}

func (c *checker) value(s Schema, v any, at string) {
	for _, key := range sortedKeys(s) {
		arg := s[key]
		switch key {
		case "$schema", "$id", "$defs", "title", "description", "properties", "required", "additionalProperties", "items", "$comment", "examples", "default":
		case "$ref":
			name, ok := strings.CutPrefix(arg.(string), "#/$defs/")
			def, found := c.root["$defs"].(Schema)[name].(Schema)
			if !ok || !found {
				c.fail(at, "the schema refers to %v, which is not there", arg)
				continue
			}
			c.value(def, v, at)
		case "type":
			types, ok := arg.([]any)
			if !ok {
				types = []any{arg}
			}
			if got := typeOf(v); !slices.ContainsFunc(types, func(t any) bool { return t == got || t == "number" && got == "integer" }) {
				c.fail(at, "%s where %v is wanted", got, arg)
			}
		case "const":
			if !reflect.DeepEqual(arg, v) {
				c.fail(at, "%v where %v is wanted", v, arg)
			}
		case "enum":
			if !slices.ContainsFunc(arg.([]any), func(x any) bool { return reflect.DeepEqual(x, v) }) {
				c.fail(at, "%v is none of %v", v, arg)
			}
		case "pattern":
			if t, ok := v.(string); ok {
				re, err := regexp.Compile(arg.(string))
				if err != nil || !re.MatchString(t) {
					c.fail(at, "%q does not match %v", t, arg)
				}
			}
		case "minimum":
			if x, ok := v.(float64); ok && x < arg.(float64) {
				c.fail(at, "%v is below %v", x, arg)
			}
		default:
			c.fail(at, "the schema has the keyword %q, which this kit does not know", key)
		}
	}
	switch v := v.(type) {
	case map[string]any:
		c.object(s, v, at)
	case []any:
		if items, ok := s["items"].(Schema); ok {
			for i, x := range v {
				c.value(items, x, fmt.Sprintf("%s/%d", at, i))
			}
		}
	}
}

func (c *checker) object(s Schema, v map[string]any, at string) {
	props, _ := s["properties"].(Schema)
	if need, ok := s["required"].([]any); ok {
		for _, n := range need {
			if _, there := v[n.(string)]; !there {
				c.fail(at, "%v is missing", n)
			}
		}
	}
	for _, k := range sortedKeys(v) {
		if p, ok := props[k].(Schema); ok {
			c.value(p, v[k], at+"/"+k)
			continue
		}
		switch more := s["additionalProperties"].(type) {
		case Schema:
			c.value(more, v[k], at+"/"+k)
		case bool:
			if !more {
				c.fail(at, "%q is not in the schema", k)
			}
		}
	}
}

func typeOf(v any) string {
	switch v := v.(type) {
	case nil:
		return "null"
	case bool:
		return "boolean"
	case string:
		return "string"
	case float64:
		if v == math.Trunc(v) {
			return "integer"
		}
		return "number"
	case []any:
		return "array"
	}
	return "object"
}

func sortedKeys(m map[string]any) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}
