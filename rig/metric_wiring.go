package rig

import "example.com/washrig/units"

// Metrics of outlets, cords, dips, the burner's fan, the 12 V side and starts
// on the driving engine. They are never changed.
var (
	mSourceVoltage = &Metric{Path: "sources[].voltage", Kind: units.KindVoltage, Better: Higher, Label: "voltage with everything running",
		Formula: "rated voltage, falling with the frequency below the regulator's knee", Source: "common practice of voltage regulators", Inputs: frequencyInputs}
	mFrequency = &Metric{Path: "sources[].frequency", Kind: units.KindFrequency, Label: "frequency with everything running",
		Formula: "speed × poles / 120, less the droop's share of the load", Source: "synchronous machine; ISO 8528-5 for the droop", Inputs: frequencyInputs}
	mFrequencyOff = &Metric{Path: "sources[].frequency_off", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "frequency off its rating",
		Formula: "|frequency − rated frequency| / rated frequency, without load or with everything running", Source: "definition", Inputs: frequencyInputs}
	mIdleVoltage = &Metric{Path: "sources[].idle_voltage", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "share of the voltage that is left at idle",
		Formula: "frequency at idle / (knee × rated frequency), at most 1", Source: "common practice of voltage regulators",
		Inputs: []Path{"sources[].idle_speed", "sources[].frequency", "sources[].regulator_knee"}}
	mVoltageDip = &Metric{Path: "sources[].voltage_dip", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "dip of the voltage in the deepest start",
		Formula: "1 − |E / (1 + (jX'd)·Y)| over the steps of the hand order", Source: "loads as impedances behind the transient reactance",
		Inputs: append([]Path{"sources[].transient_reactance", "sources[].running_apparent", "sources[].starting_apparent", "sources[].starting"}, startInputs...)}
	mFrequencyDip = &Metric{Path: "sources[].frequency_dip", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "dip of the frequency in the greatest step",
		Formula: "swing equation with a governor of first order, for the greatest step of the hand order", Source: "closed form of the swing equation",
		Inputs: append([]Path{"sources[].running", "sources[].inertia", "sources[].droop", "sources[].governor_time", "sources[].starting", "sources[].starting_apparent"}, startInputs...)}
	mLeg = &Metric{Path: "sources[].leg_apparent", Kind: units.KindApparentPower, Better: Lower, us: "VA", si: "VA", Label: "volt-amperes of the fuller leg",
		Formula: "least greater leg over all ways to share the 120 V loads out", Source: "Kirchhoff's law at the neutral; exact search", Inputs: startInputs}
	mLegLimit = &Metric{Path: "sources[].leg_limit", Kind: units.KindApparentPower, Better: Higher, us: "VA", si: "VA", Label: "volt-amperes of one leg",
		Formula: "half of the volt-amperes of the winding, else of the run rating", Source: "two equal windings", Inputs: []Path{"sources[].running", "sources[].running_apparent", "sources[].alternator_running"}}

	mOutletCurrent = &Metric{Path: "outlets[].current", Kind: units.KindCurrent, Better: Lower, Label: "current with everything running",
		Formula: "Σ volt-amperes of the loads on the outlet / voltage", Source: "definition of volt-amperes", Inputs: currentInputs}
	mOutletLoading = &Metric{Path: "outlets[].loading", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "share of the breaker, lasting loads counted at 125 %",
		Formula: "(1.25 × lasting + short current) / the smaller of breaker and receptacle", Source: "NFPA 70 (NEC) 210.20(A)", Inputs: append([]Path{"outlets[].breaker"}, currentInputs...)}
	mLeakage = &Metric{Path: "outlets[].leakage", Kind: units.KindCurrent, Better: Lower, us: "mA", si: "mA", Label: "leakage behind the outlet",
		Formula: "Σ leakages of the loads on the outlet", Source: "addition", Inputs: []Path{"loads[].leakage"}}
	mUnguarded = &Metric{Path: "outlets[].unguarded", Kind: units.KindCurrent, Better: Lower, Label: "current behind an outlet without ground-fault protection",
		Formula: "rating of the outlet, none where it is protected", Source: "as given", Inputs: []Path{"outlets[].breaker"}}
	mOtherNeutral = &Metric{Path: "loads[].other_neutral", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "share of the sources its plug fits that have another kind of neutral",
		Formula: "sources of another kind / sources its plug fits", Source: "as given"}

	mCordCurrent = &Metric{Path: "cords[].current", Kind: units.KindCurrent, Better: Lower, Label: "current of the cord",
		Formula: "Σ volt-amperes of its loads / voltage", Source: "definition of volt-amperes", Inputs: currentInputs}
	mCordAmpacity = &Metric{Path: "cords[].ampacity", Kind: units.KindCurrent, Better: Higher, Label: "current the cord may carry",
		Formula: "as given, else by gauge and conductors", Source: "NFPA 70 (NEC) Table 400.5(A)(1), hard service at 30 °C", Inputs: []Path{"cords[].ampacity"}}
	mCordBreaker = &Metric{Path: "cords[].breaker", Kind: units.KindCurrent, Better: Lower, Label: "breaker before the cord",
		Formula: "smaller of breaker and receptacle of the outlet its loads hang on", Source: "as given", Inputs: []Path{"outlets[].breaker"}}
	mCordDrop = &Metric{Path: "loads[].cord_drop", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "voltage lost in the cords, running",
		Formula: "Σ of I·(R cos φ) there and back over the cords on its way, over the supply", Source: "phasors; NFPA 70 (NEC) Chapter 9 Table 8 at the wires' temperature", Inputs: dropInputs}
	mCordStartDrop = &Metric{Path: "loads[].cord_start_drop", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "voltage lost in the cords while it starts",
		Formula: "voltage divider of cord and load, the other loads of the cord running", Source: "phasors; NFPA 70 (NEC) Chapter 9 Table 8 at the wires' temperature", Inputs: dropInputs}
	mLoadVoltage = &Metric{Path: "loads[].supply", Kind: units.KindVoltage, Better: Higher, Label: "voltage at the load, running",
		Formula: "voltage of the source − what its cords lose", Source: "addition", Inputs: append(append([]Path{}, frequencyInputs...), dropInputs...)}
	mLoadStart = &Metric{Path: "loads[].start_supply", Kind: units.KindVoltage, Better: Higher, Label: "voltage at the load while it starts",
		Formula: "voltage of the source less its dip − what its cords lose", Source: "voltage dividers",
		Inputs: append(append([]Path{"sources[].transient_reactance", "sources[].running_apparent"}, frequencyInputs...), dropInputs...)}
	mLoadShare = &Metric{Path: "loads[].supply_share", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "voltage at the load over its plate's",
		Formula: "voltage at the load, running / plate voltage", Source: "definition", Inputs: append(append([]Path{}, frequencyInputs...), dropInputs...)}

	mFanAir = &Metric{Path: "loads[].fan_air", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "share of its air that a burner's fan moves",
		Formula: "speed at the voltage and frequency it gets / plate speed", Source: "Kloss 1916; fan laws", Inputs: fanInputs}
	mFanAirDip = &Metric{Path: "loads[].fan_air_in_dip", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "share of its air at the dipped voltage",
		Formula: "speed at the voltage and frequency in the deepest start of another load / plate speed", Source: "Kloss 1916; fan laws", Inputs: fanInputs}
	mCleanSupply = &Metric{Path: "heaters[].clean_firing_at_voltage", Kind: units.KindFuelRate, Better: Higher, Label: "largest clean firing rate with the fan at its voltage",
		Formula: "rate in standard sea-level air × air density ratio × share of the fan's air", Source: "ideal gas; fan laws", Inputs: cleanInputs}
	mCleanDip = &Metric{Path: "heaters[].clean_firing_in_dip", Kind: units.KindFuelRate, Better: Higher, Label: "largest clean firing rate with the fan at the dipped voltage",
		Formula: "rate in standard sea-level air × air density ratio × share of the fan's air", Source: "ideal gas; fan laws", Inputs: cleanInputs}

	mEngineStart = &Metric{Path: "engines[].start_demand", Kind: units.KindPower, Better: Lower, Label: "power asked of the engine in the worst start",
		Formula: "power asked with everything running + (start peak − running load) / (generator × belt efficiency)", Source: "addition on one shaft",
		Inputs: append(append([]Path{"sources[].efficiency", "sources[].belt_efficiency"}, startInputs...), mEngineDemand.Inputs...)}
	mEngineBrief = &Metric{Path: "engines[].available_briefly", Kind: units.KindPower, Better: Higher, Label: "power the engine has for seconds at the site",
		Formula: "gross × (1 − loss per 1,000 ft) × (1 − loss per 10 °F above 77 °F)", Source: "plate derating (common practice); the continuous share is for hours",
		Inputs: []Path{"engines[].gross_power", "engines[].loss_per_1000_ft", "engines[].loss_per_10_f", "site.elevation", "site.conditions[].air"}}

	mNetCurrent = &Metric{Path: "batteries[].net_current", Kind: units.KindCurrent, Better: Higher, Label: "what is left of the charging current",
		Formula: "charging − Σ current × duty", Source: "addition", Inputs: budgetInputs}
	mPeakCurrent = &Metric{Path: "batteries[].peak_current", Kind: units.KindCurrent, Better: Lower, Label: "current with everything on at once",
		Formula: "Σ currents", Source: "addition", Inputs: budgetInputs}
	mBatteryTime = &Metric{Path: "batteries[].engine_off_time", Kind: units.KindDuration, Better: Higher, Label: "time the loads run with the engine off",
		Formula: "rate × (capacity × share by cold × usable / (current × rate)) to the power of the exponent", Source: "Peukert 1897; capacity by cold (common practice)",
		Inputs: append([]Path{"batteries[].capacity", "batteries[].rate", "batteries[].exponent", "batteries[].usable", "site.conditions[].air"}, budgetInputs...)}
	mStanding = &Metric{Path: "batteries[].standing_time", Kind: units.KindDuration, Better: Higher, Label: "time it stands before it is at its usable share",
		Formula: "capacity × share by cold × usable / standby", Source: "definition of the capacity",
		Inputs: []Path{"batteries[].capacity", "batteries[].usable", "batteries[].standby", "site.conditions[].air"}}
	mCranking = &Metric{Path: "batteries[].cranking_reserve", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "current to spare when it cranks the engine",
		Formula: "(cold-cranking current × charge − starter's current in the cold) / the former", Source: "SAE J537 for the label (from memory); the rest common practice",
		Inputs: []Path{"batteries[].cold_cranking", "batteries[].state_of_charge", "batteries[].cranking", "site.conditions[].air"}}
	mSustained = &Metric{Path: "direct_loads[].sustained_duty", Kind: units.KindRatio, Better: Higher, us: "%", si: "%", Label: "share of the time it may be on without draining the battery",
		Formula: "η·N / (I − N + η·N), N being what the other loads leave of the charging current, η 85 %", Source: "balance of charge", Inputs: budgetInputs}
	mCableDrop = &Metric{Path: "direct_loads[].cable_drop", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "voltage lost in its cable",
		Formula: "2·R·L·I over the battery's voltage, wires at 50 °C", Source: "NFPA 70 (NEC) Chapter 9 Table 8", Inputs: []Path{"direct_loads[].current", "direct_loads[].length", "batteries[].voltage"}}

	mOffFuel = &Metric{Path: "sources[].fuel_saved_off", Kind: units.KindVolume, Better: Higher, Label: "fuel saved in a day by leaving it off",
		Formula: "best plugs with it − best plugs without it, engines by a straight line of fuel over load", Source: "exact search; Willans line", Inputs: offInputs}
	mOffTime = &Metric{Path: "sources[].hours_saved_off", Kind: units.KindDuration, Better: Higher, Label: "engine hours saved in a day by leaving it off",
		Formula: "best plugs with it − best plugs without it", Source: "exact search", Inputs: offInputs}

	frequencyInputs = []Path{"sources[].voltage", "sources[].frequency", "sources[].speed", "sources[].droop", "sources[].regulator_knee", "sources[].running", "loads[].running"}
	currentInputs   = append([]Path{"sources[].voltage"}, startInputs...)
	dropInputs      = append([]Path{"cords[].length", "cords[].temperature", "sources[].voltage"}, startInputs...)
	fanInputs       = append(append([]Path{"loads[].fan_speed", "loads[].fan_breakdown", "sources[].transient_reactance", "sources[].running_apparent", "sources[].inertia", "sources[].governor_time"}, frequencyInputs...), dropInputs...)
	cleanInputs     = append([]Path{"heaters[].clean_firing", "site.elevation", "site.conditions[].air"}, fanInputs...)
	budgetInputs    = []Path{"batteries[].charging", "batteries[].voltage", "direct_loads[].current", "direct_loads[].duty", "sources[].efficiency", "sources[].idle_power", "loads[].running"}
	offInputs       = append([]Path{"sources[].full_load_rate", "sources[].half_load_rate", "modes[].time"}, append(append([]Path{}, sourceInputs...), startInputs...)...)
)

// wiringMetrics lists them in the order of reports.
var wiringMetrics = []*Metric{mSourceVoltage, mFrequency, mFrequencyOff, mIdleVoltage, mVoltageDip, mFrequencyDip, mLeg, mLegLimit,
	mOutletCurrent, mOutletLoading, mLeakage, mUnguarded, mOtherNeutral, mCordCurrent, mCordAmpacity, mCordBreaker, mCordDrop, mCordStartDrop,
	mLoadVoltage, mLoadStart, mLoadShare, mFanAir, mFanAirDip, mCleanSupply, mCleanDip, mEngineStart, mEngineBrief,
	mNetCurrent, mPeakCurrent, mBatteryTime, mStanding, mCranking, mSustained, mCableDrop, mOffFuel, mOffTime}
