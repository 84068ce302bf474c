package rig

import (
	"slices"

	"example.com/washrig/units"
)

// recoveryChecks judge vacuum, pick-up, dump-out and filters. States in which the
// guns and motors of no mode run together are shown and not judged.
func recoveryChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mSealedLift, root: "drum", severity: Stop, rating: fromSpec("recovery", "drum.maximum_vacuum", "vacuum the drum may bear", true),
			doc: plate(CodeDoc{Code: "drum-over-vacuum", Bad: Higher, Title: "the vacuum motors can pull more than the drum bears",
				Meaning: "With its inlet closed, by a plugged hose or a tool pressed flat, the drum stands under the sealed lift of the motors. A tank that is not made for it collapses.", Defers: "tank maker"})},
		{metric: mRecovered, root: "pick-up", severity: Fix, against: mPickUp, by: "pick-up while the air carries", also: []*Metric{mPickUp}, when: whilePickingUp,
			soften: func(v *View, r Reading, s Severity) Severity {
				pick, ok := v.value(mPickUp, r.Part, r.State)
				share := float64(v.model.spec.Duty.TriggerShare)
				if ok && share > 0 && r.Value.SI()*share <= pick.SI() {
					return Note // what is left while the trigger is pulled goes while it is not
				}
				return s
			},
			doc: CodeDoc{Code: "recovery-puddles", Bad: Higher, Title: "more water comes back than the vacuum picks up",
				Meaning: "While the air is fast enough to carry water, hose and motors take up less than the recovered share of the wash flow: it puddles. A note where it keeps up over the pauses of the trigger.", Defers: "discharge authority"}},
		{metric: mAirSpeed, root: "pick-up", when: whilePickingUp,
			doc: CodeDoc{Code: "recovery-air-slow", Bad: Lower, Title: "air in the recovery hose slower than the trade asks for",
				Meaning: "With the water that comes back, the air in the hose falls below the speed at which shops see steady pick-up: the hose slugs.",
				Limit:   Limit{Note: (4000 * units.FootPerMinute).Quantity(), Source: "4,000 ft/min (20 m/s), common practice"}, Defers: "maker of the vacuum plant"}},
		{metric: mColumn, root: "lift", severity: Fix, rating: fromSpec("recovery", "lift", "climb of the recovery hose", false),
			doc: CodeDoc{Code: "recovery-stalls", Bad: Lower, Title: "the hose climbs higher than the motors hold water",
				Meaning: "A slug of water that fills the hose weighs more than the sealed lift at the site: it stalls, and nothing is picked up until the tool is lifted.", Defers: "maker of the vacuum plant"}},
		{metric: mDumpFlow, root: "dump-out", severity: Fix, against: mRecovered, by: "water that comes back", also: []*Metric{mRecovered}, when: whilePickingUp,
			doc: CodeDoc{Code: "dump-out-short", Bad: Lower, Title: "the dump pump does not keep up against the drum vacuum",
				Meaning: "Against lift, hose, filters and the vacuum of the running motors the dump pump moves less than comes in: the drum fills until its float shuts the vacuum.", Defers: "pump maker"}},
		{metric: mBackFlow, root: "dump-out", severity: Fix, rating: nothing(units.KindVolumeFlow, "no check valve is named in the discharge"),
			doc: CodeDoc{Code: "dump-draws-back", Bad: Higher, Title: "the drum draws the return line back when the dump pump stops",
				Meaning: "Without a check valve the vacuum pulls water back through the standing pump as long as the end of the line is under water, and air after that.", Defers: "pump maker"}},
		{metric: mReturned, root: "room", severity: Fix, rating: func(v *View, part string) least {
			s := v.model.spec
			for i := range s.Recovery {
				for k := range s.Tanks {
					if t := &s.Tanks[k]; s.Recovery[i].ID == part && s.Recovery[i].Tank == t.ID && t.Usable != 0 {
						return least{q: t.Usable.Quantity(), source: "usable volume of the tank it delivers to"}
					}
				}
			}
			return least{}
		},
			doc: CodeDoc{Code: "recovery-no-room", Bad: Higher, Title: "one filling brings back more than the recovered tank holds",
				Meaning: "Before the clean water is used up the recovered tank is full: dump at a permitted point in between, or wash on the ground ends there.", Defers: "discharge authority; licensed hauler"}},
		{metric: mFilterTime, root: "filters", severity: Note, against: mWorkDay, by: "washing hours of the day", also: []*Metric{mWorkDay},
			doc: CodeDoc{Code: "filter-short", Bad: Lower, Title: "a filter is full before the day is over",
				Meaning: "With the solids given, the first filter reaches its change-out within the washing hours of a day: carry a spare.", Defers: "filter maker"}},
	}
}

