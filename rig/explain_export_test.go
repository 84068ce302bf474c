package rig

import "example.com/washrig/internal/fields"

// EveryTrace gives the trace of every number of a model to look, each without what the
// numbers it is computed from are traced to, and returns how often the model was solved
// for them.
func EveryTrace(m *Model, look func(*Trace)) (solved int, err error) {
	all, err := m.blocks.all()
	if err != nil {
		return 0, err
	}
	moved, err := m.moveInputs()
	if err != nil {
		return 0, err
	}
	v := &View{model: m, numbers: all}
	for _, n := range all {
		for r := range n.all(func(*Metric, string) bool { return true }) {
			t := v.trace(r, r.State, moved, deepest+1)
			for _, u := range uses(r.Metric) {
				for _, k := range all {
					for x := range k.all(func(have *Metric, part string) bool { return have == u }) {
						if r.State.includes(&x.State) && v.feeds(x, r) {
							t.Uses = append(t.Uses, &Trace{Reading: x})
						}
					}
				}
			}
			look(t)
		}
	}
	return len(moved.near) + len(moved.more), nil
}

// OtherWords returns what the field at a path is tried with.
func OtherWords(m *Model, p Path) (others []string) {
	t, err := specTable()
	if err != nil {
		return nil
	}
	t.Walk(m.spec, func(vis *fields.Visit) bool {
		if Path(vis.Path()) == p {
			_, others = m.otherWords(vis)
		}
		return true
	})
	return others
}
