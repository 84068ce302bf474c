package rig

import (
	"reflect"

	"example.com/washrig/internal/fields"
	"example.com/washrig/rig/parts"
)

// Schema returns a JSON Schema, draft 2020-12, of specifications that New can
// make a model of, as far as a schema can tell. Ratings of a component that
// names a part are not required, since the shelf may give them.
//
// It takes every specification that New takes. It cannot say, and leaves to
// ReadSpec and New: whether a quantity lies in its range, whether ids are
// unique in their list, whether references, part numbers and the paths of basis
// and tolerance name anything, what a part on the shelf leaves open, which
// values contradict one another, whether a member stands twice in an object,
// how large a file may be, and whether it is UTF-8.
func Schema() ([]byte, error) {
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	ratings := reflect.TypeFor[parts.Pump]().PkgPath()
	s := t.Schema(fields.SchemaOptions{
		ID:      "spec.schema.json",
		Title:   "washrig specification of a rig",
		Comment: "Generated from the field table. Not expressible: ranges of quantities, unique ids, references, sizes.",
		Need: func(f *fields.Field) fields.Need {
			if f.Owner().PkgPath() == ratings {
				return fields.Need{Unless: "part"}
			}
			return fields.Need{}
		},
	})
	s.At("properties", "format").Set("const", Format)
	const path = `^[a-z][a-z0-9_]*(?:\[[a-z][a-z0-9-]*\])?(?:\.[a-z][a-z0-9_]*(?:\[[a-z][a-z0-9-]*\])?)*$`
	for _, table := range [...]string{"basis", "tolerance"} {
		s.At("properties", table, "propertyNames").Set("pattern", path)
	}
	bases := make([]string, 0, 4)
	for _, b := range [...]Basis{Nameplate, Catalogue, Measured, Assumed} {
		bases = append(bases, string(b))
	}
	s.At("properties", "basis", "additionalProperties").Set("enum", bases)
	return s.JSON(), nil
}

// PolicySchema returns a JSON Schema, draft 2020-12, of policy files. It cannot
// say, and leaves to ReadPolicy and Validate: which codes and fields there are,
// whether a limit may be changed, and whether a value is of the right kind.
func PolicySchema() ([]byte, error) {
	t, err := policyTable()
	if err != nil {
		return nil, err
	}
	s := t.Schema(fields.SchemaOptions{
		ID:      "policy.schema.json",
		Title:   "washrig policy: changed limits and defaults, house rules",
		Comment: "Generated from the field table. Not expressible: known codes and fields, kinds of thresholds.",
	})
	s.At("properties", "format").Set("const", PolicyFormat)
	return s.JSON(), nil
}
