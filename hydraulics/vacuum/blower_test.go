package vacuum_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func TestNewBlower_refuses(t *testing.T) {
	for _, c := range []struct {
		name, path string
		kind       error
		spoil      func(*vacuum.BlowerPlate)
	}{
		{"no points", "points", units.ErrMissing, func(b *vacuum.BlowerPlate) { b.Points = nil }},
		{"one point", "points", units.ErrMissing, func(b *vacuum.BlowerPlate) { b.Points = b.Points[:1] }},
		{"not from sealed", "points[#1].flow", units.ErrRange, func(b *vacuum.BlowerPlate) { b.Points[0].Flow = cfm(1) }},
		{"not to open", "points[#2].lift", units.ErrRange, func(b *vacuum.BlowerPlate) { b.Points[1].Lift = inH2O(1) }},
		{"flow falls", "points[#2].flow", units.ErrConflict, func(b *vacuum.BlowerPlate) { b.Points[1].Flow = -cfm(1) }},
		{"flow NaN", "points[#2].flow", units.ErrRange, func(b *vacuum.BlowerPlate) { b.Points[1].Flow = units.VolumeFlow(math.NaN()) }},
		{"lift rises", "points[#2].lift", units.ErrConflict, func(b *vacuum.BlowerPlate) {
			b.Points = []vacuum.BlowerPoint{{Lift: inH2O(50)}, {Flow: cfm(50), Lift: inH2O(60)}, {Flow: cfm(100)}}
			b.Between = 0
		}},
		{"no shape", "between", units.ErrMissing, func(b *vacuum.BlowerPlate) { b.Between = 0 }},
		{"unknown shape", "between", units.ErrMissing, func(b *vacuum.BlowerPlate) { b.Between = 9 }},
		{"a shape for three points", "between", units.ErrConflict, func(b *vacuum.BlowerPlate) {
			b.Points = []vacuum.BlowerPoint{{Lift: inH2O(50)}, {Flow: cfm(50), Lift: inH2O(30)}, {Flow: cfm(100)}}
		}},
		{"no air", "air.pressure", units.ErrMissing, func(b *vacuum.BlowerPlate) { b.Air = vacuum.Air{} }},
		{"air of a mine", "air.pressure", units.ErrRange, func(b *vacuum.BlowerPlate) { b.Air.Pressure = 1e6 }},
		{"oven", "air.temperature", units.ErrRange, func(b *vacuum.BlowerPlate) { b.Air.Temperature = units.Celsius(200) }},
		{"more than the air", "points[#1].lift", units.ErrConflict, func(b *vacuum.BlowerPlate) {
			b.Points[0].Lift, b.Air.Pressure = 90e3, 85e3
		}},
		{"powers without type", "type", units.ErrMissing, func(b *vacuum.BlowerPlate) { b.Type = 0 }},
		{"one power", "sealedPower", units.ErrMissing, func(b *vacuum.BlowerPlate) { b.SealedPower = 0 }},
		{"a fan that works when sealed", "sealedPower", units.ErrConflict, func(b *vacuum.BlowerPlate) { b.SealedPower = 2000 }},
		{"lobes that do not", "sealedPower", units.ErrConflict, func(b *vacuum.BlowerPlate) { b.Type = vacuum.Displacement }},
		{"unknown type", "type", units.ErrRange, func(b *vacuum.BlowerPlate) { b.Type = 7 }},
	} {
		t.Run(c.name, func(t *testing.T) {
			plate := motorPlate()
			c.spoil(&plate)
			b, err := vacuum.NewBlower(plate)
			if b != nil {
				t.Error("a blower is made all the same")
			}
			refused(t, err, c.path, c.kind)
		})
	}
}

