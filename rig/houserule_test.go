package rig_test

import (
	"strings"
	"testing"

	"example.com/washrig/rig"
)

const house = `{
  "format": "washrig-policy/1",
  "rules": [
    {"id": "relief-from-shelf", "author": "workshop", "text": "every relief valve comes from our shelf", "severity": "stop", "field": "pumps[].relief.part", "one_of": ["R34"]},
    {"id": "own-engine-mass", "author": "workshop", "text": "every portable generator is weighed", "field": "sources[].mass", "where": "type=portable", "given": true},
    {"id": "short-hose", "author": "service", "text": "no hose over 120 ft", "severity": "note", "field": "lines[].hose.length", "at_most": "120 ft"},
    {"id": "reserve", "author": "sales", "text": "never less than 2,250 psi at a nozzle", "metric": "lines[].nozzle_pressure", "at_least": "2250 psi"},
    {"id": "tongue", "author": "sales", "text": "tongue share above 10.6 %", "severity": "fix", "metric": "trailer.tongue_share", "at_least": "10.6 %"}
  ]
}`

func TestHouseRules(t *testing.T) {
	p, err := rig.ReadPolicy(strings.NewReader(house))
	if err != nil {
		t.Fatal(err)
	}
	m := demoModel(t, "B")
	r, err := m.Assess(p, nil)
	if err != nil {
		t.Fatal(err)
	}
	want := map[rig.Code]rig.Severity{"house-relief-from-shelf": rig.Pass, "house-own-engine-mass": rig.Pass, "house-short-hose": rig.Note,
		"house-reserve": rig.Pass, "house-tongue": rig.Fix}
	for c, sev := range want {
		f := judgement(t, r, c, partOf(t, r, c))
		if f.Severity != sev {
			t.Errorf("%s: %v, want %v", c, f.Severity, sev)
		}
		d, ok := r.Doc(c)
		if !ok || d.Defers == "" || d.Title == "" {
			t.Errorf("%s is not documented by its author", c)
		}
	}
	// The same rules on a rig that breaks the first two.
	broken, err := m.With(rig.Set("pumps[main].relief.part", ""), rig.Set("pumps[main].relief.setting", "3400 psi"))
	if err != nil {
		t.Fatal(err)
	}
	if r, err = broken.Assess(p, nil); err != nil {
		t.Fatal(err)
	}
	if f := judgement(t, r, "house-relief-from-shelf", "main"); f.Severity != rig.Stop {
		t.Errorf("a relief valve that is not from the shelf is %v", f.Severity)
	}
	if f := judgement(t, r, "house-short-hose", "left"); !strings.Contains(f.Source, "service") {
		t.Errorf("the author is not named: %q", f.Source)
	}
}

