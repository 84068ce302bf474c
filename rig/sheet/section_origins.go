package sheet

import (
	"fmt"

	"example.com/washrig/rig"
)

// origins are the values nobody gave, what was left open, and what the dealer
// changed in the limits.
func origins(d *Document, in *source) error {
	if list := in.m.Assumed(); len(list) > 0 {
		d.Add(Heading{Text: "Assumed values"})
		var l List
		for i, a := range list {
			if i == 12 && !in.o.Full {
				break
			}
			q, _ := in.m.Quantity(a.Path)
			why := a.Why
			if why == "" {
				why = "the specification says so"
			}
			l.Items = append(l.Items, fmt.Sprintf("%s = %s (%s)", a.Path, rig.FieldText(a.Path, q, in.o.System, digits), why))
		}
		d.Add(l)
		if more := len(list) - len(l.Items); more > 0 {
			d.Add(Paragraph{Text: fmt.Sprintf("and %d more.", more)})
		}
	}
	if list := in.m.Open(); len(list) > 0 {
		d.Add(Heading{Text: "Left open"})
		var l List
		for _, x := range list {
			l.Items = append(l.Items, fmt.Sprintf("%s is not given: %s.", x.Path, x.Leave))
		}
		d.Add(l)
	}
	return nil
}

// overrides are the limits and defaults the dealer changed; they are on every page.
func overrides(d *Document, in *source) error {
	if list := overrideWords(in.rep, in.o); len(list) > 0 {
		d.Add(Heading{Text: "Limits and defaults the dealer changed"}, List{Items: list})
	}
	return nil
}

// overrideWords are the changed limits and defaults and the checks left out, with who, when
// and why.
func overrideWords(rep *rig.Report, o Options) []string {
	return rep.PolicyChanges().Words(o.System, digits)
}
