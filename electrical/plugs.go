package electrical

import (
	"container/heap"
	"iter"
	"math"
	"math/bits"
	"slices"
	"strconv"

	"example.com/washrig/units"
)

// A Place is somewhere a load can be plugged in: a source with the limits it
// has at the site (see [Source.Derated]), or an outlet with its own.
type Place struct {
	Name   string
	Limits Limits
}

// A Stage is a set of loads that are in use together. What is not on in a stage
// draws nothing in it, wherever it is plugged in.
type Stage struct {
	Name     string
	On       []string
	Duration units.Duration // of the stage in a day; only [Plugs.LeaveOff] needs it
}

// A Choice says where one load can be plugged in.
type Choice struct {
	Load   string
	Places []string
}

// A PlugPlan is the question which load belongs on which place.
type PlugPlan struct {
	Loads   []Load
	Places  []Place
	Choices []Choice    // loads that cannot go everywhere; the others can
	Stages  []Stage     // plugs stay where they are through all of them; none: everything is on at once
	Reserve units.Ratio // margin every limit has to keep; zero: limits may be met exactly
}

// MaxPlugLoads and MaxPlaces are the greatest numbers of loads and places in a
// [PlugPlan].
const (
	MaxPlugLoads = 20
	MaxPlaces    = 8
)

// An Assignment is one way to plug everything in.
type Assignment struct {
	Places []string    // the place of each load, in the order of the plan
	Margin units.Ratio // least of the margins of all places
	Uses   []Use       // one for each place, in the order of the plan
}

// A Use is what one place carries in an assignment.
type Use struct {
	Place        string
	Loads        []string
	Running      Demand      // in the stage of least running margin
	RunningStage string      // its name, empty without stages
	RunningSlack units.Ratio // (limit − value)/limit for Running, one where nothing is drawn
	Peak         Demand      // of the best start order in the stage of least start margin
	PeakStage    string
	PeakSlack    units.Ratio
}

// Plugs answers the questions about one [PlugPlan]. It does not change after
// [Assign] has made it and is safe for concurrent use.
//
// A place passes when, in every stage, the running demand keeps the reserve of
// its rated limits and the least start peak, as of [StartsOn], that of its start
// limits. Restart and worst order are not part of it. The margin of an
// assignment is the least over places, stages and limits; a place without a
// limit has the margin one. After binds loads that share a place and a stage.
//
// All answers are exact. Adding a load to a place never raises its margin, so
// the sets of loads that a place can carry at a given margin are closed
// downwards, and a set can be shared out over two places at that margin if and
// only if it is the union of one such set of each. The number of ways to write
// every set as such a union is a product of two sums over subsets, computed for
// all 2ⁿ sets at once in n·2ⁿ additions; the best margin is found by halving the
// sorted list of margins that occur.
//
// Source: A. Björklund, T. Husfeldt, P. Kaski and M. Koivisto, "Fourier meets
// Möbius: fast subset convolution", STOC 2007, pp. 67–74, for the cover product.
type Plugs struct {
	plan    PlugPlan
	n, k    int
	margins [MaxPlaces][]float64 // margins[place][set of loads]; −Inf where a load may not be there
	values  []float64            // all margins that occur, ascending, no duplicates; nil: not listed yet
	stages  []uint32             // loads on in each stage

	starter starter
	tables  []float64 // that margins are parts of
	sub     []float64
	sums    []load
}

// Assign prepares the answers about a plan.
//
// Time and memory grow with 2ⁿ for n loads: microseconds for the handful of a
// trailer, some 0.2 GB and seconds for [MaxPlugLoads].
//
// Errors: a *units.FieldError for each unusable field, with paths such as
// "loads[burner].starting", "places[portable].limits.start",
// "choices[burner].places" and "stages[wash].on".
func Assign(plan PlugPlan) (*Plugs, error) {
	a := new(Plugs)
	if err := a.Set(plan); err != nil {
		return nil, err
	}
	a.plan = plan.clone()
	a.values = a.listed()
	a.sub, a.sums = nil, nil
	return a, nil
}

