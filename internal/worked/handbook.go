package worked

import (
	"bytes"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/washrig/internal/golden"
)

// Handbook is where a package keeps its worked examples, from its directory.
const Handbook = "testdata/handbook.md"

// Main runs the tests of a package and then compares the examples they checked
// with testdata/handbook.md, or writes that file with -update. The run fails on
// a difference. It does not return.
//
//	func TestMain(m *testing.M) { worked.Main(m) }
//
// A run of part of the tests (-run, -skip, -short, -list, -fuzz, -count=0)
// leaves the handbook alone, since it does not hold every example.
func Main(m *testing.M) {
	code := m.Run()
	if code == 0 {
		if why := partial(); why == "" {
			code = examples.settle(os.Stderr, Handbook, golden.Update())
		} else if golden.Update() {
			fmt.Fprintf(os.Stderr, "worked: %s is left as it is, because %s runs part of the tests\n", Handbook, why)
		}
	} else if golden.Update() {
		fmt.Fprintf(os.Stderr, "worked: %s is left as it is, because tests failed\n", Handbook)
	}
	os.Exit(code)
}

// partial names the flag that keeps some test from running, if any.
func partial() string {
	for name, all := range map[string]string{
		"run": "", "skip": "", "list": "", "fuzz": "", "fuzzworker": "false", "short": "false",
	} {
		if f := flag.Lookup("test." + name); f != nil && f.Value.String() != all {
			return "-" + name
		}
	}
	if f := flag.Lookup("test.count"); f != nil && f.Value.String() == "0" {
		return "-count=0"
	}
	return ""
}

// settle compares or writes the handbook and returns an exit code.
func (c *collection) settle(log interface{ Write([]byte) (int, error) }, file string, update bool) int {
	text := c.markdown(packagePath())
	if update && text != nil {
		if err := golden.Write(filepath.FromSlash(file), text); err != nil {
			fmt.Fprintf(log, "worked: %v\n", err)
			return 1
		}
		return 0
	}
	old, err := os.ReadFile(filepath.FromSlash(file))
	switch {
	case text == nil && os.IsNotExist(err):
		return 0
	case text == nil && update:
		if err := os.Remove(filepath.FromSlash(file)); err != nil {
			fmt.Fprintf(log, "worked: %v\n", err)
			return 1
		}
		return 0
	case err != nil && text != nil:
		fmt.Fprintf(log, "FAIL: worked: %v\n(run the tests with -update to write it)\n", err)
		return 1
	}
	if d := golden.Diff(old, text); d != "" {
		fmt.Fprintf(log, "FAIL: worked: %s does not say what the tests say, - is the file and + are the tests\n%s\n(if the tests are right, run them with -update)\n", file, d)
		return 1
	}
	return 0
}

// packagePath is the working directory, which go test sets to the package's,
// as seen from the module root.
func packagePath() string {
	dir, err := os.Getwd()
	if err != nil {
		return "unknown"
	}
	for root := dir; ; root = filepath.Dir(root) {
		if _, err := os.Stat(filepath.Join(root, "go.mod")); err == nil {
			if rel, err := filepath.Rel(root, dir); err == nil {
				return filepath.ToSlash(rel)
			}
		}
		if root == filepath.Dir(root) {
			return filepath.Base(dir)
		}
	}
}

// markdown returns the handbook, in order of test name and then of the order
// within the test; nil if there are no examples. Neighbours that ask the same
// question of the same source share a heading and a table.
func (c *collection) markdown(pkg string) []byte {
	c.mu.Lock()
	defer c.mu.Unlock()
	var all []entry
	for _, name := range slices.Sorted(maps.Keys(c.tests)) {
		all = append(all, c.tests[name].entries...)
	}
	if len(all) == 0 {
		return nil
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "# %s\n\n", pkg)
	fmt.Fprintf(&b, "Written by the tests of this package (`go test ./%s -update`); not edited by hand.\n", pkg)
	for len(all) > 0 {
		n := 1
		for n < len(all) && all[n].question == all[0].question && all[n].source == all[0].source &&
			all[n].status == all[0].status && (all[n].within == "") == (all[0].within == "") {
			n++
		}
		if n == 1 {
			single(&b, all[0])
		} else {
			table(&b, all[:n])
		}
		all = all[n:]
	}
	return b.Bytes()
}

func single(b *bytes.Buffer, e entry) {
	fmt.Fprintf(b, "\n## %s\n\n", plain(e.question))
	if e.given != "" {
		fmt.Fprintf(b, "- Given: %s\n", plain(e.given))
	}
	fmt.Fprintf(b, "- As printed: **%s**\n", plain(e.printed))
	fmt.Fprintf(b, "- Ours: %s\n", plain(e.ours))
	if e.within != "" {
		fmt.Fprintf(b, "- Tolerance: %s, %s\n", plain(e.within), plain(because(e)))
	}
	fmt.Fprintf(b, "- Source: %s\n- Status: %s\n", plain(e.source), e.status)
}

func table(b *bytes.Buffer, es []entry) {
	fmt.Fprintf(b, "\n## %s\n\n", plain(es[0].question))
	fmt.Fprintf(b, "- Source: %s\n- Status: %s\n", plain(es[0].source), es[0].status)
	sameReason := true
	for _, e := range es {
		sameReason = sameReason && e.reason == es[0].reason
	}
	numbers := es[0].within != ""
	if numbers && sameReason {
		fmt.Fprintf(b, "- Tolerance: %s\n", plain(because(es[0])))
	}
	b.WriteString("\n| Given | As printed | Ours |")
	rule := "\n| --- | --- | --- |"
	if numbers {
		b.WriteString(" Tolerance |")
		rule += " --- |"
	}
	if numbers && !sameReason {
		b.WriteString(" Why |")
		rule += " --- |"
	}
	b.WriteString(rule + "\n")
	for _, e := range es {
		fmt.Fprintf(b, "| %s | %s | %s |", cell(e.given), cell(e.printed), cell(e.ours))
		if numbers {
			fmt.Fprintf(b, " %s |", cell(e.within))
		}
		if numbers && !sameReason {
			fmt.Fprintf(b, " %s |", cell(because(e)))
		}
		b.WriteByte('\n')
	}
}

func because(e entry) string {
	if e.reason == "" {
		return "half a unit of the last printed digit"
	}
	return e.reason
}

var escapes = strings.NewReplacer(`\`, `\\`, "*", `\*`, "`", "\\`", "<", `\<`, "[", `\[`)

// plain keeps Markdown from reading marks into a line of text.
func plain(s string) string { return escapes.Replace(s) }

func cell(s string) string { return strings.ReplaceAll(plain(s), "|", `\|`) }
