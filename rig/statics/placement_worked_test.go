package statics_test

import (
	"fmt"
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func TestTwoTankSpacing_worked(t *testing.T) {
	for _, c := range []struct {
		axle    float64
		printed string
	}{{13.2, "3.16 ft"}, {15.0, "3.59 ft"}} {
		s, err := statics.TwoTankSpacing(0.10, 0.15, units.Length(c.axle)*units.Foot, pounds(4100), pounds(130*8.34))
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "How far apart may two tanks stand so that the tongue stays between 10 and 15 % in all four fills?",
			Source:   "linear conditions of the four fills, by hand: 0.05·x_a·(1 + 4100/1084.2)", Status: worked.Identity,
			Given:   []string{fmt.Sprintf("axles %g ft aft of the coupler", c.axle), "dry 4,100 lb, its own share free", "smaller tank 130 gal of 8.34 lb/gal"},
			Printed: c.printed, Got: s.In(units.Foot),
		})
	}
}

// movers lets both tanks of an example rig move, shells with their water.
func demoMovers(reach units.Length) []statics.Mover {
	return []statics.Mover{
		{Name: "fresh", Masses: []string{"fresh", "fresh-shell"}, Forward: reach, Back: reach},
		{Name: "recovered", Masses: []string{"recovered", "recovered-shell"}, Forward: reach, Back: reach},
	}
}

// Example rig D drives home with 3.8 % on the tongue: fresh empty, recovered full.
// The recovered tank must go forward by a and the fresh tank, which leaving already
// has 14.8 %, aft by b:
//
//	home     1454.4 a −  150.0 b ≥ (0.10·5997.2 − 230.302)·12.6 = 4654.67 lb·ft
//	leaving   120.0 a − 2151.6 b ≤ (0.15·6770.0 − 1001.667)·12.6 = 174.30 lb·ft
//
// The least a + b lies where both are just met: a = 3.2105 ft, b = 0.0980 ft.
func TestPlace_exampleRig(t *testing.T) {
	r := demo("D")
	limits := statics.Limits{Ratings: demoRatings(), ShareLeast: 0.10, ShareMost: 0.15}
	p, err := statics.Place(r.trailer, r.fixed, r.liquids, nil, demoMovers(6*units.Foot), limits)
	if err != nil {
		t.Fatal(err)
	}
	if !p.Possible {
		t.Fatalf("no placement: %+v", p)
	}
	given := []string{"limits 10 to 15 % and the ratings of trailer and tow vehicle", "both tanks may move 6 ft either way, at one cost"}
	c := worked.Case{Source: "invented example rig D, hand sum: 1454.4 a − 150 b = 4654.67 lb·ft at home, 120 a − 2151.6 b = 174.30 lb·ft leaving", Status: worked.Identity, Given: given}
	c.Question, c.Printed, c.Got = "What is the least movement of tanks that mends the tongue: the recovered tank?", "-3.21 ft", p.Shifts[1].In(units.Foot)
	worked.Check(t, c)
	c.Question, c.Printed, c.Got = "What is the least movement of tanks that mends the tongue: the fresh tank?", "0.10 ft", p.Shifts[0].In(units.Foot)
	worked.Check(t, c)
	if len(p.Binding) != 2 {
		t.Fatalf("binding: %+v", p.Binding)
	}
	for i, at := range []string{"fresh least, recovered most, gasoline least, diesel least", "fresh most, recovered least, gasoline most, diesel most"} {
		limit := []string{statics.NameShareLeast, statics.NameShareMost}[i]
		worked.Text(t, worked.TextCase{Question: "Which fill decides by the " + limit + "?", Source: c.Source, Status: c.Status, Given: given, Printed: at, Got: p.Binding[i].At.Text(r.liquids)})
		if p.Binding[i].Limit != limit {
			t.Errorf("binding %d is %s, want %s", i, p.Binding[i].Limit, limit)
		}
	}
}

// If only the fresh tank may move, nothing helps: the state that fails has it empty.
func TestPlace_exampleRigImpossible(t *testing.T) {
	r := demo("D")
	limits := statics.Limits{Ratings: demoRatings(), ShareLeast: 0.10, ShareMost: 0.15}
	p, err := statics.Place(r.trailer, r.fixed, r.liquids, nil, demoMovers(2 * units.Foot)[:1], limits)
	if err != nil {
		t.Fatal(err)
	}
	verdict := "none"
	if p.Possible {
		verdict = "some"
	}
	worked.Text(t, worked.TextCase{
		Question: "Which place of the fresh tank alone mends the tongue on the way home with the recovered tank full?",
		Source:   "invented example rig D, by hand: the empty shell of 150 lb moved 2 ft gives 150·2/12.6 = 23.8 lb of the 369 lb that are missing",
		Status:   worked.Identity, Given: []string{"fresh tank may move 2 ft either way"}, Printed: "none", Got: verdict,
	})
}

