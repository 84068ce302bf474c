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
		{metric: mTongue, root: "tongue",
			doc: CodeDoc{Code: "tongue-negative", Bad: Lower, Title: "the tongue lifts the vehicle",
				Meaning: "More weight behind the axles than ahead of them: the trailer pulls the hitch upward, unloads the rear of the vehicle, and falls on its tail when it is unhitched.",
				Limit:   Limit{Stop: units.Mass(0).Quantity(), Source: "moments about the axle group"}, Defers: "trailer maker's plate; weigh before use"}},
		{metric: mTongue, root: "tongue", severity: Stop, rating: tongueRating,
			doc: plate(CodeDoc{Code: "tongue-over-rating", Bad: Higher, Title: "tongue heavier than the lowest of its ratings",
				Meaning: "In some fill state the tongue is heavier than the lowest of the ratings of coupler, hitch, receiver, payload and vehicle that are given. The source names the one that binds.", Defers: "plates of trailer and vehicle"})},
		{metric: mTotal, root: "weight", severity: Stop, rating: totalRating,
			doc: plate(CodeDoc{Code: "trailer-over-rating", Bad: Higher, Title: "trailer heavier than its rating",
				Meaning: "In some fill state the trailer is heavier than its gross rating, or than vehicle, coupler, receiver or ball may pull. The source names the one that binds.", Defers: "plates of trailer and vehicle"})},
		{metric: mAxle, root: "weight", severity: Stop, rating: fromSpecPlain("trailer.axle_rating", "rating of one axle"),
			doc: plate(CodeDoc{Code: "axle-over-rating", Bad: Higher, Title: "axles heavier than their rating",
				Meaning: "In some fill state each axle carries more than its gross rating.", Defers: "plate of the trailer"})},
		{metric: mTyre, root: "sides", severity: Stop, rating: fromSpec("trailer", "tyre_rating", "rating of one tyre", true),
			doc: plate(CodeDoc{Code: "tyre-over-rating", Bad: Higher, Title: "a tyre heavier loaded than its rating",
				Meaning: "In some fill state a tyre of the heavier side carries more than its rating at the stated pressure.", Defers: "sidewall of the tyre; plate of the trailer"})},
		{metric: mImbalance, root: "sides",
			doc: CodeDoc{Code: "lateral-imbalance", Bad: Higher, Title: "one side of the trailer heavier than the other",
				Meaning: "A trailer that hangs to one side overloads tyres and hubs of that side and tips over it sooner.",
				Limit:   Limit{Fix: units.Ratio(0.05).Quantity(), Source: "at most 5 % between the sides, common practice"}, Defers: "trailer maker; weigh each side"}},
		{metric: mCombination, root: "weight", severity: Stop, rating: fromSpecPlain("tow_vehicle.combination_rating", "gross combination rating"),
			doc: plate(CodeDoc{Code: "combination-over-rating", Bad: Higher, Title: "vehicle and trailer heavier than their combination rating",
				Meaning: "In some fill state vehicle and trailer together pass the gross combination rating.", Defers: "plate of the vehicle"})},
		{metric: mVehicleLoad, root: "weight", severity: Stop, rating: vehicleRating,
			doc: plate(CodeDoc{Code: "vehicle-over-rating", Bad: Higher, Title: "vehicle carries more than its rating",
				Meaning: "There is no trailer: in some fill state the load is heavier than what the payload or the gross rating of the vehicle leaves. The source names the one that binds. Front and rear axle are not told apart.", Defers: "door plate of the vehicle; weigh each axle"})},
		{metric: mMixed, root: "quality", severity: Fix,
			rating: func(v *View, part string) least {
				for i := range v.model.spec.Tanks {
					if t := &v.model.spec.Tanks[i]; t.ID == part && t.Contents == "clean" {
						return least{q: never(units.KindVolume), source: "clean water stays apart"}
					}
				}
				return least{}
			},
			doc: CodeDoc{Code: "clean-water-mixed", Bad: Higher, Title: "other water reaches the clean tank through an open crossover",
				Meaning: "An open crossover joins the clean tank to one that holds recovered, treated or chemical water. Flush and disinfect before people breathe the mist.", Defers: "health authority; water purveyor"}},
	}
}

