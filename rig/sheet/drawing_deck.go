package sheet

import (
	"math"
	"strconv"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// Room on the picture.
const (
	planMost = 400.0 // greatest height of the plan
	sideMost = 320.0 // greatest height of the side view
	rightOf  = 56.0  // beside the views, for upright dimensions
	views    = inside - rightOf
)

// Signs that stand for what was not given, in metres. The picture says where it
// uses them.
const (
	signDeck  = 0.6
	signBall  = 0.45
	signWheel = 0.33
)

// A deckPicture is everything a drawing of the deck shows.
type deckPicture struct {
	in      *source
	d       rig.Deck
	clashes []rig.Spacing
	travels []travel
	e       extent
	p       plot
}

// deck draws the panels one under the other: the views with their key, then how
// the rig rests.
func (in *source) deck() (Drawing, bool, error) {
	d, ok := in.m.Deck()
	if !ok {
		return Drawing{}, false, nil
	}
	clashes, err := in.m.Clashes()
	if err != nil {
		return Drawing{}, false, err
	}
	x := &deckPicture{in: in, d: d, clashes: clashes}
	if d.Trailer.Axles > 0 {
		x.travels = in.travels()
	}
	return x.draw(), true, nil
}

func (x *deckPicture) draw() Drawing {
	p := &x.p
	p.coupler = metres(x.d.Trailer.Coupler) // without one the origin, which is 0
	x.e = x.extentOf()
	e := &x.e
	p.scale = min(views/(e.aft-e.fore), planMost/(e.left+e.right), sideMost/e.top)
	p.x0 = border + (views-p.scale*(e.aft-e.fore))/2 - p.scale*e.fore
	title := x.in.name("deck")
	y := border + 14
	p.text(border, y, "start", `font-weight="bold" font-size="18"`, shortened(title, inside, 19))
	y = p.lines(border, y+4, inside, least, strong, verdictLine(x.in.rep))
	y = x.planView(y + 24)
	if x.d.Trailer.Axles > 0 || len(x.nearLast()) > 0 {
		y = x.sideView(y + 30)
	} else {
		y += 34
		x.scaleBar(border+views, y)
	}
	y = x.key(y + 26)
	words := x.viewWords()
	y = p.lines(border, y+6, inside, least, "", rig.Disclaimer+" "+towing())
	out := Drawing{title: title, scale: p.scale, changed: x.in.rep.PolicyChanges().Words(x.in.o.System, digits), panels: []panel{{title: title + ", from above and from the left", words: words, body: p.String(), high: math.Ceil(y + border)}}}
	for shown := x.travels[:min(len(x.travels), travelsMost)]; len(shown) > 0; shown = shown[min(len(shown), aSheet):] {
		some := shown[:min(len(shown), aSheet)]
		p.Reset()
		top := out.high()
		y = x.loads(top+border, some)
		y = p.lines(border, y+6, inside, least, "", rig.Disclaimer+" "+towing())
		out.panels = append(out.panels, panel{title: x.in.name("how it rests in the travel states"), words: x.travelWords(some), body: p.String(), top: top, high: math.Ceil(y + border - top)})
	}
	return out
}

// An extent is what the views show, in metres: fore and aft of the coupler, to
// either side, and up.
type extent struct{ fore, aft, left, right, top float64 }

func (e *extent) see(x, y, margin float64) {
	e.fore, e.aft = min(e.fore, x-margin), max(e.aft, x+margin)
	e.right, e.left = max(e.right, margin-y), max(e.left, y+margin)
}

// extentOf holds the whole rig and of zones what lies near it: a hose path or a
// gate that reaches further is cut at the edge of the view.
func (x *deckPicture) extentOf() extent {
	d, ball := &x.d, x.p.coupler
	const margin = 0.15
	e := extent{fore: math.Inf(1), aft: math.Inf(-1), left: 0.5, right: 0.5, top: max(1, float64(d.Height)+0.5)}
	if d.Trailer.Axles > 0 {
		side := max(0.6, float64(d.Trailer.Track)/2+0.1)
		e.see(0, 0, 0.25)
		for _, a := range d.Axles {
			e.see(metres(a)-ball-signWheel, side, 0.05)
			e.see(metres(a)-ball+signWheel, -side, 0.05)
		}
	}
	for _, at := range [...]units.Position{d.Tail, d.Jack} {
		if at.Given() {
			e.see(metres(at)-ball, 0, margin)
		}
	}
	block := func(b *statics.Block) {
		e.see(metres(b.Fore)-ball, metres(b.Left), margin)
		e.see(metres(b.Aft)-ball, metres(b.Right), margin)
		if b.Top.Given() {
			e.top = max(e.top, metres(b.Top)+margin)
		}
	}
	if d.Platform != nil {
		block(d.Platform)
	}
	for i := range d.Boxes {
		block(&d.Boxes[i].Block)
	}
	for i := range x.travels {
		t := &x.travels[i]
		for _, s := range t.surfaces {
			e.see(metres(s.Fore)-ball, 0, margin)
			e.see(metres(s.Aft)-ball, 0, margin)
			e.top = max(e.top, metres(s.Top)+margin)
		}
		if t.centre {
			e.see(t.aft, t.across, margin)
			e.top = max(e.top, t.height+margin)
		}
	}
	whole := e
	beyond := max(1.2, 0.25*(whole.aft-whole.fore))
	for i := range d.Zones {
		z := &d.Zones[i].Zone
		for _, v := range outlineOf(z, float64(z.Clearance)) {
			e.see(v[0]-ball, v[1], 0.05)
		}
		if _, hi, ok := heights(z); ok {
			e.top = max(e.top, hi+0.05)
		}
	}
	e.fore, e.aft, e.top = max(e.fore, whole.fore-beyond), min(e.aft, whole.aft+beyond), min(e.top, whole.top+1.2)
	e.left, e.right = min(e.left, whole.left+beyond), min(e.right, whole.right+beyond)
	return e
}

// plan is a block seen from above, on the picture; side the same seen from the
// left.
func (p *plot) planOf(b *statics.Block) area {
	return area{p.x(b.Fore), p.y(b.Right), p.x(b.Aft), p.y(b.Left)}
}

func (p *plot) sideOf(b *statics.Block) area {
	return area{p.x(b.Fore), p.z(b.Top), p.x(b.Aft), p.z(b.Bottom)}
}

func (p *plot) outline(z *statics.Zone, away float64) [][2]float64 {
	shape := outlineOf(z, away)
	for i, v := range shape {
		shape[i] = [2]float64{p.x(placeAt(v[0])), p.y(placeAt(v[1]))}
	}
	return shape
}

// boxSign opens a group that says which component it shows.
func (p *plot) boxSign(view string, b *rig.DeckBox, draw func()) {
	p.put("<g class=\"", view, "\" data-path=\"", esc(string(b.Path)), "\">\n")
	draw()
	p.put("</g>\n")
}

func (x *deckPicture) planView(y float64) float64 {
	p, d, e := &x.p, &x.d, &x.e
	p.text(border, y, "start", strong, "From above, front to the left")
	p.text(border+views, y, "end", smaller, "right side")
	y += 8
	p.plan = y + p.scale*e.right
	w := area{border, y, border + views, y + p.scale*(e.left+e.right)}
	p.chassis(d)
	for _, within := range [...]bool{false, true} { // what stands inside another box lies above it
		for i := range d.Boxes {
			if b := &d.Boxes[i]; b.Inside == within {
				p.boxSign("plan", b, func() { p.rect(p.planOf(&b.Block), boxed) })
			}
		}
	}
	p.within(w, func() {
		for i := range d.Zones {
			z := &d.Zones[i].Zone
			shape := p.outline(z, 0)
			if len(shape) == 0 {
				continue
			}
			hatchingOf(z.Kind).fill(p, shape, w)
			p.polygon(shape, zoned)
			if z.Clearance > 0 {
				p.polygon(p.outline(z, float64(z.Clearance)), spaced)
			}
		}
	})
	// Signs and words last, so that nothing is drawn over them.
	taken := &places{room: w}
	x.centres(taken, func(t *travel) (float64, float64, bool) {
		return p.x(placeAt(p.coupler + t.aft)), p.y(placeAt(t.across)), t.centre && t.sides
	})
	x.clashMarks(taken)
	for i := range d.Boxes {
		frame := p.planOf(&d.Boxes[i].Block)
		x.label(taken, i, frame, x.above(i, func(b *statics.Block) area { return p.planOf(b) }, func(a, b *rig.DeckBox) bool { return b.Inside && !a.Inside }), true)
	}
	for i := range d.Zones {
		x.zoneSign(taken, w, i, p.outline(&d.Zones[i].Zone, 0))
	}
	y = w.y2
	p.text(border+views, y-4, "end", smaller, "left side")
	y += 6
	var chain []dimension
	if b := d.Platform; b != nil {
		if d.Trailer.Axles > 0 {
			chain = append(chain, x.stretch(p.coupler, metres(b.Fore), ""))
		}
		chain = append(chain, x.stretch(metres(b.Fore), metres(b.Aft), "deck "))
		p.up(border+views+16, 1, dimension{p.y(b.Left), p.y(b.Right), "deck ", x.length(metres(b.Left) - metres(b.Right))})
	} else if d.Trailer.Axles == 0 {
		lo, hi := math.Inf(1), math.Inf(-1)
		for i := range d.Boxes {
			lo, hi = min(lo, metres(d.Boxes[i].Block.Fore)), max(hi, metres(d.Boxes[i].Block.Aft))
		}
		chain = append(chain, x.stretch(lo, hi, ""))
	}
	if t := float64(d.Trailer.Track); t > 0 {
		p.up(border+views+40, 2, dimension{p.plan + p.scale*t/2, p.plan - p.scale*t/2, "track ", x.length(t)})
	}
	p.across(y+8, chain)
	return y + 16
}

// stretch is a dimension between two places in the rig's own coordinates.
func (x *deckPicture) stretch(from, to float64, word string) dimension {
	if from > to {
		from, to = to, from
	}
	return dimension{x.p.x(placeAt(from)), x.p.x(placeAt(to)), word, x.length(to - from)}
}

func (x *deckPicture) length(m float64) string {
	return units.Length(m).Quantity().Text(x.in.o.System, 3)
}

// above lists what is drawn over a box, so that its name keeps off.
func (x *deckPicture) above(i int, of func(*statics.Block) area, over func(a, b *rig.DeckBox) bool) []area {
	var out []area
	here := of(&x.d.Boxes[i].Block)
	for k := range x.d.Boxes {
		if k != i && over(&x.d.Boxes[i], &x.d.Boxes[k]) {
			if there := of(&x.d.Boxes[k].Block); there.meets(here) {
				out = append(out, there)
			}
		}
	}
	return out
}

// label writes number and name of a box into its frame, or the number alone. A
// number that finds no room inside stands beside it with a line, if it must be
// shown.
func (x *deckPicture) label(taken *places, i int, frame area, avoid []area, must bool) {
	p := &x.p
	n := strconv.Itoa(i + 1)
	words := n + " " + x.d.Boxes[i].Name
	w := wide(words, usual) + 6
	if mx, my, ok := taken.in(frame, w, 17, avoid); ok {
		p.halo(mx, my+5, "middle", "", words)
		return
	}
	if mx, my, ok := taken.in(frame, 17, w, avoid); ok {
		p.upright(mx+5, my, "", words)
		return
	}
	w = wide(n, usual) + 6
	mx, my, ok := taken.in(frame, w, 16, avoid)
	if !ok && must {
		mx, my, ok = taken.in(frame, w, 16, nil)
	}
	if !ok && must {
		fx, fy := frame.middle()
		mx, my = taken.near(fx, fy, w, 16)
		if !frame.holds(around(mx, my, 1, 1)) {
			p.line(fx, fy, mx, my, faint)
		}
		ok = true
	}
	if ok {
		p.halo(mx, my+5, "middle", strong, n)
	}
}

// zoneSign sets the letter of a zone near its middle.
func (x *deckPicture) zoneSign(taken *places, w area, i int, shape [][2]float64) {
	var cx, cy, n float64
	for _, v := range shape {
		if w.holds(around(v[0], v[1], 0, 0)) {
			cx, cy, n = cx+v[0], cy+v[1], n+1
		}
	}
	if n == 0 {
		for _, v := range shape { // it fills the view, or lies outside
			cx, cy, n = cx+v[0], cy+v[1], n+1
		}
	}
	if n == 0 {
		return
	}
	sign := letters(i)
	r := max(9, wide(sign, least)/2+3)
	mx, my := taken.near(cx/n, cy/n, 2*r, 2*r)
	x.p.circle(mx, my, r, `stroke="#000" stroke-width="1.2" fill="#fff"`)
	x.p.text(mx, my+4.5, "middle", smallish, sign)
}

// Of clashes the worst are marked, with their distance while there are few.
const (
	clashesMost    = 12
	clashesSpelled = 6
)

// clashMarks marks what stands too near what, with the distance.
func (x *deckPicture) clashMarks(taken *places) {
	p := &x.p
	for i, c := range x.clashes[:min(len(x.clashes), clashesMost)] {
		a, okA := x.bounds(c.PathA)
		b, okB := x.bounds(c.PathB)
		if !okA || !okB {
			continue
		}
		at := area{max(a.x1, b.x1), max(a.y1, b.y1), min(a.x2, b.x2), min(a.y2, b.y2)}
		cx, cy := at.middle()
		p.line(cx-8, cy-8, cx+8, cy+8, `stroke="#000" stroke-width="3"`)
		p.line(cx-8, cy+8, cx+8, cy-8, `stroke="#000" stroke-width="3"`)
		n, words := strconv.Itoa(i+1), ""
		if len(x.clashes) <= clashesSpelled {
			words = x.apart(c)
		}
		r := max(9, wide(n, least)/2+3)
		w := 2*r + 4 + wide(words, least)
		mx, my := taken.near(cx, cy+20, w, 20)
		left := mx - w/2
		p.line(cx, cy, left+r, my, thin)
		p.circle(left+r, my, r, solid)
		p.text(left+r, my+4.5, "middle", `font-size="13" font-weight="bold" fill="#fff"`, n)
		if words != "" {
			p.halo(left+2*r+4, my+4.5, "start", smallish, words)
		}
	}
}

// apart says the distance of a clash in few words.
func (x *deckPicture) apart(c rig.Spacing) string {
	switch {
	case c.Distance < 0:
		return x.length(-float64(c.Distance)) + " over"
	case c.Need > 0:
		return x.length(float64(c.Distance)) + " of " + x.length(float64(c.Need))
	}
	return x.length(float64(c.Distance))
}

// bounds is what a box or a zone covers in plan on the picture.
func (x *deckPicture) bounds(path rig.Path) (area, bool) {
	for i := range x.d.Boxes {
		if b := &x.d.Boxes[i]; b.Path == path {
			return x.p.planOf(&b.Block), true
		}
	}
	for i := range x.d.Zones {
		if path != rig.Path("zones["+x.d.Zones[i].ID+"]") {
			continue
		}
		out := area{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
		for _, v := range x.p.outline(&x.d.Zones[i].Zone, 0) {
			out = area{min(out.x1, v[0]), min(out.y1, v[1]), max(out.x2, v[0]), max(out.y2, v[1])}
		}
		return out, out.x1 <= out.x2
	}
	return area{}, false
}

// centres marks the centre of mass of every travel state; states whose marks
// fall together share one.
func (x *deckPicture) centres(taken *places, of func(*travel) (float64, float64, bool)) {
	type mark struct {
		x, y  float64
		signs []string
	}
	var marks []mark
	for i := range x.travels {
		cx, cy, ok := of(&x.travels[i])
		if !ok {
			continue
		}
		same := false
		for k := range marks {
			if math.Hypot(marks[k].x-cx, marks[k].y-cy) < 3 {
				marks[k].signs = append(marks[k].signs, x.travels[i].sign)
				same = true
				break
			}
		}
		if !same {
			marks = append(marks, mark{cx, cy, []string{x.travels[i].sign}})
			taken.take(around(cx, cy, 13, 13))
		}
	}
	for _, m := range marks {
		x.p.centre(m.x, m.y)
	}
	for _, m := range marks {
		words := strings.Join(m.signs, ", ")
		w := wide(words, least) + 4
		lx, ly := taken.near(m.x+14+w/2, m.y-16, w, 16)
		x.p.line(m.x, m.y, lx, ly, faint)
		x.p.halo(lx, ly+4.5, "middle", smallish, words)
	}
}

// wheel is the radius of the sign for a wheel, in metres.
func wheel(d *rig.Deck) float64 {
	r := signWheel
	if d.Height > 0 {
		r = min(r, 0.46*float64(d.Height))
	}
	if len(d.Axles) > 1 {
		r = min(r, 0.46*float64(d.Axles[1].Sub(d.Axles[0])))
	}
	if len(d.Axles) > 0 {
		r = min(r, 0.46*(metres(d.Axles[0])-metres(d.Trailer.Coupler)))
	}
	return r
}

// chassis draws coupler, drawbar, deck and wheels from above.
func (p *plot) chassis(d *rig.Deck) {
	if b := d.Platform; b != nil {
		p.rect(p.planOf(b), bold)
	}
	if d.Trailer.Axles == 0 {
		return
	}
	ball := p.x(placeAt(p.coupler))
	front, half := p.x(d.Axles[0]), max(float64(d.Trailer.Track)/2, 0.5)
	if b := d.Platform; b != nil {
		front, half = p.x(b.Fore), max(math.Abs(metres(b.Left)), math.Abs(metres(b.Right)))
	}
	if front > ball {
		p.line(ball, p.plan, front, p.plan-p.scale*half*0.8, `stroke="#000" stroke-width="1.6"`)
		p.line(ball, p.plan, front, p.plan+p.scale*half*0.8, `stroke="#000" stroke-width="1.6"`)
	}
	p.line(ball, p.plan, border+views, p.plan, centred)
	r, track := wheel(d), float64(d.Trailer.Track)
	for _, a := range d.Axles {
		if track == 0 {
			p.line(p.x(a), p.plan-p.scale*half, p.x(a), p.plan+p.scale*half, hidden)
			continue
		}
		p.line(p.x(a), p.plan-p.scale*track/2, p.x(a), p.plan+p.scale*track/2, hidden)
		for _, side := range [...]float64{-1, 1} {
			mids := []float64{side * track / 2}
			if d.Trailer.Tyres > 1 {
				mids = []float64{side*track/2 - 0.13, side*track/2 + 0.13}
			}
			for _, m := range mids {
				p.rect(around(p.x(a), p.plan+p.scale*m, 2*p.scale*r, p.scale*min(0.2, 0.2*track)), rubber)
			}
		}
	}
	p.circle(ball, p.plan, 6, `stroke="#000" stroke-width="2.5" fill="#fff"`)
	p.halo(ball, p.plan+22, "middle", smaller, "ball")
	if d.Jack.Given() {
		at := p.x(d.Jack)
		p.rect(around(at, p.plan, 9, 9), `stroke="#000" stroke-width="2.5" fill="#fff"`)
		p.halo(at, p.plan-10, "middle", smaller, "jack")
	}
}

// stance is how high deck and ball stand, with signs where they are not given.
func stance(d *rig.Deck) (deck, ball float64) {
	deck, ball = float64(d.Height), float64(d.Trailer.CouplerHeight)
	if deck == 0 {
		deck = signDeck
	}
	if ball == 0 {
		ball = min(signBall, deck)
	}
	return deck, ball
}

// undercarriage draws ground, wheels, frame and drawbar from the left.
func (p *plot) undercarriage(d *rig.Deck, from, to float64) {
	p.line(from, p.ground, to, p.ground, `stroke="#000" stroke-width="2"`)
	if d.Trailer.Axles == 0 {
		return
	}
	deck, ball := stance(d)
	r := wheel(d)
	for _, a := range d.Axles {
		p.circle(p.x(a), p.ground-p.scale*r, p.scale*r, `stroke="#000" stroke-width="2.5" fill="#fff"`)
		p.circle(p.x(a), p.ground-p.scale*r, p.scale*r*0.2, solid)
	}
	ballX, ballY, level := p.x(placeAt(p.coupler)), p.ground-p.scale*ball, p.ground-p.scale*deck
	front, back := p.x(d.Axles[0])-p.scale*r, p.x(d.Axles[len(d.Axles)-1])+p.scale*r
	if b := d.Platform; b != nil {
		front, back = p.x(b.Fore), p.x(b.Aft)
	}
	thick := min(5, 0.15*p.scale*deck)
	p.rect(area{min(front, back), level, max(front, back), level + thick}, steel)
	p.line(ballX, ballY, front, level+thick/2, bold)
	p.circle(ballX, ballY, 5, solid)
	if d.Jack.Given() {
		at := p.x(d.Jack)
		p.line(at, ballY, at, p.ground, `stroke="#000" stroke-width="1.6"`)
		p.line(at-7, p.ground-1, at+7, p.ground-1, bold)
	}
}

func (x *deckPicture) sideView(y float64) float64 {
	p, d, e := &x.p, &x.d, &x.e
	p.text(border, y, "start", strong, "From the left, front to the left")
	x.scaleBar(border+views, y)
	y += 16
	p.ground = y + p.scale*e.top
	w := area{border, y, border + views, p.ground}
	p.undercarriage(d, border, border+views)
	if d.Jack.Given() {
		p.halo(p.x(d.Jack)+9, p.ground-6, "start", smaller, "jack")
	}
	order := x.nearLast()
	for _, i := range order {
		b := &d.Boxes[i]
		p.boxSign("side", b, func() { p.rect(p.sideOf(&b.Block), boxed) })
	}
	rank := map[int]int{}
	for k, i := range order {
		rank[i] = k
	}
	cover := func(a, b int) bool { return rank[b] > rank[a] }
	for _, i := range order { // edges behind nearer boxes
		here := p.sideOf(&d.Boxes[i].Block)
		for _, k := range order {
			if cover(i, k) && !d.Boxes[k].Inside && p.sideOf(&d.Boxes[k].Block).meets(here) {
				p.rect(here, hidden)
				break
			}
		}
	}
	p.within(w, func() {
		for i := range d.Zones {
			z := &d.Zones[i].Zone
			if at, ok := x.sideZone(z); ok {
				hatchingOf(z.Kind).fill(p, [][2]float64{{at.x1, at.y1}, {at.x2, at.y1}, {at.x2, at.y2}, {at.x1, at.y2}}, w)
				p.rect(at, zoned)
			}
		}
	})
	taken := &places{room: w}
	x.levels(taken)
	x.centres(taken, func(t *travel) (float64, float64, bool) {
		return p.x(placeAt(p.coupler + t.aft)), p.z(placeAt(t.height)), t.centre && t.high
	})
	for _, i := range order {
		var avoid []area
		for _, k := range order {
			if cover(i, k) {
				avoid = append(avoid, p.sideOf(&d.Boxes[k].Block))
			}
		}
		x.label(taken, i, p.sideOf(&d.Boxes[i].Block), avoid, false)
	}
	for i := range d.Zones {
		if at, ok := x.sideZone(&d.Zones[i].Zone); ok {
			x.zoneSign(taken, w, i, [][2]float64{{at.x1, max(at.y1, w.y1)}, {at.x2, max(at.y1, w.y1)}, {at.x2, at.y2}, {at.x1, at.y2}})
		}
	}
	top := 0.0
	for i := range d.Boxes {
		if b := &d.Boxes[i].Block; b.Top.Given() {
			top = max(top, metres(b.Top))
		}
	}
	if d.Height > 0 {
		p.up(border+views+16, 1, dimension{p.ground, p.ground - p.scale*float64(d.Height), "deck ", x.length(float64(d.Height))})
	}
	if top > float64(d.Height) {
		p.up(border+views+40, 2, dimension{p.ground, p.ground - p.scale*top, "height ", x.length(top)})
	}
	y = p.ground + 16
	if d.Trailer.Axles > 0 {
		group := metres(d.Trailer.AxleGroup)
		chain := []dimension{x.stretch(p.coupler, group, "ball to axle group ")}
		if b := d.Platform; b != nil && metres(b.Aft) > group {
			chain = append(chain, x.stretch(group, metres(b.Aft), ""))
		}
		p.across(y, chain)
		y += 22
		var between []dimension
		for i := 1; i < len(d.Axles); i++ {
			between = append(between, x.stretch(metres(d.Axles[i-1]), metres(d.Axles[i]), ""))
		}
		if d.Jack.Given() {
			between = append([]dimension{x.stretch(p.coupler, metres(d.Jack), "jack ")}, between...)
		}
		if len(between) > 0 {
			p.across(y, between)
			y += 22
		}
	}
	return y
}

// sideZone is what a zone covers seen from the left; ok is false if it is kept
// clear at every height.
func (x *deckPicture) sideZone(z *statics.Zone) (area, bool) {
	lo, hi, ok := heights(z)
	shape := x.p.outline(z, 0)
	if !ok || len(shape) == 0 {
		return area{}, false
	}
	at := area{math.Inf(1), x.p.z(placeAt(hi)), math.Inf(-1), x.p.z(placeAt(lo))}
	for _, v := range shape {
		at.x1, at.x2 = min(at.x1, v[0]), max(at.x2, v[0])
	}
	return at, true
}

// nearLast orders the boxes that have heights as one sees them from the left:
// the nearer after the farther, what stands inside another box after it.
func (x *deckPicture) nearLast() []int {
	var order []int
	for i := range x.d.Boxes {
		if b := &x.d.Boxes[i].Block; b.Top.Given() && b.Bottom.Given() {
			order = append(order, i)
		}
	}
	after := func(a, b *rig.DeckBox) bool {
		if a.Inside != b.Inside {
			return a.Inside
		}
		return metres(a.Block.Left) > metres(b.Block.Left)
	}
	for i := range order {
		for k := i; k > 0 && after(&x.d.Boxes[order[k-1]], &x.d.Boxes[order[k]]); k-- {
			order[k], order[k-1] = order[k-1], order[k]
		}
	}
	return order
}

// levels draws how high the liquid of each tank stands in which travel states.
func (x *deckPicture) levels(taken *places) {
	type mark struct {
		at    area // of the surface, as a line
		signs []string
	}
	var marks []mark
	for i := range x.travels {
		for _, s := range x.travels[i].surfaces {
			if s.Volume <= 0 || listOf(s.Path) != "tanks" {
				continue // what fuel tanks hold is seen in the small views
			}
			at := x.p.surfaceOf(s)
			same := false
			for k := range marks {
				if m := &marks[k]; math.Abs(m.at.y1-at.y1) < 2 && math.Abs(m.at.x1-at.x1) < 2 && math.Abs(m.at.x2-at.x2) < 2 {
					m.signs = append(m.signs, x.travels[i].sign)
					same = true
					break
				}
			}
			if !same {
				marks = append(marks, mark{at, []string{x.travels[i].sign}})
			}
		}
	}
	for _, m := range marks {
		x.p.line(m.at.x1, m.at.y1, m.at.x2, m.at.y1, surface)
	}
	for _, m := range marks {
		words := strings.Join(m.signs, ", ")
		w := wide(words, least) + 15
		mx, _ := m.at.middle()
		lx, ly := taken.near(mx, m.at.y1+9, w, 15)
		x.p.waterMark(lx-w/2+5, ly, words)
	}
}

// waterMark is the sign for a level with words behind it.
func (p *plot) waterMark(x, y float64, words string) {
	p.polygon([][2]float64{{x - 4, y - 5}, {x + 4, y - 5}, {x, y + 2}}, `stroke="#000" stroke-width="1" fill="#fff"`)
	p.halo(x+7, y+4.5, "start", smallish, words)
}

// surfaceOf is the line of a surface seen from the left.
func (p *plot) surfaceOf(s rig.Surface) area {
	y := p.z(s.Level)
	x1, x2 := p.x(s.Fore), p.x(s.Aft)
	if s.Round {
		r := (x2 - x1) / 2
		h := p.scale*float64(s.Level.Sub(s.Floor)) - r
		half := math.Sqrt(max(r*r-h*h, 0))
		x1, x2 = x1+r-half, x2-r+half
	}
	return area{x1, y, x2, y}
}

// scaleBar draws a bar of round lengths that ends at x, and says what it is.
func (x *deckPicture) scaleBar(right, y float64) {
	p := &x.p
	unit, word := 1*units.Foot, "ft"
	if x.in.o.System == units.SI {
		unit, word = units.Meter, "m"
	}
	n := 1.0
	for _, k := range [...]float64{0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50} {
		if p.scale*float64(unit)*k <= 230 {
			n = k
		}
	}
	parts := 5.0
	if n == 2 || n == 20 || n == 0.2 {
		parts = 4
	}
	step := p.scale * float64(unit) * n / parts
	left := right - step*parts - 24
	for i := range int(parts) {
		style := `stroke="#000" stroke-width="1" fill="#fff"`
		if i%2 == 0 {
			style = `stroke="#000" stroke-width="1" fill="#000"`
		}
		p.rect(area{left + float64(i)*step, y - 8, left + float64(i+1)*step, y - 2}, style)
	}
	p.text(left, y+12, "middle", smaller, "0")
	p.text(right-24, y+12, "middle", smaller, units.FormatNumber(n, 2)+" "+word)
	p.text(left-10, y, "end", smaller, "scale")
}
