package approx_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/internal/approx"
	"example.com/washrig/units"
)

func TestOption(t *testing.T) {
	type line struct {
		P    units.Pressure
		T    units.Temperature
		Hose []units.Length
		Max  *units.Power
		Any  any
		Re   float64
		Q    units.Quantity
		At   units.Position
		Site units.Elevation
	}
	base := func() line {
		w := 5 * units.Kilowatt
		return line{
			P: 3500 * units.PSI, T: units.Celsius(60), Hose: []units.Length{50 * units.Foot, 0},
			Max: &w, Any: 3 * units.Ampere, Re: 12000, Q: (2 * units.Bar).Quantity(),
			At: units.PositionAt(0), Site: units.ElevationAt(1000 * units.Meter),
		}
	}
	option := approx.Option(1e-6, (1 * units.Millimeter).Quantity(), (0.1 * units.KelvinDelta).Quantity())
	for _, c := range []struct {
		name   string
		change func(*line)
		equal  bool
	}{
		{"nothing", func(l *line) {}, true},
		{"pressure within", func(l *line) { l.P *= 1 + 0.9e-6 }, true},
		{"pressure beyond", func(l *line) { l.P *= 1 + 1.1e-6 }, false},
		{"pressure NaN", func(l *line) { l.P = units.Pressure(math.NaN()) }, false},
		{"pressure infinite", func(l *line) { l.P = units.Pressure(math.Inf(1)) }, false},
		{"temperature within the margin", func(l *line) { l.T = units.Celsius(60.09) }, true},
		{"temperature beyond", func(l *line) { l.T = units.Celsius(60.11) }, false},
		{"temperature not given", func(l *line) { l.T = units.Temperature{} }, false},
		{"length within the margin", func(l *line) { l.Hose[1] = 0.9 * units.Millimeter }, true},
		{"length beyond", func(l *line) { l.Hose[1] = 1.1 * units.Millimeter }, false},
		{"one more length", func(l *line) { l.Hose = append(l.Hose, 0) }, false},
		{"power behind a pointer within", func(l *line) { *l.Max *= 1 + 0.9e-6 }, true},
		{"power behind a pointer beyond", func(l *line) { *l.Max *= 1 + 1.1e-6 }, false},
		{"no power", func(l *line) { l.Max = nil }, false},
		{"current in an interface within", func(l *line) { l.Any = 3 * (1 + 0.9e-6) * units.Ampere }, true},
		{"another kind in an interface", func(l *line) { l.Any = 3 * units.Volt }, false},
		{"nothing in an interface", func(l *line) { l.Any = nil }, false},
		{"number within", func(l *line) { l.Re *= 1 + 0.9e-6 }, true},
		{"number beyond", func(l *line) { l.Re *= 1 + 1.1e-6 }, false},
		{"quantity within", func(l *line) { l.Q = (2 * (1 + 0.9e-6) * units.Bar).Quantity() }, true},
		{"quantity beyond", func(l *line) { l.Q = (2 * (1 + 1.1e-6) * units.Bar).Quantity() }, false},
		{"quantity of another kind", func(l *line) { l.Q = (2e5 * units.Watt).Quantity() }, false},
		{"quantity not given", func(l *line) { l.Q = units.Quantity{} }, false},
		{"position within", func(l *line) { l.At = units.PositionAt(0.9 * units.Millimeter) }, true},
		{"position beyond", func(l *line) { l.At = units.PositionAt(1.1 * units.Millimeter) }, false},
		{"position not given", func(l *line) { l.At = units.Position{} }, false},
		{"elevation beyond", func(l *line) { l.Site = l.Site.Add(1.1 * units.Millimeter) }, false},
	} {
		x, y := base(), base()
		c.change(&y)
		// The comparison is symmetric, as go-cmp demands and checks.
		if got := cmp.Equal(x, y, option); got != c.equal {
			t.Errorf("%s: equal is %v", c.name, got)
		}
		if got := cmp.Equal(y, x, option); got != c.equal {
			t.Errorf("%s, swapped: equal is %v", c.name, got)
		}
	}
}

type named struct {
	Name  string
	Value units.Length
}

func (n named) Quantity() units.Quantity { return n.Value.Quantity() }

// A type elsewhere that can tell a quantity is more than the quantity.
func TestOption_otherTypes(t *testing.T) {
	if cmp.Equal(named{"a", 1}, named{"b", 1}, approx.Option(1e-9)) {
		t.Error("the names differ, but only the quantities were compared")
	}
	if !cmp.Equal(named{"a", 1}, named{"a", 1 + 1e-12}, approx.Option(1e-9)) {
		t.Error("the quantities inside were not compared by tolerance")
	}
}

func TestOption_refusesMistakes(t *testing.T) {
	for name, f := range map[string]func(){
		"negative fraction": func() { approx.Option(-1) },
		"NaN fraction":      func() { approx.Option(math.NaN()) },
		"negative margin":   func() { approx.Option(0, (-1 * units.Pascal).Quantity()) },
		"no margin":         func() { approx.Option(0, units.Quantity{}) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: no panic", name)
				}
			}()
			f()
		}()
	}
}
