package sheet

import (
	"math"
	"strconv"
	"strings"

	"example.com/washrig/units"
)

const (
	pictureWide = 900.0
	border      = 20.0
	inside      = pictureWide - 2*border
	usual       = 14.0 // size of type
	least       = 13.0 // smallest type: 7.7 pt where the picture is as wide as a printed page
)

// Styles of the picture.
const (
	thin     = `stroke="#000" stroke-width="1" fill="none"`
	faint    = `stroke="#000" stroke-width="0.7" fill="none"`
	bold     = `stroke="#000" stroke-width="2.5" fill="none"`
	boxed    = `stroke="#000" stroke-width="1.6" fill="#fff"`
	wet      = `stroke="none" fill="#d8d8d8"`
	surface  = `stroke="#000" stroke-width="2" fill="none"`
	hidden   = `stroke="#000" stroke-width="0.9" fill="none" stroke-dasharray="3 3"`
	zoned    = `stroke="#000" stroke-width="1.4" fill="none" stroke-dasharray="8 4"`
	spaced   = `stroke="#000" stroke-width="0.9" fill="none" stroke-dasharray="1.5 4"`
	centred  = `stroke="#000" stroke-width="0.9" fill="none" stroke-dasharray="12 3 2 3"`
	rubber   = `stroke="#000" stroke-width="1" fill="#555"`
	steel    = `stroke="#000" stroke-width="1.2" fill="#555"`
	solid    = `fill="#000"`
	strong   = `font-weight="bold"`
	smaller  = `font-size="13"`
	smallish = `font-size="13" font-weight="bold"`
)

// A plot turns places on the rig into places on the picture. Places are counted
// from the coupler.
type plot struct {
	strings.Builder
	x0, scale float64 // picture = x0 + scale · metres aft of the coupler
	coupler   float64 // m, in the rig's own coordinates
	plan      float64 // of the centreline
	ground    float64 // of the side view
}

func (p *plot) x(l units.Position) float64 { return p.x0 + p.scale*(metres(l)-p.coupler) }
func (p *plot) y(l units.Position) float64 { return p.plan + p.scale*metres(l) }
func (p *plot) z(l units.Position) float64 { return p.ground - p.scale*metres(l) }
func (p *plot) put(parts ...string)        { p.WriteString(strings.Join(parts, "")) }

func metres(l units.Position) float64 { return float64(l.Length()) }

func placeAt(m float64) units.Position { return units.PositionAt(units.Length(m)) }

func (p *plot) line(x1, y1, x2, y2 float64, style string) {
	p.put("<line x1=\"", num(x1), "\" y1=\"", num(y1), "\" x2=\"", num(x2), "\" y2=\"", num(y2), "\" ", style, "/>\n")
}

func (p *plot) rect(r area, style string) {
	p.put("<rect x=\"", num(r.x1), "\" y=\"", num(r.y1), "\" width=\"", num(r.x2-r.x1), "\" height=\"", num(r.y2-r.y1), "\" ", style, "/>\n")
}

func (p *plot) circle(x, y, r float64, style string) {
	p.put("<circle cx=\"", num(x), "\" cy=\"", num(y), "\" r=\"", num(r), "\" ", style, "/>\n")
}

func (p *plot) polygon(points [][2]float64, style string) {
	p.put("<polygon points=\"")
	for i, v := range points {
		if i > 0 {
			p.put(" ")
		}
		p.put(num(v[0]), ",", num(v[1]))
	}
	p.put("\" ", style, "/>\n")
}

// text writes words; anchor is start, middle or end.
func (p *plot) text(x, y float64, anchor, style, words string) {
	if anchor != "start" {
		style = strings.TrimSpace("text-anchor=\"" + anchor + "\" " + style)
	}
	if style != "" {
		style = " " + style
	}
	p.put("<text x=\"", num(x), "\" y=\"", num(y), "\"", style, ">", esc(words), "</text>\n")
}

// halo writes words over whatever lies below them, white around.
const haloed = `stroke="#fff" stroke-width="3.5" stroke-linejoin="round" paint-order="stroke"`

func (p *plot) halo(x, y float64, anchor, style, words string) {
	p.text(x, y, anchor, strings.TrimSpace(haloed+" "+style), words)
}

// upright writes words that read from below, their middle at x and y.
func (p *plot) upright(x, y float64, style, words string) {
	p.halo(x, y, "middle", strings.TrimSpace("transform=\"rotate(-90 "+num(x)+" "+num(y)+")\" "+style), words)
}

