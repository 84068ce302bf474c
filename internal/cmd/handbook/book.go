package main

import (
	"cmp"
	"fmt"
	"go/doc"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"slices"
	"strings"
)

// parts is the order of the book; packages elsewhere follow by name.
var parts = []string{"units", "internal", "hydraulics", "thermal", "electrical", "fuel", "rig"}

// statuses are the standings an example can have, as the pages write them,
// and how the table of contents heads their counts.
var statuses = []struct{ text, head string }{
	{"published", "published"},
	{"computed with the named library", "computed"},
	{"common practice", "common practice"},
	{"from memory", "from memory"},
	{"identity", "identity"},
}

// A page is the handbook of one package.
type page struct {
	pkg      string // path in the module
	synopsis string // first sentence of the package's documentation
	body     []string
	counts   []int // examples by status, in the order of statuses
}

func (p page) total() (n int) {
	for _, c := range p.counts {
		n += c
	}
	return n
}

// read collects the pages below the module's root in the order of the book.
func read(module fs.FS) ([]page, error) {
	var pages []page
	err := fs.WalkDir(module, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && name != "." && (strings.HasPrefix(d.Name(), ".") || strings.HasPrefix(d.Name(), "_")) {
			return fs.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix("/"+name, "/testdata/handbook.md") {
			return nil
		}
		text, err := fs.ReadFile(module, name)
		if err != nil {
			return err
		}
		p, err := parse(string(text))
		if err != nil {
			return fmt.Errorf("%s: %v", name, err)
		}
		dir := path.Dir(path.Dir(name))
		if p.pkg != dir {
			return fmt.Errorf("%s: the title is %q, want %q", name, p.pkg, dir)
		}
		p.synopsis = synopsis(module, dir)
		pages = append(pages, p)
		return nil
	})
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(pages, func(a, b page) int {
		return cmp.Or(cmp.Compare(rank(a.pkg), rank(b.pkg)), cmp.Compare(a.pkg, b.pkg))
	})
	return pages, nil
}

func rank(pkg string) int {
	first, _, _ := strings.Cut(pkg, "/")
	if i := slices.Index(parts, first); i >= 0 {
		return i
	}
	return len(parts)
}

// parse reads a page as package worked writes it.
func parse(text string) (page, error) {
	p := page{counts: make([]int, len(statuses))}
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	title, ok := strings.CutPrefix(lines[0], "# ")
	if !ok {
		return p, fmt.Errorf("line 1 is no title")
	}
	p.pkg = title
	start := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "## ") })
	if start < 0 {
		return p, fmt.Errorf("there is no example")
	}
	p.body = lines[start:]
	status, rows := -1, 0
	count := func() {
		if status >= 0 {
			p.counts[status] += max(rows, 1)
		}
		status, rows = -1, 0
	}
	for i, line := range p.body {
		switch {
		case strings.HasPrefix(line, "## "):
			if i > 0 && status < 0 {
				return p, fmt.Errorf("the example before %q has no status", line)
			}
			count()
		case strings.HasPrefix(line, "- Status: "):
			text := strings.TrimPrefix(line, "- Status: ")
			for j, s := range statuses {
				if s.text == text {
					status = j
				}
			}
			if status < 0 {
				return p, fmt.Errorf("unknown status %q", text)
			}
		case strings.HasPrefix(line, "| --- |"):
			rows = 0 // what stood above is the heading
		case strings.HasPrefix(line, "| "):
			rows++
		}
	}
	if status < 0 {
		return p, fmt.Errorf("the last example has no status")
	}
	count()
	return p, nil
}

// synopsis is the first sentence of a package's documentation, or nothing.
func synopsis(module fs.FS, dir string) string {
	files, err := fs.Glob(module, path.Join(dir, "*.go"))
	if err != nil {
		return ""
	}
	for _, name := range files {
		src, err := fs.ReadFile(module, name)
		if err != nil {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, src, parser.PackageClauseOnly|parser.ParseComments)
		if err == nil && f.Doc != nil && !strings.HasSuffix(name, "_test.go") {
			return new(doc.Package).Synopsis(f.Doc.Text())
		}
	}
	return ""
}

// book returns the pages as one Markdown text.
func book(pages []page) string {
	var b strings.Builder
	b.WriteString("# Handbook of worked examples\n\n")
	b.WriteString("Every example below is a test of this library: a question, what is given, the answer as its\n" +
		"source prints it, and ours. Unless a reason is written beside it, the tolerance is half a unit\n" +
		"of the last digit the source printed.\n\n")
	b.WriteString("- *published*: printed in the standard, handbook, table or paper named\n" +
		"- *computed*: computed with the general-purpose library named\n" +
		"- *common practice*: what the trade does, on no better authority\n" +
		"- *from memory*: recalled, not looked up\n" +
		"- *identity*: follows from an exact definition or from algebra alone\n\n")
	b.WriteString("The library computes and warns. It certifies nothing, and local codes and licensed practice\n" +
		"come before anything in here.\n\n## Contents\n\n| Package |")
	for _, s := range statuses {
		b.WriteString(" " + s.head + " |")
	}
	b.WriteString(" all |\n| --- |" + strings.Repeat(" ---: |", len(statuses)+1) + "\n")
	sums, all := make([]int, len(statuses)), 0
	row := func(name string, counts []int, total int) {
		b.WriteString("| " + name + " |")
		for _, n := range counts {
			fmt.Fprintf(&b, " %d |", n)
		}
		fmt.Fprintf(&b, " %d |\n", total)
	}
	for _, p := range pages {
		row("["+p.pkg+"](#"+anchor(p.pkg)+")", p.counts, p.total())
		for i, n := range p.counts {
			sums[i] += n
		}
		all += p.total()
	}
	row("all", sums, all)
	for _, p := range pages {
		fmt.Fprintf(&b, "\n## %s\n\n", p.pkg)
		if p.synopsis != "" {
			b.WriteString(p.synopsis + "\n\n")
		}
		for _, line := range p.body {
			if strings.HasPrefix(line, "## ") {
				line = "#" + line
			}
			b.WriteString(line + "\n")
		}
	}
	return b.String()
}

// anchor is the fragment by which Markdown viewers reach a heading.
func anchor(heading string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case 'A' <= r && r <= 'Z':
			return r + 'a' - 'A'
		case 'a' <= r && r <= 'z', '0' <= r && r <= '9', r == '-', r == '_':
			return r
		case r == ' ':
			return '-'
		}
		return -1
	}, heading)
}
