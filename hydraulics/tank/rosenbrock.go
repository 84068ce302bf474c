package tank

import "math"

// Coefficients of the Rosenbrock method RODAS: order 4 with an error estimate of
// order 3, six stages, stiffly accurate and L-stable. Joined tanks are stiff: the
// levels at either end of a wide crossover meet in a hundredth of a second while
// the tanks drain for an hour, which an explicit method pays for in steps.
//
// Source: E. Hairer and G. Wanner, Solving Ordinary Differential Equations II,
// 2nd ed., Springer 1996, section IV.7 and the code RODAS that goes with it.
const rodasGamma = 0.25

var (
	rodasA = [6][5]float64{
		{},
		{1.544},
		{0.9466785280815826, 0.2557011698983284},
		{3.314825187068521, 2.896124015972201, 0.9986419139977817},
		{1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950},
		{1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1},
	}
	rodasC = [6][5]float64{
		{},
		{-5.6688},
		{-2.430093356833875, -0.2063599157091915},
		{-0.1073529058151375, -9.594562251023355, -20.47028614809616},
		{7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160},
		{8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054},
	}
)

// A stepper makes steps of a flowing system. Along with the state it carries the
// integrals of the fluxes, by their own formula, so that contents and integrated
// flows are two sides to compare.
type stepper struct {
	f           *flowing
	size, fluxN int
	slope       []float64 // fluxes × state: derivative of the fluxes
	jac, lu     []float64 // state × state
	pivot       []int
	u           [6][]float64 // stages of the state
	w           [6][]float64 // stages of the integrals
	flux        []float64
	stage, rhs  []float64
	column      []float64
}

func newStepper(f *flowing) *stepper {
	size, fluxN := f.size()
	s := &stepper{f: f, size: size, fluxN: fluxN}
	s.slope = make([]float64, fluxN*size)
	s.jac, s.lu = make([]float64, size*size), make([]float64, size*size)
	s.pivot = make([]int, size)
	for i := range s.u {
		s.u[i], s.w[i] = make([]float64, size), make([]float64, fluxN)
	}
	s.flux = make([]float64, fluxN)
	s.stage, s.rhs = make([]float64, size), make([]float64, size)
	s.column = make([]float64, fluxN)
	return s
}

// linearize takes the derivatives at y; steps from y of any length may follow.
func (s *stepper) linearize(y []float64) {
	s.f.fluxes(y, s.flux, s.slope)
	for j := range s.size {
		for k := range s.fluxN {
			s.column[k] = s.slope[k*s.size+j]
		}
		s.f.gather(s.column, s.rhs)
		for i := range s.size {
			s.jac[i*s.size+j] = s.rhs[i]
		}
	}
}

// step makes one step of length h from y into next, adds the integrals of the
// fluxes over it to sum, and returns the stage that estimates the error. It
// reports false where the matrix is singular or a number is not finite.
func (s *stepper) step(h float64, y, next, sum []float64) (estimate []float64, ok bool) {
	d := 1 / (h * rodasGamma)
	for i, x := range s.jac {
		s.lu[i] = -x
	}
	for i := range s.size {
		s.lu[i*s.size+i] += d
	}
	if !decompose(s.lu, s.pivot, s.size) {
		return nil, false
	}
	for i := range s.u {
		copy(s.stage, y)
		for j := range i {
			for k, u := range s.u[j] {
				s.stage[k] += rodasA[i][j] * u
			}
		}
		s.f.fluxes(s.stage, s.flux, nil)
		// right side of the integrals, then of the state
		w := s.w[i]
		for k := range w {
			w[k] = s.flux[k]
			for j := range i {
				w[k] += rodasC[i][j] / h * s.w[j][k]
			}
		}
		s.f.gather(s.flux, s.rhs)
		for j := range i {
			for k, u := range s.u[j] {
				s.rhs[k] += rodasC[i][j] / h * u
			}
		}
		solveLU(s.lu, s.pivot, s.size, s.rhs)
		copy(s.u[i], s.rhs)
		for k := range w {
			for j, u := range s.u[i] {
				w[k] += s.slope[k*s.size+j] * u
			}
			w[k] /= d
		}
	}
	for k := range next {
		next[k] = y[k] + s.u[5][k] + s.u[4][k]
		for j := range 4 {
			next[k] += rodasA[4][j] * s.u[j][k]
		}
		ok = ok || !finite(next[k])
	}
	if ok {
		return nil, false
	}
	for k := range sum {
		sum[k] += s.w[5][k] + s.w[4][k]
		for j := range 4 {
			sum[k] += rodasA[4][j] * s.w[j][k]
		}
	}
	return s.u[5], true
}

// decompose factors the n × n matrix a in place with row exchanges.
func decompose(a []float64, pivot []int, n int) bool {
	for c := range n {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(a[r*n+c]) > math.Abs(a[p*n+c]) {
				p = r
			}
		}
		pivot[c] = p
		if x := a[p*n+c]; x == 0 || !finite(x) {
			return false
		}
		if p != c {
			for k := range n {
				a[p*n+k], a[c*n+k] = a[c*n+k], a[p*n+k]
			}
		}
		inv := 1 / a[c*n+c]
		for r := c + 1; r < n; r++ {
			l := a[r*n+c] * inv
			a[r*n+c] = l
			if l == 0 {
				continue
			}
			for k := c + 1; k < n; k++ {
				a[r*n+k] -= l * a[c*n+k]
			}
		}
	}
	return true
}

// solveLU solves for b in place with the factors of decompose.
func solveLU(a []float64, pivot []int, n int, b []float64) {
	for c := range n {
		b[c], b[pivot[c]] = b[pivot[c]], b[c]
	}
	for r := 1; r < n; r++ {
		for k := range r {
			b[r] -= a[r*n+k] * b[k]
		}
	}
	for r := n - 1; r >= 0; r-- {
		for k := r + 1; k < n; k++ {
			b[r] -= a[r*n+k] * b[k]
		}
		b[r] /= a[r*n+r]
	}
}
