package root

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/washrig/units"
)

// most is the number of evaluations no search may exceed: the patience, 64
// halvings of the set of floating-point numbers and the ends.
const most = patience + 64 + 4

// Polynomials with one known zero each, steep or flat there.
func TestBracketed_closesTheBracket(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for i := range 2000 {
		r := rng.Float64()*20 - 10
		k := math.Exp(rng.Float64()*20 - 10)
		n := float64(1 + 2*rng.IntN(4))
		f := func(x float64) float64 { return k * math.Copysign(math.Pow(math.Abs(x-r), n), x-r) }
		lo, hi := r-math.Exp(rng.Float64()*10-5), r+math.Exp(rng.Float64()*10-5)
		xtol := math.Pow(10, -14*rng.Float64())
		if i%2 == 0 {
			lo, hi = hi, lo
		}
		x, it, err := Bracketed(f, lo, hi, xtol)
		if err != nil || it > most || math.Abs(x-r) > xtol+2*spacing(x, x) {
			t.Fatalf("root %g, power %g, bracket [%g, %g], xtol %g: %g after %d, %v", r, n, lo, hi, xtol, x, it, err)
		}
	}
}

func TestSafeguarded_closesTheBracket(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		r := rng.Float64()*20 - 10
		k := math.Exp(rng.Float64()*10 - 5)
		f := func(x float64) (float64, float64) {
			d := x - r
			return k * (math.Exp(d) - 1), k * math.Exp(d)
		}
		lo, hi := r-30*rng.Float64()-1e-3, r+30*rng.Float64()+1e-3
		x, it, err := Safeguarded(f, lo, hi, lo+(hi-lo)*rng.Float64(), 1e-10, 0)
		if err != nil || it > most || math.Abs(x-r) > 1e-10 {
			t.Fatalf("root %g, bracket [%g, %g]: %g after %d, %v", r, lo, hi, x, it, err)
		}
	}
}

// Full precision from good starts must not cost more than Newton's method does.
func TestSafeguarded_spendsFewEvaluations(t *testing.T) {
	n := 0
	x, it, err := Safeguarded(func(x float64) (float64, float64) { n++; return x*x - 2, 2 * x }, 0, 2, 1.5, 0, 0)
	if err != nil || math.Abs(x-math.Sqrt2) > 3e-16 {
		t.Fatalf("%v, %v", x, err)
	}
	if it != n {
		t.Errorf("reported %d evaluations, made %d", it, n)
	}
	if it > 6 {
		t.Errorf("%d evaluations, quadratic convergence needs 5", it)
	}
}

// A derivative that is wrong or not finite costs evaluations, not the answer.
func TestSafeguarded_badDerivative(t *testing.T) {
	for _, bad := range []float64{0, math.NaN(), math.Inf(1), -1, 1e-300} {
		x, it, err := Safeguarded(func(x float64) (float64, float64) { return math.Cbrt(x - 1), bad }, -3, 10, 4, 1e-12, 0)
		if err != nil || math.Abs(x-1) > 1e-12 || it > most {
			t.Errorf("derivative %v: %v after %d, %v", bad, x, it, err)
		}
	}
}

