// Command reference prints the vocabulary of washrig as Markdown: every field
// of a specification, every metric of a report, every code of a finding.
//
// It is made from the tables the library itself reads, so it cannot fall
// behind. A kept copy stands in testdata/reference.md.
package main

import (
	"bufio"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

func main() {
	flag.Parse()
	if flag.NArg() > 0 {
		fmt.Fprintln(os.Stderr, "reference: takes no arguments")
		os.Exit(1)
	}
	if err := write(os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "reference:", err)
		os.Exit(1)
	}
}

func write(out io.Writer) error {
	w := bufio.NewWriter(out)
	fmt.Fprintln(w, "# Reference of washrig")
	fmt.Fprintf(w, "\nFormat %s. Made by `go run ./examples/reference`.\n\n", rig.Format)
	fmt.Fprintln(w, "- [Codes of findings](#codes-of-findings)\n- [Metrics](#metrics)\n- [Fields of a specification](#fields-of-a-specification)")
	codes(w)
	metrics(w)
	if err := specFields(w); err != nil {
		return err
	}
	return w.Flush()
}

// cell makes a text fit for a cell of a Markdown table.
func cell(s string) string {
	return strings.NewReplacer("|", "\\|", "\n", " ").Replace(s)
}

func codes(w io.Writer) {
	fmt.Fprintln(w, "\n## Codes of findings")
	fmt.Fprintln(w, "\nIn order of rank. A plate is a rating of a part: a policy cannot change it. Other limits are the library's and can be changed, signed.")
	fmt.Fprintln(w, "\n| code | what it says | judges | limit | decides |\n|---|---|---|---|---|")
	for _, d := range rig.Codes() {
		fmt.Fprintf(w, "| `%s` | %s. %s | `%s` | %s | %s |\n", d.Code, cell(d.Title), cell(d.Meaning), d.Metric, cell(limit(d)), cell(d.Defers))
	}
}

func limit(d rig.CodeDoc) string {
	m, number := rig.MetricOf(d.Metric)
	switch {
	case d.Metric == "":
		return "an input that is not there; not changed by a policy"
	case d.Plate && !number:
		return "by the words of the specification; not changed by a policy"
	case d.Plate:
		return "a plate, or a stop by its nature"
	}
	var w []string
	for _, x := range []struct {
		word string
		q    units.Quantity
	}{{"note", d.Limit.Note}, {"fix", d.Limit.Fix}, {"stop", d.Limit.Stop}} {
		if x.q.Given() {
			w = append(w, x.word+" at "+m.Text(x.q, units.US, 3))
		}
	}
	if len(w) == 0 {
		return "from the specification"
	}
	s := strings.Join(w, ", ")
	if d.Limit.Source != "" {
		s += " (" + d.Limit.Source + ")"
	}
	return s
}

func metrics(w io.Writer) {
	fmt.Fprintln(w, "\n## Metrics")
	fmt.Fprintln(w, "\nRules of thumb are shown beside computed values and never judged.")
	fmt.Fprintln(w, "\n| path | what it is | kind | better | how it is computed | source |\n|---|---|---|---|---|---|")
	for _, m := range rig.Metrics() {
		better := map[rig.Direction]string{rig.Higher: "higher", rig.Lower: "lower", rig.Neither: ""}[m.Better]
		label := m.Label
		if m.Rule {
			label += " (rule of thumb)"
		}
		fmt.Fprintf(w, "| `%s` | %s | %s | %s | %s | %s |\n", m.Path, cell(label), m.Kind, better, cell(m.Formula), cell(m.Source))
	}
}

func specFields(w io.Writer) error {
	docs, err := rig.Fields()
	if err != nil {
		return err
	}
	fmt.Fprintln(w, "\n## Fields of a specification")
	fmt.Fprintln(w, "\nQuantities are text with their unit. A default is taken when nothing is given, and recorded as assumed.")
	fmt.Fprintln(w, "\n| path | kind | range or words | default | what it is |\n|---|---|---|---|---|")
	for _, d := range docs {
		accepted := strings.Join(d.Choices, ", ")
		if d.Low != "" || d.High != "" {
			accepted = d.Low + " to " + d.High
		}
		def := d.Default
		if d.Why != "" && def != "" {
			def += " (" + d.Why + ")"
		}
		text := d.Doc
		if d.Required {
			text += " (required)"
		}
		fmt.Fprintf(w, "| `%s` | %s | %s | %s | %s |\n", d.Path, d.Kind, cell(accepted), cell(def), cell(text))
	}
	return nil
}
