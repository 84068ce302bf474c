package batch

import (
	"encoding/csv"
	"errors"
	"io"
	"strconv"
	"strings"

	"example.com/washrig/internal/csvcell"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// TableOptions choose how rows are written. The zero value is a wide table in
// US units, cautions before it.
type TableOptions struct {
	System units.System
	Long   bool // a line for each number instead of a line for each variant
	Plain  bool // no cautions and changes of the policy before the headings; they then belong elsewhere
}

// A Table writes rows as tidy CSV: a line of headings, then one observation a
// line, in the order of the plan. Every column has one unit, which stands in its
// heading (wide) or beside the number (long); a cell without a number has a word
// of [Code] instead. Lines end in CRLF; text that a spreadsheet could take for a
// formula is inert.
//
// Before the headings stand lines that begin with # and carry the disclaimer,
// the cautions, what was not checked and what the plan's policy changed: limits and
// defaults with who, when and why, and codes that are not checked.
type Table struct {
	plan    *Plan
	columns []column
	o       TableOptions
	csv     *csv.Writer
}

// NewTable writes the headings of a plan's table.
func NewTable(w io.Writer, plan *Plan, o TableOptions) (*Table, error) {
	columns, err := parseColumns(plan.Columns)
	if err != nil {
		return nil, err
	}
	changes, err := plan.Policy.Changes()
	if err != nil {
		return nil, err
	}
	t := &Table{plan: plan, columns: columns, o: o, csv: csv.NewWriter(w)}
	t.csv.UseCRLF = true
	if !o.Plain {
		for _, line := range preamble(changes, o.System) {
			if err := t.csv.Write([]string{csvcell.Comment(line)}); err != nil {
				return nil, err
			}
		}
	}
	var head []string
	for _, d := range t.dictionary() {
		head = append(head, csvcell.Inert(d.Column))
	}
	return t, t.csv.Write(head)
}

func preamble(changes rig.PolicyChanges, sys units.System) []string {
	out := []string{rig.Disclaimer}
	for _, c := range rig.Cautions() {
		out = append(out, "Caution. "+c.Hazard+". "+c.Text+" Decides: "+c.Defers+".")
	}
	if list := rig.NotChecked(); len(list) > 0 {
		out = append(out, "Not checked here: "+strings.Join(list, "; ")+".")
	}
	for _, x := range changes.Words(sys, changeDigits) {
		out = append(out, "Changed by the policy. "+x)
	}
	return append(out, "washrig "+rig.Version+", format "+rig.Format)
}

// changeDigits are those of a limit in the words of a change.
const changeDigits = 4

// Write writes a row of Run with the error that came beside it.
func (t *Table) Write(r Row, err error) error {
	lead := []string{strconv.Itoa(r.Index), csvcell.Text(r.Name), "ok", "", "", "", "", ""}
	message := ""
	if err != nil {
		lead[2] = Failed.String()
		message = csvcell.Text(err.Error())
		for i := 3; i < len(lead); i++ {
			lead[i] = Failed.String()
		}
	} else {
		lead[3] = r.Verdict.String()
		for i, n := range []int{r.Stops, r.Unjudged, r.Fixes, r.Notes} {
			lead[4+i] = strconv.Itoa(n)
		}
	}
	given := map[string]string{}
	for _, in := range r.Variant.Inputs {
		given[in.Heading] = in.Text
	}
	for _, h := range t.plan.Headings {
		text := given[h]
		if text == "" {
			text = Empty.String() // the base's value stands
		}
		lead = append(lead, csvcell.Text(text))
	}
	if !t.o.Long {
		for i := range t.columns {
			lead = append(lead, t.number(i, r))
		}
		return t.csv.Write(append(lead, message))
	}
	for i := range t.columns {
		line := append([]string(nil), lead...)
		path, state, reach, unit := "", "", "", ""
		if c := cellOf(r, i); c.Code == Number {
			path, state, reach = string(c.Reading.Path()), c.Reading.State.String(), c.Reading.State.Reach().String()
			unit = t.columns[i].metric.Unit(t.o.System).Symbol()
		}
		line = append(line, csvcell.Inert(string(t.columns[i].text)), t.number(i, r), unit, path, state, reach, message)
		if err := t.csv.Write(line); err != nil {
			return err
		}
	}
	return nil
}

// cellOf is a row's cell, or a failed one where the row has none.
func cellOf(r Row, i int) Cell {
	if i < len(r.Cells) {
		return r.Cells[i]
	}
	return Cell{Code: Failed}
}

// number is a cell: six digits in the column's unit, or the word of a code.
func (t *Table) number(i int, r Row) string {
	c := cellOf(r, i)
	if c.Code != Number {
		return c.Code.String()
	}
	x, err := c.Reading.Value.In(t.columns[i].metric.Unit(t.o.System))
	if err != nil {
		return Failed.String()
	}
	return units.FormatNumber(x, 6)
}

// Flush writes what is held back and returns the first error of writing.
func (t *Table) Flush() error {
	t.csv.Flush()
	return t.csv.Error()
}

// A ColumnDoc describes one column of a table.
type ColumnDoc struct {
	Column  string // heading
	Meaning string
	Unit    string // empty for words, counts and plain numbers
	Kind    string // of quantity; text, count or code words
	Better  string // higher, lower or neither; empty where it does not apply
	Formula string
	Source  string
}

// WriteDictionary writes what each column of a plan's table means, as CSV: a
// line a column. After the columns stand the words that a cell may have in place
// of a number, and then what the plan's policy changed, which every verdict goes by.
func WriteDictionary(w io.Writer, plan *Plan, o TableOptions) error {
	columns, err := parseColumns(plan.Columns)
	if err != nil {
		return err
	}
	changes, err := plan.Policy.Changes()
	if err != nil {
		return err
	}
	t := &Table{plan: plan, columns: columns, o: o}
	c := csv.NewWriter(w)
	c.UseCRLF = true
	lines := [][]string{{"column", "meaning", "unit", "kind", "better", "formula", "source"}}
	for _, d := range t.dictionary() {
		lines = append(lines, []string{d.Column, d.Meaning, d.Unit, d.Kind, d.Better, d.Formula, d.Source})
	}
	for _, x := range []struct {
		code    Code
		meaning string
	}{
		{Empty, "in a number: an input it needs is not given. In an input: the plan's cell is empty and the base's value stands"},
		{NotApplicable, "the variant has no such component or state"},
		{CannotJudge, "an input that guards a stop is missing; ranks beside a stop and never with the passes"},
		{Failed, "the variant could not be made or solved; see the column error"},
	} {
		lines = append(lines, []string{x.code.String(), x.meaning, "", "code", "", "", ""})
	}
	for _, x := range changes.Words(o.System, changeDigits) {
		lines = append(lines, []string{"policy", x, "", "change", "", "", ""})
	}
	for _, l := range lines {
		for i := range l {
			l[i] = csvcell.Text(l[i])
		}
		if err := c.Write(l); err != nil {
			return err
		}
	}
	c.Flush()
	return errors.Join(c.Error())
}

// dictionary describes the columns in order. The headings are made from it, so
// the two cannot differ.
func (t *Table) dictionary() []ColumnDoc {
	text := func(column, meaning string) ColumnDoc {
		return ColumnDoc{Column: column, Meaning: meaning, Kind: "text"}
	}
	count := func(column, meaning string) ColumnDoc {
		return ColumnDoc{Column: column, Meaning: meaning, Kind: "count", Better: "lower"}
	}
	out := []ColumnDoc{
		{Column: "index", Meaning: "row of the plan, from 0", Kind: "count"},
		text("name", "name of the variant"),
		text("outcome", "ok, or error where the variant could not be made or solved"),
		text("verdict", "the gravest severity found: pass, note, fix, cannot judge or stop"),
		count("stops", "findings that are a stop"),
		count("cannot_judge", "findings that an input which guards a stop is missing"),
		count("fixes", "findings to be mended before delivery"),
		count("notes", "findings worth knowing"),
	}
	for _, h := range t.plan.Headings {
		out = append(out, text(h, "input: what the plan says; empty where the base's value stands"))
	}
	if t.o.Long {
		return append(out,
			text("column", "which number: the column of the plan; "+t.columnList()),
			ColumnDoc{Column: "value", Meaning: "the number, at most six digits, or a code", Kind: "number"},
			text("unit", "unit of the value; empty for a plain number"),
			text("path", "the component the number is of"),
			text("state", "the state the number is of, as axis=value pairs"),
			text("reach", "reachable, conceivable or fault"),
			text("error", "what is wrong with a variant that failed"))
	}
	for i := range t.columns {
		c := &t.columns[i]
		out = append(out, c.doc(t.o.System))
	}
	return append(out, text("error", "what is wrong with a variant that failed"))
}

func (t *Table) columnList() string {
	var w []string
	for i := range t.columns {
		d := t.columns[i].doc(t.o.System)
		w = append(w, string(t.columns[i].text)+": "+d.Meaning)
	}
	return strings.Join(w, "; ")
}

func (c *column) doc(sys units.System) ColumnDoc {
	unit := c.metric.Unit(sys).Symbol()
	d := ColumnDoc{Column: string(c.text), Meaning: c.take + ", up to " + c.reach.String() + " states: " + c.metric.Label, Unit: unit, Kind: c.metric.Kind.String(),
		Better: "neither", Formula: c.metric.Formula, Source: c.metric.Source}
	if unit != "" {
		d.Column += " (" + unit + ")"
	}
	if c.state != "" {
		d.Meaning += ", in " + c.state
	}
	switch c.metric.Better {
	case rig.Higher:
		d.Better = "higher"
	case rig.Lower:
		d.Better = "lower"
	}
	return d
}
