package rig

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// layout is what stands on the deck and what is to be kept clear.
type layout struct {
	blocks []statics.Block
	stands []placed // of each block
	zones  []statics.Zone
	here   []statics.Zone // those that concern something that has a place
	owned  []owner        // of each of those
	deck   statics.Block
	decked bool
}

// placed is what else is known of a block.
type placed struct {
	name   string // as it stands in the paths of metrics
	within int    // block of the item that counts it; −1: none
	fuel   bool   // it holds fuel
	hot    bool   // it burns it
}

// owner is what else is known of a zone.
type owner struct {
	name         string // as it stands in the paths of metrics
	block, floor int    // blocks of its owner and of the item that counts the owner; −1: none
}

// layoutOf reads boxes and zones. A component that an item counts stands inside
// the item's box, so these two are not held against each other; nor is a zone
// against the item that its owner belongs to.
func layoutOf(s *Spec, all []stocked) layout {
	var l layout
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
	var counts []string // the item that counts each block
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
		taken[id]++
		counts = append(counts, c.stock.Within)
		st := placed{name: id, within: -1}
		switch list {
		case "fuel_tanks":
			st.fuel = true
		case "heaters", "engines":
			st.hot = true
		case "sources":
			for i := range s.Sources {
				if g := &s.Sources[i]; g.ID == id && (g.Type == "portable" || g.Type == "inverter" && g.Battery == "") {
					st.hot = true
				}
			}
		}
		l.stands = append(l.stands, st)
	}
	for i := range l.stands {
		st := &l.stands[i]
		if taken[st.name] > 1 {
			list, _, _ := strings.Cut(l.blocks[i].Name, "[")
			st.name = strings.ReplaceAll(strings.TrimSuffix(list, "s"), "_", "-") + "-" + st.name
		}
		if counts[i] != "" {
			st.within = l.find("items[" + counts[i] + "]")
		}
	}
	item := func(path string) int { // that counts a component
		for _, c := range all {
			if string(c.path) == path && c.stock.Within != "" {
				return l.find("items[" + c.stock.Within + "]")
			}
		}
		return -1
	}
	for i := range s.Zones {
		z := &s.Zones[i]
		l.zones = append(l.zones, zoneOf(z, "zones["+z.ID+"]"))
	}
	for i, z := range l.zones {
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
			o := owner{name: s.Zones[i].ID, block: -1, floor: -1}
			if by := s.Zones[i].Owner; by != "" {
				o.block, o.floor = l.find(by), item(by)
			}
			l.owned = append(l.owned, o)
		}
	}
	return l
}

// find returns the block of a component, −1 if it has no box of its own on the deck.
func (l *layout) find(name string) int {
	for i := range l.blocks {
		if l.blocks[i].Name == name {
			return i
		}
	}
	return -1
}

// has reports whether a component stands on the deck with a box of its own.
func (l *layout) has(name string) bool { return l.find(name) >= 0 }

// kin reports whether a pair, as statics numbers them, is not held apart.
func (l *layout) kin(i, j int) bool {
	if k := j - len(l.blocks); k >= 0 {
		return l.owned[k].block == i || l.owned[k].floor == i
	}
	return l.stands[i].within == j || l.stands[j].within == i
}

// fire reports whether a pair is fuel and heat.
func (l *layout) fire(i, j int) bool {
	k := j - len(l.blocks)
	if k < 0 {
		return false
	}
	switch l.here[k].Kind {
	case statics.Heat, statics.Exhaust:
		return l.stands[i].fuel
	case statics.Fuel:
		return l.stands[i].hot
	}
	return false
}

// name returns what the paths of metrics call a block or zone.
func (l *layout) name(i int) string {
	if k := i - len(l.blocks); k >= 0 {
		return l.owned[k].name
	}
	return l.stands[i].name
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
	first, second  int    // as statics numbers them, in that order
	distance, need units.Length
	fire           bool // fuel and heat
}

func (s *spacing) spare() units.Length { return s.distance - s.need }

