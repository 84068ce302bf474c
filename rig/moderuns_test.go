package rig_test

import (
	"slices"
	"testing"

	"example.com/washrig/rig"
)

// Rig B's modes: what runs, and what stands and so burns nothing. The portable
// generator carries the vacuums in every mode; engine, pump and heater of the washer
// stand while nobody washes, and the heater while its burner is off.
func TestModes_whatStandsBurnsNothing(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B", rig.Add("modes", "rinse", ""), rig.Set("modes[rinse].guns", "left"))
	r := assessed(t, m)
	for _, x := range []struct {
		mode string
		runs []rig.Path
		heat string
	}{
		{"two-guns", []rig.Path{"engines[washer]", "pumps[main]", "heaters[heater]", "sources[portable]", "sources[belt]"}, "steady"},
		{"recover", []rig.Path{"sources[portable]"}, "off"},
		{"rinse", []rig.Path{"engines[washer]", "pumps[main]"}, "off"},
	} {
		i := slices.IndexFunc(m.Modes(), func(have rig.ModeState) bool { return have.ID == x.mode })
		mode := m.Modes()[i]
		a, b := slices.Clone(mode.Runs), slices.Clone(x.runs)
		slices.Sort(a)
		slices.Sort(b)
		if !slices.Equal(a, b) || mode.State.On(rig.AxisHeat) != x.heat {
			t.Errorf("%s: runs %v with heat %s, want %v with heat %s", x.mode, a, mode.State.On(rig.AxisHeat), b, x.heat)
		}
		for _, c := range []rig.Path{"engines[washer]", "heaters[heater]", "sources[portable]"} {
			burns := value(t, r, c+".fuel_rate", "mode="+x.mode)
			if burns > 0 != slices.Contains(x.runs, c) {
				t.Errorf("%s: %s burns %g m³/s, which does not fit with what runs: %v", x.mode, c, burns, x.runs)
			}
		}
	}
}
