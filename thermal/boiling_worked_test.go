package thermal

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestBoiling_worked(t *testing.T) {
	worked.Check(t, worked.Case{
		Question: "At what temperature does water boil at sea level, by the present steam tables?",
		Source:   "IAPWS R7-97(2012), boiling point at 101.325 kPa",
		Status:   worked.Computed,
		Given:    []string{"101.325 kPa"},
		Printed:  "99.9743 °C",
		Got:      must[units.Temperature](t)(BoilingPoint(atm)).Celsius(),
	})
	for _, c := range []struct{ mpa, printed string }{
		{"0.1", "372.755919 K"}, {"1", "453.035632 K"}, {"10", "584.149488 K"},
	} {
		p := units.MustParseAbsolutePressure(c.mpa + " MPa abs")
		worked.Check(t, worked.Case{
			Question: "At what temperature does water boil in the line?",
			Source:   "IAPWS R7-97(2012), Table 36",
			Status:   worked.Published,
			Given:    []string{c.mpa + " MPa abs"},
			Printed:  c.printed,
			Got:      must[units.Temperature](t)(BoilingPoint(p)).Kelvin(),
		})
	}
	worked.Check(t, worked.Case{
		Question: "How much pressure keeps water of 250 °F liquid?",
		Source:   "computed with python iapws 1.5.2 (IAPWS-IF97)",
		Status:   worked.Computed,
		Given:    []string{"250 °F"},
		Printed:  "29.843 psia",
		Got:      must[units.AbsolutePressure](t)(PressureToStayLiquid(units.Fahrenheit(250))).In(units.PSIA),
	})
}

func TestFlashFraction_worked(t *testing.T) {
	const source = "computed with python iapws 1.5.2 (IAPWS-IF97): x = (h − h′)/(h″ − h′) at 1 atm"
	for _, c := range []struct{ at, printed string }{
		{"110 °C", "0.0187776956"},
		{"120 °C", "0.0375769192"},
		{"250 °F", "0.0396704911"},
		{"140 °C", "0.0754294120"},
		{"300 °F", "0.0923823666"},
	} {
		T := units.MustParseTemperature(c.at)
		// Saturated liquid: an hair above its own vapour pressure.
		p := must[units.AbsolutePressure](t)(PressureToStayLiquid(T))
		worked.Check(t, worked.Case{
			Question: "Boiling water is let out to the air: how much of it turns to steam?",
			Source:   source, Status: worked.Computed,
			Given:   []string{"saturated liquid at " + c.at, "101.325 kPa outside"},
			Printed: c.printed,
			Got:     float64(must[units.Ratio](t)(FlashFraction(T, p, atm))),
		})
	}
	worked.Check(t, worked.Case{
		Question: "Water of 250 °F comes from a line under 2,700 psi: how much flashes at the tip?",
		Source:   source, Status: worked.Computed,
		Given:   []string{"250 °F", "2,700 psi gauge"},
		Printed: "0.0454568516",
		Got:     float64(must[units.Ratio](t)(FlashFraction(units.Fahrenheit(250), at27, atm))),
	})
	worked.Check(t, worked.Case{
		Question: "And by the rule of thumb?",
		Source:   "trade rule (T − T_boil)/970, °F, with 211.95 °F at sea level",
		Status:   worked.CommonPractice,
		Given:    []string{"250 °F", "101.325 kPa"},
		Printed:  "0.0392",
		Got:      float64(must[units.Ratio](t)(FlashByRule(units.Fahrenheit(250), atm))),
	})
}

func TestFlashOfEnthalpy_worked(t *testing.T) {
	worked.Check(t, worked.Case{
		Question: "Boiling water of a steam cleaner at 11 bar is let out to the air: how much of it turns to steam?",
		Source:   "computed with python iapws 1.5.2 (IAPWS-IF97): 781.197743 kJ/kg at 11 bar abs, 418.99071780 + 2256.54074824 x at 1 atm",
		Status:   worked.Computed,
		Given:    []string{"781.197743 kJ/kg", "101.325 kPa outside"},
		Printed:  "0.160514285",
		Got:      float64(must[units.Ratio](t)(FlashOfEnthalpy(781.197743*units.KilojoulePerKilogram, atm))),
	})
}

func TestBoilingMargin_worked(t *testing.T) {
	site := 0.825839 * units.AtmosphereAbsolute
	worked.Check(t, worked.Case{
		Question: "The heater is rated for 200 °F: how far is that from boiling out of an open tip at 5,200 ft?",
		Source:   "IAPWS-IF97 at 0.825839 atm, computed with python iapws 1.5.2: boils at 202.5 °F, less 200",
		Status:   worked.Computed,
		Given:    []string{"5,200 ft", "200 °F"}, Printed: "2.5 °F",
		Got: must[units.TemperatureDelta](t)(BoilingMargin(units.Fahrenheit(200), site)).In(units.FahrenheitDelta),
	})
}