// A curve of many points passes through each, falls everywhere, and does not change
// when a point that lies on it is added to two.
func TestBlower_curve(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		n := g.Int(2, 7)
		plate := vacuum.BlowerPlate{Air: vacuum.StandardAir()}
		q, h := units.VolumeFlow(0), inH2O(g.Float(20, 140))
		for i := range n {
			if i == n-1 {
				h = 0
			}
			plate.Points = append(plate.Points, vacuum.BlowerPoint{Flow: q, Lift: h})
			q += cfm(g.Float(5, 40))
			h *= units.Pressure(g.Float(0.3, 0.95))
		}
		if n == 2 {
			plate.Between = property.OneOf(g, vacuum.Straight, vacuum.Parabola)
		}
		b, err := vacuum.NewBlower(plate)
		if err != nil {
			return err
		}
		for _, pt := range plate.Points {
			got, err := b.Lift(vacuum.StandardAir(), pt.Flow)
			if err != nil {
				return err
			}
			if math.Abs(float64(got-pt.Lift)) > 1e-6 {
				return fmt.Errorf("at %v the curve makes %v, the sheet %v", pt.Flow, got, pt.Lift)
			}
		}
		last := math.Inf(1)
		for i := range 100 {
			got, err := b.Lift(vacuum.StandardAir(), min(b.OpenFlow()*units.VolumeFlow(i)/99, b.OpenFlow()))
			if err != nil {
				return err
			}
			if !(float64(got) < last) || got < 0 {
				return fmt.Errorf("lift rises from %v to %v Pa at share %d/99 of the open flow", last, float64(got), i)
			}
			last = float64(got)
		}
		if b.OpenFlow() != plate.Points[n-1].Flow || b.SealedLift() != plate.Points[0].Lift {
			return fmt.Errorf("ends %v, %v", b.OpenFlow(), b.SealedLift())
		}
		return nil
	})
}

func TestBlower_shapes(t *testing.T) {
	plate := motorPlate()
	half := func() float64 {
		return inInches(must(must(vacuum.NewBlower(plate))(t).Lift(vacuum.StandardAir(), cfm(60)))(t))
	}
	if got := half(); math.Abs(got-55) > 1e-9 {
		t.Errorf("straight: %.6f in at half the flow, want 55", got)
	}
	plate.Between = vacuum.Parabola
	if got := half(); math.Abs(got-82.5) > 1e-9 {
		t.Errorf("parabola: %.6f in at half the flow, want 82.5", got)
	}
	if s := fmt.Sprint(vacuum.Straight, vacuum.Parabola, vacuum.Shape(0), vacuum.Shape(77), vacuum.Centrifugal, vacuum.Displacement, vacuum.Type(0), vacuum.Type(77)); s != "straight parabola no shape unknown shape centrifugal displacement no type unknown type" {
		t.Error(s)
	}
}

func TestBlower_refuses(t *testing.T) {
	b := motor(t)
	_, err := b.Lift(vacuum.StandardAir(), cfm(121))
	refused(t, err, "flow", units.ErrRange)
	_, err = b.Lift(vacuum.Air{}, 0)
	refused(t, err, "air.pressure", units.ErrMissing)
	var none *vacuum.Blower
	_, err = none.Lift(vacuum.StandardAir(), 0)
	refused(t, err, "blower", units.ErrMissing)
	bank := vacuum.Bank{{Blower: nil, Running: 1}}
	_, err = bank.Lift(vacuum.StandardAir(), 0)
	refused(t, err, "stages[#1].blower", units.ErrMissing)
	_, err = vacuum.Parallel(b, -1).Lift(vacuum.StandardAir(), 0)
	refused(t, err, "stages[#1].running", units.ErrRange)
	_, err = vacuum.Parallel(b, 2).Lift(vacuum.StandardAir(), cfm(241))
	refused(t, err, "flow", units.ErrRange)
	_, err = vacuum.Parallel(b, 0).Lift(vacuum.StandardAir(), cfm(1))
	refused(t, err, "flow", units.ErrRange)
	plate := motorPlate()
	plate.Type, plate.OpenPower, plate.SealedPower = 0, 0, 0
	_, err = vacuum.Parallel(must(vacuum.NewBlower(plate))(t), 1).Load(vacuum.StandardAir(), 0)
	refused(t, err, "stages[#1].blower.openPower", units.ErrMissing)
}

