package tank_test

import (
	"testing"

	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/units"
)

func BenchmarkRun(b *testing.B) {
	for name, c := range references() {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := c.s.Run(c.start, 600, tank.RunOptions{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkSuction(b *testing.B) {
	s := tank.Suction{Site: 9e4, Water: units.Celsius(20), Level: 1, Flow: 4e-4,
		Line: garden(0.03).Line, Strainer: tank.Strainer{Loss: 7e3, Flow: 4e-4}}
	for b.Loop() {
		if _, err := s.Head(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDrain(b *testing.B) {
	d := tank.Drain{Shape: tank.UprightOf(160*units.Gallon, 30*units.Inch), From: 30 * units.Inch, To: 1 * units.Inch, Fluid: cold,
		Outlet: tank.Opening{Bore: 2.067 * units.Inch, Length: 2 * units.Foot, K: 2}, Vent: tank.Vent{Bore: 0.04, Coefficient: 0.6, Air: 1}}
	for b.Loop() {
		if _, err := d.Drain(); err != nil {
			b.Fatal(err)
		}
	}
}
