package quote

import _ "embed" // the schemas are files, so that they can be read without Go

//go:embed schema/quote.schema.json
var quoteSchema string

//go:embed schema/customer-quote.schema.json
var customerSchema string

// Schema returns the JSON Schema (draft 2020-12) of a Quote written as JSON.
func Schema() string { return quoteSchema }

// CustomerSchema returns the JSON Schema (draft 2020-12) of a CustomerQuote
// written as JSON.
func CustomerSchema() string { return customerSchema }
