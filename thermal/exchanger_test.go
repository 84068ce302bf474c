package thermal

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// Effectiveness and transfer units are inverse, and both say the same as UA times the
// logarithmic mean of the differences at the ends.
func TestExchanger_agree(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		N, C := g.LogFloat(1e-3, 8), g.Float(0, 1)
		e := CounterflowEffectiveness(N, C)
		if back := CounterflowUnits(e, C); math.Abs(back-N) > 1e-6*N {
			return fmt.Errorf("N %g comes back as %g", N, back)
		}
		if p := ParallelEffectiveness(N, C); p > e+1e-15 {
			return fmt.Errorf("the same way transfers more: %g and %g", p, e)
		}
		// Hot stream is the smaller, 100 K above the cold at the inlets.
		d1 := 100 - 100*e*C // hot inlet less cold outlet
		d2 := 100 - 100*e   // hot outlet less cold inlet
		if m := LogMeanDifference(d1, d2); math.Abs(N*m-100*e) > 1e-6*100*e {
			return fmt.Errorf("UA times the mean difference is %g, heat %g", N*m, 100*e)
		}
		d1, d2 = 100, 100-100*ParallelEffectiveness(N, C)*(1+C)
		if d2 > 1e-3 {
			if m := LogMeanDifference(d1, d2); math.Abs(N*m-100*ParallelEffectiveness(N, C)) > 1e-6*100 {
				return fmt.Errorf("the same way: UA times the mean difference is %g", N*m)
			}
		}
		return nil
	})
	nan := math.NaN()
	for _, x := range []float64{
		CounterflowEffectiveness(-1, 0.5), CounterflowEffectiveness(1, 1.1), CounterflowEffectiveness(nan, 0), CounterflowUnits(1, 0.5),
		CounterflowUnits(0.5, nan), ParallelEffectiveness(1, -0.1), LogMeanDifference(0, 1), LogMeanDifference(nan, 1),
		ChurchillChu(-1, 0.7), ChurchillChu(nan, 0.7), ChurchillBernstein(nan, 0.7), ChurchillBernstein(-1, 0.7), Gnielinski(nan, 1, 1),
		PipeNusselt(nan, 1), PipeNusselt(1, nan), PipeNusselt(-1, 1), SchmidtCoil(nan, 1, 0.1), SchmidtCoil(1, nan, 0.1), RanzMarshall(-1, 1), GreyRadiation(nan, 1, 1),
	} {
		if !math.IsNaN(x) {
			t.Errorf("a special case returned %v", x)
		}
	}
	if m := LogMeanDifference(50, 50*(1+1e-12)); math.Abs(m-50) > 1e-9 {
		t.Errorf("equal differences have the mean %v", m)
	}
}

// The coefficients rise with what drives them, and the pieces meet where they claim.
func TestConvection_pieces(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		Ra, Re, Pr := g.LogFloat(1e-3, 1e12), g.LogFloat(0.5, 1e6), g.Float(0.6, 12)
		if ChurchillChu(Ra*1.01, Pr) <= ChurchillChu(Ra, Pr) || ChurchillBernstein(Re*1.01, Pr) <= ChurchillBernstein(Re, Pr) ||
			PipeNusselt(Re*1.01, Pr) < PipeNusselt(Re, Pr) || RanzMarshall(Re*1.01, Pr) <= RanzMarshall(Re, Pr) {
			return fmt.Errorf("a Nusselt number falls at Ra %g, Re %g, Pr %g", Ra, Re, Pr)
		}
		for _, joint := range []float64{2300, 4000} {
			a, b := PipeNusselt(math.Nextafter(joint, 0), Pr), PipeNusselt(math.Nextafter(joint, 1e9), Pr)
			if math.Abs(a-b) > 1e-9*a {
				return fmt.Errorf("the pipe jumps from %g to %g at Re = %g", a, b, joint)
			}
		}
		delta := g.Float(0.012, 0.2)
		critical := 2300 * (1 + 8.6*math.Pow(delta, 0.45))
		for _, joint := range []struct{ Re, most float64 }{{critical, 1.55}, {2.2e4, 1.03}} {
			a, b := SchmidtCoil(joint.Re*(1-1e-12), Pr, delta), SchmidtCoil(joint.Re*(1+1e-12), Pr, delta)
			if r := b / a; r > joint.most || r < 0.97 {
				return fmt.Errorf("the coil jumps by the factor %g at Re = %g, δ = %g, Pr = %g", r, joint.Re, delta, Pr)
			}
		}
		return nil
	})
}