func TestBracketed_edges(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	line := func(x float64) float64 { return x - 1 }
	for _, c := range []struct {
		name         string
		f            func(float64) float64
		lo, hi, xtol float64
		want         float64
		err          error
	}{
		{"zero at the lower end", line, 1, 2, 0, 1, nil},
		{"zero at the upper end", line, 0, 1, 0, 1, nil},
		{"equal ends on the zero", line, 1, 1, 0, 1, nil},
		{"equal ends off the zero", line, 2, 2, 0, nan, ErrBracket},
		{"reversed", line, 3, -4, 0, 1, nil},
		{"no sign change", line, 2, 3, 0, nan, ErrBracket},
		{"NaN end", line, nan, 3, 0, nan, ErrBracket},
		{"infinite end", line, -inf, 3, 0, nan, ErrBracket},
		{"negative tolerance", line, 0, 3, -1, nan, ErrBracket},
		{"NaN tolerance", line, 0, 3, nan, nan, ErrBracket},
		{"NaN at the lower end", math.Log, -1, 3, 0, nan, ErrNotANumber},
		{"NaN at the upper end", func(x float64) float64 { return math.Sqrt(2-x) - 1 }, 0, 3, 0, nan, ErrNotANumber},
		{"NaN inside", func(x float64) float64 {
			if x > -1 && x < 1 {
				return nan
			}
			return x
		}, -2, 2, 0, nan, ErrNotANumber},
		{"infinite at an end", math.Log, 0, 3, 1e-15, 1, nil},
		{"infinite on one side", func(x float64) float64 {
			if x < 1 {
				return -inf
			}
			return x - 1 + 0x1p-40
		}, 0, 3, 0, 1, nil},
		{"pole", func(x float64) float64 { return 1 / (1 - x) }, 0.5, 1.7, 0, nan, ErrPole},
		{"infinite on both sides", func(x float64) float64 { return math.Copysign(inf, x-0.3) }, 0, 1, 0, nan, ErrPole},
		{"jump", func(x float64) float64 { return math.Copysign(1, x-0.5) }, 0, 2, 1e-9, 0.5, nil},
		{"widest bracket", func(x float64) float64 { return x - 1e-200 }, -math.MaxFloat64, math.MaxFloat64, 0, 1e-200, nil},
		{"subnormal", func(x float64) float64 { return x - 3e-320 }, -1, 1, 0, 3e-320, nil},
	} {
		x, it, err := Bracketed(c.f, c.lo, c.hi, c.xtol)
		check(t, "Bracketed, "+c.name, x, it, err, c.want, c.xtol, c.err)
		if c.xtol == 0 && c.err == nil {
			continue // full precision is Bracketed's own promise here
		}
		g := func(x float64) (float64, float64) {
			d := 1e-6
			return c.f(x), (c.f(x+d) - c.f(x-d)) / (2 * d)
		}
		x, it, err = Safeguarded(g, c.lo, c.hi, 0.5*c.lo+0.5*c.hi, c.xtol, 0)
		if c.name == "NaN at the lower end" || c.name == "NaN at the upper end" {
			continue // the ends are not looked at when Newton's method finds the zero
		}
		check(t, "Safeguarded, "+c.name, x, it, err, c.want, c.xtol, c.err)
	}
}

func check(t *testing.T, name string, x float64, it int, err error, want, xtol float64, reason error) {
	t.Helper()
	if reason != nil {
		var e *Error
		if !errors.Is(err, reason) || !errors.As(err, &e) || !math.IsNaN(x) || e.Iterations != it {
			t.Errorf("%s: %v after %d, %v; want the error %q and NaN", name, x, it, err, reason)
		}
		return
	}
	if err != nil || it > most || math.Abs(x-want) > xtol+2*spacing(want, want)+math.SmallestNonzeroFloat64 {
		t.Errorf("%s: %v after %d, %v; want %v", name, x, it, err, want)
	}
}

func TestSafeguarded_residualTolerance(t *testing.T) {
	x, _, err := Safeguarded(func(x float64) (float64, float64) { return x * x * x, 3 * x * x }, -1, 2, 1.9, 0, 1e-9)
	if err != nil || math.Abs(x*x*x) > 1e-9 {
		t.Errorf("%v, %v", x, err)
	}
	if _, _, err := Safeguarded(func(x float64) (float64, float64) { return x, 1 }, -1, 1, 0.5, 0, math.NaN()); !errors.Is(err, ErrBracket) {
		t.Errorf("NaN tolerance accepted: %v", err)
	}
}

