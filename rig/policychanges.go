package rig

import (
	"encoding/json"
	"fmt"

	"example.com/washrig/units"
)

// PolicyChanges are what a policy changed in what the library goes by. They are
// printed on every output, used or not.
type PolicyChanges struct {
	Limits   []CodeDoc         // codes with a changed limit, in order of rank; who, when and why stand in the limit
	Defaults []StandingDefault // changed defaults, in order of path
	Off      []CodeDoc         // codes that are not checked, in order of rank
}

// Changes returns what the policy changed. A nil policy changed nothing.
func (p *Policy) Changes() (PolicyChanges, error) {
	var out PolicyChanges
	r, err := p.compile()
	if err != nil {
		return out, err
	}
	out.take(r)
	in, err := p.InForce()
	if err != nil {
		return out, err
	}
	for _, d := range in.Defaults {
		if d.Change != nil {
			out.Defaults = append(out.Defaults, d)
		}
	}
	return out, nil
}

// PolicyChanges returns what the policy of the report changed.
func (r *Report) PolicyChanges() PolicyChanges {
	out := PolicyChanges{Defaults: r.ChangedDefaults()}
	out.take(r.rules)
	return out
}

func (c *PolicyChanges) take(r *rules) {
	for _, o := range r.overrides {
		c.Limits = append(c.Limits, r.code[o.Code].doc)
	}
	for _, code := range r.switchedOff() {
		c.Off = append(c.Off, r.code[code].doc)
	}
}

// Words says each change in a line: changed limits with the thresholds in force,
// changed defaults, codes that are not checked.
func (c PolicyChanges) Words(sys units.System, digits int) []string {
	var out []string
	for i := range c.Limits {
		d := &c.Limits[i]
		out = append(out, fmt.Sprintf("%s (%s): %s, %s, %s%s", d.Title, d.Code, d.Limit.Who, d.Limit.When, d.Limit.Why, d.thresholdWords(sys, digits)))
	}
	for _, d := range c.Defaults {
		out = append(out, fmt.Sprintf("default of %s: %s; %s, %s, %s", d.Path, d.Value, d.Change.Who, d.Change.When, d.Change.Why))
	}
	for i := range c.Off {
		out = append(out, fmt.Sprintf("%s (%s): not checked, switched off by the dealer's policy", c.Off[i].Title, c.Off[i].Code))
	}
	return out
}

// thresholdWords are the thresholds in force of a code whose metric has a unit.
func (d *CodeDoc) thresholdWords(sys units.System, digits int) string {
	m, ok := MetricOf(d.Metric)
	if !ok {
		return ""
	}
	out := ""
	for _, t := range [...]struct {
		word string
		q    units.Quantity
	}{{"note", d.Limit.Note}, {"fix", d.Limit.Fix}, {"stop", d.Limit.Stop}} {
		if text := m.Text(t.q, sys, digits); text != "" {
			out += "; " + t.word + " from " + text
		}
	}
	return out
}

// MarshalJSON writes the changes as a report does: overrides, changed defaults and
// codes switched off.
func (c PolicyChanges) MarshalJSON() ([]byte, error) {
	out := struct {
		Overrides   []jsonOverride `json:"overrides"`
		Defaults    []jsonDefault  `json:"changed_defaults"`
		SwitchedOff []Code         `json:"switched_off"`
	}{}
	out.Overrides, out.Defaults, out.SwitchedOff = c.json()
	return json.Marshal(out)
}
