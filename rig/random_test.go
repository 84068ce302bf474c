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

// randomSpec draws a whole rig: one or two pumps with their engines, burners
// and belt generators, up to four guns, two tanks, a trailer and a vehicle.
// The numbers are plausible one by one, not together.
func randomSpec(g *property.G) *rig.Spec {
	s := &rig.Spec{Format: rig.Format, Name: "random"}
	s.Site.Elevation = units.ElevationAt(units.Length(g.Float(0, 9000)) * units.Foot)
	s.Site.Water = units.Fahrenheit(g.Float(36, 90))
	s.Site.Conditions = []rig.Condition{{ID: "afternoon", Air: units.Fahrenheit(g.Float(60, 115))}, {ID: "morning", Air: units.Fahrenheit(g.Float(-10, 60))}}
	s.Duty.NozzlePressureLow = units.Pressure(g.Float(500, 2000)) * units.PSI
	at := func(lo, hi float64) units.Position {
		return units.PositionAt(units.Length(g.Float(lo, hi)) * units.Foot)
	}
	pumps := g.Int(1, 2)
	for i := range pumps {
		n := fmt.Sprint(i + 1)
		s.Engines = append(s.Engines, rig.Engine{Stock: rig.Stock{ID: "engine-" + n, Within: "skid"},
			Engine: parts.Engine{GrossPower: units.Power(g.Float(5, 60)) * units.Horsepower}})
		p := rig.Pump{Stock: rig.Stock{ID: "pump-" + n, Within: "skid"}, Engine: "engine-" + n, Tank: "fresh",
			Pump: parts.Pump{RatedFlow: units.VolumeFlow(g.LogFloat(1, 20)) * units.GallonPerMinute, MaximumPressure: units.Pressure(g.Float(1500, 6000)) * units.PSI,
				MaximumInletTemperature: units.Fahrenheit(g.Float(120, 180)), Efficiency: units.Ratio(g.Float(0.6, 0.95))}}
		p.Unloader.Setting = units.Pressure(g.Float(1000, 5000)) * units.PSI
		p.Unloader.ReturnTo = property.OneOf(g, "tank", "inlet")
		p.Unloader.LoopVolume = units.Volume(g.Float(0.2, 3)) * units.Gallon
		p.Relief.Setting = p.Unloader.Setting * units.Pressure(g.Float(1.05, 1.4))
		s.Pumps = append(s.Pumps, p)
		if g.Bool() {
			s.Heaters = append(s.Heaters, rig.Heater{Stock: rig.Stock{ID: "heater-" + n, Within: "skid"}, Pump: p.ID,
				Heater: parts.Heater{CleanFiring: units.FuelRate(g.Float(0.5, 12)) * units.GallonPerHour, CoilBore: units.Length(g.Float(0.4, 0.8)) * units.Inch,
					CoilLength: units.Length(g.Float(60, 250)) * units.Foot, HelixDiameter: units.Length(g.Float(10, 30)) * units.Inch,
					MaximumTemperature: units.Fahrenheit(g.Float(180, 300)), MaximumPressure: units.Pressure(g.Float(3000, 6000)) * units.PSI, FlowSwitch: "yes"},
				Thermostat: units.Fahrenheit(g.Float(100, 240)), HighLimit: units.Fahrenheit(g.Float(150, 280))})
		}
		s.Sources = append(s.Sources, rig.Source{Stock: rig.Stock{ID: "belt-" + n, Within: "skid"}, Type: "belt", Engine: "engine-" + n,
			Generator: parts.Generator{Running: units.Power(g.Float(1000, 6000)), Starting: units.Power(g.Float(6000, 9000))}})
	}
	s.Sources = append(s.Sources, rig.Source{Stock: rig.Stock{ID: "portable", Mass: 150 * units.Pound, X: at(2, 14)}, Type: "portable",
		Generator: parts.Generator{Running: units.Power(g.Float(1000, 6000)), Starting: units.Power(g.Float(6000, 9000))}})
	for i := range g.Int(1, 4) {
		s.Lines = append(s.Lines, rig.Line{Stock: rig.Stock{ID: fmt.Sprintf("gun-%d", i+1), Within: "skid"}, Pump: fmt.Sprintf("pump-%d", g.Int(1, pumps)),
			Hose: rig.Hose{Hose: parts.Hose{Bore: units.Length(g.Float(0.25, 0.75)) * units.Inch, Length: units.Length(g.Float(20, 400)) * units.Foot,
				MaximumPressure: units.Pressure(g.Float(2500, 6000)) * units.PSI, MaximumTemperature: units.Fahrenheit(g.Float(140, 310))}},
			Fittings: parts.RatedLoss{Loss: units.Pressure(g.Float(5, 80)) * units.PSI, Flow: units.VolumeFlow(g.Float(2, 8)) * units.GallonPerMinute},
			Nozzle:   rig.Nozzle{Nozzle: parts.Nozzle{Number: units.NozzleNumber(g.Float(1, 12))}}})
	}
	if g.Bool() {
		s.Trunks = []rig.Trunk{{Stock: rig.Stock{ID: "shared", Within: "skid"}, Pump: "pump-1", Hose: rig.Hose{Hose: parts.Hose{Bore: units.Length(g.Float(0.3, 1)) * units.Inch,
			Length: units.Length(g.Float(10, 200)) * units.Foot, MaximumPressure: units.Pressure(g.Float(2500, 6000)) * units.PSI, MaximumTemperature: units.Fahrenheit(g.Float(140, 310))}},
			Elements: []rig.Element{{ID: "swivel", Element: parts.Element{Sort: "swivel", K: units.Ratio(g.Float(0.1, 8)), Bore: units.Length(g.Float(0.2, 0.6)) * units.Inch}}}}}
		for i := range s.Lines {
			if s.Lines[i].Pump == "pump-1" && g.Bool() {
				s.Lines[i].Trunk = "shared"
				s.Lines[i].Elements = []rig.Element{{ID: "filter", Element: parts.Element{Sort: "filter", Loss: units.Pressure(g.Float(0.5, 20)) * units.PSI, Flow: 4 * units.GallonPerMinute,
					LinearShare: units.Ratio(g.Float(0, 1)), MaximumPressure: units.Pressure(g.Float(2500, 6000)) * units.PSI}},
					{ID: "climb", Element: parts.Element{Sort: "height", Rise: units.Length(g.Float(0, 40)) * units.Foot}}}
			}
		}
	}
	if g.Bool() {
		s.Chemicals = []rig.Chemical{{Stock: rig.Stock{ID: "soap", Within: "skid"}, Family: "detergent", Enters: "after-coil", Strength: units.Ratio(g.Float(0.01, 0.3)), Viscosity: units.DynamicViscosity(g.LogFloat(0.5, 500)) * units.Centipoise,
			Carried: 5 * units.Gallon, Injector: rig.Injector{Line: s.Lines[g.Int(0, len(s.Lines)-1)].ID, Flow: units.VolumeFlow(g.Float(2, 8)) * units.GallonPerMinute, Loss: units.Pressure(g.LogFloat(10, 500)) * units.PSI,
				Vacuum: units.Pressure(g.Float(2, 28)) * units.InchOfMercury, Draw: units.VolumeFlow(g.LogFloat(0.02, 2)) * units.GallonPerMinute, MinimumFlow: units.VolumeFlow(g.Float(0.1, 6)) * units.GallonPerMinute,
				MaximumBack: units.Ratio(g.Float(0.2, 0.95)), Lift: units.Length(g.Float(-3, 10)) * units.Foot, Tip: units.NozzleNumber(g.LogFloat(2, 60))},
			ChemicalPump: rig.ChemicalPump{OpenFlow: units.VolumeFlow(g.LogFloat(0.2, 10)) * units.GallonPerMinute, StallPressure: 60 * units.PSI, CutOut: units.Pressure(g.Float(30, 60)) * units.PSI, CutIn: units.Pressure(g.Float(5, 30)) * units.PSI,
				Stored: units.Volume(g.LogFloat(0.01, 1)) * units.Gallon, Bore: units.Length(g.Float(0.2, 0.6)) * units.Inch, Length: units.Length(g.Float(20, 300)) * units.Foot, Tip: units.NozzleNumber(g.LogFloat(0.2, 40))}}}
	}
	for i := range g.Int(0, 4) {
		run := units.Power(g.Float(100, 2000))
		l := rig.Load{Stock: rig.Stock{ID: fmt.Sprintf("load-%d", i+1), Within: "skid"}, Load: parts.Load{Running: run, Starting: run * units.Power(g.Float(1, 4))},
			Starts: property.OneOf(g, "by-hand", "by-itself"), Source: property.OneOf(g, "portable", "belt-1")}
		if g.Bool() {
			l.May = []string{"portable", "belt-1"}
		}
		s.Loads = append(s.Loads, l)
	}
	s.Tanks = []rig.Tank{
		{Stock: rig.Stock{ID: "fresh", Mass: 150 * units.Pound, X: at(4, 20)}, Tank: parts.Tank{Nominal: units.Volume(g.Float(50, 500)) * units.Gallon}},
		{Stock: rig.Stock{ID: "recovered", Mass: 120 * units.Pound, X: at(4, 20)}, Tank: parts.Tank{Nominal: units.Volume(g.Float(50, 500)) * units.Gallon}, Contents: "recovered"}}
	s.FuelTanks = []rig.FuelTank{{Stock: rig.Stock{ID: "diesel", Within: "skid", X: at(4, 16)}, FuelTank: parts.FuelTank{Fuel: "diesel", Volume: units.Volume(g.Float(5, 50)) * units.Gallon}}}
	s.Trailer = &rig.Trailer{Stock: rig.Stock{ID: "chassis", Mass: units.Mass(g.Float(1500, 4000)) * units.Pound, X: at(8, 14)},
		Trailer: parts.Trailer{Axles: g.Int(1, 3), AxleGroup: at(10, 16), AxleRating: units.Mass(g.Float(2000, 8000)) * units.Pound,
			GrossRating: units.Mass(g.Float(4000, 20000)) * units.Pound, CouplerRating: units.Mass(g.Float(500, 3000)) * units.Pound}}
	s.TowVehicle = &rig.TowVehicle{TowVehicle: parts.TowVehicle{CombinationRating: units.Mass(g.Float(9000, 30000)) * units.Pound, CurbAndCrew: 6600 * units.Pound,
		HitchRating: units.Mass(g.Float(500, 3000)) * units.Pound, TrailerRating: units.Mass(g.Float(4000, 20000)) * units.Pound}}
	s.Items = []rig.Item{{Stock: rig.Stock{ID: "skid", Mass: units.Mass(g.Float(300, 1500)) * units.Pound, X: at(4, 16)}}}
	return s
}

