package rig_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// fanByKloss is a fan on an induction motor in plain numbers: the speed over its
// plate's, and the air-gap power over its plate's, at a voltage and a frequency
// over the plate's. Torque by Kloss, torque of the fan by the square of its
// speed; found by halving the slip.
func fanByKloss(slip, breakdown, voltage, frequency float64) (speed, power float64) {
	critical := slip * (breakdown + math.Sqrt(breakdown*breakdown-1)) // at rated frequency; the slip speed is kept
	flux := voltage / frequency
	lo, hi := 0.0, critical
	for range 200 {
		d := (lo + hi) / 2
		n := (frequency - d) / (1 - slip)
		if flux*flux*breakdown*2/(d/critical+critical/d) < n*n {
			lo = d
		} else {
			hi = d
		}
	}
	n := (frequency - lo) / (1 - slip)
	return n, n * n * frequency
}

// Rig B with a governor of 4 % from 3,750 rpm: the engine has 23·0.9·0.818·0.982
// = 16.628 hp on the afternoon. With one gun the pump takes 2,900 psi times 6.8
// gpm times the speed. The burner's 650 W at 115 V hang on 8 ft of 12 AWG at
// 120 V, the generator turns 3,690 rpm without load; its air gap takes torque
// times synchronous speed. The three meet at one speed.
func TestCoupled_handSum(t *testing.T) {
	r := assessed(t, demoModel(t, "B", rig.Set("engines[washer].no_load_speed", "3750 rpm"), rig.Set("engines[washer].droop", "4 %")))
	s, err := r.Model().ParseState("guns=right heat=steady plugs=as-listed site=afternoon")
	if err != nil {
		t.Fatal(err)
	}
	const (
		hp   = 745.69987158227022
		full = 23 * 0.9 * 0.818 * 0.982 * hp
		lost = 2 * 8 * 1.98e-3 * (650 / 0.7 / 120) * 0.7 // V in the cord: 1.98 Ω/kft of 12 AWG at 75 °C (NFPA 70 (NEC) Chapter 9 Table 8), what lies in phase
		pump = 6.8 * 231 * 2900 / 60 * 0.112984829027617 / (0.88 * 0.96)
	)
	x, air, demand := 1.0, 0.0, 0.0
	for range 60 {
		hz := 3690 * x / 1.04 / 60
		var power float64
		air, power = fanByKloss(150./3600, 2.5, (120-lost)/115, hz/60)
		demand = pump*x + 650*power/(0.78*0.96)
		x = 1 + 0.04*(1-demand/full)
	}
	for _, c := range []struct {
		path rig.Path
		want float64
		tol  float64 // the site's factors above have three digits
	}{
		{"engines[washer].speed_coupled", 3750 / 1.04 * x * float64(units.RPM), 1e-5},
		{"engines[washer].demand_coupled", demand, 1e-5},
		{"sources[belt].frequency_coupled", 3690 * x / 1.04 / 60, 1e-5},
		{"loads[burner].speed_coupled", air, 1e-4},
		{"heaters[heater].clean_firing_coupled", 4.75 * math.Pow(1-6.5e-3*1584.96/288.15, 5.25588) * 288.15 / 308.15 * air * float64(units.GallonPerHour), 1e-4}, // pressure of the U.S. Standard Atmosphere 1976 at 5,200 ft
	} {
		got, ok := r.At(c.path, s)
		if !ok {
			t.Errorf("no %s", c.path)
			continue
		}
		if d := math.Abs(got.Value.SI()-c.want) / c.want; d > c.tol {
			t.Errorf("%s is %.8g, hand sum %.8g (off by %.2g)", c.path, got.Value.SI(), c.want, d)
		}
	}
}

