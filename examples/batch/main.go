// Command batch runs a table of changes to a rig and writes tidy rows.
//
// With no arguments it runs a small built-in plan on rig B of the demo
// scenario. With -spec and -plan it runs the caller's own:
//
//	go run ./examples/batch -spec mine.json -parts shelf.json -plan changes.csv > rows.csv
//	go run ./examples/batch -plan changes.jsonl -column 'lowest trailer.tongue_share' -long
//	go run ./examples/batch -dictionary columns.csv > rows.csv
//
// A plan is CSV or JSON Lines. Its headings are paths of the specification, or
// replace, add, copy or remove and a path; batch.ReadCSV has the words. Rows
// come in the order of the plan, as they are done, and are the same bytes for
// any number of workers. While standard error is a terminal, progress is shown
// there.
//
// Mistakes in the files, the headings or the columns are known before the first
// row: they print on standard error and nothing on standard output. A variant
// that cannot be made or solved is a row that says so.
//
// Exit codes: 0 it ran; 1 bad input, a variant that failed, an interrupted run
// or output that could not be written; 3 with -fail-on, a finding of that
// weight.
package main

import (
	"bufio"
	"context"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"time"

	"example.com/washrig/examples/internal/load"
	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
)

//go:embed plan.csv
var builtIn string

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// Exit codes.
const (
	ran      = 0
	badInput = 1
	found    = 3
)

func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	fs := flag.NewFlagSet("batch", flag.ContinueOnError)
	fs.SetOutput(stderr)
	var files load.Files
	var columns load.List
	fs.Var((*load.List)(&files.Specs), "spec", "specification `file` of the base; without it a rig of the demo")
	fs.Var((*load.List)(&files.Parts), "parts", "shelf of parts, a JSON or CSV `file`; a later one lies on top")
	fs.StringVar(&files.Mapping, "mapping", "", "what the columns of CSV shelves mean, a JSON `file`")
	fs.StringVar(&files.Policy, "policy", "", "changed limits and defaults, house rules, a JSON `file`")
	fs.StringVar(&files.Rig, "rig", "", "of the demo, the rig of this `name` (default B)")
	planFile := fs.String("plan", "", "table of changes, a CSV or JSON Lines (.jsonl) `file`; - for CSV on standard input")
	fs.Var(&columns, "column", "number to keep, such as engines[washer].demand or 'lowest trailer.tongue_share'; repeat the flag for more (default: the headlines the rig has)")
	system := fs.String("units", "us", "units to write: us or si")
	long := fs.Bool("long", false, "write a line for each number instead of a line for each variant")
	plain := fs.Bool("plain", false, "leave out the cautions before the headings")
	dictionary := fs.String("dictionary", "", "write what the columns mean into a CSV `file`")
	workers := fs.Int("workers", 0, "variants assessed at once (default: one for each processor)")
	breakEven := fs.Bool("break-even", false, "search where verdicts turn; takes a hundred times as long")
	failOn := fs.String("fail-on", "", "exit with 3 if a variant has a finding of this weight: stop (also cannot judge), fix or note")
	if err := fs.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return ran
		}
		return badInput
	}
	fail := func(err error) int {
		for _, line := range strings.Split(err.Error(), "\n") {
			fmt.Fprintln(stderr, "batch:", line)
		}
		return badInput
	}
	sys, err := load.System(*system)
	limit, errFail := load.FailOn(*failOn)
	if err = errors.Join(err, errFail); err == nil && fs.NArg() > 0 {
		err = fmt.Errorf("%q: want flags only", fs.Arg(0))
	}
	if err != nil {
		return fail(err)
	}
	if len(files.Specs) == 0 && files.Rig == "" {
		files.Rig = "B"
	}
	set, err := files.Read()
	if err == nil && len(set.Models) != 1 {
		err = errors.New("-spec: want one base")
	}
	if err != nil {
		return fail(err)
	}
	for _, w := range set.Warnings {
		fmt.Fprintln(stderr, "batch:", w)
	}
	base := set.Models[0]
	plan := batch.Plan{Columns: headlines(base), Policy: set.Policy, Workers: *workers, BreakEven: *breakEven}
	if len(columns) > 0 {
		plan.Columns = nil
		for _, c := range columns {
			plan.Columns = append(plan.Columns, batch.Column(c))
		}
	}
	source, done, err := open(*planFile, stdin)
	if err != nil {
		return fail(err)
	}
	defer done()
	read := batch.ReadCSV
	if strings.HasSuffix(*planFile, ".jsonl") || strings.HasSuffix(*planFile, ".ndjson") {
		read = batch.ReadLines
	}
	if plan.Headings, plan.Variants, err = read(source, base); err == nil {
		err = plan.Validate()
	}
	if err != nil {
		return fail(err)
	}
	o := batch.TableOptions{System: sys, Long: *long, Plain: *plain}
	if *dictionary != "" {
		if err := writeDictionary(*dictionary, &plan, o); err != nil {
			return fail(err)
		}
	}
	return rows(ctx, base, plan, o, limit, stdout, stderr, fail)
}

