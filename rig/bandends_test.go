package rig_test

import (
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
)

// The quick way through the bands comes to the verdicts of the search.
func TestBandEnds_verdictsOfTheSearch(t *testing.T) {
	unjudged := 0
	for _, name := range demo.Names() {
		base, err := demo.Model(name)
		if err != nil {
			t.Fatal(err)
		}
		for i, changes := range [][]rig.Change{
			nil,
			{rig.Set("loads[dump-pump].part", ""), rig.Set("loads[dump-pump].running", "750 W"), rig.Set("loads[dump-pump].starting", "")},
			{rig.Set("loads[burner].part", ""), rig.Set("loads[burner].running", "650 W"), rig.Set("loads[burner].starting", ""), rig.Set("site.elevation", "7000 ft")},
		} {
			m, err := base.With(changes...)
			if err != nil {
				t.Logf("rig %s, change %d: %v", name, i, err)
				continue
			}
			full, err := m.Assess(nil, nil)
			if err != nil {
				t.Fatal(err)
			}
			quick, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true, BandEnds: true})
			if err != nil {
				t.Fatal(err)
			}
			type key struct {
				code rig.Code
				path rig.Path
			}
			want := map[key]rig.Severity{}
			for _, f := range append(full.Findings(), full.Passed()...) {
				want[key{f.Code, f.Reading.Path()}] = f.Severity
			}
			for _, f := range append(quick.Findings(), quick.Passed()...) {
				if s := want[key{f.Code, f.Reading.Path()}]; s != f.Severity {
					t.Errorf("rig %s, change %d, %s of %s: %v, the search says %v", name, i, f.Code, f.Reading.Path(), f.Severity, s)
				}
			}
			unjudged += full.Count(rig.CannotJudge)
		}
	}
	if unjudged == 0 {
		t.Error("none of the rigs has a verdict inside a band: the test shows nothing")
	}
}
