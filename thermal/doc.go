// Package thermal answers what the burner of a wash rig really delivers, to which
// gun, and what happens when the trigger is let go.
//
//	in, set := units.Fahrenheit(45), units.Fahrenheit(166)
//	line := (2760 * units.PSI).Above(site) // site: pressure of the air there
//	heat, err := thermal.HeatRequired(6.8*units.GallonPerMinute, in, set, line)
//	oil, err := thermal.FiringRate(heat, 0.84, thermal.HHV(138_500*units.BTUPerGallon))
//	clean, err := thermal.CleanFiring(4.75*units.GallonPerHour, site, units.Fahrenheit(95), 1)
//	one, err := thermal.HeatAtFlow(3.74*units.GallonPerMinute, in, heat, set, line)
//	// one.Uncontrolled: the outlet when the thermostat sticks; one.Duty: its share of time
//
// It computes and tabulates; it holds no limits of taste. Limits, such as what a hose
// may bear, are passed in. Quantities come checked: what cannot be used is a
// [*units.FieldError] that names the argument or field, several problems are joined in
// order, and no result holds a NaN or an infinity. Outcomes that can happen to a rig
// are results, not errors, however bad: a burner without flow is a [Runaway].
//
// # Conventions
//
// Pressures are absolute where water boils or expands, so that the site is never
// forgotten. A flow of water is the volume metered cold, at inlet temperature and line
// pressure; [MassFlow] converts it. A heat is positive into the water, a drop positive
// when it cools, a margin positive below the limit. Efficiencies and heating values
// are typed by their basis: [HHV] with [EfficiencyHHV], [LHV] with [EfficiencyLHV].
// The work of the pump and the warming in valves stand apart from the heater's duty
// and are counted once: [PassWarming] is the sum of [PumpWarming] and
// [ThrottleWarming]. Rules of thumb stand beside the exact value and are marked.
//
// # What is in it, from where, and what checks it
//
//	duty      HeatRequired, OutletTemperature, HeatingDuty   IAPWS-IF97; tables of python iapws
//	          RuleOf500, RiseByRuleOf500                     common practice; swept against the exact duty
//	          PumpWarming, ThrottleWarming, PassWarming      IAPWS-IF97; python iapws
//	boiling   BoilingPoint, BoilingMargin, FlashFraction     IAPWS R7-97 tables
//	fuel      FiringRate, HeatFromFiring, GasRate, …         definition
//	          NozzleFlow, NozzlePressure, NozzleRating       orifice law; published nozzle table
//	          NozzleOilFactor, OilDensity, OilViscosityLine  Jones 1982, API MPMS 11.1, ASTM D341; properties
//	stack     Fuel.Burn, Fuel.Lower, Fuel.WaterDewPoint      element balance, GRI-Mech 3.0 enthalpies; textbook flames and dew points
//	          SiegertFuel                                    1. BImSchV; swept against the balance
//	air       CleanFiringFactor, CleanFiring                 ideal gas, U.S. Standard Atmosphere 1976
//	          GasAltitudeFactor                              NFPA 54
//	          InductionFan, DCFan                            Kloss, solved by SciPy; balance of the motor
//	heater    Heater.WarmUp, Cycle, Release, Condensing      two heat stores, solved exactly; SciPy integration
//	          FiredCoil, Tube                                effectiveness–NTU, Schmidt; library ht
//	          FaultTable, StandingHeatUp, HeatAtFlow         as the heater; properties
//	          ShutIn.Soak, End, PressureRise, ExpansionFlow  IAPWS-IF97, API 521; SciPy integration
//	          Scaling, TypicalDeposit                        mass balance; estimate
//	hose      Hose.Deliver, Overall, Cooled, Outside         Churchill–Chu, Churchill–Bernstein, Gnielinski; library ht, SciPy
//	          Hose.Arrival                                   Anzelius 1926, Schumann 1929; SciPy quadrature
//	bypass    Bypass.Heat, ThermalReliefFlow, Mix            first law
//	cold      Exposed.Freeze, FreezeTimes, CoolingTime, PlankTime ASHRAE, Plank; SciPy integration
//	          PropyleneGlycol…, Dilute, Displace             ASHRAE table by CoolProp; Lange's Handbook
//	surface   Spray.AtSurface                                Ranz–Marshall, Spalding; ends at the wet bulb
//	          Evaporated                                     ASHRAE psychrometrics
//	people    ScaldTime                                      CPSC; Moritz and Henriques 1947
//
// Where no published example was found the property that stands for it is in the
// test of the same topic. Everything is safe for concurrent use.
package thermal
