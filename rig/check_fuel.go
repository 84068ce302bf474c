package rig

// fuelChecks judge consumption, run time and cost of fuel.
func fuelChecks() []*limitCheck {
	return nil
}
