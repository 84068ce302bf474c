package rig_test

import (
	"math"
	"testing"
	"time"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// exactLog times math.Log on independent inputs, the yardstick of every
// benchmark that reports a multiple of it.
func exactLog(b *testing.B) float64 {
	b.Helper()
	var in [1024]float64
	for i := range in {
		in[i] = 1 + float64(i)*0.37
	}
	const rounds = 2000
	best := math.Inf(1)
	for range 5 {
		sum := 0.0
		start := time.Now()
		for range rounds {
			for _, x := range in {
				sum += math.Log(x)
			}
		}
		best = min(best, float64(time.Since(start).Nanoseconds())/(rounds*1024))
		if math.IsNaN(sum) {
			b.Fatal("sum is not a number")
		}
	}
	return best
}

// BenchmarkAssess solves and judges the two-gun recovery rig in a kept workspace,
// without text and break-evens. A workspace keeps memory and no results: every block
// is solved again in each round.
func BenchmarkAssess(b *testing.B) {
	m, err := demo.Model("B")
	if err == nil {
		m, err = rig.Anew(m)
	}
	if err != nil {
		b.Fatal(err)
	}
	log := exactLog(b)
	var w rig.Workspace
	o := &rig.AssessOptions{SkipBreakEven: true, Workspace: &w}
	b.ReportAllocs()
	var r *rig.Report
	for b.Loop() {
		if r, err = m.Assess(nil, o); err != nil {
			b.Fatal(err)
		}
	}
	if kept := rig.Kept(m); len(kept) > 0 {
		b.Fatalf("not solved anew: %v", kept)
	}
	reportAssessment(b, r, log)
}

// BenchmarkAssess_anew is BenchmarkAssess without a workspace, of a model nobody has
// solved.
func BenchmarkAssess_anew(b *testing.B) {
	m, err := demo.Model("B")
	if err != nil {
		b.Fatal(err)
	}
	log := exactLog(b)
	o := &rig.AssessOptions{SkipBreakEven: true}
	b.ReportAllocs()
	var r *rig.Report
	for b.Loop() {
		b.StopTimer()
		fresh, err := rig.Anew(m)
		if err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
		if r, err = fresh.Assess(nil, o); err != nil {
			b.Fatal(err)
		}
	}
	reportAssessment(b, r, log)
}

func reportAssessment(b *testing.B, r *rig.Report, log float64) {
	states := map[string]bool{}
	for x := range r.Every() {
		states[x.State.String()] = true
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/log, "logs/op")
	b.ReportMetric(float64(len(states)), "states")
}

// BenchmarkBlock solves each block of the two-gun recovery rig alone, the blocks
// it reads being solved already: where the time of an assessment goes.
func BenchmarkBlock(b *testing.B) {
	m, err := demo.Model("B")
	if err != nil {
		b.Fatal(err)
	}
	if err := rig.SolveAll(m); err != nil {
		b.Fatal(err)
	}
	log := exactLog(b)
	var w rig.Workspace
	for _, name := range rig.BlockNames() {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			states, values := 0, 0
			for b.Loop() {
				if states, values, err = rig.SolveBlock(m, name, &w); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/log, "logs/op")
			b.ReportMetric(float64(states), "states")
			b.ReportMetric(float64(values), "values")
		})
	}
	b.Run("judgement", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true, Workspace: &w}); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/log, "logs/op")
	})
}

// BenchmarkAssess_breakEven includes the search for what verdicts lean on.
func BenchmarkAssess_breakEven(b *testing.B) {
	m, err := demo.Model("B")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for range b.N {
		if _, err := m.Assess(nil, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLever moves the elevation and judges again, as an app does on every
// keystroke.
func BenchmarkLever(b *testing.B) {
	m, err := demo.Model("B")
	if err != nil {
		b.Fatal(err)
	}
	l, err := m.Lever("site.elevation")
	if err != nil {
		b.Fatal(err)
	}
	if err := rig.SolveAll(m); err != nil { // what the lever does not touch is solved for good
		b.Fatal(err)
	}
	log := exactLog(b)
	var w rig.Workspace
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		n, err := l.To(units.ElevationAt(units.Length(i%9000) * units.Foot).Quantity())
		if err != nil {
			b.Fatal(err)
		}
		if _, err := n.Assess(nil, &rig.AssessOptions{SkipBreakEven: true, Workspace: &w}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/log, "logs/op")
}

// BenchmarkNew reads nothing and resolves everything.
func BenchmarkNew(b *testing.B) {
	s, err := demo.Spec("B")
	if err != nil {
		b.Fatal(err)
	}
	shelf, err := demo.Shelf()
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for range b.N {
		if _, err := rig.New(s, shelf); err != nil {
			b.Fatal(err)
		}
	}
}
