package sheet

import (
	"strings"

	"example.com/washrig/rig"
)

// A judgedReading is one reading with the judgements that hold it against a
// limit.
type judgedReading struct {
	rig.Reading
	judged []rig.Judgement
}

// everyJudged returns every reading of the report in order, by metric, with its
// judgements. Where a finding was made graver because it leans on an assumed
// input, its judgement is too.
func (in *source) everyJudged() []judgedReading {
	type key struct {
		path  rig.Path
		state rig.State
	}
	type found struct {
		key
		code rig.Code
	}
	graver := map[found]rig.Severity{}
	for _, f := range in.rep.Findings() {
		graver[found{key{f.Reading.Path(), f.Reading.State}, f.Code}] = f.Severity
	}
	by := map[key][]rig.Judgement{}
	for j := range in.rep.Judgements() {
		k := key{j.Reading.Path(), j.Reading.State}
		if s, ok := graver[found{k, j.Code}]; ok {
			j.Severity = s
		}
		by[k] = append(by[k], j)
	}
	var out []judgedReading
	for r := range in.rep.Every() {
		out = append(out, judgedReading{r, by[key{r.Path(), r.State}]})
	}
	return out
}

// everyReading is the technician's table: for each metric its formula, source
// and basis, then every reading with limit and margin.
func everyReading(d *Document, in *source) error {
	d.Add(Heading{Text: "Every reading of every state", NewPage: true},
		Paragraph{Text: "A reading that several checks look at has a line for each. States that only a fault or nobody's plan reaches say so."})
	var t Table
	var of *rig.Metric
	flush := func() {
		if of != nil {
			d.Add(t)
		}
	}
	for _, r := range in.everyJudged() {
		if r.Metric != of {
			flush()
			of = r.Metric
			d.Add(Heading{Text: of.Label, Minor: true}, Paragraph{Text: in.metricLine(of)})
			t = Table{Columns: []Column{left("component"), left("state"), right("value"), right("limit"), left("margin"), left("verdict")}}
		}
		row := []string{component(r.Reading), stateWords(in.m, r.State), r.Text(in.o.System, digits)}
		if reach := r.State.Reach(); reach != rig.Reachable {
			row[1] += " (" + reach.String() + ")"
		}
		if len(r.judged) == 0 {
			t.Rows = append(t.Rows, append(row, "", "", ""))
		}
		for _, j := range r.judged {
			t.Rows = append(t.Rows, append(append([]string(nil), row...), of.Text(j.Limit, in.o.System, digits),
				distance(of, r.Value, j.Limit, j.Margin, in.o.System), j.Severity.String()+", "+string(j.Code)))
		}
	}
	flush()
	return nil
}

// metricLine says how a metric is computed, by which source, and on what it
// rests.
func (in *source) metricLine(m *rig.Metric) string {
	f := in.footing(m.Path)
	line := string(m.Path) + " = " + m.Formula + ". Source: " + m.Source + ". Basis: " + basisWord(f)
	if len(f.Assumed) > 0 {
		names := make([]string, len(f.Assumed))
		for i, p := range f.Assumed {
			names[i] = string(p)
		}
		line += ": " + strings.Join(names, ", ")
	}
	line += "."
	if m.Rule {
		line += " A rule of thumb beside the computed value; it is never judged."
	}
	return line
}
