package rig

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"sort"
	"strconv"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/units"
)

// A Trace is where one number comes from: its formula and source, the inputs
// that move it in its state, strongest first, and the numbers it is computed
// from.
type Trace struct {
	Reading Reading
	Inputs  []TraceInput
	Uses    []*Trace // other metrics of the same state that go into it
}

// A TraceInput is one input of a number. It holds a Value or a Word; with neither it is a
// word that the specification does not say, where saying it would change the number.
type TraceInput struct {
	Path  Path
	Value units.Quantity
	Word  string // of an input that is a word, a count, a reference or a list: what it says, in place of Value
	Basis Basis  // empty: stated without a basis
	Why   string // of a default or a part

	// Gain is the relative change of the number for a relative change of the
	// input: 2 means that 1 % more input gives 2 % more. Shift is the change of
	// the number, in the unit its kind counts in, for the same 1 %. Temperatures
	// move by one kelvin and places by a centimetre instead of 1 %. A word has no gain; its
	// shift is the greatest that another word of its choice makes, and zero where the
	// number then is no more.
	Gain, Shift float64

	// Factor is zero but for an input that moves the number only from afar: then the
	// input was multiplied by it, there is no gain, and Shift is the change.
	Factor float64
}

// uses says which metrics go into another.
func uses(m *Metric) []*Metric {
	switch m {
	case mNozzlePressure:
		return []*Metric{mLineFlow}
	case mLineLoss:
		return []*Metric{mPumpPressure, mNozzlePressure}
	case mReaction:
		return []*Metric{mLineFlow, mNozzlePressure}
	case mBypass:
		return []*Metric{mPumpPressure}
	case mPumpShaft:
		return []*Metric{mPumpPressure}
	case mFiring, mBurnerShare:
		return []*Metric{mHeat}
	case mHeat:
		return []*Metric{mOutlet}
	case mBoilingMargin:
		return []*Metric{mBoiling}
	case mBypassTime, mBypassWarm:
		return []*Metric{mBypassRise}
	case mEngineDemand:
		return []*Metric{mPumpShaft, mRunning}
	case mEngineStart:
		return []*Metric{mEngineDemand, mStart}
	case mOutletLoading:
		return []*Metric{mOutletCurrent}
	case mLoadShare:
		return []*Metric{mLoadVoltage}
	case mLoadVoltage:
		return []*Metric{mCordDrop}
	case mCleanSupply, mCleanDip:
		return []*Metric{mClean}
	case mCoupledOutlet:
		return []*Metric{mFireHeat, mCoupledFlow}
	case mFireDuty:
		return []*Metric{mFireHeat}
	case mFireHeat:
		return []*Metric{mCoupledEfficiency}
	case mCoupledEfficiency:
		return []*Metric{mAirNumber}
	case mAirNumber, mCoupledClean:
		return []*Metric{mCoupledMotor}
	case mCoupledMotor:
		return []*Metric{mCoupledFrequency, mCoupledVoltage}
	case mCoupledFrequency, mCoupledVoltage, mCoupledFlow:
		return []*Metric{mCoupledSpeed}
	case mCoupledSpeed:
		return []*Metric{mCoupledDemand}
	case mCoupledDemand:
		return []*Metric{mCoupledPressure}
	case mTongueShare:
		return []*Metric{mTongue, mTotal}
	case mAxle:
		return []*Metric{mTongue, mTotal}
	case mCombination:
		return []*Metric{mTotal}
	case mSuctionHead:
		return []*Metric{mSuctionLine, mStrainerHead, mPulseHead}
	case mSuctionMargin:
		return []*Metric{mSuctionHead}
	case mVentNeeded:
		return []*Metric{mDumpOut}
	case mFillTime, mFillGain:
		return []*Metric{mFillFlow}
	case mUnfilled:
		return []*Metric{mFillDifference}
	case mStranded:
		return []*Metric{mDrawDifference}
	case mHoseDrop, mFlash, mScald, mEvaporated, mEvaporatedMost:
		return []*Metric{mGunTemperature}
	case mGunTemperature, mGunWindy:
		return []*Metric{mOutlet}
	case mPickable:
		return []*Metric{mFlash}
	case mSoakPressure:
		return []*Metric{mReleasePeak}
	case mReleasePeak:
		return []*Metric{mCycleHighest}
	case mThermalReliefNeeded:
		return []*Metric{mThermalReliefSetting}
	case mRecovered:
		return []*Metric{mLineFlow}
	case mAirSpeed, mDrumVacuum:
		return []*Metric{mRecovered}
	case mDumpFlow, mBackFlow:
		return []*Metric{mDrumVacuum}
	case mDumpDuty, mCarried:
		return []*Metric{mRecovered, mDumpFlow}
	case mFloatTrip:
		return []*Metric{mRecovered, mDumpFlow}
	case mGroup:
		return []*Metric{mTotal, mTongue}
	case mImbalance, mTyre:
		return []*Metric{mLeft, mRight}
	case mInjectorVacuumLeft, mChemicalDraw:
		return []*Metric{mInjectorWater, mInjectorBack}
	case mChemicalStrength, mChemicalLasts:
		return []*Metric{mChemicalDraw}
	case mSideSlope:
		return []*Metric{mTipOver}
	case mSlopeWorst:
		return []*Metric{mTipWorst}
	case mTailSpare:
		return []*Metric{mJack}
	}
	return nil
}

