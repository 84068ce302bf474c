package rig

// suctionIn is what suction, vents, draining and filling depend on.
type suctionIn struct {
	axes *axisSet
}

func (m *Model) suctionInput(b *blocks) suctionIn {
	return suctionIn{axes: m.axes}
}

// solveSuction returns the numbers of suction, vents, draining and filling.
func solveSuction(in suctionIn) ([]*numbers, error) {
	return nil, nil
}
