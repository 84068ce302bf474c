package rig

import (
	"math"

	"example.com/washrig/units"
)

// faultChecks judge the single faults. A rig is not wrong because a part can
// fail; it is wrong where the part behind it does not hold.
func faultChecks() []*limitCheck {
	always := func(*View, *Reading) bool { return true }
	return []*limitCheck{
		{metric: mFaultPressure, root: "fault", severity: Stop, when: always, rating: leastPressure,
			doc: plate(CodeDoc{Code: "fault-over-rating", Bad: Higher, Title: "one fault drives the pressure above the weakest rating",
				Meaning: "With an unloader or relief valve that no longer opens, a blocked tip or worn tips, the pump makes more pressure than the weakest part on its line side may bear: the relief valve with the whole flow through it lies too high.", Defers: "part makers"})},
		{metric: mFaultDeadHead, root: "fault", severity: Stop, when: always, rating: nothing(units.KindPressure, "no valve is left that limits the pressure"),
			name: withoutLimit,
			doc: plate(CodeDoc{Code: "fault-dead-head", Bad: Higher, Title: "one fault leaves nothing that limits the pressure",
				Meaning: "Unloader or relief valve fails shut and there is no other: the pump works against closed guns until something breaks.", Defers: "part makers"})},
		{metric: mFaultReaction, root: "reaction", of: ofLine, when: always,
			doc: CodeDoc{Code: "fault-reaction", Bad: Higher, Title: "in a fault the gun pushes harder than a hand should hold",
				Meaning: "When the unloader sticks or the partner's tip blocks, the reaction at the gun rises above what an operator holds without support of the body.",
				Limit:   Limit{Note: (150 * units.Newton).Quantity(), Source: "150 N without support of the body, general guidance, common practice"}, Defers: "employer's safety officer"}},
		{metric: mFaultDemand, root: "engine", severity: Note, when: always, against: mEngineHas, by: "plate derating at the site", also: []*Metric{mEngineHas},
			doc: CodeDoc{Code: "fault-overloads-engine", Bad: Higher, Title: "in a fault the engine is asked for more than it has",
				Meaning: "With the unloader shut the pump works against the relief valve; engine, generator and burner slow down before anybody sees why.", Defers: "engine maker"}},
		{metric: mFaultHot, root: "heat", severity: Fix, when: notThermostat, rating: knownTemperature,
			doc: CodeDoc{Code: "fault-over-temperature", Bad: Higher, Title: "one dead control lets the water pass the weakest temperature rating",
				Meaning: "With the high limit dead or the flow switch dead, the guard that is left acts too late for the weakest part.", Defers: "burner maker"}},
		{metric: mFaultPickUp, root: "pick-up", severity: Note, when: always, limit: mostRecovered, also: []*Metric{mRecovered},
			doc: CodeDoc{Code: "motor-out-puddles", Bad: Lower, Title: "with one vacuum motor out the water is not picked up",
				Meaning: "When one of the vacuum motors fails, the others do not carry the water of the guns of a mode: close a gun.", Defers: "whoever plans the day"}},
	}
}

// notThermostat leaves out the thermostat that sticks; see high-limit-late and
// stuck-burner.
func notThermostat(v *View, r *Reading) bool { return r.State.On(AxisFault) != faultThermostat }

// mostRecovered is the most water that comes back in a mode while as many vacuum
// motors run as the fault leaves one of.
func mostRecovered(v *View, r Reading) (units.Quantity, string, Path, bool) {
	var most units.Quantity
	for _, p := range v.rows(mRecovered) {
		if p.part() != r.Part {
			continue
		}
		for k, value := range p.values() {
			if math.IsNaN(value) || most.Given() && value <= most.SI() || !r.State.agrees(p.n.states[k]) {
				continue
			}
			if x, ok := p.reading(k); ok && whilePickingUp(v, &x) {
				most = x.Value
			}
		}
	}
	return most, "water that comes back in a mode", "", most.Given()
}
