package sheet

import (
	"math"
	"strconv"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// travelsMost is how many travel states a drawing shows; the table of weights
// has all.
const (
	travelsMost = 12
	aSheet      = 6 // on one sheet of paper
)

// A travel is how the rig rests in one fill state. Every number is a reading of
// the report.
type travel struct {
	sign, title          string
	known                bool
	total, tongue, group float64 // kg
	each                 []float64
	words                map[string]string // readings for people, by the end of their paths
	eachWords            []string
	centre, sides, high  bool
	aft, across, height  float64 // m, of the centre of mass; aft of the coupler
	surfaces             []rig.Surface
	remarks              []string // what was found in it, worst first
}

// travels reads every listed fill state, or if none is listed the corners with
// the least and the most share on the tongue.
func (in *source) travels() []travel {
	var out []travel
	for _, f := range in.m.Fills() {
		title := f.Title
		if f.Reach == rig.Conceivable {
			title += " (conceivable)"
		}
		out = append(out, in.travel(title, f.State))
	}
	if len(out) == 0 {
		if s := in.span("trailer.tongue_share", rig.State{}, rig.Conceivable); s.ok {
			for _, r := range []rig.Reading{s.low, s.high} {
				if len(out) == 0 || r.State != s.low.State {
					out = append(out, in.travel(stateWords(in.m, r.State)+" (conceivable; no fill state is listed)", r.State))
				}
			}
		}
	}
	for i := range out {
		out[i].sign = roman(i + 1)
	}
	return out
}

func (in *source) travel(title string, state rig.State) travel {
	t := travel{title: title, words: map[string]string{}, surfaces: in.m.Surfaces(state)}
	read := func(p rig.Path) (float64, bool) {
		r, ok := in.rep.At(p, state)
		if !ok {
			return 0, false
		}
		_, name, _ := strings.Cut(string(p), ".")
		t.words[name] = r.Text(in.o.System, digits)
		return r.Value.SI(), true
	}
	var okTongue, okGroup bool
	t.total, t.known = read("trailer.total")
	t.tongue, okTongue = read("trailer.tongue")
	t.group, okGroup = read("trailer.group")
	t.known = t.known && okTongue && okGroup
	for _, p := range [...]rig.Path{"trailer.tongue_share", "trailer.axle", "trailer.left", "trailer.right", "trailer.static_stability"} {
		read(p)
	}
	for r := range in.rep.All("axles[].load") {
		if r.State == state {
			t.each = append(t.each, r.Value.SI())
			t.eachWords = append(t.eachWords, r.Text(in.o.System, digits))
		}
	}
	t.aft, t.centre = read("trailer.centre_aft")
	t.across, t.sides = read("trailer.centre_left")
	t.height, t.high = read("trailer.centre_height")
	t.remarks = in.foundIn(state)
	return t
}

// foundIn says what was found in a fill state, worst first.
func (in *source) foundIn(state rig.State) []string {
	var out []string
	for _, sev := range [...]rig.Severity{rig.Stop, rig.CannotJudge, rig.Fix} {
		for j := range in.rep.Judgements() {
			if j.Severity != sev || j.Reading.State.On(rig.AxisFill) == "" || j.Reading.State != state {
				continue
			}
			title := string(j.Code)
			if doc, ok := in.rep.Doc(j.Code); ok {
				title = doc.Title
			}
			s := strings.ToUpper(sev.String()) + " " + title
			if j.Reading.Part != "" {
				s += ", " + component(j.Reading)
			}
			if !contains(out, s) {
				out = append(out, s)
			}
		}
	}
	return out
}

// parts are the loads of a travel state in reading order.
func (t *travel) parts(axles int) []string {
	if !t.known {
		return []string{"what it weighs is not known"}
	}
	out := []string{t.words["total"] + " in all", "tongue " + t.words["tongue"] + t.say(", ", "tongue_share") + t.lifts(), "axle group " + t.words["group"]}
	switch {
	case len(t.eachWords) > 0:
		out = append(out, "axles from the front "+strings.Join(t.eachWords, ", "))
	case axles > 1:
		out = append(out, "each axle "+t.words["axle"])
	}
	if t.words["left"] != "" && t.words["right"] != "" {
		out = append(out, "left wheels "+t.words["left"]+", right "+t.words["right"])
	}
	return out
}

func (t *travel) say(before, name string) string {
	if t.words[name] == "" {
		return ""
	}
	return before + t.words[name]
}

// lifts says what a negative tongue does.
func (t *travel) lifts() string {
	if t.tongue < 0 {
		return ", which lifts the vehicle"
	}
	return ""
}

// holds says what the tanks hold.
func (x *deckPicture) holds(t *travel) string {
	var w []string
	for _, s := range t.surfaces {
		if s.Volume > 0 {
			w = append(w, s.Name+" "+s.Volume.Quantity().Text(x.in.o.System, digits))
		}
	}
	if len(w) == 0 {
		return ""
	}
	return "in it: " + strings.Join(w, ", ")
}

// centreWords say where the centre of mass is.
func (t *travel) centreWords(behind string) string {
	s := t.words["centre_aft"] + behind
	if t.sides {
		switch l := t.words["centre_left"]; {
		case strings.HasPrefix(l, "-"):
			s += ", " + strings.TrimPrefix(l, "-") + " right"
		case t.across > 0:
			s += ", " + l + " left"
		default:
			s += ", on the centreline"
		}
	}
	if t.high {
		s += ", " + t.words["centre_height"] + " high"
	}
	return s
}

// loads draws a small side view for each of some travel states, half the scale
// of the views: levels, centre of mass, and an arrow for every load, as long as
// it is heavy.
func (x *deckPicture) loads(y float64, shown []travel) float64 {
	p := &x.p
	p.text(border, y+6, "start", strong, "How it rests, hitched, on level ground")
	y = p.lines(border, y+10, inside, least, "", "Half the scale of the views. Arrows are as long as the load is heavy; grey is liquid.")
	if len(x.travels) > travelsMost {
		y = p.lines(border, y, inside, least, "", "The first "+strconv.Itoa(travelsMost)+" of "+strconv.Itoa(len(x.travels))+" fill states; the table of weights has all.")
	}
	main := plot{x0: p.x0, scale: p.scale, ground: p.ground}
	p.scale /= 2
	defer func() { p.x0, p.scale, p.ground = main.x0, main.scale, main.ground }()
	most := 0.0
	for i := range x.travels {
		t := &x.travels[i]
		most = max(most, math.Abs(t.total), math.Abs(t.group), math.Abs(t.tongue))
	}
	perKilogram := 0.0 // length of an arrow a kilogram
	if most > 0 {
		perKilogram = 84 / most
	}
	const column, gap = (inside - 30) / 2, 30.0
	for i := 0; i < len(shown); i += 2 {
		var heads [2][]captionLine
		tall := 0
		for k := range heads {
			if i+k < len(shown) {
				heads[k] = x.caption(&shown[i+k], column)
				tall = max(tall, len(heads[k]))
			}
		}
		bottom := y
		for k := range heads {
			if i+k >= len(shown) {
				continue
			}
			left := border + float64(k)*(column+gap)
			base := y + 14
			for _, l := range heads[k] {
				base += 16
				style := smaller
				if l.strong {
					style = smallish
				}
				p.text(left, base, "start", style, l.words)
			}
			p.x0 = left + (column-p.scale*(x.e.aft-x.e.fore))/2 - p.scale*x.e.fore
			p.ground = y + 14 + 16*float64(tall) + 106 + p.scale*x.tallest()
			bottom = max(bottom, x.rest(&shown[i+k], perKilogram, left, left+column))
		}
		y = bottom + 6
	}
	return y
}

type captionLine struct {
	words  string
	strong bool
}

// caption is what stands over a small view, wrapped.
func (x *deckPicture) caption(t *travel, width float64) []captionLine {
	var out []captionLine
	add := func(words string, strong bool) {
		w := width
		if strong {
			w *= 0.94 // bold type is wider
		}
		for _, l := range wrapped(words, w, least) {
			out = append(out, captionLine{l, strong})
		}
	}
	add(t.sign+"  "+t.title, true)
	add(strings.Join(t.parts(x.d.Trailer.Axles), "; "), false)
	if h := x.holds(t); h != "" {
		add(h, false)
	}
	for i, r := range t.remarks {
		if i == 3 {
			add("and "+strconv.Itoa(len(t.remarks)-i)+" more on the page of weights", false)
			break
		}
		add(r, true)
	}
	return out
}

// tallest is the top of what the small views show, in metres.
func (x *deckPicture) tallest() float64 {
	deck, _ := stance(&x.d)
	top := deck
	for i := range x.d.Boxes {
		if b := &x.d.Boxes[i].Block; b.Top.Given() {
			top = max(top, metres(b.Top))
		}
	}
	for i := range x.travels {
		for _, s := range x.travels[i].surfaces {
			top = max(top, metres(s.Top))
		}
		top = max(top, x.travels[i].height)
	}
	return top
}

// rest draws one travel state and returns where it ends.
func (x *deckPicture) rest(t *travel, perKilogram, left, right float64) float64 {
	p, d := &x.p, &x.d
	for _, i := range x.nearLast() {
		p.rect(p.sideOf(&d.Boxes[i].Block), faint)
	}
	for _, s := range t.surfaces {
		p.liquid(s)
	}
	p.undercarriage(d, left, right)
	end := p.ground + 8
	if !t.known {
		return end
	}
	if t.centre {
		cx := p.x(placeAt(p.coupler + t.aft))
		z := t.height
		if !t.high {
			z, _ = stance(d)
		}
		cy := p.z(placeAt(z))
		tip := p.ground - p.scale*x.tallest() - 8
		p.arrow(cx, tip, perKilogram*t.total, true)
		p.line(cx, tip, cx, cy, hidden)
		if t.high {
			p.centre(cx, cy)
		}
		p.halo(cx+10, tip-perKilogram*t.total/2+4, "start", smallish, t.words["total"])
	}
	ball := p.x(placeAt(p.coupler))
	p.arrow(ball, p.ground+6, perKilogram*math.Abs(t.tongue), t.tongue < 0)
	each := t.each
	if len(each) == 0 {
		for range d.Axles {
			each = append(each, t.group/float64(len(d.Axles)))
		}
	}
	tail, deepest := p.ground+6+max(perKilogram*math.Abs(t.tongue), 9), p.ground+15
	if t.tongue < 0 { // it points down, from above the ground
		tail = p.ground + 6
	}
	for k, a := range d.Axles {
		if k < len(each) {
			p.arrow(p.x(a), p.ground+6, perKilogram*math.Abs(each[k]), each[k] < 0)
			deepest = max(deepest, p.ground+6+perKilogram*math.Abs(each[k]))
		}
	}
	words := "axle group " + t.words["group"]
	if len(t.eachWords) > 0 {
		words = "axles " + strings.Join(t.eachWords, ", ")
	}
	w := wide(words, least)
	axlesLeft := min(p.x(d.Trailer.AxleGroup), right-w/2) - w/2
	axlesLeft = max(axlesLeft, left)
	axlesLow := deepest + 16
	p.halo(axlesLeft, axlesLow, "start", smallish, words)
	words = "tongue " + t.words["tongue"]
	if t.tongue < 0 {
		words += " (lifts)"
	}
	from := max(left, ball-8)
	to := from + wide(words, least) + 8
	low := tail + 16
	if to > p.x(d.Axles[0])-8 { // beside the first axle there is no room
		low = axlesLow + 17
	} else if to > axlesLeft && math.Abs(low-axlesLow) < 17 {
		low = axlesLow - 17
		if low < tail+10 {
			low = axlesLow + 17
		}
	}
	p.halo(from, low, "start", smallish, words)
	return max(end, low, axlesLow)
}

// liquid draws a tank with what it holds, seen from the left.
func (p *plot) liquid(s rig.Surface) {
	x1, x2, top, floor := p.x(s.Fore), p.x(s.Aft), p.z(s.Top), p.z(s.Floor)
	level := p.surfaceOf(s)
	if s.Round {
		r := (x2 - x1) / 2
		cx, cy := x1+r, floor-r
		if s.Volume > 0 {
			half := math.Acos(min(max((level.y1-cy)/r, -1), 1)) // from straight down to the surface
			p.polygon(arc(nil, cx, cy, r, math.Pi/2-half, math.Pi/2+half), wet)
		}
		p.circle(cx, cy, r, `stroke="#000" stroke-width="1.4" fill="none"`)
	} else {
		if s.Volume > 0 {
			p.rect(area{x1, level.y1, x2, floor}, wet)
		}
		p.rect(area{x1, top, x2, floor}, `stroke="#000" stroke-width="1.4" fill="none"`)
	}
	if s.Volume > 0 {
		p.line(level.x1, level.y1, level.x2, level.y1, surface)
		mx, _ := level.middle()
		p.polygon([][2]float64{{mx - 4, level.y1 - 8}, {mx + 4, level.y1 - 8}, {mx, level.y1 - 1}}, `stroke="#000" stroke-width="1" fill="#fff"`)
	}
}

// travelWords are the text alternative of the loads.
func (x *deckPicture) travelWords(shown []travel) []string {
	out := []string{"How it rests, hitched, on level ground."}
	for i := range shown {
		t := &shown[i]
		s := t.sign + " " + t.title + ": " + strings.Join(t.parts(x.d.Trailer.Axles), "; ")
		if t.known && t.centre {
			s += "; centre of mass " + t.centreWords(x.behind())
		}
		out = append(out, s+".")
		var w []string
		for _, v := range t.surfaces {
			level := v.Name + " empty"
			if v.Volume > 0 {
				level = v.Name + " " + v.Volume.Quantity().Text(x.in.o.System, digits) + ", " + units.Length(metres(v.Level)-metres(v.Floor)).Quantity().Text(x.in.o.System, 3) + " deep"
				if v.Inferred {
					level += " (by its share of the box)"
				}
			}
			w = append(w, level)
		}
		if len(w) > 0 {
			out = append(out, "In it: "+strings.Join(w, "; ")+".")
		}
		if len(t.remarks) > 0 {
			out = append(out, "Found in it: "+strings.Join(t.remarks, "; ")+".")
		}
	}
	return append(out, rig.Disclaimer+" "+towing())
}
