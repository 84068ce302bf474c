package hydraulics_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// regulate puts regulators before some sections of a tree; it gives every pump a way
// out.
func regulate(g *property.G, n *hydraulics.Network) {
	for i := range n.Supplies {
		if s := &n.Supplies[i]; s.Unloader.Kind == hydraulics.NoUnloader && !s.Relief.Given() && s.Leakage.Flow == 0 {
			s.Relief.Set = psi(g.LogFloat(500, 5000))
		}
	}
	for i := range n.Sections {
		if g.Pick(3) > 0 {
			continue
		}
		r := &hydraulics.Regulator{Set: psi(g.LogFloat(5, 3000))}
		n.Sections[i].Regulator = r
		if g.Bool() {
			r.Droop, r.Flow = r.Set*units.Pressure(g.Float(0, 0.5)), gpm(g.LogFloat(1, 20))
		}
	}
}

// With regulators anywhere in the tree, one behind another too, every section keeps its
// law, and the regulators theirs: no more behind than they hold, and nothing taken where
// there is less before.
func TestRegulator_keepsItsLaw(t *testing.T) {
	for _, wild := range []bool{false, true} {
		t.Run(fmt.Sprintf("wild=%v", wild), func(t *testing.T) {
			var w hydraulics.Workspace
			var r hydraulics.Result
			worked, idle := 0, 0
			property.Check(t, func(g *property.G) error {
				n := tree(g, wild)
				regulate(g, n)
				if err := w.Solve(n, &r); err != nil {
					return err
				}
				for i := range n.Sections {
					if n.Sections[i].Regulator != nil && r.Sections[i].Mass > 0 {
						if r.Sections[i].Regulated > 0 {
							worked++
						} else {
							idle++
						}
					}
				}
				fresh, err := hydraulics.Solve(n)
				if err != nil {
					return err
				}
				if d := cmp.Diff(*fresh, r, cmpopts.EquateEmpty()); d != "" {
					return fmt.Errorf("a kept workspace answers otherwise (-fresh +kept):\n%s", d)
				}
				return audit(n, &r)
			})
			if worked == 0 || idle == 0 {
				t.Errorf("%d regulators worked, %d stood open: both should have happened", worked, idle)
			}
		})
	}
}

// A lower set point never raises the pressure behind it, and never lowers it anywhere
// else that does not lie behind it.
func TestRegulator_sparesTheOthers(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		n := tree(g, false)
		regulate(g, n)
		at := g.Int(0, len(n.Sections)-1)
		n.Sections[at].Regulator = &hydraulics.Regulator{Set: psi(g.LogFloat(50, 3000))}
		high, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		n.Sections[at].Regulator.Set *= units.Pressure(g.Float(0.2, 1))
		low, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		behind := make([]bool, len(n.Sections))
		near := max(nearby(high), nearby(low))
		for i := range n.Sections {
			behind[i] = i == at || n.Sections[i].Parent >= 0 && behind[n.Sections[i].Parent]
			a, b := high.Sections[i].Outlet, low.Sections[i].Outlet
			switch {
			case behind[i] && b > a+near:
				return fmt.Errorf("section %d behind the regulator rises from %v to %v", i, a, b)
			case !behind[i] && b < a-near:
				return fmt.Errorf("section %d beside the regulator falls from %v to %v", i, a, b)
			}
		}
		return nil
	})
}

// One side of a pump works at high pressure, the other through a regulator at a tenth of
// it; the guns on both sides may close.
func regulated() *hydraulics.Network {
	n := twoGuns()
	n.Sections[2].Regulator = &hydraulics.Regulator{Part: hydraulics.Part{Name: "regulator", MaxPressure: psi(5000)}, Set: psi(300)}
	return n
}

