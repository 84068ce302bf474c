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

func faultAt(t *testing.T, r *rig.Report, p rig.Path, state string) float64 {
	t.Helper()
	s, err := r.Model().ParseState(state)
	if err != nil {
		t.Fatal(err)
	}
	x, ok := r.At(p, s)
	if !ok {
		t.Fatalf("no %s in %s", p, state)
	}
	return x.Value.SI()
}

// Rig B's unloader sticks shut: with every gun closed the relief valve takes 6.8
// gpm at its 3,400 psi, and the engine 6.8·3400/1714.286/(0.88·0.96) + 1.164 =
// 17.13 hp. With 200 psi of accumulation the whole flow passes at 3,600 psi,
// above the pump's 3,500. Without the relief valve nothing limits the pressure.
func TestFault_unloaderShut(t *testing.T) {
	r := assessed(t, demoModel(t, "B"))
	const closed = "guns=none heat=steady fault=unloader-shut"
	if got := faultAt(t, r, "pumps[main].fault_pressure", closed) / float64(units.PSI); math.Abs(got-3400) > 1e-6 {
		t.Errorf("%.3f psi, want the relief valve's 3,400", got)
	}
	if got := faultAt(t, r, "pumps[main].fault_relief_flow", closed) / float64(units.GallonPerMinute); math.Abs(got-6.8) > 1e-9 {
		t.Errorf("%.3f gpm through the relief valve, want 6.8", got)
	}
	want := 6.8*3400/1714.2857142857142/(0.88*0.96) + 650/745.69987158227022/(0.78*0.96)
	if got := faultAt(t, r, "engines[washer].fault_demand", "plugs=as-listed site=afternoon fault=unloader-shut") / float64(units.Horsepower); math.Abs(got-want) > 1e-3 {
		t.Errorf("%.4f hp, hand sum %.4f", got, want)
	}
	r = assessed(t, demoModel(t, "B", rig.Set("pumps[main].relief.accumulation", "200 psi")))
	if got := faultAt(t, r, "pumps[main].fault_pressure", closed) / float64(units.PSI); math.Abs(got-3600) > 1e-6 {
		t.Errorf("%.3f psi with accumulation, want 3,600", got)
	}
	if f := judgement(t, r, "fault-over-rating", "main"); f.Severity != rig.Stop || f.Reading.State.Reach() != rig.Fault {
		t.Errorf("%v in %v", f.Severity, f.Reading.State)
	}
	r = assessed(t, demoModel(t, "B", rig.Set("pumps[main].relief.part", "")))
	if f := judgement(t, r, "fault-dead-head", "main"); f.Severity != rig.Stop {
		t.Errorf("without a relief valve: %v", f.Severity)
	}
}

// The table of single faults of rig B: the relief valve holds when the unloader
// sticks, thermostat and flow switch are each covered by another control, and the
// high limit acts late, as the demo's finding says.
func TestFault_table(t *testing.T) {
	r := assessed(t, demoModel(t, "B"))
	want := map[string]struct {
		verdict rig.Severity
		holds   string
		fails   string
	}{
		"unloader-shut":    {rig.Note, "fault-over-rating", "fault-overloads-engine"},
		"relief-shut":      {rig.Pass, "fault-over-rating", ""},
		"tip-blocked":      {rig.Pass, "fault-over-rating", ""},
		"tips-worn":        {rig.Pass, "fault-over-rating", ""},
		"thermostat-stuck": {rig.Fix, "", "high-limit-late"},
		"high-limit-dead":  {rig.Pass, "fault-over-temperature", ""},
		"flow-switch-dead": {rig.Pass, "fault-over-temperature", ""},
		"motor-out":        {rig.Note, "", "motor-out-puddles"},
		"check-valve-open": {rig.Pass, "", ""},
	}
	lines := r.Faults()
	if len(lines) != len(want) {
		t.Errorf("%d faults, want %d", len(lines), len(want))
	}
	has := func(list []rig.Judgement, c string) bool {
		for _, j := range list {
			if string(j.Code) == c {
				return true
			}
		}
		return c == ""
	}
	for _, l := range lines {
		w, ok := want[l.Fault]
		if !ok || l.Verdict != w.verdict || !has(l.Holds, w.holds) || !has(l.Fails, w.fails) {
			t.Errorf("%s: %v, holds %v, fails %v", l.Fault, l.Verdict, l.Holds, l.Fails)
		}
		if l.State.String() != "fault="+l.Fault || l.State.Reach() != rig.Fault {
			t.Errorf("state %v", l.State)
		}
	}
}

