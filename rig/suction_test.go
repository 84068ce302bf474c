package rig_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// The sum that is shown is the number that is judged, in every state.
func TestSuction_isTheReading(t *testing.T) {
	m := demoModel(t, "B")
	r := assessed(t, m)
	n := 0
	for x := range r.All("pumps[main].suction_head") {
		n++
		a, err := m.Suction("main", x.State)
		if err != nil {
			t.Fatal(err)
		}
		if float64(a.Head.Available) != x.Value.SI() {
			t.Errorf("%v: %v shown, %v judged", x.State, a.Head.Available, x.Value)
		}
		if a.State != x.State || len(a.Cures) == 0 {
			t.Errorf("%v: %+v", x.State, a)
		}
	}
	if n != 8 {
		t.Errorf("%d states, want strainer, water and level each two ways", n)
	}
	if _, err := m.Suction("spare", rig.State{}); err == nil {
		t.Error("a pump that is not there has a suction head")
	}
	s, err := m.ParseState("strainer=dirty water=warm level=low")
	if err != nil {
		t.Fatal(err)
	}
	if s.String() != "strainer=dirty water=warm level=low" || s.On(rig.AxisStrainer) != "dirty" || s.On(rig.AxisWater) != "warm" || s.On(rig.AxisLevel) != "low" {
		t.Errorf("state %v", s)
	}
}

// What is not given is listed as open, and what is given by halves is refused.
func TestSuction_openAndRefused(t *testing.T) {
	open := func(m *rig.Model) string {
		var w []string
		for _, o := range m.Open() {
			w = append(w, string(o.Path))
		}
		return strings.Join(w, " ")
	}
	if list := open(demoModel(t, "B")); strings.Contains(list, "suction") || strings.Contains(list, "vent") || strings.Contains(list, "dump") {
		t.Errorf("B leaves open: %s", list)
	}
	for path, c := range map[string][]rig.Change{
		"pumps[main].suction.low": {rig.Set("pumps[main].suction.low", "")},
		"pumps[main].plungers":    {rig.Set("pumps[main].part", ""), rig.Set("pumps[main].rated_flow", "6.8 gpm")},
		"tanks[fresh].vent":       {rig.Set("tanks[fresh].vent", "")},
		"tanks[fresh].dump":       {rig.Set("tanks[fresh].dump.bore", ""), rig.Set("tanks[fresh].dump.length", ""), rig.Set("tanks[fresh].dump.k", "")},
	} {
		if list := open(demoModel(t, "B", c...)); !strings.Contains(list, path) {
			t.Errorf("%s is not listed as open: %s", path, list)
		}
	}
	b := demoModel(t, "B")
	for _, c := range []struct {
		path string
		c    rig.Change
	}{
		{"pumps[main].suction.length", rig.Set("pumps[main].suction.length", "")},
		{"pumps[main].suction.bore", rig.Set("pumps[main].suction.bore", "")},
		{"pumps[main].suction.high", rig.Set("pumps[main].suction.high", "1 in")},
		{"pumps[main].suction.warmest_water", rig.Set("pumps[main].suction.warmest_water", "40 °F")},
		{"tanks[fresh].overflow", rig.Set("tanks[fresh].overflow", "5 ft")},
		{"tanks[fresh].dump.bore", rig.Set("tanks[fresh].dump.bore", "")},
		{"supplies[depot].residual", rig.Set("supplies[depot].residual", "60 psi")},
		{"supplies[depot].test_flow", rig.Set("supplies[depot].test_flow", "")},
		{"supplies[depot].meter", rig.Set("supplies[depot].meter.loss", "3 psi")},
		{"supplies[depot].device_loss", rig.Set("supplies[depot].device", "none")},
		{"supplies[depot].tank", rig.Set("supplies[depot].tank", "lake")},
	} {
		_, err := b.With(c.c)
		var f *units.FieldError
		if !errors.As(err, &f) || !strings.Contains(err.Error(), c.path) {
			t.Errorf("%s: %v", c.path, err)
		}
	}
}

