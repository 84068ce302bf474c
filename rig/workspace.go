package rig

import (
	"slices"
	"strings"
)

// A Workspace is memory that assessments use one after another, so that a program
// that makes many keeps what the last one needed instead of asking for it anew. The
// zero Workspace is ready. It serves one assessment at a time, of any model; a report
// made in it is valid until the workspace is used again.
type Workspace struct {
	pool   []*numbers
	used   int
	states []State
	done   []doneBlock
	lists  []*numbers
	on     bench
	outs   []*numbers
	float  []float64
	own    []any // one of each type that scratch was asked for

	plugs     []PlugOption
	found     [2][]Finding // what was found and what passed, as it came
	sorted    []Finding
	standings []standing
	orders    [2][]int // of what was found and what passed
	leans     []Path
	said      []saying
	where     map[[4]string]int
	sayings   []int // of said, as the last assessment asked for them
	saying    int   // of sayings: the next
}

// A doneBlock is a block solved in the assessment that uses the workspace.
type doneBlock struct {
	block any
	out   []*numbers
	err   error
}

// reset makes everything free for the next assessment.
func (w *Workspace) reset() {
	w.used = 0
	w.states, w.done, w.lists = w.states[:0], w.done[:0], w.lists[:0]
	w.leans = w.leans[:0]
	w.float, w.outs = w.float[:0], w.outs[:0]
	w.on.fluids = [len(w.on.fluids)]fluidPoint{}
	w.on.flows, w.on.nozzles, w.on.forces = w.on.flows[:0], w.on.nozzles[:0], w.on.forces[:0]
	w.saying = 0
	if len(w.said) > 4096 { // of many models: begin again
		clear(w.said)
		clear(w.where)
		w.said, w.sayings = w.said[:0], w.sayings[:0]
	}
}

// work is what every block's input carries while it is solved: the workspace, nil
// where none is kept. It is never part of the input of a model.
type work struct{ w *Workspace }

func (k *work) in(w *Workspace) { k.w = w }

// newNumbers returns numbers without rows for some states.
func (k *work) newNumbers(states []State) *numbers {
	w := k.w
	if w == nil {
		return newNumbers(states)
	}
	if w.used == len(w.pool) {
		w.pool = append(w.pool, new(numbers))
	}
	n := w.pool[w.used]
	w.used++
	n.begin(states)
	return n
}

// room returns an empty list of states with room for n.
func (k *work) room(n int) []State {
	if k.w == nil {
		return make([]State, 0, n)
	}
	return take(&k.w.states, n)[:0]
}

// one is the single state of numbers that depend on nothing.
func (k *work) one(axes *axisSet) []State { return append(k.room(1), State{set: axes}) }

// bench returns where the states of a pump are solved.
func (k *work) bench() *bench {
	if k.w == nil {
		return new(bench)
	}
	return &k.w.on
}

// out lists the numbers of a block.
func (k *work) out(n ...*numbers) []*numbers {
	if k.w == nil {
		return append([]*numbers(nil), n...)
	}
	out := take(&k.w.outs, len(n))
	copy(out, n)
	return out
}

// scratch returns the workspace's one T, as it was left by the last user, or a new one
// without a workspace. Each block has a type of its own for what it keeps there.
func scratch[T any](w *Workspace) *T {
	if w == nil {
		return new(T)
	}
	for _, x := range w.own {
		if t, ok := x.(*T); ok {
			return t
		}
	}
	t := new(T)
	w.own = append(w.own, t)
	return t
}

// findings returns an empty list for what was found or what passed.
func (w *Workspace) findings(k int) []Finding {
	if w == nil {
		return nil
	}
	return w.found[k][:0]
}

// options returns n plug options that say nothing yet.
func (w *Workspace) options(n int) []PlugOption {
	if w == nil {
		return make([]PlugOption, n)
	}
	if cap(w.plugs) < n {
		w.plugs = make([]PlugOption, n)
	}
	w.plugs = w.plugs[:n]
	clear(w.plugs)
	return w.plugs
}

// A standing is what a finding is sorted by first, beside where it was found.
type standing struct {
	severity Severity
	margin   float64
	at       int
}

// order returns the places of a list in the order of reports. A finding is large:
// standings are sorted, and where one stands is kept.
func (w *Workspace) order(k int, r *rules, list []Finding) []int {
	var by []standing
	var order []int
	if w != nil {
		w.found[k] = list
		by, order = w.standings[:0], w.orders[k]
	}
	if len(order) == len(list) { // most stand where they stood in the last report
		for _, i := range order {
			by = append(by, standing{list[i].Severity, list[i].Margin, i})
		}
	} else {
		for i := range list {
			by = append(by, standing{list[i].Severity, list[i].Margin, i})
		}
	}
	slices.SortFunc(by, func(a, b standing) int {
		switch {
		case a.severity != b.severity:
			return int(b.severity) - int(a.severity)
		case a.margin < b.margin:
			return -1
		case a.margin > b.margin:
			return 1
		}
		if x := r.compare(&list[a.at], &list[b.at]); x != 0 {
			return x
		}
		return a.at - b.at
	})
	order = slices.Grow(order[:0], len(list))
	for i := range by {
		order = append(order, by[i].at)
	}
	if w != nil {
		w.standings, w.orders[k] = by, order
	}
	return order
}

// ordered is a list in an order, in the memory of the workspace.
func (w *Workspace) ordered(list []Finding, order []int) []Finding {
	var out []Finding
	if w != nil {
		out = w.sorted[:0]
	}
	out = slices.Grow(out, len(list))
	for _, i := range order {
		out = append(out, list[i])
	}
	if w != nil {
		w.sorted = out
	}
	return out
}

// A saying is a text and the words it was joined from.
type saying struct {
	words [4]string
	text  string
}

// say joins words to one text, and keeps it. One assessment says mostly what the last
// one said, in the same order.
func (w *Workspace) say(words []string) string {
	var key [4]string
	if copy(key[:], words) < len(words) {
		return strings.Join(words, "")
	}
	t := w.saying
	w.saying++
	if t < len(w.sayings) && w.said[w.sayings[t]].words == key {
		return w.said[w.sayings[t]].text
	}
	i, ok := w.where[key]
	if !ok {
		if w.where == nil {
			w.where = map[[4]string]int{}
		}
		i = len(w.said)
		w.where[key] = i
		w.said = append(w.said, saying{key, strings.Join(words, "")})
	}
	if t < len(w.sayings) {
		w.sayings[t] = i
	} else {
		w.sayings = append(w.sayings, i)
	}
	return w.said[i].text
}

// floats returns n zeros.
func (k *work) floats(n int) []float64 {
	if k.w == nil {
		return make([]float64, n)
	}
	return take(&k.w.float, n)
}
