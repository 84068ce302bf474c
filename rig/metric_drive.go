package rig

import "example.com/washrig/units"

// Metrics of engines. They are never changed.
var (
	mEngineDemand = &Metric{Path: "engines[].demand", Kind: units.KindPower, Better: Lower, Label: "power asked of the engine",
		Formula: "Σ pump shaft powers + Σ belt generator loads / (generator × belt efficiency)", Source: "addition on one shaft",
		Inputs: append([]Path{"pumps[].efficiency", "pumps[].belt_efficiency", "loads[].running", "sources[].efficiency", "sources[].belt_efficiency"}, hydraulicInputs...)}
	mEngineHas = &Metric{Path: "engines[].available", Kind: units.KindPower, Better: Higher, Label: "power the engine has at the site",
		Formula: "gross × continuous share × (1 − loss per 1,000 ft) × (1 − loss per 10 °F above 77 °F)", Source: "plate derating (common practice)",
		Inputs: []Path{"engines[].gross_power", "engines[].continuous_share", "engines[].loss_per_1000_ft", "engines[].loss_per_10_f", "site.elevation", "site.conditions[].air"}}
)

// driveMetrics lists them in the order of reports.
var driveMetrics = []*Metric{mEngineDemand, mEngineHas}
