package rig_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// An engine that is not at full load runs a little faster, and the pump with
// it. Rig B's engine gives 20.7 hp at full load; with one gun open the pump
// takes 2,900 psi times its flow and the belt generator 1.16 hp. With a droop
// of 4 % and 3,750 rpm without load: x = (13.62·(1 + d) + 1.16)/20.7,
// d = 0.04·(1 − x), which meets at d = 0.01118 and 6.876 gpm.
func TestCoupling_governor(t *testing.T) {
	r := assessed(t, demoModel(t, "B", rig.Set("engines[washer].no_load_speed", "3750 rpm"), rig.Set("engines[washer].droop", "4 %")))
	s, err := r.Model().ParseState("guns=left heat=steady")
	if err != nil {
		t.Fatal(err)
	}
	d := 0.0
	for range 50 {
		d = 0.04 * (1 - (13.6162*(1+d)+1.1639)/20.7)
	}
	speed, ok := r.At("engines[washer].speed", s)
	if !ok {
		t.Fatal("no speed")
	}
	if got, want := speed.Value.SI()/float64(units.RPM), 3750/1.04*(1+d); math.Abs(got-want) > 0.2 { // inputs of the hand sum have five digits
		t.Errorf("speed %.2f rpm, hand sum %.2f", got, want)
	}
	gun, _ := r.At("lines[left].flow", s)
	bypass, _ := r.At("pumps[main].bypass_flow", s)
	if got, want := (gun.Value.SI()+bypass.Value.SI())/float64(units.GallonPerMinute), 6.8*(1+d); math.Abs(got-want) > 1e-3 {
		t.Errorf("pump flow %.4f gpm, hand sum %.4f", got, want)
	}
}

// The coupled state closes: the speed is that of the load, and the load that of
// the speed.
func TestCoupling_closes(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		for i := range s.Engines {
			s.Engines[i].NoLoadSpeed = units.RotationalSpeed(g.Float(1800, 4000)) * units.RPM
			s.Engines[i].Droop = units.Ratio(g.Float(0.005, 0.15))
		}
		m, r, err := mustModel(s)
		if err != nil {
			return err
		}
		resolved := m.Spec()
		for k, e := range resolved.Engines {
			full := float64(e.GrossPower) * float64(e.ContinuousShare)
			for x := range r.All(rig.Path("engines[" + e.ID + "].speed")) {
				text := x.State.String() + " site=afternoon"
				if len(s.Loads) > 0 {
					text += " plugs=as-listed"
				}
				st, err := m.ParseState(text)
				if err != nil {
					return err
				}
				demand, ok := r.At(rig.Path("engines["+e.ID+"].demand"), st)
				if !ok {
					continue // a stuck burner has no budget
				}
				load := math.Min(demand.Value.SI()/full, 1)
				want := float64(resolved.Engines[k].NoLoadSpeed) / (1 + float64(e.Droop)) * (1 + float64(e.Droop)*(1-load))
				if d := math.Abs(x.Value.SI()-want) / want; d > 1e-9 {
					return fmt.Errorf("engine %s: speed off by %g in %v", e.ID, d, x.State)
				}
			}
		}
		return nil
	})
}
