package tank

import "math"

// Nodes and weights of Gauss–Legendre quadrature with eight points on −1 to 1,
// the positive half (M. Abramowitz and I. A. Stegun, Handbook of Mathematical
// Functions, Table 25.4).
var (
	gaussNode   = [4]float64{0.183434642495649805, 0.525532409916328986, 0.796666477413626740, 0.960289856497536232}
	gaussWeight = [4]float64{0.362683783378361983, 0.313706645877887287, 0.222381034453374471, 0.101228536290376259}
)

// gauss integrates f from a to b with the eight points.
func gauss(f func(float64) float64, a, b float64) float64 {
	mid, half := 0.5*(a+b), 0.5*(b-a)
	sum := 0.0
	for i, x := range gaussNode {
		sum += gaussWeight[i] * (f(mid-x*half) + f(mid+x*half))
	}
	return sum * half
}

// integral integrates f from a to b, halving every part until both halves agree
// with the whole within the tolerance, relative to the first estimate of all. ok is
// false where forty halvings do not bring that about.
func integral(f func(float64) float64, a, b, tolerance float64) (sum float64, ok bool) {
	whole := gauss(f, a, b)
	return halves(f, a, b, whole, tolerance*math.Abs(whole), 40)
}

func halves(f func(float64) float64, a, b, whole, allowed float64, depth int) (float64, bool) {
	mid := 0.5 * (a + b)
	left, right := gauss(f, a, mid), gauss(f, mid, b)
	if math.Abs(left+right-whole) <= allowed {
		return left + right, true
	}
	if depth == 0 || !finite(left+right) {
		return left + right, false
	}
	l, lok := halves(f, a, mid, left, allowed, depth-1)
	r, rok := halves(f, mid, b, right, allowed, depth-1)
	return l + r, lok && rok
}
