package vacuum_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestIsothermalFlow_published(t *testing.T) {
	const library = "documentation of the open-source library fluids, isothermal_gas and P_isothermal_critical_flow"
	m := must(vacuum.IsothermalFlow(1e6, 9e5, 11.3, 0.00185, 1000, 0.5))(t)
	worked.Check(t, worked.Case{
		Question: "How much gas passes a long pipe between two pressures?",
		Source:   library, Status: worked.Published,
		Given:   []string{"p₁ = 10 bar", "p₂ = 9 bar", "ρ₁ = 11.3 kg/m³", "f = 0.00185", "L = 1000 m", "d = 0.5 m"},
		Printed: "145.4847572636031 kg/s", Got: float64(m),
		Tolerance: 1e-10, Reason: "the last digits printed are those of the library's own rounding",
	})
	worked.Check(t, worked.Case{
		Question: "Below which pressure at its end does the same pipe pass no more?",
		Source:   library, Status: worked.Published,
		Given:   []string{"p₁ = 10 bar", "f = 0.00185", "L = 1000 m", "d = 0.5 m"},
		Printed: "389699.7317645518 Pa", Got: float64(must(vacuum.IsothermalCritical(1e6, 0.00185, 1000, 0.5))(t)),
		Tolerance: 1e-8, Reason: "the last digits printed are those of the library's own rounding",
	})
}

// Weymouth and Spitzglass are the isothermal equation with a friction factor that
// goes with the bore alone. Their factors in inches are those of gas engineering
// handbooks (from memory); the flows are those of the library's documentation.
func TestIsothermalFlow_longPipe(t *testing.T) {
	const air = 8.31432e3 / 28.9644
	at := func(sg, T, p1, p2, L, D, f float64) float64 {
		rho1 := p1 * sg / (air * T)
		m := must(vacuum.IsothermalFlow(units.AbsolutePressure(p1), units.AbsolutePressure(p2), units.Density(rho1), f, units.Length(L), units.Length(D)))(t)
		return float64(m) / (101325 * sg / (air * 288.7)) // m³/s at 60 °F and one atmosphere
	}
	const d = 0.340 / 0.0254
	worked.Check(t, worked.Case{
		Question: "How much gas does a pipeline of 160 km pass by Weymouth's formula?",
		Source:   "documentation of the open-source library fluids, Weymouth, with its efficiency of 0.92; f = 0.032/∛d, d in inches, from memory",
		Status:   worked.Published,
		Given:    []string{"SG = 0.693", "T = 277.15 K", "p₁ = 90 bar", "p₂ = 20 bar", "L = 160 km", "d = 340 mm"},
		Printed:  "32.07729055913029 m³/s", Got: 0.92 * at(0.693, 277.15, 90e5, 20e5, 160e3, 0.340, 0.032/math.Cbrt(d)),
		Tolerance: 0.1, Reason: "Weymouth leaves out the momentum, 0.03 % here, and his rounded constants carry 0.2 %",
	})
	const s = 0.154051 / 0.0254
	worked.Check(t, worked.Case{
		Question: "How much gas does a yard pipe of 180 ft pass at a low pressure by Spitzglass' formula?",
		Source:   "documentation of the open-source library fluids, Spitzglass_low; the friction of 1 + 3.6/d + 0.03 d, d in inches, as 0.0112 times that, from memory",
		Status:   worked.Published,
		Given:    []string{"SG = 0.6", "T = 288.7 K", "Δp = 6720 Pa", "L = 54.864 m", "d = 154.051 mm"},
		Printed:  "0.9488775242530617 m³/s", Got: at(0.6, 288.7, 101325+6720.3199, 101325, 54.864, 0.154051, 0.0112*(1+3.6/s+0.03*s)),
		Tolerance: 0.04, Reason: "Spitzglass takes one density for the whole pipe and leaves out the momentum: 3 % and 1 % here",
	})
}

