// Package vacuum answers how much water a recovery unit picks up, how fast the air
// runs in its hose, and whether the tank under vacuum can be emptied.
//
//	motor, err := vacuum.NewBlower(vacuum.BlowerPlate{
//		Points:  []vacuum.BlowerPoint{{Lift: 110 * units.InchOfWater}, {Flow: 120 * units.CubicFootPerMinute}},
//		Between: vacuum.Straight,
//		Air:     vacuum.StandardAir(),
//	})
//	p := vacuum.Plant{
//		Air: site, Liquid: water, Motors: vacuum.Parallel(motor, 2), Hoses: 1,
//		Path: []vacuum.Element{tool, vacuum.Hose{Bore: 2 * units.Inch, Length: 40 * units.Foot, Rise: 3 * units.Foot}},
//	}
//	speed, err := vacuum.CarryVelocity(site, water)
//	pick, err := p.PickUp(speed)          // gallons a minute, with the spread of the correlation
//	out, err := dump.At(pick.Tank)        // what the dump pump moves against that vacuum
//
// The plate of a vacuum motor prints an open flow and a sealed lift, which never
// occur together. Hose, tool and water decide where between them it works; more
// water leaves less air, and below some speed the air no longer carries it.
//
// # Conventions
//
// Vacua and lifts are positive differences from the air outside. Flows of air are
// volumes of outside air (mass over outside density) unless a name says otherwise;
// speeds are superficial, as if the air had the bore to itself. Paths run from the
// tool to the tank, ducts from the tank to the motors. Air is ideal and keeps its
// temperature. Heads of pumps are columns of the liquid.
//
// The package computes; it passes no judgement. Bad input is a [units.FieldError]
// that names the field.
//
// # Functions and sources
//
//	NewBlower, Bank                       Fritsch and Butland 1984; fan laws
//	IsothermalFlow, IsothermalOutlet      textbooks of gas dynamics
//	Hose                                  Darcy and Weisbach, isothermal; Hawthorne 1963 for corrugations
//	MullerSteinhagenHeck                  Müller-Steinhagen and Heck 1986; used by every solver
//	LockhartMartinelli, ChisholmC         Lockhart and Martinelli 1949, Chisholm 1967; beside it
//	VoidFraction                          Rouhani and Axelsson 1970
//	CarryVelocity                         Taitel, Barnea and Dukler 1980
//	TurnerVelocity, FloodingVelocity      Turner and others 1969; Wallis 1969
//	Plant.Operate, Plant.PickUp           balance of vacua
//	Dump.At, Dump.FilterAllowance         balance of heads
//	Fill, FloatCycle                      balance of volumes
//	Filter, Train                         Darcy's law, Ruth 1935
//	ScreenCoefficient                     Blevins 1984
//	Loop                                  geometric series
//
// Everything is safe for concurrent use.
package vacuum
