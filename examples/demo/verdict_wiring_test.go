package demo_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
)

// Volt-amperes: watts over the power factor, summed by their parts. Vacuum
// motor 1,100 W at 0.95: 1,158 VA, of which 361.6 are not watts; dump pump
// 750 W at 0.70: 765.2; burner 650 W at 0.70: 663.1.
func TestVerdict_voltAmperes(t *testing.T) {
	r := load(t).reports
	const listed = "site=afternoon plugs=as-listed"
	// √(2950² + (2·361.6 + 765.2)²) of 4,800 VA
	near(t, "B running", read(t, r["B"], "sources[portable].running_apparent", listed, "VA"), 3304, algebra)
	verdict(t, r["B"], "source-apparent", "portable", rig.Pass)
	// the dump pump starts with 2,000 W at 0.80, 1,500 that are not watts:
	// √(4200² + (723.2 + 1500)²) of 5,800 VA
	near(t, "B worst start", read(t, r["B"], "sources[portable].start_apparent", listed, "VA"), 4752, algebra)
	verdict(t, r["B"], "source-start-apparent", "portable", rig.Pass)
	// √(3600² + (723.2 + 765.2 + 663.1)²) of 6,250 VA
	near(t, "D running", read(t, r["D"], "sources[belt].running_apparent", listed, "VA"), 4194, algebra)
	verdict(t, r["D"], "source-apparent", "belt", rig.Pass)
}

// D's electrical sheet still finds nothing but the restart; what fails is the
// engine behind it, and more so in a start.
func TestVerdict_electricalSheetOfD(t *testing.T) {
	d := load(t).reports["D"]
	for _, f := range d.Findings() {
		p := string(f.Reading.Path())
		electric := strings.HasPrefix(p, "sources[") || strings.HasPrefix(p, "outlets[") || strings.HasPrefix(p, "cords[") || strings.HasPrefix(p, "loads[")
		if electric && f.Code != "source-restart" {
			t.Errorf("the electrical sheet of D finds %v %s on %s", f.Severity, f.Code, p)
		}
	}
	// 20.06 hp running, and (5,300 − 3,600) W/(0.78·0.96) = 3.04 hp for the
	// start, of 23·0.818·0.982 = 18.48 hp for seconds.
	near(t, "D, engine in the start", read(t, d, "engines[washer].start_demand", "guns=left heat=steady site=afternoon plugs=as-listed", "hp"), 23.11, algebra)
	near(t, "D, engine for seconds", read(t, d, "engines[washer].available_briefly", "site=afternoon", "hp"), 18.48, algebra)
	verdict(t, d, "engine-start", "washer", rig.Fix)
	// B: 14.78 + (1,100 − 650) W/(0.78·0.96) = 15.59 hp.
	b := load(t).reports["B"]
	near(t, "B, engine in the start", read(t, b, "engines[washer].start_demand", "guns=left heat=steady site=afternoon plugs=as-listed", "hp"), 15.59, algebra)
	verdict(t, b, "engine-start", "washer", rig.Pass)
}

// A vacuum motor alone on a 20 A outlet: 1,158 VA/120 V = 9.65 A, counted at
// 125 % 60.3 % of the breaker. Two of them would be 120.6 %.
func TestVerdict_outlets(t *testing.T) {
	b := load(t).reports["B"]
	near(t, "current", read(t, b, "outlets[left].current", "plugs=as-listed", "A"), 9.65, algebra)
	near(t, "of the breaker", read(t, b, "outlets[left].loading", "plugs=as-listed", "%"), 60.3, algebra)
	verdict(t, b, "outlet-continuous", "left", rig.Pass)
	verdict(t, b, "outlet-overload", "left", rig.Pass)
	verdict(t, b, "ground-fault", "left", rig.Pass)
	both := with(t, b, rig.Set("loads[vacuum-2].outlet", "left"))
	near(t, "both on one", read(t, both, "outlets[left].loading", "plugs=as-listed", "%"), 120.6, algebra)
	verdict(t, both, "outlet-continuous", "left", rig.Fix)
	verdict(t, both, "outlet-overload", "left", rig.Pass) // 19.3 of 20 A
	// what nobody said about an outlet is a question of the weight of a stop
	unknown := with(t, b, rig.Set("outlets[left].ground_fault", ""))
	verdict(t, unknown, "ground-fault", "left", rig.CannotJudge)
}