// Order: what a list holds, and what stands ahead of what. A strainer basket that
// is cleaned with the line under pressure wants a valve before it (common
// practice).
func TestHouseRules_order(t *testing.T) {
	p, err := rig.ReadPolicy(strings.NewReader(`{"format": "washrig-policy/1", "rules": [
		{"id": "valve-first", "author": "service", "text": "a valve stands before each filter", "severity": "stop", "field": "lines[].elements", "has": "valve", "before": "filter"},
		{"id": "swivel", "author": "service", "text": "every line has a swivel", "field": "lines[].elements", "has": "swivel"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	element := func(id, sort string) []rig.Change {
		return []rig.Change{rig.Add("lines[left].elements", id, ""), rig.Set(rig.Path("lines[left].elements["+id+"].sort"), sort)}
	}
	cat := func(lists ...[]rig.Change) (out []rig.Change) {
		for _, l := range lists {
			out = append(out, l...)
		}
		return out
	}
	for _, c := range []struct {
		name          string
		c             []rig.Change
		first, swivel rig.Severity
	}{
		{"nothing in the line", nil, rig.Pass, rig.Fix},
		{"filter alone", element("basket", "filter"), rig.Stop, rig.Fix},
		{"valve behind it", cat(element("basket", "filter"), element("stop", "valve")), rig.Stop, rig.Fix},
		{"valve before it", cat(element("stop", "valve"), element("basket", "filter"), element("turn", "swivel")), rig.Pass, rig.Pass},
		{"named so", cat(element("valve", "fitting"), element("filter", "loss")), rig.Pass, rig.Fix},
	} {
		r, err := demoModel(t, "B", c.c...).Assess(p, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			t.Fatal(err)
		}
		for code, want := range map[rig.Code]rig.Severity{"house-valve-first": c.first, "house-swivel": c.swivel} {
			if f := judgement(t, r, code, "left"); f.Severity != want {
				t.Errorf("%s: %s is %v, want %v", c.name, code, f.Severity, want)
			}
		}
	}
}

func partOf(t *testing.T, r *rig.Report, c rig.Code) string {
	t.Helper()
	for _, f := range append(r.Findings(), r.Passed()...) {
		if f.Code == c {
			return f.Reading.Part
		}
	}
	t.Fatalf("%s was not judged", c)
	return ""
}

func TestHouseRules_refuses(t *testing.T) {
	for _, c := range []struct{ rule, want string }{
		{`{"id": "x", "author": "a", "text": "t", "field": "pumps[].colour", "given": true}`, "rules[x].field"},
		{`{"id": "x", "author": "a", "text": "t", "field": "pumps[].rated_flow", "given": true, "at_least": "1 gpm"}`, "exactly one"},
		{`{"id": "x", "author": "a", "text": "t", "field": "pumps[].rated_flow", "at_least": "1 psi"}`, "rules[x].at_least"},
		{`{"id": "x", "author": "a", "text": "t", "field": "pumps[].part", "at_least": "1 gpm"}`, "no quantity"},
		{`{"id": "x", "author": "a", "text": "t", "metric": "pumps[].colour", "at_least": "1 gpm"}`, "a metric"},
		{`{"id": "x", "author": "a", "text": "t", "metric": "pumps[].pressure", "given": true}`, "at_least or at_most"},
		{`{"id": "x", "text": "t", "field": "pumps[].part", "given": true}`, "author"},
		{`{"id": "x", "author": "a", "text": "t", "field": "pumps[].part", "metric": "pumps[].pressure", "at_most": "1 psi"}`, "exactly one of field"},
		{`{"id": "x", "author": "a", "text": "t", "field": "pumps[].part", "has": "valve"}`, "a list"},
		{`{"id": "x", "author": "a", "text": "t", "field": "lines[left].elements", "has": "valve"}`, "a list"},
		{`{"id": "x", "author": "a", "text": "t", "field": "lines[].elements", "before": "filter", "given": true}`, "has beside it"},
		{`{"id": "x", "author": "a", "text": "t", "field": "lines[].elements", "has": "valve", "at_least": "1 psi"}`, "exactly one of given"},
		{`{"id": "x", "author": "a", "text": "t", "price": "mark_up", "given": true}`, "at_least or at_most"},
		{`{"id": "x", "author": "a", "text": "t", "price": "discount", "at_least": "5 %"}`, "mark_up, margin, line_mark_up"},
		{`{"id": "x", "author": "a", "text": "t", "price": "margin", "at_least": "5 psi"}`, "at_least"},
		{`{"id": "x", "author": "a", "text": "t", "severity": "grave", "field": "pumps[].part", "given": true}`, "severity"},
		{`{"id": "x", "author": "a", "text": "t", "field": "sources[].mass", "where": "colour=red", "given": true}`, "where"},
		// Words that are never there, and limits that no rig keeps or breaks.
		{`{"id": "x", "author": "a", "text": "t", "field": "sources[].neutral", "where": "type=protable", "one_of": ["bonded"]}`, `rules[x].where = "protable"`},
		{`{"id": "x", "author": "a", "text": "t", "field": "sources[].neutral", "where": "engine.id=x", "given": true}`, "where"},
		{`{"id": "x", "author": "a", "text": "t", "field": "pumps[].mass", "where": "relief=R34", "given": true}`, "holds one value"},
		{`{"id": "x", "author": "a", "text": "t", "field": "duty.surface", "one_of": ["siol"]}`, `rules[x].one_of[#1] = "siol"`},
		{`{"id": "x", "author": "a", "text": "t", "field": "modes[].loads", "where": "guns=left", "given": true}`, "holds one value"},
		{`{"id": "x", "author": "a", "text": "t", "field": "pumps[].unloader.return_to", "one_of": ["inlet", "tnk"]}`, `rules[x].one_of[#2] = "tnk"`},
		{`{"id": "x", "author": "a", "text": "t", "field": "lines[].hose.bore", "one_of": ["3/8"]}`, "rules[x].one_of[#1]"},
		{`{"id": "x", "author": "a", "text": "t", "metric": "lines[left.flow", "at_least": "1 gpm"}`, "a metric"},
		{`{"id": "x", "author": "a", "text": "t", "metric": "lines[#1].flow", "at_least": "1 gpm"}`, "a metric"},
		{`{"id": "x", "author": "a", "text": "t", "metric": "trailer.tongue_share", "at_least": "10"}`, "rules[x].at_least = 10: a share without a per cent sign (want 10 %, or 1000 % if that is meant)"},
		{`{"id": "x", "author": "a", "text": "t", "field": "pumps[].belt_efficiency", "at_least": "95"}`, "want 95 %"},
		{`{"id": "x", "author": "a", "text": "t", "price": "margin", "at_least": "20"}`, "want 20 %, or 2000 % if that is meant"},
		{`{"id": "x", "author": "a", "text": "t\u001b", "field": "sources[].mass", "given": true}`, "control"},
	} {
		_, err := rig.ReadPolicy(strings.NewReader(`{"format": "washrig-policy/1", "rules": [` + c.rule + `]}`))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.rule, err, c.want)
		}
	}
}

