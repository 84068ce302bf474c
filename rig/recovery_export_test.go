package rig

// SharesRecovery reports whether two models share the block of vacuum, pick-up
// and dump-out.
func SharesRecovery(a, b *Model) bool { return a.blocks.recovery == b.blocks.recovery }
