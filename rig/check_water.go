package rig

import "example.com/washrig/units"

// waterChecks judge whether the water of the day is there.
func waterChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mWaterMakeUp, root: "water", severity: Note, limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
			for i := range v.model.spec.Supplies {
				if v.model.spec.Supplies[i].Tank == r.Part {
					return units.Quantity{}, "", "", false
				}
			}
			return never(units.KindVolume), "no supply is named for the tank", "", true
		},
			doc: CodeDoc{Code: "water-short", Bad: Higher, Title: "the day sprays more water than the tank holds",
				Meaning: "The modes of the day, each for its hours, draw more than a full tank, and no supply is named that refills it: washing ends early, or a cart has to come.", Defers: "whoever plans the day"}},
	}
}
