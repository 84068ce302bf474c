package rig_test

import (
	"math"
	"strings"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A skid in a van: there is no trailer, so its weight is held against what the door
// plate of the vehicle leaves.
const skidInVan = `{
  "format": "washrig/1", "name": "van", "title": "skid in a van, invented",
  "site": {"elevation": "0 ft", "water": "60 °F"},
  "tanks": [{"id": "fresh", "contents": "clean", "nominal": "100 gal", "usable": "95 gal", "mass": "60 lb"}],
  "items": [{"id": "skid", "mass": "500 lb"}],
  "fills": [{"id": "out", "levels": [{"id": "fresh", "volume": "100 gal"}]}, {"id": "home"}],
  "tow_vehicle": {"payload_rating": "1900 lb", "gear": "400 lb"}
}`

func van(t *testing.T, c ...rig.Change) *rig.Model {
	t.Helper()
	s, err := rig.ReadSpec(strings.NewReader(skidInVan), rig.ReadLimits{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := rig.New(s, nil)
	if err != nil {
		t.Fatal(err)
	}
	if m, err = m.With(c...); err != nil {
		t.Fatal(err)
	}
	return m
}

// 500 lb of skid, 60 lb of tank and 100 gal at 8.337 lb/gal (water at 60 °F, density
// 999.0 kg/m³, IAPWS-IF97) are 1393.7 lb; the plate leaves 1900 − 400 = 1500 lb.
func TestVehicle_carriesTheLoad(t *testing.T) {
	t.Parallel()
	r := assessed(t, van(t))
	x, ok := r.Worst("tow_vehicle.load")
	if got := units.Mass(x.Value.SI()).In(units.Pound); !ok || math.Abs(got-1393.7) > 0.1 || x.State.On(rig.AxisFill) != "out" {
		t.Errorf("load %.2f lb in %s, want 1393.7 lb with the tank full", got, x.State)
	}
	f := judgement(t, r, "vehicle-over-rating", "")
	if got := units.Mass(f.Limit.SI()).In(units.Pound); f.Severity != rig.Pass || math.Abs(got-1500) > 1e-6 {
		t.Errorf("%v against %.1f lb, want a pass against 1500 lb", f.Severity, got)
	}
	f = judgement(t, assessed(t, van(t, rig.Set("items[skid].mass", "620 lb"))), "vehicle-over-rating", "")
	if f.Severity != rig.Stop || !strings.Contains(f.Source, "payload") {
		t.Errorf("with 1513.7 lb: %v by %q, want a stop by the payload", f.Severity, f.Source)
	}
}

// What the plate says decides; one that lacks leaves the question open.
func TestVehicle_plates(t *testing.T) {
	t.Parallel()
	for _, x := range []struct {
		name  string
		c     []rig.Change
		want  rig.Severity
		leans rig.Path
	}{
		{"no plate", set("tow_vehicle.payload_rating", "", "tow_vehicle.combination_rating", "9000 lb"), rig.CannotJudge, "tow_vehicle.payload_rating"},
		{"no gear", set("tow_vehicle.gear", ""), rig.CannotJudge, "tow_vehicle.gear"},
		{"gross rating alone", set("tow_vehicle.payload_rating", "", "tow_vehicle.gross_rating", "8000 lb", "tow_vehicle.curb_and_crew", "6500 lb"), rig.Pass, ""},
		{"gross rating binds", set("tow_vehicle.gross_rating", "7900 lb", "tow_vehicle.curb_and_crew", "6600 lb"), rig.Stop, ""},
	} {
		f := judgement(t, assessed(t, van(t, x.c...)), "vehicle-over-rating", "")
		leans := rig.Path("")
		if len(f.Leans) > 0 {
			leans = f.Leans[0]
		}
		if f.Severity != x.want || leans != x.leans {
			t.Errorf("%s: %v leaning on %q, want %v on %q", x.name, f.Severity, leans, x.want, x.leans)
		}
	}
}

// A part that nobody weighed may weigh 1500 − 1393.7 = 106.3 lb; an item may well be
// heavier.
func TestVehicle_unweighed(t *testing.T) {
	t.Parallel()
	m := van(t, rig.Add("items", "tools", ""))
	if list := m.Unweighed(); len(list) != 1 || list[0].Path != "items[tools].mass" {
		t.Fatalf("unweighed: %+v", list)
	}
	f := judgement(t, assessed(t, m), "unweighed-heavy", "item-tools")
	if got := units.Mass(f.Turns.SI()).In(units.Pound); f.Severity != rig.CannotJudge || math.Abs(got-106.3) > 0.1 {
		t.Errorf("%v, turns at %.2f lb, want cannot judge at 106.3 lb", f.Severity, got)
	}
}

// Water is mixed by an open crossover wherever the tanks stand.
func TestVehicle_mixedWater(t *testing.T) {
	t.Parallel()
	for _, gone := range []rig.Path{"", "tow_vehicle"} {
		c := append([]rig.Change{rig.Add("tanks", "used", ""), rig.Add("crossovers", "joint", "")},
			set("tanks[used].contents", "recovered", "tanks[used].nominal", "50 gal", "tanks[used].usable", "48 gal", "tanks[used].mass", "40 lb",
				"crossovers[joint].from", "fresh", "crossovers[joint].to", "used", "crossovers[joint].valve", "open")...)
		if gone != "" {
			c = append(c, rig.Remove(gone))
		}
		if f := judgement(t, assessed(t, van(t, c...)), "clean-water-mixed", "fresh"); f.Severity != rig.Fix {
			t.Errorf("without %q: %v, want a fix", gone, f.Severity)
		}
	}
}

// What is carried of a chemical weighs: 100 gal of 9.2 lb/gal are 920 lb, at their place.
func TestWeights_chemicalCarried(t *testing.T) {
	t.Parallel()
	total := func(c ...rig.Change) float64 {
		m := demoModel(t, "B", c...)
		at, err := m.ParseState("fill=out")
		if err != nil {
			t.Fatal(err)
		}
		r, ok := assessed(t, m).At("trailer.total", at)
		if !ok {
			t.Fatal("no total")
		}
		return units.Mass(r.Value.SI()).In(units.Pound)
	}
	with := append([]rig.Change{rig.Add("chemicals", "soap", "")}, set("chemicals[soap].family", "detergent", "chemicals[soap].mass", "10 lb", "chemicals[soap].x", "6 ft", "chemicals[soap].y", "0 ft", "chemicals[soap].z", "3 ft",
		"chemicals[soap].carried", "100 gal", "chemicals[soap].density", "9.2 lb/gal")...)
	if d := total(with...) - total(); math.Abs(d-930) > 0.01 {
		t.Errorf("with 100 gal of soap the trailer is %.2f lb heavier, want 930", d)
	}
}
