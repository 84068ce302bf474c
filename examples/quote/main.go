// Command quote judges wash rigs and prints each on a page.
//
// With no arguments it judges the four invented rigs of the demo scenario and
// compares them. With -spec it judges the caller's own:
//
//	go run ./examples/quote -spec mine.json -parts shelf.json -book book.json
//	go run ./examples/quote -html pages          # every page of every rig as HTML files, its deck as SVG
//	go run ./examples/quote -md -page customer -rig B
//	go run ./examples/quote -compare
//	go run ./examples/quote -rig B -explain "trailer.tongue @ fill=out"
//
// Everything is read and judged before anything is written: bad input prints
// its problems on standard error, nothing on standard output, and makes no file.
//
// Exit codes: 0 it ran; 1 bad input, or output that could not be written; 3 with
// -fail-on, a finding of that weight.
package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"example.com/washrig/examples/internal/load"
	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/rig/parts"
	"example.com/washrig/rig/quote"
	"example.com/washrig/rig/sheet"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// Exit codes.
const (
	ran      = 0
	badInput = 1
	found    = 3
)

// A job is what is asked for, read and judged.
type job struct {
	reports []*rig.Report
	quotes  []*quote.Quote // nil where there is no price
	o       sheet.Options
}

func run(args []string, stdout, stderr io.Writer) int {
	fs := flag.NewFlagSet("quote", flag.ContinueOnError)
	fs.SetOutput(stderr)
	var files load.Files
	fs.Var((*load.List)(&files.Specs), "spec", "specification `file`; more may follow it or be given by repeating the flag")
	fs.Var((*load.List)(&files.Parts), "parts", "shelf of parts, a JSON or CSV `file`; a later one lies on top")
	fs.StringVar(&files.Mapping, "mapping", "", "what the columns of CSV shelves mean, a JSON `file`")
	fs.StringVar(&files.Book, "book", "", "price book, a JSON `file`; without it no price is printed for -spec")
	fs.StringVar(&files.Policy, "policy", "", "changed limits and defaults, house rules, a JSON `file`")
	fs.StringVar(&files.Letterhead, "letterhead", "", "name block, terms and lines to sign on, a JSON `file`")
	fs.StringVar(&files.Rig, "rig", "", "of the demo, only the rig of this `name`")
	system := fs.String("units", "us", "units to print: us or si")
	page := fs.String("page", "dealer", "page to print: "+strings.Join(pageNames(), ", "))
	asJSON := fs.Bool("json", false, "print the reports as data")
	asCards := fs.Bool("cards", false, "print the cards of modes, plugs, walk-round, parking and winter as data")
	asMarkdown := fs.Bool("md", false, "print Markdown instead of plain text")
	asCSV := fs.Bool("csv", false, "print the technician's table of one rig as CSV")
	dir := fs.String("html", "", "write every page of every rig and the comparison as HTML files, and the deck drawings as SVG, into a `directory`")
	compare := fs.Bool("compare", false, "print the comparison only")
	explain := fs.String("explain", "", "print what a `number` rests on, such as \"lines[left].flow @ guns=left heat=off\"; with -json as data")
	full := fs.Bool("full", false, "print every judgement and every assumed value")
	failOn := fs.String("fail-on", "", "exit with 3 if a rig has a finding of this weight: stop (also cannot judge), fix or note")
	if err := fs.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return ran
		}
		return badInput
	}
	files.Specs = append(files.Specs, fs.Args()...)
	fail := func(err error) int {
		for _, line := range strings.Split(err.Error(), "\n") {
			fmt.Fprintln(stderr, "quote:", line)
		}
		return badInput
	}

	sys, err := load.System(*system)
	limit, errFail := load.FailOn(*failOn)
	if err = errors.Join(err, errFail, forms(*asJSON, *asCards, *asMarkdown, *asCSV, *dir != "", *compare, *explain != "", *page)); err != nil {
		return fail(err)
	}
	set, err := files.Read()
	if err != nil {
		return fail(err)
	}
	for _, w := range set.Warnings {
		fmt.Fprintln(stderr, "quote:", w)
	}
	j, err := judge(set)
	if err != nil {
		return fail(err)
	}
	j.o = sheet.Options{System: sys, Full: *full, Letterhead: set.Letterhead}

	// Made whole before the first byte is written.
	var out bytes.Buffer
	var pages []htmlFile
	switch {
	case *dir != "":
		pages, err = j.html()
	case *explain != "":
		err = j.explain(&out, *explain, *asJSON)
	case *compare:
		err = j.comparison(&out, *asMarkdown)
	case *asJSON:
		err = writeJSON(&out, struct {
			Reports []*rig.Report `json:"reports"`
		}{j.reports})
	case *asCards:
		err = j.cards(&out)
	case *asCSV:
		err = j.csv(&out)
	default:
		err = j.text(&out, *page, *asMarkdown)
	}
	if err == nil {
		err = write(*dir, pages, &out)
	}
	if err == nil {
		_, err = stdout.Write(out.Bytes())
	}
	if err != nil {
		return fail(err)
	}
	for _, r := range j.reports {
		if limit != 0 && r.Verdict() >= limit {
			return found
		}
	}
	for i, q := range j.quotes {
		if limit == 0 || q == nil {
			continue
		}
		breaches, err := q.Judge(j.reports[i].PriceRules())
		if err != nil {
			return fail(err)
		}
		for _, b := range breaches {
			if b.Severity >= limit {
				return found
			}
		}
	}
	return ran
}

