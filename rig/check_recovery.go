package rig

// recoveryChecks judge vacuum, pick-up, dump-out and filters.
func recoveryChecks() []*limitCheck {
	return nil
}
