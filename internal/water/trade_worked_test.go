package water

import (
	"fmt"
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

const (
	atmosphere = 101325.0
	psi        = float64(units.PSI)
)

func fahrenheit(f float64) float64 { return units.Fahrenheit(f).Kelvin() }

func toFahrenheit(k float64) float64 { return units.Kelvin(k).Fahrenheit() }

// Rows of a computed table of water at 1 atm, rounded as printed there.
func TestAt_waterAt1Atm(t *testing.T) {
	const source = "python iapws 1.5.2 (IAPWS-IF97 region 1, R12-08, R15-11) at 101,325 Pa"
	for _, c := range []struct {
		F                    float64
		pounds, rho, h, cp   string
		mu, conductivity, ss string
	}{
		{41, "8.345128", "999.96692", "21.11936", "4.204947", "1.518172e-03", "0.567794", "1426.1945"},
		{60, "8.337189", "999.01557", "65.40615", "4.188530", "1.121034e-03", "0.589861", "1468.5674"},
		{68, "8.330434", "998.20609", "84.01306", "4.184794", "1.001597e-03", "0.598011", "1483.4189"},
		{104, "8.280513", "992.22426", "167.62431", "4.178553", "6.527310e-04", "0.628495", "1531.3004"},
		{140, "8.205290", "983.21061", "251.22274", "4.182764", "4.660432e-04", "0.651018", "1553.8595"},
		{200, "8.037037", "963.04941", "391.01527", "4.208658", "3.026001e-04", "0.674421", "1550.5712"},
	} {
		s, err := PropertiesAt(atmosphere, fahrenheit(c.F))
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range []struct {
			question, printed, unit string
			got                     float64
		}{
			{"How much does a US gallon of water weigh?", c.pounds, "lb/gal", units.Density(s.Density).In(units.PoundPerGallon)},
			{"How dense is water?", c.rho, "kg/m³", s.Density},
			{"What is the enthalpy of water?", c.h, "kJ/kg", s.Enthalpy / 1e3},
			{"How much heat does water take to warm?", c.cp, "kJ/(kg·K)", s.HeatCapacity / 1e3},
			{"How viscous is water?", c.mu, "Pa·s", s.Viscosity},
			{"How well does water conduct heat?", c.conductivity, "W/(m·K)", s.Conductivity},
			{"How fast does a pressure wave run in water?", c.ss, "m/s", s.SpeedOfSound},
		} {
			worked.Check(t, worked.Case{
				Question: x.question,
				Source:   source,
				Status:   worked.Computed,
				Given:    []string{fmt.Sprintf("water at %g °F", c.F)},
				Printed:  x.printed + " " + x.unit,
				Got:      x.got,
			})
		}
	}
}

// Every row of the same tables, as columns of numbers.
func TestProperties_computedTables(t *testing.T) {
	at := func(what string, got, want, half float64) {
		if d := got - want; d > half || d < -half {
			t.Errorf("%s: got %.9g, want %.9g", what, got, want)
		}
	}
	for _, r := range table(t, "mains.csv", 10) {
		s, err := PropertiesAt(atmosphere, r[0]+273.15)
		if err != nil {
			t.Fatal(err)
		}
		where := fmt.Sprintf("%g °C, ", r[0])
		at(where+"density", s.Density, r[2], 0.51e-5)
		at(where+"enthalpy", s.Enthalpy/1e3, r[4], 0.51e-5)
		at(where+"cp", s.HeatCapacity/1e3, r[5], 0.51e-6)
		at(where+"viscosity", s.Viscosity, r[6], 0.51e-9)
		at(where+"conductivity", s.Conductivity, r[8], 0.51e-6)
		at(where+"speed of sound", s.SpeedOfSound, r[9], 0.51e-4)
	}
	for _, r := range table(t, "boiler.csv", 11) {
		T := r[0] + 273.15
		p, err := SaturationPressure(T)
		if err != nil {
			t.Fatal(err)
		}
		f, err := SaturatedLiquid(T)
		if err != nil {
			t.Fatal(err)
		}
		g, err := SaturatedSteam(T)
		if err != nil {
			t.Fatal(err)
		}
		l, err := LatentHeat(T)
		if err != nil {
			t.Fatal(err)
		}
		where := fmt.Sprintf("boiling at %g °C, ", r[0])
		at(where+"pressure", p/1e6, r[1], 0.51e-9)
		at(where+"liquid density", f.Density, r[2], 0.51e-5)
		at(where+"steam density", g.Density, r[3], 0.51e-6)
		at(where+"liquid enthalpy", f.Enthalpy/1e3, r[4], 0.51e-5)
		at(where+"steam enthalpy", g.Enthalpy/1e3, r[5], 0.51e-5)
		at(where+"latent heat", l/1e3, r[6], 0.51e-5)
		at(where+"liquid entropy", f.Entropy/1e3, r[7], 0.51e-6)
		at(where+"viscosity", f.Viscosity*1e6, r[8], 0.51e-4)
		at(where+"conductivity", f.Conductivity, r[9], 0.51e-6)
		at(where+"cp", f.HeatCapacity/1e3, r[10], 0.51e-6)
	}
}

func TestSaturationTemperature_boilingPoints(t *testing.T) {
	for _, c := range []struct {
		gauge   float64 // psi over 1 atm
		printed string
	}{
		{0, "211.95"}, {10, "239.36"}, {15, "249.72"}, {50, "297.65"}, {100, "337.88"}, {150, "365.87"},
	} {
		T, err := SaturationTemperature(atmosphere + c.gauge*psi)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "At what temperature does water boil in a closed coil at sea level?",
			Source:   "python iapws 1.5.2, _TSat_P",
			Status:   worked.Computed,
			Given:    []string{fmt.Sprintf("gauge pressure %g psi", c.gauge)},
			Printed:  c.printed + " °F",
			Got:      toFahrenheit(T),
		})
	}
	T, err := SaturationTemperature(84307.28)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "At what temperature does water boil in an open tank at 5,000 ft?",
		Source:   "python iapws 1.5.2, _TSat_P, at the standard atmosphere's pressure",
		Status:   worked.Computed,
		Given:    []string{"site pressure 84,307.28 Pa"},
		Printed:  "202.83 °F",
		Got:      toFahrenheit(T),
	})
}

