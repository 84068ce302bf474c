// Package load reads the files that the example programs are given. Every
// problem has the name of its file before it, and all problems come at once.
package load

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/rig/quote"
	"example.com/washrig/rig/sheet"
	"example.com/washrig/units"
)

// Files names what a program is given; what is empty is not read.
type Files struct {
	Specs      []string // none: the demo's rigs
	Parts      []string // shelves, JSON or CSV, the last on top
	Mapping    string   // of the shelves that are CSV
	Book       string
	Policy     string
	Letterhead string
	Rig        string // of the demo, the one of this name
}

// A Set is what the files hold.
type Set struct {
	Models     []*rig.Model
	Shelf      *parts.Catalog
	Book       *quote.Book // nil: no prices
	Policy     *rig.Policy
	Letterhead *sheet.Letterhead
	Warnings   []string // rows of a shelf that could not be used
}

// List is a flag that may be given more than once.
type List []string

// String joins the values.
func (l *List) String() string { return strings.Join(*l, " ") }

// Set adds a value.
func (l *List) Set(s string) error { *l = append(*l, s); return nil }

// System reads the name of a system of units: us or si.
func System(name string) (units.System, error) {
	switch name {
	case "us":
		return units.US, nil
	case "si":
		return units.SI, nil
	}
	return 0, fmt.Errorf("-units %q: want us or si", name)
}

// FailOn reads the weight of finding that makes a program fail; zero for none.
func FailOn(word string) (rig.Severity, error) {
	switch word {
	case "":
		return 0, nil
	case "stop":
		return rig.CannotJudge, nil // ranks beside stop
	case "fix":
		return rig.Fix, nil
	case "note":
		return rig.Note, nil
	}
	return 0, fmt.Errorf("-fail-on %q: want stop, fix or note", word)
}

// Read reads everything, so that bad input is known before anything is written.
func (f Files) Read() (*Set, error) {
	s := &Set{}
	var errs []error
	add := func(err error) {
		if err != nil {
			errs = append(errs, err)
		}
	}
	if f.Policy != "" {
		add(reading(f.Policy, func(r io.Reader) (err error) { s.Policy, err = rig.ReadPolicy(r); return err }))
	}
	if f.Letterhead != "" {
		add(reading(f.Letterhead, func(r io.Reader) (err error) { s.Letterhead, err = sheet.ReadLetterhead(r); return err }))
	}
	if f.Book != "" {
		add(reading(f.Book, func(r io.Reader) (err error) { s.Book, err = quote.ReadBook(r); return err }))
	}
	if len(f.Specs) == 0 {
		add(f.demo(s))
	} else {
		if f.Rig != "" {
			add(errors.New("-rig goes with the demo's rigs, not with -spec"))
		}
		add(f.shelf(s))
		if errors.Join(errs...) == nil { // specifications without their shelf have no problems of their own
			for _, name := range f.Specs {
				add(reading(name, func(r io.Reader) error {
					spec, err := rig.ReadSpec(r, rig.ReadLimits{})
					if err != nil {
						return err
					}
					m, err := rig.New(spec, s.Shelf)
					s.Models = append(s.Models, m)
					return err
				}))
			}
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	return s, nil
}

func (f Files) demo(s *Set) error {
	if len(f.Parts) > 0 || f.Mapping != "" {
		return errors.New("-parts goes with -spec")
	}
	for _, name := range demo.Names() {
		if f.Rig != "" && !strings.EqualFold(f.Rig, name) {
			continue
		}
		m, err := demo.Model(name)
		if err != nil {
			return err
		}
		s.Models, s.Shelf = append(s.Models, m), m.Shelf()
	}
	if len(s.Models) == 0 {
		return fmt.Errorf("-rig %q: the demo has %s", f.Rig, strings.Join(demo.Names(), ", "))
	}
	if s.Book == nil && f.Book == "" {
		b, err := demo.Book()
		s.Book = b
		return err
	}
	return nil
}

func (f Files) shelf(s *Set) error {
	var mapping parts.Mapping
	var errs []error
	if f.Mapping != "" {
		if err := reading(f.Mapping, func(r io.Reader) (err error) { mapping, err = parts.ReadMapping(r); return err }); err != nil {
			return err
		}
	}
	var shelves []*parts.Catalog
	for _, name := range f.Parts {
		err := reading(name, func(r io.Reader) error {
			if !strings.HasSuffix(strings.ToLower(name), ".csv") {
				c, err := parts.ReadJSON(r, 0)
				shelves = append(shelves, c)
				return err
			}
			c, report, err := parts.ReadCSV(r, mapping, parts.CSVOptions{})
			if err != nil {
				return err
			}
			shelves = append(shelves, c)
			for _, p := range report.Problems {
				s.Warnings = append(s.Warnings, name+": "+p.Error())
			}
			if report.More > 0 {
				s.Warnings = append(s.Warnings, fmt.Sprintf("%s: and %d more problems", name, report.More))
			}
			return nil
		})
		if err != nil {
			errs = append(errs, err)
		}
	}
	if err := errors.Join(errs...); err != nil || len(shelves) == 0 {
		return err
	}
	if len(shelves) == 1 {
		s.Shelf = shelves[0]
		return nil
	}
	var err error
	s.Shelf, err = parts.Layer(shelves...)
	return err
}

// reading opens a file for f and puts its name before every problem.
func reading(name string, f func(io.Reader) error) error {
	file, err := os.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	return named(name, f(file))
}

func named(name string, err error) error {
	if list, ok := err.(interface{ Unwrap() []error }); ok {
		var out []error
		for _, e := range list.Unwrap() {
			out = append(out, named(name, e))
		}
		return errors.Join(out...)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}