// Set is [Assign] in the memory that a has from the last plan, for programs that ask
// [Plugs.EachOff] about one plan after another; the other questions cost more than after
// Assign. The plan must not change as long as a is asked. After an error a answers
// nothing until it is set again.
func (a *Plugs) Set(plan PlugPlan) error {
	a.plan, a.n, a.k, a.values = plan, len(plan.Loads), len(plan.Places), nil
	var allowed [MaxPlaces]uint32
	if err := a.check(&plan, &allowed); err != nil {
		*a = Plugs{}
		return err
	}
	size := 1 << a.n
	a.tables, a.sub, a.sums = grown(a.tables, a.k*size), grown(a.sub, size), grown(a.sums, size)
	for p := range a.k {
		limits := &plan.Places[p].Limits
		a.margins[p] = nil
		for q := range p {
			if plan.Places[q].Limits == *limits && allowed[q] == allowed[p] {
				a.margins[p] = a.margins[q] // equal places have equal margins
				break
			}
		}
		if a.margins[p] == nil {
			a.margins[p] = a.tables[p*size : (p+1)*size : (p+1)*size]
			a.table(a.margins[p], limits, allowed[p])
		}
	}
	return nil
}

// grown returns a list of n elements of any values, in the memory of old if it has it.
func grown[T any](old []T, n int) []T {
	if cap(old) < n {
		return make([]T, n)
	}
	return old[:n]
}

// listed returns all margins that occur, ascending, no duplicates.
func (a *Plugs) listed() []float64 {
	if a.values != nil {
		return a.values
	}
	var values []float64
	for p := range a.k {
		values = append(values, a.margins[p]...)
	}
	slices.Sort(values)
	values = slices.Compact(values)
	if len(values) > 0 && math.IsInf(values[0], -1) {
		values = values[1:]
	}
	return slices.Clip(values)
}

func (p PlugPlan) clone() PlugPlan {
	p.Loads = slices.Clone(p.Loads)
	for i := range p.Loads {
		p.Loads[i].After = slices.Clone(p.Loads[i].After)
	}
	p.Places = slices.Clone(p.Places)
	p.Choices = nil
	p.Stages = slices.Clone(p.Stages)
	for i := range p.Stages {
		p.Stages[i].On = slices.Clone(p.Stages[i].On)
	}
	return p
}

// load, place return where a name stands in the plan; −1: nowhere.
func (p *PlugPlan) load(name string) int {
	for i := range p.Loads {
		if p.Loads[i].Name == name {
			return i
		}
	}
	return -1
}

func (p *PlugPlan) place(name string) int {
	for i := range p.Places {
		if p.Places[i].Name == name {
			return i
		}
	}
	return -1
}

// check validates the plan, fills stages and starter and tells the loads that each
// place may carry. Paths are spelt where something is wrong.
func (a *Plugs) check(plan *PlugPlan, allowed *[MaxPlaces]uint32) error {
	var p problems
	if n := len(plan.Loads); n > MaxPlugLoads {
		p.rangef("loads", n, "at most "+strconv.Itoa(MaxPlugLoads)+" loads")
	}
	switch k := len(plan.Places); {
	case k == 0:
		p.missing("places", "at least one place")
	case k > MaxPlaces:
		p.rangef("places", k, "at most "+strconv.Itoa(MaxPlaces)+" places")
	}
	if err := p.err(); err != nil {
		return err
	}
	if err := a.starter.set(plan.Loads); err != nil {
		p.list = append(p.list, err)
	}
	for i := range plan.Places {
		pl := &plan.Places[i]
		if pl.Name == "" {
			p.missing(element("places", pl.Name, i)+".name", "a name that tells this place from the others")
		} else if plan.place(pl.Name) < i {
			p.conflict(element("places", pl.Name, i)+".name", pl.Name, "a name of its own for each place")
		}
		if !pl.Limits.sound() {
			pl.Limits.fields(&p, element("places", pl.Name, i)+".limits.")
		}
		if pl.Limits.RatedApparent > 0 || pl.Limits.StartApparent > 0 {
			for k := range plan.Loads {
				if !plan.Loads[k].apparent() {
					p.missing(element("loads", plan.Loads[k].Name, k)+".runningApparent", "the volt-amperes, since "+strconv.Quote(pl.Name)+" has a limit for them")
				}
			}
		}
	}
	for k := range plan.Loads {
		for _, after := range plan.Loads[k].After {
			if plan.load(after) < 0 {
				p.conflict(element("loads", plan.Loads[k].Name, k)+".after", strconv.Quote(after), "the name of a load of the plan")
			}
		}
	}
	all := uint32(1)<<a.n - 1
	for i := range allowed {
		allowed[i] = all
	}
	var seen uint32
	for i := range plan.Choices {
		c := &plan.Choices[i]
		l := plan.load(c.Load)
		switch {
		case l < 0:
			p.conflict(element("choices", c.Load, i)+".load", strconv.Quote(c.Load), "the name of a load of the plan")
			continue
		case seen&(1<<l) != 0:
			p.conflict(element("choices", c.Load, i)+".load", c.Load, "one choice for each load")
			continue
		case len(c.Places) == 0:
			p.missing(element("choices", c.Load, i)+".places", "at least one place")
		}
		seen |= 1 << l
		for i := range allowed {
			allowed[i] &^= 1 << l
		}
		for _, name := range c.Places {
			at := plan.place(name)
			if at < 0 {
				p.conflict(element("choices", c.Load, i)+".places", strconv.Quote(name), "the name of a place of the plan")
				continue
			}
			allowed[at] |= 1 << l
		}
	}
	a.stages = a.stages[:0]
	for i := range plan.Stages {
		st := &plan.Stages[i]
		if st.Name == "" {
			p.missing(element("stages", st.Name, i)+".name", "a name that tells this stage from the others")
		}
		if d := float64(st.Duration); !(d >= 0 && d <= maxDuration) {
			p.within(element("stages", st.Name, i)+".duration", d, 0, maxDuration, inSeconds)
		}
		var on uint32
		for _, name := range st.On {
			l := plan.load(name)
			if l < 0 {
				p.conflict(element("stages", st.Name, i)+".on", strconv.Quote(name), "the name of a load of the plan")
				continue
			}
			on |= 1 << l
		}
		a.stages = append(a.stages, on)
	}
	if len(plan.Stages) == 0 {
		a.stages = append(a.stages, all)
	}
	p.within("reserve", float64(plan.Reserve), 0, 1, ratio("(100 %)"))
	return p.err()
}

