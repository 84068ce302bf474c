package statics_test

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// Example rig D, parked: fresh empty, recovered full, fuel of the way home. Moments
// about the axles: 230.30 lb·12.6 ft = 2901.8 lb·ft ahead of them. A jack 1.1 ft
// aft of the ball takes 2901.8/11.5 = 252.3 lb; at a tail 5.4 ft behind the axles
// 2901.8/5.4 = 537.4 lb lift it.
func TestPark_exampleRig(t *testing.T) {
	r := demo("D")
	p, err := statics.Park(r.trailer, r.fixed, r.liquids, feet(1.1), feet(18))
	if err != nil {
		t.Fatal(err)
	}
	c := worked.Case{Source: "invented example rig D, moments about the axles by hand: 2901.8 lb·ft", Status: worked.Identity, Given: []string{"jack 1.1 ft, axles 12.6 ft, tail 18 ft aft of the ball", "every fill of water, fuel from home to out"}}
	c.Question, c.Printed, c.Got = "What is the least on the jack of the parked trailer?", "252.3 lb", p.Jack.Least.Value.In(units.Pound)
	worked.Check(t, c)
	c.Question, c.Printed, c.Got = "How heavy a person on the tail lifts the jack?", "537.4 lb", p.Spare.Value.In(units.Pound)
	worked.Check(t, c)
	worked.Text(t, worked.TextCase{Question: "In which fill does the tail drop soonest?", Source: c.Source, Status: c.Status, Given: c.Given, Printed: "fresh least, recovered most, gasoline least, diesel least", Got: p.Jack.Least.At.Text(r.liquids)})
	if p.Drops || p.Stand.Value != 0 {
		t.Errorf("said to drop: %+v", p)
	}
	// The same with 700 lb of scrap at the tail: 2901.8 − 700·5.4 = −878.2 lb·ft.
	p, err = statics.Park(r.trailer, append(r.fixed, lb("scrap", 700, 18)), r.liquids, feet(1.1), feet(18))
	if err != nil {
		t.Fatal(err)
	}
	c.Given = append(c.Given, "700 lb at the tail")
	c.Source = "invented example rig D, moments about the axles by hand: −878.2 lb·ft"
	c.Question, c.Printed, c.Got = "What must a stand under the tail carry?", "162.6 lb", p.Stand.Value.In(units.Pound)
	worked.Check(t, c)
	c.Question, c.Printed, c.Got = "What is then the least on the jack?", "-76.4 lb", p.Jack.Least.Value.In(units.Pound)
	worked.Check(t, c)
	if !p.Drops {
		t.Errorf("not said to drop: %+v", p)
	}
}
