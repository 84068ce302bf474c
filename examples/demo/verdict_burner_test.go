package demo_test

import (
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
)

const twoGuns = "guns=left+right heat=steady"

// A hose of 150 ft and 0.69 in outside has π·0.69/12·150 = 27.1 ft². In still air
// some 1.8 BTU/(h·ft²·°F) leave it at sea level, 57 % by convection; that share goes
// with the density of the air to the power 0.4, so 1.72 at 5,200 ft (0.82 of sea
// level). 3.4 gpm carry 1,700 BTU/(h·°F).
func TestVerdict_temperatureAtTheGun(t *testing.T) {
	b := load(t).reports["B"]
	// 27.1·1.72·(166 − 95)/1,700 and 27.1·1.72·(166 − 34)/1,700, less 1 % because
	// the water cools on the way.
	near(t, "lost, afternoon", read(t, b, "lines[left].hose_drop", twoGuns+" site=afternoon", "°F"), 1.93, properties)
	near(t, "lost, morning", read(t, b, "lines[left].hose_drop", twoGuns+" site=morning", "°F"), 3.58, properties)
	near(t, "at the gun, afternoon", read(t, b, "lines[left].gun_temperature", twoGuns+" site=afternoon", "°F"), 164.1, algebra)
	near(t, "at the gun, morning", read(t, b, "lines[left].gun_temperature", twoGuns+" site=morning", "°F"), 162.4, algebra)
	for _, n := range []string{"left", "right"} {
		verdict(t, b, "gun-cold", n, rig.Pass)
		// In 10 mph 3.9 BTU/(h·ft²·°F): 27.1·3.9·132/1,700 = 8.2 °F, 157.8 °F.
		verdict(t, b, "gun-cold-in-wind", n, rig.Note)
	}
	near(t, "at the gun, windy morning", read(t, b, "lines[left].gun_temperature_in_wind", twoGuns+" site=morning", "°F"), 157.8, algebra)
	verdict(t, b, "flash-at-nozzle", "left", rig.Pass)
	// The last row of the series is 150 °F and 2 s: hotter water takes at most that.
	near(t, "scald", read(t, b, "lines[left].scald_time", twoGuns+" site=morning", "s"), 2, algebra)
}

// The oil nozzle passes its printed flow times √(p/100 psi); it must reach what is
// needed and stay below what burns clean in the afternoon.
func TestVerdict_oilNozzles(t *testing.T) {
	r := load(t).reports
	for _, x := range []struct {
		name, heater string
		rate, clean  float64
	}{
		{"A", "heater", 2.366, 3.2 * 0.772},   // 2.0·√1.40
		{"B", "heater", 3.612, 4.75 * 0.772},  // 3.0·√1.45
		{"C", "heater-1", 1.952, 2.6 * 0.772}, // 1.65·√1.40
		{"C", "heater-2", 1.952, 2.6 * 0.772}, //
		{"D", "heater", 3.612, 4.75 * 0.772},  //
	} {
		at := rig.Path("heaters[" + x.heater + "].")
		near(t, x.name+", nozzle", read(t, r[x.name], at+"oil_nozzle_rate", "site=afternoon", "gph"), x.rate, algebra)
		near(t, x.name+", clean", read(t, r[x.name], at+"clean_firing", "site=afternoon", "gph"), x.clean, algebra)
		verdict(t, r[x.name], "oil-nozzle-small", x.heater, rig.Pass)
		verdict(t, r[x.name], "oil-nozzle-large", x.heater, rig.Pass)
	}
}

// 430 °F in the stack over 70 °F air is 200 K, with 5 % oxygen: Siegert gives
// 200·(0.68/(21 − 5) + 0.007) = 9.9 % on the lower heating value, and 90.1 % of that
// times 0.9366 is 84.4 % on the higher; the heater is reckoned with 84 %.
func TestVerdict_stack(t *testing.T) {
	b := load(t).reports["B"]
	near(t, "Siegert", read(t, b, "heaters[heater].stack_loss_by_formula", "any", "%"), 9.9, algebra)
	near(t, "efficiency", read(t, b, "heaters[heater].stack_efficiency", "any", "%"), 84.4, algebra)
	verdict(t, b, "efficiency-low", "heater", rig.Pass)
}

