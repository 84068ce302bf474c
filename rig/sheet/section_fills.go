package sheet

import (
	"strings"

	"example.com/washrig/rig"
)

// fillHeadlines are the headlines that depend on what the tanks hold.
func (in *source) fillHeadlines() []rig.Headline {
	var out []rig.Headline
	for _, h := range rig.Headlines() {
		if in.dependsOn(h.Path, rig.AxisFill) {
			out = append(out, h)
		}
	}
	return out
}

// fills are the weights in the listed fill states, and the range over every
// corner of the tanks.
func fills(d *Document, in *source) error {
	columns := in.fillHeadlines()
	if len(columns) == 0 {
		return nil
	}
	d.Add(Heading{Text: "Weights by fill state"})
	if len(in.m.Fills()) > 0 {
		d.Add(in.fillRows(columns))
	}
	var over []string
	for _, h := range columns {
		if m, _ := rig.MetricOf(h.Path); m.Better == rig.Neither {
			over = append(over, h.Short+" "+in.span(h.Path, rig.State{}, rig.Conceivable).text(in.o.System))
		}
	}
	if len(over) > 0 {
		d.Add(Paragraph{Text: "Over every corner of the tanks: " + strings.Join(over, "; ") + "."})
	}
	d.Add(Paragraph{Text: in.basisNote(columns)})
	return nil
}

func (in *source) fillRows(columns []rig.Headline) Table {
	t := Table{Columns: []Column{left("fill state")}}
	for _, h := range columns {
		t.Columns = append(t.Columns, right(h.Short))
	}
	for _, f := range in.m.Fills() {
		name := f.Title
		if f.Reach == rig.Conceivable {
			name += " (conceivable)"
		}
		row := []string{name}
		for _, h := range columns {
			row = append(row, in.span(h.Path, f.State, rig.Conceivable).text(in.o.System))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
