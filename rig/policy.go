package rig

import (
	"fmt"
	"maps"
	"slices"
	"sort"
	"sync"

	"example.com/washrig/internal/problem"
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
	own := ownRules()
	out := make([]CodeDoc, len(own.code))
	for _, k := range own.code {
		out[k.rank] = k.doc
	}
	return out
}

// rules is a validated policy. It is never changed once it is made.
type rules struct {
	checks    []Check
	first     []*known // of each check: its first code
	code      map[Code]*known
	overrides []Override // in order of rank
	prices    []HouseRule
}

// known is one code of the checks of a policy.
type known struct {
	doc   CodeDoc // with the limits in force
	rank  int
	stops bool // it may weigh stop: it cannot be switched off
	off   bool
	check *limitCheck // that has the code, where it is one
	after []*cause    // from which it may follow
}

// limit returns the thresholds in force for a code.
func (r *rules) limit(c Code) Limit {
	if k, ok := r.code[c]; ok {
		return k.doc.Limit
	}
	return Limit{}
}

// add takes the codes of a check.
func (r *rules) add(c Check) error {
	r.checks = append(r.checks, c)
	for _, d := range c.Codes() {
		if _, dup := r.code[d.Code]; dup {
			return &units.FieldError{Path: "policy.checks", Value: string(d.Code), Want: "a code no other check has", Err: problem.Words("this code is taken", units.ErrConflict)}
		}
		own, _ := c.(*limitCheck)
		r.code[d.Code] = &known{doc: d, rank: len(r.code), stops: d.Plate || d.Grave || d.Limit.Stop.Given(), check: own}
	}
	return nil
}

// own returns the library's check of a code that holds numbers against a limit, nil
// where it is none.
func (r *rules) own(c Code) *limitCheck {
	if k := r.code[c]; k != nil {
		return k.check
	}
	return nil
}

// ownRules are the library's own checks with the library's own limits. No two of
// its codes are the same; a test holds that.
var ownRules = sync.OnceValue(func() *rules {
	r := &rules{code: map[Code]*known{}}
	for _, c := range ownChecks() {
		_ = r.add(c)
	}
	for _, c := range causes() {
		for _, effect := range c.effects {
			if k := r.code[effect]; k != nil {
				k.after = append(k.after, &c)
			}
		}
	}
	r.index()
	return r
})

// index finds the first code of each check.
func (r *rules) index() {
	r.first = make([]*known, len(r.checks))
	for i, c := range r.checks {
		if codes := c.Codes(); len(codes) > 0 {
			r.first[i] = r.code[codes[0].Code]
		}
	}
}

func (p *Policy) compile() (*rules, error) {
	if p == nil {
		return ownRules(), nil
	}
	own := ownRules()
	r := &rules{checks: slices.Clone(own.checks), code: make(map[Code]*known, len(own.code))}
	for c, k := range own.code {
		x := *k
		r.code[c] = &x
	}
	for _, c := range p.Checks {
		if err := r.add(c); err != nil {
			return nil, err
		}
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
		k := r.code[c]
		l := p.Limits[c]
		switch {
		case k == nil:
			return nil, &units.FieldError{Path: path, Want: nearCodes(name, slices.Collect(maps.Keys(r.code))), Err: errNoCode}
		case k.doc.Plate:
			return nil, onPlate(path)
		case blank(l.Who) || blank(l.When) || blank(l.Why):
			return nil, &units.FieldError{Path: path, Want: "who changed it, when and why", Err: units.ErrMissing}
		case !l.given():
			return nil, &units.FieldError{Path: path, Want: thresholds(k.doc.Limit), Err: problem.Words("changes no threshold", units.ErrMissing)}
		}
		old := k.doc.Limit
		merge := func(dst *units.Quantity, src units.Quantity, level string) error {
			if !src.Given() {
				return nil
			}
			if !dst.Given() {
				return &units.FieldError{Path: path + "." + level, Value: src.String(), Want: thresholds(k.doc.Limit), Err: problem.Words("the code has no such threshold", units.ErrConflict)}
			}
			if err := dst.Kind().Check(src); err != nil {
				return units.At(path+"."+level, err)
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
		k.doc.Limit = old
		r.overrides = append(r.overrides, Override{c, old})
	}
	slices.SortFunc(r.overrides, func(a, b Override) int { return r.code[a.Code].rank - r.code[b.Code].rank })
	for _, c := range p.Off {
		k := r.code[c]
		if k == nil {
			return nil, &units.FieldError{Path: "policy.off", Value: string(c), Want: nearCodes(string(c), slices.Collect(maps.Keys(r.code))), Err: errNoCode}
		}
		if k.stops {
			return nil, &units.FieldError{Path: "policy.off", Value: string(c), Want: "a code that weighs note or fix at most", Err: problem.Words("can stop a rig, and a stop is never switched off", units.ErrConflict)}
		}
		k.off = true
	}
	r.index()
	return r, nil
}
