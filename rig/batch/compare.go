package batch

import (
	"math"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A Comparison sets reports side by side: the same rows for all, differences
// from the first, findings counted. There is no score.
type Comparison struct {
	Names  []string
	Counts []Counts
	Rows   []ComparedRow
}

// Counts are the findings of one report.
type Counts struct {
	Verdict                       rig.Severity
	Stops, Unjudged, Fixes, Notes int
}

// A ComparedRow is one metric over all reports, worst component and state of
// each.
type ComparedRow struct {
	Metric rig.Metric
	Cells  []ComparedCell
}

// A ComparedCell is one report's number. Against is the standing of the number
// against the first report's in the metric's direction.
type ComparedCell struct {
	Given      bool
	Reading    rig.Reading
	Difference float64 // value − first value, SI
	Against    Standing
}

// A Standing compares a number with the base's.
type Standing uint8

// The standings. Where the metric has no better direction a difference is just
// Different.
const (
	Base Standing = iota
	Tie
	Better
	Worse
	Different
)

// String names the standing.
func (s Standing) String() string {
	return [...]string{"base", "tie", "better", "worse", "different"}[min(int(s), 4)]
}

// Rows is the list of metrics a comparison shows unless told otherwise.
func Rows() []rig.Path {
	return []rig.Path{"lines[].nozzle_pressure", "lines[].flow", "pumps[].pressure", "pumps[].bypass_time", "engines[].demand", "engines[].available",
		"heaters[].outlet_temperature", "heaters[].firing_rate", "heaters[].clean_firing", "sources[].start_peak", "sources[].start_limit",
		"trailer.total", "trailer.tongue", "trailer.tongue_share", "tow_vehicle.combination"}
}

// Compare sets reports side by side. Two numbers are a tie when they differ by
// no more than tie times the larger.
func Compare(rows []rig.Path, tie float64, reports ...*rig.Report) (*Comparison, error) {
	if !(tie >= 0) || math.IsInf(tie, 0) {
		return nil, &units.FieldError{Path: "tie", Want: "zero or more", Err: units.ErrRange}
	}
	if len(rows) == 0 {
		rows = Rows()
	}
	c := &Comparison{}
	for _, r := range reports {
		c.Names = append(c.Names, r.Model().Name())
		c.Counts = append(c.Counts, Counts{r.Verdict(), r.Count(rig.Stop), r.Count(rig.CannotJudge), r.Count(rig.Fix), r.Count(rig.Note)})
	}
	byPath := map[rig.Path]rig.Metric{}
	for _, m := range rig.Metrics() {
		byPath[m.Path] = m
	}
	for _, p := range rows {
		m, ok := byPath[p.Pattern()]
		if !ok {
			return nil, &units.FieldError{Path: "rows", Value: string(p), Want: "the path of a metric", Err: units.ErrRange}
		}
		row := ComparedRow{Metric: m}
		for i, r := range reports {
			reading, ok := r.Worst(p)
			cell := ComparedCell{Given: ok, Reading: reading}
			if ok && i > 0 && row.Cells[0].Given {
				a, b := row.Cells[0].Reading.Value.SI(), reading.Value.SI()
				cell.Difference = b - a
				cell.Against = standing(m.Better, a, b, tie)
			}
			row.Cells = append(row.Cells, cell)
		}
		c.Rows = append(c.Rows, row)
	}
	return c, nil
}

func standing(better rig.Direction, base, x, tie float64) Standing {
	if math.Abs(x-base) <= tie*math.Max(math.Abs(x), math.Abs(base)) {
		return Tie
	}
	switch {
	case better == rig.Neither:
		return Different
	case (x > base) == (better == rig.Higher):
		return Better
	}
	return Worse
}