func mustModel(s *rig.Spec) (*rig.Model, *rig.Report, error) {
	m, err := rig.New(s, nil)
	if err != nil {
		return nil, nil, err
	}
	r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
	return m, r, err
}

// numbersOf collects every reading by path and state.
func numbersOf(r *rig.Report) map[string]float64 {
	out := map[string]float64{}
	for x := range r.Every() {
		out[string(x.Path())+" @ "+x.State.String()] = x.Value.SI()
	}
	return out
}

// changed assesses a changed copy.
func changed(m *rig.Model, c ...rig.Change) (*rig.Report, error) {
	n, err := m.With(c...)
	if err != nil {
		return nil, err
	}
	return n.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
}

// noWorse checks that no reading of a metric has moved against the direction.
func noMore(before, after *rig.Report, path rig.Path, slack float64) error {
	for x := range after.All(path) {
		if old, ok := before.At(x.Path(), x.State); ok && old.State.String() == x.State.String() && x.Value.SI() > old.Value.SI()+slack*math.Abs(old.Value.SI()) {
			return fmt.Errorf("%s rose from %v to %v in %v", x.Path(), old.Value, x.Value, x.State)
		}
	}
	return nil
}

func TestRandomRigs_numbersAreFinite(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		_, r, err := mustModel(randomSpec(g))
		if err != nil {
			return err
		}
		n := 0
		for x := range r.Every() {
			n++
			if v := x.Value.SI(); math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("%s is %g in %v", x.Path(), v, x.State)
			}
			if back, err := r.Model().ParseState(x.State.String()); err != nil || back.String() != x.State.String() {
				return fmt.Errorf("state %v does not read back: %v", x.State, err)
			}
		}
		if n < 50 {
			return fmt.Errorf("only %d readings", n)
		}
		for _, f := range append(r.Findings(), r.Passed()...) {
			if math.IsNaN(f.Margin) || math.IsInf(f.Margin, 0) {
				return fmt.Errorf("margin of %s is %g", f.Code, f.Margin)
			}
			if f.Severity > rig.Fix && f.Severity != rig.CannotJudge && f.Margin > 0 {
				return fmt.Errorf("%s stops with a margin of %g", f.Code, f.Margin)
			}
		}
		return nil
	})
}

