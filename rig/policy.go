package rig

import (
	"fmt"
	"sort"

	"example.com/washrig/units"
)

// A Limit holds the thresholds of a check. A threshold that is not given does
// not apply. The value is on the wrong side of a threshold when it lies beyond
// it in the direction the check names.
type Limit struct {
	Note, Fix, Stop units.Quantity
	Source          string
	Who, When, Why  string // of an override; all three are needed to change a limit
}

func (l Limit) given() bool {
	return l.Note.Given() || l.Fix.Given() || l.Stop.Given()
}

// A CodeDoc documents a code once: what it means, what it looks at, the limit
// that holds unless a policy changes it.
type CodeDoc struct {
	Code    Code
	Title   string    // what is wrong, in a few words
	Meaning string    // a sentence for the handbook
	Metric  Path      // the metric it judges
	Bad     Direction // the side of the limit that is wrong: Higher or Lower
	Limit   Limit     // thresholds that do not come from the specification
	Plate   bool      // the limit is a rating of a part: it cannot be changed
	Grave   bool      // it can weigh stop or cannot judge by a limit of its own: it cannot be switched off
	Defers  string    // who decides
}

// A Check judges a report. The library's own checks are Checks too.
type Check interface {
	Codes() []CodeDoc
	Check(v *View, report func(Finding))
}

// A Policy is a dealer's set of limits, defaults and checks. The zero Policy has
// the library's own.
type Policy struct {
	Limits   map[Code]Limit   // changed thresholds
	Defaults map[Path]Default // changed defaults, by pattern such as pumps[].belt_efficiency
	Off      []Code           // checks not wanted; a code that can stop cannot be off
	Checks   []Check          // further checks
	Prices   []HouseRule      // house rules about the price; quotes are held against them
}

// Codes returns the documents of the library's own checks in order of rank.
func Codes() []CodeDoc {
	var out []CodeDoc
	for _, c := range ownChecks() {
		out = append(out, c.Codes()...)
	}
	return out
}

// rules is a validated policy.
type rules struct {
	checks []Check
	limit  map[Code]Limit
	plate  map[Code]bool
	rank   map[Code]int
	off    map[Code]bool
	prices []HouseRule
}

func (p *Policy) compile() (*rules, error) {
	r := &rules{limit: map[Code]Limit{}, plate: map[Code]bool{}, rank: map[Code]int{}, off: map[Code]bool{}}
	r.checks = ownChecks()
	if p != nil {
		r.checks = append(r.checks, p.Checks...)
	}
	stops := map[Code]bool{}
	for _, c := range r.checks {
		for _, d := range c.Codes() {
			if _, dup := r.rank[d.Code]; dup {
				return nil, &units.FieldError{Path: "policy.checks", Value: string(d.Code), Want: "a code no other check has", Err: units.ErrConflict}
			}
			r.rank[d.Code] = len(r.rank)
			r.limit[d.Code] = d.Limit
			r.plate[d.Code] = d.Plate
			stops[d.Code] = d.Plate || d.Grave || d.Limit.Stop.Given()
		}
	}
	if p == nil {
		return r, nil
	}
	if err := p.checkDefaults(); err != nil {
		return nil, err
	}
	for _, h := range p.Prices {
		if _, _, err := h.PriceLimit(); err != nil {
			return nil, units.At("policy.rules["+h.ID+"]", err)
		}
	}
	r.prices = append(r.prices, p.Prices...)
	var codes []string
	for c := range p.Limits {
		codes = append(codes, string(c))
	}
	sort.Strings(codes)
	for _, name := range codes {
		c := Code(name)
		path := fmt.Sprintf("policy.limits[%s]", c)
		old, known := r.limit[c]
		l := p.Limits[c]
		switch {
		case !known:
			return nil, &units.FieldError{Path: path, Want: "a code of a check", Err: units.ErrRange}
		case r.plate[c]:
			return nil, &units.FieldError{Path: path, Want: "another code; a plate cannot be relaxed", Err: units.ErrConflict}
		case l.Who == "" || l.When == "" || l.Why == "":
			return nil, &units.FieldError{Path: path, Want: "who changed it, when and why", Err: units.ErrMissing}
		case !l.given():
			return nil, &units.FieldError{Path: path, Want: "at least one threshold", Err: units.ErrMissing}
		}
		merge := func(dst *units.Quantity, src units.Quantity, level string) error {
			if !src.Given() {
				return nil
			}
			if !dst.Given() || dst.Kind() != src.Kind() {
				return &units.FieldError{Path: path + "." + level, Value: src.String(), Want: "a threshold this code has, of its own kind", Err: units.ErrConflict}
			}
			*dst = src
			return nil
		}
		for _, err := range []error{merge(&old.Note, l.Note, "note"), merge(&old.Fix, l.Fix, "fix"), merge(&old.Stop, l.Stop, "stop")} {
			if err != nil {
				return nil, err
			}
		}
		old.Who, old.When, old.Why = l.Who, l.When, l.Why
		old.Source = "override"
		r.limit[c] = old
	}
	for _, c := range p.Off {
		if _, known := r.rank[c]; !known {
			return nil, &units.FieldError{Path: "policy.off", Value: string(c), Want: "a code of a check", Err: units.ErrRange}
		}
		if stops[c] {
			return nil, &units.FieldError{Path: "policy.off", Value: string(c), Want: "a code that cannot stop; a stop is never switched off", Err: units.ErrConflict}
		}
		r.off[c] = true
	}
	return r, nil
}
