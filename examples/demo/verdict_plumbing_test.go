package demo_test

import (
	"math"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// Hoses, tips and valves of rig B.
func TestVerdict_plumbing(t *testing.T) {
	b := load(t).reports["B"]
	const both, one = "guns=left+right heat=steady", "guns=left heat=steady"
	// 3.4 gpm in 3/8 in is 0.4085·3.4/0.375² = 9.88 ft/s cold and 2.5 % faster at
	// 166 °F; one gun 3.74 gpm, 11.1 ft/s.
	near(t, "speed, two guns", read(t, b, "lines[left].hose_velocity", both, "ft/s"), 9.88*1.025, algebra)
	near(t, "speed, one gun", read(t, b, "lines[left].hose_velocity", one, "ft/s"), 0.4085*3.74/0.375/0.375*1.025, algebra)
	// 100 ft of 3/8 in at 3.7 gpm lose 60 psi of 60 °F water (smooth, Colebrook);
	// 150 ft at 3.4 gpm 60·1.5·(3.4/3.7)^1.8 = 77 psi, at 166 °F a fifth less.
	near(t, "hose loss", read(t, b, "lines[left].hose_loss", both, "psi"), 77*0.8, properties)
	// 0.0526·3.4·√2283 = 8.5 lbf.
	near(t, "reaction", read(t, b, "lines[left].reaction", both, "lbf"), 8.55, properties)
	verdict(t, b, "gun-reaction", "left", rig.Pass)

	// Letting go of one open gun: 2,900 psi and 11.1 ft/s × 20.2 to 53.8 psi per
	// ft/s of 60 °F water, 2.5 % less of hot: 3,118 to 3,483 psi of 4,000.
	near(t, "least peak", read(t, b, "lines[left].surge_least", one, "psi"), 2900+11.1*20.19*0.975, algebra)
	near(t, "greatest peak", read(t, b, "lines[left].surge_most", one, "psi"), 2900+11.1*53.84*0.975, algebra)
	verdict(t, b, "surge-over-rating", "left", rig.Pass)
	verdict(t, b, "surge-in-band", "left", rig.Pass)

	// A tenth less than 2,283 psi is 2,055 psi, below the wanted 2,200.
	near(t, "worn tips", read(t, b, "lines[left].worn_pressure", both, "psi"), 0.9*2283, algebra)
	verdict(t, b, "worn-too-low", "left", rig.Note)

	// Ladder: (2,900 − 2,438)/2,438 and (3,400 − 2,900)/2,900.
	near(t, "unloader gap", read(t, b, "pumps[main].unloader_gap", both, "%"), 100*(2900-2438)/2438.0, properties)
	near(t, "relief gap", read(t, b, "pumps[main].relief_gap", "any", "%"), 100*500/2900.0, algebra)
}

// The tip for the middle of the band, 2,400 psi, is 3.4·√(4000/2400) = 4.39; the
// stocked 4.5 makes 2,283 psi and is in the band; the stocked 4.0 would need
// about 3,040 psi at the pump, more than the unloader holds, and bypasses.
func TestVerdict_neighbours(t *testing.T) {
	list, err := load(t).reports["B"].Model().Nozzles()
	if err != nil {
		t.Fatal(err)
	}
	if len(list) != 1 || list[0].NoStock || list[0].Neither {
		t.Fatalf("%+v", list)
	}
	a := list[0]
	near(t, "exact number", float64(a.Exact.Number), 3.4*math.Sqrt(4000/2400.0), algebra)
	if a.Below.Number != 4 || a.Above.Number != 4.5 || a.Below.Meets || !a.Above.Meets {
		t.Errorf("neighbours %+v and %+v", a.Below, a.Above)
	}
	near(t, "4.0 needs", a.Below.Needed.In(units.PSI), 3040, properties)
	if a.Below.Bypass <= 0 || a.Above.Bypass != 0 {
		t.Errorf("bypass %v and %v", a.Below.Bypass, a.Above.Bypass)
	}
	near(t, "4.5 makes", a.Above.Pressure.In(units.PSI), 2283, algebra)
}