func TestError_asSolverError(t *testing.T) {
	_, it, err := Bracketed(math.Exp, -1, 2, 0)
	var s *units.SolverError
	if !errors.As(err, &s) {
		t.Fatalf("%v is no *units.SolverError", err)
	}
	want := units.SolverError{Solver: "root.Bracketed", State: s.State, Iterations: it, Residual: math.Exp(2), Lo: -1, Hi: 2}
	if *s != want {
		t.Errorf("got %+v, want %+v", *s, want)
	}
}

func TestSearch_allocatesNothing(t *testing.T) {
	n := testing.AllocsPerRun(100, func() {
		k := 2.0
		if _, _, err := Bracketed(func(x float64) float64 { return x*x - k }, 0, 2, 1e-12); err != nil {
			t.Fatal(err)
		}
		if _, _, err := Safeguarded(func(x float64) (float64, float64) { return x*x - k, 2 * x }, 0, 2, 1, 1e-12, 0); err != nil {
			t.Fatal(err)
		}
	})
	if n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func FuzzSearch(f *testing.F) {
	f.Add(1.0, -2.0, 0.5, 3.0, 0.0, 2.0, 1e-9)
	f.Add(-1.0, 0.0, 0.0, 1e-300, -1e308, 1e308, 0.0)
	f.Add(math.Inf(1), 0.0, 0.0, 1.0, -1.0, 1.0, 0.0)
	f.Fuzz(func(t *testing.T, a, b, c, d, lo, hi, xtol float64) {
		cubic := func(x float64) float64 { return ((d*x+c)*x+b)*x + a }
		slope := func(x float64) (float64, float64) { return cubic(x), (3*d*x+2*c)*x + b }
		l, h := math.Min(lo, hi), math.Max(lo, hi)

		var seen [][2]float64
		x, it, err := Bracketed(func(x float64) float64 {
			y := cubic(x)
			seen = append(seen, [2]float64{x, y})
			return y
		}, lo, hi, xtol)
		if it > most {
			t.Fatalf("Bracketed: %d evaluations", it)
		}
		if it != len(seen) {
			t.Fatalf("Bracketed: reported %d evaluations, made %d", it, len(seen))
		}
		if err == nil {
			// A zero, or a point of the other sign not further off than asked.
			y, closed := cubic(x), false
			for _, p := range seen {
				near := math.Abs(p[0]-x) <= xtol || math.Nextafter(x, p[0]) == p[0]
				closed = closed || y == 0 || near && (p[1] > 0) != (y > 0)
			}
			if !(x >= l && x <= h) || !closed {
				t.Fatalf("Bracketed: %g in [%g, %g] has no sign change within %g", x, l, h, xtol)
			}
		}
		if err != nil && !math.IsNaN(x) {
			t.Fatalf("Bracketed: %g with error %v", x, err)
		}

		x, it, err = Safeguarded(slope, lo, hi, c, xtol, 0)
		if it > most {
			t.Fatalf("Safeguarded: %d evaluations", it)
		}
		if err == nil && !(x >= l && x <= h) {
			t.Fatalf("Safeguarded: %g outside [%g, %g]", x, l, h)
		}
		if err != nil && !math.IsNaN(x) {
			t.Fatalf("Safeguarded: %g with error %v", x, err)
		}
	})
}

func BenchmarkBracketed(b *testing.B) {
	n := 0
	for i := range b.N {
		k := 2 + float64(i&1023)/1024
		_, it, _ := Bracketed(func(x float64) float64 { return x*x*x - k }, 0, 2, 1e-12)
		n += it
	}
	b.ReportMetric(float64(n)/float64(b.N), "evaluations/op")
}

func BenchmarkSafeguarded(b *testing.B) {
	n := 0
	for i := range b.N {
		k := 2 + float64(i&1023)/1024
		_, it, _ := Safeguarded(func(x float64) (float64, float64) { return x*x*x - k, 3 * x * x }, 0, 2, 1.3, 1e-12, 0)
		n += it
	}
	b.ReportMetric(float64(n)/float64(b.N), "evaluations/op")
}