// whilePickingUp selects states in which guns and motors of a mode run together
// and water comes back.
func whilePickingUp(v *View, r *Reading) bool {
	in := &v.model.blocks.recovery.in
	for i := range in.units {
		u := &in.units[i]
		if u.id != r.Part {
			continue
		}
		back, ok := v.value(mRecovered, r.Part, r.State)
		if !ok || !(back.SI() > 0) {
			return false
		}
		for k, m := range in.modes {
			if n := u.running[k]; n > 0 && m.guns == int(r.State.v[AxisGuns]) && int(r.State.v[AxisMotors]) == n+1 {
				return true
			}
		}
	}
	return false
}

// recoveryHazards reports what is no number: flammables that are picked up, and oil
// in water that is used again.
type recoveryHazards struct{}

// Codes returns the two codes of the check.
func (recoveryHazards) Codes() []CodeDoc {
	return []CodeDoc{
		{Code: "recovery-flammable", Title: "flammables where the recovery unit picks up", Plate: true, Metric: mFlammable.Path,
			Meaning: "Vapour of fuel, solvent or degreaser meets the brushes of a vacuum motor, the filters and a closed tank. Do not recover.", Defers: "fire authority; a unit rated for the vapour"},
		{Code: "recovery-oil-reused", Title: "water with oil in it is used again", Plate: true, Metric: mOilReused.Path,
			Meaning: "Oil that comes back with the water goes through pump, coil and mist. There is no number of passes at which it may.", Defers: "heater maker; health authority"},
	}
}

// Check looks at what each unit is told to pick up and where it goes.
func (recoveryHazards) Check(v *View, report func(Finding)) {
	for i, u := range v.model.blocks.recovery.in.units {
		r := &v.model.spec.Recovery[i]
		at := State{set: v.model.axes}
		if r.Flammables == "yes" {
			report(Finding{Code: "recovery-flammable", Severity: Stop, Reading: Reading{Metric: mFlammable, Part: u.id, State: at}, Margin: -1,
				Source: "flammables are named where it picks up", Root: "flammables " + u.id})
		}
		lean := func(code Code, mt *Metric, why string, p Path) {
			report(Finding{Code: code, Severity: CannotJudge, Reading: Reading{Metric: mt, Part: u.id, State: at}, Margin: -1, Source: why, Root: v.say(string(code), " ", u.id), Leans: []Path{p}})
		}
		switch sprayed := solventRecovered(v.model.spec, r); {
		case r.Flammables == "yes":
		case sprayed != "":
			report(Finding{Code: "recovery-flammable", Severity: Stop, Reading: Reading{Metric: mFlammable, Part: u.id, State: at}, Margin: -1,
				Source: sprayed, Root: "flammables " + u.id})
		case r.Flammables == "":
			lean("recovery-flammable", mFlammable, "nobody said whether fuel or solvent may lie where it picks up", Path("recovery["+u.id+"].flammables"))
		}
		if r.Oil == "" && u.reused {
			lean("recovery-oil-reused", mOilReused, "nobody said whether oil may come with the water", Path("recovery["+u.id+"].oil"))
		}
		if r.Oil == "yes" && u.reused {
			report(Finding{Code: "recovery-oil-reused", Severity: Stop, Reading: Reading{Metric: mOilReused, Part: u.id, State: at}, Margin: -1,
				Source: "what it delivers reaches the pump of its guns", Root: "oil " + u.id})
		}
	}
}

// solventRecovered says which solvent is sprayed in a mode in which a unit picks up, or
// is carried where there are no modes; empty if none.
func solventRecovered(s *Spec, r *Recovery) string {
	picksUp := func(m *Mode) bool {
		return slices.ContainsFunc(r.Loads, func(l string) bool { return slices.Contains(m.Loads, l) })
	}
	for i := range s.Chemicals {
		c := &s.Chemicals[i]
		if c.Family != "solvent" {
			continue
		}
		if len(s.Modes) == 0 || len(r.Loads) == 0 {
			return c.ID + " (solvent) is carried with a recovery unit"
		}
		for k := range s.Modes {
			if m := &s.Modes[k]; slices.Contains(m.Sprays, c.ID) && picksUp(m) {
				return c.ID + " (solvent) is sprayed in mode " + m.ID + ", in which it picks up"
			}
		}
	}
	return ""
}