// A word that nothing answers to breaks the rule: a mistyped one is no pass. What was
// found and what was wanted stands beside it, and a whole group can be asked for.
func TestHouseRules_words(t *testing.T) {
	m := demoModel(t, "B", rig.Add("lines[left].elements", "basket", ""), rig.Set("lines[left].elements[basket].sort", "filter"))
	for _, c := range []struct {
		rule, part, found, wanted string
		want                      rig.Severity
	}{
		{`"field": "lines[].elements", "has": "vlave", "before": "filter"`, "right", `"vlave" is no sort`, "vlave ahead of every filter", rig.Fix},
		{`"field": "lines[].elements", "has": "valve", "before": "fliter"`, "left", `"fliter" is no sort`, "valve ahead of every fliter", rig.Fix},
		{`"field": "lines[].elements", "has": "valve", "before": "filter"`, "left", "basket (filter)", "valve ahead of every filter", rig.Fix},
		{`"field": "lines[].elements", "has": "valve", "before": "filter"`, "right", "", "valve ahead of every filter", rig.Pass},
		{`"field": "pumps[].relief.part", "one_of": ["R36", "R40"]`, "main", "R34", "R36 or R40", rig.Fix},
		{`"field": "pumps[].suction", "given": true`, "main", "", "anything", rig.Pass},
		{`"field": "pumps[].thermal_relief", "given": true`, "main", "", "anything", rig.Fix},
		{`"field": "supplies", "given": true`, "", "", "anything", rig.Pass},
		{`"field": "modes[].guns", "one_of": ["left", "right"]`, "two-guns", "", "left or right", rig.Pass},
		{`"field": "modes[].guns", "one_of": ["left"]`, "two-guns", "left, right", "left", rig.Fix},
		{`"field": "lines[].hose.bore", "one_of": ["3/8 in"]`, "left", "", "3/8 in", rig.Pass},
		{`"field": "lines[].hose.length", "where": "hose.bore=3/8 in", "at_most": "100 ft"`, "left", "", "", rig.Fix},
		{`"field": "lines[].hose.length", "where": "hose.bore=1/2 in", "at_most": "100 ft"`, "", "", "", 0},
		{`"metric": "lines[lft].flow", "at_least": "1 gpm"`, "lft", "the rig has no lines[lft]", "1 gpm", rig.Pass},
		{`"metric": "lines[left].flow", "at_least": "1 gpm"`, "left", "", "", rig.Pass},
		{`"metric": "trailer.tongue_share", "at_least": "0.2"`, "", "", "", rig.Fix},
	} {
		p, err := rig.ReadPolicy(strings.NewReader(`{"format": "washrig-policy/1", "rules": [{"id": "x", "author": "a", "text": "t", ` + c.rule + `}]}`))
		if err != nil {
			t.Errorf("%s: %v", c.rule, err)
			continue
		}
		r, err := m.Assess(p, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			t.Fatal(err)
		}
		if c.want == 0 {
			for _, f := range append(r.Findings(), r.Passed()...) {
				if f.Code == "house-x" {
					t.Errorf("%s: %v", c.rule, f)
				}
			}
			continue
		}
		f := judgement(t, r, "house-x", c.part)
		if f.Severity != c.want || !strings.Contains(f.Found, c.found) || f.Wanted != c.wanted {
			t.Errorf("%s: %v, found %q, wanted %q", c.rule, f.Severity, f.Found, f.Wanted)
		}
	}
}
