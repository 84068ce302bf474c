package rig

import "example.com/washrig/units"

// The table of metrics. It is never changed. Sources name the definition or
// the correlation behind a number; the domain packages give the details.
var (
	mLineFlow = &Metric{Path: "lines[].flow", Kind: units.KindVolumeFlow, Label: "flow at the gun",
		Formula: "share of the pump's flow that balances the losses of every open line", Source: "conservation of mass and momentum; Darcy–Weisbach, Colebrook–White",
		Inputs: hydraulicInputs}
	mNozzlePressure = &Metric{Path: "lines[].nozzle_pressure", Kind: units.KindPressure, Better: Higher, Label: "pressure at the nozzle",
		Formula: "4000 psi × (flow / number)²", Source: "trade number: gpm at 4,000 psi (common practice)",
		Inputs: hydraulicInputs}
	mLineLoss = &Metric{Path: "lines[].loss", Kind: units.KindPressure, Better: Lower, Label: "loss from pump to nozzle",
		Formula: "pump pressure − nozzle pressure", Source: "Darcy–Weisbach, Colebrook–White",
		Inputs: hydraulicInputs}
	mReaction = &Metric{Path: "lines[].reaction", Kind: units.KindForce, Better: Lower, Label: "reaction of the gun",
		Formula: "mass flow × jet speed", Source: "momentum of an ideal jet",
		Inputs: hydraulicInputs}
	mPressureJump = &Metric{Path: "lines[].pressure_jump", Kind: units.KindRatio, Better: Lower, Label: "jump when the others let go",
		Formula: "(nozzle pressure alone − with every gun) / with every gun", Source: "two solutions of the line network",
		Inputs: hydraulicInputs}
	mPumpPressure = &Metric{Path: "pumps[].pressure", Kind: units.KindPressure, Better: Lower, Label: "pressure at the pump",
		Formula: "what the open lines need for the flow, at most the unloader's setting", Source: "conservation of mass and momentum",
		Inputs: hydraulicInputs}
	mBypass = &Metric{Path: "pumps[].bypass_flow", Kind: units.KindVolumeFlow, Better: Lower, Label: "flow bypassed",
		Formula: "pump flow − Σ gun flows", Source: "conservation of mass",
		Inputs: hydraulicInputs}
	mReliefFlow = &Metric{Path: "pumps[].relief_flow", Kind: units.KindVolumeFlow, Better: Lower, Label: "flow through the relief valve",
		Formula: "pump flow − Σ gun flows − bypass", Source: "conservation of mass",
		Inputs: hydraulicInputs}
	mDeadHead = &Metric{Path: "pumps[].dead_head_rating", Kind: units.KindPressure, Label: "first rating passed when the guns close",
		Formula: "lowest pressure rating on the line side; nothing limits the pressure", Source: "a positive-displacement pump has no shut-off head",
		Inputs: []Path{"pumps[].unloader.setting", "pumps[].relief.setting"}}
	mPumpShaft = &Metric{Path: "pumps[].shaft_power", Kind: units.KindPower, Better: Lower, Label: "power the pump takes from its engine",
		Formula: "flow × pressure / (pump efficiency × belt efficiency)", Source: "definition of hydraulic power",
		Inputs: append([]Path{"pumps[].efficiency", "pumps[].belt_efficiency"}, hydraulicInputs...)}
	mPumpRule = &Metric{Path: "pumps[].engine_by_rule", Kind: units.KindPower, Label: "engine by rule of thumb",
		Formula: "gpm × psi / 1150", Source: "common practice for gasoline engines", Rule: true,
		Inputs: hydraulicInputs}
	mReliefSetting = &Metric{Path: "pumps[].relief_setting", Kind: units.KindPressure, Better: Lower, Label: "setting of the relief valve",
		Formula: "as given", Source: "specification", Inputs: []Path{"pumps[].relief.setting"}}
	mUnloaderSetting = &Metric{Path: "pumps[].unloader_setting", Kind: units.KindPressure, Better: Lower, Label: "setting of the unloader",
		Formula: "as given", Source: "specification", Inputs: []Path{"pumps[].unloader.setting"}}
	mBypassRise = &Metric{Path: "pumps[].bypass_rise_per_minute", Kind: units.KindTemperatureDelta, Better: Lower, Label: "warming in bypass, per minute",
		Formula: "flow × pressure / (mass × heat capacity), every gun closed", Source: "energy balance of the water that goes round",
		Inputs: []Path{"pumps[].rated_flow", "pumps[].unloader.setting", "pumps[].unloader.loop_volume", "tanks[].nominal", "site.water"}}
	mBypassTime = &Metric{Path: "pumps[].bypass_time", Kind: units.KindDuration, Better: Higher, Label: "time in bypass to the inlet limit",
		Formula: "(inlet limit − water temperature) / warming rate, every gun closed", Source: "energy balance of the water that goes round",
		Inputs: []Path{"pumps[].rated_flow", "pumps[].unloader.setting", "pumps[].unloader.loop_volume", "pumps[].maximum_inlet_temperature", "tanks[].nominal", "site.water"}}

	mOutlet = &Metric{Path: "heaters[].outlet_temperature", Kind: units.KindTemperature, Label: "temperature at the heater's outlet",
		Formula: "enthalpy balance of the flow that passes, held by the thermostat", Source: "IAPWS-IF97 enthalpy",
		Inputs: heatInputs}
	mHeat = &Metric{Path: "heaters[].heat", Kind: units.KindPower, Better: Lower, Label: "heat into the water",
		Formula: "mass flow × (h outlet − h inlet) at line pressure", Source: "IAPWS-IF97 enthalpy", Inputs: heatInputs}
	mHeatRule = &Metric{Path: "heaters[].heat_by_rule", Kind: units.KindPower, Label: "heat by rule of thumb",
		Formula: "500 × gpm × °F rise, in BTU/h", Source: "common practice", Rule: true, Inputs: heatInputs}
	mFiring = &Metric{Path: "heaters[].firing_rate", Kind: units.KindFuelRate, Better: Lower, Label: "firing rate needed",
		Formula: "heat / (efficiency × higher heating value)", Source: "energy balance of the heater",
		Inputs: append([]Path{"heaters[].efficiency", "heaters[].heating_value"}, heatInputs...)}
	mClean = &Metric{Path: "heaters[].clean_firing", Kind: units.KindFuelRate, Better: Higher, Label: "largest clean firing rate",
		Formula: "rate in standard sea-level air × air density ratio", Source: "ideal gas; U.S. Standard Atmosphere 1976",
		Inputs: []Path{"heaters[].clean_firing", "site.elevation", "site.conditions[].air"}}
	mBurnerShare = &Metric{Path: "heaters[].burner_share", Kind: units.KindRatio, Label: "share of the time the burner must fire",
		Formula: "heat wanted / heat with every gun open", Source: "energy balance of the heater", Inputs: heatInputs}
	mThermostat = &Metric{Path: "heaters[].thermostat_setting", Kind: units.KindTemperature, Better: Lower, Label: "setting of the thermostat",
		Formula: "as given", Source: "specification", Inputs: []Path{"heaters[].thermostat"}}
	mHighLimit = &Metric{Path: "heaters[].high_limit_setting", Kind: units.KindTemperature, Better: Lower, Label: "setting of the high limit",
		Formula: "as given", Source: "specification", Inputs: []Path{"heaters[].high_limit"}}
	mBoiling = &Metric{Path: "site.boiling_point", Kind: units.KindTemperature, Better: Higher, Label: "boiling point at the site",
		Formula: "saturation temperature at the site's pressure", Source: "IAPWS-IF97 region 4; U.S. Standard Atmosphere 1976", Inputs: []Path{"site.elevation"}}
	mBoilingMargin = &Metric{Path: "heaters[].boiling_margin", Kind: units.KindTemperatureDelta, Better: Higher, Label: "from the highest water temperature to boiling",
		Formula: "boiling point at the site − the heater's highest temperature", Source: "IAPWS-IF97 region 4",
		Inputs: []Path{"site.elevation", "heaters[].maximum_temperature"}}

	mRunning = &Metric{Path: "sources[].running", Kind: units.KindPower, Better: Lower, us: "W", si: "W", Label: "running load",
		Formula: "Σ running powers", Source: "addition", Inputs: []Path{"loads[].running"}}
	mRunLimit = &Metric{Path: "sources[].run_limit", Kind: units.KindPower, Better: Higher, us: "W", si: "W", Label: "run rating at the site",
		Formula: "run rating × derating of its own engine", Source: "plate derating (common practice)", Inputs: sourceInputs}
	mStart = &Metric{Path: "sources[].start_peak", Kind: units.KindPower, Better: Lower, us: "W", si: "W", Label: "worst start in hand order",
		Formula: "hand loads in the best order, then all that start by themselves at once", Source: "exact search of the start orders",
		Inputs: []Path{"loads[].running", "loads[].starting"}}
	mStartLimit = &Metric{Path: "sources[].start_limit", Kind: units.KindPower, Better: Higher, us: "W", si: "W", Label: "start rating at the site",
		Formula: "start rating × derating of its own engine", Source: "plate derating (common practice)", Inputs: sourceInputs}
	mRestart = &Metric{Path: "sources[].restart_peak", Kind: units.KindPower, Better: Lower, us: "W", si: "W", Label: "restart with everything switched on",
		Formula: "Σ starting powers", Source: "addition", Inputs: []Path{"loads[].starting"}}

	mEngineDemand = &Metric{Path: "engines[].demand", Kind: units.KindPower, Better: Lower, Label: "power asked of the engine",
		Formula: "Σ pump shaft powers + Σ belt generator loads / (generator × belt efficiency)", Source: "addition on one shaft",
		Inputs: append([]Path{"pumps[].efficiency", "pumps[].belt_efficiency", "loads[].running", "sources[].efficiency", "sources[].belt_efficiency"}, hydraulicInputs...)}
	mEngineHas = &Metric{Path: "engines[].available", Kind: units.KindPower, Better: Higher, Label: "power the engine has at the site",
		Formula: "gross × continuous share × (1 − loss per 1,000 ft) × (1 − loss per 10 °F above 77 °F)", Source: "plate derating (common practice)",
		Inputs: []Path{"engines[].gross_power", "engines[].continuous_share", "engines[].loss_per_1000_ft", "engines[].loss_per_10_f", "site.elevation", "site.conditions[].air"}}

	mTotal = &Metric{Path: "trailer.total", Kind: units.KindMass, Better: Lower, Label: "weight of the trailer",
		Formula: "Σ masses", Source: "addition", Inputs: massInputs}
	mTongue = &Metric{Path: "trailer.tongue", Kind: units.KindMass, Label: "weight on the tongue",
		Formula: "Σ mass × (axle group − x) / axle group", Source: "moments about the axle group", Inputs: massInputs}
	mTongueShare = &Metric{Path: "trailer.tongue_share", Kind: units.KindRatio, Label: "share of the weight on the tongue",
		Formula: "tongue / total", Source: "moments about the axle group", Inputs: massInputs}
	mAxle = &Metric{Path: "trailer.axle", Kind: units.KindMass, Better: Lower, Label: "weight on each axle",
		Formula: "(total − tongue) / axles", Source: "equalised axles", Inputs: massInputs}
	mCombination = &Metric{Path: "tow_vehicle.combination", Kind: units.KindMass, Better: Lower, Label: "weight of vehicle and trailer",
		Formula: "vehicle with crew + trailer", Source: "addition", Inputs: append([]Path{"tow_vehicle.curb_and_crew"}, massInputs...)}
	mMixed = &Metric{Path: "tanks[].mixed_water", Kind: units.KindVolume, Better: Lower, Label: "water mixed with that of a tank of other contents",
		Formula: "what the tank holds while a crossover to other contents is open", Source: "water quality travels through open valves", Inputs: nil}
)

