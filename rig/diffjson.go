package rig

import (
	_ "embed" // the schema is a file, so that it can be read without Go
	"encoding/json"
)

// DifferenceFormat is the first field of a difference written as JSON.
const DifferenceFormat = "washrig-difference/1"

// jsonDifference is the JSON form of a Difference; see schema/difference.schema.json. New
// fields may be added; none is renamed, and none changes its meaning within a format
// number.
type jsonDifference struct {
	Format   string        `json:"format" const:"washrig-difference/1" doc:"format of this document"`
	Before   jsonSide      `json:"before" doc:"the report that was held against the other"`
	After    jsonSide      `json:"after" doc:"the other"`
	Numbers  []jsonChanged `json:"numbers" doc:"metrics of components whose worst reading is not the same"`
	Appeared []jsonFinding `json:"appeared" doc:"findings of the second report alone"`
	Cleared  []jsonFinding `json:"cleared" doc:"findings of the first report alone"`
	Changed  []jsonWeighed `json:"changed" doc:"findings of both, of different weight"`
}

type jsonSide struct {
	Name       string   `json:"name" doc:"name of the rig"`
	SpecDigest string   `json:"spec_digest" doc:"names the specification as it was written"`
	Verdict    Severity `json:"verdict" doc:"the gravest severity found"`
}

type jsonChanged struct {
	Path   Path     `json:"path" doc:"the metric's pattern with the component's id in its brackets"`
	Label  string   `json:"label" doc:"words for people; may be reworded"`
	Better string   `json:"better" enum:"higher|lower|neither" doc:"which way is better"`
	Before jsonSeen `json:"before,omitzero" doc:"its worst reading in the first report; absent if it has none"`
	After  jsonSeen `json:"after,omitzero" doc:"its worst reading in the second report; absent if it has none"`
}

type jsonSeen struct {
	State State        `json:"state" doc:"the state it stands in"`
	Value jsonQuantity `json:"value" doc:"the number"`
}

// IsZero reports whether there is no reading, for omitzero.
func (j jsonSeen) IsZero() bool { return j.Value.IsZero() }

type jsonWeighed struct {
	Before jsonFinding `json:"before" doc:"in the first report"`
	After  jsonFinding `json:"after" doc:"in the second report"`
}

//go:embed schema/difference.schema.json
var differenceSchema string

// DifferenceSchema returns the JSON Schema (draft 2020-12) of a difference written as
// JSON. Members may be added within a format number, so the schema allows those it does
// not know.
func DifferenceSchema() string { return differenceSchema }

// MarshalJSON writes the difference as data: both sides of every number and finding that
// is not the same. Quantities are in US units, one unit a metric, rounded to nine digits.
func (d Difference) MarshalJSON() ([]byte, error) {
	side := func(r *Report) (s jsonSide) {
		if r != nil {
			s = jsonSide{r.model.Name(), r.model.Digest(), r.Verdict()}
		}
		return s
	}
	out := jsonDifference{Format: DifferenceFormat, Before: side(d.before), After: side(d.after), Numbers: []jsonChanged{},
		Appeared: d.after.jsonFindings(d.Appeared), Cleared: d.before.jsonFindings(d.Cleared), Changed: []jsonWeighed{}}
	for _, n := range d.Numbers {
		m := n.Before.Metric
		if m == nil {
			m = n.After.Metric
		}
		x := jsonChanged{Path: n.Path, Label: m.Label, Better: m.Better.word()}
		if n.Before.Metric != nil {
			x.Before = jsonSeen{n.Before.State, m.json(n.Before.Value)}
		}
		if n.After.Metric != nil {
			x.After = jsonSeen{n.After.State, m.json(n.After.Value)}
		}
		out.Numbers = append(out.Numbers, x)
	}
	for _, c := range d.Changed {
		out.Changed = append(out.Changed, jsonWeighed{d.before.jsonFindings([]Finding{c.Before})[0], d.after.jsonFindings([]Finding{c.After})[0]})
	}
	return json.Marshal(out)
}
