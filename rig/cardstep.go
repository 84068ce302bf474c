package rig

import (
	"encoding/json"

	"example.com/washrig/units"
)

// An Action is one thing a step of a card asks for. Actions are stable: apps may
// match on them.
type Action string

// The actions of cards, in the order in which they come.
const (
	DoOpenAir      Action = "open-air"
	DoSetValves    Action = "set-valves"
	DoPlaceEnds    Action = "place-hose-ends"
	DoPlugIn       Action = "plug-in"
	DoMovePlug     Action = "move-plug"
	DoWaterToPump  Action = "water-to-pump"
	DoOpenGun      Action = "open-gun"
	DoStartEngine  Action = "start-engine"
	DoStartSource  Action = "start-source"
	DoStartPump    Action = "start-pump"
	DoPurge        Action = "purge-air"
	DoStowGun      Action = "stow-gun"
	DoSwitchOn     Action = "switch-on"
	DoExpect       Action = "expect-start"
	DoBurnerOn     Action = "burner-on"
	DoChemicalOn   Action = "chemical-on"
	DoChemicalPump Action = "chemical-pump-on"

	DoRinse       Action = "rinse"
	DoBurnerOff   Action = "burner-off"
	DoRunCold     Action = "run-cold"
	DoRecoverRest Action = "recover-rest"
	DoSwitchOff   Action = "switch-off"
	DoStopEngine  Action = "stop-engine"
	DoStopPump    Action = "stop-pump"
	DoShutFeed    Action = "shut-feed"
	DoSqueeze     Action = "squeeze-guns"
	DoOnlyThen    Action = "only-then-open"
	DoStopSource  Action = "stop-source"
	DoShutAndStow Action = "shut-and-stow"

	DoLevelGround Action = "level-ground"
	DoChock       Action = "chock"
	DoRearStands  Action = "rear-stands"
	DoDump        Action = "dump"
	DoCheckTail   Action = "check-tail"
	DoJack        Action = "jack-down"
	DoUnhitch     Action = "unhitch"
	DoLockDump    Action = "lock-dump-valves"

	DoDrain              Action = "drain"
	DoEmptyRecovery      Action = "empty-recovery"
	DoBlowDown           Action = "blow-down"
	DoAntifreeze         Action = "antifreeze"
	DoAntifreezeRecovery Action = "antifreeze-recovery"
	DoCatch              Action = "catch"
	DoTag                Action = "tag"
)

// A CardStep is one step of a card: what is done, to what, and a number that
// belongs to it.
type CardStep struct {
	Do     Action
	Parts  []Path
	Source string         // of current, for switching on
	Value  units.Quantity // peak while it starts, temperature to run cold to, volume …; may be absent
}

