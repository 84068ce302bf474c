package rig

// plumbingIn is what nozzles, hoses, unloaders and injection beyond the line block depend on.
type plumbingIn struct {
	axes *axisSet
}

func (m *Model) plumbingInput(b *blocks) plumbingIn {
	return plumbingIn{axes: m.axes}
}

// solvePlumbing returns the numbers of nozzles, hoses, unloaders and injection beyond the line block.
func solvePlumbing(in plumbingIn) ([]*numbers, error) {
	return nil, nil
}
