package electrical

import (
	"fmt"
	"math"
	"math/bits"
	"strconv"

	"example.com/washrig/units"
)

// A Step is one moment of a start sequence: the loads that start at it, all at
// once, on top of those already running.
type Step struct {
	Start  []string
	Before Demand // of what is running already
	Peak   Demand // while the loads of this step start
	After  Demand // when they run
}

// A Sequence is a start order with what it asks of the source.
type Sequence struct {
	Steps    []Step
	Peak     Demand // greatest of the steps; power and apparent power each on its own
	PeakStep int    // index of the step that asks most by the yardstick of the search
}

// Order returns the names in the order in which they start.
func (s Sequence) Order() []string {
	var names []string
	for _, st := range s.Steps {
		names = append(names, st.Start...)
	}
	return names
}

// A StartResult is what the loads on one source ask of it. See [Starts].
type StartResult struct {
	Running Demand   // everything running
	Best    Sequence // the hand order of least peak, then all that start by themselves, at once
	Worst   Sequence // the order of greatest peak
	Restart Sequence // everything switched on starts at once, as when power comes back after a trip
}

// Peaks are the numbers of a [StartResult] without its sequences.
type Peaks struct {
	Running, Best, Worst, Restart Demand
}

// Starts returns the running demand of the loads on one source and their start
// peaks in watts:
//
//   - Best: loads started by hand go one at a time, each when the one before
//     runs, in the order of least possible peak; loads that start by themselves
//     are taken to start last and all together, because nothing keeps them
//     apart and they ask most on top of everything else.
//   - Worst: hand loads still go one at a time, but in any order, and loads that
//     start by themselves do so at any point of it, all together. In watts no
//     worse comes of their starting one by one.
//   - Restart: every load starts at once.
//
// The peak of a step is what runs already plus the starting demand of what
// starts. Where the loads say their apparent power, its peak along the same
// orders is given too; [StartsOn] chooses the orders by it.
//
// A hand load may name other hand loads in After. They bind the order where
// they are among the loads; names of loads elsewhere bind nothing. A load that
// starts by itself has no place in an order: it can neither wait nor be waited
// for.
//
// Exact for up to [MaxLoads] loads; an error otherwise. With no load all is zero.
//
// Errors: a *units.FieldError for each unusable field, with paths such as
// "loads[burner].starting"; units.ErrMissing where a start is not given.
//
// Source: the definition of the states is the project's own; the order is found
// by E. L. Lawler, "Optimal sequencing of a single machine subject to
// precedence constraints", Management Science 19(5), 1973, pp. 544–546.
func Starts(loads []Load) (StartResult, error) {
	return starts(loads, yardstick{})
}

// StartsOn is [Starts] with the orders chosen by the greatest share of the start
// limits given: watts against Limits.Start and volt-amperes against
// Limits.StartApparent. With neither it is [Starts].
//
// Errors: as of Starts, of the limits, and units.ErrMissing for a load without
// apparent power where the limits have one.
func StartsOn(loads []Load, limits Limits) (StartResult, error) {
	if err := limits.Validate(); err != nil {
		return StartResult{}, err
	}
	if err := needApparent(loads, limits); err != nil {
		return StartResult{}, err
	}
	return starts(loads, limits.start())
}

// StartPeaks is [Starts] without the sequences. It does not allocate.
func StartPeaks(loads []Load) (Peaks, error) {
	var s starter
	if err := s.set(loads); err != nil {
		return Peaks{}, err
	}
	return s.peaks(yardstick{}), nil
}

// A Starter is the loads on one source checked once, for many limits. The zero Starter
// has no loads.
type Starter struct {
	loads []Load
	s     starter
}

// Set checks loads, which must not change as long as the Starter is asked; see [Starts]
// for the errors. It does not allocate. After an error the Starter has no loads.
func (s *Starter) Set(loads []Load) error {
	s.loads = loads
	if err := s.s.set(loads); err != nil {
		*s = Starter{}
		return err
	}
	return nil
}

// Peaks is [StartsOn] without the sequences. It does not allocate.
//
// Errors: those of StartsOn that are not the loads' alone.
func (s *Starter) Peaks(limits Limits) (Peaks, error) {
	if err := s.check(&limits); err != nil {
		return Peaks{}, err
	}
	return s.s.peaks(limits.start()), nil
}

