package rig_test

import (
	"slices"
	"testing"

	"example.com/washrig/rig"
)

// A danger is one dangerous outcome of the trade with the codes that compute its
// trigger and the cautions that stand for it on every output. It needs one or the
// other; what can be computed has a code.
type danger struct {
	name     string
	codes    []rig.Code
	cautions []string // Caution.Hazard
}

// dangers lists the dangerous outcomes of a wash trailer, common practice.
func dangers() []danger {
	list := func(c ...rig.Code) []rig.Code { return c }
	say := func(s ...string) []string { return s }
	return []danger{
		{"fluid injected into flesh, whip of a burst hose", list("pressure-over-rating", "dead-head", "relief-in-use", "relief-over-rating", "coil-relief-low", "coil-relief-over-rating", "unloader-over-relief", "surge-over-rating", "gun-reaction", "pump-fast", "feed-over-pressure", "fault-over-rating", "fault-dead-head", "fault-reaction"), say("Pressure", "Shutting down")},
		{"scald, steam burst at the gun", list("thermostat-over-rating", "high-limit-over-rating", "thermostat-over-high-limit", "thermostat-boiling", "flash-at-nozzle", "stuck-burner", "high-limit-late", "release-over-rating", "guard-missing", "fault-over-temperature"), say("Scald and steam")},
		{"a closed volume is heated", list("fires-without-flow", "soak-over-rating", "fire-starved"), say("Scald and steam")},
		{"pump head boils or bursts in bypass", list("bypass-heating", "bypass-heating-warm", "thermal-relief-high", "thermal-relief-small"), nil},
		{"carbon monoxide", list("carbon-monoxide", "clean-firing", "clean-firing-voltage", "clean-firing-coupled", "fire-starved"), say("Carbon monoxide")},
		{"electric shock", list("ground-fault", "outlet-unknown", "neutral-differs", "cord-overload", "outlet-overload", "leg-overload"), say("Shock")},
		{"back-feed, two sources tied", list("sources-tied", "live-pins"), say("Shock")},
		{"generator overloaded, voltage falls", list("source-overload", "source-start", "source-restart", "source-apparent", "source-start-apparent", "engine-overload", "engine-overload-coupled", "voltage-dip"), nil},
		{"fire: fuel on hot parts, wrong fuel", list("fuel-near-heat", "fuel-fill-in-heat", "wrong-fuel", "fuel-gels"), say("Fuel")},
		{"sway, roll-over, overload on the road", list("tongue-share-low", "tongue-negative", "tongue-over-rating", "trailer-over-rating", "axle-over-rating", "tyre-over-rating", "combination-over-rating", "vehicle-over-rating", "tip-over", "side-slope", "unweighed-heavy", "unweighed-light"), say("Towing")},
		{"load let go", list("tie-down-short", "tie-down-breaks"), nil},
		{"chemicals make gas, attack, or boil in the coil", list("chemicals-meet", "hydrofluoric-carried", "chemical-attacks", "chemical-in-coil", "injector-starved", "injector-drowned", "chemical-pump-cycles"), say("Chemicals")},
		{"public water fouled", list("air-gap", "feed-unprotected"), nil},
		{"ground or drain polluted", list("run-off", "recovery-no-room", "recovery-puddles", "pad-overtops", "dump-out-short"), say("Waste water")},
		{"germs in the mist of water that stood warm", list("warm-storage"), say("Tanks")},
		{"somebody in a tank", list("confined-space"), say("Tanks")},
		{"hearing", list("noise-level", "noise-dose", "noise-criterion"), say("Hearing")},
		{"slip, ice on pavement", list("freezing-pavement"), say("Footing")},
		{"a gun on a ladder", list("gun-at-height"), say("Footing")},
		{"coil, drum or tyre of unknown age", list("age-unknown"), say("Age")},
		{"lead paint or asbestos washed off", list("surface-licensed", "surface-painted"), say("Surfaces")},
		{"clean tank fouled by a valve or a hose end", list("clean-water-mixed", "mode-mixes-water", "hose-end-fouls", "recovery-oil-reused", "fouled-water-sprayed"), nil},
		{"flammables drawn into the recovery unit", list("recovery-flammable", "flammable-surface"), say("Surfaces")},
		{"pressure left in a shut line", list("trapped-pressure"), say("Shutting down")},
		{"fire while refuelling", list("fuel-near-heat"), say("Fuel")}, // a fill beside hot parts is computed; whether an engine is hot when the cap comes off is not
		{"low-pressure side softened by hot water", list("low-side-hot", "tank-hot"), nil},
		{"tail drops when unhitched", list("tail-drop", "jack-over-rating"), say("Towing")},
		{"shock or damage while a plug is moved", list("neutral-differs", "neutral-unknown"), say("Shock")},
		{"plastic tank collapsed by vacuum", list("tank-vacuum", "drum-over-vacuum"), say("Tanks")},
		{"burst by a surge although the relief valve is set right", list("surge-over-rating", "surge-in-band"), nil},
		{"poisoned by antifreeze", list("antifreeze-poison"), nil},
		{"breathing and eyes hurt by a sprayed chemical", list("chemical-mist"), say("Chemicals")},
		{"load spilt on the road", list("dump-unlocked"), say("Towing")},
		{"no margin to boiling at altitude", list("boiling-margin", "thermostat-boiling", "flash-at-nozzle"), nil},
		{"pump ruined by its suction", list("suction-head", "feed-short"), nil},
	}
}

// Every dangerous outcome has a computed finding or a standing caution that says who
// decides, and no finding that weighs a stop is without a danger it belongs to.
func TestDangers_everyOneIsWarnedOf(t *testing.T) {
	codes := map[rig.Code]rig.CodeDoc{}
	for _, d := range rig.Codes() {
		codes[d.Code] = d
	}
	cautions := map[string]rig.Caution{}
	for _, c := range rig.Cautions() {
		cautions[c.Hazard] = c
	}
	named := map[rig.Code]bool{}
	for _, d := range dangers() {
		if len(d.codes)+len(d.cautions) == 0 {
			t.Errorf("%s: nothing warns of it", d.name)
		}
		for _, c := range d.codes {
			doc, ok := codes[c]
			if !ok {
				t.Errorf("%s: there is no code %s", d.name, c)
			}
			if doc.Meaning == "" {
				t.Errorf("%s: %s does not say what it means", d.name, c)
			}
			named[c] = true
		}
		for _, c := range d.cautions {
			if cautions[c].Text == "" || cautions[c].Defers == "" {
				t.Errorf("%s: there is no caution %q with who decides", d.name, c)
			}
		}
	}
	for _, c := range rig.Codes() {
		if grave := c.Grave || c.Limit.Stop.Given(); grave && !named[c.Code] {
			t.Errorf("%s weighs a stop and belongs to no danger", c.Code)
		}
	}
	for _, c := range rig.Cautions() {
		if !slices.ContainsFunc(dangers(), func(d danger) bool { return slices.Contains(d.cautions, c.Hazard) }) {
			t.Errorf("caution %q belongs to no danger", c.Hazard)
		}
	}
}
