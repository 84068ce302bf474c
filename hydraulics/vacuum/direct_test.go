package vacuum

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// anyDirect draws a plant of one hose and no second hole, with its liquid.
func anyDirect(g *property.G) (Plant, error) {
	b, err := NewBlower(BlowerPlate{
		Points:  []BlowerPoint{{Lift: units.Pressure(g.Float(10e3, 35e3))}, {Flow: units.VolumeFlow(g.Float(0.03, 0.1))}},
		Between: property.OneOf(g, Straight, Parabola), Air: StandardAir(), Type: Centrifugal, OpenPower: 1000, SealedPower: 600,
	})
	if err != nil {
		return Plant{}, err
	}
	water, err := Water(units.Celsius(g.Float(1, 45)))
	if err != nil {
		return Plant{}, err
	}
	length := g.Float(3, 40)
	p := Plant{
		Air:    Air{Pressure: units.AbsolutePressure(g.Float(70e3, 103e3)), Temperature: units.Kelvin(g.Float(265, 315))},
		Liquid: water, Hoses: g.Int(1, 2), Motors: Parallel(b, g.Int(1, 3)),
	}
	if g.Bool() {
		p.Motors = Series(b, g.Int(1, 2))
	}
	hose := Hose{Bore: units.Length(g.Float(0.03, 0.08)), Length: units.Length(length), Rise: units.Length(g.Float(0, 2))}
	if g.Bool() {
		hose.Corrugated = units.Ratio(g.Float(1, 3))
	}
	p.Path = []Element{RatedLoss{Flow: 0.05, Loss: units.Pressure(g.Float(0, 5e3)), Air: StandardAir()}, &hose}
	if g.Bool() {
		p.Path = append(p.Path, Fitting{K: g.Float(0, 3), Bore: hose.Bore})
	}
	if g.Bool() {
		p.Duct = []Element{RatedLoss{Flow: 0.1, Loss: units.Pressure(g.Float(0, 4e3)), Linear: units.Ratio(g.Float(0, 1)), Air: StandardAir()}}
	}
	return p, nil
}

// A direct plant settles where the long way, which passes the hose and brackets the
// flow, settles it: air and vacua within the tolerance of both, 1e-10 of the greatest
// flow, which the lift of the motors turns into as much of the vacuum.
func TestDirect_longWay(t *testing.T) {
	kinds := map[Regime]int{}
	used, picked := 0, 0
	property.Check(t, func(g *property.G) error {
		p, err := anyDirect(g)
		if err != nil {
			return err
		}
		f, err := p.Fit()
		if err != nil {
			return err
		}
		if !f.rig.direct {
			return fmt.Errorf("not direct")
		}
		long, err := p.compile(true)
		if err != nil {
			return err
		}
		long.direct = false
		water := units.VolumeFlow(0)
		if g.Bool() {
			water = units.VolumeFlow(g.LogFloat(1e-5, 1e-3))
		}
		got, err := f.Operate(water)
		if err != nil {
			return err
		}
		want, err := p.operate(long, water, 0, false)
		if err != nil {
			return err
		}
		plain, err := p.Operate(water)
		if err != nil {
			return err
		}
		kinds[want.Regime]++
		top := units.MassFlow(long.open)
		for _, op := range []Operation{got, plain} {
			if op.Regime != want.Regime || math.Abs(float64(op.Air-want.Air)) > 1e-9*float64(top) ||
				math.Abs(float64(op.Tank-want.Tank)) > 1e-7*float64(want.Tank)+1e-5 || math.Abs(float64(op.Motors-want.Motors)) > 1e-7*float64(want.Motors)+1e-5 {
				return fmt.Errorf("directly %+v\nthe long way %+v", op, want)
			}
		}
		trial := f.rig.start()
		if water > 0 {
			trial.liquid = float64(water) / (f.rig.n * f.rig.flow.vl)
		}
		if f.rig.settleDirect(&trial, f.near(water)) {
			used++
		}
		u, err := f.PickUp(f.carry)
		if err != nil {
			return err
		}
		v, err := p.pickUp(long, f.carry, false)
		if err != nil {
			return err
		}
		if u.Rate > 0 {
			picked++
		}
		for _, x := range [][2]units.VolumeFlow{{u.Rate, v.Rate}, {u.Low, v.Low}, {u.High, v.High}} {
			if math.Abs(float64(x[0]-x[1])) > 1e-9*float64(x[1])+1e-12 {
				return fmt.Errorf("pick-up directly %+v, the long way %+v", u, v)
			}
		}
		if u.Limit != v.Limit || math.Abs(float64(u.Tank-v.Tank)) > 1e-7*float64(v.Tank)+1e-5 {
			return fmt.Errorf("pick-up directly %+v, the long way %+v", u, v)
		}
		return nil
	})
	n := kinds[Dry] + kinds[Carried] + kinds[Slugging]
	if n >= 100 && (kinds[Carried] == 0 || kinds[Slugging] == 0 || used < n*9/10 || picked < n/2) {
		t.Errorf("of %v %d settled directly, %d picked something up", kinds, used, picked)
	}
}