// maxDuration is a hundred years.
const maxDuration = 100 * 366 * 86400 // s

// table fills m with the margin of a place for every set of loads.
func (a *Plugs) table(m []float64, limits *Limits, allowed uint32) {
	for i := range m {
		m[i] = 1
	}
	for i, on := range a.stages {
		on &= allowed
		again := false // a stage with the loads of another says nothing new
		for _, before := range a.stages[:i] {
			again = again || before&allowed == on
		}
		if again {
			continue
		}
		a.stage(limits, on, a.sub, a.sums)
		for set := range m {
			m[set] = min(m[set], a.sub[uint32(set)&on])
		}
	}
	for set := range m {
		if uint32(set)&^allowed != 0 {
			m[set] = math.Inf(-1)
		}
	}
	// Sums of the same loads in another order may differ in the last bit; what
	// the search rests on is that more loads never have a greater margin.
	for k := range a.n {
		for set := range m {
			if set&(1<<k) != 0 {
				m[set] = min(m[set], m[set&^(1<<k)])
			}
		}
	}
}

// stage fills m[set], for the subsets of on, with the margin of a place that
// carries them: the recursion of [starter.best] from small sets to large.
func (a *Plugs) stage(limits *Limits, on uint32, m []float64, sums []load) {
	s := &a.starter
	auto, hand := uint32(s.auto)&on, on&^uint32(s.auto)
	start := limits.start()
	rated := yardstick{float64(limits.Rated), float64(limits.RatedApparent)}
	cost := func(y yardstick, d load) float64 {
		if y == (yardstick{}) {
			return -1 // no limit: a margin of one
		}
		return y.of(d)
	}

	sums[0] = load{}
	for set := uint32(1); set <= on; set++ {
		if set&^on == 0 {
			sums[set] = sums[set&(set-1)].add(s.run[bits.TrailingZeros32(set)])
		}
	}
	// peak[set] for hand loads: the least cost of starting them, kept in m.
	m[0] = -1
	for set := uint32(1); set <= hand; set++ {
		if set&^hand != 0 {
			continue
		}
		last, least := -1, math.Inf(1)
		for rest := set; rest != 0; rest &= rest - 1 {
			k := bits.TrailingZeros32(rest)
			if s.next[k]&uint64(set) != 0 {
				continue
			}
			if c := cost(start, sums[set&^(1<<k)].add(s.up[k])); c < least {
				last, least = k, c
			}
		}
		m[set] = max(least, m[set&^(1<<last)])
	}
	// With the loads that start by themselves, all at once on top.
	for set := on; ; set = (set - 1) & on {
		if both := set & auto; both != 0 {
			m[set] = max(m[set&hand], cost(start, sums[set&hand].add(s.starting(uint64(both)))))
		}
		if set == 0 {
			break
		}
	}
	for set := on; ; set = (set - 1) & on {
		m[set] = -max(m[set], cost(rated, sums[set]))
		if set == 0 {
			break
		}
	}
}

