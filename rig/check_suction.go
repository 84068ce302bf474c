package rig

// suctionChecks judge suction, vents, draining and filling.
func suctionChecks() []*limitCheck {
	return nil
}
