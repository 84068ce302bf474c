package rig

// wiringChecks judge conductors, dips, 12 V and the start order beyond the electric block.
func wiringChecks() []*limitCheck {
	return nil
}
