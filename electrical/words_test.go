package electrical_test

import (
	"errors"
	"fmt"
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/units"
)

// Every value of every enumeration has words of its own, and a value outside
// says its number.
func TestWords(t *testing.T) {
	for _, c := range []struct {
		first, last int
		text        func(int) string
	}{
		{0, int(electrical.ByItself), func(i int) string { return electrical.StartMode(i).String() }},
		{0, int(electrical.BatteryInverter), func(i int) string { return electrical.SourceKind(i).String() }},
		{0, int(electrical.ElectronicLoad), func(i int) string { return electrical.LoadKind(i).String() }},
		{0, int(electrical.AlternatorBound), func(i int) string { return electrical.Bound(i).String() }},
		{0, int(electrical.Aluminum), func(i int) string { return electrical.Material(i).String() }},
		{0, int(electrical.SteelConduit), func(i int) string { return electrical.Conduit(i).String() }},
		{1, int(electrical.FromMemory), func(i int) string { return electrical.Standing(i).String() }},
		{1, int(electrical.StartWatts), func(i int) string { return electrical.StartBasis(i).String() }},
	} {
		seen := map[string]int{}
		for i := c.first; i <= c.last; i++ {
			s := c.text(i)
			if j, ok := seen[s]; ok || s == "" {
				t.Errorf("values %d and %d both say %q", i, j, s)
			}
			seen[s] = i
		}
		for _, i := range []int{c.first - 1, c.last + 1} {
			if s := c.text(i); s[len(s)-1] != ')' {
				t.Errorf("value %d, which there is not, says %q", i, s)
			}
		}
	}
}

// What a table does not hold is an error at the field, never a neighbour's row.
func TestTables_outside(t *testing.T) {
	at := units.Celsius(75)
	for _, c := range []struct {
		name string
		call func() error
		path string
		kind error
	}{
		{"no gauge", func() error { _, err := electrical.Gauge(0).Diameter(); return err }, "gauge", units.ErrMissing},
		{"5/0", func() error { _, err := electrical.Gauge(-5).Area(); return err }, "gauge", units.ErrRange},
		{"fine wire", func() error { _, err := electrical.AnnealedCopperResistance(37, at); return err }, "gauge", units.ErrRange},
		{"wire without temperature", func() error {
			_, err := electrical.AnnealedCopperResistance(12, units.Temperature{})
			return err
		}, "temperature", units.ErrMissing},
		{"conduit of 18", func() error { _, _, err := electrical.ConduitImpedance(18, 0); return err }, "gauge", units.ErrRange},
		{"no such conduit", func() error { _, _, err := electrical.ConduitImpedance(12, 9); return err }, "conduit", units.ErrRange},
		{"impedance without power factor", func() error { _, err := electrical.EffectiveImpedance(1, 1, 0); return err }, "powerFactor", units.ErrMissing},
		{"cord of 1 AWG", func() error { _, _, err := electrical.CordAmpacity(1, 2); return err }, "gauge", units.ErrRange},
		{"cord carrying", func() error { _, _, err := electrical.CordAmpacity(12, 0); return err }, "carrying", units.ErrMissing},
		{"type W of 12", func() error { _, err := electrical.TypeWAmpacity(12, at, 2); return err }, "gauge", units.ErrRange},
		{"type W at 60 °C of 8", func() error { _, err := electrical.TypeWAmpacity(8, units.Celsius(60), 2); return err }, "gauge", units.ErrRange},
		{"type W at 80 °C", func() error { _, err := electrical.TypeWAmpacity(4, units.Celsius(80), 2); return err }, "rating", units.ErrRange},
		{"type W without rating", func() error { _, err := electrical.TypeWAmpacity(4, units.Temperature{}, 2); return err }, "rating", units.ErrMissing},
		{"type W conductors", func() error { _, err := electrical.TypeWAmpacity(4, at, 4); return err }, "conductors", units.ErrRange},
		{"type W no conductors", func() error { _, err := electrical.TypeWAmpacity(4, at, 0); return err }, "conductors", units.ErrMissing},
		{"breaker of nothing", func() error { _, err := electrical.BreakerFor(0, 0.8); return err }, "current", units.ErrMissing},
		{"breaker of 350 A for hours", func() error { _, err := electrical.BreakerFor(350, 0.8); return err }, "current", units.ErrRange},
		{"breaker for 8 AWG", func() error { _, err := electrical.LargestBreaker(8); return err }, "gauge", units.ErrRange},
		{"breaker for no wire", func() error { _, err := electrical.LargestBreaker(0); return err }, "gauge", units.ErrMissing},
		{"outlet without volts", func() error { _, err := electrical.OutletLimits(0, 20, 0.8); return err }, "voltage", units.ErrMissing},
		{"shore without breaker", func() error { _, err := electrical.ShoreSupply("shore", 120, 0, 0.8); return err }, "current", units.ErrMissing},
		{"shore without name", func() error { _, err := electrical.ShoreSupply("", 120, 20, 0.8); return err }, "name", units.ErrMissing},
		{"conductors of no motor", func() error { _, err := electrical.MotorConductorCurrent(0); return err }, "fullLoad", units.ErrMissing},
		{"no code letter", func() error {
			_, err := electrical.LockedRotorOf("", units.Horsepower, 230, false)
			return err
		}, "codeLetter", units.ErrMissing},
		{"code letter in lower case", func() error {
			_, err := electrical.LockedRotorOf("g", units.Horsepower, 230, false)
			return err
		}, "codeLetter", units.ErrRange},
	} {
		var f *units.FieldError
		if err := c.call(); !errors.As(err, &f) || f.Path != c.path || !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v, want %v at %s", c.name, err, c.kind, c.path)
		}
	}
}

// The zero value of every input is an error that says what is missing; nothing
// is assumed and nothing panics.
func TestZeroValues(t *testing.T) {
	for name, call := range map[string]func() error{
		"Load":       func() error { return electrical.Load{}.Validate() },
		"Source":     func() error { return electrical.Source{}.Validate() },
		"Carry":      func() error { _, err := electrical.Source{}.Carry(nil, 1); return err },
		"PlugPlan":   func() error { _, err := electrical.Assign(electrical.PlugPlan{}); return err },
		"Plate":      func() error { _, err := electrical.Plate{}.Load(); return err },
		"Circuit":    func() error { _, err := electrical.Circuit{}.Drop(1, 1); return err },
		"Conductor":  func() error { _, err := electrical.Conductor{}.Resistance(units.Celsius(20)); return err },
		"CordNeed":   func() error { _, _, _, err := electrical.ChooseCord(electrical.CordNeed{}); return err },
		"Alternator": func() error { _, err := electrical.Alternator{}.VoltageDip(1); return err },
		"Governed":   func() error { _, err := electrical.Governed{}.FrequencyDip(1); return err },
		"FanMotor":   func() error { _, err := electrical.FanMotor{}.At(120, 60); return err },
		"Battery":    func() error { _, err := electrical.Battery{}.Runtime(1); return err },
		"Shaft":      func() error { _, err := electrical.ShaftSteps(electrical.Sequence{}, 0, 0); return err },
	} {
		if err := call(); !errors.Is(err, units.ErrMissing) {
			t.Errorf("zero %s: %v", name, err)
		}
	}
	if err := (electrical.Limits{}).Validate(); err != nil { // no limit is a limit
		t.Errorf("zero Limits: %v", err)
	}
	if got := fmt.Sprint((electrical.Sequence{}).Order()); got != "[]" {
		t.Errorf("zero Sequence: %s", got)
	}
}
