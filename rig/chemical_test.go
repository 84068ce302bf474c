package rig_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// soap is a ten per cent product with an injector at the head of line left of rig
// B, and on a small pump of its own.
func soap(more ...string) []rig.Change {
	pairs := []string{"family", "detergent", "enters", "after-coil", "strength", "10 %", "carried", "5 gal", "injector.line", "left", "injector.flow", "4 gpm", "injector.loss", "250 psi",
		"injector.vacuum", "20 inHg", "injector.draw", "0.4 gpm", "injector.minimum_flow", "2 gpm", "injector.maximum_back", "65 %", "injector.tip", "20", "injector.lift", "2 ft",
		"chemical_pump.open_flow", "1.8 gpm", "chemical_pump.stall_pressure", "60 psi", "chemical_pump.cut_out", "45 psi", "chemical_pump.cut_in", "25 psi", "chemical_pump.stored", "0.1 gal",
		"chemical_pump.bore", "3/8 in", "chemical_pump.length", "150 ft", "chemical_pump.tip", "8"}
	out := []rig.Change{rig.Add("chemicals", "soap", "")}
	for i, list := range [][]string{pairs, more} {
		for j := 0; j < len(list); j += 2 {
			p := rig.Path(list[j])
			if i == 0 || !strings.Contains(list[j], "[") {
				p = "chemicals[soap]." + p
			}
			out = append(out, rig.Set(p, list[j+1]))
		}
	}
	return out
}

// A jet rated at 4 gpm with 20 inHg and 0.4 gpm. With one gun open the whole
// 6.8 gpm pass it: it takes 250 × (6.8/4)² = 722.5 psi, and its vacuum would be
// 20 × 1.7² = 57.8 inHg, more than there is air (29.92 inHg): one atmosphere.
// Lifting 2 ft of water takes 1.763 inHg of it, which leaves 28.16 inHg.
// The draw is 0.4 × √(28.16/20) = 0.4746 gpm, the strength
// 10 % × 0.4746/(0.4746 + 6.8) = 0.6524 %, and 5 gal at 55 % trigger time last
// 5/(0.4746 × 60 × 0.55) = 0.319 h. Source: Bernoulli's equation and a balance of
// volumes (hand sum); the rated point is invented.
func TestChemical_handSum(t *testing.T) {
	r := assessed(t, demoModel(t, "B", soap()...))
	for _, c := range []struct {
		path, state string
		want, tol   float64
		unit        float64
	}{
		{"chemicals[soap].injector_flow", "guns=left heat=off", 6.8, 5e-4, float64(units.GallonPerMinute)},
		{"chemicals[soap].vacuum_left", "guns=left heat=off", 29.921 - 1.763, 0.005, float64(units.InchOfMercury)},
		{"chemicals[soap].draw", "guns=left heat=off", 0.4 * math.Sqrt(28.158/20), 2e-4, float64(units.GallonPerMinute)},
		{"chemicals[soap].at_nozzle", "guns=left heat=off", 0.1 * 0.47462 / (0.47462 + 6.8), 1e-6, 1},
		{"chemicals[soap].lasts", "guns=left heat=off", 5 / (0.47462 * 60 * 0.55), 2e-4, float64(units.Hour)},
	} {
		if got := mustNumber(t, r, rig.Path(c.path), c.state) / c.unit; math.Abs(got-c.want) > c.tol {
			t.Errorf("%s in %s: %.6g, hand sum %.6g", c.path, c.state, got, c.want)
		}
	}
	// The jet's loss is the same whether it draws or not: with the high-pressure
	// tip the line pays it too.
	plain := assessed(t, demoModel(t, "B"))
	a, b := mustNumber(t, r, "lines[left].loss", "guns=left heat=off"), mustNumber(t, plain, "lines[left].loss", "guns=left heat=off")
	q, p := mustNumber(t, r, "lines[left].flow", "guns=left heat=off"), mustNumber(t, plain, "lines[left].flow", "guns=left heat=off")
	if jet := 250 * math.Pow(q/float64(4*units.GallonPerMinute), 2) * float64(units.PSI); q > p || a-b < 0.5*jet || a-b > 1.05*jet {
		t.Errorf("the line loses %.0f psi with the injector and %.0f without", a/float64(units.PSI), b/float64(units.PSI))
	}
}

// A pump that cycles: at the mean of 45 and 25 psi it moves 1.8 × (1 − 35/60)
// = 0.75 gpm; a tip that passes less leaves the rest for the accumulator. Start to
// start is V/(q_pump − q) + V/q. Source: balance of volumes (hand sum).
func TestChemicalPump_handSum(t *testing.T) {
	r := assessed(t, demoModel(t, "B", soap("chemical_pump.tip", "3")...))
	q := mustNumber(t, r, "chemicals[soap].pumped_flow", "any") / float64(units.GallonPerMinute)
	// A number 3 tip on 35 psi: 3 × √(35/4000) = 0.2806 gpm, a little less behind 150 ft of hose.
	if q > 0.2806 || q < 0.275 {
		t.Errorf("%.4f gpm at the end", q)
	}
	want := (0.1/(0.75-q) + 0.1/q) * 60 // s
	if got := mustNumber(t, r, "chemicals[soap].pump_cycle", "any"); math.Abs(got-want) > 1e-3*want {
		t.Errorf("%.2f s from start to start, hand sum %.2f s", got, want)
	}
	if got := mustNumber(t, r, "chemicals[soap].pumped_pressure", "any") / float64(units.PSI); math.Abs(got-35) > 1e-6 {
		t.Errorf("%.4f psi, the mean of its switch is 35 psi", got)
	}
}

