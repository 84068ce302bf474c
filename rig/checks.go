package rig

import (
	"slices"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/units"
)

// ownChecks lists the library's checks in order of rank: what can hurt first.
func ownChecks() []Check {
	var out []Check
	for _, list := range [][]*limitCheck{lineChecks(), plumbingChecks(), suctionChecks(), driveChecks(), electricChecks(), wiringChecks(), coupledChecks(), heatChecks(), burnerChecks(),
		staticsChecks(), stabilityChecks(), recoveryChecks(), fuelChecks(), chemicalChecks(), waterChecks(), noiseChecks(), padChecks(), faultChecks()} {
		for _, c := range list {
			out = append(out, c)
		}
	}
	out = append(out, hazardChecks()...)
	return append(out, wrongFuel{}, recoveryHazards{}, guards{})
}

// plate marks a code whose limit is a rating of a part.
func plate(d CodeDoc) CodeDoc {
	d.Plate = true
	return d
}

// nothing makes the rating of what must not be at all.
func nothing(k units.Kind, source string) func(*View, string) least {
	return func(*View, string) least { return least{q: never(k), source: source} }
}

// never is a limit of nothing at all.
func never(k units.Kind) units.Quantity {
	q, err := units.NewQuantity(k, 0)
	if err != nil {
		return units.Quantity{}
	}
	return q
}

// A field is where quantities of the specification stand, looked up once.
type field struct {
	place        *fields.Place
	before, rest string // of its path, about the id
}

// fieldOf looks up a pattern such as pumps[].relief.setting, or a path without
// ids. Patterns of the library's checks exist; a test holds that.
func fieldOf(pattern string) field {
	t, err := specTable()
	if err != nil {
		return field{}
	}
	p, err := t.Place(pattern)
	if err != nil {
		return field{}
	}
	before, rest, _ := strings.Cut(pattern, "]")
	return field{p, before, rest}
}

// at returns the quantity of an element, or of the rig where part is empty.
func (f *field) at(m *Model, part string) (units.Quantity, bool) {
	if part == "" {
		return f.place.Quantity(m.spec)
	}
	return f.place.Quantity(m.spec, part)
}

// path of the field of an element.
func (f *field) path(v *View, part string) Path {
	if part == "" {
		return Path(f.before)
	}
	return Path(v.say(f.before, part, "]", f.rest))
}

// fromSpec makes the rating that stands in the specification at
// list[part].name, or at list.name where the metric has no component. Its absence
// leaves the question open if it guards.
func fromSpec(list, name, source string, guards bool) func(*View, string) least {
	one, all := fieldOf(list+"[]."+name), fieldOf(list+"."+name)
	return func(v *View, part string) least {
		f := &one
		if part == "" {
			f = &all
		}
		q, ok := f.at(v.model, part)
		switch {
		case ok:
			return least{q: q, source: source}
		case guards:
			return least{missing: f.path(v, part)}
		}
		return least{}
	}
}

// fromDuty makes the limit that a field without ids gives to every component;
// without it there is none.
func fromDuty(path, source string) func(*View, string) least {
	f := fieldOf(path)
	return func(v *View, _ string) least {
		q, ok := f.at(v.model, "")
		if !ok {
			return least{}
		}
		return least{q: q, source: source}
	}
}

// words are a path or a source in pieces: most ratings that are taken are not the
// least one, and nobody reads their names.
type words [4]string

func (w words) empty() bool { return w == words{} }

// least keeps the smallest of several ratings and remembers the first that is
// missing.
type least struct {
	q       units.Quantity
	source  string
	missing Path

	by, lacks words // of source and missing, while ratings are taken
}

func (l *least) take(q units.Quantity, given bool, path, source words) {
	switch {
	case !given:
		if l.lacks.empty() {
			l.lacks = path
		}
	case !l.q.Given() || q.SI() < l.q.SI():
		l.q, l.by = q, source
	}
}

// done writes the names of what was taken.
func (l *least) done(v *View) least {
	l.source, l.missing = v.say(l.by[:]...), Path(v.say(l.lacks[:]...))
	return *l
}

