// Package parts holds the vocabulary of a rig's components, and the dealer's
// shelf they come from.
//
// A component struct (Pump, Hose, Tank …) carries what a plate or a data sheet
// says, in the units it was written in. The same struct stands in a rig's
// specification and in a Part of the shelf, so that a specification may name a
// part number and leave the ratings out.
//
// No catalogue is shipped: a shelf is the dealer's own file.
package parts
