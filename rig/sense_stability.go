package rig

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// senseOfStability refuses places, forms and springs that contradict one
// another, so that the numbers made from them exist.
func senseOfStability(s *Spec) []error {
	var errs []error
	conflict := func(path, value, want string) {
		errs = append(errs, &units.FieldError{Path: path, Value: value, Want: want, Err: units.ErrConflict})
	}
	missing := func(path, want string) {
		errs = append(errs, &units.FieldError{Path: path, Want: want, Err: units.ErrMissing})
	}
	known := map[Path]*Stock{}
	all := components(s)
	for _, c := range all {
		known[c.path] = c.stock
		b := &c.stock.Box
		at := string(c.path) + ".box"
		switch {
		case *b == (Box{}):
			continue
		case c.path == "trailer":
			conflict(at, "a box", "deck_front, deck_length, deck_width and deck_height; the trailer carries boxes and is none")
			continue
		case b.Length == 0:
			missing(at+".length", "length and width together")
		case b.Width == 0:
			missing(at+".width", "length and width together")
		}
	}
	for i := range s.Tanks {
		k := &s.Tanks[i]
		if v, ok := vesselOf(k); ok {
			errs = append(errs, senseOfVessel(k, v)...)
		}
	}
	for i := range s.Zones {
		errs = append(errs, senseOfZone(&s.Zones[i], known)...)
	}
	for i := range s.TieDowns {
		t := &s.TieDowns[i]
		at := "tie_downs[" + t.ID + "]"
		var held units.Mass
		for k, p := range t.Holds {
			if known[Path(p)] == nil || p == "trailer" {
				errs = append(errs, unknownComponent(fmt.Sprintf("%s.holds[#%d]", at, k+1), p))
				continue
			}
			held += heldMass(s, all, Path(p))
		}
		if held == 0 && len(t.Holds) > 0 {
			conflict(at+".holds", strings.Join(t.Holds, ", "), "components with a mass of their own, or tanks")
		}
		if t.Type == "strap" && t.Angle == 0 {
			errs = append(errs, &units.FieldError{Path: at + ".angle", Want: "the angle of the straps, up from the deck, such as 45 deg", Err: units.ErrMissing})
		}
		if t.Type == "bolt" && t.Angle != 0 {
			conflict(at+".angle", exact(t.Angle), "nothing; bolts stand square to the deck")
		}
	}
	errs = append(errs, senseOfPlaces(s, all)...)
	if s.Trailer != nil {
		errs = append(errs, senseOfTrailer(s)...)
	}
	return errs
}

// senseOfPlaces refuses places that no trailer reaches from its coupler, wherever the
// origin is: a slip of a digit, or an origin that one place forgot.
func senseOfPlaces(s *Spec, all []stocked) []error {
	var errs []error
	if s.Trailer == nil {
		return nil // measured from wherever the shop measures in a van
	}
	from := s.Trailer.Coupler
	const hair = 1e-9 // m, for two places that were rounded
	within := func(path string, x units.Position, least, most units.Length) {
		if aft := x.Sub(from); x.Given() && (aft < least-hair || aft > most+hair) {
			want := "from " + least.Text(units.Foot, 0) + " to " + most.Text(units.Foot, 0) + " aft of the coupler"
			if from.Length() != 0 {
				want += ", which is at " + exact(from)
			}
			errs = append(errs, &units.FieldError{Path: path, Value: exact(x), Want: want, Err: units.ErrRange})
		}
	}
	const before, behind = -20 * units.Foot, 200 * units.Foot
	for _, c := range all {
		within(string(c.path)+".x", c.stock.X, before, behind)
		within(string(c.path)+".box.x", c.stock.Box.X, before, behind)
	}
	for i := range s.Zones {
		z := &s.Zones[i]
		within("zones["+z.ID+"].x", z.X, before, behind)
		within("zones["+z.ID+"].to_x", z.ToX, before, behind+100*units.Foot)
	}
	t := s.Trailer
	within("trailer.axle_group", t.AxleGroup, 1*units.Foot, 100*units.Foot)
	within("trailer.deck_front", t.DeckFront, before, 100*units.Foot)
	within("trailer.jack", t.Jack, before/2, 100*units.Foot)
	within("trailer.tail", t.Tail, 1*units.Foot, behind)
	return errs
}

func unknownComponent(path, id string) error {
	return &units.FieldError{Path: path, Value: id, Want: "the path of a component, such as items[skid]", Err: units.ErrRange}
}

