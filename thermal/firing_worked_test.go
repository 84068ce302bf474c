package thermal

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestCleanFiringFactor_worked(t *testing.T) {
	const source = "arithmetic (p/101325)(518.67/(F + 459.67)), p ratio 0.825839 of U.S. Standard Atmosphere 1976 at 5,200 ft geopotential"
	site := 0.825839 * units.AtmosphereAbsolute
	for _, c := range []struct {
		air     float64
		printed string
	}{
		{34, "0.8677"}, {40.456, "0.8565"}, {59, "0.8258"}, {77, "0.7981"}, {95, "0.7722"},
	} {
		worked.Check(t, worked.Case{
			Question: "What share of its sea-level firing does an oil burner burn clean at 5,200 ft?",
			Source:   source, Status: worked.Identity,
			Given:   []string{"5,200 ft", f("air %g °F", c.air)},
			Printed: c.printed,
			Got:     float64(must[units.Ratio](t)(CleanFiringFactor(site, units.Fahrenheit(c.air)))),
		})
	}
}

func TestGasAltitudeFactor_worked(t *testing.T) {
	for _, c := range []struct {
		ft      units.Length
		printed string
	}{{2000, "1.00"}, {3000, "0.88"}, {5000, "0.80"}} {
		worked.Check(t, worked.Case{
			Question: "To what share of its input is a gas appliance cut at this elevation?",
			Source:   "NFPA 54/ANSI Z223.1: 4 % for each 1,000 ft above sea level, where above 2,000 ft",
			Status:   worked.Published,
			Given:    []string{f("%g ft", float64(c.ft))},
			Printed:  c.printed,
			Got:      float64(must[units.Ratio](t)(GasAltitudeFactor(units.ElevationAt(c.ft * units.Foot)))),
		})
	}
}

func TestGasRate_worked(t *testing.T) {
	const (
		cubicFoot = 0.3048 * 0.3048 * 0.3048 // m³
		source    = "441,000/(0.80 × 1,026), heating value of 40 CFR 98, Table C-1"
	)
	gas := HHV(1026 * units.BTUPerCubicFoot)
	rate := must[units.VolumeFlow](t)(GasRate(441_000*units.BTUPerHour, 0.80, gas))
	worked.Check(t, worked.Case{
		Question: "How much natural gas does a heat of 441,000 BTU/h take?",
		Source:   source, Status: worked.Identity,
		Given:   []string{"1,026 BTU/ft³", "80 % on HHV"},
		Printed: "537.28 ft³/h", Got: float64(rate) / cubicFoot * 3600,
	})
	worked.Check(t, worked.Case{
		Question: "The meter counts 500 ft³ of gas an hour: how much heat reaches the water?",
		Source:   "500 × 1,026 × 0.80, heating value of 40 CFR 98, Table C-1", Status: worked.Identity,
		Given:   []string{"500 ft³/h", "1,026 BTU/ft³", "80 % on HHV"},
		Printed: "410400 BTU/h", Got: must[units.Power](t)(HeatFromGas(500*cubicFoot/3600*units.CubicMeterPerSecond, 0.80, gas)).In(units.BTUPerHour),
	})
}

