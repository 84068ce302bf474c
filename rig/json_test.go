package rig_test

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/jsonschema"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

func demoReport(t testing.TB, name string, p *rig.Policy) *rig.Report {
	t.Helper()
	m, err := demo.Model(name)
	if err != nil {
		t.Fatal(err)
	}
	rep, err := m.Assess(p, nil)
	if err != nil {
		t.Fatal(err)
	}
	return rep
}

func strictPolicy() *rig.Policy {
	return &rig.Policy{
		Limits: map[rig.Code]rig.Limit{"bypass-heating": {Stop: (10 * units.Minute).Quantity(), Who: "workshop", When: "2026-06-01", Why: "operators idle longer here"}},
		Off:    []rig.Code{"pressure-jump"},
	}
}

func TestReportJSON_keepsTheSchema(t *testing.T) {
	for _, name := range demo.Names() {
		for _, p := range []*rig.Policy{nil, strictPolicy()} {
			got, err := json.Marshal(demoReport(t, name, p))
			if err != nil {
				t.Fatal(err)
			}
			if err := jsonschema.Check([]byte(rig.ReportSchema()), got); err != nil {
				t.Errorf("rig %s: %v", name, err)
			}
		}
	}
}

// What is not a report is refused by the schema.
func TestReportJSON_schemaRefuses(t *testing.T) {
	good, err := json.Marshal(demoReport(t, "B", nil))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ old, new, want string }{
		{`"format":"washrig-report/1"`, `"format":"washrig-report/2"`, "/format"},
		{`"verdict":"fix"`, `"verdict":"fine"`, "/verdict"},
		{`"verdict":"fix",`, ``, "verdict is missing"},
		{`"reach":"reachable"`, `"reach":"maybe"`, "/reach"},
		{`"stop":0`, `"stop":"none"`, "/counts/stop"},
		{`"value":{"kind":"power"`, `"value":{"sort":"power"`, "kind is missing"},
	} {
		bad := bytes.Replace(good, []byte(c.old), []byte(c.new), 1)
		if bytes.Equal(bad, good) {
			t.Fatalf("the report has no %s to change", c.old)
		}
		if err := jsonschema.Check([]byte(rig.ReportSchema()), bad); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s for %s: %v, want a problem with %s", c.new, c.old, err, c.want)
		}
	}
}

// The readings of a report are those of its JSON, in the same order, to the
// nine digits that are written.
func TestReportJSON_readsBack(t *testing.T) {
	rep := demoReport(t, "B", nil)
	data, err := json.Marshal(rep)
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Counts   map[string]int `json:"counts"`
		Findings []struct{ Code rig.Code }
		Metrics  []struct {
			Path rig.Path
			Unit string
		}
		Readings []struct {
			Path  rig.Path
			State string
			Value units.Quantity
		}
		SwitchedOff []rig.Code `json:"switched_off"`
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	i := 0
	for r := range rep.Every() {
		if i >= len(doc.Readings) {
			t.Fatalf("the document has %d readings, the report more", i)
		}
		got := doc.Readings[i]
		a, b := r.Value.SI(), got.Value.SI()
		if got.Path != r.Path() || got.State != r.State.String() || got.Value.Kind() != r.Value.Kind() || math.Abs(a-b) > 1e-8*math.Abs(a)+1e-8 {
			t.Fatalf("reading %d is %s in %s = %v, the report says %s in %v = %v", i, got.Path, got.State, got.Value, r.Path(), r.State, r.Value)
		}
		i++
	}
	if i != len(doc.Readings) {
		t.Errorf("%d readings in the document, %d in the report", len(doc.Readings), i)
	}
	sum := 0
	for _, n := range doc.Counts {
		sum += n
	}
	if sum != len(doc.Findings) || sum != len(rep.Findings()) {
		t.Errorf("the counts add up to %d for %d findings", sum, len(doc.Findings))
	}
	// One unit a metric.
	unit := map[rig.Path]string{}
	for _, m := range doc.Metrics {
		unit[m.Path] = m.Unit
	}
	for m, u := range unit {
		if !bytes.Contains(data, []byte(`"unit":"`+u+`"`)) {
			t.Errorf("metric %s says its unit is %q, which no reading has", m, u)
		}
	}
}

