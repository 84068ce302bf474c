package rig

// stabilityIn is what sides, axles, rollover, hitch and clashes beyond the static block depend on.
type stabilityIn struct {
	axes *axisSet
}

func (m *Model) stabilityInput(b *blocks) stabilityIn {
	return stabilityIn{axes: m.axes}
}

// solveStability returns the numbers of sides, axles, rollover, hitch and clashes beyond the static block.
func solveStability(in stabilityIn) ([]*numbers, error) {
	return nil, nil
}
