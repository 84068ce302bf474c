package rig

import (
	"encoding/json"
	"strconv"

	"example.com/washrig/units"
)

// ReportFormat is the first field of a report written as JSON.
const ReportFormat = "washrig-report/1"

// jsonReport and the types below it are the JSON form of a report. Their tags
// are also what its JSON Schema is made from: see schema/report.schema.json. A
// field without omitempty or omitzero is always there. New fields may be added;
// none is renamed, and none changes its meaning within a format number.
type jsonReport struct {
	Format       string         `json:"format" const:"washrig-report/1" doc:"format of this document"`
	Version      string         `json:"version" doc:"version of the library that made it"`
	SpecFormat   string         `json:"spec_format" doc:"format of the specification"`
	Name         string         `json:"name" doc:"name of the rig"`
	Title        string         `json:"title,omitempty" doc:"one line about the rig"`
	SpecDigest   string         `json:"spec_digest" doc:"names the specification as it was written: equal specifications have equal digests"`
	ShelfDigest  string         `json:"shelf_digest,omitempty" doc:"names the contents of the shelf of parts"`
	PolicyDigest string         `json:"policy_digest,omitempty" doc:"names what the policy changed; absent for the library's own limits"`
	Disclaimer   string         `json:"disclaimer" doc:"the sentence that stands on every output"`
	Verdict      Severity       `json:"verdict" doc:"the gravest severity found"`
	Counts       jsonCounts     `json:"counts" doc:"findings by severity"`
	Findings     []jsonFinding  `json:"findings" doc:"what was found, gravest first"`
	Passed       []jsonFinding  `json:"passed" doc:"judgements that found nothing, narrowest margin first"`
	Metrics      []jsonMetric   `json:"metrics" doc:"the table behind the readings: one entry for each metric that has a reading"`
	Modes        []jsonMode     `json:"modes" doc:"what the crew does, in the dealer's order"`
	Fills        []jsonFill     `json:"fills" doc:"fill states that the specification lists"`
	Plugs        []jsonPlug     `json:"plugs" doc:"every way to plug in the movable loads, the listed one first"`
	Readings     []jsonReading  `json:"readings" doc:"every number of every state, in the order of the metrics"`
	Assumed      []jsonOrigin   `json:"assumed" doc:"values nobody gave that the numbers rest on"`
	Open         []Open         `json:"open" doc:"what the specification leaves out, and what is not answered because of it"`
	Overrides    []jsonOverride `json:"overrides" doc:"limits that the dealer changed"`
	Defaults     []jsonDefault  `json:"changed_defaults" doc:"defaults that the dealer changed"`
	SwitchedOff  []Code         `json:"switched_off" doc:"checks that the dealer left out"`
	Cautions     []Caution      `json:"cautions" doc:"standing safety texts; they travel with every output"`
	NotChecked   []string       `json:"not_checked" doc:"what this version does not look at"`
}

type jsonCounts struct {
	Stop        int `json:"stop" doc:"must not be used so"`
	CannotJudge int `json:"cannot_judge" doc:"an input that guards a stop is missing; ranks beside stop"`
	Fix         int `json:"fix" doc:"to be mended before delivery"`
	Note        int `json:"note" doc:"worth knowing"`
}

type jsonFinding struct {
	Code     Code         `json:"code" doc:"stable name of the check"`
	Title    string       `json:"title" doc:"what is wrong, in a few words; may be reworded"`
	Severity Severity     `json:"severity" doc:"pass, note, fix, cannot judge or stop"`
	Path     Path         `json:"path,omitempty" doc:"the number that was judged"`
	State    State        `json:"state" doc:"the state it was judged in, as axis=value pairs; any if none matters"`
	Reach    string       `json:"reach" enum:"reachable|conceivable|fault" doc:"whether the rig gets into that state"`
	Value    jsonQuantity `json:"value,omitzero" doc:"the number; absent if there is none to judge"`
	Limit    jsonQuantity `json:"limit,omitzero" doc:"the limit it was held against; absent if the rating is missing, or if the state itself must not be"`
	Margin   float64      `json:"margin" doc:"distance to the limit as a share of it; negative when the limit is passed"`
	Source   string       `json:"source,omitempty" doc:"where the limit comes from"`
	Defers   string       `json:"defers,omitempty" doc:"who decides"`
	Root     string       `json:"root,omitempty" doc:"findings of one root cause share this"`
	Follows  Code         `json:"follows,omitempty" doc:"the finding of that root that brings this one about"`
	Leans    []Path       `json:"leans,omitempty" doc:"assumed inputs the verdict rests on"`
	Turns    jsonQuantity `json:"turns,omitzero" doc:"value of the first of them at which the verdict changes"`
	Found    string       `json:"found,omitempty" doc:"of a judgement on words: what stands at the path"`
	Wanted   string       `json:"wanted,omitempty" doc:"of a judgement on words: what should"`
	Override string       `json:"override,omitempty" doc:"who changed the limit, when and why"`
}

