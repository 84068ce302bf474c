package rig

// burnerIn is what warm-up, faults, hose heat, soak and frost depend on.
type burnerIn struct {
	axes *axisSet
}

func (m *Model) burnerInput(b *blocks) burnerIn {
	return burnerIn{axes: m.axes}
}

// solveBurner returns the numbers of warm-up, faults, hose heat, soak and frost.
func solveBurner(in burnerIn) ([]*numbers, error) {
	return nil, nil
}
