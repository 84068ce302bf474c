package rig

import "example.com/washrig/units"

// suctionChecks judge suction, vents, dumping, filling and joined tanks.
func suctionChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mSuctionHead, root: "suction", severity: Stop, rating: fromSpec("pumps", "required_head", "head the pump needs", true), also: []*Metric{mSuctionMargin},
			doc: plate(CodeDoc{Code: "suction-head", Bad: Lower, Title: "less suction head than the pump needs",
				Meaning: "Air at the site, level, hose, strainer, warm water and the pump's own pulses leave less pressure at the inlet than the pump needs: it cavitates, loses flow and pits its head.", Defers: "pump maker"})},
		{metric: mSuctionMargin, root: "suction",
			doc: CodeDoc{Code: "suction-reserve", Bad: Lower, Title: "little suction head in reserve",
				Meaning: "The pump has the head it needs and not much more: a dirtier strainer, a longer hose or a warmer tank takes it.",
				Limit:   Limit{Note: (3 * units.Foot).Quantity(), Source: "3 ft (0.9 m) in reserve, common practice"}, Defers: "pump maker"}},
		{metric: mSuctionSpeed, root: "suction",
			doc: CodeDoc{Code: "suction-fast", Bad: Higher, Title: "water in the suction hose faster than the trade asks for",
				Meaning: "Loss and pulses grow with the speed: take the next larger hose.",
				Limit:   Limit{Note: (2 * units.FootPerSecond).Quantity(), Source: "1 to 2 ft/s (0.3 to 0.6 m/s), common practice"}, Defers: "pump maker"}},
		{metric: mDrawnWarm, root: "low side", severity: Stop, rating: lowSideTemperature,
			doc: plate(CodeDoc{Code: "low-side-hot", Bad: Higher, Title: "hotter water drawn than the low-pressure side may bear",
				Meaning: "Recovered or bypassed water softens suction hose and strainer or passes the pump's inlet limit.", Defers: "part makers"})},
		{metric: mMesh, root: "strainer",
			doc: CodeDoc{Code: "strainer-coarse", Bad: Higher, Title: "strainer too coarse for the smallest nozzle",
				Meaning: "What passes the mesh is larger than half of the smallest nozzle: two grains side by side block it.",
				Limit:   Limit{Fix: units.Ratio(0.5).Quantity(), Source: "half of the smallest passage, common practice"}, Defers: "pump maker"}},
		{metric: mServiceLoss, root: "strainer", severity: Fix, rating: nothing(units.KindVolume, "a full-port valve on the tank's side, common practice"),
			doc: CodeDoc{Code: "strainer-service", Bad: Higher, Title: "the strainer cannot be cleaned with the tank full",
				Meaning: "Without a valve on its tank side the tank runs out when the strainer is opened, so it stays dirty.", Defers: "pump maker"}},
		{metric: mTankVacuum, root: "vent", severity: Stop, rating: fromSpec("tanks", "maximum_vacuum", "vacuum the tank may bear", true),
			doc: plate(CodeDoc{Code: "tank-vacuum", Bad: Higher, Title: "the vent lets a vacuum grow that the tank may not bear",
				Meaning: "While the tank is dumped or drawn the vent passes air only against a vacuum. A plastic tank collapses under little.", Defers: "tank maker"})},
		{metric: mGapNeeded, root: "backflow", severity: Stop, rating: airGap,
			soften: func(v *View, r Reading, s Severity) Severity {
				for i := range v.model.spec.Supplies {
					if w := &v.model.spec.Supplies[i]; w.ID == r.Part && w.Device != "" && w.Device != "none" && s == Stop {
						return Note // a device stands in for the gap if the purveyor accepts it
					}
				}
				return s
			},
			doc: plate(CodeDoc{Code: "air-gap", Bad: Higher, Title: "air gap over the tank too short",
				Meaning: "When the main loses pressure, tank water is drawn back into it through a fill pipe that ends too near the water. A note where a backflow device stands in for the gap.", Defers: "water purveyor; licensed plumber"})},
		{metric: mFillGain, root: "supply", severity: Note, rating: nothing(units.KindVolumeFlow, "the supply keeps up with the guns"),
			doc: CodeDoc{Code: "supply-loses-ground", Bad: Lower, Title: "the tank loses ground while the guns wash",
				Meaning: "The supply brings less than the guns take over the day's trigger time; washing ends when the tank is empty.", Defers: "water purveyor"}},
		{metric: mFeedInlet, root: "supply", severity: Fix, rating: ofFedPump(func(p *Pump) (units.Quantity, string, bool) {
			if p.MinimumInletPressure != 0 {
				return p.MinimumInletPressure.Quantity(), "least inlet pressure of pump " + p.ID, true
			}
			return never(units.KindPressure), "a pump must not draw on a main", true
		}),
			doc: plate(CodeDoc{Code: "feed-short", Bad: Lower, Title: "the main does not feed the pump",
				Meaning: "At the pump's flow main, hose and device leave less pressure at its inlet than it asks for: it cavitates and draws on the main, and dirt with it. Fill a tank instead.", Defers: "water purveyor; pump maker"})},
		{metric: mFeedStatic, root: "supply", severity: Stop, rating: ofFedPump(func(p *Pump) (units.Quantity, string, bool) {
			return p.MaximumInletPressure.Quantity(), "highest inlet pressure of pump " + p.ID, p.MaximumInletPressure != 0
		}),
			doc: plate(CodeDoc{Code: "feed-over-pressure", Bad: Higher, Title: "the main's pressure is more than the pump's inlet bears",
				Meaning: "With nothing flowing the full pressure of the main stands at the pump's inlet, its seals and the low-pressure side. A regulator or a tank stands between.", Defers: "pump maker"})},
		{metric: mUnfilled, root: "crossover", severity: Fix, rating: smallShare, when: crossoverOpens,
			doc: CodeDoc{Code: "crossover-spills", Bad: Higher, Title: "the filled tank overflows before the joined one is full",
				Meaning: "The crossover is too narrow for the supply: water is lost over one lid while the other tank has room.", Defers: "discharge authority"}},
		{metric: mStranded, root: "crossover", severity: Note, rating: smallShare, when: crossoverOpens,
			doc: CodeDoc{Code: "crossover-strands", Bad: Higher, Title: "the pump draws air while the joined tank has water",
				Meaning: "The crossover is too narrow for the pump: water stays behind in the far tank until the pump waits for it.", Defers: "whoever plans the day"}},
	}
}

