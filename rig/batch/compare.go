package batch

import (
	"fmt"
	"math"
	"reflect"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A Comparison sets reports side by side: the same rows for all, differences
// from the first, findings counted. There is no score.
type Comparison struct {
	Names  []string
	Counts []Counts
	Rows   []ComparedRow
	Tie    float64   // share inside which numbers without a stated tolerance tie
	Reach  rig.Reach // states up to this reach are compared
	// Changes are what the policy of each report changed: limits and defaults with
	// who, when and why, and codes that are not checked.
	Changes []rig.PolicyChanges
	// Differs names what is not the same for all: "site", "duty". Numbers of
	// rigs that are asked for different things do not compare.
	Differs []string
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

// A Bound is a number with what its inputs' tolerances make of it: it lies
// within HalfWidth of the reading, in the unit its kind counts in. The effects
// of the inputs are added, so the limits are certain where the inputs' are.
type Bound struct {
	Reading   rig.Reading
	HalfWidth float64
}

// A ComparedCell is one report's number: the worst in the metric's direction.
// Where neither way is better, Low and High are both ends over the states;
// otherwise they are the same.
type ComparedCell struct {
	Given      bool
	Low, High  Bound
	Difference float64 // of High from the first report's, in the unit its kind counts in
	Against    Standing
}

// A Standing compares a number with the first report's.
type Standing uint8

// The standings. Where neither way is better, a difference is just Different.
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

// CompareOptions choose what is compared. The zero value is the default.
type CompareOptions struct {
	// Rows are metrics; nil means the headlines that any of the reports has.
	Rows []rig.Path
	// Tie is the share of the larger number inside which two numbers tie where
	// no tolerance of an input reaches either; zero means 1 %. On a scale of
	// temperature it is a share of 100 K.
	Tie float64
	// Reach is how far from the day's states are compared; zero means
	// rig.Reachable.
	Reach rig.Reach
}

// Compare sets reports side by side. Two numbers tie when the limits that the
// tolerances of their specifications leave them overlap, or, where no stated
// tolerance reaches either, when they differ by no more than a share. A tie is
// never called better or worse.
func Compare(o *CompareOptions, reports ...*rig.Report) (*Comparison, error) {
	if o == nil {
		o = &CompareOptions{}
	}
	c := &Comparison{Tie: o.Tie, Reach: o.Reach}
	if c.Tie == 0 {
		c.Tie = 0.01
	}
	if c.Reach == 0 {
		c.Reach = rig.Reachable
	}
	switch {
	case !(c.Tie > 0) || c.Tie >= 1:
		return nil, &units.FieldError{Path: "tie", Value: units.FormatNumber(o.Tie, 6), Want: "a share above zero and below one", Err: units.ErrRange}
	case c.Reach > rig.Fault:
		return nil, &units.FieldError{Path: "reach", Value: c.Reach.String(), Want: "reachable, conceivable or fault", Err: units.ErrRange}
	case len(reports) == 0:
		return nil, &units.FieldError{Path: "reports", Want: "at least one", Err: units.ErrMissing}
	}
	for i, r := range reports {
		if r == nil {
			return nil, &units.FieldError{Path: fmt.Sprintf("reports[#%d]", i+1), Want: "a report", Err: units.ErrMissing}
		}
	}
	rows, err := o.rows(c.Reach, reports)
	if err != nil {
		return nil, err
	}
	for _, m := range rows {
		c.Rows = append(c.Rows, ComparedRow{Metric: m})
	}
	for _, r := range reports {
		c.Names = append(c.Names, r.Model().Name())
		c.Counts = append(c.Counts, countsOf(r))
		c.Changes = append(c.Changes, r.PolicyChanges())
		cells, err := c.cells(r)
		if err != nil {
			return nil, err
		}
		for i := range c.Rows {
			c.Rows[i].Cells = append(c.Rows[i].Cells, cells[i])
		}
	}
	for i := range c.Rows {
		row := &c.Rows[i]
		base := row.Cells[0]
		for k := 1; k < len(row.Cells); k++ {
			if x := &row.Cells[k]; x.Given && base.Given {
				x.Difference = x.High.Reading.Value.SI() - base.High.Reading.Value.SI()
				x.Against = c.standing(&row.Metric, base, *x)
			}
		}
	}
	c.Differs = differs(reports)
	return c, nil
}

func countsOf(r *rig.Report) Counts {
	return Counts{r.Verdict(), r.Count(rig.Stop), r.Count(rig.CannotJudge), r.Count(rig.Fix), r.Count(rig.Note)}
}

func (o *CompareOptions) rows(reach rig.Reach, reports []*rig.Report) ([]rig.Metric, error) {
	var out []rig.Metric
	if o.Rows != nil {
		for _, p := range o.Rows {
			m, ok := rig.MetricOf(p)
			if !ok {
				return nil, &units.FieldError{Path: "rows", Value: string(p), Want: "the path of a metric, such as lines[].nozzle_pressure", Err: units.ErrRange}
			}
			out = append(out, m)
		}
		return out, nil
	}
	for _, h := range rig.Headlines() {
		for _, r := range reports {
			if _, any := r.WorstAmong(h.Path, rig.State{}, reach); any {
				m, _ := rig.MetricOf(h.Path)
				out = append(out, m)
				break
			}
		}
	}
	return out, nil
}

// ends returns the numbers of a cell: the worst twice, or the lowest and the
// highest where neither way is better.
func ends(r *rig.Report, m *rig.Metric, reach rig.Reach) (low, high rig.Reading, ok bool) {
	if m.Better != rig.Neither {
		w, ok := r.WorstAmong(m.Path, rig.State{}, reach)
		return w, w, ok
	}
	for x := range r.Among(m.Path, rig.State{}, reach) {
		if !ok || x.Value.SI() < low.Value.SI() {
			low = x
		}
		if !ok || x.Value.SI() > high.Value.SI() {
			high = x
		}
		ok = true
	}
	return low, high, ok
}

// cells fills a report's column, with the half-widths that the tolerances of
// its specification make.
func (c *Comparison) cells(r *rig.Report) ([]ComparedCell, error) {
	out := make([]ComparedCell, len(c.Rows))
	for i := range c.Rows {
		x := &out[i]
		x.Low.Reading, x.High.Reading, x.Given = ends(r, &c.Rows[i].Metric, c.Reach)
	}
	for _, s := range r.Model().Spreads() {
		moved, err := c.moved(r, s)
		if err != nil {
			return nil, err
		}
		for i := range out {
			var low, high float64
			for _, v := range moved {
				l, h, ok := ends(v, &c.Rows[i].Metric, c.Reach)
				if ok && out[i].Given {
					low = math.Max(low, math.Abs(l.Value.SI()-out[i].Low.Reading.Value.SI()))
					high = math.Max(high, math.Abs(h.Value.SI()-out[i].High.Reading.Value.SI()))
				}
			}
			out[i].Low.HalfWidth += low
			out[i].High.HalfWidth += high
		}
	}
	return out, nil
}

// moved returns the report with one input at either end of its tolerance. An
// end that the input may not take is left out.
func (c *Comparison) moved(r *rig.Report, s rig.Spread) ([]*rig.Report, error) {
	q, ok := r.Model().Quantity(s.Path)
	if !ok {
		return nil, nil
	}
	lever, err := r.Model().Lever(s.Path)
	if err != nil {
		return nil, err
	}
	var out []*rig.Report
	for _, d := range []float64{s.HalfWidth, -s.HalfWidth} {
		to, err := units.NewQuantity(q.Kind(), q.SI()+d)
		if err != nil {
			continue
		}
		m, err := lever.To(to)
		if err != nil {
			continue
		}
		rep, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			return nil, err
		}
		out = append(out, rep)
	}
	return out, nil
}

func (c *Comparison) standing(m *rig.Metric, base, x ComparedCell) Standing {
	if c.ties(m, base.Low, x.Low) && c.ties(m, base.High, x.High) {
		return Tie
	}
	a, b := base.High.Reading.Value.SI(), x.High.Reading.Value.SI()
	switch {
	case m.Better == rig.Neither:
		return Different
	case (b > a) == (m.Better == rig.Higher):
		return Better
	}
	return Worse
}

func (c *Comparison) ties(m *rig.Metric, x, y Bound) bool {
	a, b := x.Reading.Value.SI(), y.Reading.Value.SI()
	d := math.Abs(a - b)
	if w := x.HalfWidth + y.HalfWidth; w > 0 {
		return d <= w
	}
	if m.Kind == units.KindTemperature {
		return d <= c.Tie*100
	}
	return d <= c.Tie*math.Max(math.Abs(a), math.Abs(b))
}

// differs names what the specifications ask differently of the rigs.
func differs(reports []*rig.Report) []string {
	var out []string
	base := reports[0].Model().Spec()
	var site, duty, policy bool
	for _, r := range reports[1:] {
		s := r.Model().Spec()
		site = site || !reflect.DeepEqual(s.Site, base.Site)
		duty = duty || !reflect.DeepEqual(s.Duty, base.Duty)
		policy = policy || r.PolicyDigest() != reports[0].PolicyDigest()
	}
	for _, x := range []struct {
		is   bool
		what string
	}{{site, "site"}, {duty, "duty"}, {policy, "policy"}} {
		if x.is {
			out = append(out, x.what)
		}
	}
	return out
}
