package rig

import (
	"encoding/json"

	"example.com/washrig/units"
)

type jsonFinding struct {
	Code     Code           `json:"code"`
	Title    string         `json:"title"`
	Severity Severity       `json:"severity"`
	Path     Path           `json:"path"`
	State    string         `json:"state"`
	Reach    string         `json:"reach"`
	Value    units.Quantity `json:"value"`
	Limit    units.Quantity `json:"limit"`
	Margin   float64        `json:"margin"`
	Source   string         `json:"source"`
	Defers   string         `json:"defers,omitempty"`
	Root     string         `json:"root,omitempty"`
	Leans    []Path         `json:"leans,omitempty"`
	Turns    units.Quantity `json:"turns,omitzero"`
	Override string         `json:"override,omitempty"`
}

type jsonReading struct {
	Path  Path           `json:"path"`
	State string         `json:"state"`
	Value units.Quantity `json:"value"`
}

type jsonOrigin struct {
	Path  Path           `json:"path"`
	Value units.Quantity `json:"value"`
	Basis Basis          `json:"basis"`
	Why   string         `json:"why,omitempty"`
}

type jsonReport struct {
	Format     string        `json:"format"`
	Version    string        `json:"version"`
	Disclaimer string        `json:"disclaimer"`
	Name       string        `json:"name"`
	Spec       string        `json:"spec_digest"`
	Shelf      string        `json:"shelf_digest,omitempty"`
	Verdict    Severity      `json:"verdict"`
	Findings   []jsonFinding `json:"findings"`
	Passed     []jsonFinding `json:"passed"`
	Readings   []jsonReading `json:"readings"`
	Assumed    []jsonOrigin  `json:"assumed"`
	Open       []Open        `json:"open"`
	Overrides  []string      `json:"overrides"`
	Cautions   []Caution     `json:"cautions"`
	NotChecked []string      `json:"not_checked"`
}

// ReportFormat is the first field of a report written as JSON.
const ReportFormat = "washrig-report/1"

// MarshalJSON writes the report as data: findings, judgements that passed,
// every reading of every state, and the cautions that travel with them.
func (r *Report) MarshalJSON() ([]byte, error) {
	out := jsonReport{Format: ReportFormat, Version: Version, Disclaimer: Disclaimer, Name: r.model.Name(), Spec: r.model.Digest(), Shelf: r.model.shelf.Digest(),
		Verdict: r.Verdict(), Findings: r.jsonFindings(r.findings), Passed: r.jsonFindings(r.passed), Readings: []jsonReading{}, Assumed: []jsonOrigin{},
		Open: append([]Open{}, r.model.openings...), Overrides: []string{}, Cautions: Cautions(), NotChecked: NotChecked()}
	for x := range r.Every() {
		out.Readings = append(out.Readings, jsonReading{x.Path(), x.State.String(), x.Value})
	}
	for _, o := range r.model.Assumed() {
		q, _ := r.model.Quantity(o.Path)
		out.Assumed = append(out.Assumed, jsonOrigin{o.Path, q, o.Basis, o.Why})
	}
	for _, o := range r.overrides {
		out.Overrides = append(out.Overrides, string(o.Code)+": "+o.Who+", "+o.When+", "+o.Why)
	}
	return json.Marshal(out)
}

func (r *Report) jsonFindings(list []Finding) []jsonFinding {
	out := make([]jsonFinding, 0, len(list))
	for _, f := range list {
		d := r.codes[f.Code]
		out = append(out, jsonFinding{f.Code, d.Title, f.Severity, f.Reading.Path(), f.Reading.State.String(), f.Reading.State.Reach().String(),
			f.Reading.Value, f.Limit, f.Margin, f.Source, d.Defers, f.Root, f.Leans, f.Turns, f.Override})
	}
	return out
}
