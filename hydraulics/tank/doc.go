// Package tank answers what happens on the low-pressure side of a wash rig: how
// much suction head the pump has and what takes the rest of it, how levels of
// joined tanks move, how long filling and dumping take, what the vent must pass,
// and what a feed pump gives.
//
//	s := &tank.System{
//		Fluid: hydraulics.Fluid{Density: 999 * units.KilogramPerCubicMeter, Viscosity: 1.12 * units.Centipoise},
//		Tanks: []tank.Tank{
//			{Name: "near", Shape: tank.UprightOf(240*units.Gallon, 30*units.Inch)},
//			{Name: "far", Shape: tank.UprightOf(160*units.Gallon, 30*units.Inch)},
//		},
//		Links: []tank.Link{{From: 0, To: 1, Opening: tank.Opening{Bore: 2.067 * units.Inch, Length: 3 * units.Foot, K: 2}}},
//		Fills: []tank.Fill{{Tank: 0, Flow: 50 * units.GallonPerMinute}},
//	}
//	first, ok, err := s.FirstSpill([]tank.Content{{}, {}}, units.Hour)
//
// # Conventions
//
// A level is a height above the inside floor of its tank; a height is one above a
// level that all tanks share. Heads are columns of the water as it is, with standard
// gravity. Pressures are gauge, but for the [units.AbsolutePressure] of the site. A
// true bore is asked for everywhere: a nominal pipe size is not its bore
// ([units.SteelPipe], [units.HoseBore]).
//
// Volumes are incompressible, surfaces level, tanks well mixed; levels move slowly
// enough that the inertia of the water in the crossovers does not count. Tanks of a
// [System] breathe freely; what a vent costs one tank is said by [Drain].
//
// The package computes. How much suction head is enough, what vacuum a tank may bear
// and what a spill means is judged elsewhere. Bad input is a [units.FieldError] that
// names the field, and an iteration without an answer a [units.SolverError].
//
// # What is here, and where it comes from
//
//	Shape                     level and volume                     geometry
//	Opening                   head and flow of a hole or pipe      Darcy–Weisbach, Colebrook–White; Sampson 1891
//	DrainTime, EqualizingTime closed forms                         Torricelli
//	SteadyCrossing, Spread    differences of level that last       conservation of volume
//	System.Run                levels in time                       Rosenbrock method RODAS (Hairer and Wanner)
//	Drain, Vent               dumping behind a vent                orifice equation
//	Suction                   net positive suction head            ANSI/HI; IAPWS for the water
//	AccelerationHead          pulses of a plunger pump             ANSI/HI 6.1–6.5, API 674
//	LeastSubmergence          air drawn in by a swirl              ANSI/HI 9.8
//	Strainer, Mesh            dirt, openings                       orifice equation, geometry
//	Supply, Filling           hydrant and bibb                     NFPA 291
//	AirGap                    gap above a tank's rim               ASME A112.1.2
//	PumpCurve, Deliver        feed and transfer pumps              monotone interpolation
//	Accumulator               pressure switch                      Boyle
//	FlushVolume               washing out a mixed tank             well-mixed balance
package tank