type jsonMetric struct {
	Path    Path   `json:"path" doc:"pattern of the readings' paths"`
	Kind    string `json:"kind" doc:"kind of quantity"`
	Unit    string `json:"unit" doc:"unit that the report writes it in; empty for a plain number"`
	Better  string `json:"better" enum:"higher|lower|neither" doc:"which way is better"`
	Label   string `json:"label" doc:"words for people; may be reworded"`
	Formula string `json:"formula" doc:"how it is computed"`
	Source  string `json:"source" doc:"where the formula comes from"`
	Rule    bool   `json:"rule,omitempty" doc:"a rule of thumb beside a computed value; never judged"`
	Basis   Basis  `json:"basis" enum:"stated|measured|nameplate|catalogue|assumed" doc:"the weakest basis among its inputs; stated if the specification says no more"`
	Assumed []Path `json:"assumed,omitempty" doc:"its inputs that are assumed"`
}

type jsonMode struct {
	ID    string   `json:"id" doc:"name of the mode"`
	Title string   `json:"title" doc:"words for people"`
	Guns  []string `json:"guns" doc:"lines with a gun open"`
	Loads []string `json:"loads" doc:"loads switched on"`
	Runs  []Path   `json:"runs" doc:"engines, pumps, heaters and sources that run in it; the others stand"`
	State State    `json:"state" doc:"the mode as a state"`
}

type jsonFill struct {
	ID    string `json:"id" doc:"name of the fill state"`
	Title string `json:"title" doc:"words for people"`
	Reach string `json:"reach" enum:"reachable|conceivable|fault" doc:"whether the day takes the rig there"`
	State State  `json:"state" doc:"the fill state as a state"`
}

type jsonPlug struct {
	State   State        `json:"state" doc:"the plugs alone"`
	Verdict Severity     `json:"verdict" doc:"the gravest judgement of engines and sources"`
	Code    Code         `json:"code,omitempty" doc:"of the narrowest judgement"`
	Path    Path         `json:"path,omitempty" doc:"of the narrowest judgement"`
	Value   jsonQuantity `json:"value,omitzero" doc:"of the narrowest judgement"`
	Limit   jsonQuantity `json:"limit,omitzero" doc:"of the narrowest judgement"`
	Margin  float64      `json:"margin" doc:"of the narrowest judgement"`
}

type jsonReading struct {
	Path  Path         `json:"path" doc:"the metric's pattern with the component's id in its brackets"`
	State State        `json:"state" doc:"axes that do not matter to the number are left out"`
	Reach string       `json:"reach" enum:"reachable|conceivable|fault" doc:"whether the rig gets into that state"`
	Value jsonQuantity `json:"value" doc:"the number"`
}

type jsonOrigin struct {
	Path  Path         `json:"path" doc:"field of the specification"`
	Value jsonQuantity `json:"value" doc:"the value taken"`
	Basis Basis        `json:"basis" enum:"measured|nameplate|catalogue|assumed" doc:"always assumed here"`
	Why   string       `json:"why,omitempty" doc:"where the value comes from"`
}

type jsonDefault struct {
	Path  Path   `json:"path" doc:"the pattern of the field"`
	Value string `json:"value" doc:"what is taken where the specification gives nothing"`
	Who   string `json:"who" doc:"who changed it"`
	When  string `json:"when" doc:"when"`
	Why   string `json:"why" doc:"why"`
}

