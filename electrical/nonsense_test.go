package electrical_test

import (
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/nonsense"
	"example.com/washrig/units"
)

// Whatever number stands in whatever place, a function returns finite results or
// an error that names a field, and the arguments listed are accepted.
func TestNonsense(t *testing.T) {
	const (
		volt, amp = units.Volt, units.Ampere
		w, va     = units.Watt, units.VoltAmpere
		half      = units.Ratio(0.5)
	)
	warm := units.Celsius(75)
	loads := []electrical.Load{
		{Name: "vacuum", Running: 1100 * w, Starting: 2000 * w, RunningApparent: 1150 * va, StartingApparent: 2300 * va, Starts: electrical.ByHand},
		{Name: "dump-pump", Running: 750 * w, Starting: 2000 * w, RunningApparent: 1000 * va, StartingApparent: 2800 * va, Starts: electrical.ByItself},
	}
	limits := electrical.Limits{Rated: 3900 * w, Start: 4700 * w, RatedApparent: 4800 * va, StartApparent: 5800 * va}
	source := electrical.Source{
		Name: "portable", Kind: electrical.PortableSynchronous, Rated: 4800 * w, Start: 5800 * w, AlternatorRated: 5000 * w, AlternatorStart: 7000 * w,
		RatedApparent: 6000 * va, StartApparent: 7500 * va,
	}
	plate := electrical.Plate{
		Name: "pump", Starts: electrical.ByItself, Voltage: 115 * volt, Current: 9 * amp, Input: 850 * w, ShaftPower: 560 * w,
		LockedRotor: 30 * amp, StartPowerFactor: 0.6,
	}
	lettered := electrical.Plate{
		Name: "pump", Starts: electrical.ByHand, Voltage: 230 * volt, ShaftPower: 1 * units.Horsepower, Efficiency: 0.75, PowerFactor: 0.8, CodeLetter: "K",
	}
	measured := electrical.Plate{Name: "fan", Starts: electrical.ByHand, Input: 500 * w, Voltage: 115 * volt, MeasuredStart: 20 * amp, StartPower: 1500 * w}
	copper := electrical.Conductor{Gauge: 12}
	circuit := electrical.Circuit{Conductor: copper, Length: 100 * units.Foot, Temperature: warm, Supply: 120 * volt, Reactance: 0.05 * units.OhmPerKilofoot}
	need := electrical.CordNeed{
		Supply: 120 * volt, Length: 110 * units.Foot, Temperature: warm, Carrying: 2, Current: 15 * amp, PowerFactor: 0.9,
		StartCurrent: 40 * amp, StartPowerFactor: 0.6, Breaker: 20 * amp, Continuous: 0.8, RunDrop: 0.05, StartDrop: 0.15,
	}
	alternator := electrical.Alternator{Rating: 10 * units.KilovoltAmpere, Resistance: 0.02, TransientReactance: 0.25, SynchronousReactance: 2}
	running, starting := electrical.Demand{Power: 3000 * w, Apparent: 3600 * va}, electrical.Demand{Power: 2000 * w, Apparent: 6000 * va}
	governed := electrical.Governed{Rated: 4800 * w, Inertia: 0.3 * units.Second, Droop: 0.05, TimeConstant: 0.2 * units.Second}
	fan := electrical.FanMotor{Voltage: 120 * volt, Frequency: 60 * units.Hertz, Poles: 2, Speed: 3450 * units.RPM, Breakdown: 2}
	battery := electrical.Battery{Capacity: 100 * units.AmpereHour, Rate: 20 * units.Hour, Exponent: 1.2}
	direct := []electrical.DirectLoad{{Name: "clutch", Current: 5 * amp, Duty: 1}, {Name: "reel", Current: 45 * amp, Duty: 0.05}}
	legs := []electrical.LegLoad{
		{Name: "heater", Power: 2400 * w, Apparent: 2400 * va, BothLegs: true},
		{Name: "vacuum", Power: 1100 * w, Apparent: 1200 * va}, {Name: "pump", Power: 900 * w, Apparent: 1100 * va, Leg: 1},
	}
	plan := electrical.PlugPlan{
		Loads:  loads,
		Places: []electrical.Place{{Name: "portable", Limits: limits}, {Name: "belt", Limits: electrical.Limits{Rated: 2400 * w, Start: 3000 * w}}},
		Stages: []electrical.Stage{{Name: "wash", On: []string{"vacuum", "dump-pump"}, Duration: 3 * units.Hour}}, Reserve: 0.05,
	}
	best := func(p electrical.PlugPlan) (electrical.Assignment, error) {
		a, err := electrical.Assign(p)
		if err != nil {
			return electrical.Assignment{}, err
		}
		x, _ := a.Best()
		return x, nil
	}
	leaveOff := func(p electrical.PlugPlan, sets []electrical.Set) ([]electrical.Saving, error) {
		a, err := electrical.Assign(p)
		if err != nil {
			return nil, err
		}
		return a.LeaveOff(sets)
	}
	start, err := electrical.Starts(loads)
	if err != nil {
		t.Fatal(err)
	}
	nonsense.Check(t, []nonsense.Call{
		nonsense.Of("Starts", electrical.Starts, loads),
		nonsense.Of("StartsOn", electrical.StartsOn, loads, limits),
		nonsense.Of("StartPeaks", electrical.StartPeaks, loads),
		nonsense.Of("Load.SoftStarted", electrical.Load.SoftStarted, loads[1], units.Ratio(2)),
		nonsense.Of("Plate.Load", electrical.Plate.Load, plate),
		nonsense.Of("Plate.Load by letter", electrical.Plate.Load, lettered),
		nonsense.Of("Plate.Load measured", electrical.Plate.Load, measured),
		nonsense.Of("Limits.RunningMargin", electrical.Limits.RunningMargin, limits, running),
		nonsense.Of("Limits.StartMargin", electrical.Limits.StartMargin, limits, starting),
		nonsense.Of("Source.Derated", electrical.Source.Derated, source, units.Ratio(0.8)),
		nonsense.Of("Source.Carry", electrical.Source.Carry, source, loads, units.Ratio(0.8)),
		nonsense.Of("ShoreSupply", electrical.ShoreSupply, "shore", 120*volt, 20*amp, units.Ratio(0.8)),
		nonsense.Of("OutletLimits", electrical.OutletLimits, 120*volt, 20*amp, units.Ratio(0.8)),
		nonsense.Of("ShaftPower", electrical.ShaftPower, 3600*w, units.Ratio(0.78), units.Ratio(0.96)),
		nonsense.Of("ShaftSteps", electrical.ShaftSteps, start.Best, units.Ratio(0.78), units.Ratio(0.96)),
		nonsense.Of("Assign", best, plan),
		nonsense.Of("LeaveOff", leaveOff, plan, []electrical.Set{{Place: "portable", Idle: 0.3 * units.GallonPerHour, Rated: 0.7 * units.GallonPerHour, Noise: 72}}),
		nonsense.Of("BalanceLegs", electrical.BalanceLegs, legs, 120*volt),
		nonsense.Of("SumLeakage", electrical.SumLeakage, []electrical.Leak{{Name: "cord", Current: 1e-3 * amp}}),
		nonsense.Of("TypicalStart", electrical.TypicalStart, electrical.BurnerSet),
		nonsense.Of("FullLoadCurrent", electrical.FullLoadCurrent, units.Horsepower, 115*volt),
		nonsense.Of("LockedRotorOf", electrical.LockedRotorOf, "K", units.Horsepower, 230*volt, false),
		nonsense.Of("MotorConductorCurrent", electrical.MotorConductorCurrent, 28*amp),
		nonsense.Of("Gauge.Diameter", electrical.Gauge.Diameter, electrical.Gauge(12)),
		nonsense.Of("Gauge.Area", electrical.Gauge.Area, electrical.Gauge(12)),
		nonsense.Of("Conductor.Resistance", electrical.Conductor.Resistance, copper, warm),
		nonsense.Of("AnnealedCopperResistance", electrical.AnnealedCopperResistance, electrical.Gauge(12), warm),
		nonsense.Of("ConduitImpedance", electrical.ConduitImpedance, electrical.Gauge(12), electrical.SteelConduit),
		nonsense.Of("EffectiveImpedance", electrical.EffectiveImpedance, 1.2*units.OhmPerKilofoot, 0.05*units.OhmPerKilofoot, units.Ratio(0.85)),
		nonsense.Of("Circuit.Drop", electrical.Circuit.Drop, circuit, 15*amp, units.Ratio(0.9)),
		nonsense.Of("Circuit.StartDrop", electrical.Circuit.StartDrop, circuit, 60*amp, 120*volt, units.Ratio(0.6)),
		nonsense.Of("ChooseCord", func(n electrical.CordNeed) (electrical.CordSize, []electrical.CordSize, error) {
			best, _, all, err := electrical.ChooseCord(n)
			return best, all, err
		}, need),
		nonsense.Of("CordAmpacity", electrical.CordAmpacity, electrical.Gauge(12), 2),
		nonsense.Of("TypeWAmpacity", electrical.TypeWAmpacity, electrical.Gauge(6), units.Celsius(90), 3),
		nonsense.Of("BreakerFor", electrical.BreakerFor, 16*amp, units.Ratio(0.8)),
		nonsense.Of("LargestBreaker", electrical.LargestBreaker, electrical.Gauge(12)),
		nonsense.Of("GeneratorFrequency", electrical.GeneratorFrequency, 3600*units.RPM, 2),
		nonsense.Of("GeneratorSpeed", electrical.GeneratorSpeed, 60*units.Hertz, 2),
		nonsense.Of("DroopFrequency", electrical.DroopFrequency, 62*units.Hertz, units.Ratio(0.05), half),
		nonsense.Of("RegulatedVoltage", electrical.RegulatedVoltage, 120*volt, 60*units.Hertz, 55*units.Hertz, units.Ratio(0.95)),
		nonsense.Of("RecoveryTime", electrical.RecoveryTime, units.Ratio(0.25), units.Ratio(0.01), units.Ratio(0.05), 0.3*units.Second),
		nonsense.Of("Alternator.VoltageDip", electrical.Alternator.VoltageDip, alternator, 20*units.KilovoltAmpere),
		nonsense.Of("Alternator.LargestStart", electrical.Alternator.LargestStart, alternator, units.Ratio(0.3)),
		nonsense.Of("Alternator.StartDip", electrical.Alternator.StartDip, alternator, running, starting),
		nonsense.Of("Alternator.SustainedVoltage", electrical.Alternator.SustainedVoltage, alternator, units.Ratio(2.5), starting),
		nonsense.Of("Governed.FrequencyDip", electrical.Governed.FrequencyDip, governed, 2000*w),
		nonsense.Of("FanMotor.At", electrical.FanMotor.At, fan, 110*volt, 58*units.Hertz),
		nonsense.Of("Battery.Runtime", electrical.Battery.Runtime, battery, 10*amp),
		nonsense.Of("PeukertExponent", electrical.PeukertExponent, 5*amp, 20*units.Hour, 60*amp, 1*units.Hour),
		nonsense.Of("CapacityShare", electrical.CapacityShare, units.Fahrenheit(34)),
		nonsense.Of("CrankingDemand", electrical.CrankingDemand, units.Fahrenheit(34)),
		nonsense.Of("Cranking", electrical.Cranking, 350*amp, units.Ratio(0.75), 120*amp, units.Fahrenheit(34)),
		nonsense.Of("BudgetDirect", electrical.BudgetDirect, 20*amp, direct),
		nonsense.Of("ChargingOutput", electrical.ChargingOutput, []electrical.OutputPoint{{Speed: 1800 * units.RPM, Output: 8 * amp}, {Speed: 3600 * units.RPM, Output: 20 * amp}}, 3000*units.RPM),
		nonsense.Of("SustainedDuty", electrical.SustainedDuty, 12*amp, 45*amp, units.Ratio(0.85)),
		nonsense.Of("StandingTime", electrical.StandingTime, 80*units.AmpereHour, half, 0.05*amp),
		nonsense.Of("InverterInput", electrical.InverterInput, 600*w, units.Ratio(0.88), 12*w, 12*volt),
		nonsense.Of("PumpCycles", electrical.PumpCycles, 2*units.Gallon, 1*units.GallonPerMinute, 4*units.GallonPerMinute),
	})
}
