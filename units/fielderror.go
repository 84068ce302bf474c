package units

import (
	"errors"
	"fmt"
	"strings"
)

// Kinds of input error, for [errors.Is].
var (
	ErrMissing  = errors.New("required value not given")
	ErrRange    = errors.New("outside the accepted range")
	ErrConflict = errors.New("values contradict each other")
	ErrSyntax   = errors.New("cannot be read")
)

// A FieldError reports one unusable input.
type FieldError struct {
	Path  string // the caller's own fields: "hose.length"; empty for a bare text
	Value string // what was given: "-3 m"; empty if nothing was
	Want  string // what would do: "more than 0 m"
	Err   error  // ErrMissing, ErrRange, ErrConflict, ErrSyntax or an error that wraps one
}

// Error returns "hose.length = -3 m: outside the accepted range (want more
// than 0 m)". The text is for people and may change.
func (e *FieldError) Error() string {
	var b strings.Builder
	b.WriteString(e.Path)
	if e.Value != "" {
		if e.Path != "" {
			b.WriteString(" = ")
		}
		b.WriteString(e.Value)
	}
	if b.Len() > 0 {
		b.WriteString(": ")
	}
	if e.Err != nil {
		b.WriteString(e.Err.Error())
	} else {
		b.WriteString("unusable")
	}
	if e.Want != "" {
		b.WriteString(" (want ")
		b.WriteString(e.Want)
		b.WriteString(")")
	}
	return b.String()
}

// Unwrap returns e.Err.
func (e *FieldError) Unwrap() error { return e.Err }

// At returns err with prefix put before the path of every [FieldError] in it:
// At("lines[left]", err) turns "hose.length" into "lines[left].hose.length".
// It walks errors joined by [errors.Join], keeps their order, and copies what
// it changes. A path that is empty becomes the prefix; an error that holds no
// FieldError is wrapped with the prefix in front of its text. At of a nil
// error is nil.
func At(prefix string, err error) error {
	if err == nil || prefix == "" {
		return err
	}
	switch e := err.(type) {
	case *FieldError:
		c := *e
		c.Path = joinPath(prefix, e.Path)
		return &c
	case interface{ Unwrap() []error }:
		list := e.Unwrap()
		out := make([]error, len(list))
		for i, one := range list {
			out[i] = At(prefix, one)
		}
		return errors.Join(out...)
	case interface{ Unwrap() error }:
		var f *FieldError
		if errors.As(err, &f) {
			return &reason{prefix + ": " + err.Error(), At(prefix, e.Unwrap())}
		}
	}
	return fmt.Errorf("%s: %w", prefix, err)
}

// joinPath puts a dot between two parts of a path, but none before an index.
func joinPath(prefix, path string) string {
	if path == "" {
		return prefix
	}
	if path[0] == '[' {
		return prefix + path
	}
	return prefix + "." + path
}

// A SolverError reports an iteration that found no answer.
type SolverError struct {
	Solver     string  // what was solved: "line network"
	State      string  // where: the inputs that tell this call from others
	Iterations int     // spent
	Residual   float64 // of the last iterate, in the solver's own unit
	Lo, Hi     float64 // last bracket; both zero if there was none
}

// Error names the solver, its state, and how far it got.
func (e *SolverError) Error() string {
	s := e.Solver + ": no answer"
	if e.State != "" {
		s += " at " + e.State
	}
	s += fmt.Sprintf(" after %d iterations, residual %.3g", e.Iterations, e.Residual)
	if e.Lo != 0 || e.Hi != 0 {
		s += fmt.Sprintf(", bracket [%.6g, %.6g]", e.Lo, e.Hi)
	}
	return s
}

// A reason is an error with words of its own.
type reason struct {
	text  string
	cause error
}

func (r *reason) Error() string { return r.text }
func (r *reason) Unwrap() error { return r.cause }
