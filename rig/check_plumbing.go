package rig

import "example.com/washrig/units"

// lineRating is the least pressure rating of one line, its trunk included.
func lineRating(v *View, part string) least {
	s := v.model.spec
	var l least
	for i := range s.Lines {
		n := &s.Lines[i]
		if n.ID != part {
			continue
		}
		l.take(n.Hose.MaximumPressure.Quantity(), n.Hose.MaximumPressure != 0, words{"lines[", n.ID, "].hose.maximum_pressure"}, words{"rating of the hose of line ", n.ID})
		l.elements(n.Elements, " in line ", n.ID, pressureOf)
	}
	return l.done(v)
}

// plumbingChecks judge hoses, guns, valves and drives beyond the line block.
func plumbingChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mSurgeLow, root: "surge", of: ofLine, severity: Stop, rating: lineRating,
			doc: plate(CodeDoc{Code: "surge-over-rating", Bad: Higher, Title: "the trigger's surge passes the rating of the line",
				Meaning: "When the trigger closes, the pressure at the gun peaks above the rating of hose or gun even with the softest hose of the band, or with the wave speed given. A relief valve does not see it.", Defers: "hose and gun makers"})},
		{metric: mSurgeHigh, root: "surge", of: ofLine, severity: CannotJudge, rating: lineRating,
			soften: func(v *View, r Reading, s Severity) Severity {
				if s == Pass {
					return s
				}
				low, ok := v.value(mSurgeLow, r.Part, r.State)
				if !ok {
					return s
				}
				if most := lineRating(v, r.Part); low == r.Value || most.q.Given() && low.SI() > most.q.SI() {
					return Pass // the wave speed is given, or the softest hose is too much: surge-over-rating judges it
				}
				return s
			},
			doc: plate(CodeDoc{Code: "surge-in-band", Bad: Higher, Title: "the trigger's surge may pass the rating of the line",
				Meaning: "The rating lies inside the band of peaks that hoses of unknown wave speed make. A measured hose, a slower trigger or a softer hose settles it.", Defers: "hose and gun makers"})},
		{metric: mReaction, root: "reaction", of: ofLine,
			doc: CodeDoc{Code: "gun-reaction", Bad: Higher, Title: "the gun pushes harder than a hand should hold",
				Meaning: "The reaction of the jet is above what an operator holds without support of the body; on a ladder far less is too much.",
				Limit:   Limit{Fix: (150 * units.Newton).Quantity(), Source: "150 N without support of the body, general guidance, common practice"}, Defers: "employer's safety officer"}},
		{metric: mReliefGap, root: "pressure",
			doc: CodeDoc{Code: "relief-close", Bad: Lower, Title: "relief valve close above the unloader",
				Meaning: "The relief valve opens before the unloader has bypassed the whole flow, or a little after: it weeps, and is tightened by somebody.",
				Limit:   Limit{Fix: units.Ratio(0.05).Quantity(), Source: "a step of a few per cent, common practice"}, Defers: "part makers"}},
		{metric: mUnloaderGap, root: "pressure",
			doc: CodeDoc{Code: "unloader-close", Bad: Lower, Title: "unloader close above the working pressure",
				Meaning: "With every gun open the unloader is about to bypass: a little scale or a smaller tip sends flow and heat around.",
				Limit:   Limit{Note: units.Ratio(0.03).Quantity(), Source: "a few per cent, common practice"}, Defers: "part makers"}},
		{metric: mWorn, root: "nozzle", of: ofLine, severity: Note,
			rating: fromDuty("duty.nozzle_pressure_low", "wanted at the nozzle"),
			doc: CodeDoc{Code: "worn-too-low", Bad: Lower, Title: "tips must be replaced before they have lost a tenth",
				Meaning: "When every tip has lost a tenth of its pressure, the nozzle has less than the least wanted: replace earlier, or start with a smaller number.", Defers: "whoever orders the rig"}},
		{metric: mReelHolds, root: "reel", severity: Fix,
			rating: fromSpec("lines", "hose.length", "length of the hose", false),
			doc: CodeDoc{Code: "reel-small", Bad: Lower, Title: "the hose does not fit its reel",
				Meaning: "Wound in even layers the hose is longer than what the drum takes below its rim.", Defers: "reel maker"}},
		{metric: mPumpSpeed, root: "drive", severity: Fix,
			rating: fromSpec("pumps", "speed", "speed of the pump's plate", false),
			doc: plate(CodeDoc{Code: "pump-fast", Bad: Higher, Title: "the pulleys turn the pump faster than its plate",
				Meaning: "At the engine's governed speed the belt drives the pump above its rated speed: valves and suction suffer.", Defers: "pump maker"})},
		{metric: mGeometryGap, root: "drive",
			doc: CodeDoc{Code: "geometry-differs", Bad: Higher, Title: "plate flow and geometry of the pump disagree",
				Meaning: "Plungers, stroke and speed make another flow than the one the rig is computed with; one of them is wrong.",
				Limit:   Limit{Note: units.Ratio(0.05).Quantity(), Source: "a twentieth, our own threshold"}, Defers: "pump maker"}},
	}
}
