package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// Room on the picture, in its own units.
const (
	planMost = 460.0 // greatest height of the plan
	sideMost = 360.0 // greatest height of the side view
)

// deck draws one view under the other: plan, side, loads, key, cautions.
func (in *source) deck() (Drawing, bool, error) {
	d, ok := in.m.Deck()
	if !ok {
		return Drawing{}, false, nil
	}
	clashes, err := in.m.Clashes()
	if err != nil {
		return Drawing{}, false, err
	}
	e, err := deckExtent(&d)
	if err != nil {
		return Drawing{}, false, err
	}
	p := &plot{marks: map[string]string{}, coupler: metres(couplerOf(&d)), scale: math.Min(math.Min(inside/(e.aft-e.fore), planMost/(2*e.half)), sideMost/e.top)}
	p.x0 = border + (inside-p.scale*(e.aft-e.fore))/2 - p.scale*e.fore
	y := border + 16
	p.text(border, y, "start", `fill="#000" font-weight="bold" font-size="18"`, shortened(in.name("deck"), inside, 19))
	y += 28
	p.text(border, y, "start", strong, "From above")
	p.text(pictureWide-border, y, "end", plain, "right side")
	y += 12
	p.plan = y + p.scale*e.half
	key := in.planView(p, &d, clashes)
	y = p.plan + p.scale*e.half + 18
	p.text(pictureWide-border, y, "end", plain, "left side")
	in.scaleBar(p, border, y-10)
	y += 44
	p.text(border, y, "start", strong, "From the left")
	y += 12
	p.ground = y + p.scale*e.top
	key = append(key, in.sideView(p, &d, e)...)
	y = p.ground + 12
	loads := in.restingLoads()
	y = in.drawLoads(p, &d, loads, y)
	y = p.keyTable(key, y)
	y += 10
	for _, line := range wrapped(rig.Disclaimer+" "+towing(), inside, 12) {
		y += 16
		p.text(border, y, "start", small, line)
	}
	return Drawing{title: in.name("deck from above and from the left, to scale"), words: in.deckWords(&d, clashes, loads), body: p.String(), high: math.Ceil(y + border)}, true, nil
}

// towing is the standing caution that a drawing of weights carries.
func towing() string {
	for _, c := range rig.Cautions() {
		if c.Hazard == "Towing" {
			return c.Text + " Decides: " + c.Defers + "."
		}
	}
	return ""
}

func couplerOf(d *rig.Deck) units.Position {
	if d.Trailer.Coupler.Given() {
		return d.Trailer.Coupler
	}
	return units.PositionAt(0)
}

// An extent is what the picture shows, in metres: fore and aft of the coupler,
// to either side, and up.
type extent struct{ fore, aft, half, top float64 }

func deckExtent(d *rig.Deck) (extent, error) {
	ball := metres(couplerOf(d))
	e := extent{fore: -0.25, aft: metres(d.Trailer.AxleGroup) - ball + 0.6, half: math.Max(0.8, float64(d.Trailer.Track)/2+0.3), top: math.Max(1.2, float64(d.Height)+0.5)}
	see := func(x, y float64) {
		e.fore, e.aft, e.half = math.Min(e.fore, x-ball-0.15), math.Max(e.aft, x-ball+0.15), math.Max(e.half, math.Abs(y)+0.15)
	}
	block := func(b *statics.Block) {
		see(metres(b.Fore), metres(b.Left))
		see(metres(b.Aft), metres(b.Right))
		if b.Top.Given() {
			e.top = math.Max(e.top, metres(b.Top)+0.15)
		}
	}
	if d.Platform != nil {
		block(d.Platform)
	}
	for i := range d.Boxes {
		block(&d.Boxes[i].Block)
	}
	for i := range d.Zones {
		z := &d.Zones[i].Zone
		shape, err := outline(z)
		if err != nil {
			return e, err
		}
		for _, v := range shape {
			see(v[0], v[1])
		}
		if _, hi, ok := heights(z); ok {
			e.top = math.Max(e.top, hi+0.15)
		}
	}
	for _, a := range d.Axles {
		see(metres(a)+0.4, 0)
	}
	if d.Tail.Given() {
		see(metres(d.Tail), 0)
	}
	if d.Jack.Given() {
		see(metres(d.Jack), 0)
	}
	return e, nil
}

