package rig_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// wiredSpec is a random rig with windings, outlets, cords, plates and a 12 V
// side. A third of the optional figures is left out.
func wiredSpec(g *property.G) *rig.Spec { return powered(g, randomSpec(g)) }

// powered gives a rig windings, outlets, cords, plates and a 12 V side.
func powered(g *property.G, s *rig.Spec) *rig.Spec {
	some := func() bool { return g.Int(0, 2) > 0 }
	for i := range s.Sources {
		x := &s.Sources[i]
		if some() {
			x.Voltage = units.Voltage(g.Float(100, 130))
		}
		if some() {
			x.RunningApparent = units.ApparentPower(float64(x.Running) * g.Float(0.8, 1.5))
		}
		if some() {
			x.StartingApparent = units.ApparentPower(max(float64(x.Starting)*g.Float(0.8, 2), float64(x.RunningApparent)))
		}
		if some() {
			x.Poles, x.Speed, x.Droop = 2, units.RotationalSpeed(g.Float(3400, 3800))*units.RPM, units.Ratio(g.Float(0.01, 0.08))
		}
		if some() {
			x.TransientReactance = units.Ratio(g.Float(0.08, 0.4))
			x.Inertia, x.GovernorTime = units.Duration(g.LogFloat(0.05, 3)), units.Duration(g.LogFloat(0.05, 2))
		}
		x.Neutral = property.OneOf(g, "", "bonded", "floating")
		for k := range g.Int(0, 2) {
			o := rig.Outlet{ID: fmt.Sprintf("%s-%d", x.ID, k+1), Source: x.ID, GroundFault: property.OneOf(g, "", "yes", "no")}
			if some() {
				o.Breaker = units.Current(property.OneOf(g, 15., 20, 30))
			}
			if some() {
				o.Receptacle = property.OneOf(g, "5-15R", "5-20R", "L5-30R")
			}
			s.Outlets = append(s.Outlets, o)
		}
	}
	fired := false
	gauges := []string{"", "16 AWG", "14 AWG", "12 AWG", "10 AWG"}
	for i := range s.Loads {
		l := &s.Loads[i]
		l.Class = property.OneOf(g, "", "brush-motor", "capacitor-start-motor", "burner", "resistance")
		l.Use = property.OneOf(g, "", "short")
		if some() {
			l.PowerFactor = units.Ratio(g.Float(0.5, 1))
		}
		if some() {
			l.StartPowerFactor = units.Ratio(g.Float(0.5, 1))
		}
		l.Leakage = units.Current(g.Float(0, 3e-3))
		if len(s.Heaters) > 0 && l.Class == "burner" && !fired && some() {
			l.Heater, fired = s.Heaters[0].ID, true
		}
		for _, o := range s.Outlets {
			if o.Source == l.Source && g.Bool() {
				l.Outlet = o.ID
			}
		}
		if g.Bool() {
			s.Cords = append(s.Cords, rig.Cord{Stock: rig.Stock{ID: "cord-" + l.ID, Within: "skid"}, Loads: []string{l.ID},
				Length: units.Length(g.LogFloat(5, 300)) * units.Foot, Gauge: property.OneOf(g, gauges...)})
		}
	}
	if len(s.Loads) > 1 && g.Bool() { // one cord before all of them
		var all []string
		for i := range s.Loads {
			all = append(all, s.Loads[i].ID)
		}
		s.Cords = append(s.Cords, rig.Cord{Stock: rig.Stock{ID: "trunk", Within: "skid"}, Loads: all,
			Length: units.Length(g.LogFloat(5, 100)) * units.Foot, Gauge: property.OneOf(g, gauges...)})
	}
	s.Batteries = []rig.Battery{{Stock: rig.Stock{ID: "starter", Within: "skid"}, Engine: "engine-1", Capacity: units.Charge(g.Float(20, 100)) * units.AmpereHour,
		ColdCranking: units.Current(g.Float(100, 600)), Cranking: units.Current(g.Float(50, 250)), Charging: units.Current(g.Float(1, 40)), Standby: units.Current(g.LogFloat(0.001, 0.1))}}
	for i := range g.Int(0, 3) {
		s.DirectLoads = append(s.DirectLoads, rig.DirectLoad{ID: fmt.Sprintf("direct-%d", i+1), Battery: "starter", Current: units.Current(g.LogFloat(0.1, 60)),
			Duty: units.Ratio(g.Float(0.01, 1)), Length: units.Length(g.Float(2, 40)) * units.Foot, Gauge: property.OneOf(g, gauges[1:]...)})
	}
	return s
}

