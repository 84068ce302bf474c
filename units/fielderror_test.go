package units_test

import (
	"errors"
	"fmt"
	"testing"

	"example.com/washrig/units"
)

func TestFieldError(t *testing.T) {
	for _, c := range []struct {
		err  units.FieldError
		want string
	}{
		{
			units.FieldError{Path: "hose.length", Value: "-3 m", Want: "more than 0 m", Err: units.ErrRange},
			"hose.length = -3 m: outside the accepted range (want more than 0 m)",
		},
		{units.FieldError{Path: "hose.length", Err: units.ErrMissing}, "hose.length: required value not given"},
		{units.FieldError{Value: "x", Err: units.ErrSyntax}, "x: cannot be read"},
		{units.FieldError{Err: units.ErrConflict}, "values contradict each other"},
		{units.FieldError{}, "unusable"},
	} {
		if got := c.err.Error(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestAt(t *testing.T) {
	length := &units.FieldError{Path: "hose.length", Value: "-3 m", Err: units.ErrRange}
	bore := &units.FieldError{Path: "hose.bore", Err: units.ErrMissing}
	whole := &units.FieldError{Value: "abc", Err: units.ErrSyntax}
	index := &units.FieldError{Path: "[2].load", Err: units.ErrMissing}
	plain := errors.New("file is closed")

	for _, c := range []struct {
		err  error
		want string
	}{
		{length, "lines[left].hose.length = -3 m: outside the accepted range"},
		{whole, "lines[left] = abc: cannot be read"},
		{index, "lines[left][2].load: required value not given"},
		{plain, "lines[left]: file is closed"},
		{
			errors.Join(length, errors.Join(bore, plain)),
			"lines[left].hose.length = -3 m: outside the accepted range\nlines[left].hose.bore: required value not given\nlines[left]: file is closed",
		},
		{fmt.Errorf("reading: %w", length), "lines[left]: reading: hose.length = -3 m: outside the accepted range"},
	} {
		got := units.At("lines[left]", c.err)
		if got.Error() != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
	if units.At("x", nil) != nil || units.At("x", errors.Join(nil, nil)) != nil {
		t.Error("no error became one")
	}
	if got := units.At("", length); got != error(length) {
		t.Errorf("no prefix: %v", got)
	}
	if length.Path != "hose.length" {
		t.Errorf("the error passed in was changed to %q", length.Path)
	}

	// What is wrapped stays within reach, its path included.
	var f *units.FieldError
	err := units.At("rig", units.At("lines[left]", fmt.Errorf("reading: %w", length)))
	if !errors.Is(err, units.ErrRange) || !errors.As(err, &f) || f.Path != "rig.lines[left].hose.length" {
		t.Errorf("%v: %+v", err, f)
	}
	joined := units.At("rig", errors.Join(plain, bore))
	if !errors.Is(joined, plain) || !errors.Is(joined, units.ErrMissing) || !errors.As(joined, &f) || f.Path != "rig.hose.bore" {
		t.Errorf("%v: %+v", joined, f)
	}
}

func TestSolverError(t *testing.T) {
	for _, c := range []struct {
		err  units.SolverError
		want string
	}{
		{units.SolverError{Solver: "line network", State: "Q = 4 gpm", Iterations: 100, Residual: 0.0123, Lo: 1, Hi: 2}, "line network: no answer at Q = 4 gpm after 100 iterations, residual 0.0123, bracket [1, 2]"},
		{units.SolverError{Solver: "friction"}, "friction: no answer after 0 iterations, residual 0"},
	} {
		if got := c.err.Error(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
