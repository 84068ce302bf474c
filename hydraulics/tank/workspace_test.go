package tank_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// One workspace answers what suctions and fillings of their own answer, bit for bit,
// whatever it solved before; another level and another strainer make the head that the
// changed line has.
func TestWorkspace(t *testing.T) {
	var w tank.Workspace
	var head tank.SuctionHead
	var filled tank.FillFlow
	property.Check(t, func(g *property.G) error {
		s := suction(g)
		want, err := s.Head()
		if err != nil {
			return err
		}
		if err := w.Head(&s, &head); err != nil || !reflect.DeepEqual(head, *want) {
			return fmt.Errorf("%+v in a workspace, %+v without, %v", head, want, err)
		}
		other := s
		other.Level += units.Length(g.Float(-1, 1))
		if other.Strainer.Given() {
			other.Strainer.Blocked = units.Ratio(g.Float(0, 0.9))
		}
		if want, err = other.Head(); err != nil {
			return err
		}
		drop := units.Pressure(0)
		if other.Strainer.Given() {
			if drop, err = other.Strainer.Drop(other.Flow); err != nil {
				return err
			}
		}
		if got := head.With(other.Level, drop); math.Abs(float64(got.Available-want.Available)) > 1e-12 || got.Strainer != want.Strainer || got.Static != want.Static {
			return fmt.Errorf("with another level and strainer %+v, solved anew %+v", got, want)
		}
		f := tank.Filling{Supply: tank.Supply{Static: units.Pressure(g.Float(1e5, 6e5)), Residual: units.Pressure(g.Float(0, 9e4)), Flow: units.VolumeFlow(g.LogFloat(1e-4, 1e-2))},
			Line: s.Line, Lift: units.Length(g.Float(-2, 5)), Fluid: cold}
		fill, err := f.Flow()
		if err != nil {
			return err
		}
		if err := w.Fill(&f, &filled); err != nil || !reflect.DeepEqual(filled, *fill) {
			return fmt.Errorf("%+v in a workspace, %+v without, %v", filled, fill, err)
		}
		// what the main has left is what line and height take
		taken := fill.Lift
		for _, e := range fill.Elements {
			taken += e
		}
		if fill.Flow > 0 && math.Abs(float64(fill.Main-taken)) > 1e-9*float64(f.Supply.Static) {
			return fmt.Errorf("the main has %v left, line and height take %v", fill.Main, taken)
		}
		return nil
	})
}

// Elements count by pointer as by value, in cures too.
func TestCures_pointers(t *testing.T) {
	pipe, bend := hydraulics.Hose{Bore: 0.025, Length: 4}, hydraulics.Fitting{Bore: 0.025, K: 3}
	s := tank.Suction{Site: 9e4, Water: units.Celsius(20), Level: 0.5, Flow: 3e-4, Line: []hydraulics.Element{bend, pipe}}
	o := tank.CureOptions{Bore: 0.04}
	want := must[[]tank.Cure](t)(s.Cures(o))
	s.Line = []hydraulics.Element{&bend, &pipe}
	if got := must[[]tank.Cure](t)(s.Cures(o)); !reflect.DeepEqual(got, want) || len(want) == 0 {
		t.Errorf("by pointer %+v, by value %+v", got, want)
	}
}

// A workspace that has seen a line asks for no memory.
func TestWorkspace_memory(t *testing.T) {
	var w tank.Workspace
	var head tank.SuctionHead
	var filled tank.FillFlow
	var drained tank.Drained
	hose := hydraulics.Hose{Bore: 0.025, Length: 10}
	line := []hydraulics.Element{&hose}
	s := tank.Suction{Site: 9e4, Water: units.Celsius(20), Level: 0.5, Flow: 3e-4, Line: line, Strainer: tank.Strainer{Loss: 5e3, Flow: 3e-4},
		Pulsation: tank.Pulsation{Plungers: 3, Speed: 150, Line: tank.StiffPipe, Bore: 0.025, Length: 4, Liquid: 1.4}}
	f := tank.Filling{Supply: tank.Supply{Static: 4e5, Residual: 2e5, Flow: 3e-3}, Line: line, Lift: 1, Fluid: cold}
	d := tank.Drain{Shape: tank.UprightOf(1, 1), From: 1, To: 0.02, Outlet: tank.Opening{Bore: 0.05, Length: 1, K: 1.5}, Fluid: cold,
		Vent: tank.Vent{Bore: 0.04, Coefficient: 0.6, Air: 1.2}}
	once := func() {
		for _, err := range []error{w.Head(&s, &head), w.Fill(&f, &filled), d.Into(&drained)} {
			if err != nil {
				t.Fatal(err)
			}
		}
	}
	once()
	if n := testing.AllocsPerRun(20, once); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// What a full outlet passes at first is what its level drives through it, turbulent,
// laminar or in between, with a vent and without: the two are solved by different
// roads, each to 1e-12.
func TestDrain_firstFlow(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		bore := g.LogFloat(5e-3, 0.1)
		d := tank.Drain{Shape: tank.UprightOf(1, 1), From: units.Length(g.LogFloat(0.05, 1)), To: 0.02,
			Outlet: tank.Opening{Bore: units.Length(bore), Length: units.Length(g.Float(0, 20)), K: g.LogFloat(0.5, 50), Roughness: units.Length(bore * g.Float(0, 0.05))},
			Fluid:  hydraulics.Fluid{Density: 1000, Viscosity: units.DynamicViscosity(g.LogFloat(2e-4, 0.1))}}
		r, err := d.Drain()
		if err != nil {
			return err
		}
		want, err := d.Outlet.Flow(d.From, d.Fluid)
		if err != nil {
			return err
		}
		if math.Abs(float64(r.First-want)) > 1e-11*float64(want) {
			return fmt.Errorf("first %.15g, by its level %.15g", float64(r.First), float64(want))
		}
		d.Vent = tank.Vent{Bore: units.Length(g.LogFloat(2e-3, 0.05)), Coefficient: 0.6, Air: 1.2}
		if r, err = d.Drain(); err != nil {
			return err
		}
		head, err := d.Outlet.Head(r.First, d.Fluid)
		if err != nil {
			return err
		}
		column := float64(d.Fluid.Density) * float64(units.StandardGravity)
		if need := float64(head)*column + float64(r.Vacuum); math.Abs(need/(float64(d.From)*column)-1) > 1e-10 || math.Abs(float64(r.Unvented/want)-1) > 1e-11 {
			return fmt.Errorf("outlet and vent take %g Pa of %g", need, float64(d.From)*column)
		}
		return nil
	})
}
