package statics

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/washrig/units"
)

// A Block is a box on the deck with its sides along the axes. Heights may be left
// out; it then reaches as far up and down as whatever it meets.
type Block struct {
	Name        string
	Fore, Aft   units.Position // along X; Fore is nearer the coupler
	Right, Left units.Position // along Y
	Bottom, Top units.Position // along Z; both or neither
}

// BlockAround returns the block of the given size about a centre in plan, standing
// on a height. No bottom or a height of zero: no heights.
func BlockAround(name string, x, y units.Position, length, width units.Length, bottom units.Position, height units.Length) Block {
	b := Block{Name: name, Fore: x.Add(-length / 2), Aft: x.Add(length / 2), Right: y.Add(-width / 2), Left: y.Add(width / 2)}
	if bottom.Given() && height != 0 {
		b.Bottom, b.Top = bottom, bottom.Add(height)
	}
	return b
}

// A Swing is the place a gate or door needs: a sector in plan about its hinge.
// Angles are measured from straight aft (+X) towards the left (+Y).
type Swing struct {
	X, Y     units.Position // the hinge
	Radius   units.Length
	From, To units.Angle // To after From, at most a full turn
}

// A Spot is a place in plan.
type Spot struct{ X, Y units.Position }

// A ZoneKind says why a zone is kept clear.
type ZoneKind int

const (
	Heat     ZoneKind = iota + 1 // burner, stack, hot surfaces
	Exhaust                      // of engines and burners
	Fuel                         // tanks, fills and lines
	Access                       // standing room, service, drain and fill points
	HosePath                     // line of pull of a reel
	GateSwing
)

// String returns "heat", "exhaust", "fuel", "access", "hose path" or "gate swing".
func (k ZoneKind) String() string {
	switch k {
	case Heat:
		return "heat"
	case Exhaust:
		return "exhaust"
	case Fuel:
		return "fuel"
	case Access:
		return "access"
	case HosePath:
		return "hose path"
	case GateSwing:
		return "gate swing"
	}
	return "no kind"
}

// A Zone is a place to be kept clear, and a distance around it. It has exactly one
// shape: a block, a swing, or a path of the given width.
type Zone struct {
	Name      string
	Kind      ZoneKind
	Clearance units.Length // to be kept from the shape; 0: only out of it
	Owner     string       // the block it belongs to, which may stand in it
	Against   []string     // blocks it concerns; none: all

	Block *Block
	Swing *Swing
	Path  []Spot
	Width units.Length // of the path

	Bottom, Top units.Position // heights of a swing or path; both or neither: all heights
}

// A Clash is two things too near each other.
type Clash struct {
	A, B     string       // a block, and another block or a zone
	Kind     ZoneKind     // of the zone; 0 between blocks
	Distance units.Length // between the shapes; 0 or less where they overlap
	Need     units.Length // distance that was asked for
}

