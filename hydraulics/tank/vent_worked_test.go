package tank_test

import (
	"testing"

	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// 5/8 in hole: a = 1.9793e-4 m²; 110 gpm = 6.9399e-3 m³/s; v = q/(C a) = 58.44 m/s;
// ½ · 1.225 · v² = 2092 Pa = 8.40 in of water.
func TestVent_byHand(t *testing.T) {
	v := tank.Vent{Bore: 0.625 * units.Inch, Coefficient: 0.6, Air: 1.225}
	p := must[units.Pressure](t)(v.Pressure(110 * units.GallonPerMinute))
	worked.Check(t, worked.Case{
		Question: "A tank is dumped at 110 gpm through a 5/8 in vent: what vacuum must it bear?", Source: "½ ρ (q/(C a))² by hand, air of 1.225 kg/m³", Status: worked.Identity,
		Given: []string{"5/8 in", "110 gpm", "C = 0.6"}, Printed: "8.40 inH2O", Got: p.In(units.InchOfWater),
	})
	d := must[units.Length](t)(v.BoreFor(110*units.GallonPerMinute, 1*units.InchOfWater))
	worked.Check(t, worked.Case{
		Question: "How wide must it be for an inch of water?", Source: "5/8 in · (8.40/1)^¼, by hand", Status: worked.Identity,
		Given: []string{"110 gpm", "1 inH2O", "C = 0.6"}, Printed: "1.064 in", Got: d.In(units.Inch),
	})
}

// An outlet that gives 110 gpm under 24 in of water gives √(24/(24 + 8.40)) = 0.861 of
// it behind that vent: head and vacuum go with the square of the same flow.
func TestDrain_behindAVent(t *testing.T) {
	q := 110 * units.GallonPerMinute
	full := tank.Drain{Shape: tank.UprightOf(200*units.Gallon, 30*units.Inch), From: 24 * units.Inch, To: 1 * units.Inch, Fluid: thin}
	// K so that the head of 24 in drives 110 gpm through 2.067 in
	one := must[units.VolumeFlow](t)(tank.Opening{Bore: 2.067 * units.Inch, K: 1}.Flow(24*units.Inch, thin))
	full.Outlet = tank.Opening{Bore: 2.067 * units.Inch, K: float64(one/q) * float64(one/q)}
	free := must[*tank.Drained](t)(full.Drain())
	full.Vent = tank.Vent{Bore: 0.625 * units.Inch, Coefficient: 0.6, Air: 1.225}
	slow := must[*tank.Drained](t)(full.Drain())
	worked.Check(t, worked.Case{
		Question: "How much slower does the tank dump behind that vent?", Source: "1 − √(24/(24 + 8.40)), by hand", Status: worked.Identity,
		Given: []string{"110 gpm without it", "24 in of water", "8.40 inH2O at 110 gpm"}, Printed: "13.9 %", Got: 100 * float64(1-slow.First/free.First),
	})
	near(t, "flow the outlet would give", float64(slow.Unvented), float64(q), 1e-9)
	// Both go with the square of the flow, so the time stretches by the same factor.
	near(t, "time against time", float64(slow.Time/free.Time), float64(free.First/slow.First), 1e-8)
	if slow.Vacuum >= 8.3*units.InchOfWater {
		t.Errorf("vacuum %v: the slower flow makes less of it", slow.Vacuum)
	}
}
