package batch_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/units"
)

// signed changes one of everything that a policy changes.
func signed() *rig.Policy {
	return &rig.Policy{
		Limits:   map[rig.Code]rig.Limit{"bypass-heating": {Stop: (12 * units.Hour).Quantity(), Who: "the workshop, bay 2", When: "2026-06-01", Why: "operators idle longer here"}},
		Defaults: map[rig.Path]rig.Default{"pumps[].belt_efficiency": {Value: "94 %", Who: "the fitter", When: "2026-05-02", Why: "notched belts"}},
		Off:      []rig.Code{"pressure-jump"},
	}
}

// what each change has to say wherever it is printed.
var wantedOfSigned = [][]string{
	{"bypass-heating", "12", "the workshop", "bay 2", "2026-06-01", "operators idle longer here"},
	{"pumps[].belt_efficiency", "94 %", "the fitter", "2026-05-02", "notched belts"},
	{"pressure-jump", "not checked"},
}

// A limit that was changed is signed, and printed on every output: in the lines
// before both forms of a table, and in what describes its columns.
func TestTable_saysWhatThePolicyChanged(t *testing.T) {
	m := small(t)
	for _, o := range []batch.TableOptions{{}, {Long: true}, {System: units.SI}} {
		plan := planOf(t, m)
		plan.Policy = signed()
		comments, _ := records(t, table(t, m, plan, o))
		saysChanges(t, comments)
		var b bytes.Buffer
		if err := batch.WriteDictionary(&b, &plan, o); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		var lines []string
		for _, r := range rows {
			if r[3] == "change" {
				lines = append(lines, strings.Join(r, " "))
			}
		}
		if len(lines) != len(wantedOfSigned) {
			t.Errorf("the dictionary has %d changes, want %d", len(lines), len(wantedOfSigned))
		}
		saysChanges(t, lines)

		plan.Policy = nil
		if comments, _ := records(t, table(t, m, plan, o)); strings.Contains(strings.Join(comments, "\n"), "Changed by") {
			t.Error("the library's own limits are called changed")
		}
	}
	plan := planOf(t, m)
	plan.Policy = &rig.Policy{Off: []rig.Code{"no-such-code"}}
	if _, err := batch.NewTable(&bytes.Buffer{}, &plan, batch.TableOptions{}); err == nil {
		t.Error("a table took a policy that is none")
	}
	if err := batch.WriteDictionary(&bytes.Buffer{}, &plan, batch.TableOptions{}); err == nil {
		t.Error("a dictionary took a policy that is none")
	}
}

func saysChanges(t *testing.T, lines []string) {
	t.Helper()
	for _, want := range wantedOfSigned {
		found := false
		for _, l := range lines {
			all := true
			for _, w := range want {
				all = all && strings.Contains(l, w)
			}
			found = found || all
		}
		if !found {
			t.Errorf("no line says %q:\n%s", want, strings.Join(lines, "\n"))
		}
	}
}

// A comparison carries what the policy of each report changed, also as data.
func TestCompare_saysWhatThePoliciesChanged(t *testing.T) {
	m := small(t)
	plain, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		t.Fatal(err)
	}
	changed, err := m.Assess(signed(), &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		t.Fatal(err)
	}
	c := compare(t, nil, plain, changed)
	if len(c.Changes) != 2 || len(c.Changes[0].Words(units.US, 4)) != 0 {
		t.Fatalf("%v", c.Changes)
	}
	saysChanges(t, c.Changes[1].Words(units.US, 4))
	text, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	var back struct {
		Changes []struct {
			Overrides []struct {
				Code           rig.Code
				Stop           units.Quantity
				Who, When, Why string
			}
			Defaults []struct {
				Path  rig.Path
				Value string
				Who   string
			} `json:"changed_defaults"`
			Off []rig.Code `json:"switched_off"`
		}
	}
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatal(err)
	}
	if len(back.Changes) != 2 {
		t.Fatalf("%s", text)
	}
	x := back.Changes[1]
	if len(x.Overrides) != 1 || x.Overrides[0].Who != "the workshop, bay 2" || x.Overrides[0].Stop.SI() != 12*3600 {
		t.Errorf("limits: %+v", x.Overrides)
	}
	if len(x.Defaults) != 1 || x.Defaults[0].Value != "94 %" || x.Defaults[0].Who != "the fitter" {
		t.Errorf("defaults: %+v", x.Defaults)
	}
	if len(x.Off) != 1 || x.Off[0] != "pressure-jump" {
		t.Errorf("switched off: %v", x.Off)
	}
}
