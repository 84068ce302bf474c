package rig

// SharesLines reports whether two models share the block of the lines.
func SharesLines(a, b *Model) bool { return a.blocks.lines == b.blocks.lines }

// SharesStatics reports whether two models share the block of the weights.
func SharesStatics(a, b *Model) bool { return a.blocks.statics == b.blocks.statics }

// Anew returns a model like m whose blocks are not solved yet.
func Anew(m *Model) (*Model, error) {
	c := *m
	c.blocks = blocks{}
	return &c, c.compileBlocks(nil)
}
