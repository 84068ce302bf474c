package main

import (
	"bufio"
	"bytes"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/washrig/internal/worked"
)

const tankPage = `# hydraulics/tank

Written by the tests of this package.

## How long does it drain?

- Given: h = 1 m
- As printed: **12 s**
- Ours: 12.1 s
- Tolerance: 0.5 s, half a unit of the last printed digit
- Source: a book
- Status: published

## How full is it?

- Source: a table
- Status: common practice
- Tolerance: half a unit of the last printed digit

| Given | As printed | Ours | Tolerance |
| --- | --- | --- | --- |
| 1 | 2 | 2.0 | 0.5 |
| 2 | 4 | 4.0 | 0.5 |
| 3 | 6 | 6.0 | 0.5 |
`

const ratioPage = "# units\n\n## What is one?\n\n- As printed: **1**\n- Status: identity\n"

func file(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }

func TestBook(t *testing.T) {
	pages, err := read(fstest.MapFS{
		"hydraulics/tank/testdata/handbook.md": file(tankPage),
		"hydraulics/tank/doc.go":               file("// Package tank empties things. It has more to say.\npackage tank\n"),
		"hydraulics/tank/a_test.go":            file("// A test.\npackage tank\n"),
		"units/testdata/handbook.md":           file(ratioPage),
		".git/testdata/handbook.md":            file("not a page"),
		"rig/handbook.md":                      file("not a page"),
	})
	if err != nil {
		t.Fatal(err)
	}
	got := book(pages)
	for _, want := range []string{
		"| [units](#units) | 0 | 0 | 0 | 0 | 1 | 1 |\n| [hydraulics/tank](#hydraulicstank) | 1 | 0 | 3 | 0 | 0 | 4 |\n| all | 1 | 0 | 3 | 0 | 1 | 5 |\n",
		"\n## hydraulics/tank\n\nPackage tank empties things.\n\n### How long does it drain?\n",
		"\n| 3 | 6 | 6.0 | 0.5 |\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the book lacks %q:\n%s", want, got)
		}
	}
	if strings.Index(got, "## units\n") > strings.Index(got, "## hydraulics/tank\n") {
		t.Error("units does not come first")
	}
}

func TestRead_refuses(t *testing.T) {
	for want, text := range map[string]string{
		"no title":                   "units\n",
		"no example":                 "# units\n\ntext\n",
		"unknown status":             "# units\n\n## Q\n\n- Status: hearsay\n",
		"before \"## R\" has no sta": "# units\n\n## Q\n\n## R\n\n- Status: identity\n",
		"last example has no status": "# units\n\n## Q\n",
		"the title is":               "# fuel\n\n## Q\n\n- Status: identity\n",
	} {
		_, err := read(fstest.MapFS{"units/testdata/handbook.md": file(text)})
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: got %v, want %q", text, err, want)
		}
	}
}

func TestRank(t *testing.T) {
	pkgs := []string{"examples/quote", "rig", "fuel", "internal/water", "rig/statics", "units", "hydraulics/tank", "thermal", "hydraulics", "electrical"}
	want := []string{"units", "internal/water", "hydraulics", "hydraulics/tank", "thermal", "electrical", "fuel", "rig", "rig/statics", "examples/quote"}
	slices.SortFunc(pkgs, func(a, b string) int {
		if d := rank(a) - rank(b); d != 0 {
			return d
		}
		return strings.Compare(a, b)
	})
	if !slices.Equal(pkgs, want) {
		t.Errorf("got %q", pkgs)
	}
}

// The statuses of the kit and of the book are the same, in the same order.
func TestStatuses(t *testing.T) {
	for i, s := range statuses {
		if got := worked.Status(i + 1).String(); got != s.text {
			t.Errorf("status %d is %q in package worked, %q here", i+1, got, s.text)
		}
	}
	if s := worked.Status(len(statuses) + 1).String(); !strings.HasPrefix(s, "Status(") {
		t.Errorf("package worked has another status, %q", s)
	}
}

// The book of this module can be made, and no package with worked examples
// forgets to keep its page.
func TestModule(t *testing.T) {
	var b bytes.Buffer
	if err := run(bufio.NewWriter(&b)); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(b.String(), "# Handbook") {
		t.Errorf("not a book: %.80q", b.String())
	}
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	root, err := moduleRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	module := os.DirFS(root)
	uses, keeps := map[string]bool{}, map[string]bool{}
	err = fs.WalkDir(module, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, "_test.go") {
			return err
		}
		src, err := fs.ReadFile(module, name)
		if err != nil {
			return err
		}
		dir := path.Dir(name)
		if dir == "internal/worked" || dir == "internal/cmd/handbook" {
			return nil
		}
		uses[dir] = uses[dir] || bytes.Contains(src, []byte("worked.Check(")) || bytes.Contains(src, []byte("worked.Text("))
		keeps[dir] = keeps[dir] || bytes.Contains(src, []byte("worked.Main("))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for dir, used := range uses {
		if used && !keeps[dir] {
			t.Errorf("%s has worked examples but no TestMain that calls worked.Main", dir)
		}
		if _, err := fs.Stat(module, path.Join(dir, worked.Handbook)); used && err != nil {
			t.Errorf("%s: %v (go test ./%s -update)", dir, err, dir)
		}
	}
}
