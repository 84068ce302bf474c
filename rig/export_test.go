package rig

import (
	"example.com/washrig/internal/fields"
	"example.com/washrig/units"
)

// SharesLines reports whether two models share the block of the lines.
func SharesLines(a, b *Model) bool { return a.blocks.lines == b.blocks.lines }

// SharesStatics reports whether two models share the block of the weights.
func SharesStatics(a, b *Model) bool { return a.blocks.statics == b.blocks.statics }

// CoupledEvery yields the readings of every joint state, those that are left out
// as dominated included.
func CoupledEvery(m *Model, each func(Reading)) error {
	in := m.blocks.coupled.in
	n, err := in.solve(true)
	if err != nil {
		return err
	}
	for _, x := range n {
		for r := range x.all(func(*Metric, string) bool { return true }) {
			each(r)
		}
	}
	return nil
}

// Anew returns a model like m whose blocks are not solved yet.
func Anew(m *Model) (*Model, error) {
	c := *m
	c.blocks = blocks{}
	c.compileBlocks(nil, "")
	return &c, nil
}

// BlockNames lists the blocks of a model in the order in which they are solved.
func BlockNames() []string {
	var out []string
	for _, b := range new(blocks).list() {
		out = append(out, b.name)
	}
	return out
}

// SolveAll solves every block of a model.
func SolveAll(m *Model) error {
	_, err := m.blocks.all()
	return err
}

// SolveBlock solves one block again, the ones it reads being solved already, and
// returns how many states and how many numbers it has.
func SolveBlock(m *Model, name string, w *Workspace) (states, values int, err error) {
	if w != nil {
		w.reset()
	}
	for _, b := range m.blocks.list() {
		if b.name != name {
			continue
		}
		n, err := b.solved.again(w)
		for _, x := range n {
			states += len(x.states)
			values += len(x.value)
		}
		return states, values, err
	}
	return 0, 0, nil
}

// SameBlock reports whether two models share the block of a name.
func SameBlock(a, b *Model, name string) bool {
	for i, x := range a.blocks.list() {
		if x.name == name {
			return x.solved == b.blocks.list()[i].solved
		}
	}
	return false
}

// Moved returns the model with one value of the resolved specification changed, as
// the search for break-evens makes it.
func Moved(m *Model, p Path, q units.Quantity) (*Model, error) { return m.vary(p, q) }

// NotReread names the blocks of a model made by Moved whose input would be another if
// it were made from the specification again.
func NotReread(m *Model) []string {
	c := *m
	c.blocks = blocks{}
	c.compileBlocks(m, "")
	var out []string
	for i, b := range c.blocks.list() {
		if b.solved != m.blocks.list()[i].solved {
			out = append(out, b.name)
		}
	}
	return out
}

// Quantities lists the paths of every quantity that the resolved specification holds.
func Quantities(m *Model) ([]Path, error) {
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	var out []Path
	t.Walk(m.spec, func(v *fields.Visit) bool {
		if v.Field.Kind != 0 && !v.Value.IsZero() {
			out = append(out, Path(v.Path()))
		}
		return true
	})
	return out, nil
}

// Kept names the blocks whose solution the model keeps.
func Kept(m *Model) []string {
	var out []string
	for _, b := range m.blocks.list() {
		if b.solved.isKept() {
			out = append(out, b.name)
		}
	}
	return out
}