// An engine that is asked for more than it has runs on its curve, and generator
// and fan with it; the governed speed would hide that.
func TestCoupled_lugs(t *testing.T) {
	c := []rig.Change{rig.Add("engines[washer].curve", "low", ""), rig.Add("engines[washer].curve", "high", "")}
	for _, x := range [][2]string{{"no_load_speed", "3750 rpm"}, {"droop", "4 %"}, {"gross_power", "20 hp"}, {"curve[low].speed", "2000 rpm"}, {"curve[low].power", "13 hp"}, {"curve[high].speed", "3606 rpm"}, {"curve[high].power", "20 hp"}} {
		c = append(c, rig.Set(rig.Path("engines[washer]."+x[0]), x[1]))
	}
	r := assessed(t, demoModel(t, "B", c...))
	speed, ok := r.Worst("engines[washer].speed_coupled")
	if !ok {
		t.Fatal("no speed")
	}
	if rpm := speed.Value.SI() / float64(units.RPM); rpm >= 3750/1.04 || rpm < 2000 {
		t.Errorf("%.1f rpm, wanted below the governed %.1f", rpm, 3750/1.04)
	}
	hz, _ := r.At("sources[belt].frequency_coupled", speed.State)
	if want := speed.Value.SI() / float64(units.RPM) * 3690 / 3750 / 60; math.Abs(hz.Value.SI()-want) > 1e-9*want {
		t.Errorf("%v at %v", hz.Value, speed.Value)
	}
}

// A burner on a cord is not coupled back, yet its voltage reaches the fire: B's
// burner moved to the portable generator loses air with the length of its cord.
func TestCoupled_openLoop(t *testing.T) {
	at := func(cord string) float64 {
		r := assessed(t, demoModel(t, "B", rig.Set("loads[burner].source", "portable"), rig.Set("loads[burner].outlet", "left"), rig.Set("cords[burner].length", cord)))
		x, ok := r.Worst("heaters[heater].air_number")
		if !ok {
			t.Fatal("no air number")
		}
		return x.Value.SI()
	}
	near, far := at("8 ft"), at("400 ft")
	if !(far < near) {
		t.Errorf("air number %.4f at the end of 400 ft, %.4f at 8 ft", far, near)
	}
}

// coupledSpec is a random rig whose burners hang on a belt generator or on the
// portable one, with governors and alternators by their plates.
func coupledSpec(g *property.G) *rig.Spec {
	s := randomSpec(g)
	for i := range s.Engines {
		if g.Int(0, 3) == 0 {
			continue // no governor: the speed stands still
		}
		e := &s.Engines[i]
		e.NoLoadSpeed = units.RotationalSpeed(g.Float(2500, 4000)) * units.RPM
		e.Droop = units.Ratio(g.Float(0.005, 0.12))
		if g.Bool() {
			rated := e.NoLoadSpeed / units.RotationalSpeed(1+float64(e.Droop))
			e.Curve = []parts.PowerPoint{{ID: "low", Speed: rated * 0.6, Power: e.GrossPower * units.Power(g.Float(0.4, 0.8))},
				{ID: "high", Speed: rated * 1.001, Power: e.GrossPower}}
		}
	}
	for i := range s.Sources {
		x := &s.Sources[i]
		x.Voltage, x.Frequency, x.Poles = 120, 60, 2
		x.Speed = units.RotationalSpeed(g.Float(3400, 3900)) * units.RPM
		x.RegulatorKnee = units.Ratio(g.Float(0.85, 1.05))
		x.Droop = units.Ratio(g.Float(0.005, 0.06))
	}
	for i := range s.Loads {
		s.Loads[i].Class = property.OneOf(g, "brush-motor", "capacitor-start-motor", "resistance", "charger")
	}
	for i, h := range s.Heaters {
		h := h
		if g.Bool() {
			s.Heaters[i].OilNozzle, s.Heaters[i].OilPressure = units.FuelRate(g.Float(0.5, 8))*units.GallonPerHour, units.Pressure(g.Float(100, 180))*units.PSI
		}
		run := units.Power(g.Float(200, 900))
		l := rig.Load{Stock: rig.Stock{ID: fmt.Sprintf("burner-%d", i+1), Within: "skid"}, Starts: "by-itself", Source: property.OneOf(g, "portable", "belt-"+h.Pump[len(h.Pump)-1:]), Heater: h.ID}
		l.Class, l.Running, l.Starting = "burner", run, run*2
		l.Load.Voltage = 115
		l.FanPoles, l.FanSpeed, l.FanBreakdown = 2, units.RotationalSpeed(g.Float(3350, 3500))*units.RPM, units.Ratio(g.Float(1.8, 3))
		s.Loads = append(s.Loads, l)
	}
	return s
}

