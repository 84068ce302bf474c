package rig

import "example.com/washrig/units"

// Metrics of rollover, parking, placement, tie-down and clearances. They are
// never changed.
var (
	mStability = &Metric{Path: "trailer.static_stability", Kind: units.KindRatio, Better: Higher, Label: "static stability factor",
		Formula: "track / (2 × height of the centre of mass)", Source: "U.S. National Highway Traffic Safety Administration, rollover resistance, 49 CFR part 575", Inputs: tipInputs}
	mTipOver = &Metric{Path: "trailer.tip_over", Kind: units.KindAcceleration, Better: Higher, Label: "sideways acceleration at which the inner wheels lift",
		Formula: "moments about the line from ball to outer wheel, with the liquid at rest on its inclined surface", Source: "quasi-static rollover of a rigid trailer; free surface by geometry", Inputs: tipInputs, us: "g", si: "g"}
	mSideSlope = &Metric{Path: "trailer.side_slope", Kind: units.KindAngle, Better: Higher, Label: "side slope on which it tips at rest",
		Formula: "arctan(tip-over threshold / g)", Source: "a slope inclines gravity to the deck as a bend does", Inputs: tipInputs}
	mTipWorst = &Metric{Path: "trailer.tip_over_any_fill", Kind: units.KindAcceleration, Better: Higher, Label: "sideways acceleration at which the inner wheels lift in the worst fill, part-filled tanks included",
		Formula: "least threshold over all levels of all tanks, searched", Source: "search of every level; the worst is often a part fill", Inputs: tipInputs, us: "g", si: "g"}
	mSlopeWorst = &Metric{Path: "trailer.side_slope_any_fill", Kind: units.KindAngle, Better: Higher, Label: "side slope on which it tips in the worst fill",
		Formula: "arctan(least threshold / g)", Source: "a slope inclines gravity to the deck as a bend does", Inputs: tipInputs}
	mTipLevel = &Metric{Path: "tanks[].tip_over_level", Kind: units.KindRatio, us: "%", si: "%", Label: "level of the tank in the fill that tips first",
		Formula: "searched with the least threshold", Source: "search of every level", Inputs: tipInputs}
	mTipFuel = &Metric{Path: "fuel_tanks[].tip_over_level", Kind: units.KindRatio, us: "%", si: "%", Label: "level of the fuel tank in the fill that tips first",
		Formula: "full, or as it comes home", Source: "linear in the fuel", Inputs: tipInputs}

	mJack = &Metric{Path: "trailer.jack_load", Kind: units.KindMass, Label: "weight on the jack, unhitched",
		Formula: "Σ mass × (axle group − x) / (axle group − jack)", Source: "moments about the axle group, level ground", Inputs: massInputs}
	mTailSpare = &Metric{Path: "trailer.tail_spare", Kind: units.KindMass, Better: Higher, Label: "weight on the tail that lifts the jack, unhitched",
		Formula: "jack × (axle group − jack) / (tail − axle group)", Source: "moments about the axle group, level ground", Inputs: massInputs}

	mTankFore = &Metric{Path: "tanks[].foremost", Kind: units.KindPosition, Label: "furthest forward the tank may stand",
		Formula: "ratings and tongue share kept in every reachable fill, all else staying", Source: "linear in the place", Inputs: massInputs, us: "ft", si: "m"}
	mTankAft = &Metric{Path: "tanks[].aftmost", Kind: units.KindPosition, Label: "furthest aft the tank may stand",
		Formula: "ratings and tongue share kept in every reachable fill, all else staying", Source: "linear in the place", Inputs: massInputs, us: "ft", si: "m"}
	mSpacing = &Metric{Path: "trailer.tank_spacing", Kind: units.KindLength, Better: Lower, Label: "distance between the centres of the two tanks, fore and aft",
		Formula: "|x − x|", Source: "places of the tanks", Inputs: massInputs}
	mSpacingMost = &Metric{Path: "trailer.tank_spacing_most", Kind: units.KindLength, Label: "furthest apart that any layout of the rest could bear",
		Formula: "(15 % − 10 %) × (axle group − coupler) × (1 + dry weight / smaller tank of water)", Source: "moments about the axle group with both tanks full, both empty, either alone", Inputs: massInputs}
	mMostWater = &Metric{Path: "tow_vehicle.most_water", Kind: units.KindVolume, Better: Higher, Label: "most water for these plates, tanks scaled alike",
		Formula: "largest volume that keeps every rating and the tongue share in every reachable fill", Source: "linear in the volume", Inputs: massInputs}

	mHoseWater = &Metric{Path: "lines[].hose_water", Kind: units.KindVolume, Label: "water in the hose",
		Formula: "π/4 × bore² × length", Source: "geometry", Inputs: []Path{"lines[].hose.bore", "lines[].hose.length"}}
	mCoilWater = &Metric{Path: "heaters[].coil_water", Kind: units.KindVolume, Label: "water in the coil",
		Formula: "π/4 × bore² × length", Source: "geometry", Inputs: []Path{"heaters[].coil_bore", "heaters[].coil_length"}}
	mLineWater = &Metric{Path: "trailer.line_water", Kind: units.KindMass, Label: "water in hoses and coils",
		Formula: "Σ volume × density", Source: "geometry", Inputs: []Path{"lines[].hose.bore", "lines[].hose.length", "heaters[].coil_bore", "heaters[].coil_length"}}
	mBurned = &Metric{Path: "fuel_tanks[].burned", Kind: units.KindMass, Label: "fuel burned between full and home",
		Formula: "(volume − home) × density", Source: "what the tank is said to come home with", Inputs: []Path{"fuel_tanks[].volume", "fuel_tanks[].home", "fuel_tanks[].density"}}
	mBurnShift = &Metric{Path: "fuel_tanks[].tongue_shift", Kind: units.KindMass, Label: "what burning it takes off the tongue",
		Formula: "burned × (axle group − x) / (axle group − coupler)", Source: "moments about the axle group", Inputs: []Path{"fuel_tanks[].volume", "fuel_tanks[].home", "fuel_tanks[].density", "fuel_tanks[].x", "trailer.axle_group", "trailer.coupler"}}

	mPullForward = &Metric{Path: "tie_downs[].forward", Kind: units.KindForce, Better: Lower, Label: "load of one anchor, braking",
		Formula: tieFormula, Source: tieSource, Inputs: tieInputs}
	mPullRearward = &Metric{Path: "tie_downs[].rearward", Kind: units.KindForce, Better: Lower, Label: "load of one anchor, pulling away or struck from behind",
		Formula: tieFormula, Source: tieSource, Inputs: tieInputs}
	mPullSideways = &Metric{Path: "tie_downs[].sideways", Kind: units.KindForce, Better: Lower, Label: "load of one anchor, in a bend",
		Formula: tieFormula, Source: tieSource, Inputs: tieInputs}
	mPullUpward = &Metric{Path: "tie_downs[].upward", Kind: units.KindForce, Better: Lower, Label: "load of one anchor, holding the load down",
		Formula: tieFormula, Source: tieSource, Inputs: tieInputs}
	mPull = &Metric{Path: "tie_downs[].pull", Kind: units.KindForce, Better: Lower, Label: "greatest load of one anchor at working accelerations",
		Formula: "greatest of forward (0.435 g), rearward (0.5 g), sideways (0.25 g) and upward (0.2 g), tipping included", Source: tieSource, Inputs: tieInputs}
	mPullBreaking = &Metric{Path: "tie_downs[].pull_breaking", Kind: units.KindForce, Better: Lower, Label: "greatest load of one anchor at the accelerations of a crash stop",
		Formula: "greatest of forward (0.8 g), rearward (0.5 g), sideways (0.5 g) and upward (0.2 g), tipping included", Source: "49 CFR 393.102(a)(1) and (b); Newton's second law", Inputs: tieInputs}

	mClearance = &Metric{Path: "clearances[].distance", Kind: units.KindLength, Better: Higher, Label: "distance between the two",
		Formula: "between nearest points; negative by how far they overlap", Source: "geometry", Inputs: layoutInputs, us: "in", si: "mm"}
	mClearanceNeed = &Metric{Path: "clearances[].needed", Kind: units.KindLength, Label: "distance needed",
		Formula: "clearance of the zone; none between boxes", Source: "the specification", Inputs: layoutInputs, us: "in", si: "mm"}
	mFuelHeat = &Metric{Path: "fuel_clearances[].distance", Kind: units.KindLength, Better: Higher, Label: "distance of fuel from heat",
		Formula: "between nearest points; negative by how far they overlap", Source: "geometry", Inputs: layoutInputs, us: "in", si: "mm"}
	mFuelHeatNeed = &Metric{Path: "fuel_clearances[].needed", Kind: units.KindLength, Label: "distance needed",
		Formula: "clearance of the zone", Source: "the specification", Inputs: layoutInputs, us: "in", si: "mm"}
	mOverhang = &Metric{Path: "overhangs[].beyond", Kind: units.KindLength, Better: Lower, Label: "how far it reaches beyond the deck",
		Formula: "on the side where that is most", Source: "geometry", Inputs: layoutInputs, us: "in", si: "mm"}

	mUnweighedMost = &Metric{Path: "unweighed[].most", Kind: units.KindMass, Better: Higher, Label: "heaviest it may be before a verdict becomes a stop",
		Formula: "mass at which the first rating, or 5 % on the tongue, is just met", Source: "limits are linear in the mass", Inputs: massInputs}
	mUnweighedLeast = &Metric{Path: "unweighed[].least", Kind: units.KindMass, Better: Lower, Label: "lightest it may be before a verdict becomes a stop",
		Formula: "mass at which the last rating, or 5 % on the tongue, is just met", Source: "limits are linear in the mass", Inputs: massInputs}

	tipInputs    = massInputs
	layoutInputs = append([]Path{"zones", "engines[].box", "pumps[].box", "heaters[].box", "lines[].box", "sources[].box", "loads[].box", "cords[].box", "batteries[].box"}, massInputs...)
	tieInputs    = append([]Path{"tie_downs"}, massInputs...)
)

const (
	tieFormula = "mass, tanks full, × acceleration less friction, shared by the anchors and along their angle"
	tieSource  = "49 CFR 393.102(a)(2) and (b); Newton's second law"
)

// stabilityMetrics lists the metrics of rollover, parking, placement, tie-down
// and clearances, in the order of reports.
var stabilityMetrics = []*Metric{mStability, mTipOver, mSideSlope, mTipWorst, mSlopeWorst, mTipLevel, mTipFuel, mJack, mTailSpare,
	mTankFore, mTankAft, mSpacing, mSpacingMost, mMostWater, mHoseWater, mCoilWater, mLineWater, mBurned, mBurnShift,
	mPullForward, mPullRearward, mPullSideways, mPullUpward, mPull, mPullBreaking,
	mClearance, mClearanceNeed, mFuelHeat, mFuelHeatNeed, mOverhang, mUnweighedMost, mUnweighedLeast}
