// Command handbook joins the worked examples of all packages into one book and
// prints it as Markdown:
//
//	go run ./internal/cmd/handbook
//
// Each package's tests keep its examples in testdata/handbook.md; the book is
// those pages in the order in which a rig is reasoned about, behind a table of
// contents that counts the examples by their standing.
package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

func main() {
	out := bufio.NewWriter(os.Stdout)
	if err := run(out); err != nil {
		fmt.Fprintf(os.Stderr, "handbook: %v\n", err)
		os.Exit(1)
	}
}

func run(out *bufio.Writer) error {
	dir, err := os.Getwd()
	if err != nil {
		return err
	}
	root, err := moduleRoot(dir)
	if err != nil {
		return err
	}
	pages, err := read(os.DirFS(root))
	if err != nil {
		return err
	}
	if err := write(out, pages); err != nil {
		return err
	}
	return out.Flush()
}

// moduleRoot is the nearest directory from dir upwards that holds go.mod.
func moduleRoot(dir string) (string, error) {
	for root := dir; ; root = filepath.Dir(root) {
		if _, err := os.Stat(filepath.Join(root, "go.mod")); err == nil {
			return root, nil
		}
		if root == filepath.Dir(root) {
			return "", fmt.Errorf("no go.mod in %s or above it", dir)
		}
	}
}

func write(w io.Writer, pages []page) error {
	_, err := io.WriteString(w, book(pages))
	return err
}
