package rig

import "example.com/washrig/units"

// Metrics of engine, generator, burner, water and pump solved together, with the
// listed plugs and everything switched on. They are never changed.
var (
	mCoupledPressure = &Metric{Path: "pumps[].pressure_coupled", Kind: units.KindPressure, Better: Lower, Label: "pressure at the pump, everything coupled",
		Formula: "lines at the engine's speed and the fire's temperature", Source: "joint fixed point of engine, generator, fan, fire, water, lines and pump", Inputs: coupledInputs}
	mCoupledFlow = &Metric{Path: "pumps[].flow_coupled", Kind: units.KindVolumeFlow, Label: "flow of the pump, everything coupled",
		Formula: "rated flow × engine speed / its speed at full load", Source: "positive displacement", Inputs: coupledInputs}
	mCoupledResidual = &Metric{Path: "pumps[].coupled_residual", Kind: units.KindRatio, Better: Lower, us: "", si: "", Label: "what the coupled equations leave open",
		Formula: "greatest relative mismatch of speed, pressure and temperature, each computed once more from the solution", Source: "definition", Inputs: nil}
	mCoupledSpeed = &Metric{Path: "engines[].speed_coupled", Kind: units.KindRotationalSpeed, Better: Higher, Label: "speed of the engine, everything coupled",
		Formula: "governor's line at the power asked and the power the engine has for hours at the site; wide open on its curve past that", Source: "definition of droop; joint fixed point", Inputs: coupledInputs}
	mCoupledDemand = &Metric{Path: "engines[].demand_coupled", Kind: units.KindPower, Better: Lower, Label: "power asked of the engine, everything coupled",
		Formula: "pump shaft power + Σ belt loads at their voltage and frequency / (generator × belt efficiency)", Source: "addition on one shaft", Inputs: coupledInputs}
	mCoupledFrequency = &Metric{Path: "sources[].frequency_coupled", Kind: units.KindFrequency, Better: Higher, Label: "frequency at the engine's speed",
		Formula: "speed of the engine × belt ratio × poles / 120", Source: "synchronous machine", Inputs: coupledInputs}
	mCoupledVoltage = &Metric{Path: "sources[].voltage_coupled", Kind: units.KindVoltage, Better: Higher, Label: "voltage at the engine's speed",
		Formula: "rated voltage, falling with the frequency below the regulator's knee", Source: "common practice of voltage regulators", Inputs: coupledInputs}
	mCoupledMotor = &Metric{Path: "loads[].speed_coupled", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "speed of the load's motor over its plate",
		Formula: "burner's fan by slip and frequency; brush motors by the root of the voltage; other motors by the frequency", Source: "Kloss 1916; series motor with a fan; fan laws", Inputs: coupledInputs}
	mCoupledClean = &Metric{Path: "heaters[].clean_firing_coupled", Kind: units.KindFuelRate, Better: Higher, Label: "largest clean firing rate at the fan's coupled speed",
		Formula: "rate in standard sea-level air × air density ratio × speed of the fan over its plate", Source: "ideal gas; fan laws", Inputs: coupledInputs}
	mAirNumber = &Metric{Path: "heaters[].air_number", Kind: units.KindRatio, Better: Higher, us: "", si: "", Label: "air of the fire over the air its fuel needs",
		Formula: "set in the hottest hour with the fan at its plate, then × air density × speed of the fan", Source: "element balance of the fuel; ideal gas; fan laws",
		Inputs: append([]Path{"heaters[].stack.oxygen", "heaters[].stack.carbon_dioxide"}, coupledInputs...)}
	mCoupledEfficiency = &Metric{Path: "heaters[].efficiency_coupled", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "efficiency of the heater at that air",
		Formula: "plate efficiency × stack efficiency at the excess air / that at the excess air it was set to", Source: "element balance and first law; gas enthalpies of GRI-Mech 3.0",
		Inputs: append([]Path{"heaters[].stack.temperature", "heaters[].stack.air"}, coupledInputs...)}
	mFireHeat = &Metric{Path: "heaters[].heat_coupled", Kind: units.KindPower, Label: "heat into the water, everything coupled",
		Formula: "heat to the thermostat's setting, at most firing rate × heating value × efficiency × what the air lets burn", Source: "energy balance of the heater", Inputs: coupledInputs}
	mFireDuty = &Metric{Path: "heaters[].duty_coupled", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "share of the time the burner fires",
		Formula: "heat to the thermostat's setting / heat while it fires, at most 1", Source: "energy balance of the heater", Inputs: coupledInputs}
	mCoupledOutlet = &Metric{Path: "heaters[].outlet_coupled", Kind: units.KindTemperature, Better: Higher, Label: "temperature at the heater's outlet, everything coupled",
		Formula: "the thermostat's setting, or what the fire makes of the flow", Source: "IAPWS-IF97 enthalpy", Inputs: coupledInputs}

	coupledInputs = append(append([]Path{"engines[].no_load_speed", "engines[].droop", "engines[].gross_power", "engines[].net_power", "engines[].continuous_share", "engines[].loss_per_1000_ft", "engines[].loss_per_10_f",
		"sources[].efficiency", "sources[].belt_efficiency", "pumps[].efficiency", "pumps[].belt_efficiency", "loads[].voltage", "heaters[].oil_nozzle", "heaters[].oil_pressure", "heaters[].efficiency", "heaters[].heating_value"},
		cleanInputs...), hydraulicInputs...)
)

// coupledMetrics lists them in the order of reports.
var coupledMetrics = []*Metric{mCoupledSpeed, mCoupledDemand, mCoupledFrequency, mCoupledVoltage, mCoupledMotor, mCoupledClean, mAirNumber, mCoupledEfficiency, mFireHeat, mFireDuty, mCoupledOutlet,
	mCoupledPressure, mCoupledFlow, mCoupledResidual}
