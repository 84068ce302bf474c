package demo_test

import (
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// Water of 45 °F weighs 62.42 lb/ft³ and its vapour presses with 0.1476 psia; at
// 105 °F it is 61.93 lb/ft³ and 1.103 psia. The air at 5,200 ft presses with
// 83,682 Pa or 12.137 psia.
//
//	worst of B: strainer half blocked, 105 °F, tank low
//	air − vapour      (12.137 − 1.103) · 144/61.93         25.66 ft
//	level             4 in                                   0.33
//	vacuum            6.8 gpm through a 1.5 in vent           0.00
//	hose, fittings    V = 6.8 · 0.4085/1.25² = 1.778 ft/s, V²/2g = 0.0491 ft;
//	                  f L/d = 0.024 · 48/1.25 = 0.92, K 2.5  −0.17
//	strainer          1 psi/(1 − ½)² = 4 psi · 144/61.93     −9.30
//	pulses            1.5 · 1.778 · 1150 · 0.066/(1.4 · 32.17) −4.49
//	                                                        12.03 ft
const (
	worstSuction = "strainer=dirty water=warm level=low"
	bestSuction  = "strainer=clean water=cold level=full"
)

func TestVerdict_suction(t *testing.T) {
	r := load(t).reports
	b := r["B"]
	near(t, "B, speed in the suction hose", read(t, b, "pumps[main].suction_velocity", "any", "ft/s"), 1.778, algebra)
	near(t, "B, hose and fittings", read(t, b, "pumps[main].suction_line_loss", worstSuction, "ft"), 0.17, properties)
	near(t, "B, strainer dirty and warm", read(t, b, "pumps[main].strainer_head", worstSuction, "ft"), 9.30, algebra)
	near(t, "B, pulses", read(t, b, "pumps[main].acceleration_head", worstSuction, "ft"), 4.49, algebra)
	near(t, "B, worst suction head", read(t, b, "pumps[main].suction_head", worstSuction, "ft"), 12.03, algebra)
	near(t, "B, over the 9 ft it needs", read(t, b, "pumps[main].suction_margin", worstSuction, "ft"), 3.03, properties)
	// Clean, cold and full: (12.137 − 0.1476) · 144/62.42 = 27.66, + 3.17 − 0.18 − 2.31 − 4.49.
	near(t, "B, best suction head", read(t, b, "pumps[main].suction_head", bestSuction, "ft"), 23.85, algebra)
	if w, ok := b.Worst("pumps[main].suction_head"); !ok || w.State.String() != worstSuction {
		t.Errorf("the worst state is %v", w.State)
	}

	// A draws 4.4 gpm and C 3.6 a pump through the same hose; the strainer is rated at
	// each pump's own flow, so only hose and pulses change: 12.03 + 0.10 + 4.49 · (1 −
	// 4.4/6.8) = 13.7 and 12.03 + 0.12 + 4.49 · (1 − 3.6/6.8) = 14.26. D is as B.
	near(t, "A, worst suction head", read(t, r["A"], "pumps[main].suction_head", worstSuction, "ft"), 13.71, algebra)
	for _, p := range []rig.Path{"pumps[main-1].suction_head", "pumps[main-2].suction_head"} {
		near(t, "C, worst suction head", read(t, r["C"], p, worstSuction, "ft"), 14.26, algebra)
	}
	near(t, "D, worst suction head", read(t, r["D"], "pumps[main].suction_head", worstSuction, "ft"), 12.03, algebra)

	for n, pumps := range map[string][]string{"A": {"main"}, "B": {"main"}, "C": {"main-1", "main-2"}, "D": {"main"}} {
		for _, p := range pumps {
			for _, c := range []rig.Code{"suction-head", "suction-reserve", "suction-fast", "low-side-hot", "strainer-coarse", "strainer-service"} {
				verdict(t, r[n], c, p, rig.Pass)
			}
		}
	}

	// A strainer left until four fifths are blocked: 25 psi, 58 ft. A line of stiff
	// pipe without stabiliser moves all its 4 ft: 4.49 · 4/1.5 = 11.98 ft of pulses.
	verdict(t, with(t, b, rig.Set("pumps[main].suction.strainer.blocked", "80 %")), "suction-head", "main", rig.Stop)
	stiff := with(t, b, rig.Set("pumps[main].suction.stabiliser", "no"), rig.Set("pumps[main].suction.wall", "stiff"))
	near(t, "pulses in a stiff line", read(t, stiff, "pumps[main].acceleration_head", worstSuction, "ft"), 11.98, algebra)
	verdict(t, stiff, "suction-head", "main", rig.Stop)
	// At 9,000 ft the air is 10.5 psia: 1.64 psi or 3.8 ft less than at the site.
	high := with(t, b, rig.Set("site.elevation", "9000 ft"))
	near(t, "at 9,000 ft", read(t, high, "pumps[main].suction_head", worstSuction, "ft"), 12.03-3.8, properties)
	verdict(t, high, "suction-head", "main", rig.Stop)
}

// A pump whose sheet says nothing of its suction: the band of the trade holds the
// break-even, which is the head that is there.
func TestVerdict_suctionNotGiven(t *testing.T) {
	b := load(t).reports["B"]
	unknown := with(t, b, rig.Set("pumps[main].part", ""), rig.Set("pumps[main].rated_flow", "6.8 gpm"), rig.Set("pumps[main].maximum_pressure", "3500 psi"),
		rig.Set("pumps[main].maximum_inlet_temperature", "145 °F"), rig.Set("pumps[main].efficiency", "88 %"), rig.Set("pumps[main].plungers", "3"), rig.Set("pumps[main].speed", "1150 rpm"))
	verdict(t, unknown, "suction-head", "main", rig.CannotJudge)
	f := finding(unknown, "suction-head", "main")
	if f == nil {
		t.Fatal("no finding")
	}
	if len(f.Leans) == 0 || f.Leans[0] != "pumps[main].required_head" {
		t.Errorf("it leans on %v", f.Leans)
	}
	near(t, "break-even", f.Turns.SI(), (12.03 * units.Foot).Quantity().SI(), algebra)
	if !f.Typical.Given() {
		t.Error("no band beside the break-even")
	}
}

func TestVerdict_dumpAndVent(t *testing.T) {
	r := load(t).reports
	// 240 gal in 36 in: A = 1,540 in². Pipe: f L/d = 0.02 · 24/2.067 = 0.23, K 1.7, so
	// C = 1/√1.93 = 0.72. t = 2 · 1540/(0.72 · 3.356 · 27.79) (√36 − √1) = 229 s. At first
	// 0.72 · 3.356 in² · √(2 g 36 in) = 403 in³/s = 105 gpm. The 1.5 in vent passes it at
	// ½ · 1.064 kg/m³ (34 °F) · (6.62e-3 m³/s/(0.6 · 1.14e-3 m²))² = 49.9 Pa = 0.20 in.
	for _, n := range []string{"A", "B", "C", "D"} {
		near(t, n+", fresh dumps in", read(t, r[n], "tanks[fresh].dump_time", "any", "min"), 229./60, properties)
		near(t, n+", recovered dumps in", read(t, r[n], "tanks[recovered].dump_time", "any", "min"), 229./60*160/240, properties)
		near(t, n+", at first", read(t, r[n], "tanks[fresh].dump_flow", "any", "gpm"), 105, properties)
		near(t, n+", vacuum", read(t, r[n], "tanks[fresh].vacuum", "any", "inH2O"), 0.20, properties)
		// 1.5 in · (0.20/2)^¼
		near(t, n+", vent for 2 in of water", read(t, r[n], "tanks[fresh].vent_needed", "any", "in"), 0.843, algebra)
		verdict(t, r[n], "tank-vacuum", "fresh", rig.Pass)
		verdict(t, r[n], "tank-vacuum", "recovered", rig.Pass)
	}
	// A vent of 5/8 in would hold 6.6 in of water back by the square law; dumping more
	// slowly because of it, 5.6.
	small := with(t, r["B"], rig.Set("tanks[recovered].vent", "5/8 in"))
	near(t, "vacuum behind a 5/8 in vent", read(t, small, "tanks[recovered].vacuum", "any", "inH2O"), 6.64/(1+6.64/36), properties)
	verdict(t, small, "tank-vacuum", "recovered", rig.Stop)
	verdict(t, with(t, r["B"], rig.Set("tanks[recovered].maximum_vacuum", "")), "tank-vacuum", "recovered", rig.CannotJudge)
}

func TestVerdict_fill(t *testing.T) {
	r := load(t).reports["B"]
	// At 51 gpm: main 55 − 15 · (51/60)^1.85 = 43.9 psi, less device 8 and 5 ft of climb
	// 2.2 leaves 33.7. Hose: V = 51 · 0.4085 = 20.8 ft/s, V²/2g = 6.74 ft = 2.92 psi;
	// Re = 1.1e5, f = 0.0176, f L/d = 10.6, and the end once: 11.6 · 2.92 = 33.8 psi.
	near(t, "flow from the depot", read(t, r, "supplies[depot].flow", "any", "gpm"), 51, properties)
	near(t, "full in", read(t, r, "supplies[depot].fill_time", "any", "min"), 232./51, properties)
	near(t, "gained while washing", read(t, r, "supplies[depot].gain", "any", "gpm"), 51-0.55*6.8, properties)
	near(t, "air gap of a 1 in end", read(t, r, "supplies[depot].air_gap_needed", "any", "in"), 2, algebra)
	verdict(t, r, "air-gap", "depot", rig.Pass)
	verdict(t, r, "supply-loses-ground", "depot", rig.Pass)
	// A gap of an inch is too little; the double check valve stands in for it.
	verdict(t, with(t, r, rig.Set("supplies[depot].air_gap", "1 in")), "air-gap", "depot", rig.Note)
	none := []rig.Change{rig.Set("supplies[depot].device", "none"), rig.Set("supplies[depot].device_loss", "")}
	verdict(t, with(t, r, append(none, rig.Set("supplies[depot].air_gap", "1 in"))...), "air-gap", "depot", rig.Stop)
	verdict(t, with(t, r, append(none, rig.Set("supplies[depot].air_gap", ""))...), "air-gap", "depot", rig.CannotJudge)
}

func TestVerdict_crossover(t *testing.T) {
	r := load(t).reports["B"]
	// Far tank 160 of 400 gal: 0.4 · 6.8 = 2.72 gpm through 2.067 in, V = 0.26 ft/s,
	// V²/2g = 0.00105 ft; K 1.7 and f L/d = 0.034 · 17.4 = 0.6: 2.3 · 0.00105 ft = 0.029 in.
	near(t, "lower while drawn", read(t, r, "crossovers[joint].draw_difference", "any", "in"), 0.0288, properties)
	// The depot's 51 gpm: 20.4 gpm, V = 1.95 ft/s, V²/2g = 0.0592 ft; K 1.7 and f L/d =
	// 0.0218 · 17.4 = 0.38: 2.08 · 0.0592 ft = 1.48 in.
	near(t, "higher while filled", read(t, r, "crossovers[joint].fill_difference", "any", "in"), 1.5, properties)
	// 160 gal stand 36 in high: 1.5 in are 6.7 gal, less than a twentieth of 160.
	near(t, "not filled", read(t, r, "crossovers[joint].unfilled", "any", "gal"), 6.7, properties)
	open := with(t, r, rig.Set("crossovers[joint].valve", "open"))
	verdict(t, open, "crossover-spills", "joint", rig.Pass)
	verdict(t, open, "crossover-strands", "joint", rig.Pass)
	// An inch of bore has 18 times the loss: 27 in, more than a third of the height, and
	// the levels are integrated. The far tank then stays more than half empty.
	narrow := with(t, r, rig.Set("crossovers[joint].valve", "open"), rig.Set("crossovers[joint].bore", "1 in"))
	verdict(t, narrow, "crossover-spills", "joint", rig.Fix)
	if v := read(t, narrow, "crossovers[joint].unfilled", "any", "gal"); v < 60 || v > 160 {
		t.Errorf("%.0f gal of the far tank stay empty", v)
	}
}
