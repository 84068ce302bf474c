package rig

import "example.com/washrig/units"

// wiringChecks judge outlets, cords, dips, the burner's fan, the 12 V side and
// starts on an engine.
func wiringChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mUnguarded, root: "outlet", severity: Stop,
			rating: func(v *View, part string) least {
				for i := range v.model.spec.Outlets {
					if o := &v.model.spec.Outlets[i]; o.ID == part && o.GroundFault == "" {
						return least{missing: Path(v.say("outlets[", o.ID, "].ground_fault"))}
					}
				}
				return least{q: never(units.KindCurrent), source: "wet work (NFPA 70 (NEC) 422.5, 590.6)"}
			},
			doc: plate(CodeDoc{Code: "ground-fault", Bad: Higher, Title: "outlet in wet work without ground-fault protection",
				Meaning: "Everything on a wash trailer is wet work. Whether each outlet has ground-fault protection of class A has to be known.", Defers: "licensed electrician; the electrical code in force"})},
		{metric: mOutletCurrent, root: "outlet", severity: Stop, rating: outletRating,
			doc: plate(CodeDoc{Code: "outlet-overload", Bad: Higher, Title: "current above the breaker or the receptacle",
				Meaning: "The loads on an outlet together draw more than its breaker or its receptacle carries.", Defers: "licensed electrician; the electrical code in force"})},
		{metric: mOutletLoading, root: "outlet",
			doc: CodeDoc{Code: "outlet-continuous", Bad: Higher, Title: "more than 80 % of a breaker for hours",
				Meaning: "Loads that are on for three hours and more may take 80 % of a breaker, 16 A of 20 A: they count at 125 %.",
				Limit:   Limit{Fix: units.Ratio(1).Quantity(), Source: "NFPA 70 (NEC) 210.20(A)"}, Defers: "licensed electrician; the electrical code in force"}},
		{metric: mLeakage, root: "outlet",
			doc: CodeDoc{Code: "leakage", Bad: Higher, Title: "leakage in good order trips the ground-fault protection",
				Meaning: "Motors, ignition transformers and long cords leak a little each; behind one device the sum may trip it without a fault.",
				Limit:   Limit{Note: (4 * units.Milliampere).Quantity(), Fix: (6 * units.Milliampere).Quantity(), Source: "class A holds below 4 mA and trips at 6 mA (NFPA 70 (NEC) 422.5)"}, Defers: "licensed electrician"}},
		{metric: mOtherNeutral, root: "plug", severity: Fix,
			rating: nothing(units.KindRatio, "one kind of neutral"),
			doc: CodeDoc{Code: "neutral-differs", Bad: Higher, Title: "a plug moves between a bonded and a floating neutral",
				Meaning: "Ground-fault protection that works on one source may not work, or trip, on the other. To move a plug: load off, both sources off, dry hands and plug, move, one source on.", Defers: "licensed electrician"}},
		{metric: mLeg, root: "source", severity: Stop, against: mLegLimit, by: "half of the winding", also: []*Metric{mLegLimit},
			doc: plate(CodeDoc{Code: "leg-overload", Bad: Higher, Title: "one leg of a 120/240 V source above its half",
				Meaning: "However the 120 V loads are shared out, one leg carries more than half of the rating.", Defers: "generator maker; licensed electrician"})},

		{metric: mCordCurrent, root: "cord", severity: Stop, limit: cordAmpacity, also: []*Metric{mCordAmpacity},
			doc: plate(CodeDoc{Code: "cord-overload", Bad: Higher, Title: "current above what the cord carries",
				Meaning: "The wires of the cord get hotter than its insulation bears.", Defers: "licensed electrician; the electrical code in force"})},
		{metric: mCordBreaker, root: "cord", severity: Fix, against: mCordAmpacity, by: "ampacity of the cord", also: []*Metric{mCordAmpacity},
			doc: CodeDoc{Code: "cord-protection", Bad: Higher, Title: "breaker above what the cord carries",
				Meaning: "A fault can draw more than the wires bear before the breaker opens.", Defers: "licensed electrician; the electrical code in force"}},
		{metric: mCordDrop, root: "cord drop",
			doc: CodeDoc{Code: "cord-drop", Bad: Higher, Title: "too much voltage lost in the cords, running",
				Meaning: "A motor at low voltage runs hot and slow; a burner loses air. A thicker or shorter cord mends it.",
				Limit:   Limit{Fix: units.Ratio(0.05).Quantity(), Source: "5 % running, common practice"}, Defers: "licensed electrician"}},
		{metric: mCordStartDrop, root: "cord drop",
			doc: CodeDoc{Code: "cord-start-drop", Bad: Higher, Title: "too much voltage lost in the cords while starting",
				Meaning: "A motor that gets too little voltage while it starts may never come up to speed, and burns.",
				Limit:   Limit{Fix: units.Ratio(0.15).Quantity(), Source: "15 % while starting, common practice"}, Defers: "licensed electrician"}},
		{metric: mLoadShare, root: "supply",
			doc: CodeDoc{Code: "supply-low", Bad: Lower, Title: "voltage at the load below what its plate bears",
				Meaning: "Source and cords together leave a running load less than nine tenths of its plate voltage.",
				Limit:   Limit{Fix: units.Ratio(0.90).Quantity(), Source: "NEMA MG 1, 12.44: 10 % of the plate voltage (from memory)"}, Defers: "motor maker"}},
		{metric: mLoadShare, root: "supply",
			doc: CodeDoc{Code: "supply-high", Bad: Higher, Title: "voltage at the load above what its plate bears",
				Meaning: "A running load gets more than eleven tenths of its plate voltage: it runs hot and its insulation ages; on the double voltage of another outlet it burns.",
				Limit:   Limit{Fix: units.Ratio(1.10).Quantity(), Source: "NEMA MG 1, 12.44: 10 % of the plate voltage (from memory)"}, Defers: "motor maker; licensed electrician"}},

		{metric: mFrequencyOff, root: "frequency",
			doc: CodeDoc{Code: "frequency-off", Bad: Higher, Title: "frequency off its rating",
				Meaning: "The speed of the alternator, without load or with everything running, makes a frequency that motors are not rated for.",
				Limit:   Limit{Fix: units.Ratio(0.05).Quantity(), Source: "NEMA MG 1, 12.44: 5 % of the rated frequency (from memory)"}, Defers: "generator maker; motor maker"}},
		{metric: mIdleVoltage, root: "frequency",
			when: func(v *View, r *Reading) bool { // a source that nothing starts on by itself is at speed before it is loaded
				for i := range v.model.spec.Loads {
					if l := &v.model.spec.Loads[i]; l.Source == r.Part && l.Starts == "by-itself" {
						return true
					}
				}
				return false
			},
			doc: CodeDoc{Code: "idle-voltage", Bad: Lower, Title: "loads start by themselves on a source that idles",
				Meaning: "At idle the source has neither voltage nor frequency, and a float or a thermostat may start a load on it then.",
				Limit:   Limit{Fix: units.Ratio(0.90).Quantity(), Source: "NEMA MG 1, 12.44: 10 % of the plate voltage (from memory)"}, Defers: "generator maker"}},
		{metric: mVoltageDip, root: "dip",
			doc: CodeDoc{Code: "voltage-dip", Bad: Higher, Title: "voltage dips too far in a start",
				Meaning: "In the deepest start of the hand order the voltage falls so far that contactors drop out and a flame may fail.",
				Limit:   Limit{Fix: units.Ratio(0.25).Quantity(), Source: "ISO 8528-5 class G1, 25 % (from memory)"}, Defers: "generator maker"}},
		{metric: mFrequencyDip, root: "dip",
			doc: CodeDoc{Code: "frequency-dip", Bad: Higher, Title: "frequency dips too far in a step of load",
				Meaning: "The greatest step of the hand order slows the engine more than a set of the lowest class may be slowed.",
				Limit:   Limit{Fix: units.Ratio(0.15).Quantity(), Source: "ISO 8528-5 class G1, 15 % (from memory)"}, Defers: "generator maker"}},
		{metric: mFiring, root: "firing", severity: Fix, against: mCleanSupply, by: "clean firing in the air of the hour with the fan at its voltage", also: []*Metric{mCleanSupply},
			doc: CodeDoc{Code: "clean-firing-voltage", Bad: Higher, Title: "more firing needed than burns clean with the fan at its voltage",
				Meaning: "Low voltage or low frequency slows the burner's fan; at the air it still moves, the firing rate that is needed makes soot and carbon monoxide.", Defers: "burner maker; stack test"}},
		{metric: mFiring, root: "firing", severity: Note, against: mCleanDip, by: "clean firing in the air of the hour with the fan at the dipped voltage", also: []*Metric{mCleanDip},
			doc: CodeDoc{Code: "clean-firing-dip", Bad: Higher, Title: "the burner smokes while another load starts",
				Meaning: "For the time of the dip the fan moves less air than the firing rate needs. Start the other loads before the burner.", Defers: "burner maker; stack test"}},
		{metric: mEngineStart, root: "engine", severity: Fix, against: mEngineBrief, by: "plate derating at the site, for seconds", also: []*Metric{mEngineBrief},
			doc: CodeDoc{Code: "engine-start", Bad: Higher, Title: "a start asks more of the engine than it has for seconds",
				Meaning: "On top of pumps and running loads the start peak of the belt generator slows or stalls the engine.", Defers: "engine maker"}},

		{metric: mNetCurrent, root: "battery", severity: Fix,
			rating: nothing(units.KindCurrent, "charging covers what is drawn"),
			doc: CodeDoc{Code: "battery-deficit", Bad: Lower, Title: "the 12 V side draws more than is charged",
				Meaning: "Over an hour of running the battery gives more than it gets, until it does not crank any more.", Defers: "engine maker"}},
		{metric: mCranking, root: "battery",
			doc: CodeDoc{Code: "cranking-reserve", Bad: Lower, Title: "the battery hardly cranks the engine",
				Meaning: "In the cold the starter asks for more than the battery at its state of charge has to spare.",
				Limit:   Limit{Note: units.Ratio(0.20).Quantity(), Fix: units.Ratio(0).Quantity(), Source: "a fifth to spare, common practice; a battery cannot give more than it has"}, Defers: "engine maker; battery maker"}},
		{metric: mCableDrop, root: "battery",
			doc: CodeDoc{Code: "cable-drop", Bad: Higher, Title: "too much voltage lost in a 12 V cable",
				Meaning: "A reel motor or pump at low voltage is slow, hot and blows its fuse. A thicker cable mends it.",
				Limit:   Limit{Fix: units.Ratio(0.10).Quantity(), Source: "10 % for motors, 3 % for lamps, common practice"}, Defers: "motor maker"}},
	}
}

// outletRating is what the breaker and the receptacle of an outlet carry.
func outletRating(v *View, part string) least {
	in := &v.model.blocks.wiring.in
	for i := range in.outlets {
		if o := &in.outlets[i]; o.id == part {
			if o.breaker == 0 {
				return least{missing: Path(v.say("outlets[", o.id, "].breaker"))}
			}
			return least{q: o.breaker.Quantity(), source: "the smaller of breaker and receptacle"}
		}
	}
	return least{}
}

// cordAmpacity is what a cord carries; a cord without gauge leaves a stop
// unguarded.
func cordAmpacity(v *View, r Reading) (units.Quantity, string, Path, bool) {
	if q, ok := v.value(mCordAmpacity, r.Part, r.State); ok {
		return q, "ampacity of the cord (NFPA 70 (NEC) 400.5 or its maker)", "", true
	}
	return units.Quantity{}, "", Path("cords[" + r.Part + "].gauge"), false
}
