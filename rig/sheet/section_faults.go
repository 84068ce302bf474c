package sheet

import (
	"strings"

	"example.com/washrig/rig"
)

// faults is the table of single faults: what holds when one thing fails, and what
// does not.
func faults(d *Document, in *source) error {
	t := Table{Columns: []Column{left("if this fails"), left("what still holds"), left("what does not"), left("verdict")}}
	for _, l := range in.rep.Faults() {
		if len(l.Holds)+len(l.Fails) == 0 {
			continue // nothing judges it
		}
		t.Rows = append(t.Rows, []string{faultWords(nil, l.Fault), faultList(in, l.Holds), faultList(in, l.Fails), l.Verdict.String()})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	d.Add(Heading{Text: "When one thing fails"}, Paragraph{Text: "One fault at a time, everything else in order; each figure is the worst of the states of the fault, against its limit."}, t)
	return nil
}

// faultList is judgements in words.
func faultList(in *source, list []rig.Judgement) string {
	if len(list) == 0 {
		return none
	}
	words := make([]string, len(list))
	for i, j := range list {
		m := j.Reading.Metric
		words[i] = component(j.Reading) + ": " + m.Label + " " + j.Reading.Text(in.o.System, digits)
		if j.Limit.Given() {
			words[i] += " against " + m.Text(j.Limit, in.o.System, digits)
		}
	}
	return strings.Join(words, "; ")
}

// faultWords says a fault.
func faultWords(_ *rig.Model, v string) string {
	switch v {
	case "unloader-shut":
		return "unloader stuck shut"
	case "relief-shut":
		return "relief valve stuck shut"
	case "tip-blocked":
		return "one tip blocked"
	case "tips-worn":
		return "every tip worn to its limit"
	case "thermostat-stuck":
		return "thermostat stuck on"
	case "high-limit-dead":
		return "high limit dead"
	case "flow-switch-dead":
		return "flow switch dead"
	case "motor-out":
		return "one vacuum motor out"
	case "check-valve-open":
		return "check valve of the discharge stuck open"
	}
	return "fault " + v
}