// A fault is a rig without the part: over every set of guns of a rig whose
// unloader, or relief valve, is taken away no pressure is higher than the one the
// fault has, and the greatest is the same.
func TestOracle_fault(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		_, r, err := mustModel(s)
		if err != nil {
			return err
		}
		for fault, strip := range map[string]func(*rig.Pump){
			"unloader-shut": func(p *rig.Pump) { p.Unloader = rig.Unloader{} },
			"relief-shut":   func(p *rig.Pump) { p.Relief = rig.Relief{} },
		} {
			c := s.Clone()
			for i := range c.Pumps {
				strip(&c.Pumps[i])
			}
			_, without, err := mustModel(c)
			if err != nil {
				return err
			}
			for _, p := range s.Pumps {
				want, have := math.Inf(-1), math.Inf(-1)
				for x := range without.All(rig.Path("pumps[" + p.ID + "].pressure")) {
					if x.State.On(rig.AxisHeat) != "stuck" && x.State.On(rig.AxisHeat) != "off" {
						want = math.Max(want, x.Value.SI())
					}
				}
				for x := range r.All(rig.Path("pumps[" + p.ID + "].fault_pressure")) {
					if x.State.On(rig.AxisFault) == fault {
						have = math.Max(have, x.Value.SI())
					}
				}
				feeds := false
				for _, l := range s.Lines {
					feeds = feeds || l.Pump == p.ID
				}
				if feeds && math.Abs(want-have) > 1e-9*math.Abs(want) {
					return fmt.Errorf("%s of %s: %g, exhaustive %g", fault, p.ID, have, want)
				}
			}
		}
		return nil
	})
}

// Worn tips in the fault are the worn tips of the check on tips, and a blocked tip
// leaves the others what they have without that gun.
func TestFault_tips(t *testing.T) {
	// a line that runs empty has no pressure but what a billionth of a bar leaves
	slack := func(x rig.Reading) float64 { return 1e-9 * math.Max(math.Abs(x.Value.SI()), float64(units.Bar)) }
	property.Check(t, func(g *property.G) error {
		s := randomSpec(g)
		_, r, err := mustModel(s)
		if err != nil {
			return err
		}
		for x := range r.All("lines[].fault_nozzle_pressure") {
			fault := x.State.On(rig.AxisFault)
			plain := strings.TrimSuffix(x.State.String(), " fault="+fault)
			st, err := r.Model().ParseState(plain)
			if err != nil {
				return err
			}
			if fault == "tips-worn" {
				if y, ok := r.At(rig.Path(strings.Replace(string(x.Path()), "fault_nozzle_pressure", "worn_pressure", 1)), st); ok && y.State == st && math.Abs(y.Value.SI()-x.Value.SI()) > slack(x) {
					return fmt.Errorf("%s: %v, worn %v", x.Path(), x.Value, y.Value)
				}
			}
			if fault == "tip-blocked" {
				if y, ok := r.At(rig.Path(strings.Replace(string(x.Path()), "fault_nozzle_pressure", "nozzle_pressure", 1)), st); ok && x.Value.SI() < y.Value.SI()-slack(x) {
					return fmt.Errorf("%s fell from %v to %v when another tip blocked", x.Path(), y.Value, x.Value)
				}
			}
		}
		return nil
	})
}