// heights are those between which a zone is kept clear, in metres; ok is false
// where it reaches as far as anything.
func heights(z *statics.Zone) (lo, hi float64, ok bool) {
	a, b := z.Bottom, z.Top
	if z.Block != nil {
		a, b = z.Block.Bottom, z.Block.Top
	}
	return metres(a), metres(b), a.Given() && b.Given()
}

// outline is a zone in plan as a closed polygon, in metres of the rig's own
// coordinates; a path with its width.
func outline(z *statics.Zone) ([][2]float64, error) {
	spots, err := z.Outline()
	if err != nil {
		return nil, err
	}
	var out [][2]float64
	for _, s := range spots {
		out = append(out, [2]float64{metres(s.X), metres(s.Y)})
	}
	if len(z.Path) != 2 {
		return out, nil
	}
	a, b := out[0], out[1]
	l := math.Hypot(b[0]-a[0], b[1]-a[1])
	if l == 0 {
		return out, nil
	}
	nx, ny := -(b[1]-a[1])/l*float64(z.Width)/2, (b[0]-a[0])/l*float64(z.Width)/2
	return [][2]float64{{a[0] + nx, a[1] + ny}, {b[0] + nx, b[1] + ny}, {b[0] - nx, b[1] - ny}, {a[0] - nx, a[1] - ny}}, nil
}

// frame is a block in plan on the picture: left, upper, right and lower edge.
func (p *plot) frame(b *statics.Block) (x1, y1, x2, y2 float64) {
	return p.x(b.Fore), p.y(b.Right), p.x(b.Aft), p.y(b.Left)
}

// planView draws the deck from above and returns the key to its marks.
func (in *source) planView(p *plot, d *rig.Deck, clashes []rig.Spacing) (key []string) {
	p.chassis(d)
	for _, within := range [...]bool{false, true} { // what stands inside another box lies above it
		for i := range d.Boxes {
			if b := &d.Boxes[i]; b.Inside == within {
				x1, y1, x2, y2 := p.frame(&b.Block)
				style := boxed
				switch {
				case b.Tank:
					style = wet
				case within:
					style = thin
				}
				p.rect(x1, y1, x2, y2, style)
			}
		}
	}
	var shapes [][][2]float64
	for i := range d.Zones {
		shapes = append(shapes, p.zone(&d.Zones[i].Zone))
	}
	// Words last, so that nothing is drawn over them.
	taken := &places{}
	for i := range d.Boxes {
		x1, y1, x2, y2 := p.frame(&d.Boxes[i].Block)
		if line := p.label(taken, d.Boxes[i].Name, x1, y1, x2, y2); line != "" {
			key = append(key, line)
		}
	}
	for i, shape := range shapes {
		if len(shape) == 0 {
			continue
		}
		z := &d.Zones[i]
		var cx, cy float64
		for _, v := range shape {
			cx, cy = cx+v[0]/float64(len(shape)), cy+v[1]/float64(len(shape))
		}
		x, y := taken.free(cx, cy, 9)
		p.circle(x, y, 9, `fill="#fff" stroke="#000" stroke-width="1.2"`)
		p.text(x, y+4.5, "middle", small, strconv.Itoa(i+1))
		key = append(key, "○ "+strconv.Itoa(i+1)+"  "+in.zoneWords(z))
	}
	for i, c := range clashes {
		a, b := p.bounds(d, c.A), p.bounds(d, c.B)
		if a == nil || b == nil {
			continue
		}
		x, y := taken.free((math.Max(a[0], b[0])+math.Min(a[2], b[2]))/2, (math.Max(a[1], b[1])+math.Min(a[3], b[3]))/2, 11)
		p.line(x-13, y-13, x+13, y+13, `stroke="#000" stroke-width="3"`)
		p.line(x-13, y+13, x+13, y-13, `stroke="#000" stroke-width="3"`)
		p.circle(x, y, 9, solid)
		p.text(x, y+4.5, "middle", `fill="#fff" font-weight="bold" font-size="12"`, strconv.Itoa(i+1))
		key = append(key, "✕ "+strconv.Itoa(i+1)+"  "+in.clashWords(c))
	}
	return key
}