// The pump's flow goes to the guns, the bypass and the relief valve, and
// nowhere else.
func TestRandomRigs_flowCloses(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		_, r, err := mustModel(s)
		if err != nil {
			return err
		}
		for _, p := range s.Pumps {
			for x := range r.All(rig.Path("pumps[" + p.ID + "].bypass_flow")) {
				sum := x.Value.SI()
				if v, ok := r.At(rig.Path("pumps["+p.ID+"].relief_flow"), x.State); ok {
					sum += v.Value.SI()
				}
				for _, l := range s.Lines {
					if l.Pump != p.ID {
						continue
					}
					if v, ok := r.At(rig.Path("lines["+l.ID+"].flow"), x.State); ok {
						sum += v.Value.SI()
					}
				}
				if d := math.Abs(sum-float64(p.RatedFlow)) / float64(p.RatedFlow); d > 1e-9 {
					return fmt.Errorf("pump %s: flows close to %g in %v", p.ID, d, x.State)
				}
			}
		}
		return nil
	})
}

func TestRandomRigs_altitude(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		m, before, err := mustModel(randomSpec(g))
		if err != nil {
			return err
		}
		up := m.Spec().Site.Elevation.Length() + units.Length(g.Float(100, 5000))*units.Foot
		after, err := changed(m, rig.Assign("site.elevation", units.ElevationAt(up).Quantity()))
		if err != nil {
			return err
		}
		for _, p := range []rig.Path{"engines[].available", "heaters[].clean_firing", "site.boiling_point", "sources[].run_limit", "sources[].start_limit", "heaters[].boiling_margin"} {
			if err := noMore(before, after, p, 0); err != nil {
				return fmt.Errorf("higher up, %w", err)
			}
		}
		return nil
	})
}