func TestRegulator_states(t *testing.T) {
	n := regulated()
	r, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	if s := &r.Sections[2]; math.Abs(float64(s.Inlet-s.Regulated-psi(300))) > 1 || s.Inlet < psi(2500) {
		t.Errorf("behind the regulator stand %v of %v", s.Inlet-s.Regulated, s.Inlet)
	}
	n.Sections[2].Outlet.Closed = true
	if r, err = hydraulics.Solve(n); err != nil {
		t.Fatal(err)
	}
	if s := &r.Sections[2]; s.Flow != 0 || math.Abs(float64(s.Outlet-psi(300))) > 1 {
		t.Errorf("shut in behind the regulator stand %v", s.Outlet)
	}
	n.Sections[1].Outlet.Closed = true
	if r, err = hydraulics.Solve(n); err != nil {
		t.Fatal(err)
	}
	if s := &r.Sections[2]; math.Abs(float64(s.Outlet-psi(300))) > 1 || math.Abs(float64(r.Sections[1].Outlet-psi(2900))) > 1 {
		t.Errorf("all closed: %v with the regulator, %v without", s.Outlet, r.Sections[1].Outlet)
	}
	// Alone, it passes less than the pump moves, and the unloader takes the rest.
	n.Sections[2].Outlet.Closed = false
	if r, err = hydraulics.Solve(n); err != nil {
		t.Fatal(err)
	}
	if r.Supplies[0].Bypass <= 0 || r.Pressure != psi(2900) || r.Supplies[0].Unloader != hydraulics.Regulating {
		t.Errorf("alone: %v in the manifold, %v bypassed", r.Pressure, r.Supplies[0].Bypass)
	}
	// Without one the pump has nowhere to go, and what bursts stands before the regulator.
	n.Supplies[0].Unloader, n.Supplies[0].Relief, n.Supplies[0].Leakage = hydraulics.Unloader{}, hydraulics.Relief{}, hydraulics.Leakage{}
	hose := hydraulics.Hose{Part: hydraulics.Part{Name: "hose behind", MaxPressure: psi(400)}, Bore: 9.5e-3, Length: 10}
	n.Sections[2].Elements = append(n.Sections[2].Elements, hose)
	_, err = hydraulics.Solve(n)
	if dead, ok := err.(*hydraulics.DeadHeadError); !ok || !errors.Is(err, hydraulics.ErrDeadHead) || dead.Part == "hose behind" {
		t.Errorf("a pump against a regulator: %v", err)
	}
	parts, err := regulated().PathParts(2)
	if err != nil || !contains(parts, "regulator") {
		t.Errorf("the plates on the way: %v, %v", parts, err)
	}
}

func contains(parts []hydraulics.Part, name string) bool {
	for _, p := range parts {
		if p.Name == name {
			return true
		}
	}
	return false
}

// A flow-actuated unloader that opens drops the pressure before the regulator below its
// set point: it must not go on holding.
func TestRegulator_behindADumpingUnloader(t *testing.T) {
	n := regulated()
	n.Sections[1].Outlet.Closed = true
	u := &n.Supplies[0].Unloader
	u.Kind, u.Actuation, u.Bypass = hydraulics.FlowActuated, n.Supplies[0].Flow, psi(50)
	r, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	if s := &r.Sections[2]; r.Supplies[0].Unloader != hydraulics.Dumping || s.Regulated != 0 || s.Inlet > psi(50) {
		t.Errorf("%v, %v taken of %v", r.Supplies[0].Unloader, s.Regulated, s.Inlet)
	}
}

func TestRegulator_refuses(t *testing.T) {
	for name, r := range map[string]hydraulics.Regulator{
		"no set point":     {Part: hydraulics.Part{Name: "regulator"}},
		"negative":         {Set: -1},
		"not a number":     {Set: units.Pressure(math.NaN())},
		"droop past all":   {Set: psi(100), Droop: psi(200), Flow: gpm(5)},
		"droop of no flow": {Set: psi(100), Droop: psi(20)},
		"endless flow":     {Set: psi(100), Droop: psi(20), Flow: units.VolumeFlow(math.Inf(1))},
	} {
		n := twoGuns()
		n.Sections[2].Regulator = &r
		var field *units.FieldError
		if err := n.Validate(); !errors.As(err, &field) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
