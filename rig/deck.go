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
	Trailer  statics.Trailer  // with the height of the coupler, if it is given
	Axles    []units.Position // front to rear; only the middle of the group if their distance is not given
	Height   units.Length     // of the deck above the ground; 0: not given
	Platform *statics.Block   // outline of the deck in plan
	Boxes    []DeckBox
	Zones    []DeckZone
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

// Deck returns the trailer as a drawing shows it; ok is false if there is no
// trailer, or no axle to draw it by.
func (m *Model) Deck() (d Deck, ok bool) {
	t := m.spec.Trailer
	if t == nil || !t.AxleGroup.Given() {
		return d, false
	}
	l := m.blocks.stability.in.layout
	d = Deck{Trailer: m.blocks.statics.in.trailer, Height: t.DeckHeight, Jack: t.Jack, Tail: tailOf(t), Axles: []units.Position{t.AxleGroup}}
	if at, err := d.Trailer.AxlePositions(); err == nil {
		d.Axles = at
	}
	if l.decked {
		p := l.deck
		d.Platform = &p
	}
	for _, b := range l.blocks {
		box := DeckBox{Path: Path(b.Name), Name: l.names[b.Name], Block: b, Tank: strings.HasPrefix(b.Name, "tanks[")}
		for pair := range l.kin {
			box.Inside = box.Inside || pair[0] == b.Name && strings.HasPrefix(pair[1], "items[") && l.has(pair[1]) && !strings.HasPrefix(b.Name, "items[")
		}
		d.Boxes = append(d.Boxes, box)
	}
	for i, z := range l.zones {
		title := m.spec.Zones[i].Title
		if title == "" {
			title = m.spec.Zones[i].ID
		}
		d.Zones = append(d.Zones, DeckZone{ID: m.spec.Zones[i].ID, Title: title, Zone: z})
	}
	return d, true
}

// A Spacing is two things on the deck that stand too near each other.
type Spacing struct {
	A, B           string // names of a box, and of another box or a zone
	Distance, Need units.Length
	Fire           bool // fuel and heat
}

// Clashes lists what stands too near what, the greatest shortfall first.
func (m *Model) Clashes() ([]Spacing, error) {
	l := &m.blocks.stability.in.layout
	var list []spacing
	if err := l.spacings(func(s *spacing) {
		if s.spare() < 0 {
			list = append(list, *s)
		}
	}); err != nil {
		return nil, err
	}
	slices.SortStableFunc(list, func(a, b spacing) int { return narrower(&a, &b) })
	var out []Spacing
	for i := range list {
		s := &list[i]
		out = append(out, Spacing{l.names[s.a], l.names[s.b], s.distance, s.need, s.fire})
	}
	return out, nil
}

// An UnweighedPart is a component that nobody weighed.
type UnweighedPart struct {
	Path   Path
	Name   string // as unweighed[...] calls it
	Likely Band   // what it is likely to weigh
}

// Unweighed lists the components whose place is known and whose mass is not.
func (m *Model) Unweighed() []UnweighedPart {
	if m.spec.Trailer == nil {
		return nil
	}
	var out []UnweighedPart
	for _, p := range unweighedParts(m.spec, components(m.spec)) {
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
	if len(s.TieDowns) == 0 {
		add("tie_downs", "whether the load is held")
	}
}
