package rig

import "example.com/washrig/units"

// burnerChecks judge the water at the guns, the burner's cycles and guards, heat
// soak, stack, soot and scale, thermal relief and frost.
func burnerChecks() []*limitCheck {
	return append(append(gunChecks(), coilChecks()...), frostChecks()...)
}

// inFault selects the states in which the burner is stuck on.
func inFault(v *View, r *Reading) bool { return r.State.v[AxisHeat] == heatStuck }

func gunChecks() []*limitCheck {
	wanted := fromDuty("duty.gun_temperature", "wanted at the gun")
	return []*limitCheck{
		{metric: mGunTemperature, root: "gun heat", of: ofLine, severity: Fix, rating: wanted,
			doc: CodeDoc{Code: "gun-cold", Bad: Lower, Title: "colder at the gun than wanted",
				Meaning: "Behind the hose the water is colder than wanted, in still air or the wind of the hour.", Defers: "whoever orders the rig"}},
		{metric: mGunWindy, root: "gun heat", of: ofLine, severity: Note, rating: wanted,
			doc: CodeDoc{Code: "gun-cold-in-wind", Bad: Lower, Title: "colder at the gun than wanted when wind blows",
				Meaning: "In a wind of 10 mph (4.5 m/s) across the hose the water is colder at the gun than wanted.", Defers: "whoever orders the rig"}},
		{metric: mFlash, root: "boiling", of: ofLine, severity: Fix, rating: nothing(units.KindRatio, "water at the nozzle stays liquid"), soften: steamIsMeant,
			doc: CodeDoc{Code: "flash-at-nozzle", Bad: Higher, Title: "part of the water turns to steam at the nozzle",
				Meaning: "The water at the gun is hotter than it boils at the site. Steam scalds, and swivels, guns and injectors for water are not made for it.", Defers: "burner and gun makers"}},
		{metric: mPickable, root: "share", of: ofLine, severity: Note, rating: fromDuty("duty.recovered_share", "share that is to be picked up"), also: []*Metric{mEvaporatedMost},
			doc: CodeDoc{Code: "recovered-share-high", Bad: Lower, Title: "more is to be picked up than is left as water",
				Meaning: "What turns to steam at the nozzle cannot be picked up.", Defers: "whoever orders the rig"}},
	}
}

// steamIsMeant makes a note of what is deliberate.
func steamIsMeant(v *View, r Reading, s Severity) Severity {
	if v.model.spec.Duty.Steam == "yes" {
		return min(s, Note)
	}
	return s
}

// knownTemperature is the least temperature rating known; one that is missing is
// asked for elsewhere.
func knownTemperature(v *View, part string) least {
	l := temperatureRatings(v.model.spec, part)
	return l.known(v)
}

// shutInPressure is the least pressure rating of coil and hoses. The pump lies
// before the check valve.
func shutInPressure(v *View, part string) least {
	var l least
	for i := range v.model.spec.Heaters {
		if h := &v.model.spec.Heaters[i]; h.ID == part {
			l.shutIn(v.model.spec, h.Pump)
		}
	}
	return l.known(v)
}

// unloaderOfCoil is the setting of the unloader of a heater's pump.
func unloaderOfCoil(v *View, part string) least {
	var l least
	s := v.model.spec
	for i := range s.Heaters {
		for k := range s.Pumps {
			if p := &s.Pumps[k]; s.Heaters[i].ID == part && p.ID == s.Heaters[i].Pump && p.Unloader.Setting != 0 {
				l.take(p.Unloader.Setting.Quantity(), true, words{"pumps[", p.ID, "].unloader.setting"}, words{"setting of the unloader of pump ", p.ID})
			}
		}
	}
	return l.known(v)
}

func coilChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mFlowGuards, root: "heat", severity: Stop, limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
			for i := range v.model.spec.Heaters {
				h := &v.model.spec.Heaters[i]
				if h.ID != r.Part || h.FlowSwitch == "yes" || h.PressureSwitch == "yes" {
					continue
				}
				if h.FlowSwitch == "" {
					return units.Quantity{}, "", Path("heaters[" + h.ID + "].flow_switch"), false
				}
				if h.PressureSwitch == "" {
					return units.Quantity{}, "", Path("heaters[" + h.ID + "].pressure_switch"), false
				}
			}
			return units.Ratio(1).Quantity(), "a burner fires only with flow, common practice", "", true
		},
			doc: plate(CodeDoc{Code: "fires-without-flow", Bad: Lower, Title: "nothing stops the burner when no water flows",
				Meaning: "With the triggers released and the burner on, the water in the coil boils within a minute and the coil bursts or burns through. A flow or pressure switch is the guard.", Defers: "burner maker; the boiler and pressure rules of the place"})},
		{metric: mReleasePeak, root: "heat", severity: Stop, rating: knownTemperature,
			doc: plate(CodeDoc{Code: "release-over-rating", Bad: Higher, Title: "the water gets hotter than a rating after the trigger is released",
				Meaning: "The metal of the coil and the last of the fire warm the standing water above what the weakest part may bear.", Defers: "burner and hose makers"})},
		{metric: mCoilRelief, root: "pressure", of: ofHeater, severity: Stop, rating: shutInPressure,
			doc: plate(CodeDoc{Code: "coil-relief-over-rating", Bad: Higher, Title: "relief valve of the coil set above the weakest rating",
				Meaning: "The valve that lets shut-in water out opens above what coil or hoses may bear.", Defers: "burner maker; the boiler and pressure rules of the place"})},
		{metric: mCoilRelief, root: "pressure", of: ofHeater, severity: Stop, rating: unloaderOfCoil,
			doc: plate(CodeDoc{Code: "coil-relief-low", Bad: Lower, Title: "relief valve of the coil opens in ordinary use",
				Meaning: "The valve is set below what the unloader lets the pump make: it passes hot water whenever the guns close, and nothing is left behind it.", Defers: "burner maker"})},
		{metric: mSoakPressure, root: "heat", severity: Stop, rating: shutInPressure,
			doc: plate(CodeDoc{Code: "soak-over-rating", Bad: Higher, Title: "shut-in water passes a pressure rating as the coil's heat soaks in",
				Meaning: "Between the check valve and the closed guns the warming water expands against the trapped pressure. A relief valve on that part is the guard.", Defers: "burner and hose makers; certified relief device"})},
		{metric: mFaultHighest, root: "heat", severity: Fix, rating: knownTemperature, when: inFault,
			doc: CodeDoc{Code: "high-limit-late", Bad: Higher, Title: "the high limit acts too late for the weakest rating if the thermostat sticks",
				Meaning: "What its delay and the heat of the metal add carries the water past the rating although the high limit is set at or below it. Set it lower.", Defers: "burner maker"}},
		{metric: mCycleTime, root: "firing",
			doc: CodeDoc{Code: "short-cycles", Bad: Lower, Title: "the burner starts very often",
				Meaning: "With few guns open the burner fires in short bursts, which wears igniter and valve and soots the coil.",
				Limit:   Limit{Note: (30 * units.Second).Quantity(), Source: "two starts a minute, our own threshold for a note"}, Defers: "burner maker"}},
		{metric: mFiring, root: "firing", severity: Fix, against: mNozzleFiring, by: "what the oil nozzle passes at the oil pressure", also: []*Metric{mNozzleFiring},
			doc: CodeDoc{Code: "oil-nozzle-small", Bad: Higher, Title: "the oil nozzle passes less than is needed",
				Meaning: "Nozzle and oil pressure together cannot hold the thermostat's setting at this flow.", Defers: "burner maker"}},
		{metric: mNozzleFiring, root: "firing", severity: Fix, against: mClean, by: "clean firing in the air of the hour", also: []*Metric{mClean},
			doc: CodeDoc{Code: "oil-nozzle-large", Bad: Higher, Title: "the oil nozzle passes more than burns clean at the site",
				Meaning: "The nozzle fires its whole rate whenever the burner is on, whatever is needed; above the clean rate it makes soot and carbon monoxide.", Defers: "burner maker; stack test"}},
		{metric: mStackEfficiency, root: "firing", severity: Fix, rating: fromSpec("heaters", "efficiency", "efficiency the heater is computed with", false),
			doc: CodeDoc{Code: "efficiency-low", Bad: Lower, Title: "the stack shows less than the efficiency counted on",
				Meaning: "The losses measured in the stack alone leave less than the efficiency on the plate; every heating number is too good. Sweep the coil and set the air.", Defers: "burner technician"}},
		{metric: mFoulingLoss, root: "firing",
			doc: CodeDoc{Code: "coil-fouled", Bad: Higher, Title: "soot and scale cost heat",
				Meaning: "The layers on the coil keep part of the heat in the flue gas.",
				Limit:   Limit{Note: units.Ratio(0.02).Quantity(), Fix: units.Ratio(0.05).Quantity(), Source: "a fiftieth and a twentieth of the heat, our own thresholds"}, Defers: "burner technician"}},
		{metric: mScaleTime, root: "firing",
			doc: CodeDoc{Code: "coil-scales", Bad: Lower, Title: "the coil scales up soon in this water",
				Meaning: "Hard water heated this far leaves scale that costs 100 psi within the time shown; the figure is good to a factor of two. Soften the water or descale in time.",
				Limit:   Limit{Note: (500 * units.Hour).Quantity(), Source: "a season of use, common practice"}, Defers: "burner maker"}},
		{metric: mThermalReliefSetting, root: "bypass", severity: Fix, rating: fromSpec("pumps", "maximum_inlet_temperature", "hottest water the pump may draw", false),
			doc: CodeDoc{Code: "thermal-relief-high", Bad: Higher, Title: "the thermal relief opens above the pump's inlet limit",
				Meaning: "The bypassed water gets hotter than the pump may draw before the valve opens.", Defers: "pump maker"}},
		{metric: mThermalReliefNeeded, root: "bypass", severity: Fix, rating: fromSpec("pumps", "thermal_relief.flow", "what the thermal relief passes", false),
			doc: CodeDoc{Code: "thermal-relief-small", Bad: Higher, Title: "the thermal relief passes too little to hold its setting",
				Meaning: "With every gun closed the heat of the bypass needs more fresh water than the valve lets in.", Defers: "pump maker"}},
	}
}

