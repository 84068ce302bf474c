package rig

import (
	"slices"
	"strings"

	"example.com/washrig/units"
)

// A hazardCheck judges what a specification says in words: where the rig
// stands, what it sprays, what the surface is.
type hazardCheck struct {
	doc  CodeDoc
	path Path // what the finding is about, as a pattern
	find func(s *Spec) []hazard

	// follow takes the place of find where it looks at what tanks hold.
	follow func(m *Model) []hazard

	metric *Metric // made of path and doc
}

// A hazard is one thing found.
type hazard struct {
	part     string // id of the component, or the path of another field than the check's
	severity Severity
	why      string
	need     Path // what would settle it, for CannotJudge
}

// Codes returns the check's one code.
func (c *hazardCheck) Codes() []CodeDoc {
	d := c.doc
	d.Metric, d.Plate = c.path, true
	return []CodeDoc{d}
}

// Check reports every hazard found.
func (c *hazardCheck) Check(v *View, report func(Finding)) {
	var list []hazard
	if c.follow != nil {
		list = c.follow(v.model)
	} else {
		list = c.find(v.model.spec)
	}
	for i := range list {
		h := &list[i]
		about, part := c.metric, h.part
		if strings.Contains(part, ".") {
			p := Path(part)
			about = &Metric{Path: p.Pattern(), Label: c.doc.Title, Formula: "as given", Source: "specification"}
			if _, rest, ok := strings.Cut(part, "["); ok {
				part, _, _ = strings.Cut(rest, "]")
			} else {
				part = ""
			}
		}
		f := Finding{Code: c.doc.Code, Severity: h.severity, Reading: Reading{Metric: about, Part: part, State: State{set: v.model.axes}}, Margin: -1, Source: h.why, Root: v.say(string(c.doc.Code), " ", part)}
		if h.need != "" {
			f.Leans = []Path{h.need}
		}
		if text, given, err := v.model.Get(f.Reading.Path()); err == nil && given {
			f.Found = text
		}
		report(f)
	}
}

// A clash of two families of chemicals.
type chemicalPair struct {
	a, b, makes string
}

// chemicalPairs are families that must not meet, in the wash, in a tank or on
// the deck. Source: the usual warnings of safety data sheets (common practice);
// a pair that is missing here is not harmless.
var chemicalPairs = [...]chemicalPair{
	{"hypochlorite", "acid", "chlorine gas"},
	{"hypochlorite", "hydrofluoric", "chlorine gas"},
	{"hypochlorite", "ammonia", "chloramine gas"},
	{"hypochlorite", "peroxide", "oxygen under pressure"},
	{"acid", "caustic", "heat and spatter"},
	{"hydrofluoric", "caustic", "heat and spatter"},
	{"acid", "solvent", "heat and vapour"},
	{"acid", "ammonia", "heat and spatter"},
	{"hydrofluoric", "ammonia", "heat and spatter"},
	{"acid", "peroxide", "heat, and oxygen under pressure"},
	{"caustic", "peroxide", "oxygen under pressure"},
	{"hypochlorite", "solvent", "heat, fire and poisonous vapour"},
	{"peroxide", "solvent", "heat and fire"},
}

