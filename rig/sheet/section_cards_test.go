package sheet_test

import (
	"bytes"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/sheet"
)

// What is done when power comes back after a trip stands on the card of a mode with
// loads: three of rig B's modes have some, the added one has none.
func TestModeCards_tripWithLoadsOnly(t *testing.T) {
	t.Parallel()
	m, err := demo.Model("B")
	if err == nil {
		m, err = m.With(rig.Add("modes", "rinse", ""), rig.Set("modes[rinse].guns", "left"))
	}
	if err != nil {
		t.Fatal(err)
	}
	d, err := sheet.ModeCards(assess(t, m, nil), nil)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := d.WriteText(&out); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(out.String(), "When power comes back after a trip"); n != 3 {
		t.Errorf("%d cards say what is done after a trip, want 3", n)
	}
}