// Explain returns where the number of a path in a state comes from. It solves
// the state again with every input moved a little, so it says which inputs
// matter and how much; the numbers of the model are not changed.
//
// The path names one component (engines[washer].demand); axes that do not
// matter to the number may be left out of the state.
func (m *Model) Explain(p Path, s State) (*Trace, error) {
	n, err := m.blocks.all()
	if err != nil {
		return nil, err
	}
	v := &View{model: m, numbers: n}
	reading, ok := v.reading(p, s)
	if !ok {
		return nil, v.noReading(p, s)
	}
	moved, err := m.moveInputs()
	if err != nil {
		return nil, err
	}
	return v.trace(reading, s, moved, 0), nil
}

// reading finds the number of a path in a state that names at least its axes.
func (v *View) reading(p Path, s State) (Reading, bool) {
	for r := range v.All(p) {
		if s.includes(&r.State) {
			return r, true
		}
	}
	return Reading{}, false
}

// A movedInput is the model with one input moved.
type movedInput struct {
	path Path
	from units.Quantity
	word string  // of a word or a count
	step float64 // relative step, or the absolute one for points
	view *View

	recast bool // the states are others than those of the model that was moved
}

// value is the number of a component in the state of the moved model that reads as s;
// there is no such state where told is false, so that nothing can be compared.
func (mi *movedInput) value(m *Metric, part string, s State) (q units.Quantity, ok, told bool) {
	if !mi.recast {
		q, ok = mi.view.value(m, part, mi.view.same(s))
		return q, ok, true
	}
	s, err := mi.view.model.ParseState(s.String())
	if err != nil {
		return q, false, false
	}
	q, ok = mi.view.value(m, part, s)
	return q, ok, true
}

// trials are the models in which one input was moved: all of them a little, and some
// the other way or far, where a trace asks for it.
type trials struct {
	model *Model
	near  []movedInput
	more  map[trial]*movedInput // nil where the input cannot stand there

	unsaid map[string][]movedInput // by component
}

type trial struct {
	path   Path
	factor float64
}

// at returns the model with a moved quantity multiplied by a factor instead, solved when
// it is first asked for; nil where it cannot stand there. A point moves by as much below
// as it was moved above, and not far.
func (t *trials) at(mi *movedInput, factor float64) *movedInput {
	key := trial{mi.path, factor}
	if out, have := t.more[key]; have {
		return out
	}
	t.more[key] = nil
	to := mi.from.SI() * factor
	switch mi.from.Kind() {
	case units.KindTemperature, units.KindPosition, units.KindElevation:
		if factor != back {
			return nil
		}
		to = mi.from.SI() - mi.step*mi.from.SI()
	}
	q, err := units.NewQuantity(mi.from.Kind(), to)
	if err != nil {
		return nil
	}
	w, err := t.model.vary(mi.path, q)
	if err != nil {
		return nil
	}
	n, err := w.blocks.all()
	if err != nil {
		return nil
	}
	out := &movedInput{path: mi.path, from: mi.from, step: to/mi.from.SI() - 1, view: &View{model: w, numbers: n}}
	if mi.from.SI() == 0 {
		out.step = 0
	}
	t.more[key] = out
	return out
}