// Just inside each limit nothing is found; just outside, the code is.
func TestChemical_eitherSideOfEachLimit(t *testing.T) {
	base := assessed(t, demoModel(t, "B", soap()...))
	worst := func(p rig.Path) float64 {
		t.Helper()
		x, ok := base.Worst("chemicals[soap]." + p)
		if !ok {
			t.Fatalf("no %s", p)
		}
		return x.Value.SI()
	}
	least, most := math.Inf(1), 0.0
	for x := range base.All("chemicals[soap].at_nozzle") {
		least, most = math.Min(least, x.Value.SI()), math.Max(most, x.Value.SI())
	}
	percent := func(v float64) string { return fmt.Sprintf("%.9g %%", 100*v) }
	gpm := func(v float64) string { return fmt.Sprintf("%.9g gpm", v/float64(units.GallonPerMinute)) }
	slow := assessed(t, demoModel(t, "B", soap("chemical_pump.tip", "3")...))
	cycle := mustNumber(t, slow, "chemicals[soap].pump_cycle", "any")
	partner := worst("partner_pressure")
	// Lift: with a weaker jet the least vacuum over the states carries this many
	// feet of water.
	weak := assessed(t, demoModel(t, "B", soap("injector.vacuum", "5 inHg")...))
	left, ok := weak.Worst("chemicals[soap].vacuum_left")
	if !ok {
		t.Fatal("no vacuum left")
	}
	feet := 2 + left.Value.SI()/(999.016*9.80665)/float64(units.Foot)
	for _, c := range []struct {
		code      rig.Code
		good, bad []string
	}{
		{"injector-starved", []string{"injector.minimum_flow", gpm(0.999 * worst("injector_flow"))}, []string{"injector.minimum_flow", gpm(1.001 * worst("injector_flow"))}},
		{"injector-drowned", []string{"injector.maximum_back", percent(1.001 * worst("back_pressure"))}, []string{"injector.maximum_back", percent(0.999 * worst("back_pressure"))}},
		{"injector-lift", []string{"injector.vacuum", "5 inHg", "injector.lift", fmt.Sprintf("%.6f ft", 0.999*feet)}, []string{"injector.vacuum", "5 inHg", "injector.lift", fmt.Sprintf("%.6f ft", 1.001*feet)}},
		{"chemical-weak", []string{"wanted_low", percent(0.999 * least)}, []string{"wanted_low", percent(1.001 * least)}},
		{"chemical-strong", []string{"wanted_high", percent(1.001 * most)}, []string{"wanted_high", percent(0.999 * most)}},
		{"chemical-robs-gun", []string{"duty[].nozzle_pressure_low", fmt.Sprintf("%.9g psi", 0.999*partner/float64(units.PSI))}, []string{"duty[].nozzle_pressure_low", fmt.Sprintf("%.9g psi", 1.001*partner/float64(units.PSI))}},
		{"chemical-pump-short", []string{"chemical_pump.wanted_flow", gpm(0.999 * worst("pumped_flow"))}, []string{"chemical_pump.wanted_flow", gpm(1.001 * worst("pumped_flow"))}},
		{"chemical-pump-cycles", []string{"chemical_pump.tip", "3", "chemical_pump.least_cycle", fmt.Sprintf("%.9g s", 0.999*cycle)}, []string{"chemical_pump.tip", "3", "chemical_pump.least_cycle", fmt.Sprintf("%.9g s", 1.001*cycle)}},
	} {
		for _, side := range []struct {
			list []string
			want bool
		}{{c.good, false}, {c.bad, true}} {
			changes := soap()
			for i := 0; i < len(side.list); i += 2 {
				p := rig.Path("chemicals[soap]." + side.list[i])
				if rest, ok := strings.CutPrefix(side.list[i], "duty[]."); ok {
					p = rig.Path("duty." + rest)
				}
				changes = append(changes, rig.Set(p, side.list[i+1]))
			}
			r, err := demoModel(t, "B", changes...).Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
			if err != nil {
				t.Fatal(err)
			}
			found := false
			for _, f := range r.Findings() {
				found = found || f.Code == c.code && f.Reading.Part == "soap"
			}
			if found != side.want {
				t.Errorf("%s with %v: found %v", c.code, side.list, found)
			}
		}
	}
}

