package rig

import "example.com/washrig/units"

// Metrics of the single faults. They are never changed.
var (
	mFaultPressure = &Metric{Path: "pumps[].fault_pressure", Kind: units.KindPressure, Better: Lower, Label: "pressure at the pump in a fault",
		Formula: "what the open lines need for the flow, at most what the valve that still works lets through", Source: "conservation of mass and momentum", Inputs: faultInputs}
	mFaultRelief = &Metric{Path: "pumps[].fault_relief_flow", Kind: units.KindVolumeFlow, Better: Lower, Label: "flow through the relief valve in a fault",
		Formula: "pump flow − Σ gun flows − bypass", Source: "conservation of mass", Inputs: faultInputs}
	mFaultShaft = &Metric{Path: "pumps[].fault_shaft_power", Kind: units.KindPower, Better: Lower, Label: "power the pump takes in a fault",
		Formula: "flow × pressure / (pump efficiency × belt efficiency)", Source: "definition of hydraulic power", Inputs: append([]Path{"pumps[].efficiency", "pumps[].belt_efficiency"}, faultInputs...)}
	mFaultDeadHead = &Metric{Path: "pumps[].fault_dead_head_rating", Kind: units.KindPressure, Label: "first rating passed in a fault when the guns close",
		Formula: "lowest pressure rating on the line side; nothing limits the pressure", Source: "a positive-displacement pump has no shut-off head", Inputs: []Path{"pumps[].unloader.setting", "pumps[].relief.setting"}}
	mFaultNozzle = &Metric{Path: "lines[].fault_nozzle_pressure", Kind: units.KindPressure, Better: Neither, Label: "pressure at the nozzle in a fault",
		Formula: "4000 psi × (flow / number)²", Source: "trade number: gpm at 4,000 psi (common practice)", Inputs: faultInputs}
	mFaultReaction = &Metric{Path: "lines[].fault_reaction", Kind: units.KindForce, Better: Lower, Label: "reaction of the gun in a fault",
		Formula: "mass flow × jet speed", Source: "momentum of an ideal jet", Inputs: faultInputs}
	mFaultDemand = &Metric{Path: "engines[].fault_demand", Kind: units.KindPower, Better: Lower, Label: "power asked of the engine in a fault",
		Formula: "power asked with every gun closed − that of the pump + that of the pump in the fault", Source: "addition on one shaft", Inputs: append(append([]Path{}, mEngineDemand.Inputs...), "pumps[].relief.setting")}
	mFaultHot = &Metric{Path: "heaters[].fault_temperature", Kind: units.KindTemperature, Better: Lower, Label: "hottest water if one control fails and the others work",
		Formula: "setting of the guard that is left plus what its delay and the heat of the metal add", Source: "two heat stores, metal and water", Inputs: append([]Path{"heaters[].high_limit"}, coilInputs...)}
	mFaultPickUp = &Metric{Path: "recovery[].fault_pick_up", Kind: units.KindVolumeFlow, Better: Higher, us: "gpm", si: "L/min", Label: "pick-up with one vacuum motor out",
		Formula: "greatest flow of water at which the air in the hose keeps the speed that carries it", Source: "Müller-Steinhagen and Heck 1986; Rouhani and Axelsson 1970", Inputs: airInputs}
	mFaultBack = &Metric{Path: "recovery[].fault_back_flow", Kind: units.KindVolumeFlow, Better: Lower, us: "gpm", si: "L/min", Label: "drawn back if the check valve stays open while the dump pump stands",
		Formula: "drum vacuum + lift drive the discharge hose backwards", Source: "Darcy–Weisbach", Inputs: dumpInputs}

	faultInputs = append([]Path{"pumps[].relief.setting"}, hydraulicInputs...)
)

// faultMetrics lists them in the order of reports.
var faultMetrics = []*Metric{mFaultPressure, mFaultRelief, mFaultShaft, mFaultDeadHead, mFaultNozzle, mFaultReaction, mFaultDemand, mFaultHot, mFaultPickUp, mFaultBack}
