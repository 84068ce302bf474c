package rig

import (
	"iter"
	"math"

	"example.com/washrig/units"
)

// numbers are the results of one block: a dense array by row and state, where
// a row is one metric of one component. A number that has no meaning in a
// state is held as NaN here and is skipped by everything that reads the array.
type numbers struct {
	states []State
	rows   []numberRow
	value  []float64
}

type numberRow struct {
	metric *Metric
	part   string
}

func newNumbers(states []State) *numbers { return &numbers{states: states} }

// row adds a row and returns its values, one a state, none of them set.
func (n *numbers) row(m *Metric, part string) []float64 {
	n.rows = append(n.rows, numberRow{m, part})
	at := len(n.value)
	for range n.states {
		n.value = append(n.value, math.NaN())
	}
	return n.value[at:]
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
	for i, r := range n.rows {
		for k, s := range n.states {
			if math.IsInf(n.value[i*len(n.states)+k], 0) {
				return r, s, true
			}
		}
	}
	return numberRow{}, State{}, false
}