// coupledWorst keeps the worst of a metric and component over states.
type coupledWorst map[string]rig.Reading

func (w coupledWorst) take(r rig.Reading) {
	k := string(r.Path())
	old, ok := w[k]
	v, o := r.Value.SI(), 0.0
	if ok {
		o = old.Value.SI()
	}
	if !ok || (r.Metric.Better == rig.Higher && v < o) || (r.Metric.Better != rig.Higher && v > o) {
		w[k] = r
	}
}

// The joint states that are left out are dominated: over every set of guns no
// reading is worse than the worst of those that are solved.
func TestOracle_coupled(t *testing.T) {
	left, joint := 0, 0
	property.Check(t, func(g *property.G) error {
		m, r, err := mustModel(coupledSpec(g))
		if err != nil {
			return err
		}
		every, kept := coupledWorst{}, coupledWorst{}
		all := map[string]bool{}
		if err := rig.CoupledEvery(m, func(x rig.Reading) { every.take(x); all[x.State.String()] = true }); err != nil {
			return err
		}
		states := map[string]bool{}
		for k, x := range every {
			if strings.HasSuffix(k, ".coupled_residual") || strings.HasSuffix(k, ".pressure_coupled") || strings.HasSuffix(k, ".flow_coupled") || strings.HasSuffix(k, ".heat_coupled") || strings.HasSuffix(k, ".efficiency_coupled") {
				continue // shown beside the others; nothing is judged by their worst
			}
			for y := range r.All(rig.Path(k)) {
				kept.take(y)
				states[y.State.String()] = true
			}
			y, ok := kept[k]
			if !ok {
				return fmt.Errorf("%s is in no joint state", k)
			}
			if d := math.Abs(x.Value.SI() - y.Value.SI()); d > 1e-8*math.Abs(x.Value.SI()) {
				return fmt.Errorf("worst %s is %.12g in %v, exhaustive %.12g in %v", k, y.Value.SI(), y.State, x.Value.SI(), x.State)
			}
		}
		left, joint = left+len(all)-len(states), joint+len(states)
		return nil
	})
	t.Logf("%d joint states solved, %d left out as dominated", joint, left)
}

// Energy closes around the loop: fuel to water, water to pump, pump and
// generators to the engine, engine to its governor.
func TestCoupled_closes(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := coupledSpec(g)
		m, r, err := mustModel(s)
		if err != nil {
			return err
		}
		resolved := m.Spec()
		value := func(p rig.Path, st rig.State) (float64, bool) {
			x, ok := r.At(p, st)
			return x.Value.SI(), ok
		}
		for i := range resolved.Pumps {
			p := &resolved.Pumps[i]
			for x := range r.All(rig.Path("pumps[" + p.ID + "].coupled_residual")) {
				if x.Value.SI() > 1e-9 {
					return fmt.Errorf("residual %g in %v", x.Value.SI(), x.State)
				}
				demand, ok := value(rig.Path("engines["+p.Engine+"].demand_coupled"), x.State)
				if !ok {
					continue
				}
				press, _ := value(rig.Path("pumps["+p.ID+"].pressure_coupled"), x.State)
				flow, _ := value(rig.Path("pumps["+p.ID+"].flow_coupled"), x.State)
				speed, _ := value(rig.Path("engines["+p.Engine+"].speed_coupled"), x.State)
				for k := range resolved.Engines {
					e := &resolved.Engines[k]
					if e.ID != p.Engine {
						continue
					}
					share := speed / float64(e.NoLoadSpeed) * (1 + float64(e.Droop))
					if d := math.Abs(flow/float64(p.RatedFlow) - share); d > 1e-9 {
						return fmt.Errorf("flow and speed part by %g in %v", d, x.State)
					}
					pump := math.Max(press, 0) * flow / float64(p.Efficiency) / float64(p.BeltEfficiency)
					if pump > demand*(1+1e-9) {
						return fmt.Errorf("the pump alone takes %g W of %g W in %v", pump, demand, x.State)
					}
					st, err := m.ParseState("site=" + x.State.On(rig.AxisSite))
					if err != nil {
						return err
					}
					if has, ok := value(rig.Path("engines["+e.ID+"].available"), st); ok && share >= 1 {
						if d := math.Abs(share - 1 - float64(e.Droop)*(1-math.Min(demand/has, 1))); d > 1e-9 {
							return fmt.Errorf("speed and demand part by %g in %v", d, x.State)
						}
					}
				}
			}
		}
		for i := range resolved.Heaters {
			h := &resolved.Heaters[i]
			for x := range r.All(rig.Path("heaters[" + h.ID + "].heat_coupled")) {
				duty, ok := value(rig.Path("heaters["+h.ID+"].duty_coupled"), x.State)
				if !ok || h.OilNozzle == 0 {
					continue
				}
				eff, okE := value(rig.Path("heaters["+h.ID+"].efficiency_coupled"), x.State)
				air, _ := value(rig.Path("heaters["+h.ID+"].air_number"), x.State)
				if !okE {
					continue
				}
				fuel := float64(h.OilNozzle) * math.Sqrt(h.OilPressure.In(units.PSI)/100) * float64(h.HeatingValue)
				if d := math.Abs(duty*fuel*eff*math.Min(air, 1)-x.Value.SI()) / x.Value.SI(); d > 1e-9 {
					return fmt.Errorf("fuel and heat of %s part by %g in %v", h.ID, d, x.State)
				}
			}
		}
		return nil
	})
}

