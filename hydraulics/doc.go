// Package hydraulics answers what pressure and flow a pump, its valves, its lines
// and its nozzles settle at, with any number of guns open or closed.
//
//	n := &hydraulics.Network{
//		Fluid:    hydraulics.Fluid{Density: 999 * units.KilogramPerCubicMeter, Viscosity: 1.1 * units.Centipoise},
//		Supplies: []hydraulics.Supply{{Flow: 4 * units.GallonPerMinute}},
//		Sections: []hydraulics.Section{{
//			Parent:   hydraulics.Manifold,
//			Elements: []hydraulics.Element{hydraulics.Hose{Bore: 0.375 * units.Inch, Length: 100 * units.Foot}},
//			Outlet:   &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: 4}}},
//		}},
//	}
//	r, err := hydraulics.Solve(n)
//
// A positive-displacement pump is a source of flow; nozzles and friction make the
// pressure; an unloader caps it.
//
// # Conventions
//
// Pressures are gauge. Rise is positive upwards. Friction factors are Darcy's.
// Mass is conserved: a section of hot water passes more volume than the pump
// moves, and results carry both the volume as it is there and the volume metered
// at the pump. A nozzle number is read against the metered flow, as the trade
// does, unless its outlet asks for [DensityLaw].
//
// The package computes; it passes no judgement. Bad input is a
// [units.FieldError] that names the field. The bare dimensionless correlations
// follow package math: NaN in, NaN out.
//
// # What is here
//
//	FrictionFactor             Colebrook 1939 and White, exact; bridge; 64/Re
//	CoilFrictionFactor         Mishra and Gupta 1979, Schmidt 1967
//	Solve, Workspace           trees of lines: Newton's method on the flows
//	NozzleFlow and its kin     trade convention, gpm at 4000 psi; NFPA 291 for bores
//	FitNozzles                 the exact tip and its stocked neighbours, solved in place
//	ReactionForce, JetSpeed    momentum theorem, Bernoulli
//	ShaftPower                 1 gpm × 1 psi = 7/12000 hp exactly
//	PumpFlow, Belt, PulleyPlan geometry of plungers and pulleys
//	Regulator                  a pressure-reducing valve at the head of a section
//	Ladder, Weakest            pressures in order; least ratings by name
//	Hooper, Darby, Crane       fittings by 2-K, 3-K and TP-410
//	HazenWilliams              NFPA 13, for supply lines
//	TriggerSurge, WaveSpeed    Joukowsky 1898, Michaud 1878, Korteweg 1878
//	Injector, Dilution         Bernoulli for the jet; mass balance
//	DemandPump                 a small chemical pump and its switch on a long line
//	Reel                       how much hose fits
//	SwameeJain, Haaland, …     explicit correlations for comparison, with measured error
//
// Supply to the pump and tanks are in package tank below this one, air in package
// vacuum.
package hydraulics
