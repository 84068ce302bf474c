package rig

import (
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/units"
)

// FieldText returns a value of the specification field at a path for people: in the
// unit that the trade uses for that field, rounded to at most digits digits. The same
// kind of quantity has several: an engine is sold by horsepower and a motor by watts,
// water flows in gallons and air in cubic feet, a vacuum is no hose pressure, and places along a trailer are measured in
// feet. In SI, where one unit serves, only vacuum (kPa) and electrical power (W) differ.
func FieldText(p Path, q units.Quantity, sys units.System, digits int) string {
	if u, ok := fieldUnit(p, q.Kind(), sys); ok {
		return q.TextIn(u, digits)
	}
	return q.Text(sys, digits)
}

// fieldUnit is the unit of a field whose kind has several in the trade: that in which
// its range is written.
func fieldUnit(p Path, k units.Kind, sys units.System) (units.Unit, bool) {
	switch k {
	case units.KindPower, units.KindVolumeFlow, units.KindPressure, units.KindPosition:
	default:
		return units.Unit{}, false
	}
	t, err := specTable()
	if err != nil {
		return units.Unit{}, false
	}
	f, ok := t.Lookup(string(p))
	if !ok || f.Kind != k {
		return units.Unit{}, false
	}
	_, symbol, _ := strings.Cut(f.Low, " ")
	if sys == units.SI {
		switch symbol {
		case "inH2O", "inHg":
			symbol = "kPa"
		case "cfm":
			symbol = "m³/h"
		case "W":
		default:
			return units.Unit{}, false
		}
	}
	for _, u := range k.Units() {
		if u.String() == symbol {
			return u, true
		}
	}
	return units.Unit{}, false
}

// exampleOf is what to write into a field: an example of its kind where the field takes
// it and its range is written in the same unit, else that range.
func exampleOf(f *fields.Field) string {
	_, symbol, _ := strings.Cut(f.Low, " ")
	if example := f.Kind.Example(); f.Low == "" || f.High == "" || strings.HasSuffix(example, " "+symbol) && f.Accepts(example) == nil {
		return ", such as " + example
	}
	return ", from " + f.Low + " to " + f.High
}

// settable is a value that a field of a quantity takes, in this model if there is one:
// the example of its kind, else an end of its range.
func (m *Model) settable(f *fields.Field, p Path) string {
	var takes []string
	for _, text := range [...]string{f.Kind.Example(), f.High, f.Low} {
		if text != "" && f.Accepts(text) == nil {
			takes = append(takes, text)
		}
	}
	for _, text := range takes {
		if _, err := m.With(Set(p, text)); err == nil {
			return text
		}
	}
	return append(takes, f.Kind.Example())[0]
}
