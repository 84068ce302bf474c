package sheet_test

import (
	"bytes"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/sheet"
)

// The page shows what an injector draws with one gun and with two, and what a
// chemical pump gives; without either there is no such heading. The numbers are
// those of the hand sums of package rig.
func TestPages_chemical(t *testing.T) {
	m, err := demo.Model("B")
	if err != nil {
		t.Fatal(err)
	}
	with := func(pairs ...string) string {
		t.Helper()
		changes := []rig.Change{rig.Add("chemicals", "soap", "")}
		for i := 0; i < len(pairs); i += 2 {
			changes = append(changes, rig.Set(rig.Path("chemicals[soap]."+pairs[i]), pairs[i+1]))
		}
		n, err := m.With(changes...)
		if err != nil {
			t.Fatal(err)
		}
		rep, err := n.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := sheet.WriteText(&b, rep, nil, sheet.Options{}); err != nil {
			t.Fatal(err)
		}
		return squeezed(b.String())
	}
	if got := with("family", "detergent"); strings.Contains(got, "water through the injector") || strings.Contains(got, "pressure at its pump") {
		t.Error("a can of soap without injector has a table")
	}
	got := with("family", "detergent", "strength", "10 %", "carried", "5 gal", "injector.line", "left", "injector.flow", "4 gpm", "injector.loss", "250 psi", "injector.vacuum", "20 inHg",
		"injector.draw", "0.4 gpm", "injector.maximum_back", "65 %", "injector.lift", "2 ft", "injector.tip", "20",
		"chemical_pump.open_flow", "1.8 gpm", "chemical_pump.stall_pressure", "60 psi", "chemical_pump.cut_out", "45 psi", "chemical_pump.cut_in", "25 psi", "chemical_pump.stored", "0.1 gal",
		"chemical_pump.bore", "3/8 in", "chemical_pump.length", "150 ft", "chemical_pump.tip", "3")
	for _, w := range []string{"soap left open 6.8 gpm 55.46 % 28.16 inHg 0.4746 gpm 0.6524 % 0.3192 h", "35 psi", "The safety data sheet decides"} {
		if !strings.Contains(got, w) {
			t.Errorf("the page lacks %q", w)
		}
	}
}
