package hydraulics_test

import (
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/worked"
)

func TestExplicit_fluids(t *testing.T) {
	for i, c := range []struct {
		name string
		f    func(Re, k float64) float64
	}{{"Haaland", hydraulics.Haaland}, {"Churchill", hydraulics.Churchill}, {"Serghides", hydraulics.Serghides}, {"Chen", hydraulics.Chen}} {
		for _, row := range readTable(t, "fluids_explicit.csv") {
			worked.Check(t, worked.Case{
				Question: "What Darcy friction factor does " + c.name + "'s formula give?",
				Source:   "fluids 1.0.22",
				Status:   worked.Computed,
				Given:    []string{"Re = " + row[0], "e/D = " + row[1]},
				Printed:  row[i+2],
				Got:      c.f(num(t, row[0]), num(t, row[1])),
			})
		}
	}
}

// Laminar flow, and Churchill's path through the zone where no law is right.
func TestChurchill_transition(t *testing.T) {
	for _, row := range readTable(t, "friction_factor_transition.csv") {
		given := []string{"Re = " + row[0], "e/D = " + row[1]}
		worked.Check(t, worked.Case{Question: "What does Churchill's formula give where flow turns turbulent?", Source: "fluids 1.3.1, Churchill 1977", Status: worked.Computed, Given: given,
			Printed: row[3], Got: hydraulics.Churchill(num(t, row[0]), num(t, row[1]))})
		if Re := num(t, row[0]); Re <= 2000 {
			worked.Check(t, worked.Case{Question: "What is the Darcy friction factor of laminar flow?", Source: "64/Re", Status: worked.Identity, Given: given,
				Printed: row[2], Got: hydraulics.FrictionFactor(Re, num(t, row[1]))})
		}
	}
}

// At an endless Reynolds number what is left is the fully rough law.
func TestFrictionFactor_rough(t *testing.T) {
	for _, c := range []struct{ k, printed string }{
		{"1e-4", "0.01197979708"}, {"1e-3", "0.01963546594"}, {"1e-2", "0.03790371189"}, {"5e-2", "0.07155067322"},
	} {
		worked.Check(t, worked.Case{Question: "What is the friction factor of a fully rough pipe?", Source: "1/(2 log10(3.7 D/e))², by arithmetic", Status: worked.Identity,
			Given: []string{"e/D = " + c.k}, Printed: c.printed, Got: hydraulics.FrictionFactor(math.Inf(1), num(t, c.k))})
	}
}

// The library's form has (6.97/Re)^0.9 = 5.7397/Re^0.9 where ours prints 5.74.
func TestSwameeJain_fluids(t *testing.T) {
	for _, row := range readTable(t, "friction_factor_darcy.csv") {
		worked.Check(t, worked.Case{
			Question:  "What Darcy friction factor do Swamee and Jain give?",
			Source:    "fluids 1.3.1, with (6.97/Re)^0.9",
			Status:    worked.Computed,
			Given:     []string{"Re = " + row[0], "e/D = " + row[1]},
			Printed:   row[5],
			Got:       hydraulics.SwameeJain(num(t, row[0]), num(t, row[1])),
			Tolerance: 2e-5 * num(t, row[5]),
			Reason:    "(6.97/Re)^0.9 is 5.7397/Re^0.9: 5e-5 in the term, under 2e-5 in the factor",
		})
	}
	for _, c := range []struct {
		k       string
		printed string
	}{{"0", "0.01786257789"}, {"1e-3", "0.02234241216"}} {
		worked.Check(t, worked.Case{
			Question: "What Darcy friction factor do Swamee and Jain give?",
			Source:   "arithmetic from the printed form, 5.74/Re^0.9",
			Status:   worked.Identity,
			Given:    []string{"Re = 1e5", "e/D = " + c.k},
			Printed:  c.printed,
			Got:      hydraulics.SwameeJain(1e5, num(t, c.k)),
		})
	}
	worked.Check(t, worked.Case{
		Question: "What Darcy friction factor does Blasius give?", Source: "0.3164 Re^-0.25",
		Status: worked.Identity, Given: []string{"Re = 1e4"}, Printed: "0.03164", Got: hydraulics.Blasius(1e4),
	})
}