// How far may the recovered tank of example rig B go? Its own condition at the
// corner of the least share: 643.56 lb of 6,152.2 lb fall to 615.22 lb after
// 28.34·12.6/(1334.4 + 120) = 0.2455 ft aft.
func TestPassingShifts_exampleRig(t *testing.T) {
	r := demo("B")
	limits := statics.Limits{Ratings: demoRatings(), ShareLeast: 0.10, ShareMost: 0.15}
	got, err := statics.PassingShifts(r.trailer, r.fixed, r.liquids, nil, demoMovers(10 * units.Foot)[1], limits)
	if err != nil {
		t.Fatal(err)
	}
	c := worked.Case{Source: "invented example rig B, hand sums over its corners", Status: worked.Identity, Given: []string{"limits 10 to 15 % and the ratings of trailer and tow vehicle"}}
	c.Question, c.Printed, c.Got = "How far aft may the recovered tank be dragged?", "0.246 ft", got.Back.In(units.Foot)
	worked.Check(t, c)
	// Forward the hitch stops it: 938.36 lb with both full grow to 1,050 lb after
	// 111.64·12.6/1454.4 = 0.967 ft.
	c.Question, c.Printed, c.Got = "How far forward may the recovered tank be dragged?", "-0.967 ft", got.Forward.In(units.Foot)
	worked.Check(t, c)
	worked.Text(t, worked.TextCase{Question: "What stops the recovered tank on its way forward?", Source: c.Source, Status: c.Status, Given: c.Given, Printed: "hitch", Got: got.AtForward.Limit})
}

// A vehicle that takes 7,000 lb of combination less: what water may rig B carry in
// one tank at 11 ft? Dry with shells, fuel out: 4,923.4 lb, so 2,476.6 lb are left
// of 7,400 lb: 296.95 gal. The tongue has 662.99 + 0.126984·w ≤ 1,050 lb: 365 gal.
func TestMostVolume_byHand(t *testing.T) {
	r := demo("B")
	ratings := demoRatings()
	ratings[5] = statics.Rating{Name: "combination", On: statics.OnTotal, Most: pounds(14000), Beside: pounds(6600)}
	fuel := r.liquids[demoGasoline:]
	tank := []statics.Growth{{Name: "water", Share: 1, X: feet(11), Density: demoWater}}
	v, err := statics.MostVolume(r.trailer, r.fixed, fuel, tank, nil, statics.Limits{Ratings: ratings, ShareLeast: 0.10, ShareMost: 0.15})
	if err != nil {
		t.Fatal(err)
	}
	c := worked.Case{Source: "invented example rig B, hand sum: (7400 − 4923.4)/8.34", Status: worked.Identity, Given: []string{"combination 14,000 lb, vehicle and crew 6,600 lb", "one water tank 11 ft aft, its shell counted dry", "limits 10 to 15 % and the other ratings"}}
	c.Question, c.Printed, c.Got = "How many gallons does the lighter vehicle allow?", "296.95 gal", v.Most.In(units.Gallon)
	worked.Check(t, c)
	worked.Text(t, worked.TextCase{Question: "Which rating decides how many gallons?", Source: c.Source, Status: c.Status, Given: c.Given, Printed: "combination", Got: v.AtMost.Limit})
}

// What may an unweighed rack at 16 ft weigh on example rig B before the tongue
// falls below 10 %? At the corner of the least share 643.56 − 0.269841·m ≥
// 0.1·(6152.2 + m): 28.34/0.369841 = 76.6 lb.
func TestBreakEven_exampleRig(t *testing.T) {
	r := demo("B")
	turns, err := statics.BreakEven(r.trailer, r.fixed, r.liquids, nil, statics.Mass{Name: "rack", X: feet(16)}, statics.Limits{ShareLeast: 0.10})
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "A rack at 16 ft has not been weighed: up to which weight does the tongue keep 10 %?",
		Source:   "invented example rig B, hand sum: (643.56 − 615.22)/(0.1 + 3.4/12.6)", Status: worked.Identity,
		Given: []string{"least share at fresh empty, recovered full, fuel of the way home"}, Printed: "76.6 lb", Got: turns[0].Mass.In(units.Pound),
	})
	worked.Text(t, worked.TextCase{Question: "Is that a greatest or a least weight?", Source: "sign of its lever: aft of the axles", Status: worked.Identity, Given: []string{"rack at 16 ft, axles at 12.6 ft"}, Printed: "up to", Got: turns[0].Verdict.String()})
}
