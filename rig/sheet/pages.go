package sheet

import (
	"io"

	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/rig/quote"
)

// The sections of each page, in order.
var (
	dealerSections     = []section{summary, findings, modes, tipsAndLadder, waterSide, heatSide, chemicalSide, carries, burns, recovers, fills, plugs, wires, price, passed, origins, overrides, closing, cautions, provenance}
	technicianSections = []section{summary, findings, plumbingPage, waterPage, chemicalSide, faults, everyReading, origins, overrides, cautions, provenance}
	weightSections     = []section{summary, grave, fillTable, fillCorners, weightLimits, deckDrawing, origins, overrides, cautions, provenance}
	startSections      = []section{summary, grave, modeCard, startCard, plugs, plugCard, wires, plates, valves, runCold, overrides, cautions, provenance}
	parkedSections     = []section{summary, grave, parked, winter, overrides, cautions, provenance}
	walkSections       = []section{summary, grave, walkRound, overrides, cautions, provenance}
)

// Dealer returns the dealer's own page of a rig: what was found, worst first;
// what it does in each mode; what it carries and weighs; what starts and where
// it is plugged in; its price with cost and margin. The quote and the options
// may be nil.
func Dealer(rep *rig.Report, q *quote.Quote, o *Options) (*Document, error) {
	in := newSource(rep, q, o)
	return page(in.name(""), in, dealerSections)
}

// Technician returns every reading of every state with unit, limit, margin,
// formula, source and basis.
func Technician(rep *rig.Report, o *Options) (*Document, error) {
	in := newSource(rep, nil, o)
	return page(in.name("the technician's table"), in, technicianSections)
}

// Weights returns the weights of a rig in every listed fill state and over
// every corner of its tanks.
func Weights(rep *rig.Report, o *Options) (*Document, error) {
	in := newSource(rep, nil, o)
	return page(in.name("weights by travel state"), in, weightSections)
}

// StartCard returns the card for the panel: plugs, the order of switching on in
// each mode, what to do when power comes back, valves.
func StartCard(rep *rig.Report, o *Options) (*Document, error) {
	in := newSource(rep, nil, o)
	return page(in.name("start and plug card"), in, startSections)
}

// WalkRound returns the figures that are asked for when a rig is shown, in a
// fixed order, each with its state and basis.
func WalkRound(rep *rig.Report, o *Options) (*Document, error) {
	in := newSource(rep, nil, o)
	return page(in.name("walk-round card"), in, walkSections)
}

// WriteText writes the dealer's page as plain text. The quote may be nil.
func WriteText(w io.Writer, rep *rig.Report, q *quote.Quote, o Options) error {
	return write(w, rep, q, o, (*Document).WriteText)
}

// WriteMarkdown writes the dealer's page as Markdown. The quote may be nil.
func WriteMarkdown(w io.Writer, rep *rig.Report, q *quote.Quote, o Options) error {
	return write(w, rep, q, o, (*Document).WriteMarkdown)
}

// WriteHTML writes the dealer's page as one HTML file. The quote may be nil.
func WriteHTML(w io.Writer, rep *rig.Report, q *quote.Quote, o Options) error {
	return write(w, rep, q, o, (*Document).WriteHTML)
}

func write(w io.Writer, rep *rig.Report, q *quote.Quote, o Options, as func(*Document, io.Writer) error) error {
	d, err := Dealer(rep, q, &o)
	if err != nil {
		return err
	}
	return as(d, w)
}

// WriteComparison writes reports side by side as plain text.
func WriteComparison(w io.Writer, c *batch.Comparison, o Options) error {
	d, err := Comparison(c, &o)
	if err != nil {
		return err
	}
	return d.WriteText(w)
}
