package thermal

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func drawFuel(g *property.G) Fuel {
	if g.Bool() {
		c, h := float64(g.Int(1, 20)), float64(g.Int(2, 42))
		return hydrocarbon(c, h, c*393.5e3+h*142.9e3+g.Float(-50e3, 50e3))
	}
	f := Fuel{Carbon: units.Ratio(g.Float(0.5, 0.88)), Hydrogen: units.Ratio(g.Float(0.02, 0.11)), Oxygen: units.Ratio(g.Float(0, 0.01))}
	// About what carbon and hydrogen give, so that the flame stays below 3500 K.
	f.Higher = HHVByMass(g.Float(0.9, 1.05) * (32.8e6*float64(f.Carbon) + 141e6*float64(f.Hydrogen)))
	return f
}

// What the losses leave is what the enthalpies of formation give: absolute enthalpy
// of fuel and air less that of the flue gas.
func TestBurn_energyCloses(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		f := drawFuel(g)
		r := FlueReading{
			Oxygen: units.Ratio(g.Float(0.001, 0.18)), Stack: units.Kelvin(g.Float(330, 1000)), Air: units.Celsius(g.Float(-40, 45)),
			Humidity: units.Ratio(g.Float(0, 0.03)), Site: units.AbsolutePressure(g.Float(60, 105)) * units.KilopascalAbsolute,
		}
		c, err := f.Burn(r)
		if err != nil {
			return err
		}
		// Atoms in, molecules out, written anew from the excess air reported.
		nC, nH2, nO2 := float64(f.Carbon)/molarC, float64(f.Hydrogen)/molarH2, float64(f.Oxygen)/molarO2
		need := nC + nH2/2 - nO2
		air := need * (1 + float64(c.ExcessAir)) / airOxygen
		vapour := float64(r.Humidity) * air * (airOxygen*molarO2 + (1-airOxygen)*molarRest) / molarW
		liquidWater := gasH2O.absolute(gasReference) - vaporisation
		fuel := nC*gasCO2.absolute(gasReference) + nH2*liquidWater + float64(f.Higher) - need*gasO2.absolute(gasReference)
		Ta, Ts := r.Air.Kelvin(), r.Stack.Kelvin()
		in := fuel + air*(airOxygen*gasO2.absolute(Ta)+(1-airOxygen)*gasN2.absolute(Ta)) + vapour*gasH2O.absolute(Ta)
		out := nC*gasCO2.absolute(Ts) + (nH2+vapour)*gasH2O.absolute(Ts) +
			need*float64(c.ExcessAir)*gasO2.absolute(Ts) + air*(1-airOxygen)*gasN2.absolute(Ts)
		sum := math.Abs(in) + math.Abs(out) + float64(f.Higher)
		if d := in - out - float64(c.HeatPerMass); math.Abs(d) > 1e-9*sum {
			return fmt.Errorf("%g in, %g out, useful %g: open by %g", in, out, float64(c.HeatPerMass), d)
		}
		if e := 1 - float64(c.DryGasLoss+c.VapourLoss+c.LatentLoss); math.Abs(e-float64(c.Efficiency)) > 1e-12 {
			return fmt.Errorf("losses leave %v, efficiency %v", e, c.Efficiency)
		}
		// The mass of the flue gas is that of fuel burned and air.
		mass := nC*(molarC+molarO2) + (nH2+vapour)*molarW + need*float64(c.ExcessAir)*molarO2 + air*(1-airOxygen)*molarRest
		burned := float64(f.Carbon+f.Hydrogen+f.Oxygen) + float64(c.AirFuel)*(1+float64(r.Humidity))
		if math.Abs(mass-burned) > 1e-4*mass { // molar mass of water is 0.015 g/mol rounded
			return fmt.Errorf("flue gas %g kg from %g kg", mass, burned)
		}
		return nil
	})
}

// Oxygen and carbon dioxide are two readings of one thing; more air or a hotter stack
// never helps; the dew point of the balance is that of the formula.
func TestBurn_readings(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		f := LightHeatingOil()
		r := FlueReading{Oxygen: units.Ratio(g.Float(0.001, 0.15)), Stack: units.Celsius(g.Float(120, 500)), Air: units.Celsius(g.Float(-20, 40)), Site: atm}
		a, err := f.Burn(r)
		if err != nil {
			return err
		}
		b := r
		b.Oxygen, b.CarbonDioxide = 0, a.CarbonDioxide
		same, err := f.Burn(b)
		if err != nil {
			return err
		}
		if math.Abs(float64(same.Efficiency-a.Efficiency)) > 1e-9 || math.Abs(float64(same.Oxygen-a.Oxygen)) > 1e-9 {
			return fmt.Errorf("by oxygen %v, by carbon dioxide %v", a.Efficiency, same.Efficiency)
		}
		dew, err := f.WaterDewPoint(a.CarbonDioxide, atm)
		if err != nil {
			return err
		}
		if math.Abs(float64(dew.Sub(a.DewPoint))) > 1e-6 {
			return fmt.Errorf("dew point %v, by formula %v", a.DewPoint, dew)
		}
		b = r
		b.Oxygen *= 1.1
		lean, err1 := f.Burn(b)
		b = r
		b.Stack = b.Stack.Add(5)
		hot, err2 := f.Burn(b)
		if err := all(err1, err2); err != nil {
			return err
		}
		if lean.Efficiency > a.Efficiency || hot.Efficiency > a.Efficiency || lean.Flame.Kelvin() > a.Flame.Kelvin() {
			return fmt.Errorf("efficiency %v, with more air %v, with a hotter stack %v", a.Efficiency, lean.Efficiency, hot.Efficiency)
		}
		return nil
	})
}