func TestIsothermalOutlet_vacuumHose(t *testing.T) {
	const (
		R, T = 287.05, 293.15
		mu   = 1.813e-5
		d, L = 2 * 0.0254, 50 * 0.3048
	)
	rho := 101325 / (R * T)
	for _, c := range []struct {
		cfm float64
		dp  string
	}{{90, "1556.0230 Pa"}, {140, "3490.3401 Pa"}, {170, "5016.9223 Pa"}} {
		m := rho * float64(cfm(c.cfm))
		f := hydraulics.FrictionFactor(m/(math.Pi/4*d*mu), 0)
		p2 := must(vacuum.IsothermalOutlet(101325, units.Density(rho), f, L, d, units.MassFlow(m)))(t)
		worked.Check(t, worked.Case{
			Question: "What does 50 ft of smooth 2 in hose cost?",
			Source:   "root of the isothermal equation with Colebrook's factor, SciPy 1.10.1; fluids 1.3.1 isothermal_gas gives the same",
			Status:   worked.Computed,
			Given:    []string{fmt.Sprintf("%g cfm of air outside, 20 °C, 101325 Pa", c.cfm), "R = 287.05 J/(kg K)", "μ = 1.813e-5 Pa s"},
			Printed:  c.dp, Got: 101325 - float64(p2),
		})
	}
}

// The rule the trade carries, by the package's own hose.
func TestHose_perHundredFeet(t *testing.T) {
	for _, c := range []struct {
		bore, cfm, printed string
	}{{"2", "80", "10 inH2O"}, {"2", "120", "21 inH2O"}, {"2.5", "80", "3.4 inH2O"}, {"2.5", "120", "7.1 inH2O"}} {
		loss := hoseLoss(t, vacuum.Hose{Bore: inches(num(t, c.bore)), Length: feet(100)}, cfm(num(t, c.cfm)))
		worked.Check(t, worked.Case{
			Question: "What do 100 ft of smooth vacuum hose cost?",
			Source:   "rule of the trade for smooth hose", Status: worked.CommonPractice,
			Given:   []string{"bore " + c.bore + " in", c.cfm + " cfm"},
			Printed: c.printed, Got: inInches(loss),
			Tolerance: 0.03 * inInches(loss), Reason: "the rule is made at one density; at the end of the hose the air is thinner by 2 to 5 %",
		})
	}
	smooth := hoseLoss(t, vacuum.Hose{Bore: inches(2), Length: feet(100)}, cfm(80))
	twice := hoseLoss(t, vacuum.Hose{Bore: inches(2), Length: feet(100), Corrugated: 2}, cfm(80))
	worked.Check(t, worked.Case{
		Question: "How much more does corrugated hose cost?",
		Source:   "rule of the trade, about twice", Status: worked.CommonPractice,
		Given: []string{"2 in, 100 ft, 80 cfm"}, Printed: "2 times", Got: float64(twice / smooth),
		Tolerance: 0.1, Reason: "twice the friction; the thinner air behind it adds a few per cent",
	})
}

// hoseLoss is what a hose takes with dry air: a blower is bent until it draws the
// flow.
func hoseLoss(t *testing.T, h vacuum.Hose, q units.VolumeFlow) units.Pressure {
	t.Helper()
	b := must(vacuum.NewBlower(vacuum.BlowerPlate{Points: []vacuum.BlowerPoint{{Flow: 0, Lift: 60e3}, {Flow: q * 1.0000001, Lift: 0}},
		Between: vacuum.Parabola, Air: vacuum.StandardAir()}))(t)
	p := vacuum.Plant{Air: vacuum.StandardAir(), Motors: vacuum.Parallel(b, 1), Hoses: 1, Path: []vacuum.Element{h}}
	// A parabola falls so steeply at its open end that the flow is the open flow to
	// within the loss over twice the sealed lift.
	op := must(p.Operate(0))(t)
	s := float64(q) / float64(op.FreeAir)
	return units.Pressure(float64(op.Steps[0].Loss) * math.Pow(s, 1.85))
}

func TestCorrugatedFriction(t *testing.T) {
	// d = 2, s = 0.3: d/(d+0.1314) = 0.938350; 1 − 0.880501 = 0.119499; squared
	// 0.0142800; times 2/0.3 is 0.0952.
	worked.Check(t, worked.Case{
		Question: "What friction has a 2 in hose with a corrugation every 0.3 in?",
		Source:   "arithmetic from R. C. Hawthorne, Product Engineering, 10 June 1963, f = (d/s)[1 − (d/(d + 0.438 s))²]²",
		Status:   worked.Identity,
		Given:    []string{"d = 2 in", "s = 0.3 in"}, Printed: "0.0952", Got: vacuum.CorrugatedFriction(2, 0.3),
	})
}
