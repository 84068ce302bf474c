package rig_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// fed is a cold rig on a hydrant: no tank, no heater, no trailer.
const fed = `{
  "format": "washrig/1",
  "name": "fed",
  "site": {"elevation": "1000 ft", "water": "60 °F", "conditions": [{"id": "noon", "air": "80 °F"}]},
  "pumps": [{"id": "main", "rated_flow": "8 gpm", "maximum_pressure": "3500 psi", "maximum_inlet_pressure": "80 psi", "minimum_inlet_pressure": "20 psi",
    "unloader": {"setting": "2500 psi", "return_to": "inlet", "loop_volume": "1 gal"}, "relief": {"setting": "2900 psi"}}],
  "supplies": [{"id": "hydrant", "pump": "main", "static": "60 psi", "residual": "40 psi", "test_flow": "20 gpm", "device": "reduced-pressure", "device_loss": "9 psi", "climb": "4 ft",
    "hose": {"bore": "0.75 in", "length": "100 ft"}}],
  "lines": [{"id": "left", "pump": "main", "hose": {"bore": "3/8 in", "length": "100 ft", "maximum_pressure": "3500 psi"}, "nozzle": {"number": 8}}]
}`

// The main of 60 psi has lost 20 psi at 20 gpm: at 8 gpm it loses
// 20 × (8/20)^1.85 = 3.67 psi (NFPA 291). 100 ft of 3/4 in hose take
// 4.52 × 8^1.85/(150^1.85 × 0.75^4.87) × 100 = 8.1 psi by Hazen and Williams with
// C = 150 (NFPA 13), Darcy's law a little more or less; the device takes 9 psi and
// 4 ft of climb 1.73 psi. About 60 − 3.67 − 8.1 − 9 − 1.73 = 37.5 psi are left, and
// 60 − 1.73 = 58.3 psi with nothing flowing.
func TestFeed_handSum(t *testing.T) {
	m, err := read(fed)
	if err != nil {
		t.Fatal(err)
	}
	r := assessed(t, m)
	hose := 4.52 * math.Pow(8, 1.85) / (math.Pow(150, 1.85) * math.Pow(0.75, 4.87)) * 100
	want := 60 - 20*math.Pow(0.4, 1.85) - hose - 9 - 1.73
	// Hazen and Williams with C = 150 is within a tenth of Darcy's law in smooth hose here.
	if got := mustNumber(t, r, "supplies[hydrant].inlet_pressure", "any") / float64(units.PSI); math.Abs(got-want) > 0.1*hose {
		t.Errorf("%.2f psi at the inlet, hand sum %.2f", got, want)
	}
	if got := mustNumber(t, r, "supplies[hydrant].inlet_static", "any") / float64(units.PSI); math.Abs(got-58.27) > 0.01 {
		t.Errorf("%.2f psi at rest, hand sum 58.27", got)
	}
	for _, f := range r.Findings() {
		if f.Severity >= rig.CannotJudge && strings.HasPrefix(string(f.Code), "feed") {
			t.Errorf("%v %s", f.Severity, f.Code)
		}
	}
	for _, o := range m.Open() {
		if strings.Contains(string(o.Path), "suction") {
			t.Errorf("a pump that is fed lacks %s", o.Path)
		}
	}
}

// Just inside each limit nothing is found; just outside, the code is.
func TestFeed_eitherSideOfEachLimit(t *testing.T) {
	m, err := read(fed)
	if err != nil {
		t.Fatal(err)
	}
	r := assessed(t, m)
	least := mustNumber(t, r, "supplies[hydrant].inlet_pressure", "any") / float64(units.PSI)
	most := mustNumber(t, r, "supplies[hydrant].inlet_static", "any") / float64(units.PSI)
	psi := func(v float64) string { return fmt.Sprintf("%.9g psi", v) }
	for _, c := range []struct {
		code      rig.Code
		part      string
		field     rig.Path
		good, bad string
		want      rig.Severity
	}{
		{"feed-short", "hydrant", "pumps[main].minimum_inlet_pressure", psi(0.999 * least), psi(1.001 * least), rig.Fix},
		{"feed-short", "hydrant", "supplies[hydrant].hose.length", "100 ft", "700 ft", rig.Fix},
		{"feed-over-pressure", "hydrant", "pumps[main].maximum_inlet_pressure", psi(1.001 * most), psi(0.999 * most), rig.Stop},
		{"feed-unprotected", "hydrant", "supplies[hydrant].device", "double-check", "none", rig.Stop},
		{"feed-unprotected", "hydrant", "supplies[hydrant].device", "vacuum-breaker", "", rig.CannotJudge},
	} {
		for text, want := range map[string]rig.Severity{c.good: 0, c.bad: c.want} {
			changes := []rig.Change{rig.Set(c.field, text)}
			if c.code == "feed-unprotected" {
				changes = append(changes, rig.Set("supplies[hydrant].device_loss", ""))
			}
			n, err := m.With(changes...)
			if err != nil {
				t.Fatal(err)
			}
			got := rig.Severity(0)
			for _, f := range assessed(t, n).Findings() {
				if f.Code == c.code && f.Reading.Part == c.part {
					got = f.Severity
				}
			}
			if got != want {
				t.Errorf("%s with %s = %q: %v, want %v", c.code, c.field, text, got, want)
			}
		}
	}
}

func TestFeed_refuses(t *testing.T) {
	m, err := read(fed)
	if err != nil {
		t.Fatal(err)
	}
	tank := []rig.Change{rig.Add("tanks", "fresh", ""), rig.Set("tanks[fresh].nominal", "100 gal")}
	for _, c := range []struct {
		want string
		c    []rig.Change
	}{
		{"supplies[hydrant].tank", []rig.Change{rig.Set("supplies[hydrant].pump", "")}},
		{"either a tank or a pump", append(tank, rig.Set("supplies[hydrant].tank", "fresh"))},
		{"draws from fresh", append(tank, rig.Set("pumps[main].tank", "fresh"))},
		{"no gap", []rig.Change{rig.Set("supplies[hydrant].air_gap", "2 in")}},
	} {
		if _, err := m.With(c.c...); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
}

// Rigs with little on them are answered as far as they go: a cold rig, one that
// only washes, a skid in a van, a hydrant feed, and nothing at all.
func TestAssess_anythingMayBeAbsent(t *testing.T) {
	for name, text := range map[string]string{
		"hydrant feed": fed,
		"small":        small,
		"nothing":      `{"format": "washrig/1", "name": "nothing"}`,
		"lines alone":  `{"format": "washrig/1", "name": "x", "pumps": [{"id": "main", "rated_flow": "4 gpm"}], "lines": [{"id": "left", "pump": "main", "hose": {"bore": "3/8 in", "length": "100 ft"}, "nozzle": {"number": 4}}]}`,
		"skid in a van": `{"format": "washrig/1", "name": "van", "items": [{"id": "skid", "mass": "600 lb"}], "tow_vehicle": {"curb_and_crew": "6000 lb"},
			"tanks": [{"id": "fresh", "nominal": "100 gal"}]}`,
	} {
		m, err := read(text)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		r, err := m.Assess(nil, nil)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(m.Open()) == 0 {
			t.Errorf("%s: nothing is said to be open", name)
		}
		for x := range r.Every() {
			if v := x.Value.SI(); math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s: %s is %v", name, x.Path(), v)
			}
		}
	}
}
