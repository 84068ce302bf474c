package rig_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"example.com/washrig/internal/golden"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
)

// The committed schemas are the ones the field tables give.
func TestSchema_inStep(t *testing.T) {
	for name, schema := range map[string]func() ([]byte, error){"spec.schema.json": rig.Schema, "policy.schema.json": rig.PolicySchema} {
		t.Run(name, func(t *testing.T) { inStep(t, name, schema) })
	}
}

func inStep(t *testing.T, name string, schema func() ([]byte, error)) {
	got, err := schema()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join("schema", name)
	if golden.Update() {
		if err := golden.Write(file, got); err != nil {
			t.Error(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if d := golden.Diff(want, got); d != "" {
		t.Errorf("%s is out of step with the types (run the test with -update):\n%s", file, d)
	}
}

// The library takes the good files of the list that testdata/schema/validate.py
// holds against the schemas, and refuses the bad ones, those too that a schema
// cannot see to be bad.
func TestSchema_cases(t *testing.T) {
	b, err := os.ReadFile("testdata/schema/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	type file struct {
		Name, File, Text string
		Document         json.RawMessage
	}
	var list struct{ Good, Bad []file }
	if err := json.Unmarshal(b, &list); err != nil {
		t.Fatal(err)
	}
	if len(list.Good) < 5 || len(list.Bad) < 50 {
		t.Fatalf("%d good files and %d bad ones: the test looks at too little", len(list.Good), len(list.Bad))
	}
	read := func(f file) error {
		r := bytes.NewReader(append([]byte(f.Text), f.Document...))
		switch f.File {
		case "spec":
			s, err := rig.ReadSpec(r, rig.ReadLimits{})
			if err == nil {
				_, err = rig.New(s, nil)
			}
			return err
		case "shelf":
			_, err := parts.ReadJSON(r, 0)
			return err
		case "mapping":
			_, err := parts.ReadMapping(r)
			return err
		}
		t.Fatalf("no such kind of file: %q", f.File)
		return nil
	}
	for _, f := range list.Good {
		if err := read(f); err != nil {
			t.Errorf("%s: %s: %v", f.File, f.Name, err)
		}
	}
	for _, f := range list.Bad {
		if read(f) == nil {
			t.Errorf("%s: %s: is taken", f.File, f.Name)
		}
	}
}