// forms refuses flags that do not go together.
func forms(asJSON, asCards, asMarkdown, asCSV, asHTML, compare, explain bool, page string) error {
	n := 0
	for _, x := range []bool{asJSON, asCards, asMarkdown, asCSV, asHTML} {
		if x {
			n++
		}
	}
	_, known := pages[page]
	switch {
	case n > 1:
		return errors.New("-json, -cards, -md, -csv and -html: want one of them")
	case explain && (asCards || asMarkdown || asCSV || asHTML || compare):
		return errors.New("-explain goes with plain text and -json")
	case compare && (asJSON || asCards || asCSV || asHTML):
		return errors.New("-compare goes with plain text and -md; -html writes the comparison beside the pages")
	case !known:
		return fmt.Errorf("-page %q: want one of %s", page, strings.Join(pageNames(), ", "))
	}
	return nil
}

func judge(set *load.Set) (*job, error) {
	j := &job{}
	for _, m := range set.Models {
		rep, err := m.Assess(set.Policy, nil)
		if err != nil {
			return nil, fmt.Errorf("rig %s: %w", m.Name(), err)
		}
		var q *quote.Quote
		if set.Book != nil {
			if q, err = quote.Of(m, set.Book); err != nil {
				return nil, fmt.Errorf("rig %s: %w", m.Name(), err)
			}
		}
		j.reports, j.quotes = append(j.reports, rep), append(j.quotes, q)
	}
	return j, nil
}

// pages are the pages of a rig by name.
var pages = map[string]func(j *job, i int) (*sheet.Document, error){
	"dealer":     func(j *job, i int) (*sheet.Document, error) { return sheet.Dealer(j.reports[i], j.quotes[i], &j.o) },
	"customer":   customer,
	"technician": func(j *job, i int) (*sheet.Document, error) { return sheet.Technician(j.reports[i], &j.o) },
	"weights":    func(j *job, i int) (*sheet.Document, error) { return sheet.Weights(j.reports[i], &j.o) },
	"start":      func(j *job, i int) (*sheet.Document, error) { return sheet.StartCard(j.reports[i], &j.o) },
	"mode-cards": func(j *job, i int) (*sheet.Document, error) { return sheet.ModeCards(j.reports[i], &j.o) },
	"parked":     func(j *job, i int) (*sheet.Document, error) { return sheet.ParkedCard(j.reports[i], &j.o) },
	"walk-round": func(j *job, i int) (*sheet.Document, error) { return sheet.WalkRound(j.reports[i], &j.o) },
}

func pageNames() []string {
	return []string{"dealer", "customer", "technician", "weights", "start", "mode-cards", "parked", "walk-round"}
}

func customer(j *job, i int) (*sheet.Document, error) {
	var q *quote.CustomerQuote
	if j.quotes[i] != nil {
		c := j.quotes[i].Customer()
		q = &c
	}
	return sheet.Customer(j.reports[i], q, &j.o).Document(j.o.Letterhead)
}

// text prints one page of each rig, then the comparison where there is one to
// make and the page is the dealer's.
func (j *job) text(w io.Writer, page string, markdown bool) error {
	for i := range j.reports {
		if i > 0 {
			fmt.Fprint(w, "\n\n")
		}
		d, err := pages[page](j, i)
		if err != nil {
			return err
		}
		if err := put(d, w, markdown); err != nil {
			return err
		}
	}
	if len(j.reports) < 2 || page != "dealer" {
		return nil
	}
	fmt.Fprint(w, "\n\n")
	return j.comparison(w, markdown)
}

