package rig

// SuctionReadings solves the block of suction alone and returns all it says.
func SuctionReadings(m *Model) ([]Reading, error) {
	list, err := m.blocks.suction.result()
	if err != nil {
		return nil, err
	}
	var out []Reading
	for _, n := range list {
		for r := range n.all(func(*Metric, string) bool { return true }) {
			out = append(out, r)
		}
	}
	return out, nil
}
