package air

import (
	"fmt"
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestAtmosphere_handbookTable(t *testing.T) {
	const source = "M. Kutz (ed.), Mechanical Engineers' Handbook, vol. 4, Thermophysical Properties of Fluids, Table 6 (U.S. Standard Atmosphere, 1976)"
	for _, c := range []struct {
		z            float64
		H, T, p, rho string
	}{
		{1000, "1000", "281.65", "0.8988", "1.1117"},
		{2000, "1999", "275.15", "0.7950", "1.0066"},
		{3000, "2999", "268.66", "0.7012", "0.9093"},
		{5000, "4996", "255.68", "0.5405", "0.7364"},
		{7000, "6992", "242.70", "0.4111", "0.5900"},
		{10000, "9984", "223.25", "0.2650", "0.4135"},
	} {
		x, err := Geopotential(c.z)
		H := value(t, x, err)
		x, err = TemperatureAt(H)
		T := value(t, x, err)
		x, err = PressureAt(H)
		p := value(t, x, err)
		x, err = Density(p, T)
		rho := value(t, x, err)
		for _, y := range []struct {
			question, printed string
			got               float64
		}{
			{"What is the geopotential height of a place?", c.H + " m", H},
			{"How warm is the standard atmosphere?", c.T + " K", T},
			{"What is the air pressure?", c.p + " bar", p / 1e5},
			{"How dense is the air?", c.rho + " kg/m³", rho},
		} {
			worked.Check(t, worked.Case{
				Question: y.question, Source: source, Status: worked.Published,
				Given:   []string{fmt.Sprintf("geometric height %g m", c.z)},
				Printed: y.printed, Got: y.got,
			})
		}
	}
}

func TestPressureAt_ASHRAE_table1(t *testing.T) {
	const source = "ASHRAE Handbook — Fundamentals (2017), chapter 1, Table 1, as quoted in the tests of PsychroLib"
	for _, c := range []struct {
		H    float64
		p, t string
	}{
		{-500, "107478", "18.2"}, {0, "101325", "15.0"}, {500, "95461", "11.8"},
		{1000, "89875", "8.5"}, {4000, "61640", "-11.0"}, {10000, "26436", "-50.0"},
	} {
		x, err := PressureAt(c.H)
		worked.Check(t, worked.Case{
			Question: "What is the standard barometric pressure at this altitude?",
			Source:   source, Status: worked.Published,
			Given:     []string{fmt.Sprintf("altitude %g m", c.H)},
			Printed:   c.p + " Pa",
			Got:       value(t, x, err),
			Tolerance: 1, Reason: "the source's formula carries its exponent and lapse rate with five or six digits, which shifts the last digit by one",
		})
		x, err = TemperatureAt(c.H)
		worked.Check(t, worked.Case{
			Question: "What is the standard temperature at this altitude?",
			Source:   source, Status: worked.Published,
			Given:   []string{fmt.Sprintf("altitude %g m", c.H)},
			Printed: c.t + " °C",
			Got:     value(t, x, err) - zeroCelsius,
		})
	}
}

func TestPressureAt_feet(t *testing.T) {
	const source = "python fluids 1.0.22, ATMOSPHERE_1976(Z).P"
	for _, c := range []struct {
		feet    float64
		printed string
	}{{1000, "97716.74"}, {5000, "84311.06"}, {7500, "76720.48"}} {
		x, err := Geopotential(c.feet * float64(units.Foot))
		H := value(t, x, err)
		x, err = PressureAt(H)
		worked.Check(t, worked.Case{
			Question: "What is the air pressure on a lot so many feet up?",
			Source:   source, Status: worked.Computed,
			Given:   []string{fmt.Sprintf("geometric height %g ft", c.feet)},
			Printed: c.printed + " Pa",
			Got:     value(t, x, err),
		})
	}
}

func TestStationPressure_weatherReport(t *testing.T) {
	const source = "worked example of the altimeter formula AS = (P^0.1903 + 1.313e-5 H)^(1/0.1903), inHg and ft, in the public documentation of a barometry script; pressure re-computed by the formula"
	for _, c := range []struct {
		setting, feet float64
		printed       string
	}{{30.20, 5045, "84977"}, {30.37, 7014, "79375"}} {
		x, err := StationPressure(c.setting*float64(units.InchOfMercury), c.feet*float64(units.Foot))
		worked.Check(t, worked.Case{
			Question: "The airfield reports an altimeter setting: what is the pressure here?",
			Source:   source, Status: worked.Published,
			Given:     []string{fmt.Sprintf("altimeter setting %.2f inHg", c.setting), fmt.Sprintf("elevation %g ft", c.feet)},
			Printed:   c.printed + " Pa",
			Got:       value(t, x, err),
			Tolerance: 2, Reason: "the source's constants have four digits and its answer is cut, not rounded",
		})
	}
}

func TestDryAir_seaLevel(t *testing.T) {
	const source = "U.S. Standard Atmosphere, 1976, sea-level values"
	rho, err1 := Density(SeaLevelPressure, SeaLevelTemperature)
	mu, err2 := Viscosity(SeaLevelTemperature)
	k, err3 := Conductivity(SeaLevelTemperature)
	c, err4 := SpeedOfSound(SeaLevelTemperature)
	for _, y := range []struct {
		question, printed string
		got               float64
		err               error
	}{
		{"How dense is air at sea level?", "1.2250 kg/m³", rho, err1},
		{"How viscous is air at sea level?", "1.7894e-5 Pa·s", mu, err2},
		{"How well does air conduct heat at sea level?", "2.5326e-2 W/(m·K)", k, err3},
		{"How fast is sound at sea level?", "340.294 m/s", c, err4},
	} {
		worked.Check(t, worked.Case{
			Question: y.question, Source: source, Status: worked.FromMemory,
			Given:   []string{"288.15 K", "101,325 Pa"},
			Printed: y.printed, Got: value(t, y.got, y.err),
		})
	}
}

func TestViscosity_hotAir(t *testing.T) {
	for _, c := range []struct {
		T, within float64
		printed   string
	}{{300, 0.02e-5, "184.6e-7"}, {400, 0.02e-5, "230.1e-7"}, {500, 0.04e-5, "270.1e-7"}, {1000, 0.1e-5, "424.4e-7"}} {
		x, err := Viscosity(c.T)
		worked.Check(t, worked.Case{
			Question: "How viscous is hot air?",
			Source:   "F. P. Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer, 5th ed., Table A.4",
			Status:   worked.FromMemory,
			Given:    []string{fmt.Sprintf("T = %g K", c.T)},
			Printed:  c.printed + " Pa·s",
			Got:      value(t, x, err), Tolerance: c.within,
			Reason: "the two constants of Sutherland's formula are the atmosphere's, fitted near 250 K; the table follows measurements up to 1000 K",
		})
	}
}

func TestConductivity_hotAir(t *testing.T) {
	for _, c := range []struct {
		T, within float64
		printed   string
	}{{300, 0.0003, "26.3e-3"}, {400, 0.0003, "33.8e-3"}, {500, 0.0005, "40.7e-3"}, {600, 0.0005, "46.9e-3"}, {1000, 0.001, "66.7e-3"}} {
		x, err := Conductivity(c.T)
		worked.Check(t, worked.Case{
			Question: "How well does hot air conduct heat?",
			Source:   "F. P. Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer, 5th ed., Table A.4",
			Status:   worked.FromMemory,
			Given:    []string{fmt.Sprintf("T = %g K", c.T)},
			Printed:  c.printed + " W/(m·K)",
			Got:      value(t, x, err), Tolerance: c.within,
			Reason: "the atmosphere's formula against a table of measurements: about 1 %",
		})
	}
}
