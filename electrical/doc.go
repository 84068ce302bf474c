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
// # What is where
//
//	Starts, StartsOn, StartPeaks     start orders              Lawler 1973
//	Source.Derated, Source.Carry     limits at a site          common practice of plates
//	ShaftPower, ShaftSteps           load on a driving engine  definition of efficiency
//	Assign                           which plug where          cover product, Björklund et al. 2007
//	Plugs.LeaveOff, SumLevels        fuel, hours, noise        Willans line, sound levels
//	Plate.Load, Load.SoftStarted     loads off a name plate    definitions
//	FullLoadCurrent                  single-phase motors       NEC Table 430.248
//	LockedRotorOf                    code letters              NEMA MG 1, NEC Table 430.7(B)
//	MotorConductorCurrent            125 %                     NEC 430.22
//	TypicalStart                     starts not told           common practice
//	Gauge.Diameter                   wire gauges               ASTM B258
//	Conductor.Resistance             at temperature            NEC Chapter 9 Table 8
//	AnnealedCopperResistance         the same from copper      IEC 60028
//	ConduitImpedance                 R and X at 60 Hz          NEC Chapter 9 Table 9
//	Circuit.Drop, Circuit.StartDrop  voltage drop              phasors
//	CordAmpacity, TypeWAmpacity      cords                     NEC 400.5(A)(1), (2)
//	BreakerFor, LargestBreaker       breakers                  NEC 240.6(A), 210.20(A), 240.4(D)
//	ChooseCord                       thinnest cord             the above
//	OutletNamed, OutletLimits        receptacles               NEMA WD 6
//	BalanceLegs                      120/240 V                 Kirchhoff
//	SumLeakage                       ground fault              NEC 422.5(A)
//	GeneratorFrequency               f = n·p/120               synchronous machine
//	DroopFrequency                   governor                  ISO 8528-5
//	RegulatedVoltage                 below speed               common practice
//	Alternator.VoltageDip, StartDip  start on a set            divider, Sheldrake 2003
//	Alternator.SustainedVoltage      ceiling of excitation     synchronous reactance
//	Governed.FrequencyDip            load step                 swing equation
//	PerformanceClassNamed            G1 to G3                  ISO 8528-5
//	FanMotor.At                      fan at low voltage        Kloss 1916
//	Battery.Runtime                  12 V                      Peukert 1897
//	Cranking, CapacityShare          12 V in the cold          common practice
//	PumpCycles                       starts an hour            balance of volume
//
// Tables of codes are of the edition named beside them; check the one in force.
//
// # Standing
//
// The package computes and compares with limits that it is given. It assumes
// nothing in silence: a start current that a plate does not say is
// units.ErrMissing, and [TypicalStart] says what is usual. It judges nothing.
package electrical
