package rig_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

func pounds(x float64) units.Mass { return units.Mass(x) * units.Pound }

func feet(x float64) units.Position { return units.PositionAt(units.Length(x) * units.Foot) }

func value(t *testing.T, r *rig.Report, p rig.Path, state string) float64 {
	t.Helper()
	s, err := r.Model().ParseState(state)
	if err != nil {
		t.Fatal(err)
	}
	x, ok := r.At(p, s)
	if !ok {
		t.Fatalf("%s has no reading in %s", p, state)
	}
	return x.Value.SI()
}

func newModel(t *testing.T, s *rig.Spec) *rig.Model {
	t.Helper()
	m, err := rig.New(s, nil)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// bare is a trailer with one item and nothing else: axles at 12 ft.
func bare(axles int) *rig.Spec {
	return &rig.Spec{
		Trailer: &rig.Trailer{Stock: rig.Stock{ID: "chassis", Mass: pounds(2000), X: feet(11), Y: feet(0), Z: feet(2)},
			Trailer: parts.Trailer{Axles: axles, AxleGroup: feet(12), Track: 6 * units.Foot, AxleSpacing: 3 * units.Foot}},
		Items: []rig.Item{{Stock: rig.Stock{ID: "box", Mass: pounds(1000), X: feet(10), Y: feet(0.5), Z: feet(3)}}},
		Fills: []rig.Fill{{ID: "road"}},
	}
}

// A trailer without tanks: 2,000 lb at 11 ft and 1,000 lb at 10 ft on axles at
// 12 ft put 2000/12 + 2000/12 = 333.3 lb on the tongue and 2,666.7 lb on the
// axles; the item half a foot off centre on a 6 ft track puts 83.3 lb more on
// the left wheels and as much less on the right ones.
func TestStability_noTank(t *testing.T) {
	for axles := 1; axles <= 3; axles++ {
		r := assessed(t, newModel(t, bare(axles)))
		for _, c := range []struct {
			path rig.Path
			lb   float64
		}{
			{"trailer.tongue", 333.333333}, {"trailer.axle", 2666.666667 / float64(axles)},
			{"trailer.left", 1416.666667}, {"trailer.right", 1250}, {"trailer.tyre", 1416.666667 / float64(axles)},
		} {
			if got := units.Mass(value(t, r, c.path, "fill=road")).In(units.Pound); math.Abs(got-c.lb) > 1e-5 {
				t.Errorf("%d axles, %s: %.6f lb, hand sum %.6f lb", axles, c.path, got, c.lb)
			}
		}
		if got, want := value(t, r, "trailer.imbalance", "fill=road"), 166.666667/2666.666667; math.Abs(got-want) > 1e-8 {
			t.Errorf("%d axles: imbalance %.6f, hand sum %.6f", axles, got, want)
		}
		// Rigid: centre of mass (2000·2 + 1000·3)/3000 = 7/3 ft high and 1/6 ft left of
		// the middle, on its wheels alone (no height of the coupler): half the track less
		// that, over the height, (3 − 1/6)/(7/3) = 1.2143 g over the left wheels.
		if got, want := value(t, r, "trailer.tip_over", "fill=road"), (3-1.0/6)/(7.0/3)*9.80665; math.Abs(got-want) > 1e-6 {
			t.Errorf("tips at %.6f m/s², hand sum %.6f", got, want)
		}
		if got, want := value(t, r, "trailer.static_stability", "fill=road"), 6/(2*7.0/3); math.Abs(got-want) > 1e-9 {
			t.Errorf("static stability factor %.9f, definition %.9f", got, want)
		}
	}
}

// A component behind the last axle lifts the tongue, which is told as what it
// is, in pounds and with a code of its own, hitched and unhitched.
func TestStability_negativeTongue(t *testing.T) {
	s := bare(2)
	s.Trailer.Jack, s.Trailer.Tail = feet(2), feet(18)
	s.Items[0].X = feet(18) // 2,000/12 − 6,000/12 = −333.3 lb
	r := assessed(t, newModel(t, s))
	if got := units.Mass(value(t, r, "trailer.tongue", "fill=road")).In(units.Pound); math.Abs(got+333.333333) > 1e-5 {
		t.Errorf("tongue %.6f lb, hand sum −333.333 lb", got)
	}
	f := judgement(t, r, "tongue-negative", "")
	if f.Severity != rig.Stop || f.Margin != -1 {
		t.Errorf("%v with margin %g", f.Severity, f.Margin)
	}
	// Unhitched, the jack at 2 ft would have to pull 4,000/10 lb down; someone of
	// −400·10/6 lb on a tail at 18 ft would hold it: it has dropped.
	if f := judgement(t, r, "tail-drop", ""); f.Severity != rig.Stop || math.Abs(units.Mass(f.Reading.Value.SI()).In(units.Pound)+666.666667) > 1e-5 {
		t.Errorf("%v, spare %v", f.Severity, f.Reading.Value)
	}
}

// Everything empty and light is still a trailer.
func TestStability_empty(t *testing.T) {
	s := bare(1)
	s.Items, s.Fills = nil, nil
	s.Tanks = []rig.Tank{{Stock: rig.Stock{ID: "water", X: feet(12), Y: feet(0)}, Floor: feet(2),
		Tank: parts.Tank{Nominal: 100 * units.Gallon, Shape: "upright-cylinder", Diameter: 30 * units.Inch, Height: 32.68 * units.Inch}}}
	r := assessed(t, newModel(t, s))
	if got := units.Mass(value(t, r, "trailer.tongue", "fill=corner:dry")).In(units.Pound); math.Abs(got-2000.0/12) > 1e-6 {
		t.Errorf("dry tongue %.6f lb", got)
	}
	if _, ok := r.Worst("trailer.tip_over_any_fill"); !ok {
		t.Error("an empty trailer with one tank is not searched for tipping")
	}
}

// What contradicts itself is refused with the field and what would do.
func TestStability_refuses(t *testing.T) {
	for _, c := range []struct{ path, text, names string }{
		{"trailer.track", "0 ft", "trailer.track"},
		{"trailer.tyres_per_end", "3", "trailer.tyres_per_end"},
		{"trailer.jack", "13 ft", "trailer.jack"},
		{"trailer.tail", "12 ft", "trailer.tail"},
		{"trailer.axle_spacing", "15 ft", ""},
		{"trailer.suspension", "independent", "trailer.spring_load"},
		{"trailer.box.length", "3 ft", "trailer.box"},
		{"tanks[fresh].shape", "upright-cylinder", "tanks[fresh].diameter"},
		{"tanks[fresh].inside_length", "30 in", "tanks[fresh].nominal"},
		{"tanks[fresh].diameter", "30 in", "tanks[fresh].diameter"},
		{"items[tools].box.width", "", "items[tools].box.width"},
		{"zones[stack].radius", "1 ft", "zones[stack].radius"},
		{"zones[stack].length", "", "zones[stack].length"},
		{"zones[stack].x", "", "zones[stack].x"},
		{"zones[stack].owner", "heaters[none]", "zones[stack].owner"},
		{"zones[panel].top", "", "zones[panel].top"},
		{"zones[panel].bottom", "9 ft", "zones[panel].bottom"},
		{"zones[gate].to", "-90 deg", "zones[gate].to"},
		{"zones[gate].clearance", "", "zones[gate].clearance"},
		{"zones[pull].width", "", "zones[pull].width"},
		{"zones[pull].to_y", "", "zones[pull].to_y"},
		{"tie_downs[skid-bolts].angle", "30 deg", "tie_downs[skid-bolts].angle"},
		{"tie_downs[fresh-bands].angle", "", "tie_downs[fresh-bands].angle"},
		{"tie_downs[fresh-bands].anchors", "", "tie_downs[fresh-bands].anchors"},
		{"tow_vehicle.gear", "3300 lb", "tow_vehicle.gear"},
	} {
		m, err := demoModel(t, "B").With(rig.Set(rig.Path(c.path), c.text))
		if c.names == "" {
			if err != nil {
				t.Errorf("%s = %s is refused: %v", c.path, c.text, err)
			}
			continue
		}
		if err == nil {
			t.Errorf("%s = %q is accepted: %v", c.path, c.text, m.Name())
			continue
		}
		if !strings.Contains(err.Error(), c.names) {
			t.Errorf("%s = %q: the error does not name %s: %v", c.path, c.text, c.names, err)
		}
	}
	s, err := demo.Spec("B")
	if err != nil {
		t.Fatal(err)
	}
	s.TieDowns[0].Holds = []string{"tanks[nothing]"}
	shelf, err := demo.Shelf()
	if err != nil {
		t.Fatal(err)
	}
	var fe *units.FieldError
	if _, err := rig.New(s, shelf); !errors.As(err, &fe) || fe.Path != "tie_downs[fresh-bands].holds[#1]" {
		t.Errorf("a tie-down that holds nothing known: %v", err)
	}
}

// Torsion axles do not equalise. With the ball set for a level frame in the
// first fill, both carry alike there; with the load shifted aft the rear axle
// takes more. Two springs of rate k at 10.5 and 13.5 ft and a moment M about
// the ball press F = k·(φ·x − b); a level ball has b = −M₀/(k·24 ft).
func TestStability_independentAxles(t *testing.T) {
	s := bare(2)
	s.Trailer.Suspension, s.Trailer.CouplerHeight = "independent", 18*units.Inch
	s.Trailer.SpringLoad, s.Trailer.SpringTravel = pounds(3000), 3*units.Inch
	s.Tanks = []rig.Tank{{Stock: rig.Stock{ID: "water", X: feet(16), Y: feet(0)}, Tank: parts.Tank{Nominal: 100 * units.Gallon}, Density: 8.34 * units.PoundPerGallon}}
	s.Fills = []rig.Fill{{ID: "out"}, {ID: "home", Levels: []rig.Level{{ID: "water", Volume: 100 * units.Gallon}}}}
	m := newModel(t, s)
	if o := m.Origin("trailer.free_height"); o.Basis != rig.Assumed || !strings.Contains(o.Why, "out") {
		t.Errorf("the height of the ball is not recorded as assumed: %+v", o)
	}
	r := assessed(t, m)
	lb := func(p rig.Path, state string) float64 {
		return units.Mass(value(t, r, p, state)).In(units.Pound)
	}
	m0 := 2000*11 + 1000*10.0 // lb·ft, level
	for _, p := range []rig.Path{"axles[1].load", "axles[2].load"} {
		if got, want := lb(p, "fill=out"), m0/24; math.Abs(got-want) > 1e-6 {
			t.Errorf("level, %s: %.6f lb, hand sum %.6f lb", p, got, want)
		}
	}
	if nose := value(t, r, "trailer.nose", "fill=out"); math.Abs(nose) > 1e-12 {
		t.Errorf("the frame is not level: %g rad", nose)
	}
	// 834 lb at 16 ft add 13,344 lb·ft: φ = 13,344/(k·(10.5² + 13.5²)), so axle i
	// takes x_i/292.5 of it.
	add := 834 * 16.0
	for i, x := range []float64{10.5, 13.5} {
		p := rig.Path("axles[" + string(rune('1'+i)) + "].load")
		if got, want := lb(p, "fill=home"), m0/24+add*x/292.5; math.Abs(got-want) > 1e-6 {
			t.Errorf("home, %s: %.6f lb, hand sum %.6f lb", p, got, want)
		}
	}
	if got, want := lb("trailer.axle", "fill=home"), m0/24+add*13.5/292.5; math.Abs(got-want) > 1e-6 {
		t.Errorf("heaviest axle %.6f lb, hand sum %.6f lb", got, want)
	}
	if got, want := lb("trailer.tongue", "fill=home"), 3834-2*m0/24-add*24/292.5; math.Abs(got-want) > 1e-6 {
		t.Errorf("tongue %.6f lb, hand sum %.6f lb", got, want)
	}
	if _, err := m.Placement(rig.PlacementQuery{}); err == nil {
		t.Error("a placement is answered for axles that do not share by place alone")
	}
}

// Hoses and coils that travel full weigh: a 3/8 in hose of 150 ft holds
// π/4·0.375²/144·150 = 0.11505 ft³ = 0.8606 gal.
func TestStability_hoseWater(t *testing.T) {
	dry := assessed(t, demoModel(t, "B"))
	if got := units.Volume(value(t, dry, "lines[left].hose_water", "any")).In(units.Gallon); math.Abs(got-0.86062) > 5e-6 {
		t.Errorf("hose holds %.5f gal", got)
	}
	wet := assessed(t, demoModel(t, "B", rig.Set("trailer.hoses_travel", "full")))
	more := value(t, wet, "trailer.total", "fill=out") - value(t, dry, "trailer.total", "fill=out")
	if want := value(t, dry, "trailer.line_water", "any"); math.Abs(more-want) > 1e-9*want {
		t.Errorf("with wet hoses the total grows by %g kg, the water in them is %g kg", more, want)
	}
}

// Of the plates in the chain the lowest wins, by name.
func TestStability_lowestByName(t *testing.T) {
	for _, c := range []struct{ path, text, source string }{
		{"tow_vehicle.receiver_rating", "500 lb", "receiver"},
		{"tow_vehicle.payload_rating", "1500 lb", "payload"},
		{"tow_vehicle.gross_rating", "7400 lb", "gross rating of the vehicle"},
		{"trailer.coupler_rating", "600 lb", "coupler"},
		{"tow_vehicle.hitch_rating", "600 lb", "hitch"},
	} {
		f := judgement(t, assessed(t, demoModel(t, "B", rig.Set(rig.Path(c.path), c.text))), "tongue-over-rating", "")
		if f.Severity != rig.Stop || !strings.Contains(f.Source, c.source) {
			t.Errorf("%s = %s: %v by %q", c.path, c.text, f.Severity, f.Source)
		}
	}
	for _, c := range []struct{ path, text, source string }{
		{"tow_vehicle.ball_rating", "6000 lb", "ball"},
		{"tow_vehicle.receiver_trailer_rating", "6000 lb", "receiver"},
		{"trailer.coupler_trailer_rating", "6000 lb", "coupler"},
	} {
		f := judgement(t, assessed(t, demoModel(t, "B", rig.Set(rig.Path(c.path), c.text))), "trailer-over-rating", "")
		if f.Severity != rig.Stop || !strings.Contains(f.Source, c.source) {
			t.Errorf("%s = %s: %v by %q", c.path, c.text, f.Severity, f.Source)
		}
	}
	// A payload without crew and gear cannot be judged.
	s := bare(2)
	s.Trailer.CouplerRating = pounds(1000)
	s.TowVehicle = &rig.TowVehicle{TowVehicle: parts.TowVehicle{HitchRating: pounds(1000), TrailerRating: pounds(9000), ReceiverRating: pounds(1000), PayloadRating: pounds(1500)}}
	f := judgement(t, assessed(t, newModel(t, s)), "tongue-over-rating", "")
	if f.Severity != rig.CannotJudge || len(f.Leans) != 1 || f.Leans[0] != "tow_vehicle.gear" {
		t.Errorf("payload without gear: %v, leans on %v", f.Severity, f.Leans)
	}
}

// What guards a stop and is missing cannot be judged; any other input that is missing
// makes nothing worse, unless something else that was given asks for it.
func TestStability_missingInputs(t *testing.T) {
	base := assessed(t, demoModel(t, "B"))
	groups := map[string][]rig.Change{}
	set := func(name string, paths ...string) {
		for _, p := range paths {
			groups[name] = append(groups[name], rig.Set(rig.Path(p), ""))
		}
	}
	set("deck", "items[reels].box.length", "items[reels].box.width", "items[reels].box.height")
	set("slope", "site.side_slope")
	set("jack", "trailer.jack_rating")
	for name, c := range groups {
		// parts of the shelf cannot be cleared field by field: the rig's own fields are
		r := assessed(t, demoModel(t, "B", c...))
		if r.Verdict() > base.Verdict() {
			t.Errorf("without %s the verdict goes from %v to %v: %v", name, base.Verdict(), r.Verdict(), codesOf(r))
		}
	}
	for _, p := range []rig.Path{"items[skid].z", "tanks[fresh].floor", "fuel_tanks[gasoline].z"} {
		r := assessed(t, demoModel(t, "B", rig.Set(p, "")))
		f := judgement(t, r, "guard-missing", "")
		if r.Verdict() != rig.CannotJudge || len(f.Leans) != 1 || f.Leans[0] != p {
			t.Errorf("without %s it tips nobody knows where: %v, leans on %v", p, r.Verdict(), f.Leans)
		}
	}
	for _, c := range []struct {
		change rig.Change
		metric string
	}{
		{rig.Set("items[skid].y", ""), "trailer.tyre"},                               // the shelf rates a tyre
		{rig.Set("tie_downs[skid-bolts].working_load", ""), "tie_downs[skid-bolts]"}, // it is listed to hold
		{rig.Set("fuel_tanks[diesel].box.length", ""), ""},
	} {
		m, err := demoModel(t, "B").With(c.change)
		if c.metric == "" {
			if err == nil {
				t.Errorf("%v: half a box is accepted", c.change)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, f := range assessed(t, m).Findings() {
			found = found || f.Code == "guard-missing" && strings.HasPrefix(string(f.Reading.Path()), c.metric)
		}
		if !found {
			t.Errorf("%v: a stop goes unguarded", c.change)
		}
	}
}

// A part that nobody weighed may be too heavy for the jack: it is weighed in where the
// jack stands.
func TestStability_unweighedOnJack(t *testing.T) {
	unknown := demoModel(t, "B", rig.Set("items[tools].part", ""))
	jack, ok := assessed(t, unknown).Worst("trailer.jack_load")
	if !ok {
		t.Fatal("no load on the jack")
	}
	const spare = 20 * units.Pound
	tight, err := unknown.With(rig.Set("trailer.jack_rating", (units.Mass(jack.Value.SI()) + spare).String()))
	if err != nil {
		t.Fatal(err)
	}
	f := judgement(t, assessed(t, tight), "unweighed-heavy", "item-tools")
	if f.Severity != rig.CannotJudge {
		t.Errorf("20 lb below the rating of the jack: %v", f.Severity)
	}
	// The mass at which it turns brings the jack to its rating.
	heavy, err := tight.With(rig.Set("items[tools].mass", units.Mass(f.Reading.Value.SI()).String()))
	if err != nil {
		t.Fatal(err)
	}
	at, ok := assessed(t, heavy).At("trailer.jack_load", f.Reading.State)
	if !ok {
		t.Fatalf("no load on the jack in %v", f.Reading.State)
	}
	if want := jack.Value.SI() + float64(spare); math.Abs(at.Value.SI()-want) > 1e-6*want {
		t.Errorf("with %v the jack carries %v, rated %g kg", f.Reading.Value, at.Value, want)
	}
}

// At the break-even of a part nobody weighed a plate turns, and there alone.
func TestStability_breakEven(t *testing.T) {
	unknown := demoModel(t, "B", rig.Set("items[tools].part", ""))
	list := unknown.Unweighed()
	if len(list) != 1 || list[0].Path != "items[tools].mass" || list[0].Name != "item-tools" {
		t.Fatalf("unweighed: %+v", list)
	}
	r := assessed(t, unknown)
	f := judgement(t, r, "unweighed-heavy", "item-tools")
	if f.Turns != f.Reading.Value || !f.Typical.Given() || f.Leans[0] != "items[tools].mass" {
		t.Errorf("turns at %v, band %+v, leans on %v", f.Turns, f.Typical, f.Leans)
	}
	least, ok := r.Worst("unweighed[item-tools].most") // over every fill, also those nobody plans
	if !ok {
		t.Fatal("no break-even")
	}
	for _, c := range []struct {
		factor float64
		want   bool
	}{{0.9999, false}, {1.0001, true}} {
		m, err := unknown.With(rig.Assign("items[tools].mass", units.Mass(least.Value.SI()*c.factor).Quantity()))
		if err != nil {
			t.Fatal(err)
		}
		if got := assessed(t, m).Verdict() == rig.Stop; got != c.want {
			t.Errorf("at %g × the break-even of %v a plate is passed: %v; %v", c.factor, least.Value, got, codesOf(assessed(t, m)))
		}
	}
	// The hitch carries 1,050 lb; leaving, the tools add (12.6 − 6)/12.6 of what they
	// weigh to the tongue. The likely 0 to 500 lb reach beyond where that turns.
	tongue := units.Mass(value(t, r, "trailer.tongue", "fill=out")).In(units.Pound)
	if got, want := units.Mass(f.Turns.SI()).In(units.Pound), (1050-tongue)*12.6/6.6; math.Abs(got-want) > 1e-6 {
		t.Errorf("turns at %.6f lb, hand sum %.6f lb", got, want)
	}
	if f.Severity != rig.CannotJudge {
		t.Errorf("%v, although the verdict turns within what tools may weigh", f.Severity)
	}
}

// A tongue that lifts is reported in the fill state in which it lifts most,
// although no share of nothing can be said; one that does not, in the state in
// which it comes nearest.
func TestStability_worstPastNothing(t *testing.T) {
	s := bare(1)
	s.Tanks = []rig.Tank{{Stock: rig.Stock{ID: "rear", X: feet(20), Y: feet(0), Z: feet(3)}, Tank: parts.Tank{Nominal: 200 * units.Gallon}}}
	level := func(id string, gallons float64) rig.Fill {
		return rig.Fill{ID: id, Levels: []rig.Level{{ID: "rear", Volume: units.Volume(gallons) * units.Gallon}}}
	}
	s.Fills = []rig.Fill{level("some", 80), level("most", 190), level("more", 120)}
	r := assessed(t, newModel(t, s))
	found := false
	for _, f := range r.Findings() {
		if f.Code == "tongue-negative" {
			found = true
			if got := f.Reading.State.String(); got != "fill=most" {
				t.Errorf("reported in %s, want fill=most", got)
			}
		}
	}
	if !found {
		t.Error("no finding")
	}
	s.Fills = []rig.Fill{level("none", 0), level("little", 20), level("less", 10)}
	s.Tanks[0].Nominal = 21 * units.Gallon // so that no corner lifts
	r = assessed(t, newModel(t, s))
	found = false
	for _, f := range r.Passed() {
		if f.Code == "tongue-negative" {
			found = true
			if got := f.Reading.State.String(); got != "fill=corner:rear" {
				t.Errorf("passes nearest in %s, want fill=corner:rear", got)
			}
		}
	}
	if !found {
		t.Error("no pass")
	}
}
