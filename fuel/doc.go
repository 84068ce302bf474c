// Package fuel answers what an engine really gives at the site, what everything
// on the rig burns there, and how long the tanks last.
//
//	engine := fuel.Engine{
//		Gross:      23 * units.Horsepower,
//		Continuous: 0.90,
//		Plate:      fuel.PlateDerating{PerThousandFeet: 0.035, PerTenFahrenheitAbove: 0.01},
//	}
//	site := fuel.Site{Elevation: units.ElevationAt(5200 * units.Foot), Air: units.Fahrenheit(95)}
//	power, err := engine.Available(site)
//	budget, err := fuel.PowerBudget(power.Power, []fuel.Demand{
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
// that of the gas at 60 °F and 14.696 psia; every other fuel is a liquid.
//
// Zero means "not given" wherever zero is not physical, and each field says what
// is then assumed or that it is missing. Bad input comes back as a
// [units.FieldError] that names the field.
//
// Package fuel computes and tabulates. What is too little margin, which fuel is
// too cold and what to tell the crew is judged elsewhere.
package fuel
