package statics_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func TestContents_errors(t *testing.T) {
	_, err := statics.PipeContents(0, units.Length(math.NaN()))
	if d := cmp.Diff([]string{"bore", "length"}, fields(t, err, units.ErrRange)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
	_, err = statics.Tank{Nominal: 1, Density: 850}.BurnDown(2, -1, units.Duration(math.Inf(1)))
	if d := cmp.Diff([]string{"level", "rate", "time"}, fields(t, err, units.ErrRange)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
}
