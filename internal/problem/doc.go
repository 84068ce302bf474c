// Package problem gathers what is wrong with an input, in field order, as the
// [units.FieldError]s that exported functions return joined.
//
//	var p problem.List
//	problem.Within(&p, "bore", h.Bore, 1e-6, 100) // must be given
//	problem.Between(&p, "rise", h.Rise, -10, 10)  // zero is a value like any other
//	return p.Join()                               // nil where nothing was wrong
package problem
