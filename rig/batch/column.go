package batch

import (
	"fmt"
	"strings"

	"example.com/washrig/internal/problem"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A Column says which number of a variant is kept, as a text:
//
//	engines[washer].demand                            the worst state, as rig.Report.Worst takes it
//	lines[].nozzle_pressure                           the worst component too
//	lowest trailer.tongue_share                       the lowest over the states; also highest, worst
//	highest reachable trailer.total                   of the states the day reaches; also conceivable, fault
//	lines[left].flow @ guns=left heat=steady          among the states that agree with these axes
//
// The parts stand in this order; all but the path may be left out. Without a
// reach, states that nothing prevents count and faults do not.
type Column string

// A column is the parsed form of a Column.
type column struct {
	text   Column
	path   rig.Path
	metric rig.Metric
	take   string // worst, lowest or highest
	reach  rig.Reach
	state  string // text of a state, empty for all
}

func (c Column) parse() (column, error) {
	out := column{text: c, take: "worst", reach: rig.Conceivable}
	body, state, filtered := strings.Cut(string(c), "@")
	if filtered {
		out.state = strings.Join(strings.Fields(state), " ")
		if out.state == "" {
			return out, c.wrong("a state after @, such as @ guns=left heat=steady")
		}
	}
	words := strings.Fields(body)
	if len(words) > 0 && (words[0] == "worst" || words[0] == "lowest" || words[0] == "highest") {
		out.take, words = words[0], words[1:]
	}
	if len(words) > 0 {
		for _, r := range []rig.Reach{rig.Reachable, rig.Conceivable, rig.Fault} {
			if words[0] == r.String() {
				out.reach, words = r, words[1:]
				break
			}
		}
	}
	if len(words) != 1 {
		return out, c.wrong("the path of a metric, such as lines[].nozzle_pressure")
	}
	out.path = rig.Path(words[0])
	m, ok := rig.MetricOf(out.path)
	if !ok {
		return out, c.wrong("the path of a metric, such as lines[].nozzle_pressure")
	}
	out.metric = m
	return out, nil
}

func (c Column) wrong(want string) error {
	return &units.FieldError{Path: "columns", Value: string(c), Want: want, Err: units.ErrRange}
}

// parseColumns parses all; every mistake is reported.
func parseColumns(list []Column) ([]column, error) {
	out := make([]column, 0, len(list))
	seen := map[Column]bool{}
	for _, c := range list {
		x, err := c.parse()
		if err != nil {
			return nil, err
		}
		if seen[c] {
			return nil, &units.FieldError{Path: "columns", Value: string(c), Want: "each column once", Err: problem.Words("given twice", units.ErrConflict)}
		}
		seen[c] = true
		out = append(out, x)
	}
	return out, nil
}

// A Code says why a cell has no number. The words are stable; they stand in the
// cell where a number would.
type Code uint8

// The codes of a cell. None is mistaken for another: what is not there is not
// what nobody gave, and neither is what must not be passed.
const (
	Number        Code = iota // there is a number
	Empty                     // the component is there, but an input the number needs is not given
	NotApplicable             // the rig has no such component or state
	CannotJudge               // an input that guards a stop is missing
	Failed                    // the variant could not be made or solved
)

var codeWords = [...]string{"", "empty", "n/a", "cannot-judge", "error"}

// String returns the word that stands in a cell; empty for a number.
func (c Code) String() string {
	if int(c) < len(codeWords) {
		return codeWords[c]
	}
	return fmt.Sprintf("Code(%d)", uint8(c))
}

// A Cell is one number of a row, or the reason why there is none.
type Cell struct {
	Column  Column
	Code    Code
	Reading rig.Reading // of a number: its component, state and value
}

// cell takes the column's number from a report.
func (c *column) cell(rep *rig.Report) Cell {
	out := Cell{Column: c.text}
	m := rep.Model()
	var state rig.State
	if c.state != "" {
		s, err := m.ParseState(c.state)
		if err != nil {
			out.Code = NotApplicable // this rig has no such state
			return out
		}
		state = s
	}
	ok := false
	for r := range rep.Among(c.path, state, max(c.reach, state.Reach())) {
		if !ok || c.replaces(r.Value.SI(), out.Reading.Value.SI()) {
			out.Reading, ok = r, true
		}
	}
	switch {
	case ok:
	case guarded(rep, c.path):
		out.Code = CannotJudge
	case m.Has(c.path):
		out.Code = Empty
	default:
		out.Code = NotApplicable
	}
	return out
}

func (c *column) replaces(x, best float64) bool {
	switch c.take {
	case "lowest":
		return x < best
	case "highest":
		return x > best
	}
	if c.metric.Better == rig.Higher {
		return x < best
	}
	return x > best
}

// guarded reports whether a number is missing because an input that guards a
// stop is.
func guarded(rep *rig.Report, p rig.Path) bool {
	for _, f := range rep.Findings() {
		if f.Severity != rig.CannotJudge || f.Reading.Value.Given() || f.Reading.Metric == nil {
			continue
		}
		if f.Reading.Path() == p || f.Reading.Metric.Path == p || (f.Reading.Part == "" && f.Reading.Metric.Path == p.Pattern()) {
			return true
		}
	}
	return false
}
