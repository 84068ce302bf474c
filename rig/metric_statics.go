package rig

import "example.com/washrig/units"

// Metrics of weights and tanks. They are never changed.
var (
	mTotal = &Metric{Path: "trailer.total", Kind: units.KindMass, Better: Lower, Label: "weight of the trailer",
		Formula: "Σ masses", Source: "addition", Inputs: massInputs}
	mTongue = &Metric{Path: "trailer.tongue", Kind: units.KindMass, Label: "weight on the tongue",
		Formula: "Σ mass × (axle group − x) / (axle group − coupler)", Source: "moments about the axle group", Inputs: massInputs}
	mTongueShare = &Metric{Path: "trailer.tongue_share", Kind: units.KindRatio, us: "%", si: "%", Label: "share of the weight on the tongue",
		Formula: "tongue / total", Source: "moments about the axle group", Inputs: massInputs}
	mGroup = &Metric{Path: "trailer.group", Kind: units.KindMass, Better: Lower, Label: "weight on the axle group",
		Formula: "total − tongue", Source: "addition", Inputs: massInputs}
	mAxle = &Metric{Path: "trailer.axle", Kind: units.KindMass, Better: Lower, Label: "weight on each axle",
		Formula: "(total − tongue) / axles; of independent axles the heaviest", Source: "equalised axles share alike; independent ones as springs under a stiff frame, textbooks of statics", Inputs: massInputs}
	mAxleEach = &Metric{Path: "axles[].load", Kind: units.KindMass, Better: Lower, Label: "weight on the axle, counted from the front",
		Formula: "spring rate × sinking of the axle under a stiff frame held at the ball", Source: "elastically supported rigid bar, textbooks of statics", Inputs: massInputs}
	mAxleLeft = &Metric{Path: "axles[].left", Kind: units.KindMass, Better: Lower, Label: "weight on the left end of the axle",
		Formula: "load / 2 + its share of Σ mass × y / track", Source: "elastically supported rigid bar, textbooks of statics", Inputs: massInputs}
	mAxleRight = &Metric{Path: "axles[].right", Kind: units.KindMass, Better: Lower, Label: "weight on the right end of the axle",
		Formula: "load / 2 − its share of Σ mass × y / track", Source: "elastically supported rigid bar, textbooks of statics", Inputs: massInputs}
	mNose = &Metric{Path: "trailer.nose", Kind: units.KindAngle, Label: "inclination of the frame, nose up",
		Formula: "of a stiff frame on independent axles, held at the ball", Source: "elastically supported rigid bar, textbooks of statics", Inputs: massInputs}
	mLeft = &Metric{Path: "trailer.left", Kind: units.KindMass, Better: Lower, Label: "weight on the left wheels",
		Formula: "(total − tongue) / 2 + Σ mass × y / track", Source: "moments about the centreline", Inputs: massInputs}
	mRight = &Metric{Path: "trailer.right", Kind: units.KindMass, Better: Lower, Label: "weight on the right wheels",
		Formula: "(total − tongue) / 2 − Σ mass × y / track", Source: "moments about the centreline", Inputs: massInputs}
	mImbalance = &Metric{Path: "trailer.imbalance", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "difference of the sides as a share of the axles",
		Formula: "|left − right| / (left + right)", Source: "moments about the centreline", Inputs: massInputs}
	mTyre = &Metric{Path: "trailer.tyre", Kind: units.KindMass, Better: Lower, Label: "weight on the heaviest tyre",
		Formula: "heavier side / tyres of that side; of independent axles the heaviest end", Source: "tyres of one side share alike", Inputs: massInputs}
	mCentreAft = &Metric{Path: "trailer.centre_aft", Kind: units.KindPosition, Label: "centre of mass, aft of the coupler",
		Formula: "Σ mass × (x − coupler) / total", Source: "moments about the coupler", Inputs: massInputs, us: "ft", si: "m"}
	mCentreLeft = &Metric{Path: "trailer.centre_left", Kind: units.KindPosition, Label: "centre of mass, left of the centreline",
		Formula: "Σ mass × y / total", Source: "moments about the centreline", Inputs: massInputs, us: "in", si: "mm"}
	mCentreHeight = &Metric{Path: "trailer.centre_height", Kind: units.KindPosition, Label: "centre of mass, above the ground",
		Formula: "Σ mass × z / total, liquid at its level where the form of the tank is given", Source: "moments about the ground", Inputs: tipInputs, us: "ft", si: "m"}
	mCombination = &Metric{Path: "tow_vehicle.combination", Kind: units.KindMass, Better: Lower, Label: "weight of vehicle and trailer",
		Formula: "vehicle with crew + trailer", Source: "addition", Inputs: append([]Path{"tow_vehicle.curb_and_crew"}, massInputs...)}
	mVehicleLoad = &Metric{Path: "tow_vehicle.load", Kind: units.KindMass, Better: Lower, Label: "weight that the vehicle carries without a trailer",
		Formula: "Σ masses, what the tanks hold, and water in hoses and coils", Source: "addition", Inputs: append([]Path{"tow_vehicle"}, massInputs...)}
	mMixed = &Metric{Path: "tanks[].mixed_water", Kind: units.KindVolume, Better: Lower, Label: "water mixed with that of a tank of other contents",
		Formula: "what the tank holds while a crossover to other contents is open", Source: "water quality travels through open valves", Inputs: nil}

	massInputs = append([]Path{"trailer", "tanks", "fuel_tanks", "items", "fills"}, places("engines", "pumps", "heaters", "lines", "sources", "loads", "cords", "batteries")...)
)

// staticsMetrics lists them in the order of reports.
var staticsMetrics = []*Metric{mTotal, mTongue, mTongueShare, mGroup, mAxle, mAxleEach, mAxleLeft, mAxleRight, mNose, mCombination, mVehicleLoad, mLeft, mRight, mImbalance, mTyre, mCentreAft, mCentreLeft, mCentreHeight, mMixed}

// places lists the masses and places of the components of some lists.
func places(lists ...string) []Path {
	var out []Path
	for _, l := range lists {
		for _, f := range [...]string{"mass", "x", "y", "z"} {
			out = append(out, Path(l+"[]."+f))
		}
	}
	return out
}
