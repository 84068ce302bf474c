package hydraulics_test

import (
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/worked"
)

// Source: friction_factor_darcy.csv, the Lambert-W solution of a general-purpose
// library, printed to 15 decimals.
func TestFrictionFactor_fluids(t *testing.T) {
	for _, row := range readTable(t, "friction_factor_darcy.csv") {
		worked.Check(t, worked.Case{
			Question: "What is the Darcy friction factor?",
			Source:   "fluids 1.3.1, Colebrook solved by the Lambert W function",
			Status:   worked.Computed,
			Given:    []string{"Re = " + row[0], "e/D = " + row[1]},
			Printed:  row[2],
			Got:      hydraulics.FrictionFactor(num(t, row[0]), num(t, row[1])),
		})
	}
}
