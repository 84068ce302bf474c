package sheet

import (
	"fmt"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// first is how many findings a person sees before the count of the others.
const first = 7

// findings are what was found, worst first. Stops and what cannot be judged
// are all shown, however many they are.
func findings(d *Document, in *source) error {
	groups := in.rep.Groups()
	if len(groups) == 0 {
		return nil
	}
	d.Add(Heading{Text: "What was found, worst first"})
	shown := map[string]bool{}
	n := 0
	for _, g := range groups {
		for k, f := range g.Findings {
			key := string(f.Reading.Path()) + string(f.Code)
			grave := f.Severity >= rig.CannotJudge
			if shown[key] || (!in.o.Full && !grave && (n >= first || (k > 0 && f.Severity < g.Findings[0].Severity))) {
				continue
			}
			if k == 0 || f.Follows == "" {
				n++ // what follows from another takes no place
			}
			same := likewise(in.rep, f)
			for _, l := range append(same, f) {
				shown[string(l.Reading.Path())+string(l.Code)] = true
			}
			d.Add(in.remark(f, same))
		}
	}
	if more := len(in.rep.Findings()) - len(shown); more > 0 {
		d.Add(Paragraph{Text: fmt.Sprintf("and %d more of the same causes or of less weight; the page in full lists them.", more)})
	}
	return nil
}

// grave is every stop and everything that cannot be judged, for pages that do
// not show all findings: no page leaves one out.
func grave(d *Document, in *source) error {
	for _, f := range in.rep.Findings() {
		if f.Severity >= rig.CannotJudge {
			d.Add(in.remark(f, nil))
		}
	}
	return nil
}

// likewise returns the findings that say the same of other components: one
// code, one severity, and the same printed number.
func likewise(rep *rig.Report, f rig.Finding) []rig.Finding {
	var out []rig.Finding
	for _, g := range rep.Findings() {
		if g.Code == f.Code && g.Severity == f.Severity && g.Reading.Part != f.Reading.Part && g.Reading.Text(units.SI, 3) == f.Reading.Text(units.SI, 3) {
			out = append(out, g)
		}
	}
	return out
}

func (in *source) remark(f rig.Finding, same []rig.Finding) Remark {
	doc, _ := in.rep.Doc(f.Code)
	where := component(f.Reading)
	for _, l := range same {
		where += ", likewise " + component(l.Reading)
	}
	if where != "" {
		where += ", "
	}
	body := against(f, in.o.System)
	if body != "" {
		body += " — "
	}
	body += stateWords(in.m, f.Reading.State)
	if f.Reading.State.Reach() == rig.Conceivable {
		body += " (conceivable)"
	}
	body += "."
	if f.Source != "" {
		body += " Limit: " + f.Source + "."
	}
	if doc.Defers != "" {
		body += " Decides: " + doc.Defers + "."
	}
	if f.Override != "" {
		body += " Limit overridden by " + f.Override + "."
	}
	if f.Follows != "" {
		cause, _ := in.rep.Doc(f.Follows)
		body += " Follows from: " + cause.Title + "."
	}
	r := Remark{Mark: strings.ToUpper(f.Severity.String()), Title: doc.Title + " (" + where + string(f.Code) + ")", Body: []string{body}}
	if l := leanWords(in.m, f, in.o.System); l != "" {
		r.Body = append(r.Body, l)
	}
	return r
}
