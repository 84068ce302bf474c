package rig

import "example.com/washrig/units"

// Metrics of weights and tanks. They are never changed.
var (
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

	massInputs = []Path{"trailer", "tanks", "fuel_tanks", "items", "pumps[].mass", "engines[].mass", "heaters[].mass", "sources[].mass", "lines[].mass", "loads[].mass", "cords[].mass", "batteries[].mass"}
)

// staticsMetrics lists them in the order of reports.
var staticsMetrics = []*Metric{mTotal, mTongue, mTongueShare, mAxle, mCombination, mMixed}