// EachBest calls visit for each step of the best order of [StartsOn], what starts by
// itself last: starts has bit i set where the i-th load starts, before is what runs
// already and peak what the step asks. It does not allocate.
//
// Errors: as of [Starter.Peaks].
func (s *Starter) EachBest(limits Limits, visit func(starts uint64, before, peak Demand)) error {
	if err := s.check(&limits); err != nil {
		return err
	}
	var order [MaxLoads]uint8
	m := s.s.best(limits.start(), &order)
	var running uint64
	step := func(starts uint64) {
		before := s.s.total(running)
		visit(starts, s.s.demand(before), s.s.demand(before.add(s.s.starting(starts))))
		running |= starts
	}
	for _, k := range order[:m] {
		step(1 << k)
	}
	if s.s.auto != 0 {
		step(s.s.auto)
	}
	return nil
}

func (s *Starter) check(limits *Limits) error {
	if !limits.sound() {
		return limits.Validate()
	}
	if !s.s.apparent && (limits.RatedApparent != 0 || limits.StartApparent != 0) {
		return needApparent(s.loads, *limits)
	}
	return nil
}

// start returns the yardstick of the start limits.
func (l *Limits) start() yardstick { return yardstick{float64(l.Start), float64(l.StartApparent)} }

func starts(loads []Load, y yardstick) (StartResult, error) {
	var s starter
	if err := s.set(loads); err != nil {
		return StartResult{}, err
	}
	var res StartResult
	res.Running = s.demand(s.total(s.all()))
	if s.n == 0 {
		return res, nil
	}
	name := func(k int) string { return loads[k].Name }

	var order [MaxLoads]uint8
	m := s.best(y, &order)
	var groups []uint64
	for _, k := range order[:m] {
		groups = append(groups, 1<<k)
	}
	if s.auto != 0 {
		groups = append(groups, s.auto)
	}
	res.Best = s.sequence(groups, y, name)

	res.Worst = s.sequence(s.worstGroups(y, groups[:0]), y, name)
	res.Restart = s.sequence([]uint64{s.all()}, y, name)
	return res, nil
}

// A yardstick turns a demand into one number to compare: how far it is beyond
// its limit as a share of the limit, the greater of power and apparent power.
// It is the negative of the margin. Zero limits are not looked at; with neither
// the number is the power itself.
type yardstick struct{ power, apparent float64 } // limits, W and VA

func (y yardstick) of(s load) float64 {
	if y == (yardstick{}) {
		return s.p
	}
	c := math.Inf(-1)
	if y.power > 0 {
		c = (s.p - y.power) / y.power
	}
	if y.apparent > 0 {
		c = max(c, (s.va()-y.apparent)/y.apparent)
	}
	return c
}

// A load is a demand in its two parts, active and non-active (W, var).
type load struct{ p, q float64 }

func (a load) add(b load) load { return load{a.p + b.p, a.q + b.q} }
func (a load) sub(b load) load { return load{a.p - b.p, a.q - b.q} }
func (a load) va() float64     { return math.Sqrt(a.p*a.p + a.q*a.q) }

// starter holds the loads of one source as plain numbers and bit sets.
type starter struct {
	n        int
	run, up  [MaxLoads]load
	auto     uint64           // loads that start by themselves
	next     [MaxLoads]uint64 // loads that name load k in their After
	before   [MaxLoads]uint64 // loads that must run before load k starts, transitive
	behind   [MaxLoads]uint64 // loads that wait for load k, transitive
	apparent bool             // every load says its apparent power
}

func (s *starter) all() uint64 {
	if s.n == MaxLoads {
		return ^uint64(0)
	}
	return 1<<s.n - 1
}

func (s *starter) set(loads []Load) error {
	if err := checkLoads(loads); err != nil {
		return err
	}
	*s = starter{n: len(loads), apparent: len(loads) > 0}
	for k := range loads {
		l := &loads[k]
		s.run[k] = load{p: float64(l.Running)}
		s.up[k] = load{p: float64(l.Starting)}
		if l.apparent() {
			s.run[k].q = nonActive(float64(l.RunningApparent), float64(l.Running))
			s.up[k].q = nonActive(float64(l.StartingApparent), float64(l.Starting))
		} else {
			s.apparent = false
		}
		if l.Starts == ByItself {
			s.auto |= 1 << k
		}
	}
	return s.precedence(loads)
}