// hazardChecks list the checks of words.
func hazardChecks() []Check {
	has := func(list []string, word string) bool {
		for _, w := range list {
			if w == word {
				return true
			}
		}
		return false
	}
	burns := func(s *Spec) bool {
		return len(s.Engines)+len(s.Heaters) > 0 || slices.ContainsFunc(s.Sources, func(g Source) bool { return g.ownEngine() })
	}
	sparks := func(s *Spec) bool { return burns(s) || len(s.Sources)+len(s.Loads)+len(s.Recovery) > 0 }
	list := []hazardCheck{
		{path: "site.place", doc: CodeDoc{Code: "carbon-monoxide", Title: "engines or burners where their exhaust collects",
			Meaning: "The rig works in a building, in an enclosed body or beside an opening or air intake. Open trailers parked in a building count as enclosed. No number is a licence to enclose them.",
			Defers:  "local fire and gas code; a ventilation engineer"},
			find: func(s *Spec) []hazard {
				switch {
				case burns(s) && (s.Site.Place == "enclosed" || s.Site.Place == "in-building"):
					return []hazard{{"", Stop, "the specification says " + s.Site.Place, ""}}
				case burns(s) && s.Site.NearestOpening != 0 && s.Site.NearestOpening < 20*units.Foot*(1-1e-9):
					return []hazard{{"", Fix, "an opening or air intake is " + bothUnits(s.Site.NearestOpening.Quantity()) + " away; at least 20 ft (6 m), common practice", ""}}
				case burns(s) && s.Site.Place == "near-opening":
					return []hazard{{"", Fix, "keep exhausts at least 20 ft (6 m) from openings, common practice", ""}}
				case burns(s) && s.Site.Place == "":
					return []hazard{{"", CannotJudge, "nobody said where it works", "site.place"}}
				}
				return nil
			}},
		{path: "supplies[].device", doc: CodeDoc{Code: "feed-unprotected", Title: "a pump stands on the main without a backflow device",
			Meaning: "Between the main and a pump that it feeds straight there is no air gap; without a device whatever the pump holds can be drawn back into drinking water.",
			Defers:  "water purveyor; licensed plumber"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for i := range s.Supplies {
					switch w := &s.Supplies[i]; {
					case w.Pump == "":
					case w.Device == "":
						out = append(out, hazard{w.ID, CannotJudge, "the device is not given", Path("supplies[" + w.ID + "].device")})
					case w.Device == "none":
						out = append(out, hazard{w.ID, Stop, "the specification says none", ""})
					}
				}
				return out
			}},
		{path: "chemicals[].family", doc: CodeDoc{Code: "chemicals-meet", Title: "two chemicals that must never meet are carried together",
			Meaning: "Two families on the rig make gas or heat when they meet. Never say that a mix is harmless.", Defers: "safety data sheets; chemical supplier"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for i := range s.Chemicals {
					for j := i + 1; j < len(s.Chemicals); j++ {
						for _, p := range chemicalPairs {
							a, b := s.Chemicals[i].Family, s.Chemicals[j].Family
							if (a == p.a && b == p.b) || (a == p.b && b == p.a) {
								out = append(out, hazard{s.Chemicals[i].ID, Stop, s.Chemicals[i].ID + " (" + a + ") and " + s.Chemicals[j].ID + " (" + b + ") make " + p.makes, ""})
							}
						}
					}
				}
				return out
			}},
		{path: "chemicals[].enters", doc: CodeDoc{Code: "chemical-in-coil", Title: "a chemical goes through pump and coil",
			Meaning: "Chemicals drawn or mixed before the pump attack seals and the hot coil; with heat they make vapour at the gun.", Defers: "pump and heater makers; safety data sheets"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for _, c := range s.Chemicals {
					grave := len(s.Heaters) > 0 || c.Family != "detergent"
					switch {
					case c.Enters == "before-pump" && grave:
						out = append(out, hazard{c.ID, Stop, c.ID + " (" + c.Family + ") enters before the pump", ""})
					case c.Enters == "before-pump":
						out = append(out, hazard{c.ID, Fix, c.ID + " (" + c.Family + ") enters before the pump", ""})
					case c.Enters == "" && grave && !c.Injector.given() && !c.ChemicalPump.given():
						out = append(out, hazard{c.ID, CannotJudge, "nobody said where " + c.ID + " (" + c.Family + ") joins the water", Path("chemicals[" + c.ID + "].enters")})
					}
				}
				return out
			}},
		{path: "chemicals[].wets", doc: CodeDoc{Code: "chemical-attacks", Title: "a chemical attacks what it wets",
			Meaning: "Acid, hot caustic and hydrofluoric brighteners eat aluminium and make hydrogen.", Defers: "safety data sheets; makers of the parts"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for _, c := range s.Chemicals {
					switch eats := c.Family == "acid" || c.Family == "caustic" || c.Family == "hydrofluoric"; {
					case eats && has(c.Wets, "aluminium"):
						out = append(out, hazard{c.ID, Stop, c.ID + " (" + c.Family + ") wets aluminium", ""})
					case eats && len(c.Wets) == 0:
						out = append(out, hazard{c.ID, CannotJudge, "nobody said what " + c.ID + " (" + c.Family + ") wets", Path("chemicals[" + c.ID + "].wets")})
					}
				}
				return out
			}},
		{path: "chemicals[].mist", doc: CodeDoc{Code: "chemical-mist", Title: "people can breathe the mist of a chemical",
			Meaning: "Hypochlorite, acid, a brightener or the like is sprayed, and nobody said that no mist of it can be breathed: respirator and eye protection belong on that mode's card.", Defers: "safety data sheets; employer's safety officer"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for _, c := range s.Chemicals {
					if c.Family == "detergent" || c.Mist == "no" {
						continue
					}
					switch mode := modeSpraying(s, &c); {
					case c.Mist == "yes":
						out = append(out, hazard{c.ID, Fix, c.ID + " (" + c.Family + ") is sprayed as a mist", ""})
					case mode != "":
						out = append(out, hazard{c.ID, Fix, c.ID + " (" + c.Family + ") is sprayed " + mode + ", and nobody said that no mist of it can be breathed", ""})
					}
				}
				return out
			}},
		{path: "chemicals[].family", doc: CodeDoc{Code: "hydrofluoric-carried", Title: "a brightener with hydrofluoric acid or its salts",
			Meaning: "Brighteners with hydrofluoric acid or bifluoride go through skin without pain at first and poison from within; they eat glass and aluminium. Only people trained for it, with the antidote at hand, and better another product.", Defers: "safety data sheet; physician; chemical supplier"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for _, c := range s.Chemicals {
					if c.Family == "hydrofluoric" {
						out = append(out, hazard{c.ID, Fix, c.ID + " is of the hydrofluoric family", ""})
					}
				}
				return out
			}},
		{path: "duty.surface", doc: CodeDoc{Code: "surface-painted", Title: "a painted surface whose paint nobody has looked into",
			Meaning: "Old paint may hold lead: washing spreads it. Find out what the paint is before it is washed; with lead in it, it is licensed work.", Defers: "licensed abatement contractor"},
			find: func(s *Spec) []hazard {
				if has(s.Duty.Surface, "paint") && !has(s.Duty.Surface, "lead-paint") {
					return []hazard{{"", Note, "the duty names paint", ""}}
				}
				return nil
			}},
		{path: "duty.surface", doc: CodeDoc{Code: "surface-licensed", Title: "the surface needs licensed abatement",
			Meaning: "Lead paint and asbestos are spread by washing and poison people and ground.", Defers: "licensed abatement contractor"},
			find: func(s *Spec) []hazard {
				if has(s.Duty.Surface, "lead-paint") || has(s.Duty.Surface, "asbestos") {
					return []hazard{{"", Stop, "the duty names " + strings.Join(s.Duty.Surface, ", "), ""}}
				}
				return nil
			}},
		{path: "duty.surface", doc: CodeDoc{Code: "flammable-surface", Title: "flammables on the surface",
			Meaning: "Fuel, solvent or degreaser on the surface makes vapour near burner, engines, motors and switches. Do not heat, do not recover.", Defers: "fire authority"},
			find: func(s *Spec) []hazard {
				for _, word := range []string{"flammable", "fuel", "solvent"} {
					if has(s.Duty.Surface, word) && sparks(s) {
						return []hazard{{"", Stop, "the duty names " + word + " on the surface", ""}}
					}
				}
				if len(s.Duty.Surface) == 0 && len(s.Lines) > 0 && sparks(s) {
					return []hazard{{"", CannotJudge, "nobody said what the surface is or carries", "duty.surface"}}
				}
				return nil
			}},
		{path: "duty.run_off", doc: CodeDoc{Code: "run-off", Title: "wash water reaches ground or drain",
			Meaning: "Wash water in a storm drain or on the ground needs leave that is seldom given; a sanitary drain needs permission.", Defers: "discharge authority; licensed hauler"},
			find: func(s *Spec) []hazard {
				switch s.Duty.RunOff {
				case "storm-drain":
					return []hazard{{"", Stop, "run-off to a storm drain", ""}}
				case "ground", "sanitary":
					return []hazard{{"", Fix, "run-off to " + s.Duty.RunOff + ": show the permission", ""}}
				case "":
					if len(s.Lines) > 0 {
						return []hazard{{"", CannotJudge, "nobody said where water goes that is not recovered", "duty.run_off"}}
					}
				}
				return nil
			}},
		{path: "site.conditions[].air", doc: CodeDoc{Code: "freezing-pavement", Title: "run-off freezes underfoot",
			Meaning: "Below 34 °F (1 °C) wash water on pavement freezes: end the wash, bar or grit the area.", Defers: "site owner"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for _, c := range s.Site.Conditions {
					if len(s.Lines) > 0 && c.Air.Given() && c.Air.Kelvin() < units.Fahrenheit(34).Kelvin()-1e-9 {
						out = append(out, hazard{c.ID, Fix, "air below 34 °F (1 °C), common practice", ""})
					}
				}
				return out
			}},
		{path: "duty.height", doc: CodeDoc{Code: "gun-at-height", Title: "a gun is used at height",
			Meaning: "The reaction of a gun pushes an operator off a ladder. Do not wash from one; use a lift and a harness, or a longer lance.", Defers: "employer's safety officer"},
			find: func(s *Spec) []hazard {
				switch {
				case s.Duty.Height == "ladder":
					return []hazard{{"", Stop, "the duty says work from a ladder", ""}}
				case s.Duty.Height == "" && len(s.Lines) > 0:
					return []hazard{{"", CannotJudge, "nobody said where operators stand", "duty.height"}}
				}
				return nil
			}},
		{path: "pumps[].unloader", doc: CodeDoc{Code: "trapped-pressure", Title: "the line stays live after the trigger is released",
			Meaning: "A trapped-pressure unloader or a check valve holds pressure between pump and gun, also with the engine off: the shutdown order stands on the card where it applies.", Defers: "operator training"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for i := range s.Pumps {
					p := &s.Pumps[i]
					trapped := p.Unloader.Type == "trapped-pressure"
					for _, t := range s.Trunks {
						for _, e := range t.Elements {
							trapped = trapped || t.Pump == p.ID && e.Sort == "check-valve"
						}
					}
					for _, l := range s.Lines {
						for _, e := range l.Elements {
							trapped = trapped || (l.Pump == p.ID && e.Sort == "check-valve")
						}
					}
					if trapped {
						out = append(out, hazard{p.ID, Note, "squeeze each gun until the pressure is gone before anything is opened", ""})
					}
				}
				return out
			}},
		{path: "tanks[].stored", doc: CodeDoc{Code: "warm-storage", Title: "recovered water stands warm for days",
			Meaning: "Water of 77 to 113 °F (25 to 45 °C) that stands for days grows germs that people breathe as mist: dump and disinfect. A note where the hottest hour of the site stays below 68 °F (20 °C) and nothing comes back warmer.", Defers: "health authority"},
			find: func(s *Spec) []hazard {
				var out []hazard
				weight := Fix
				if coolStore(s) {
					weight = Note
				}
				for _, t := range s.Tanks {
					if t.Contents != "clean" && t.Stored.In(units.Day) > 2 {
						out = append(out, hazard{t.ID, weight, "stored more than two days, common practice", ""})
					}
				}
				return out
			}},
		{path: "tanks[].dump_valve", doc: CodeDoc{Code: "dump-unlocked", Title: "a dump valve is not locked on the road",
			Meaning: "A dump valve that opens on the road spills the tank: lock it shut and cap it in every travel state.", Defers: "spill rules; cargo-securement rule"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for _, t := range s.Tanks {
					if t.DumpValve == "free" && s.Trailer != nil {
						out = append(out, hazard{t.ID, Fix, "the dump valve can move", ""})
					}
				}
				return out
			}},
		{path: "tanks[].way_in", doc: CodeDoc{Code: "confined-space", Title: "a tank has a way in for people",
			Meaning: "A tank with a man-way is a confined space: no entry without a permit.", Defers: "confined-space permit"},
			find: func(s *Spec) []hazard {
				var out []hazard
				for _, t := range s.Tanks {
					if t.WayIn == "yes" {
						out = append(out, hazard{t.ID, Note, "no entry", ""})
					}
				}
				return out
			}},
		{path: "modes[].open", doc: CodeDoc{Code: "mode-mixes-water", Title: "a mode opens a crossover between clean and other water",
			Meaning: "In the mode a crossover is open that joins the clean tank to one of other contents. Flush and disinfect before people breathe the mist.", Defers: "health authority; water purveyor"},
			find: mixingModes},
		{path: "hose_ends[].at", doc: CodeDoc{Code: "hose-end-fouls", Title: "a hose end puts other water into the clean tank",
			Meaning: "In a mode, the loose end of a hose that carries recovered, treated or chemical water is put into a clean tank, or where it may not go.", Defers: "health authority; water purveyor"},
			find: foulingEnds},
		hazardCheck{path: "pumps[].tank", doc: CodeDoc{Code: "fouled-water-sprayed", Title: "a pump draws water that is not clean",
			Meaning: "By its own tank, through several open crossovers or from a recovery unit, water that is recovered, treated or chemical comes to the tank that feeds pump, coil and mist; the way is named. Flush and disinfect before people breathe the mist.", Defers: "health authority; water purveyor"},
			follow: sprayedWater},
	}
	list = append(list, partHazards()...)
	out := make([]Check, len(list))
	for i := range list {
		c := &list[i]
		c.metric = &Metric{Path: c.path, Label: c.doc.Title, Formula: "as given", Source: "specification"}
		out[i] = c
	}
	return out
}

