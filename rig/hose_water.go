package rig

import "example.com/washrig/units"

// A hose is a length of hose or coil that holds water, and where it lies.
type hose struct {
	list, id     string
	bore, length units.Length
	place, y, z  units.Position
}

// hoses lists the hoses of the lines and the coils of the heaters whose bore
// and length are given, in the order of the specification.
func hoses(s *Spec) []hose {
	var out []hose
	add := func(list string, st *Stock, bore, length units.Length) {
		if bore <= 0 || length <= 0 {
			return
		}
		x, y, z := placeOf(s, st)
		out = append(out, hose{list, st.ID, bore, length, x, y, z})
	}
	for i := range s.Lines {
		add("lines", &s.Lines[i].Stock, s.Lines[i].Hose.Bore, s.Lines[i].Hose.Length)
	}
	for i := range s.Heaters {
		add("heaters", &s.Heaters[i].Stock, s.Heaters[i].CoilBore, s.Heaters[i].CoilLength)
	}
	return out
}

// placeOf returns where a component is: its own place, or that of the item
// that counts its mass.
func placeOf(s *Spec, st *Stock) (x, y, z units.Position) {
	x, y, z = st.X, st.Y, st.Z
	for i := range s.Items {
		if it := &s.Items[i]; st.Within != "" && it.ID == st.Within {
			if !x.Given() {
				x = it.X
			}
			if !y.Given() {
				y = it.Y
			}
			if !z.Given() {
				z = it.Z
			}
		}
	}
	return x, y, z
}