// More altitude never gives the coupled fire more air, nor the engine more speed;
// one more load on the shaft neither.
func TestCoupled_monotone(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := coupledSpec(g)
		m, before, err := mustModel(s)
		if err != nil {
			return err
		}
		up := m.Spec().Site.Elevation.Length() + units.Length(g.Float(100, 4000))*units.Foot
		after, err := changed(m, rig.Assign("site.elevation", units.ElevationAt(up).Quantity()))
		if err != nil {
			return err
		}
		for _, p := range []rig.Path{"heaters[].clean_firing_coupled", "engines[].speed_coupled", "sources[].frequency_coupled", "loads[].speed_coupled"} {
			if err := noMore(before, after, p, 1e-9); err != nil {
				return fmt.Errorf("higher up, %w", err)
			}
		}
		c := s.Clone()
		c.Loads = append(c.Loads, rig.Load{Stock: rig.Stock{ID: "extra", Within: "skid"}, Source: "belt-1"})
		x := &c.Loads[len(c.Loads)-1]
		x.Running, x.Starting, x.Class = units.Power(g.Float(100, 1500)), 1500, "resistance"
		_, heavier, err := mustModel(c)
		if err != nil {
			return err
		}
		for _, p := range []rig.Path{"engines[].speed_coupled", "sources[].frequency_coupled"} {
			if err := noMore(before, heavier, p, 1e-9); err != nil {
				return fmt.Errorf("with one more load, %w", err)
			}
		}
		return nil
	})
}

// Explain follows the loop from the heater's outlet to the pump.
func TestExplain_coupledChain(t *testing.T) {
	m := demoModel(t, "B", rig.Set("engines[washer].no_load_speed", "3750 rpm"), rig.Set("engines[washer].droop", "4 %"))
	s, err := m.ParseState("guns=right heat=steady plugs=as-listed site=afternoon")
	if err != nil {
		t.Fatal(err)
	}
	tr, err := m.Explain("heaters[heater].clean_firing_coupled", s)
	if err != nil {
		t.Fatal(err)
	}
	want := []rig.Path{"loads[burner].speed_coupled", "sources[belt].frequency_coupled", "engines[washer].speed_coupled", "engines[washer].demand_coupled", "pumps[main].pressure_coupled"}
	for _, p := range want {
		var next *rig.Trace
		for _, u := range tr.Uses {
			if u.Reading.Path() == p {
				next = u
			}
		}
		if next == nil {
			t.Fatalf("%s does not lead to %s", tr.Reading.Path(), p)
		}
		tr = next
	}
	moved := false
	for _, in := range tr.Inputs {
		moved = moved || in.Path == "pumps[main].unloader.setting"
	}
	if !moved {
		t.Error("the unloader's setting does not stand at the end of the chain")
	}
}