// Siegert's formula against the balance it stands for.
func TestSiegert_againstBalance(t *testing.T) {
	for _, c := range []struct {
		name            string
		siegert         SiegertFuel
		fuel            Fuel
		atMost, atLeast float64 // documented and found, percentage points
	}{
		{"oil", SiegertOil(), LightHeatingOil(), 0.3, 0.2},
		{"natural gas", SiegertNaturalGas(), Methane(), 0.5, 0.3},
		{"LPG", SiegertLPG(), Propane(), 1.1, 0.8},
	} {
		worst := 0.0
		for o2 := 0.02; o2 <= 0.09; o2 += 0.01 {
			for T := 120.0; T <= 320; T += 20 {
				air := units.Celsius(20)
				b := must[Combustion](t)(c.fuel.Burn(FlueReading{Oxygen: units.Ratio(o2), Stack: units.Celsius(T), Air: air, Site: atm}))
				q := must[units.Ratio](t)(c.siegert.LossByOxygen(units.Celsius(T), air, units.Ratio(o2)))
				worst = math.Max(worst, math.Abs(100*float64(q-b.LossOnLower)))
			}
		}
		t.Logf("%s: at most %.3f percentage points", c.name, worst)
		if worst > c.atMost || worst < c.atLeast {
			t.Errorf("%s: off by %.2f percentage points, documented %.2f", c.name, worst, c.atMost)
		}
	}
}

func TestBurn_edges(t *testing.T) {
	f := LightHeatingOil()
	r := FlueReading{CarbonDioxide: 0.16, Stack: units.Celsius(200), Air: units.Celsius(20), Site: atm}
	if _, err := f.Burn(r); err == nil {
		t.Error("more carbon dioxide than the fuel gives is accepted")
	}
	r.CarbonDioxide, r.Oxygen = 0.1, 0.05
	if _, err := f.Burn(r); err == nil {
		t.Error("two readings are accepted")
	}
	r.CarbonDioxide, r.Oxygen = 0, 0
	if _, err := f.Burn(r); err == nil {
		t.Error("no reading is accepted")
	}
	r.Oxygen, r.Stack = 0.05, units.Celsius(10)
	if _, err := f.Burn(r); err == nil {
		t.Error("a stack colder than the air is accepted")
	}
	// Burned into cold air from a warm stack at the same temperature all sensible
	// loss is gone but for the step to 25 °C.
	r.Stack, r.Air = units.Kelvin(gasReference), units.Kelvin(gasReference)
	c := must[Combustion](t)(f.Burn(r))
	if math.Abs(float64(c.EfficiencyOnLower)-1) > 1e-12 {
		t.Errorf("at 25 °C the efficiency on the lower value is %v", c.EfficiencyOnLower)
	}
}

func BenchmarkBurn(b *testing.B) {
	f, r := LightHeatingOil(), FlueReading{Oxygen: 0.05, Stack: units.Celsius(215), Air: units.Celsius(20), Site: atm}
	for b.Loop() {
		if _, err := f.Burn(r); err != nil {
			b.Fatal(err)
		}
	}
}

func FuzzBurn(f *testing.F) {
	f.Add(0.865, 0.132, 0.0, 45.4e6, 0.05, 490.0, 290.0, 0.005, 1e5)
	f.Fuzz(func(t *testing.T, c, h, o, hhv, oxygen, stack, airAt, humidity, site float64) {
		fuel := Fuel{Carbon: units.Ratio(c), Hydrogen: units.Ratio(h), Oxygen: units.Ratio(o), Higher: HHVByMass(hhv)}
		b, err := fuel.Burn(FlueReading{
			Oxygen: units.Ratio(oxygen), Stack: units.Kelvin(stack), Air: units.Kelvin(airAt), Humidity: units.Ratio(humidity), Site: units.AbsolutePressure(site),
		})
		if err == nil && !(finite(float64(b.Efficiency)) && finite(float64(b.EfficiencyOnLower)) && finite(b.Flame.Kelvin()) && b.ExcessAir >= 0 && b.Vapour >= 0 && b.Vapour < 1) {
			t.Errorf("%+v", b)
		}
	})
}