// checkLoads validates loads as a list: each load, the number of them and
// their names.
func checkLoads(loads []Load) error {
	var p problems
	if len(loads) > MaxLoads {
		p.rangef("loads", len(loads), "at most "+strconv.Itoa(MaxLoads)+" loads on one source")
		return p.err()
	}
	for i := range loads {
		loads[i].check(&p, "loads", i)
		for k := range i {
			if loads[k].Name == loads[i].Name && loads[i].Name != "" {
				p.conflict(element("loads", loads[i].Name, i)+".name", loads[i].Name, "a name of its own for each load")
				break
			}
		}
	}
	return p.err()
}

// needApparent reports loads without apparent power where the limits ask for it.
func needApparent(loads []Load, l Limits) error {
	if l.RatedApparent == 0 && l.StartApparent == 0 {
		return nil
	}
	var p problems
	for i := range loads {
		if !loads[i].apparent() {
			p.missing(element("loads", loads[i].Name, i)+".runningApparent", "the volt-amperes, since the source has a limit for them")
		}
	}
	return p.err()
}

// precedence fills before and behind from the loads' After lists.
func (s *starter) precedence(loads []Load) error {
	any := false
	for k := range loads {
		for _, name := range loads[k].After {
			for j := range loads {
				if loads[j].Name == name {
					s.before[k] |= 1 << j
					s.next[j] |= 1 << k
				}
			}
		}
		any = any || len(loads[k].After) > 0
	}
	if !any {
		return nil
	}
	var p problems
	for k := range loads {
		if s.auto&(1<<k) != 0 && len(loads[k].After) > 0 {
			p.conflict(element("loads", loads[k].Name, k)+".after", fmt.Sprint(loads[k].After), "nothing for a load that starts by itself")
			continue
		}
		if by := s.before[k] & s.auto; by != 0 {
			p.conflict(element("loads", loads[k].Name, k)+".after", strconv.Quote(loads[bits.TrailingZeros64(by)].Name),
				"a load started by hand: one that starts by itself has no place in the order")
		}
	}
	// Warshall's closure: whoever waits for j waits for all that j waits for.
	for j := range loads {
		for k := range loads {
			if s.before[k]&(1<<j) != 0 {
				s.before[k] |= s.before[j]
			}
		}
	}
	for k := range loads {
		if s.before[k]&(1<<k) != 0 {
			p.conflict(element("loads", loads[k].Name, k)+".after", fmt.Sprint(loads[k].After), "an order without a circle")
		}
		for j := range loads {
			if s.before[k]&(1<<j) != 0 {
				s.behind[j] |= 1 << k
			}
		}
	}
	return p.err()
}

// total returns what the loads of a set draw together when running.
func (s *starter) total(set uint64) (sum load) {
	for ; set != 0; set &= set - 1 {
		sum = sum.add(s.run[bits.TrailingZeros64(set)])
	}
	return sum
}

// starting returns what the loads of a set draw together when all start at once.
func (s *starter) starting(set uint64) (sum load) {
	for ; set != 0; set &= set - 1 {
		sum = sum.add(s.up[bits.TrailingZeros64(set)])
	}
	return sum
}

// best writes the hand loads to order in the order of least peak and returns
// their number.
//
// It fills the order from its end. Let S be the loads not yet placed, all of
// which run or start when the last of S starts, and let the cost of k as last of
// S be c(k, S) = y(what S without k draws + the start of k). Of the loads of S
// for which no other load of S waits, the one of least cost goes last.
//
// Proof (Lawler 1973). Let k be that load, and take any order of S that keeps
// the precedences, with j as its last. Move k to the end. That breaks no
// precedence, as none of S waits for k. Loads that came after k now start with
// less running than before, since k no longer runs; y does not fall when its
// argument grows in either part, so their costs do not rise; those before k are
// untouched. The new last cost is c(k, S) ≤ c(j, S), which the old order had to
// pay too. So the peak of the new order is no greater, and some best order ends
// with k. What is left is the same question for S without k.
//
// Without precedences and in watts, c(k, S) = R(S) + (start − run of k), and the
// rule is to start the load with the greatest surge above its running first.
//
// Ties go to the load listed first, which starts first.
func (s *starter) best(y yardstick, order *[MaxLoads]uint8) int {
	set := s.all() &^ s.auto
	m := bits.OnesCount64(set)
	for at := m - 1; at >= 0; at-- {
		running := s.total(set)
		choice, least := -1, math.Inf(1)
		for rest := set; rest != 0; rest &= rest - 1 {
			k := bits.TrailingZeros64(rest)
			if s.next[k]&set != 0 {
				continue
			}
			if c := y.of(running.sub(s.run[k]).add(s.up[k])); c <= least {
				choice, least = k, c
			}
		}
		order[at] = uint8(choice)
		set &^= 1 << choice
	}
	return m
}

