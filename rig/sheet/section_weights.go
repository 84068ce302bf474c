package sheet

import (
	"math"

	"example.com/washrig/rig"
)

// fillTable is the listed fill states on the page of weights.
func fillTable(d *Document, in *source) error {
	columns := in.fillHeadlines()
	if len(columns) == 0 {
		d.Add(Paragraph{Text: "No weights: the specification has no trailer."})
		return nil
	}
	if len(in.m.Fills()) == 0 {
		return nil
	}
	d.Add(Heading{Text: "As the day takes it"}, in.fillRows(columns), Paragraph{Text: in.basisNote(columns)})
	return nil
}

// fillCorners shows the ends of every number that depends on the fill, over the
// listed states and every corner of the tanks.
func fillCorners(d *Document, in *source) error {
	t := Table{Columns: []Column{left("quantity"), right("lowest"), left("when"), right("highest"), left("when")}}
	for _, m := range rig.Metrics() {
		if !in.dependsOn(m.Path, rig.AxisFill) {
			continue
		}
		x := in.span(m.Path, rig.State{}, rig.Conceivable)
		if !x.ok {
			continue
		}
		t.Rows = append(t.Rows, []string{m.Label, x.low.Text(in.o.System, digits), in.who(x.low), x.high.Text(in.o.System, digits), in.who(x.high)})
	}
	if len(t.Rows) > 0 {
		d.Add(Heading{Text: "Over every corner of the tanks"}, t,
			Paragraph{Text: "A corner is every water tank full or empty and every fuel tank full or as it comes home. Nobody plans them all; nothing prevents them."})
	}
	return nil
}

// who says component and state of a reading.
func (in *source) who(r rig.Reading) string {
	w := stateWords(in.m, r.State)
	if r.Part != "" {
		w = component(r) + ", " + w
	}
	return w
}

// weightLimits are the limits that the numbers of the page are held against.
func weightLimits(d *Document, in *source) error {
	t := in.judged(func(j rig.Judgement) bool { return j.Reading.State.On(rig.AxisFill) != "" })
	if len(t.Rows) > 0 {
		d.Add(Heading{Text: "Held against"}, t)
	}
	return nil
}

// pastNothing reports whether of two judgements with a limit of nothing, whose
// margins say no distance, the first lies worse.
func pastNothing(a, b rig.Judgement) bool {
	if a.Margin == 0 || a.Limit.SI() != 0 || a.Limit != b.Limit {
		return false
	}
	x, y := math.Abs(a.Reading.Value.SI()), math.Abs(b.Reading.Value.SI())
	return x != y && (x > y) == (a.Margin < 0)
}

// judged is a table of the worst judgement of each check and component among
// those wanted.
func (in *source) judged(wanted func(rig.Judgement) bool) Table {
	type key struct {
		code rig.Code
		part string
	}
	worst := map[key]rig.Judgement{}
	var order []key
	for j := range in.rep.Judgements() {
		if !wanted(j) || !j.Limit.Given() {
			continue
		}
		k := key{j.Code, j.Reading.Part}
		old, had := worst[k]
		if !had {
			order = append(order, k)
		}
		if !had || j.Severity > old.Severity || (j.Severity == old.Severity && (j.Margin < old.Margin || j.Margin == old.Margin && pastNothing(j, old))) {
			worst[k] = j
		}
	}
	t := Table{Columns: []Column{left("quantity"), right("worst"), right("limit"), left("margin"), left("when"), left("verdict"), left("limit from")}}
	for _, k := range order {
		j := worst[k]
		t.Rows = append(t.Rows, []string{component(j.Reading) + ": " + j.Reading.Metric.Label, j.Reading.Text(in.o.System, digits), j.Reading.Metric.Text(j.Limit, in.o.System, digits),
			distance(j.Reading.Metric, j.Reading.Value, j.Limit, j.Margin, in.o.System), stateWords(in.m, j.Reading.State), j.Severity.String(), j.Source})
	}
	return t
}
