package rig_test

import (
	"math"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A nearMiss is one field of a triggered rig on either side of a limit: with good
// the code does not weigh what is wanted, with bad it does. Everything else is as
// in the trigger of the code, or as also says.
type nearMiss struct {
	code      rig.Code
	part      string
	want      rig.Severity
	field     rig.Path
	good, bad string
	also      []rig.Change
}

// nearMisses has every code of the library's own checks. Numbers lie about one per
// cent, or one and a half degrees, on either side of where the code begins; words
// are the two answers to one question.
func nearMisses() []nearMiss {
	return []nearMiss{
		{"pressure-over-rating", "main", rig.Stop, "lines[left].hose.maximum_pressure", "2937 psi", "2867 psi", nil},
		{"relief-over-rating", "main", rig.Stop, "pumps[main].relief.setting", "3464 psi", "3548 psi", nil},
		{"unloader-over-relief", "main", rig.Stop, "pumps[main].unloader.setting", "3362 psi", "3444 psi", nil},
		{"source-overload", "portable", rig.Stop, "sources[portable].running", "3712 W", "3624 W", nil},
		{"source-start", "portable", rig.Stop, "sources[portable].starting", "5294 W", "5168 W", nil},
		{"source-apparent", "portable", rig.Stop, "sources[portable].running_apparent", "3346 VA", "3266 VA", nil},
		{"source-start-apparent", "portable", rig.Stop, "sources[portable].starting_apparent", "4809 VA", "4695 VA", nil},
		{"source-start-order", "portable", rig.Fix, "loads[vacuum-1].starting", "2775 W", "2842 W", nil},
		{"outlet-overload", "left", rig.Stop, "outlets[left].breaker", "9.768 A", "9.537 A", nil},
		{"outlet-continuous", "left", rig.Fix, "outlets[left].breaker", "12.19 A", "11.9 A", nil},
		{"leakage", "left", rig.Fix, "loads[vacuum-1].leakage", "5.927 mA", "6.071 mA", nil},
		{"leg-overload", "portable", rig.Stop, "sources[portable].running_apparent", "4387 VA", "4283 VA", nil},
		{"cord-overload", "vacuum-1", rig.Stop, "cords[vacuum-1].ampacity", "9.777 A", "9.545 A", nil},
		{"cord-drop", "vacuum-1", rig.Fix, "cords[vacuum-1].length", "163 ft", "166.9 ft", nil},
		{"cord-start-drop", "dump-pump", rig.Fix, "cords[dump-pump].length", "304.4 ft", "311.8 ft", nil},
		{"supply-low", "burner", rig.Fix, "sources[belt].voltage", "105.1 V", "102.6 V", nil},
		{"frequency-off", "belt", rig.Fix, "sources[belt].speed", "3740 rpm", "3830 rpm", nil},
		{"idle-voltage", "portable", rig.Fix, "sources[portable].idle_speed", "3117 rpm", "3043 rpm", nil},
		{"voltage-dip", "belt", rig.Fix, "sources[belt].transient_reactance", "79.33 %", "81.26 %", nil},
		{"frequency-dip", "portable", rig.Fix, "sources[portable].inertia", "0.04029 s", "0.03933 s", nil},
		{"clean-firing-voltage", "heater", rig.Fix, "sources[belt].speed", "3503 rpm", "3420 rpm", nil},
		{"clean-firing-dip", "heater", rig.Note, "sources[belt].transient_reactance", "79.6 %", "81.53 %", nil},
		{"engine-start", "washer", rig.Fix, "loads[burner].starting", "2681 W", "2746 W", nil},
		{"engine-overload-coupled", "washer", rig.Stop, "engines[washer].gross_power", "20.59 hp", "20.19 hp", nil},
		{"frequency-coupled", "belt", rig.Fix, "engines[washer].droop", "8.9 %", "9.06 %", nil},
		{"clean-firing-coupled", "heater", rig.Fix, "engines[washer].droop", "6.18 %", "6.31 %", nil},
		{"fire-starved", "heater", rig.Fix, "heaters[heater].clean_firing", "3.94 gph", "3.865 gph", nil},
		{"outlet-cold-coupled", "heater", rig.Fix, "heaters[heater].oil_nozzle", "2.855 gph", "2.8 gph", nil},
		{"battery-deficit", "starter", rig.Fix, "batteries[starter].charging", "5.264 A", "5.139 A", nil},
		{"cranking-reserve", "starter", rig.Fix, "batteries[starter].cold_cranking", "212.6 A", "207.6 A", nil},
		{"fuel-fill-in-heat", "fuel-fill", rig.Stop, "zones[fuel-fill].x", "6.98 ft", "7.02 ft", nil},
		{"outlet-unknown", "vacuum-2", rig.CannotJudge, "loads[vacuum-2].outlet", "right", "", nil},
		{"supply-high", "vacuum-1", rig.Fix, "sources[portable].voltage", "126.7 V", "127.9 V", nil},
		{"bypass-heating-warm", "main", rig.Stop, "pumps[main].unloader.loop_volume", "7.5 gal", "7.3 gal", nil},
		{"coil-relief-over-rating", "heater", rig.Stop, "heaters[heater].relief", "3990 psi", "4010 psi", nil},
		{"coil-relief-low", "heater", rig.Stop, "heaters[heater].relief", "2910 psi", "2890 psi", nil},
		{"bypass-heating", "main", rig.Stop, "pumps[main].unloader.loop_volume", "2.96 gal", "2.89 gal", nil},
		{"thermostat-over-rating", "heater", rig.Stop, "heaters[heater].thermostat", "197.4 °F", "200.4 °F", nil},
		{"high-limit-over-rating", "heater", rig.Stop, "heaters[heater].high_limit", "199.8 °F", "202.8 °F", nil},
		{"thermostat-over-high-limit", "heater", rig.Fix, "heaters[heater].high_limit", "167.1 °F", "164.1 °F", nil},
		{"stuck-burner", "heater", rig.Stop, "heaters[heater].high_limit", "199.8 °F", "202.8 °F", nil},
		{"thermostat-boiling", "heater", rig.Fix, "heaters[heater].thermostat", "193.5 °F", "196.5 °F", nil},
		{"clean-firing", "heater", rig.Fix, "site.elevation", "6145 ft", "6294 ft", nil},
		{"outlet-cold", "heater", rig.Fix, "heaters[heater].thermostat", "160.5 °F", "157.5 °F", nil},
		{"gun-cold", "left", rig.Fix, "site.conditions[morning].wind", "2.814 mph", "2.882 mph", nil},
		{"flash-at-nozzle", "left", rig.Fix, "heaters[heater].oil_nozzle", "2.025 gph", "2.074 gph", nil},
		{"recovered-share-high", "left", rig.Note, "duty.recovered_share", "92.91 %", "95.17 %", nil},
		{"release-over-rating", "heater", rig.Stop, "heaters[heater].maximum_temperature", "178.8 °F", "175.8 °F", nil},
		{"soak-over-rating", "heater", rig.Stop, "heaters[heater].maximum_pressure", "3238 psi", "3161 psi", nil},
		{"oil-nozzle-small", "heater", rig.Fix, "heaters[heater].oil_nozzle", "2.969 gph", "2.898 gph", nil},
		{"oil-nozzle-large", "heater", rig.Fix, "heaters[heater].oil_nozzle", "3.006 gph", "3.08 gph", nil},
		{"efficiency-low", "heater", rig.Fix, "heaters[heater].stack.temperature", "443.1 °F", "446.1 °F", nil},
		{"coil-fouled", "heater", rig.Fix, "heaters[heater].soot", "0.3109 mm", "0.3185 mm", nil},
		{"coil-scales", "heater", rig.Note, "site.hardness", "0.2555 kg/m³", "0.2617 kg/m³", nil},
		{"thermal-relief-high", "main", rig.Fix, "pumps[main].thermal_relief.setting", "144 °F", "147 °F", nil},
		{"thermal-relief-small", "main", rig.Fix, "pumps[main].thermal_relief.flow", "0.6229 gpm", "0.6081 gpm", nil},
		{"antifreeze-weak", "", rig.Fix, "winter.strength", "38.07 %", "37.17 %", nil},
		{"tongue-share-low", "", rig.Stop, "tanks[recovered].x", "13.21 ft", "13.53 ft", nil},
		{"tongue-share-high", "", rig.Fix, "tanks[fresh].x", "10.42 ft", "10.17 ft", nil},
		{"tongue-over-rating", "", rig.Stop, "trailer.coupler_rating", "950.3 lb", "927.8 lb", nil},
		{"trailer-over-rating", "", rig.Stop, "trailer.gross_rating", "8366 lb", "8167 lb", nil},
		{"axle-over-rating", "", rig.Stop, "trailer.axle_rating", "3702 lb", "3614 lb", nil},
		{"combination-over-rating", "", rig.Stop, "tow_vehicle.combination_rating", "15030 lb", "14670 lb", nil},
		{"vehicle-over-rating", "", rig.Stop, "tow_vehicle.payload_rating", "6749 lb", "6633 lb", nil},
		{"tongue-negative", "", rig.Stop, "tanks[recovered].x", "9.971 ft", "10.21 ft", nil},
		{"tyre-over-rating", "", rig.Stop, "trailer.tyre_rating", "1862 lb", "1818 lb", nil},
		{"lateral-imbalance", "", rig.Fix, "items[skid].y", "1.214 ft", "1.244 ft", nil},
		{"tip-over", "", rig.Stop, "trailer.track", "2.48 ft", "2.422 ft", nil},
		{"side-slope", "", rig.Fix, "site.side_slope", "24.59 deg", "25.19 deg", nil},
		{"tail-drop", "", rig.Stop, "tanks[recovered].x", "9.971 ft", "10.21 ft", nil},
		{"jack-over-rating", "", rig.Stop, "trailer.jack_rating", "1077 lb", "1052 lb", nil},
		{"tanks-far-apart", "", rig.Note, "tanks[recovered].x", "13.76 ft", "14.09 ft", nil},
		{"fuel-near-heat", "gasoline/stack", rig.Stop, "zones[stack].clearance", "12.61 in", "12.92 in", nil},
		{"clash", "recovery/recovered", rig.Fix, "tanks[recovered].x", "13.76 ft", "14.09 ft", nil},
		{"beyond-deck", "reels", rig.Note, "items[reels].box.x", "17.67 ft", "18.1 ft", nil},
		{"tie-down-short", "fresh-bands", rig.Stop, "tie_downs[fresh-bands].working_load", "385.5 lbf", "376.3 lbf", nil},
		{"tie-down-breaks", "fresh-bands", rig.Stop, "tie_downs[fresh-bands].breaking_load", "616.6 lbf", "602 lbf", nil},
		{"unweighed-light", "item-tools", rig.CannotJudge, "tanks[recovered].x", "14.16 ft", "14.5 ft", nil},
		{"fuel-short", "diesel", rig.Fix, "modes[two-guns].time", "11.27 h", "11.55 h", nil},
		{"fuel-clouds", "diesel", rig.Fix, "site.conditions[morning].air", "14.66 °F", "11.66 °F", nil},
		{"fuel-gels", "diesel", rig.Stop, "site.conditions[morning].air", "11.03 °F", "8.031 °F", nil},
		{"plate-generous", "washer", rig.Note, "engines[washer].loss_per_1000_ft", "3.468 %", "3.386 %", nil},
		{"engine-lugs", "washer", rig.Fix, "engines[washer].curve[high].power", "18.79 hp", "18.34 hp", nil},
		{"surge-over-rating", "left", rig.Stop, "pumps[main].relief.setting", "2793 psi", "2860 psi", nil},
		{"surge-in-band", "left", rig.CannotJudge, "lines[left].hose.maximum_pressure", "3530 psi", "3446 psi", nil},
		{"gun-reaction", "left", rig.Fix, "pumps[main].rated_flow", "14.61 gpm", "14.97 gpm", nil},
		{"relief-close", "main", rig.Fix, "pumps[main].unloader.setting", "3205 psi", "3283 psi", nil},
		{"unloader-close", "main", rig.Note, "pumps[main].unloader.setting", "2540 psi", "2479 psi", nil},
		{"reel-small", "left", rig.Fix, "lines[left].reel.width", "11.88 in", "11.59 in", nil},
		{"pump-fast", "main", rig.Fix, "pumps[main].pump_pulley", "10.48 in", "10.24 in", nil},
		{"feed-short", "depot", rig.Fix, "pumps[main].minimum_inlet_pressure", "43.23 psi", "44.28 psi", nil},
		{"injector-starved", "soap", rig.Fix, "chemicals[soap].injector.minimum_flow", "4.761 gpm", "4.876 gpm", nil},
		{"injector-drowned", "soap", rig.Fix, "chemicals[soap].injector.tip", "14.69", "14.34", nil},
		{"injector-lift", "soap", rig.Fix, "chemicals[soap].injector.lift", "8.141 ft", "8.339 ft", nil},
		{"chemical-weak", "soap", rig.Fix, "chemicals[soap].wanted_low", "0.6451 %", "0.6608 %", nil},
		{"chemical-strong", "soap", rig.Fix, "chemicals[soap].wanted_high", "0.907 %", "0.8855 %", nil},
		{"chemical-robs-gun", "soap", rig.Note, "chemicals[soap].injector.tip", "4.84", "4.957", nil},
		{"chemical-pump-short", "soap", rig.Fix, "chemicals[soap].chemical_pump.wanted_flow", "0.7002 gpm", "0.7173 gpm", nil},
		{"chemical-pump-cycles", "soap", rig.Fix, "chemicals[soap].chemical_pump.least_cycle", "33.89 s", "34.71 s", nil},
		{"freezing-pavement", "morning", rig.Fix, "site.conditions[morning].air", "35 °F", "32 °F", nil},
		{"warm-storage", "recovered", rig.Fix, "tanks[recovered].stored", "1.977 day", "2.025 day", nil},
		{"drum-over-vacuum", "plant", rig.Stop, "recovery[plant].drum.maximum_vacuum", "98.35 inH2O", "96.02 inH2O", nil},
		{"recovery-puddles", "plant", rig.Fix, "recovery[plant].hose.length", "55.85 ft", "57.21 ft", nil},
		{"recovery-stalls", "plant", rig.Fix, "recovery[plant].lift", "7.142 ft", "7.315 ft", nil},
		{"dump-out-short", "plant", rig.Fix, "recovery[plant].dump_pump.shut_off_head", "18.07 ft", "17.64 ft", nil},
		{"filter-short", "plant", rig.Note, "recovery[plant].dirt", "0.02037 lb/gal", "0.02086 lb/gal", nil},
		{"suction-head", "main", rig.Stop, "pumps[main].required_head", "11.88 ft", "12.17 ft", nil},
		{"suction-reserve", "main", rig.Note, "pumps[main].required_head", "8.907 ft", "9.124 ft", nil},
		{"suction-fast", "main", rig.Note, "pumps[main].suction.bore", "1.191 in", "1.163 in", nil},
		{"low-side-hot", "main", rig.Stop, "pumps[main].suction.maximum_temperature", "106.2 °F", "103.2 °F", nil},
		{"strainer-coarse", "main", rig.Fix, "pumps[main].suction.strainer.opening", "0.02411 in", "0.0247 in", nil},
		{"tank-vacuum", "fresh", rig.Stop, "tanks[fresh].vent", "0.8426 in", "0.8227 in", nil},
		{"air-gap", "depot", rig.Stop, "supplies[depot].air_gap", "2.02 in", "1.972 in", nil},
		{"supply-loses-ground", "depot", rig.Note, "supplies[depot].hose.bore", "1.062 in", "1.037 in", nil},
		{"crossover-spills", "joint", rig.Fix, "crossovers[joint].bore", "2.01 in", "1.962 in", nil},
		{"crossover-strands", "joint", rig.Note, "crossovers[joint].bore", "0.8093 in", "0.7901 in", nil},
		{"source-restart", "portable", rig.Fix, "sources[portable].starting", "7558 W", "7379 W", nil},
		{"engine-overload", "washer", rig.Stop, "engines[washer].gross_power", "21.9 hp", "21.38 hp", set("engines[washer].part", "")},
		{"boiling-margin", "heater", rig.Note, "site.elevation", "3765 ft", "3857 ft", nil},
		{"gun-cold-in-wind", "left", rig.Note, "duty.gun_temperature", "156.9 °F", "159.9 °F", nil},
		{"high-limit-late", "heater", rig.Fix, "heaters[heater].maximum_temperature", "202.5 °F", "199.5 °F", nil},
		{"short-cycles", "heater", rig.Note, "heaters[heater].differential", "15.32 °F", "12.32 °F", nil},
		{"pressure-jump", "left", rig.Note, "pumps[main].unloader.setting", "2610 psi", "2674 psi", nil},
		{"worn-too-low", "left", rig.Note, "duty.nozzle_pressure_low", "2031 psi", "2081 psi", nil},
		{"recovery-no-room", "plant", rig.Fix, "duty.recovered_share", "65.57 %", "67.17 %", nil},
		{"cable-drop", "reel-left", rig.Fix, "direct_loads[reel-left].length", "23.7 ft", "24.28 ft", []rig.Change{}},
		{"nozzle-pressure-low", "left", rig.Fix, "lines[left].nozzle.number", "4.605", "4.717", set("lines[left].nozzle.part", "")},
		{"nozzle-pressure-high", "left", rig.Fix, "lines[left].nozzle.number", "4.004", "3.91", set("lines[left].nozzle.part", "")},
		{"feed-over-pressure", "depot", rig.Stop, "pumps[main].maximum_inlet_pressure", "53.48 psi", "52.21 psi", nil},
		{"recovery-air-slow", "plant", rig.Note, "duty.recovered_share", "43.95 %", "45.02 %", nil},
		{"geometry-differs", "main", rig.Note, "pumps[main].stroke", "22.34 mm", "21.81 mm", nil},
		{"coil-freezes", "heater", rig.Fix, "winter.coldest", "32.7 °F", "29.7 °F", nil},
		{"coil-freezes-on-road", "heater", rig.Fix, "winter.coldest", "33.21 °F", "30.21 °F", nil},
		{"hose-freezes", "left", rig.Fix, "winter.coldest", "33.21 °F", "30.21 °F", nil},
		{"hose-freezes-on-road", "left", rig.Fix, "winter.coldest", "33.21 °F", "30.21 °F", nil},
		{"pump-freezes", "main", rig.Fix, "winter.coldest", "31.15 °F", "28.15 °F", nil},
		{"pump-freezes-on-road", "main", rig.Fix, "winter.coldest", "32.7 °F", "29.7 °F", nil},
		{"dead-head", "main", rig.Stop, "pumps[main].relief.part", "R34", "", nil},
		{"relief-in-use", "main", rig.Stop, "pumps[main].unloader.setting", "3390 psi", "", set("pumps[main].unloader.part", "", "pumps[main].unloader.return_to", "tank")},
		{"ground-fault", "left", rig.Stop, "outlets[left].ground_fault", "yes", "no", nil},
		{"neutral-differs", "dump-pump", rig.Fix, "sources[portable].neutral", "bonded", "floating", nil},
		{"cord-protection", "vacuum-1", rig.Fix, "cords[vacuum-1].gauge", "12 AWG", "14 AWG", nil},
		{"fires-without-flow", "heater", rig.Stop, "heaters[heater].flow_switch", "yes", "no", nil},
		{"antifreeze-poison", "", rig.Stop, "winter.antifreeze", "propylene-glycol", "ethylene-glycol", nil},
		{"unweighed-heavy", "item-tools", rig.CannotJudge, "items[tools].part", "TC", "", nil},
		{"clean-water-mixed", "fresh", rig.Fix, "crossovers[joint].valve", "shut", "open", nil},
		{"wrong-fuel", "gasoline", rig.Stop, "engines[washer].burns", "gasoline", "diesel", nil},
		{"carbon-monoxide", "", rig.Stop, "site.place", "open", "in-building", nil},
		{"chemicals-meet", "bleach", rig.Stop, "chemicals[brightener].family", "detergent", "acid", nil},
		{"chemical-in-coil", "soap", rig.Stop, "chemicals[soap].enters", "after-coil", "before-pump", nil},
		{"chemical-attacks", "lye", rig.Stop, "chemicals[lye].wets", "steel", "aluminium steel", nil},
		{"chemical-mist", "bleach", rig.Fix, "chemicals[bleach].mist", "no", "yes", nil},
		{"feed-unprotected", "depot", rig.Stop, "supplies[depot].device", "double-check", "none", nil},
		{"hydrofluoric-carried", "bright", rig.Fix, "chemicals[bright].family", "acid", "hydrofluoric", nil},
		{"surface-painted", "", rig.Note, "duty.surface", "concrete", "paint", nil},
		{"surface-licensed", "", rig.Stop, "duty.surface", "paint", "lead-paint", nil},
		{"flammable-surface", "", rig.Stop, "duty.surface", "soil", "soil flammable", nil},
		{"run-off", "", rig.Stop, "duty.run_off", "sanitary", "storm-drain", nil},
		{"gun-at-height", "", rig.Stop, "duty.height", "ground", "ladder", nil},
		{"trapped-pressure", "main", rig.Note, "pumps[main].unloader.type", "pressure-regulating", "trapped-pressure", nil},
		{"dump-unlocked", "recovered", rig.Fix, "tanks[recovered].dump_valve", "locked", "free", nil},
		{"water-short", "fresh", rig.Note, "modes[one-gun].time", "1.502 h", "1.532 h", []rig.Change{rig.Remove("supplies[depot]"), rig.Set("modes[two-guns].time", "0.2 h")}},
		{"noise-level", "", rig.Note, "lines[left].noise", "82", "83", nil},
		{"noise-dose", "", rig.Fix, "lines[left].noise", "91", "92", nil},
		{"noise-criterion", "", rig.Note, "lines[left].noise", "84", "85", nil},
		{"pad-overtops", "", rig.Fix, "site.pad.berm", "1.527 in", "1.497 in", nil},
		{"tank-hot", "recovered", rig.Stop, "tanks[recovered].maximum_temperature", "86.5 °F", "83.5 °F", nil},
		{"sources-tied", "portable", rig.Stop, "sources[portable].tie", "interlock", "direct", nil},
		{"live-pins", "vacuum-1", rig.Stop, "cords[vacuum-1].ends", "plug-and-connector", "two-plugs", nil},
		{"neutral-unknown", "dump-pump", rig.Note, "sources[portable].neutral", "bonded", "", nil},
		{"age-unknown", "heater", rig.Fix, "heaters[heater].history", "inspected", "unknown", nil},
		{"confined-space", "fresh", rig.Note, "tanks[fresh].way_in", "no", "yes", nil},
		{"mode-mixes-water", "two-guns", rig.Fix, "modes[two-guns].open", "", "joint", nil},
		{"hose-end-fouls", "return", rig.Stop, "hose_ends[return].at", "recovered", "fresh", nil},
		{"dump-draws-back", "plant", rig.Fix, "recovery[plant].discharge.check_valve", "yes", "no", nil},
		{"recovery-flammable", "plant", rig.Stop, "recovery[plant].flammables", "no", "yes", nil},
		{"recovery-oil-reused", "plant", rig.Stop, "crossovers[joint].valve", "shut", "open", nil},
		{"strainer-service", "main", rig.Fix, "pumps[main].suction.strainer.valve", "yes", "no", nil},
		{"fault-over-rating", "main", rig.Stop, "pumps[main].relief.setting", "3270 psi", "3330 psi", nil},
		{"fault-dead-head", "main", rig.Stop, "pumps[main].relief.setting", "3400 psi", "", nil},
		{"fault-reaction", "left", rig.Note, "lines[left].nozzle.number", "12.1", "12.4", nil},
		{"fault-overloads-engine", "washer", rig.Note, "pumps[main].relief.setting", "3260 psi", "3326 psi", nil},
		{"fault-over-temperature", "heater", rig.Fix, "heaters[heater].maximum_temperature", "178 °F", "175 °F", nil},
		{"motor-out-puddles", "plant", rig.Note, "recovery[plant].motor.open_flow", "258.6 cfm", "253.6 cfm", nil},
		{"fouled-water-sprayed", "main", rig.Fix, "pumps[main].tank", "fresh", "recovered", nil},
		{"guard-missing", "heater", rig.CannotJudge, "heaters[heater].high_limit", "190 °F", "", nil},
	}
}

// Every code has a near miss: a change of one field, small where it is a number,
// takes it away or brings it.
func TestCodes_nearMiss(t *testing.T) {
	t.Parallel()
	trigger := map[rig.Code][]rig.Change{}
	for _, x := range triggers() {
		trigger[x.code] = x.c
	}
	b := demoModel(t, "B")
	seen := map[rig.Code]bool{}
	for _, x := range nearMisses() {
		seen[x.code] = true
		t.Run(string(x.code), func(t *testing.T) {
			also := x.also
			if also == nil {
				for _, c := range trigger[x.code] {
					if c.Path() != x.field {
						also = append(also, c)
					}
				}
			}
			weight := func(text string) (rig.Severity, units.Quantity) {
				t.Helper()
				m, err := b.With(append(append([]rig.Change{}, also...), rig.Set(x.field, text))...)
				if err != nil {
					t.Fatal(err)
				}
				r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
				if err != nil {
					t.Fatal(err)
				}
				q, _ := m.Quantity(x.field)
				for _, f := range r.Findings() {
					if f.Code == x.code && f.Reading.Part == x.part {
						return f.Severity, q
					}
				}
				return rig.Pass, q
			}
			bad, q := weight(x.bad)
			if bad != x.want {
				t.Errorf("%s = %s: %v, want %v", x.field, x.bad, bad, x.want)
			}
			good, p := weight(x.good)
			if good >= x.want {
				t.Errorf("%s = %s: still %v", x.field, x.good, good)
			}
			if !p.Given() || !q.Given() {
				return // words, or nothing on one side
			}
			apart := math.Abs(p.SI()-q.SI()) / math.Abs(q.SI())
			if k := p.Kind(); k == units.KindTemperature || k == units.KindTemperatureDelta {
				apart = math.Abs(p.SI()-q.SI()) / 100 // of a hundred kelvin
			}
			if apart > 0.03 {
				t.Errorf("%s and %s are no near miss", x.good, x.bad)
			}
		})
	}
	for _, d := range rig.Codes() {
		if !seen[d.Code] {
			t.Errorf("%s has no near miss", d.Code)
		}
	}
}
