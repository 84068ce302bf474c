package rig

import "example.com/washrig/units"

// chemicalChecks judge injectors and chemical pumps.
func chemicalChecks() []*limitCheck {
	own := func(field, source string) func(*View, string) least {
		return fromSpec("chemicals", field, source, false)
	}
	return []*limitCheck{
		{metric: mInjectorWater, root: "chemical", severity: Fix, rating: own("injector.minimum_flow", "least flow of the injector's sheet"),
			doc: plate(CodeDoc{Code: "injector-starved", Bad: Lower, Title: "too little water for the injector",
				Meaning: "With its low-pressure tip on the gun the line passes less water than the injector needs, often because a partner's gun takes its share: nothing is drawn.", Defers: "maker of the injector"})},
		{metric: mInjectorBack, root: "chemical", severity: Fix, rating: own("injector.maximum_back", "greatest back-pressure of the injector's sheet"),
			doc: plate(CodeDoc{Code: "injector-drowned", Bad: Higher, Title: "too much pressure behind the injector",
				Meaning: "Tip, hose and climb hold so much pressure behind the injector that it draws nothing: a larger tip, a wider or shorter hose, or an injector at the gun.", Defers: "maker of the injector"})},
		{metric: mInjectorVacuumLeft, root: "chemical", severity: Fix,
			rating: nothing(units.KindPressure, "vacuum must be left when the chemical is lifted"),
			doc: CodeDoc{Code: "injector-lift", Bad: Lower, Title: "the injector does not lift the chemical",
				Meaning: "At this flow the vacuum is less than the weight of the column from the chemical up to the injector: raise the container, or more flow.", Defers: "maker of the injector"}},
		{metric: mChemicalStrength, root: "chemical", severity: Fix, rating: own("wanted_low", "least wanted at the nozzle"),
			doc: CodeDoc{Code: "chemical-weak", Bad: Lower, Title: "the mix is weaker than wanted",
				Meaning: "In some state in use the strength at the nozzle is below the least wanted.", Defers: "chemical supplier"}},
		{metric: mChemicalStrength, root: "chemical", severity: Fix, rating: own("wanted_high", "most wanted at the nozzle"),
			doc: CodeDoc{Code: "chemical-strong", Bad: Higher, Title: "the mix is stronger than wanted",
				Meaning: "In some state in use the strength at the nozzle is above the most wanted: it costs, and it hurts surfaces, skin and plants.", Defers: "chemical supplier; safety data sheet"}},
		{metric: mPartnerPressure, root: "chemical", severity: Note,
			rating: fromDuty("duty.nozzle_pressure_low", "wanted at the nozzle"),
			doc: CodeDoc{Code: "chemical-robs-gun", Bad: Lower, Title: "a gun that draws chemical takes the other's pressure",
				Meaning: "While one gun wears its low-pressure tip, another gun of the same pump has less than the least wanted: one sprays while the other waits.", Defers: "operator training"}},
		{metric: mFeedFlow, root: "chemical", severity: Fix, rating: own("chemical_pump.wanted_flow", "wanted at the end of the chemical line"),
			doc: CodeDoc{Code: "chemical-pump-short", Bad: Lower, Title: "the chemical line gives less than wanted",
				Meaning: "Hose, climb and thickness of the chemical leave less flow at its nozzle than wanted.", Defers: "pump maker"}},
		{metric: mFeedCycle, root: "chemical", severity: Fix, rating: own("chemical_pump.least_cycle", "least time between starts of the motor's sheet"),
			doc: plate(CodeDoc{Code: "chemical-pump-cycles", Bad: Lower, Title: "the chemical pump starts too often",
				Meaning: "Its pressure switch stops and starts it faster than its motor bears: a larger tip or an accumulator.", Defers: "maker of the pump"})},
	}
}
