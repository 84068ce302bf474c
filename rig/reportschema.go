package rig

import _ "embed" // the schema is a file, so that it can be read without Go

//go:embed schema/report.schema.json
var reportSchema string

// ReportSchema returns the JSON Schema (draft 2020-12) of a report written as
// JSON. Fields may be added to a report within a format number, so the schema
// allows members it does not know.
func ReportSchema() string { return reportSchema }