// Clashes returns what is too near what: blocks nearer to each other than gap, and
// blocks nearer to a zone than its clearance. The greatest shortfall comes first,
// then the order of names.
//
// Distances are between nearest points, in three dimensions where both have heights
// and in plan where one has none. Where two blocks overlap the distance is negative:
// the least movement along one axis that parts them. A path entered by a block has
// minus the depth of entry from its edge, at most half its width; a swing entered or
// touched has 0.
//
// Errors: a block or zone without its coordinates, or with ends the wrong way
// round; a zone of no kind or not of one shape; clearance or gap out of range; an
// owner or concern that is no block; two blocks of one name.
func Clashes(blocks []Block, zones []Zone, gap units.Length) ([]Clash, error) {
	errs := checkLayout(blocks, zones)
	if !(gap >= 0 && gap <= maxPosition) {
		errs = append(errs, &units.FieldError{Path: "gap", Value: gap.String(), Want: "0 m to 100 m", Err: units.ErrRange})
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	var out []Clash
	distances(blocks, zones, func(c Clash, in bool) {
		if c.Kind == 0 {
			c.Need, in = gap, c.Distance < 0
		}
		if c.Distance < c.Need || in {
			out = append(out, c)
		}
	})
	sortClashes(out)
	return out, nil
}

// Distances calls visit for every pair that [Clashes] holds apart, near or far: two
// blocks, with Need zero, and a block and a zone that concerns it. The order is that
// of the lists. Nothing is kept, so a caller that wants the narrowest alone pays for
// no list.
//
// Errors: those of [Clashes].
func Distances(blocks []Block, zones []Zone, visit func(Clash)) error {
	if err := errors.Join(checkLayout(blocks, zones)...); err != nil {
		return err
	}
	distances(blocks, zones, func(c Clash, _ bool) { visit(c) })
	return nil
}

func distances(blocks []Block, zones []Zone, visit func(c Clash, in bool)) {
	var l Layout
	l.put(blocks, zones)
	l.walk(func(int, int, units.Length) bool { return true }, func(_, _ int, c Clash, in bool) { visit(c, in) })
}

// A Layout is blocks and zones checked once, in memory that it keeps from one layout to
// the next. The zero Layout holds nothing.
type Layout struct {
	blocks []Block
	zones  []Zone
	solids []solid // of the blocks, then one around each zone, of a swing around its whole circle
}

// Set checks blocks and zones, which must not change as long as the Layout is asked;
// see [Clashes] for the errors. After an error the Layout holds nothing.
func (l *Layout) Set(blocks []Block, zones []Zone) error {
	if err := errors.Join(checkLayout(blocks, zones)...); err != nil {
		*l = Layout{}
		return err
	}
	l.put(blocks, zones)
	return nil
}

func (l *Layout) put(blocks []Block, zones []Zone) {
	l.blocks, l.zones, l.solids = blocks, zones, l.solids[:0]
	for i := range blocks {
		l.solids = append(l.solids, blocks[i].solid())
	}
	for i := range zones {
		z := &zones[i]
		if z.Swing != nil {
			w := z.Swing.sector()
			l.solids = append(l.solids, z.heights(solid{lo: [3]float64{w.x - w.r, w.y - w.r}, hi: [3]float64{w.x + w.r, w.y + w.r}}))
			continue
		}
		l.solids = append(l.solids, z.around())
	}
}

// Distances is [Distances] that leaves out what the caller has no use for: before a pair
// is visited, want is asked with a distance that the pair's is not less than, and those
// for which it says false are passed over. A pair is block i of the list and block j, or
// zone j − number of blocks. It does not allocate.
func (l *Layout) Distances(want func(i, j int, least units.Length) bool, visit func(i, j int, c Clash)) {
	l.walk(want, func(i, j int, c Clash, _ bool) { visit(i, j, c) })
}

func (l *Layout) walk(want func(i, j int, least units.Length) bool, visit func(i, j int, c Clash, in bool)) {
	const rounding = 1e-9 // m, by which a bound may be too great
	for i := range l.blocks {
		at := &l.solids[i]
		for j := i + 1; j < len(l.blocks); j++ {
			d := units.Length(blockDistance(at, &l.solids[j]))
			if !want(i, j, d) {
				continue
			}
			a, b := l.blocks[i].Name, l.blocks[j].Name
			if a > b {
				a, b = b, a
			}
			visit(i, j, Clash{A: a, B: b, Distance: d}, false)
		}
		for k := range l.zones {
			z, j, name := &l.zones[k], len(l.blocks)+k, l.blocks[i].Name
			if name == z.Owner || len(z.Against) > 0 && !slices.Contains(z.Against, name) {
				continue
			}
			d := blockDistance(&l.solids[j], at)
			in := d < 0
			if z.Block == nil {
				if z.Swing != nil { // no nearer than the whole circle
					w := z.Swing
					d = max(d, at.plan().point(float64(w.X.Length()), float64(w.Y.Length()))-float64(w.Radius))
				}
				least := units.Length(math.Inf(-1))
				if d > 0 {
					least = units.Length(d - rounding)
				}
				if !want(i, j, least) {
					continue
				}
				d, in = z.distance(*at)
			} else if !want(i, j, units.Length(d)) {
				continue
			}
			visit(i, j, Clash{A: name, B: z.Name, Kind: z.Kind, Distance: units.Length(d), Need: z.Clearance}, in)
		}
	}
}

// Overhangs calls visit for each block that reaches beyond a deck, as [Overhangs] lists
// them, in the order of the blocks. It does not allocate.
//
// Errors: those of [Overhangs] that are the deck's.
func (l *Layout) Overhangs(deck Block, visit func(i int, c Clash)) error {
	if !deck.fits() {
		return errors.Join(deck.check("deck")...)
	}
	d := deck.solid()
	for i := range l.blocks {
		if over := d.overhang(&l.solids[i]); over > 0 {
			visit(i, Clash{A: l.blocks[i].Name, B: deck.Name, Distance: units.Length(-over)})
		}
	}
	return nil
}

// overhang returns how far another solid reaches out of this one in plan.
func (s *solid) overhang(o *solid) float64 {
	return max(s.lo[0]-o.lo[0], o.hi[0]-s.hi[0], s.lo[1]-o.lo[1], o.hi[1]-s.hi[1])
}

// Overhangs returns the blocks that reach beyond a deck in plan: A is the block, B
// the deck, Distance minus how far it reaches out on the side where that is most.
//
// Errors: those of [Clashes].
func Overhangs(deck Block, blocks []Block) ([]Clash, error) {
	errs := append(deck.check("deck"), checkLayout(blocks, nil)...)
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	var out []Clash
	d := deck.solid()
	for i := range blocks {
		b := blocks[i].solid()
		if over := d.overhang(&b); over > 0 {
			out = append(out, Clash{A: blocks[i].Name, B: deck.Name, Distance: units.Length(-over)})
		}
	}
	sortClashes(out)
	return out, nil
}

func sortClashes(cs []Clash) {
	slices.SortStableFunc(cs, func(a, b Clash) int {
		return cmp.Or(cmp.Compare(a.Distance-a.Need, b.Distance-b.Need), cmp.Compare(a.A, b.A), cmp.Compare(a.B, b.B), cmp.Compare(a.Kind, b.Kind))
	})
}

// Extent returns the smallest block that holds the coupler, the axles, all blocks
// and all zones: what a drawing to scale has to show. Heights are those that are
// given, from the ground up.
//
// Errors: those of [Trailer.AxlePositions] and [Clashes].
func Extent(t Trailer, blocks []Block, zones []Zone) (Block, error) {
	axles, err := t.AxlePositions()
	if err = errors.Join(err, errors.Join(checkLayout(blocks, zones)...)); err != nil {
		return Block{}, err
	}
	half := float64(t.Track) / 2
	s := solid{lo: [3]float64{float64(t.Coupler.Length()), -half, 0}, hi: [3]float64{float64(t.Coupler.Length()), half, float64(t.CouplerHeight)}}
	grow := func(o solid) {
		for i := range s.lo {
			s.lo[i], s.hi[i] = min(s.lo[i], o.lo[i]), max(s.hi[i], o.hi[i])
		}
	}
	for _, x := range axles {
		s.lo[0], s.hi[0] = min(s.lo[0], float64(x.Length())), max(s.hi[0], float64(x.Length()))
	}
	for i := range blocks {
		grow(blocks[i].solid().seen())
	}
	for i := range zones {
		grow(zones[i].around().seen())
	}
	at := func(v float64) units.Position { return units.PositionAt(units.Length(v)) }
	return Block{Name: "extent", Fore: at(s.lo[0]), Aft: at(s.hi[0]), Right: at(s.lo[1]), Left: at(s.hi[1]), Bottom: at(s.lo[2]), Top: at(s.hi[2])}, nil
}

// Outline returns the zone's shape in plan as a closed polygon for a drawing; the
// arc of a swing is cut into pieces of at most 5°. A path is returned as its line,
// to be drawn with its width.
//
// Errors: those of [Clashes] for a zone.
func (z Zone) Outline() ([]Spot, error) {
	if err := errors.Join(z.check("zone")...); err != nil {
		return nil, err
	}
	at := func(x, y float64) Spot {
		return Spot{units.PositionAt(units.Length(x)), units.PositionAt(units.Length(y))}
	}
	switch {
	case z.Block != nil:
		s := z.Block.solid()
		return []Spot{at(s.lo[0], s.lo[1]), at(s.hi[0], s.lo[1]), at(s.hi[0], s.hi[1]), at(s.lo[0], s.hi[1])}, nil
	case z.Swing != nil:
		w := z.Swing.sector()
		n := int(math.Ceil((w.to - w.from) / (5 * math.Pi / 180)))
		out := []Spot{at(w.x, w.y)}
		for i := range n + 1 {
			sin, cos := math.Sincos(w.from + (w.to-w.from)*float64(i)/float64(n))
			out = append(out, at(w.x+w.r*cos, w.y+w.r*sin))
		}
		return out, nil
	}
	return slices.Clone(z.Path), nil
}

// solid is a block in metres. A block without heights runs from −Inf to +Inf.
type solid struct{ lo, hi [3]float64 }

func (b *Block) solid() solid {
	s := solid{
		lo: [3]float64{float64(b.Fore.Length()), float64(b.Right.Length()), math.Inf(-1)},
		hi: [3]float64{float64(b.Aft.Length()), float64(b.Left.Length()), math.Inf(1)},
	}
	if b.Bottom.Given() {
		s.lo[2], s.hi[2] = float64(b.Bottom.Length()), float64(b.Top.Length())
	}
	return s
}

// plan is the solid seen from above.
func (s *solid) plan() rectangle { return rectangle{s.lo[0], s.lo[1], s.hi[0], s.hi[1]} }

// seen leaves out heights that were not given.
func (s solid) seen() solid {
	if math.IsInf(s.hi[2], 1) {
		s.lo[2], s.hi[2] = 0, 0
	}
	return s
}

// between returns the distance between two intervals, negative by their overlap:
// the least shift that parts them.
func between(alo, ahi, blo, bhi float64) float64 { return max(blo-ahi, alo-bhi) }

func blockDistance(a, b *solid) float64 {
	sum, least := 0.0, math.Inf(-1)
	for i := range a.lo {
		d := between(a.lo[i], a.hi[i], b.lo[i], b.hi[i])
		if d > 0 {
			sum += d * d
		}
		least = max(least, d) // the axis along which parting them takes least
	}
	if sum > 0 {
		return math.Sqrt(sum)
	}
	return least
}

// distance returns how far a block is from the zone's shape, and whether it is in
// it.
func (z *Zone) distance(b solid) (d float64, in bool) {
	if z.Block != nil {
		s := z.Block.solid()
		d = blockDistance(&s, &b)
		return d, d < 0
	}
	rect := b.plan()
	var plan float64
	if z.Swing != nil {
		plan = z.Swing.sector().distance(rect)
		in = plan <= 0
	} else {
		plan = math.Inf(1)
		for i := range z.Path {
			plan = min(plan, rect.segment(z.leg(i)))
		}
		plan -= float64(z.Width) / 2
		in = plan < 0
	}
	up := math.Inf(-1)
	if z.Bottom.Given() {
		up = between(float64(z.Bottom.Length()), float64(z.Top.Length()), b.lo[2], b.hi[2])
	}
	switch {
	case up < 0:
		return plan, in
	case plan <= 0:
		return up, false
	}
	return math.Hypot(plan, up), false
}

// leg returns the ends of the i-th leg of a path; the last point is a leg of its own.
func (z *Zone) leg(i int) (ax, ay, bx, by float64) {
	a, b := z.Path[i], z.Path[min(i+1, len(z.Path)-1)]
	return float64(a.X.Length()), float64(a.Y.Length()), float64(b.X.Length()), float64(b.Y.Length())
}

// around returns the smallest solid around the zone's shape.
func (z *Zone) around() solid {
	if z.Block != nil {
		return z.Block.solid()
	}
	s := solid{lo: [3]float64{math.Inf(1), math.Inf(1), math.Inf(-1)}, hi: [3]float64{math.Inf(-1), math.Inf(-1), math.Inf(1)}}
	take := func(x, y, r float64) {
		s.lo[0], s.lo[1] = min(s.lo[0], x-r), min(s.lo[1], y-r)
		s.hi[0], s.hi[1] = max(s.hi[0], x+r), max(s.hi[1], y+r)
	}
	if z.Swing != nil {
		w := z.Swing.sector()
		take(w.x, w.y, 0)
		for _, a := range [...]float64{w.from, w.to, 0, math.Pi / 2, math.Pi, 3 * math.Pi / 2} {
			if sin, cos := math.Sincos(a); w.spans(cos, sin) {
				take(w.x+w.r*cos, w.y+w.r*sin, 0)
			}
		}
	}
	for i := range z.Path {
		x, y, _, _ := z.leg(i)
		take(x, y, float64(z.Width)/2)
	}
	return z.heights(s)
}

// heights gives a solid the heights of a swing or path.
func (z *Zone) heights(s solid) solid {
	s.lo[2], s.hi[2] = math.Inf(-1), math.Inf(1)
	if z.Bottom.Given() {
		s.lo[2], s.hi[2] = float64(z.Bottom.Length()), float64(z.Top.Length())
	}
	return s
}

func checkLayout(blocks []Block, zones []Zone) (errs []error) {
	// Paths are spelt where something is wrong.
	for i := range blocks {
		b := &blocks[i]
		if named(blocks[:i], b.Name) {
			errs = append(errs, &units.FieldError{Path: element("blocks", i, b.Name) + ".name", Value: b.Name, Want: "a name of its own", Err: units.ErrConflict})
		}
		if !b.fits() {
			errs = append(errs, b.check(element("blocks", i, b.Name))...)
		}
	}
	for i := range zones {
		z := &zones[i]
		if !z.fits() {
			errs = append(errs, z.check(element("zones", i, z.Name))...)
		}
		if blocks == nil {
			continue
		}
		for _, n := range z.Against {
			errs = checkKnown(errs, blocks, n, i, z.Name)
		}
		errs = checkKnown(errs, blocks, z.Owner, i, z.Name)
	}
	return errs
}

func checkKnown(errs []error, blocks []Block, name string, i int, zone string) []error {
	if name != "" && !named(blocks, name) {
		errs = append(errs, &units.FieldError{Path: element("zones", i, zone), Value: name, Want: "the name of a block", Err: units.ErrRange})
	}
	return errs
}

// fits, of a block and of a zone, say whether there is anything to report, so that the
// paths of errors are spelt only where one is.
func (b *Block) fits() bool {
	return fitInterval(b.Fore, b.Aft, true) && fitInterval(b.Right, b.Left, true) && fitInterval(b.Bottom, b.Top, false)
}

func (z *Zone) fits() bool {
	if z.Kind < Heat || z.Kind > GateSwing || !(z.Clearance >= 0 && z.Clearance <= maxPosition) {
		return false
	}
	if z.Block != nil {
		return z.Block.fits() && !z.Bottom.Given() && !z.Top.Given() && z.Swing == nil && len(z.Path) == 0
	}
	if !fitInterval(z.Bottom, z.Top, false) || (z.Swing != nil) == (len(z.Path) > 0) {
		return false
	}
	if w := z.Swing; w != nil {
		return fitSpot(w.X, w.Y) && w.Radius > 0 && w.Radius <= maxPosition && w.fitTurn()
	}
	for _, p := range z.Path {
		if !fitSpot(p.X, p.Y) {
			return false
		}
	}
	return z.Width >= 0 && z.Width <= maxPosition
}

func fitInterval(lo, hi units.Position, need bool) bool {
	if !lo.Given() && !hi.Given() {
		return !need
	}
	return lo.Given() && hi.Given() && fitLength(lo.Length()) && fitLength(hi.Length()) && lo.Length() <= hi.Length()
}

func fitSpot(x, y units.Position) bool {
	return x.Given() && y.Given() && fitLength(x.Length()) && fitLength(y.Length())
}

// fitTurn reports whether the angles of a swing are in order.
func (w *Swing) fitTurn() bool {
	return w.From >= -2*math.Pi && w.From <= 2*math.Pi && w.To > w.From && w.To <= w.From+2*math.Pi*(1+1e-12)
}

// named reports whether one of the blocks has a name.
func named(blocks []Block, name string) bool {
	for i := range blocks {
		if blocks[i].Name == name {
			return true
		}
	}
	return false
}

func (b *Block) check(at string) (errs []error) {
	for _, c := range [...]struct {
		lo, hi       units.Position
		loPath, path string
		need         bool
	}{{b.Fore, b.Aft, ".fore", ".aft", true}, {b.Right, b.Left, ".right", ".left", true}, {b.Bottom, b.Top, ".bottom", ".top", false}} {
		errs = append(errs, checkInterval(at, c.lo, c.hi, c.loPath, c.path, c.need)...)
	}
	return errs
}

func checkInterval(at string, lo, hi units.Position, loPath, hiPath string, need bool) (errs []error) {
	for _, c := range [...]struct {
		p, other units.Position
		path     string
	}{{lo, hi, loPath}, {hi, lo, hiPath}} {
		if c.p.Given() {
			if !fitLength(c.p.Length()) {
				errs = checkPosition(errs, at+c.path, c.p)
			}
		} else if need || c.other.Given() {
			errs = append(errs, &units.FieldError{Path: at + c.path, Want: "a position", Err: units.ErrMissing})
		}
	}
	if len(errs) == 0 && lo.Length() > hi.Length() {
		errs = append(errs, &units.FieldError{Path: at + loPath, Value: lo.String(), Want: "at most " + hi.String(), Err: units.ErrConflict})
	}
	return errs
}

func (z *Zone) check(at string) (errs []error) {
	if z.Kind < Heat || z.Kind > GateSwing {
		errs = append(errs, &units.FieldError{Path: at + ".kind", Want: "heat, exhaust, fuel, access, hose path or gate swing", Err: units.ErrMissing})
	}
	if !(z.Clearance >= 0 && z.Clearance <= maxPosition) {
		errs = append(errs, &units.FieldError{Path: at + ".clearance", Value: z.Clearance.String(), Want: "0 m to 100 m", Err: units.ErrRange})
	}
	shapes := 0
	if z.Block != nil {
		shapes++
		errs = append(errs, z.Block.check(at+".block")...)
		if z.Bottom.Given() || z.Top.Given() {
			errs = append(errs, &units.FieldError{Path: at + ".bottom", Want: "the heights of its block", Err: units.ErrConflict})
		}
	} else {
		errs = append(errs, checkInterval(at, z.Bottom, z.Top, ".bottom", ".top", false)...)
	}
	spot := func(path string, x, y units.Position) {
		for _, c := range [...]struct {
			p    units.Position
			path string
		}{{x, ".x"}, {y, ".y"}} {
			if !c.p.Given() {
				errs = append(errs, &units.FieldError{Path: path + c.path, Want: "a position", Err: units.ErrMissing})
			} else {
				errs = checkPosition(errs, path+c.path, c.p)
			}
		}
	}
	if w := z.Swing; w != nil {
		shapes++
		spot(at+".swing", w.X, w.Y)
		if !(w.Radius > 0 && w.Radius <= maxPosition) {
			errs = append(errs, &units.FieldError{Path: at + ".swing.radius", Value: w.Radius.String(), Want: "more than 0 m, at most 100 m", Err: units.ErrRange})
		}
		if !w.fitTurn() {
			errs = append(errs, &units.FieldError{Path: at + ".swing.to", Value: w.To.String(), Want: "after from, by at most a full turn", Err: units.ErrRange})
		}
	}
	if len(z.Path) > 0 {
		shapes++
		for i, p := range z.Path {
			spot(fmt.Sprintf("%s.path[#%d]", at, i+1), p.X, p.Y)
		}
		if !(z.Width >= 0 && z.Width <= maxPosition) {
			errs = append(errs, &units.FieldError{Path: at + ".width", Value: z.Width.String(), Want: "0 m to 100 m", Err: units.ErrRange})
		}
	}
	switch {
	case shapes == 0:
		errs = append(errs, &units.FieldError{Path: at, Want: "a block, a swing or a path", Err: units.ErrMissing})
	case shapes > 1:
		errs = append(errs, &units.FieldError{Path: at, Want: "one shape: a block, a swing or a path", Err: units.ErrConflict})
	}
	return errs
}
