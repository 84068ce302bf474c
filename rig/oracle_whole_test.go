package rig_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
)

// An alone is a number of a rig in which one axis has one value only.
type alone struct {
	axis  rig.Axis
	value string
	r     *rig.Report
}

// aloneOnce makes the rigs in which one value of an axis is the only one: one hour,
// one mode, one listed fill, or plugs that stand as in one of the assignments.
func aloneOnce(m *rig.Model, s *rig.Spec, r *rig.Report) ([]alone, error) {
	var out []alone
	add := func(axis rig.Axis, value string, c ...rig.Change) error {
		x, err := changed(m, c...)
		if err != nil {
			return nil // what is left contradicts something, such as a hour that is gone
		}
		out = append(out, alone{axis, value, x})
		return nil
	}
	but := func(list, keep string, ids []string) (c []rig.Change) {
		for _, id := range ids {
			if id != keep {
				c = append(c, rig.Remove(rig.Path(list+"["+id+"]")))
			}
		}
		return c
	}
	var hours, fills []string
	for _, c := range s.Site.Conditions {
		hours = append(hours, c.ID)
	}
	for _, f := range s.Fills {
		fills = append(fills, f.ID)
	}
	for _, id := range hours {
		if err := add(rig.AxisSite, id, but("site.conditions", id, hours)...); err != nil {
			return nil, err
		}
	}
	if s.Trailer == nil || s.Trailer.Suspension != "independent" { // the ball is set for the first fill
		for _, id := range fills {
			if err := add(rig.AxisFill, id, but("fills", id, fills)...); err != nil {
				return nil, err
			}
		}
	}
	return out, nil
}

// Every number of every block depends on the axes it names and on no other: in a rig
// with one hour, or one listed fill, every number that is left is, to the bit, the
// number of the whole rig in that hour or fill; a number that names no hour is that of
// one of the hours. And the worst over the rigs with one is the worst of the whole rig.
func TestOracle_whole(t *testing.T) {
	t.Parallel()
	rigs, met := 0, map[rig.Path]bool{}
	property.Check(t, func(g *property.G) error {
		if g.Pick(3) != 0 {
			return nil // a rig is solved four times and more
		}
		s, m, r, err := wholeRig(g)
		if err != nil {
			return err
		}
		list, err := aloneOnce(m, s, r)
		if err != nil {
			return err
		}
		rigs++
		whole := numbersOf(r)
		chosen, hours := map[string]bool{}, 0 // numbers without an hour that some hour has
		for _, x := range list {
			if x.axis == rig.AxisSite {
				hours++
			}
			for y := range x.r.Every() {
				k := string(y.Path()) + " @ " + y.State.String()
				v, ok := whole[k]
				equal := ok && math.Float64bits(v) == math.Float64bits(y.Value.SI())
				switch {
				case y.State.On(x.axis) == "":
					if x.axis == rig.AxisSite && equal {
						chosen[k] = true
					}
				case coupled(y.Metric.Path) && x.axis == rig.AxisSite && x.value != hottest(s):
					// the shutter is set in the hottest hour
				case !equal:
					return fmt.Errorf("with %s alone on %v, %s is %.17g; in the whole rig %.17g", x.value, x.axis, k, y.Value.SI(), v)
				default:
					met[y.Metric.Path] = true
				}
			}
		}
		for y := range r.Every() {
			k := string(y.Path()) + " @ " + y.State.String()
			if hours == len(s.Site.Conditions) && hours > 0 && y.State.On(rig.AxisSite) == "" && !chosen[k] {
				return fmt.Errorf("%s is %.17g, and with no hour alone", k, y.Value.SI())
			}
		}
		return worstOfAlone(r, list)
	})
	if rigs >= 10 && len(met) < 60 {
		var names []string
		for p := range met {
			names = append(names, string(p))
		}
		slices.Sort(names)
		t.Errorf("only %d metrics met: %s", len(met), strings.Join(names, " "))
	}
}

// hottest names the hour with the warmest air.
func hottest(s *rig.Spec) string {
	id, air := "", 0.0
	for _, c := range s.Site.Conditions {
		if k := c.Air.Kelvin(); k > air {
			id, air = c.ID, k
		}
	}
	return id
}

