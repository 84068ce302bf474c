package rig

import (
	"cmp"
	"iter"
	"slices"
	"strings"

	"example.com/washrig/units"
)

// A Report is a judged model: every number of every state, and what was found.
// It is not changed after Assess and may be shared.
type Report struct {
	model     *Model
	numbers   []*numbers
	findings  []Finding
	passed    []Finding // as they came
	passOrder []int     // of passed
	plugs     []PlugOption
	rules     *rules
}

// A PlugOption is one way to plug in the movable loads, judged with every load
// switched on.
type PlugOption struct {
	State   State    // the plugs axis alone
	Verdict Severity // the gravest of its judgements
	Code    Code     // of the narrowest judgement
	Reading Reading
	Limit   units.Quantity
	Margin  float64 // narrowest margin of engines and sources
}

// PlugOptions returns every plug assignment of the movable loads, the listed
// one first, each with the judgement that has the narrowest margin.
func (r *Report) PlugOptions() []PlugOption { return append([]PlugOption(nil), r.plugs...) }

// An Override is a limit the dealer changed; it is printed on every output.
type Override struct {
	Code Code
	Limit
}

// AssessOptions choose what Assess spends time on. The zero value is the
// default.
type AssessOptions struct {
	// SkipBreakEven leaves out the assumed inputs a verdict leans on and the
	// value at which it turns. That work takes most of the time of Assess.
	SkipBreakEven bool

	// BandEnds keeps the verdicts right where SkipBreakEven leaves the search
	// out: an assumed input with a plausible band is tried at both ends of it,
	// and what turns between them cannot be judged. For batches.
	BandEnds bool

	// Workspace keeps memory between assessments: the report is then valid until
	// the workspace is used again, and blocks of the model that were not solved
	// before are solved in it and not kept. Numbers and judgements are the same. Nil
	// makes everything anew; such a report is valid for good.
	Workspace *Workspace
}

// Assess solves every state and judges the numbers. A nil policy has the
// library's limits and defaults, nil options are the defaults. Where the policy
// changes a default, the report is about the model with that default; see
// Report.Model. An error means that there is no answer; it is never a verdict.
func (m *Model) Assess(p *Policy, o *AssessOptions) (*Report, error) {
	r, err := p.compile()
	if err != nil {
		return nil, err
	}
	if m, err = m.under(p); err != nil {
		return nil, err
	}
	var w *Workspace
	if o != nil && o.Workspace != nil {
		w = o.Workspace
		w.reset()
	}
	on := scratch[assessment](w)
	rep, v := &on.report, &on.view
	n, err := m.blocks.within(w)
	if err != nil {
		return nil, err
	}
	*rep = Report{model: m, numbers: n, rules: r, findings: w.findings(0), passed: w.findings(1)}
	*v = View{model: m, numbers: n, rules: r, plugs: w.options(len(m.plugs)), index: index{first: v.index.first[:0], where: v.index.where[:0]}, w: w}
	if on.take == nil {
		on.take, on.takeOwn = func(f Finding) { on.found(&f) }, on.found
	}
	for i, c := range r.checks {
		on.last, v.known = r.first[i], r.first[i]
		if own, ok := c.(*limitCheck); ok {
			own.check(v, on.takeOwn)
		} else {
			c.Check(v, on.take)
		}
	}
	switch {
	case o == nil || !o.SkipBreakEven:
		err = v.lean(rep)
	case o.BandEnds:
		err = v.bandEnds(rep)
	}
	if err != nil {
		return nil, err
	}
	on.after = v.follow(rep.findings, on.after)
	for i := range v.plugs {
		v.plugs[i].State = State{set: m.axes}.with(AxisPlugs, i+1)
		v.plugs[i].Verdict = max(v.plugs[i].Verdict, Pass)
	}
	rep.plugs = v.plugs
	rep.findings = w.ordered(rep.findings, w.order(0, r, rep.findings))
	rep.passOrder = w.order(1, r, rep.passed)
	return rep, nil
}

// An assessment is a report while it is made.
type assessment struct {
	report Report
	view   View
	last   *known // of the finding before: most checks have one code
	after  []int  // by finding: the one it follows from, or -1

	take    func(Finding) // found, once for all assessments
	takeOwn func(*Finding)
}