func put(d *sheet.Document, w io.Writer, markdown bool) error {
	if markdown {
		return d.WriteMarkdown(w)
	}
	return d.WriteText(w)
}

func (j *job) comparison(w io.Writer, markdown bool) error {
	d, err := j.compared()
	if err != nil {
		return err
	}
	return put(d, w, markdown)
}

func (j *job) compared() (*sheet.Document, error) {
	c, err := batch.Compare(nil, j.reports...)
	if err != nil {
		return nil, err
	}
	var prices []parts.Money
	for _, q := range j.quotes {
		if q == nil {
			return sheet.Comparison(c, &j.o)
		}
		prices = append(prices, q.Price)
	}
	return sheet.ComparisonWithPrices(c, prices, &j.o)
}

// explain says for each rig what a number of one state rests on.
func (j *job) explain(w io.Writer, number string, asJSON bool) error {
	path, state, _ := strings.Cut(number, "@")
	var traces []*rig.Trace
	for _, rep := range j.reports {
		m := rep.Model()
		at, err := m.ParseState(strings.TrimSpace(state))
		if err == nil {
			var t *rig.Trace
			t, err = m.Explain(rig.Path(strings.TrimSpace(path)), at)
			traces = append(traces, t)
		}
		if err != nil {
			return fmt.Errorf("rig %s: %w", m.Name(), err)
		}
	}
	if asJSON {
		return writeJSON(w, struct {
			Traces []*rig.Trace `json:"traces"`
		}{traces})
	}
	for i, t := range traces {
		if _, err := fmt.Fprintf(w, "Rig %s\n%s\n", j.reports[i].Model().Name(), t.Text(j.o.System)); err != nil {
			return err
		}
	}
	return nil
}

func writeJSON(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}

func (j *job) cards(w io.Writer) error {
	out := struct {
		Cards []rig.Cards `json:"cards"`
	}{}
	for _, rep := range j.reports {
		c, err := rep.Cards()
		if err != nil {
			return err
		}
		out.Cards = append(out.Cards, c)
	}
	return writeJSON(w, out)
}

func (j *job) csv(w io.Writer) error {
	if len(j.reports) != 1 {
		return errors.New("-csv is for one rig: name it by -rig or give one -spec")
	}
	return sheet.WriteCSV(w, j.reports[0], &j.o)
}

// An htmlFile is one file to be written.
type htmlFile struct {
	name string
	data []byte
}

func (j *job) html() ([]htmlFile, error) {
	var out []htmlFile
	add := func(name string, d *sheet.Document, err error) error {
		if err != nil {
			return err
		}
		var b bytes.Buffer
		if err := d.WriteHTML(&b); err != nil {
			return err
		}
		out = append(out, htmlFile{name + ".html", b.Bytes()})
		return nil
	}
	taken := map[string]bool{}
	for i, r := range j.reports {
		base := fileName(r.Model().Name(), i, taken)
		for _, p := range pageNames() {
			d, err := pages[p](j, i)
			if err := add(base+"-"+p, d, err); err != nil {
				return nil, err
			}
		}
		d, ok, err := sheet.Deck(r, &j.o)
		if err != nil {
			return nil, err
		}
		if ok {
			var b bytes.Buffer
			if err := d.WriteSVG(&b); err != nil {
				return nil, err
			}
			out = append(out, htmlFile{base + "-deck.svg", b.Bytes()})
		}
	}
	if len(j.reports) > 1 {
		d, err := j.compared()
		if err := add("comparison", d, err); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// fileName makes a name for the files of a rig: small letters, digits and
// hyphens alone, so that no name leaves the directory.
func fileName(rigName string, i int, taken map[string]bool) string {
	name := strings.Trim(strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return '-'
	}, rigName), "-")
	if len(name) > 40 {
		name = name[:40]
	}
	name = "rig-" + name
	if name == "rig-" || taken[name] {
		name = fmt.Sprintf("%s%d", strings.TrimSuffix(name, "-")+"-", i+1)
	}
	taken[name] = true
	return name
}

// write makes the files and says their names.
func write(dir string, pages []htmlFile, out io.Writer) error {
	if dir == "" {
		return nil
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	for _, p := range pages {
		name := filepath.Join(dir, p.name)
		if err := os.WriteFile(name, p.data, 0o666); err != nil {
			return err
		}
		fmt.Fprintln(out, name)
	}
	return nil
}
