package statics_test

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func TestTank_Load_worked(t *testing.T) {
	full := statics.Tank{Name: "water", Nominal: 410 * units.Gallon, Density: 8.345 * units.PoundPerGallon, X: feet(10)}
	m, err := full.Load(1)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{Question: "What do 410 gal of water weigh?", Source: "product 410 × 8.345", Status: worked.Identity, Given: []string{"8.345 lb/gal"}, Printed: "3421.45 lb", Got: m.Mass.In(units.Pound)})

	// A tank that is sold as 240 gal, keeps 6 below its outlet and 4 above its lid.
	tank := statics.Tank{Name: "fresh", Nominal: 240 * units.Gallon, Heel: 6 * units.Gallon, Usable: 230 * units.Gallon, Density: 8.34 * units.PoundPerGallon, X: feet(10)}
	m, err = tank.Load(0.5)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{Question: "A 240 gal tank with 230 gal usable and 6 gal of heel, half drawn down: what water is aboard?", Source: "sum by hand: (6 + 0.5·230)·8.34", Status: worked.Identity, Given: []string{"8.34 lb/gal"}, Printed: "1009.14 lb", Got: m.Mass.In(units.Pound)})
}