// 165 lb of steel hold 165·0.117 = 19.3 BTU/°F; the coil's π/4·(0.546/12)²·150 =
// 0.244 ft³ hold 14.9 lb of hot water, 14.9 BTU/°F. The fire gives 3.612·138,500·0.84
// = 420,200 BTU/h, 116.7 BTU/s, and with a film of 33,200 BTU/(h·°F) (Schmidt) the metal
// runs 12.6 °F above the water.
func TestVerdict_afterTheTrigger(t *testing.T) {
	r := load(t).reports
	b := r["B"]
	// A second of fire and the metal's excess: (19.3·12.6 + 116.7)/34.2 = 10.5 °F.
	near(t, "hottest after release", read(t, b, "heaters[heater].release_peak", twoGuns, "°F"), 176.6, algebra)
	// 0.244 ft³·0.00036·10.5 = 0.00092 ft³ against 2·0.115 ft³·2.5 %/4,000 psi =
	// 1.44e-6 for the hoses and 0.474 ft³·3.1e-6 = 1.47e-6 ft³/psi for the water: 317 psi.
	near(t, "shut-in pressure", read(t, b, "heaters[heater].soak_pressure", twoGuns, "psi"), 3217, algebra)
	// Standing over the fire: 34.2·36.5 BTU less what the metal is ahead already,
	// 19.3·12.6·0.564 BTU, at 116.7 BTU/s.
	near(t, "boils", read(t, b, "heaters[heater].boil_dry_time", "guns=none heat=stuck", "s"), 9.5, properties)
	// What the metal still gives while cold water runs, 0.564·3,400/33,200 of the
	// difference to 45 °F, is left in it: (120 + 0.058·45)/1.058 °F.
	near(t, "run cold to", read(t, b, "heaters[heater].run_cold_to", twoGuns, "°F"), 115.9, algebra)
	for _, n := range []string{"A", "B"} {
		verdict(t, r[n], "release-over-rating", "heater", rig.Pass)
		verdict(t, r[n], "soak-over-rating", "heater", rig.Pass)
		verdict(t, r[n], "fires-without-flow", "heater", rig.Pass)
	}
}

// With one gun of two open the outlet runs up through 200 °F by (264 − 200)·0.519/34.2
// = 1.0 °F a second, and the high limit takes a second: 201 °F against a rating of
// 200. A and C fire for one gun and never get there.
func TestVerdict_highLimit(t *testing.T) {
	r := load(t).reports
	near(t, "B, thermostat stuck", read(t, r["B"], "heaters[heater].stuck_highest", "guns=left heat=stuck", "°F"), 201, algebra)
	verdict(t, r["B"], "high-limit-late", "heater", rig.Fix)
	verdict(t, r["D"], "high-limit-late", "heater", rig.Fix)
	verdict(t, r["A"], "high-limit-late", "heater", rig.Pass)
	verdict(t, r["C"], "high-limit-late", "heater-1", rig.Pass)
	// Two degrees lower it acts in time.
	verdict(t, with(t, r["B"], rig.Set("heaters[heater].high_limit", "197 °F")), "high-limit-late", "heater", rig.Pass)
	// One gun: 55 % of the time, 28 s a cycle of which 4 s are purge.
	verdict(t, r["B"], "short-cycles", "heater", rig.Note)
	verdict(t, r["A"], "short-cycles", "heater", rig.Pass)
}

// D's bypass to the pump inlet is cured by a thermal relief: 11.5 hp·2,545/(500·(140 −
// 45)) = 0.62 gpm of fresh water hold 140 °F.
func TestVerdict_thermalReliefOfD(t *testing.T) {
	d := load(t).reports["D"]
	valve := func(flow string) *rig.Report {
		return with(t, d, rig.Set("pumps[main].thermal_relief.setting", "140 °F"), rig.Set("pumps[main].thermal_relief.flow", flow))
	}
	good := valve("1 gpm")
	near(t, "needed", read(t, good, "pumps[main].thermal_relief_needed", "guns=none heat=off", "gpm"), 0.62, properties)
	verdict(t, good, "thermal-relief-small", "main", rig.Pass)
	verdict(t, good, "bypass-heating", "main", rig.Note)
	small := valve("0.5 gpm")
	verdict(t, small, "thermal-relief-small", "main", rig.Fix)
	verdict(t, small, "bypass-heating", "main", rig.Stop)
}

// A quarter of 1.825 + 2·0.861 gal is left by blowing down, 0.887 gal. 30 % of glycol
// hold 8 °F and 40 % −7 °F, so 5 °F, ten below the coldest, need 32 to 33 %:
// 0.887·32.5/(55 − 32.5) = 1.28 gal. The 5 gal pushed through hold far less.
func TestVerdict_winter(t *testing.T) {
	r := load(t).reports
	near(t, "antifreeze needed", read(t, r["B"], "winter.antifreeze_needed", "any", "gal"), 1.28, properties)
	for _, n := range demo.Names() {
		verdict(t, r[n], "antifreeze-weak", "", rig.Pass)
		verdict(t, r[n], "antifreeze-poison", "", rig.Pass)
	}
	// Without it everything freezes within a night, the pump head last.
	bare := with(t, r["B"], rig.Set("winter.volume", ""), rig.Set("winter.strength", ""))
	for code, part := range map[rig.Code]string{"coil-freezes": "heater", "hose-freezes": "left", "pump-freezes": "main", "hose-freezes-on-road": "left"} {
		verdict(t, bare, code, part, rig.Fix)
	}
	if p, h := read(t, bare, "pumps[main].freeze_time", "any", "min"), read(t, bare, "lines[left].freeze_time", "any", "min"); p <= h {
		t.Errorf("the pump head freezes in %.0f min, the hose in %.0f", p, h)
	}
}
