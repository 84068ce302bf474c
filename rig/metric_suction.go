package rig

import "example.com/washrig/units"

// Metrics of suction, vents, dumping, filling and joined tanks. They are never
// changed.
var (
	mSuctionHead = &Metric{Path: "pumps[].suction_head", Kind: units.KindLength, Better: Higher, us: "ft", si: "m", Label: "suction head at the pump",
		Formula: "(site pressure − vapour pressure)/(ρ g) + level − vacuum − line − strainer − pulses", Source: "ANSI/HI 9.6.1; IAPWS-IF97; Darcy–Weisbach", Inputs: suctionInputs}
	mSuctionMargin = &Metric{Path: "pumps[].suction_margin", Kind: units.KindLength, Better: Higher, us: "ft", si: "m", Label: "suction head over what the pump needs",
		Formula: "suction head − required head", Source: "ANSI/HI 9.6.1", Inputs: append([]Path{"pumps[].required_head"}, suctionInputs...)}
	mSuctionLine = &Metric{Path: "pumps[].suction_line_loss", Kind: units.KindLength, Better: Lower, us: "ft", si: "m", Label: "head lost in the suction hose and its fittings",
		Formula: "(f L/d + K) v²/(2 g)", Source: "Darcy–Weisbach, Colebrook–White", Inputs: suctionLineInputs}
	mStrainerHead = &Metric{Path: "pumps[].strainer_head", Kind: units.KindLength, Better: Lower, us: "ft", si: "m", Label: "head lost in the strainer",
		Formula: "clean loss / (1 − blocked share)² / (ρ g)", Source: "orifice equation", Inputs: []Path{"pumps[].suction.strainer.loss", "pumps[].suction.strainer.blocked"}}
	mPulseHead = &Metric{Path: "pumps[].acceleration_head", Kind: units.KindLength, Better: Lower, us: "ft", si: "m", Label: "head that the pulses of the pump cost",
		Formula: "L V N C/(K g) over the length that moves", Source: "ANSI/HI 6.1–6.5, API 674", Inputs: append([]Path{"pumps[].plungers", "pumps[].speed", "pumps[].suction.moved"}, suctionLineInputs...)}
	mSuctionSpeed = &Metric{Path: "pumps[].suction_velocity", Kind: units.KindVelocity, Better: Lower, Label: "speed of the water in the suction hose",
		Formula: "rated flow / bore area", Source: "conservation of mass", Inputs: []Path{"pumps[].rated_flow", "pumps[].suction.bore"}}
	mSubmergence = &Metric{Path: "pumps[].outlet_submergence", Kind: units.KindLength, Better: Lower, Label: "water over the tank's outlet below which it draws air",
		Formula: "d (1 + 2.3 V/√(g d))", Source: "ANSI/HI 9.8", Inputs: []Path{"pumps[].rated_flow", "pumps[].suction.bore"}}
	mMesh = &Metric{Path: "pumps[].strainer_opening", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "strainer mesh over the smallest nozzle behind it",
		Formula: "clear width of the mesh / bore of the smallest nozzle without contraction", Source: "geometry", Inputs: []Path{"pumps[].suction.strainer.opening", "lines[].nozzle.number"}}
	mServiceLoss = &Metric{Path: "pumps[].strainer_spill", Kind: units.KindVolume, Better: Lower, Label: "water that runs out when the strainer is opened with the tank full",
		Formula: "nothing behind a valve, else what the tank holds", Source: "balance of volumes", Inputs: []Path{"tanks[].nominal"}}
	mDrawnWarm = &Metric{Path: "pumps[].warmest_drawn", Kind: units.KindTemperature, Better: Lower, Label: "hottest water the pump draws",
		Formula: "as given", Source: "specification", Inputs: []Path{"pumps[].suction.warmest_water"}}

	mDrainTime = &Metric{Path: "tanks[].dump_time", Kind: units.KindDuration, Better: Lower, us: "min", si: "min", Label: "time to dump, full to the last inch",
		Formula: "∫ A dh / q(h), vent and pipe included", Source: "Torricelli; Darcy–Weisbach, Colebrook–White", Inputs: dumpTankInputs}
	mDumpOut = &Metric{Path: "tanks[].dump_flow", Kind: units.KindVolumeFlow, Better: Higher, us: "gpm", si: "L/min", Label: "flow out of the dump outlet, tank full",
		Formula: "head = outlet + vent", Source: "Darcy–Weisbach, Colebrook–White", Inputs: dumpTankInputs}
	mTankVacuum = &Metric{Path: "tanks[].vacuum", Kind: units.KindPressure, Better: Lower, us: "inH2O", si: "kPa", Label: "vacuum in the tank, dumped or drawn",
		Formula: "½ ρ_air (q/(C a))², the greater of dump and pumps", Source: "orifice equation", Inputs: append([]Path{"pumps[].rated_flow"}, dumpTankInputs...)}
	mVentNeeded = &Metric{Path: "tanks[].vent_needed", Kind: units.KindLength, Better: Neither, Label: "vent bore at which the tank bears it",
		Formula: "bore of the orifice at the vacuum the tank may bear, for the greatest of dump, pumps and filling", Source: "orifice equation",
		Inputs: concatPaths([]Path{"tanks[].maximum_vacuum", "pumps[].rated_flow"}, supplyInputs, dumpTankInputs)}

	mFillFlow = &Metric{Path: "supplies[].flow", Kind: units.KindVolumeFlow, Better: Higher, us: "gpm", si: "L/min", Label: "flow into the tank",
		Formula: "where main, meter, device, hose and climb balance", Source: "NFPA 291; Darcy–Weisbach, Colebrook–White", Inputs: supplyInputs}
	mFillTime = &Metric{Path: "supplies[].fill_time", Kind: units.KindDuration, Better: Lower, us: "min", si: "min", Label: "time to fill the tank",
		Formula: "usable volume / flow", Source: "balance of volumes", Inputs: append([]Path{"tanks[].usable"}, supplyInputs...)}
	mFillGain = &Metric{Path: "supplies[].gain", Kind: units.KindVolumeFlow, Better: Higher, us: "gpm", si: "L/min", Label: "what the tank gains while the guns wash",
		Formula: "flow − trigger share × rated flow of the pumps that draw from it", Source: "balance of volumes", Inputs: append([]Path{"pumps[].rated_flow", "duty.trigger_share"}, supplyInputs...)}
	mFeedInlet = &Metric{Path: "supplies[].inlet_pressure", Kind: units.KindPressure, Better: Higher, Label: "pressure at the inlet of the pump it feeds, with its flow",
		Formula: "what the main has left at the pump's flow − hose, device and meter − climb", Source: "NFPA 291; Darcy–Weisbach, Colebrook–White", Inputs: append([]Path{"pumps[].rated_flow"}, supplyInputs...)}
	mFeedStatic = &Metric{Path: "supplies[].inlet_static", Kind: units.KindPressure, Better: Lower, Label: "pressure at the inlet of the pump it feeds, nothing flowing",
		Formula: "static pressure − weight of the climb", Source: "hydrostatics", Inputs: []Path{"supplies[].static", "supplies[].climb", "site.water"}}
	mGapNeeded = &Metric{Path: "supplies[].air_gap_needed", Kind: units.KindLength, Better: Lower, Label: "air gap that is needed over the tank",
		Formula: "2 × bore, at least 1 in; beside a wall 3 × bore, at least 1.5 in", Source: "ASME A112.1.2", Inputs: []Path{"supplies[].spout", "supplies[].hose.bore"}}

	mDrawDifference = &Metric{Path: "crossovers[].draw_difference", Kind: units.KindLength, Better: Lower, Label: "how much lower the drawn tank stands, valve open",
		Formula: "head of the crossover at q A₂/(A₁ + A₂), q what the pumps draw", Source: "conservation of volume; Darcy–Weisbach", Inputs: append([]Path{"pumps[].rated_flow"}, crossoverInputs...)}
	mFillDifference = &Metric{Path: "crossovers[].fill_difference", Kind: units.KindLength, Better: Lower, Label: "how much higher the filled tank stands, valve open",
		Formula: "head of the crossover at q A₂/(A₁ + A₂), q what the supply gives", Source: "conservation of volume; Darcy–Weisbach", Inputs: concatPaths(crossoverInputs, supplyInputs)}
	mUnfilled = &Metric{Path: "crossovers[].unfilled", Kind: units.KindVolume, Better: Lower, Label: "room left in the far tank when the filled one overflows",
		Formula: "difference × area of the far tank; levels integrated in time where it nears the height of a tank", Source: "conservation of volume", Inputs: concatPaths(crossoverInputs, supplyInputs)}
	mStranded = &Metric{Path: "crossovers[].stranded", Kind: units.KindVolume, Better: Lower, Label: "water left in the far tank when the pumps draw air",
		Formula: "difference × area of the far tank; levels integrated in time where it nears the height of a tank", Source: "conservation of volume", Inputs: append([]Path{"pumps[].rated_flow"}, crossoverInputs...)}

	suctionLineInputs = []Path{"pumps[].rated_flow", "pumps[].suction.bore", "pumps[].suction.length", "pumps[].suction.roughness", "pumps[].suction.k", "pumps[].suction.warmest_water", "site.water"}
	suctionInputs     = append([]Path{"site.elevation", "pumps[].suction.low", "pumps[].suction.high", "pumps[].suction.strainer.loss", "pumps[].suction.strainer.blocked",
		"pumps[].plungers", "pumps[].speed", "pumps[].suction.moved", "tanks[].vent"}, suctionLineInputs...)
	dumpTankInputs  = []Path{"tanks[].dump.bore", "tanks[].dump.length", "tanks[].dump.k", "tanks[].vent", "tanks[].overflow", "tanks[].height", "tanks[].nominal", "site.water", "site.elevation", "site.conditions[].air"}
	supplyInputs    = []Path{"supplies[].static", "supplies[].residual", "supplies[].test_flow", "supplies[].hose.bore", "supplies[].hose.length", "supplies[].hose.roughness", "supplies[].meter.loss", "supplies[].meter.flow", "supplies[].device_loss", "supplies[].climb", "site.water"}
	crossoverInputs = []Path{"crossovers[].bore", "crossovers[].length", "crossovers[].k", "tanks[].nominal", "tanks[].height", "site.water"}
)

func concatPaths(lists ...[]Path) []Path {
	var out []Path
	for _, l := range lists {
		out = append(out, l...)
	}
	return out
}

// suctionMetrics lists them in the order of reports.
var suctionMetrics = []*Metric{mSuctionHead, mSuctionMargin, mSuctionLine, mStrainerHead, mPulseHead, mSuctionSpeed, mSubmergence, mMesh, mServiceLoss, mDrawnWarm,
	mDrainTime, mDumpOut, mTankVacuum, mVentNeeded, mFillFlow, mFillTime, mFillGain, mFeedInlet, mFeedStatic, mGapNeeded, mDrawDifference, mFillDifference, mUnfilled, mStranded}