// Best returns the assignment of greatest margin, whether or not it passes, and
// whether it does. Of several it is the one that [Plugs.Passing] gives first.
func (a *Plugs) Best() (best Assignment, passes bool) {
	s, _ := a.best(0)
	return a.assignment(&s), s.margin >= float64(a.plan.Reserve)
}

// best is the best solution with some places left off, a bit for each, if there is one.
func (a *Plugs) best(off uint32) (s solution, ok bool) {
	if a.few() {
		return a.direct(off)
	}
	for s := range a.search(math.Inf(-1), off) {
		return s, true
	}
	return solution{}, false
}

// few reports whether there are so few assignments that trying them is quickest.
func (a *Plugs) few() bool {
	const most = 4096
	count := 1
	for range a.n {
		if count *= a.k; count > most {
			return false
		}
	}
	return true
}

// direct is best by trying the places of one load after another. A place loses margin
// with every load, so what can no longer be better is not tried; of equals the first in
// the order of places stands.
func (a *Plugs) direct(off uint32) (s solution, ok bool) {
	t := trial{a: a, off: off, best: solution{margin: math.Inf(-1)}}
	t.place(0, math.Inf(1))
	return t.best, !math.IsInf(t.best.margin, -1)
}

type trial struct {
	a    *Plugs
	off  uint32
	on   [MaxPlaces]uint32 // loads of each place so far
	at   [MaxPlugLoads]uint8
	best solution
}

// place tries the places of load l and of those behind it; margin is the least of the
// places so far.
func (t *trial) place(l int, margin float64) {
	if l == t.a.n {
		for p := range t.a.k { // places without a load
			if t.off>>p&1 == 0 {
				margin = min(margin, t.a.margins[p][t.on[p]])
			}
		}
		if margin > t.best.margin {
			t.best = solution{t.at, margin}
		}
		return
	}
	for p := range t.a.k {
		if t.off>>p&1 != 0 {
			continue
		}
		before := t.on[p]
		t.on[p] |= 1 << l
		if m := min(margin, t.a.margins[p][t.on[p]]); m > t.best.margin {
			t.at[l] = uint8(p)
			t.place(l+1, m)
		}
		t.on[p] = before
	}
}

// Passing returns the assignments that pass, in order of falling margin; equal
// margins in the order of the places of the first load, then of the second, and
// so on. It computes as it goes: stop when you have seen enough.
func (a *Plugs) Passing() iter.Seq[Assignment] {
	return func(yield func(Assignment) bool) {
		for s := range a.search(float64(a.plan.Reserve), 0) {
			if !yield(a.assignment(&s)) {
				return
			}
		}
	}
}

// Unplaceable returns a smallest set of loads that cannot all be plugged in,
// in the order of the plan, whatever is done with the others; none if
// everything can be. Among sets of the same size it is the one that comes first
// in the order of the plan.
func (a *Plugs) Unplaceable() []string {
	ok := a.placeable()
	if ok[len(ok)-1] {
		return nil
	}
	return a.names(pick(ok, a.n, func(set uint32) bool { return !ok[set] }))
}

// LeaveOut returns a smallest set of loads to leave out so that the others can
// be plugged in; none if everything can be.
func (a *Plugs) LeaveOut() []string {
	ok := a.placeable()
	all := uint32(len(ok) - 1)
	return a.names(pick(ok, a.n, func(set uint32) bool { return ok[all&^set] }))
}

// pick returns the set of fewest loads that holds, the first in the order of
// the plan among equals: that of the greatest number when the first load is
// its highest digit.
func pick(ok []bool, n int, holds func(uint32) bool) uint32 {
	best, size := uint32(0), n+1
	for set := range uint32(len(ok)) {
		if c := bits.OnesCount32(set); c <= size && holds(set) {
			if c < size || bits.Reverse32(set) > bits.Reverse32(best) {
				best, size = set, c
			}
		}
	}
	return best
}

