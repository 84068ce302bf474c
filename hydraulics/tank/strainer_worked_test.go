package tank_test

import (
	"testing"

	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestStrainer_dirt(t *testing.T) {
	for _, c := range []struct {
		blocked units.Ratio
		printed string
	}{{0, "1.00 psi"}, {0.5, "4.00 psi"}, {0.8, "25.0 psi"}} {
		s := tank.Strainer{Loss: 1 * units.PSI, Flow: 6.8 * units.GallonPerMinute, Blocked: c.blocked}
		p := must[units.Pressure](t)(s.Drop(6.8 * units.GallonPerMinute))
		worked.Check(t, worked.Case{
			Question: "A strainer loses 1 psi clean: and with part of it blocked?", Source: "1/(1 − b)², by hand", Status: worked.Identity,
			Given: []string{"b = " + c.blocked.Text(units.Percent, 0)}, Printed: c.printed, Got: p.In(units.PSI),
		})
		if c.blocked > 0 {
			b := must[units.Ratio](t)(s.BlockedAt(6.8*units.GallonPerMinute, p))
			near(t, "read back", float64(b), float64(c.blocked), 1e-12)
		}
	}
	// What the trade says of dirt: 0.7 psi is 1.6 ft of suction head.
	worked.Check(t, worked.Case{
		Question: "What do 0.7 psi of dirt cost in head?", Source: "2.309 ft of 60 °F water to the psi", Status: worked.CommonPractice,
		Given: []string{"0.7 psi"}, Printed: "1.6 ft", Got: dirtyHead(t),
	})
}

// dirtyHead is what a strainer that loses 0.7 psi takes from the suction head.
func dirtyHead(t *testing.T) float64 {
	s := tank.Suction{Site: 1 * units.AtmosphereAbsolute, Water: units.Fahrenheit(60), Flow: 1e-3, Strainer: tank.Strainer{Loss: 0.7 * units.PSI, Flow: 1e-3}}
	return -head(t, s).Strainer.In(units.Foot)
}

func TestMesh_cloth(t *testing.T) {
	m := tank.Mesh{PerInch: 20, Wire: 0.016 * units.Inch}
	o := must[units.Length](t)(m.Opening())
	worked.Check(t, worked.Case{
		Question: "What passes a 20 mesh screen of 0.016 in wire?", Source: "tables of market grade wire cloth", Status: worked.FromMemory,
		Given: []string{"20 mesh", "0.016 in"}, Printed: "0.0340 in", Got: o.In(units.Inch),
	})
	share := must[units.Ratio](t)(m.OpenShare())
	worked.Check(t, worked.Case{
		Question: "And how much of it is open?", Source: "tables of market grade wire cloth", Status: worked.FromMemory,
		Given: []string{"20 mesh", "0.016 in"}, Printed: "46.2 %", Got: share.In(units.Percent),
	})
}

// A basket of 12 in² before a 4.5 nozzle (0.0705 in) in a 1-1/4 in line: 5.55 in² open
// over 1.227 in² of pipe; 0.034 in over 0.0705 in. 30 g of silt at 20 mg/L and 6.8 gpm
// last 30/(0.020 · 25.74) = 58.3 min.
func TestChooseStrainer_byHand(t *testing.T) {
	c := must[tank.StrainerChoice](t)(tank.ChooseStrainer(tank.Mesh{PerInch: 20, Wire: 0.016 * units.Inch}, 12*units.SquareInch,
		1.25*units.Inch, 0.0705*units.Inch, 6.8*units.GallonPerMinute, 0.020, 0.030))
	for _, x := range []struct {
		question, printed string
		got               float64
	}{
		{"How many times the pipe is the strainer open?", "4.52 x", float64(c.OpenToPipe)},
		{"What share of the nozzle's bore passes the mesh?", "48 %", 100 * float64(c.ToPassage)},
		{"How long until it is full?", "58.3 min", c.Interval.In(units.Minute)},
	} {
		worked.Check(t, worked.Case{Question: x.question, Source: "areas and masses by hand", Status: worked.Identity,
			Given: []string{"20 mesh of 0.016 in", "12 in² of screen", "1-1/4 in pipe", "0.0705 in nozzle", "6.8 gpm", "20 mg/L", "holds 30 g"}, Printed: x.printed, Got: x.got})
	}
}

func TestServiceLoss(t *testing.T) {
	s := tank.UprightOf(240*units.Gallon, 30*units.Inch)
	v := must[units.Volume](t)(tank.ServiceLoss(s, 20*units.Inch, 2*units.Inch, false))
	worked.Check(t, worked.Case{
		Question: "The strainer has no valve before it: what runs out when it is opened?", Source: "18/30 of 240 gal", Status: worked.Identity,
		Given: []string{"240 gal, 30 in", "20 in in the tank", "strainer 2 in up"}, Printed: "144 gal", Got: v.In(units.Gallon),
	})
	if v := must[units.Volume](t)(tank.ServiceLoss(s, 20*units.Inch, 2*units.Inch, true)); v != 0 {
		t.Errorf("%v runs out behind a shut valve", v)
	}
	if v := must[units.Volume](t)(tank.ServiceLoss(s, 20*units.Inch, 25*units.Inch, false)); v != 0 {
		t.Errorf("%v runs out of a strainer above the water", v)
	}
}
