package sheet

import (
	"strings"

	"example.com/washrig/rig"
)

// cautions are the standing texts and what was not looked at; they are on every
// page.
func cautions(d *Document, _ *source) error {
	addCautions(d, rig.Cautions(), rig.NotChecked())
	return nil
}

func addCautions(d *Document, list []rig.Caution, unchecked []string) {
	l := List{Small: true}
	for _, c := range list {
		l.Items = append(l.Items, c.Hazard+". "+c.Text+" Decides: "+c.Defers+".")
	}
	d.Add(Heading{Text: "Cautions"}, l)
	if len(unchecked) > 0 {
		d.Add(Heading{Text: "Not checked here"}, List{Items: []string{strings.Join(unchecked, "; ") + "."}, Small: true})
	}
}

// closing are the dealer's terms, if there are any.
func closing(d *Document, in *source) error {
	in.o.Letterhead.closing(d)
	return nil
}
