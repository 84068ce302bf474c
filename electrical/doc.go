// Package electrical answers what starts, what stalls and which plug belongs
// where.
//
//	loads := []electrical.Load{
//		{Name: "vacuum-left", Running: 1100 * units.Watt, Starting: 2000 * units.Watt, Starts: electrical.ByHand},
//		{Name: "dump-pump", Running: 750 * units.Watt, Starting: 2000 * units.Watt, Starts: electrical.ByItself},
//	}
//	set := electrical.Source{
//		Name: "portable", Kind: electrical.PortableSynchronous,
//		Rated: 4800 * units.Watt, Start: 5800 * units.Watt,
//	}
//	r, err := set.Carry(loads, 0.80) // its engine gives 80 % here
//
// The result holds the running demand, the best and the worst start order, the
// restart after a trip, and the margin of each, (limit − value)/limit.
//
// # Conventions
//
// Powers are real powers in watts, apparent powers in volt-amperes; voltages
// and currents are effective values. A zero field means "not given" wherever
// zero is not physical. Volt-amperes of several loads are added as
// √((ΣP)² + (ΣN)²), N being what of each is not power; that is exact for
// motors and never too low.
//
// The package computes and compares with limits that it is given. It assumes
// nothing in silence: a start current that a plate does not say is
// units.ErrMissing, and [TypicalStart] says what is usual. It judges nothing.
package electrical