// foulingEnds finds hose ends that a mode puts into a tank of cleaner contents,
// or into a place they may not go.
func foulingEnds(s *Spec) []hazard {
	contents := map[string]string{}
	for _, t := range s.Tanks {
		contents[t.ID] = t.Contents
	}
	var out []hazard
	judge := func(e *HoseEnd, place, when string) {
		if place == "" {
			return
		}
		allowed := len(e.Places) == 0 || place == e.At
		for _, p := range e.Places {
			allowed = allowed || p == place
		}
		switch {
		case contents[place] == "clean" && e.Carries == "":
			out = append(out, hazard{e.ID, CannotJudge, when + " the end of " + e.ID + " is in the clean tank " + place + ", and nobody said what comes out of it", Path("hose_ends[" + e.ID + "].carries")})
		case contents[place] == "clean" && e.Carries != "clean":
			out = append(out, hazard{e.ID, Stop, when + " the end of " + e.ID + " (" + e.Carries + ") is in the clean tank " + place, ""})
		case !allowed:
			out = append(out, hazard{e.ID, Fix, when + " the end of " + e.ID + " is in " + place + ", which is not among its places", ""})
		}
	}
	for i := range s.HoseEnds {
		e := &s.HoseEnds[i]
		judge(e, e.At, "as listed,")
		for _, m := range s.Modes {
			for _, move := range m.Ends {
				if id, place, ok := strings.Cut(move, ">"); ok && id == e.ID && place != e.At {
					judge(e, place, "in mode "+m.ID)
				}
			}
		}
	}
	return out
}

