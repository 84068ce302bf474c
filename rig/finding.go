package rig

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/washrig/units"
)

// A Severity ranks a judgement. The zero Severity is invalid.
type Severity uint8

// The severities, least first. CannotJudge ranks beside Stop and never with the
// passes: an input that guards a stop is missing.
const (
	Pass        Severity = iota + 1 // checked, nothing found; kept in Report.Passed only
	Note                            // worth knowing
	Fix                             // should be mended before the rig is delivered
	CannotJudge                     // an input that guards a stop is missing
	Stop                            // must not be used so
)

var severityNames = [...]string{"invalid", "pass", "note", "fix", "cannot judge", "stop"}

// String names the severity.
func (s Severity) String() string {
	if int(s) < len(severityNames) {
		return severityNames[s]
	}
	return fmt.Sprintf("Severity(%d)", uint8(s))
}

// MarshalText writes the name of a valid severity.
func (s Severity) MarshalText() ([]byte, error) {
	if s < Pass || s > Stop {
		return nil, &units.FieldError{Path: "severity", Value: s.String(), Want: "a valid severity", Err: units.ErrRange}
	}
	return []byte(s.String()), nil
}

// UnmarshalText reads the name of a severity.
func (s *Severity) UnmarshalText(text []byte) error {
	for i, n := range severityNames {
		if i > 0 && n == string(text) {
			*s = Severity(i)
			return nil
		}
	}
	return &units.FieldError{Path: "severity", Value: string(text), Want: "pass, note, fix, cannot judge or stop", Err: units.ErrRange}
}

// A Code names a kind of finding. Codes are stable: apps may match on them.
type Code string

// A Direction says which way a metric is better.
type Direction int8

// The directions of a metric.
const (
	Neither Direction = 0
	Higher  Direction = 1
	Lower   Direction = -1
)

// A Metric is one row of the table of results: columns, worst-of, documents
// and schemas read it.
type Metric struct {
	Path    Path // a pattern such as lines[].nozzle_pressure
	Kind    units.Kind
	Better  Direction
	Label   string // for people
	Formula string // how it is computed
	Source  string // where the formula comes from
	Rule    bool   // a rule of thumb, shown beside a computed value and never judged
	Inputs  []Path // patterns of the specification fields it depends on

	us, si string // units it is shown in; empty: the usual ones of its kind
	row    int    // in the table, from 1; 0 for what is no number of a block
}

// Text returns a value of the metric, or a limit on it, for people: in the unit
// the trade uses for this metric, rounded to at most digits digits.
func (m *Metric) Text(q units.Quantity, s units.System, digits int) string {
	symbol := m.us
	if s == units.SI {
		symbol = m.si
	}
	if symbol != "" {
		for _, u := range q.Kind().Units() {
			if u.String() == symbol {
				return q.TextIn(u, digits)
			}
		}
	}
	return q.Text(s, digits)
}

// Text returns the reading's value for people; see [Metric.Text].
func (r Reading) Text(s units.System, digits int) string {
	if r.Metric == nil {
		return ""
	}
	return r.Metric.Text(r.Value, s, digits)
}

// A Reading is the value of a metric for one component in one state.
type Reading struct {
	Metric *Metric
	Part   string // id of the component, empty if the metric has none
	State  State
	Value  units.Quantity
}

// Path returns the path of the reading: the metric's pattern with the
// component's id in its brackets.
func (r Reading) Path() Path {
	if r.Metric == nil {
		return ""
	}
	return r.Metric.at(r.Part)
}

// comparePath orders readings by their paths, which of one metric differ in the id
// before the bracket.
func (r *Reading) comparePath(o *Reading) int {
	if r.Metric != o.Metric || r.Metric == nil {
		return strings.Compare(string(r.Path()), string(o.Path()))
	}
	a, b := r.Part, o.Part
	if a == b || !strings.Contains(string(r.Metric.Path), "[]") {
		return 0
	}
	n := min(len(a), len(b))
	if x := strings.Compare(a[:n], b[:n]); x != 0 {
		return x
	}
	if len(a) < len(b) {
		return cmp.Compare(']', b[n])
	}
	return cmp.Compare(a[n], ']')
}

// is reports whether p is the path of the metric for a component.
func (m *Metric) is(part string, p Path) bool {
	at := strings.Index(string(m.Path), "[]") + 1
	if at == 0 {
		return m.Path == p
	}
	return len(p) == len(m.Path)+len(part) && p[:at] == m.Path[:at] && string(p[at:at+len(part)]) == part && p[at+len(part):] == m.Path[at:]
}

func (m *Metric) at(part string) Path {
	p := string(m.Path)
	for i := 0; i+1 < len(p); i++ {
		if p[i] == '[' && p[i+1] == ']' {
			return Path(p[:i+1] + part + p[i+1:])
		}
	}
	return m.Path
}

// A Finding is a judgement on a result that stands. It holds numbers, not
// sentences: text is made when it is printed, in the reader's units.
type Finding struct {
	Code     Code
	Severity Severity
	Reading  Reading
	Limit    units.Quantity
	Margin   float64        // signed; negative means the limit is passed by that share of it
	Source   string         // where the limit comes from
	Leans    []Path         // assumed inputs it rests on
	Turns    units.Quantity // value of the first of them at which the verdict changes
	Typical  Band           // plausible band of a missing input, for CannotJudge
	Root     string         // findings of one root cause share it
	Follows  Code           // the finding of that root that brings this one about; empty: it stands for itself
	Found    string         // of a judgement on words: what stands at the path of the reading
	Wanted   string         // of a judgement on words: what should
	Override string         // who changed the limit, when and why; empty if nobody did
}

// A Band is a plausible interval of an input nobody gave.
type Band struct {
	Low, Usual, High units.Quantity
	Source           string
}

// Given reports whether the band was set.
func (b Band) Given() bool { return b.Source != "" }