func TestRandomRigs_hose(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		m, before, err := mustModel(s)
		if err != nil {
			return err
		}
		l := s.Lines[g.Int(0, len(s.Lines)-1)]
		at := rig.Path("lines[" + l.ID + "]")
		longer, err := changed(m, rig.Assign(at+".hose.length", (l.Hose.Length*units.Length(g.Float(1.01, 3))).Quantity()))
		if err != nil {
			return err
		}
		if err := noMore(before, longer, at+".nozzle_pressure", 1e-9); err != nil {
			return fmt.Errorf("with a longer hose, %w", err)
		}
		wider, err := changed(m, rig.Assign(at+".hose.bore", (l.Hose.Bore*units.Length(g.Float(1.01, 2))).Quantity()))
		if err != nil {
			return err
		}
		if err := noMore(wider, before, at+".nozzle_pressure", 1e-9); err != nil {
			return fmt.Errorf("with a narrower hose, %w", err)
		}
		return nil
	})
}

// Opening one more gun never raises the pressure at another: the unloaders of
// these rigs regulate.
func TestRandomRigs_secondGun(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		_, r, err := mustModel(s)
		if err != nil {
			return err
		}
		for x := range r.All("lines[].nozzle_pressure") {
			if x.State.On(rig.AxisHeat) == "stuck" {
				continue // the burner's own heat changes with the guns
			}
			open := strings.Split(x.State.On(rig.AxisGuns), "+")
			for _, l := range s.Lines {
				if contains(open, l.ID) {
					continue
				}
				more := strings.Replace(x.State.String(), "guns="+x.State.On(rig.AxisGuns), "guns="+joinSorted(append([]string{l.ID}, open...)), 1)
				st, err := r.Model().ParseState(more)
				if err != nil {
					return err
				}
				y, ok := r.At(x.Path(), st)
				if !ok {
					return fmt.Errorf("no reading of %s in %v", x.Path(), st)
				}
				if y.Value.SI() > x.Value.SI()*(1+1e-9) {
					return fmt.Errorf("opening %s raises %s from %v to %v", l.ID, x.Path(), x.Value, y.Value)
				}
			}
		}
		return nil
	})
}

// A full tank moved aft takes weight off the tongue in every state in which it
// holds water, and leaves the total alone.
func TestRandomRigs_tankPosition(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		m, before, err := mustModel(s)
		if err != nil {
			return err
		}
		aft := s.Tanks[0].X.Add(units.Length(g.Float(0.1, 6)) * units.Foot)
		after, err := changed(m, rig.Assign("tanks[fresh].x", aft.Quantity()))
		if err != nil {
			return err
		}
		if err := noMore(before, after, "trailer.tongue", 0); err != nil {
			return err
		}
		for x := range after.All("trailer.total") {
			if old, ok := before.At("trailer.total", x.State); !ok || old.Value != x.Value {
				return fmt.Errorf("the total changed from %v to %v", old.Value, x.Value)
			}
		}
		return nil
	})
}

