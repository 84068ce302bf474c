package sheet

import (
	"fmt"

	"example.com/washrig/rig"
)

// provenance names the library, the formats and the inputs a page was made
// from.
func provenance(d *Document, in *source) error {
	line := provenanceLine(in.rep)
	if in.q != nil && in.q.Book.QuoteDay.Given() {
		line += ", prices of " + in.q.Book.QuoteDay.String()
		if in.q.Oldest.Given() {
			line += " (oldest " + in.q.Oldest.String() + ")"
		}
	}
	d.Add(Heading{Text: "Made from"}, Paragraph{Text: line})
	return nil
}

func provenanceLine(rep *rig.Report) string {
	line := fmt.Sprintf("washrig %s, format %s, specification %s", rig.Version, rig.Format, short(rep.Model().Digest()))
	if d := rep.Model().Shelf().Digest(); d != "" {
		line += ", shelf " + short(d)
	}
	if d := rep.PolicyDigest(); d != "" {
		line += ", policy " + short(d)
	}
	return line
}

func short(digest string) string {
	if len(digest) > 12 {
		return digest[:12]
	}
	return digest
}