// Plates of trailer and vehicle.
var (
	plateTrailerCouplerRating            = fieldOf("trailer.coupler_rating")
	plateTowVehicleHitchRating           = fieldOf("tow_vehicle.hitch_rating")
	plateTowVehiclePayloadRating         = fieldOf("tow_vehicle.payload_rating")
	plateTowVehicleReceiverRating        = fieldOf("tow_vehicle.receiver_rating")
	plateTrailerGrossRating              = fieldOf("trailer.gross_rating")
	plateTrailerCouplerTrailerRating     = fieldOf("trailer.coupler_trailer_rating")
	plateTowVehicleTrailerRating         = fieldOf("tow_vehicle.trailer_rating")
	plateTowVehicleReceiverTrailerRating = fieldOf("tow_vehicle.receiver_trailer_rating")
	plateTowVehicleBallRating            = fieldOf("tow_vehicle.ball_rating")
)

// tongueRating is the lowest of coupler, hitch and receiver, and of what payload and
// gross rating of the vehicle leave, of which one is needed: the lowest wins, by name.
func tongueRating(v *View, _ string) least {
	var l least
	l.rating(v, &plateTrailerCouplerRating, "rating of the coupler", true)
	if t := v.model.spec.TowVehicle; t != nil {
		l.rating(v, &plateTowVehicleHitchRating, "rating of the hitch", true)
		l.rating(v, &plateTowVehicleReceiverRating, "rating of the receiver", true)
		if t.PayloadRating == 0 && t.GrossRating == 0 {
			l.rating(v, &plateTowVehiclePayloadRating, "payload rating of the vehicle, less crew and gear", true)
		}
		l.vehicle(t)
	}
	return l.done(v)
}

// vehicleRating is what payload and gross rating of the vehicle leave for the load
// in it. One of the two is needed.
func vehicleRating(v *View, _ string) least {
	var l least
	t := v.model.spec.TowVehicle
	if t == nil {
		return l.done(v)
	}
	if t.PayloadRating == 0 && t.GrossRating == 0 {
		l.rating(v, &plateTowVehiclePayloadRating, "payload rating of the vehicle, less crew and gear", true)
	}
	l.vehicle(t)
	return l.done(v)
}

// vehicle takes what payload and gross rating of the vehicle leave.
func (l *least) vehicle(t *TowVehicle) {
	l.ratingLess(t.PayloadRating, t.Gear, "tow_vehicle.gear", "payload rating of the vehicle, less crew and gear")
	l.ratingLess(t.GrossRating, t.CurbAndCrew, "tow_vehicle.curb_and_crew", "gross rating of the vehicle, less vehicle and crew")
}

// totalRating is the lowest of the trailer's gross rating and what vehicle, coupler,
// receiver and ball may pull.
func totalRating(v *View, _ string) least {
	var l least
	l.rating(v, &plateTrailerGrossRating, "gross rating of the trailer", true)
	l.rating(v, &plateTrailerCouplerTrailerRating, "heaviest trailer of the coupler", true)
	if v.model.spec.TowVehicle != nil {
		l.rating(v, &plateTowVehicleTrailerRating, "heaviest trailer of the vehicle", true)
		l.rating(v, &plateTowVehicleReceiverTrailerRating, "heaviest trailer of the receiver", true)
		l.rating(v, &plateTowVehicleBallRating, "heaviest trailer of the ball", true)
	}
	return l.done(v)
}

// rating takes a plate; one that is not needed is passed over where it is not
// given.
func (l *least) rating(v *View, f *field, source string, needed bool) {
	if q, ok := f.at(v.model, ""); ok || needed {
		l.take(q, ok, words{f.before}, words{source})
	}
}

// ratingLess takes a plate of which something else uses a part. Without that
// part the plate cannot be judged.
func (l *least) ratingLess(most, beside units.Mass, p Path, source string) {
	if most != 0 {
		l.take(max(most-beside, 0).Quantity(), beside != 0, words{string(p)}, words{source})
	}
}
