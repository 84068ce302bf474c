package property

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// A fakeTB records failures in place of failing.
type fakeTB struct {
	testing.TB
	failed, logged []string
}

func (f *fakeTB) Helper()      {}
func (f *fakeTB) Name() string { return "TestFake/sub test" }
func (f *fakeTB) Errorf(format string, a ...any) {
	f.failed = append(f.failed, fmt.Sprintf(format, a...))
}
func (f *fakeTB) Logf(format string, a ...any) {
	f.logged = append(f.logged, fmt.Sprintf(format, a...))
}

func TestG_ranges(t *testing.T) {
	low, high := false, false
	Check(t, func(g *G) error {
		lo := g.Float(-10, 10)
		hi := lo + g.Float(0, 5)
		if x := g.Float(lo, hi); !(lo <= x && x <= hi) {
			return fmt.Errorf("Float(%v, %v) = %v", lo, hi, x)
		}
		a := g.LogFloat(1e-300, 1e300)
		b := min(a*g.LogFloat(1, 1e6), math.MaxFloat64)
		if x := g.LogFloat(a, b); !(a <= x && x <= b) {
			return fmt.Errorf("LogFloat(%v, %v) = %v", a, b, x)
		}
		n := g.Int(1, 9)
		low, high = low || n == 1, high || n == 9
		if n < 1 || n > 9 {
			return fmt.Errorf("Int(1, 9) = %d", n)
		}
		if i := g.Pick(n); i < 0 || i >= n {
			return fmt.Errorf("Pick(%d) = %d", n, i)
		}
		p := g.Perm(n)
		slices.Sort(p)
		for i, v := range p {
			if i != v {
				return fmt.Errorf("Perm(%d) sorted is %v", n, p)
			}
		}
		if s := OneOf(g, "a", "b"); s != "a" && s != "b" {
			return fmt.Errorf("OneOf = %q", s)
		}
		g.Bool()
		return nil
	})
	if !low || !high {
		t.Error("the ends of a range were never drawn")
	}
}

// With every draw zero, inputs are the simplest there are.
func TestG_simplest(t *testing.T) {
	g := &G{}
	if x := g.Float(-3, 5); x != -3 {
		t.Errorf("Float: %v", x)
	}
	if x := g.LogFloat(0.3, 5); x != 0.3 {
		t.Errorf("LogFloat: %v", x)
	}
	if x := g.Int(2, 5); x != 2 {
		t.Errorf("Int: %v", x)
	}
	if g.Bool() {
		t.Error("Bool: true")
	}
	if p := g.Perm(4); !slices.Equal(p, []int{0, 1, 2, 3}) {
		t.Errorf("Perm: %v", p)
	}
}

func TestCheck_countsCases(t *testing.T) {
	n := 0
	f := &fakeTB{TB: t}
	check(f, t.TempDir(), 50, 0, func(g *G) error { n++; return nil })
	if n != 50 || len(f.failed) != 0 {
		t.Errorf("%d cases, failures %q", n, f.failed)
	}
}

func TestCheck_repeatsItself(t *testing.T) {
	draws := func(seed uint64) (all []float64) {
		check(&fakeTB{TB: t}, t.TempDir(), 10, seed, func(g *G) error {
			all = append(all, g.Float(0, 1))
			return nil
		})
		return all
	}
	if !slices.Equal(draws(0), draws(0)) {
		t.Error("the same seed gave other cases")
	}
	if slices.Equal(draws(0), draws(1)) {
		t.Error("another seed gave the same cases")
	}
}

// A property that does not hold is reported, shrunk to its edge, stored, and
// replayed before anything else until it holds.
func TestCheck_failure(t *testing.T) {
	dir := t.TempDir()
	bad := func(g *G) error {
		for range g.Int(0, 5) {
			g.Bool()
		}
		g.Note("about to draw")
		if n := g.Int(0, 1000); n >= 437 {
			return fmt.Errorf("%d is too large", n)
		}
		return nil
	}
	f := &fakeTB{TB: t}
	check(f, dir, 200, 7, bad)
	if len(f.failed) != 1 {
		t.Fatalf("failures: %q", f.failed)
	}
	for _, want := range []string{"case ", "-property.seed=7", ": 437 is too large", "Int(0, 5) = 0", "about to draw", "Int(0, 1000) = 437"} {
		if !strings.Contains(f.failed[0], want) {
			t.Errorf("the report lacks %q:\n%s", want, f.failed[0])
		}
	}
	stored, err := load(filepath.Join(dir, "TestFake-sub-test.txt"))
	if err != nil || len(stored) != 2 {
		t.Fatalf("stored: %v, %v", stored, err)
	}

	f = &fakeTB{TB: t}
	check(f, dir, 0, 0, bad)
	if len(f.failed) != 1 || !strings.Contains(f.failed[0], "437 is too large") {
		t.Errorf("replay: %q", f.failed)
	}
	f = &fakeTB{TB: t}
	ran := 0
	check(f, dir, 5, 0, func(g *G) error { ran++; return nil })
	if len(f.failed) != 0 || ran != 6 {
		t.Errorf("after the repair: %d cases, %q", ran, f.failed)
	}
}