// Listing the components in another order changes no bit of any number.
func TestRandomRigs_order(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		_, a, err := mustModel(s)
		if err != nil {
			return err
		}
		c := s.Clone()
		shuffle(g, c.Lines)
		shuffle(g, c.Loads)
		shuffle(g, c.Pumps)
		shuffle(g, c.Engines)
		shuffle(g, c.Sources)
		shuffle(g, c.Heaters)
		shuffle(g, c.Tanks)
		_, b, err := mustModel(c)
		if err != nil {
			return err
		}
		x, y := numbersOf(a), numbersOf(b)
		if len(x) != len(y) {
			return fmt.Errorf("%d and %d readings", len(x), len(y))
		}
		for k, v := range x {
			w, ok := y[k]
			if !ok {
				// plug moves and fill corners are named in list order
				continue
			}
			if v != w {
				return fmt.Errorf("%s is %v and %v", k, v, w)
			}
		}
		if a.Verdict() != b.Verdict() || len(a.Findings()) != len(b.Findings()) {
			return fmt.Errorf("verdict %v with %d findings, and %v with %d", a.Verdict(), len(a.Findings()), b.Verdict(), len(b.Findings()))
		}
		return nil
	})
}

func shuffle[T any](g *property.G, list []T) {
	old := append([]T(nil), list...)
	for i, j := range g.Perm(len(list)) {
		list[i] = old[j]
	}
}

// A change that changes nothing gives the same bits; a changed model leaves the
// one it came from alone; a changed model equals one made anew.
func TestRandomRigs_with(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		m, a, err := mustModel(s)
		if err != nil {
			return err
		}
		before := numbersOf(a)
		c := rig.Assign("site.elevation", units.ElevationAt(units.Length(g.Float(0, 9000))*units.Foot).Quantity())
		b, err := changed(m, c)
		if err != nil {
			return err
		}
		fresh := s.Clone()
		if err := fresh.Apply(c); err != nil {
			return err
		}
		_, d, err := mustModel(fresh)
		if err != nil {
			return err
		}
		x, y := numbersOf(b), numbersOf(d)
		for k, v := range x {
			if y[k] != v {
				return fmt.Errorf("changed and new model differ: %s is %v and %v", k, v, y[k])
			}
		}
		again, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			return err
		}
		for k, v := range numbersOf(again) {
			if before[k] != v {
				return fmt.Errorf("the first model changed: %s is %v and %v", k, before[k], v)
			}
		}
		return nil
	})
}

// Taking away an input that guards a stop never makes the verdict better.
func TestRandomRigs_strippedGuard(t *testing.T) {
	t.Parallel()
	guards := []rig.Path{"pumps[pump-1].maximum_pressure", "pumps[pump-1].relief.setting", "pumps[pump-1].maximum_inlet_temperature",
		"lines[gun-1].hose.maximum_pressure", "lines[gun-1].hose.maximum_temperature", "sources[portable].starting",
		"trailer.gross_rating", "trailer.axle_rating", "trailer.coupler_rating", "tow_vehicle.hitch_rating", "tow_vehicle.trailer_rating", "tow_vehicle.combination_rating",
		"heaters[heater-1].high_limit", "heaters[heater-1].thermostat", "heaters[heater-1].maximum_temperature", "heaters[heater-1].maximum_pressure", "site.elevation"}
	property.Check(t, func(g *property.G) error {
		m, a, err := mustModel(randomSpec(g))
		if err != nil {
			return err
		}
		for range 4 { // four of them a case; every one comes up many times
			p := guards[g.Pick(len(guards))]
			if _, given, err := m.Get(p); err != nil || !given {
				continue
			}
			b, err := changed(m, rig.Set(p, ""))
			if err != nil {
				return fmt.Errorf("without %s: %w", p, err)
			}
			rank := func(s rig.Severity) int { // cannot judge stands beside stop
				if s >= rig.CannotJudge {
					return 4
				}
				return int(s)
			}
			if rank(b.Verdict()) < rank(a.Verdict()) {
				return fmt.Errorf("without %s the verdict went from %v to %v", p, a.Verdict(), b.Verdict())
			}
		}
		return nil
	})
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

func joinSorted(list []string) string {
	for i := range list {
		for j := i; j > 0 && list[j] < list[j-1]; j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
	return strings.Join(list, "+")
}
