package rig

import (
	"math"
	"slices"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// vary returns a model like m with one value of the resolved specification
// changed. Nothing is looked up or checked again: the value stands where one
// stood before. Blocks the value does not touch are shared.
func (m *Model) vary(p Path, q units.Quantity) (*Model, error) {
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	c := *m
	if c.spec, err = moved(t, m.spec, p, q); err != nil {
		return nil, err
	}
	c.rederive(p)
	for _, at := range [...]Path{"tanks", "fuel_tanks", "fills", "crossovers", "trailer"} {
		if !at.covers(p) {
			continue
		}
		if c.fills, err = fillStates(c.spec); err != nil {
			return nil, err
		}
	}
	c.blocks = blocks{}
	c.compileBlocks(m, p)
	return &c, nil
}

// moved returns a specification like s with one value changed. It shares with s what
// is not on the way to the value; see rederive for what is changed beside it.
func moved(t *fields.Table, s *Spec, p Path, q units.Quantity) (*Spec, error) {
	c, err := t.Along(s, string(p))
	if err != nil {
		return nil, err
	}
	out := c.(*Spec)
	if Path("sources").covers(p) {
		out.Loads = slices.Clone(out.Loads) // a fan follows the frequency of its source
	}
	return out, t.SetQuantity(out, string(p), q)
}

// lean finds, for every judgement of the library's own checks, the assumed
// inputs it rests on and the value of the first of them at which the verdict
// turns. Where an assumed input has a plausible band, the check can stop, and
// the turn lies inside the band, the verdict is "cannot judge".
func (v *View) lean(rep *Report) error {
	if len(v.model.assumed) == 0 {
		return nil
	}
	if _, err := v.model.blocks.all(); err != nil { // what a value does not touch is solved for good
		return err
	}
	v.search = &search{}
	moved := map[Path]*View{}
	for _, p := range v.model.assumed {
		q, ok := v.model.Quantity(p)
		if !ok {
			continue
		}
		for _, factor := range []float64{1.02, 0.98} {
			nq, err := units.NewQuantity(q.Kind(), q.SI()*factor)
			if err != nil {
				continue
			}
			if m, err := v.model.vary(p, nq); err == nil {
				if n, err := m.blocks.all(); err == nil {
					moved[p] = &View{model: m, numbers: n, rules: v.rules}
					break
				}
			}
		}
	}
	rep.again(func(f *Finding) {
		if c := v.rules.own(f.Code); c != nil && f.Limit.Given() {
			v.leanOne(c, f, moved)
		}
	})
	return nil
}

// again looks at what was found and what passed once more; what no longer passes is
// found, after the rest.
func (r *Report) again(look func(*Finding)) {
	for i := range r.findings {
		look(&r.findings[i])
	}
	left := r.passed[:0]
	for i := range r.passed {
		f := &r.passed[i]
		if look(f); f.Severity == Pass {
			left = append(left, *f)
		} else {
			r.findings = append(r.findings, *f)
		}
	}
	r.passed = left
}

// A search is the memory in which the values of a search are tried.
type search struct {
	w Workspace
	v View
}

func (v *View) leanOne(c *limitCheck, f *Finding, moved map[Path]*View) {
	for _, p := range v.model.assumed {
		w := moved[p]
		if w == nil || !c.reads(p.Pattern()) {
			continue
		}
		if m, ok := c.marginAt(w, f); ok && m != f.Margin {
			f.Leans = append(f.Leans, p)
		}
	}
	for i, p := range f.Leans {
		b, banded := v.model.bands[p]
		guards := banded && (c.severity == Stop || v.Limit(c.doc.Code).Stop.Given())
		if i > 0 && !guards {
			continue // nobody asks where it turns
		}
		turn, ok := v.turn(c, f, p)
		if !ok {
			continue
		}
		if i == 0 {
			f.Turns = turn
		}
		if guards && f.Reading.State.Reach() == Reachable && turn.SI() >= b.Low.SI() && turn.SI() <= b.High.SI() {
			f.Severity, f.Typical, f.Turns = CannotJudge, b, turn
			f.Leans[0], f.Leans[i] = f.Leans[i], f.Leans[0]
			return
		}
	}
}

func (c *limitCheck) reads(pat Path) bool {
	if c.metric.reads(pat) {
		return true
	}
	for _, m := range c.also {
		if m.reads(pat) {
			return true
		}
	}
	return false
}

// marginAt returns the margin of a judgement in another view: of the same
// component to the same kind of limit, the worst over the states of the same
// reach.
func (c *limitCheck) marginAt(v *View, f *Finding) (float64, bool) {
	worst, found := math.Inf(1), false
	reach := f.Reading.State.Reach()
	held := c.held(v, f.Reading.Part)
	for _, p := range v.rows(c.metric) {
		if p.part() != f.Reading.Part {
			continue
		}
		for k := range p.n.states {
			if p.n.reach[k] != reach {
				continue
			}
			var x verdict
			if !p.read(k, &x.reading) || !c.judge(v, reach, &held, math.NaN(), &x) || x.need != "" {
				continue
			}
			m := x.margin
			if c.thresholds() {
				m = margin(x.reading.Value, f.Limit, c.doc.Bad)
			}
			worst, found = math.Min(worst, m), true
		}
	}
	return worst, found
}

// turn finds the value of an assumed input nearest to the one taken at which
// the margin changes sign, within the range of the field.
func (v *View) turn(c *limitCheck, f *Finding, p Path) (units.Quantity, bool) {
	q, ok := v.model.Quantity(p)
	t, err := specTable()
	if !ok || err != nil {
		return units.Quantity{}, false
	}
	row, ok := t.Lookup(string(p))
	if !ok {
		return units.Quantity{}, false
	}
	at := func(x float64) float64 {
		nq, err := units.NewQuantity(q.Kind(), x)
		if err != nil {
			return math.NaN()
		}
		m, err := v.model.vary(p, nq)
		if err != nil {
			return math.NaN()
		}
		s := v.search
		s.w.reset()
		n, err := m.blocks.within(&s.w)
		if err != nil {
			return math.NaN()
		}
		s.v = View{model: m, numbers: n, rules: v.rules, index: index{first: s.v.index.first[:0], where: s.v.index.where[:0]}}
		g, ok := c.marginAt(&s.v, f)
		if !ok {
			return math.NaN()
		}
		return g
	}
	x0 := q.SI()
	g0, found := c.marginAt(v, f)
	if !found {
		return units.Quantity{}, false
	}
	best, have := 0.0, false
	for _, dir := range []float64{1.3, 1 / 1.3} {
		a, ga := x0, g0
		for range 14 {
			b := clampField(row, a*dir)
			if b == a {
				break
			}
			gb := at(b)
			if math.IsNaN(gb) {
				break
			}
			if (gb < 0) != (ga < 0) {
				x, _, err := root.Bracketed(at, math.Min(a, b), math.Max(a, b), 1e-9*math.Abs(x0))
				if err == nil && (!have || math.Abs(x-x0) < math.Abs(best-x0)) {
					best, have = x, true
				}
				break
			}
			a, ga = b, gb
		}
	}
	if !have {
		return units.Quantity{}, false
	}
	out, err := units.NewQuantity(q.Kind(), best)
	return out, err == nil
}

func clampField(f *fields.Field, x float64) float64 {
	low, high, hasLow, hasHigh := f.Range()
	if hasLow {
		x = math.Max(x, low)
	}
	if hasHigh {
		x = math.Min(x, high)
	}
	return x
}