func TestCheck_panicIsFailure(t *testing.T) {
	f := &fakeTB{TB: t}
	check(f, t.TempDir(), 20, 0, func(g *G) error {
		var none []int
		_ = none[g.Pick(3)]
		return nil
	})
	if len(f.failed) != 1 || !strings.Contains(f.failed[0], "panic: runtime error: index out of range") {
		t.Errorf("failures: %q", f.failed)
	}
}

// A test that ends itself inside a property at least says in which case.
func TestCheck_testEndsItself(t *testing.T) {
	f := &fakeTB{TB: t}
	dir := t.TempDir()
	done := make(chan struct{})
	go func() {
		defer close(done)
		check(f, dir, 20, 0, func(g *G) error {
			g.Bool()
			runtime.Goexit() // as t.Fatal does
			return nil
		})
	}()
	<-done
	if len(f.logged) != 1 || !strings.Contains(f.logged[0], "stream [0.") {
		t.Errorf("logged %q", f.logged)
	}
}

func TestCheck_discard(t *testing.T) {
	f := &fakeTB{TB: t}
	held := 0
	check(f, t.TempDir(), 40, 0, func(g *G) error {
		if g.Bool() {
			return ErrDiscard
		}
		held++
		return nil
	})
	if len(f.failed) != 0 || held != 40 {
		t.Errorf("%d held, failures %q", held, f.failed)
	}
	check(f, t.TempDir(), 40, 0, func(g *G) error { return ErrDiscard })
	if len(f.failed) != 1 || !strings.Contains(f.failed[0], "discarded") {
		t.Errorf("a property that checks nothing passed: %q", f.failed)
	}
}

func TestCheck_badFile(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "TestFake-sub-test.txt"), []byte("# note\n0.5\n1.5\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	f := &fakeTB{TB: t}
	check(f, dir, 1, 0, func(g *G) error { return nil })
	if len(f.failed) != 1 || !strings.Contains(f.failed[0], `"1.5"`) {
		t.Errorf("failures: %q", f.failed)
	}
}

func TestStore_roundTrip(t *testing.T) {
	file := filepath.Join(t.TempDir(), "deep", "x.txt")
	want := []float64{0, 0.1, 1.0 / 3, 1 - 0x1p-53, 5e-324}
	if err := store(file, want, "first\nsecond"); err != nil {
		t.Fatal(err)
	}
	got, err := load(file)
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("got %v, %v", got, err)
	}
	if got, err := load(file + ".none"); got != nil || err != nil {
		t.Errorf("no file: %v, %v", got, err)
	}
}

func TestShrink_stopsAndStaysFailing(t *testing.T) {
	Check(t, func(g *G) error {
		stream := make([]float64, g.Int(1, 12))
		for i := range stream {
			stream[i] = g.Float(0, 0.999)
		}
		limit := g.Float(0, 0.9)
		fails := func(s []float64) ([]float64, bool) {
			for i, u := range s {
				if u >= limit {
					return s[:i+1], true
				}
			}
			return s, false
		}
		if _, failed := fails(stream); !failed {
			return ErrDiscard
		}
		best, tries := shrink(stream, fails)
		if tries > maxTries {
			return fmt.Errorf("%d tries", tries)
		}
		if _, failed := fails(best); !failed {
			return errors.New("the shrunk stream does not fail")
		}
		if len(best) != 1 || best[0] > limit*(1+2e-6) {
			return fmt.Errorf("shrunk to %v, the least is [%v]", best, limit)
		}
		return nil
	})
}

// Replay gives a fuzzer's bytes to a property, two a draw, and nothing after them.
func TestReplay(t *testing.T) {
	var got []float64
	err := Replay([]byte{0x80, 0x00, 0xff, 0xff, 0x12}, func(g *G) error {
		got = append(got, g.Float(0, 1), g.Float(0, 1), g.Float(0, 1))
		return nil
	})
	if err != nil || len(got) != 3 || got[0] != 0.5 || got[1] != 65535./65536 || got[2] != 0 {
		t.Errorf("%v, %v", got, err)
	}
	if err := Replay(nil, func(g *G) error { return ErrDiscard }); err != nil {
		t.Errorf("inputs discarded are no failure: %v", err)
	}
	want := errors.New("x")
	if err := Replay(nil, func(g *G) error { return want }); err != want {
		t.Errorf("%v, want %v", err, want)
	}
}
