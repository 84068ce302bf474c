package rig

import (
	"example.com/washrig/units"
)

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

// pressureRatings collects the pressure ratings of a pump and what it feeds.
func pressureRatings(s *Spec, pump string) least {
	var l least
	for i := range s.Pumps {
		if p := &s.Pumps[i]; p.ID == pump {
			at := Path("pumps[" + p.ID + "].maximum_pressure")
			l.take(p.MaximumPressure.Quantity(), p.MaximumPressure != 0, at, "rating of pump "+p.ID)
		}
	}
	for i := range s.Heaters {
		if h := &s.Heaters[i]; h.Pump == pump {
			l.take(h.MaximumPressure.Quantity(), h.MaximumPressure != 0, Path("heaters["+h.ID+"].maximum_pressure"), "rating of heater "+h.ID)
		}
	}
	for i := range s.Lines {
		if n := &s.Lines[i]; n.Pump == pump {
			l.take(n.Hose.MaximumPressure.Quantity(), n.Hose.MaximumPressure != 0, Path("lines["+n.ID+"].hose.maximum_pressure"), "rating of the hose of line "+n.ID)
		}
	}
	return l
}

// temperatureRatings collects the temperature ratings behind a heater.
func temperatureRatings(s *Spec, heater string) least {
	var l least
	pump := ""
	for i := range s.Heaters {
		if h := &s.Heaters[i]; h.ID == heater {
			pump = h.Pump
			l.take(h.MaximumTemperature.Quantity(), h.MaximumTemperature.Given(), Path("heaters["+h.ID+"].maximum_temperature"), "rating of heater "+h.ID)
		}
	}
	for i := range s.Lines {
		if n := &s.Lines[i]; n.Pump == pump {
			l.take(n.Hose.MaximumTemperature.Quantity(), n.Hose.MaximumTemperature.Given(), Path("lines["+n.ID+"].hose.maximum_temperature"), "rating of the hose of line "+n.ID)
		}
	}
	return l
}

func leastPressure(v *View, r Reading) (units.Quantity, string, Path, bool) {
	l := pressureRatings(v.model.spec, r.Part)
	return l.answer(r.Value)
}

func leastTemperature(v *View, r Reading) (units.Quantity, string, Path, bool) {
	l := temperatureRatings(v.model.spec, r.Part)
	return l.answer(r.Value)
}

