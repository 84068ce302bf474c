// Package root finds a zero of a function of one variable inside a bracket.
//
// [Bracketed] needs function values only, [Safeguarded] uses the derivative as
// well. Both stay inside the bracket, end after a bounded number of evaluations
// for every function, allocate nothing unless they fail, and either return a
// point or an [*Error] that carries the bracket, the evaluations spent and the
// residual.
//
//	x, n, err := root.Bracketed(func(x float64) float64 { return x*x - 2 }, 0, 2, 1e-12)
//
// A bracket is two finite points, in either order, where the function is zero
// or has opposite signs. An infinite function value counts by its sign; a NaN
// ends the search with [ErrNotANumber].
//
//	function     method                                         source
//	Bracketed    inverse quadratic interpolation or bisection   Chandrupatla 1997
//	Near         secants, then Bracketed                        textbook
//	Inverse      inverse quadratic interpolation, or failure    Brent 1973
//	Tangent      Newton's method with the bend, or failure      textbook
//	Safeguarded  Newton's method, bisection where it fails      Press et al., section 9.4
package root