var (
	hydraulicInputs = []Path{"pumps[].rated_flow", "pumps[].unloader.setting", "lines[].hose.bore", "lines[].hose.length", "lines[].hose.roughness",
		"lines[].fittings.loss", "lines[].fittings.flow", "lines[].nozzle.number", "heaters[].coil_bore", "heaters[].coil_length", "heaters[].coil_roughness", "heaters[].helix_diameter",
		"heaters[].thermostat", "site.water"}
	heatInputs   = []Path{"pumps[].rated_flow", "heaters[].thermostat", "site.water"}
	sourceInputs = []Path{"sources[].running", "sources[].starting", "sources[].loss_per_1000_ft", "sources[].loss_per_10_f", "site.elevation", "site.conditions[].air"}
	massInputs   = []Path{"trailer", "tanks", "fuel_tanks", "items", "pumps[].mass", "engines[].mass", "heaters[].mass", "sources[].mass", "lines[].mass", "loads[].mass"}
)

// metricTable lists every metric in the order of reports.
var metricTable = [...]*Metric{
	mLineFlow, mNozzlePressure, mPressureJump, mLineLoss, mReaction,
	mPumpPressure, mBypass, mReliefFlow, mDeadHead, mPumpShaft, mPumpRule, mUnloaderSetting, mReliefSetting, mBypassRise, mBypassTime,
	mOutlet, mHeat, mHeatRule, mFiring, mClean, mBurnerShare, mThermostat, mHighLimit, mBoiling, mBoilingMargin,
	mEngineDemand, mEngineHas,
	mRunning, mRunLimit, mStart, mStartLimit, mRestart,
	mTotal, mTongue, mTongueShare, mAxle, mCombination, mMixed,
}

// Metrics returns the table of metrics in the order of reports.
func Metrics() []Metric {
	out := make([]Metric, len(metricTable))
	for i, m := range metricTable {
		out[i] = *m
		out[i].Inputs = append([]Path(nil), m.Inputs...)
	}
	return out
}

// dependsOn reports whether the metric reads the specification field at a path.
func (m *Metric) dependsOn(p Path) bool {
	pat := p.Pattern()
	for _, in := range m.Inputs {
		if in == pat || in.covers(pat) {
			return true
		}
	}
	return false
}