// known is done where a missing rating is asked for elsewhere.
func (l *least) known(v *View) least {
	l.lacks = words{}
	return l.done(v)
}

// answer judges by the least rating known; one that is missing leaves the
// question open unless a known one already decides it.
func (l *least) answer(value units.Quantity) (units.Quantity, string, Path, bool) {
	if l.q.Given() && (l.missing == "" || value.SI() > l.q.SI()) {
		return l.q, l.source, "", true
	}
	return units.Quantity{}, "", l.missing, false
}

// fromSpecPlain is fromDuty for a rating whose absence leaves a stop unguarded.
func fromSpecPlain(p Path, source string) func(*View, string) least {
	f := fieldOf(string(p))
	return func(v *View, _ string) least {
		q, ok := f.at(v.model, "")
		if !ok {
			return least{missing: p}
		}
		return least{q: q, source: source}
	}
}

// guards reports inputs that guard a stop and are missing altogether, so that
// no number exists that could be held against a limit.
type guards struct{}

// Codes returns the one code of the check.
func (guards) Codes() []CodeDoc {
	return []CodeDoc{{Code: "guard-missing", Title: "an input that guards a stop is missing", Plate: true,
		Meaning: "Without the named input a state that could be a stop cannot be judged.", Defers: "part makers"}}
}

// Check looks for what is missing.
func (guards) Check(v *View, report func(Finding)) {
	s := v.model.spec
	miss := func(m *Metric, part string, p Path, source string) {
		report(Finding{Code: "guard-missing", Severity: CannotJudge, Reading: Reading{Metric: m, Part: part, State: State{set: v.model.axes}},
			Leans: []Path{p}, Source: source, Root: "missing " + string(p)})
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		at := Path("pumps[" + p.ID + "]")
		if p.Engine == "" && len(s.Engines) > 0 {
			miss(mPumpShaft, p.ID, at+".engine", "the engine that drives it, and whether that carries it")
		}
		if p.Relief.Setting == 0 && p.Unloader.Setting == 0 {
			continue // dead-head says so
		}
		if l := &p.Suction; l.given() && p.Tank != "" {
			switch {
			case !l.Low.Given():
				miss(mSuctionHead, p.ID, at+".suction.low", "how far the water stands below or above the pump")
			case p.Plungers == 0:
				miss(mSuctionHead, p.ID, at+".plungers", "what its pulses cost of the suction head")
			case p.Speed == 0:
				miss(mSuctionHead, p.ID, at+".speed", "what its pulses cost of the suction head")
			}
		}
		if p.Unloader.Setting != 0 && !p.MaximumInletTemperature.Given() {
			miss(mBypassTime, p.ID, at+".maximum_inlet_temperature", "minutes in bypass")
		}
	}
	for i := range s.Heaters {
		h := &s.Heaters[i]
		if !h.Thermostat.Given() {
			miss(mThermostat, h.ID, Path("heaters["+h.ID+"].thermostat"), "the temperature the burner is held at")
		}
		if !h.HighLimit.Given() {
			miss(mHighLimit, h.ID, Path("heaters["+h.ID+"].high_limit"), "the guard of a stuck burner")
		}
	}
	if len(s.Engines) > 0 || slices.ContainsFunc(s.Sources, func(g Source) bool { return g.ownEngine() }) {
		if !s.Site.Elevation.Given() {
			miss(mEngineHas, "", "site.elevation", "power at the site")
		}
		if len(s.Site.Conditions) == 0 {
			miss(mEngineHas, "", "site.conditions", "power by the hour")
		}
	}
	for i := range s.Tanks {
		t := &s.Tanks[i]
		drawn := slices.ContainsFunc(s.Pumps, func(p Pump) bool { return p.Tank == t.ID })
		if t.Vent == 0 && t.MaximumVacuum != 0 && (drawn || t.Dump.Bore != 0) {
			miss(mTankVacuum, t.ID, Path("tanks["+t.ID+"].vent"), "the vacuum in the tank while it is dumped or drawn")
		}
	}
	missingForStability(v, miss)
}