// silent returns the models in which a word is said that the specification leaves out,
// of the component that a number belongs to: what nobody says about a guard decides that
// there is none.
func (t *trials) silent(number Path) []movedInput {
	at, _, ok := strings.Cut(string(number), "]")
	if !ok {
		return nil
	}
	at += "]"
	if out, have := t.unsaid[at]; have {
		return out
	}
	var out []movedInput
	if table, err := specTable(); err == nil {
		table.Walk(t.model.spec, func(vis *fields.Visit) bool {
			if len(vis.Field.Choices) > 0 && vis.Field.Role == fields.Text && vis.Value.IsZero() && strings.HasPrefix(vis.Path(), at+".") {
				out = append(out, t.model.moveWord(vis)...)
			}
			return true
		})
	}
	t.unsaid[at] = out
	return out
}

// back is the other way of 1 %, where a number stands still one way: the best of two
// starts does not rise with the start of one.
const back = 0.99

// afar are the factors by which an input is moved where nothing near moves a number: a
// relief valve that passes nothing is decided by what it is set to all the same.
var afar = [...]float64{0.5, 2}

// moveInputs solves the model once for every quantity of the specification,
// moved a little, and once for every other word. An input that cannot move that far is
// moved the other way.
func (m *Model) moveInputs() (*trials, error) {
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	var out []movedInput
	t.Walk(m.spec, func(vis *fields.Visit) bool {
		if vis.Field.Kind == 0 && !vis.Value.IsZero() {
			out = append(out, m.moveWord(vis)...)
		}
		if vis.Field.Kind == 0 || vis.Value.IsZero() || strings.HasPrefix(vis.Path(), "labour") || vis.Field.Name == "lead_time" {
			return true
		}
		p := Path(vis.Path())
		q, ok := m.Quantity(p)
		if !ok {
			return true
		}
		for _, sign := range []float64{1, -1} {
			step := sign * 0.01 * q.SI()
			rel := sign * 0.01
			switch q.Kind() {
			case units.KindTemperature:
				step, rel = sign, 0
			case units.KindPosition, units.KindElevation:
				step, rel = sign*0.01, 0
			}
			nq, err := units.NewQuantity(q.Kind(), q.SI()+step)
			if err != nil {
				continue
			}
			w, err := m.vary(p, nq)
			if err != nil {
				continue
			}
			n, err := w.blocks.all()
			if err != nil {
				continue
			}
			mi := movedInput{path: p, from: q, step: rel, view: &View{model: w, numbers: n}}
			if rel == 0 {
				mi.step = step / math.Max(math.Abs(q.SI()), math.SmallestNonzeroFloat64)
			}
			out = append(out, mi)
			break
		}
		return true
	})
	return &trials{m, out, map[trial]*movedInput{}, map[string][]movedInput{}}, nil
}

// moveWord solves the model once for every other thing a word, a count or a list may
// say. What the specification refuses is left out.
func (m *Model) moveWord(vis *fields.Visit) (out []movedInput) {
	have, others := m.otherWords(vis)
	p := Path(vis.Path())
	for _, word := range others {
		w, err := m.With(Set(p, word))
		if err != nil {
			continue
		}
		if n, err := w.blocks.all(); err == nil {
			out = append(out, movedInput{path: p, word: have, view: &View{model: w, numbers: n}, recast: !reflect.DeepEqual(w.axes, m.axes)})
		}
	}
	return out
}

// otherWords returns what a field without a quantity says, and what else it may: the
// other words of its choice, one more and one less of a count, the other elements a
// reference may name, a list without each of its words, and nothing where there need be
// none. Free text, part numbers among it, decides no number by itself: what a part
// gives is listed value by value, with the part's number.
func (m *Model) otherWords(vis *fields.Visit) (have string, others []string) {
	f := vis.Field
	switch {
	case f.Role == fields.Count:
		n := vis.Value.Int()
		return strconv.FormatInt(n, 10), []string{strconv.FormatInt(n+1, 10), strconv.FormatInt(n-1, 10)}
	case f.Role == fields.Words:
		words := vis.Value.Interface().([]string)
		if slices.ContainsFunc(words, func(w string) bool { return strings.ContainsAny(w, " \t") }) {
			return "", nil // a list is set as words between spaces
		}
		for i := range words {
			others = append(others, strings.Join(slices.Concat(words[:i], words[i+1:]), " "))
		}
		return strings.Join(words, ", "), others
	case f.Role != fields.Text || len(f.Choices) == 0 && f.Ref == "":
		return "", nil
	}
	have, others = vis.Value.String(), slices.Clone(f.Choices)
	if f.Ref != "" {
		others = m.idsOf(f.Ref)
	}
	others = slices.DeleteFunc(others, func(w string) bool { return w == have })
	if f.Ref != "" && !f.Need {
		others = append(others, "")
	}
	return have, others
}

