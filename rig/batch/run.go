package batch

import (
	"context"
	"iter"
	"runtime"
	"sync"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A Row is one variant with its results. Where the variant could not be made or
// solved, its cells say so and the error stands beside the row.
type Row struct {
	Index   int // from 0, in the order of the plan
	Variant Variant
	Name    string // of the variant
	Cells   []Cell
	Counts              // findings; zero for a variant that failed
	Report  *rig.Report // where the plan asks for it
}

// Run assesses the variants of a plan and yields a row for each in the order of
// the plan. A variant that cannot be made or solved yields its row beside the
// error, and the run goes on. A mistake in the plan itself yields one error
// with a row of index -1, before anything is assessed.
//
// A cancelled context ends the run after a whole row; the last yield then has
// the context's error and a row of index -1. Rows wait for one another in a
// window of a few rows for each worker, so memory does not grow with the plan.
// No goroutine is left when the loop ends, however it ends.
func Run(ctx context.Context, base *rig.Model, plan Plan) iter.Seq2[Row, error] {
	return func(yield func(Row, error) bool) {
		columns, err := plan.check()
		if err == nil && base == nil {
			err = &units.FieldError{Path: "base", Want: "a model", Err: units.ErrMissing}
		}
		if err != nil {
			yield(Row{Index: -1}, err)
			return
		}
		r := &run{base: base, plan: &plan, columns: columns}
		// What the variants share with the base is solved once for all of them. Should
		// the base have no answer, each variant says so itself.
		_, _ = base.Assess(plan.Policy, &rig.AssessOptions{SkipBreakEven: true})
		r.rows(ctx, yield)
	}
}

// Validate reports whether Run would take the plan. Variants are looked at when
// they are drawn.
func (p *Plan) Validate() error {
	_, err := p.check()
	return err
}

func (p *Plan) check() ([]column, error) {
	columns, err := parseColumns(p.Columns)
	switch {
	case err != nil:
		return nil, err
	case p.Variants == nil:
		return nil, &units.FieldError{Path: "variants", Want: "the rows of the plan", Err: units.ErrMissing}
	case p.Workers < 0:
		return nil, &units.FieldError{Path: "workers", Want: "zero or more", Err: units.ErrRange}
	}
	return columns, p.Policy.Validate()
}

// ballast is memory that a run holds and never touches, so that it is no more than a
// promise of the system. A variant leaves a quarter of a megabyte of garbage beside two
// that live: the collector, which waits until what lives has doubled, would run every
// nine variants and keep a second processor busy; so it runs every hundred and thirty.
const ballast = 16 << 20

// window is how many rows each worker may be ahead of the one that is yielded.
const window = 4

type run struct {
	base    *rig.Model
	plan    *Plan
	columns []column
}

// A slot is a row on its way: done is closed when row and err are set.
type slot struct {
	row  Row
	err  error // of reading the plan, or of the variant
	done chan struct{}
}

func (r *run) rows(ctx context.Context, yield func(Row, error) bool) {
	defer runtime.KeepAlive(make([]byte, ballast))
	workers := r.plan.Workers
	if workers == 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	ahead := workers * window
	jobs := make(chan *slot, ahead)
	stop, cancel := context.WithCancel(ctx)
	var wg sync.WaitGroup
	for range workers {
		wg.Go(func() {
			var w *rig.Workspace
			if !r.plan.Reports {
				w = new(rig.Workspace)
			}
			for s := range jobs {
				if s.err == nil && stop.Err() == nil {
					s.err = r.assess(&s.row, w)
				}
				if s.err != nil {
					r.fail(&s.row)
				}
				close(s.done)
			}
		})
	}
	defer wg.Wait()
	defer close(jobs)
	defer cancel()

	next, end := iter.Pull2(r.plan.Variants)
	defer end()
	var pending []*slot
	index, more := 0, true
	for {
		for more && len(pending) < ahead && ctx.Err() == nil {
			v, err, ok := next()
			if !ok {
				more = false
				break
			}
			s := &slot{row: Row{Index: index, Variant: v, Name: v.Name}, err: err, done: make(chan struct{})}
			index++
			pending = append(pending, s)
			jobs <- s // never blocks: the channel holds the window
		}
		if err := ctx.Err(); err != nil {
			yield(Row{Index: -1}, err)
			return
		}
		if len(pending) == 0 {
			return
		}
		s := pending[0]
		pending = append(pending[:0], pending[1:]...)
		select {
		case <-s.done:
		case <-ctx.Done():
			yield(Row{Index: -1}, ctx.Err())
			return
		}
		if !yield(s.row, s.err) {
			return
		}
	}
}

func (r *run) assess(row *Row, w *rig.Workspace) error {
	m, err := r.base.With(row.Variant.Changes...)
	if err != nil {
		return err
	}
	rep, err := m.Assess(r.plan.Policy, &rig.AssessOptions{SkipBreakEven: !r.plan.BreakEven, BandEnds: true, Workspace: w})
	if err != nil {
		return err
	}
	if row.Counts = countsOf(rep); r.plan.Reports {
		row.Report = rep
	}
	row.Cells = make([]Cell, len(r.columns))
	for i := range r.columns {
		row.Cells[i] = r.columns[i].cell(rep)
	}
	return nil
}

func (r *run) fail(row *Row) {
	row.Cells = make([]Cell, len(r.columns))
	for i := range r.columns {
		row.Cells[i] = Cell{Column: r.columns[i].text, Code: Failed}
	}
}