// A bigger tip never makes more back-pressure, more lift never draws more, a
// thicker chemical never draws more, and the strength never passes that of the
// product; a chemical that is carried without injector or pump changes no number.
func TestChemical_properties(t *testing.T) {
	t.Parallel()
	b := demoModel(t, "B")
	plain := numbersOf(assessed(t, b))
	same, err := changed(b, rig.Add("chemicals", "soap", ""), rig.Set("chemicals[soap].family", "detergent"))
	if err != nil {
		t.Fatal(err)
	}
	for k, v := range numbersOf(same) {
		if w, ok := plain[k]; ok && w != v {
			t.Errorf("%s: %v with a can of soap on the deck, %v without", k, v, w)
		}
	}
	property.Check(t, func(g *property.G) error {
		changes := soap("injector.tip", fmt.Sprintf("%.4f", g.LogFloat(2, 60)), "injector.loss", fmt.Sprintf("%.4f psi", g.LogFloat(20, 800)), "injector.flow", fmt.Sprintf("%.4f gpm", g.Float(2, 8)),
			"injector.vacuum", fmt.Sprintf("%.4f inHg", g.Float(2, 28)), "injector.draw", fmt.Sprintf("%.4f gpm", g.LogFloat(0.02, 2)), "injector.minimum_flow", fmt.Sprintf("%.4f gpm", g.Float(0.1, 6)),
			"injector.maximum_back", fmt.Sprintf("%.4f %%", g.Float(20, 95)), "injector.lift", fmt.Sprintf("%.4f ft", g.Float(-3, 10)), "viscosity", fmt.Sprintf("%.4f cP", g.LogFloat(0.5, 500)),
			"injector.linear_share", fmt.Sprintf("%.4f %%", g.Float(0, 100)), "chemical_pump.rise", fmt.Sprintf("%.4f ft", g.Float(-20, 40)), "chemical_pump.tip", fmt.Sprintf("%.4f", g.LogFloat(0.1, 60)))
		m, err := b.With(changes...)
		if err != nil {
			return err
		}
		before, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			return err
		}
		for x := range before.All("chemicals[soap].at_nozzle") {
			if v := x.Value.SI(); v < 0 || v > 0.1 {
				return fmt.Errorf("a 10 %% product makes %v in %v", v, x.State)
			}
		}
		for _, c := range []struct {
			field string
			grow  func(float64) string
			paths []rig.Path
		}{
			{"injector.tip", func(f float64) string { return fmt.Sprint(60 * f) }, []rig.Path{"chemicals[soap].back_pressure"}},
			{"injector.lift", func(f float64) string { return fmt.Sprintf("%v ft", 10*f) }, []rig.Path{"chemicals[soap].draw", "chemicals[soap].vacuum_left", "chemicals[soap].at_nozzle"}},
			{"viscosity", func(f float64) string { return fmt.Sprintf("%v cP", 500*f) }, []rig.Path{"chemicals[soap].draw", "chemicals[soap].pumped_flow"}},
			{"chemical_pump.rise", func(f float64) string { return fmt.Sprintf("%v ft", 40*f) }, []rig.Path{"chemicals[soap].pumped_flow"}},
		} {
			after, err := changed(m, rig.Set(rig.Path("chemicals[soap]."+c.field), c.grow(g.Float(1, 2))))
			if err != nil {
				return err
			}
			for _, p := range c.paths {
				if err := noMore(before, after, p, 1e-9); err != nil {
					return fmt.Errorf("more %s: %w", c.field, err)
				}
			}
		}
		return nil
	})
}

// Injectors and chemical pumps by halves are refused with the path of what is
// missing or contradicts.
func TestChemical_refuses(t *testing.T) {
	for _, c := range []struct {
		field, text, want string
	}{
		{"injector.line", "", "injector.line"},
		{"injector.flow", "", "injector.flow"},
		{"injector.loss", "", "injector.loss"},
		{"injector.vacuum", "", "injector.vacuum"},
		{"injector.draw", "", "injector.draw"},
		{"injector.maximum_back", "", "injector.maximum_back"},
		{"injector.line", "middle", "injector.line"},
		{"enters", "before-pump", "enters"},
		{"strength", "0.1 %", "wanted_high"},
		{"wanted_low", "3 %", "wanted_high"},
		{"chemical_pump.cut_in", "50 psi", "chemical_pump.cut_in"},
		{"chemical_pump.cut_out", "61 psi", "chemical_pump.cut_out"},
		{"chemical_pump.tip", "", "chemical_pump.tip"},
		{"chemical_pump.bore", "", "chemical_pump.bore"},
		{"chemical_pump.open_flow", "", "chemical_pump.open_flow"},
	} {
		b := demoModel(t, "B", soap("wanted_low", "0.5 %", "wanted_high", "1 %")...)
		if _, err := b.With(rig.Set(rig.Path("chemicals[soap]."+c.field), c.text)); err == nil || !strings.Contains(err.Error(), "chemicals[soap]."+c.want) {
			t.Errorf("%s = %q: %v", c.field, c.text, err)
		}
	}
}
