package batch

import (
	"context"
	"iter"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A Variant is one row of a plan: its name and its changes to the base.
type Variant struct {
	Name    string
	Changes []rig.Change
}

// A Plan says what is run and which results are kept. A column is the path of a
// metric; a pattern such as lines[].nozzle_pressure takes the worst over the
// components. The worst state counts, as in rig.Report.Worst.
type Plan struct {
	Variants []Variant
	Columns  []rig.Path
	Policy   *rig.Policy
}

// A Cell is one number of a row.
type Cell struct {
	Path    rig.Path
	Reading rig.Reading
	Given   bool // false: the variant has no such number
}

// A Row is one variant with its results.
type Row struct {
	Index    int
	Name     string
	Cells    []Cell
	Verdict  rig.Severity
	Stops    int // findings by severity
	Unjudged int
	Fixes    int
	Notes    int
	Report   *rig.Report
}

// Run assesses the variants of a plan in order. A variant that cannot be made
// or solved yields a row with its index and name beside the error, and the run
// goes on; a cancelled context ends it after a whole row.
func Run(ctx context.Context, base *rig.Model, plan Plan) iter.Seq2[Row, error] {
	return func(yield func(Row, error) bool) {
		known := map[rig.Path]bool{}
		for _, m := range rig.Metrics() {
			known[m.Path] = true
		}
		for _, p := range plan.Columns {
			if !known[p.Pattern()] {
				yield(Row{Index: -1}, &units.FieldError{Path: "columns", Value: string(p), Want: "the path of a metric, such as lines[].nozzle_pressure", Err: units.ErrRange})
				return
			}
		}
		for i, v := range plan.Variants {
			if err := ctx.Err(); err != nil {
				yield(Row{Index: i, Name: v.Name}, err)
				return
			}
			row, err := one(base, plan, i, v)
			if !yield(row, err) {
				return
			}
		}
	}
}

func one(base *rig.Model, plan Plan, i int, v Variant) (Row, error) {
	row := Row{Index: i, Name: v.Name}
	m, err := base.With(v.Changes...)
	if err != nil {
		return row, err
	}
	rep, err := m.Assess(plan.Policy, &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		return row, err
	}
	row.Report, row.Verdict = rep, rep.Verdict()
	row.Stops, row.Unjudged, row.Fixes, row.Notes = rep.Count(rig.Stop), rep.Count(rig.CannotJudge), rep.Count(rig.Fix), rep.Count(rig.Note)
	for _, p := range plan.Columns {
		r, ok := rep.Worst(p)
		row.Cells = append(row.Cells, Cell{p, r, ok})
	}
	return row, nil
}

// Sweep makes a variant for each text: the field at path set to it.
func Sweep(path rig.Path, texts ...string) []Variant {
	out := make([]Variant, len(texts))
	for i, t := range texts {
		out[i] = Variant{Name: string(path) + " = " + t, Changes: []rig.Change{rig.Set(path, t)}}
	}
	return out
}
