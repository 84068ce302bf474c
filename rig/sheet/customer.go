package sheet

import (
	_ "embed" // the schema is a file, so that it can be read without Go
	"fmt"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/rig/quote"
)

// CustomerPageFormat is the first field of a CustomerPage written as JSON.
const CustomerPageFormat = "washrig-customer-page/1"

//go:embed schema/customer-page.schema.json
var customerPageSchema string

// CustomerPageSchema returns the JSON Schema (draft 2020-12) of a CustomerPage
// written as JSON.
func CustomerPageSchema() string { return customerPageSchema }

// A CustomerPage is everything a customer is shown of a rig, as words. No field
// of it, or of what it holds, can carry a cost, a margin, a mark-up, a number
// on the dealer's shelf or a supplier's number; its document is made from it
// alone.
type CustomerPage struct {
	Format     string               `json:"format" const:"washrig-customer-page/1" doc:"format of this document"`
	Name       string               `json:"name" doc:"name of the rig"`
	Title      string               `json:"title" doc:"heading of the page"`
	Verdict    string               `json:"verdict" doc:"what was found, counted"`
	Site       string               `json:"site" doc:"the site the figures hold for"`
	Disclaimer string               `json:"disclaimer" doc:"the sentence that stands on every output"`
	Modes      []CustomerMode       `json:"modes" doc:"what it does in each mode"`
	Carries    []CustomerFigure     `json:"carries" doc:"usable against nominal volumes"`
	Weights    []CustomerFigure     `json:"weights" doc:"weights as the day takes it"`
	Findings   []CustomerFinding    `json:"findings" doc:"what it must not be asked to do, and what is worth knowing, worst first"`
	Assumed    []string             `json:"assumed" doc:"values nobody gave that the figures rest on"`
	Open       []string             `json:"open" doc:"what is not answered"`
	Overrides  []string             `json:"overrides" doc:"limits and defaults that were changed, with who, when and why"`
	Cautions   []rig.Caution        `json:"cautions" doc:"standing safety texts"`
	NotChecked []string             `json:"not_checked" doc:"what was not looked at"`
	Quote      *quote.CustomerQuote `json:"quote,omitempty" doc:"the price"`
	MadeFrom   string               `json:"made_from" doc:"library, formats and digests"`
}

// A CustomerMode is what the rig does in one mode.
type CustomerMode struct {
	Title   string           `json:"title" doc:"words for the mode"`
	Figures []CustomerFigure `json:"figures" doc:"at their worst in the states the day reaches"`
}

// A CustomerFigure is one figure with its unit, state and basis.
type CustomerFigure struct {
	What  string `json:"what" doc:"what it is"`
	Value string `json:"value" doc:"with its unit"`
	State string `json:"state" doc:"the state it holds in"`
	Basis string `json:"basis" doc:"what it rests on"`
}

// A CustomerFinding is one finding in words.
type CustomerFinding struct {
	Severity string   `json:"severity" doc:"note, fix, cannot judge or stop"`
	Title    string   `json:"title" doc:"what is wrong"`
	Detail   []string `json:"detail" doc:"value, limit, state and who decides"`
}

// customerHeadlines are the metrics a customer is shown for each mode.
var customerHeadlines = []rig.Path{"lines[].nozzle_pressure", "lines[].flow", "lines[].reaction", "heaters[].outlet_temperature", "heaters[].burner_share"}

// Customer returns what a customer is shown. The quote may be nil; no figure is
// better than the worst state the day reaches.
func Customer(rep *rig.Report, q *quote.CustomerQuote, o *Options) *CustomerPage {
	in := newSource(rep, nil, o)
	p := &CustomerPage{
		Format: CustomerPageFormat, Name: in.m.Name(), Title: in.name(""), Verdict: verdictLine(rep), Site: siteLine(rep, in.spec, in.o.System), Disclaimer: rig.Disclaimer,
		Modes: []CustomerMode{}, Carries: []CustomerFigure{}, Weights: []CustomerFigure{}, Findings: []CustomerFinding{}, Assumed: []string{}, Open: []string{},
		Overrides: append([]string{}, overrideWords(rep, in.o)...), Cautions: rig.Cautions(), NotChecked: rig.NotChecked(), Quote: q, MadeFrom: provenanceLine(rep),
	}
	for _, mode := range in.m.Modes() {
		p.Modes = append(p.Modes, CustomerMode{mode.Title, in.customerFigures(mode)})
	}
	for i := range in.spec.Tanks {
		k := &in.spec.Tanks[i]
		p.Carries = append(p.Carries, CustomerFigure{"usable of nominal, " + k.ID + " tank", in.volume(k.Usable) + " of " + in.volume(k.Nominal), k.Contents + " water", in.origin(rig.Path("tanks[" + k.ID + "].usable"))})
	}
	for i := range in.spec.Sources {
		s := &in.spec.Sources[i]
		value := in.power(s.Running) + " rated to run"
		if s.Starting != 0 {
			value += ", " + in.power(s.Starting) + " start"
		}
		p.Carries = append(p.Carries, CustomerFigure{"source " + s.ID, value, "as its plate says", in.origin(rig.Path("sources[" + s.ID + "].running"))})
	}
	for _, f := range in.m.Fills() {
		if f.Reach != rig.Reachable {
			continue
		}
		for _, h := range in.fillHeadlines() {
			if x := in.span(h.Path, f.State, rig.Reachable); x.ok {
				p.Weights = append(p.Weights, CustomerFigure{x.worst.Metric.Label, x.text(in.o.System), f.Title, basisWord(in.footing(h.Path))})
			}
		}
	}
	for _, f := range rep.Findings() {
		r := in.remark(f, nil)
		p.Findings = append(p.Findings, CustomerFinding{f.Severity.String(), r.Title, r.Body})
	}
	for _, a := range in.m.Assumed() {
		v, _ := in.m.Quantity(a.Path)
		p.Assumed = append(p.Assumed, string(a.Path)+" = "+rig.FieldText(a.Path, v, in.o.System, digits))
	}
	for _, x := range in.m.Open() {
		p.Open = append(p.Open, x.Leave)
	}
	return p
}

