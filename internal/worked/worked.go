// Package worked makes a test of a worked example and a page of a handbook
// out of the same few lines.
//
// [Check] compares an answer printed by a source with ours, within half a unit
// of the last digit the source printed unless another tolerance is given with
// its reason. [Main] collects the examples of a package in testdata/handbook.md
// and fails the run when that file no longer says what the tests say.
package worked

import (
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"
)

// A Status says how far the answer of a worked example can be relied on.
type Status int

// The zero Status is invalid: every example states its standing.
const (
	Published      Status = iota + 1 // printed in the named standard, handbook, table or paper
	Computed                         // computed with the named general-purpose library
	CommonPractice                   // what the trade does; no better authority
	FromMemory                       // recalled, not looked up
	Identity                         // follows from an exact definition or from algebra alone
)

var statusNames = [...]string{
	Published:      "published",
	Computed:       "computed with the named library",
	CommonPractice: "common practice",
	FromMemory:     "from memory",
	Identity:       "identity",
}

// String returns the words that the handbook uses.
func (s Status) String() string {
	if s < Published || s > Identity {
		return fmt.Sprintf("Status(%d)", int(s))
	}
	return statusNames[s]
}

// A Case is one worked example with a number for an answer.
type Case struct {
	Question string   // as a dealer would ask it
	Source   string   // work, edition, page or table; for Computed the library and its version
	Status   Status   // how far the answer can be relied on
	Given    []string // inputs in the source's units, "Q = 3.4 gpm"
	Printed  string   // the answer as printed, number then unit: "2,283 psi"; see [Number]
	Got      float64  // our answer, a plain number in the printed unit

	// Tolerance is absolute, in the printed unit. Zero means half a unit of
	// the last printed digit. Any other needs a Reason, in a sentence that
	// a reader of the handbook learns from.
	Tolerance float64
	Reason    string
}

// A TextCase is one worked example whose answer is not a number: a code letter,
// a size, a verdict.
type TextCase struct {
	Question string
	Source   string
	Status   Status
	Given    []string
	Printed  string // the answer as printed
	Got      string // our answer, which must be the same
}

// Check fails t unless c is complete and its answers agree.
// Every case of a package differs in question, source or given from all others.
func Check(t testing.TB, c Case) {
	t.Helper()
	e, problems := c.judge()
	examples.add(t, e, problems)
}

// Text fails t unless c is complete and its answers are the same.
func Text(t testing.TB, c TextCase) {
	t.Helper()
	e, problems := c.judge()
	examples.add(t, e, problems)
}

// judge returns the handbook's entry for the case and all that is wrong with it.
func (c Case) judge() (entry, []string) {
	problems := incomplete(c.Question, c.Source, c.Status, c.Given, c.Printed)
	e := newEntry(c.Question, c.Source, c.Status, c.Given, c.Printed)
	p, err := parse(c.Printed)
	if err != nil {
		if strings.TrimSpace(c.Printed) != "" {
			problems = append(problems, err.Error())
		}
		return e, problems
	}
	e.ours = p.withUnit(p.like(c.Got))
	tolerance := p.half
	switch {
	case math.IsNaN(c.Tolerance) || math.IsInf(c.Tolerance, 0) || c.Tolerance < 0:
		problems = append(problems, fmt.Sprintf("the tolerance %v is not a positive number", c.Tolerance))
	case c.Tolerance == 0 && c.Reason != "":
		problems = append(problems, "there is a reason but no tolerance")
	case c.Tolerance > 0 && strings.TrimSpace(c.Reason) == "":
		problems = append(problems, "a tolerance of its own needs a reason")
	case c.Tolerance > 0 && c.Tolerance >= math.Abs(p.value) && p.value != 0:
		problems = append(problems, "the tolerance is as large as the answer: the example cannot fail")
	case c.Tolerance > 0:
		tolerance = c.Tolerance
	}
	e.within = p.withUnit(fmt.Sprintf("%.6g", tolerance))
	e.reason = oneLine(c.Reason)

	// An answer that lies on the edge in decimals may miss it by rounding in
	// binary; a few units in the last place of a float64 are granted for that.
	edge := 4 * 0x1p-52 * max(math.Abs(p.value), math.Abs(c.Got))
	if !(math.Abs(c.Got-p.value) <= tolerance+edge) || math.IsInf(c.Got, 0) {
		problems = append(problems, fmt.Sprintf("got %s, printed %q: off by %.3g, allowed %.3g",
			p.withUnit(fmt.Sprintf("%.12g", c.Got)), c.Printed, c.Got-p.value, tolerance))
	}
	return e, problems
}

func (c TextCase) judge() (entry, []string) {
	problems := incomplete(c.Question, c.Source, c.Status, c.Given, c.Printed)
	e := newEntry(c.Question, c.Source, c.Status, c.Given, c.Printed)
	e.ours = oneLine(c.Got)
	if c.Got != c.Printed {
		problems = append(problems, fmt.Sprintf("got %q, printed %q", c.Got, c.Printed))
	}
	return e, problems
}

func incomplete(question, source string, status Status, given []string, printed string) (problems []string) {
	missing := func(what, s string) {
		if strings.TrimSpace(s) == "" {
			problems = append(problems, "no "+what)
		}
	}
	missing("question", question)
	missing("source", source)
	if status < Published || status > Identity {
		problems = append(problems, "no status")
	}
	for i, g := range given {
		missing(fmt.Sprintf("text in Given[%d]", i), g)
	}
	missing("printed answer", printed)
	return problems
}

// An entry is one example as the handbook shows it.
type entry struct {
	question, source string
	status           Status
	given            string
	printed, ours    string
	within, reason   string // empty for a text
}

func newEntry(question, source string, status Status, given []string, printed string) entry {
	return entry{
		question: oneLine(question), source: oneLine(source), status: status,
		given: oneLine(strings.Join(given, "; ")), printed: oneLine(printed),
	}
}

// key is what no two examples of a package share.
func (e entry) key() string { return e.question + "\x00" + e.source + "\x00" + e.given }

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// A collection holds the examples that agreed, by test.
type collection struct {
	mu    sync.Mutex
	tests map[string]*ofTest
	owner map[string]string // entry key → test name
}

type ofTest struct {
	run     testing.TB // tells one run of a test from the next (-count, -cpu)
	entries []entry
}

var examples collection

func (c *collection) add(t testing.TB, e entry, problems []string) {
	t.Helper()
	if !c.record(t, e) {
		problems = append(problems, "the package has another example with the same question, source and given")
	}
	for _, p := range problems {
		t.Errorf("worked example %q: %s", e.question, p)
	}
}

// record keeps e and reports whether it is the first of its kind in this run.
func (c *collection) record(t testing.TB, e entry) bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.tests == nil {
		c.tests = make(map[string]*ofTest)
		c.owner = make(map[string]string)
	}
	name := t.Name()
	test := c.tests[name]
	if test == nil || test.run != t {
		if test != nil {
			for _, old := range test.entries {
				delete(c.owner, old.key())
			}
		}
		test = &ofTest{run: t}
		c.tests[name] = test
	}
	if _, taken := c.owner[e.key()]; taken {
		return false
	}
	c.owner[e.key()] = name
	test.entries = append(test.entries, e)
	return true
}