// lowSideTemperature is the lowest temperature rating between tank and pump.
func lowSideTemperature(v *View, part string) least {
	var l least
	for i := range v.model.spec.Pumps {
		if p := &v.model.spec.Pumps[i]; p.ID == part {
			l.take(p.MaximumInletTemperature.Quantity(), p.MaximumInletTemperature.Given(), words{"pumps[", p.ID, "].maximum_inlet_temperature"}, words{"hottest water pump ", p.ID, " may draw"})
			l.take(p.Suction.MaximumTemperature.Quantity(), p.Suction.MaximumTemperature.Given(), words{"pumps[", p.ID, "].suction.maximum_temperature"}, words{"rating of the suction hose of pump ", p.ID})
		}
	}
	return l.done(v)
}

// airGap is the gap that is there; a supply with neither gap nor device leaves a
// stop unguarded.
func airGap(v *View, part string) least {
	for i := range v.model.spec.Supplies {
		w := &v.model.spec.Supplies[i]
		if w.ID != part {
			continue
		}
		switch {
		case w.AirGap != 0:
			return least{q: w.AirGap.Quantity(), source: "air gap as given"}
		case w.Device == "" || w.Device == "none":
			return least{missing: Path(v.say("supplies[", w.ID, "].air_gap"))}
		}
	}
	return least{}
}

// ofFedPump makes a limit of the plate of the pump that a supply feeds.
func ofFedPump(limit func(*Pump) (units.Quantity, string, bool)) func(*View, string) least {
	return func(v *View, part string) least {
		s := v.model.spec
		for i := range s.Supplies {
			for k := range s.Pumps {
				if s.Supplies[i].ID == part && s.Pumps[k].ID == s.Supplies[i].Pump {
					if q, source, ok := limit(&s.Pumps[k]); ok {
						return least{q: q, source: source}
					}
				}
			}
		}
		return least{}
	}
}

// smallShare is a twentieth of the smaller of two joined tanks.
func smallShare(v *View, part string) least {
	s := v.model.spec
	small := units.Volume(0)
	for i := range s.Crossovers {
		for k := range s.Tanks {
			if t := &s.Tanks[k]; s.Crossovers[i].ID == part && (t.ID == s.Crossovers[i].From || t.ID == s.Crossovers[i].To) && (small == 0 || t.Nominal < small) {
				small = t.Nominal
			}
		}
	}
	if small == 0 {
		return least{}
	}
	return least{q: (small / 20).Quantity(), source: "a twentieth of the smaller tank, our own threshold"}
}

// crossoverOpens selects crossovers that stand open or that a mode opens.
func crossoverOpens(v *View, r *Reading) bool {
	s := v.model.spec
	for i := range s.Crossovers {
		if c := &s.Crossovers[i]; c.ID == r.Part && c.Valve == "open" {
			return true
		}
	}
	for i := range s.Modes {
		for _, id := range s.Modes[i].Open {
			if id == r.Part {
				return true
			}
		}
	}
	return false
}