func (in *source) customerFigures(mode rig.ModeState) []CustomerFigure {
	state := mode.State
	out := []CustomerFigure{}
	for _, pattern := range customerHeadlines {
		var parts []string
		for r := range in.rep.Among(pattern, state, rig.Reachable) {
			if !contains(parts, r.Part) && !stands(mode, listOf(pattern), r.Part) {
				parts = append(parts, r.Part)
			}
		}
		for _, part := range parts {
			x := in.span(at(pattern, part), state, rig.Reachable)
			where := in.where(x.readings(), rig.AxisGuns)
			if where == "" {
				where = "every hour"
			}
			out = append(out, CustomerFigure{x.worst.Metric.Label + ", " + component(x.worst), x.text(in.o.System), where, basisWord(in.footing(pattern))})
		}
	}
	return out
}

// Document lays the page out. It reads nothing but the page and the letterhead.
func (p *CustomerPage) Document(head *Letterhead) (*Document, error) {
	d, err := NewDocument(p.Title, head)
	if err != nil {
		return nil, err
	}
	d.Add(Paragraph{Text: p.Verdict, Strong: true}, Paragraph{Text: "Sized for: " + p.Site}, Paragraph{Text: p.Disclaimer})
	figures := func(list []CustomerFigure) Table {
		t := Table{Columns: []Column{left("figure"), right("value"), left("state"), left("basis")}}
		for _, f := range list {
			t.Rows = append(t.Rows, []string{f.What, f.Value, f.State, f.Basis})
		}
		return t
	}
	if len(p.Modes) > 0 {
		d.Add(Heading{Text: "What it does"})
		for _, m := range p.Modes {
			d.Add(Heading{Text: m.Title, Minor: true})
			if len(m.Figures) == 0 {
				d.Add(Paragraph{Text: "No water figures belong to this mode."})
				continue
			}
			d.Add(figures(m.Figures))
		}
		d.Add(Paragraph{Text: "Each figure is the worst in the states of the day. Temperatures are at the coil."})
	}
	if len(p.Carries) > 0 {
		d.Add(Heading{Text: "What it carries"}, figures(p.Carries))
	}
	if len(p.Weights) > 0 {
		d.Add(Heading{Text: "What it weighs"}, figures(p.Weights))
	}
	if len(p.Findings) > 0 {
		d.Add(Heading{Text: "What it must not be asked to do, and what is worth knowing"})
		for _, f := range p.Findings {
			d.Add(Remark{Mark: strings.ToUpper(f.Severity), Title: f.Title, Body: f.Detail})
		}
	}
	for _, l := range []struct {
		head  string
		items []string
	}{{"Assumed values", p.Assumed}, {"Not answered", p.Open}, {"Limits and defaults that were changed", p.Overrides}} {
		if len(l.items) > 0 {
			d.Add(Heading{Text: l.head}, List{Items: l.items})
		}
	}
	p.price(d)
	head.closing(d)
	addCautions(d, p.Cautions, p.NotChecked)
	d.Add(Heading{Text: "Made from"}, Paragraph{Text: p.MadeFrom})
	return d, nil
}

func (p *CustomerPage) price(d *Document) {
	q := p.Quote
	if q == nil {
		return
	}
	d.Add(Heading{Text: "Price"})
	t := Table{Columns: []Column{left("line"), right("count"), right("price")}}
	for _, l := range q.Lines {
		amount := l.Price.String()
		switch {
		case !l.Priced:
			amount = "to follow"
		case l.Price.Cents() == 0:
			amount = "included"
		}
		t.Rows = append(t.Rows, []string{l.Text, fmt.Sprint(l.Count), amount})
	}
	t.Rows = append(t.Rows, []string{"total", "", q.Total.String()})
	d.Add(t)
	if !q.Complete {
		d.Add(Paragraph{Text: "Incomplete: some prices are still to follow, and the total lacks them.", Strong: true})
	}
	var when []string
	if q.LeadTime > 0 {
		when = append(when, "Longest lead time "+days(q.LeadTime))
	}
	if q.QuoteDay.Given() {
		when = append(when, "prices of "+q.QuoteDay.String())
	}
	if q.ValidUntil.Given() {
		when = append(when, "valid until "+q.ValidUntil.String())
	}
	if len(when) > 0 {
		d.Add(Paragraph{Text: strings.Join(when, "; ") + ". Tax, freight and fees are not in it."})
	}
}
