package vacuum_test

import (
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/internal/worked"
)

// gradients returns the whole flow as liquid and as gas, and each phase alone.
func gradients(m, x, rhol, rhog, mul, mug, d float64, friction func(Re float64) float64) (lo, g, l, gas float64) {
	G := m / (math.Pi / 4 * d * d)
	darcy := func(G, rho, mu float64) float64 { return friction(G*d/mu) * G * G / (2 * rho * d) }
	return darcy(G, rhol, mul), darcy(G, rhog, mug), darcy(G*(1-x), rhol, mul), darcy(G*x, rhog, mug)
}

func smooth(Re float64) float64 { return hydraulics.FrictionFactor(Re, 0) }

func TestTwoPhase_published(t *testing.T) {
	given := []string{"ṁ = 0.6 kg/s", "x = 0.1", "ρ 915 and 2.67 kg/m³", "μ 180e-6 and 14e-6 Pa s", "d = 50 mm", "L = 1 m"}
	const library = "documentation of the open-source library fluids, "
	lo, g, _, _ := gradients(0.6, 0.1, 915, 2.67, 180e-6, 14e-6, 0.05, smooth)
	worked.Check(t, worked.Case{
		Question: "What does a metre of pipe cost with gas and liquid in it?",
		Source:   library + "Müller-Steinhagen and Heck", Status: worked.Published, Given: given,
		Printed: "793.4465457435 Pa", Got: vacuum.MullerSteinhagenHeck(lo, g, 0.1),
	})
	power := func(Re float64) float64 { return 0.184 * math.Pow(Re, -0.2) }
	_, _, l, gas := gradients(0.6, 0.1, 915, 2.67, 180e-6, 14e-6, 0.05, power)
	worked.Check(t, worked.Case{
		Question: "What does a metre of pipe cost with gas and liquid in it?",
		Source:   library + "Lockhart and Martinelli", Status: worked.Published, Given: given,
		Printed: "716.4695654888 Pa", Got: vacuum.LockhartMartinelli(l, gas, 20),
	})
	// X = √(L/G) with f of Re^−0.2 is the Martinelli parameter of the textbooks,
	// ((1−x)/x)^0.9 √(ρ_g/ρ_l) (μ_l/μ_g)^0.1.
	_, _, l, gas = gradients(1, 0.4, 800, 2.5, 1e-3, 1e-5, 0.05, power)
	worked.Check(t, worked.Case{
		Question: "How large is the Martinelli parameter?",
		Source:   library + "Lockhart_Martinelli_Xtt", Status: worked.Published,
		Given:   []string{"x = 0.4", "ρ 800 and 2.5 kg/m³", "μ 1e-3 and 1e-5 Pa s"},
		Printed: "0.12761659240532", Got: math.Sqrt(l / gas),
	})
	worked.Check(t, worked.Case{
		Question: "How much of the bore does the gas take?",
		Source:   library + "Rouhani 1", Status: worked.Published,
		Given:   []string{"x = 0.4", "ρ 800 and 2.5 kg/m³", "σ = 0.02 N/m", "1 kg/s in 0.3 m"},
		Printed: "0.85884202441367", Got: vacuum.VoidFraction(0.4, 800, 2.5, 0.02, 1/(math.Pi/4*0.09)),
	})
}

