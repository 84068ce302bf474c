package rig_test

import (
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// A word that could stop the rig and that nobody said cannot be judged: it is not taken
// for the harmless one. Source of the rule: a guard that is not known is not a guard.
func TestHazards_unsaid(t *testing.T) {
	t.Parallel()
	acid := append([]rig.Change{rig.Add("chemicals", "acid", "")}, set("chemicals[acid].family", "acid", "chemicals[acid].enters", "at-gun", "chemicals[acid].wets", "plastic", "chemicals[acid].mist", "no")...)
	with := func(list []rig.Change, more ...string) []rig.Change {
		return append(append([]rig.Change{}, list...), set(more...)...)
	}
	for _, x := range []struct {
		code  rig.Code
		part  string
		c     []rig.Change
		leans rig.Path
	}{
		{"carbon-monoxide", "", set("site.place", ""), "site.place"},
		{"run-off", "", set("duty.run_off", ""), "duty.run_off"},
		{"gun-at-height", "", set("duty.height", ""), "duty.height"},
		{"flammable-surface", "", set("duty.surface", ""), "duty.surface"},
		{"recovery-flammable", "plant", set("recovery[plant].flammables", ""), "recovery[plant].flammables"},
		{"recovery-oil-reused", "plant", set("recovery[plant].oil", "", "crossovers[joint].valve", "open"), "recovery[plant].oil"},
		{"wrong-fuel", "gasoline", set("engines[washer].part", "", "engines[washer].burns", "", "engines[washer].gross_power", "23 hp"), "engines[washer].burns"},
		{"hose-end-fouls", "return", set("hose_ends[return].carries", "", "hose_ends[return].at", "fresh"), "hose_ends[return].carries"},
		{"chemical-in-coil", "acid", with(acid, "chemicals[acid].enters", ""), "chemicals[acid].enters"},
		{"chemical-attacks", "acid", with(acid, "chemicals[acid].wets", ""), "chemicals[acid].wets"},
	} {
		f := judgement(t, assessed(t, demoModel(t, "B", x.c...)), x.code, x.part)
		if f.Severity != rig.CannotJudge || len(f.Leans) != 1 || f.Leans[0] != x.leans {
			t.Errorf("%s: %v leaning on %v, want cannot judge on %s", x.code, f.Severity, f.Leans, x.leans)
		}
	}
}

// Pairs of families that heat, burn or give gas when they meet. Source: reactivity groups
// of US EPA 600/2-80-076, oxidizers with organics, acids with bases and with oxidizers
// (from memory).
func TestHazards_pairs(t *testing.T) {
	t.Parallel()
	for _, x := range [][2]string{{"hypochlorite", "acid"}, {"hypochlorite", "ammonia"}, {"hypochlorite", "solvent"}, {"peroxide", "solvent"}, {"peroxide", "acid"},
		{"peroxide", "caustic"}, {"ammonia", "acid"}, {"ammonia", "hydrofluoric"}, {"caustic", "acid"}} {
		c := append([]rig.Change{rig.Add("chemicals", "a", ""), rig.Add("chemicals", "b", "")}, set("chemicals[a].family", x[0], "chemicals[b].family", x[1])...)
		if f := judgement(t, assessed(t, demoModel(t, "B", c...)), "chemicals-meet", "a"); f.Severity != rig.Stop {
			t.Errorf("%s and %s: %v", x[0], x[1], f.Severity)
		}
	}
}

// Vapour is lit by motors and switches as well as by engines and burners, and a solvent
// that is sprayed while the unit picks up is drawn in.
func TestHazards_flammables(t *testing.T) {
	t.Parallel()
	plant := &rig.Spec{Name: "plant", Duty: rig.Duty{Surface: []string{"fuel"}}, Recovery: []rig.Recovery{{Stock: rig.Stock{ID: "plant"}, Flammables: "no"}}}
	_, r, err := mustModel(plant)
	if err != nil {
		t.Fatal(err)
	}
	if f := judgement(t, r, "flammable-surface", ""); f.Severity != rig.Stop {
		t.Errorf("vacuum motors alone: %v", f.Severity)
	}
	solvent := append([]rig.Change{rig.Add("chemicals", "thinner", "")}, set("chemicals[thinner].family", "solvent", "chemicals[thinner].enters", "at-gun", "modes[two-guns].sprays", "thinner")...)
	if f := judgement(t, assessed(t, demoModel(t, "B", solvent...)), "recovery-flammable", "plant"); f.Severity != rig.Stop || !strings.Contains(f.Source, "thinner") {
		t.Errorf("a solvent sprayed while the unit picks up: %v, %s", f.Severity, f.Source)
	}
}

// Nothing burns in a rig that is fed by a cord to the mains.
func TestHazards_shoreBurnsNothing(t *testing.T) {
	t.Parallel()
	s := &rig.Spec{Name: "shore", Site: rig.Site{Place: "in-building"}, Sources: []rig.Source{{Stock: rig.Stock{ID: "mains"}, Type: "shore"}}}
	s.Sources[0].Running = 1800
	_, r, err := mustModel(s)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range r.Findings() {
		if f.Code == "carbon-monoxide" || strings.HasPrefix(string(f.Reading.Path()), "engines[") {
			t.Errorf("%s: %v at %s", f.Code, f.Severity, f.Reading.Path())
		}
	}
}

// Acid that a mode sprays is a mist unless somebody said that it is none.
func TestHazards_mist(t *testing.T) {
	t.Parallel()
	acid := append([]rig.Change{rig.Add("chemicals", "acid", "")}, set("chemicals[acid].family", "acid", "chemicals[acid].enters", "at-gun", "modes[two-guns].sprays", "acid")...)
	if f := judgement(t, assessed(t, demoModel(t, "B", acid...)), "chemical-mist", "acid"); f.Severity != rig.Fix {
		t.Errorf("sprayed, and nothing said: %v", f.Severity)
	}
	acid = append(acid, rig.Set("chemicals[acid].mist", "no"))
	for _, f := range assessed(t, demoModel(t, "B", acid...)).Findings() {
		if f.Code == "chemical-mist" {
			t.Errorf("said to be none: %v", f.Severity)
		}
	}
}

// A check valve in a hose that several lines share holds pressure like one in a line.
func TestHazards_checkValveInTrunk(t *testing.T) {
	t.Parallel()
	c := append([]rig.Change{rig.Add("trunks", "shared", ""), rig.Set("trunks[shared].pump", "main")}, set("trunks[shared].hose.bore", "0.5 in", "trunks[shared].hose.length", "20 ft", "lines[left].trunk", "shared", "lines[right].trunk", "shared")...)
	m := demoModel(t, "B", c...)
	s := m.Written()
	s.Trunks[0].Elements = []rig.Element{{ID: "check", Element: parts.Element{Sort: "check-valve"}}}
	shelf, err := demo.Shelf()
	if err != nil {
		t.Fatal(err)
	}
	n, err := rig.New(s, shelf)
	if err != nil {
		t.Fatal(err)
	}
	if f := judgement(t, assessed(t, n), "trapped-pressure", "main"); f.Severity != rig.Note {
		t.Errorf("%v", f.Severity)
	}
}

// A pump whose engine nobody names is not driven by none, and what no tie-down names is
// open.
func TestGuards_unnamed(t *testing.T) {
	t.Parallel()
	found := false
	for _, f := range assessed(t, demoModel(t, "B", rig.Set("pumps[main].engine", ""))).Findings() {
		found = found || f.Code == "guard-missing" && len(f.Leans) == 1 && f.Leans[0] == "pumps[main].engine" && f.Severity == rig.CannotJudge
	}
	if !found {
		t.Error("a pump without its engine is judged")
	}
	open := func(c ...rig.Change) string {
		var b strings.Builder
		for _, o := range demoModel(t, "B", c...).Open() {
			b.WriteString(string(o.Path) + ": " + o.Leave + "\n")
		}
		return b.String()
	}
	const fresh = "tie_downs[].holds: whether tank fresh is held; no tie-down names it"
	if strings.Contains(open(), fresh) || !strings.Contains(open(rig.Remove("tie_downs[fresh-bands]")), fresh) {
		t.Errorf("without its bands the tank is not open:\n%s", open(rig.Remove("tie_downs[fresh-bands]")))
	}
}

// A finding about a unit, a drum or a tyre stands at its own field.
func TestHazards_paths(t *testing.T) {
	t.Parallel()
	for _, x := range []struct {
		code rig.Code
		c    []rig.Change
		path rig.Path
	}{
		{"tank-hot", set("recovery[plant].return_temperature", "150 °F"), "recovery[plant].maximum_temperature"},
		{"age-unknown", set("trailer.tyre_history", "unknown"), "trailer.tyre_history"},
		{"age-unknown", set("recovery[plant].drum.history", "unknown"), "recovery[plant].drum.history"},
	} {
		found := false
		for _, f := range assessed(t, demoModel(t, "B", x.c...)).Findings() {
			found = found || f.Code == x.code && f.Reading.Path() == x.path
		}
		if !found {
			t.Errorf("no %s at %s", x.code, x.path)
		}
	}
}

// The usual warmth of what comes back has a band: a rating inside it cannot be judged.
func TestHazards_returnTemperatureBand(t *testing.T) {
	t.Parallel()
	for limit, want := range map[string]rig.Severity{"75 °F": rig.Stop, "90 °F": rig.CannotJudge, "120 °F": rig.Pass} {
		m := demoModel(t, "B", set("recovery[plant].return_temperature", "", "recovery[plant].maximum_temperature", limit)...)
		r, err := m.Assess(nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		got := rig.Pass
		for _, f := range r.Findings() {
			if f.Code == "tank-hot" && f.Reading.Part == "plant" {
				got = max(got, f.Severity)
			}
		}
		if got != want {
			t.Errorf("rated %s: %v, want %v", limit, got, want)
		}
	}
}

// What would take stops off every rig is no default that a policy changes, and a signature
// of spaces is none.
func TestPolicy_refusesQuietly(t *testing.T) {
	t.Parallel()
	for name, p := range map[string]*rig.Policy{
		"reach":     {Defaults: map[rig.Path]rig.Default{"fills[].reach": {Value: "conceivable", Who: "a", When: "b", Why: "c"}}},
		"signature": {Defaults: map[rig.Path]rig.Default{"pumps[].belt_efficiency": {Value: "94 %", Who: " ", When: " ", Why: " "}}},
		"limit":     {Limits: map[rig.Code]rig.Limit{"bypass-heating": {Stop: (10 * units.Minute).Quantity(), Who: " ", When: " ", Why: " "}}},
	} {
		if err := p.Validate(); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
}
