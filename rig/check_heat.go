package rig

import "example.com/washrig/units"

// heatChecks judge burner, settings and boiling.
func heatChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mThermostat, root: "heat", severity: Stop, rating: leastTemperature,
			doc: plate(CodeDoc{Code: "thermostat-over-rating", Bad: Higher, Title: "thermostat set above the weakest temperature rating",
				Meaning: "The thermostat lets the water get hotter than the weakest part behind the heater may bear.", Defers: "burner and hose makers"})},
		{metric: mHighLimit, root: "heat", severity: Stop, rating: leastTemperature,
			doc: plate(CodeDoc{Code: "high-limit-over-rating", Bad: Higher, Title: "high limit set above the weakest temperature rating",
				Meaning: "The high limit lets the water get hotter than the weakest part behind the heater may bear.", Defers: "burner and hose makers"})},
		{metric: mThermostat, root: "heat", severity: Fix, rating: fromSpec("heaters", "high_limit", "setting of the high limit", true), also: []*Metric{mHighLimit},
			doc: CodeDoc{Code: "thermostat-over-high-limit", Bad: Higher, Title: "thermostat not below the high limit",
				Meaning: "The thermostat is set above the high limit, or no high limit is given.", Defers: "burner maker"}},
		{metric: mOutlet, root: "heat", severity: Stop, rating: leastTemperature,
			when: func(v *View, r *Reading) bool { return r.State.v[AxisHeat] == heatStuck },
			soften: func(v *View, r Reading, s Severity) Severity {
				l := temperatureRatings(v.model.spec, r.Part)
				high, ok := v.value(mHighLimit, r.Part, r.State)
				if s == Stop && ok && l.q.Given() && high.SI() <= l.q.SI() {
					return Note // the high limit is the guard
				}
				return s
			},
			doc: plate(CodeDoc{Code: "stuck-burner", Bad: Higher, Title: "outlet above the weakest rating if the limiter fails",
				Meaning: "With the burner on all the time the flow of the open guns leaves the heater hotter than the weakest part may bear. A high limit below that rating is the guard.", Defers: "burner maker"})},
		{metric: mThermostat, root: "boiling", of: ofHeater, severity: Fix, limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
			q, ok := v.value(mBoiling, "", r.State)
			return q, "boiling point at the site", "", ok
		}, also: []*Metric{mBoiling},
			doc: CodeDoc{Code: "thermostat-boiling", Bad: Higher, Title: "thermostat above the boiling point at the site",
				Meaning: "Water at the thermostat's setting turns to steam at an open nozzle.", Defers: "burner maker"}},
		{metric: mBoilingMargin, root: "boiling", of: ofHeater,
			doc: CodeDoc{Code: "boiling-margin", Bad: Lower, Title: "the heater can reach the boiling point at the site",
				Meaning: "At the heater's highest temperature the water is close to boiling at an open nozzle.",
				Limit:   Limit{Note: (5 * units.FahrenheitDelta).Quantity(), Source: "a few degrees, common practice"}, Defers: "burner maker"}},
		{metric: mFiring, root: "firing", severity: Fix, against: mClean, by: "clean firing in the air of the hour", also: []*Metric{mClean},
			doc: CodeDoc{Code: "clean-firing", Bad: Higher, Title: "more firing needed than burns clean at the site",
				Meaning: "The fan moves a volume of air; in thin or hot air the firing rate that is needed makes soot and carbon monoxide.", Defers: "burner maker; stack test"}},
		{metric: mOutlet, root: "gun heat", of: ofHeater, severity: Fix,
			rating: fromDuty("duty.gun_temperature", "wanted at the gun"),
			when:   func(v *View, r *Reading) bool { return r.State.v[AxisHeat] == heatSteady },
			doc: CodeDoc{Code: "outlet-cold", Bad: Lower, Title: "water leaves the heater colder than wanted at the gun",
				Meaning: "The outlet temperature lies below the temperature wanted at the gun, before the hose loses anything.", Defers: "whoever orders the rig"}},
	}
}

// temperatureRatings collects the temperature ratings behind a heater.
func temperatureRatings(s *Spec, heater string) least {
	var l least
	pump := ""
	for i := range s.Heaters {
		if h := &s.Heaters[i]; h.ID == heater {
			pump = h.Pump
			l.take(h.MaximumTemperature.Quantity(), h.MaximumTemperature.Given(), words{"heaters[", h.ID, "].maximum_temperature"}, words{"rating of ", heaterWord(h.ID), h.ID})
		}
	}
	for i := range s.Lines {
		if n := &s.Lines[i]; n.Pump == pump {
			l.take(n.Hose.MaximumTemperature.Quantity(), n.Hose.MaximumTemperature.Given(), words{"lines[", n.ID, "].hose.maximum_temperature"}, words{"rating of the hose of line ", n.ID})
			l.elements(n.Elements, " in line ", n.ID, temperatureOf)
		}
	}
	for i := range s.Trunks {
		if n := &s.Trunks[i]; n.Pump == pump {
			l.take(n.Hose.MaximumTemperature.Quantity(), n.Hose.MaximumTemperature.Given(), words{"trunks[", n.ID, "].hose.maximum_temperature"}, words{"rating of trunk ", n.ID})
			l.elements(n.Elements, " in trunk ", n.ID, temperatureOf)
		}
	}
	return l
}

func leastTemperature(v *View, part string) least {
	l := temperatureRatings(v.model.spec, part)
	return l.done(v)
}

// heaterWord stands before the id of a heater; one that is called heater is said
// once.
func heaterWord(id string) string {
	if id == "heater" {
		return "the "
	}
	return "heater "
}