// thermalReliefHolds says that a thermal relief keeps the bypass below the pump's
// inlet limit for good.
func thermalReliefHolds(v *View, r Reading, s Severity) Severity {
	for i := range v.model.spec.Pumps {
		p := &v.model.spec.Pumps[i]
		if p.ID != r.Part || !p.ThermalRelief.Setting.Given() || p.ThermalRelief.Flow == 0 || !p.MaximumInletTemperature.Given() {
			continue
		}
		need, ok := v.value(mThermalReliefNeeded, p.ID, r.State)
		if ok && p.ThermalRelief.Setting.Kelvin() <= p.MaximumInletTemperature.Kelvin() && need.SI() <= float64(p.ThermalRelief.Flow) {
			return min(s, Note)
		}
	}
	return s
}

// unprotected selects parts that no antifreeze protects.
func unprotected(v *View, r *Reading) bool {
	q, ok := v.value(mProtects, "", r.State)
	if !ok {
		return true
	}
	return q.SI() > v.model.spec.Winter.Coldest.Kelvin()
}

func frostChecks() []*limitCheck {
	night := func(m *Metric, code Code, what string) *limitCheck {
		return &limitCheck{metric: m, root: "frost", of: ofRig, when: unprotected, doc: CodeDoc{Code: code, Bad: Lower, Title: what + " freezes overnight",
			Meaning: "Full of water, in the coldest air, ice forms in less than a night. Drain it, keep it warm or fill it with antifreeze.",
			Limit:   Limit{Fix: (12 * units.Hour).Quantity(), Source: "one night, common practice"}, Defers: "part makers"}}
	}
	drive := func(m *Metric, code Code, what string) *limitCheck {
		return &limitCheck{metric: m, root: "frost", of: ofRig, when: unprotected, doc: CodeDoc{Code: code, Bad: Lower, Title: what + " freezes on the road",
			Meaning: "Full of water, in the coldest air and the wind of the road, ice forms in less than a drive. Road wind does not make it colder, it takes the heat sooner.",
			Limit:   Limit{Fix: (2 * units.Hour).Quantity(), Source: "a long drive, common practice"}, Defers: "part makers"}}
	}
	return []*limitCheck{
		night(mCoilFreezes, "coil-freezes", "the coil"), night(mHoseFreezes, "hose-freezes", "the hose"), night(mHeadFreezes, "pump-freezes", "the pump head"),
		drive(mCoilFreezesRoad, "coil-freezes-on-road", "the coil"), drive(mHoseFreezesRoad, "hose-freezes-on-road", "the hose"), drive(mHeadFreezesRoad, "pump-freezes-on-road", "the pump head"),
		{metric: mProtects, root: "frost", severity: Fix, limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
			t := v.model.spec.Winter.Coldest
			if !t.Given() || t.Kelvin() >= 273.15 {
				return units.Quantity{}, "", "", false
			}
			return t.Add(-protectMargin).Quantity(), "coldest air less 10 °F, common practice", "", true
		},
			doc: CodeDoc{Code: "antifreeze-weak", Bad: Higher, Title: "the antifreeze is too thin where it is weakest",
				Meaning: "Mixed with the water that blowing down leaves, the last part does not protect to 10 °F (5.6 °C) below the coldest air.", Defers: "antifreeze maker"}},
		{metric: mPoison, root: "poison", severity: Stop, limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
			if v.model.spec.Winter.Antifreeze == "" {
				return units.Quantity{}, "", "winter.antifreeze", false
			}
			return never(units.KindVolume), "what is breathed as mist must not be poisonous", "", true
		},
			doc: CodeDoc{Code: "antifreeze-poison", Bad: Higher, Title: "poisonous antifreeze in water that becomes mist",
				Meaning: "Ethylene glycol is poisonous; what is left in the line is sprayed, breathed and runs off. Use propylene glycol and catch what comes out.", Defers: "health and discharge authority"}},
	}
}