// lines writes words wrapped to a width and returns where the next may stand.
func (p *plot) lines(x, y, width, size float64, style, words string) float64 {
	for _, l := range wrapped(words, width, size) {
		y += size + 3
		p.text(x, y, "start", strings.TrimSpace("font-size=\""+num(size)+"\" "+style), l)
	}
	return y
}

// within draws inside a window of the picture; what reaches beyond is cut.
func (p *plot) within(w area, draw func()) {
	p.put("<svg x=\"", num(w.x1), "\" y=\"", num(w.y1), "\" width=\"", num(w.x2-w.x1), "\" height=\"", num(w.y2-w.y1),
		"\" viewBox=\"", num(w.x1), " ", num(w.y1), " ", num(w.x2-w.x1), " ", num(w.y2-w.y1), "\">\n")
	draw()
	p.put("</svg>\n")
}

// arrow draws a force with its point at y: from below, or from above.
func (p *plot) arrow(x, y, length float64, down bool) {
	d := 1.0
	if down {
		d = -1
	}
	head := math.Min(9, math.Max(length, 5))
	p.line(x, y+d*head*0.8, x, y+d*math.Max(length, head), `stroke="#000" stroke-width="3" fill="none"`)
	p.polygon([][2]float64{{x, y}, {x - 0.55*head, y + d*head}, {x + 0.55*head, y + d*head}}, solid)
}

// centre draws the sign of a centre of mass.
func (p *plot) centre(x, y float64) {
	const r = 6.0
	p.circle(x, y, r, `stroke="#000" stroke-width="1.4" fill="#fff"`)
	p.put("<path d=\"M", num(x), " ", num(y), "V", num(y-r), "A", num(r), " ", num(r), " 0 0 1 ", num(x+r), " ", num(y), "ZM", num(x), " ", num(y), "V", num(y+r), "A", num(r), " ", num(r), " 0 0 1 ", num(x-r), " ", num(y), "Z\"/>\n")
}

// A dimension is a stretch of a chain of them; what is left without its word
// when room is short.
type dimension struct {
	from, to    float64
	word, value string
}

// across draws dimensions along one line. Words too wide for their stretch
// stand below it.
func (p *plot) across(y float64, chain []dimension) {
	free := math.Inf(-1)
	for _, d := range chain {
		if d.to-d.from < 1 {
			continue
		}
		for _, x := range [...]float64{d.from, d.to} {
			p.line(x-4, y+4, x+4, y-4, thin)
		}
		x, words, w := (d.from+d.to)/2, d.words(d.to-d.from), 0.0
		if w = wide(words, least); w+12 <= d.to-d.from { // the line makes room for the words
			p.line(d.from, y, x-w/2-2, y, thin)
			p.line(x+w/2+2, y, d.to, y, thin)
			p.text(x, y+4.5, "middle", smaller, words)
			continue
		}
		p.line(d.from, y, d.to, y, thin)
		words = d.words(math.Inf(1))
		w = wide(words, least)
		if x = min(max(x, border+w/2), border+views-w/2); x-w/2 > free {
			p.text(x, y+18, "middle", smaller, words)
			free = x + w/2 + 4
		}
	}
}

// words are those that fit a stretch, or the number alone.
func (d dimension) words(room float64) string {
	if all := d.word + d.value; wide(all, least)+12 <= room {
		return all
	}
	return d.value
}

// up draws an upright dimension; from is the lower end. A number too long for
// its stretch stands row lines below it.
func (p *plot) up(x float64, row int, d dimension) {
	if d.from-d.to < 1 {
		return
	}
	for _, y := range [...]float64{d.from, d.to} {
		p.line(x-4, y+4, x+4, y-4, thin)
	}
	y, words := (d.from+d.to)/2, d.words(d.from-d.to)
	if w := wide(words, least); w+12 <= d.from-d.to {
		p.line(x, d.from, x, y+w/2+2, thin)
		p.line(x, y-w/2-2, x, d.to, thin)
		p.upright(x+4.5, y, smaller, words)
		return
	}
	p.line(x, d.from, x, d.to, thin)
	words = d.words(math.Inf(1))
	p.text(min(x+12, pictureWide-border), d.from+1+15*float64(row), "end", smaller, words)
}

// num writes a number of the picture to a hundredth.
func num(x float64) string {
	s := strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64)
	if s == "-0" {
		return "0"
	}
	return s
}

// wide is about how wide words are at a size of type, rather too much than too
// little.
func wide(words string, size float64) float64 {
	sum := 0.0
	for _, r := range words {
		switch {
		case strings.ContainsRune("iljI.,:;'|! ()[]tfr/-", r):
			sum += 0.34
		case strings.ContainsRune("W@%", r) || r >= 0x1100: // ideographs are as wide as they are high
			sum += 1.05
		case strings.ContainsRune("mwMOQGCD&", r):
			sum += 0.84
		case r >= 'A' && r <= 'Z' || r >= 0x80:
			sum += 0.75
		default:
			sum += 0.6
		}
	}
	return sum * size
}

