package fields

import (
	"strings"
	"testing"
)

// An id is valid where the pattern that the schemas state says so, up to its length.
func FuzzValidID(f *testing.F) {
	for _, s := range []string{"", "a", "left", "gun-2", "2-gun", "Left", "gün", "a_b", "a-", strings.Repeat("a", maxID), strings.Repeat("a", maxID+1), "a\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if got, want := ValidID(s), len(s) <= maxID && idForm.MatchString(s); got != want {
			t.Errorf("%q: %v, the pattern says %v", s, got, want)
		}
	})
}