func coupled(p rig.Path) bool {
	return strings.HasSuffix(string(p), "_coupled") || strings.HasSuffix(string(p), "coupled_residual") || p == "heaters[].air_number"
}

// worstOfAlone compares the worst of every metric over the rigs of one hour each, and
// over those of one listed fill, which have every corner too.
func worstOfAlone(r *rig.Report, list []alone) error {
	for _, axis := range []rig.Axis{rig.AxisSite, rig.AxisFill} {
		for _, m := range rig.Metrics() {
			best, found := math.NaN(), false
			for _, x := range list {
				if x.axis != axis || axis == rig.AxisSite && coupled(m.Path) {
					continue
				}
				w, ok := x.r.Worst(m.Path)
				if !ok || w.State.On(axis) == "" {
					continue
				}
				v := w.Value.SI()
				if !found || (m.Better == rig.Higher && v < best) || (m.Better != rig.Higher && v > best) {
					best, found = v, true
				}
			}
			if w, ok := r.Worst(m.Path); found && w.State.On(axis) != "" && (!ok || math.Float64bits(w.Value.SI()) != math.Float64bits(best)) {
				return fmt.Errorf("worst of %s is %v in %v, over the rigs with one on %v it is %g", m.Path, w.Value, w.State, axis, best)
			}
		}
	}
	return nil
}

// Every number that is told for other plugs than the listed ones is the number of the
// rig whose plugs are listed so.
func TestOracle_plugs(t *testing.T) {
	t.Parallel()
	rigs, met := 0, map[rig.Path]bool{}
	property.Check(t, func(g *property.G) error {
		if g.Pick(3) != 0 {
			return nil // a rig is solved four times and more
		}
		s, m, r, err := wholeRig(g)
		if err != nil {
			return err
		}
		for _, x := range m.Spec().Sources[min(1, len(s.Sources)):] {
			if x.Frequency != m.Spec().Sources[0].Frequency {
				return property.ErrDiscard // a motor's plate is taken to be for the frequency of its listed source
			}
		}
		options := r.PlugOptions()
		if len(options) < 2 {
			return property.ErrDiscard
		}
		o := options[g.Int(1, len(options)-1)]
		name := o.State.On(rig.AxisPlugs)
		var c []rig.Change
		for _, move := range splitPlus(name) {
			load, source, _ := strings.Cut(move, ">")
			c = append(c, rig.Set(rig.Path("loads["+load+"].source"), source), rig.Set(rig.Path("loads["+load+"].outlet"), ""))
		}
		for i := range s.Loads { // a plate's voltage that nobody gave is that of the listed source, and stays
			at := rig.Path("loads[" + s.Loads[i].ID + "].voltage")
			if q, ok := m.Quantity(at); ok {
				c = append(c, rig.Assign(at, q))
			}
		}
		moved, err := changed(m, c...)
		if err != nil {
			return property.ErrDiscard // modes or cords that name the listed plugs
		}
		rigs++
		listed := numbersOf(moved)
		for x := range r.Every() {
			if x.State.On(rig.AxisPlugs) != name || governed(s, x) {
				continue
			}
			k := string(x.Path()) + " @ " + strings.Replace(x.State.String(), "plugs="+name, "plugs=as-listed", 1)
			v, ok := listed[k]
			if !ok || math.Abs(v-x.Value.SI()) > 1e-12*math.Abs(v) {
				return fmt.Errorf("%s is %.17g in %v, and %.17g (%v) with those plugs listed", x.Path(), x.Value.SI(), x.State, v, ok)
			}
			met[x.Metric.Path] = true
		}
		return nil
	})
	if rigs >= 10 && len(met) < 5 {
		t.Errorf("only %v met", met)
	}
}

// governed reports a number of an engine whose speed, and with it the pump's, is met
// with the listed plugs.
func governed(s *rig.Spec, x rig.Reading) bool {
	for i := range s.Engines {
		if e := &s.Engines[i]; e.ID == x.Part && strings.HasPrefix(string(x.Metric.Path), "engines[]") {
			return e.NoLoadSpeed != 0 && e.Droop != 0
		}
	}
	return false
}
