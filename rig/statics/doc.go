// Package statics answers what a loaded trailer weighs, where it weighs it, and
// how that changes as tanks fill and empty: total, tongue, axles and sides, the
// extremes over every fill, the tip-over threshold with liquid on the move, the
// placement that keeps every state inside limits, tie-down forces, and what is
// too near what on the deck.
//
// It returns numbers and errors. Whether a number is good is for package rig to say.
//
//	trailer := statics.Trailer{
//		AxleGroup: units.PositionAt(12.6 * units.Foot),
//		Axles:     2,
//	}
//	loads, err := statics.Balance(trailer, []statics.Mass{
//		{Name: "trailer", Mass: 2500 * units.Pound, X: units.PositionAt(11.6 * units.Foot)},
//		{Name: "washer", Mass: 860 * units.Pound, X: units.PositionAt(8.2 * units.Foot)},
//	})
//	// loads.Tongue, loads.Share, loads.Group, loads.Axle
//
// # Axes and signs
//
// X runs aft from the coupler, Y to the left of the centreline, Z up from level
// ground. An origin other than the coupler is allowed: give [Trailer].Coupler.
// A tongue load is positive downward on the vehicle; a negative one lifts it.
//
// # Loads are given as masses
//
// A scale, a plate and a rating all speak in pounds or kilograms, so a load here
// is a [units.Mass]: the force divided by standard gravity, what a scale under
// that point would read. Tie-down and jack forces that are compared with working
// loads are [units.Force].
//
// # Given and not given
//
// Only X is always required. Y and Z are points that know whether they were
// given: what needs them says which mass lacks them, and everything else is
// computed without them. A mass of zero is a real value (an empty tank).
//
// # Bits
//
// Sums run in the order of names, never in the order of listing, so listing the
// same masses differently returns the same bits.
package statics
