// Package quote rolls up the money of a rig: the parts of its bill of
// materials, the hours of work, mark-up and margin, and the delivery time.
//
// Prices are whole cents; every line is rounded half away from zero. Mark-up is
// profit over cost, margin is profit over price; both are always shown, because
// a mark-up of 35 % is a margin of 25.9 %.
package quote
