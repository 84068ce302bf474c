package rig_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// Where does D's overload come from? The demand of the engine is the pump's
// power and the belt generator's; 1 % more flow is 1 % more pump power, which
// is 13.62 of the 20.06 hp.
func TestExplain_engineOfD(t *testing.T) {
	m := demoModel(t, "D")
	s, err := m.ParseState("guns=left heat=steady site=afternoon plugs=as-listed")
	if err != nil {
		t.Fatal(err)
	}
	tr, err := m.Explain("engines[washer].demand", s)
	if err != nil {
		t.Fatal(err)
	}
	gain := map[rig.Path]float64{}
	for _, in := range tr.Inputs {
		gain[in.Path] = in.Gain
	}
	pump, belt := 13.62/20.06, 6.45/20.06
	for p, want := range map[rig.Path]float64{"pumps[main].rated_flow": pump, "pumps[main].unloader.setting": pump,
		"pumps[main].efficiency": -pump, "sources[belt].efficiency": -belt, "loads[vacuum-1].running": belt * 1100 / 3600} {
		if got := gain[p]; math.Abs(got-want) > 0.02*math.Abs(want)+0.002 { // the step of 1 % is not infinitesimal
			t.Errorf("gain of %s is %.4f, hand sum %.4f", p, got, want)
		}
	}
	for _, p := range []rig.Path{"tanks[fresh].x", "heaters[heater].clean_firing", "engines[washer].gross_power"} {
		if g, ok := gain[p]; ok {
			t.Errorf("%s has a gain of %g on the demand", p, g)
		}
	}
	text := tr.Text(units.US)
	for _, want := range []string{"20.064 hp", "addition on one shaft", "pumps[main].shaft_power", "sources[belt].running", "part P68"} {
		if !strings.Contains(text, want) {
			t.Errorf("text lacks %q:\n%s", want, text)
		}
	}
	if _, err := m.Explain("engines[washer].colour", s); err == nil {
		t.Error("a number that does not exist is explained")
	}
}

func TestDiff_remedyOfD(t *testing.T) {
	before := assessed(t, demoModel(t, "D"))
	after := assessed(t, demoModel(t, "D", rig.Set("crossovers[joint].valve", "open")))
	d := rig.Diff(before, after)
	if len(d.Appeared) != 1 || d.Appeared[0].Code != "clean-water-mixed" {
		t.Errorf("appeared: %v", d.Appeared)
	}
	if len(d.Changed) != 1 || d.Changed[0].Before.Severity != rig.Stop || d.Changed[0].After.Severity != rig.Fix || d.Changed[0].After.Code != "tongue-share-low" {
		t.Errorf("changed: %v", d.Changed)
	}
	// With the tanks joined there are no two of them to stand too far apart, and
	// what comes back needs no room of its own: it is used again.
	if len(d.Cleared) != 2 || d.Cleared[0].Code != "recovery-no-room" || d.Cleared[1].Code != "tanks-far-apart" {
		t.Errorf("cleared: %v", d.Cleared)
	}
	for _, n := range d.Numbers {
		if !strings.HasPrefix(string(n.Path), "trailer.") && !strings.HasPrefix(string(n.Path), "tanks[") && !strings.HasPrefix(string(n.Path), "tow_vehicle.") &&
			n.Path != "recovery[plant].returned" && n.Path != "recovery[plant].build_up" && n.Path != "recovery[plant].hardness" {
			t.Errorf("opening the crossover moves %s", n.Path)
		}
	}
	if d := rig.Diff(before, before); len(d.Numbers)+len(d.Appeared)+len(d.Cleared)+len(d.Changed) != 0 {
		t.Errorf("a report differs from itself: %+v", d)
	}
}

// A lever gives the bits of a new model, and refuses what New refuses.
func TestLever_sameBits(t *testing.T) {
	t.Parallel()
	paths := []rig.Path{"site.elevation", "lines[gun-1].hose.length", "pumps[pump-1].rated_flow", "tanks[fresh].x", "trailer.gross_rating", "sources[portable].running"}
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		m, _, err := mustModel(s)
		if err != nil {
			return err
		}
		p := property.OneOf(g, paths...)
		q, _ := m.Quantity(p)
		nq, err := units.NewQuantity(q.Kind(), q.SI()*g.Float(0.9, 1.1))
		if err != nil {
			return err
		}
		l, err := m.Lever(p)
		if err != nil {
			return err
		}
		a, errA := l.To(nq)
		b, errB := m.With(rig.Assign(p, nq))
		if (errA == nil) != (errB == nil) {
			return fmt.Errorf("lever says %v, With says %v", errA, errB)
		}
		if errA != nil {
			return nil
		}
		quick := &rig.AssessOptions{SkipBreakEven: true}
		ra, err := a.Assess(nil, quick)
		if err != nil {
			return err
		}
		rb, err := b.Assess(nil, quick)
		if err != nil {
			return err
		}
		x, err := ra.MarshalJSON()
		if err != nil {
			return err
		}
		y, err := rb.MarshalJSON()
		if err != nil {
			return err
		}
		if string(x) != string(y) {
			return fmt.Errorf("moving %s to %v by lever and by With give different reports", p, nq)
		}
		return nil
	})
	m := demoModel(t, "B")
	if _, err := m.Lever("site.colour"); err == nil {
		t.Error("a field that does not exist has a lever")
	}
	if l, err := m.Lever("site.elevation"); err != nil {
		t.Error(err)
	} else if _, err := l.To((3 * units.PSI).Quantity()); err == nil {
		t.Error("a pressure is taken for an elevation")
	}
}

// A word or a count that decides a number is among its inputs, and another word of the
// same choice does move the number or ends it.
func TestExplain_words(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B", set("pumps[main].unloader.setting", "3450 psi")...)
	for _, x := range []struct {
		path, state string
		input       rig.Path
		other       string
	}{
		{"cords[burner].ampacity", "any", "cords[burner].gauge", "14 AWG"},
		{"outlets[belt-panel].unguarded", "any", "outlets[belt-panel].ground_fault", "no"},
		{"heaters[heater].flow_guards", "any", "heaters[heater].pressure_switch", "no"},
		{"loads[dump-pump].other_neutral", "any", "sources[belt].neutral", "floating"},
		{"pumps[main].strainer_spill", "any", "pumps[main].suction.strainer.valve", "no"},
		{"pumps[main].relief_flow", "guns=none heat=off", "pumps[main].unloader.type", "trapped-pressure"},
	} {
		s, err := m.ParseState(x.state)
		if err != nil {
			t.Fatal(err)
		}
		tr, err := m.Explain(rig.Path(x.path), s)
		if err != nil {
			t.Errorf("%s: %v", x.path, err)
			continue
		}
		found := false
		for _, in := range tr.Inputs {
			found = found || in.Path == x.input && in.Word != ""
		}
		if !found {
			t.Errorf("%s does not name %s:\n%s", x.path, x.input, tr.Text(units.US))
		}
		n, err := m.With(rig.Set(x.input, x.other))
		if err != nil {
			t.Fatal(err)
		}
		after, ok := assessed(t, n).At(rig.Path(x.path), s)
		if ok && after.Value == tr.Reading.Value {
			t.Errorf("%s is %v whatever %s says", x.path, after.Value, x.input)
		}
	}
}
