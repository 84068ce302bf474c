package rig

import "example.com/washrig/units"

// A Box is the room a component takes: its outside, with sides along the deck.
type Box struct {
	Length units.Length   `json:"length" range:"0.5 in..60 ft" doc:"fore and aft"`
	Width  units.Length   `json:"width" range:"0.5 in..20 ft" doc:"across"`
	Height units.Length   `json:"height" range:"0.5 in..20 ft" doc:"up; nothing means that heights are not compared"`
	Bottom units.Position `json:"bottom" range:"0 ft..20 ft" doc:"underside above the ground; nothing means that it stands on the deck"`
	X      units.Position `json:"x" range:"-120 ft..300 ft" doc:"middle, aft of the origin; nothing means the centre of mass"`
	Y      units.Position `json:"y" range:"-20 ft..20 ft" doc:"middle, left of the centreline; nothing means the centre of mass"`
}

// A Zone is a place to be kept clear. Its shape is a box (length and width), a
// swing about x and y (radius), or a path from x and y to to_x and to_y
// (width).
type Zone struct {
	ID        string         `json:"id" doc:"name of the zone"`
	Title     string         `json:"title" doc:"words for the sheet"`
	Kind      string         `json:"kind" need:"yes" choice:"heat|exhaust|fuel|access|hose-path|gate-swing" doc:"why it is kept clear: hot parts, exhaust, fuel, room to stand and reach, the pull of a hose, a gate or door"`
	Clearance units.Length   `json:"clearance" range:"0 in..30 ft" doc:"distance to be kept from the shape; nothing means only out of it"`
	Owner     string         `json:"owner" doc:"path of the component it belongs to, which may stand in it, such as items[skid]"`
	Against   []string       `json:"against" doc:"paths of the components it concerns; nothing means all"`
	X         units.Position `json:"x" range:"-120 ft..300 ft" doc:"middle of a box, hinge of a swing, beginning of a path, aft of the origin"`
	Y         units.Position `json:"y" range:"-30 ft..30 ft" doc:"the same, left of the centreline"`
	Length    units.Length   `json:"length" range:"0.5 in..60 ft" doc:"of a box, fore and aft"`
	Width     units.Length   `json:"width" range:"0.5 in..30 ft" doc:"of a box, across; of a path, from side to side"`
	Bottom    units.Position `json:"bottom" range:"0 ft..30 ft" doc:"lower end above the ground; bottom and top, or neither for every height"`
	Top       units.Position `json:"top" range:"0 ft..50 ft" doc:"upper end above the ground"`
	Radius    units.Length   `json:"radius" range:"0.5 in..30 ft" doc:"of a swing"`
	From      units.Angle    `json:"from" range:"-360 deg..360 deg" doc:"beginning of a swing, from straight aft towards the left"`
	To        units.Angle    `json:"to" range:"-360 deg..360 deg" doc:"end of a swing, after from"`
	ToX       units.Position `json:"to_x" range:"-120 ft..400 ft" doc:"end of a path, aft of the origin"`
	ToY       units.Position `json:"to_y" range:"-60 ft..60 ft" doc:"end of a path, left of the centreline"`
}

// A TieDown holds components to the deck. What it holds is taken with full
// tanks.
type TieDown struct {
	ID           string       `json:"id" doc:"name of the tie-down"`
	Holds        []string     `json:"holds" need:"yes" doc:"paths of the components it holds, such as tanks[fresh]"`
	Type         string       `json:"type" need:"yes" choice:"strap|bolt" doc:"straps and chains pull along their length, bolts are loaded across"`
	Anchors      int          `json:"anchors" need:"yes" range:"1..64" doc:"straps or bolts that share the force in any one direction"`
	Angle        units.Angle  `json:"angle" range:"0 deg..80 deg" doc:"of straps, up from the deck"`
	Friction     units.Ratio  `json:"friction" range:"0 %..100 %" doc:"between load and deck; nothing means that it is not counted"`
	WorkingLoad  units.Force  `json:"working_load" range:"10 lbf..200000 lbf" doc:"working load limit of one strap, or of one bolt across"`
	BreakingLoad units.Force  `json:"breaking_load" range:"10 lbf..500000 lbf" doc:"breaking strength of one strap or bolt"`
	Contained    string       `json:"contained" choice:"yes|no" default:"no" why:"the harder case is taken when nothing is given" doc:"whether the vehicle's own structure holds the load down"`
	Height       units.Length `json:"height" range:"0.1 in..15 ft" doc:"centre of mass above the deck, for tipping; nothing means that tipping is not looked at"`
	Length       units.Length `json:"length" range:"0.1 in..60 ft" doc:"between the anchors, fore and aft"`
	Width        units.Length `json:"width" range:"0.1 in..20 ft" doc:"between the anchors, across"`
}
