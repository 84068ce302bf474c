package rig

import "example.com/washrig/units"

// stabilityChecks judge rollover, parking, placement, tie-down and clearances.
func stabilityChecks() []*limitCheck {
	const g = units.StandardGravity
	return []*limitCheck{
		{metric: mTipWorst, root: "rollover",
			doc: CodeDoc{Code: "tip-over", Bad: Lower, Title: "tips over easily in a bend",
				Meaning: "In the worst fill, which is often a part fill, the inner wheels lift at a low sideways acceleration. A sway, a kerb or a swerve tips it sooner than the steady bend that is computed.",
				Limit: Limit{Fix: (0.5 * g).Quantity(), Stop: (0.35 * g).Quantity(),
					Source: "loaded heavy trucks, which tip first, stand near 0.35 g; half as much again for a light trailer (common practice)"}, Defers: "trailer maker; road authority"}},
		{metric: mSlopeWorst, root: "rollover", severity: Stop, rating: slopeLimit,
			soften: func(v *View, r Reading, s Severity) Severity {
				if s == Stop && r.Value.SI() >= float64(v.model.spec.Site.SideSlope) {
					return Fix
				}
				return s
			},
			doc: CodeDoc{Code: "side-slope", Bad: Lower, Title: "the site's slope is near the one it tips on",
				Meaning: "On the site's side slope the trailer stands with less than a factor of two to tipping in the worst fill. Steeper than the tipping slope is a stop.", Defers: "trailer maker; whoever stands on the site"}},
		{metric: mTailSpare, root: "parked",
			doc: CodeDoc{Code: "tail-drop", Bad: Lower, Title: "the tail drops when the trailer is unhitched",
				Meaning: "Unhitched and on its jack, the trailer turns about its axles when the named weight steps on the tail; below zero it does so by itself. Chock it, set rear stands, and dump or move water first.",
				Limit:   Limit{Fix: (300 * units.Pound).Quantity(), Stop: units.Mass(0).Quantity(), Source: "one person with a load on the tail, 300 lb (136 kg), common practice"}, Defers: "trailer maker; chocks and rear stands"}},
		{metric: mJack, root: "parked", severity: Stop, rating: fromSpec("trailer", "jack_rating", "rating of the jack", true),
			doc: plate(CodeDoc{Code: "jack-over-rating", Bad: Higher, Title: "heavier on the jack than its rating",
				Meaning: "In some fill state the unhitched trailer presses on its jack with more than the jack's rating.", Defers: "plate of the jack"})},
		{metric: mSpacing, root: "tongue", severity: Note, against: mSpacingMost, by: "no place of the rest keeps 10 to 15 % in all four corners", also: []*Metric{mSpacingMost},
			doc: CodeDoc{Code: "tanks-far-apart", Bad: Higher, Title: "two tanks too far apart for any layout",
				Meaning: "With the two tanks this far apart, nothing that is done with the rest of the deck keeps the tongue share between 10 and 15 % with both full, both empty and either alone. A longer drawbar, tanks abreast, levels joined, or dumping before the road does.", Defers: "whoever lays out the deck"}},
		{metric: mFuelHeat, root: "layout", severity: Stop, against: mFuelHeatNeed, by: "clearance of the zone", also: []*Metric{mFuelHeatNeed},
			doc: plate(CodeDoc{Code: "fuel-near-heat", Bad: Lower, Title: "fuel too near to hot parts",
				Meaning: "A fuel tank stands inside the clearance of hot parts or exhaust, or a burner or engine inside that of fuel.", Defers: "fire authority; fuel-tank standards; burner maker"})},
		{metric: mClearance, root: "layout", severity: Fix, against: mClearanceNeed, by: "clearance of the zone; boxes may touch", also: []*Metric{mClearanceNeed},
			doc: CodeDoc{Code: "clash", Bad: Lower, Title: "two things too near each other on the deck",
				Meaning: "Two boxes overlap, or a box stands inside the clearance of hot parts, exhaust, fuel, room to stand, a hose's pull or a swing.", Defers: "part makers; whoever lays out the deck"}},
		{metric: mOverhang, root: "layout", severity: Note, rating: nothing(units.KindLength, "edge of the deck"),
			doc: CodeDoc{Code: "beyond-deck", Bad: Higher, Title: "reaches beyond the edge of the deck",
				Meaning: "A box reaches over the edge of the deck. It may be meant so; it then counts for length and width on the road.", Defers: "road authority"}},
		{metric: mPull, root: "tie-down", severity: Stop, rating: fromSpec("tie_downs", "working_load", "working load limit, at the accelerations of 49 CFR 393.102(a)(2)", false),
			doc: plate(CodeDoc{Code: "tie-down-short", Bad: Higher, Title: "tie-downs too weak for what they hold",
				Meaning: "At the working accelerations of the cargo rule, with its tanks full, the load asks more of one anchor than its working load limit.", Defers: "cargo-securement rule; structural engineer for frames"})},
		{metric: mPullBreaking, root: "tie-down", severity: Stop, rating: fromSpec("tie_downs", "breaking_load", "breaking strength, at the accelerations of 49 CFR 393.102(a)(1)", false),
			doc: plate(CodeDoc{Code: "tie-down-breaks", Bad: Higher, Title: "tie-downs break in a crash stop",
				Meaning: "At the accelerations of a crash stop, with its tanks full, the load asks more of one anchor than its breaking strength.", Defers: "cargo-securement rule; structural engineer for frames"})},
		{metric: mUnweighedMost, root: "unweighed", severity: CannotJudge, rating: bandHigh, name: nameUnweighed,
			doc: plate(CodeDoc{Code: "unweighed-heavy", Bad: Lower, Title: "a part that nobody weighed may be too heavy",
				Meaning: "What the named part is likely to weigh reaches beyond the mass at which a rating is passed, or the tongue share falls below 5 % on a day's trip. Weigh it.", Defers: "a scale"})},
		{metric: mUnweighedLeast, root: "unweighed", severity: CannotJudge, rating: bandLow, name: nameUnweighed,
			doc: plate(CodeDoc{Code: "unweighed-light", Bad: Higher, Title: "a part that nobody weighed may be too light",
				Meaning: "What the named part is likely to weigh reaches below the mass that a rating or the tongue share asks for on a day's trip. Weigh it.", Defers: "a scale"})},
	}
}