// zone draws a zone in plan, and around a block what is to be kept from it.
func (p *plot) zone(z *statics.Zone) [][2]float64 {
	shape, err := outline(z)
	if err != nil || len(shape) < 3 {
		return nil // the extent has met the same error before
	}
	for i, v := range shape {
		shape[i] = [2]float64{p.x(placeAt(v[0])), p.y(placeAt(v[1]))}
	}
	p.polygon(shape, zoned)
	if b := z.Block; b != nil {
		x1, y1, x2, y2 := p.frame(b)
		if z.Kind == statics.Heat || z.Kind == statics.Exhaust {
			p.hatched(x1, y1, x2, y2)
		}
		if c := p.scale * float64(z.Clearance); c > 0 {
			p.put("<rect x=\"", num(x1-c), "\" y=\"", num(y1-c), "\" width=\"", num(x2-x1+2*c), "\" height=\"", num(y2-y1+2*c), "\" rx=\"", num(c), "\" ", spaced, "/>\n")
		}
	}
	return shape
}

// chassis draws coupler, drawbar, deck and wheels from above.
func (p *plot) chassis(d *rig.Deck) {
	ball := p.x(couplerOf(d))
	front, halfWide := p.x(d.Trailer.AxleGroup), math.Max(float64(d.Trailer.Track)/2, 0.5)
	if b := d.Platform; b != nil {
		front, halfWide = p.x(b.Fore), math.Max(math.Abs(metres(b.Left)), math.Abs(metres(b.Right)))
	}
	p.line(ball, p.plan, front, p.plan-p.scale*halfWide*0.8, thin)
	p.line(ball, p.plan, front, p.plan+p.scale*halfWide*0.8, thin)
	p.circle(ball, p.plan, 6, bold)
	if b := d.Platform; b != nil {
		x1, y1, x2, y2 := p.frame(b)
		p.rect(x1, y1, x2, y2, bold)
	}
	if d.Jack.Given() {
		x := p.x(d.Jack)
		p.rect(x-4, p.plan-4, x+4, p.plan+4, bold)
		p.text(x, p.plan-10, "middle", small, "jack")
	}
	if track := float64(d.Trailer.Track); track > 0 {
		for _, a := range d.Axles {
			x := p.x(a)
			p.line(x, p.plan-p.scale*track/2, x, p.plan+p.scale*track/2, hidden)
			for _, side := range [...]float64{-1, 1} {
				y := p.plan + side*p.scale*track/2
				p.rect(x-p.scale*0.33, y-p.scale*0.1, x+p.scale*0.33, y+p.scale*0.1, `stroke="#000" stroke-width="1" fill="#777"`)
			}
		}
	}
}

