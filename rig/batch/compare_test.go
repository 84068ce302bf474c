package batch_test

import (
	"errors"
	"math"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/units"
)

// toleranced returns a report of rig B with changes and a table of tolerances
// in place of its own.
func toleranced(t testing.TB, tolerance map[rig.Path]string, changes ...rig.Change) *rig.Report {
	t.Helper()
	base := model(t, "B")
	s := base.Written()
	s.Tolerance = tolerance
	if err := s.Apply(changes...); err != nil {
		t.Fatal(err)
	}
	m, err := rig.New(s, base.Shelf())
	if err != nil {
		t.Fatal(err)
	}
	rep, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		t.Fatal(err)
	}
	return rep
}

func compare(t testing.TB, o *batch.CompareOptions, reports ...*rig.Report) *batch.Comparison {
	t.Helper()
	c, err := batch.Compare(o, reports...)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func cellOf(t testing.TB, c *batch.Comparison, p rig.Path, i int) batch.ComparedCell {
	t.Helper()
	for _, r := range c.Rows {
		if r.Metric.Path == p {
			return r.Cells[i]
		}
	}
	t.Fatalf("no row %s", p)
	return batch.ComparedCell{}
}

// The weight of the trailer is a sum, so the tolerance of one mass is the
// tolerance of the sum, and two tolerances add.
func TestCompare_halfWidthsAdd(t *testing.T) {
	one := map[rig.Path]string{"trailer.mass": "20 lb"}
	both := map[rig.Path]string{"trailer.mass": "20 lb", "items[skid].mass": "15 lb"}
	const total = "trailer.total"
	c := compare(t, nil, toleranced(t, nil), toleranced(t, one), toleranced(t, both))
	for i, want := range []float64{0, 20, 35} {
		if got := units.Mass(cellOf(t, c, total, i).High.HalfWidth).In(units.Pound); math.Abs(got-want) > 1e-6 {
			t.Errorf("report %d: half-width %g lb, want %g", i, got, want)
		}
	}
}

// A difference inside the limits that tolerances leave is a tie, one outside is
// not, and neither is a matter of the share.
func TestCompare_ties(t *testing.T) {
	heavier := func(by string) rig.Change { return rig.Set("trailer.mass", by) }
	base := model(t, "B")
	mass, ok := base.Quantity("trailer.mass")
	if !ok {
		t.Fatal("the trailer has no mass")
	}
	plus := func(lb float64) string {
		return units.Mass(mass.SI()+lb*units.Pound.In(units.Kilogram)).Text(units.Pound, 9)
	}
	tol := map[rig.Path]string{"trailer.mass": "20 lb"}
	for _, c := range []struct {
		name string
		a, b map[rig.Path]string
		more float64 // lb
		want batch.Standing
	}{
		{"within both tolerances", tol, tol, 39, batch.Tie},
		{"outside both tolerances", tol, tol, 41, batch.Worse},
		{"within the base's alone", tol, nil, 19, batch.Tie},
		{"outside the base's alone", tol, nil, 21, batch.Worse},
		{"lighter", tol, tol, -41, batch.Better},
		{"no tolerance, within a share of 1 %", nil, nil, 60, batch.Tie},
		{"no tolerance, outside it", nil, nil, 90, batch.Worse},
	} {
		got := compare(t, nil, toleranced(t, c.a), toleranced(t, c.b, heavier(plus(c.more))))
		x := cellOf(t, got, "trailer.total", 1)
		if x.Against != c.want {
			t.Errorf("%s: %v, want %v (%+v)", c.name, x.Against, c.want, x)
		}
		if d := units.Mass(x.Difference).In(units.Pound); math.Abs(d-c.more) > 1e-3 {
			t.Errorf("%s: the difference is %g lb, want %g", c.name, d, c.more)
		}
	}
}

// Where neither way is better, both ends stand, and the pair ties only if both
// ends do.
func TestCompare_neitherWay(t *testing.T) {
	d := model(t, "D")
	rd, err := d.Assess(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	c := compare(t, nil, toleranced(t, nil), rd, toleranced(t, nil))
	x := cellOf(t, c, "trailer.tongue_share", 1)
	if x.Against != batch.Different || x.Low.Reading.Value.SI() >= x.High.Reading.Value.SI() {
		t.Errorf("rig D's tongue: %+v", x)
	}
	if y := cellOf(t, c, "trailer.tongue_share", 2); y.Against != batch.Tie {
		t.Errorf("a rig with itself: %v", y.Against)
	}
	if y := cellOf(t, c, "trailer.tongue_share", 0); y.Against != batch.Base || y.Difference != 0 {
		t.Errorf("the base: %+v", y)
	}
}

// A rig is a tie with itself in every row, and swapping two rigs swaps better
// and worse.
func TestCompare_swap(t *testing.T) {
	var reports []*rig.Report
	for _, n := range demo.Names() {
		m := model(t, n)
		r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			t.Fatal(err)
		}
		reports = append(reports, r)
	}
	opposite := map[batch.Standing]batch.Standing{batch.Better: batch.Worse, batch.Worse: batch.Better, batch.Tie: batch.Tie, batch.Different: batch.Different, batch.Base: batch.Base}
	for i, a := range reports {
		for _, b := range reports[i:] {
			there, back := compare(t, nil, a, b), compare(t, nil, b, a)
			for k := range there.Rows {
				x, y := there.Rows[k].Cells[1], back.Rows[k].Cells[1]
				if y.Against != opposite[x.Against] || x.Difference != -y.Difference {
					t.Errorf("%s: %v there, %v back", there.Rows[k].Metric.Path, x.Against, y.Against)
				}
				if a == b && x.Given && x.Against != batch.Tie {
					t.Errorf("%s: a rig is %v than itself", there.Rows[k].Metric.Path, x.Against)
				}
			}
		}
	}
}

// Counts are the report's, every rig has every row, and what is asked of the
// rigs differently is named.
func TestCompare_rowsAndCounts(t *testing.T) {
	a := toleranced(t, nil)
	b := toleranced(t, nil, rig.Set("site.elevation", "0 ft"), rig.Set("duty.gun_temperature", "150 °F"))
	c := compare(t, nil, a, b)
	for i, r := range []*rig.Report{a, b} {
		if n := c.Counts[i]; n.Stops != r.Count(rig.Stop) || n.Fixes != r.Count(rig.Fix) || n.Notes != r.Count(rig.Note) || n.Unjudged != r.Count(rig.CannotJudge) || n.Verdict != r.Verdict() {
			t.Errorf("report %d: %+v", i, n)
		}
	}
	for _, r := range c.Rows {
		if len(r.Cells) != 2 {
			t.Errorf("%s has %d cells", r.Metric.Path, len(r.Cells))
		}
	}
	if len(c.Differs) != 2 || c.Differs[0] != "site" || c.Differs[1] != "duty" {
		t.Errorf("differs: %q", c.Differs)
	}
	if got := compare(t, &batch.CompareOptions{Rows: []rig.Path{"pumps[].pressure"}}, a, b); len(got.Rows) != 1 || len(got.Differs) != 2 {
		t.Errorf("%+v", got)
	}
	conceivable := compare(t, &batch.CompareOptions{Rows: []rig.Path{"trailer.total"}, Reach: rig.Conceivable}, a)
	day := compare(t, &batch.CompareOptions{Rows: []rig.Path{"trailer.total"}}, a)
	if x, y := conceivable.Rows[0].Cells[0].High.Reading.Value.SI(), day.Rows[0].Cells[0].High.Reading.Value.SI(); !(x > y) {
		t.Errorf("the corners weigh %g, the day %g", x, y)
	}
}

func TestCompare_refuses(t *testing.T) {
	a := toleranced(t, nil)
	for _, c := range []struct {
		o       *batch.CompareOptions
		reports []*rig.Report
		want    error
	}{
		{nil, nil, units.ErrMissing},
		{nil, []*rig.Report{a, nil}, units.ErrMissing},
		{&batch.CompareOptions{Tie: -0.1}, []*rig.Report{a}, units.ErrRange},
		{&batch.CompareOptions{Tie: 1}, []*rig.Report{a}, units.ErrRange},
		{&batch.CompareOptions{Tie: math.NaN()}, []*rig.Report{a}, units.ErrRange},
		{&batch.CompareOptions{Reach: 9}, []*rig.Report{a}, units.ErrRange},
		{&batch.CompareOptions{Rows: []rig.Path{"lines[].colour"}}, []*rig.Report{a}, units.ErrRange},
	} {
		if _, err := batch.Compare(c.o, c.reports...); !errors.Is(err, c.want) {
			t.Errorf("%+v: %v, want %v", c.o, err, c.want)
		}
	}
}
