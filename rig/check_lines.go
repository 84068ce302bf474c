package rig

import "example.com/washrig/units"

// lineChecks judge pressures and flows, unloaders, relief valves and bypass.
func lineChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mPumpPressure, root: "pressure", severity: Stop, rating: leastPressure,
			doc: plate(CodeDoc{Code: "pressure-over-rating", Bad: Higher, Title: "pressure above the weakest rating",
				Meaning: "In some state the pump makes more pressure than the weakest part on its line side may bear.", Defers: "part makers"})},
		{metric: mDeadHead, root: "pressure", severity: Stop,
			rating: nothing(units.KindPressure, "no unloader and no relief valve"),
			name:   withoutLimit,
			doc: plate(CodeDoc{Code: "dead-head", Bad: Higher, Title: "nothing limits the pressure when the guns close",
				Meaning: "A positive-displacement pump works against closed guns without unloader or relief valve; the number is the first rating passed.", Defers: "part makers"})},
		{metric: mReliefFlow, root: "pressure", severity: Stop,
			rating: nothing(units.KindVolumeFlow, "a relief valve is the last resort and closed in use"),
			doc: plate(CodeDoc{Code: "relief-in-use", Bad: Higher, Title: "the relief valve opens in ordinary use",
				Meaning: "The relief valve passes water in a state that is no fault, so that nothing is left behind it.", Defers: "part makers"})},
		{metric: mReliefSetting, root: "pressure", severity: Stop, rating: leastPressure,
			doc: plate(CodeDoc{Code: "relief-over-rating", Bad: Higher, Title: "relief valve set above the weakest rating",
				Meaning: "The valve of last resort opens above what the weakest part on the line side may bear.", Defers: "part makers"})},
		{metric: mUnloaderSetting, root: "pressure", severity: Stop, rating: fromSpec("pumps", "relief.setting", "setting of the relief valve", true), also: []*Metric{mReliefSetting},
			doc: plate(CodeDoc{Code: "unloader-over-relief", Bad: Higher, Title: "unloader not below the relief valve",
				Meaning: "The unloader is set at or above the relief valve, or no relief valve is given.", Defers: "part makers"})},
		{metric: mBypassTime, root: "bypass", soften: thermalReliefHolds,
			doc: CodeDoc{Code: "bypass-heating", Bad: Lower, Title: "the bypass reaches the pump's inlet limit too soon",
				Meaning: "With every gun closed the unloader returns the whole flow at full pressure, and its heat stays in the water that goes round.",
				Limit:   Limit{Stop: (5 * units.Minute).Quantity(), Source: "a few minutes in bypass, common practice"}, Defers: "pump maker"}},
		{metric: mBypassWarm, root: "bypass", soften: thermalReliefHolds, when: coldBypassHolds,
			doc: CodeDoc{Code: "bypass-heating-warm", Bad: Lower, Title: "the bypass reaches the pump's inlet limit too soon when the pump draws warm water",
				Meaning: "Once warm recovered water comes to the pump, less is left to its inlet limit than with water from the supply.",
				Limit:   Limit{Stop: (5 * units.Minute).Quantity(), Source: "a few minutes in bypass, common practice"}, Defers: "pump maker"}},
		{metric: mNozzlePressure, root: "nozzle", of: ofLine, severity: Fix, rating: fromDuty("duty.nozzle_pressure_low", "wanted at the nozzle"),
			doc: CodeDoc{Code: "nozzle-pressure-low", Bad: Lower, Title: "less pressure at the nozzle than wanted",
				Meaning: "In some state in use the nozzle has less pressure than the least wanted.", Defers: "whoever orders the rig"}},
		{metric: mNozzlePressure, root: "nozzle", of: ofLine, severity: Fix, rating: fromDuty("duty.nozzle_pressure_high", "wanted at the nozzle"),
			when: func(v *View, r *Reading) bool {
				return r.State.Reach() != Fault && int(r.State.v[AxisGuns]) == v.model.axes.count(AxisGuns)
			},
			doc: CodeDoc{Code: "nozzle-pressure-high", Bad: Higher, Title: "more pressure at the nozzle than wanted with every gun open",
				Meaning: "With every gun open the nozzle has more pressure than the most wanted.", Defers: "whoever orders the rig"}},
		{metric: mPressureJump, root: "jump", of: ofLine,
			when: func(v *View, r *Reading) bool { return r.State.v[AxisHeat] != heatStuck },
			doc: CodeDoc{Code: "pressure-jump", Bad: Higher, Title: "pressure jumps when the partner lets go",
				Meaning: "With the other guns closed the nozzle pressure rises to what the unloader allows; the operator feels the reaction jump.",
				Limit:   Limit{Note: units.Ratio(0.10).Quantity(), Source: "a tenth, our own threshold for a note"}, Defers: "operator training"}},
	}
}

