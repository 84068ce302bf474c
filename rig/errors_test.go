package rig_test

import (
	"strings"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// What is refused says what would do, and nothing that is not so.
func TestErrors_sayWhatWouldDo(t *testing.T) {
	t.Parallel()
	m := demoModel(t, "B")
	with := func(c ...rig.Change) func() error {
		return func() error { _, err := m.With(c...); return err }
	}
	explain := func(p rig.Path, state string) func() error {
		return func() error {
			s, err := m.ParseState(state)
			if err != nil {
				return err
			}
			_, err = m.Explain(p, s)
			return err
		}
	}
	for _, x := range []struct {
		name, want, not string
		do              func() error
	}{
		{"half a state", "a state that names every axis of this number: guns=", "", explain("engines[washer].demand", "guns=left")},
		{"no such number", "the path of a number that the model has, with its component", "axis", explain("engines[washer].colour", "guns=left")},
		{"a field removed", "an empty text clears a single field", "", with(rig.Remove("site.elevation"))},
		{"a heater that others name", "or nothing", "", with(rig.Remove("heaters[heater]"))},
		{"a lever on a word", "a field that holds a quantity", "not given", func() error { _, err := m.Lever("site.place"); return err }},
		{"a lever with another kind", "an elevation such as", "contradict", func() error {
			l, err := m.Lever("site.elevation")
			if err != nil {
				return err
			}
			_, err = l.To((3 * units.PSI).Quantity())
			return err
		}},
		{"an unknown part", "no-such", "gross_power", with(rig.Set("engines[washer].part", "no-such"))},
		{"a part of another class", "P68 is a pump", "gross_power", with(rig.Set("engines[washer].part", "P68"))},
		{"a load without power", "from 1 W to 100000 W", "hp", with(rig.Add("loads", "lamp", ""))},
	} {
		err := x.do()
		if err == nil {
			t.Errorf("%s: taken", x.name)
			continue
		}
		if !strings.Contains(err.Error(), x.want) || x.not != "" && strings.Contains(err.Error(), x.not) {
			t.Errorf("%s: %v\n\twant %q, and not %q", x.name, err, x.want, x.not)
		}
	}
}