func senseOfTrailer(s *Spec) []error {
	var errs []error
	t := &s.Trailer.Trailer
	conflict := func(path, value, want string) {
		errs = append(errs, &units.FieldError{Path: path, Value: value, Want: want, Err: units.ErrConflict})
	}
	missing := func(path, want string) {
		errs = append(errs, &units.FieldError{Path: path, Want: want, Err: units.ErrMissing})
	}
	const ahead = 0.1 // m, what package statics asks for
	group := t.AxleGroup.Length()
	if t.AxleGroup.Given() {
		if t.Jack.Given() && group-t.Jack.Length() < ahead {
			conflict("trailer.jack", exact(t.Jack), "a place ahead of the axle group, "+exact(t.AxleGroup))
		}
		if t.Tail.Given() && t.Tail.Length()-group < ahead {
			conflict("trailer.tail", exact(t.Tail), "a place behind the axle group, "+exact(t.AxleGroup))
		}
		if half := t.AxleSpacing * units.Length(t.Axles-1) / 2; t.Axles > 1 && t.AxleSpacing != 0 && group-half-t.Coupler.Length() < ahead {
			conflict("trailer.axle_spacing", exact(t.AxleSpacing), "every axle aft of the coupler")
		}
	}
	if t.Suspension == "independent" {
		for _, n := range []struct {
			path, want string
			none       bool
		}{
			{"trailer.axle_spacing", "the distance between neighbouring axles, such as 34 in", t.Axles > 1 && t.AxleSpacing == 0},
			{"trailer.spring_load", "the load on one independent axle at which it has sunk by spring_travel", t.SpringLoad == 0},
			{"trailer.spring_travel", "how far an independent axle sinks under spring_load", t.SpringTravel == 0},
			{"trailer.coupler_height", "the height of the ball; independent axles share by the attitude of the frame", t.CouplerHeight == 0},
		} {
			if n.none {
				missing(n.path, n.want)
			}
		}
	}
	if t.HosesTravel == "full" {
		for _, h := range hoses(s) {
			if !h.place.Given() {
				missing(h.list+"["+h.id+"].x", "the place of the hose or coil, fore and aft; its water is counted")
			}
		}
	}
	if v := s.TowVehicle; v != nil && v.PayloadRating != 0 && v.Gear >= v.PayloadRating {
		conflict("tow_vehicle.gear", exact(v.Gear), "less than the payload rating, "+exact(v.PayloadRating))
	}
	return errs
}

// vesselOf returns the inside form of a tank, if one is given.
func vesselOf(k *Tank) (statics.Vessel, bool) {
	v := statics.Vessel{}
	switch k.Shape {
	case "box":
		v = statics.Vessel{Shape: statics.Box, Length: k.InsideLength, Width: k.InsideWidth, Height: k.Height}
	case "upright-cylinder":
		v = statics.Vessel{Shape: statics.UprightCylinder, Diameter: k.Diameter, Height: k.Height}
	case "lengthwise-cylinder":
		v = statics.Vessel{Shape: statics.LengthwiseCylinder, Diameter: k.Diameter, Length: k.InsideLength}
	case "crosswise-cylinder":
		v = statics.Vessel{Shape: statics.CrosswiseCylinder, Diameter: k.Diameter, Width: k.InsideWidth}
	default:
		return v, false
	}
	return v, true
}

func senseOfVessel(k *Tank, v statics.Vessel) []error {
	at := "tanks[" + k.ID + "]"
	var errs []error
	for _, d := range []struct {
		name string
		l    units.Length
		used bool
	}{
		{"inside_length", k.InsideLength, v.Shape == statics.Box || v.Shape == statics.LengthwiseCylinder},
		{"inside_width", k.InsideWidth, v.Shape == statics.Box || v.Shape == statics.CrosswiseCylinder},
		{"height", k.Height, v.Shape == statics.Box || v.Shape == statics.UprightCylinder},
		{"diameter", k.Diameter, v.Shape != statics.Box},
	} {
		switch {
		case d.used && d.l == 0:
			errs = append(errs, &units.FieldError{Path: at + "." + d.name, Want: "an inside dimension of the " + v.Shape.String(), Err: units.ErrMissing})
		case !d.used && d.l != 0 && d.name != "height":
			errs = append(errs, &units.FieldError{Path: at + "." + d.name, Value: exact(d.l), Want: "nothing for the " + v.Shape.String(), Err: units.ErrConflict})
		}
	}
	if len(errs) > 0 || k.Nominal == 0 {
		return errs
	}
	holds, err := v.Capacity()
	if err != nil {
		return []error{units.At(at, err)}
	}
	if math.Abs(float64(holds/k.Nominal)-1) > 0.1 {
		errs = append(errs, &units.FieldError{Path: at + ".nominal", Value: exact(k.Nominal), Want: fmt.Sprintf("within a tenth of what the inside dimensions hold, %.4g gal", holds.In(units.Gallon)), Err: units.ErrConflict})
	}
	return errs
}

