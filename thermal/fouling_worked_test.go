package thermal

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestFiredCoil_worked(t *testing.T) {
	c := FiredCoil{
		Input: 150 * units.Kilowatt, Efficiency: 0.90, Flame: units.Kelvin(1900), Air: units.Kelvin(288), Inlet: units.Kelvin(280),
		Flow: 0.4 * units.KilogramPerSecond, Outside: 3 * units.SquareMeter, Inside: 2 * units.SquareMeter,
	}
	got := must[Coupling](t)(c.With(Layer{0.5 * units.Millimeter, 0.1}, Layer{1 * units.Millimeter, 2}))
	const source = "effectiveness–NTU by hand: Cg 150 kW/1612 K, Cw 0.4 × 4186 W/K, ε 0.9 × 1612/1620, N 2.33798; soot 1/600, scale 1/4000 K/W on top of 1/217.554"
	given := []string{"150 kW on LHV at 90 %", "flame 1900 K, air 288 K", "0.4 kg/s at 280 K"}
	fouled := append(given, "0.5 mm of soot on 3 m², k 0.1; 1 mm of scale in 2 m², k 2 W/(m·K)")
	worked.Check(t, worked.Case{
		Question: "A clean coil takes 90 % of the fire's heat: what is its conductance?",
		Source:   source, Status: worked.Identity, Given: given,
		Printed: "217.55 W/K", Got: float64(got.Clean),
	})
	worked.Check(t, worked.Case{
		Question: "Half a millimetre of soot outside and one of scale inside: what efficiency is left?",
		Source:   source, Status: worked.Identity, Given: fouled,
		Printed: "80.28 %", Got: units.Ratio(got.Efficiency).In(units.Percent),
	})
	worked.Check(t, worked.Case{
		Question: "And how hot does the stack get?",
		Source:   source, Status: worked.Identity, Given: fouled,
		Printed: "605.9 K", Got: got.Stack.Kelvin(),
	})
}
