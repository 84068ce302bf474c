package fuel_test

import (
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestContentAt_byGeometry(t *testing.T) {
	for _, c := range []struct {
		question, source string
		tank             fuel.Tank
		slope            fuel.Slope
		given            []string
		printed          string
		got              func(fuel.Content) float64
	}{
		{"The pick-up ends an inch above the floor: how much of the tank is out of reach on level ground?",
			"geometry: 24 × 14 × 1/231",
			box(fuel.PickUp{Height: 1 * units.Inch}), fuel.Slope{},
			[]string{"inside 24 × 14 × 12 in", "pick-up 1 in up"}, "1.4545 gal",
			func(c fuel.Content) float64 { return c.Left.In(units.Gallon) }},
		{"The same tank nose up 10 %, pick-up in the middle: how much is out of reach?",
			"geometry: the surface runs out 1/0.1 = 10 in ahead of the pick-up, a wedge of 22 in: 22² × 0.1/2 × 14/231",
			box(fuel.PickUp{Height: 1 * units.Inch}), fuel.Slope{NoseUp: 0.09966865249116202 * units.Radian},
			[]string{"inside 24 × 14 × 12 in", "pick-up 1 in up in the middle", "nose up 1 in 10"}, "1.4667 gal",
			func(c fuel.Content) float64 { return c.Left.In(units.Gallon) }},
		{"With the pick-up at the rear wall instead?",
			"geometry: a wedge of 10 in: 10² × 0.1/2 × 14/231",
			box(fuel.PickUp{Height: 1 * units.Inch, Forward: units.PositionAt(0)}), fuel.Slope{NoseUp: 0.09966865249116202 * units.Radian},
			[]string{"inside 24 × 14 × 12 in", "pick-up 1 in up at the rear", "nose up 1 in 10"}, "0.3030 gal",
			func(c fuel.Content) float64 { return c.Left.In(units.Gallon) }},
		{"And nose down 1 in 10, with the pick-up at the rear wall?",
			"geometry: 1 in at the rear, 3.4 in at the front: 24 × 2.2 × 14/231",
			box(fuel.PickUp{Height: 1 * units.Inch, Forward: units.PositionAt(0)}), fuel.Slope{NoseUp: -0.09966865249116202 * units.Radian},
			[]string{"inside 24 × 14 × 12 in", "pick-up 1 in up at the rear", "nose down 1 in 10"}, "3.2000 gal",
			func(c fuel.Content) float64 { return c.Left.In(units.Gallon) }},
	} {
		got, err := c.tank.ContentAt(1, c.slope)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: c.question, Source: c.source, Status: worked.Identity,
			Given: c.given, Printed: c.printed, Got: c.got(got),
		})
	}
}

func TestRunTime_hoursOnATank(t *testing.T) {
	low, high := fuel.TradeUsableFraction()
	for _, c := range []struct {
		usable  units.Ratio
		given   string
		printed string
	}{{low, "90 % usable", "9.0 h"}, {high, "95 % usable", "9.5 h"}} {
		content, err := fuel.Tank{Nominal: 14 * units.Gallon, UsableFraction: c.usable}.ContentAt(1, fuel.Slope{})
		if err != nil {
			t.Fatal(err)
		}
		got, err := fuel.RunTime(content.Usable, 1.4*units.GallonPerHour)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "14 gal of gasoline and 1.4 gph: how long until the engine coughs?",
			Source:   "14 × 0.90 and 0.95/1.4; the usable share is the trade's",
			Status:   worked.CommonPractice,
			Given:    []string{"14 gal", "1.4 gph", c.given},
			Printed:  c.printed,
			Got:      got.In(units.Hour),
		})
	}
}
