package rig

import "example.com/washrig/units"

// Metrics of heaters. They are never changed.
var (
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
	mBurnerShare = &Metric{Path: "heaters[].burner_share", Kind: units.KindRatio, us: "%", si: "%", Label: "share of the time the burner must fire",
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

	heatInputs = []Path{"pumps[].rated_flow", "heaters[].thermostat", "site.water"}
)

// heatMetrics lists them in the order of reports.
var heatMetrics = []*Metric{mCoilRelief, mOutlet, mHeat, mHeatRule, mFiring, mClean, mBurnerShare, mThermostat, mHighLimit, mBoiling, mBoilingMargin}
