package rig

// recoveryIn is what vacuum, pick-up, dump-out and filters depend on.
type recoveryIn struct {
	axes *axisSet
}

func (m *Model) recoveryInput(b *blocks) recoveryIn {
	return recoveryIn{axes: m.axes}
}

// solveRecovery returns the numbers of vacuum, pick-up, dump-out and filters.
func solveRecovery(in recoveryIn) ([]*numbers, error) {
	return nil, nil
}
