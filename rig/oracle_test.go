package rig_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// The states that are left out are dominated by those that are solved. These
// tests solve the left-out ones as well, on small random rigs, and compare the
// worst of everything with the worst of what the report has.

// Fewer loads switched on never raise running load, best start or restart.
func TestOracle_everyLoadOn(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		m, all, err := mustModel(s)
		if err != nil {
			return err
		}
		for bits := range 1 << len(s.Loads) {
			var off []rig.Change
			for k := range s.Loads {
				if bits&(1<<k) == 0 {
					off = append(off, rig.Remove(rig.Path("loads["+s.Loads[k].ID+"]")))
				}
			}
			some, err := changed(m, off...)
			if err != nil {
				return err
			}
			for _, id := range []string{"portable", "belt-1"} {
				for _, p := range []string{"running", "start_peak", "restart_peak"} {
					path := rig.Path("sources[" + id + "]." + p)
					a, okA := all.Worst(path)
					b, okB := some.Worst(path)
					if !okA || !okB {
						return fmt.Errorf("no reading of %s", path)
					}
					if b.Value.SI() > a.Value.SI()*(1+1e-12) {
						return fmt.Errorf("with loads %b on, %s is %v; with all on %v", bits, path, b.Value, a.Value)
					}
				}
			}
		}
		return nil
	})
}

// The greatest demand on an engine over every set of guns, heat, hour and plug
// assignment is the one the report has, although it meets other plugs with one
// set of guns only.
func TestOracle_enginesAndPlugs(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		m, r, err := mustModel(s)
		if err != nil {
			return err
		}
		for _, e := range s.Engines {
			have := math.Inf(-1)
			for x := range r.All(rig.Path("engines[" + e.ID + "].demand")) {
				have = math.Max(have, x.Value.SI())
			}
			want := math.Inf(-1)
			for _, o := range r.PlugOptions() {
				moved, err := pluggedAs(m, s, o)
				if err != nil {
					return err
				}
				for x := range moved.All(rig.Path("engines[" + e.ID + "].demand")) {
					if x.State.On(rig.AxisPlugs) == "as-listed" {
						want = math.Max(want, x.Value.SI())
					}
				}
			}
			if len(s.Loads) == 0 {
				continue
			}
			// Pumps do not share guns, so one state has every pump at its most: the
			// sum over engines is greatest where each engine's own demand is.
			if math.Abs(have-want) > 1e-9*want {
				return fmt.Errorf("engine %s: %g, exhaustive %g", e.ID, have, want)
			}
		}
		return nil
	})
}

// pluggedAs makes the rig whose listed plugs are those of an option.
func pluggedAs(m *rig.Model, s *rig.Spec, o rig.PlugOption) (*rig.Report, error) {
	source := map[string]string{}
	name := o.State.On(rig.AxisPlugs)
	if name != "as-listed" {
		for _, move := range splitPlus(name) {
			for i := range move {
				if move[i] == '>' {
					source[move[:i]] = move[i+1:]
				}
			}
		}
	}
	var c []rig.Change
	for _, l := range s.Loads {
		if to := source[l.ID]; to != "" {
			c = append(c, rig.Set(rig.Path("loads["+l.ID+"].source"), to))
		}
	}
	return changed(m, c...)
}

func splitPlus(s string) []string {
	var out []string
	start := 0
	for i := range s {
		if s[i] == '+' {
			out = append(out, s[start:i])
			start = i + 1
		}
	}
	return append(out, s[start:])
}

// Total, tongue, axle and tongue share have their extremes over all fills at
// the corners: no level in between lies outside what the corners span.
func TestOracle_fillCorners(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		_, r, err := mustModel(s)
		if err != nil {
			return err
		}
		c := s.Clone()
		for i := range 5 {
			c.Fills = append(c.Fills, rig.Fill{ID: fmt.Sprintf("between-%d", i), Levels: []rig.Level{
				{ID: "fresh", Volume: s.Tanks[0].Nominal * units.Volume(g.Float(0, 1))},
				{ID: "recovered", Volume: s.Tanks[1].Nominal * units.Volume(g.Float(0, 1))},
				{ID: "diesel", Volume: s.FuelTanks[0].Volume * units.Volume(g.Float(0, 1))}}})
		}
		_, inner, err := mustModel(c)
		if err != nil {
			return err
		}
		for _, p := range []rig.Path{"trailer.total", "trailer.tongue", "trailer.tongue_share", "trailer.axle"} {
			low, high := math.Inf(1), math.Inf(-1)
			for x := range r.All(p) {
				low, high = math.Min(low, x.Value.SI()), math.Max(high, x.Value.SI())
			}
			slack := 1e-12 * math.Max(math.Abs(low), math.Abs(high))
			for x := range inner.All(p) {
				if v := x.Value.SI(); v < low-slack || v > high+slack {
					return fmt.Errorf("%s is %g in %v, corners span %g to %g", p, v, x.State, low, high)
				}
			}
		}
		return nil
	})
}

// The worst of a path over all its states is what Worst says, and every
// finding is no better than any other judgement of its check and component.
func TestOracle_worstOfAll(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		_, r, err := mustModel(randomSpec(g))
		if err != nil {
			return err
		}
		for _, m := range rig.Metrics() {
			worst, ok := r.Worst(m.Path)
			for x := range r.All(m.Path) {
				if x.State.Reach() == rig.Fault || (x.State.On(rig.AxisPlugs) != "" && x.State.On(rig.AxisPlugs) != "as-listed") {
					continue
				}
				if !ok || (m.Better == rig.Higher && x.Value.SI() < worst.Value.SI()) || (m.Better != rig.Higher && x.Value.SI() > worst.Value.SI()) {
					return fmt.Errorf("worst of %s is %v, but %v in %v", m.Path, worst.Value, x.Value, x.State)
				}
			}
		}
		gravest := map[string]rig.Severity{}
		held := map[rig.Code]bool{} // codes that hold readings against limits; the others judge words
		for j := range r.Judgements() {
			if p := j.Reading.State.On(rig.AxisPlugs); p == "" || p == "as-listed" {
				k := string(j.Code) + string(j.Reading.Path())
				held[j.Code] = true
				gravest[k] = max(gravest[k], j.Severity)
			}
		}
		for _, f := range append(r.Findings(), r.Passed()...) {
			if !held[f.Code] {
				continue
			}
			if want := gravest[string(f.Code)+string(f.Reading.Path())]; f.Severity != want {
				return fmt.Errorf("%s of %s is %v, the gravest judgement %v", f.Code, f.Reading.Path(), f.Severity, want)
			}
		}
		return nil
	})
}