// found puts a finding into the report.
func (a *assessment) found(f *Finding) {
	rep := &a.report
	if a.last == nil || a.last.doc.Code != f.Code {
		a.last = rep.rules.code[f.Code]
	}
	if a.last == nil || a.last.off || f.Severity < Pass || f.Severity > Stop {
		return
	}
	if l := &a.last.doc.Limit; l.Who != "" {
		f.Override = l.Who + ", " + l.When + ": " + l.Why
	}
	if f.Severity == Pass {
		rep.passed = append(rep.passed, *f)
	} else {
		rep.findings = append(rep.findings, *f)
	}
}

// compare orders by severity, margin, rank, path and state.
func (r *rules) compare(a, b *Finding) int {
	switch {
	case a.Severity != b.Severity:
		return int(b.Severity) - int(a.Severity)
	case a.Margin != b.Margin:
		return cmp.Compare(a.Margin, b.Margin)
	}
	if a.Code != b.Code {
		return r.code[a.Code].rank - r.code[b.Code].rank
	}
	if x := a.Reading.comparePath(&b.Reading); x != 0 {
		return x
	}
	switch {
	case a.Reading.State.less(b.Reading.State):
		return -1
	case b.Reading.State.less(a.Reading.State):
		return 1
	}
	return 0
}

// Model returns the model the report is about.
func (r *Report) Model() *Model { return r.model }

// Verdict returns the gravest severity found; Pass if nothing was.
func (r *Report) Verdict() Severity {
	worst := Pass
	for i := range r.findings {
		worst = max(worst, r.findings[i].Severity)
	}
	return worst
}

// Findings returns what was found, gravest first.
func (r *Report) Findings() []Finding { return append([]Finding(nil), r.findings...) }

// Passed returns the judgements that found nothing, narrowest margin first:
// for each check and component its worst reading, limit and margin.
func (r *Report) Passed() []Finding {
	out := make([]Finding, 0, len(r.passed))
	for _, i := range r.passOrder {
		out = append(out, r.passed[i])
	}
	return out
}

// Overrides returns the limits that were changed by the policy.
func (r *Report) Overrides() []Override { return append([]Override(nil), r.rules.overrides...) }

// Count returns how many findings have a severity.
func (r *Report) Count(s Severity) int {
	n := 0
	for i := range r.findings {
		if r.findings[i].Severity == s {
			n++
		}
	}
	return n
}

// Doc returns the document of a code of this report's checks.
func (r *Report) Doc(c Code) (CodeDoc, bool) {
	k, ok := r.rules.code[c]
	if !ok {
		return CodeDoc{}, false
	}
	return k.doc, true
}

// A Group is the findings of one root cause: those that stand for themselves, then
// those that follow from them, each gravest first.
type Group struct {
	Root     string
	Findings []Finding
}

// Groups returns the findings by root cause, gravest group first. A person is
// shown the first of each group first.
func (r *Report) Groups() []Group {
	var out []Group
	at := map[string]int{}
	for _, f := range r.findings {
		root := f.Root
		if root == "" {
			root = string(f.Code) + " " + f.Reading.Part
		}
		i, ok := at[root]
		if !ok {
			i = len(out)
			at[root] = i
			out = append(out, Group{Root: root})
		}
		out[i].Findings = append(out[i].Findings, f)
	}
	for i := range out {
		slices.SortStableFunc(out[i].Findings, func(a, b Finding) int { return cmp.Compare(min(len(a.Follows), 1), min(len(b.Follows), 1)) })
	}
	return out
}

// All yields every reading of a metric: of one component for a path such as
// lines[left].nozzle_pressure, of all for the pattern lines[].nozzle_pressure.
func (r *Report) All(p Path) iter.Seq[Reading] {
	return func(yield func(Reading) bool) {
		for _, n := range r.numbers {
			for reading := range n.all(func(m *Metric, part string) bool { return m.Path == p || m.is(part, p) }) {
				if !yield(reading) {
					return
				}
			}
		}
	}
}

// Every yields every reading of the report in the order of the metric table.
func (r *Report) Every() iter.Seq[Reading] {
	return func(yield func(Reading) bool) {
		for _, m := range metricTable {
			for _, n := range r.numbers {
				for reading := range n.all(func(have *Metric, _ string) bool { return have == m }) {
					if !yield(reading) {
						return
					}
				}
			}
		}
	}
}

// Worst returns the reading of a path, or of every component of a pattern,
// that is worst for the metric's direction: the lowest where higher is better,
// else the highest. States that only a fault or another plug assignment reaches
// are left out. ok is false if there is no reading.
func (r *Report) Worst(p Path) (worst Reading, ok bool) {
	return r.WorstIn(p, State{})
}