func TestRandomWiring_numbersAreFinite(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := wiredSpec(g)
		_, r, err := mustModel(s)
		if err != nil {
			return err
		}
		for x := range r.Every() {
			if v := x.Value.SI(); math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("%s is %g in %v", x.Path(), v, x.State)
			}
			p := string(x.Metric.Path)
			share := p == "loads[].cord_drop" || p == "loads[].cord_start_drop" || p == "sources[].voltage_dip" || p == "direct_loads[].cable_drop" || p == "direct_loads[].sustained_duty"
			if share && (x.Value.SI() < 0 || x.Value.SI() > 1) {
				return fmt.Errorf("%s is %v in %v", x.Path(), x.Value, x.State)
			}
			// volt-amperes are never less than the watts of the same state
			if p == "sources[].running_apparent" || p == "sources[].start_apparent" {
				watts, ok := r.At(rig.Path(strings.Replace(strings.Replace(string(x.Path()), "running_apparent", "running", 1), "start_apparent", "start_peak", 1)), x.State)
				if !ok || x.Value.SI() < watts.Value.SI()*(1-1e-12) {
					return fmt.Errorf("%s is %v beside %v", x.Path(), x.Value, watts.Value)
				}
			}
		}
		for _, f := range append(r.Findings(), r.Passed()...) {
			if math.IsNaN(f.Margin) || math.IsInf(f.Margin, 0) {
				return fmt.Errorf("margin of %s is %g", f.Code, f.Margin)
			}
		}
		_, err = r.PlugCard()
		return err
	})
}

// A longer cord never raises the voltage at its own load, running or starting,
// nor the air of its fan.
func TestRandomWiring_longerCord(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := wiredSpec(g)
		if len(s.Cords) == 0 {
			return nil
		}
		m, before, err := mustModel(s)
		if err != nil {
			return err
		}
		c := s.Cords[g.Int(0, len(s.Cords)-1)]
		after, err := changed(m, rig.Assign(rig.Path("cords["+c.ID+"].length"), (c.Length*units.Length(g.Float(1.01, 4))).Quantity()))
		if err != nil {
			return err
		}
		for _, l := range c.Loads {
			for _, what := range []string{"].supply", "].start_supply", "].fan_air", "].fan_air_in_dip"} {
				if err := noMore(before, after, rig.Path("loads["+l+what), 1e-9); err != nil {
					return fmt.Errorf("with a longer cord %s, %w", c.ID, err)
				}
			}
			for _, what := range []string{"].cord_drop", "].cord_start_drop"} {
				if err := noMore(after, before, rig.Path("loads["+l+what), 1e-9); err != nil {
					return fmt.Errorf("with a shorter cord %s, %w", c.ID, err)
				}
			}
		}
		return nil
	})
}

// A lower voltage of the source never gives a burner more air, and so never
// lets it fire more.
func TestRandomWiring_lowerVoltage(t *testing.T) {
	met := 0
	property.Check(t, func(g *property.G) error {
		s := wiredSpec(g)
		for i := range s.Sources {
			s.Sources[i].Voltage = units.Voltage(g.Float(100, 130))
		}
		for i := range s.Loads {
			s.Loads[i].Voltage = 115 * units.Volt // of its plate, which does not move with the source
		}
		m, before, err := mustModel(s)
		if err != nil {
			return err
		}
		x := s.Sources[g.Int(0, len(s.Sources)-1)]
		after, err := changed(m, rig.Assign(rig.Path("sources["+x.ID+"].voltage"), (x.Voltage*units.Voltage(g.Float(0.6, 0.99))).Quantity()))
		if err != nil {
			return err
		}
		for range after.All("heaters[].clean_firing_at_voltage") {
			met++
		}
		for _, p := range []rig.Path{"loads[].fan_air", "loads[].supply", "heaters[].clean_firing_at_voltage", "heaters[].clean_firing_in_dip"} {
			if err := noMore(before, after, p, 1e-9); err != nil {
				return fmt.Errorf("at lower voltage, %w", err)
			}
		}
		return nil
	})
	if met == 0 {
		t.Error("no case had a burner on a source")
	}
}

