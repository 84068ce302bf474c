package rig

import "example.com/washrig/units"

// coupledChecks judge engine, generator, burner and water where they are solved
// together.
func coupledChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mCoupledDemand, root: "engine", severity: Stop, against: mEngineHas, by: "plate derating at the site", also: []*Metric{mEngineHas},
			doc: plate(CodeDoc{Code: "engine-overload-coupled", Bad: Higher, Title: "coupled, the engine is asked for more than it has at the site",
				Meaning: "At the speed, frequency and voltage that engine, pump and belt generators settle at, they take more than the engine gives for hours.", Defers: "engine maker"})},
		{metric: mCoupledFrequency, root: "frequency", severity: Fix, limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
			for i := range v.model.spec.Sources {
				if g := &v.model.spec.Sources[i]; g.ID == r.Part {
					return (0.95 * g.Frequency).Quantity(), "NEMA MG 1, 12.44: 5 % of the rated frequency (from memory)", "", g.Frequency != 0
				}
			}
			return units.Quantity{}, "", "", false
		},
			doc: CodeDoc{Code: "frequency-coupled", Bad: Lower, Title: "the engine's load pulls the frequency down",
				Meaning: "Pump and generator share one engine; at the speed it settles at, the frequency is lower than motors are rated for.", Defers: "generator maker; motor maker"}},
		{metric: mCoupledClean, root: "firing", severity: Fix, against: mFiring, by: "firing rate needed", also: []*Metric{mFiring},
			doc: CodeDoc{Code: "clean-firing-coupled", Bad: Lower, Title: "coupled, the fan moves too little air for the firing rate needed",
				Meaning: "The load of the pump slows the engine, the engine the generator, the generator the burner's fan: at the air it still moves, the firing rate that is needed makes soot and carbon monoxide.", Defers: "burner maker; stack test"}},
		{metric: mAirNumber, root: "firing",
			doc: CodeDoc{Code: "fire-starved", Bad: Lower, Title: "the fire gets too little air",
				Meaning: "The fuel that the burner fires finds too little air at the density of the hour and the speed of the fan: it smokes, and below the air that the fuel needs it makes carbon monoxide.",
				Limit:   Limit{Fix: units.Ratio(1.10).Quantity(), Stop: units.Ratio(1).Quantity(), Source: "oil smokes below about a tenth of excess air, common practice; below none the fuel cannot burn"}, Defers: "burner maker; stack test"}},
		{metric: mCoupledOutlet, root: "gun heat", of: ofHeater, severity: Fix,
			rating: fromDuty("duty.gun_temperature", "wanted at the gun"),
			doc: CodeDoc{Code: "outlet-cold-coupled", Bad: Lower, Title: "coupled, the fire does not heat the flow as wanted",
				Meaning: "With the air that the fan moves and the flow that the engine drives, the water leaves the heater colder than it is wanted at the gun.", Defers: "burner maker"}},
	}
}
