package rig

import (
	_ "embed" // the schema is a file, so that it can be read without Go
	"encoding/json"

	"example.com/washrig/units"
)

// TraceFormat is the first field of an explanation written as JSON.
const TraceFormat = "washrig-trace/1"

// jsonTrace is the JSON form of a Trace; see schema/trace.schema.json. New fields may be
// added; none is renamed, and none changes its meaning within a format number.
type jsonTrace struct {
	Format string     `json:"format" const:"washrig-trace/1" doc:"format of this document"`
	Number jsonNumber `json:"number" doc:"what is explained"`
}

type jsonNumber struct {
	Path    Path         `json:"path" doc:"the metric's pattern with the component's id in its brackets"`
	State   State        `json:"state" doc:"the state, as axis=value pairs; any if none matters"`
	Value   jsonQuantity `json:"value" doc:"the number"`
	Label   string       `json:"label" doc:"words for people; may be reworded"`
	Formula string       `json:"formula" doc:"how it is computed"`
	Source  string       `json:"source" doc:"where the formula comes from"`
	Rule    bool         `json:"rule,omitempty" doc:"a rule of thumb beside a computed value; never judged"`
	Inputs  []jsonMoves  `json:"inputs" doc:"what the specification, its parts and its defaults say that moves it, strongest first"`
	Uses    []jsonNumber `json:"uses" doc:"numbers of the same state that it is computed from"`
}

type jsonMoves struct {
	Path   Path         `json:"path" doc:"field of the specification"`
	Value  jsonQuantity `json:"value,omitzero" doc:"of a quantity: what it is"`
	Word   string       `json:"word,omitempty" doc:"of a word, a count, a reference or a list: what it says"`
	Unsaid bool         `json:"unsaid,omitempty" doc:"the specification says nothing here, and saying it would change the number"`
	Basis  Basis        `json:"basis" enum:"stated|measured|nameplate|catalogue|assumed" doc:"where the input comes from; stated if nothing more is known"`
	Why    string       `json:"why,omitempty" doc:"of a default or a part"`
	Gain   float64      `json:"gain,omitempty" doc:"relative change of the number for a relative change of the input"`
	Shift  jsonQuantity `json:"shift,omitzero" doc:"change of the number for 1 % more of the input, for one kelvin or one centimetre more of a point, or the greatest for another word; absent where the number then is no more"`
	Factor float64      `json:"factor,omitempty" doc:"of an input that moves the number only from afar: what it was multiplied by for shift"`
}

//go:embed schema/trace.schema.json
var traceSchema string

// TraceSchema returns the JSON Schema (draft 2020-12) of an explanation written as JSON.
// Members may be added within a format number, so the schema allows those it does not
// know.
func TraceSchema() string { return traceSchema }

// MarshalJSON writes the explanation as data. Quantities are in US units, rounded to nine
// digits: a number in that of its metric, an input in that its field is sold by.
func (t *Trace) MarshalJSON() ([]byte, error) {
	return json.Marshal(jsonTrace{TraceFormat, t.json()})
}

func (t *Trace) json() jsonNumber {
	r, m := &t.Reading, t.Reading.Metric
	out := jsonNumber{Path: r.Path(), State: r.State, Value: m.json(r.Value), Label: m.Label, Formula: m.Formula, Source: m.Source, Rule: m.Rule,
		Inputs: []jsonMoves{}, Uses: []jsonNumber{}}
	for _, in := range t.Inputs {
		x := jsonMoves{Path: in.Path, Value: jsonInput(in.Path, in.Value), Word: in.Word, Unsaid: in.Word == "" && !in.Value.Given(),
			Basis: in.Basis, Why: in.Why, Gain: rounded(in.Gain), Shift: m.jsonChange(in.Shift), Factor: in.Factor}
		if x.Basis == "" {
			x.Basis = "stated"
		}
		out.Inputs = append(out.Inputs, x)
	}
	for _, u := range t.Uses {
		out.Uses = append(out.Uses, u.json())
	}
	return out
}

// jsonChange is a change of the metric's number, in SI, for JSON; absent if there is none.
func (m *Metric) jsonChange(by float64) jsonQuantity {
	k := differenceKind(m.Kind)
	q, err := units.NewQuantity(k, by)
	if err != nil || by == 0 {
		return jsonQuantity{}
	}
	if k == m.Kind {
		return m.json(q)
	}
	unit := k.Unit(units.US)
	for _, u := range k.Units() {
		if u.Symbol() == m.Unit(units.US).Symbol() {
			unit = u // a place in feet moves by feet
		}
	}
	return jsonQuantity{q, unit}
}
