package statics_test

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// Tongue share of the shared example rigs over every mixture of fills: water
// from empty to full in each tank, gasoline 6 to 14 gal, diesel 22 to 30 gal.
func TestCorners_exampleRigs(t *testing.T) {
	for _, c := range []struct {
		rig, least, most, atLeast, atMost, tongue string
	}{
		{"A", "10.7 %", "13.9 %", "fresh least, recovered most, gasoline least, diesel least", "fresh least, recovered least, gasoline most, diesel most", ""},
		{"B", "10.5 %", "13.5 %", "fresh least, recovered most, gasoline least, diesel least", "fresh least, recovered least, gasoline most, diesel most", "938 lb"},
		{"C", "11.0 %", "14.1 %", "fresh least, recovered most, gasoline least, diesel least", "fresh least, recovered least, gasoline most, diesel most", ""},
		{"D", "3.8 %", "14.8 %", "fresh least, recovered most, gasoline least, diesel least", "fresh most, recovered least, gasoline most, diesel most", "1,002 lb"},
		{"D moved", "10.2 %", "13.3 %", "fresh least, recovered most, gasoline least, diesel least", "fresh most, recovered least, gasoline most, diesel most", "940 lb"},
	} {
		r := demo(c.rig)
		x, err := statics.Corners(r.trailer, r.fixed, r.liquids)
		if err != nil {
			t.Fatal(err)
		}
		source := "invented example rig " + c.rig + ", hand sums over 16 corners"
		given := []string{"fresh 0 to 240 gal, recovered 0 to 160 gal", "gasoline 6 to 14 gal, diesel 22 to 30 gal"}
		check := worked.Case{Source: source, Status: worked.Identity, Given: given}

		check.Question, check.Printed, check.Got = "What is the least share on the tongue, whatever is in the tanks?", c.least, x.Share.Least.Value.In(units.Percent)
		worked.Check(t, check)
		check.Question, check.Printed, check.Got = "What is the greatest share on the tongue, whatever is in the tanks?", c.most, x.Share.Most.Value.In(units.Percent)
		worked.Check(t, check)
		if c.tongue != "" {
			check.Question, check.Printed, check.Got = "What is the most the ball ever carries?", c.tongue, x.Tongue.Most.Value.In(units.Pound)
			worked.Check(t, check)
		}
		text := worked.TextCase{Source: source, Status: worked.Identity, Given: given}
		text.Question, text.Printed, text.Got = "Which fill gives the least share on the tongue?", c.atLeast, x.Share.Least.At.Text(r.liquids)
		worked.Text(t, text)
		text.Question, text.Printed, text.Got = "Which fill gives the greatest share on the tongue?", c.atMost, x.Share.Most.At.Text(r.liquids)
		worked.Text(t, text)
	}
}

// Fuel run down to nothing is another question with another answer: the same
// rig B then reaches 9.65 %, below the range its home-to-out fuel keeps to.
func TestCorners_fuelToNothing(t *testing.T) {
	r := demo("B")
	r.liquids[demoGasoline].Least, r.liquids[demoDiesel].Least = 0, 0
	x, err := statics.Corners(r.trailer, r.fixed, r.liquids)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "What is the least share on the tongue if the fuel tanks may be run dry?",
		Source:   "invented example rig B, hand sum: 575.2 lb of 5,959.4 lb",
		Status:   worked.Identity,
		Given:    []string{"fresh empty, recovered full", "gasoline and diesel empty"},
		Printed:  "9.65 %", Got: x.Share.Least.Value.In(units.Percent),
	})
}
