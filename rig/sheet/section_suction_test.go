package sheet_test

import (
	"bytes"
	"strings"
	"testing"

	"example.com/washrig/rig/sheet"
	"example.com/washrig/units"
)

// The page shows what the hand sums of the demo give: 12.03 ft in the worst state
// (3.67 m), 9 ft needed; 25.66 ft from the air, 9.30 ft in the strainer, 4.49 ft of
// pulses; three quarters of the dirty strainer's loss come back when it is cleaned.
func TestPages_suction(t *testing.T) {
	rep := demoReport(t, "B", nil)
	text := func(o sheet.Options, technician bool) string {
		t.Helper()
		var b bytes.Buffer
		if !technician {
			if err := sheet.WriteText(&b, rep, nil, o); err != nil {
				t.Fatal(err)
			}
			return squeezed(b.String())
		}
		d, err := sheet.Technician(rep, &o)
		if err != nil {
			t.Fatal(err)
		}
		if err := d.WriteText(&b); err != nil {
			t.Fatal(err)
		}
		return squeezed(b.String())
	}
	for _, c := range []struct {
		o          sheet.Options
		technician bool
		want       []string
	}{
		{sheet.Options{}, false, []string{"Suction, tanks and filling", "main strainer dirty, warm water drawn, tank low 12 ft 9 ft 3.03 ft",
			"fresh 3.84 min 105 gpm 0.2 inH2O 2 inH2O 1.5 in", "depot fresh 51 gpm 4.54 min", "joint 0.0286 in"}},
		{sheet.Options{System: units.SI}, false, []string{"tank low 3.67 m 2.74 m"}},
		{sheet.Options{}, true, []string{"available 12 ft", "strainer -9.3 ft", "pulses of the pump -4.49 ft", "clean the strainer 6.98 ft", "strainer clean, cold water drawn, tank full 23.8 ft"}},
	} {
		got := text(c.o, c.technician)
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("the page lacks %q", w)
			}
		}
	}
}