func (a *Plugs) names(set uint32) []string {
	var names []string
	for ; set != 0; set &= set - 1 {
		names = append(names, a.plan.Loads[bits.TrailingZeros32(set)].Name)
	}
	return names
}

// placeable tells for every set of loads whether it can be plugged in.
func (a *Plugs) placeable() []bool {
	var w cover
	w.size(a.n)
	fam := w.families(a, float64(a.plan.Reserve), 0, nil, 0)
	for len(fam) > 1 {
		last := len(fam) - 1
		w.product(fam[0], fam[last])
		fam = fam[:last]
	}
	return slices.Clone(fam[0])
}

// assignment fills in what a place carries.
func (a *Plugs) assignment(s *solution) Assignment {
	r := Assignment{Places: make([]string, a.n), Margin: units.Ratio(s.margin), Uses: make([]Use, a.k)}
	for l, p := range s.at[:a.n] {
		r.Places[l] = a.plan.Places[p].Name
	}
	for p := range r.Uses {
		u := &r.Uses[p]
		limits := a.plan.Places[p].Limits
		*u = Use{Place: a.plan.Places[p].Name, RunningSlack: 1, PeakSlack: 1}
		for l, at := range s.at[:a.n] {
			if int(at) == p {
				u.Loads = append(u.Loads, a.plan.Loads[l].Name)
			}
		}
		for i, on := range a.stages {
			var loads []Load
			for l, at := range s.at[:a.n] {
				if int(at) == p && on&(1<<l) != 0 {
					loads = append(loads, a.plan.Loads[l])
				}
			}
			if len(loads) == 0 {
				continue
			}
			st, err := StartsOn(loads, limits)
			if err != nil {
				panic(err) // the plan was checked by Assign
			}
			name := ""
			if i < len(a.plan.Stages) {
				name = a.plan.Stages[i].Name
			}
			if m := margin(limits.Rated, limits.RatedApparent, st.Running); m < u.RunningSlack || u.Running == (Demand{}) {
				u.Running, u.RunningStage, u.RunningSlack = st.Running, name, m
			}
			if m := margin(limits.Start, limits.StartApparent, st.Best.Peak); m < u.PeakSlack || u.Peak == (Demand{}) {
				u.Peak, u.PeakStage, u.PeakSlack = st.Best.Peak, name, m
			}
		}
	}
	return r
}

// A solution is the place of each load.
type solution struct {
	at     [MaxPlugLoads]uint8
	margin float64
}

// search yields the assignments with at least the margin floor, in the order of
// Passing, over the places that are not off.
//
// It keeps a heap of prefixes: places of the first loads, with the best margin
// that the rest can still reach. A prefix inherits the value of the one it came
// from, which is too high at most; when it comes to the top, the value is
// proved or replaced by the true one before the prefix is taken apart. Prefixes
// share out the assignments among them, so a whole assignment that comes to the
// top is the next.
func (a *Plugs) search(floor float64, off uint32) iter.Seq[solution] {
	return func(yield func(solution) bool) {
		var w cover
		w.size(a.n)
		values := a.listed()
		least, _ := slices.BinarySearch(values, floor)
		if least == len(values) {
			return
		}
		h := &prefixes{{value: len(values) - 1}}
		for h.Len() > 0 {
			p := heap.Pop(h).(prefix)
			if !p.proved {
				if v := a.reach(&w, values, p, least, off); v < 0 {
					continue
				} else if p.proved = true; v < p.value {
					p.value = v
					heap.Push(h, p)
					continue
				}
			}
			if len(p.at) == a.n {
				s := solution{margin: values[p.value]}
				copy(s.at[:], p.at)
				if !yield(s) {
					return
				}
				continue
			}
			for at := range a.k {
				if off>>at&1 == 0 {
					heap.Push(h, prefix{at: append(slices.Clip(p.at), uint8(at)), value: p.value})
				}
			}
		}
	}
}