// The pressure before a piece is the one that gives the pressure behind it.
func TestPiece_before(t *testing.T) {
	g, f := testFlow(t)
	property.Check(t, func(p *property.G) error {
		c := piece{c1: p.LogFloat(1e2, 1e5), c2: p.LogFloat(1e3, 1e7)}
		f := f
		f.air = p.LogFloat(1e-5, 0.2)
		if p.Bool() {
			f.liquid = p.LogFloat(1e-5, 1)
		}
		q, ok := c.pass(&f, g.p)
		if !ok {
			return property.ErrDiscard
		}
		if back := c.before(&f, q); math.Abs(back-g.p) > 1e-12*g.p {
			return fmt.Errorf("before %.12g Pa, behind %.12g, and back %.12g", g.p, q, back)
		}
		return nil
	})
}

// What a fitted plant answers does not depend on what it was asked before, nor on the
// plant that it held.
func TestFitted_history(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		first, err := anyDirect(g)
		if err != nil {
			return err
		}
		p, err := anyDirect(g)
		if err != nil {
			return err
		}
		water := units.VolumeFlow(g.LogFloat(1e-5, 1e-3))
		a, err := p.Fit()
		if err != nil {
			return err
		}
		want, err := a.Operate(water)
		if err != nil {
			return err
		}
		b, err := first.Fit()
		if err != nil {
			return err
		}
		if _, err := b.Operate(water); err != nil {
			return err
		}
		q := p
		if g.Bool() {
			q.Motors, q.Duct = first.Motors, first.Duct
		}
		if err := b.Refit(q); err != nil {
			return err
		}
		if err := b.Equip(p.Motors, p.Duct); err != nil {
			return err
		}
		for _, w := range []units.VolumeFlow{water / 3, 0} {
			if _, err := b.Operate(w); err != nil {
				return err
			}
		}
		if _, err := b.PickUp(12); err != nil {
			return err
		}
		if _, err := b.PickUp(b.carry); err != nil {
			return err
		}
		got, err := b.Operate(water)
		if err != nil {
			return err
		}
		if got.Air != want.Air || got.Tank != want.Tank || got.Load != want.Load {
			return fmt.Errorf("asked first %+v, asked last %+v", want, got)
		}
		return nil
	})
}

// Plants and dumps that are fitted one after another ask for no memory.
func TestFitted_memory(t *testing.T) {
	water, err := Water(units.Celsius(30))
	if err != nil {
		t.Fatal(err)
	}
	plate := BlowerPlate{Points: []BlowerPoint{{Lift: 27e3}, {Flow: 0.055}}, Between: Straight, Air: StandardAir()}
	heads := []DumpPoint{{Head: 8}, {Flow: 1.2e-3}}
	var b Blower
	var pump DumpPump
	var f Fitted
	var fd FittedDump
	hose := Hose{Bore: 0.05, Length: 8, Rise: 1}
	p := Plant{Air: StandardAir(), Liquid: water, Hoses: 1, Motors: Bank{{&b, 2}}, Path: []Element{&hose}}
	d := Dump{Pump: &pump, Running: 1, Liquid: water, Rise: 1, Bore: 0.025, Length: 4, K: 2, CheckValve: true,
		Filters: Train{{Flow: 6e-4, Clean: 3e3, Dirty: 2e4, Linear: 0.3}}}
	once := func() {
		for _, err := range []error{b.Redraw(plate), pump.Redraw(heads, Straight), f.Refit(p), fd.Refit(d)} {
			if err != nil {
				t.Fatal(err)
			}
		}
		for _, w := range []units.VolumeFlow{0, 1e-4, 3e-4} {
			op, err := f.Operate(w)
			if err != nil {
				t.Fatal(err)
			}
			if _, _, err := fd.Flow(op.Tank); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := f.PickUp(15); err != nil {
			t.Fatal(err)
		}
	}
	once()
	if n := testing.AllocsPerRun(20, once); n != 0 {
		t.Errorf("%g allocations", n)
	}
}
