package statics_test

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// The invented tow vehicle of the example rigs: combination 16,000 lb, curb and
// crew 6,600 lb, hitch 1,050 lb on the tongue, 10,000 lb of trailer; and the
// trailer's own plates.
func demoRatings() []statics.Rating {
	return []statics.Rating{
		{Name: "gross vehicle", On: statics.OnTotal, Most: pounds(9900)},
		{Name: "gross axle", On: statics.OnAxle, Most: pounds(5200)},
		{Name: "coupler", On: statics.OnTongue, Most: pounds(1100)},
		{Name: "hitch", On: statics.OnTongue, Most: pounds(1050)},
		{Name: "towing", On: statics.OnTotal, Most: pounds(10000)},
		{Name: "combination", On: statics.OnTotal, Most: pounds(16000), Beside: pounds(6600)},
	}
}

func TestLowest_byName(t *testing.T) {
	given := []string{"gross vehicle 9,900 lb", "towing 10,000 lb", "combination 16,000 lb, of which vehicle and crew 6,600 lb", "coupler 1,100 lb, hitch 1,050 lb on the tongue"}
	for _, c := range []struct {
		on            statics.On
		name, allowed string
	}{{statics.OnTotal, "combination", "9,400 lb"}, {statics.OnTongue, "hitch", "1,050 lb"}, {statics.OnAxle, "gross axle", "5,200 lb"}} {
		r, allowed, ok := statics.Lowest(demoRatings(), c.on)
		if !ok {
			t.Fatalf("no rating of the %v", c.on)
		}
		worked.Text(t, worked.TextCase{Question: "Which rating of the " + c.on.String() + " wins?", Source: "the lowest of the chain, by hand", Status: worked.Identity, Given: given, Printed: c.name, Got: r.Name})
		worked.Check(t, worked.Case{Question: "What does the lowest rating of the " + c.on.String() + " allow?", Source: "the lowest of the chain, by hand", Status: worked.Identity, Given: given, Printed: c.allowed, Got: allowed.In(units.Pound)})
	}
}

func TestMargins_exampleRig(t *testing.T) {
	r := demo("D")
	x, err := statics.Corners(r.trailer, r.fixed, r.liquids)
	if err != nil {
		t.Fatal(err)
	}
	ms, err := statics.Margins(x, demoRatings())
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"hitch 1,050 lb", "leaving with fresh water only: 1,001.7 lb on the tongue"}
	worked.Text(t, worked.TextCase{Question: "Which rating is nearest to its limit?", Source: "invented example rig D, hand sum", Status: worked.Identity, Given: given, Printed: "hitch", Got: ms[0].Rating.Name})
	worked.Check(t, worked.Case{Question: "How much margin has the nearest rating?", Source: "invented example rig D, hand sum: (1050 − 1001.7)/1050", Status: worked.Identity, Given: given, Printed: "4.6 %", Got: ms[0].Margin.In(units.Percent)})
	worked.Text(t, worked.TextCase{Question: "In which fill is the nearest rating reached?", Source: "invented example rig D, hand sum", Status: worked.Identity, Given: given,
		Printed: "fresh most, recovered least, gasoline most, diesel most", Got: ms[0].At.Text(r.liquids)})
}