// Side by side flows add at one lift; behind one another lifts nearly add.
func TestBank_parallelAndSeries(t *testing.T) {
	b := motor(t)
	air := vacuum.StandardAir()
	property.Check(t, func(g *property.G) error {
		n := g.Int(1, 6)
		q := b.OpenFlow() * units.VolumeFlow(g.Float(0, 1))
		one, err := b.Lift(air, q)
		if err != nil {
			return err
		}
		many, err := vacuum.Parallel(b, n).Lift(air, q*units.VolumeFlow(n))
		if err != nil {
			return err
		}
		if math.Abs(float64(many-one)) > 1e-9*float64(b.SealedLift()) {
			return fmt.Errorf("%d side by side make %v at %d times the flow, one %v", n, many, n, one)
		}
		return nil
	})
	// Sealed: the stage at the tank delivers into 1 − 27.4/101.3 of the air, and
	// makes that share of its lift: 110 + 110 (1 − 110/406.78) = 190.25 in.
	got := inInches(must(vacuum.Series(b, 2).SealedLift(air))(t))
	if want := 110 + 110*(1-110/406.782); math.Abs(got-want) > 0.01 {
		t.Errorf("two in a row, sealed: %.3f in, want %.3f", got, want)
	}
	open := must(vacuum.Series(b, 2).OpenFlow(air))(t)
	if math.Abs(float64(open/b.OpenFlow())-1) > 1e-12 {
		t.Errorf("two in a row pass %v with no lift, one %v", open, b.OpenFlow())
	}
	// A small stage in front of a large one: no lift is made somewhere between their
	// open flows, and a little more than that is refused.
	plate := motorPlate()
	plate.Points[1].Flow = cfm(60)
	mixed := vacuum.Bank{{Blower: must(vacuum.NewBlower(plate))(t), Running: 1}, {Blower: b, Running: 1}}
	q := must(mixed.OpenFlow(air))(t)
	if !(q > cfm(60) && q < cfm(120)) {
		t.Errorf("60 and 120 cfm in a row are open at %.1f cfm", inCFM(q))
	}
	if h := must(mixed.Lift(air, q))(t); math.Abs(float64(h)) > 1e-3 {
		t.Errorf("open flow with a lift of %v", h)
	}
}

// Thin air makes less lift at the same volume, never more.
func TestBank_altitude(t *testing.T) {
	b := motor(t)
	property.Check(t, func(g *property.G) error {
		bank := vacuum.Parallel(b, g.Int(1, 3))
		if g.Bool() {
			bank = vacuum.Series(b, g.Int(1, 3))
		}
		air := vacuum.Air{Pressure: units.AbsolutePressure(g.Float(60e3, 105e3)), Temperature: units.Kelvin(g.Float(250, 320))}
		thin := air
		if g.Bool() {
			thin.Pressure *= units.AbsolutePressure(g.Float(0.6, 1))
		} else {
			thin.Temperature = units.Kelvin(g.Float(air.Temperature.Kelvin(), 330))
		}
		open, err := bank.OpenFlow(thin)
		if err != nil {
			return err
		}
		q := open * units.VolumeFlow(g.Float(0, 0.999))
		h, err1 := bank.Lift(air, q)
		l, err2 := bank.Lift(thin, q)
		if err1 != nil || err2 != nil {
			return fmt.Errorf("%v %v", err1, err2)
		}
		if l > h*(1+1e-12) {
			return fmt.Errorf("thin air: %v, thick air: %v", l, h)
		}
		return nil
	})
}

// The two types of blower go opposite ways as the hose is closed.
func TestBank_load(t *testing.T) {
	air := vacuum.StandardAir()
	fan := vacuum.Parallel(motor(t), 2)
	plate := motorPlate()
	plate.Type, plate.OpenPower, plate.SealedPower = vacuum.Displacement, 300, 1500
	lobes := vacuum.Parallel(must(vacuum.NewBlower(plate))(t), 2)
	at := func(b vacuum.Bank, a vacuum.Air, share float64) float64 {
		open := must(b.OpenFlow(a))(t)
		return float64(must(b.Load(a, open*units.VolumeFlow(share)))(t))
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"fans, open", at(fan, air, 1), 2200}, {"fans, half", at(fan, air, 0.5), 1800}, {"fans, sealed", at(fan, air, 0), 1400},
		{"lobes, open", at(lobes, air, 1), 600}, {"lobes, half", at(lobes, air, 0.5), 1800}, {"lobes, sealed", at(lobes, air, 0), 3000},
	} {
		if math.Abs(c.got-c.want) > 1e-9*c.want {
			t.Errorf("%s: %.6f W, want %.0f", c.what, c.got, c.want)
		}
	}
	rho := float64(must(mile.Density())(t)) / float64(must(air.Density())(t))
	if got, want := at(fan, mile, 0.5), 1800*rho; math.Abs(got-want) > 1e-9*want {
		t.Errorf("fans at half, 5,200 ft: %.3f W, want %.3f", got, want)
	}
	// Sealed lobes work against the lift of thin air, less than at sea level.
	if got, want := at(lobes, mile, 0), 2*(300+1200*rho); math.Abs(got-want) > 1e-9*want {
		t.Errorf("lobes sealed, 5,200 ft: %.3f W, want %.3f", got, want)
	}
	if got := float64(must(vacuum.Parallel(motor(t), 0).Load(air, 0))(t)); got != 0 {
		t.Errorf("motors that stand draw %v W", got)
	}
}
