package statics_test

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func TestPipeContents_worked(t *testing.T) {
	for _, c := range []struct {
		question, source, given, printed string
		bore, length                     units.Length
	}{
		{"What water stands in 170 ft of 3/8 in hose?", "π/4·0.375²·2040/231, by hand", "true bore 3/8 in", "0.975 gal", 0.375 * units.Inch, 170 * units.Foot},
		{"What water stands in a heating coil of 150 ft?", "π/4·0.546²·1800/231, by hand", "bore 0.546 in", "1.824 gal", 0.546 * units.Inch, 150 * units.Foot},
	} {
		v, err := statics.PipeContents(c.bore, c.length)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{Question: c.question, Source: c.source, Status: worked.Identity, Given: []string{c.given}, Printed: c.printed, Got: v.In(units.Gallon)})
	}
}

func TestTank_BurnDown(t *testing.T) {
	tank := statics.Tank{Name: "diesel", Nominal: 30 * units.Gallon, Heel: 2 * units.Gallon, Density: 850, X: feet(8)}
	level, err := tank.BurnDown(1, 3.5*units.GallonPerHour, 4*units.Hour)
	if err != nil {
		t.Fatal(err)
	}
	left, err := tank.Contents(level)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{Question: "A burner draws 3.5 gal/h for 4 h from a full tank of 30 gal: what is left aboard?", Source: "30 − 14, by hand", Status: worked.Identity, Given: []string{"2 gal of them below the outlet"}, Printed: "16.00 gal", Got: left.In(units.Gallon)})
	if level, err = tank.BurnDown(0.5, 3.5*units.GallonPerHour, 10*units.Hour); err != nil || level != 0 {
		t.Errorf("run dry: %v, %v", level, err)
	}
	all := statics.Tank{Nominal: 1, Heel: 1, Density: 850}
	if level, err = all.BurnDown(0.5, 1e-6, 1); err != nil || level != 0.5 {
		t.Errorf("nothing usable: %v, %v", level, err)
	}
}