// What a plate prints is the input or the output; nobody says which.
func TestRatings_worked(t *testing.T) {
	in := must[units.Power](t)(InputRating(4.75*units.GallonPerHour, HHV(138_500*units.BTUPerGallon)))
	given := []string{"4.75 gph", "138,500 BTU/gal HHV"}
	worked.Check(t, worked.Case{
		Question: "A burner fires 4.75 gph of heating oil: what does its plate say if it means the input?",
		Source:   "4.75 × 138,500", Status: worked.Identity, Given: given,
		Printed: "657875 BTU/h", Got: in.In(units.BTUPerHour),
	})
	worked.Check(t, worked.Case{
		Question: "And if it means the output, at 84 %?",
		Source:   "657,875 × 0.84", Status: worked.Identity, Given: given,
		Printed: "552615 BTU/h", Got: must[units.Power](t)(OutputFromInput(in, 0.84)).In(units.BTUPerHour),
	})
	worked.Check(t, worked.Case{
		Question: "A plate of 552,615 BTU/h means the output at 84 %: what goes in?",
		Source:   "552,615/0.84", Status: worked.Identity, Given: []string{"552,615 BTU/h", "84 % on HHV"},
		Printed: "657875 BTU/h", Got: must[units.Power](t)(InputFromOutput(552_615*units.BTUPerHour, 0.84)).In(units.BTUPerHour),
	})
	diesel, lower := HHV(138_490*units.BTUPerGallon), LHV(128_488*units.BTUPerGallon)
	worked.Check(t, worked.Case{
		Question: "84 % on the higher heating value: what does a European plate call it?",
		Source:   "0.84 × 138,490/128,488, heating values of the Alternative Fuels Data Center", Status: worked.Identity,
		Given: []string{"84 % on HHV", "diesel"}, Printed: "90.54 %",
		Got: units.Ratio(must[EfficiencyLHV](t)(EfficiencyHHV(0.84).OnLHV(diesel, lower))).In(units.Percent),
	})
	worked.Check(t, worked.Case{
		Question: "And how much oil does a heat of 441,000 BTU/h take by that efficiency?",
		Source:   "441,000/(0.9053888 × 128,488), the same as 441,000/(0.84 × 138,490)", Status: worked.Identity,
		Given: []string{"90.54 % on LHV", "diesel"}, Printed: "3.7909 gph",
		Got: must[units.FuelRate](t)(FiringRateLHV(441_000*units.BTUPerHour, 0.9053888, lower)).In(units.GallonPerHour),
	})
}

// GREET prints the heat of gasoline by the gallon and by the pound.
func TestHeatByMass_worked(t *testing.T) {
	const (
		source  = "GREET fuel specifications, reprinted by the Hydrogen Analysis Resource Center: 124,340 BTU/gal, 116,090 BTU/gal lower, 2,819 g/gal, 20,007 and 18,680 BTU/lb"
		density = 2819e-3 / 0.003785411784 * units.KilogramPerCubicMeter
	)
	worked.Check(t, worked.Case{
		Question: "A gallon of gasoline weighs 2,819 g and has 124,340 BTU: how much is that a pound?",
		Source:   source, Status: worked.Published, Given: []string{"124,340 BTU/gal", "2,819 g/gal"},
		Printed:   "20,007 BTU/lb",
		Got:       units.HeatingValueByMass(must[HHVByMass](t)(HHV(124_340 * units.BTUPerGallon).PerMass(density))).In(units.BTUPerPound),
		Tolerance: 4, Reason: "the source prints the density to 1 g/gal, half of which is 4 BTU/lb",
	})
	worked.Check(t, worked.Case{
		Question: "And back, the higher value by the gallon?",
		Source:   source, Status: worked.Published, Given: []string{"20,007 BTU/lb", "2,819 g/gal"},
		Printed:   "124,340 BTU/gal",
		Got:       units.HeatingValueByVolume(must[HHV](t)(HHVByMass(20_007 * units.BTUPerPound).PerVolume(density))).In(units.BTUPerGallon),
		Tolerance: 25, Reason: "the source prints the density to 1 g/gal, half of which is 22 BTU/gal, and the heat to 1 BTU/lb, half of which is 3",
	})
	worked.Check(t, worked.Case{
		Question: "And the lower?",
		Source:   source, Status: worked.Published, Given: []string{"18,680 BTU/lb", "2,819 g/gal"},
		Printed:   "116,090 BTU/gal",
		Got:       units.HeatingValueByVolume(must[LHV](t)(LHVByMass(18_680 * units.BTUPerPound).PerVolume(density))).In(units.BTUPerGallon),
		Tolerance: 24, Reason: "the source prints the density to 1 g/gal, half of which is 21 BTU/gal, and the heat to 1 BTU/lb, half of which is 3",
	})
}