// ownChecks lists the library's checks in order of rank.
func ownChecks() []Check {
	stop := func(d CodeDoc) CodeDoc { d.Plate = true; return d }
	fix := func(d CodeDoc) CodeDoc { return d }
	checks := []*limitCheck{
		{metric: mPumpPressure, root: "pressure", severity: Stop, limit: leastPressure,
			doc: stop(CodeDoc{Code: "pressure-over-rating", Bad: Higher, Title: "pressure above the weakest rating",
				Meaning: "In some state the pump makes more pressure than the weakest part on its line side may bear.", Defers: "part makers"})},
		{metric: mDeadHead, root: "pressure", severity: Stop,
			limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
				return never(units.KindPressure), "no unloader and no relief valve", "", true
			},
			doc: stop(CodeDoc{Code: "dead-head", Bad: Higher, Title: "nothing limits the pressure when the guns close",
				Meaning: "A positive-displacement pump works against closed guns without unloader or relief valve; the number is the first rating passed.", Defers: "part makers"})},
		{metric: mReliefFlow, root: "pressure", severity: Stop,
			limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
				return never(units.KindVolumeFlow), "a relief valve is the last resort and closed in use", "", true
			},
			doc: stop(CodeDoc{Code: "relief-in-use", Bad: Higher, Title: "the relief valve opens in ordinary use",
				Meaning: "The relief valve passes water in a state that is no fault, so that nothing is left behind it.", Defers: "part makers"})},
		{metric: mReliefSetting, root: "pressure", severity: Stop, limit: leastPressure,
			doc: stop(CodeDoc{Code: "relief-over-rating", Bad: Higher, Title: "relief valve set above the weakest rating",
				Meaning: "The valve of last resort opens above what the weakest part on the line side may bear.", Defers: "part makers"})},
		{metric: mUnloaderSetting, root: "pressure", severity: Stop, limit: fromSpec("pumps", "relief.setting", "setting of the relief valve", true), also: []*Metric{mReliefSetting},
			doc: stop(CodeDoc{Code: "unloader-over-relief", Bad: Higher, Title: "unloader not below the relief valve",
				Meaning: "The unloader is set at or above the relief valve, or no relief valve is given.", Defers: "part makers"})},
		{metric: mEngineDemand, root: "engine", severity: Stop, limit: fromMetric(mEngineHas, "plate derating at the site"), also: []*Metric{mEngineHas},
			doc: stop(CodeDoc{Code: "engine-overload", Bad: Higher, Title: "more power asked of the engine than it has at the site",
				Meaning: "Pumps and belt generators together take more than the engine gives for hours at the site's elevation and air.", Defers: "engine maker"})},
		{metric: mRunning, root: "source", severity: Stop, limit: fromMetric(mRunLimit, "run rating at the site"), also: []*Metric{mRunLimit},
			doc: stop(CodeDoc{Code: "source-overload", Bad: Higher, Title: "running load above the run rating",
				Meaning: "The loads plugged into a source draw more than its run rating at the site.", Defers: "generator maker; licensed electrician"})},
		{metric: mStart, root: "source", severity: Stop, limit: startLimit, also: []*Metric{mStartLimit},
			doc: stop(CodeDoc{Code: "source-start", Bad: Higher, Title: "worst start above the start rating",
				Meaning: "Even in the best hand order, loads that start by themselves can start on top of everything that runs and pass the start rating at the site.", Defers: "generator maker; licensed electrician"})},
		{metric: mRestart, root: "restart", severity: Fix, limit: fromMetric(mStartLimit, "start rating at the site"), also: []*Metric{mStartLimit},
			doc: fix(CodeDoc{Code: "source-restart", Bad: Higher, Title: "restart with everything switched on above the start rating",
				Meaning: "After a trip everything left switched on starts at once. Needs a start card and a no-volt release.", Defers: "generator maker; licensed electrician"})},
		{metric: mBypassTime, root: "bypass",
			doc: CodeDoc{Code: "bypass-heating", Bad: Lower, Title: "the bypass reaches the pump's inlet limit too soon",
				Meaning: "With every gun closed the unloader returns the whole flow at full pressure, and its heat stays in the water that goes round.",
				Limit:   Limit{Stop: (5 * units.Minute).Quantity(), Source: "a few minutes in bypass, common practice"}, Defers: "pump maker"}},
		{metric: mThermostat, root: "heat", severity: Stop, limit: leastTemperature,
			doc: stop(CodeDoc{Code: "thermostat-over-rating", Bad: Higher, Title: "thermostat set above the weakest temperature rating",
				Meaning: "The thermostat lets the water get hotter than the weakest part behind the heater may bear.", Defers: "burner and hose makers"})},
		{metric: mHighLimit, root: "heat", severity: Stop, limit: leastTemperature,
			doc: stop(CodeDoc{Code: "high-limit-over-rating", Bad: Higher, Title: "high limit set above the weakest temperature rating",
				Meaning: "The high limit lets the water get hotter than the weakest part behind the heater may bear.", Defers: "burner and hose makers"})},
		{metric: mThermostat, root: "heat", severity: Fix, limit: fromSpec("heaters", "high_limit", "setting of the high limit", true), also: []*Metric{mHighLimit},
			doc: fix(CodeDoc{Code: "thermostat-over-high-limit", Bad: Higher, Title: "thermostat not below the high limit",
				Meaning: "The thermostat is set above the high limit, or no high limit is given.", Defers: "burner maker"})},
		{metric: mOutlet, root: "heat", severity: Stop, limit: leastTemperature,
			when: func(v *View, r Reading) bool { return r.State.v[AxisHeat] == heatStuck },
			soften: func(v *View, r Reading, s Severity) Severity {
				l := temperatureRatings(v.model.spec, r.Part)
				high, ok := v.value(mHighLimit, r.Part, r.State)
				if s == Stop && ok && l.q.Given() && high.SI() <= l.q.SI() {
					return Note // the high limit is the guard
				}
				return s
			},
			doc: stop(CodeDoc{Code: "stuck-burner", Bad: Higher, Title: "outlet above the weakest rating if the limiter fails",
				Meaning: "With the burner on all the time the flow of the open guns leaves the heater hotter than the weakest part may bear. A high limit below that rating is the guard.", Defers: "burner maker"})},
		{metric: mThermostat, root: "boiling", severity: Fix, limit: fromMetric(mBoiling, "boiling point at the site"), also: []*Metric{mBoiling},
			doc: fix(CodeDoc{Code: "thermostat-boiling", Bad: Higher, Title: "thermostat above the boiling point at the site",
				Meaning: "Water at the thermostat's setting turns to steam at an open nozzle.", Defers: "burner maker"})},
		{metric: mBoilingMargin, root: "boiling",
			doc: CodeDoc{Code: "boiling-margin", Bad: Lower, Title: "the heater can reach the boiling point at the site",
				Meaning: "At the heater's highest temperature the water is close to boiling at an open nozzle.",
				Limit:   Limit{Note: (5 * units.FahrenheitDelta).Quantity(), Source: "a few degrees, common practice"}, Defers: "burner maker"}},
		{metric: mFiring, root: "firing", severity: Fix, limit: fromMetric(mClean, "clean firing in the air of the hour"), also: []*Metric{mClean},
			doc: fix(CodeDoc{Code: "clean-firing", Bad: Higher, Title: "more firing needed than burns clean at the site",
				Meaning: "The fan moves a volume of air; in thin or hot air the firing rate that is needed makes soot and carbon monoxide.", Defers: "burner maker; stack test"})},
		{metric: mOutlet, root: "duty", severity: Fix,
			limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
				q, ok := v.model.Quantity("duty.gun_temperature")
				return q, "wanted at the gun", "", ok
			},
			when: func(v *View, r Reading) bool { return r.State.v[AxisHeat] == heatSteady },
			doc: fix(CodeDoc{Code: "outlet-cold", Bad: Lower, Title: "water leaves the heater colder than wanted at the gun",
				Meaning: "The outlet temperature lies below the temperature wanted at the gun, before the hose loses anything.", Defers: ""})},
		{metric: mNozzlePressure, root: "duty", severity: Fix, limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
			q, ok := v.model.Quantity("duty.nozzle_pressure_low")
			return q, "wanted at the nozzle", "", ok
		},
			doc: fix(CodeDoc{Code: "nozzle-pressure-low", Bad: Lower, Title: "less pressure at the nozzle than wanted",
				Meaning: "In some state in use the nozzle has less pressure than the least wanted.", Defers: ""})},
		{metric: mNozzlePressure, root: "duty", severity: Fix, limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
			q, ok := v.model.Quantity("duty.nozzle_pressure_high")
			return q, "wanted at the nozzle", "", ok
		},
			when: func(v *View, r Reading) bool {
				return r.State.Reach() != Fault && int(r.State.v[AxisGuns]) == v.model.axes.count(AxisGuns)
			},
			doc: fix(CodeDoc{Code: "nozzle-pressure-high", Bad: Higher, Title: "more pressure at the nozzle than wanted with every gun open",
				Meaning: "With every gun open the nozzle has more pressure than the most wanted.", Defers: ""})},
		{metric: mPressureJump, root: "duty",
			when: func(v *View, r Reading) bool { return r.State.v[AxisHeat] != heatStuck },
			doc: CodeDoc{Code: "pressure-jump", Bad: Higher, Title: "pressure jumps when the partner lets go",
				Meaning: "With the other guns closed the nozzle pressure rises to what the unloader allows; the operator feels the reaction jump.",
				Limit:   Limit{Note: units.Ratio(0.10).Quantity(), Source: "a tenth, our own threshold for a note"}, Defers: "operator training"}},
		{metric: mTongueShare, root: "tongue",
			doc: CodeDoc{Code: "tongue-share-low", Bad: Lower, Title: "too little weight on the tongue",
				Meaning: "A trailer with a light tongue sways. Below the lower threshold it must not be towed.",
				Limit:   Limit{Fix: units.Ratio(0.10).Quantity(), Stop: units.Ratio(0.05).Quantity(), Source: "10 to 15 % of the loaded trailer, common practice"}, Defers: "trailer maker's plate; weigh before use"}},
		{metric: mTongueShare, root: "tongue",
			doc: CodeDoc{Code: "tongue-share-high", Bad: Higher, Title: "too much of the weight on the tongue",
				Meaning: "A heavy tongue unloads the tow vehicle's steering axle.",
				Limit:   Limit{Fix: units.Ratio(0.15).Quantity(), Source: "10 to 15 % of the loaded trailer, common practice"}, Defers: "trailer maker's plate; weigh before use"}},
		{metric: mTongue, root: "tongue", severity: Stop, limit: tongueRating,
			doc: stop(CodeDoc{Code: "tongue-over-rating", Bad: Higher, Title: "tongue heavier than coupler or hitch may carry",
				Meaning: "In some fill state the tongue is heavier than the lower of the ratings of coupler and hitch.", Defers: "plates of trailer and vehicle"})},
		{metric: mTotal, root: "weight", severity: Stop, limit: totalRating,
			doc: stop(CodeDoc{Code: "trailer-over-rating", Bad: Higher, Title: "trailer heavier than its rating",
				Meaning: "In some fill state the trailer is heavier than its gross rating, or than the vehicle may pull.", Defers: "plates of trailer and vehicle"})},
		{metric: mAxle, root: "weight", severity: Stop, limit: fromSpecPlain("trailer.axle_rating", "rating of one axle"),
			doc: stop(CodeDoc{Code: "axle-over-rating", Bad: Higher, Title: "axles heavier than their rating",
				Meaning: "In some fill state each axle carries more than its gross rating.", Defers: "plate of the trailer"})},
		{metric: mCombination, root: "weight", severity: Stop, limit: fromSpecPlain("tow_vehicle.combination_rating", "gross combination rating"),
			doc: stop(CodeDoc{Code: "combination-over-rating", Bad: Higher, Title: "vehicle and trailer heavier than their combination rating",
				Meaning: "In some fill state vehicle and trailer together pass the gross combination rating.", Defers: "plate of the vehicle"})},
		{metric: mMixed, root: "quality", severity: Fix,
			limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
				for i := range v.model.spec.Tanks {
					if t := &v.model.spec.Tanks[i]; t.ID == r.Part && t.Contents == "clean" {
						return never(units.KindVolume), "clean water stays apart", "", true
					}
				}
				return units.Quantity{}, "", "", false
			},
			doc: fix(CodeDoc{Code: "clean-water-mixed", Bad: Higher, Title: "other water reaches the clean tank through an open crossover",
				Meaning: "An open crossover joins the clean tank to one that holds recovered, treated or chemical water. Flush and disinfect before people breathe the mist.", Defers: "health authority; water purveyor"})},
	}
	out := []Check{}
	for _, c := range checks {
		out = append(out, c)
	}
	return append(out, guards{})
}

