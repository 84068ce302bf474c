package rig

import "example.com/washrig/units"

// Metrics of the water at the guns, of warm-up, cycles, faults, heat soak, stack,
// soot and scale, thermal relief and frost. They are never changed.
var (
	mGunTemperature = &Metric{Path: "lines[].gun_temperature", Kind: units.KindTemperature, Better: Higher, Label: "temperature at the gun",
		Formula: "air + (outlet − air) · e^(−UA / (mass flow · heat capacity)), in the wind of the hour or still air; 32 °F where it begins to freeze", Source: "Churchill and Chu 1975, Churchill and Bernstein 1977, Gnielinski 1976, Stefan–Boltzmann", Inputs: gunInputs}
	mGunWindy = &Metric{Path: "lines[].gun_temperature_in_wind", Kind: units.KindTemperature, Better: Higher, Label: "temperature at the gun in 10 mph (4.5 m/s) of wind",
		Formula: "as at the gun, in 10 mph across the hose or the wind of the hour if it blows harder", Source: "Churchill and Bernstein 1977, Gnielinski 1976, Stefan–Boltzmann", Inputs: gunInputs}
	mHoseDrop = &Metric{Path: "lines[].hose_drop", Kind: units.KindTemperatureDelta, Better: Lower, Label: "temperature lost in the hose",
		Formula: "outlet − temperature at the gun", Source: "definition", Inputs: gunInputs}
	mScald = &Metric{Path: "lines[].scald_time", Kind: units.KindDuration, us: "s", si: "s", Label: "time to a scald by water of the gun's temperature",
		Formula: "straight line of the logarithm of time between the rows of the series; at most the last row's", Source: "U.S. Consumer Product Safety Commission, tap-water guidance", Inputs: gunInputs}
	mFlash = &Metric{Path: "lines[].flash", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "share that turns to steam at the nozzle",
		Formula: "(h(nozzle pressure, gun temperature) − h′(site)) / latent heat at the site, not below 0", Source: "IAPWS-IF97", Inputs: append([]Path{"site.elevation"}, gunInputs...)}
	mEvaporated = &Metric{Path: "lines[].evaporated_share", Kind: units.KindRatio, us: "%", si: "%", Label: "share that evaporates, usual",
		Formula: "cooling to the wet bulb, divided between evaporation and warming the air", Source: "ASHRAE psychrometrics; Chilton and Colburn", Inputs: surfaceInputs}
	mEvaporatedMost = &Metric{Path: "lines[].evaporated_share_most", Kind: units.KindRatio, us: "%", si: "%", Label: "share that evaporates, at most",
		Formula: "cooling to the wet bulb, all by evaporation", Source: "ASHRAE psychrometrics", Inputs: surfaceInputs}
	mPickable = &Metric{Path: "lines[].liquid_share", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "share that is left to pick up, at most",
		Formula: "1 − flash at the nozzle", Source: "IAPWS-IF97", Inputs: surfaceInputs}
	mSurfaceWarmest = &Metric{Path: "lines[].surface_warmest", Kind: units.KindTemperature, Better: Higher, Label: "arrives at the surface, warmest",
		Formula: "drops of 1 mm that keep their speed", Source: "Ranz and Marshall 1952; Spalding 1953", Inputs: surfaceInputs}
	mSurfaceCoolest = &Metric{Path: "lines[].surface_coolest", Kind: units.KindTemperature, Better: Higher, Label: "arrives at the surface, coolest",
		Formula: "drops of 0.1 mm slowed to 30 %", Source: "Ranz and Marshall 1952; Spalding 1953", Inputs: surfaceInputs}
	mArrival = &Metric{Path: "lines[].hot_water_arrival", Kind: units.KindDuration, Better: Lower, us: "s", si: "s", Label: "time until hot water is at the gun, hose cold",
		Formula: "plug flow that warms the wall, to 90 % of the rise", Source: "Anzelius 1926, Schumann 1929", Inputs: gunInputs}

	mWarmUp = &Metric{Path: "heaters[].warm_up_time", Kind: units.KindDuration, Better: Lower, us: "min", si: "min", Label: "time from cold to the wanted temperature at the outlet",
		Formula: "two heat stores, metal and water, at full fire with every gun open", Source: "first law", Inputs: coilInputs}
	mCycleTime = &Metric{Path: "heaters[].cycle_time", Kind: units.KindDuration, Better: Higher, us: "s", si: "s", Label: "time of one cycle of the burner",
		Formula: "fire + pause of the cycle that repeats itself", Source: "first law, two heat stores", Inputs: coilInputs}
	mCycleHighest = &Metric{Path: "heaters[].cycle_highest", Kind: units.KindTemperature, Better: Lower, Label: "hottest water in a cycle",
		Formula: "highest of the cycle that repeats itself", Source: "first law, two heat stores", Inputs: coilInputs}
	mReleasePeak = &Metric{Path: "heaters[].release_peak", Kind: units.KindTemperature, Better: Lower, Label: "hottest water after the trigger is released",
		Formula: "standing water warmed by the metal and the last of the fire", Source: "first law, two heat stores", Inputs: coilInputs}
	mCoilRelief = &Metric{Path: "heaters[].relief_setting", Kind: units.KindPressure, Better: Neither, Label: "setting of the relief valve behind the coil",
		Formula: "as given", Source: "specification", Inputs: []Path{"heaters[].relief"}}
	mSoakPressure = &Metric{Path: "heaters[].soak_pressure", Kind: units.KindPressure, Better: Lower, Label: "pressure of the shut-in water after the trigger is released",
		Formula: "trapped pressure + rise by expansion, hoses giving way, up to the relief", Source: "IAPWS-IF97; API Standard 521",
		Inputs: append([]Path{"lines[].hose.expansion", "trunks[].hose.expansion", "heaters[].relief", "pumps[].unloader.setting", "lines[].hose.length", "lines[].hose.bore"}, coilInputs...)}
	mFaultHighest = &Metric{Path: "heaters[].stuck_highest", Kind: units.KindTemperature, Better: Lower, Label: "hottest water if the thermostat sticks and the high limit works",
		Formula: "high limit + what its delay and the heat of the metal add", Source: "first law, two heat stores", Inputs: append([]Path{"heaters[].high_limit"}, coilInputs...)}
	mBoilDry = &Metric{Path: "heaters[].boil_dry_time", Kind: units.KindDuration, Better: Higher, us: "s", si: "s", Label: "time until standing water boils if the flow switch sticks",
		Formula: "full fire on the metal and water of the coil, to the boiling point at the site", Source: "first law, two heat stores", Inputs: append([]Path{"site.elevation"}, coilInputs...)}
	mCondensing = &Metric{Path: "heaters[].condensing_time", Kind: units.KindDuration, Better: Lower, us: "s", si: "s", Label: "time a cold coil drips",
		Formula: "until the mean of the metal passes the dew point of the flue gas, 5 % oxygen if nobody has measured", Source: "element balance; IAPWS-IF97", Inputs: append([]Path{"heaters[].stack.oxygen", "heaters[].stack.carbon_dioxide", "site.elevation"}, coilInputs...)}
	mRunCold = &Metric{Path: "heaters[].run_cold_to", Kind: units.KindTemperature, Label: "outlet down to which it is run cold",
		Formula: "standing water warmed by the metal stays at 120 °F", Source: "first law", Inputs: coilInputs}
	mFlowGuards = &Metric{Path: "heaters[].flow_guards", Kind: units.KindRatio, Better: Higher, Label: "switches that stop the burner without flow",
		Formula: "flow switch + pressure switch", Source: "as given"}

	mNozzleFiring = &Metric{Path: "heaters[].oil_nozzle_rate", Kind: units.KindFuelRate, Label: "what the oil nozzle passes",
		Formula: "printed flow × √(oil pressure / 100 psi)", Source: "orifice law; nozzles are made to 5 %", Inputs: []Path{"heaters[].oil_nozzle", "heaters[].oil_pressure"}}
	mStackEfficiency = &Metric{Path: "heaters[].stack_efficiency", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "efficiency by the stack, on the higher heating value",
		Formula: "1 − dry gas, vapour and latent loss", Source: "element balance and first law; gas enthalpies of GRI-Mech 3.0", Inputs: stackInputs}
	mSiegert = &Metric{Path: "heaters[].stack_loss_by_formula", Kind: units.KindRatio, Better: Lower, Rule: true, us: "%", si: "%", Label: "stack loss by Siegert's formula, on the lower heating value",
		Formula: "(stack − air) · (A2/(21 − O2) + B), or A1/CO2 + B", Source: "1. BImSchV", Inputs: stackInputs}
	mDewPoint = &Metric{Path: "heaters[].dew_point", Kind: units.KindTemperature, Label: "water dew point of the flue gas",
		Formula: "boiling point under the partial pressure of the vapour", Source: "element balance; IAPWS-IF97", Inputs: append([]Path{"site.elevation"}, stackInputs...)}
	mFoulingLoss = &Metric{Path: "heaters[].fouling_loss", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "share of the heat that soot and scale cost",
		Formula: "effectiveness–NTU with the layers' resistances in line", Source: "Kays and London 1984", Inputs: []Path{"heaters[].soot", "heaters[].scale", "heaters[].efficiency", "heaters[].steel"}}
	mScaleTime = &Metric{Path: "heaters[].scale_time", Kind: units.KindDuration, Better: Higher, us: "h", si: "h", Label: "hot running until scale costs 100 psi (6.9 bar) more, roughly",
		Formula: "mass balance of the hardness, usual share deposited; loss by the fifth power of the bore", Source: "mass balance; an estimate within a factor of two", Inputs: append([]Path{"site.hardness", "heaters[].coil_bore", "heaters[].coil_length"}, heatInputs...)}

	mThermalReliefSetting = &Metric{Path: "pumps[].thermal_relief_setting", Kind: units.KindTemperature, Better: Lower, Label: "setting of the thermal relief",
		Formula: "as given", Source: "specification", Inputs: []Path{"pumps[].thermal_relief.setting"}}
	mThermalReliefNeeded = &Metric{Path: "pumps[].thermal_relief_needed", Kind: units.KindVolumeFlow, Better: Lower, us: "gpm", si: "L/min", Label: "flow the thermal relief must pass to hold its setting",
		Formula: "pressure × bypassed flow / (density × (h(setting) − h(supply)))", Source: "first law; IAPWS-IF97", Inputs: append([]Path{"pumps[].unloader.setting", "pumps[].thermal_relief.setting"}, heatInputs...)}

	mCoilFreezes     = freezing("heaters[].freeze_time", "time until the coil freezes, parked", "still air", coldInputs)
	mCoilFreezesRoad = freezing("heaters[].freeze_time_on_road", "time until the coil freezes, on the road", "the wind of the road", coldInputs)
	mHoseFreezes     = freezing("lines[].freeze_time", "time until the hose freezes, parked", "still air", coldInputs)
	mHoseFreezesRoad = freezing("lines[].freeze_time_on_road", "time until the hose freezes, on the road", "the wind of the road", coldInputs)
	mHeadFreezes     = freezing("pumps[].freeze_time", "time until the pump head freezes, parked", "still air", coldInputs)
	mHeadFreezesRoad = freezing("pumps[].freeze_time_on_road", "time until the pump head freezes, on the road", "the wind of the road", coldInputs)

	mProtects = &Metric{Path: "winter.protects_to", Kind: units.KindTemperature, Better: Lower, Label: "antifreeze protects down to, weakest part",
		Formula: "freezing point of the weakest mixture when the antifreeze is pushed through in order", Source: "stirred vessels in series; ASHRAE Handbook — Fundamentals 2001, chapter 21, propylene glycol", Inputs: glycolInputs}
	mGlycol = &Metric{Path: "winter.weakest_glycol", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "share of glycol in the weakest part",
		Formula: "antifreeze pushed through in order, each part stirred", Source: "balance of volumes", Inputs: glycolInputs}
	mAntifreezeNeeded = &Metric{Path: "winter.antifreeze_needed", Kind: units.KindVolume, Better: Lower, us: "gal", si: "L", Label: "antifreeze for 10 °F (5.6 °C) below the coldest air, mixed with all the water left",
		Formula: "water left × wanted / (strength − wanted)", Source: "balance of volumes", Inputs: append([]Path{"winter.coldest"}, glycolInputs...)}
	mPoison = &Metric{Path: "winter.poisonous_antifreeze", Kind: units.KindVolume, Better: Lower, us: "gal", si: "L", Label: "antifreeze that is not propylene glycol",
		Formula: "as given", Source: "as given", Inputs: []Path{"winter.volume"}}

	gunInputs = append([]Path{"lines[].hose.outside_diameter", "lines[].hose.wall_conductivity", "lines[].hose.length", "trunks[].hose.outside_diameter", "trunks[].hose.wall_conductivity",
		"site.conditions[].air", "site.conditions[].wind", "heaters[].oil_nozzle", "heaters[].oil_pressure", "heaters[].efficiency", "heaters[].heating_value"}, heatInputs...)
	surfaceInputs = append([]Path{"site.conditions[].humidity", "site.elevation", "duty.standoff"}, gunInputs...)
	coilInputs    = append([]Path{"heaters[].steel", "heaters[].differential", "heaters[].stop_delay", "heaters[].fire_delay", "heaters[].coil_bore", "heaters[].coil_length", "heaters[].scale",
		"heaters[].oil_nozzle", "heaters[].oil_pressure", "heaters[].efficiency", "heaters[].heating_value"}, heatInputs...)
	stackInputs  = []Path{"heaters[].stack.temperature", "heaters[].stack.air", "heaters[].stack.oxygen", "heaters[].stack.carbon_dioxide"}
	coldInputs   = []Path{"winter.coldest", "winter.road_speed", "site.water", "site.conditions[].air", "heaters[].steel", "lines[].hose.outside_diameter", "lines[].hose.wall_conductivity", "pumps[].head_water", "pumps[].head_metal"}
	glycolInputs = []Path{"winter.strength", "winter.volume", "winter.left", "winter.parts[].volume", "winter.parts[].left"}
)

