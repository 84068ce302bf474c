package tank_test

import (
	"testing"

	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestShape_jones(t *testing.T) {
	lying := tank.Shape{Form: tank.LyingCylinder, Diameter: 108 * units.Inch, Length: 156 * units.Inch, Dish: 42 * units.Inch}
	for _, c := range []struct {
		ends    tank.End
		printed string
	}{{tank.Dished, "2303.9615117 gal"}, {tank.Ellipsoidal, "2380.9565416 gal"}} {
		s := lying
		s.Ends = c.ends
		got := must[units.Volume](t)(s.Volume(36 * units.Inch))
		worked.Check(t, worked.Case{
			Question: "A lying tank with " + c.ends.String() + " ends is dipped at 36 in: what is in it?",
			Source:   "D. Jones, Calculating Tank Volume, example; digits of fluids 1.0.22, which reproduces it", Status: worked.Computed,
			Given:   []string{"diameter 108 in", "length 156 in", "ends 42 in deep", "h = 36 in"},
			Printed: c.printed, Got: got.In(units.Gallon),
		})
		back := must[units.Length](t)(s.Level(got))
		near(t, "level of that volume", back.In(units.Inch), 36, 1e-14)
	}
}

func TestShape_gallonsOfAnUprightTank(t *testing.T) {
	// 410 gal in 48 in: 410 · 231/(π/4 · 48²) = 52.339 in.
	s := tank.Shape{Form: tank.UprightCylinder, Diameter: 48 * units.Inch, Height: 60 * units.Inch}
	h := must[units.Length](t)(s.Level(410 * units.Gallon))
	worked.Check(t, worked.Case{
		Question: "How high do 410 gal stand in a tank 48 in across?", Source: "V/(π d²/4) by hand", Status: worked.Identity,
		Given: []string{"410 gal", "48 in"}, Printed: "4.361564 ft", Got: h.In(units.Foot),
	})
	q := must[units.VolumeFlow](t)(tank.Orifice(2.067*units.Inch, 0.6).Flow(h, thin))
	worked.Check(t, worked.Case{
		Question: "What does its 2 in outlet give at first?", Source: "C a √(2 g h) by hand", Status: worked.Identity,
		Given: []string{"h = 4.361564 ft", "bore 2.067 in", "C = 0.60"}, Printed: "105.131 gpm", Got: q.In(units.GallonPerMinute),
	})
	d := must[units.Duration](t)(tank.DrainTime(circle(48*units.Inch), 2.067*units.Inch, 0.6, h, 0))
	worked.Check(t, worked.Case{
		Question: "And when is it empty?", Source: "twice the time at the first flow: 2 · 410/105.131, by hand", Status: worked.Identity,
		Given: []string{"410 gal", "105.131 gpm at first"}, Printed: "7.799779 min", Got: d.In(units.Minute),
	})
	if m := d.In(units.Minute); m < 4 {
		t.Errorf("empty in %.1f min: 410/105 takes the first flow for the mean", m)
	}
}
