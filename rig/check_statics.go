package rig

import "example.com/washrig/units"

// staticsChecks judge weights, and what the fill states mix.
func staticsChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mTongueShare, root: "tongue",
			doc: CodeDoc{Code: "tongue-share-low", Bad: Lower, Title: "too little weight on the tongue",
				Meaning: "A trailer with a light tongue sways. Below the lower threshold it must not be towed.",
				Limit:   Limit{Fix: units.Ratio(0.10).Quantity(), Stop: units.Ratio(0.05).Quantity(), Source: "10 to 15 % of the loaded trailer, common practice"}, Defers: "trailer maker's plate; weigh before use"}},
		{metric: mTongueShare, root: "tongue",
			doc: CodeDoc{Code: "tongue-share-high", Bad: Higher, Title: "too much of the weight on the tongue",
				Meaning: "A heavy tongue unloads the tow vehicle's steering axle.",
				Limit:   Limit{Fix: units.Ratio(0.15).Quantity(), Source: "10 to 15 % of the loaded trailer, common practice"}, Defers: "trailer maker's plate; weigh before use"}},
		{metric: mTongue, root: "tongue", severity: Stop, limit: tongueRating,
			doc: plate(CodeDoc{Code: "tongue-over-rating", Bad: Higher, Title: "tongue heavier than coupler or hitch may carry",
				Meaning: "In some fill state the tongue is heavier than the lower of the ratings of coupler and hitch.", Defers: "plates of trailer and vehicle"})},
		{metric: mTotal, root: "weight", severity: Stop, limit: totalRating,
			doc: plate(CodeDoc{Code: "trailer-over-rating", Bad: Higher, Title: "trailer heavier than its rating",
				Meaning: "In some fill state the trailer is heavier than its gross rating, or than the vehicle may pull.", Defers: "plates of trailer and vehicle"})},
		{metric: mAxle, root: "weight", severity: Stop, limit: fromSpecPlain("trailer.axle_rating", "rating of one axle"),
			doc: plate(CodeDoc{Code: "axle-over-rating", Bad: Higher, Title: "axles heavier than their rating",
				Meaning: "In some fill state each axle carries more than its gross rating.", Defers: "plate of the trailer"})},
		{metric: mCombination, root: "weight", severity: Stop, limit: fromSpecPlain("tow_vehicle.combination_rating", "gross combination rating"),
			doc: plate(CodeDoc{Code: "combination-over-rating", Bad: Higher, Title: "vehicle and trailer heavier than their combination rating",
				Meaning: "In some fill state vehicle and trailer together pass the gross combination rating.", Defers: "plate of the vehicle"})},
		{metric: mMixed, root: "quality", severity: Fix,
			limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
				for i := range v.model.spec.Tanks {
					if t := &v.model.spec.Tanks[i]; t.ID == r.Part && t.Contents == "clean" {
						return never(units.KindVolume), "clean water stays apart", "", true
					}
				}
				return units.Quantity{}, "", "", false
			},
			doc: CodeDoc{Code: "clean-water-mixed", Bad: Higher, Title: "other water reaches the clean tank through an open crossover",
				Meaning: "An open crossover joins the clean tank to one that holds recovered, treated or chemical water. Flush and disinfect before people breathe the mist.", Defers: "health authority; water purveyor"}},
	}
}

func tongueRating(v *View, r Reading) (units.Quantity, string, Path, bool) {
	var l least
	q, ok := v.model.Quantity("trailer.coupler_rating")
	l.take(q, ok, "trailer.coupler_rating", "rating of the coupler")
	if v.model.spec.TowVehicle != nil {
		q, ok = v.model.Quantity("tow_vehicle.hitch_rating")
		l.take(q, ok, "tow_vehicle.hitch_rating", "rating of the hitch")
	}
	return l.answer(r.Value)
}

func totalRating(v *View, r Reading) (units.Quantity, string, Path, bool) {
	var l least
	q, ok := v.model.Quantity("trailer.gross_rating")
	l.take(q, ok, "trailer.gross_rating", "gross rating of the trailer")
	if v.model.spec.TowVehicle != nil {
		q, ok = v.model.Quantity("tow_vehicle.trailer_rating")
		l.take(q, ok, "tow_vehicle.trailer_rating", "heaviest trailer of the vehicle")
	}
	return l.answer(r.Value)
}