// Water and air in one hose, 6.3 gpm and 90 cfm in 50 ft of 2 in hose. Two
// correlations of good name lie 43 % apart: that is the size of the doubt.
func TestTwoPhase_modelsDisagree(t *testing.T) {
	const rhol, rhog, mul, mug, d, L = 998.2, 1.204, 1.0016e-3, 1.813e-5, 0.0508, 50 * 0.3048
	ml, mg := float64(gpm(6.3))*rhol, float64(cfm(90))*rhog
	x := mg / (ml + mg)
	given := []string{"6.3 gpm of water and 90 cfm of air at 20 °C", "50 ft of smooth 2.000 in hose", "pressure of the air outside throughout"}
	worked.Check(t, worked.Case{
		Question: "What share of the mass in the recovery hose is air?", Source: "arithmetic", Status: worked.Identity, Given: given,
		Printed: "0.11417955", Got: x,
	})
	lo, g, _, _ := gradients(ml+mg, x, rhol, rhog, mul, mug, d, smooth)
	msh := L * vacuum.MullerSteinhagenHeck(lo, g, x)
	worked.Check(t, worked.Case{
		Question: "What does the recovery hose cost with water in it?", Source: "fluids 1.3.1, Müller-Steinhagen and Heck", Status: worked.Computed, Given: given,
		Printed: "17172.50 Pa", Got: msh,
	})
	_, _, l, gas := gradients(ml+mg, x, rhol, rhog, mul, mug, d, func(Re float64) float64 { return 0.184 * math.Pow(Re, -0.2) })
	lm := L * vacuum.LockhartMartinelli(l, gas, 20)
	worked.Check(t, worked.Case{
		Question: "What does the recovery hose cost with water in it?", Source: "fluids 1.3.1, Lockhart and Martinelli", Status: worked.Computed, Given: given,
		Printed: "11989.74 Pa", Got: lm,
	})
	worked.Check(t, worked.Case{
		Question: "How far do the two lie apart?", Source: "the two values before", Status: worked.Computed, Given: given,
		Printed: "0.43", Got: msh/lm - 1,
	})
	if d := math.Abs(msh/lm - 1); d > vacuum.TwoPhaseSpread*1.1 || d < vacuum.TwoPhaseSpread*0.9 {
		t.Errorf("the models lie %.2f apart, the spread is %.2f", d, vacuum.TwoPhaseSpread)
	}
}

// The ends of the correlations are the one fluid, and NaN goes through.
func TestTwoPhase_ends(t *testing.T) {
	for _, c := range []struct{ got, want float64 }{
		{vacuum.MullerSteinhagenHeck(3, 700, 0), 3}, {vacuum.MullerSteinhagenHeck(3, 700, 1), 700},
		{vacuum.LockhartMartinelli(5, 0, 20), 5}, {vacuum.LockhartMartinelli(0, 5, 20), 5},
		{vacuum.VoidFraction(0, 1000, 1.2, 0.07, 100), 0}, {vacuum.VoidFraction(1, 1000, 1.2, 0.07, 100), 1},
		{vacuum.ChisholmC(3000, 3000), 20}, {vacuum.ChisholmC(100, 3000), 12}, {vacuum.ChisholmC(3000, 100), 10}, {vacuum.ChisholmC(100, 100), 5},
	} {
		if c.got != c.want {
			t.Errorf("got %v, want %v", c.got, c.want)
		}
	}
	nan := math.NaN()
	for _, v := range []float64{
		vacuum.MullerSteinhagenHeck(3, 700, nan), vacuum.MullerSteinhagenHeck(3, 700, 1.1), vacuum.MullerSteinhagenHeck(nan, 700, 0.5),
		vacuum.LockhartMartinelli(-1, 2, 20), vacuum.LockhartMartinelli(1, nan, 20), vacuum.VoidFraction(-0.1, 1000, 1.2, 0.07, 100),
		vacuum.VoidFraction(0.5, 1000, 1.2, 0, 100), vacuum.VoidFraction(0.5, 1, 1.2, 0.07, 100), vacuum.ChisholmC(nan, 1), vacuum.ChisholmC(1, -1),
		vacuum.CorrugatedFriction(0, 1), vacuum.CorrugatedFriction(1, nan), vacuum.ScreenCoefficient(0.01), vacuum.ScreenCoefficient(nan), vacuum.WireScreenCoefficient(0.5, 10), vacuum.WireScreenCoefficient(0.5, 500), vacuum.WireScreenCoefficient(2, 100),
	} {
		if !math.IsNaN(v) {
			t.Errorf("%v, want NaN", v)
		}
	}
}
