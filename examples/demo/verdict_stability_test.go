package demo_test

import (
	"math"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// Rows of the verdict table for sides, tipping, parking, placement, plates,
// tie-down and clearances. The places across and up, boxes, tyres, zones and
// tie-downs are invented; the hand sums stand beside each row.

// Leaving, B's masses off the centreline: tools 240 lb × −1.65 ft, portable
// 155 × 2.55, skid 860 × 0.4, recovery plant 330 × 0.6, gasoline 85.4 × −1.2,
// diesel 213 × −2.6: −115.0 lb·ft in all, to the right. On a track of 92 in =
// 7.667 ft that is 2 × 115.0/7.667 = 30.0 lb between the sides of 6,008 lb, or
// 0.50 %; the heavier side carries 3,019 lb on two tyres.
func TestVerdict_sides(t *testing.T) {
	r := load(t).reports
	near(t, "B out, imbalance", read(t, r["B"], "trailer.imbalance", "fill=out", "%"), 0.499, algebra)
	near(t, "B out, heaviest tyre", read(t, r["B"], "trailer.tyre", "fill=out", "lb"), 1509, algebra)
	near(t, "B refilled, heaviest tyre", read(t, r["B"], "trailer.tyre", "fill=refilled", "lb"), 1838, algebra)
	for _, n := range demo.Names() {
		verdict(t, r[n], "lateral-imbalance", "", rig.Pass)
		verdict(t, r[n], "tyre-over-rating", "", rig.Pass)
	}
}

// With every tank full nothing can shift. B then weighs 8,259 lb with its
// centre 2.886 ft high and 115 lb·ft/8,259 lb = 0.014 ft off the middle; the
// factor is 7.667/(2 × 2.886) = 1.328. Hitched on a ball 1.5 ft high with
// 11.36 % on the tongue it turns about the line from ball to wheel:
// (3.833 × 0.8864 − 0.014)/(2.886 − 0.1136 × 1.5) = 1.246 g.
//
// That is not the worst. A tank across the whole deck, part full, lets the
// water run to the low side: the search finds about 1.19 g near 60 % in both
// tanks, which no listed fill and no corner shows.
func TestVerdict_tipOver(t *testing.T) {
	r := load(t).reports
	b := r["B"]
	near(t, "B full, static stability factor", read(t, b, "trailer.static_stability", "fill=refilled", "%")/100, 1.328, algebra)
	full := read(t, b, "trailer.tip_over", "fill=refilled", "g")
	near(t, "B full, tips", full, 1.246, algebra)
	worst := read(t, b, "trailer.tip_over_any_fill", "any", "g")
	near(t, "B, worst fill", worst, 1.19, algebra)
	for x := range b.All("trailer.tip_over") {
		if g := x.Value.SI() / float64(units.StandardGravity); worst >= g-0.05 {
			t.Errorf("the worst fill tips at %.3f g, %v at %.3f g: a part fill should be clearly worse", worst, x.State, g)
		}
	}
	for _, tank := range []rig.Path{"tanks[fresh].tip_over_level", "tanks[recovered].tip_over_level"} {
		if l := read(t, b, tank, "any", "%"); l < 40 || l > 80 {
			t.Errorf("%s is %.0f %%, expected in between", tank, l)
		}
	}
	// Baffles that hold back half of it bring that to the threshold of the full
	// tanks.
	half := with(t, b, rig.Set("tanks[fresh].baffles", "50 %"), rig.Set("tanks[recovered].baffles", "50 %"))
	near(t, "B with baffles", read(t, half, "trailer.tip_over_any_fill", "any", "g"), 1.246, algebra)
	for _, n := range demo.Names() {
		verdict(t, r[n], "tip-over", "", rig.Pass)
		verdict(t, r[n], "side-slope", "", rig.Pass)
	}
}

// Unhitched, the jack at 1.5 ft carries the tongue's moment on a shorter arm:
// B home 643.6 × 12.6/11.1 = 730.5 lb. Someone on the tail, at the end of the
// deck 18.5 ft, lifts it with 643.6 × 12.6/5.9 = 1,374 lb; D with 230.3 ×
// 12.6/5.9 = 492 lb: it stays down, barely above what a person with a load is
// taken for.
func TestVerdict_parked(t *testing.T) {
	r := load(t).reports
	near(t, "B home, jack", read(t, r["B"], "trailer.jack_load", "fill=home", "lb"), 730.5, algebra)
	near(t, "B home, tail", read(t, r["B"], "trailer.tail_spare", "fill=home", "lb"), 1374, algebra)
	near(t, "D home, tail", read(t, r["D"], "trailer.tail_spare", "fill=home", "lb"), 492, algebra)
	for _, n := range demo.Names() {
		verdict(t, r[n], "tail-drop", "", rig.Pass)
		verdict(t, r[n], "jack-over-rating", "", rig.Pass)
		verdict(t, r[n], "tongue-negative", "", rig.Pass)
	}
	// The recovered tank at 20 ft would drop the tail: 230 lb less 1,454 lb ×
	// 4.4/12.6.
	rear := with(t, r["D"], rig.Set("tanks[recovered].x", "20 ft"))
	verdict(t, rear, "tail-drop", "", rig.Stop)
	verdict(t, rear, "tongue-negative", "", rig.Stop)
}

// Two tanks apart fore and aft: s = (15 % − 10 %) × 12.6 ft × (1 + W/w), with
// the dry weight at night W and 160 gal = 1,334 lb for the smaller tank.
// D: 0.63 × (1 + 4,663/1,334) = 2.83 ft, and its tanks stand 5.6 ft apart: no
// place of anything else helps. B: 0.63 × (1 + 4,818/1,334) = 2.90 ft against
// 1.4 ft.
func TestVerdict_twoTanks(t *testing.T) {
	r := load(t).reports
	near(t, "D, furthest apart", read(t, r["D"], "trailer.tank_spacing_most", "any", "ft"), 2.83, algebra)
	near(t, "D, apart", read(t, r["D"], "trailer.tank_spacing", "any", "ft"), 5.6, algebra)
	verdict(t, r["D"], "tanks-far-apart", "", rig.Note)
	near(t, "B, furthest apart", read(t, r["B"], "trailer.tank_spacing_most", "any", "ft"), 2.90, algebra)
	verdict(t, r["B"], "tanks-far-apart", "", rig.Pass)
}

// D's cheapest repair by moving tanks. Home, 230.3 lb of 5,997 must become
// 599.7: the recovered tank, 1,454 lb full, forward by b and the fresh shell,
// 150 lb, aft by a give (1,454·b − 150·a)/12.6 = 369.4. That puts the shell of
// the recovered tank on the tongue when leaving, 1,001.7 lb of 6,770, which may
// be 1,015.5: (120·b − 2,152·a)/12.6 = 13.8. So a = 0.098 ft and b = 3.21 ft:
// fresh at 10.10 ft, recovered at 12.39 ft. The round figures 10.8 and 12.2 ft
// move more but leave room on both sides.
func TestVerdict_cheapestRepairOfD(t *testing.T) {
	d := load(t).reports["D"]
	p, err := d.Model().Placement(rig.PlacementQuery{})
	if err != nil {
		t.Fatal(err)
	}
	if !p.Possible || len(p.Moves) != 2 {
		t.Fatalf("%+v", p)
	}
	for i, c := range []struct {
		path rig.Path
		feet float64
	}{{"tanks[fresh]", 0.098}, {"tanks[recovered]", -3.21}} {
		m := p.Moves[i]
		if m.Moves[0] != c.path {
			t.Errorf("mover %d is %v", i, m.Moves)
		}
		// The sum a − b of the two rows is small between large numbers: water of
		// 8.34 lb/gal instead of 8.345 moves a by half a hundredth of a foot.
		if got := m.By.In(units.Foot); math.Abs(got-c.feet) > 0.01 {
			t.Errorf("%s moves by %.3f ft, hand sum %.3f ft", c.path, got, c.feet)
		}
	}
	binds := ""
	for _, b := range p.Binding {
		binds += b.Limit + " in " + b.State.String() + "; "
	}
	if !strings.Contains(binds, "least tongue share in fill=home") || !strings.Contains(binds, "greatest tongue share in fill=out") {
		t.Errorf("binds: %s", binds)
	}
	mended := with(t, d, p.Changes...)
	verdict(t, mended, "tongue-over-rating", "", rig.Pass)
	if f := finding(mended, "tongue-share-low", ""); f != nil && f.Reading.State.Reach() == rig.Reachable && f.Margin < -1e-9 {
		t.Errorf("still %v: %v in %v", f.Severity, f.Reading.Value, f.Reading.State)
	}
	// The remedy is re-assessed: it takes the recovered tank out of the recovery
	// plant as well.
	if finding(d, "clash", "recovery/recovered") == nil || finding(mended, "clash", "recovery/recovered") != nil {
		t.Error("the clash of recovered tank and recovery plant does not go with the move")
	}

	// Tools alone cannot do it: 240 lb brought forward by 2 ft give 38 lb of the
	// 369 lb that are missing. The proof names the limit and the end stop.
	no, err := d.Model().Placement(rig.PlacementQuery{Movers: []rig.Mover{{Moves: []rig.Path{"items[tools]"}, Forward: 2 * units.Foot, Back: 2 * units.Foot}}})
	if err != nil {
		t.Fatal(err)
	}
	if no.Possible || len(no.Proof) != 1 || no.Proof[0].Limit != "least tongue share" || no.Proof[0].State.String() != "fill=home" || len(no.Stops) != 1 {
		t.Errorf("%+v", no)
	}
	// (230.3 + 38.1)/5,997 = 4.475 %: 10 % would have to give by 55.2 %.
	near(t, "short by", float64(no.Short), 0.552, algebra)
}

// Where B's fresh tank may stand, all else staying: leaving, 2,152 lb of tank
// and water put the share, 917 lb of 6,925, to 15 % when moved (1,038.8 −
// 917.2) × 12.6/2,152 = 0.71 ft forward, to 10 % when moved (917.2 − 692.5) ×
// 12.6/2,152 = 1.32 ft aft: 10.29 to 12.32 ft.
func TestVerdict_passingRange(t *testing.T) {
	b := load(t).reports["B"]
	near(t, "foremost", read(t, b, "tanks[fresh].foremost", "any", "ft"), 10.29, algebra)
	near(t, "aftmost", read(t, b, "tanks[fresh].aftmost", "any", "ft"), 12.32, algebra)
	r, err := b.Model().PassingRange("tanks[fresh]", rig.PlacementQuery{})
	if err != nil {
		t.Fatal(err)
	}
	if r.AtFore.Limit != "greatest tongue share" || r.AtFore.State.String() != "fill=out" || r.AtAft.Limit != "least tongue share" {
		t.Errorf("%+v", r)
	}
}

// The most water B's tow vehicle allows, both tanks scaled alike. Of a volume V
// the recovered tank at 12.4 ft is 0.4·V: 3.336 lb/gal and 0.3 lb/gal of shell,
// the fresh shell at 11.0 ft 0.375 lb/gal. Home, all else holds 146.6 lb more
// on the tongue than 10 %; every gallon costs 0.375 × (0.1270 − 0.1) − 3.636 ×
// (0.0159 − 0.1) = −0.2958 lb of that: 496 gal, against 400 built. D allows
// hardly 90.
func TestVerdict_mostWater(t *testing.T) {
	r := load(t).reports
	near(t, "B", read(t, r["B"], "tow_vehicle.most_water", "any", "gal"), 496, algebra)
	w, err := r["B"].Model().MostWater(rig.PlacementQuery{})
	if err != nil {
		t.Fatal(err)
	}
	if !w.Possible || w.AtMost.Limit != "least tongue share" || w.AtMost.State.String() != "fill=home" {
		t.Errorf("%+v", w)
	}
	if v := read(t, r["D"], "tow_vehicle.most_water", "any", "gal"); v < 80 || v > 100 {
		t.Errorf("D allows %.0f gal", v)
	}
}

// B's plates on the tongue: hitch 1,050, coupler 1,100, receiver 1,200, payload
// 3,300 − 900 = 2,400, vehicle 9,900 − 6,600 = 3,300 lb. The lowest is named.
func TestVerdict_plates(t *testing.T) {
	b := load(t).reports["B"]
	for _, f := range b.Passed() {
		if f.Code == "tongue-over-rating" && f.Source != "rating of the hitch" {
			t.Errorf("the tongue is held against the %s", f.Source)
		}
		if f.Code == "trailer-over-rating" && f.Source != "gross rating of the trailer" {
			t.Errorf("the weight is held against the %s", f.Source)
		}
	}
	loaded := with(t, b, rig.Set("tow_vehicle.gear", "2400 lb"))
	verdict(t, loaded, "tongue-over-rating", "", rig.Stop)
	if f := finding(loaded, "tongue-over-rating", ""); f != nil && !strings.HasPrefix(f.Source, "payload") {
		t.Errorf("with 2,400 lb of gear 900 lb are left: held against the %s", f.Source)
	}
}

// The fresh tank full, 2,152 lb, on four straps at 45°: the worst of the
// working accelerations is 0.5 g rearward, 1,076 lbf/(4 × cos 45°) = 380 lbf a
// strap, and 0.8 g forward for the breaking strength, 609 lbf.
func TestVerdict_tieDown(t *testing.T) {
	r := load(t).reports
	near(t, "working", read(t, r["B"], "tie_downs[fresh-bands].pull", "any", "lbf"), 380.4, algebra)
	near(t, "breaking", read(t, r["B"], "tie_downs[fresh-bands].pull_breaking", "any", "lbf"), 608.6, algebra)
	for _, n := range demo.Names() {
		verdict(t, r[n], "tie-down-short", "fresh-bands", rig.Pass)
	}
	// One strap left of the four bears 1,522 lbf of its 1,500.
	verdict(t, with(t, r["B"], rig.Set("tie_downs[fresh-bands].anchors", "1")), "tie-down-short", "fresh-bands", rig.Stop)
}

// D's recovered tank, 13.5 in long about 15.6 ft, stands in the recovery plant,
// 1.8 ft long about 15.4 ft: 16.3 − 15.0375 = 1.2625 ft = 15.15 in to part
// them. Its fresh tank begins at 9.167 ft, the stack ends at 8.7 ft: 5.6 in of
// the 12 in.
func TestVerdict_clearances(t *testing.T) {
	r := load(t).reports
	near(t, "D, recovered in recovery", read(t, r["D"], "clearances[recovery/recovered].distance", "any", "in"), -15.15, algebra)
	near(t, "D, fresh to stack", read(t, r["D"], "clearances[fresh/stack].distance", "any", "in"), 5.6, algebra)
	verdict(t, r["D"], "clash", "recovery/recovered", rig.Fix)
	verdict(t, r["D"], "clash", "fresh/stack", rig.Fix)
	for _, n := range []string{"A", "B", "C"} {
		for _, f := range r[n].Findings() {
			if f.Code == "clash" || f.Code == "fuel-near-heat" || f.Code == "beyond-deck" {
				t.Errorf("%s: %s of %s", n, f.Code, f.Reading.Part)
			}
		}
	}
	// B's gasoline tank is 0.8 ft and 0.7 ft off the stack, 12.76 in of 12.
	near(t, "B, gasoline to stack", read(t, r["B"], "fuel_clearances[gasoline/stack].distance", "any", "in"), 12.76, algebra)
	verdict(t, r["B"], "fuel-near-heat", "gasoline/stack", rig.Pass)
}

// Two hoses of 150 ft × 3/8 in hold 0.861 gal each, the coil of 150 ft ×
// 0.546 in 1.824 gal: 3.546 gal or 29.6 lb. Between full and home 8 gal of
// gasoline and 8 gal of diesel burn: 48.8 lb at 7.0 ft and 56.8 lb at 8.4 ft
// take 21.7 and 18.9 lb off the tongue.
func TestVerdict_contents(t *testing.T) {
	b := load(t).reports["B"]
	near(t, "hose", read(t, b, "lines[left].hose_water", "any", "gal"), 0.861, algebra)
	near(t, "coil", read(t, b, "heaters[heater].coil_water", "any", "gal"), 1.824, algebra)
	near(t, "hoses and coil", read(t, b, "trailer.line_water", "any", "lb"), 29.6, algebra)
	near(t, "gasoline burned", read(t, b, "fuel_tanks[gasoline].burned", "any", "lb"), 48.8, algebra)
	near(t, "gasoline off the tongue", read(t, b, "fuel_tanks[gasoline].tongue_shift", "any", "lb"), 21.7, algebra)
	near(t, "diesel off the tongue", read(t, b, "fuel_tanks[diesel].tongue_shift", "any", "lb"), 18.9, algebra)
}
