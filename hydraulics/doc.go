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
// [units.FieldError] that names the field.
package hydraulics