// A soft starter never raises a peak.
func TestRandomWiring_softStart(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := wiredSpec(g)
		if len(s.Loads) == 0 {
			return nil
		}
		m, before, err := mustModel(s)
		if err != nil {
			return err
		}
		l := s.Loads[g.Int(0, len(s.Loads)-1)]
		after, err := changed(m, rig.Assign(rig.Path("loads["+l.ID+"].soft_start"), units.Ratio(g.Float(1, 4)).Quantity()))
		if err != nil {
			return err
		}
		for _, p := range []rig.Path{"sources[].restart_peak", "sources[].voltage_dip"} {
			if p == "sources[].voltage_dip" && hasStartVA(s) {
				continue // another order may then be the best, and dip deeper at its own step
			}
			if err := noMore(before, after, p, 1e-9); err != nil {
				return fmt.Errorf("with a soft starter, %w", err)
			}
		}
		return noNewStart(before, after)
	})
}

func hasStartVA(s *rig.Spec) bool {
	return slices.ContainsFunc(s.Sources, func(x rig.Source) bool { return x.StartingApparent != 0 })
}

// noNewStart reports a source whose starts passed and do not any more. Watts
// and volt-amperes are looked at together: the order is the best for both.
func noNewStart(before, after *rig.Report) error {
	fails := func(r *rig.Report) map[string]bool {
		out := map[string]bool{}
		for _, f := range r.Findings() {
			if (f.Code == "source-start" || f.Code == "source-start-apparent" || f.Code == "source-overload" || f.Code == "source-apparent" || f.Code == "outlet-overload" || f.Code == "cord-overload") && f.Severity == rig.Stop {
				out[string(f.Code[:6])+f.Reading.Part] = true
			}
		}
		return out
	}
	had := fails(before)
	for k := range fails(after) {
		if !had[k] {
			return fmt.Errorf("%s fails and did not before", k)
		}
	}
	return nil
}

// Taking a load away never makes a source, an outlet or a cord too small.
func TestRandomWiring_removedLoad(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := wiredSpec(g)
		if len(s.Loads) < 2 {
			return nil
		}
		_, before, err := mustModel(s)
		if err != nil {
			return err
		}
		c := s.Clone()
		k := g.Int(0, len(c.Loads)-1)
		gone := c.Loads[k].ID
		c.Loads = slices.Delete(c.Loads, k, k+1)
		for i := range c.Cords {
			c.Cords[i].Loads = slices.DeleteFunc(c.Cords[i].Loads, func(l string) bool { return l == gone })
		}
		c.Cords = slices.DeleteFunc(c.Cords, func(x rig.Cord) bool { return len(x.Loads) == 0 })
		_, after, err := mustModel(c)
		if err != nil {
			return err
		}
		for _, p := range []rig.Path{"sources[].running", "sources[].restart_peak", "sources[].running_apparent", "outlets[].current", "cords[].current"} {
			for x := range after.All(p) {
				if plugs := x.State.On(rig.AxisPlugs); plugs != "as-listed" {
					continue
				}
				old, ok := before.At(x.Path(), sameText(before, x.State))
				if ok && x.Value.SI() > old.Value.SI()*(1+1e-12) {
					return fmt.Errorf("without %s, %s rose from %v to %v", gone, x.Path(), old.Value, x.Value)
				}
			}
		}
		return noNewStart(before, after)
	})
}

func sameText(r *rig.Report, s rig.State) rig.State {
	out, err := r.Model().ParseState(s.String())
	if err != nil {
		return rig.State{}
	}
	return out
}

// Listing outlets, cords, loads and batteries in another order changes no bit
// of any number.
func TestRandomWiring_order(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := wiredSpec(g)
		_, a, err := mustModel(s)
		if err != nil {
			return err
		}
		c := s.Clone()
		shuffle(g, c.Loads)
		shuffle(g, c.Cords)
		shuffle(g, c.Outlets)
		shuffle(g, c.Sources)
		shuffle(g, c.DirectLoads)
		for i := range c.Cords {
			shuffle(g, c.Cords[i].Loads)
		}
		_, b, err := mustModel(c)
		if err != nil {
			return err
		}
		x, y := numbersOf(a), numbersOf(b)
		for k, v := range x {
			if w, ok := y[k]; ok && v != w {
				return fmt.Errorf("%s is %v and %v", k, v, w)
			}
		}
		if len(x) != len(y) || a.Verdict() != b.Verdict() {
			return fmt.Errorf("%d and %d numbers, verdict %v and %v", len(x), len(y), a.Verdict(), b.Verdict())
		}
		return nil
	})
}

