package rig

import "example.com/washrig/units"

// bandEnds judges every assumed input that has a plausible band by the two ends
// of the band: where the margin of a check that can stop changes sign at one of
// them, the verdict is "cannot judge". It comes to the verdicts of lean wherever
// a margin moves one way within the band, for two solutions an input in place
// of a search; it does not say where the verdict turns.
func (v *View) bandEnds(rep *Report) error {
	if len(v.model.bands) == 0 {
		return nil
	}
	// The two ends of a band are solved when the first check asks for them.
	solved := map[Path][]*View{}
	ends := func(p Path, b Band) []*View {
		views, done := solved[p]
		if done {
			return views
		}
		for _, q := range []units.Quantity{b.Low, b.High} {
			m, err := v.model.vary(p, q)
			if err != nil {
				continue // an end the field may not take
			}
			if n, err := m.blocks.all(); err == nil {
				views = append(views, &View{model: m, numbers: n, rules: v.rules})
			}
		}
		solved[p] = views
		return views
	}
	type bandedInput struct {
		path, pattern Path
		band          Band
	}
	var banded []bandedInput
	for _, p := range v.model.assumed {
		if b, ok := v.model.bands[p]; ok {
			banded = append(banded, bandedInput{p, p.Pattern(), b})
		}
	}
	judge := func(f *Finding) {
		c := v.rules.own(f.Code)
		if c == nil || !f.Limit.Given() || f.Reading.State.Reach() != Reachable || (c.severity != Stop && !v.Limit(c.doc.Code).Stop.Given()) {
			return
		}
		for _, x := range banded {
			p, b := x.path, x.band
			if !c.reads(x.pattern) {
				continue
			}
			for _, w := range ends(p, b) {
				if m, ok := c.marginAt(w, f); ok && (m < 0) != (f.Margin < 0) {
					f.Severity, f.Typical, f.Leans = CannotJudge, b, []Path{p}
					return
				}
			}
		}
	}
	rep.again(judge)
	return nil
}