// A pump without plungers or speed is judged without its pulses, and says so as
// open; a tank without a vent is judged by no vacuum.
func TestSuction_partial(t *testing.T) {
	r := assessed(t, demoModel(t, "B", rig.Set("tanks[fresh].vent", ""), rig.Set("pumps[main].suction.high", ""), rig.Set("pumps[main].suction.warmest_water", ""),
		rig.Set("pumps[main].suction.strainer.loss", ""), rig.Set("pumps[main].suction.strainer.blocked", "")))
	n := 0
	for x := range r.All("pumps[main].suction_head") {
		n++
		if x.State.String() != "any" {
			t.Errorf("state %v", x.State)
		}
	}
	if n != 1 {
		t.Errorf("%d readings", n)
	}
	if _, ok := r.Worst("tanks[fresh].vacuum"); ok {
		t.Error("a tank whose vent is not given has a vacuum")
	}
	if x, ok := r.Worst("tanks[fresh].vent_needed"); !ok || !(x.Value.SI() > 0) {
		t.Error("the vent it needs is still told")
	}
}

// Over the whole range of its fields the low side's numbers are finite; thinner air, a
// dirtier strainer and a lower tank never help, and warmer water only by the
// friction it does without.
func TestRandomRigs_suction(t *testing.T) {
	t.Parallel()
	base := demoModel(t, "B")
	property.Check(t, func(g *property.G) error {
		length := func(p rig.Path, lo, hi float64) rig.Change {
			return rig.Assign(p, (units.Length(g.LogFloat(lo, hi)) * units.Inch).Quantity())
		}
		c := []rig.Change{
			rig.Assign("pumps[main].rated_flow", (units.VolumeFlow(g.LogFloat(0.011, 999)) * units.GallonPerMinute).Quantity()),
			length("pumps[main].suction.bore", 0.21, 11.9), length("pumps[main].suction.length", 1.3, 2399),
			rig.Assign("pumps[main].suction.strainer.loss", (units.Pressure(g.LogFloat(0.0011, 99)) * units.PSI).Quantity()),
			rig.Assign("pumps[main].suction.strainer.blocked", units.Ratio(g.Float(0.05, 0.95)).Quantity()),
			rig.Set("pumps[main].suction.stabiliser", property.OneOf(g, "yes", "no")), rig.Set("pumps[main].suction.wall", property.OneOf(g, "stiff", "compliant")),
			length("tanks[fresh].vent", 0.06, 23), length("tanks[fresh].dump.bore", 0.21, 23),
			length("crossovers[joint].bore", 0.11, 23), rig.Set("crossovers[joint].valve", property.OneOf(g, "open", "shut")),
			length("supplies[depot].hose.bore", 0.21, 11.9), length("supplies[depot].hose.length", 6.1, 23999),
			rig.Assign("supplies[depot].static", (units.Pressure(g.LogFloat(50, 300)) * units.PSI).Quantity()),
			rig.Assign("site.elevation", units.ElevationAt(units.Length(g.Float(0, 3000))).Quantity()),
		}
		m, err := base.With(c...)
		if err != nil {
			return err
		}
		list, err := rig.SuctionReadings(m)
		if err != nil {
			return err
		}
		value, line := map[string]float64{}, map[string]float64{}
		for _, x := range list {
			if v := x.Value.SI(); math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("%s is %g", x.Path(), v)
			}
			if x.Metric.Path == "pumps[].suction_head" {
				value[x.State.String()] = x.Value.SI()
			}
			if x.Metric.Path == "pumps[].suction_line_loss" {
				line[x.State.String()] = x.Value.SI()
			}
		}
		for s, v := range value {
			for _, swap := range [][2]string{{"strainer=clean", "strainer=dirty"}, {"water=cold", "water=warm"}, {"level=full", "level=low"}} {
				other := strings.Replace(s, swap[0], swap[1], 1)
				worse, ok := value[other]
				thinner := line[s] - line[other] // warm water loses less in a narrow hose
				if !ok || worse > v+thinner+1e-9 {
					return fmt.Errorf("%s: %g m, with %s %g m", s, v, swap[1], worse)
				}
			}
		}
		h, _ := m.Quantity("site.elevation")
		up, err := m.With(rig.Assign("site.elevation", units.ElevationAt(units.Length(h.SI()+g.Float(1, 1000))).Quantity()))
		if err != nil {
			return err
		}
		high, err := rig.SuctionReadings(up)
		if err != nil {
			return err
		}
		for _, x := range high {
			if was := value[x.State.String()]; x.Metric.Path == "pumps[].suction_head" && x.Value.SI() > was+1e-9 {
				return fmt.Errorf("%v: thinner air helps: %v, %g m lower down", x.State, x.Value, was)
			}
		}
		return nil
	})
}
