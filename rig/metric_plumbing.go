package rig

import "example.com/washrig/units"

// Metrics of hoses, guns, valves and drives beyond the line block. They are
// never changed.
var (
	mHoseSpeed = &Metric{Path: "lines[].hose_velocity", Kind: units.KindVelocity, Better: Lower, Label: "speed of the water in the hose",
		Formula: "flow / bore area", Source: "conservation of mass", Inputs: hydraulicInputs}
	mHoseLoss = &Metric{Path: "lines[].hose_loss", Kind: units.KindPressure, Better: Lower, Label: "loss of the hose alone",
		Formula: "f (L/d) ρ v²/2", Source: "Darcy–Weisbach, Colebrook–White", Inputs: hydraulicInputs}
	mSurgeLow = &Metric{Path: "lines[].surge_least", Kind: units.KindPressure, Better: Lower, Label: "peak at the gun when the trigger closes, at least",
		Formula: "pump pressure + ρ v × wave speed, slow end of the band", Source: "Joukowsky; slow closing by Michaud", Inputs: surgeInputs}
	mSurgeHigh = &Metric{Path: "lines[].surge_most", Kind: units.KindPressure, Better: Lower, Label: "peak at the gun when the trigger closes, at most",
		Formula: "pump pressure + ρ v × wave speed, fast end of the band", Source: "Joukowsky; slow closing by Michaud; wave speed 1,500 to 4,000 ft/s, common practice", Inputs: surgeInputs}
	mWorn = &Metric{Path: "lines[].worn_pressure", Kind: units.KindPressure, Better: Higher, Label: "pressure at the nozzle when every tip is worn to its limit",
		Formula: "every flow area grown by 5.4 %, which costs a tenth of the pressure at constant flow", Source: "replace at a tenth of the pressure, common practice", Inputs: hydraulicInputs}
	mReelHolds = &Metric{Path: "lines[].reel_capacity", Kind: units.KindLength, Better: Higher, Label: "hose the reel holds",
		Formula: "π turns Σ (core + (2 i − 1) d)", Source: "layers of a wound hose", Inputs: []Path{"lines[].reel.core", "lines[].reel.flange", "lines[].reel.width", "lines[].reel.clearance", "lines[].hose.outside_diameter"}}
	mUnloaderGap = &Metric{Path: "pumps[].unloader_gap", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "from working pressure to the unloader",
		Formula: "(setting − pressure with every gun open) / pressure with every gun open", Source: "two rungs of the pressure ladder", Inputs: hydraulicInputs}
	mReliefGap = &Metric{Path: "pumps[].relief_gap", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "from the unloader to the relief valve",
		Formula: "(relief − unloader with the whole flow bypassed) / unloader", Source: "two rungs of the pressure ladder", Inputs: []Path{"pumps[].unloader.setting", "pumps[].unloader.rise", "pumps[].relief.setting"}}
	mGeometryFlow = &Metric{Path: "pumps[].geometry_flow", Kind: units.KindVolumeFlow, Label: "flow by plungers, speed and volumetric efficiency",
		Formula: "plungers × π/4 × diameter² × stroke × speed × volumetric efficiency", Source: "geometry of the pump",
		Inputs: []Path{"pumps[].plunger_diameter", "pumps[].stroke", "pumps[].volumetric_efficiency", "pumps[].speed"}}
	mGeometryGap = &Metric{Path: "pumps[].geometry_gap", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "plate flow away from the geometry",
		Formula: "|rated flow − flow by geometry| / rated flow", Source: "geometry of the pump",
		Inputs: []Path{"pumps[].rated_flow", "pumps[].plunger_diameter", "pumps[].stroke", "pumps[].volumetric_efficiency", "pumps[].speed"}}
	mPumpSpeed = &Metric{Path: "pumps[].belt_speed", Kind: units.KindRotationalSpeed, Better: Lower, Label: "speed of the pump by its pulleys",
		Formula: "engine speed × engine pulley / pump pulley × (1 − slip)", Source: "belt geometry",
		Inputs: []Path{"engines[].no_load_speed", "engines[].droop", "pumps[].engine_pulley", "pumps[].pump_pulley", "pumps[].belt_slip"}}

	surgeInputs = append([]Path{"lines[].hose.wave_speed", "lines[].release"}, hydraulicInputs...)
)

// plumbingMetrics lists them in the order of reports.
var plumbingMetrics = []*Metric{mHoseSpeed, mHoseLoss, mSurgeLow, mSurgeHigh, mWorn, mReelHolds, mUnloaderGap, mReliefGap, mGeometryFlow, mGeometryGap, mPumpSpeed}
