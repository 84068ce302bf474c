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