type jsonOverride struct {
	Code Code         `json:"code" doc:"the check"`
	Note jsonQuantity `json:"note,omitzero" doc:"threshold in force"`
	Fix  jsonQuantity `json:"fix,omitzero" doc:"threshold in force"`
	Stop jsonQuantity `json:"stop,omitzero" doc:"threshold in force"`
	Who  string       `json:"who" doc:"who changed it"`
	When string       `json:"when" doc:"when"`
	Why  string       `json:"why" doc:"why"`
}

// A jsonQuantity is a quantity in one unit for each metric, so that a column of
// a report has one unit, rounded to nine digits. It reads back as a
// units.Quantity.
type jsonQuantity struct {
	q    units.Quantity
	unit units.Unit
}

// IsZero reports whether there is no quantity, for omitzero.
func (j jsonQuantity) IsZero() bool { return !j.q.Given() }

// MarshalJSON writes {"kind":"pressure","value":2283.4,"unit":"psi"}.
func (j jsonQuantity) MarshalJSON() ([]byte, error) {
	if !j.q.Given() {
		return []byte("null"), nil
	}
	x, err := j.q.In(j.unit)
	if err != nil {
		return nil, err
	}
	b := append([]byte(`{"kind":"`), j.q.Kind().String()...)
	b = append(b, `","value":`...)
	b = append(b, nineDigits(x)...)
	b = append(b, `,"unit":`...)
	b = strconv.AppendQuote(b, j.unit.Symbol())
	return append(b, '}'), nil
}

// nineDigits writes a number as JSON does, with nine significant digits.
func nineDigits(x float64) string {
	r, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 9, 64), 64)
	if err != nil || r == 0 {
		return "0"
	}
	b, err := json.Marshal(r)
	if err != nil {
		return "0" // x is finite: quantities and margins are
	}
	return string(b)
}

func rounded(x float64) float64 {
	r, err := strconv.ParseFloat(nineDigits(x), 64)
	if err != nil {
		return 0
	}
	return r
}

// Unit returns the unit a column of the metric is written in for a system of
// units.
func (m *Metric) Unit(s units.System) units.Unit {
	symbol := m.us
	if s == units.SI {
		symbol = m.si
	}
	for _, u := range m.Kind.Units() {
		if symbol != "" && u.Symbol() == symbol {
			return u
		}
	}
	return m.Kind.Unit(s)
}

// json returns q for JSON, in the metric's unit where it is of the metric's kind.
func (m *Metric) json(q units.Quantity) jsonQuantity {
	if m != nil && q.Kind() == m.Kind {
		return jsonQuantity{q, m.Unit(units.US)}
	}
	return jsonQuantity{q, q.Kind().Unit(units.US)}
}

// jsonInput returns a value of the field at a path for JSON, in the unit it is sold by.
func jsonInput(p Path, q units.Quantity) jsonQuantity {
	u, ok := fieldUnit(p, q.Kind(), units.US)
	if !ok {
		u = q.Kind().Unit(units.US)
	}
	return jsonQuantity{q, u}
}

// jsonTurns is the value of the first input a finding leans on at which its verdict turns.
func jsonTurns(f *Finding) jsonQuantity {
	if len(f.Leans) == 0 {
		return jsonQuantity{f.Turns, f.Turns.Kind().Unit(units.US)}
	}
	return jsonInput(f.Leans[0], f.Turns)
}

