package rig

// plumbingChecks judge nozzles, hoses, unloaders and injection beyond the line block.
func plumbingChecks() []*limitCheck {
	return nil
}
