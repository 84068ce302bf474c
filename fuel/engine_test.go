package fuel_test

import (
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/units"
)

func TestEngine_netWinsOverGross(t *testing.T) {
	e := fuel.Engine{Gross: 23 * units.Horsepower, Net: 21 * units.Horsepower, Continuous: 0.5}
	got, err := e.Available(site(0, 77))
	if err != nil {
		t.Fatal(err)
	}
	if got.Rating != 21*units.Horsepower || got.Continuous != 0.5*21*units.Horsepower || got.Factor != 1 || got.Power != got.Continuous {
		t.Errorf("%+v", got)
	}
}

func TestEngine_badInput(t *testing.T) {
	hp := units.Horsepower
	for _, c := range []struct {
		name string
		e    fuel.Engine
		s    fuel.Site
		path string
		kind error
	}{
		{"zero value", fuel.Engine{}, site(0, 77), "engine.gross", units.ErrMissing},
		{"zero value", fuel.Engine{}, site(0, 77), "engine.continuous", units.ErrMissing},
		{"continuous in percent", fuel.Engine{Gross: 23 * hp, Continuous: 90}, site(0, 77), "engine.continuous", units.ErrRange},
		{"negative", fuel.Engine{Gross: -23 * hp, Continuous: 0.9}, site(0, 77), "engine.gross", units.ErrRange},
		{"net above gross", fuel.Engine{Gross: 20 * hp, Net: 21 * hp, Continuous: 0.9}, site(0, 77), "engine.net", units.ErrConflict},
		{"net infinite", fuel.Engine{Net: units.Power(math.Inf(1)), Continuous: 0.9}, site(0, 77), "engine.net", units.ErrRange},
		{"plate", fuel.Engine{Gross: 23 * hp, Continuous: 0.9, Plate: fuel.PlateDerating{PerThousandFeet: 2}}, site(0, 77), "engine.plate.perThousandFeet", units.ErrRange},
		{"no place", fuel.Engine{Gross: 23 * hp, Continuous: 0.9}, fuel.Site{}, "site.elevation", units.ErrMissing},
		{"no place", fuel.Engine{Gross: 23 * hp, Continuous: 0.9}, fuel.Site{}, "site.air", units.ErrMissing},
	} {
		got, err := c.e.Available(c.s)
		wantFieldError(t, c.name, err, c.path, c.kind)
		if got != (fuel.SitePower{}) {
			t.Errorf("%s: %+v beside an error", c.name, got)
		}
	}
}
