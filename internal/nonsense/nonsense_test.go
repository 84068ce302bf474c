package nonsense

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/washrig/units"
)

type hose struct {
	Length units.Length
	Bores  []units.Length
	Turns  int
	At     units.Temperature
}

// checked is a function as it should be.
func checked(h hose) (units.Length, error) {
	if !(h.Length >= 0 && h.Length < 1e6) {
		return 0, &units.FieldError{Path: "length", Want: "0 to 1,000 km", Err: units.ErrRange}
	}
	if h.Turns < 0 || h.Turns > 50 || len(h.Bores) != 1 || !(h.Bores[0] > 1e-6 && h.Bores[0] < 1) || !(h.At.Kelvin() > 200 && h.At.Kelvin() < 400) {
		return 0, &units.FieldError{Path: "hose", Err: units.ErrRange}
	}
	return h.Length / h.Bores[0], nil
}

var good = hose{5, []units.Length{0.01}, 3, units.Celsius(20)}

func TestCheck_passes(t *testing.T) {
	Check(t, []Call{Of("checked", checked, good)})
}

// Each way of being wrong is found.
func TestCall_finds(t *testing.T) {
	missing := &units.FieldError{Path: "length", Err: units.ErrMissing}
	for _, c := range []struct {
		name string
		f    any
		args []any
		want string
	}{
		{"refuses what is listed", func(units.Length) (units.Length, error) { return 0, missing }, []any{5 * units.Meter}, "as listed: error"},
		{"error without a field", func(x units.Length) (units.Length, error) {
			if x != 5 {
				return 0, errors.New("no")
			}
			return x, nil
		}, []any{5 * units.Meter}, "argument 0 = NaN: error no"},
		{"result beside the error", func(x units.Length) (units.Length, error) {
			if x != 5 {
				return x, missing
			}
			return x, nil
		}, []any{5 * units.Meter}, "= -1: a result beside the error"},
		{"lets numbers through", func(x units.Length) (units.Length, error) { return x, nil }, []any{5 * units.Meter}, "= +Inf: result 0 = +Inf"},
		{"in a field", func(h hose) (hose, error) { return hose{Bores: h.Bores}, nil }, []any{good}, "argument 0.Bores[0] = NaN: result 0.Bores[0] = NaN"},
		{"in a point", func(h hose) (units.Temperature, error) { return h.At, nil }, []any{good}, "argument 0.At = -1: result 0 = -1 K"},
		{"panics", func(n int) (int, error) { return []int{1, 2, 3, 4}[n], nil }, []any{3}, "= 99: panic"},
		{"nothing to spoil", func(s string) (string, error) { return s, nil }, []any{"x"}, "no number to spoil"},
	} {
		got := Of(c.name, c.f, c.args...).problems()
		if !strings.Contains(strings.Join(got, "\n"), c.want) {
			t.Errorf("%s: lacks %q: %q", c.name, c.want, got)
		}
	}
	if good.Bores[0] != 0.01 || math.IsNaN(float64(good.Length)) {
		t.Errorf("the arguments listed were changed: %+v", good)
	}
}