// idsOf returns the ids of a list of the specification.
func (m *Model) idsOf(list string) (ids []string) {
	v := reflect.ValueOf(m.spec).Elem()
	for i := range v.NumField() {
		if v.Type().Field(i).Tag.Get("json") != list {
			continue
		}
		for k := range v.Field(i).Len() {
			ids = append(ids, v.Field(i).Index(k).FieldByName("ID").String())
		}
	}
	return ids
}

// deepest is how far a trace follows what a number is computed from: from the
// outlet of a heater over fire, fan, generator and engine to the pump.
const deepest = 9

func (v *View) trace(r Reading, s State, moved *trials, depth int) *Trace {
	t := &Trace{Reading: r}
	base := r.Value.SI()
	for i := range moved.near {
		mi := &moved.near[i]
		x, ok, told := mi.value(r.Metric, r.Part, s)
		if !told {
			continue
		}
		if mi.word != "" {
			t.word(mi, x.SI()-base, ok, base, v.model.Origin(mi.path))
			continue
		}
		if t.moves(v, mi, s, 0) || !r.Metric.dependsOn(mi.path) {
			continue
		}
		if other := moved.at(mi, back); other != nil {
			t.moves(v, other, s, 0)
		}
	}
	if depth <= deepest {
		for _, m := range uses(r.Metric) {
			for _, n := range v.numbers {
				for x := range n.all(func(have *Metric, part string) bool { return have == m }) {
					if s.includes(&x.State) && v.feeds(x, r) {
						t.Uses = append(t.Uses, v.trace(x, s, moved, depth+1))
					}
				}
			}
		}
	}
	if len(t.Inputs) == 0 {
		for i, silent := 0, moved.silent(r.Metric.at(r.Part)); i < len(silent); i++ {
			x, ok, told := silent[i].value(r.Metric, r.Part, s)
			if told {
				t.word(&silent[i], x.SI()-base, ok, base, Origin{})
			}
		}
		for i := range moved.near {
			mi := &moved.near[i]
			if mi.word != "" || !r.Metric.dependsOn(mi.path) {
				continue
			}
			for _, factor := range afar {
				if far := moved.at(mi, factor); far != nil && t.moves(v, far, s, factor) {
					break
				}
			}
		}
	}
	sort.SliceStable(t.Inputs, func(i, j int) bool { return math.Abs(t.Inputs[i].Shift) > math.Abs(t.Inputs[j].Shift) })
	return t
}

// moves takes a quantity into the inputs where the moved model has another number.
func (t *Trace) moves(v *View, mi *movedInput, s State, factor float64) bool {
	x, ok, _ := mi.value(t.Reading.Metric, t.Reading.Part, s)
	base := t.Reading.Value.SI()
	d := x.SI() - base
	if !ok || math.Abs(d) <= 1e-12*math.Abs(base) {
		return false
	}
	o := v.model.Origin(mi.path)
	in := TraceInput{Path: mi.path, Value: mi.from, Shift: d, Factor: factor, Basis: o.Basis, Why: o.Why}
	if base != 0 && mi.step != 0 && factor == 0 {
		in.Gain = d / base / mi.step
	}
	t.Inputs = append(t.Inputs, in)
	return true
}

// word takes a word into the inputs where another one moves the number or ends it.
func (t *Trace) word(mi *movedInput, shift float64, ok bool, base float64, o Origin) {
	if !ok {
		shift = 0
	} else if math.Abs(shift) <= 1e-12*math.Abs(base) {
		return
	}
	for i := range t.Inputs {
		if in := &t.Inputs[i]; in.Path == mi.path {
			if math.Abs(shift) > math.Abs(in.Shift) {
				in.Shift = shift
			}
			return
		}
	}
	t.Inputs = append(t.Inputs, TraceInput{Path: mi.path, Word: mi.word, Shift: shift, Basis: o.Basis, Why: o.Why})
}

// same returns the state of this view's model that has the text of s. The axes
// of a varied model have the same values in the same order.
func (v *View) same(s State) State {
	s.set = v.model.axes
	return s
}

