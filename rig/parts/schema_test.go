package parts_test

import (
	"os"
	"path/filepath"
	"testing"

	"example.com/washrig/internal/golden"
	"example.com/washrig/rig/parts"
)

// The schemas are committed, so that programs in other languages can take them
// from the repository. The script validate.py beside the schema of package rig
// holds files against them with a validator that is none of ours.
func TestSchema_inStep(t *testing.T) {
	for name, f := range map[string]func() ([]byte, error){"shelf": parts.Schema, "mapping": parts.MappingSchema} {
		got, err := f()
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join("schema", name+".schema.json")
		if golden.Update() {
			if err := golden.Write(file, got); err != nil {
				t.Error(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if d := golden.Diff(want, got); d != "" {
			t.Errorf("%s is out of step with the types (run the test with -update):\n%s", file, d)
		}
	}
}
