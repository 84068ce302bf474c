package rig

// fuelIn is what consumption, run time and cost of fuel depend on.
type fuelIn struct {
	axes *axisSet
}

func (m *Model) fuelInput(b *blocks) fuelIn {
	return fuelIn{axes: m.axes}
}

// solveFuel returns the numbers of consumption, run time and cost of fuel.
func solveFuel(in fuelIn) ([]*numbers, error) {
	return nil, nil
}
