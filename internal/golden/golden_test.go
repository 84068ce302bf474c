package golden

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A fakeTB records failures in place of failing.
type fakeTB struct {
	testing.TB
	failed []string
}

func (f *fakeTB) Helper() {}
func (f *fakeTB) Errorf(format string, a ...any) {
	f.failed = append(f.failed, fmt.Sprintf(format, a...))
}

func TestCheck(t *testing.T) {
	dir := t.TempDir()
	for _, step := range []struct {
		name   string
		file   string
		got    string
		update bool
		want   []string // parts of the one failure; none if it passes
	}{
		{"no file", "sub/a.txt", "one\ntwo\n", false, []string{"a.txt", "-update"}},
		{"update", "sub/a.txt", "one\ntwo\n", true, nil},
		{"same", "sub/a.txt", "one\ntwo\n", false, nil},
		{"other line", "sub/a.txt", "one\nthree\n", false, []string{`"two\n"`, `"three\n"`}},
		{"no final newline", "sub/a.txt", "one\ntwo", false, []string{"differs"}},
		{"CRLF", "sub/a.txt", "one\r\ntwo\n", false, []string{`"one\r\n"`}},
		{"nothing", "sub/a.txt", "", false, []string{"differs"}},
		{"not UTF-8", "sub/a.txt", "one\n\xff\n", false, []string{"differs"}},
		{"update to nothing", "sub/b.txt", "", true, nil},
		{"nothing is something", "sub/b.txt", "\n", false, []string{"differs"}},
		{"outside", "../a.txt", "one\n", true, []string{"leaves the directory"}},
	} {
		f := &fakeTB{TB: t}
		check(f, dir, step.file, []byte(step.got), step.update)
		if len(step.want) == 0 {
			if len(f.failed) != 0 {
				t.Errorf("%s: %q", step.name, f.failed)
			}
			continue
		}
		if len(f.failed) != 1 {
			t.Errorf("%s: failures %q, want one", step.name, f.failed)
			continue
		}
		for _, w := range step.want {
			if !strings.Contains(f.failed[0], w) {
				t.Errorf("%s: the failure lacks %q:\n%s", step.name, w, f.failed[0])
			}
		}
	}
}

// Equal reads testdata of the package under test.
func TestEqual(t *testing.T) {
	Equal(t, "hello.txt", []byte("hello\n"))
}

// What need not change keeps its time, so that nothing is built anew for it.
func TestWrite_leavesTheSameAlone(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a")
	if err := Write(file, []byte("x")); err != nil {
		t.Fatal(err)
	}
	past := time.Date(2001, 2, 3, 4, 5, 6, 0, time.UTC)
	if err := os.Chtimes(file, past, past); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"x", "y"} {
		same := text == "x"
		if err := Write(file, []byte(text)); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(file)
		if err != nil {
			t.Fatal(err)
		}
		if info.ModTime().Equal(past) != same {
			t.Errorf("writing %q over \"x\": file of %v, touched in %v", text, info.ModTime(), past)
		}
	}
}
