package batch_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"iter"
	"runtime"
	"strings"
	"testing"
	"time"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/units"
)

func model(t testing.TB, name string) *rig.Model {
	t.Helper()
	m, err := demo.Model(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// mixed is a plan in which some variants cannot be made.
func mixed(n int) batch.Plan {
	var list []batch.Variant
	for i := range n {
		v := batch.Variant{Name: fmt.Sprintf("v%d", i), Inputs: []batch.Input{{Heading: "site.elevation", Text: fmt.Sprintf("%d ft", 100*i)}}}
		v.Changes = []rig.Change{rig.Set("site.elevation", fmt.Sprintf("%d ft", 100*i))}
		switch i % 7 {
		case 3:
			v.Changes = append(v.Changes, rig.Remove("heaters[heater]"))
		case 5:
			v.Changes = append(v.Changes, rig.Set("lines[left].hose.length", "-5 ft"))
		}
		list = append(list, v)
	}
	return batch.Plan{Variants: batch.List(list...), Headings: []string{"site.elevation"},
		Columns: []batch.Column{"engines[].available", "heaters[heater].clean_firing", "lowest pumps[main].pressure", "highest reachable lines[].flow", "lines[left].flow @ guns=left heat=steady"}}
}

func table(t testing.TB, m *rig.Model, plan batch.Plan, o batch.TableOptions) string {
	t.Helper()
	var b bytes.Buffer
	w, err := batch.NewTable(&b, &plan, o)
	if err != nil {
		t.Fatal(err)
	}
	for row, err := range batch.Run(context.Background(), m, plan) {
		if row.Index < 0 {
			t.Fatal(err)
		}
		if err := w.Write(row, err); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The bytes do not depend on the number of workers, on the run or on whether reports
// are kept.
func TestRun_sameBytesForAnyWorkers(t *testing.T) {
	m := small(t)
	var first string
	for i, workers := range []int{1, 2, 3, 16, 1} {
		plan := mixed(40)
		plan.Workers, plan.Reports = workers, i%2 == 1
		got := table(t, m, plan, batch.TableOptions{})
		if first == "" {
			first = got
			continue
		}
		if got != first {
			t.Fatalf("%d workers give other bytes", workers)
		}
	}
}

// A row of a run is what the variant gives alone: nothing carries over from the
// rows before it.
func TestRun_rowsDependOnTheirOwnVariant(t *testing.T) {
	m := small(t)
	whole := strings.Split(table(t, m, mixed(14), batch.TableOptions{Plain: true}), "\r\n")
	for _, i := range []int{13, 0, 6} {
		plan := mixed(14)
		var alone batch.Plan = plan
		k := 0
		for v, err := range plan.Variants {
			if k == i {
				alone.Variants = batch.List(v)
				_ = err
			}
			k++
		}
		line := strings.Split(table(t, m, alone, batch.TableOptions{Plain: true}), "\r\n")[1]
		if got, want := strings.TrimPrefix(line, "0,"), strings.TrimPrefix(whole[i+1], fmt.Sprint(i, ",")); got != want {
			t.Errorf("row %d alone is\n%s\nin the run\n%s", i, got, want)
		}
	}
}

func TestRun_errorsDoNotEndIt(t *testing.T) {
	failed, rows := 0, 0
	for row, err := range batch.Run(context.Background(), small(t), mixed(14)) {
		if row.Index != rows || row.Name != fmt.Sprintf("v%d", rows) {
			t.Fatalf("row %d is %d, %q", rows, row.Index, row.Name)
		}
		rows++
		if err == nil {
			continue
		}
		failed++
		if !errors.Is(err, units.ErrRange) || row.Cells[0].Code != batch.Failed || row.Report != nil {
			t.Errorf("row %d: %v, %+v", row.Index, err, row.Cells)
		}
	}
	if rows != 14 || failed != 2 {
		t.Errorf("%d rows, %d of them failed; want 14 and 2", rows, failed)
	}
}

// The window bounds how far the plan is read ahead, and with it memory.
func TestRun_readsNoFurtherThanItsWindow(t *testing.T) {
	const workers = 3
	drawn := 0
	plan := mixed(0)
	plan.Workers = workers
	plan.Variants = func(yield func(batch.Variant, error) bool) {
		for yield(batch.Variant{Changes: []rig.Change{rig.Set("site.elevation", fmt.Sprintf("%d ft", drawn))}}, nil) {
			drawn++
		}
	}
	most := 0
	for row, err := range batch.Run(context.Background(), small(t), plan) {
		if err != nil {
			t.Fatal(err)
		}
		most = max(most, drawn-row.Index)
		if row.Index == 60 {
			break
		}
	}
	if most > 4*workers+1 {
		t.Errorf("the plan was read %d variants ahead", most)
	}
}

// live is the memory in use after a collection.
func live() float64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.GC() // what pools hold goes at the second
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc)
}

// What a run keeps alive is the same after many rows as after few: a row that was
// yielded is gone.
func TestRun_memoryDoesNotGrow(t *testing.T) {
	plan := batch.Plan{Workers: 2, Reports: true, Variants: func(yield func(batch.Variant, error) bool) {
		for i := range 421 {
			if !yield(batch.Variant{Changes: []rig.Change{rig.Set("site.elevation", fmt.Sprintf("%d ft", 10*i))}}, nil) {
				return
			}
		}
	}}
	var few, held, many float64
	var kept []*rig.Report
	for row, err := range batch.Run(context.Background(), small(t), plan) {
		if err != nil {
			t.Fatal(err)
		}
		switch i := row.Index; {
		case i == 20:
			few = live()
		case i > 20 && i <= 60:
			if kept = append(kept, row.Report); i == 60 {
				held = live()
				runtime.KeepAlive(kept)
				kept = nil
			}
		case i == 420:
			many = live()
		}
	}
	t.Logf("after 21 rows %.0f kB, with 40 reports kept %.0f kB, after 421 rows %.0f kB", few/1e3, held/1e3, many/1e3)
	if many >= held {
		t.Errorf("400 rows let go keep %.0f kB alive, 40 kept ones %.0f kB", (many-few)/1e3, (held-few)/1e3)
	}
}

// A cancelled run ends after a whole row and says so; no goroutine is left,
// however the loop ends.
func TestRun_cancelAndBreak(t *testing.T) {
	m := small(t)
	before := runtime.NumGoroutine()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	whole, last := 0, error(nil)
	for row, err := range batch.Run(ctx, m, mixed(1000)) {
		if row.Index < 0 {
			last = err
			continue
		}
		if whole++; whole == 5 {
			cancel()
		}
		if err == nil && len(row.Cells) != 5 {
			t.Errorf("row %d is not whole: %+v", row.Index, row)
		}
	}
	if !errors.Is(last, context.Canceled) || whole != 5 {
		t.Errorf("%d rows, then %v", whole, last)
	}
	for range batch.Run(context.Background(), m, mixed(1000)) {
		break
	}
	for range 100 {
		if runtime.NumGoroutine() <= before {
			break
		}
		time.Sleep(time.Millisecond)
	}
	if n := runtime.NumGoroutine(); n > before {
		t.Errorf("%d goroutines before, %d after", before, n)
	}
}

func TestRun_refusesThePlan(t *testing.T) {
	m := small(t)
	ok := mixed(1)
	for _, c := range []struct {
		name string
		set  func(*batch.Plan)
		want string
	}{
		{"no such metric", func(p *batch.Plan) { p.Columns = []batch.Column{"lines[].colour"} }, "lines[].colour"},
		{"no path", func(p *batch.Plan) { p.Columns = []batch.Column{"lowest"} }, "lowest"},
		{"two paths", func(p *batch.Plan) { p.Columns = []batch.Column{"trailer.total trailer.tongue"} }, "trailer.total trailer.tongue"},
		{"empty state", func(p *batch.Plan) { p.Columns = []batch.Column{"trailer.total @ "} }, "after @"},
		{"twice", func(p *batch.Plan) { p.Columns = []batch.Column{"trailer.total", "trailer.total"} }, "once"},
		{"no variants", func(p *batch.Plan) { p.Variants = nil }, "variants"},
		{"workers", func(p *batch.Plan) { p.Workers = -1 }, "workers"},
		{"policy", func(p *batch.Plan) { p.Policy = &rig.Policy{Off: []rig.Code{"no-such"}} }, "policy.off"},
	} {
		p := ok
		c.set(&p)
		n := 0
		for row, err := range batch.Run(context.Background(), m, p) {
			n++
			if err == nil || !strings.Contains(err.Error(), c.want) || row.Index != -1 {
				t.Errorf("%s: row %d, %v", c.name, row.Index, err)
			}
		}
		if n != 1 {
			t.Errorf("%s: %d yields, want one", c.name, n)
		}
	}
	for row, err := range batch.Run(context.Background(), nil, ok) {
		if err == nil || row.Index != -1 {
			t.Errorf("no model: %v", err)
		}
	}
}

// The four codes, each where it belongs and nowhere else.
func TestCodes(t *testing.T) {
	m := small(t)
	plan := batch.Plan{
		Variants: batch.List(
			batch.Variant{Name: "as it is"},
			batch.Variant{Name: "no heater", Changes: []rig.Change{rig.Remove("heaters[heater]")}},
			batch.Variant{Name: "no site", Changes: []rig.Change{rig.Set("site.elevation", "")}},
			batch.Variant{Name: "no inlet limit", Changes: []rig.Change{rig.Set("pumps[main].maximum_inlet_temperature", "")}},
			batch.Variant{Name: "no trailer rating", Changes: []rig.Change{rig.Set("lines[left].hose.length", "nonsense")}},
		),
		Columns: []batch.Column{"heaters[].clean_firing", "engines[washer].available", "pumps[main].bypass_time", "lines[left].flow @ guns=nobody"},
	}
	want := [][]batch.Code{
		{batch.Number, batch.Number, batch.Number, batch.NotApplicable},
		{batch.NotApplicable, batch.Number, batch.Number, batch.NotApplicable},
		{batch.Empty, batch.CannotJudge, batch.Number, batch.NotApplicable},
		{batch.Number, batch.Number, batch.CannotJudge, batch.NotApplicable},
		{batch.Failed, batch.Failed, batch.Failed, batch.Failed},
	}
	for row, err := range batch.Run(context.Background(), m, plan) {
		if (err != nil) != (row.Index == 4) {
			t.Fatalf("%s: %v", row.Name, err)
		}
		for i, c := range row.Cells {
			if c.Code != want[row.Index][i] {
				t.Errorf("%s, %s: %q, want %q", row.Name, c.Column, c.Code, want[row.Index][i])
			}
			if (c.Code == batch.Number) != c.Reading.Value.Given() {
				t.Errorf("%s, %s: code %q beside %v", row.Name, c.Column, c.Code, c.Reading.Value)
			}
		}
	}
	words := map[string]bool{}
	for _, c := range []batch.Code{batch.Empty, batch.NotApplicable, batch.CannotJudge, batch.Failed} {
		if words[c.String()] || c.String() == "" {
			t.Errorf("the word %q is not one code's own", c)
		}
		words[c.String()] = true
	}
}

// What an assumed start with its break-even inside the plausible band guards is
// not passed in a batch either.
func TestRun_cannotJudgeIsNotPassed(t *testing.T) {
	m := model(t, "B")
	change := []rig.Change{rig.Set("loads[dump-pump].starting", ""), rig.Set("loads[dump-pump].part", ""), rig.Set("loads[dump-pump].running", "750 W")}
	changed, err := m.With(change...)
	if err != nil {
		t.Fatal(err)
	}
	rep, err := changed.Assess(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	if rep.Count(rig.CannotJudge) == 0 {
		t.Fatal("the start no longer has its break-even inside its band: the test looks at nothing")
	}
	for row, err := range batch.Run(context.Background(), m, batch.Plan{Variants: batch.List(batch.Variant{Changes: change})}) {
		if err != nil || row.Unjudged != rep.Count(rig.CannotJudge) || row.Verdict != rep.Verdict() {
			t.Errorf("the batch says %+v, %v; the report %v", row.Counts, err, rep.Verdict())
		}
	}
}

func TestGrid(t *testing.T) {
	var names []string
	for v, err := range batch.Grid(batch.Axis{Path: "site.elevation", Texts: []string{"0 ft", "1 ft"}}, batch.Axis{Path: "site.water", Texts: []string{"45 °F", "60 °F", "75 °F"}}) {
		if err != nil || len(v.Changes) != 2 || len(v.Inputs) != 2 {
			t.Fatalf("%+v, %v", v, err)
		}
		names = append(names, v.Name)
	}
	if len(names) != 6 || names[0] != "site.elevation = 0 ft, site.water = 45 °F" || names[1] != "site.elevation = 0 ft, site.water = 60 °F" || names[5] != "site.elevation = 1 ft, site.water = 75 °F" {
		t.Errorf("%q", names)
	}
	for range batch.Grid(batch.Axis{Path: "site.elevation"}) {
		t.Error("a grid with an empty axis has a row")
	}
	n := 0
	for range batch.Grid() {
		n++
	}
	if n != 1 {
		t.Errorf("a grid without axes has %d rows; the base alone is one", n)
	}
}

var sink iter.Seq2[batch.Row, error]

// BenchmarkRun_memory reports what a run keeps alive at its end, by the number of
// its variants: MiB-live does not grow with them.
func BenchmarkRun_memory(b *testing.B) {
	m := model(b, "B")
	for _, variants := range []int{50, 500} {
		b.Run(fmt.Sprintf("variants=%d", variants), func(b *testing.B) {
			most := 0.0
			for b.Loop() {
				plan := batch.Plan{Variants: func(yield func(batch.Variant, error) bool) {
					for i := range variants {
						if !yield(batch.Variant{Changes: []rig.Change{rig.Set("lines[left].hose.length", fmt.Sprintf("%d ft", 50+i%400))}}, nil) {
							return
						}
					}
				}}
				for row, err := range batch.Run(context.Background(), m, plan) {
					if err != nil {
						b.Fatal(err)
					}
					if row.Index == variants-1 {
						most = max(most, live())
					}
				}
			}
			b.ReportMetric(most/(1<<20), "MiB-live")
		})
	}
}

// BenchmarkRun times a variant; compare workers=1 and workers=2 for the gain of
// a second processor. On a machine that does nothing else it is 1.9.
func BenchmarkRun(b *testing.B) {
	m := model(b, "B")
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("workers=%d", workers), func(b *testing.B) {
			b.ReportAllocs()
			n := 0
			plan := batch.Plan{Workers: workers, Columns: []batch.Column{"engines[washer].demand", "heaters[heater].clean_firing"}}
			plan.Variants = func(yield func(batch.Variant, error) bool) {
				for ; n < b.N; n++ {
					if !yield(batch.Variant{Changes: []rig.Change{rig.Set("lines[left].hose.length", fmt.Sprintf("%d ft", 50+n%400))}}, nil) {
						return
					}
				}
			}
			sink = batch.Run(context.Background(), m, plan)
			for _, err := range sink {
				if err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N), "ns/variant")
		})
	}
}
