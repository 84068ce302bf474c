package rig

import "example.com/washrig/units"

// Metrics of lines and pumps. They are never changed.
var (
	mLineFlow = &Metric{Path: "lines[].flow", Kind: units.KindVolumeFlow, Label: "flow at the gun",
		Formula: "share of the pump's flow that balances the losses of every open line", Source: "conservation of mass and momentum; Darcy–Weisbach, Colebrook–White",
		Inputs: hydraulicInputs}
	mNozzlePressure = &Metric{Path: "lines[].nozzle_pressure", Kind: units.KindPressure, Better: Higher, Label: "pressure at the nozzle",
		Formula: "4000 psi × (flow / number)²", Source: "trade number: gpm at 4,000 psi (common practice)",
		Inputs: hydraulicInputs}
	mPressureJump = &Metric{Path: "lines[].pressure_jump", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "jump when the others let go",
		Formula: "(nozzle pressure alone − with every gun) / with every gun", Source: "two solutions of the line network",
		Inputs: hydraulicInputs}
	mLineLoss = &Metric{Path: "lines[].loss", Kind: units.KindPressure, Better: Lower, Label: "loss from pump to nozzle",
		Formula: "pump pressure − nozzle pressure", Source: "Darcy–Weisbach, Colebrook–White",
		Inputs: hydraulicInputs}
	mReaction = &Metric{Path: "lines[].reaction", Kind: units.KindForce, Better: Lower, Label: "reaction of the gun",
		Formula: "mass flow × jet speed", Source: "momentum of an ideal jet",
		Inputs: hydraulicInputs}
	mPumpPressure = &Metric{Path: "pumps[].pressure", Kind: units.KindPressure, Better: Lower, Label: "pressure at the pump",
		Formula: "what the open lines need for the flow, at most the unloader's setting", Source: "conservation of mass and momentum",
		Inputs: hydraulicInputs}
	mBypass = &Metric{Path: "pumps[].bypass_flow", Kind: units.KindVolumeFlow, Better: Lower, Label: "flow bypassed",
		Formula: "pump flow − Σ gun flows", Source: "conservation of mass",
		Inputs: hydraulicInputs}
	mReliefFlow = &Metric{Path: "pumps[].relief_flow", Kind: units.KindVolumeFlow, Better: Lower, Label: "flow through the relief valve",
		Formula: "pump flow − Σ gun flows − bypass", Source: "conservation of mass",
		Inputs: append([]Path{"pumps[].relief.setting", "pumps[].relief.accumulation"}, hydraulicInputs...)}
	mDeadHead = &Metric{Path: "pumps[].dead_head_rating", Kind: units.KindPressure, Label: "first rating passed when the guns close",
		Formula: "lowest pressure rating on the line side; nothing limits the pressure", Source: "a positive-displacement pump has no shut-off head",
		Inputs: []Path{"pumps[].unloader.setting", "pumps[].relief.setting"}}
	mPumpShaft = &Metric{Path: "pumps[].shaft_power", Kind: units.KindPower, Better: Lower, Label: "power the pump takes from its engine",
		Formula: "flow × pressure / (pump efficiency × belt efficiency)", Source: "definition of hydraulic power",
		Inputs: append([]Path{"pumps[].efficiency", "pumps[].belt_efficiency"}, hydraulicInputs...)}
	mPumpRule = &Metric{Path: "pumps[].engine_by_rule", Kind: units.KindPower, Label: "engine by rule of thumb",
		Formula: "gpm × psi / 1150", Source: "common practice for gasoline engines", Rule: true,
		Inputs: hydraulicInputs}
	mUnloaderSetting = &Metric{Path: "pumps[].unloader_setting", Kind: units.KindPressure, Better: Lower, Label: "setting of the unloader",
		Formula: "as given", Source: "specification", Inputs: []Path{"pumps[].unloader.setting"}}
	mReliefSetting = &Metric{Path: "pumps[].relief_setting", Kind: units.KindPressure, Better: Lower, Label: "setting of the relief valve",
		Formula: "as given", Source: "specification", Inputs: []Path{"pumps[].relief.setting"}}
	mBypassRise = &Metric{Path: "pumps[].bypass_rise_per_minute", Kind: units.KindTemperatureDelta, Better: Lower, Label: "warming in bypass, per minute",
		Formula: "flow × pressure / (mass × heat capacity), every gun closed", Source: "energy balance of the water that goes round",
		Inputs: []Path{"pumps[].rated_flow", "pumps[].unloader.setting", "pumps[].unloader.loop_volume", "tanks[].nominal", "site.water"}}
	mBypassTime = &Metric{Path: "pumps[].bypass_time", Kind: units.KindDuration, Better: Higher, Label: "time in bypass to the inlet limit",
		Formula: "(inlet limit − water temperature) / warming rate, every gun closed", Source: "energy balance of the water that goes round",
		Inputs: []Path{"pumps[].rated_flow", "pumps[].unloader.setting", "pumps[].unloader.loop_volume", "pumps[].maximum_inlet_temperature", "tanks[].nominal", "site.water"}}
	mBypassWarm = &Metric{Path: "pumps[].bypass_time_warm", Kind: units.KindDuration, Better: Higher, Label: "time in bypass to the inlet limit, from the warmest water it draws",
		Formula: "(inlet limit − warmest water) / warming rate, every gun closed", Source: "energy balance of the water that goes round",
		Inputs: []Path{"pumps[].rated_flow", "pumps[].unloader.setting", "pumps[].unloader.loop_volume", "pumps[].maximum_inlet_temperature", "pumps[].suction.warmest_water", "tanks[].nominal", "site.water", "recovery[].return_temperature"}}
	mEngineSpeed = &Metric{Path: "engines[].speed", Kind: units.KindRotationalSpeed, Label: "speed of the engine",
		Formula: "no-load speed / (1 + droop) × (1 + droop × (1 − load / full load)), met with the pump's flow and pressure", Source: "definition of droop; fixed point of engine, pump and lines",
		Inputs: append([]Path{"engines[].no_load_speed", "engines[].droop", "engines[].gross_power", "engines[].continuous_share", "loads[].running"}, hydraulicInputs...)}

	hydraulicInputs = []Path{"pumps[].rated_flow", "pumps[].unloader.setting", "lines[].hose.bore", "lines[].hose.length", "lines[].hose.roughness",
		"lines[].fittings.loss", "lines[].fittings.flow", "lines[].nozzle.number", "heaters[].coil_bore", "heaters[].coil_length", "heaters[].coil_roughness", "heaters[].helix_diameter",
		"heaters[].thermostat", "site.water", "chemicals[].injector.flow", "chemicals[].injector.loss"}
)

// linesMetrics lists them in the order of reports.
var linesMetrics = []*Metric{mLineFlow, mNozzlePressure, mPressureJump, mLineLoss, mReaction, mPumpPressure, mBypass, mReliefFlow, mDeadHead, mPumpShaft, mPumpRule, mUnloaderSetting, mReliefSetting, mBypassRise, mBypassTime, mBypassWarm, mEngineSpeed}