func drawFiredCoil(g *property.G) FiredCoil {
	return FiredCoil{
		Input: units.Power(g.LogFloat(20, 400)) * units.Kilowatt, Efficiency: EfficiencyLHV(g.Float(0.6, 0.93)),
		Flame: units.Kelvin(g.Float(1500, 2300)), Air: units.Fahrenheit(g.Float(0, 100)), Inlet: units.Fahrenheit(g.Float(40, 100)),
		Flow: units.MassFlow(g.LogFloat(0.1, 1)), Outside: units.Area(g.Float(1, 6)), Inside: units.Area(g.Float(0.8, 5)),
	}
}

// A clean coil is as rated; soot and scale only ever cost heat, warm the stack, and the
// heat is UA times the mean difference; what the water does not get goes up the stack.
func TestFiredCoil(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		c := drawFiredCoil(g)
		clean, err := c.With(Layer{}, Layer{})
		if err != nil {
			return err
		}
		if clean.Efficiency != EfficiencyLHV(float64(c.Efficiency)*float64(c.Input)/float64(c.Input)) || clean.Lost != 0 ||
			math.Abs(float64(clean.Conductance/clean.Clean)-1) > 1e-12 {
			return fmt.Errorf("clean: %+v", clean)
		}
		soot := Layer{units.Length(g.LogFloat(0.01, 3)) * units.Millimeter, units.ThermalConductivity(g.Float(0.05, 0.3))}
		scale := Layer{units.Length(g.LogFloat(0.01, 3)) * units.Millimeter, units.ThermalConductivity(g.Float(0.8, 2.5))}
		foul, err1 := c.With(soot, scale)
		worse, err2 := c.With(Layer{soot.Thickness * 1.2, soot.Conductivity}, scale)
		if err := all(err1, err2); err != nil {
			return err
		}
		if foul.Efficiency > clean.Efficiency || worse.Efficiency > foul.Efficiency || foul.Stack.Kelvin() < clean.Stack.Kelvin() {
			return fmt.Errorf("efficiency %v, %v, %v; stack %v, %v", clean.Efficiency, foul.Efficiency, worse.Efficiency, clean.Stack, foul.Stack)
		}
		// First law by the gas and by the water.
		gas := float64(c.Input) * (c.Flame.Kelvin() - foul.Stack.Kelvin()) / (c.Flame.Kelvin() - c.Air.Kelvin())
		if math.Abs(gas-float64(foul.Heat)) > 1e-9*float64(c.Input) {
			return fmt.Errorf("gas gives %g, water takes %g", gas, float64(foul.Heat))
		}
		out := c.Inlet.Kelvin() + float64(foul.Rise)
		d1, d2 := c.Flame.Kelvin()-out, foul.Stack.Kelvin()-c.Inlet.Kelvin()
		if d1 > 0 {
			if q := float64(foul.Conductance) * LogMeanDifference(d1, d2); math.Abs(q-float64(foul.Heat)) > 1e-9*float64(c.Input) {
				return fmt.Errorf("UA times the mean difference is %g, heat %g", q, float64(foul.Heat))
			}
		}
		return nil
	})
	if _, err := (FiredCoil{
		Input: 1e5, Efficiency: 0.98, Flame: units.Kelvin(700), Air: units.Celsius(20), Inlet: units.Celsius(150), Flow: 0.3, Outside: 3, Inside: 2,
	}).With(Layer{}, Layer{}); err == nil {
		t.Error("an efficiency beyond what the flame can give is accepted")
	}
}

// More flow, a hotter film and less scale conduct better.
func TestTube(t *testing.T) {
	tube := Tube{Bore: 0.546 * units.Inch, Outside: 0.84 * units.Inch, Length: 150 * units.Foot, Helix: 16 * units.Inch, Conductivity: 50}
	cond := func(m units.MassFlow, F float64, s Layer) float64 {
		return float64(must[units.ThermalConductance](t)(tube.Conductance(m, units.Fahrenheit(F), at27, s)))
	}
	base := cond(0.4, 100, Layer{})
	if cond(0.5, 100, Layer{}) <= base || cond(0.4, 150, Layer{}) <= base || cond(0.4, 100, Layer{1 * units.Millimeter, 2}) >= base {
		t.Error("flow, temperature or scale act the wrong way")
	}
	if v := must[units.Volume](t)(tube.Water()).In(units.Gallon); math.Abs(v-1.8244) > 5e-4 { // π/4·0.546²·1800/231
		t.Errorf("water %v gal", v)
	}
	if m := must[units.Mass](t)(tube.Metal(7850)).In(units.Pound); math.Abs(m-163.37) > 0.05 { // π/4·(0.84² − 0.546²)·1800 in³ of 0.28360 lb/in³
		t.Errorf("metal %v lb", m)
	}
}
