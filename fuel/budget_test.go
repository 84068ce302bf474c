package fuel_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func TestPowerBudget_edges(t *testing.T) {
	for _, c := range []struct {
		name    string
		demands []fuel.Demand
		want    fuel.Budget
	}{
		{"nothing asked", nil, fuel.Budget{Available: 100, Reserve: 100, Margin: 1, Largest: -1}},
		{"zero load", []fuel.Demand{{Name: "idle pump"}}, fuel.Budget{Available: 100, Reserve: 100, Margin: 1, Largest: -1}},
		{"exactly all", []fuel.Demand{{Name: "a", Shaft: 25}, {Name: "b", Shaft: 75}}, fuel.Budget{Available: 100, Total: 100, Largest: 1, Name: "b", Share: 0.75}},
		{"equals: the first", []fuel.Demand{{Name: "a", Shaft: 50}, {Name: "b", Shaft: 50}}, fuel.Budget{Available: 100, Total: 100, Largest: 0, Name: "a", Share: 0.5}},
		{"overload", []fuel.Demand{{Name: "a", Shaft: 50}, {Name: "b", Shaft: 150}}, fuel.Budget{Available: 100, Total: 200, Reserve: -100, Deficit: 100, Margin: -1, Largest: 1, Name: "b", Share: 0.75}},
	} {
		got, err := fuel.PowerBudget(100, c.demands)
		if err != nil || got != c.want {
			t.Errorf("%s: %+v, %v, want %+v", c.name, got, err, c.want)
		}
		if got.Fits() != (c.name != "overload") {
			t.Errorf("%s: fits %v", c.name, got.Fits())
		}
	}
}

func TestPowerBudget_badInput(t *testing.T) {
	for _, c := range []struct {
		available units.Power
		demands   []fuel.Demand
		path      string
		kind      error
	}{
		{0, nil, "available", units.ErrMissing},
		{-1, nil, "available", units.ErrRange},
		{units.Power(math.NaN()), nil, "available", units.ErrRange},
		{100, []fuel.Demand{{Name: "a", Shaft: 1}, {Name: "b", Shaft: -1}}, "demands[1].shaft", units.ErrRange},
		{100, []fuel.Demand{{Name: "a", Shaft: units.Power(math.Inf(1))}}, "demands[0].shaft", units.ErrRange},
	} {
		got, err := fuel.PowerBudget(c.available, c.demands)
		wantFieldError(t, c.path, err, c.path, c.kind)
		if got != (fuel.Budget{}) {
			t.Errorf("%+v beside %v", got, err)
		}
	}
}

func TestLargestPressure_fillsTheEngine(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		available := units.Power(g.LogFloat(1e3, 1e5))
		demands := make([]fuel.Demand, g.Int(1, 5))
		for i := range demands {
			demands[i].Shaft = units.Power(g.LogFloat(10, 1e5))
		}
		pump := g.Int(0, len(demands)-1)
		p0 := units.Pressure(g.LogFloat(1e5, 1e8))
		p, err := fuel.LargestPressure(available, demands, pump, p0)
		if err != nil {
			return err
		}
		demands[pump].Shaft *= units.Power(p / p0)
		b, err := fuel.PowerBudget(available, demands)
		if err != nil {
			return err
		}
		// At that pressure the engine is used up, unless the others alone do so.
		if sum := float64(available + b.Total); p > 0 && math.Abs(float64(b.Reserve)) > 1e-12*sum {
			return fmt.Errorf("at %v of %v the reserve is %v of %v", p, p0, b.Reserve, available)
		}
		if p == 0 && b.Reserve > 0 {
			return fmt.Errorf("no pressure fits, but %v is left", b.Reserve)
		}
		return nil
	})
}

func TestLargestPressure_badInput(t *testing.T) {
	demands := []fuel.Demand{{Name: "pump", Shaft: 10}, {Name: "idle", Shaft: 0}}
	for _, c := range []struct {
		available units.Power
		pump      int
		at        units.Pressure
		path      string
		kind      error
	}{
		{0, 0, 1e5, "available", units.ErrMissing},
		{100, 0, 0, "at", units.ErrMissing},
		{100, 0, -1e5, "at", units.ErrRange},
		{100, 0, units.Pressure(math.NaN()), "at", units.ErrRange},
		{100, 1, 1e5, "demands[1].shaft", units.ErrMissing},
		{100, 2, 1e5, "pump", units.ErrRange},
		{100, -1, 1e5, "pump", units.ErrRange},
	} {
		got, err := fuel.LargestPressure(c.available, demands, c.pump, c.at)
		wantFieldError(t, c.path, err, c.path, c.kind)
		if got != 0 {
			t.Errorf("%v beside %v", got, err)
		}
	}
	_, err := fuel.LargestPressure(0, []fuel.Demand{{Name: "a", Shaft: -1}}, 5, 0)
	var f *units.FieldError
	if n := len(flatten(err)); n != 4 || !errors.As(err, &f) {
		t.Errorf("%d problems of four reported: %v", n, err)
	}
}
