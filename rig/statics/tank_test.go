package statics_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func TestTank_Range(t *testing.T) {
	tank := statics.Tank{Name: "fresh", Nominal: 1, Density: 1000, X: metres(3)}
	v, err := tank.Range(0.25, 1)
	if err != nil {
		t.Fatal(err)
	}
	if v.Least != 250 || v.Most != 1000 || v.Name != "fresh" || v.X != metres(3) {
		t.Errorf("%+v", v)
	}
}

func TestTank_errors(t *testing.T) {
	ok := statics.Tank{Name: "fresh", Nominal: 1, Density: 1000, X: metres(3)}
	with := func(change func(*statics.Tank)) statics.Tank {
		tank := ok
		change(&tank)
		return tank
	}
	for _, c := range []struct {
		name     string
		tank     statics.Tank
		level    units.Ratio
		sentinel error
		want     []string
	}{
		{"nothing given", statics.Tank{}, 0, units.ErrMissing, []string{"nominal", "density"}},
		{"too full", ok, 1.01, units.ErrRange, []string{"level"}},
		{"not a level", ok, units.Ratio(math.NaN()), units.ErrRange, []string{"level"}},
		{"negative heel", with(func(t *statics.Tank) { t.Heel = -1 }), 0, units.ErrRange, []string{"heel"}},
		{"heel above the lid", with(func(t *statics.Tank) { t.Heel = 2 }), 0, units.ErrConflict, []string{"heel"}},
		{"usable above nominal", with(func(t *statics.Tank) { t.Usable = 1.5 }), 0, units.ErrConflict, []string{"usable"}},
		{"heel and usable together", with(func(t *statics.Tank) { t.Usable, t.Heel = 0.9, 0.2 }), 0, units.ErrConflict, []string{"usable"}},
		{"heavier than metal", with(func(t *statics.Tank) { t.Density = 1e5 }), 0, units.ErrRange, []string{"density"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := c.tank.Load(c.level)
			if d := cmp.Diff(c.want, fields(t, err, c.sentinel)); d != "" {
				t.Errorf("fields (-want +got):\n%s", d)
			}
		})
	}
	_, err := statics.Tank{}.Range(-1, 2)
	if d := cmp.Diff([]string{"nominal", "density", "least", "most"}, paths(err)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
	if _, err := ok.Range(0.5, 0.25); len(fields(t, err, units.ErrConflict)) != 1 {
		t.Errorf("levels the wrong way round: %v", err)
	}
	// 230 gal usable and 10 gal of heel make 240 gal, whatever the last bits say.
	if _, err := (statics.Tank{Nominal: 240 * units.Gallon, Heel: 9.9 * units.Gallon, Usable: 230.1 * units.Gallon, Density: 1000}).Load(1); err != nil {
		t.Error(err)
	}
}