func TestReportJSON_sameBytes(t *testing.T) {
	a, err := json.Marshal(demoReport(t, "C", strictPolicy()))
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(demoReport(t, "C", strictPolicy()))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a, b) {
		t.Error("two assessments of one specification gave different bytes")
	}
}

func TestPolicyDigest(t *testing.T) {
	plain := demoReport(t, "D", nil).PolicyDigest()
	strict := demoReport(t, "D", strictPolicy())
	again := demoReport(t, "D", strictPolicy()).PolicyDigest()
	other := strictPolicy()
	other.Off = nil
	if d := strict.PolicyDigest(); plain != "" || d == "" || d != again || d == demoReport(t, "D", other).PolicyDigest() {
		t.Errorf("digests %q, %q, %q", plain, d, again)
	}
	if off := strict.SwitchedOff(); len(off) != 1 || off[0] != "pressure-jump" {
		t.Errorf("switched off: %v", off)
	}
}

// Every finding and every passed judgement of the library's own checks is among
// the judgements, with the same limit and margin, and none is graver.
func TestJudgements(t *testing.T) {
	rep := demoReport(t, "D", nil)
	type key struct {
		code  rig.Code
		path  rig.Path
		state string
	}
	all := map[key]rig.Judgement{}
	worst := map[[2]string]rig.Severity{}
	for j := range rep.Judgements() {
		all[key{j.Code, j.Reading.Path(), j.Reading.State.String()}] = j
		if plugs := j.Reading.State.On(rig.AxisPlugs); plugs == "" || plugs == "as-listed" {
			at := [2]string{string(j.Code), j.Reading.Part}
			worst[at] = max(worst[at], j.Severity)
		}
	}
	for _, f := range append(rep.Findings(), rep.Passed()...) {
		j, ok := all[key{f.Code, f.Reading.Path(), f.Reading.State.String()}]
		if !ok || j.Limit != f.Limit || j.Margin != f.Margin || j.Severity != f.Severity {
			t.Errorf("%s of %s in %v: %+v is judged as %+v", f.Code, f.Reading.Path(), f.Reading.State, f, j)
		}
		if w := worst[[2]string{string(f.Code), f.Reading.Part}]; w != f.Severity {
			t.Errorf("%s of %q is %v at worst, the report says %v", f.Code, f.Reading.Part, w, f.Severity)
		}
	}
}

func TestHeadlines_areMetrics(t *testing.T) {
	seen := map[rig.Path]bool{}
	for _, h := range rig.Headlines() {
		if _, ok := rig.MetricOf(h.Path); !ok || h.Short == "" || seen[h.Path] {
			t.Errorf("%q (%s) is no metric, has no heading or stands twice", h.Path, h.Short)
		}
		seen[h.Path] = true
	}
	if _, ok := rig.MetricOf("lines[left].nozzle_pressure"); !ok {
		t.Error("a reading's path finds no metric")
	}
	if _, ok := rig.MetricOf("lines[left].colour"); ok {
		t.Error("a metric for the colour of a line")
	}
}

// A basis is never stated better than it is.
func TestFooting(t *testing.T) {
	m, err := demo.Model("B")
	if err != nil {
		t.Fatal(err)
	}
	if f := m.Footing("engines[].available"); f.Basis != "" || len(f.Assumed) != 0 {
		// the site is stated without a basis, which is weaker than a catalogue
		t.Errorf("engine power rests on %+v", f)
	}
	s := m.Written()
	if err := s.Note(&s.Site.Elevation, rig.Measured); err != nil {
		t.Fatal(err)
	}
	s.Basis["site.conditions"] = "measured"
	measured, err := rig.New(s, m.Shelf())
	if err != nil {
		t.Fatal(err)
	}
	if f := measured.Footing("engines[].available"); f.Basis != rig.Nameplate {
		t.Errorf("with a measured site, engine power rests on %+v", f)
	}
	s.Basis["engines[washer].continuous_share"] = "assumed"
	assumed, err := rig.New(s, m.Shelf())
	if err != nil {
		t.Fatal(err)
	}
	if f := assumed.Footing("engines[].available"); f.Basis != rig.Assumed || len(f.Assumed) != 1 || f.Assumed[0] != "engines[washer].continuous_share" {
		t.Errorf("with an assumed share, engine power rests on %+v", f)
	}
}

