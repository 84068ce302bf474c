package rig

import (
	"fmt"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A stocked component: its path and what every component has.
type stocked struct {
	path  Path
	stock *Stock
}

// components returns every component that has a mass and a price, in the order
// of the specification.
func components(s *Spec) []stocked {
	var out []stocked
	add := func(list string, st *Stock) {
		out = append(out, stocked{Path(fmt.Sprintf("%s[%s]", list, st.ID)), st})
	}
	for i := range s.Engines {
		add("engines", &s.Engines[i].Stock)
	}
	for i := range s.Pumps {
		add("pumps", &s.Pumps[i].Stock)
	}
	for i := range s.Heaters {
		add("heaters", &s.Heaters[i].Stock)
	}
	for i := range s.Trunks {
		add("trunks", &s.Trunks[i].Stock)
	}
	for i := range s.Lines {
		add("lines", &s.Lines[i].Stock)
	}
	for i := range s.Tanks {
		add("tanks", &s.Tanks[i].Stock)
	}
	for i := range s.Recovery {
		add("recovery", &s.Recovery[i].Stock)
	}
	for i := range s.Sources {
		add("sources", &s.Sources[i].Stock)
	}
	for i := range s.Loads {
		add("loads", &s.Loads[i].Stock)
	}
	for i := range s.Cords {
		add("cords", &s.Cords[i].Stock)
	}
	for i := range s.Batteries {
		add("batteries", &s.Batteries[i].Stock)
	}
	for i := range s.FuelTanks {
		add("fuel_tanks", &s.FuelTanks[i].Stock)
	}
	for i := range s.Chemicals {
		add("chemicals", &s.Chemicals[i].Stock)
	}
	for i := range s.Items {
		add("items", &s.Items[i].Stock)
	}
	if s.Trailer != nil {
		out = append(out, stocked{"trailer", &s.Trailer.Stock})
	}
	return out
}

// weighs reports whether a component carries a mass of its own.
func (c stocked) weighs() bool { return c.stock.Mass != 0 && c.stock.Within == "" }

// unweighed returns the components whose mass is unknown: none is given and no
// item counts it.
func unweighed(s *Spec) []Path {
	var out []Path
	for _, c := range components(s) {
		if c.stock.Mass == 0 && c.stock.Within == "" {
			out = append(out, c.path+".mass")
		}
	}
	return out
}

// senseOfMasses refuses masses without a place when there is a trailer to put
// them on.
func senseOfMasses(s *Spec) []error {
	var errs []error
	if s.Trailer == nil {
		return nil
	}
	for _, c := range components(s) {
		if c.weighs() && !c.stock.X.Given() {
			errs = append(errs, &units.FieldError{Path: string(c.path) + ".x", Want: "the place of its mass, fore and aft, such as 8.2 ft", Err: units.ErrMissing})
		}
	}
	return errs
}

// senseOfWithin refuses components that are within themselves, at once or around: nothing
// would count their mass.
func senseOfWithin(s *Spec) []error {
	within := map[string]string{}
	for i := range s.Items {
		within[s.Items[i].ID] = s.Items[i].Within
	}
	var errs []error
	for i := range s.Items {
		id := s.Items[i].ID
		at := s.Items[i].Within
		for n := 0; at != "" && at != id && n < len(within); n++ {
			at = within[at]
		}
		if at == id {
			errs = append(errs, &units.FieldError{Path: "items[" + id + "].within", Value: s.Items[i].Within, Want: "an item that counts its mass, or nothing", Err: problem.Words("is within itself", units.ErrConflict)})
		}
	}
	return errs
}
