package hydraulics_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// anyElements draws a line of one to five elements of every kind.
func anyElements(g *property.G) []hydraulics.Element {
	var out []hydraulics.Element
	for range g.Int(1, 5) {
		bore := units.Length(g.LogFloat(4e-3, 0.1))
		switch g.Pick(6) {
		case 0:
			out = append(out, hydraulics.Hose{Bore: bore, Length: units.Length(g.LogFloat(0.1, 100)), Roughness: bore * units.Length(g.Float(0, 0.05))})
		case 1:
			out = append(out, &hydraulics.Coil{Bore: bore, Length: units.Length(g.LogFloat(1, 100)), Helix: bore * units.Length(g.Float(10, 100))})
		case 2:
			out = append(out, hydraulics.Fitting{K: g.Float(0, 10), Bore: bore})
		case 3:
			out = append(out, hydraulics.StaticHeight{Rise: units.Length(g.Float(-10, 10))})
		case 4:
			out = append(out, &hydraulics.RatedLoss{Flow: 1e-3, Pressure: units.Pressure(g.LogFloat(1e2, 1e5)), Linear: units.Ratio(g.Float(0, 1))})
		case 5:
			out = append(out, hydraulics.CheckValve{Cracking: units.Pressure(g.Float(0, 1e4)), K: g.Float(0, 5), Bore: bore})
		}
	}
	return out
}

// A run takes at a flow what the network takes that carries the flow: element by
// element, to what Solve leaves of the flow, 1e-10, and to rounding of the sums. Its
// derivative is that of the loss.
func TestRun_isNetwork(t *testing.T) {
	var r hydraulics.Run
	property.Check(t, func(g *property.G) error {
		n := &hydraulics.Network{
			Fluid:    hydraulics.Fluid{Density: units.Density(g.Float(800, 1200)), Viscosity: units.DynamicViscosity(g.LogFloat(1e-4, 1e-1))},
			Supplies: []hydraulics.Supply{{Flow: units.VolumeFlow(g.LogFloat(1e-6, 1e-2))}},
			Sections: []hydraulics.Section{{Name: "line", Parent: hydraulics.Manifold, Elements: anyElements(g), Outlet: &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: 1e4}}}}},
		}
		want, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		if err := r.Set(n.Fluid, "line", n.Sections[0].Elements); err != nil {
			return err
		}
		q := n.Supplies[0].Flow
		for range 2 { // again, from where the last one ended
			loss, slope := r.Loss(q)
			sum, size := 0.0, 0.0
			for i, e := range want.Sections[0].Elements {
				got := r.Element(i)
				sum += float64(e.Loss)
				size += math.Abs(float64(e.Loss))
				if math.Abs(float64(got.Loss-e.Loss)) > 1e-9*math.Abs(float64(e.Loss)) || got.Regime != e.Regime || math.Abs(float64(got.Velocity-e.Velocity)) > 1e-9*float64(e.Velocity) {
					return fmt.Errorf("element %d: %+v, in a network %+v", i, got, e)
				}
			}
			if r.Elements() != len(want.Sections[0].Elements) || math.Abs(float64(loss)-sum) > 1e-9*size {
				return fmt.Errorf("%v over %d elements, in a network %v", loss, r.Elements(), sum)
			}
			// A difference over a thousandth of the flow: a loss is a smooth power of
			// the flow, below the third, within each regime.
			const h = 1e-4
			up, _ := r.Loss(q * (1 + h))
			down, _ := r.Loss(q * (1 - h))
			if d := float64(up-down) / (2 * h * float64(q)); math.Abs(d-slope) > 1e-3*slope+1e-6*size/float64(q) {
				return fmt.Errorf("slope %g, by difference %g", slope, d)
			}
		}
		return nil
	})
}

// Without flow only heights and closed valves count; what is wrong is named; nothing is
// allocated.
func TestRun_edges(t *testing.T) {
	var r hydraulics.Run
	water := hydraulics.Fluid{Density: 1000, Viscosity: 1e-3}
	hose := &hydraulics.Hose{Bore: 0.02, Length: 10}
	elements := []hydraulics.Element{hose, hydraulics.StaticHeight{Rise: 1}, hydraulics.CheckValve{Cracking: 500}}
	if err := r.Set(water, "line", elements); err != nil {
		t.Fatal(err)
	}
	loss, slope := r.Loss(0)
	if want := 1000*float64(units.StandardGravity) + 500; math.Abs(float64(loss)-want) > 1e-9*want {
		t.Errorf("at rest %v, want %v", float64(loss), want)
	}
	// Hagen and Poiseuille: 128 μ L/(π d⁴)
	if want := 128 * 1e-3 * 10 / (math.Pi * math.Pow(0.02, 4)); math.Abs(slope/want-1) > 1e-12 {
		t.Errorf("at rest the slope is %g, want %g", slope, want)
	}
	if n := testing.AllocsPerRun(20, func() {
		if err := r.Set(water, "line", elements); err != nil {
			t.Fatal(err)
		}
		r.Loss(1e-3)
		r.Element(0)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
	err := r.Set(hydraulics.Fluid{}, "line", []hydraulics.Element{hydraulics.Hose{}})
	var f *units.FieldError
	if !errors.As(err, &f) || f.Path != "fluid.density" {
		t.Errorf("no fluid: %v", err)
	}
	if err := r.Set(water, "line", []hydraulics.Element{hydraulics.Hose{}}); !errors.As(err, &f) || f.Path != "sections[line].elements[#1].bore" {
		t.Errorf("no bore: %v", err)
	}
}
