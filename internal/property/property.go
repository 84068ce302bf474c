// Package property checks a statement over many random inputs.
//
// A property draws its inputs from a [G] and returns an error where the
// statement does not hold:
//
//	property.Check(t, func(g *property.G) error {
//		q := g.LogFloat(1e-6, 1e-2)
//		more := q * (1 + g.Float(0.01, 1))
//		if a, b := loss(q), loss(more); !(b > a) {
//			return fmt.Errorf("loss fell from %g to %g", a, b)
//		}
//		return nil
//	})
//
// Seeds follow from the test's name, so a run can be repeated. When a case
// fails, simpler inputs that also fail are looked for, and the simplest are
// shown and stored under testdata/property, from where later runs replay them
// before anything else. Commit that file with the repair.
package property

import (
	"errors"
	"flag"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
)

var (
	cases = flag.Int("property.n", usual(os.Getenv("PROPERTY_CASES")), "random cases for each property; the environment variable PROPERTY_CASES changes the usual 200")
	seed  = flag.Uint64("property.seed", 0, "another set of random cases for each value")
)

// usual is the number of cases without a flag: 200, or what the environment
// says, for runs of every package at once that are slower than usual.
func usual(env string) int {
	if n, err := strconv.Atoi(env); err == nil && n > 0 {
		return n
	}
	return 200
}

// ErrDiscard is returned by a property whose inputs its statement does not
// speak about. The case is drawn again; a property that discards more than
// nine cases of ten fails, since it hardly checks anything.
var ErrDiscard = errors.New("property: inputs discarded")

// A G hands out random inputs. It belongs to one case of one property and is
// not safe for concurrent use.
type G struct {
	rng    *rand.Rand // nil when replaying
	replay []float64
	drawn  []float64
	log    []string
	quiet  bool // keeps no log
}

// draw returns the next number of the stream, in [0, 1). The stream is all
// that a case is made of: to store, replay and shrink a case is to do so with
// its numbers. Smaller numbers are meant to give simpler inputs.
func (g *G) draw() float64 {
	var u float64
	switch n := len(g.drawn); {
	case n < len(g.replay):
		u = g.replay[n]
	case g.rng != nil:
		// The ends of a range are where mistakes are.
		switch u = g.rng.Float64(); g.rng.IntN(32) {
		case 0:
			u = 0
		case 1:
			u = 1 - 0x1p-53
		}
	}
	g.drawn = append(g.drawn, u)
	return u
}

func (g *G) note(format string, a ...any) {
	if !g.quiet {
		g.log = append(g.log, fmt.Sprintf(format, a...))
	}
}

// Note adds a line to what is shown of a failing case.
func (g *G) Note(format string, a ...any) { g.note(format, a...) }

// Float returns a number from lo to hi, both included, spread evenly.
// It shrinks towards lo.
func (g *G) Float(lo, hi float64) float64 {
	if !(lo <= hi) || math.IsInf(lo, 0) || math.IsInf(hi, 0) {
		panic(fmt.Sprintf("property: Float(%v, %v)", lo, hi))
	}
	u := g.draw()
	x := min(max(lo*(1-u)+hi*u, lo), hi)
	g.note("Float(%v, %v) = %v", lo, hi, x)
	return x
}

// LogFloat returns a number from lo to hi, both positive and included, its
// logarithm spread evenly. It shrinks towards lo.
func (g *G) LogFloat(lo, hi float64) float64 {
	if !(0 < lo && lo <= hi) || math.IsInf(hi, 0) {
		panic(fmt.Sprintf("property: LogFloat(%v, %v)", lo, hi))
	}
	u := g.draw()
	x := min(max(lo*math.Exp(u*(math.Log(hi)-math.Log(lo))), lo), hi)
	g.note("LogFloat(%v, %v) = %v", lo, hi, x)
	return x
}

// Int returns a whole number from lo to hi, both included. It shrinks towards lo.
func (g *G) Int(lo, hi int) int {
	if lo > hi {
		panic(fmt.Sprintf("property: Int(%d, %d)", lo, hi))
	}
	x := lo + g.below(hi-lo+1)
	g.note("Int(%d, %d) = %d", lo, hi, x)
	return x
}

// Bool returns true or false. It shrinks towards false.
func (g *G) Bool() bool {
	b := g.below(2) == 1
	g.note("Bool() = %v", b)
	return b
}

// Pick returns an index below n. It shrinks towards 0.
func (g *G) Pick(n int) int {
	if n < 1 {
		panic(fmt.Sprintf("property: Pick(%d)", n))
	}
	i := g.below(n)
	g.note("Pick(%d) = %d", n, i)
	return i
}

// Perm returns the numbers below n in some order. It shrinks towards 0, 1, 2, ….
func (g *G) Perm(n int) []int {
	if n < 0 {
		panic(fmt.Sprintf("property: Perm(%d)", n))
	}
	p := make([]int, n)
	for i := range p {
		p[i] = i
	}
	for i := 0; i < n-1; i++ {
		j := i + g.below(n-i)
		p[i], p[j] = p[j], p[i]
	}
	g.note("Perm(%d) = %v", n, p)
	return p
}

