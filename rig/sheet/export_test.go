package sheet

import (
	"example.com/washrig/rig"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// DeckElsewhere draws a deck with every place moved aft, the ball included.
func DeckElsewhere(rep *rig.Report, o *Options, by units.Length) (Drawing, error) {
	in := newSource(rep, nil, o)
	d, _ := in.m.Deck()
	clashes, err := in.m.Clashes()
	if err != nil {
		return Drawing{}, err
	}
	x := &deckPicture{in: in, d: d, clashes: clashes, travels: in.travels()}
	move := func(list ...*units.Position) {
		for _, p := range list {
			if p.Given() {
				*p = p.Add(by)
			}
		}
	}
	t := &x.d.Trailer
	if !t.Coupler.Given() {
		t.Coupler = units.PositionAt(0)
	}
	move(&t.Coupler, &t.AxleGroup, &x.d.Jack, &x.d.Tail)
	if b := x.d.Platform; b != nil {
		move(&b.Fore, &b.Aft)
	}
	for i := range x.d.Axles {
		move(&x.d.Axles[i])
	}
	for i := range x.d.Boxes {
		b := &x.d.Boxes[i].Block
		move(&b.Fore, &b.Aft)
	}
	for i := range x.d.Zones {
		z := &x.d.Zones[i].Zone
		switch {
		case z.Block != nil:
			b := *z.Block // shared with the model
			move(&b.Fore, &b.Aft)
			z.Block = &b
		case z.Swing != nil:
			s := *z.Swing
			move(&s.X)
			z.Swing = &s
		}
		path := append([]statics.Spot(nil), z.Path...)
		for k := range path {
			move(&path[k].X)
		}
		z.Path = path
	}
	for i := range x.travels {
		for k := range x.travels[i].surfaces {
			s := &x.travels[i].surfaces[k]
			move(&s.Fore, &s.Aft)
		}
	}
	return x.draw(), nil
}

// Wide is how wide a drawing reckons words to be.
func Wide(words string, size float64) float64 { return wide(words, size) }

// ZoneOutline is how a zone is drawn, with a distance around it.
func ZoneOutline(z *statics.Zone, away units.Length) [][2]float64 {
	return outlineOf(z, float64(away))
}