func rows(ctx context.Context, base *rig.Model, plan batch.Plan, o batch.TableOptions, limit rig.Severity, stdout, stderr io.Writer, fail func(error) int) int {
	out := bufio.NewWriter(stdout)
	table, err := batch.NewTable(out, &plan, o)
	if err != nil {
		return fail(err)
	}
	progress := newProgress(stderr)
	n, failed, grave := 0, 0, false
	var ended error
	for row, err := range batch.Run(ctx, base, plan) {
		if row.Index < 0 {
			ended = err
			break
		}
		n++
		if err != nil {
			failed++
		} else if limit != 0 && row.Verdict >= limit {
			grave = true
		}
		if ended = table.Write(row, err); ended != nil {
			break
		}
		progress.row(n, failed)
	}
	progress.end()
	// whole rows are kept, also of a run that was cut short
	if err := errors.Join(table.Flush(), out.Flush()); ended == nil {
		ended = err
	}
	switch {
	case errors.Is(ended, context.Canceled):
		return fail(fmt.Errorf("interrupted after %d variants", n))
	case ended != nil:
		return fail(ended)
	case failed > 0:
		return fail(fmt.Errorf("%d of %d variants could not be made or solved; the column error says why", failed, n))
	case grave:
		return found
	}
	return ran
}

// headlines are the columns kept when none is named: the numbers that pages
// show first, as far as the base has them.
func headlines(m *rig.Model) []batch.Column {
	var out []batch.Column
	for _, h := range rig.Headlines() {
		if m.Has(h.Path) {
			out = append(out, batch.Column(h.Path))
		}
	}
	return out
}

// open returns the plan's text: a file, standard input, or the built-in plan.
func open(name string, stdin io.Reader) (io.Reader, func(), error) {
	switch name {
	case "":
		return strings.NewReader(builtIn), func() {}, nil
	case "-":
		return stdin, func() {}, nil
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, nil, err
	}
	return f, func() { _ = f.Close() }, nil // it was read, nothing can be lost
}

func writeDictionary(name string, plan *batch.Plan, o batch.TableOptions) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	return errors.Join(batch.WriteDictionary(f, plan, o), f.Close())
}

// A progress tells how far a run is, on a terminal only and a few times a
// second.
type progress struct {
	w    io.Writer // nil: standard error is no terminal
	last time.Time
	said bool
}

func newProgress(w io.Writer) *progress {
	f, ok := w.(*os.File)
	if !ok {
		return &progress{}
	}
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return &progress{}
	}
	return &progress{w: w, last: time.Now()}
}

func (p *progress) row(n, failed int) {
	if p.w == nil || time.Since(p.last) < 200*time.Millisecond {
		return
	}
	p.last, p.said = time.Now(), true
	fmt.Fprintf(p.w, "\r%d variants, %d failed", n, failed)
}

func (p *progress) end() {
	if p.said {
		fmt.Fprint(p.w, "\r                                        \r")
	}
}
