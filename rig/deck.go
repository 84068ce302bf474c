package rig

import (
	"slices"
	"strings"

	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// A Deck is the trailer as a drawing shows it: where it rests, what stands on
// it, and what is to be kept clear. What is not given is left out.
type Deck struct {
	Trailer  statics.Trailer  // with place and height of the coupler, if they are given; no Axles: there is no trailer
	Axles    []units.Position // front to rear; only the middle of the group if their distance is not given
	Height   units.Length     // of the deck above the ground; 0: not given
	Platform *statics.Block   // outline of the deck in plan
	Boxes    []DeckBox
	Zones    []DeckZone
	NoBox    []Path // components that weigh and have no place or no box to be drawn by
	Jack     units.Position
	Tail     units.Position
}

// A DeckBox is a component with a box.
type DeckBox struct {
	Path   Path
	Name   string // as clearances call it
	Block  statics.Block
	Inside bool // within the box of an item
	Tank   bool // it holds water
}

// A DeckZone is a zone with its words.
type DeckZone struct {
	ID, Title string
	Zone      statics.Zone
}

// Deck returns the trailer as a drawing shows it, or without a trailer, as of a
// skid in a van, what has a box and a place; ok is false if there is neither.
func (m *Model) Deck() (d Deck, ok bool) {
	l := m.blocks.stability.in.layout
	if t := m.spec.Trailer; t != nil && t.AxleGroup.Given() {
		d = Deck{Trailer: m.blocks.statics.in.trailer, Height: t.DeckHeight, Jack: t.Jack, Tail: tailOf(t), Axles: []units.Position{t.AxleGroup}}
		if at, err := d.Trailer.AxlePositions(); err == nil {
			d.Axles = at
		}
	} else if len(l.blocks) == 0 {
		return d, false
	}
	if l.decked {
		p := l.deck
		d.Platform = &p
	}
	for i, b := range l.blocks {
		item := strings.HasPrefix(b.Name, "items[")
		box := DeckBox{Path: Path(b.Name), Name: l.stands[i].name, Block: b, Tank: strings.HasPrefix(b.Name, "tanks["), Inside: !item && l.stands[i].within >= 0}
		d.Boxes = append(d.Boxes, box)
	}
	for i, z := range l.zones {
		title := m.spec.Zones[i].Title
		if title == "" {
			title = m.spec.Zones[i].ID
		}
		d.Zones = append(d.Zones, DeckZone{ID: m.spec.Zones[i].ID, Title: title, Zone: z})
	}
	for _, c := range components(m.spec) {
		if c.path != "trailer" && c.weighs() && !l.has(string(c.path)) {
			d.NoBox = append(d.NoBox, c.path)
		}
	}
	return d, true
}

// A Surface is how high the liquid of one tank stands.
type Surface struct {
	Path       Path // of the tank
	Name       string
	Volume     units.Volume
	Fore, Aft  units.Position // ends of the room that holds it
	Floor, Top units.Position // heights of that room
	Level      units.Position // of the surface, the trailer standing level
	Round      bool           // seen from the side the room is a circle
	Inferred   bool           // by the share of its volume; the inside form is not given
}

// Surfaces returns how high water and fuel stand in a fill state, tank by tank.
// A tank without a place and a height is left out.
func (m *Model) Surfaces(s State) []Surface {
	i := int(s.v[AxisFill]) - 1
	if i < 0 || i >= len(m.fills) {
		return nil
	}
	l, f := &m.blocks.stability.in.layout, &m.fills[i]
	var out []Surface
	add := func(list, id string, volume, nominal units.Volume, fill func(*Surface) bool) {
		x := Surface{Path: Path(list + "[" + id + "]"), Name: id, Volume: volume}
		if k := l.find(string(x.Path)); k >= 0 {
			x.Name = l.stands[k].name
		}
		for k := range l.blocks {
			if b := &l.blocks[k]; b.Name == string(x.Path) {
				x.Fore, x.Aft, x.Floor, x.Top = b.Fore, b.Aft, b.Bottom, b.Top
			}
		}
		if !fill(&x) {
			x.Inferred = true
			x.Level = x.Floor.Add(units.Length(min(float64(volume/nominal), 1)) * x.Top.Sub(x.Floor))
		}
		if x.Fore.Given() && x.Aft.Given() && x.Floor.Given() && x.Top.Given() {
			out = append(out, x)
		}
	}
	for k := range m.spec.Tanks {
		t := &m.spec.Tanks[k]
		add("tanks", t.ID, units.Volume(f.water[k]), t.Nominal, func(x *Surface) bool {
			if !t.Floor.Given() {
				return false
			}
			if t.Height != 0 && x.Fore.Given() {
				x.Floor, x.Top = t.Floor, t.Floor.Add(t.Height)
			}
			v, ok := vesselOf(t)
			if !ok || !t.X.Given() {
				return false
			}
			holds, err := v.Capacity()
			if err != nil {
				return false
			}
			depth, _, err := v.Depth(holds * units.Volume(min(f.water[k]/float64(t.Nominal), 1)))
			if err != nil {
				return false
			}
			length, height := v.Length, v.Height
			switch v.Shape {
			case statics.UprightCylinder:
				length = v.Diameter
			case statics.LengthwiseCylinder:
				height = v.Diameter
			case statics.CrosswiseCylinder:
				length, height = v.Diameter, v.Diameter
				x.Round = true
			}
			x.Fore, x.Aft = t.X.Add(-length/2), t.X.Add(length/2)
			x.Floor, x.Top, x.Level = t.Floor, t.Floor.Add(height), t.Floor.Add(depth)
			return true
		})
	}
	for k := range m.spec.FuelTanks {
		t := &m.spec.FuelTanks[k]
		add("fuel_tanks", t.ID, units.Volume(f.fuel[k]), t.Volume, func(*Surface) bool { return false })
	}
	return out
}

// A Spacing is two things on the deck that stand too near each other.
type Spacing struct {
	A, B           string // names of a box, and of another box or a zone
	PathA, PathB   Path
	Distance, Need units.Length
	Fire           bool // fuel and heat
}

// Clashes lists what stands too near what, the greatest shortfall first.
func (m *Model) Clashes() ([]Spacing, error) {
	l := &m.blocks.stability.in.layout
	var list []spacing
	var on statics.Layout
	if err := l.spacings(&on, func(bool) units.Length { return 0 }, func(s spacing) {
		if s.spare() < 0 {
			list = append(list, s)
		}
	}); err != nil {
		return nil, err
	}
	slices.SortStableFunc(list, func(a, b spacing) int { return narrower(&a, &b) })
	var out []Spacing
	for i := range list {
		s := &list[i]
		out = append(out, Spacing{l.name(s.first), l.name(s.second), Path(s.a), Path(s.b), s.distance, s.need, s.fire})
	}
	return out, nil
}

// An UnweighedPart is a component that nobody weighed.
type UnweighedPart struct {
	Path   Path
	Name   string // as unweighed[...] calls it
	Likely Band   // what it is likely to weigh
}

// Unweighed lists the components whose place is known and whose mass is not; in a
// vehicle without a trailer the place does not matter.
func (m *Model) Unweighed() []UnweighedPart {
	if m.spec.Trailer == nil && m.spec.TowVehicle == nil {
		return nil
	}
	var out []UnweighedPart
	unweighed, _ := unweighedParts(m.spec, components(m.spec))
	for _, p := range unweighed {
		out = append(out, UnweighedPart{p.path, p.name, p.band})
	}
	return out
}

// openForStability lists what sides, tipping, parking, clearances and tie-down
// lack.
func openForStability(s *Spec, add func(Path, string)) {
	if s.Trailer == nil {
		return
	}
	all := components(s)
	if p := sidesMissing(s, all, false); p != "" {
		add(p, "left and right, tyres, and where it tips")
	} else if p := sidesMissing(s, all, true); p != "" {
		add(p, "where it tips")
	}
	if !s.Trailer.Jack.Given() {
		add("trailer.jack", "how it stands unhitched")
	}
	boxes := 0
	for _, c := range all {
		b := &c.stock.Box
		if b.Length == 0 || b.Width == 0 {
			continue
		}
		boxes++
		if !b.X.Given() && !c.stock.X.Given() {
			add(c.path+".box.x", "how near it stands to everything else")
		} else if !b.Y.Given() && !c.stock.Y.Given() {
			add(c.path+".box.y", "how near it stands to everything else")
		}
	}
	if boxes == 0 {
		add("zones", "what is too near what on the deck")
	}
	if hot := slices.ContainsFunc(s.Zones, func(z Zone) bool { return z.Kind == "heat" || z.Kind == "exhaust" }); boxes != 0 && !hot && len(s.FuelTanks) > 0 && len(s.Heaters)+len(s.Engines) > 0 {
		add("zones", "how near fuel stands to hot parts and exhaust")
	}
	if len(s.TieDowns) == 0 {
		add("tie_downs", "whether the load is held")
		return
	}
	full := map[Path]units.Mass{}
	for i := range s.Tanks {
		k := &s.Tanks[i]
		full[Path("tanks["+k.ID+"]")] = mass(k.Nominal, densityIn(k, waterDensity(s)))
	}
	for _, c := range all {
		held := slices.ContainsFunc(s.TieDowns, func(d TieDown) bool { return slices.Contains(d.Holds, string(c.path)) })
		if !held && c.path != "trailer" && c.stock.Within == "" && c.stock.Mass+full[c.path] >= heldFrom {
			add("tie_downs[].holds", "whether "+names([]Path{c.path})+" is held; no tie-down names it")
		}
	}
}

// heldFrom is the mass from which what no tie-down holds is listed: what one person
// carries.
const heldFrom = 50 * units.Pound
