package rig

import (
	"example.com/washrig/units"
)

// partHazards list the checks of words about the rig itself: ties and cords, parts of
// unknown age, ratings of the low-pressure side.
func partHazards() []hazardCheck {
	return []hazardCheck{
		{path: "sources[].tie", doc: CodeDoc{Code: "sources-tied", Title: "a source is tied to another or to a building with nothing between",
			Meaning: "Two sources on one wire burn each other and put voltage where nobody expects it, on a line in the street as well. Only an interlock or a kit made for the two keeps them apart.", Defers: "licensed electrician; the electrical code in force"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for i := range s.Sources {
					if g := &s.Sources[i]; g.Tie == "direct" {
						out = append(out, hazard{g.ID, Stop, "the specification says it is tied directly", ""})
					}
				}
				return out
			}},
		{path: "loads[].outlet", doc: CodeDoc{Code: "outlet-unknown", Title: "nobody said which outlet carries a load",
			Meaning: "Outlets are listed, and not which of them carries the load: neither its breaker nor its ground-fault protection is held against it.", Defers: "licensed electrician"},
			find: outletsUnknown},
		{path: "zones[].x", doc: CodeDoc{Code: "fuel-fill-in-heat", Title: "fuel is filled or stands open where it is hot",
			Meaning: "A zone in which fuel is filled reaches into a zone of hot parts or exhaust, or nearer than its clearance: what is spilt burns.", Defers: "fire authority; fuel-tank standards"},
			find: fuelInHeat},
		{path: "cords[].ends", doc: CodeDoc{Code: "live-pins", Title: "a cord has a plug with pins on both ends",
			Meaning: "Its pins are live in the hand while the other end is plugged in, and it ties two sources together. There is no use for it: cut it up.", Defers: "licensed electrician"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for i := range s.Cords {
					if c := &s.Cords[i]; c.Ends == "two-plugs" {
						out = append(out, hazard{c.ID, Stop, "two plugs, as given", ""})
					}
				}
				return out
			}},
		{path: "loads[].may", doc: CodeDoc{Code: "neutral-unknown", Title: "a plug moves between sources whose neutrals are not known",
			Meaning: "Ground-fault protection that works on a bonded neutral may not work, or trip, on a floating one. Read the plates of the sources before the plug is moved.", Defers: "licensed electrician"},
			find: func(s *Spec) []hazard {
				neutral := map[string]string{}
				for i := range s.Sources {
					neutral[s.Sources[i].ID] = s.Sources[i].Neutral
				}
				var out []hazard
				for i := range s.Loads {
					l := &s.Loads[i]
					if len(l.May) == 0 {
						continue
					}
					for k := -1; k < len(l.May); k++ {
						at := l.Source
						if k >= 0 {
							at = l.May[k]
						}
						if neutral[at] == "" {
							out = append(out, hazard{l.ID, Note, "the neutral of source " + at + " is not given", ""})
							break
						}
					}
				}
				return out
			}},
		{path: "heaters[].history", doc: CodeDoc{Code: "age-unknown", Title: "age and state of a part that holds pressure or load are not known",
			Meaning: "A coil thins from inside, a drum under vacuum tires, tyres crack with the years without showing it. Find the date, or have it inspected before it works.", Defers: "inspector; part makers"},
			find: func(s *Spec) []hazard {
				var out []hazard
				const why = "its history is said to be unknown"
				for i := range s.Heaters {
					if s.Heaters[i].History == "unknown" {
						out = append(out, hazard{s.Heaters[i].ID, Fix, "coil of " + heaterWord(s.Heaters[i].ID) + s.Heaters[i].ID + ": " + why, ""})
					}
				}
				for i := range s.Recovery {
					if s.Recovery[i].Drum.History == "unknown" {
						out = append(out, hazard{"recovery[" + s.Recovery[i].ID + "].drum.history", Fix, "drum of recovery unit " + s.Recovery[i].ID + ": " + why, ""})
					}
				}
				if s.Trailer != nil && s.Trailer.TyreHistory == "unknown" {
					out = append(out, hazard{"trailer.tyre_history", Fix, "tyres of the trailer: " + why, ""})
				}
				return out
			}},
		{path: "tanks[].maximum_temperature", doc: CodeDoc{Code: "tank-hot", Title: "hotter water in a tank or a recovery unit than its maker allows",
			Meaning: "Water that comes back hot, or that the pump's bypass warms, softens a plastic tank, a hose or a filter bowl until it sags or bursts.", Defers: "part makers"},
			follow: hotLowSide},
	}
}