// OneOf returns one of the values given. It shrinks towards the first.
func OneOf[T any](g *G, values ...T) T {
	if len(values) == 0 {
		panic("property: OneOf without values")
	}
	v := values[g.below(len(values))]
	g.note("OneOf = %v", v)
	return v
}

func (g *G) below(n int) int { return min(int(g.draw()*float64(n)), n-1) }

// Check fails t unless the property holds for every case tried: those stored
// by earlier failures, then as many random ones as the flag -property.n says.
// A panic in the property is a failure. Use one Check in a test or subtest:
// seed and stored file go by the test's name.
func Check(t testing.TB, property func(g *G) error) {
	t.Helper()
	check(t, filepath.Join("testdata", "property"), *cases, *seed, property)
}

func check(t testing.TB, dir string, n int, seed uint64, property func(g *G) error) {
	t.Helper()
	file := filepath.Join(dir, fileName(t.Name()))
	stored, err := load(file)
	if err != nil {
		t.Errorf("property: %v", err)
		return
	}
	if stored != nil {
		if err := run(t, &G{replay: stored, quiet: true}, property); err != nil && !errors.Is(err, ErrDiscard) {
			t.Errorf("property: the case stored in %s fails: %v", filepath.ToSlash(file), describe(t, stored, property))
			return
		}
	}
	h := fnv.New64a()
	h.Write([]byte(t.Name()))
	held, discarded := 0, 0
	for i := 0; held < n; i++ {
		g := &G{rng: rand.New(rand.NewPCG(seed^h.Sum64(), uint64(i))), quiet: true}
		err := run(t, g, property)
		switch {
		case err == nil:
			held++
		case errors.Is(err, ErrDiscard):
			if discarded++; discarded > 9*n {
				t.Errorf("property: %d cases discarded and only %d of %d checked", discarded, held, n)
				return
			}
		default:
			simple, tries := shrink(g.drawn, func(s []float64) ([]float64, bool) {
				g := &G{replay: s, quiet: true}
				err := run(t, g, property)
				return g.drawn, err != nil && !errors.Is(err, ErrDiscard)
			})
			text := describe(t, simple, property)
			t.Errorf("property: case %d fails, -property.seed=%d (first seen as: %v)\nsimplest found in %d tries: %s", i, seed, err, tries, text)
			if err := store(file, simple, text); err != nil {
				t.Logf("property: the case is not stored: %v", err)
			} else {
				t.Logf("property: the case is stored in %s", filepath.ToSlash(file))
			}
			return
		}
	}
}

// Replay runs the property once on the draws that bytes stand for, two bytes a
// draw, zero where they end: for fuzz targets, which choose the bytes. Panics are
// the fuzzer's to see.
func Replay(data []byte, property func(g *G) error) error {
	stream := make([]float64, 0, len(data)/2)
	for i := 0; i+1 < len(data); i += 2 {
		stream = append(stream, float64(int(data[i])<<8|int(data[i+1]))/65536)
	}
	if err := property(&G{replay: stream, quiet: true}); !errors.Is(err, ErrDiscard) {
		return err
	}
	return nil
}

// describe runs a stream once more and tells its error and its inputs.
func describe(t testing.TB, stream []float64, property func(g *G) error) string {
	g := &G{replay: stream}
	err := run(t, g, property)
	if err == nil {
		return "the case holds when run again: the property depends on more than its inputs"
	}
	return err.Error() + "\n\t" + strings.Join(g.log, "\n\t")
}

// run runs the property on one case and makes a panic an error.
func run(t testing.TB, g *G, property func(g *G) error) (err error) {
	done := false
	defer func() {
		if done {
			return
		}
		r := recover()
		if r == nil { // t.FailNow or t.SkipNow: the test ends here
			t.Logf("property: the test ended itself in the case of the stream %v; return an error instead", g.drawn)
			return
		}
		stack := make([]byte, 4096)
		stack = stack[:runtime.Stack(stack, false)]
		err = fmt.Errorf("panic: %v\n%s", r, stack)
	}()
	err = property(g)
	done = true
	return err
}

// fileName makes a file's name of a test's.
func fileName(test string) string {
	return strings.Map(func(r rune) rune {
		if r == '_' || r == '-' || '0' <= r && r <= '9' || 'A' <= r && r <= 'Z' || 'a' <= r && r <= 'z' {
			return r
		}
		return '-'
	}, test) + ".txt"
}

func store(file string, stream []float64, text string) error {
	var b strings.Builder
	b.WriteString("# A case that failed. Each number is one draw, in [0, 1).\n")
	for line := range strings.Lines(text) {
		b.WriteString("# " + strings.TrimSpace(line) + "\n")
		if b.Len() > 2000 {
			break
		}
	}
	for _, u := range stream {
		b.WriteString(strconv.FormatFloat(u, 'g', -1, 64) + "\n")
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
		return err
	}
	return os.WriteFile(file, []byte(b.String()), 0o666)
}

// load returns the stream stored in the file; nil if there is no file.
func load(file string) ([]float64, error) {
	text, err := os.ReadFile(file)
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	stream := []float64{}
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		u, err := strconv.ParseFloat(line, 64)
		if err != nil || !(0 <= u && u < 1) {
			return nil, fmt.Errorf("%s: %q is not a number from 0 to below 1", filepath.ToSlash(file), line)
		}
		stream = append(stream, u)
	}
	return stream, nil
}
