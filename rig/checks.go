package rig

import "example.com/washrig/units"

// ownChecks lists the library's checks in order of rank: what can hurt first.
func ownChecks() []Check {
	var out []Check
	for _, list := range [][]*limitCheck{lineChecks(), plumbingChecks(), suctionChecks(), driveChecks(), electricChecks(), wiringChecks(), heatChecks(), burnerChecks(),
		staticsChecks(), stabilityChecks(), recoveryChecks(), fuelChecks(), chemicalChecks()} {
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

// never is a limit of nothing at all.
func never(k units.Kind) units.Quantity {
	q, err := units.NewQuantity(k, 0)
	if err != nil {
		return units.Quantity{}
	}
	return q
}

// fromSpec makes the limit function of a rating that stands in the
// specification at prefix[part].field.
func fromSpec(list, field, source string, guards bool) func(*View, Reading) (units.Quantity, string, Path, bool) {
	return func(v *View, r Reading) (units.Quantity, string, Path, bool) {
		p := Path(list + "." + field)
		if r.Part != "" {
			p = Path(list + "[" + r.Part + "]." + field)
		}
		q, ok := v.model.Quantity(p)
		if ok {
			return q, source, "", true
		}
		if guards {
			return q, "", p, false
		}
		return q, "", "", false
	}
}

// fromMetric makes the limit function of another metric of the same component.
func fromMetric(m *Metric, source string) func(*View, Reading) (units.Quantity, string, Path, bool) {
	return func(v *View, r Reading) (units.Quantity, string, Path, bool) {
		q, ok := v.value(m, r.Part, r.State)
		return q, source, "", ok
	}
}

// least keeps the smallest of several ratings and remembers the first that is
// missing.
type least struct {
	q       units.Quantity
	source  string
	missing Path
}

func (l *least) take(q units.Quantity, given bool, path Path, source string) {
	switch {
	case !given:
		if l.missing == "" {
			l.missing = path
		}
	case !l.q.Given() || q.SI() < l.q.SI():
		l.q, l.source = q, source
	}
}

// answer judges by the least rating known; one that is missing leaves the
// question open unless a known one already decides it.
func (l *least) answer(value units.Quantity) (units.Quantity, string, Path, bool) {
	if l.q.Given() && (l.missing == "" || value.SI() > l.q.SI()) {
		return l.q, l.source, "", true
	}
	return units.Quantity{}, "", l.missing, false
}

func fromSpecPlain(p Path, source string) func(*View, Reading) (units.Quantity, string, Path, bool) {
	return func(v *View, r Reading) (units.Quantity, string, Path, bool) {
		q, ok := v.model.Quantity(p)
		if !ok {
			return q, "", p, false
		}
		return q, source, "", true
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
		if p.Relief.Setting == 0 && p.Unloader.Setting == 0 {
			continue // dead-head says so
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
	if len(s.Engines) > 0 || len(s.Sources) > 0 {
		if !s.Site.Elevation.Given() {
			miss(mEngineHas, "", "site.elevation", "power at the site")
		}
		if len(s.Site.Conditions) == 0 {
			miss(mEngineHas, "", "site.conditions", "power by the hour")
		}
	}
	missingForStability(v, miss)
}
