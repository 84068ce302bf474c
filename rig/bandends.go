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
	byCode := map[Code]*limitCheck{}
	for _, c := range v.rules.checks {
		if lc, ok := c.(*limitCheck); ok {
			byCode[lc.doc.Code] = lc
		}
	}
	type end struct {
		path Path
		band Band
		at   [2]*View // low and high; nil where the model cannot be made
	}
	var ends []end
	for _, p := range v.model.assumed {
		b, banded := v.model.bands[p]
		if !banded {
			continue
		}
		e := end{path: p, band: b}
		for i, q := range []units.Quantity{b.Low, b.High} {
			m, err := v.model.vary(p, q)
			if err != nil {
				continue
			}
			n, err := m.blocks.all()
			if err != nil {
				continue
			}
			e.at[i] = &View{model: m, numbers: n, rules: v.rules}
		}
		ends = append(ends, e)
	}
	judge := func(f *Finding) {
		c := byCode[f.Code]
		if c == nil || !f.Limit.Given() || f.Reading.State.Reach() != Reachable || (c.severity != Stop && !v.Limit(c.doc.Code).Stop.Given()) {
			return
		}
		for _, e := range ends {
			if !c.dependsOn(e.path) {
				continue
			}
			for _, w := range e.at {
				if w == nil {
					continue
				}
				if m, ok := c.marginAt(w, f); ok && (m < 0) != (f.Margin < 0) {
					f.Severity, f.Typical, f.Leans = CannotJudge, e.band, []Path{e.path}
					return
				}
			}
		}
	}
	var find, pass []Finding
	for _, list := range [][]Finding{rep.findings, rep.passed} {
		for _, f := range list {
			judge(&f)
			if f.Severity == Pass {
				pass = append(pass, f)
			} else {
				find = append(find, f)
			}
		}
	}
	rep.findings, rep.passed = find, pass
	return nil
}
