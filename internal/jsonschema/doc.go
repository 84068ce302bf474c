// Package jsonschema makes a JSON Schema (draft 2020-12) of a Go struct type
// from the tags of its fields, and checks documents against such a schema.
//
// It is a kit for tests and knows no more of the standard than they need: an
// unknown keyword in a schema is an error, so nothing is passed over in
// silence. Files that leave the project are checked with a general-purpose
// validator as well, by the scripts beside the schemas.
package jsonschema
