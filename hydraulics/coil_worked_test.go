package hydraulics_test

import (
	"fmt"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/worked"
)

// Source: fluids_coil.csv.
func TestCoil_fluids(t *testing.T) {
	smooth := func(f func(Re, k, ratio float64) float64) func(Re, ratio float64) float64 {
		return func(Re, ratio float64) float64 { return f(Re, 0, ratio) }
	}
	critical := func(f func(ratio float64) float64) func(Re, ratio float64) float64 {
		return func(_, ratio float64) float64 { return f(ratio) }
	}
	for i, c := range []struct {
		question string
		f        func(Re, ratio float64) float64
	}{
		{"What Darcy factor does White give a laminar coil?", hydraulics.CoilWhite},
		{"What Darcy factor do Mori and Nakayama give a laminar coil?", hydraulics.CoilMoriNakayamaLaminar},
		{"What Darcy factor does Schmidt give a laminar coil?", hydraulics.CoilSchmidtLaminar},
		{"What Darcy factor do Mori and Nakayama give a turbulent coil?", hydraulics.CoilMoriNakayama},
		{"What Darcy factor does Schmidt give a smooth turbulent coil?", smooth(hydraulics.CoilSchmidt)},
		{"What Darcy factor do Mandal and Nigam give a smooth turbulent coil?", smooth(hydraulics.CoilMandalNigam)},
		{"At what Reynolds number does Ito let a coil turn turbulent?", critical(hydraulics.CoilCriticalIto)},
		{"At what Reynolds number does Schmidt let a coil turn turbulent?", critical(hydraulics.CoilCriticalSchmidt)},
	} {
		seen := map[string]bool{}
		for _, row := range readTable(t, "fluids_coil.csv") {
			given := []string{"d = " + row[1] + " m", "D = " + row[2] + " m"}
			if i < 6 {
				given = append(given, "Re = "+row[0])
			}
			if row[i+3] == "" || seen[fmt.Sprint(given)] {
				continue
			}
			seen[fmt.Sprint(given)] = true
			worked.Check(t, worked.Case{
				Question: c.question,
				Source:   "fluids 1.0.22",
				Status:   worked.Computed,
				Given:    given,
				Printed:  row[i+3],
				Got:      c.f(num(t, row[0]), num(t, row[1])/num(t, row[2])),
			})
		}
	}
}

func TestCoil_formulas(t *testing.T) {
	const ratio = 0.0127 / 0.4
	given := []string{"d = 0.0127 m", "D = 0.4 m"}
	for _, c := range []struct {
		question, source, Re, printed string
		got                           float64
	}{
		{"What Darcy factor does Ito give a turbulent coil?", "Ito 1959, f = 0.304 Re^-0.25 + 0.029 √(d/D), by arithmetic", "4e4", "0.02666341976", hydraulics.CoilIto(4e4, ratio)},
		{"What Darcy factor do Mishra and Gupta give a turbulent coil?", "Mishra and Gupta 1979, f = 0.3164 Re^-0.25 + 0.03 √(d/D), by arithmetic", "4e4", "0.02771841746", hydraulics.CoilMishraGupta(4e4, ratio)},
		{"By how much do Mishra and Gupta raise a laminar coil over a straight tube?", "Mishra and Gupta 1979, 1 + 0.033 (log10 De)⁴, by arithmetic", "2000", "2.3994900465", hydraulics.CoilMishraGuptaLaminar(2000, ratio) * 2000 / 64},
	} {
		worked.Check(t, worked.Case{Question: c.question, Source: c.source, Status: worked.Identity,
			Given: append(given, "Re = "+c.Re), Printed: c.printed, Got: c.got})
	}
}
