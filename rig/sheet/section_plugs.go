package sheet

import (
	"fmt"
	"strings"

	"example.com/washrig/rig"
)

// plugs are the sources with what they carry and what they are rated for, and
// every other way to plug in the movable loads.
func plugs(d *Document, in *source) error {
	if len(in.spec.Sources) == 0 {
		return nil
	}
	d.Add(Heading{Text: "What starts, and where it is plugged in"})
	columns := headlines("sources")
	t := Table{Columns: []Column{left("source")}}
	for _, h := range columns {
		t.Columns = append(t.Columns, right(h.Short))
	}
	t.Columns = append(t.Columns, left("loads"))
	for i := range in.spec.Sources {
		id := in.spec.Sources[i].ID
		row := []string{id}
		for _, h := range columns {
			row = append(row, in.span(at(h.Path, id), rig.State{}, rig.Reachable).text(in.o.System))
		}
		t.Rows = append(t.Rows, append(row, strings.Join(in.loadsOn(id), ", ")))
	}
	d.Add(t, Paragraph{Text: in.basisNote(columns)},
		Paragraph{Text: "Ratings are those of the worst hour at the site. Worst start: hand loads in the best order, then everything that starts by itself at once. Restart: everything switched on when power comes back."})
	if opts := in.rep.PlugOptions(); len(opts) > 1 {
		var l List
		for _, x := range opts {
			word := "carried"
			if x.Verdict > rig.Fix {
				word = "FAILS"
			}
			line := fmt.Sprintf("%s: %s", plugWords(x.State.On(rig.AxisPlugs)), word)
			if x.Reading.Metric != nil {
				line += fmt.Sprintf(" (%s, %s %s against %s)", component(x.Reading), x.Reading.Metric.Label, x.Reading.Text(in.o.System, digits), x.Reading.Metric.Text(x.Limit, in.o.System, digits))
			}
			l.Items = append(l.Items, line)
		}
		d.Add(l)
	}
	return nil
}

func (in *source) loadsOn(source string) []string {
	var on []string
	for k := range in.spec.Loads {
		if in.spec.Loads[k].Source == source {
			on = append(on, in.spec.Loads[k].ID)
		}
	}
	return on
}
