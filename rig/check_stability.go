package rig

// stabilityChecks judge sides, axles, rollover, hitch and clashes beyond the static block.
func stabilityChecks() []*limitCheck {
	return nil
}
