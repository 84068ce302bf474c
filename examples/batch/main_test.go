package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func try(t testing.TB, stdin string, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	code = run(context.Background(), args, strings.NewReader(stdin), &out, &errs)
	return code, out.String(), errs.String()
}

func file(t testing.TB, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

func rowsOf(t testing.TB, text string) [][]string {
	t.Helper()
	c := csv.NewReader(strings.NewReader(text))
	c.Comment = '#'
	rows, err := c.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func TestBuiltInPlan(t *testing.T) {
	dict := filepath.Join(t.TempDir(), "columns.csv")
	code, out, errs := try(t, "", "-dictionary", dict)
	if code != ran || errs != "" {
		t.Fatalf("exit %d: %s", code, errs)
	}
	rows := rowsOf(t, out)
	if len(rows) != 8 || rows[1][1] != "as quoted" || rows[7][1] != "summer water" {
		t.Errorf("%d rows: %q", len(rows), rows[0])
	}
	text, err := os.ReadFile(dict)
	if err != nil {
		t.Fatal(err)
	}
	described := rowsOf(t, string(text))
	for i, h := range rows[0] {
		if described[i+1][0] != h {
			t.Errorf("column %q is described as %q", h, described[i+1][0])
		}
	}
}

// The same rows for any number of workers, and from either form of a plan.
func TestPlanForms(t *testing.T) {
	columns := []string{"-column", "engines[washer].available", "-column", "lowest trailer.tongue_share"}
	table := "name,site.elevation,copy lines[left]\nlow,0 ft,\nhigh,8000 ft,third\n"
	lines := `{"name":"low","site.elevation":"0 ft","copy lines[left]":""}` + "\n" + `{"name":"high","site.elevation":"8000 ft","copy lines[left]":"third"}` + "\n"
	_, want, _ := try(t, table, append(columns, "-plan", "-")...)
	if len(rowsOf(t, want)) != 3 {
		t.Fatalf("%s", want)
	}
	for _, args := range [][]string{
		{"-plan", file(t, "p.csv", table)}, {"-plan", file(t, "p.jsonl", lines)}, {"-plan", file(t, "p.csv", table), "-workers", "1"}, {"-plan", file(t, "p.csv", table), "-workers", "5"},
	} {
		if code, out, errs := try(t, "", append(args, columns...)...); out != want || code != ran {
			t.Errorf("%q: exit %d, %s\n%s\nwant\n%s", args, code, errs, out, want)
		}
	}
}

// Bad input prints its problems, nothing on standard output, and makes no file.
func TestBadInput(t *testing.T) {
	dict := filepath.Join(t.TempDir(), "columns.csv")
	for _, c := range []struct {
		want string
		args []string
	}{
		{"units", []string{"-units", "imperial"}},
		{"fail-on", []string{"-fail-on", "colour"}},
		{"flags only", []string{"stray"}},
		{"nonsense", []string{"-column", "nonsense"}},
		{"no-such-file", []string{"-plan", "no-such-file.csv"}},
		{"no-such-file", []string{"-spec", "no-such-file.json"}},
		{"column site.hight", []string{"-plan", file(t, "p.csv", "name,site.hight\nx,5 ft\n")}},
		{"semicolons", []string{"-plan", file(t, "p.csv", "name;site.elevation\n")}},
		{"-rig", []string{"-rig", "Z"}},
		{"unknown name", []string{"-policy", file(t, "p.json", `{"format":"washrig-policy/1","of":[]}`)}},
		{"line 1", []string{"-spec", file(t, "s.json", `{"format":"washrig/1","sites":{}}`)}},
		{"workers", []string{"-workers", "-1"}},
		{"one base", []string{"-spec", file(t, "a.json", `{"format":"washrig/1"}`), "-spec", file(t, "b.json", `{"format":"washrig/1"}`)}},
		{"not defined", []string{"-colour"}},
	} {
		code, out, errs := try(t, "", append(c.args, "-dictionary", dict)...)
		if code != badInput || out != "" || !strings.Contains(errs, c.want) {
			t.Errorf("%q: exit %d, %d bytes, %s", c.args, code, len(out), errs)
		}
		if _, err := os.Stat(dict); err == nil {
			t.Fatalf("%q: a file was made", c.args)
		}
	}
}

func TestExitCodes(t *testing.T) {
	column := []string{"-column", "trailer.total", "-plan", "-"}
	for _, c := range []struct {
		plan string
		args []string
		want int
	}{
		{"name,site.elevation\nx,400 ft\n", nil, ran},
		{"name,site.elevation\nx,12000 ft\n", []string{"-fail-on", "stop"}, found},
		{"name,site.elevation\nx,400\n", nil, badInput},
		{"name,site.elevation\nx,400\ny,12000 ft\n", []string{"-fail-on", "stop"}, badInput}, // a failed variant is not judged: say so first
	} {
		if code, out, errs := try(t, c.plan, append(c.args, column...)...); code != c.want || out == "" {
			t.Errorf("%q %q: exit %d, want %d: %s", c.plan, c.args, code, c.want, errs)
		}
	}
	if code, _, _ := try(t, "", "-h"); code != ran {
		t.Errorf("help exits with %d", code)
	}
}

// An interrupted run keeps whole rows and says so.
func TestInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, errs bytes.Buffer
	code := run(ctx, []string{"-column", "trailer.total"}, nil, &out, &errs)
	if code != badInput || !strings.Contains(errs.String(), "interrupted") || len(rowsOf(t, out.String())) != 1 {
		t.Errorf("exit %d, %s, %s", code, errs.String(), out.String())
	}
}

// Progress is for a terminal: a pipe or a file gets none.
func TestProgress_onATerminalOnly(t *testing.T) {
	var b bytes.Buffer
	f, err := os.Create(filepath.Join(t.TempDir(), "stderr"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for _, w := range []io.Writer{&b, f} {
		if p := newProgress(w); p.w != nil {
			t.Errorf("progress is written to %T", w)
		}
	}
}