func senseOfZone(z *Zone, known map[Path]*Stock) []error {
	var errs []error
	at := "zones[" + z.ID + "]"
	conflict := func(name, value, want string) {
		errs = append(errs, &units.FieldError{Path: at + name, Value: value, Want: want, Err: units.ErrConflict})
	}
	missing := func(name, want string) {
		errs = append(errs, &units.FieldError{Path: at + name, Want: want, Err: units.ErrMissing})
	}
	if !z.X.Given() {
		missing(".x", "the place of the zone, fore and aft")
	}
	if !z.Y.Given() {
		missing(".y", "the place of the zone, left of the centreline")
	}
	path := z.ToX.Given() || z.ToY.Given()
	switch {
	case z.Radius != 0 && (path || z.Length != 0 || z.Width != 0):
		conflict(".radius", exact(z.Radius), "one shape: a box (length, width), a swing (radius, from, to) or a path (to_x, to_y, width)")
	case path && z.Length != 0:
		conflict(".length", exact(z.Length), "one shape: a box (length, width), a swing (radius, from, to) or a path (to_x, to_y, width)")
	case z.Radius != 0:
		if turn := float64(z.To - z.From); !(turn > 0 && turn <= 2*math.Pi*(1+1e-12)) {
			conflict(".to", exact(z.To), "after from, by at most a full turn")
		}
		if z.Clearance == 0 {
			missing(".clearance", "the air that a swing needs around it, such as 1 in")
		}
	case path:
		if !z.ToX.Given() {
			missing(".to_x", "to_x and to_y together")
		}
		if !z.ToY.Given() {
			missing(".to_y", "to_x and to_y together")
		}
		if z.Width == 0 {
			missing(".width", "the width of the path")
		}
	default:
		if z.Length == 0 {
			missing(".length", "a shape: length and width, a radius, or to_x and to_y")
		} else if z.Width == 0 {
			missing(".width", "length and width together")
		}
	}
	if z.Bottom.Given() != z.Top.Given() {
		missing(".top", "bottom and top together")
	} else if z.Bottom.Given() && z.Bottom.Length() > z.Top.Length() {
		conflict(".bottom", exact(z.Bottom), "at most the top, "+exact(z.Top))
	}
	name := func(field, id string) {
		switch st := known[Path(id)]; {
		case st == nil:
			errs = append(errs, unknownComponent(at+field, id))
		case st.Box.Length == 0 || st.Box.Width == 0:
			errs = append(errs, &units.FieldError{Path: id + ".box.length", Want: "the box of a component that zone " + z.ID + " names", Err: units.ErrMissing})
		}
	}
	if z.Owner != "" {
		if known[Path(z.Owner)] == nil {
			errs = append(errs, unknownComponent(at+".owner", z.Owner))
		}
	}
	for i, id := range z.Against {
		name(fmt.Sprintf(".against[#%d]", i+1), id)
	}
	return errs
}

// deriveStability fills what follows from other values: how high the coupler
// of independent axles stands with the springs free, if the ball is set for a
// level frame in the first listed fill.
func (m *Model) deriveStability() {
	s := m.spec
	if s.Trailer == nil || s.Trailer.Suspension != "independent" || s.Trailer.FreeHeight != 0 || len(senseOfStability(s)) > 0 {
		return
	}
	fills, err := fillStates(s)
	if err != nil || len(fills) == 0 {
		return
	}
	in := weightsOf(s)
	in.fills = fills[:1]
	ball, err := statics.LevelBall(in.trailer, in.masses(0), in.springs)
	if err != nil {
		return
	}
	if math.Abs(float64(ball)) > farthestBall {
		return // asked for
	}
	s.Trailer.FreeHeight = s.Trailer.CouplerHeight - ball
	m.origins["trailer.free_height"] = Origin{Basis: Assumed, Why: "the ball is set for a level frame in fill state " + fills[0].name}
}

// farthestBall is how far above or below its place under a level frame with free
// springs package statics lets the ball stand, m.
const farthestBall = 1.0

// senseOfFreeHeight asks for the free height where none could be derived.
func senseOfFreeHeight(s *Spec) []error {
	t := s.Trailer
	switch {
	case t == nil || t.Suspension != "independent" || t.CouplerHeight == 0:
	case t.FreeHeight == 0:
		return []error{&units.FieldError{Path: "trailer.free_height", Want: "height of the coupler with the frame level and the axles just touching; it does not follow from the weights", Err: units.ErrMissing}}
	case math.Abs(float64(t.CouplerHeight-t.FreeHeight)) > farthestBall:
		return []error{&units.FieldError{Path: "trailer.free_height", Value: exact(t.FreeHeight), Want: "within 1 m of the coupler height, " + exact(t.CouplerHeight), Err: units.ErrConflict}}
	}
	return nil
}

// senseOfSprings refuses independent axles on which the frame does not stand in some
// fill state: package statics has no answer there.
func senseOfSprings(s *Spec) []error {
	if s.Trailer == nil || s.Trailer.Suspension != "independent" {
		return nil
	}
	fills, err := fillStates(s)
	if err != nil {
		return nil // told with its states
	}
	in := weightsOf(s)
	in.fills = fills
	if !in.solvable() {
		return nil
	}
	for i := range fills {
		_, err := statics.Suspend(in.trailer, in.masses(i), in.springs)
		var f *units.FieldError
		if errors.As(err, &f) {
			return []error{&units.FieldError{Path: "trailer.spring_load", Value: exact(s.Trailer.SpringLoad), Want: "springs and a coupler on which the trailer stands in fill state " + fills[i].name + ": " + f.Want, Err: units.ErrConflict}}
		}
	}
	return nil
}