// 25 ft of 12 AWG at 75 °C, 1.98 Ω/kft: 2·25·1.98/1000 = 0.099 Ω, by 9.65 A at
// 0.95 0.91 V of 120 V.
func TestVerdict_cords(t *testing.T) {
	b := load(t).reports["B"]
	near(t, "drop", read(t, b, "loads[vacuum-1].cord_drop", "plugs=as-listed", "%"), 0.757, algebra)
	near(t, "at the motor", read(t, b, "loads[vacuum-1].supply", "plugs=as-listed", "V"), 119.1, algebra)
	verdict(t, b, "cord-drop", "vacuum-1", rig.Pass)
	verdict(t, b, "cord-overload", "vacuum-1", rig.Pass)
	verdict(t, b, "cord-protection", "vacuum-1", rig.Pass)

	// 110 ft of 12 AWG at 15 A and 120 V: 1.98·(1 − 0.00323·55) = 1.63 Ω/kft at
	// 20 °C makes 5.4 V or 4.5 % (solid wire of 1.59 Ω/kft 5.2 V or 4.4 %),
	// 1.98 Ω/kft at 75 °C makes 6.5 V or 5.4 %. A limit of 5 % is passed by the
	// cold cord and failed by the warm one.
	heater := []rig.Change{rig.Set("loads[vacuum-1].running", "1800 W"), rig.Set("loads[vacuum-1].power_factor", "100 %"), rig.Set("cords[vacuum-1].length", "110 ft")}
	cold := with(t, b, append(slices.Clone(heater), rig.Set("cords[vacuum-1].temperature", "20 °C"))...)
	near(t, "cold", read(t, cold, "loads[vacuum-1].cord_drop", "plugs=as-listed", "%"), 4.48, algebra)
	verdict(t, cold, "cord-drop", "vacuum-1", rig.Pass)
	warm := with(t, b, heater...)
	near(t, "warm", read(t, warm, "loads[vacuum-1].cord_drop", "plugs=as-listed", "%"), 5.4, algebra)
	verdict(t, warm, "cord-drop", "vacuum-1", rig.Fix)
	// the next gauge does: 10 AWG, 1.24 Ω/kft, 4.1 V or 3.4 %
	if g, ok, err := warm.ThinnestCord("vacuum-1"); err != nil || !ok || g != "10 AWG" {
		t.Errorf("thinnest that does: %q, %v, %v", g, ok, err)
	}
	thick := with(t, warm, rig.Set("cords[vacuum-1].gauge", "10 AWG"))
	near(t, "10 AWG", read(t, thick, "loads[vacuum-1].cord_drop", "plugs=as-listed", "%"), 3.4, algebra)
	verdict(t, thick, "cord-drop", "vacuum-1", rig.Pass)

	// a cord whose gauge nobody gave is not a cord that carries everything
	unknown := with(t, b, rig.Set("cords[vacuum-1].gauge", ""))
	verdict(t, unknown, "cord-overload", "vacuum-1", rig.CannotJudge)
}

// The belt generator turns 3,690 rev/min without load, 61.5 Hz; 650 of 2,400 W
// take 650/2400 of the droop of 1.5 Hz: 61.09 Hz.
func TestVerdict_burnerSupply(t *testing.T) {
	b := load(t).reports["B"]
	near(t, "frequency", read(t, b, "sources[belt].frequency", "plugs=as-listed", "Hz"), 61.09, algebra)
	verdict(t, b, "frequency-off", "belt", rig.Pass)
	// The fan follows the frequency: 61.09/60 of 4.75·0.772 = 3.67 gph.
	near(t, "clean with the fan at its voltage", read(t, b, "heaters[heater].clean_firing_at_voltage", "site=afternoon", "gph"), 3.67*61.09/60, algebra)
	verdict(t, b, "clean-firing-voltage", "heater", rig.Pass)
	// The burner's start: 1,571 VA on 3,000 VA and X'd 0.20:
	// 1 − 1/|1 + 0.2·(0.374 + 0.367j)| = 7.2 %.
	near(t, "dip", read(t, b, "sources[belt].voltage_dip", "plugs=as-listed", "%"), 7.2, algebra)
	verdict(t, b, "voltage-dip", "belt", rig.Pass)

	// Belt drive 240 rev/min slow: 57.5 Hz without load, 57.1 loaded, and
	// 3.67·57.1/60 = 3.49 gph against 3.54 needed. Clean at its plate, not at
	// the frequency it gets.
	slow := with(t, b, rig.Set("sources[belt].speed", "3450 rpm"))
	near(t, "slow, clean", read(t, slow, "heaters[heater].clean_firing_at_voltage", "site=afternoon", "gph"), 3.49, algebra)
	verdict(t, slow, "clean-firing", "heater", rig.Pass)
	verdict(t, slow, "clean-firing-voltage", "heater", rig.Fix)
	verdict(t, slow, "frequency-off", "belt", rig.Pass) // 4.8 % of the 5 %
}

