package root

import (
	"math"
	"strconv"
	"testing"

	"example.com/washrig/internal/worked"
)

// Test functions of Algorithm 748 with their brackets. Both finders run each;
// the derivatives are our own.
func TestSearch_Alefeld_Potra_Shi(t *testing.T) {
	const source = "G. E. Alefeld, F. A. Potra, Y. Shi, Algorithm 748, ACM Trans. Math. Software 21(3), 1995, Table 1; zeros as carried by SciPy 1.10.1, scipy.optimize._tstutils"
	poles := func(x float64) (f, df float64) {
		for i := 1.0; i <= 20; i++ {
			a, b := 2*i-5, x-i*i
			f -= 2 * a * a / (b * b * b)
			df += 6 * a * a / (b * b * b * b)
		}
		return f, df
	}
	for _, c := range []struct {
		name, function string
		f              func(x float64) (f, df float64)
		lo, hi         float64
		zero           string
	}{
		{"1", "sin x − x/2", func(x float64) (float64, float64) { return math.Sin(x) - x/2, math.Cos(x) - 0.5 },
			math.Pi / 2, math.Pi, "1.89549426703398094"},
		{"2", "−2 Σ (2i − 5)²/(x − i²)³, i = 1 … 20", poles, 1 + 1e-9, 4 - 1e-9, "3.02291534727305677"},
		{"2", "−2 Σ (2i − 5)²/(x − i²)³, i = 1 … 20", poles, 9 + 1e-9, 16 - 1e-9, "11.2387016550022114"},
		{"2", "−2 Σ (2i − 5)²/(x − i²)³, i = 1 … 20", poles, 100 + 1e-9, 121 - 1e-9, "110.026532748330197"},
		{"4", "x⁴ − 0.2", func(x float64) (float64, float64) { return x*x*x*x - 0.2, 4 * x * x * x },
			0, 5, "0.668740304976422006"},
		{"4", "x¹² − 0.2", func(x float64) (float64, float64) { return math.Pow(x, 12) - 0.2, 12 * math.Pow(x, 11) },
			0, 5, "0.874485272221167897"},
		{"6", "2x e⁻¹ − 2 e⁻ˣ + 1", func(x float64) (float64, float64) {
			return 2*x*math.Exp(-1) - 2*math.Exp(-x) + 1, 2*math.Exp(-1) + 2*math.Exp(-x)
		}, 0, 1, "0.422477709641236709"},
		{"6", "2x e⁻²⁰ − 2 e⁻²⁰ˣ + 1", func(x float64) (float64, float64) {
			return 2*x*math.Exp(-20) - 2*math.Exp(-20*x) + 1, 2*math.Exp(-20) + 40*math.Exp(-20*x)
		}, 0, 1, "0.0346573590208538521"},
		{"7", "17x − (1 − 5x)²", func(x float64) (float64, float64) {
			return 17*x - (1-5*x)*(1-5*x), 17 + 10*(1-5*x)
		}, 0, 1, "0.0384025518406218985"},
		{"8", "x² − (1 − x)⁵", func(x float64) (float64, float64) {
			return x*x - math.Pow(1-x, 5), 2*x + 5*math.Pow(1-x, 4)
		}, 0, 1, "0.345954815848242059"},
		{"9", "257x − (1 − 5x)⁴", func(x float64) (float64, float64) {
			return 257*x - math.Pow(1-5*x, 4), 257 + 20*math.Pow(1-5*x, 3)
		}, 0, 1, "0.00361710817890406339"},
		{"10", "e⁻⁵ˣ (x − 1) + x⁵", func(x float64) (float64, float64) {
			e := math.Exp(-5 * x)
			return e*(x-1) + math.Pow(x, 5), e*(1-5*(x-1)) + 5*math.Pow(x, 4)
		}, 0, 1, "0.516153518757933583"},
		{"14", "x/1.5 + sin x − 1 over 20, constant for x ≤ 0", func(x float64) (float64, float64) {
			if x <= 0 {
				return -1. / 20, 0
			}
			return (x/1.5 + math.Sin(x) - 1) / 20, (1/1.5 + math.Cos(x)) / 20
		}, -1e3, math.Pi / 2, "0.623806518961612433"},
		{"15", "e^(500·21 x) − 1.859, constant outside 0 … 0.002/21", func(x float64) (float64, float64) {
			switch {
			case x < 0:
				return -0.859, 0
			case x > 2e-3/21:
				return math.E - 1.859, 0
			}
			e := math.Exp(21 * x / 2 * 1000)
			return e - 1.859, e * 21 / 2 * 1000
		}, -1e3, 1e-4, "0.0000590513055942197166"},
	} {
		a, _, err := Bracketed(func(x float64) float64 { y, _ := c.f(x); return y }, c.lo, c.hi, 0)
		if err != nil {
			t.Errorf("%s: %v", c.function, err)
		}
		b, _, err := Safeguarded(c.f, c.lo, c.hi, 0.5*(c.lo+c.hi), 0, 0)
		if err != nil {
			t.Errorf("%s: %v", c.function, err)
		}
		want, err := strconv.ParseFloat(c.zero, 64)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(b-a) > 1e-14*math.Abs(a) {
			t.Errorf("%s: Bracketed gives %.17g, Safeguarded %.17g", c.function, a, b)
		}
		worked.Check(t, worked.Case{
			Question:  "Where is the zero of " + c.function + "?",
			Source:    source + ", function " + c.name,
			Status:    worked.Published,
			Given:     []string{"between " + strconv.FormatFloat(c.lo, 'g', 12, 64) + " and " + strconv.FormatFloat(c.hi, 'g', 12, 64)},
			Printed:   c.zero,
			Got:       a,
			Tolerance: 5e-15 * want,
			Reason:    "printed with more digits than a float64 has; the rounding of the function moves its zero by some units in the last place",
		})
	}
}

func TestSearch_classics(t *testing.T) {
	x, _, err := Bracketed(func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3, 0)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "Where is the zero of x³ − 2x − 5?",
		Source:   "On-Line Encyclopedia of Integer Sequences, A007493: Wallis's number, the example of Newton's method in 1685",
		Status:   worked.FromMemory,
		Given:    []string{"between 2 and 3"},
		Printed:  "2.094551481542327",
		Got:      x,
	})
	const e, M = 0.1, 5 * math.Pi / 180
	E, _, err := Safeguarded(func(E float64) (f, df float64) {
		return E - e*math.Sin(E) - M, 1 - e*math.Cos(E)
	}, 0, math.Pi, M, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "What is the eccentric anomaly in Kepler's equation E − e sin E = M?",
		Source:   "J. Meeus, Astronomical Algorithms, 2nd ed., 1998, Example 30.a",
		Status:   worked.FromMemory,
		Given:    []string{"e = 0.100", "M = 5°"},
		Printed:  "5.554589 °",
		Got:      E * 180 / math.Pi,
	})
}
