package demo_test

import (
	"math"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// The recovery plant of the demo, invented: motors of 120 cfm open and 110 in of
// water sealed, a straight line between; a tool of 6 in at 100 cfm; 25 ft of smooth
// 2 in hose (A: 1.5 in) that climbs 3 ft; an air filter of 2 in new and 6 in at
// change-out; a dump pump of 28 ft and 20 gpm on a parabola, 3 ft up through 12 ft of
// 1 in hose with four velocity heads, a check valve of 0.2 psi, bag and cartridge.
//
// Air at 5,200 ft, 95 °F: 83.68 kPa, 0.7856 of the plate's density.
func TestVerdict_recoveryOfB(t *testing.T) {
	b := load(t).reports["B"]
	const at = "guns=left+right site=afternoon motors=2 filters=clean"

	// 110·0.7856 = 86.4 in of water, 7.20 ft of conventional water, 7.23 ft of water at
	// 85 °F.
	near(t, "sealed lift", read(t, b, "recovery[plant].sealed_lift", "site=afternoon motors=2", "inH2O"), 86.4, algebra)
	near(t, "column", read(t, b, "recovery[plant].column", "site=afternoon motors=2", "ft"), 7.23, algebra)
	verdict(t, b, "recovery-stalls", "plant", rig.Pass)
	// Morning, 34 °F: 110·0.7856·308.15/274.26 = 97.1 in of the drum's 150.
	near(t, "sealed lift, morning", read(t, b, "recovery[plant].sealed_lift", "site=morning motors=1", "inH2O"), 97.1, algebra)
	verdict(t, b, "drum-over-vacuum", "plant", rig.Pass)

	// 3.1·(0.0713·9.81·994.8)^¼/√0.946 = 16.4 m/s = 3,222 ft/min.
	near(t, "carry speed", read(t, b, "recovery[plant].carry_speed", "site=afternoon", "ft/min"), 3222, algebra)

	// 72 % of 6.8 gpm.
	near(t, "comes back", read(t, b, "recovery[plant].recovered_flow", at, "gpm"), 4.896, algebra)
	near(t, "comes back, one gun", read(t, b, "recovery[plant].recovered_flow", "guns=left site=afternoon motors=2 filters=clean", "gpm"), 0.72*3.74, properties)

	// Pick-up. 3,222 ft/min in 2 in are 70.3 cfm, 35.15 a motor: 86.4·(1 − 35.15/120) = 61.1
	// in are left. With 5.0 gpm, ten times the mass of the air:
	// tool 6·0.703²·0.7856·11.0·1.04 = 26.9 in;
	// hose, G = 170 kg/(m²·s), x = 0.091: as liquid 8.7 Pa/m, as gas at the mean density
	// 4,640 Pa/m, together 826 Pa/m, 25.3 in over 25 ft, and 1.4 in of momentum;
	// climb: 0.165 of 36 in of water stand in it, 5.9 in; filter 1.4 in. Sum 60.9 in.
	near(t, "pick-up", read(t, b, "recovery[plant].pick_up", "site=afternoon motors=2 filters=clean", "gpm"), 5.0, properties)
	// With one motor 35.2 in are left at that speed: half of it.
	near(t, "pick-up, one motor", read(t, b, "recovery[plant].pick_up", "site=afternoon motors=1 filters=clean", "gpm"), 2.5, properties)
	// New filters let it keep up by 2 %; at change-out it puddles while the triggers are
	// pulled, and with 55 % trigger time, 2.69 gpm, it keeps up over the pauses.
	verdict(t, b, "recovery-puddles", "plant", rig.Note)
	f := finding(b, "recovery-puddles", "plant")
	if f.Reading.State.On(rig.AxisFilters) != "change-out" || f.Reading.State.On(rig.AxisMotors) != "2" || f.Reading.State.On(rig.AxisGuns) != "left+right" {
		t.Errorf("B puddles in %v", f.Reading.State)
	}
	verdict(t, b, "recovery-air-slow", "plant", rig.Note)

	// Drum. 59.4 in of water are 4.97 ft. At 12.88 gpm the pump makes 28·(1 − 0.644²) =
	// 16.4 ft: 3 ft of lift, 4.97 ft of vacuum, 0.46 ft of valve, 7.0 velocity heads of
	// 0.430 ft, and 2.14 psi = 4.95 ft of new filters.
	near(t, "head of the vacuum", read(t, b, "recovery[plant].vacuum_head", at, "ft"), 4.97, properties)
	near(t, "dump pump", read(t, b, "recovery[plant].dump_flow", at, "gpm"), 12.88, properties)
	near(t, "new filters", read(t, b, "recovery[plant].filter_loss", at, "psi"), 2.14, properties)
	verdict(t, b, "dump-out-short", "plant", rig.Pass)
	// The second motor costs the dump pump flow: 13.3 with one, 12.9 with two.
	one := read(t, b, "recovery[plant].dump_flow", "guns=left+right site=afternoon motors=1 filters=clean", "gpm")
	if two := read(t, b, "recovery[plant].dump_flow", at, "gpm"); !(two < one-0.2) {
		t.Errorf("the dump pump moves %.2f gpm with one motor, %.2f with two", one, two)
	}
	verdict(t, b, "dump-draws-back", "plant", rig.Pass)

	// Dirt: 0.01 lb/gal·4.896 gpm·60·0.55 = 1.616 lb/h; the bag keeps 1.293 and lasts
	// 16/1.293 = 12.4 h, twice the washing hours of a day.
	near(t, "bag", read(t, b, "recovery[plant].filter_time", "mode=two-guns", "h"), 12.38, algebra)
	verdict(t, b, "filter-short", "plant", rig.Pass)
	gauges, err := b.FilterGauges("plant")
	if err != nil || len(gauges) != 2 {
		t.Fatal(gauges, err)
	}
	// The cartridge meets 0.323 lb/h, keeps 0.226 and lasts 3/0.226 = 13.3 h.
	near(t, "cartridge", gauges[1].Lasts.In(units.Hour), 13.27, algebra)
	// Before the bag, new, stand lift and hose, 3 + 3.0 ft = 2.6 psi, and 2.1 psi of filters.
	near(t, "gauge before the bag", gauges[0].NewBefore.In(units.PSI), 4.72, properties)

	// One filling brings back 72 % of what can be drawn; the recovered tank holds less.
	fresh, recovered := volume(t, b, "fresh"), volume(t, b, "recovered")
	near(t, "returned", read(t, b, "recovery[plant].returned", "any", "gal"), 0.72*fresh, algebra)
	verdict(t, b, "recovery-no-room", "plant", rig.Fix)
	if m := finding(b, "recovery-no-room", "plant").Margin; math.Abs(m-(1-0.72*fresh/recovered)) > 1e-6 {
		t.Errorf("margin %.4f", m)
	}
}

func volume(t *testing.T, r *rig.Report, tank string) float64 {
	t.Helper()
	q, ok := r.Model().Quantity(rig.Path("tanks[" + tank + "].usable"))
	if !ok {
		t.Fatalf("tank %s has no usable volume", tank)
	}
	return q.SI() / float64(units.Gallon)
}

// One motor is enough for one gun where the hose is narrow: A has 1.5 in, C sprays
// 7.2 gpm on the plant of B.
func TestVerdict_recoveryOfTheOthers(t *testing.T) {
	r := load(t).reports
	// 72 % of 4.4 gpm are 3.17; the pick-up at change-out is 2 % more.
	near(t, "A comes back", read(t, r["A"], "recovery[plant].recovered_flow", "guns=gun site=afternoon motors=1 filters=clean", "gpm"), 3.168, algebra)
	verdict(t, r["A"], "recovery-puddles", "plant", rig.Pass)
	wide := with(t, r["A"], rig.Set("recovery[plant].hose.bore", "2 in"))
	verdict(t, wide, "recovery-puddles", "plant", rig.Note)
	near(t, "C comes back", read(t, r["C"], "recovery[plant].recovered_flow", "guns=left+right site=afternoon motors=2 filters=clean", "gpm"), 0.72*7.2, algebra)
	verdict(t, r["C"], "recovery-puddles", "plant", rig.Note)
	for _, n := range []string{"A", "B", "C", "D"} {
		for _, f := range r[n].Findings() {
			if f.Reading.Metric != nil && f.Reading.Part == "plant" && f.Severity >= rig.CannotJudge {
				t.Errorf("rig %s: %v %s", n, f.Severity, f.Code)
			}
		}
	}
}

// Remedies and faults, each assessed before it is believed.
func TestVerdict_recoveryChanges(t *testing.T) {
	b := load(t).reports["B"]
	// At sea level two motors keep up with dirty filters as well.
	sea := with(t, b, rig.Set("site.elevation", "0 ft"), rig.Set("site.conditions[afternoon].air", "77 °F"))
	verdict(t, sea, "recovery-puddles", "plant", rig.Pass)
	// Corrugated hose costs about twice the friction.
	verdict(t, with(t, b, rig.Set("recovery[plant].hose.wall", "corrugated"), rig.Set("recovery[plant].hose.length", "50 ft")), "recovery-puddles", "plant", rig.Fix)
	// A pump of 14 ft has 14 − 3 − 4.8 − 0.5 = 5.7 ft for hose and dirty filters: 3.6 gpm of
	// 4.9, and the float shuts 20 gal after 15 minutes.
	weak := with(t, b, rig.Set("recovery[plant].dump_pump.shut_off_head", "14 ft"))
	verdict(t, weak, "dump-out-short", "plant", rig.Fix)
	const dirty = "guns=left+right site=afternoon motors=2 filters=change-out"
	flow := read(t, weak, "recovery[plant].dump_flow", dirty, "gpm")
	near(t, "float", read(t, weak, "recovery[plant].float_time", dirty, "min"), 20/(4.896-flow), algebra)
	// Flammables are a stop, not a number.
	verdictStop(t, with(t, b, rig.Set("recovery[plant].flammables", "yes")), "recovery-flammable")
	verdictStop(t, with(t, b, rig.Set("recovery[plant].oil", "yes"), rig.Set("crossovers[joint].valve", "open")), "recovery-oil-reused")
	if f := finding(with(t, b, rig.Set("recovery[plant].oil", "yes")), "recovery-oil-reused", "plant"); f != nil {
		t.Error("oil in water that is kept apart is a stop")
	}
}

func verdictStop(t *testing.T, r *rig.Report, c rig.Code) {
	t.Helper()
	if f := finding(r, c, "plant"); f == nil || f.Severity != rig.Stop {
		t.Errorf("%s: %v", c, f)
	}
}
