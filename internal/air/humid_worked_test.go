package air

import (
	"fmt"
	"testing"

	"example.com/washrig/internal/worked"
)

func state(t testing.TB, h Humid, err error) Humid {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func TestSaturationPressure_ASHRAE_table3(t *testing.T) {
	for _, c := range []struct {
		C       float64
		printed string
		within  float64
	}{
		{-60, "1.08", 0}, {-20, "103.24", 103.24 * 300e-6}, {-5, "401.74", 401.74 * 300e-6}, {5, "872.6", 872.6 * 300e-6},
		{25, "3169.7", 3169.7 * 300e-6}, {50, "12351.3", 12351.3 * 300e-6}, {100, "101418.0", 101418 * 300e-6}, {150, "476101.4", 476101.4 * 300e-6},
	} {
		p, err := SaturationPressure(c.C + zeroCelsius)
		w := worked.Case{
			Question: "What is the vapour pressure of saturated air?",
			Source:   "ASHRAE Handbook — Fundamentals (2017), chapter 1, Table 3, as quoted in the tests of PsychroLib",
			Status:   worked.Published,
			Given:    []string{fmt.Sprintf("%g °C", c.C)},
			Printed:  c.printed + " Pa",
			Got:      value(t, p, err),
		}
		if c.within > 0 {
			w.Tolerance = c.within
			w.Reason = "the table comes from newer equations of state; ASHRAE gives its formulas, Eqs. 5 and 6, 300 ppm against it"
		}
		worked.Check(t, w)
	}
}

// Values that the tests of PsychroLib carry, computed there in a spreadsheet
// from ASHRAE's equations.
func TestHumid_PsychroLib(t *testing.T) {
	const source = "PsychroLib 2.4, test suite, from ASHRAE Handbook — Fundamentals (2017), chapter 1, "
	W, err := HumidityRatio(95461, 3169.7)
	worked.Check(t, worked.Case{
		Question: "How much water is in air of this vapour pressure?",
		Source:   source + "Eq. 20", Status: worked.Computed,
		Given:   []string{"vapour pressure 3169.7 Pa", "pressure 95,461 Pa"},
		Printed: "0.0213603998047487 kg/kg",
		Got:     value(t, W, err),
	})
	for _, c := range []struct {
		t, tw   float64
		printed string
	}{{30, 25, "0.0192281274241096"}, {-1, -5, "0.00120399819933844"}} {
		h, err := FromWetBulb(95461, c.t+zeroCelsius, c.tw+zeroCelsius)
		W := state(t, h, err).HumidityRatio
		worked.Check(t, worked.Case{
			Question: "How much water is in air of this wet bulb?",
			Source:   source + "Eqs. 33 and 35", Status: worked.Computed,
			Given:     []string{fmt.Sprintf("dry bulb %g °C", c.t), fmt.Sprintf("wet bulb %g °C", c.tw), "pressure 95,461 Pa"},
			Printed:   c.printed + " kg/kg",
			Got:       W,
			Tolerance: 300e-6 * W,
			Reason:    "the source took the saturation pressure from ASHRAE's table; the formula is up to 300 ppm off it",
		})
	}
	h, err := FromHumidityRatio(95461, 30+zeroCelsius, 0.02)
	state(t, h, err)
	worked.Check(t, worked.Case{
		Question: "What is the enthalpy of humid air?",
		Source:   source + "Eq. 30", Status: worked.Computed,
		Given:   []string{"30 °C", "humidity ratio 0.02"},
		Printed: "81316 J/kg",
		Got:     h.Enthalpy,
	})
	const reason = "ASHRAE's gas constant of dry air is 287.042, the standard atmosphere's, used here throughout, is 287.053 J/(kg·K)"
	worked.Check(t, worked.Case{
		Question: "What volume does humid air take, per kg of dry air?",
		Source:   source + "Eq. 26", Status: worked.Computed,
		Given:   []string{"30 °C", "humidity ratio 0.02", "pressure 95,461 Pa"},
		Printed: "0.940855374352943 m³/kg",
		Got:     h.SpecificVolume, Tolerance: 4e-5, Reason: reason,
	})
	worked.Check(t, worked.Case{
		Question: "How dense is humid air?",
		Source:   source + "Eq. 11", Status: worked.Computed,
		Given:   []string{"30 °C", "humidity ratio 0.02", "pressure 95,461 Pa"},
		Printed: "1.08411986348219 kg/m³",
		Got:     h.Density, Tolerance: 5e-5, Reason: reason,
	})
	h, err = FromRelativeHumidity(101325, 25+zeroCelsius, 0.8)
	worked.Check(t, worked.Case{
		Question: "At what temperature does this air begin to sweat?",
		Source:   "PsychroLib 2.4, documentation", Status: worked.Computed,
		Given:   []string{"25 °C", "80 % relative humidity"},
		Printed: "21.309397163661785 °C",
		Got:     state(t, h, err).DewPoint - zeroCelsius, Tolerance: 0.001,
		Reason: "the source stops its iteration at 0.001 K",
	})
}

func TestFromWetBulb_ASHRAE_example1(t *testing.T) {
	h, err := FromWetBulb(101325, 40+zeroCelsius, 20+zeroCelsius)
	state(t, h, err)
	const reason = "the source reads its answers off the psychrometric chart"
	for _, c := range []struct {
		question, printed string
		got, within       float64
	}{
		{"What is the humidity ratio?", "0.0065 kg/kg", h.HumidityRatio, 0.0001},
		{"What is the dew point?", "7 °C", h.DewPoint - zeroCelsius, 0},
		{"What is the relative humidity?", "14 %", 100 * h.RelativeHumidity, 0},
		{"What is the enthalpy?", "56.7 kJ/kg", h.Enthalpy / 1e3, 0},
		{"What is the specific volume?", "0.896 m³/kg", h.SpecificVolume, 0},
	} {
		w := worked.Case{
			Question: c.question,
			Source:   "ASHRAE Handbook — Fundamentals (2017), chapter 1, Example 1, as quoted in the tests of PsychroLib",
			Status:   worked.Published,
			Given:    []string{"dry bulb 40 °C", "wet bulb 20 °C", "101,325 Pa"},
			Printed:  c.printed, Got: c.got,
		}
		if c.within > 0 {
			w.Tolerance, w.Reason = c.within, reason
		}
		worked.Check(t, w)
	}
}

func TestFromRelativeHumidity_ASHRAE_table2(t *testing.T) {
	for _, c := range []struct {
		C       float64
		printed string
		share   float64
	}{{5, "0.005425", 0.005}, {25, "0.020173", 0.006}, {50, "0.086863", 0.008}} {
		h, err := FromRelativeHumidity(101325, c.C+zeroCelsius, 1)
		state(t, h, err)
		worked.Check(t, worked.Case{
			Question: "How much water does saturated air hold?",
			Source:   "ASHRAE Handbook — Fundamentals (2017), chapter 1, Table 2, as quoted in the tests of PsychroLib",
			Status:   worked.Published,
			Given:    []string{fmt.Sprintf("%g °C", c.C), "101,325 Pa"},
			Printed:  c.printed + " kg/kg",
			Got:      h.HumidityRatio, Tolerance: c.share * h.HumidityRatio,
			Reason: "real vapour and air attract each other: the enhancement factor, 1.004 to 1.007 here, is left out of the ideal mixture",
		})
	}
}

func TestHumid_realGas(t *testing.T) {
	const source = "python iapws 1.5.2, HumidAir (IAPWS G8-10), density"
	for _, c := range []struct {
		p, T, share float64 // share: mass of vapour over the whole
		printed     string
	}{
		{101325, 303.15, 0.02, "1.15086"},
		{101325, 293.15, 0.007, "1.19951"},
		{84307, 308.15, 0.03, "0.93637"},
	} {
		h, err := FromHumidityRatio(c.p, c.T, c.share/(1-c.share))
		worked.Check(t, worked.Case{
			Question: "How dense is humid air as a real gas?",
			Source:   source, Status: worked.Computed,
			Given:   []string{fmt.Sprintf("%g Pa", c.p), fmt.Sprintf("%g K", c.T), fmt.Sprintf("mass fraction of vapour %g", c.share)},
			Printed: c.printed + " kg/m³",
			Got:     state(t, h, err).Density, Tolerance: 0.0006,
			Reason: "an ideal mixture of ideal gases is 0.05 % lighter than the real one",
		})
	}
}

func TestWetBulb_Stull(t *testing.T) {
	h, err := FromRelativeHumidity(101325, 20+zeroCelsius, 0.5)
	worked.Check(t, worked.Case{
		Question: "What is the wet bulb of air at half humidity?",
		Source:   "R. Stull, J. Appl. Meteorol. Climatol. 50, 2011, pp. 2267–2269, worked example",
		Status:   worked.FromMemory,
		Given:    []string{"20 °C", "50 %", "1 atm"},
		Printed:  "13.7 °C",
		Got:      state(t, h, err).WetBulb - zeroCelsius, Tolerance: 0.3,
		Reason: "the source's closed formula has an error of up to 1 K, a mean of 0.3 K",
	})
}