func TestSpreads(t *testing.T) {
	m, err := demo.Model("B")
	if err != nil {
		t.Fatal(err)
	}
	s := m.Written()
	s.Tolerance = nil
	if m, err = rig.New(s, m.Shelf()); err != nil {
		t.Fatal(err)
	}
	if got := m.Spreads(); len(got) != 0 {
		t.Errorf("spreads where none is stated: %+v", got)
	}
	s.Tolerance = map[rig.Path]string{"lines": "2 %", "lines[left].hose.length": "2 ft", "site.elevation": "100 ft k=2"}
	m, err = rig.New(s, m.Shelf())
	if err != nil {
		t.Fatal(err)
	}
	got := map[rig.Path]rig.Spread{}
	for _, x := range m.Spreads() {
		got[x.Path] = x
	}
	near := func(p rig.Path, want float64, normal bool) {
		if x := got[p]; math.Abs(x.HalfWidth-want) > 1e-12*want || x.Normal != normal {
			t.Errorf("%s: %+v, want %g", p, x, want)
		}
	}
	near("lines[left].hose.length", 2*0.3048, false)         // the longer entry
	near("lines[right].hose.length", 0.02*150*0.3048, false) // the entry above it
	near("site.elevation", 100*0.3048, true)                 // a normal spread
	near("lines[left].nozzle.number", 0.02*4.5, false)       // a share of the value
	if _, there := got["tanks[fresh].nominal"]; there {
		t.Error("a tank has a spread that nobody stated")
	}
}

// Starts follow the source's own order: by hand first, then what starts by
// itself, and the greatest peak is the metric's.
func TestStartOrders(t *testing.T) {
	rep := demoReport(t, "B", nil)
	m := rep.Model()
	orders, err := m.StartOrders(rig.State{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range orders {
		peak, listed := 0.0, false
		for i, st := range o.Steps {
			peak = max(peak, float64(st.Peak))
			if i > 0 && st.ByHand && !o.Steps[i-1].ByHand {
				t.Errorf("source %s: a hand start after one by itself: %+v", o.Source, o.Steps)
			}
		}
		for r := range rep.All(rig.Path("sources[" + o.Source + "].start_peak")) {
			if r.State.On(rig.AxisPlugs) == "as-listed" {
				listed = true
				if math.Abs(r.Value.SI()-peak) > 1e-9*peak {
					t.Errorf("source %s: steps peak at %g W, the report says %v", o.Source, peak, r.Value)
				}
			}
		}
		if !listed {
			t.Errorf("source %s has no start in the report", o.Source)
		}
	}
	if len(orders) != 2 {
		t.Errorf("%d sources start something, want 2", len(orders))
	}
	only, err := m.StartOrders(rig.State{}, []string{"vacuum-1"})
	if err != nil || len(only) != 1 || len(only[0].Steps) != 1 {
		t.Errorf("one load alone: %+v, %v", only, err)
	}
}

func TestReadPolicy(t *testing.T) {
	p, err := rig.ReadPolicy(strings.NewReader(`{"format":"washrig-policy/1","limits":[{"id":"bypass-heating","stop":"10 min","who":"workshop","when":"2026-06-01","why":"idle longer"}],"off":["pressure-jump"]}`))
	if err != nil {
		t.Fatal(err)
	}
	if l := p.Limits["bypass-heating"]; l.Stop != (10*units.Minute).Quantity() || l.Who != "workshop" || len(p.Off) != 1 {
		t.Errorf("%+v", p)
	}
	for _, c := range []struct{ text, want string }{
		{`{"format":"washrig-policy/2"}`, "format 2"},
		{`{"format":"washrig-policy/1","limits":[{"id":"no-such","who":"a","when":"b","why":"c"}]}`, "limits[no-such]"},
		{`{"format":"washrig-policy/1","limits":[{"id":"bypass-heating","stop":"10 psi","who":"a","when":"b","why":"c"}]}`, "limits[bypass-heating].stop"},
		{`{"format":"washrig-policy/1","limits":[{"id":"bypass-heating","stop":"10 min"},{"id":"bypass-heating"}]}`, "no other element"},
		{`{"format":"washrig-policy/1","of":["x"]}`, "unknown name"},
		{`{"format":"washrig-policy/1","off":[1]}`, "text in quotes"},
	} {
		if _, err := rig.ReadPolicy(strings.NewReader(c.text)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.text, err, c.want)
		}
	}
}