// WorstIn is Worst among the states that agree with s on every axis that both
// name: WorstIn("engines[].demand", mode) is the worst hour of a mode. Faults
// are left out unless s is one.
func (r *Report) WorstIn(p Path, s State) (worst Reading, ok bool) {
	for reading := range r.All(p) {
		if (reading.State.Reach() == Fault && s.Reach() != Fault) || (reading.State.v[AxisPlugs] > 1 && s.v[AxisPlugs] == 0) || !s.agrees(reading.State) {
			continue
		}
		v, w := reading.Value.SI(), worst.Value.SI()
		if !ok || (reading.Metric.Better == Higher && v < w) || (reading.Metric.Better != Higher && v > w) {
			worst, ok = reading, true
		}
	}
	return worst, ok
}

// At returns the reading of a path in a state. Axes that do not matter to the
// number may be set or not.
func (r *Report) At(p Path, s State) (Reading, bool) {
	for reading := range r.All(p) {
		if s.includes(&reading.State) {
			return reading, true
		}
	}
	return Reading{}, false
}

// includes reports whether every axis that o names has the same value in s.
func (s *State) includes(o *State) bool {
	for x := range axisCount {
		if o.v[x] != 0 && o.v[x] != s.v[x] {
			return false
		}
	}
	return true
}

// agrees reports whether two states have the same value on every axis that both
// name.
func (s State) agrees(o State) bool {
	for x := range axisCount {
		if s.v[x] != 0 && o.v[x] != 0 && o.v[x] != s.v[x] {
			return false
		}
	}
	return true
}

// A View is what a Check sees.
type View struct {
	model   *Model
	numbers []*numbers
	rules   *rules
	plugs   []PlugOption
	index   index // of the numbers, made when it is first asked for
	w       *Workspace
	search  *search    // for the value at which a verdict turns
	finding Finding    // that a check is about to report
	known   *known     // code of the check at work
	two     [2]verdict // its worst so far, and the one it looks at
}

// plug keeps the gravest, then narrowest, judgement of a plug assignment.
func (v *View) plug(i int, x *verdict, c Code) {
	o := &v.plugs[i]
	if o.Verdict == 0 || x.severity > o.Verdict || (x.severity == o.Verdict && x.margin < o.Margin) {
		o.Verdict, o.Code, o.Reading, o.Limit, o.Margin = x.severity, c, x.reading, x.limit, x.margin
	}
}

// Model returns the model that is judged.
func (v *View) Model() *Model { return v.model }

// All yields the readings of a path or pattern, as Report.All does.
func (v *View) All(p Path) iter.Seq[Reading] {
	return (&Report{model: v.model, numbers: v.numbers}).All(p)
}

// Limit returns the thresholds in force for a code.
func (v *View) Limit(c Code) Limit { return v.rules.limit(c) }

// rows returns the rows of a metric, by component in order of appearance.
func (v *View) rows(m *Metric) []place {
	if len(v.index.first) == 0 {
		v.index.fill(v.numbers)
	}
	return v.index.of(m)
}

// of yields every reading of a metric, by component in order of appearance.
func (v *View) of(m *Metric) iter.Seq[Reading] {
	return func(yield func(Reading) bool) {
		for _, p := range v.rows(m) {
			for k := range p.n.states {
				if r, ok := p.reading(k); ok && !yield(r) {
					return
				}
			}
		}
	}
}

// value returns the number of a metric and component in a state that names at
// least the axes the number depends on.
func (v *View) value(m *Metric, part string, s State) (units.Quantity, bool) {
	for _, p := range v.rows(m) {
		if p.part() != part {
			continue
		}
		row := p.values()
		for k := range row {
			if row[k] == row[k] && s.includes(&p.n.states[k]) {
				q, err := units.NewQuantity(m.Kind, row[k])
				return q, err == nil
			}
		}
	}
	return units.Quantity{}, false
}

// say joins words to one text.
func (v *View) say(words ...string) string {
	if v.w == nil {
		return strings.Join(words, "")
	}
	return v.w.say(words)
}

// leaning returns the list of one path.
func (v *View) leaning(p Path) []Path {
	if v.w == nil {
		return []Path{p}
	}
	one := take(&v.w.leans, 1)
	one[0] = p
	return one
}
