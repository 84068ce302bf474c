package rig

import "example.com/washrig/units"

// noiseChecks judge what the operator hears.
func noiseChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mSoundLevel, root: "noise",
			doc: CodeDoc{Code: "noise-level", Bad: Higher, Title: "loud enough at the operator to need hearing protection",
				Meaning: "Engines, motors and the jet together are above the level from which hearing suffers over a working life. Levels of sheets are for open ground and new machines; walls and a hollow make them louder. Measure at the ear.",
				Limit:   Limit{Note: units.Ratio(actionLevel).Quantity(), Source: "85 dB(A), 29 CFR 1910.95(c) and NIOSH publication 98-126"}, Defers: "employer's safety officer"}},
		{metric: mNoiseDose, root: "noise",
			doc: CodeDoc{Code: "noise-dose", Bad: Higher, Title: "the day's noise dose asks for hearing conservation",
				Meaning: "Over the modes of the day, each for its hours and nothing worn, the dose passes half of the permissible one, from where a hearing conservation programme is due, or the whole.",
				Limit:   Limit{Note: units.Ratio(0.5).Quantity(), Fix: units.Ratio(1).Quantity(), Source: "29 CFR 1910.95(c) half a dose, (b) a whole one"}, Defers: "employer's safety officer"}},
		{metric: mNoiseStrict, root: "noise",
			doc: CodeDoc{Code: "noise-criterion", Bad: Higher, Title: "the day's noise dose passes the health criterion",
				Meaning: "By the criterion of 85 dB(A) over eight hours and 3 dB for each halving of the time, which is stricter than the rule of law, the day is more than a whole dose.",
				Limit:   Limit{Note: units.Ratio(1).Quantity(), Source: "NIOSH publication 98-126, recommended exposure limit"}, Defers: "employer's safety officer"}},
	}
}
