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
