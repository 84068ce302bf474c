// Package parts holds the vocabulary of a rig's components, and the dealer's
// shelf they come from.
//
// A component struct (Pump, Hose, Tank …) carries what a plate or a data sheet
// says, in the units it was written in. The same struct stands in a rig's
// specification and in a Part of the shelf, so that a specification may name a
// part number and leave the ratings out.
//
// No catalogue is shipped: a shelf is the dealer's own file. [ReadJSON] reads
// the project's own form, [ReadCSV] a spreadsheet's export with the dealer's own
// column names, which a [Mapping] explains once:
//
//	shelf, report, err := parts.ReadCSV(file, parts.Mapping{
//		Columns: []parts.Column{
//			{Name: "Item no.", Field: "number"},
//			{Name: "Our cost", Field: "cost", Currency: "USD"},
//			{Name: "Flow (gpm)", Field: "pump.rated_flow", Unit: "gpm"},
//		},
//		Fixed: map[string]string{"kind": "pump", "price_date": "2026-03-01"},
//	}, parts.CSVOptions{})
//
// A row with anything wrong stays off the shelf and is reported by row and
// column; the others are loaded. [Layer] lays shelves on one another,
// [Catalog.Find] and [Catalog.Neighbours] search one by kind and rating, and
// [Catalog.Prune] drops prices that have become old.
//
// # Conventions
//
// Money is whole cents of a named currency and never a binary fraction; each
// product is rounded once, half away from zero. A Date is a day without a clock;
// where an age matters the caller passes the day it is counted at. Zero is "not
// given" wherever zero is not physical. A [Catalog] is not changed after it is
// made, hands out copies, and may be used from many goroutines at once.
package parts
