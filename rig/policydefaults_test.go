package rig_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/jsonschema"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A dealer whose belts lose more than the library takes says so once: every rig
// that does not give its own belt is reckoned with 92 % instead of 96 %, and every
// output says who decided. Power at the engine grows by 96/92 (hand sum).
func TestPolicy_defaults(t *testing.T) {
	m := demoModel(t, "B", rig.Set("pumps[main].belt_efficiency", ""))
	p, err := rig.ReadPolicy(strings.NewReader(`{"format":"washrig-policy/1","defaults":[
		{"path":"pumps[].belt_efficiency","value":"92 %","who":"workshop","when":"2026-06-01","why":"measured on ten rigs"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	before, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		t.Fatal(err)
	}
	after, err := m.Assess(p, nil)
	if err != nil {
		t.Fatal(err)
	}
	const state = "guns=left+right heat=steady"
	a, b := mustNumber(t, before, "pumps[main].shaft_power", state), mustNumber(t, after, "pumps[main].shaft_power", state)
	if d := b/a - 0.96/0.92; d > 1e-9 || d < -1e-9 {
		t.Errorf("shaft power grew by %v, hand sum %v", b/a, 0.96/0.92)
	}
	if o := after.Model().Origin("pumps[main].belt_efficiency"); o.Basis != rig.Assumed || !strings.Contains(o.Why, "workshop, 2026-06-01") || !strings.Contains(o.Why, "measured on ten rigs") {
		t.Errorf("origin %+v", o)
	}
	if o := m.Origin("pumps[main].belt_efficiency"); strings.Contains(o.Why, "workshop") {
		t.Error("the policy changed the model itself")
	}
	if list := after.ChangedDefaults(); len(list) != 1 || list[0].Path != "pumps[].belt_efficiency" || list[0].Value != "92 %" || list[0].Change.Who != "workshop" {
		t.Errorf("changed defaults: %+v", list)
	}
	if len(before.ChangedDefaults()) != 0 || before.PolicyDigest() == after.PolicyDigest() {
		t.Error("a report without the policy names it, or has its digest")
	}
	data, err := json.Marshal(after)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(data, []byte(`"changed_defaults":[{"path":"pumps[].belt_efficiency","value":"92 %","who":"workshop"`)) {
		t.Error("the report as data does not name the changed default")
	}
	if err := jsonschema.Check([]byte(rig.ReportSchema()), data); err != nil {
		t.Error(err)
	}
	// A value that the specification gives is not touched.
	given := demoModel(t, "B", rig.Set("pumps[main].belt_efficiency", "96 %"))
	same, err := given.Assess(p, nil)
	if err != nil {
		t.Fatal(err)
	}
	if c := mustNumber(t, same, "pumps[main].shaft_power", state); c != a {
		t.Errorf("a given efficiency gives %v instead of %v", c, a)
	}
	// What is made of the report's model keeps the default of the policy.
	n, err := after.Model().With(rig.Set("site.elevation", "0 ft"))
	if err != nil {
		t.Fatal(err)
	}
	if v, _, err := n.Get("pumps[main].belt_efficiency"); err != nil || v != "92 %" {
		t.Errorf("a change of the site makes it %q, %v", v, err)
	}
}

func TestPolicy_defaultsRefused(t *testing.T) {
	m := demoModel(t, "B")
	signed := func(path rig.Path, value string) *rig.Policy {
		return &rig.Policy{Defaults: map[rig.Path]rig.Default{path: {Value: value, Who: "a", When: "b", Why: "c"}}}
	}
	for _, c := range []struct {
		name string
		p    *rig.Policy
		want string
		is   error
	}{
		{"no such field", signed("pumps[].colour", "red"), "policy.defaults[pumps[].colour]", units.ErrRange},
		{"no default there", signed("pumps[].rated_flow", "4 gpm"), "the field has no default", units.ErrRange},
		{"an element", signed("pumps[main].belt_efficiency", "92 %"), "want pumps[].belt_efficiency", units.ErrRange},
		{"out of range", signed("pumps[].belt_efficiency", "20 %"), "50 %", units.ErrRange},
		{"another kind", signed("pumps[].belt_efficiency", "4 psi"), "policy.defaults[pumps[].belt_efficiency]", units.ErrSyntax},
		{"nothing", signed("pumps[].belt_efficiency", ""), "a value", units.ErrMissing},
		{"a word that is no choice", signed("tanks[].contents", "beer"), "clean", units.ErrRange},
		{"unsigned", &rig.Policy{Defaults: map[rig.Path]rig.Default{"pumps[].belt_efficiency": {Value: "92 %"}}}, "who", units.ErrMissing},
	} {
		_, err := m.Assess(c.p, nil)
		if err == nil || !strings.Contains(err.Error(), c.want) || !errors.Is(err, c.is) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	if _, err := rig.ReadPolicy(strings.NewReader(`{"format":"washrig-policy/1","defaults":[{"path":"pumps[].belt_efficiency","value":"92 %","who":"a","when":"b","why":"c"},
		{"path":"pumps[].belt_efficiency","value":"93 %","who":"a","when":"b","why":"c"}]}`)); err == nil || !strings.Contains(err.Error(), "once") {
		t.Errorf("one default twice: %v", err)
	}
}

// One value has every limit, default and source: of the library's own, and with
// what a dealer changed.
func TestPolicy_inForce(t *testing.T) {
	var none *rig.Policy
	own, err := none.InForce()
	if err != nil {
		t.Fatal(err)
	}
	if len(own.Codes) != len(rig.Codes()) {
		t.Errorf("%d codes of %d", len(own.Codes), len(rig.Codes()))
	}
	defaults := 0
	rows, err := rig.Fields()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range rows {
		if f.Default != "" {
			defaults++
		}
	}
	if defaults < 20 || len(own.Defaults) != defaults {
		t.Errorf("%d defaults, the fields have %d", len(own.Defaults), defaults)
	}
	for _, d := range own.Defaults {
		if d.Source == "" || d.Value == "" || d.Change != nil {
			t.Errorf("%s: value %q, source %q", d.Path, d.Value, d.Source)
		}
	}
	for _, d := range own.Codes {
		if d.Limit.Source == "" && (d.Limit.Note.Given() || d.Limit.Fix.Given() || d.Limit.Stop.Given()) {
			t.Errorf("the limit of %s has no source", d.Code)
		}
	}
	p := &rig.Policy{Limits: map[rig.Code]rig.Limit{"bypass-heating": {Stop: (9 * units.Minute).Quantity(), Who: "w", When: "d", Why: "y"}}, Off: []rig.Code{"pressure-jump"},
		Defaults: map[rig.Path]rig.Default{"duty.trigger_share": {Value: "60 %", Who: "w", When: "d", Why: "y"}}}
	now, err := p.InForce()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range now.Codes {
		if changed := d.Limit.Who != ""; changed != (d.Code == "bypass-heating") {
			t.Errorf("%s: changed %v", d.Code, changed)
		}
	}
	for _, d := range now.Defaults {
		if changed := d.Change != nil; changed != (d.Path == "duty.trigger_share") || changed && d.Value != "60 %" {
			t.Errorf("%s: %q, changed %v", d.Path, d.Value, changed)
		}
	}
	if len(now.Off) != 1 || now.Off[0] != "pressure-jump" {
		t.Errorf("off: %v", now.Off)
	}
}

// No check that can weigh stop or cannot judge can be switched off.
func TestPolicy_offNeverHidesAStop(t *testing.T) {
	m := demoModel(t, "B")
	for _, d := range rig.Codes() {
		_, err := m.Assess(&rig.Policy{Off: []rig.Code{d.Code}}, &rig.AssessOptions{SkipBreakEven: true})
		if grave := d.Plate || d.Grave || d.Limit.Stop.Given(); grave != (err != nil) {
			t.Errorf("%s: can weigh stop %v, switching it off gives %v", d.Code, grave, err)
		}
	}
	for _, name := range []string{"A", "B", "C", "D"} {
		rm, err := demo.Model(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range append(assessed(t, rm).Findings(), assessed(t, m).Findings()...) {
			if f.Severity < rig.CannotJudge {
				continue
			}
			if err := (&rig.Policy{Off: []rig.Code{f.Code}}).Validate(); err == nil {
				t.Errorf("%s weighs %v and can be switched off", f.Code, f.Severity)
			}
		}
	}
}