// mixingModes finds modes that open a crossover between a clean tank and one of
// other contents. A crossover that is open as listed is judged by the water it
// mixes; see clean-water-mixed.
func mixingModes(s *Spec) []hazard {
	contents := map[string]string{}
	for _, t := range s.Tanks {
		contents[t.ID] = t.Contents
	}
	var out []hazard
	for _, m := range s.Modes {
		for _, id := range m.Open {
			for _, c := range s.Crossovers {
				a, b := contents[c.From], contents[c.To]
				if c.ID == id && a != b && (a == "clean" || b == "clean") {
					out = append(out, hazard{m.ID, Fix, "crossover " + id + " joins " + c.From + " (" + a + ") and " + c.To + " (" + b + ")", ""})
				}
			}
		}
	}
	return out
}

// modeSpraying says in which mode a chemical is sprayed, or that it is where there are no
// modes; empty if none sprays it. One that no mode names counts for every mode with a gun
// it is drawn into.
func modeSpraying(s *Spec, c *Chemical) string {
	named := slices.ContainsFunc(s.Modes, func(m Mode) bool { return slices.Contains(m.Sprays, c.ID) })
	for _, m := range s.Modes {
		if slices.Contains(m.Sprays, c.ID) || !named && c.Injector.Line != "" && slices.Contains(m.Guns, c.Injector.Line) {
			return "in mode " + m.ID
		}
	}
	return ""
}
