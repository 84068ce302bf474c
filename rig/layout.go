package rig

import (
	"cmp"
	"slices"
	"strings"

	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// layout is what stands on the deck and what is to be kept clear.
type layout struct {
	blocks []statics.Block
	zones  []statics.Zone
	here   []statics.Zone    // those that concern something that has a place
	names  map[string]string // of blocks and zones, as they stand in the paths of metrics
	kin    map[[2]string]bool
	fuel   map[string]bool // blocks that hold fuel
	hot    map[string]bool // blocks that burn it
	deck   statics.Block
	decked bool
}

// layoutOf reads boxes and zones. A component that an item counts stands inside
// the item's box, so these two are not held against each other; nor is a zone
// against the item that its owner belongs to.
func layoutOf(s *Spec, all []stocked) layout {
	l := layout{names: map[string]string{}, kin: map[[2]string]bool{}, fuel: map[string]bool{}, hot: map[string]bool{}}
	var height units.Position
	if t := s.Trailer; t != nil {
		if t.DeckHeight != 0 {
			height = units.PositionAt(t.DeckHeight)
		}
		if t.DeckFront.Given() && t.DeckLength != 0 && t.DeckWidth != 0 {
			l.decked = true
			l.deck = statics.Block{Name: "deck", Fore: t.DeckFront, Aft: t.DeckFront.Add(t.DeckLength), Right: units.PositionAt(-t.DeckWidth / 2), Left: units.PositionAt(t.DeckWidth / 2)}
		}
	}
	taken := map[string]int{}
	within := map[string]string{}
	for _, c := range all {
		b := &c.stock.Box
		if b.Length == 0 || b.Width == 0 || c.path == "trailer" {
			continue
		}
		x, y, bottom := b.X, b.Y, b.Bottom
		if !x.Given() {
			x = c.stock.X
		}
		if !y.Given() {
			y = c.stock.Y
		}
		if !x.Given() || !y.Given() {
			continue // listed as open
		}
		if !bottom.Given() {
			bottom = height
		}
		name := string(c.path)
		l.blocks = append(l.blocks, statics.BlockAround(name, x, y, b.Length, b.Width, bottom, b.Height))
		list, id, _ := strings.Cut(strings.TrimSuffix(name, "]"), "[")
		l.names[name] = id
		taken[id]++
		if c.stock.Within != "" {
			within[name] = "items[" + c.stock.Within + "]"
		}
		switch list {
		case "fuel_tanks":
			l.fuel[name] = true
		case "heaters", "engines":
			l.hot[name] = true
		case "sources":
			for i := range s.Sources {
				if g := &s.Sources[i]; g.ID == id && (g.Type == "portable" || g.Type == "inverter" && g.Battery == "") {
					l.hot[name] = true
				}
			}
		}
	}
	for name, id := range l.names {
		if taken[id] > 1 {
			list, _, _ := strings.Cut(name, "[")
			l.names[name] = strings.ReplaceAll(strings.TrimSuffix(list, "s"), "_", "-") + "-" + id
		}
	}
	for a, b := range within {
		l.kin[[2]string{a, b}], l.kin[[2]string{b, a}] = true, true
	}
	owners := map[string]string{}
	for _, c := range all {
		if c.stock.Within != "" {
			owners[string(c.path)] = "items[" + c.stock.Within + "]"
		}
	}
	for i := range s.Zones {
		z := &s.Zones[i]
		name := "zones[" + z.ID + "]"
		l.names[name] = z.ID
		l.zones = append(l.zones, zoneOf(z, name))
		if z.Owner != "" {
			l.kin[[2]string{z.Owner, name}] = true
			l.kin[[2]string{owners[z.Owner], name}] = true
		}
	}
	for _, z := range l.zones {
		concerns := len(z.Against) > 0
		var here []string
		for _, a := range z.Against {
			if l.has(a) {
				here = append(here, a)
			}
		}
		z.Against = here
		if !concerns || len(here) > 0 {
			l.here = append(l.here, z)
		}
	}
	return l
}

// has reports whether a component stands on the deck with a box of its own.
func (l *layout) has(name string) bool {
	for i := range l.blocks {
		if l.blocks[i].Name == name {
			return true
		}
	}
	return false
}

func zoneOf(z *Zone, name string) statics.Zone {
	out := statics.Zone{Name: name, Clearance: z.Clearance}
	out.Against = append(out.Against, z.Against...)
	switch z.Kind {
	case "heat":
		out.Kind = statics.Heat
	case "exhaust":
		out.Kind = statics.Exhaust
	case "fuel":
		out.Kind = statics.Fuel
	case "access":
		out.Kind = statics.Access
	case "hose-path":
		out.Kind = statics.HosePath
	case "gate-swing":
		out.Kind = statics.GateSwing
	}
	switch {
	case z.Radius != 0:
		out.Swing = &statics.Swing{X: z.X, Y: z.Y, Radius: z.Radius, From: z.From, To: z.To}
	case z.ToX.Given():
		out.Path, out.Width = []statics.Spot{{X: z.X, Y: z.Y}, {X: z.ToX, Y: z.ToY}}, z.Width
	default:
		b := statics.Block{Name: name, Fore: z.X.Add(-z.Length / 2), Aft: z.X.Add(z.Length / 2), Right: z.Y.Add(-z.Width / 2), Left: z.Y.Add(z.Width / 2), Bottom: z.Bottom, Top: z.Top}
		out.Block = &b
		return out
	}
	out.Bottom, out.Top = z.Bottom, z.Top
	return out
}

// A spacing is the distance of two things on the deck.
type spacing struct {
	a, b           string // as statics names them
	distance, need units.Length
	fire           bool // fuel and heat
}

func (s spacing) spare() units.Length { return s.distance - s.need }

// spacings calls visit for every pair that is judged.
func (l *layout) spacings(visit func(spacing)) error {
	if len(l.blocks) == 0 {
		return nil
	}
	return statics.Distances(l.blocks, l.here, func(c statics.Clash) {
		if len(l.kin) > 0 && l.kin[[2]string{c.A, c.B}] {
			return
		}
		s := spacing{a: c.A, b: c.B, distance: c.Distance, need: c.Need}
		switch c.Kind {
		case statics.Heat, statics.Exhaust:
			s.fire = l.fuel[c.A]
		case statics.Fuel:
			s.fire = l.hot[c.A]
		}
		visit(s)
	})
}

// narrower orders spacings: the narrowest first.
func narrower(a, b spacing) int {
	return cmp.Or(cmp.Compare(a.spare(), b.spare()), cmp.Compare(a.a, b.a), cmp.Compare(a.b, b.b))
}

// solve writes every pair that stands too near, and of pairs that do not the
// narrowest of each class whose pairs are all apart, so that a pass is a number too.
func (l *layout) solve(put func(*Metric, string, float64)) error {
	class := func(s spacing) int {
		if s.fire {
			return 1
		}
		return 0
	}
	var shown []spacing
	var short, have [2]bool
	var wide [2]spacing
	err := l.spacings(func(s spacing) {
		k := class(s)
		switch {
		case s.spare() < 0:
			short[k] = true
			shown = append(shown, s)
		case !have[k] || narrower(s, wide[k]) < 0:
			wide[k], have[k] = s, true
		}
	})
	if err != nil {
		return err
	}
	for k := range wide {
		if have[k] && !short[k] {
			shown = append(shown, wide[k])
		}
	}
	slices.SortStableFunc(shown, narrower)
	for i := range shown {
		s := &shown[i]
		distance, need := mClearance, mClearanceNeed
		if s.fire {
			distance, need = mFuelHeat, mFuelHeatNeed
		}
		part := l.names[s.a] + "/" + l.names[s.b]
		put(distance, part, float64(s.distance))
		put(need, part, float64(s.need))
	}
	if l.decked && len(l.blocks) > 0 {
		over, err := statics.Overhangs(l.deck, l.blocks)
		if err != nil {
			return err
		}
		for _, c := range over {
			put(mOverhang, l.names[c.A], -float64(c.Distance))
		}
	}
	return nil
}
