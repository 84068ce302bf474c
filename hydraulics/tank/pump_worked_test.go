package tank_test

import (
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestAccumulator_pelikan(t *testing.T) {
	a := tank.Accumulator{Volume: 85 * units.Gallon, Precharge: 28 * units.PSI, CutIn: 30 * units.PSI, CutOut: 50 * units.PSI, Site: 14.7 * units.PSIA}
	v := must[units.Volume](t)(a.Drawdown())
	worked.Check(t, worked.Case{
		Question: "What does an 85 gal pressure tank give between 50 and 30 psi?", Source: "B. Pelikan, How to calculate and control pressure tank drawdown, 2006, example 1", Status: worked.Published,
		Given: []string{"85 gal", "precharge 28 psi", "30/50 psi", "14.7 psia"}, Printed: "25.1 gal", Got: v.In(units.Gallon),
	})
	for _, c := range []struct {
		in, out units.Pressure
		given   string
		printed string
	}{{20, 40, "20/40 psi", "0.37"}, {30, 50, "30/50 psi", "0.31"}, {40, 60, "40/60 psi", "0.27"}} {
		a := tank.Accumulator{Volume: 1, Precharge: c.in * units.PSI, CutIn: c.in * units.PSI, CutOut: c.out * units.PSI, Site: 14.7 * units.PSIA}
		worked.Check(t, worked.Case{
			Question: "What share of a pressure tank is drawdown?", Source: "drawdown factors on data sheets of pressure tanks", Status: worked.FromMemory,
			Given: []string{c.given, "precharge at cut-in"}, Printed: c.printed, Got: float64(must[units.Volume](t)(a.Drawdown())),
		})
	}
}

// A pump of 8 gpm whatever the pressure, 5 gal of drawdown, 2 gpm of use: off 2.5 min,
// on 5/(8 − 2) = 0.833 min, 60/3.333 = 18 starts an hour; at 4 gpm it would be 24.
func TestAccumulator_cycles(t *testing.T) {
	flat := tank.PumpCurve{{Flow: 0, Head: 1000}, {Flow: 7.999 * units.GallonPerMinute, Head: 900}, {Flow: 8 * units.GallonPerMinute, Head: 0}}
	a := tank.Accumulator{Volume: 1, Precharge: 30 * units.PSI, CutIn: 30 * units.PSI, CutOut: 50 * units.PSI, Site: 14.7 * units.PSIA}
	a.Volume = units.Volume(float64(5*units.Gallon) / float64(must[units.Volume](t)(a.Drawdown())))
	for _, c := range []struct {
		use     units.VolumeFlow
		printed string
	}{{2 * units.GallonPerMinute, "18.0 starts/h"}, {4 * units.GallonPerMinute, "24.0 starts/h"}} {
		got := must[*tank.Cycling](t)(a.Cycles(flat, 0, cold, c.use))
		worked.Check(t, worked.Case{
			Question: "How often does the feed pump start?", Source: "60/(5/use + 5/(8 − use)), by hand", Status: worked.Identity,
			Given: []string{"pump 8 gpm", "drawdown 5 gal", "use " + c.use.Text(units.GallonPerMinute, 0)}, Printed: c.printed, Got: got.PerHour,
		})
	}
}

// A pump of 12 − 0.03 q² (ft, gpm) into 4 ft and 0.05 q² has 8 = 0.08 q²: 10 gpm at 9 ft.
// Two of them: 8 = (0.0075 + 0.05) q², 11.795 gpm, not 20.
func TestDeliver_parallel(t *testing.T) {
	var c tank.PumpCurve
	for q := 0.0; q <= 18; q += 0.25 {
		c = append(c, tank.PumpPoint{Flow: units.VolumeFlow(q) * units.GallonPerMinute, Head: units.Length(12-0.03*q*q) * units.Foot})
	}
	loss := units.Pressure(5 * float64(units.Foot) * float64(cold.Density) * float64(units.StandardGravity))
	line := []hydraulics.Element{hydraulics.RatedLoss{Flow: 10 * units.GallonPerMinute, Pressure: loss}}
	for _, x := range []struct {
		question, printed string
		pumps             []tank.PumpCurve
	}{{"What does the transfer pump give?", "10.00 gpm", []tank.PumpCurve{c}}, {"And with the stand-by pump running beside it?", "11.80 gpm", []tank.PumpCurve{c, c}}} {
		d := must[*tank.Delivery](t)(tank.Deliver(x.pumps, 4*units.Foot, line, cold))
		worked.Check(t, worked.Case{Question: x.question, Source: "12 − 0.03 q² = 4 + 0.05 Q² by hand", Status: worked.Identity,
			Given: []string{"H = 12 ft − 0.03 q²", "4 ft up", "5 ft lost at 10 gpm"}, Printed: x.printed, Got: d.Flow.In(units.GallonPerMinute)})
	}
}

// Two such pumps behind one switch: 60/(5/4 + 5/(16 − 4)) = 36 starts an hour.
func TestPumpCurve_SideBySide(t *testing.T) {
	flat := tank.PumpCurve{{Flow: 0, Head: 1000}, {Flow: 7.999 * units.GallonPerMinute, Head: 900}, {Flow: 8 * units.GallonPerMinute, Head: 0}}
	two := must[tank.PumpCurve](t)(flat.SideBySide(2))
	a := tank.Accumulator{Volume: 1, Precharge: 30 * units.PSI, CutIn: 30 * units.PSI, CutOut: 50 * units.PSI, Site: 14.7 * units.PSIA}
	a.Volume = units.Volume(float64(5*units.Gallon) / float64(must[units.Volume](t)(a.Drawdown())))
	got := must[*tank.Cycling](t)(a.Cycles(two, 0, cold, 4*units.GallonPerMinute))
	worked.Check(t, worked.Case{
		Question: "And with two of the pumps behind one switch?", Source: "60/(5/4 + 5/(16 − 4)), by hand", Status: worked.Identity,
		Given: []string{"2 pumps of 8 gpm", "drawdown 5 gal", "use 4 gpm"}, Printed: "36.0 starts/h", Got: got.PerHour,
	})
	both := must[*tank.Delivery](t)(tank.Deliver([]tank.PumpCurve{flat, flat}, 4*units.Foot, nozzled, cold))
	one := must[*tank.Delivery](t)(tank.Deliver([]tank.PumpCurve{two}, 4*units.Foot, nozzled, cold))
	if d := float64(both.Flow/one.Flow) - 1; d > 1e-9 || d < -1e-9 {
		t.Errorf("two pumps give %v, one of twice the flow %v", both.Flow, one.Flow)
	}
	for _, n := range []int{0, -1, 101} {
		if _, err := flat.SideBySide(n); err == nil {
			t.Errorf("%d pumps accepted", n)
		}
	}
	if flat[1].Flow != 7.999*units.GallonPerMinute {
		t.Error("the curve of one pump has changed")
	}
}

// nozzled is a line that takes 20 psi at 10 gpm.
var nozzled = []hydraulics.Element{hydraulics.RatedLoss{Flow: 10 * units.GallonPerMinute, Pressure: 20 * units.PSI}}

func TestBoost(t *testing.T) {
	b := must[units.Length](t)(tank.Boost(8*units.Foot, 9*units.Foot, 3*units.Foot))
	worked.Check(t, worked.Case{Question: "8 ft of suction head, 9 ft needed and 3 ft wanted in reserve: what must a feed pump add?", Source: "9 + 3 − 8", Status: worked.Identity,
		Given: []string{"8 ft", "9 ft", "3 ft"}, Printed: "4 ft", Got: b.In(units.Foot)})
	if b := must[units.Length](t)(tank.Boost(20*units.Foot, 9*units.Foot, 3*units.Foot)); b != 0 {
		t.Errorf("%v asked of a feed pump where none is needed", b)
	}
}