// coldBypassHolds reports that the bypass is not stopped with water from the supply
// already, by the limits in force.
func coldBypassHolds(v *View, r *Reading) bool {
	k := v.rules.code["bypass-heating"]
	if r.State.Reach() == Fault || k == nil {
		return r.State.Reach() != Fault
	}
	cold, ok := v.value(mBypassTime, r.Part, r.State)
	if !ok {
		return true
	}
	s, _, _ := k.doc.Limit.weigh(cold.SI(), Lower)
	return s != Stop
}

// pressureRatings collects the pressure ratings of a pump and what it feeds.
func pressureRatings(s *Spec, pump string) least {
	var l least
	for i := range s.Pumps {
		if p := &s.Pumps[i]; p.ID == pump {
			l.take(p.MaximumPressure.Quantity(), p.MaximumPressure != 0, words{"pumps[", p.ID, "].maximum_pressure"}, words{"rating of pump ", p.ID})
		}
	}
	l.shutIn(s, pump)
	return l
}

// shutIn takes the pressure ratings of the part between the check valve behind the
// unloader and the guns: coil and hoses.
func (l *least) shutIn(s *Spec, pump string) {
	for i := range s.Heaters {
		if h := &s.Heaters[i]; h.Pump == pump {
			l.take(h.MaximumPressure.Quantity(), h.MaximumPressure != 0, words{"heaters[", h.ID, "].maximum_pressure"}, words{"rating of ", heaterWord(h.ID), h.ID})
		}
	}
	for i := range s.Lines {
		if n := &s.Lines[i]; n.Pump == pump {
			l.take(n.Hose.MaximumPressure.Quantity(), n.Hose.MaximumPressure != 0, words{"lines[", n.ID, "].hose.maximum_pressure"}, words{"rating of the hose of line ", n.ID})
			l.elements(n.Elements, " in line ", n.ID, pressureOf)
		}
	}
	for i := range s.Trunks {
		if n := &s.Trunks[i]; n.Pump == pump {
			l.take(n.Hose.MaximumPressure.Quantity(), n.Hose.MaximumPressure != 0, words{"trunks[", n.ID, "].hose.maximum_pressure"}, words{"rating of trunk ", n.ID})
			l.elements(n.Elements, " in trunk ", n.ID, pressureOf)
		}
	}
}

// elements takes the ratings of the elements of a line. An element without one
// is not asked for it: most fittings are rated far above their line.
func (l *least) elements(list []Element, where, id string, of func(*Element) (units.Quantity, bool)) {
	for i := range list {
		if q, ok := of(&list[i]); ok {
			l.take(q, true, words{}, words{"rating of ", list[i].ID, where, id})
		}
	}
}

func pressureOf(e *Element) (units.Quantity, bool) {
	return e.MaximumPressure.Quantity(), e.MaximumPressure != 0
}

func temperatureOf(e *Element) (units.Quantity, bool) {
	return e.MaximumTemperature.Quantity(), e.MaximumTemperature.Given()
}

func leastPressure(v *View, part string) least {
	l := pressureRatings(v.model.spec, part)
	return l.done(v)
}

// withoutLimit takes the limit out of a finding that holds a number against none: it is
// the state that must not be.
func withoutLimit(_ *View, f *Finding) { f.Limit = units.Quantity{} }
