// Command quote judges wash rigs and prints each on a page.
//
// With no arguments it judges the four invented rigs of the demo scenario and
// compares them. With -spec it judges the caller's own.
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/rig/parts"
	"example.com/washrig/rig/quote"
	"example.com/washrig/rig/sheet"
	"example.com/washrig/units"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// Exit codes.
const (
	ran      = 0
	badInput = 1
	found    = 3
)

type files []string

func (f *files) String() string     { return strings.Join(*f, " ") }
func (f *files) Set(s string) error { *f = append(*f, s); return nil }

func run(args []string, stdout, stderr io.Writer) int {
	fs := flag.NewFlagSet("quote", flag.ContinueOnError)
	fs.SetOutput(stderr)
	var specs files
	fs.Var(&specs, "spec", "specification `file`; more may follow it or be given by repeating the flag")
	shelfFile := fs.String("parts", "", "shelf of parts, a JSON `file`")
	bookFile := fs.String("book", "", "price book, a JSON `file`; without it no price is printed for -spec")
	system := fs.String("units", "us", "units to print: us or si")
	asJSON := fs.Bool("json", false, "print the reports as data")
	full := fs.Bool("full", false, "print every judgement and every assumed value")
	failOn := fs.String("fail-on", "", "exit with 3 if a rig has a finding of this weight: stop (also cannot judge), fix or note")
	if err := fs.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return ran
		}
		return badInput
	}
	specs = append(specs, fs.Args()...)
	fail := func(err error) int {
		for _, line := range strings.Split(err.Error(), "\n") {
			fmt.Fprintln(stderr, "quote:", line)
		}
		return badInput
	}
	o := sheet.Options{Full: *full}
	switch *system {
	case "us":
		o.System = units.US
	case "si":
		o.System = units.SI
	default:
		return fail(fmt.Errorf("-units %q: want us or si", *system))
	}
	limit := map[string]rig.Severity{"": 0, "stop": rig.CannotJudge, "fix": rig.Fix, "note": rig.Note}[*failOn]
	if *failOn != "" && limit == 0 {
		return fail(fmt.Errorf("-fail-on %q: want stop, fix or note", *failOn))
	}
	models, book, err := load(specs, *shelfFile, *bookFile)
	if err != nil {
		return fail(err)
	}

	var reports []*rig.Report
	var quotes []*quote.Quote
	for _, m := range models {
		rep, err := m.Assess(nil, nil)
		if err != nil {
			return fail(fmt.Errorf("rig %s: %w", m.Name(), err))
		}
		var q *quote.Quote
		if book != nil {
			if q, err = quote.Of(m, book); err != nil {
				return fail(fmt.Errorf("rig %s: %w", m.Name(), err))
			}
		}
		reports, quotes = append(reports, rep), append(quotes, q)
	}
	if *asJSON {
		enc := json.NewEncoder(stdout)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		err = enc.Encode(struct {
			Reports []*rig.Report `json:"reports"`
		}{reports})
	} else {
		err = pages(stdout, reports, quotes, o)
	}
	if err != nil {
		return fail(err)
	}
	for _, r := range reports {
		if limit != 0 && r.Verdict() >= limit {
			return found
		}
	}
	return ran
}

func pages(w io.Writer, reports []*rig.Report, quotes []*quote.Quote, o sheet.Options) error {
	for i, r := range reports {
		if i > 0 {
			fmt.Fprint(w, "\n\n")
		}
		if err := sheet.WriteText(w, r, quotes[i], o); err != nil {
			return err
		}
	}
	if len(reports) < 2 {
		return nil
	}
	c, err := batch.Compare(nil, reports...)
	if err != nil {
		return err
	}
	fmt.Fprint(w, "\n\n")
	return sheet.WriteComparison(w, c, o)
}

// load makes the models before anything is printed, so that bad input prints
// nothing.
func load(specs []string, shelfFile, bookFile string) ([]*rig.Model, *quote.Book, error) {
	if len(specs) == 0 {
		if shelfFile != "" {
			return nil, nil, errors.New("-parts goes with -spec")
		}
		var models []*rig.Model
		for _, name := range demo.Names() {
			m, err := demo.Model(name)
			if err != nil {
				return nil, nil, err
			}
			models = append(models, m)
		}
		b, err := demo.Book()
		return models, b, err
	}
	var shelf *parts.Catalog
	var errs []error
	if shelfFile != "" {
		if err := reading(shelfFile, func(r io.Reader) (err error) {
			shelf, err = parts.ReadJSON(r, 0)
			return err
		}); err != nil {
			errs = append(errs, err)
		}
	}
	var book *quote.Book
	if bookFile != "" {
		if err := reading(bookFile, func(r io.Reader) (err error) {
			book, err = quote.ReadBook(r)
			return err
		}); err != nil {
			errs = append(errs, err)
		}
	}
	var models []*rig.Model
	for _, name := range specs {
		err := reading(name, func(r io.Reader) error {
			s, err := rig.ReadSpec(r, rig.ReadLimits{})
			if err != nil {
				return err
			}
			m, err := rig.New(s, shelf)
			models = append(models, m)
			return err
		})
		if err != nil {
			errs = append(errs, err)
		}
	}
	return models, book, errors.Join(errs...)
}

// reading opens a file for f and puts its name before every problem.
func reading(name string, f func(io.Reader) error) error {
	file, err := os.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	err = f(file)
	var list interface{ Unwrap() []error }
	if errors.As(err, &list) {
		var out []error
		for _, e := range list.Unwrap() {
			out = append(out, fmt.Errorf("%s: %w", name, e))
		}
		return errors.Join(out...)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}
