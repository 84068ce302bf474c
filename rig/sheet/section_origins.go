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
	var out []string
	for _, x := range rep.Overrides() {
		doc, _ := rep.Doc(x.Code)
		line := fmt.Sprintf("%s (%s): %s, %s, %s", doc.Title, x.Code, x.Who, x.When, x.Why)
		if m, ok := rig.MetricOf(doc.Metric); ok {
			for _, t := range []struct {
				word  string
				limit func() string
			}{{"note", func() string { return m.Text(x.Note, o.System, digits) }}, {"fix", func() string { return m.Text(x.Fix, o.System, digits) }}, {"stop", func() string { return m.Text(x.Stop, o.System, digits) }}} {
				if v := t.limit(); v != "" {
					line += "; " + t.word + " from " + v
				}
			}
		}
		out = append(out, line)
	}
	for _, d := range rep.ChangedDefaults() {
		out = append(out, fmt.Sprintf("default of %s: %s; %s, %s, %s", d.Path, d.Value, d.Change.Who, d.Change.When, d.Change.Why))
	}
	for _, c := range rep.SwitchedOff() {
		doc, _ := rep.Doc(c)
		out = append(out, fmt.Sprintf("%s (%s): not checked, switched off by the dealer's policy", doc.Title, c))
	}
	return out
}
