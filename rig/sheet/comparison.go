package sheet

import (
	"fmt"
	"math"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// Comparison returns reports side by side: the same rows for all, findings
// counted, ties called ties, no score; limits and defaults that were changed, with who,
// when and why.
func Comparison(c *batch.Comparison, o *Options) (*Document, error) {
	return comparison(c, nil, o)
}

// ComparisonWithPrices is Comparison with a row of prices, one a report. The
// zero Money stands for a rig without a price.
func ComparisonWithPrices(c *batch.Comparison, prices []parts.Money, o *Options) (*Document, error) {
	if len(prices) != len(c.Names) {
		return nil, &units.FieldError{Path: "prices", Value: fmt.Sprint(len(prices)), Want: fmt.Sprintf("one for each of the %d rigs", len(c.Names)), Err: units.ErrConflict}
	}
	return comparison(c, prices, o)
}

func comparison(c *batch.Comparison, prices []parts.Money, o *Options) (*Document, error) {
	if o == nil {
		o = &Options{}
	}
	d, err := NewDocument("Comparison against rig "+c.Names[0], o.Letterhead)
	if err != nil {
		return nil, err
	}
	d.Add(Paragraph{Text: rig.Disclaimer})
	t := Table{Columns: []Column{left("quantity")}}
	verdict, counts, price := []string{"verdict"}, []string{"stop / cannot judge / fix / note"}, []string{"price"}
	for i, n := range c.Names {
		t.Columns = append(t.Columns, right(n))
		x := c.Counts[i]
		verdict = append(verdict, x.Verdict.String())
		counts = append(counts, fmt.Sprintf("%d / %d / %d / %d", x.Stops, x.Unjudged, x.Fixes, x.Notes))
		if prices != nil {
			p := none
			if prices[i].Given() {
				p = prices[i].String()
			}
			price = append(price, p)
		}
	}
	t.Rows = append(t.Rows, verdict, counts)
	if prices != nil {
		t.Rows = append(t.Rows, price)
	}
	for i := range c.Rows {
		r := &c.Rows[i]
		row := []string{listed(r.Metric)}
		for _, x := range r.Cells {
			row = append(row, comparedText(&r.Metric, x, o.System))
		}
		t.Rows = append(t.Rows, row)
	}
	d.Add(Heading{Text: "Side by side"}, t)
	if len(c.Differs) > 0 {
		d.Add(Paragraph{Text: "Take care: the " + strings.Join(c.Differs, " and ") + " of these rigs differ, and their numbers with them.", Strong: true})
	}
	d.Add(Paragraph{Text: "The worst component in the worst " + c.Reach.String() + " state counts; where neither way is better, both ends stand. " +
		"Tie, better and worse, with the difference before them, are against the first rig; nothing stands where neither way is better. There is no score."},
		Paragraph{Text: fmt.Sprintf("A tie lies inside the tolerances stated in the specifications (±), or within %s %% where none reaches the number.", units.FormatNumber(100*c.Tie, 3))})
	changedIn(d, c, o.System)
	addCautions(d, rig.Cautions(), rig.NotChecked())
	return d, nil
}

// changedIn adds what the policies behind the reports changed, each change once, with
// the columns that were judged by it where it is not all of them: names may repeat.
func changedIn(d *Document, c *batch.Comparison, sys units.System) {
	var lines []string
	by := map[string][]string{} // of a line, the columns
	for i := range c.Changes {
		for _, x := range c.Changes[i].Words(sys, digits) {
			if by[x] == nil {
				lines = append(lines, x)
			}
			by[x] = append(by[x], fmt.Sprintf("rig %d (%s)", i+1, c.Names[i]))
		}
	}
	if len(lines) == 0 {
		return
	}
	var l List
	for _, x := range lines {
		if len(by[x]) < len(c.Names) {
			x += "; for " + strings.Join(by[x], ", ") + " alone"
		}
		l.Items = append(l.Items, x)
	}
	d.Add(Heading{Text: "Limits and defaults the dealer changed"}, l)
}

// listed is a metric's label with the list it belongs to.
func listed(m rig.Metric) string {
	if l := listOf(m.Path); l != "" {
		return listWord(l) + ": " + m.Label
	}
	return m.Label
}

// comparedText says a cell: "2283 ± 93 psi, −277 worse", "3.4 to 3.737 gpm".
func comparedText(m *rig.Metric, x batch.ComparedCell, sys units.System) string {
	if !x.Given {
		return none
	}
	unit := m.Unit(sys)
	low, high := number(x.Low, unit), number(x.High, unit)
	text := high
	if low != high {
		text = low + " to " + high
	}
	if unit.Symbol() != "" {
		text += " " + unit.Symbol()
	}
	if m.Kind == units.KindDuration && low == high {
		text = x.High.Reading.Text(sys, digits) + plusMinusTime(x.High) // seconds or hours, whichever it takes
	}
	switch x.Against {
	case batch.Tie:
		text += ", tie"
	case batch.Better, batch.Worse:
		text += ", "
		if m.Kind != units.KindDuration {
			text += signed(units.FormatNumber(x.Difference/unit.Factor(), 3)) + " "
		}
		text += x.Against.String()
	}
	return text
}

// number is a bound without its unit. A half-width that would not show in the
// digits printed is left out.
func number(b batch.Bound, unit units.Unit) string {
	v, err := b.Reading.Value.In(unit)
	if err != nil {
		return b.Reading.Value.String()
	}
	text := units.FormatNumber(v, digits)
	if h := b.HalfWidth / unit.Factor(); h > 5e-4*math.Abs(v) {
		text += " ± " + units.FormatNumber(h, 2)
	}
	return text
}

func plusMinusTime(b batch.Bound) string {
	q, err := units.NewQuantity(units.KindDuration, b.HalfWidth)
	if err != nil || b.HalfWidth <= 5e-4*math.Abs(b.Reading.Value.SI()) {
		return ""
	}
	return " ± " + q.Text(units.US, 2)
}