// Charging 16 A; controls 2.5 A, lights 4 A for 15 %, two reels 35 A for 3 %:
// 16 − 2.5 − 0.6 − 2·1.05 = 10.8 A left. At 34 °F the starter asks for 152.7 %
// of 110 A, 168 A, and the battery at 80 % gives 0.8·340 = 272 A: 38 % left.
func TestVerdict_direct(t *testing.T) {
	b := load(t).reports["B"]
	near(t, "left of the charging", read(t, b, "batteries[starter].net_current", "any", "A"), 10.8, algebra)
	verdict(t, b, "battery-deficit", "starter", rig.Pass)
	near(t, "left when cranking", read(t, b, "batteries[starter].cranking_reserve", "site=morning", "%"), 38.2, algebra)
	verdict(t, b, "cranking-reserve", "starter", rig.Pass)
	// 14 ft of 8 AWG at 50 °C: 0.778·(1 − 0.00323·25) = 0.715 Ω/kft, so
	// 2·14·0.715/1000·35 = 0.70 V of 12 V.
	near(t, "lost in the reel's cable", read(t, b, "direct_loads[reel-left].cable_drop", "any", "%"), 5.84, algebra)
	// standing at 10 mA: 35 A·h, at 34 °F 66.5 % of it, half of that usable
	near(t, "standing", read(t, b, "batteries[starter].standing_time", "site=morning", "day"), 35*0.665*0.5/0.010/24, algebra)
}

// A shore cord of 120 V on a 20 A breaker is 80 % of 2,400 W, 1,920 W for hours:
// the vacuum motor and the dump pump of rig A run on it, 1,850 W, the two motors
// and the pump of rig B do not.
func TestVerdict_shore(t *testing.T) {
	r := load(t).reports
	shore := []rig.Change{rig.Set("sources[portable].part", ""), rig.Set("sources[portable].type", "shore"), rig.Set("sources[portable].fuel_tank", ""),
		rig.Set("sources[portable].x", ""), rig.Set("sources[portable].breaker", "20 A"), rig.Set("sources[portable].neutral", "bonded")}
	a := with(t, r["A"], shore...)
	near(t, "run limit", read(t, a, "sources[portable].run_limit", "any", "W"), 1920, algebra)
	near(t, "A running", read(t, a, "sources[portable].running", "site=afternoon plugs=as-listed", "W"), 1850, algebra)
	verdict(t, a, "source-overload", "portable", rig.Pass)
	if f := finding(a, "source-start", "portable"); f != nil {
		t.Errorf("a breaker has no start rating, and its absence is %v", f.Severity)
	}
	verdict(t, with(t, r["B"], shore...), "source-overload", "portable", rig.Stop)
}

func TestVerdict_plugCard(t *testing.T) {
	r := load(t).reports
	for _, n := range demo.Names() {
		card, err := r[n].PlugCard()
		if err != nil {
			t.Fatal(err)
		}
		if n == "D" {
			// D has one place for everything; its belt generator has 3.0 hp of its
			// engine left beside the pump, 16.63 − 13.62, that is 1,683 W of the
			// 3,600 W: the burner and one vacuum motor, 1,750 W, are too much.
			if want := []string{"burner", "vacuum-1"}; !slices.Equal(card.Unplaceable, want) || len(card.Passing) != 0 {
				t.Errorf("D: cannot be placed %v, want %v; %d ways pass", card.Unplaceable, want, len(card.Passing))
			}
			continue
		}
		// A, B: the dump pump stays on the portable generator.
		if len(card.Passing) == 0 || card.Passing[0].State.On(rig.AxisPlugs) != "as-listed" || len(card.Unplaceable) != 0 {
			t.Errorf("%s: passing %v, cannot be placed %v", n, card.Passing, card.Unplaceable)
		}
		if n == "B" && (len(card.Passing) != 1 || math.Abs(card.Passing[0].Margin-0.10) > 0.005) {
			t.Errorf("B: %d ways pass, the first with %.3f to spare; hand sum one with 0.10", len(card.Passing), card.Passing[0].Margin)
		}
	}
}
