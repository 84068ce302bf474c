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
// # Where the answers come from
//
//	loads at rest               [Balance], [Sides], [Envelope.At]   moments about two supports
//	extremes over fills         [Corners], [Envelope.Extremes]      linear and linear-fractional: corners
//	liquid in a form            [Tank.Load], [Vessel.Depth]         geometry
//	liquid under a tilt         [Vessel.Tilted]                     Barrass and Derrett, and geometry
//	tip-over, side slope        [Rollover], [StaticStabilityFactor] U.S. National Highway Traffic Safety Administration
//	grade, braking              [Pitch]                             moments about the wheels' contact
//	axles that do not equalise  [Suspend], [SuspendExtremes]        stiff bar on springs
//	ratings chain               [Lowest], [Margins]                 lowest wins, by name
//	where things should stand   [Place], [PassingShifts]            linear program; [TwoTankSpacing] in closed form
//	what is not known           [BreakEven], [MostVolume]           quotients
//	unhitched                   [Park]                              moments about the axles
//	tie-down                    [TieDown]                           49 CFR 393.102
//	clearances                  [Clashes], [Overhangs], [Extent]    plane and solid geometry
//
// Extremes of total, tongue, axles, sides and tongue share lie at corners of the
// fill and are taken there. Those of tipping and of the tongue on a grade need not,
// because the liquid moves; they are searched inside.
//
// # Bits
//
// Sums run in the order of names, never in the order of listing, so listing the
// same masses differently returns the same bits.
package statics
