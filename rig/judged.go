package rig

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"iter"
	"math"
	"slices"

	"example.com/washrig/units"
)

// A Judgement is one reading held against the limit of one check. Findings and
// passed judgements keep only the worst state of each component; a technician's
// table shows every one.
type Judgement struct {
	Code     Code
	Severity Severity // Pass if the limit is kept
	Reading  Reading
	Limit    units.Quantity // not given: none applies, or the rating is missing
	Margin   float64
	Source   string
}

// Judgements yields every reading that one of the library's checks holds
// against a limit, in order of rank and then as the readings are listed. Checks
// of a policy that are not the library's own report findings only.
func (r *Report) Judgements() iter.Seq[Judgement] {
	return func(yield func(Judgement) bool) {
		v := &View{model: r.model, numbers: r.numbers, rules: r.rules}
		for _, c := range r.rules.checks {
			lc, own := c.(*limitCheck)
			if !own || r.rules.code[lc.doc.Code].off {
				continue
			}
			for _, p := range v.rows(lc.metric) {
				held := lc.held(v, p.part())
				for k := range p.n.states {
					var j verdict
					if p.read(k, &j.reading) && lc.judge(v, p.n.reach[k], &held, math.NaN(), &j) && !yield(Judgement{lc.doc.Code, j.severity, j.reading, j.limit, j.margin, j.source}) {
						return
					}
				}
			}
		}
	}
}

// SwitchedOff returns the codes that the policy leaves out, in order of rank.
func (r *Report) SwitchedOff() []Code {
	return r.rules.switchedOff()
}

func (r *rules) switchedOff() []Code {
	var out []Code
	for c, k := range r.code {
		if k.off {
			out = append(out, c)
		}
	}
	slices.SortFunc(out, func(a, b Code) int { return r.code[a].rank - r.code[b].rank })
	return out
}

// PolicyDigest names the policy the report was made with: what it changed,
// switched off and added. It is empty for the library's own limits and checks.
func (r *Report) PolicyDigest() string {
	h := sha256.New()
	changed := false
	line := func(format string, args ...any) {
		changed = true
		fmt.Fprintf(h, format+"\n", args...)
	}
	for _, o := range r.rules.overrides {
		line("limit %q %s %s %s %q %q %q", o.Code, exact(o.Note), exact(o.Fix), exact(o.Stop), o.Who, o.When, o.Why)
	}
	for _, d := range r.ChangedDefaults() {
		line("default %q %q %q %q %q", d.Path, d.Value, d.Change.Who, d.Change.When, d.Change.Why)
	}
	for _, c := range r.SwitchedOff() {
		line("off %q", c)
	}
	for _, h := range r.rules.prices {
		line("price %q %q %q %q %q", h.ID, h.Price, h.AtLeast, h.AtMost, h.Severity)
	}
	for _, c := range r.rules.checks[len(ownRules().checks):] {
		for _, d := range c.Codes() {
			line("check %q %q %s %s %s", d.Code, d.Title, exact(d.Limit.Note), exact(d.Limit.Fix), exact(d.Limit.Stop))
		}
	}
	if !changed {
		return ""
	}
	return hex.EncodeToString(h.Sum(nil))
}

// PriceRules returns the house rules about the price of the report's policy.
func (r *Report) PriceRules() []HouseRule { return append([]HouseRule(nil), r.rules.prices...) }
