package rig

// wiringIn is what conductors, dips, 12 V and the start order beyond the electric block depend on.
type wiringIn struct {
	axes *axisSet
}

func (m *Model) wiringInput(b *blocks) wiringIn {
	return wiringIn{axes: m.axes}
}

// solveWiring returns the numbers of conductors, dips, 12 V and the start order beyond the electric block.
func solveWiring(in wiringIn) ([]*numbers, error) {
	return nil, nil
}
