// Package golden compares what a test made with a file under testdata that a
// person has read and committed. Run the tests with -update to write the files
// anew, then read the difference before committing it.
package golden

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write files under testdata instead of comparing with them")

// Update reports whether the -update flag was given.
func Update() bool { return *update }

// Equal fails t unless got is, byte for byte, the content of testdata/name.
// Name may have slashes. With -update the file is written and t passes.
func Equal(t testing.TB, name string, got []byte) {
	t.Helper()
	check(t, "testdata", name, got, *update)
}

func check(t testing.TB, dir, name string, got []byte, update bool) {
	t.Helper()
	file := filepath.Join(dir, filepath.FromSlash(name))
	if !filepath.IsLocal(filepath.FromSlash(name)) {
		t.Errorf("golden: the name %q leaves the directory %s", name, dir)
		return
	}
	if update {
		if err := Write(file, got); err != nil {
			t.Errorf("golden: %v", err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Errorf("golden: %v\n(run the test with -update to write the file)", err)
		return
	}
	if d := Diff(want, got); d != "" {
		t.Errorf("golden: %s differs, - is the file and + is what the test made\n%s\n(if the new text is right, run the test with -update)", filepath.ToSlash(file), d)
	}
}

// Diff describes by line where got departs from want; it is empty exactly
// when the two are equal. The wording is for people and not stable.
func Diff(want, got []byte) string {
	if bytes.Equal(want, got) {
		return ""
	}
	// Lines keep their ends, so a lost final newline or a stray CR shows.
	return cmp.Diff(strings.SplitAfter(string(want), "\n"), strings.SplitAfter(string(got), "\n"))
}

// Write makes the file's directory where needed and writes data to it. A file
// that already holds data is not touched.
func Write(file string, data []byte) error {
	if old, err := os.ReadFile(file); err == nil && bytes.Equal(old, data) {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
		return err
	}
	return os.WriteFile(file, data, 0o666)
}