// slopeLimit is the slope that leaves a factor of two to the site's.
func slopeLimit(v *View, _ string) least {
	slope := v.model.spec.Site.SideSlope
	if slope == 0 {
		return least{}
	}
	return least{q: (2 * slope).Quantity(), source: "twice the side slope of the site, common practice"}
}

func bandHigh(v *View, part string) least {
	p, _ := v.model.bandOf(part)
	return least{q: p.band.High, source: p.band.Source}
}

func bandLow(v *View, part string) least {
	p, _ := v.model.bandOf(part)
	return least{q: p.band.Low, source: p.band.Source}
}

// nameUnweighed says which mass is missing, what it is likely to be, and where
// the verdict turns.
func nameUnweighed(v *View, f *Finding) {
	if p, ok := v.model.bandOf(f.Reading.Part); ok {
		f.Leans, f.Typical, f.Turns = []Path{p.path}, p.band, f.Reading.Value
	}
}

// missingForStability reports inputs that guard a stop which other inputs
// imply: a rating of something whose load cannot be told.
func missingForStability(v *View, miss func(m *Metric, part string, p Path, source string)) {
	s := v.model.spec
	if t := s.Trailer; t != nil {
		if t.TyreRating != 0 {
			if p := v.model.blocks.stability.in.sides; p != "" {
				miss(mTyre, "", p, "the heavier side of the trailer")
			}
		}
		if t.JackRating != 0 && !t.Jack.Given() && t.Suspension != "independent" {
			miss(mJack, "", "trailer.jack", "the load on the jack")
		}
		in := &v.model.blocks.stability.in
		if in.untold != "" && len(in.weights.fills) > 0 {
			miss(mTipWorst, "", in.untold, "how high and where everything stands that weighs")
		}
		for _, p := range in.unplaced {
			miss(mUnweighedMost, string(p), p+".mass", "what it weighs, and where it stands")
		}
	}
	for i := range s.TieDowns {
		if d := &s.TieDowns[i]; d.WorkingLoad == 0 && d.BreakingLoad == 0 {
			miss(mPull, d.ID, Path("tie_downs["+d.ID+"].working_load"), "what one anchor may bear")
		}
	}
	hot := false
	for i := range s.Zones {
		hot = hot || s.Zones[i].Kind == "heat" || s.Zones[i].Kind == "exhaust"
	}
	if !hot {
		return
	}
	placed := &v.model.blocks.stability.in.layout
	for i := range s.FuelTanks {
		if k := &s.FuelTanks[i]; !placed.has("fuel_tanks[" + k.ID + "]") {
			miss(mFuelHeat, k.ID, Path("fuel_tanks["+k.ID+"].box.length"), "how near the fuel stands to hot parts")
		}
	}
}
