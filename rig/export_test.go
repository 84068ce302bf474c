package rig

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
	return &c, c.compileBlocks(nil)
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
func SolveBlock(m *Model, name string) (states, values int, err error) {
	for _, b := range m.blocks.list() {
		if b.name != name {
			continue
		}
		n, err := b.again()
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
