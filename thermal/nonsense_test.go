package thermal

import (
	"testing"

	"example.com/washrig/internal/nonsense"
	"example.com/washrig/units"
)

// Whatever number stands in whatever place, a function returns finite results or
// an error that names a field, and the arguments listed in [calls] are accepted.
func TestNonsense(t *testing.T) { nonsense.Check(t, calls()) }

// calls lists every exported function and method that takes quantities.
func calls() []nonsense.Call {
	const (
		gpm = 3.5 * units.GallonPerMinute
		kw  = 100 * units.Kilowatt
	)
	in, out := units.Fahrenheit(45), units.Fahrenheit(166)
	oil := HHV(138500 * units.BTUPerGallon)
	bypass := Bypass{
		Power: 5 * units.Kilowatt, Volume: 2 * units.Liter, Start: in, Limit: units.Fahrenheit(145),
		Pressure: atm, Loss: 3 * units.WattPerKelvin, Surroundings: in,
	}
	heater := Heater{
		Output: kw, Flame: units.Kelvin(1900), Reference: units.Kelvin(400), Metal: 60 * units.Kilogram, MetalHeat: 490,
		Water: 7 * units.Liter, Conductance: 2500, Loss: 5, Surroundings: in,
	}
	feed := Feed{Flow: gpm, In: in, Line: at27}
	thermostat := Thermostat{Setting: out, Differential: 10 * units.FahrenheitDelta, StopDelay: 1, FireDelay: 10}
	state := HeaterState{units.Fahrenheit(250), out}
	around := Surroundings{
		Air: in, Site: atm, Wind: 3, Radiant: units.Fahrenheit(30), Wet: 0.3, Humidity: 0.5,
		Contact: 0.2, Ground: in, ContactCoefficient: 80,
	}
	frost := around
	frost.Air, frost.Radiant, frost.Ground = units.Celsius(-15), units.Celsius(-20), units.Celsius(-5)
	hose := Hose{
		Length: 150 * units.Foot, Bore: 3. / 8 * units.Inch, Outside: 0.69 * units.Inch, Conductivity: 0.2,
		Emissivity: 0.9, WallDensity: 1200, WallHeat: 1500,
	}
	part, err := hose.Exposed()
	if err != nil {
		panic(err)
	}
	part.Wall = 50
	dry := Surroundings{Air: frost.Air, Site: frost.Site, Wind: frost.Wind}
	shut := ShutIn{
		Metal: 60 * units.Kilogram, MetalHeat: 490, MetalTemperature: units.Fahrenheit(260), Conductance: 2500,
		Coil: 7 * units.Liter, CoilTemperature: out, Line: 3 * units.Liter, LineTemperature: units.Fahrenheit(160),
		Loss: 5, Surroundings: in, Pressure: at27, Stretch: 0.1 * units.Liter, StretchAt: 3000 * units.PSI,
		Air: 0.01 * units.Liter, Relief: at27 + 500*units.PSIA,
	}
	closed := shut
	closed.Loss, closed.Surroundings = 0, units.Temperature{}
	tube := Tube{Bore: 0.546 * units.Inch, Outside: 0.84 * units.Inch, Length: 150 * units.Foot, Helix: 16 * units.Inch, Conductivity: 50}
	fired := FiredCoil{
		Input: kw, Efficiency: 0.9, Flame: units.Kelvin(1900), Air: in, Inlet: in, Flow: 0.4 * units.KilogramPerSecond,
		Outside: 3, Inside: 2,
	}
	soot, scale := Layer{0.5 * units.Millimeter, 0.1}, Layer{1 * units.Millimeter, 2}
	controls := Controls{Thermostat: thermostat, HighLimit: units.Fahrenheit(200), HighLimitDelay: 2, FlowSwitchDelay: 1}
	limits := []Limit{{"hose", units.Fahrenheit(250)}, {"coil", units.Fahrenheit(200)}}
	scaling := Scaling{Hardness: 300e-6, Deposited: 0.03, Flow: gpm, Bore: 0.546 * units.Inch, Length: 50 * units.Foot}
	spray := Spray{
		Temperature: out, Line: at27, Standoff: 1 * units.Foot, Velocity: 150, Fine: 100 * units.Micrometer,
		Coarse: 1 * units.Millimeter, Slowed: 0.3, Air: in, Humidity: 0.5, Site: atm,
	}
	flue := FlueReading{Oxygen: 0.05, Stack: units.Fahrenheit(420), Air: in, Humidity: 0.005, Site: atm}
	rated, now := Oil{850, 2.5 * units.Centistokes}, Oil{870, 6 * units.Centistokes}
	walther := OilViscosityLine{6 * units.Centistokes, 2.5 * units.Centistokes, units.Celsius(0), units.Celsius(40)}
	const ms = 0.3 * units.KilogramPerSecond
	return []nonsense.Call{
		nonsense.Of("InductionFan.FanSpeed", InductionFan.FanSpeed, InductionFan{0.04, 2.2}, units.Ratio(0.9), units.Ratio(0.98)),
		nonsense.Of("DCFan.FanSpeed", DCFan.FanSpeed, DCFan{0.2}, units.Ratio(0.9)),
		nonsense.Of("NozzleFlow", NozzleFlow, 1.5*units.GallonPerHour, 140*units.PSI),
		nonsense.Of("NozzlePressure", NozzlePressure, 1.5*units.GallonPerHour, 1.8*units.GallonPerHour),
		nonsense.Of("NozzleRating", NozzleRating, 1.8*units.GallonPerHour, 140*units.PSI),
		nonsense.Of("NozzleOilFactor", NozzleOilFactor, now, rated),
		nonsense.Of("OilDensity", OilDensity, units.Density(850), in),
		nonsense.Of("OilViscosityLine.At", OilViscosityLine.At, walther, units.Celsius(20)),
		nonsense.Of("Fuel.Lower", Fuel.Lower, LightHeatingOil()),
		nonsense.Of("Fuel.MostCarbonDioxide", Fuel.MostCarbonDioxide, LightHeatingOil()),
		nonsense.Of("Fuel.Burn", Fuel.Burn, LightHeatingOil(), flue),
		nonsense.Of("Fuel.WaterDewPoint", Fuel.WaterDewPoint, LightHeatingOil(), units.Ratio(0.11), atm),
		nonsense.Of("SiegertFuel.LossByOxygen", SiegertFuel.LossByOxygen, SiegertOil(), units.Fahrenheit(420), in, units.Ratio(0.05)),
		nonsense.Of("SiegertFuel.LossByCarbonDioxide", SiegertFuel.LossByCarbonDioxide, SiegertOil(), units.Fahrenheit(420), in, units.Ratio(0.11)),
		nonsense.Of("Heater.After", Heater.After, heater, feed, out, state, true, 30*units.Second),
		nonsense.Of("Heater.WarmUp", Heater.WarmUp, heater, feed, in, units.Fahrenheit(150)),
		nonsense.Of("Heater.Cycle", Heater.Cycle, heater, feed, thermostat),
		nonsense.Of("Heater.Release", Heater.Release, heater, at27, state, 2*units.Second),
		nonsense.Of("Heater.Condensing", Heater.Condensing, heater, feed, in, out, units.Fahrenheit(112)),
		nonsense.Of("Heater.StandingHeatUp", Heater.StandingHeatUp, heater, state, units.Fahrenheit(250), at27),
		nonsense.Of("FaultTable", FaultTable, heater, in, at27, controls, Faults(2*gpm, gpm), limits),
		nonsense.Of("Outside", Outside, 0.69*units.Inch, out, units.Ratio(0.9), around),
		nonsense.Of("Hose.Deliver", Hose.Deliver, hose, ms, out, at27, around),
		nonsense.Of("Hose.Overall", Hose.Overall, hose, ms, out, at27, around),
		nonsense.Of("Cooled", Cooled, out, in, units.ThermalConductance(20), ms, units.SpecificHeat(4186)),
		nonsense.Of("Hose.Arrival", Hose.Arrival, hose, ms, out, at27, units.Ratio(0.95)),
		nonsense.Of("Hose.Exposed", Hose.Exposed, hose),
		nonsense.Of("Exposed.FreezeTimes", Exposed.FreezeTimes, part, in, dry, units.Ratio(0.1)),
		nonsense.Of("Exposed.Freeze", Exposed.Freeze, part, in, frost, units.Ratio(0.1)),
		nonsense.Of("CoolingTime", CoolingTime, 2*units.Inch, units.ThermalConductance(0.3), in, units.Fahrenheit(32), units.Fahrenheit(0)),
		nonsense.Of("PlankTime", PlankTime, 2*units.Inch, units.HeatTransferCoefficient(20), units.Fahrenheit(0)),
		nonsense.Of("PropyleneGlycolFreezingPoint", PropyleneGlycolFreezingPoint, units.Ratio(0.4)),
		nonsense.Of("PropyleneGlycolFor", PropyleneGlycolFor, units.Fahrenheit(0)),
		nonsense.Of("Dilute", Dilute, units.Ratio(0.5), 2*units.Gallon, 1*units.Gallon),
		nonsense.Of("AntifreezeNeeded", AntifreezeNeeded, units.Ratio(0.5), units.Ratio(0.3), 1*units.Gallon),
		nonsense.Of("Displace", Displace, []Trapped{{1 * units.Gallon, 0.3 * units.Gallon}, {0.5 * units.Gallon, 0.5 * units.Gallon}}, units.Ratio(0.5), 2*units.Gallon),
		nonsense.Of("ScaldTime", ScaldTime, ScaldCPSC, units.Fahrenheit(135)),
		nonsense.Of("Mix", Mix, 10*units.Kilogram, in, 30*units.Kilogram, out, atm),
		nonsense.Of("ThermalReliefFlow", ThermalReliefFlow, 8*units.Kilowatt, in, units.Fahrenheit(140), atm),
		nonsense.Of("ExpansionFlow", ExpansionFlow, 8*units.Kilowatt, out, at27),
		nonsense.Of("PressureRise", PressureRise, out, at27),
		nonsense.Of("ShutIn.Soak", ShutIn.Soak, shut),
		nonsense.Of("ShutIn.End", ShutIn.End, closed),
		nonsense.Of("TypicalDeposit", TypicalDeposit, out),
		nonsense.Of("Scaling.TimeToLoss", Scaling.TimeToLoss, scaling, 60*units.PSI, 100*units.PSI),
		nonsense.Of("FiredCoil.With", FiredCoil.With, fired, soot, scale),
		nonsense.Of("Tube.Conductance", Tube.Conductance, tube, ms, out, at27, scale),
		nonsense.Of("Tube.Water", Tube.Water, tube),
		nonsense.Of("Tube.Metal", Tube.Metal, tube, units.Density(7850)),
		nonsense.Of("Spray.AtSurface", Spray.AtSurface, spray),
		nonsense.Of("Evaporated", Evaporated, out, at27, in, units.Ratio(0.5), atm),
		nonsense.Of("MassFlow", MassFlow, gpm, in, at27),
		nonsense.Of("HeatRequired", HeatRequired, gpm, in, out, at27),
		nonsense.Of("OutletTemperature", OutletTemperature, gpm, in, kw, at27),
		nonsense.Of("RuleOf500", RuleOf500, gpm, 100*units.KelvinDelta),
		nonsense.Of("RiseByRuleOf500", RiseByRuleOf500, gpm, kw),
		nonsense.Of("HeatingDuty", HeatingDuty, gpm, in, out, at27),
		nonsense.Of("PumpWarming", PumpWarming, in, atm, at27),
		nonsense.Of("ThrottleWarming", ThrottleWarming, in, at27, atm),
		nonsense.Of("PassWarming", PassWarming, in, atm, at27),
		nonsense.Of("BoilingPoint", BoilingPoint, atm),
		nonsense.Of("PressureToStayLiquid", PressureToStayLiquid, out),
		nonsense.Of("BoilingMargin", BoilingMargin, out, atm),
		nonsense.Of("FlashFraction", FlashFraction, units.Fahrenheit(250), at27, atm),
		nonsense.Of("FlashOfEnthalpy", FlashOfEnthalpy, 500*units.SpecificEnthalpy(1e3), atm),
		nonsense.Of("FlashByRule", FlashByRule, units.Fahrenheit(250), atm),
		nonsense.Of("EfficiencyHHV.OnLHV", EfficiencyHHV.OnLHV, EfficiencyHHV(0.84), oil, LHV(128488*units.BTUPerGallon)),
		nonsense.Of("EfficiencyLHV.OnHHV", EfficiencyLHV.OnHHV, EfficiencyLHV(0.9), oil, LHV(128488*units.BTUPerGallon)),
		nonsense.Of("HHVByMass.PerVolume", HHVByMass.PerVolume, HHVByMass(45*units.MegajoulePerKilogram), 850*units.KilogramPerCubicMeter),
		nonsense.Of("LHVByMass.PerVolume", LHVByMass.PerVolume, LHVByMass(42*units.MegajoulePerKilogram), 850*units.KilogramPerCubicMeter),
		nonsense.Of("HHV.PerMass", HHV.PerMass, oil, 850*units.KilogramPerCubicMeter),
		nonsense.Of("FiringRate", FiringRate, kw, EfficiencyHHV(0.84), oil),
		nonsense.Of("FiringRateLHV", FiringRateLHV, kw, EfficiencyLHV(0.9), LHV(128488*units.BTUPerGallon)),
		nonsense.Of("HeatFromFiring", HeatFromFiring, 3.5*units.GallonPerHour, EfficiencyHHV(0.84), oil),
		nonsense.Of("InputRating", InputRating, 3.5*units.GallonPerHour, oil),
		nonsense.Of("OutputFromInput", OutputFromInput, kw, EfficiencyHHV(0.84)),
		nonsense.Of("InputFromOutput", InputFromOutput, kw, EfficiencyHHV(0.84)),
		nonsense.Of("GasRate", GasRate, kw, EfficiencyHHV(0.84), HHV(38e6)),
		nonsense.Of("HeatFromGas", HeatFromGas, 0.01*units.CubicMeterPerSecond, EfficiencyHHV(0.84), HHV(38e6)),
		nonsense.Of("CleanFiringFactor", CleanFiringFactor, atm, in),
		nonsense.Of("CleanFiring", CleanFiring, 4.75*units.GallonPerHour, atm, in, 1*units.Ratio(1)),
		nonsense.Of("Bypass.Heat", Bypass.Heat, bypass),
		nonsense.Of("HeatAtFlow", HeatAtFlow, gpm, in, kw, out, at27),
		nonsense.Of("HeatAtFlows", HeatAtFlows, []units.VolumeFlow{gpm, gpm / 2, 0}, in, kw, out, at27),
	}
}
