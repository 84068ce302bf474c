package sheet_test

import (
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/sheet"
	"example.com/washrig/units"
)

// The walk-round page and the walk-round card as data have the same figures, in the same
// order and with the same values.
func TestWalkRound_likeTheCard(t *testing.T) {
	t.Parallel()
	for _, name := range demo.Names() {
		m, err := demo.Model(name)
		if err != nil {
			t.Fatal(err)
		}
		rep := assess(t, m, nil)
		d, err := sheet.WalkRound(rep, nil)
		if err != nil {
			t.Fatal(err)
		}
		var rows [][]string
		_, text, _ := strings.Cut(written(t, d, (*sheet.Document).WriteMarkdown), "What a visitor asks")
		for _, line := range strings.Split(text, "\n") {
			if strings.HasPrefix(line, "## ") {
				break
			}
			if cells := strings.Split(line, "|"); len(cells) > 4 && !strings.Contains(line, "---") && !strings.Contains(line, "figure") {
				rows = append(rows, []string{strings.TrimSpace(cells[1]), strings.ReplaceAll(strings.TrimSpace(cells[2]), `\`, ""), cells[3], strings.TrimSpace(cells[4])})
			}
		}
		var figures []rig.CardFigure
		for _, f := range rep.WalkCard().Figures {
			if !strings.HasSuffix(f.What, ", share") { // one row with the weight
				figures = append(figures, f)
			}
		}
		if len(rows) != len(figures) {
			t.Errorf("%s: %d rows on the page and %d figures on the card", name, len(rows), len(figures))
			continue
		}
		for i, f := range figures {
			value := func(q units.Quantity) string {
				if mt, ok := rig.MetricOf(f.Path); ok && f.Computed {
					digits := 4
					if strings.HasPrefix(f.What, "hours") {
						digits = 3
					}
					return mt.Text(q, units.US, digits)
				}
				return rig.FieldText(f.Path, q, units.US, 4)
			}
			if f.What == "rated to run, source belt" && f.From != "" && rows[i][3] != string(f.From) {
				t.Errorf("%s: %s is %s on the page and %s on the card", name, f.What, rows[i][3], f.From)
			}
			if rows[i][0] != f.What || !strings.Contains(rows[i][1], value(f.Low)) || !strings.Contains(rows[i][1], value(f.High)) {
				t.Errorf("%s: the page says %q, the card %s = %s to %s", name, rows[i], f.What, value(f.Low), value(f.High))
			}
		}
	}
}
