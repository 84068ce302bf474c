package problem_test

import (
	"errors"
	"math"
	"testing"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

func TestList_empty(t *testing.T) {
	var p problem.List
	p.Take("hose", nil)
	problem.Within(&p, "bore", 0.01*units.Meter, 1e-6, 1)
	problem.Between(&p, "rise", 0*units.Meter, -1, 1)
	problem.Number(&p, "k", 1, 0, 1)
	problem.Whole(&p, "count", 1, 1, 1)
	if err := p.Join(); err != nil {
		t.Error(err)
	}
}

func TestList_order(t *testing.T) {
	nan := math.NaN()
	var p problem.List
	problem.Within(&p, "bore", units.Length(0), 1e-6, 1)
	problem.Within(&p, "length", units.Length(nan), 1e-6, 1)
	problem.Between(&p, "rise", 2*units.Meter, -1, 1)
	problem.Number(&p, "k", nan, 0, 1)
	problem.Whole(&p, "count", 0, 1, 9)
	var part problem.List
	part.Add("set", "3 psi", "less", units.ErrConflict)
	p.Take("valve", part.Join())
	kinds := []error{units.ErrMissing, units.ErrRange, units.ErrRange, units.ErrRange, units.ErrRange, units.ErrConflict}
	paths := []string{"bore", "length", "rise", "k", "count", "valve.set"}
	if len(p) != len(kinds) {
		t.Fatalf("%d problems, want %d", len(p), len(kinds))
	}
	for i, err := range p {
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != paths[i] || !errors.Is(err, kinds[i]) || f.Want == "" {
			t.Errorf("problem %d: %v", i, err)
		}
		if !errors.Is(p.Join(), kinds[i]) {
			t.Errorf("%v is not in what is returned", kinds[i])
		}
	}
	if f := new(units.FieldError); !errors.As(p[0], &f) || f.Value != "" {
		t.Errorf("a value that was not given is shown as %q", f.Value)
	}
}

func TestElement(t *testing.T) {
	for _, c := range []struct{ name, want string }{
		{"left-2", "lines[left-2]"}, {"", "lines[#3]"}, {"2nd", "lines[#3]"}, {"Left", "lines[#3]"}, {"a b", "lines[#3]"}, {"-a", "lines[#3]"},
	} {
		if got := problem.Element("lines", c.name, 2); got != c.want {
			t.Errorf("%q: %s, want %s", c.name, got, c.want)
		}
	}
}
