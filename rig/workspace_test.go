package rig_test

import (
	"fmt"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
)

// A report made in a workspace that served other rigs before is the report made
// without one, to the bit, and the same bytes of JSON.
func TestWorkspace_sameReport(t *testing.T) {
	t.Parallel()
	var w rig.Workspace
	var rigs []*rig.Model
	for _, name := range []string{"A", "B", "C", "D"} {
		rigs = append(rigs, demoModel(t, name))
	}
	compare := func(m *rig.Model, o rig.AssessOptions, data bool) error {
		anew, err := rig.Anew(m)
		if err != nil {
			return err
		}
		want, err := m.Assess(nil, &o)
		o.Workspace = &w
		got, errW := anew.Assess(nil, &o)
		if err != nil || errW != nil {
			if (err == nil) != (errW == nil) || err.Error() != errW.Error() {
				return fmt.Errorf("with a workspace %v, without %v", errW, err)
			}
			return nil
		}
		if err := sameBits(got, want); err != nil {
			return err
		}
		if !data {
			return nil
		}
		x, err := got.MarshalJSON()
		if err != nil {
			return err
		}
		y, err := want.MarshalJSON()
		if err != nil {
			return err
		}
		if d := cmp.Diff(string(x), string(y)); d != "" {
			return fmt.Errorf("with a workspace (-) and without (+):\n%s", d)
		}
		return nil
	}
	for _, m := range rigs {
		if err := compare(m, rig.AssessOptions{BandEnds: true, SkipBreakEven: true}, true); err != nil {
			t.Errorf("rig %s: %v", m.Name(), err)
		}
	}
	property.Check(t, func(g *property.G) error {
		m, err := rig.New(anyRig(g), nil)
		if err != nil {
			return nil
		}
		for _, m := range []*rig.Model{m, rigs[g.Int(0, len(rigs)-1)]} {
			if err := compare(m, rig.AssessOptions{SkipBreakEven: true}, g.Pick(16) == 0); err != nil {
				return err
			}
		}
		return nil
	})
}

// Break-evens rest on the numbers of the workspace as well.
func TestWorkspace_breakEven(t *testing.T) {
	m := demoModel(t, "B")
	anew, err := rig.Anew(m)
	if err != nil {
		t.Fatal(err)
	}
	want, err := m.Assess(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	var w rig.Workspace
	got, err := anew.Assess(nil, &rig.AssessOptions{Workspace: &w})
	if err != nil {
		t.Fatal(err)
	}
	if err := sameBits(got, want); err != nil {
		t.Error(err)
	}
}

// Two goroutines, each with a workspace of its own, share a model that nobody has
// solved yet.
func TestWorkspace_sharedModel(t *testing.T) {
	m := demoModel(t, "B")
	want, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		t.Fatal(err)
	}
	anew, err := rig.Anew(m)
	if err != nil {
		t.Fatal(err)
	}
	var wg sync.WaitGroup
	for k := range 4 {
		wg.Go(func() {
			var w rig.Workspace
			o := &rig.AssessOptions{SkipBreakEven: true, Workspace: &w}
			if k == 3 {
				o.Workspace = nil // keeps what it solves, while the others look
			}
			for range 3 {
				got, err := anew.Assess(nil, o)
				if err == nil {
					err = sameBits(got, want)
				}
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
}

// What an assessment asks of the memory manager in a workspace that has seen the rig.
// The count is the same in every run. BenchmarkAssess reports it beside the time.
func TestWorkspace_allocations(t *testing.T) {
	m, err := demo.Model("B")
	if err != nil {
		t.Fatal(err)
	}
	var w rig.Workspace
	o := &rig.AssessOptions{SkipBreakEven: true, Workspace: &w}
	for range 2 {
		if _, err := m.Assess(nil, o); err != nil {
			t.Fatal(err)
		}
	}
	var fresh []*rig.Model
	for range 12 {
		n, err := rig.Anew(m)
		if err != nil {
			t.Fatal(err)
		}
		fresh = append(fresh, n)
	}
	at := 0
	n := testing.AllocsPerRun(10, func() {
		if _, err := fresh[at].Assess(nil, o); err != nil {
			t.Fatal(err)
		}
		at++
	})
	if kept := rig.Kept(fresh[0]); len(kept) > 0 {
		t.Errorf("solved for good, and not in the workspace: %v", kept)
	}
	const most = 20 // three, in a search that ends past boiling; the rest is room for the race detector
	if n > most {
		t.Errorf("%g allocations, at most %d", n, most)
	}
}
