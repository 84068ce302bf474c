package rig

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"reflect"
	"slices"
	"strings"
	"sync"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// PolicyFormat is the first field of a policy file.
const PolicyFormat = "washrig-policy/1"

// policyFile is the JSON form of a Policy; its checks are house rules.
type policyFile struct {
	Format   string          `json:"format" need:"yes" doc:"washrig-policy/1"`
	Limits   []policyLimit   `json:"limits" doc:"changed thresholds"`
	Defaults []policyDefault `json:"defaults" doc:"changed defaults"`
	Off      []string        `json:"off" doc:"codes not wanted; one that can stop is refused"`
	Rules    []HouseRule     `json:"rules" doc:"the dealer's own checks"`
}

type policyDefault struct {
	Path  string `json:"path" need:"yes" doc:"the pattern of a field that has a default, such as pumps[].belt_efficiency"`
	Value string `json:"value" need:"yes" doc:"what is taken where a specification gives nothing, such as 94 %"`
	Who   string `json:"who" need:"yes" doc:"who changed it; printed on every output"`
	When  string `json:"when" need:"yes" doc:"when it was changed"`
	Why   string `json:"why" need:"yes" doc:"why it was changed"`
}

type policyLimit struct {
	ID   string `json:"id" doc:"the code whose limit is changed"`
	Note string `json:"note" doc:"threshold of a note, such as 8 %"`
	Fix  string `json:"fix" doc:"threshold of a fix"`
	Stop string `json:"stop" doc:"threshold of a stop"`
	Who  string `json:"who" need:"yes" doc:"who changed it; printed on every output"`
	When string `json:"when" need:"yes" doc:"when it was changed"`
	Why  string `json:"why" need:"yes" doc:"why it was changed"`
}

var policyTable = sync.OnceValues(func() (*fields.Table, error) { return fields.Of(reflect.TypeFor[policyFile]()) })

// ReadPolicy reads a dealer's changed limits from JSON. It is as strict as
// ReadSpec and knows the library's own codes; whether a limit may be changed is
// decided by Assess.
func ReadPolicy(r io.Reader) (*Policy, error) {
	t, err := policyTable()
	if err != nil {
		return nil, err
	}
	var f policyFile
	if err := t.Decode(r, &f, fields.Limits{}); err != nil {
		return nil, err
	}
	if err := parts.CheckFormat(f.Format, PolicyFormat); err != nil {
		return nil, err
	}
	known := map[Code]CodeDoc{}
	for _, d := range Codes() {
		known[d.Code] = d
	}
	p := &Policy{Limits: map[Code]Limit{}}
	var errs []error
	for _, l := range f.Limits {
		at := "limits[" + l.ID + "]"
		doc, ok := known[Code(l.ID)]
		old := doc.Limit
		switch {
		case !ok:
			errs = append(errs, &units.FieldError{Path: at, Want: nearCodes(l.ID, slices.Collect(maps.Keys(known))), Err: errNoCode})
			continue
		case doc.Plate:
			errs = append(errs, onPlate(at))
			continue
		}
		limit := Limit{Who: l.Who, When: l.When, Why: l.Why}
		for _, x := range []struct {
			name string
			text string
			old  units.Quantity
			to   *units.Quantity
		}{{"note", l.Note, old.Note, &limit.Note}, {"fix", l.Fix, old.Fix, &limit.Fix}, {"stop", l.Stop, old.Stop, &limit.Stop}} {
			if x.text == "" {
				continue
			}
			if !x.old.Given() {
				errs = append(errs, &units.FieldError{Path: at + "." + x.name, Value: x.text, Want: thresholds(old), Err: problem.Words("the code has no such threshold", units.ErrConflict)})
				continue
			}
			if *x.to, err = units.ParseQuantity(x.old.Kind(), x.text); err != nil {
				errs = append(errs, units.At(at+"."+x.name, err))
			}
		}
		p.Limits[Code(l.ID)] = limit
	}
	for i, d := range f.Defaults {
		at := fmt.Sprintf("defaults[#%d]", i+1)
		if p.Defaults == nil {
			p.Defaults = map[Path]Default{}
		}
		if _, twice := p.Defaults[Path(d.Path)]; twice {
			errs = append(errs, &units.FieldError{Path: at + ".path", Value: d.Path, Want: "each field once", Err: problem.Words("given twice", units.ErrConflict)})
		}
		p.Defaults[Path(d.Path)] = Default{Value: d.Value, Who: d.Who, When: d.When, Why: d.Why}
	}
	for _, c := range f.Off {
		p.Off = append(p.Off, Code(c))
	}
	var rules []HouseRule
	names := map[string]bool{}
	for _, h := range f.Rules {
		if h.Price == "" {
			rules = append(rules, h)
			continue
		}
		if names[h.ID] {
			errs = append(errs, &units.FieldError{Path: "rules[" + h.ID + "]", Value: h.ID, Want: "a name no other rule has", Err: problem.Words("this name is taken", units.ErrConflict)})
		}
		names[h.ID] = true
		if _, _, err := h.PriceLimit(); err != nil {
			errs = append(errs, units.At("rules["+h.ID+"]", err))
		}
		p.Prices = append(p.Prices, h)
	}
	checks, err := HouseRules(rules...)
	p.Checks = checks
	return p, errors.Join(append(errs, err)...)
}

// errNoCode is the error of a code that no check has.
var errNoCode = problem.Words("no check has this code", units.ErrRange)

// onPlate is the error of a limit that a plate sets.
func onPlate(at string) error {
	return &units.FieldError{Path: at, Want: "another code, or the rating in the specification", Err: problem.Words("the limit is a plate, which no policy changes", units.ErrConflict)}
}

// nearCodes names the codes that were probably meant.
func nearCodes(given string, known []Code) string {
	names := make([]string, len(known))
	for i, c := range known {
		names[i] = string(c)
	}
	slices.Sort(names)
	return "a code such as " + strings.Join(fields.Near(given, names, 3), ", ")
}

// thresholds names the thresholds that a limit has.
func thresholds(l Limit) string {
	var has []string
	for _, x := range []struct {
		name string
		q    units.Quantity
	}{{"note", l.Note}, {"fix", l.Fix}, {"stop", l.Stop}} {
		if x.q.Given() {
			has = append(has, x.name+" (now "+x.q.String()+")")
		}
	}
	if len(has) == 0 {
		return "another code; this one has no threshold of its own"
	}
	return strings.Join(has, " or ")
}

// Validate reports whether an assessment would accept the policy: its codes
// are known, its changes are allowed and signed. A nil policy is valid.
func (p *Policy) Validate() error {
	_, err := p.compile()
	return err
}
