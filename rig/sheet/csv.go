package sheet

import (
	"encoding/csv"
	"io"
	"strings"

	"example.com/washrig/internal/csvcell"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// TableColumns returns the heading of each column of WriteCSV with what it
// holds.
func TableColumns() [][2]string {
	return [][2]string{
		{"path", "the number: metric and component"},
		{"state", "the state, as axis=value pairs; axes that do not matter are left out"},
		{"reach", "reachable, conceivable or fault"},
		{"value", "the number, at most six digits"},
		{"unit", "unit of value and limit; empty for a plain number"},
		{"limit", "the limit it is held against; empty if none is"},
		{"margin", "distance to the limit as a share of it; negative when it is passed"},
		{"verdict", "pass, note, fix, cannot judge or stop; empty if no check looks at it"},
		{"code", "the check"},
		{"limit_source", "where the limit comes from"},
		{"label", "what the number is"},
		{"formula", "how it is computed"},
		{"source", "where the formula comes from"},
		{"basis", "the weakest basis among its inputs: measured, nameplate, catalogue, stated or assumed"},
		{"assumed", "its inputs that are assumed"},
	}
}

// WriteCSV writes the technician's table for a spreadsheet: first lines that
// begin with # and carry the verdict, the disclaimer, the cautions and what was
// not checked, then a line of headings, then a line for each reading and check.
// Lines end in CRLF; text that a spreadsheet could take for a formula is inert.
func WriteCSV(w io.Writer, rep *rig.Report, o *Options) error {
	in := newSource(rep, nil, o)
	c := csv.NewWriter(w)
	c.UseCRLF = true
	for _, line := range in.preamble() {
		if err := c.Write([]string{csvcell.Comment(line)}); err != nil {
			return err
		}
	}
	var head []string
	for _, x := range TableColumns() {
		head = append(head, x[0])
	}
	if err := c.Write(head); err != nil {
		return err
	}
	for _, r := range in.everyJudged() {
		judged := r.judged
		if len(judged) == 0 {
			judged = []rig.Judgement{{}}
		}
		for _, j := range judged {
			if err := c.Write(in.csvRow(r.Reading, j)); err != nil {
				return err
			}
		}
	}
	c.Flush()
	return c.Error()
}

// preamble is what travels with a table that has no page around it.
func (in *source) preamble() []string {
	out := []string{in.name(""), verdictLine(in.rep), rig.Disclaimer}
	for _, c := range rig.Cautions() {
		out = append(out, "Caution. "+c.Hazard+". "+c.Text+" Decides: "+c.Defers+".")
	}
	if list := rig.NotChecked(); len(list) > 0 {
		out = append(out, "Not checked here: "+strings.Join(list, "; ")+".")
	}
	for _, x := range overrideWords(in.rep, in.o) {
		out = append(out, "Limit the dealer changed. "+x)
	}
	return append(out, provenanceLine(in.rep))
}

func (in *source) csvRow(r rig.Reading, j rig.Judgement) []string {
	unit := r.Metric.Unit(in.o.System)
	number := func(q units.Quantity) string {
		if !q.Given() {
			return ""
		}
		x, err := q.In(unit)
		if err != nil {
			return ""
		}
		return units.FormatNumber(x, 6)
	}
	f := in.footing(r.Metric.Path)
	basis := string(f.Basis)
	if basis == "" {
		basis = "stated"
	}
	assumed := make([]string, len(f.Assumed))
	for i, p := range f.Assumed {
		assumed[i] = string(p)
	}
	row := []string{string(r.Path()), r.State.String(), r.State.Reach().String(), number(r.Value), unit.Symbol(), number(j.Limit), "", "", string(j.Code), j.Source,
		r.Metric.Label, r.Metric.Formula, r.Metric.Source, basis, strings.Join(assumed, " ")}
	if j.Code != "" {
		row[7] = j.Severity.String()
		if j.Limit.Given() {
			row[6] = units.FormatNumber(j.Margin, 6)
		}
	}
	for i, x := range row {
		if i != 3 && i != 5 && i != 6 {
			row[i] = csvcell.Text(x)
		}
	}
	return row
}