// worst finds the greatest peak of any order. It is that of the hand load last,
// starting on top of everything that need not wait for it; tail is last and the
// loads that wait for it. last is −1 where the loads that start by themselves
// make the greatest peak, on top of all that is started by hand.
//
// No other order has a greater one: what runs when hand load k starts is some
// set without k and without the loads behind k, and the demand does not fall
// when that set grows to all such loads; likewise for the loads that start by
// themselves.
func (s *starter) worst(y yardstick) (last int, tail uint64) {
	last = -1
	most := math.Inf(-1)
	if s.auto != 0 {
		most = y.of(s.total(s.all() &^ s.auto).add(s.starting(s.auto)))
	}
	for hand := s.all() &^ s.auto; hand != 0; hand &= hand - 1 {
		k := bits.TrailingZeros64(hand)
		behind := s.behind[k]&^s.auto | 1<<k
		if c := y.of(s.total(s.all() &^ behind).add(s.up[k])); c > most {
			last, tail, most = k, behind, c
		}
	}
	return last, tail
}

// worstGroups appends the order of greatest peak to groups.
func (s *starter) worstGroups(y yardstick, groups []uint64) []uint64 {
	last, tail := s.worst(y)
	groups = s.chain(groups, s.all()&^s.auto&^tail)
	if s.auto != 0 {
		groups = append(groups, s.auto)
	}
	if last >= 0 {
		groups = append(groups, 1<<last)
		groups = s.chain(groups, tail&^(1<<last))
	}
	return groups
}

// chain appends the loads of a set one at a time, in list order as far as the
// precedences allow.
func (s *starter) chain(groups []uint64, set uint64) []uint64 {
	for set != 0 {
		for rest := set; rest != 0; rest &= rest - 1 {
			k := bits.TrailingZeros64(rest)
			if s.before[k]&set == 0 {
				groups = append(groups, 1<<k)
				set &^= 1 << k
				break
			}
		}
	}
	return groups
}

// sequence turns groups of loads that start together into steps.
func (s *starter) sequence(groups []uint64, y yardstick, name func(int) string) Sequence {
	var q Sequence
	var running uint64
	most := math.Inf(-1)
	for _, g := range groups {
		var st Step
		for rest := g; rest != 0; rest &= rest - 1 {
			st.Start = append(st.Start, name(bits.TrailingZeros64(rest)))
		}
		peak := s.total(running).add(s.starting(g))
		st.Before = s.demand(s.total(running))
		st.Peak = s.demand(peak)
		running |= g
		st.After = s.demand(s.total(running))
		if c := y.of(peak); c > most {
			most, q.PeakStep = c, len(q.Steps)
		}
		q.Peak = q.Peak.or(st.Peak)
		q.Steps = append(q.Steps, st)
	}
	return q
}

// peaks is the result without its sequences.
func (s *starter) peaks(y yardstick) Peaks {
	var r Peaks
	all := s.all()
	hand := all &^ s.auto
	r.Running = s.demand(s.total(all))
	r.Restart = s.demand(s.starting(all))

	var order [MaxLoads]uint8
	m := s.best(y, &order)
	var running uint64
	for _, k := range order[:m] {
		r.Best = r.Best.or(s.demand(s.total(running).add(s.up[k])))
		running |= 1 << k
	}
	auto := s.demand(s.total(hand).add(s.starting(s.auto)))
	if s.auto != 0 {
		r.Best = r.Best.or(auto)
	}

	var groups [MaxLoads]uint64
	running = 0
	for _, g := range s.worstGroups(y, groups[:0]) {
		r.Worst = r.Worst.or(s.demand(s.total(running).add(s.starting(g))))
		running |= g
	}
	return r
}

// demand turns a sum into a Demand; the apparent power is known only where
// every load says its own.
func (s *starter) demand(l load) Demand {
	d := Demand{Power: units.Power(l.p)}
	if s.apparent {
		d.Apparent = units.ApparentPower(l.va())
	}
	return d
}

// or returns the greater of two demands, power and apparent power each on its own.
func (d Demand) or(e Demand) Demand {
	return Demand{max(d.Power, e.Power), max(d.Apparent, e.Apparent)}
}
