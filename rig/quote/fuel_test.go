package quote_test

import (
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/quote"
)

// Rig B burns 7.71 gal of diesel in a day of six hours: at 4.10 USD a gallon
// 31.63 USD a day, 5.27 USD an hour, and over 120 ft² 263.58 USD a thousand.
func TestFuelCosts(t *testing.T) {
	m, err := demo.Model("B")
	if err != nil {
		t.Fatal(err)
	}
	if m, err = m.With(rig.Set("duty.area", "120 ft²"), rig.Set("fuel_tanks[gasoline].part", ""), rig.Set("fuel_tanks[gasoline].volume", "14 gal"), rig.Set("fuel_tanks[gasoline].fuel", "gasoline")); err != nil {
		t.Fatal(err)
	}
	rep, err := m.Assess(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	costs, err := quote.FuelCosts(rep)
	if err != nil {
		t.Fatal(err)
	}
	if len(costs) != 1 || costs[0].Tank != "diesel" {
		t.Fatalf("the tank without a price is priced, or the other is not: %v", costs)
	}
	c := costs[0]
	day, hour, area := c.Day.Cents(), c.Hour.Cents(), c.PerThousandSquareFeet.Cents()
	if day < 3000 || day > 3300 { // 7.7 gal within 4 %
		t.Errorf("%v a day", c.Day)
	}
	if d := day - 6*hour; d < -3 || d > 3 {
		t.Errorf("%v a day and %v an hour over six hours", c.Day, c.Hour)
	}
	if d := float64(day) - 0.12*float64(area); d < -0.6 || d > 0.6 { // half a cent of each
		t.Errorf("%v a day and %v a thousand square feet over 120 ft²", c.Day, c.PerThousandSquareFeet)
	}
}
