package rig

// SharesLines reports whether two models share the block of the lines.
func SharesLines(a, b *Model) bool { return a.blocks.lines == b.blocks.lines }

// SharesStatics reports whether two models share the block of the weights.
func SharesStatics(a, b *Model) bool { return a.blocks.statics == b.blocks.statics }