// coolStore reports whether water that stands stays cool: the hottest hour is known
// and below 68 °F, and nothing that comes back is warmer.
func coolStore(s *Spec) bool {
	limit := units.Fahrenheit(68).Kelvin() + 1e-9
	known := false
	for _, c := range s.Site.Conditions {
		if !c.Air.Given() || c.Air.Kelvin() > limit {
			return false
		}
		known = true
	}
	for i := range s.Recovery {
		if t := s.Recovery[i].ReturnTemperature; t.Given() && t.Kelvin() > limit {
			return false
		}
	}
	return known
}

// hotLowSide finds tanks and recovery units that may hold hotter water than their
// makers allow: what comes back, what a pump is said to draw at its warmest, and
// what a bypass to the tank warms up to the pump's inlet limit, where the pump has
// no other guard.
func hotLowSide(m *Model) []hazard {
	s := m.spec
	var out []hazard
	over := func(t, limit units.Temperature) bool {
		return t.Given() && limit.Given() && t.Kelvin() > limit.Kelvin()+1e-9
	}
	// unknown is warm water where no rating is given: a plastic tank, hose or bowl may
	// bear it or not.
	unknown := func(list, id, pump string, t, limit units.Temperature) {
		if !t.Given() || limit.Given() || t.Kelvin() <= coolestPlastic.Kelvin() {
			return
		}
		what, does := "tank "+id, ": water comes back at "
		if list == "recovery" {
			what = "recovery unit " + id
		}
		if pump != "" {
			does = ": pump " + pump + " draws water of up to "
		}
		out = append(out, hazard{list + "[" + id + "].maximum_temperature", CannotJudge, what + does + bothUnits(t.Quantity()) + "; plastics soften from 120 to 140 °F (49 to 60 °C), common practice, and its rating is not given", Path(list + "[" + id + "].maximum_temperature")})
	}
	// band is water whose warmth is assumed, and a rating that it may pass.
	band := func(at, id, what string, limit units.Temperature) {
		p := Path("recovery[" + id + "].return_temperature")
		b, assumed := m.bands[p]
		if !assumed || !limit.Given() || over(units.Kelvin(b.Usual.SI()), limit) || !over(units.Kelvin(b.High.SI()), limit) {
			return
		}
		out = append(out, hazard{at, CannotJudge, what + ": water comes back at up to " + bothUnits(b.High) + " (" + b.Source + "), rated " + bothUnits(limit.Quantity()), p})
	}
	for i := range s.Recovery {
		u := &s.Recovery[i]
		band("recovery["+u.ID+"].maximum_temperature", u.ID, "recovery unit "+u.ID, u.MaximumTemperature)
		unknown("recovery", u.ID, "", u.ReturnTemperature, u.MaximumTemperature)
		if over(u.ReturnTemperature, u.MaximumTemperature) {
			out = append(out, hazard{"recovery[" + u.ID + "].maximum_temperature", Stop, "recovery unit " + u.ID + ": water comes back at " + bothUnits(u.ReturnTemperature.Quantity()) + ", rated " + bothUnits(u.MaximumTemperature.Quantity()), ""})
		}
	}
	for i := range s.Tanks {
		t := &s.Tanks[i]
		for k := range s.Recovery {
			u := &s.Recovery[k]
			if u.Tank == t.ID {
				band(t.ID, u.ID, "tank "+t.ID, t.MaximumTemperature)
				unknown("tanks", t.ID, "", u.ReturnTemperature, t.MaximumTemperature)
			}
			if u.Tank == t.ID && over(u.ReturnTemperature, t.MaximumTemperature) {
				out = append(out, hazard{t.ID, Stop, "tank " + t.ID + ": water comes back at " + bothUnits(u.ReturnTemperature.Quantity()) + ", rated " + bothUnits(t.MaximumTemperature.Quantity()), ""})
			}
		}
		for k := range s.Pumps {
			p := &s.Pumps[k]
			if p.Tank != t.ID {
				continue
			}
			unknown("tanks", t.ID, p.ID, p.Suction.Warmest, t.MaximumTemperature)
			if over(p.Suction.Warmest, t.MaximumTemperature) {
				out = append(out, hazard{t.ID, Stop, "tank " + t.ID + ": pump " + p.ID + " draws water of up to " + bothUnits(p.Suction.Warmest.Quantity()) + ", rated " + bothUnits(t.MaximumTemperature.Quantity()), ""})
			}
			if p.Unloader.ReturnTo == "tank" && over(p.MaximumInletTemperature, t.MaximumTemperature) {
				out = append(out, hazard{t.ID, Note, "tank " + t.ID + ": the bypass of pump " + p.ID + " may warm it beyond its rating of " + bothUnits(t.MaximumTemperature.Quantity()) + " before the pump's inlet limit of " + bothUnits(p.MaximumInletTemperature.Quantity()), ""})
			}
		}
	}
	return out
}

