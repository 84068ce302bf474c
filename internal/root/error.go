package root

import (
	"errors"
	"fmt"

	"example.com/washrig/units"
)

// Reasons for a failed search, for errors.Is.
var (
	// ErrBracket: an end or the tolerance is not usable, or both ends have
	// function values of one sign.
	ErrBracket = errors.New("no sign change in the bracket")
	// ErrNotANumber: the function returned NaN.
	ErrNotANumber = errors.New("function value is not a number")
	// ErrPole: the sign changes, but the function grows towards the change
	// instead of falling to zero.
	ErrPole = errors.New("sign change without a zero")
)

// An Error reports a search that gave no answer. [errors.As] also gives it as a
// [*units.SolverError].
type Error struct {
	Solver     string  // "root.Bracketed" or "root.Safeguarded"
	Iterations int     // evaluations of the function
	X          float64 // where the search stood
	Residual   float64 // function value there
	Lo, Hi     float64 // bracket at that moment
	Err        error   // ErrBracket, ErrNotANumber or ErrPole
}

func (e *Error) Error() string {
	return fmt.Sprintf("%s: %v: f(%g) = %g, bracket [%g, %g], %d evaluations",
		e.Solver, e.Err, e.X, e.Residual, e.Lo, e.Hi, e.Iterations)
}

// Unwrap returns the reason.
func (e *Error) Unwrap() error { return e.Err }

// As lets [errors.As] fill a *units.SolverError.
func (e *Error) As(target any) bool {
	s, ok := target.(**units.SolverError)
	if ok {
		*s = &units.SolverError{
			Solver:     e.Solver,
			State:      fmt.Sprintf("x = %g (%v)", e.X, e.Err),
			Iterations: e.Iterations,
			Residual:   e.Residual,
			Lo:         e.Lo,
			Hi:         e.Hi,
		}
	}
	return ok
}
