package sheet

import (
	"strconv"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// key says what numbers, letters and signs of the views mean.
func (x *deckPicture) key(y float64) float64 {
	p := &x.p
	p.text(border, y, "start", strong, "Key")
	var lines []string
	for i := range x.d.Boxes {
		lines = append(lines, strconv.Itoa(i+1)+"  "+x.boxWords(i))
	}
	y = p.columns(y, 3, lines, nil)
	lines = nil
	for i := range x.d.Zones {
		lines = append(lines, letters(i)+"  "+x.zoneWords(i))
	}
	y = p.columns(y, 2, lines, func(i int, at area) {
		hatchingOf(x.d.Zones[i].Zone.Kind).fill(p, [][2]float64{{at.x1, at.y1}, {at.x2, at.y1}, {at.x2, at.y2}, {at.x1, at.y2}}, at)
		p.rect(at, thin)
	})
	for i, c := range x.clashes {
		y += 18
		if i == clashesMost {
			p.text(border, y, "start", smaller, strconv.Itoa(len(x.clashes)-i)+" more stand too near, by less; the findings name them.")
			break
		}
		n := strconv.Itoa(i + 1)
		r := max(8, wide(n, least)/2+2)
		p.circle(border+r, y-4.5, r, solid)
		p.text(border+r, y, "middle", `font-size="13" font-weight="bold" fill="#fff"`, n)
		p.text(border+2*r+6, y, "start", smaller, shortened("too near: "+x.clashWords(c), inside-2*r-6, least))
	}
	marked := false
	for i := range x.travels {
		marked = marked || x.travels[i].centre
	}
	if marked {
		y += 20
		p.centre(border+8, y-4.5)
		p.text(border+22, y, "start", smaller, "centre of mass, and")
		w := 22 + wide("centre of mass, and", least)
		p.waterMark(border+w+4, y-4.5, "")
		p.text(border+w+14, y, "start", smaller, "liquid in the tanks, in the travel states I, II …")
	}
	for _, n := range x.remarks() {
		y = p.lines(border, y+2, inside, least, "", n)
	}
	return y
}

// columns writes lines side by side, each behind its swatch if there are any.
func (p *plot) columns(y float64, n int, lines []string, swatch func(i int, at area)) float64 {
	if len(lines) == 0 {
		return y
	}
	rows := (len(lines) + n - 1) / n
	wideEach := inside / float64(n)
	for i, l := range lines {
		at, base := border+float64(i/rows)*wideEach, y+18*float64(i%rows+1)
		from := at
		if swatch != nil {
			swatch(i, area{at, base - 11, at + 26, base + 2})
			from += 33
		}
		p.text(from, base, "start", smaller, shortened(l, at+wideEach-10-from, least))
	}
	return y + 18*float64(rows) + 2
}

// remarks say what the picture does not show to scale.
func (x *deckPicture) remarks() []string {
	var out []string
	d := &x.d
	if d.Trailer.Axles > 0 {
		s := "Wheels and drawbar are signs, not sizes."
		if d.Height == 0 {
			s += " The height of the deck is not given; it is drawn at " + x.length(signDeck) + "."
		}
		if d.Trailer.CouplerHeight == 0 {
			s += " The height of the ball is not given."
		}
		if d.Trailer.Track == 0 {
			s += " The track is not given; no wheels are drawn from above."
		}
		if len(d.Axles) < d.Trailer.Axles {
			s += " The distance between the " + strconv.Itoa(d.Trailer.Axles) + " axles is not given; they are drawn as one."
		}
		out = append(out, s)
	}
	var flat []string
	for i := range d.Boxes {
		if !d.Boxes[i].Block.Top.Given() {
			flat = append(flat, d.Boxes[i].Name)
		}
	}
	if len(flat) > 0 {
		out = append(out, "No height is given, so not seen from the left: "+strings.Join(flat, ", ")+".")
	}
	if len(d.NoBox) > 0 {
		var names []string
		for _, p := range d.NoBox {
			names = append(names, pathWords(p))
		}
		out = append(out, "Weighs and has no box, so not drawn: "+strings.Join(names, ", ")+".")
	}
	return out
}

// pathWords names a component: "tank fresh".
func pathWords(p rig.Path) string {
	list, id, ok := strings.Cut(strings.TrimSuffix(string(p), "]"), "[")
	if !ok {
		return string(p)
	}
	return listWord(list) + " " + id
}

func (x *deckPicture) boxWords(i int) string {
	b := &x.d.Boxes[i]
	s := b.Name
	if list := listOf(b.Path); list != "items" {
		s += " (" + listWord(list) + ")"
	}
	return s
}

func (x *deckPicture) zoneWords(i int) string {
	z := &x.d.Zones[i]
	s := z.Title + ": " + z.Zone.Kind.String()
	if z.Zone.Clearance > 0 {
		s += ", " + x.length(float64(z.Zone.Clearance)) + " to be kept"
	}
	return s
}

func (x *deckPicture) clashWords(c rig.Spacing) string {
	s := c.A + " and " + c.B
	if c.Distance < 0 {
		s += ": overlap by " + x.length(-float64(c.Distance))
	} else {
		s += ": " + x.length(float64(c.Distance)) + " apart"
	}
	if c.Need > 0 {
		s += ", " + x.length(float64(c.Need)) + " needed"
	}
	if c.Fire {
		s += " (fuel and heat)"
	}
	return s
}

// aftWords say a place fore and aft.
func (x *deckPicture) aftWords(at units.Position) string {
	return x.length(metres(at) - x.p.coupler)
}

func (x *deckPicture) sideWords(at units.Position) string {
	switch l := metres(at); {
	case l < 0:
		return x.length(-l) + " right"
	case l > 0:
		return x.length(l) + " left"
	}
	return "the centreline"
}

func (x *deckPicture) behind() string {
	if x.d.Trailer.Axles == 0 {
		return " from the front"
	}
	return " aft of the ball"
}

func (x *deckPicture) place(b *statics.Block) string {
	s := x.aftWords(b.Fore) + " to " + x.aftWords(b.Aft) + x.behind() + ", from " + x.sideWords(b.Right) + " to " + x.sideWords(b.Left)
	if b.Bottom.Given() && b.Top.Given() {
		s += ", " + x.length(metres(b.Bottom)) + " to " + x.length(metres(b.Top)) + " above the ground"
	}
	return s
}

func (x *deckPicture) zonePlace(z *statics.Zone) string {
	var s string
	switch {
	case z.Block != nil:
		s = x.place(z.Block)
	case z.Swing != nil:
		s = "within " + x.length(float64(z.Swing.Radius)) + " of its hinge at " + x.aftWords(z.Swing.X) + x.behind() + ", " + x.sideWords(z.Swing.Y) +
			", from " + z.Swing.From.Quantity().Text(x.in.o.System, 3) + " to " + z.Swing.To.Quantity().Text(x.in.o.System, 3) + " from straight aft towards the left"
	case len(z.Path) == 2:
		a, b := z.Path[0], z.Path[1]
		s = x.length(float64(z.Width)) + " wide from " + x.aftWords(a.X) + x.behind() + ", " + x.sideWords(a.Y) + ", to " + x.aftWords(b.X) + ", " + x.sideWords(b.Y)
	}
	lo, hi, ok := heights(z)
	switch {
	case !ok:
		s += ", at every height"
	case z.Block == nil:
		s += ", " + x.length(lo) + " to " + x.length(hi) + " above the ground"
	}
	return s
}

// viewWords are the text alternative of the two views.
func (x *deckPicture) viewWords() []string {
	d := &x.d
	out := []string{verdictLine(x.in.rep)}
	if d.Trailer.Axles > 0 {
		var at []string
		for _, a := range d.Axles {
			at = append(at, x.aftWords(a))
		}
		word := "Axle "
		if len(at) > 1 {
			word = "Axles "
		}
		s := "Front to the left, left and right as one faces forward. " + word + strings.Join(at, ", ") + x.behind() + ", axle group " + x.aftWords(d.Trailer.AxleGroup)
		if d.Trailer.Track > 0 {
			s += ", track " + x.length(float64(d.Trailer.Track))
		}
		if d.Jack.Given() {
			s += ", jack " + x.aftWords(d.Jack)
		}
		out = append(out, s+".")
	} else {
		out = append(out, "Front to the left, left and right as one faces forward. There is no trailer, so there are no loads.")
	}
	if d.Platform != nil {
		s := "Deck: " + x.place(d.Platform)
		if d.Height > 0 {
			s += ", " + x.length(float64(d.Height)) + " above the ground"
		}
		out = append(out, s+".")
	}
	for i := range d.Boxes {
		out = append(out, strconv.Itoa(i+1)+" "+x.boxWords(i)+": "+x.place(&d.Boxes[i].Block)+".")
	}
	for i := range d.Zones {
		out = append(out, letters(i)+" "+x.zoneWords(i)+", kept clear "+x.zonePlace(&d.Zones[i].Zone)+".")
	}
	for i, c := range x.clashes {
		out = append(out, "Too near, mark "+strconv.Itoa(i+1)+": "+x.clashWords(c)+".")
	}
	if len(x.clashes) == 0 && len(d.Boxes) > 0 {
		out = append(out, "Nothing that is drawn stands too near.")
	}
	out = append(out, x.remarks()...)
	return append(out, rig.Disclaimer+" "+towing())
}