func TestFlash_hotWaterLetDown(t *testing.T) {
	for _, c := range []struct {
		F       float64
		printed string
	}{{240, "2.92"}, {250, "3.97"}, {300, "9.24"}} {
		f, err := SaturatedLiquid(fahrenheit(c.F))
		if err != nil {
			t.Fatal(err)
		}
		m, err := Flash(atmosphere, f.Enthalpy)
		if err != nil {
			t.Fatal(err)
		}
		if m.Phase != TwoPhase {
			t.Errorf("%g °F: %v", c.F, m.Phase)
		}
		worked.Check(t, worked.Case{
			Question: "How much of boiling water flashes to steam when it is let down to 1 atm?",
			Source:   "python iapws 1.5.2, _Region1 and _Region2: (h − h′)/(h″ − h′)",
			Status:   worked.Computed,
			Given:    []string{fmt.Sprintf("saturated water at %g °F", c.F)},
			Printed:  c.printed + " %",
			Got:      100 * m.Quality,
		})
	}
}

// Pressure given up in a valve or nozzle becomes heat; ideal compression warms
// water a little by itself.
func TestTemperatureFrom_throttlingAndPumping(t *testing.T) {
	const high = atmosphere + 2700*psi
	kelvins := func(x float64, err error) float64 {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	for _, c := range []struct {
		F       float64
		printed string
	}{{60, "7.5756"}, {180, "6.3163"}} {
		T1 := fahrenheit(c.F)
		T2 := kelvins(TemperatureFromEnthalpy(atmosphere, kelvins(Enthalpy(high, T1))))
		worked.Check(t, worked.Case{
			Question: "How much does water warm when an unloader lets it down from 2,700 psi?",
			Source:   "python iapws 1.5.2, _Region1, constant enthalpy",
			Status:   worked.Computed,
			Given:    []string{fmt.Sprintf("water at %g °F before the valve", c.F), "2,700 psi gauge to 0"},
			Printed:  c.printed + " °F",
			Got:      units.TemperatureDelta(T2 - T1).In(units.FahrenheitDelta),
		})
	}
	T1 := fahrenheit(60)
	T2 := kelvins(TemperatureFromEntropy(high, kelvins(Entropy(atmosphere, T1))))
	worked.Check(t, worked.Case{
		Question: "How much does a pump without loss warm the water?",
		Source:   "python iapws 1.5.2, _Region1, constant entropy",
		Status:   worked.Computed,
		Given:    []string{"water at 60 °F and 1 atm", "to 2,700 psi gauge"},
		Printed:  "0.407 °F",
		Got:      units.TemperatureDelta(T2 - T1).In(units.FahrenheitDelta),
	})
	T3 := kelvins(TemperatureFromEnthalpy(atmosphere, kelvins(Enthalpy(high, T2))))
	worked.Check(t, worked.Case{
		Question: "How much does a whole pass through pump and unloader warm the water?",
		Source:   "python iapws 1.5.2, _Region1, constant entropy up, constant enthalpy down",
		Status:   worked.Computed,
		Given:    []string{"water at 60 °F and 1 atm", "2,700 psi gauge and back"},
		Printed:  "7.978 °F",
		Got:      units.TemperatureDelta(T3 - T1).In(units.FahrenheitDelta),
	})
}

func TestThermalPressureCoefficient_shutInWater(t *testing.T) {
	for _, c := range []struct {
		F       float64
		printed string
	}{
		{45, "8.22"}, {50, "14.86"}, {60, "27.22"}, {70, "38.51"},
		{100, "67.06"}, {120, "82.34"}, {150, "100.55"}, {175, "111.98"},
	} {
		x, err := ThermalPressureCoefficient(atmosphere, fahrenheit(c.F))
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "How fast does the pressure rise in a rigid, air-free, shut-in line when its water warms?",
			Source:   "python iapws 1.5.2, _Region1, expansivity over isothermal compressibility at 101,325 Pa",
			Status:   worked.Computed,
			Given:    []string{fmt.Sprintf("water at %g °F", c.F)},
			Printed:  c.printed + " psi/°F",
			Got:      x * 5 / 9 / psi,
		})
	}
}

// Published fixed points of water at 1 atm.
func TestFixedPoints(t *testing.T) {
	T, err := MeltingTemperature(atmosphere)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "At what temperature does ice melt under 1 atm?",
		Source:   "IAPWS-95 and the ice Ih equation of IAPWS R10-06(2009), normal melting point",
		Status:   worked.FromMemory,
		Given:    []string{"p = 101,325 Pa, no air in the water"},
		Printed:  "273.1525 K",
		Got:      T,
	})
	T, err = SaturationTemperature(atmosphere)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "At what temperature does water boil under 1 atm?",
		Source:   "IAPWS-95, normal boiling point 373.1243 K as used in IAPWS SR1-86(1992), Table 1",
		Status:   worked.Published,
		Given:    []string{"p = 101,325 Pa"},
		Printed:  "373.1243 K",
		Got:      T,
	})
}