// shortened cuts words to a width at a size of type.
func shortened(words string, width, size float64) string {
	words = strings.TrimSpace(clean(words))
	if wide(words, size) <= width {
		return words
	}
	r := []rune(words)
	for len(r) > 0 && wide(string(r)+"…", size) > width {
		r = r[:len(r)-1]
	}
	return strings.TrimSpace(string(r)) + "…"
}

// wrapped breaks words into lines of at most a width at a size of type.
func wrapped(words string, width, size float64) []string {
	var out []string
	line := ""
	for _, w := range strings.Fields(clean(words)) {
		w = shortened(w, width, size)
		switch {
		case line == "":
			line = w
		case wide(line+" "+w, size) <= width:
			line += " " + w
		default:
			out, line = append(out, line), w
		}
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// An area is a rectangle of the picture, x1 ≤ x2 and y1 ≤ y2.
type area struct{ x1, y1, x2, y2 float64 }

func around(x, y, w, h float64) area { return area{x - w/2, y - h/2, x + w/2, y + h/2} }

func (a area) middle() (x, y float64) { return (a.x1 + a.x2) / 2, (a.y1 + a.y2) / 2 }

func (a area) meets(b area) bool { return a.x1 < b.x2 && b.x1 < a.x2 && a.y1 < b.y2 && b.y1 < a.y2 }

func (a area) holds(b area) bool {
	return a.x1 <= b.x1 && b.x2 <= a.x2 && a.y1 <= b.y1 && b.y2 <= a.y2
}

// places remembers where words and marks stand.
type places struct {
	list []area
	room area // outside it nothing may stand
}

func (t *places) free(a area) bool {
	if !t.room.holds(a) {
		return false
	}
	for _, o := range t.list {
		if a.meets(o) {
			return false
		}
	}
	return true
}

func (t *places) take(a area) { t.list = append(t.list, a) }

// steps of a search over a frame, from the middle outwards.
var steps = [...]float64{0, -0.15, 0.15, -0.3, 0.3, -0.45, 0.45, -0.6, 0.6, -0.75, 0.75, -0.9, 0.9, -1, 1}

// in finds room for words of a size inside a frame, off the areas to be
// avoided, and takes it.
func (t *places) in(frame area, w, h float64, avoid []area) (x, y float64, ok bool) {
	dx, dy := (frame.x2-frame.x1-w)/2, (frame.y2-frame.y1-h)/2
	if dx < 0 || dy < 0 {
		return 0, 0, false
	}
	mx, my := frame.middle()
	for _, b := range steps {
		for _, a := range steps {
			x, y = mx+a*dx, my+b*dy
			at := around(x, y, w, h)
			if !t.free(at) {
				continue
			}
			clear := true
			for _, o := range avoid {
				clear = clear && !at.meets(o)
			}
			if clear {
				t.take(at)
				return x, y, true
			}
		}
	}
	return 0, 0, false
}

// near finds room for a mark of a size as near to a place as there is, and
// takes it. Where there is none it takes the place itself.
func (t *places) near(x, y, w, h float64) (float64, float64) {
	x, y = math.Min(math.Max(x, t.room.x1+w/2), t.room.x2-w/2), math.Min(math.Max(y, t.room.y1+h/2), t.room.y2-h/2)
	for ring := range 24 {
		n := max(8*ring, 1)
		for k := range n {
			sin, cos := math.Sincos(2*math.Pi*float64(k)/float64(n) - math.Pi/4)
			a, b := x+float64(ring)*6*cos, y+float64(ring)*6*sin
			if at := around(a, b, w, h); t.free(at) {
				t.take(at)
				return a, b
			}
		}
	}
	t.take(around(x, y, w, h))
	return x, y
}

// letters counts A, B … Z, AA, AB …
func letters(n int) string {
	s := string(rune('A' + n%26))
	if n >= 26 {
		return letters(n/26-1) + s
	}
	return s
}

// roman counts I, II, III …
func roman(n int) string {
	s := ""
	for _, x := range [...]struct {
		n    int
		sign string
	}{{100, "C"}, {90, "XC"}, {50, "L"}, {40, "XL"}, {10, "X"}, {9, "IX"}, {5, "V"}, {4, "IV"}, {1, "I"}} {
		for n >= x.n {
			s, n = s+x.sign, n-x.n
		}
	}
	return s
}