// startLimit is the start rating at the site; a source without one leaves a
// stop unguarded.
func startLimit(v *View, r Reading) (units.Quantity, string, Path, bool) {
	q, ok := v.value(mStartLimit, r.Part, r.State)
	if ok {
		return q, "start rating at the site", "", true
	}
	p := Path("sources[" + r.Part + "].starting")
	if _, given := v.model.Quantity(p); !given && r.Value.SI() > 0 {
		return q, "", p, false
	}
	return q, "", "", false
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

func tongueRating(v *View, r Reading) (units.Quantity, string, Path, bool) {
	var l least
	q, ok := v.model.Quantity("trailer.coupler_rating")
	l.take(q, ok, "trailer.coupler_rating", "rating of the coupler")
	if v.model.spec.TowVehicle != nil {
		q, ok = v.model.Quantity("tow_vehicle.hitch_rating")
		l.take(q, ok, "tow_vehicle.hitch_rating", "rating of the hitch")
	}
	return l.answer(r.Value)
}

func totalRating(v *View, r Reading) (units.Quantity, string, Path, bool) {
	var l least
	q, ok := v.model.Quantity("trailer.gross_rating")
	l.take(q, ok, "trailer.gross_rating", "gross rating of the trailer")
	if v.model.spec.TowVehicle != nil {
		q, ok = v.model.Quantity("tow_vehicle.trailer_rating")
		l.take(q, ok, "tow_vehicle.trailer_rating", "heaviest trailer of the vehicle")
	}
	return l.answer(r.Value)
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
}
