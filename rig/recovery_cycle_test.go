package rig_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// The drum of rig B by steps of a second, with the flows of the report: while the
// vacuum runs it fills by what comes back less what the dump pump takes; at its
// float the vacuum stops until it is empty. The share of the time it picks up is
// that of the report.
func TestRecovery_cycleOfTheDrum(t *testing.T) {
	r := assessed(t, demoModel(t, "B", rig.Set("recovery[plant].dump_pump.run_out_flow", "8 gpm"), rig.Set("recovery[plant].dump_pump.shut_off_head", "13 ft")))
	m := r.Model()
	free := 0.0
	for x := range assessed(t, demoModel(t, "B", rig.Set("recovery[plant].dump_pump.run_out_flow", "8 gpm"), rig.Set("recovery[plant].dump_pump.shut_off_head", "13 ft"),
		rig.Set("recovery[plant].motor.sealed_lift", "5 inH2O"), rig.Set("recovery[plant].motor.sealed_power", ""), rig.Set("recovery[plant].motor.open_power", ""))).All("recovery[plant].dump_flow") {
		if x.State.On(rig.AxisFilters) == "clean" {
			free = math.Max(free, x.Value.SI()) // the weakest motors leave next to no vacuum
		}
	}
	s, err := m.ParseState("guns=left+right site=morning motors=2 filters=clean")
	if err != nil {
		t.Fatal(err)
	}
	get := func(p rig.Path) float64 {
		x, ok := r.At(p, s)
		if !ok {
			t.Fatalf("no %s", p)
		}
		return x.Value.SI()
	}
	w, q, share := get("recovery[plant].recovered_flow"), get("recovery[plant].dump_flow"), get("recovery[plant].carried_share")
	if !(q < w) {
		t.Fatalf("the dump pump keeps up: %g of %g", q, w)
	}
	volume := float64(20 * units.Gallon)
	level, on, picked, ran, dt := 0.0, true, 0.0, 0.0, 0.01
	for ran < 40000 {
		if on {
			level += (w - q) * dt
			picked += dt
			on = level < volume
		} else {
			level -= free * dt
			on = level <= 0
		}
		ran += dt
	}
	// the vacuum of the weakest motors is not quite none, and the last cycle is cut
	if d := math.Abs(picked/ran - share); d > 0.02 {
		t.Errorf("picks up %.4f of the time, the report says %.4f", picked/ran, share)
	}
}

// What comes back is what leaves: duty of the dump pump and share of the time
// picked up close the balance, and neither passes one.
func TestRecovery_cycleCloses(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		m, err := changedDemo("B", rig.Assign("recovery[plant].dump_pump.run_out_flow", (units.VolumeFlow(g.Float(3, 30))*units.GallonPerMinute).Quantity()),
			rig.Assign("recovery[plant].dump_pump.shut_off_head", (units.Length(g.Float(6, 40))*units.Foot).Quantity()))
		if err != nil {
			return err
		}
		r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			return err
		}
		for x := range r.All("recovery[plant].carried_share") {
			v := x.Value.SI()
			if v < 0 || v > 1 {
				return fmt.Errorf("carried share %g in %v", v, x.State)
			}
			w, _ := r.At("recovery[plant].recovered_flow", x.State)
			q, _ := r.At("recovery[plant].dump_flow", x.State)
			duty, runs := r.At("recovery[plant].dump_duty", x.State)
			if runs != (v == 1) && q.Value.SI() != w.Value.SI() {
				return fmt.Errorf("duty and share contradict each other in %v", x.State)
			}
			if runs {
				if d := math.Abs(duty.Value.SI()*q.Value.SI() - w.Value.SI()); d > 1e-9*w.Value.SI() {
					return fmt.Errorf("%g m³/s left over in %v", d, x.State)
				}
			}
		}
		return nil
	})
}

// Recovered water that comes to the pump's tank is the warmest it draws where
// nobody says more, and costs suction head.
func TestSuction_recoveredIsWarm(t *testing.T) {
	at := func(c ...rig.Change) (float64, rig.Origin) {
		m := demoModel(t, "B", append([]rig.Change{rig.Set("pumps[main].suction.warmest_water", "")}, c...)...)
		x, ok := assessed(t, m).Worst("pumps[main].suction_head")
		if !ok {
			t.Fatal("no suction head")
		}
		return x.Value.SI(), m.Origin("pumps[main].suction.warmest_water")
	}
	apart, _ := at()
	joined, origin := at(rig.Set("modes[two-guns].open", "joint"))
	if !(joined < apart) {
		t.Errorf("suction head %.4f m with recovered water, %.4f m without", joined, apart)
	}
	if origin.Basis != rig.Assumed {
		t.Errorf("origin %+v", origin)
	}
	hotter, _ := at(rig.Set("modes[two-guns].open", "joint"), rig.Set("recovery[plant].return_temperature", "120 °F"))
	if !(hotter < joined) {
		t.Errorf("suction head %.4f m at 120 °F, %.4f m at 85 °F", hotter, joined)
	}
}

func changedDemo(name string, c ...rig.Change) (*rig.Model, error) {
	m, err := demo.Model(name)
	if err != nil {
		return nil, err
	}
	return m.With(c...)
}