// bounds is what a box or a zone of that name covers in plan on the picture.
func (p *plot) bounds(d *rig.Deck, name string) []float64 {
	for i := range d.Boxes {
		if b := &d.Boxes[i]; b.Name == name {
			x1, y1, x2, y2 := p.frame(&b.Block)
			return []float64{x1, y1, x2, y2}
		}
	}
	for i := range d.Zones {
		shape, err := outline(&d.Zones[i].Zone)
		if d.Zones[i].ID != name || err != nil || len(shape) == 0 {
			continue
		}
		out := []float64{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
		for _, v := range shape {
			x, y := p.x(placeAt(v[0])), p.y(placeAt(v[1]))
			out = []float64{math.Min(out[0], x), math.Min(out[1], y), math.Max(out[2], x), math.Max(out[3], y)}
		}
		return out
	}
	return nil
}

// scaleBar draws a bar of round lengths and says what it is.
func (in *source) scaleBar(p *plot, x, y float64) {
	unit, word := 1*units.Foot, "ft"
	if in.o.System == units.SI {
		unit, word = units.Meter, "m"
	}
	n := 1
	for _, k := range [...]int{2, 5, 10, 20, 50} {
		if p.scale*float64(unit)*float64(k) <= 260 {
			n = k
		}
	}
	step := p.scale * float64(unit)
	for i := range n {
		style := `stroke="#000" stroke-width="1" fill="#fff"`
		if i%2 == 0 {
			style = `stroke="#000" stroke-width="1" fill="#000"`
		}
		p.rect(x+float64(i)*step, y, x+float64(i+1)*step, y+6, style)
	}
	p.text(x, y+20, "start", small, "0")
	p.text(x+float64(n)*step, y+20, "middle", small, strconv.Itoa(n)+" "+word)
}

// sideView draws the trailer from its left. What stands nearer hides what
// stands behind it, whose edges are dotted. It returns the key to its marks.
func (in *source) sideView(p *plot, d *rig.Deck, e extent) (key []string) {
	p.line(border, p.ground, pictureWide-border, p.ground, bold)
	deck, ball := float64(d.Height), float64(d.Trailer.CouplerHeight)
	if deck == 0 {
		deck = 0.6
	}
	if ball == 0 {
		ball = 0.45
	}
	wheel := math.Min(0.34, 0.48*deck) // m, a sign and no size
	for _, a := range d.Axles {
		p.circle(p.x(a), p.ground-p.scale*wheel, p.scale*wheel, boxed)
		p.circle(p.x(a), p.ground-p.scale*wheel, p.scale*0.05, solid)
	}
	front, back := p.x(couplerOf(d))+p.scale*0.5, p.x(d.Trailer.AxleGroup)+p.scale*0.5
	if b := d.Platform; b != nil {
		front, back = p.x(b.Fore), p.x(b.Aft)
	}
	level := p.ground - p.scale*deck
	x0, z0 := p.x(couplerOf(d)), p.ground-p.scale*ball
	p.rect(math.Min(front, back), level, math.Max(front, back), level+6, `stroke="#000" stroke-width="1.5" fill="#777"`)
	p.line(x0, z0, front, level+3, bold)
	p.circle(x0, z0, 6, solid)
	if d.Jack.Given() {
		x := p.x(d.Jack)
		p.line(x, z0, x, p.ground, thin)
		p.line(x-8, p.ground, x+8, p.ground, bold)
		p.text(x+6, p.ground-8, "start", small, "jack")
	}
	var order []*rig.DeckBox
	for i := range d.Boxes {
		if b := &d.Boxes[i]; b.Block.Top.Given() && b.Block.Bottom.Given() {
			order = append(order, b)
		}
	}
	for i := range order { // the farther first, what stands inside another box last
		for j := i; j > 0 && drawnAfter(order[j-1], order[j]); j-- {
			order[j], order[j-1] = order[j-1], order[j]
		}
	}
	side := func(b *rig.DeckBox) (x1, y1, x2, y2 float64) {
		return p.x(b.Block.Fore), p.z(b.Block.Top), p.x(b.Block.Aft), p.z(b.Block.Bottom)
	}
	for _, b := range order {
		style := boxed
		switch {
		case b.Tank:
			style = wet
		case b.Inside:
			style = thin
		}
		x1, y1, x2, y2 := side(b)
		p.rect(x1, y1, x2, y2, style)
	}
	taken := &places{}
	for i, b := range order {
		x1, y1, x2, y2 := side(b)
		covered := false
		for _, o := range order[i+1:] {
			a1, b1, a2, b2 := side(o)
			covered = covered || !o.Inside && a1 < x2 && x1 < a2 && b1 < y2 && y1 < b2
		}
		if covered {
			p.rect(x1, y1, x2, y2, hidden)
			continue
		}
		if line := p.label(taken, b.Name, x1, y1, x2, y2); line != "" {
			key = append(key, line)
		}
	}
	for i := range d.Zones {
		z := &d.Zones[i]
		b := p.bounds(d, z.ID)
		lo, hi, ok := heights(&z.Zone)
		if b == nil || !ok {
			continue
		}
		p.rect(b[0], p.z(placeAt(hi)), b[2], p.z(placeAt(lo)), zoned)
		x, y := taken.free((b[0]+b[2])/2, (p.z(placeAt(hi))+p.z(placeAt(lo)))/2, 9)
		p.circle(x, y, 9, `fill="#fff" stroke="#000" stroke-width="1.2"`)
		p.text(x, y+4.5, "middle", small, strconv.Itoa(i+1))
	}
	return key
}

// drawnAfter reports whether a, listed before b, is drawn after it.
func drawnAfter(a, b *rig.DeckBox) bool {
	if a.Inside != b.Inside {
		return a.Inside
	}
	return metres(a.Block.Left) > metres(b.Block.Left)
}

// keyTable writes the key in two columns.
func (p *plot) keyTable(key []string, y float64) float64 {
	if len(key) == 0 {
		return y
	}
	y += 34
	p.text(border, y, "start", strong, "Key")
	rows := (len(key) + 1) / 2
	for i, line := range key {
		p.text(border+float64(i/rows)*inside/2, y+18*float64(i%rows+1), "start", small, shortened(line, inside/2-12, 12))
	}
	return y + 18*float64(rows)
}

func (in *source) zoneWords(z *rig.DeckZone) string {
	s := z.Title + ": " + z.Zone.Kind.String()
	if z.Zone.Clearance > 0 {
		s += ", " + in.length(z.Zone.Clearance) + " to be kept"
	}
	return s
}

func (in *source) clashWords(c rig.Spacing) string {
	s := c.A + " and " + c.B
	if c.Distance < 0 {
		s += ": overlap by " + in.length(-c.Distance)
	} else {
		s += ": " + in.length(c.Distance) + " apart"
	}
	if c.Need > 0 {
		s += ", " + in.length(c.Need) + " needed"
	}
	if c.Fire {
		s += " (fuel and heat)"
	}
	return s
}

// deckWords are the text alternative: all that the picture shows.
func (in *source) deckWords(d *rig.Deck, clashes []rig.Spacing, loads []restingLoad) []string {
	ball := couplerOf(d)
	aft := func(p units.Position) string { return in.length(p.Length() - ball.Length()) }
	across := func(b *statics.Block) string {
		say := func(p units.Position) string {
			switch l := p.Length(); {
			case l < 0:
				return in.length(-l) + " right"
			case l > 0:
				return in.length(l) + " left"
			}
			return "the centreline"
		}
		return "from " + say(b.Right) + " to " + say(b.Left)
	}
	place := func(b *statics.Block) string {
		s := aft(b.Fore) + " to " + aft(b.Aft) + " aft of the coupler, " + across(b)
		if b.Bottom.Given() && b.Top.Given() {
			s += ", " + in.length(b.Bottom.Length()) + " to " + in.length(b.Top.Length()) + " above the ground"
		}
		return s
	}
	var at []string
	for _, a := range d.Axles {
		at = append(at, aft(a))
	}
	out := []string{fmt.Sprintf("Front to the left, left and right as one faces forward. %s %s aft of the coupler.", counted(len(at), "Axle", "Axles"), strings.Join(at, ", "))}
	if d.Platform != nil {
		out = append(out, "Deck: "+place(d.Platform)+".")
	}
	for i := range d.Boxes {
		out = append(out, d.Boxes[i].Name+": "+place(&d.Boxes[i].Block)+".")
	}
	for i := range d.Zones {
		out = append(out, "Kept clear: "+in.zoneWords(&d.Zones[i])+".")
	}
	for _, c := range clashes {
		out = append(out, "Too near: "+in.clashWords(c)+".")
	}
	for _, l := range loads {
		out = append(out, l.title+": "+strings.Join(l.parts(), "; ")+".")
	}
	return out
}

func counted(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
