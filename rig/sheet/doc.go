// Package sheet writes a judged rig for people, and its table for spreadsheets.
// It reads metrics, findings and judgements of a report and derives no number
// of its own.
//
// A page is a [Document]; text, Markdown and HTML are three ways of writing it.
//
//	d, err := sheet.Technician(report, nil)
//	err = d.WriteHTML(w)
//
//	Dealer                what was found, what it does, carries, weighs, starts, costs
//	Customer              what a customer is shown; a type that cannot carry cost or margin
//	Technician, WriteCSV  every reading: value, unit, limit, margin, state, formula, source, basis
//	Weights               weights by travel state and over every corner of the tanks, the deck drawn to scale
//	Deck                  that drawing alone, for an SVG file
//	StartCard             plugs, order of switching on, settings, shutting down
//	ModeCards             one card for each mode: where everything stands, switching on, shutting down
//	ParkedCard            setting the trailer down, winter
//	WalkRound             the figures asked for when a rig is shown
//	Comparison            rigs side by side, ties called ties, no score
//
// Every page carries the standing cautions, what was not checked, every
// override, and what it was made from. Severities are words, so a page says the
// same in black and white. A [Letterhead] is the dealer's name block; pages
// without one are neutral.
//
// To add a section, write a function of type section in a file of its own and
// put it into the list of a page in pages.go. A new metric appears in the
// technician's table by itself, and on the other pages when it is among
// rig.Headlines.
package sheet