// reach returns the index of the best margin that a prefix can be completed
// with, no better than its own and no worse than least; −1 if there is none.
func (a *Plugs) reach(w *cover, values []float64, p prefix, least int, off uint32) int {
	can := func(v int) bool { return a.feasible(w, values[v], p.at, off) }
	if can(p.value) {
		return p.value
	}
	// Invariant: lo is feasible (or least−1, standing for none), hi is not.
	lo, hi := least-1, p.value
	for hi-lo > 1 {
		if mid := int(uint(lo+hi) >> 1); can(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	if lo < least {
		return -1
	}
	return lo
}

// feasible reports whether the loads after a prefix can be placed with at least
// the margin m everywhere.
func (a *Plugs) feasible(w *cover, m float64, at []uint8, off uint32) bool {
	fam := w.families(a, m, len(at), at, off)
	for _, f := range fam {
		if !f[0] {
			return false // the prefix alone is too much for this place
		}
	}
	for len(fam) > 2 {
		last := len(fam) - 1
		w.product(fam[last-1], fam[last])
		fam = fam[:last]
	}
	full := len(fam[0]) - 1
	if len(fam) == 1 {
		return fam[0][full]
	}
	for set, ok := range fam[0] {
		if ok && fam[1][full&^set] {
			return true
		}
	}
	return false
}

// cover is the workspace of set covers. Its sets are of the loads after a
// prefix, in their order.
type cover struct {
	bools  [MaxPlaces][]bool
	counts [2][]uint64
	fam    [MaxPlaces][]bool
}

func (w *cover) size(n int) {
	for i := range w.counts {
		w.counts[i] = make([]uint64, 1<<n)
	}
}

// families returns, for each place that is not off, which sets of the loads
// after the first j it carries with at least the margin m on top of those that
// the prefix puts there.
func (w *cover) families(a *Plugs, m float64, j int, at []uint8, off uint32) [][]bool {
	size := 1 << (a.n - j)
	fam := w.fam[:0]
	for p := range a.k {
		if off>>p&1 != 0 {
			continue
		}
		var have uint32
		for l, q := range at {
			if int(q) == p {
				have |= 1 << l
			}
		}
		if cap(w.bools[p]) < size {
			w.bools[p] = make([]bool, size)
		}
		f := w.bools[p][:size]
		row := a.margins[p]
		for set := range f {
			f[set] = row[uint32(set)<<j|have] >= m
		}
		fam = append(fam, f)
	}
	return fam
}

// product replaces f by the sets that are a union of one in f and one in g.
//
// The number of pairs whose union lies inside a set is the product of the
// numbers of members inside it; what is left after subtracting the pairs with
// a smaller union are those whose union is the set. Numbers stay below 2⁴⁰ and
// differences are taken modulo 2⁶⁴, so the result is exact.
func (w *cover) product(f, g []bool) {
	c, d := w.counts[0][:len(f)], w.counts[1][:len(f)]
	for set := range f {
		c[set], d[set] = one(f[set]), one(g[set])
	}
	subsetSums(c)
	subsetSums(d)
	for set := range c {
		c[set] *= d[set]
	}
	subsetDifferences(c)
	for set := range f {
		f[set] = c[set] != 0
	}
}

func one(b bool) uint64 {
	if b {
		return 1
	}
	return 0
}

// subsetSums replaces c[S] by the sum of c[T] over all T ⊆ S.
func subsetSums(c []uint64) {
	for bit := 1; bit < len(c); bit <<= 1 {
		for base := 0; base < len(c); base += 2 * bit {
			lo, hi := c[base:base+bit], c[base+bit:base+2*bit]
			for i, x := range lo {
				hi[i] += x
			}
		}
	}
}

// subsetDifferences undoes subsetSums.
func subsetDifferences(c []uint64) {
	for bit := 1; bit < len(c); bit <<= 1 {
		for base := 0; base < len(c); base += 2 * bit {
			lo, hi := c[base:base+bit], c[base+bit:base+2*bit]
			for i, x := range lo {
				hi[i] -= x
			}
		}
	}
}

// A prefix is the places of the first loads with the index of the margin that
// it can be completed with, at most.
type prefix struct {
	at     []uint8
	value  int
	proved bool
}

// prefixes is a heap: greatest margin first, then the order of places.
type prefixes []prefix

func (h prefixes) Len() int      { return len(h) }
func (h prefixes) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h prefixes) Less(i, j int) bool {
	if h[i].value != h[j].value {
		return h[i].value > h[j].value
	}
	return slices.Compare(h[i].at, h[j].at) < 0
}
func (h *prefixes) Push(x any) { *h = append(*h, x.(prefix)) }
func (h *prefixes) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}