// feeds reports whether reading x belongs to what reading r is computed from:
// the same component, or one that the specification connects with it.
func (v *View) feeds(x, r Reading) bool {
	xl, rl := listOf(x.Metric.Path), listOf(r.Metric.Path)
	if xl == rl {
		return x.Part == r.Part
	}
	if x.Part == "" || r.Part == "" {
		return true
	}
	s := v.model.spec
	switch {
	case rl == "engines" && xl == "pumps":
		for i := range s.Pumps {
			if s.Pumps[i].ID == x.Part {
				return s.Pumps[i].Engine == r.Part
			}
		}
	case rl == "engines" && xl == "sources":
		for i := range s.Sources {
			if s.Sources[i].ID == x.Part {
				return s.Sources[i].Engine == r.Part
			}
		}
	case rl == "lines" && xl == "heaters":
		for i := range s.Lines {
			for k := range s.Heaters {
				if s.Lines[i].ID == r.Part && s.Heaters[k].ID == x.Part {
					return s.Lines[i].Pump == s.Heaters[k].Pump
				}
			}
		}
	case rl == "heaters" && xl == "pumps":
		for i := range s.Heaters {
			if s.Heaters[i].ID == r.Part {
				return s.Heaters[i].Pump == x.Part
			}
		}
	case rl == "heaters" && xl == "loads":
		k := burnerOf(s, r.Part)
		return k >= 0 && s.Loads[k].ID == x.Part
	case rl == "heaters" && xl == "sources":
		k := burnerOf(s, r.Part)
		return k >= 0 && s.Loads[k].Source == x.Part
	case rl == "loads" && xl == "sources":
		for i := range s.Loads {
			if s.Loads[i].ID == r.Part {
				return s.Loads[i].Source == x.Part
			}
		}
	case rl == "sources" && xl == "engines":
		for i := range s.Sources {
			if s.Sources[i].ID == r.Part {
				return s.Sources[i].Engine == x.Part
			}
		}
	case rl == "pumps" && xl == "engines":
		for i := range s.Pumps {
			if s.Pumps[i].ID == r.Part {
				return s.Pumps[i].Engine == x.Part
			}
		}
	case rl == "recovery" && xl == "lines":
		for i := range s.Recovery {
			if s.Recovery[i].ID == r.Part {
				return s.Recovery[i].picksUp(x.Part)
			}
		}
	case rl == "lines" && xl == "pumps":
		for i := range s.Lines {
			if s.Lines[i].ID == r.Part {
				return s.Lines[i].Pump == x.Part
			}
		}
	}
	return false
}

func listOf(p Path) string {
	list, _, _ := strings.Cut(string(p), "[")
	return list
}

// Text writes the trace as indented lines: the number, its formula and source,
// its inputs with their gains, and what it is computed from.
func (t *Trace) Text(sys units.System) string {
	var b strings.Builder
	t.write(&b, sys, "")
	return b.String()
}

func (t *Trace) write(b *strings.Builder, sys units.System, indent string) {
	m := t.Reading.Metric
	fmt.Fprintf(b, "%s%s = %s (%s), state %s\n", indent, t.Reading.Path(), t.Reading.Text(sys, 5), m.Label, t.Reading.State)
	fmt.Fprintf(b, "%s  = %s\n", indent, m.Formula)
	fmt.Fprintf(b, "%s  source: %s\n", indent, m.Source)
	for _, in := range t.Inputs {
		basis := string(in.Basis)
		if basis == "" {
			basis = "as given"
		}
		if in.Why != "" {
			basis += ", " + in.Why
		}
		value := in.Word
		if value == "" && !in.Value.Given() {
			fmt.Fprintf(b, "%s  %s is not given\n", indent, in.Path)
			continue
		}
		if value == "" {
			value = FieldText(in.Path, in.Value, sys, 5)
		}
		fmt.Fprintf(b, "%s  %s = %s (%s)", indent, in.Path, value, basis)
		if in.Gain != 0 {
			fmt.Fprintf(b, ", gain %.2g", in.Gain)
		}
		switch in.Factor {
		case 0:
		case 0.5:
			b.WriteString(", moves it when halved")
		case 2:
			b.WriteString(", moves it when doubled")
		}
		b.WriteByte('\n')
	}
	if len(t.Inputs)+len(t.Uses) == 0 {
		fmt.Fprintf(b, "%s  no value moves it, halved or doubled, and no word by another: the state decides it\n", indent)
	}
	for _, u := range t.Uses {
		u.write(b, sys, indent+"    ")
	}
}