// spacings calls visit for every pair that is judged, of those whose spare room may be
// less than what least says.
func (l *layout) spacings(on *statics.Layout, least func(fire bool) units.Length, visit func(spacing)) error {
	if len(l.blocks) == 0 {
		return nil
	}
	if err := on.Set(l.blocks, l.here); err != nil {
		return err
	}
	on.Distances(func(i, j int, d units.Length) bool {
		if l.kin(i, j) {
			return false
		}
		if k := j - len(l.blocks); k >= 0 {
			d -= l.here[k].Clearance
		}
		return d <= least(l.fire(i, j))
	}, func(i, j int, c statics.Clash) {
		s := spacing{a: c.A, b: c.B, first: i, second: j, distance: c.Distance, need: c.Need, fire: l.fire(i, j)}
		if j < len(l.blocks) && l.blocks[i].Name != c.A {
			s.first, s.second = j, i
		}
		visit(s)
	})
	return nil
}

// narrower orders spacings: the narrowest first.
func narrower(a, b *spacing) int {
	if c := cmp.Compare(a.spare(), b.spare()); c != 0 {
		return c
	}
	return cmp.Or(cmp.Compare(a.a, b.a), cmp.Compare(a.b, b.b))
}

// A layoutRoom is what solving a layout needs besides.
type layoutRoom struct {
	on    statics.Layout
	shown []spacing
	over  []overhang
}

// overhang is a block that reaches beyond the deck.
type overhang struct {
	block int
	c     statics.Clash
}

// solve writes every pair that stands too near, and of pairs that do not the
// narrowest of each class whose pairs are all apart, so that a pass is a number too.
func (l *layout) solve(w *Workspace, put func(*Metric, string, float64)) error {
	room := scratch[layoutRoom](w)
	class := func(fire bool) int {
		if fire {
			return 1
		}
		return 0
	}
	shown := room.shown[:0]
	var have [2]bool
	var wide [2]spacing
	var most [2]units.Length // spare room from which on a pair is of no interest
	most[0], most[1] = units.Length(math.Inf(1)), units.Length(math.Inf(1))
	err := l.spacings(&room.on, func(fire bool) units.Length { return most[class(fire)] }, func(s spacing) {
		k := class(s.fire)
		switch {
		case s.spare() < 0:
			have[k], most[k] = false, 0
			shown = append(shown, s)
		case most[k] > 0 && (!have[k] || narrower(&s, &wide[k]) < 0):
			wide[k], have[k], most[k] = s, true, s.spare()
		}
	})
	if err != nil {
		return err
	}
	for k := range wide {
		if have[k] {
			shown = append(shown, wide[k])
		}
	}
	slices.SortStableFunc(shown, func(a, b spacing) int { return narrower(&a, &b) })
	for i := range shown {
		s := &shown[i]
		distance, need := mClearance, mClearanceNeed
		if s.fire {
			distance, need = mFuelHeat, mFuelHeatNeed
		}
		part := pairName(w, l.name(s.first), l.name(s.second))
		put(distance, part, float64(s.distance))
		put(need, part, float64(s.need))
	}
	room.shown = shown
	if l.decked && len(l.blocks) > 0 {
		over := room.over[:0]
		if err := room.on.Overhangs(l.deck, func(i int, c statics.Clash) { over = append(over, overhang{i, c}) }); err != nil {
			return err
		}
		slices.SortStableFunc(over, func(a, b overhang) int {
			return cmp.Or(cmp.Compare(a.c.Distance, b.c.Distance), cmp.Compare(a.c.A, b.c.A))
		})
		for i := range over {
			put(mOverhang, l.name(over[i].block), -float64(over[i].c.Distance))
		}
		room.over = over
	}
	return nil
}

// pairName is what the paths of metrics call a pair.
func pairName(w *Workspace, a, b string) string {
	if w == nil {
		return a + "/" + b
	}
	words := [...]string{a, "/", b}
	return w.say(words[:])
}
