package worked

import (
	"math"
	"strings"
	"testing"
)

// Whatever is read as a printed number is finite, has a last digit, agrees
// with itself and, when written again in its own style, is read as the same to
// within that digit.
func FuzzNumber(f *testing.F) {
	for _, s := range []string{"2,283 psi", "1.2E-3 MPa", "−40.0 °F", "$1,234.50", "1.80 × 10^-5 Pa·s", "5e-324", "0.0", "1,23", "9e308"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := parse(s)
		if err != nil {
			return
		}
		if math.IsNaN(p.value) || math.IsInf(p.value, 0) || !(p.half > 0) || math.IsInf(p.half, 0) {
			t.Fatalf("%q: value %v, half %v", s, p.value, p.half)
		}
		if p.unit != strings.TrimSpace(p.unit) {
			t.Errorf("%q: unit %q", s, p.unit)
		}
		if p.decimals+p.significant > 300 || math.Abs(p.value) > 1e300 || p.value != 0 && math.Abs(p.value) < 1e-290 {
			return // rounding to twelve digits may leave the range of a float64
		}
		ours := p.withUnit(p.like(p.value))
		q, err := parse(ours)
		if err != nil {
			t.Fatalf("%q written again is %q: %v", s, ours, err)
		}
		// Twelve digits are kept at most, so a longer number loses its tail.
		if d := math.Abs(q.value - p.value); !(d <= p.half || d <= 1e-10*math.Abs(p.value)) || q.unit != p.unit {
			t.Errorf("%q written again is %q: %v %q became %v %q", s, ours, p.value, p.unit, q.value, q.unit)
		}
	})
}
