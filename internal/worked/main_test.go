package worked

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The tests below start this test binary again, in a directory of its own, to
// be a package whose examples are those named in the variable.
const child = "WASHRIG_WORKED_CHILD"

func TestMain(m *testing.M) {
	if os.Getenv(child) != "" {
		Main(m)
	}
	os.Exit(m.Run())
}

// TestAsChild is the only test that checks examples through the kit's surface.
func TestAsChild(t *testing.T) {
	switch os.Getenv(child) {
	case "":
		t.Skip("runs in a process of its own")
	case "agrees":
		t.Run("parallel", func(t *testing.T) {
			for _, size := range []string{"10", "12"} {
				t.Run(size, func(t *testing.T) {
					t.Parallel()
					Text(t, TextCase{
						Question: "Does this size exist?", Source: "ASTM B258", Status: FromMemory,
						Given: []string{size + " AWG"}, Printed: "yes", Got: "yes",
					})
				})
			}
		})
		fallthrough
	case "one less":
		Check(t, tip())
	case "disagrees":
		c := tip()
		c.Got++
		Check(t, c)
	}
}

func TestMain_handbook(t *testing.T) {
	if os.Getenv(child) != "" {
		t.Skip("started by itself")
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file := filepath.Join(dir, filepath.FromSlash(Handbook))
	if err := os.WriteFile(filepath.Join(dir, "go.mod"), []byte("module m\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, step := range []struct {
		name    string
		example string
		args    []string
		passes  bool
		says    string
	}{
		{"no file", "agrees", nil, false, "run the tests with -update"},
		{"update of a failing run", "disagrees", []string{"-update"}, false, "left as it is"},
		{"update of a part", "agrees", []string{"-update", "-test.run=TestAsChild"}, true, "left as it is"},
		{"update", "agrees", []string{"-update"}, true, ""},
		{"compare", "agrees", nil, true, ""},
		{"twice", "agrees", []string{"-test.count=2"}, true, ""},
		{"shuffled", "agrees", []string{"-test.shuffle=on"}, true, ""},
		{"benchmarks too", "agrees", []string{"-test.bench=.", "-test.benchtime=1x"}, true, ""},
		{"a number is wrong", "disagrees", nil, false, "off by"},
		{"an example is gone", "one less", nil, false, "does not say what the tests say"},
		{"part of the tests", "one less", []string{"-test.run=TestAsChild"}, true, ""},
		{"short", "one less", []string{"-test.short"}, true, ""},
		{"skip", "one less", []string{"-test.skip=TestNumber"}, true, ""},
		{"list", "one less", []string{"-test.list=."}, true, ""},
		{"none", "one less", []string{"-test.count=0"}, true, ""},
		{"fuzz", "one less", []string{"-test.fuzz=FuzzNone", "-test.fuzzcachedir=" + dir}, true, ""},
		{"update to less", "one less", []string{"-update"}, true, ""},
		{"compare less", "one less", nil, true, ""},
	} {
		cmd := exec.Command(self, step.args...)
		cmd.Dir = dir
		// A race-detecting binary waits a second at its end unless told otherwise.
		cmd.Env = append(os.Environ(), child+"="+step.example, "GORACE=atexit_sleep_ms=0")
		out, err := cmd.CombinedOutput()
		if passes := err == nil; passes != step.passes || !strings.Contains(string(out), step.says) {
			t.Errorf("%s: %v, output\n%s\nwant it to pass: %v, and to say %q", step.name, err, out, step.passes, step.says)
		}
		if step.name == "update" {
			got, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if string(got) != page {
				t.Errorf("the handbook is\n%s\nwant\n%s", got, page)
			}
		}
	}
}

const page = `# .

Written by the tests of this package (` + "`go test ./. -update`" + `); not edited by hand.

## One 4.5 tip on 3.4 gpm: what pressure does it make?

- Given: N = 4.5; Q = 3.4 gpm
- As printed: **2283 psi**
- Ours: 2283.5 psi
- Tolerance: 0.5 psi, half a unit of the last printed digit
- Source: trade convention q = N sqrt(P/4000)
- Status: common practice

## Does this size exist?

- Source: ASTM B258
- Status: from memory

| Given | As printed | Ours |
| --- | --- | --- |
| 10 AWG | yes | yes |
| 12 AWG | yes | yes |
`