// A lever gives the bits of a new model also where other values follow from
// the plate that is moved.
func TestRandomWiring_lever(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := wiredSpec(g)
		volts := 115 * units.Volt
		s.Loads = append(s.Loads, rig.Load{Stock: rig.Stock{ID: "plated", Within: "skid"}, Source: "portable",
			Load: parts.Load{Voltage: volts, Current: 8 * units.Ampere, PowerFactor: 0.8, LockedRotor: 40 * units.Ampere, StartPowerFactor: 0.7}})
		s.Sources = append(s.Sources, rig.Source{Stock: rig.Stock{ID: "shore", Within: "skid"}, Type: "shore", Generator: parts.Generator{Breaker: 20 * units.Ampere}})
		m, _, err := mustModel(s)
		if err != nil {
			return err
		}
		p := property.OneOf[rig.Path](g, "loads[plated].voltage", "loads[plated].current", "loads[plated].power_factor", "loads[plated].locked_rotor", "loads[plated].running",
			"sources[shore].breaker", "sources[shore].voltage", "sources[portable].starting_apparent", "batteries[starter].charging")
		q, ok := m.Quantity(p)
		if !ok {
			return nil
		}
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
			return fmt.Errorf("moving %s to %v: lever says %v, With says %v", p, nq, errA, errB)
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
		x, y := numbersOf(ra), numbersOf(rb)
		for k, v := range x {
			if y[k] != v {
				return fmt.Errorf("moving %s to %v: %s is %v by lever and %v by With", p, nq, k, v, y[k])
			}
		}
		return nil
	})
}

// Taking away what guards a stop never makes the verdict better.
func TestRandomWiring_strippedGuard(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := wiredSpec(g)
		m, a, err := mustModel(s)
		if err != nil {
			return err
		}
		var guards []rig.Path
		for _, c := range s.Cords {
			guards = append(guards, rig.Path("cords["+c.ID+"].gauge"))
		}
		for _, o := range s.Outlets {
			guards = append(guards, rig.Path("outlets["+o.ID+"].ground_fault"))
			if o.Receptacle == "" {
				guards = append(guards, rig.Path("outlets["+o.ID+"].breaker"))
			}
		}
		for _, p := range guards {
			if _, given, err := m.Get(p); err != nil || !given {
				continue
			}
			b, err := changed(m, rig.Set(p, ""))
			if err != nil {
				return fmt.Errorf("without %s: %w", p, err)
			}
			if min(b.Verdict(), rig.CannotJudge) < min(a.Verdict(), rig.CannotJudge) {
				return fmt.Errorf("without %s the verdict went from %v to %v", p, a.Verdict(), b.Verdict())
			}
		}
		return nil
	})
}

// The start card's peak is the start peak of the table, and no order of the
// hand loads has a lower one.
func TestRandomWiring_startCard(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		m, r, err := mustModel(s)
		if err != nil {
			return err
		}
		orders, err := m.StartOrders(rig.State{}, nil)
		if err != nil {
			return err
		}
		for _, o := range orders {
			peak := 0.0
			for _, st := range o.Steps {
				peak = max(peak, float64(st.Peak))
				if driven := strings.HasPrefix(o.Source, "belt"); driven != (st.Shaft > 0) {
					return fmt.Errorf("%s asks %v of an engine", o.Source, st.Shaft)
				}
			}
			var hand, self []rig.Load
			for _, l := range s.Loads {
				switch {
				case l.Source != o.Source:
				case l.Starts == "by-hand":
					hand = append(hand, l)
				default:
					self = append(self, l)
				}
			}
			best, worst := everyOrder(hand, self)
			st, err := m.ParseState("site=afternoon plugs=as-listed")
			if err != nil {
				return err
			}
			x, _ := r.At(rig.Path("sources["+o.Source+"].start_peak"), st)
			y, _ := r.At(rig.Path("sources["+o.Source+"].start_peak_any_order"), st)
			for _, c := range [][2]float64{{peak, best}, {x.Value.SI(), best}, {y.Value.SI(), worst}} {
				if math.Abs(c[0]-c[1]) > 1e-9*c[1] {
					return fmt.Errorf("%s: card %v, table %v and %v; every order tried: %v and %v", o.Source, peak, x.Value, y.Value, best, worst)
				}
			}
		}
		return nil
	})
}