func freezing(p Path, label, air string, inputs []Path) *Metric {
	return &Metric{Path: p, Kind: units.KindDuration, Better: Higher, us: "min", si: "min", Label: label,
		Formula: "cooling to 0 °C and a tenth turned to ice, full of water, bare, in the coldest air and " + air,
		Source:  "first law; Churchill and Chu 1975, Churchill and Bernstein 1977", Inputs: inputs}
}

// burnerMetrics lists them in the order of reports.
var burnerMetrics = []*Metric{mGunTemperature, mGunWindy, mHoseDrop, mArrival, mFlash, mScald, mEvaporated, mEvaporatedMost, mPickable, mSurfaceWarmest, mSurfaceCoolest,
	mWarmUp, mCycleTime, mCycleHighest, mReleasePeak, mSoakPressure, mFaultHighest, mBoilDry, mFlowGuards, mCondensing, mRunCold,
	mNozzleFiring, mStackEfficiency, mSiegert, mDewPoint, mFoulingLoss, mScaleTime, mThermalReliefSetting, mThermalReliefNeeded,
	mCoilFreezes, mCoilFreezesRoad, mHoseFreezes, mHoseFreezesRoad, mHeadFreezes, mHeadFreezesRoad, mProtects, mGlycol, mAntifreezeNeeded, mPoison}