// coolestPlastic is the lowest rating of a plastic tank.
var coolestPlastic = units.Fahrenheit(120)

// bothUnits says a quantity in US units, then in SI.
func bothUnits(q units.Quantity) string {
	return q.Text(units.US, 3) + " (" + q.Text(units.SI, 3) + ")"
}

// fuelInHeat finds fuel zones that reach into hot ones: boxes in plan, and in height where
// both say theirs.
func fuelInHeat(s *Spec) []hazard {
	var out []hazard
	apart := func(a, b units.Position, la, lb units.Length) units.Length {
		d := a.Sub(b)
		return max(d, -d) - (la+lb)/2
	}
	for i := range s.Zones {
		f := &s.Zones[i]
		if f.Kind != "fuel" || f.Length == 0 || f.Width == 0 {
			continue
		}
		for k := range s.Zones {
			h := &s.Zones[k]
			if h.Kind != "heat" && h.Kind != "exhaust" || h.Length == 0 || h.Width == 0 {
				continue
			}
			gap := max(apart(f.X, h.X, f.Length, h.Length), apart(f.Y, h.Y, f.Width, h.Width))
			if f.Bottom.Given() && f.Top.Given() && h.Bottom.Given() && h.Top.Given() {
				gap = max(gap, f.Bottom.Sub(h.Top), h.Bottom.Sub(f.Top))
			}
			if gap < max(f.Clearance, h.Clearance)-1e-9 {
				out = append(out, hazard{f.ID, Stop, "zone " + f.ID + " and zone " + h.ID + " (" + h.Kind + ") meet or are nearer than their clearance", ""})
			}
		}
	}
	return out
}

// outletsUnknown finds loads that no outlet carries, on a rig that lists outlets. A
// source with one outlet needs no name.
func outletsUnknown(s *Spec) []hazard {
	if len(s.Outlets) == 0 {
		return nil
	}
	var out []hazard
	for i := range s.Loads {
		l := &s.Loads[i]
		of, named := 0, false
		for k := range s.Outlets {
			if o := &s.Outlets[k]; o.Source == l.Source {
				of++
				named = named || o.ID == l.Outlet
			}
		}
		at := Path("loads[" + l.ID + "].outlet")
		switch {
		case l.Source == "" || named || of == 1:
		case of == 0:
			out = append(out, hazard{l.ID, CannotJudge, "source " + l.Source + " has no outlet listed", at})
		default:
			out = append(out, hazard{l.ID, CannotJudge, "source " + l.Source + " has several outlets", at})
		}
	}
	return out
}