// MarshalJSON writes the report as data: findings, judgements that passed,
// every reading of every state with the table that explains it, what the
// numbers rest on, and the cautions that travel with them. Quantities are in
// US units, one unit a metric, rounded to nine digits.
func (r *Report) MarshalJSON() ([]byte, error) {
	m := r.model
	out := jsonReport{
		Format: ReportFormat, Version: Version, SpecFormat: Format, Name: m.Name(), Title: m.spec.Title,
		SpecDigest: m.Digest(), ShelfDigest: m.shelf.Digest(), PolicyDigest: r.PolicyDigest(), Disclaimer: Disclaimer,
		Verdict: r.Verdict(), Counts: jsonCounts{r.Count(Stop), r.Count(CannotJudge), r.Count(Fix), r.Count(Note)},
		Findings: r.jsonFindings(r.findings), Passed: r.jsonFindings(r.Passed()),
		Metrics: []jsonMetric{}, Modes: []jsonMode{}, Fills: []jsonFill{}, Plugs: []jsonPlug{}, Readings: []jsonReading{}, Assumed: []jsonOrigin{},
		Open:     append([]Open{}, m.openings...),
		Cautions: Cautions(), NotChecked: NotChecked(),
	}
	var last *Metric
	for x := range r.Every() {
		if x.Metric != last {
			last = x.Metric
			out.Metrics = append(out.Metrics, m.jsonMetric(x.Metric))
		}
		out.Readings = append(out.Readings, jsonReading{x.Path(), x.State, x.State.Reach().String(), x.Metric.json(x.Value)})
	}
	for _, x := range m.Modes() {
		out.Modes = append(out.Modes, jsonMode{x.ID, x.Title, append([]string{}, x.Guns...), append([]string{}, x.Loads...), append([]Path{}, x.Runs...), x.State})
	}
	for _, x := range m.Fills() {
		out.Fills = append(out.Fills, jsonFill{x.ID, x.Title, x.Reach.String(), x.State})
	}
	for _, x := range r.plugs {
		out.Plugs = append(out.Plugs, jsonPlug{x.State, x.Verdict, x.Code, x.Reading.Path(), x.Reading.Metric.json(x.Reading.Value), x.Reading.Metric.json(x.Limit), rounded(x.Margin)})
	}
	for _, o := range m.Assumed() {
		q, _ := m.Quantity(o.Path)
		out.Assumed = append(out.Assumed, jsonOrigin{o.Path, jsonInput(o.Path, q), o.Basis, o.Why})
	}
	changes := r.PolicyChanges()
	out.Overrides, out.Defaults, out.SwitchedOff = changes.json()
	return json.Marshal(out)
}

// json are the changes as documents write them.
func (c *PolicyChanges) json() (limits []jsonOverride, defaults []jsonDefault, off []Code) {
	limits, defaults, off = []jsonOverride{}, []jsonDefault{}, []Code{}
	for i := range c.Limits {
		d := &c.Limits[i]
		var mt *Metric
		if x, ok := MetricOf(d.Metric); ok {
			mt = &x
		}
		l := &d.Limit
		limits = append(limits, jsonOverride{d.Code, mt.json(l.Note), mt.json(l.Fix), mt.json(l.Stop), l.Who, l.When, l.Why})
	}
	for _, d := range c.Defaults {
		defaults = append(defaults, jsonDefault{d.Path, d.Value, d.Change.Who, d.Change.When, d.Change.Why})
	}
	for i := range c.Off {
		off = append(off, c.Off[i].Code)
	}
	return limits, defaults, off
}

func (m *Model) jsonMetric(x *Metric) jsonMetric {
	f := m.Footing(x.Path)
	if f.Basis == "" {
		f.Basis = "stated"
	}
	return jsonMetric{x.Path, x.Kind.String(), x.Unit(units.US).Symbol(), x.Better.word(), x.Label, x.Formula, x.Source, x.Rule, f.Basis, f.Assumed}
}

// word is the direction in documents.
func (b Direction) word() string {
	switch b {
	case Higher:
		return "higher"
	case Lower:
		return "lower"
	}
	return "neither"
}

func (r *Report) jsonFindings(list []Finding) []jsonFinding {
	out := make([]jsonFinding, 0, len(list))
	for _, f := range list {
		d := r.rules.code[f.Code].doc
		mt := f.Reading.Metric
		out = append(out, jsonFinding{f.Code, d.Title, f.Severity, f.Reading.Path(), f.Reading.State, f.Reading.State.Reach().String(),
			mt.json(f.Reading.Value), mt.json(f.Limit), rounded(f.Margin), f.Source, d.Defers, f.Root, f.Follows, f.Leans, jsonTurns(&f), f.Found, f.Wanted, f.Override})
	}
	return out
}
