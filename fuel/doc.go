// Package fuel answers what an engine really gives at the site, what everything
// on the rig burns there, and how long the tanks last.
//
//	engine := fuel.Engine{
//		Gross:      23 * units.Horsepower,
//		Continuous: 0.90,
//		Plate:      fuel.PlateDerating{PerThousandFeet: 0.035, PerTenFahrenheitAbove: 0.01},
//	}
//	site := fuel.Site{Elevation: units.ElevationAt(5200 * units.Foot), Air: units.Fahrenheit(95)}
//	has, err := engine.Available(site)
//	budget, err := fuel.PowerBudget(has.Power, []fuel.Demand{
//		{Name: "pump", Shaft: 13.62 * units.Horsepower},
//		{Name: "belt generator", Shaft: 1.16 * units.Horsepower},
//	})
//
// # Conventions
//
// Power is at the crankshaft unless a name says otherwise. A share is a
// [units.Ratio]: 0.90, not 90. A margin is (available − wanted)/available, so it
// is negative when the engine is short.
//
// Heating values come as [HigherHeatingValue] and [LowerHeatingValue], two types
// that do not mix: burners are rated on the higher in this trade, engines on the
// lower everywhere. Both are per volume at 60 °F. The volume of natural gas is
// that of the gas at 60 °F and 14.7 psia; every other fuel is a liquid.
//
// Zero means "not given" wherever zero is not physical, and each field says what
// is then assumed or that it is missing. Bad input comes back as a
// [units.FieldError] that names the field.
//
// Package fuel computes and tabulates. What is too little margin, which fuel is
// too cold and what to tell the crew is judged elsewhere.
//
// # Functions and their sources
//
//	site power   PlateDerating.Factor     the plate; 3.5 % and 1 % are the rule of thumb
//	             J1349.Factor             SAE J1349, June 1990
//	             ISO3046.Factor           ISO 3046-1:2002
//	             Site.DryPressure         U.S. Standard Atmosphere 1976; Hyland and Wexler 1983
//	             Engine.Available, Engine.Corrections
//	budget       PowerBudget, LargestPressure
//	             NewPowerCurve            Fritsch and Butland 1984
//	             Engine.Settle            ISO 8528 for droop
//	burning      Willans, FitWillans, WillansFromPlate, NewConsumptionCurve
//	             TypicalConsumption       trade, EPA nonroad model, ASABE EP496, ASAE D497
//	             IdleDown, SpecificRate, Burner.Average, FiringFor, HigherInput, LowerInput
//	fuels        PropertiesOf, Figures    GREET, AFDC, EIA, EPA, 40 CFR 98, NBS 97
//	             Properties.DensityAt     ASTM D1250; DIPPR equation 105 for propane
//	             Properties.ViscosityAt   ASTM D341
//	             Properties.NozzleAt      Jones 1982 and Radcliffe 1960 in Lefebvre 1989
//	             Properties.ColdAt, Properties.With
//	             Blend                    Hu and Burns 1970 for cloud and gel
//	tanks        Tank.ContentAt, RunTime, RunOut, NominalFor
//	job          Properties.Tally, Properties.Job
//
// No worked example was found in print for [J1349] with compression ignition, for
// [ISO3046] or for [Properties.NozzleAt]. Each is 1 in its own reference and moves
// the right way with height, heat and humidity or with cold, which the tests hold
// over random inputs; the sums beside them are worked by hand from the formula.
package fuel
