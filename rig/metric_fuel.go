package rig

import "example.com/washrig/units"

// Metrics of what is burned. They are never changed.
var (
	mEngineBurn = &Metric{Path: "engines[].fuel_rate", Kind: units.KindFuelRate, Better: Lower, Label: "fuel the engine burns",
		Formula: "straight line through half and full load, at the load with guns open and closed by trigger share", Source: "Willans line",
		Inputs: append([]Path{"engines[].full_load_rate", "engines[].half_load_rate", "engines[].gross_power", "duty.trigger_share", "loads[].running"}, hydraulicInputs...)}
	mSourceBurn = &Metric{Path: "sources[].fuel_rate", Kind: units.KindFuelRate, Better: Lower, Label: "fuel the generator burns",
		Formula: "straight line through half and full load, at the running load of the mode", Source: "Willans line",
		Inputs: []Path{"sources[].full_load_rate", "sources[].half_load_rate", "sources[].running", "loads[].running"}}
	mHeaterBurn = &Metric{Path: "heaters[].fuel_rate", Kind: units.KindFuelRate, Better: Lower, Label: "fuel the burner burns",
		Formula: "firing rate needed × trigger share", Source: "energy balance of the heater",
		Inputs: append([]Path{"heaters[].efficiency", "heaters[].heating_value", "duty.trigger_share"}, heatInputs...)}
	mTankRate = &Metric{Path: "fuel_tanks[].rate", Kind: units.KindFuelRate, Better: Lower, Label: "fuel drawn from the tank",
		Formula: "Σ what its consumers burn", Source: "addition", Inputs: burnInputs}
	mTankHours = &Metric{Path: "fuel_tanks[].hours", Kind: units.KindDuration, Better: Higher, Label: "hours from full to dry in this mode",
		Formula: "usable fuel / rate", Source: "division", Inputs: append(append([]Path{}, usableInputs...), burnInputs...)}
	mTankDay = &Metric{Path: "fuel_tanks[].day", Kind: units.KindVolume, Better: Lower, Label: "fuel burned in the day",
		Formula: "Σ rate × hours of each mode", Source: "addition", Inputs: append([]Path{"modes[].time"}, burnInputs...)}
	mTankUsable = &Metric{Path: "fuel_tanks[].usable_fuel", Kind: units.KindVolume, Better: Higher, Label: "fuel that reaches the pick-up",
		Formula: "volume × usable share; with its inside given, what the pick-up reaches on the site's steepest side slope", Source: "90 to 95 % of the plate (common practice); geometry of a box", Inputs: usableInputs}
	mCarbon = &Metric{Path: "fuel_tanks[].carbon_dioxide", Kind: units.KindMass, Better: Lower, Label: "carbon dioxide of the day, fossil",
		Formula: "fuel burned in the day × fossil emission factor", Source: "40 CFR 98 Subpart C", Inputs: append([]Path{"modes[].time"}, burnInputs...)}
	mCloud = &Metric{Path: "fuel_tanks[].cloud_margin", Kind: units.KindTemperatureDelta, Better: Higher, Label: "air above the cloud point",
		Formula: "air of the hour − cloud point", Source: "typical cold limits of the fuel", Inputs: []Path{"site.conditions[].air"}}
	mGel = &Metric{Path: "fuel_tanks[].gel_margin", Kind: units.KindTemperatureDelta, Better: Higher, Label: "air above the point where the fuel no longer flows",
		Formula: "air of the hour − gel point, or boiling point of a liquefied gas", Source: "typical cold limits of the fuel", Inputs: []Path{"site.conditions[].air"}}

	mEngineJ1349 = &Metric{Path: "engines[].available_j1349", Kind: units.KindPower, Better: Higher, Label: "power by SAE J1349",
		Formula: "gross × continuous share / (1.18 (99 kPa / dry pressure) √(T / 298 K) − 0.18)", Source: "SAE J1349", Inputs: engineSiteInputs}
	mEngineISO = &Metric{Path: "engines[].available_iso3046", Kind: units.KindPower, Better: Higher, Label: "power by ISO 3046-1",
		Formula: "gross × continuous share × (k − 0.7 (1 − k)(1/η − 1))", Source: "ISO 3046-1", Inputs: engineSiteInputs}
	mEngineThumb = &Metric{Path: "engines[].available_by_rule", Kind: units.KindPower, Label: "power by rule of thumb", Rule: true,
		Formula: "gross × continuous share × (1 − 3.5 % per 1,000 ft)(1 − 1 % per 10 °F above 77 °F)", Source: "common practice", Inputs: engineSiteInputs}
	mLargest = &Metric{Path: "pumps[].largest_pressure", Kind: units.KindPressure, Better: Higher, Label: "largest pressure the engine carries",
		Formula: "pressure × (available − all else) / pump power, every gun closed", Source: "pump power goes with pressure",
		Inputs: append([]Path{"pumps[].efficiency", "pumps[].belt_efficiency", "loads[].running"}, engineSiteInputs...)}
	mLoadedSpeed = &Metric{Path: "engines[].loaded_speed", Kind: units.KindRotationalSpeed, Better: Higher, Label: "speed the engine settles at",
		Formula: "governor line, or full throttle where the demand is above it", Source: "power curve and governor",
		Inputs: append([]Path{"engines[].no_load_speed", "engines[].droop", "engines[].curve"}, engineSiteInputs...)}
	mRatedSpeed = &Metric{Path: "engines[].rated_speed", Kind: units.KindRotationalSpeed, Label: "speed at which the governor is wide open",
		Formula: "no-load speed / (1 + droop)", Source: "definition of droop", Inputs: []Path{"engines[].no_load_speed", "engines[].droop"}}

	usableInputs = []Path{"fuel_tanks[].volume", "fuel_tanks[].usable_share", "fuel_tanks[].inside_length", "fuel_tanks[].inside_width", "fuel_tanks[].inside_height",
		"fuel_tanks[].pick_up_height", "site.side_slope"}
	engineSiteInputs = []Path{"engines[].gross_power", "engines[].continuous_share", "site.elevation", "site.conditions[].air"}
	burnInputs       = append([]Path{"engines[].full_load_rate", "engines[].half_load_rate", "engines[].gross_power", "sources[].full_load_rate", "sources[].half_load_rate", "sources[].running",
		"heaters[].efficiency", "heaters[].heating_value", "duty.trigger_share", "loads[].running"}, hydraulicInputs...)
)

// fuelMetrics lists the metrics of consumption, run time and engines at the
// site, in the order of reports.
var fuelMetrics = []*Metric{mEngineJ1349, mEngineISO, mEngineThumb, mLargest, mLoadedSpeed, mRatedSpeed, mEngineBurn, mSourceBurn, mHeaterBurn,
	mTankRate, mTankHours, mTankUsable, mTankDay, mCarbon, mCloud, mGel}
