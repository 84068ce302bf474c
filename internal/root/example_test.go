package root_test

import (
	"errors"
	"fmt"
	"math"

	"example.com/washrig/internal/root"
)

func ExampleBracketed() {
	// The number that is its own cosine.
	x, _, err := root.Bracketed(func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 1e-12)
	fmt.Printf("%.10f %v\n", x, err)

	_, _, err = root.Bracketed(math.Exp, 0, 1, 1e-12)
	fmt.Println(errors.Is(err, root.ErrBracket))
	// Output:
	// 0.7390851332 <nil>
	// true
}

func ExampleSafeguarded() {
	// Kepler's equation E − e sin E = M for e = 0.1 and M = 5°.
	const e, M = 0.1, 5 * math.Pi / 180
	E, _, err := root.Safeguarded(func(E float64) (f, df float64) {
		return E - e*math.Sin(E) - M, 1 - e*math.Cos(E)
	}, M-e, M+e, M, 1e-12, 0)
	fmt.Printf("%.6f° %v\n", E*180/math.Pi, err)
	// Output: 5.554589° <nil>
}
