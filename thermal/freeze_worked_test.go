package thermal

import (
	"math"
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestCoolingTime_worked(t *testing.T) {
	// R = 12·ln(D3/D2)/(2π·k) h·ft·°F/BTU for a foot, k in BTU·in/(h·ft²·°F).
	perFoot := 2 * math.Pi * 0.30 / (12 * math.Log(5.375/2.375)) // BTU/(h·°F) for a foot
	perMetre := units.ThermalConductance(perFoot * float64(units.BTUPerHour) / float64(units.FahrenheitDelta) / float64(units.Foot))
	for _, c := range []struct {
		air     float64
		printed string
	}{{-18, "1.4 h"}, {20, "4.6 h"}} {
		worked.Check(t, worked.Case{
			Question: "How long does standing water in a 2 in pipe with 1.5 in of insulation take to 32 °F?",
			Source:   "ASHRAE Handbook — Fundamentals, chapter 23, Eq. 1; example published in an engineer's note on frozen pipes, 2014",
			Status:   worked.Published,
			Given:    []string{"bore 2.067 in, insulation 2.375 to 5.375 in, k 0.30 BTU·in/(h·ft²·°F)", f("42 °F in air of %g °F", c.air)},
			Printed:  c.printed,
			Got: must[units.Duration](t)(CoolingTime(2.067*units.Inch, perMetre, units.Fahrenheit(42), units.Fahrenheit(32), units.Fahrenheit(c.air))).
				In(units.Hour),
		})
	}
}

func TestPlank_worked(t *testing.T) {
	worked.Check(t, worked.Case{
		Question: "How long does a wet thing take to freeze through in cold air, by Plank's equation?",
		Source:   "published exercise on freezing time, constants P = 1/4 and R = 1/16: 22,596.04 s",
		Status:   worked.Published,
		Given:    []string{"5 cm, 970 kg/m³, 249.08 kJ/kg, frozen k 1.1 W/(m·K)", "h 5 W/(m²·K), freezes at −1.75 °C in −30 °C"},
		Printed:  "22596.04 s", Got: plank(0.05, 5, 1.1, 970*249.08e3, 28.25),
		Tolerance: 1, Reason: "the exercise rounds the product 970 × 249.08 to six digits on its way and its answer differs by 0.003 % from exact arithmetic",
	})
}

func TestGlycol_worked(t *testing.T) {
	for _, c := range []struct {
		percent float64
		printed string
	}{{20, "-6.7 °C"}, {30, "-12.8 °C"}, {40, "-20.6 °C"}, {50, "-33.3 °C"}} {
		worked.Check(t, worked.Case{
			Question: "At what temperature does a mixture of propylene glycol and water begin to freeze?",
			Source:   "J. A. Dean, Lange's Handbook of Chemistry, 15th edition, Table 5.13",
			Status:   worked.Published,
			Given:    []string{f("%g %% by volume", c.percent)}, Printed: c.printed,
			Got:       must[units.Temperature](t)(PropyleneGlycolFreezingPoint(units.Ratio(c.percent / 100))).Celsius(),
			Tolerance: 1.0, Reason: "tables of glycol differ by up to 1 K, and this one is rounded to whole °F; ours follows ASHRAE's table",
		})
	}
	for _, c := range []struct {
		percent float64
		printed string
	}{{30, "8 °F"}, {40, "-7 °F"}, {50, "-28 °F"}} {
		worked.Check(t, worked.Case{
			Question: "What does the winter card promise for this strength?",
			Source:   "trade table of propylene glycol by volume",
			Status:   worked.CommonPractice,
			Given:    []string{f("%g %% by volume", c.percent)}, Printed: c.printed,
			Got:       must[units.Temperature](t)(PropyleneGlycolFreezingPoint(units.Ratio(c.percent / 100))).Fahrenheit(),
			Tolerance: 1, Reason: "trade tables are rounded to whole °F of a value that sources give within 1 °F",
		})
	}
	for _, c := range []struct {
		percent float64
		printed string
	}{{19.4, "-7.1 °C"}, {29.4, "-12.7 °C"}, {39.6, "-21.1 °C"}, {49.9, "-33.5 °C"}, {60.0, "-51.1 °C"}} {
		worked.Check(t, worked.Case{
			Question: "And by the table that the fit was made to?",
			Source:   "ASHRAE Handbook — Fundamentals, table of freezing points of aqueous propylene glycol",
			Status:   worked.FromMemory,
			Given:    []string{f("%g %% by volume", c.percent)}, Printed: c.printed,
			Got: must[units.Temperature](t)(PropyleneGlycolFreezingPoint(units.Ratio(c.percent / 100))).Celsius(),
		})
	}
	worked.Check(t, worked.Case{
		Question: "Two gallons of 50 % antifreeze meet one gallon left in coil and hose: how strong is the mixture?",
		Source:   "c = c0·V/(V + Vt)", Status: worked.Identity,
		Given: []string{"2 gal of 50 %", "1 gal trapped"}, Printed: "33.33 %",
		Got: must[units.Ratio](t)(Dilute(0.5, 2*units.Gallon, 1*units.Gallon)).In(units.Percent),
	})
	worked.Check(t, worked.Case{
		Question: "How much 50 % antifreeze leaves 30 % in a gallon of trapped water?",
		Source:   "V = Vt·c/(c0 − c)", Status: worked.Identity,
		Given: []string{"1 gal trapped"}, Printed: "1.50 gal",
		Got: must[units.Volume](t)(AntifreezeNeeded(0.5, 0.3, 1*units.Gallon)).In(units.Gallon),
	})
}

func TestDisplace_worked(t *testing.T) {
	// Three equal full vessels, pushed through with as much as all of them hold:
	// c1 = 1 − e⁻³, c2 = 1 − 4e⁻³, c3 = 1 − 8.5e⁻³ of the stock.
	d := must[Displacement](t)(Displace([]Trapped{{1 * units.Liter, 1 * units.Liter}, {1 * units.Liter, 1 * units.Liter}, {1 * units.Liter, 1 * units.Liter}}, 0.5, 3*units.Liter))
	for i, printed := range []string{"0.4751 x", "0.4004 x", "0.2884 x"} {
		worked.Check(t, worked.Case{
			Question: "Antifreeze is pushed through three full parts of a litre each, three litres in all: how strong is each?",
			Source:   "stirred vessels in series: 1 − e^(−n)·Σ n^k/k!, n = 3, times 50 %",
			Status:   worked.Identity,
			Given:    []string{f("part %d", i+1), "50 % stock"}, Printed: printed,
			Got: float64(d.Parts[i].Glycol), Tolerance: 5e-5, Reason: "a unit of the last printed digit: the liquid is moved in 20,000 packets",
		})
	}
}

func TestScald_worked(t *testing.T) {
	for _, r := range table(t, "scald_times_adult.csv") {
		series := ScaldCPSC
		if r["origin"] == "MH" {
			series = ScaldMoritzHenriques
		}
		T := r.num(t, "water_T_F")
		got := must[Scald](t)(ScaldTime(series, units.Fahrenheit(T)))
		if got.Below || got.Above {
			t.Errorf("%v at %g °F: outside its own series", series, T)
		}
		worked.Check(t, worked.Case{
			Question: "How long may water of this temperature touch skin?",
			Source:   "series " + series.String() + ", as quoted on public pages", Status: worked.Published,
			Given: []string{f("%g °F", T)}, Printed: r["exposure_s"] + " s", Got: float64(got.Time),
		})
	}
}

func TestPressureRise_worked(t *testing.T) {
	for _, c := range []struct {
		F       float64
		printed string
	}{{45, "8.22 psi/F"}, {50, "14.86 psi/F"}, {60, "27.22 psi/F"}, {70, "38.51 psi/F"}, {100, "67.06 psi/F"}, {120, "82.34 psi/F"}, {150, "100.55 psi/F"}, {175, "111.98 psi/F"}} {
		worked.Check(t, worked.Case{
			Question: "By how much does the pressure of shut-in water rise for a degree, in steel without air?",
			Source:   "computed with python iapws 1.5.2: expansivity over compressibility at 0.101325 MPa", Status: worked.Computed,
			Given: []string{f("%g °F", c.F)}, Printed: c.printed,
			Got: must[units.Pressure](t)(PressureRise(units.Fahrenheit(c.F), atm)).In(units.PSI) * float64(units.FahrenheitDelta),
		})
	}
	for _, c := range []struct {
		F       float64
		printed string
	}{{60, "0.004769 gpm"}, {140, "0.01613 gpm"}, {180, "0.02036 gpm"}} {
		worked.Check(t, worked.Case{
			Question: "How much must a relief valve pass while 8 kW go into shut-in water?",
			Source:   "API 521 form β·Q/(ρ·cp), computed with python iapws 1.5.2 at 0.101325 MPa", Status: worked.Computed,
			Given: []string{f("%g °F", c.F), "8 kW"}, Printed: c.printed,
			Got: must[units.VolumeFlow](t)(ExpansionFlow(8*units.Kilowatt, units.Fahrenheit(c.F), atm)).In(units.GallonPerMinute),
		})
	}
}

func TestEvaporated_worked(t *testing.T) {
	got := must[EvaporatedShare](t)(Evaporated(units.Celsius(70), atm, units.Celsius(30), 0.5, atm))
	worked.Check(t, worked.Case{
		Question: "To what temperature can wash water cool on a pad by evaporation alone?",
		Source:   "PsychroLib-style wet bulb at 30 °C, 50 %, 101325 Pa by ASHRAE's equations", Status: worked.Computed,
		Given: []string{"air 30 °C, 50 %"}, Printed: "22.004979580 °C", Got: got.Ends.Celsius(),
		Tolerance: 1e-6, Reason: "the wet bulb is solved to 1e-10 K by both, the constants of the saturation line are printed to eight digits",
	})
	worked.Check(t, worked.Case{
		Question: "What share of wash water of 70 °C can evaporate at most before it is picked up?",
		Source:   "computed with python iapws 1.5.2: (h(70 °C) − h(22.005 °C))/Δhv(46.0 °C), saturated liquid", Status: worked.Computed,
		Given: []string{"water 70 °C", "air 30 °C, 50 %"}, Printed: "8.392 %", Got: got.Most.In(units.Percent),
	})
}

func TestPropyleneGlycolFor_worked(t *testing.T) {
	for _, c := range []struct {
		at      float64
		printed string
	}{{-12.7, "29.4 %"}, {-33.5, "49.9 %"}} {
		worked.Check(t, worked.Case{
			Question: "How strong must antifreeze be for this cold?",
			Source:   "ASHRAE Handbook — Fundamentals, table of freezing points of aqueous propylene glycol, read the other way",
			Status:   worked.FromMemory,
			Given:    []string{f("%g °C", c.at)}, Printed: c.printed,
			Got:       must[units.Ratio](t)(PropyleneGlycolFor(units.Celsius(c.at))).In(units.Percent),
			Tolerance: 0.1, Reason: "half a unit of the printed temperature, 0.05 K, is 0.05 % there, and the share is printed to 0.1 %",
		})
	}
}
