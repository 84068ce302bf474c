package rig

import "example.com/washrig/units"

// Metrics of vacuum, pick-up, dump-out and filters. They are never changed.
var (
	mAirFlow = &Metric{Path: "recovery[].air_flow", Kind: units.KindVolumeFlow, Better: Higher, us: "cfm", si: "m³/h", Label: "air at the tool, dry",
		Formula: "where the motors' curve meets tool, hose and filter", Source: "isothermal flow, Darcy–Weisbach, Colebrook–White; fan laws for the site", Inputs: airInputs}
	mToolLift = &Metric{Path: "recovery[].tool_lift", Kind: units.KindPressure, Better: Higher, us: "inH2O", si: "kPa", Label: "vacuum at the tool, dry",
		Formula: "air outside − pressure behind the tool", Source: "isothermal flow, Darcy–Weisbach, Colebrook–White", Inputs: airInputs}
	mSealedLift = &Metric{Path: "recovery[].sealed_lift", Kind: units.KindPressure, Better: Neither, us: "inH2O", si: "kPa", Label: "sealed lift at the site",
		Formula: "plate × air density / that of the plate", Source: "fan laws", Inputs: append([]Path{"recovery[].motor.sealed_lift"}, siteAirInputs...)}
	mColumn = &Metric{Path: "recovery[].column", Kind: units.KindLength, Better: Higher, Label: "height of solid water the motors hold",
		Formula: "sealed lift / weight of water", Source: "hydrostatics", Inputs: append([]Path{"recovery[].motor.sealed_lift", "recovery[].return_temperature"}, siteAirInputs...)}
	mCarrySpeed = &Metric{Path: "recovery[].carry_speed", Kind: units.KindVelocity, us: "ft/min", si: "m/s", Label: "air speed that carries water up",
		Formula: "3.1 (σ g (ρl − ρg))^¼ / √ρg", Source: "Taitel, Barnea and Dukler 1980", Inputs: append([]Path{"recovery[].return_temperature"}, siteAirInputs...)}
	mPickUp = &Metric{Path: "recovery[].pick_up", Kind: units.KindVolumeFlow, Better: Higher, us: "gpm", si: "L/min", Label: "pick-up while the air carries",
		Formula: "greatest flow of water at which the air in the hose keeps the speed that carries it", Source: "Müller-Steinhagen and Heck 1986; Rouhani and Axelsson 1970", Inputs: airInputs}
	mPickUpLow = &Metric{Path: "recovery[].pick_up_low", Kind: units.KindVolumeFlow, Better: Higher, us: "gpm", si: "L/min", Label: "pick-up, low end",
		Formula: "as the pick-up, two-phase loss × 1.4", Source: "spread of the correlation, about 40 %", Inputs: airInputs}
	mPickUpHigh = &Metric{Path: "recovery[].pick_up_high", Kind: units.KindVolumeFlow, Better: Higher, us: "gpm", si: "L/min", Label: "pick-up, high end",
		Formula: "as the pick-up, two-phase loss / 1.4", Source: "spread of the correlation, about 40 %", Inputs: airInputs}

	mRecovered = &Metric{Path: "recovery[].recovered_flow", Kind: units.KindVolumeFlow, Better: Lower, us: "gpm", si: "L/min", Label: "water that comes back",
		Formula: "recovered share × Σ flow of the guns it serves", Source: "definition of the recovered share", Inputs: append([]Path{"duty.recovered_share"}, hydraulicInputs...)}
	mAirSpeed = &Metric{Path: "recovery[].air_speed", Kind: units.KindVelocity, Better: Higher, us: "ft/min", si: "m/s", Label: "air speed in the hose with that water",
		Formula: "outside air / bore of the hose, with the water that comes back; zero where it is not lifted", Source: "Müller-Steinhagen and Heck 1986", Inputs: wetInputs}
	mDrumVacuum = &Metric{Path: "recovery[].drum_vacuum", Kind: units.KindPressure, Better: Lower, us: "inH2O", si: "kPa", Label: "vacuum in the drum",
		Formula: "losses of tool, hose and lift with the water that comes back", Source: "Müller-Steinhagen and Heck 1986; Rouhani and Axelsson 1970", Inputs: wetInputs}
	mMotorPower = &Metric{Path: "recovery[].motor_power", Kind: units.KindPower, Better: Lower, us: "W", si: "W", Label: "power of the vacuum motors",
		Formula: "straight line in flow for fan wheels, in lift for displacement blowers", Source: "Euler's equation of turbomachines; work of a displacement",
		Inputs: append([]Path{"recovery[].motor.open_power", "recovery[].motor.sealed_power"}, wetInputs...)}
	mDumpFlow = &Metric{Path: "recovery[].dump_flow", Kind: units.KindVolumeFlow, Better: Higher, us: "gpm", si: "L/min", Label: "flow of the dump pump",
		Formula: "pump head = lift + drum vacuum + hose + filters", Source: "balance of heads; Darcy–Weisbach", Inputs: dumpInputs}
	mDumpVacuumHead = &Metric{Path: "recovery[].vacuum_head", Kind: units.KindLength, Better: Lower, Label: "head the drum vacuum costs the dump pump",
		Formula: "drum vacuum / weight of water", Source: "hydrostatics", Inputs: wetInputs}
	mBackFlow = &Metric{Path: "recovery[].back_flow", Kind: units.KindVolumeFlow, Better: Lower, us: "gpm", si: "L/min", Label: "drawn back while the dump pump stands",
		Formula: "drum vacuum + lift drive the discharge hose backwards; nothing behind a check valve", Source: "Darcy–Weisbach", Inputs: dumpInputs}
	mFloatTrip = &Metric{Path: "recovery[].float_time", Kind: units.KindDuration, Better: Higher, us: "min", si: "min", Label: "time until the float shuts the vacuum",
		Formula: "drum volume / (water that comes back − flow of the dump pump)", Source: "balance of volumes", Inputs: append([]Path{"recovery[].drum.volume"}, dumpInputs...)}
	mDumpDuty = &Metric{Path: "recovery[].dump_duty", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "share of the time the dump pump runs",
		Formula: "water that comes back / flow of the dump pump against the drum vacuum", Source: "balance of volumes over a cycle", Inputs: dumpInputs}
	mCarried = &Metric{Path: "recovery[].carried_share", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "share of the time it picks up",
		Formula: "1 while the dump pump keeps up, else f / (f + water that comes back − flow of the dump pump), f its flow without vacuum", Source: "balance of volumes over a cycle of the float", Inputs: dumpInputs}
	mFilterLoss = &Metric{Path: "recovery[].filter_loss", Kind: units.KindPressure, Better: Lower, Label: "loss of the water filters",
		Formula: "Σ clean part (turbulent and laminar) + cake, at the flow of the dump pump", Source: "Darcy's law; Ruth 1935", Inputs: dumpInputs}
	mFilterTime = &Metric{Path: "recovery[].filter_time", Kind: units.KindDuration, Better: Higher, us: "h", si: "h", Label: "working time until the first filter is full",
		Formula: "capacity / (captured share × solids × water that comes back × trigger share)", Source: "balance of dirt",
		Inputs: append([]Path{"recovery[].dirt", "recovery[].filters[].capacity", "recovery[].filters[].captures", "duty.trigger_share", "duty.recovered_share"}, hydraulicInputs...)}
	mWorkDay = &Metric{Path: "recovery[].day", Kind: units.KindDuration, Better: Neither, us: "h", si: "h", Label: "washing hours of the day",
		Formula: "Σ time of the modes with a gun open", Source: "addition", Inputs: []Path{"modes[].time"}}
	mReturned = &Metric{Path: "recovery[].returned", Kind: units.KindVolume, Better: Lower, Label: "water that one filling brings back",
		Formula: "recovered share × usable water of the tanks that feed its guns", Source: "balance of volumes", Inputs: []Path{"duty.recovered_share", "tanks[].usable"}}

	// Named by findings that are no number.
	mFlammable = &Metric{Path: "recovery[].flammables", Label: "flammables where it picks up", Formula: "as given", Source: "specification"}
	mOilReused = &Metric{Path: "recovery[].oil", Label: "oil in water that is used again", Formula: "as given", Source: "specification"}

	mBuildAdded = &Metric{Path: "recovery[].build_up", Kind: units.KindRatio, Better: Lower, us: "", si: "", Label: "what each pass adds, settled in the tank",
		Formula: "k / (1 − k), k = recovered / (1 − evaporated), in doses of one pass", Source: "geometric series of the passes", Inputs: loopInputs}
	mBuildMakeUp = &Metric{Path: "recovery[].hardness", Kind: units.KindRatio, Better: Lower, us: "", si: "", Label: "what the make-up water brings, settled",
		Formula: "(1 − recovered) / (1 − k), k = recovered / (1 − evaporated), over the make-up water's", Source: "geometric series of the passes", Inputs: loopInputs}
	mChangeOut = &Metric{Path: "recovery[].change_out", Kind: units.KindDuration, Better: Higher, us: "h", si: "h", Label: "spraying until the water is changed",
		Formula: "passes to the dose limit × water of the loop / flow of its guns", Source: "geometric series of the passes", Inputs: append([]Path{"recovery[].dose_limit", "tanks[].usable"}, append(loopInputs, hydraulicInputs...)...)}

	siteAirInputs = []Path{"site.elevation", "site.conditions[].air"}
	airInputs     = append([]Path{"recovery[].motor.open_flow", "recovery[].motor.sealed_lift", "recovery[].motor.points", "recovery[].hose.bore", "recovery[].hose.length", "recovery[].hose.corrugation",
		"recovery[].lift", "recovery[].tool.loss", "recovery[].tool.flow", "recovery[].air_filter.flow", "recovery[].air_filter.clean", "recovery[].air_filter.dirty", "recovery[].air_filter.linear_share",
		"recovery[].return_temperature"}, siteAirInputs...)
	wetInputs  = append(append([]Path{"duty.recovered_share"}, airInputs...), hydraulicInputs...)
	dumpInputs = append([]Path{"recovery[].dump_pump.shut_off_head", "recovery[].dump_pump.run_out_flow", "recovery[].dump_pump.points", "recovery[].discharge.lift", "recovery[].discharge.bore",
		"recovery[].discharge.length", "recovery[].discharge.fittings", "recovery[].discharge.cracking", "recovery[].filters[].flow", "recovery[].filters[].clean", "recovery[].filters[].dirty",
		"recovery[].filters[].linear_share"}, wetInputs...)
	loopInputs = []Path{"duty.recovered_share", "recovery[].evaporated"}
)

// recoveryMetrics lists the metrics of vacuum, pick-up, dump-out and filters, in the
// order of reports.
var recoveryMetrics = []*Metric{mAirFlow, mToolLift, mSealedLift, mColumn, mCarrySpeed, mPickUp, mPickUpLow, mPickUpHigh, mRecovered, mAirSpeed, mDrumVacuum, mMotorPower,
	mDumpFlow, mDumpVacuumHead, mBackFlow, mFloatTrip, mDumpDuty, mCarried, mFilterLoss, mFilterTime, mWorkDay, mReturned, mBuildAdded, mBuildMakeUp, mChangeOut}
