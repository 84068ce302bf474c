package rig

import "example.com/washrig/units"

// coilLacks names what a coil that is given in part lacks.
func coilLacks(h *Heater) []error {
	var lacks []error
	for _, x := range [...]struct {
		name string
		is   units.Length
	}{{"coil_bore", h.CoilBore}, {"coil_length", h.CoilLength}, {"helix_diameter", h.HelixDiameter}} {
		if x.is == 0 {
			lacks = append(lacks, &units.FieldError{Path: "heaters[" + h.ID + "]." + x.name, Want: "coil_bore, coil_length and helix_diameter together, or none of them", Err: units.ErrMissing})
		}
	}
	if len(lacks) == 3 {
		return nil
	}
	return lacks
}

// inOneUnit prints two quantities of one kind that contradict each other in the one unit
// in which they are shortest, the unit of the trade first: 250 gal beside 240 gal, not
// 1000 qt.
func inOneUnit(a, b units.Quantity) (string, string) {
	const most = 6
	k := a.Kind()
	first, second, least := "", "", 0
	for _, u := range append([]units.Unit{k.Unit(units.US), k.Unit(units.SI)}, k.Units()...) {
		x, y := a.TextIn(u, most), b.TextIn(u, most)
		long := len(x) + len(y) - 2*len(u.Symbol())
		if x != y && (first == "" || long < least) {
			first, second, least = x, y, long
		}
	}
	if first == "" { // apart by less than the digits
		return exact(a), exact(b)
	}
	return first, second
}
