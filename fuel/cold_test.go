package fuel_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestColdAt_states(t *testing.T) {
	for _, c := range []struct {
		k      fuel.Kind
		f      float64
		state  fuel.ColdState
		margin float64
	}{
		{fuel.Diesel2, 34, fuel.Flows, 20},
		{fuel.Diesel2, 14, fuel.Clouded, 0},
		{fuel.Diesel2, 12, fuel.Clouded, -2},
		{fuel.Diesel2, 5, fuel.Gelled, -9},
		{fuel.Diesel1, 5, fuel.Flows, 45},
		{fuel.Kerosene, -45, fuel.Clouded, -5},
		{fuel.GasolineE10, -60, fuel.Flows, 0},
		{fuel.NaturalGas, -60, fuel.Flows, 0},
		{fuel.Propane, -30, fuel.Flows, 14},
		{fuel.Propane, -50, fuel.NoVapour, -6},
	} {
		p := row(t, c.k)
		got, err := p.ColdAt(units.Fahrenheit(c.f))
		if err != nil || got.State != c.state || math.Abs(got.Margin.In(units.FahrenheitDelta)-c.margin) > 1e-9 {
			t.Errorf("%v at %g °F: %v %v, %v, want %v by %g °F", c.k, c.f, got.State, got.Margin, err, c.state, c.margin)
		}
		if got.Limit.Given() != (c.k != fuel.GasolineE10 && c.k != fuel.NaturalGas) {
			t.Errorf("%v: limit %v", c.k, got.Limit)
		}
	}
	_, err := row(t, fuel.Diesel2).ColdAt(units.Temperature{})
	wantFieldError(t, "no temperature", err, "temperature", units.ErrMissing)
	for s, want := range map[fuel.ColdState]string{0: "invalid", fuel.Flows: "flows", fuel.Clouded: "clouded", fuel.Gelled: "gelled", fuel.NoVapour: "no vapour"} {
		if s.String() != want {
			t.Errorf("state %d is %q", s, s.String())
		}
	}
}

func TestBlend_winterRule(t *testing.T) {
	b, err := fuel.Blend(row(t, fuel.Diesel2), row(t, fuel.Diesel1), 0.3)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "Three gallons of No. 1 in ten of winter fuel: where does it cloud?",
		Source:   "rule of the fuel trade: 3 °F less cloud point for every 10 % of No. 1, from 14 °F",
		Status:   worked.CommonPractice,
		Given:    []string{"No. 2 clouds at 14 °F", "30 % No. 1"},
		Printed:  "5 °F",
		Got:      b.Cold.Cloud.Fahrenheit(),
		// 3 °F for a tenth is rounded: 2.5 to 3.5 °F.
		Tolerance: 1.5, Reason: "the rule is rounded to a whole 3 °F for each of three tenths",
	})
	if b.Kind != fuel.Diesel2 {
		t.Errorf("the blend is %v", b.Kind)
	}
}

func TestBlend_byHand(t *testing.T) {
	b, err := fuel.Blend(row(t, fuel.Diesel2), row(t, fuel.Diesel1), 0.5)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		question, given, printed string
		got                      units.Temperature
	}{
		{"Half No. 1 and half No. 2: where does it cloud?", "14 and -40 °F, index 20: (½·473.67²⁰ + ½·419.67²⁰)^(1/20) °R", "-0.18 °F", b.Cold.Cloud},
		{"And where does it gel?", "10 and -50 °F, index 12.5: (½·469.67^12.5 + ½·409.67^12.5)^(1/12.5) °R", "-9.38 °F", b.Cold.Gel},
	} {
		worked.Check(t, worked.Case{
			Question: c.question, Source: "indices of Hu and Burns 1970, from memory, worked by hand", Status: worked.FromMemory,
			Given: []string{c.given}, Printed: c.printed, Got: c.got.Fahrenheit(),
		})
	}
}

func TestBlend_biodieselRule(t *testing.T) {
	b := row(t, fuel.BiodieselB20)
	rise := b.Cold.Cloud.Sub(row(t, fuel.Diesel2).Cold.Cloud).In(units.FahrenheitDelta)
	worked.Check(t, worked.Case{
		Question:  "How much sooner does B20 cloud than the diesel in it?",
		Source:    "Biodiesel Handling and Use Guide, U.S. Department of Energy: 2 to 10 °F, the middle of it",
		Status:    worked.FromMemory,
		Given:     []string{"B20 of soy biodiesel"},
		Printed:   "6 °F",
		Got:       rise,
		Tolerance: 4, Reason: "half the width of the band",
	})
}

func TestBlend_liesBetweenItsParts(t *testing.T) {
	family := []fuel.Kind{fuel.Diesel1, fuel.Diesel2, fuel.Kerosene, fuel.BiodieselB5, fuel.BiodieselB20}
	property.Check(t, func(g *property.G) error {
		p, q := row(t, property.OneOf(g, family...)), row(t, property.OneOf(g, family...))
		x := units.Ratio(g.Float(0, 1))
		b, err := fuel.Blend(p, q, x)
		if err != nil {
			return err
		}
		for name, v := range map[string][3]float64{
			"density":   {float64(p.Density), float64(b.Density), float64(q.Density)},
			"higher":    {float64(p.Higher), float64(b.Higher), float64(q.Higher)},
			"lower":     {float64(p.Lower), float64(b.Lower), float64(q.Lower)},
			"fossil":    {float64(p.CarbonDioxide.Fossil), float64(b.CarbonDioxide.Fossil), float64(q.CarbonDioxide.Fossil)},
			"biogenic":  {float64(p.CarbonDioxide.Biogenic), float64(b.CarbonDioxide.Biogenic), float64(q.CarbonDioxide.Biogenic)},
			"cloud":     {p.Cold.Cloud.Kelvin(), b.Cold.Cloud.Kelvin(), q.Cold.Cloud.Kelvin()},
			"gel":       {p.Cold.Gel.Kelvin(), b.Cold.Gel.Kelvin(), q.Cold.Gel.Kelvin()},
			"viscosity": {float64(p.Viscosity), float64(b.Viscosity), float64(q.Viscosity)},
		} {
			if lo, hi := min(v[0], v[2]), max(v[0], v[2]); v[1] < lo*(1-1e-12) || v[1] > hi*(1+1e-12) {
				return fmt.Errorf("%v and %v: %s %g outside %g to %g", p.Kind, q.Kind, name, v[1], lo, hi)
			}
		}
		return nil
	})
}

func TestBlend_badInput(t *testing.T) {
	d := row(t, fuel.Diesel2)
	_, err := fuel.Blend(d, row(t, fuel.GasolineE10), 0.1)
	wantFieldError(t, "misfuelled", err, "q", units.ErrConflict)
	_, err = fuel.Blend(fuel.Properties{}, d, 1.5)
	wantFieldError(t, "no fuel", err, "p", units.ErrConflict)
	wantFieldError(t, "more than all", err, "x", units.ErrRange)
	all, err := fuel.Blend(d, row(t, fuel.Diesel1), 1)
	if err != nil || all != row(t, fuel.Diesel1) {
		t.Errorf("all of the other is %+v, %v", all, err)
	}
}
