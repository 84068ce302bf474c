package rig

import (
	"iter"
	"math"
	"slices"

	"example.com/washrig/units"
)

// numbers are the results of one block: a dense array by row and state, where
// a row is one metric of one component. A number that has no meaning in a
// state is held as NaN here and is skipped by everything that reads the array.
type numbers struct {
	states []State
	reach  []Reach // of each state
	rows   []numberRow
	value  []float64
}

type numberRow struct {
	metric *Metric
	part   string
}

func newNumbers(states []State) *numbers {
	n := new(numbers)
	n.begin(states)
	return n
}

// begin makes n empty, with the memory it has.
func (n *numbers) begin(states []State) {
	n.states, n.reach, n.rows, n.value = states, n.reach[:0], n.rows[:0], n.value[:0]
	for k := range states {
		n.reach = append(n.reach, states[k].weakest())
	}
}

// row adds a row and returns its values, one a state, none of them set.
func (n *numbers) row(m *Metric, part string) []float64 {
	n.rows = append(n.rows, numberRow{m, part})
	at, end := len(n.value), len(n.value)+len(n.states)
	n.value = slices.Grow(n.value, len(n.states))[:end]
	row, unset := n.value[at:end], math.NaN()
	for i := range row {
		row[i] = unset
	}
	return row
}

// of returns the values of a row by state, or nil if there is no such row.
func (n *numbers) of(m *Metric, part string) []float64 {
	if n == nil {
		return nil
	}
	for i, r := range n.rows {
		if r.metric == m && r.part == part {
			return n.value[i*len(n.states) : (i+1)*len(n.states)]
		}
	}
	return nil
}

// all yields the readings of one block that match a metric and, unless it is
// empty, a component.
func (n *numbers) all(match func(m *Metric, part string) bool) iter.Seq[Reading] {
	return func(yield func(Reading) bool) {
		if n == nil {
			return
		}
		for i, r := range n.rows {
			if !match(r.metric, r.part) {
				continue
			}
			for k, s := range n.states {
				v := n.value[i*len(n.states)+k]
				if math.IsNaN(v) {
					continue
				}
				q, err := units.NewQuantity(r.metric.Kind, v)
				if err != nil {
					continue // a block refuses results that are not finite; see solved
				}
				if !yield(Reading{r.metric, r.part, s, q}) {
					return
				}
			}
		}
	}
}

// infinite reports the first value that is infinite, which is a defect of the
// block that made it.
func (n *numbers) infinite() (numberRow, State, bool) {
	for i, x := range n.value {
		if x-x != 0 && x == x { // not a number for an infinite one
			return n.rows[i/len(n.states)], n.states[i%len(n.states)], true
		}
	}
	return numberRow{}, State{}, false
}

// A place is one row of one block.
type place struct {
	n   *numbers
	row int
}

func (p place) part() string { return p.n.rows[p.row].part }

// values returns the numbers of the row by state; NaN where there is none.
func (p place) values() []float64 {
	at := p.row * len(p.n.states)
	return p.n.value[at : at+len(p.n.states)]
}

// reading returns the reading of one state; ok is false where the number has no
// meaning.
func (p place) reading(k int) (r Reading, ok bool) {
	ok = p.read(k, &r)
	return r, ok
}

// read is reading into r.
func (p place) read(k int, r *Reading) bool {
	x := p.values()[k]
	if math.IsNaN(x) {
		return false
	}
	row := &p.n.rows[p.row]
	q, err := units.NewQuantity(row.metric.Kind, x)
	if err != nil {
		return false // a block refuses results that are not finite
	}
	r.Metric, r.Part, r.State, r.Value = row.metric, row.part, p.n.states[k], q
	return true
}

// An index finds the rows of a metric.
type index struct {
	first []int32 // by the metric's row in the table, and one more
	where []place
}

// fill makes the index of some blocks, in their order.
func (x *index) fill(blocks []*numbers) {
	x.first = append(x.first[:0], make([]int32, len(metricTable)+2)...)
	total := 0
	for _, n := range blocks {
		for i := range n.rows {
			x.first[n.rows[i].metric.row+1]++
			total++
		}
	}
	for i := 1; i < len(x.first); i++ {
		x.first[i] += x.first[i-1]
	}
	if cap(x.where) < total {
		x.where = make([]place, total)
	}
	x.where = x.where[:total]
	for _, n := range blocks {
		for i := range n.rows {
			at := &x.first[n.rows[i].metric.row]
			x.where[*at] = place{n, i}
			*at++
		}
	}
	// every entry now stands at its end, which is where the next one began
	copy(x.first[1:], x.first)
	x.first[0] = 0
}

// of returns the rows of a metric, in the order of the blocks.
func (x *index) of(m *Metric) []place { return x.where[x.first[m.row]:x.first[m.row+1]] }
