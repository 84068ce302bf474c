package hydraulics_test

import (
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// Two guns on one pump, both open and one of them released. The hand sums use the
// trade convention; the pressure lost on the way to one gun at 3.74 gpm is 140 psi.
func TestSolve_twoGuns(t *testing.T) {
	given := []string{"pump 6.8 gpm", "two tips number 4.5", "unloader 2,900 psi, pressure-regulating", "150 ft of 3/8 in hose each; reel, swivel and gun 40 psi at 3.4 gpm", "coil 150 ft of 0.546 in on 16 in", "water in at 45 °F, 160 °F after the coil"}
	r, err := hydraulics.Solve(twoGuns())
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "Both guns open: what is the pressure at each nozzle?",
		Source:   "hand sum 4000 (3.4/4.5)²",
		Status:   worked.CommonPractice,
		Given:    given,
		Printed:  "2,283 psi",
		Got:      r.Sections[1].Outlet.In(units.PSI),
	})
	n := twoGuns()
	n.Sections[2].Outlet.Closed = true
	if r, err = hydraulics.Solve(n); err != nil {
		t.Fatal(err)
	}
	one := "hand sum √(2900/(4000/4.5² + k)) with 140 psi lost on the way"
	worked.Check(t, worked.Case{
		Question: "One gun released: what does the other pass?", Source: one, Status: worked.CommonPractice, Given: given,
		Printed: "3.74 gpm", Got: r.Sections[1].Metered.In(units.GallonPerMinute),
		Tolerance: 0.02, Reason: "the hand sum takes the loss on the way as 140 psi; friction in the hot hose decides the last few psi",
	})
	worked.Check(t, worked.Case{
		Question: "One gun released: at what nozzle pressure does the other work?", Source: one, Status: worked.CommonPractice, Given: given,
		Printed: "2,760 psi", Got: r.Sections[1].Outlet.In(units.PSI),
		Tolerance: 20, Reason: "the same loss on the way, taken as 140 psi",
	})
	worked.Check(t, worked.Case{
		Question: "One gun released: how much goes through the bypass?", Source: one, Status: worked.CommonPractice, Given: given,
		Printed: "3.06 gpm", Got: r.Supplies[0].Bypass.In(units.GallonPerMinute),
		Tolerance: 0.02, Reason: "6.8 gpm less what the gun passes",
	})
}

// A regulator feeds a low-pressure chemical tip beside a gun at high pressure.
func TestRegulator_worked(t *testing.T) {
	n := twoGuns()
	low := &n.Sections[2]
	low.Elements = nil
	low.Regulator = &hydraulics.Regulator{Set: psi(200)}
	low.Outlet = &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: 15}}}
	r, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"pump 6.8 gpm", "gun with a number 4.5", "beside it a number 15 behind a regulator at 200 psi"}
	worked.Check(t, worked.Case{
		Question: "What does the low-pressure tip take?", Source: "trade convention q = N √(p/4000)", Status: worked.CommonPractice, Given: given,
		Printed: "3.3541 gpm", Got: r.Sections[2].Metered.In(units.GallonPerMinute),
	})
	worked.Check(t, worked.Case{
		Question: "What is left for the gun at high pressure?", Source: "6.8 − 3.3541", Status: worked.Identity, Given: given,
		Printed: "3.4459 gpm", Got: r.Sections[1].Metered.In(units.GallonPerMinute),
	})
	low.Regulator = nil
	if r, err = hydraulics.Solve(n); err != nil {
		t.Fatal(err)
	}
	// Both tips then have nearly one pressure p: 4.5 √((p − loss)/4000) + 15 √(p/4000) = 6.8.
	worked.Check(t, worked.Case{
		Question: "And without the regulator: what pressure is left for both?", Source: "hand sum 4000 (6.8/19.5)²", Status: worked.CommonPractice, Given: given,
		Printed: "486 psi", Got: r.Sections[2].Outlet.In(units.PSI),
		Tolerance: 10, Reason: "the hand sum leaves out the 25 psi that the gun loses in hose and gun; they send a little more to the other tip, 6 psi worth",
	})
}