// A textbook's pipe, with every intermediate it prints.
func TestFrictionFactor_CengelCimbala(t *testing.T) {
	const source = "Cengel and Cimbala, Fluid Mechanics, ch. 8, head loss in a water pipe; printed answers from memory"
	given := []string{"water at 60 °F, 62.36 lb/ft³, 7.536e-4 lb/(ft s)", "2 in stainless pipe, roughness 7e-6 ft, 200 ft", "0.2 ft³/s"}
	Re, k := 126431.876, 7e-6*6
	worked.Check(t, worked.Case{Question: "What is the friction factor?", Source: source, Status: worked.FromMemory, Given: given,
		Printed: "0.0174", Got: hydraulics.FrictionFactor(Re, k)})
	n := line(62.36*16.01846337396014, 7.536e-4*1.4881639435695539, 0.2/0.13368055555555556*60, 2, 200, 7e-6*12)
	r, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{Question: "What pressure does the pipe lose?", Source: source, Status: worked.FromMemory, Given: given,
		Printed: "11.8 psi", Got: r.Sections[0].Elements[0].Loss.In(psi(1))})
	worked.Check(t, worked.Case{Question: "What pressure does the pipe lose, to more digits?", Source: "the same data recomputed with g_c = 32.2 lb ft/(lbf s²)", Status: worked.Identity, Given: given,
		Printed: "11.79758608 psi", Got: r.Sections[0].Elements[0].Loss.In(psi(1)), Tolerance: 0.0102, Reason: "32.2 is 8.1e-4 above the exact 32.17405"})
}

// Smooth bore, water at 20 °C.
func TestSolve_hosesAt20C(t *testing.T) {
	for _, c := range []struct{ q, bore, length, v, Re, f, dp string }{
		{"6.3", "0.375", "130", "18.30069639 ft/s", "52950.9142", "0.02062664763", "193.267298 psi"},
		{"7.4", "0.5", "170", "12.09153154 ft/s", "46647.2339", "0.02121857938", "85.1216934 psi"},
		{"5.5", "0.375", "150", "15.97679844 ft/s", "46226.9886", "0.02126177669", "175.194902 psi"},
		{"10", "0.75", "100", "7.26218111 ft/s", "42024.5351", "0.02172452957", "12.3283705 psi"},
	} {
		r, err := hydraulics.Solve(line(998.20609, 1.00160e-3, num(t, c.q), num(t, c.bore), num(t, c.length), 0))
		if err != nil {
			t.Fatal(err)
		}
		e := r.Sections[0].Elements[0]
		for _, a := range []struct {
			question, printed string
			got               float64
			tolerance         float64
		}{
			{"How fast is the water in this hose?", c.v, float64(e.Velocity) / 0.3048, 0},
			{"What is its Reynolds number?", c.Re, e.Reynolds, 0.3},
			{"What is its friction factor?", c.f, e.Friction, 3e-8},
			{"What pressure does it cost?", c.dp, e.Loss.In(psi(1)), 3e-4},
		} {
			w := worked.Case{
				Question: a.question,
				Source:   "fluids 1.3.1, Colebrook, with IAPWS properties of water at 20 °C",
				Status:   worked.Computed,
				Given:    []string{"q = " + c.q + " gpm", "bore " + c.bore + " in", "length " + c.length + " ft", "998.20609 kg/m³", "1.00160e-3 Pa s"},
				Printed:  a.printed,
				Got:      a.got,
			}
			if a.tolerance > 0 {
				w.Tolerance, w.Reason = a.tolerance, "the viscosity is given to six digits, 5e-6; the Reynolds number follows it, friction at a fifth of that"
			}
			worked.Check(t, w)
		}
	}
}

func TestFrictionFactor_Esposito(t *testing.T) {
	worked.Check(t, worked.Case{
		Question: "How much pipe does a globe valve in an oil line stand for?", Source: "Esposito, Fluid Power with Applications, example 4-8, with the book's 12.2 ft/s", Status: worked.FromMemory,
		Given: []string{"oil of 100 cSt, 30 gpm, 1 in", "K = 10", "Re = 7740 × 12.2 × 1/100 = 944.28"}, Printed: "12.3 ft",
		Got: 10 * (1. / 12) / hydraulics.FrictionFactor(944.28, 0),
	})
}