// everyOrder tries every order of the hand loads: best with those that start by
// themselves last, worst with them at any point of it, always together.
func everyOrder(hand, self []rig.Load) (best, worst float64) {
	selfRun, selfStart := 0.0, 0.0
	for _, l := range self {
		selfRun += float64(l.Running)
		selfStart += float64(l.Starting)
	}
	best = math.Inf(1)
	n := len(hand)
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	var try func(k int)
	try = func(k int) {
		if k < n {
			for i := k; i < n; i++ {
				order[k], order[i] = order[i], order[k]
				try(k + 1)
				order[k], order[i] = order[i], order[k]
			}
			return
		}
		for at := 0; at <= n; at++ {
			run, peak := 0.0, 0.0
			for i := 0; i <= n; i++ {
				if i == at {
					peak = max(peak, run+selfStart)
					run += selfRun
				}
				if i < n {
					peak = max(peak, run+float64(hand[order[i]].Starting))
					run += float64(hand[order[i]].Running)
				}
			}
			worst = max(worst, peak)
			if at == n {
				best = min(best, peak)
			}
		}
	}
	try(0)
	return best, worst
}

// Some loads cannot be placed if and only if every plug assignment passes some
// rating of a source or an engine.
func TestRandomWiring_unplaceable(t *testing.T) {
	t.Parallel()
	placed, unplaced := 0, 0
	property.Check(t, func(g *property.G) error {
		s := wiredSpec(g)
		m, r, err := mustModel(s)
		if err != nil || len(s.Loads) == 0 {
			return err
		}
		card, err := r.PlugCard()
		if err != nil {
			return err
		}
		possible := false
		for _, o := range r.PlugOptions() {
			fits := true
			for _, x := range [][2]string{{"sources[].running", "run_limit"}, {"sources[].start_peak", "start_limit"}, {"sources[].running_apparent", "run_apparent_limit"},
				{"sources[].start_apparent", "start_apparent_limit"}, {"engines[].demand", "available"}} {
				for v := range r.All(rig.Path(x[0])) {
					if v.State.On(rig.AxisPlugs) != o.State.On(rig.AxisPlugs) {
						continue
					}
					list, _, _ := strings.Cut(x[0], "[")
					st := v.State
					lim, ok := r.At(rig.Path(list+"["+v.Part+"]."+x[1]), st)
					idle := list == "engines" && nothingOn(m, v.Part, o.State.On(rig.AxisPlugs), r)
					if ok && !idle && v.Value.SI() > lim.Value.SI()*(1+1e-9) {
						fits = false
					}
				}
			}
			possible = possible || fits
		}
		if possible {
			placed++
		} else {
			unplaced++
		}
		if possible != (len(card.Unplaceable) == 0) {
			return fmt.Errorf("some assignment fits: %v; cannot be placed: %v", possible, card.Unplaceable)
		}
		if (len(card.LeaveOut) == 0) != possible {
			return fmt.Errorf("leave out %v", card.LeaveOut)
		}
		if !slices.IsSortedFunc(card.Passing, func(a, b rig.PlugOption) int {
			switch {
			case a.Margin > b.Margin:
				return -1
			case a.Margin < b.Margin:
				return 1
			}
			return 0
		}) {
			return fmt.Errorf("assignments that pass are not in order of margin")
		}
		return nil
	})
	if placed == 0 || unplaced == 0 {
		t.Errorf("%d cases fit and %d do not: the test looks at one side only", placed, unplaced)
	}
}

// nothingOn reports whether an engine's generator carries nothing in a plug
// assignment, so that what is asked of it is the pump's alone.
func nothingOn(m *rig.Model, engine, plugs string, r *rig.Report) bool {
	for _, x := range m.Spec().Sources {
		if x.Engine != engine {
			continue
		}
		for v := range r.All(rig.Path("sources[" + x.ID + "].running")) {
			if v.State.On(rig.AxisPlugs) == plugs && v.Value.SI() > 0 {
				return false
			}
		}
	}
	return true
}
