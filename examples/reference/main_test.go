package main

import (
	"bytes"
	"strings"
	"testing"

	"example.com/washrig/internal/golden"
	"example.com/washrig/rig"
)

// The kept reference is that of the library as it stands.
func TestReference(t *testing.T) {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	golden.Equal(t, "reference.md", b.Bytes())
	for _, d := range rig.Codes() {
		if n := strings.Count(b.String(), "| `"+string(d.Code)+"` |"); n != 1 {
			t.Errorf("code %s stands %d times", d.Code, n)
		}
	}
}
