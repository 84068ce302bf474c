// Package ode integrates ordinary differential equations that are not stiff.
//
// [Solver.Integrate] carries y' = f(t, y) from t0 to t1 with the embedded
// Runge–Kutta pair of Dormand and Prince, order 5 with an error estimate of
// order 4, and stops at the first event whose function changes sign. A Solver
// keeps its workspace, so integrating again allocates nothing; its zero value
// works. It is not safe for concurrent use, unlike separate solvers.
//
//	var s ode.Solver
//	y := []float64{1}
//	r, err := s.Integrate(func(t float64, y, dydt []float64) { dydt[0] = -y[0] }, 0, 1, y, ode.Options{})
//
// Quantities that are integrated along (heat lost, mass passed) belong into y
// as components of their own: they are then as exact as the rest.
//
// Source: J. R. Dormand and P. J. Prince, "A family of embedded Runge–Kutta
// formulae", Journal of Computational and Applied Mathematics 6(1), 1980,
// pp. 19–26, tableau RK5(4)7M; step control after E. Hairer, S. P. Nørsett and
// G. Wanner, Solving Ordinary Differential Equations I, 2nd edition, Springer
// 1993, section II.4.
package ode
