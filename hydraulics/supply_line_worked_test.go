package hydraulics_test

import (
	"fmt"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestHazenWilliams(t *testing.T) {
	for _, c := range []struct {
		q, d, l, c float64
		printed    string
	}{
		{100, 2.067, 1, 120, "0.0939604328 psi"},
		{6.3, 0.375, 130, 140, "224.901661 psi"},
		{6.3, 0.375, 130, 150, "197.952368 psi"},
	} {
		worked.Check(t, worked.Case{
			Question: "What does the supply line lose?", Source: "NFPA 13, p = 4.52 Q^1.85/(C^1.85 d^4.87) psi/ft, by arithmetic", Status: worked.Identity,
			Given:   []string{fmt.Sprintf("%g gpm", c.q), fmt.Sprintf("%g in", c.d), fmt.Sprintf("%g ft", c.l), fmt.Sprintf("C = %g", c.c)},
			Printed: c.printed, Got: must(hydraulics.HazenWilliams(gpm(c.q), inch(c.d), feet(c.l), c.c))(t).In(units.PSI),
		})
	}
	// One pipe by the network engine, in feet of water at 0.4333 psi/ft.
	for _, row := range readTable(t, "epanet_headloss.csv") {
		if row[0] != "H-W" {
			continue
		}
		psiPerFoot := 0.4333
		want := num(t, row[5])
		worked.Check(t, worked.Case{
			Question: "What head does the supply line lose?", Source: "EPANET engine 2.3.5, Hazen–Williams, one pipe", Status: worked.Computed,
			Given:   []string{row[4] + " gpm", row[3] + " in", row[2] + " ft", "C = " + row[1]},
			Printed: row[5] + " ft", Got: must(hydraulics.HazenWilliams(gpm(num(t, row[4])), inch(num(t, row[3])), feet(num(t, row[2])), num(t, row[1])))(t).In(units.PSI) / psiPerFoot,
			Tolerance: 0.004 * want, Reason: "the engine has 4.727 and the exponents 1.852 and 4.871: 0.2 % from NFPA's form at 100 gpm in 2 in, 0.33 % at 6.3 gpm in 1 in",
		})
	}
}
