package rig

import "example.com/washrig/units"

// An Outlet is a receptacle or a terminal of a source with the breaker before
// it. Nothing about it is taken for granted: a breaker or a protection that is
// not given is a question, not a pass.
type Outlet struct {
	ID          string        `json:"id" doc:"name of the outlet"`
	Source      string        `json:"source" need:"yes" ref:"sources" doc:"the source it belongs to"`
	Receptacle  string        `json:"receptacle" choice:"5-15R|5-20R|L5-20R|L5-30R|TT-30R|6-15R|6-20R|L6-20R|L6-30R|L14-20R|L14-30R|14-30R|14-50R" doc:"configuration of the receptacle; nothing for a terminal"`
	Breaker     units.Current `json:"breaker" range:"1 A..400 A" doc:"breaker before it"`
	GroundFault string        `json:"ground_fault" choice:"yes|no" doc:"whether it has ground-fault protection of class A"`
}

// A Cord is a length of flexible cord between a source and its loads. Cords
// that carry some of the same loads lie one behind the other, so the loads of
// one are among those of the other.
type Cord struct {
	Stock
	Loads       []string          `json:"loads" need:"yes" ref:"loads" doc:"the loads it feeds"`
	Source      string            `json:"source" ref:"sources" doc:"the source it hangs on; nothing: it goes where the plugs of its loads go"`
	Length      units.Length      `json:"length" need:"yes" range:"0.1 ft..2000 ft" doc:"length, one way"`
	Gauge       string            `json:"gauge" choice:"18 AWG|16 AWG|14 AWG|12 AWG|10 AWG|8 AWG|6 AWG|4 AWG|2 AWG" doc:"size of its copper wires"`
	Ampacity    units.Current     `json:"ampacity" range:"1 A..400 A" doc:"current it may carry, where its maker gives it; nothing means by gauge"`
	Ends        string            `json:"ends" choice:"plug-and-connector|two-plugs" doc:"two-plugs: a plug with pins on both ends, or an adapter that makes it so"`
	Carrying    int               `json:"carrying" range:"2..3" default:"2" why:"line and neutral; the equipment ground carries none" doc:"conductors that carry current"`
	Temperature units.Temperature `json:"temperature" range:"-40 °F..300 °F" default:"75 °C" why:"warm wires, the upper column of resistance tables (common practice)" doc:"temperature of its wires under load"`
}

// A Battery is the 12 V side of an engine.
type Battery struct {
	Stock
	Engine        string         `json:"engine" ref:"engines" doc:"the engine that charges it and that it cranks"`
	Voltage       units.Voltage  `json:"voltage" range:"5 V..60 V" default:"12 V" why:"lead-acid battery of six cells" doc:"nominal voltage"`
	Capacity      units.Charge   `json:"capacity" range:"1 A·h..5000 A·h" doc:"capacity at its rate"`
	Rate          units.Duration `json:"rate" range:"1 h..200 h" default:"20 h" why:"usual rate of lead-acid batteries" doc:"time in which the capacity is drawn"`
	Exponent      units.Ratio    `json:"exponent" range:"1..2" default:"1.2" why:"flooded lead-acid, common practice" doc:"Peukert's exponent"`
	Usable        units.Ratio    `json:"usable" range:"5 %..100 %" default:"50 %" why:"half of a starting battery, common practice" doc:"share of the capacity that may be used"`
	StateOfCharge units.Ratio    `json:"state_of_charge" range:"5 %..100 %" default:"80 %" why:"a battery in service, common practice" doc:"charge it has on a morning"`
	ColdCranking  units.Current  `json:"cold_cranking" range:"10 A..5000 A" doc:"cold-cranking current of its label"`
	Cranking      units.Current  `json:"cranking" range:"5 A..5000 A" doc:"current of the starter at 80 °F"`
	Charging      units.Current  `json:"charging" range:"0.1 A..1000 A" doc:"current of stator or alternator at running speed"`
	Standby       units.Current  `json:"standby" range:"0.001 A..100 A" doc:"current that flows with everything off"`
}

// A DirectLoad draws from a battery.
type DirectLoad struct {
	ID      string        `json:"id" doc:"name of the load"`
	Battery string        `json:"battery" need:"yes" ref:"batteries" doc:"the battery it draws from"`
	Current units.Current `json:"current" need:"yes" range:"0.001 A..2000 A" doc:"current while it is on"`
	Duty    units.Ratio   `json:"duty" range:"0.01 %..100 %" default:"100 %" why:"the harder case is taken when nothing is given" doc:"share of the time that it is on"`
	Length  units.Length  `json:"length" range:"0.1 ft..500 ft" doc:"length of its cable, one way"`
	Gauge   string        `json:"gauge" choice:"18 AWG|16 AWG|14 AWG|12 AWG|10 AWG|8 AWG|6 AWG|4 AWG|2 AWG" doc:"size of the copper wires of its cable"`
}