// Text says the step for people.
func (c CardStep) Text(sys units.System) string {
	what, value := names(c.Parts), c.value(sys)
	with := func(text, more string) string {
		if !c.Value.Given() {
			return text
		}
		return text + more
	}
	switch c.Do {
	case DoOpenAir:
		return "Stand in the open: exhausts clear of doors, windows, air intakes and people. Fuel is filled now, with everything cold, or not at all."
	case DoSetValves:
		return "Set every valve as listed."
	case DoPlaceEnds:
		return "Put every hose end where it is listed."
	case DoPlugIn:
		return "Every load switched off. Plug in as listed; no cord joins two sources."
	case DoMovePlug:
		return "The plug of " + what + " is moved for this mode: load off, both sources off, dry hands and plug, move it, then start one source."
	case DoWaterToPump:
		if len(c.Parts) < 2 {
			return "Water to " + what + ": its feed stands open and holds water."
		}
		return "Water to " + names(c.Parts[:1]) + ", from " + names(c.Parts[1:]) + ": the way open and without air; a pump that starts dry is ruined in minutes."
	case DoOpenGun:
		if len(c.Parts) > 1 {
			return "Before the pumps start, one gun of each is open: hold the guns of " + what + " with both hands each, pointed at the ground and away from people, and squeeze them; they stay open until the pumps have pushed their air out."
		}
		return "Before the pump starts: hold the gun of " + what + " with both hands, pointed at the ground and away from people, and squeeze it; it stays open until the pump has pushed its air out."
	case DoStartEngine:
		return "Start " + what + "."
	case DoStartSource:
		return "Start " + what + ", nothing switched on."
	case DoStartPump:
		return "With water at its inlet and a gun open: start " + what + "."
	case DoStowGun:
		return "Let go, lock the trigger and stow the gun of " + what + ": its pump turns in this mode, and nobody sprays with it."
	case DoPurge:
		if len(c.Parts) > 1 {
			return "Keep the guns of " + what + " open, one after another, until water comes without air."
		}
		return "Keep the gun of " + what + " open until water comes without air."
	case DoSwitchOn:
		return with("Switch on "+what, ": "+names([]Path{Path("sources[" + c.Source + "]")})+" then carries "+value+" in all while it starts") + "; wait until it runs evenly."
	case DoExpect:
		return with("From now on "+what+" may start by itself at any moment", ": "+names([]Path{Path("sources[" + c.Source + "]")})+" then carries up to "+value+" in all") + "."
	case DoBurnerOn:
		return with("With water running from an open gun, and only then: burner of "+what+" on", ", thermostat "+value) + "."
	case DoChemicalOn:
		return "Open the metering of " + what + " if it is wanted, protection on."
	case DoChemicalPump:
		return "If it is wanted, protection on: switch on the pump of " + what + "."
	case DoRinse:
		return "Shut off " + what + " and rinse until the water is clear."
	case DoBurnerOff:
		return "BURNER OFF: " + what + "."
	case DoRunCold:
		return with("RUN COLD with a gun open, until the water from "+what+" is", " below "+value) + "."
	case DoRecoverRest:
		return "Pick up what lies on the ground; lift the tool and let the hose run empty (" + what + ")."
	case DoSwitchOff:
		return "Switch off, in this order: " + what + "."
	case DoStopEngine:
		return "PUMP OFF: stop " + what + "."
	case DoStopPump:
		return "PUMP OFF: stop " + what + "."
	case DoShutFeed:
		return "Shut the feed of " + what + ", at the hydrant or tap and at the pump: else its water goes on through the gun and no pressure is let out."
	case DoSqueeze:
		if len(c.Parts) > 1 {
			return "SQUEEZE THE GUNS of " + what + ", each until nothing comes out: a line stays under pressure after the trigger is released and after the engine stops."
		}
		return "SQUEEZE THE GUN of " + what + " until nothing comes out: the line stays under pressure after the trigger is released and after the engine stops."
	case DoOnlyThen:
		return "ONLY THEN uncouple, change a tip or open a filter: first let the pressure out of every section listed below."
	case DoStopSource:
		return "Stop " + what + "."
	case DoShutAndStow:
		return "Shut crossovers, lock and cap dump valves, stow hose ends."
	case DoLevelGround:
		return "Stand on level, firm ground."
	case DoChock:
		return "Chock the wheels on both sides before anything is unhitched."
	case DoRearStands:
		return "Set stands under the rear of the frame, both sides."
	case DoDump:
		return with("Dump "+what+" at a permitted point", " ("+value+")") + "."
	case DoCheckTail:
		if c.Value.Given() && c.Value.SI() <= 0 {
			return "In the worst of the fills listed the tail DROPS BY ITSELF: do not unhitch in it. Dump first, or stay hitched."
		}
		return with("Nobody steps on the tail", ": in the worst of the fills listed "+value+" there lifts the jack") + "."
	case DoJack:
		return with("Lower the jack on a plate and take the load", ": "+value+" presses on it") + "."
	case DoUnhitch:
		return "Unlatch the coupler, raise it clear with the jack, watch the tail."
	case DoLockDump:
		return "Lock and cap dump valves again before the road: " + what + "."
	case DoDrain:
		return "Everything off, cold, and every pressure let out as on the card of its mode. Then drain " + what + "."
	case DoEmptyRecovery:
		return "Run the dump pump until the drum is empty, then open and drain, in the order of the flow: " + what + "."
	case DoBlowDown:
		return "Blow down with air, in the order of the flow: " + what + ". Guns open, nobody before them."
	case DoAntifreeze:
		return with("Draw antifreeze in where the water comes in and push it through, in the order of the flow: "+what+". It is enough when it comes from every gun as it was poured in", "; "+value+" for the parts listed below, more for the others") + "."
	case DoAntifreezeRecovery:
		return "Pour antifreeze into the drum and run the dump pump until it comes from the end of the hose: " + what + ". It comes on top of what the guns take."
	case DoCatch:
		return "Catch what comes out; it goes neither to the ground nor into a drain."
	case DoTag:
		return "Tag the rig: antifreeze in it; flush before the next wash."
	}
	return string(c.Do) + " " + what
}

// value says the number of a step in the unit the trade uses for it: electric power
// in watts.
func (c CardStep) value(sys units.System) string {
	switch c.Value.Kind() {
	case units.KindPower:
		return mStart.Text(c.Value, sys, 4)
	case units.KindDuration:
		return mDrainTime.Text(c.Value, sys, 3)
	}
	return c.Value.Text(sys, 3)
}

// jsonStep is the JSON form of a CardStep.
type jsonStep struct {
	Do     Action         `json:"do" doc:"what is done; stable"`
	Parts  []Path         `json:"parts,omitempty" doc:"to what"`
	Source string         `json:"source,omitempty" doc:"of current, for switching on"`
	Value  units.Quantity `json:"value,omitzero" doc:"a number that belongs to it"`
	Text   string         `json:"text" doc:"the step for people, in US units"`
}

// MarshalJSON writes the step with its words in US units.
func (c CardStep) MarshalJSON() ([]byte, error) {
	return json.Marshal(jsonStep{c.Do, c.Parts, c.Source, c.Value, c.Text(units.US)})
}
