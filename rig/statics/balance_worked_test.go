package statics_test

import (
	"fmt"
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

const moments = "moments about the coupler, by hand"

func TestBalance_momentsAboutCoupler(t *testing.T) {
	trailer := statics.Trailer{AxleGroup: inches(120), Axles: 1}
	for _, c := range []struct {
		question, tongue, share, group string
		items                          [][2]float64 // lb, in
	}{
		{"Two boxes on a trailer: what sits on the ball?", "400 lb", "0.1333333333", "2600 lb", [][2]float64{{1000, 96}, {2000, 108}}},
		{"A rig with its tank empty: what sits on the ball?", "487.5 lb", "0.1547619048", "2662.5 lb", [][2]float64{{1800, 105}, {900, 70}, {450, 150}}},
		{"The same rig with 410 gal of water over the frame: what sits on the ball?", "544.524167 lb", "0.0828621030", "6026.925833 lb", [][2]float64{{1800, 105}, {900, 70}, {450, 150}, {3421.45, 118}}},
	} {
		masses := []statics.Mass{}
		given := []string{"axle 120 in aft of the coupler"}
		for i, it := range c.items {
			masses = append(masses, statics.Mass{Name: fmt.Sprint("item-", i+1), Mass: pounds(it[0]), X: inches(it[1])})
			given = append(given, fmt.Sprintf("%g lb at %g in", it[0], it[1]))
		}
		l, err := statics.Balance(trailer, masses)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{Question: c.question, Source: moments, Status: worked.Identity, Given: given, Printed: c.tongue, Got: l.Tongue.In(units.Pound)})
		worked.Check(t, worked.Case{Question: c.question + " As a share?", Source: moments, Status: worked.Identity, Given: given, Printed: c.share, Got: float64(l.Share)})
		worked.Check(t, worked.Case{Question: c.question + " On the axle?", Source: moments, Status: worked.Identity, Given: given, Printed: c.group, Got: l.Group.In(units.Pound)})
	}
}

// The shared example rigs, state by state. The printed figures are hand sums
// over the same weights table: Σ m·(12.6 − x)/12.6 with x in feet.
func TestBalance_exampleRigs(t *testing.T) {
	for _, c := range []struct {
		rig, state    string
		gallons       []float64 // fresh, recovered, gasoline, diesel
		lb, of, share string
	}{
		{"D", "on the way home, fresh tank empty and recovered tank full", []float64{0, 160, 6, 22}, "230 lb", "5,997 lb", "3.8 %"},
		{"D", "when it leaves with fresh water only", []float64{240, 0, 14, 30}, "1,002 lb", "6,770 lb", "14.8 %"},
		{"D", "with both tanks and the fuel full", []float64{240, 160, 14, 30}, "684 lb", "8,104 lb", "8.4 %"},
		{"D", "with both tanks empty and the fuel of the way home", []float64{0, 0, 6, 22}, "548 lb", "4,663 lb", "11.75 %"},
		{"D", "on the way home with the same water at one level in both tanks", []float64{96, 64, 6, 22}, "586 lb", "5,997 lb", "9.8 %"},
	} {
		r := demo(c.rig)
		l, err := statics.Balance(r.trailer, r.at(c.gallons...))
		if err != nil {
			t.Fatal(err)
		}
		given := []string{
			fmt.Sprintf("fresh %g gal, recovered %g gal, gasoline %g gal, diesel %g gal", c.gallons[0], c.gallons[1], c.gallons[2], c.gallons[3]),
			"axle group 12.6 ft aft of the coupler", "water 8.34 lb/gal, gasoline 6.1, diesel 7.1",
		}
		source := "invented example rig " + c.rig + ", hand sum of its weights table"
		worked.Check(t, worked.Case{Question: "What is on the tongue " + c.state + "?", Source: source, Status: worked.Identity, Given: given, Printed: c.lb, Got: l.Tongue.In(units.Pound)})
		worked.Check(t, worked.Case{Question: "What does the trailer weigh " + c.state + "?", Source: source, Status: worked.Identity, Given: given, Printed: c.of, Got: l.Total.In(units.Pound)})
		worked.Check(t, worked.Case{Question: "Which share is on the tongue " + c.state + "?", Source: source, Status: worked.Identity, Given: given, Printed: c.share, Got: l.Share.In(units.Percent)})
	}
}

func TestSides_leverRule(t *testing.T) {
	trailer := statics.Trailer{AxleGroup: inches(120), Axles: 2, Track: 70 * units.Inch}
	l, r, err := statics.Sides(trailer, []statics.Mass{
		{Name: "frame", Mass: pounds(2000), X: inches(120), Y: inches(0)},
		{Name: "generator", Mass: pounds(350), X: inches(120), Y: inches(21)},
	})
	if err != nil {
		t.Fatal(err)
	}
	// The 350 lb stand 21 in left of the middle of a 70 in track: they rest
	// (35 + 21)/70 = 0.8 on the left and 0.2 on the right.
	given := []string{"2000 lb over the axles on the centreline", "350 lb over the axles, 21 in left", "track 70 in"}
	worked.Check(t, worked.Case{Question: "A generator stands left of the middle: what do the left wheels carry?", Source: "lever rule, by hand: 1000 + 350·56/70", Status: worked.Identity, Given: given, Printed: "1280.0 lb", Got: l.In(units.Pound)})
	worked.Check(t, worked.Case{Question: "A generator stands left of the middle: what do the right wheels carry?", Source: "lever rule, by hand: 1000 + 350·14/70", Status: worked.Identity, Given: given, Printed: "1070.0 lb", Got: r.In(units.Pound)})
}

// A textbook vehicle stands for the trailer: its front axle is the ball, its rear
// axle the group. The text takes g = 9.81 m/s².
func TestBalance_textbook(t *testing.T) {
	l, err := statics.Balance(statics.Trailer{AxleGroup: metres(3.0), Axles: 1}, []statics.Mass{
		{Name: "truck", Mass: 1400, X: metres(1.2)},
		{Name: "crate-c", Mass: 350, X: metres(3.75)},
		{Name: "crate-d", Mass: 350, X: metres(2.05)},
	})
	if err != nil {
		t.Fatal(err)
	}
	c := worked.Case{
		Source: "F. P. Beer and E. R. Johnston, Vector Mechanics for Engineers: Statics, problem 4.1, as reproduced with its solution in public course slides",
		Status: worked.Published,
		Given:  []string{"1400 kg, 1.2 m behind the front axle", "crates of 350 kg 2.05 m and 3.75 m behind it", "rear axle 3.0 m behind it", "g = 9.81 m/s²"},
	}
	c.Question, c.Printed, c.Got = "Two crates stand on a truck: what is the reaction at each rear wheel?", "6.07 kN", float64(l.Group)*9.81/2/1000
	worked.Check(t, c)
	c.Question, c.Printed, c.Got = "Two crates stand on a truck: what is the reaction at each front wheel?", "4.24 kN", float64(l.Tongue)*9.81/2/1000
	c.Tolerance, c.Reason = 0.0075, "the slides halve 8.47 kN, already rounded, to 4.24; unrounded it is 4.235"
	worked.Check(t, c)
}
