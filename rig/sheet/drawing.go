package sheet

import (
	"io"
	"math"
	"strconv"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A Drawing is a picture to scale with the words that stand for it. HTML shows
// the picture, text and Markdown the words. Only [Deck] makes one.
type Drawing struct {
	title string
	words []string // the text alternative, a line each
	body  string   // SVG within the picture
	high  float64
}

func (Drawing) block() {}

// Words are the text alternative of the drawing, a line each.
func (d Drawing) Words() []string { return append([]string(nil), d.words...) }

// WriteSVG writes the drawing as one SVG file that needs nothing else. It is
// black on white: greys, dashes and hatching only repeat what words say.
func (d Drawing) WriteSVG(w io.Writer) error {
	p := &stickyWriter{w: w}
	p.put("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n")
	d.put(p, " xmlns=\"http://www.w3.org/2000/svg\"")
	return p.err
}

// put writes the picture; inside an HTML page it needs no name space.
func (d Drawing) put(p *stickyWriter, space string) {
	p.put("<svg" + space + " class=\"drawing\" role=\"img\" aria-labelledby=\"deck-title\" aria-describedby=\"deck-words\" viewBox=\"0 0 " + num(pictureWide) + " " + num(d.high) +
		"\" width=\"" + num(pictureWide) + "\" height=\"" + num(d.high) + "\" font-family=\"Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif\" font-size=\"14\">\n")
	p.put("<title id=\"deck-title\">" + esc(d.title) + "</title>\n<desc id=\"deck-words\">" + esc(strings.Join(d.words, " ")) + "</desc>\n")
	p.put("<rect width=\"" + num(pictureWide) + "\" height=\"" + num(d.high) + "\" fill=\"#fff\"/>\n")
	p.put(d.body + "</svg>\n")
}

const (
	pictureWide = 1000.0
	border      = 24.0
	inside      = pictureWide - 2*border
)

// Styles of the picture.
const (
	thin   = `stroke="#000" stroke-width="1" fill="none"`
	bold   = `stroke="#000" stroke-width="2.5" fill="none"`
	boxed  = `stroke="#000" stroke-width="1.6" fill="#fff"`
	wet    = `stroke="#000" stroke-width="1.6" fill="#e4e4e4"`
	hidden = `stroke="#000" stroke-width="0.8" fill="none" stroke-dasharray="2 4"`
	zoned  = `stroke="#000" stroke-width="1.4" fill="none" stroke-dasharray="8 4"`
	spaced = `stroke="#000" stroke-width="0.9" fill="none" stroke-dasharray="1.5 4"`
	hatch  = `stroke="#000" stroke-width="0.5"`
	solid  = `fill="#000"`
	plain  = `fill="#000"`
	strong = `fill="#000" font-weight="bold"`
	small  = `fill="#000" font-size="12"`
)

// A plot turns places on the trailer into places on the picture. Places are
// counted from the coupler.
type plot struct {
	strings.Builder
	x0, scale float64           // picture = x0 + scale · metres aft of the coupler
	coupler   float64           // m, in the rig's own coordinates
	plan      float64           // of the centreline
	ground    float64           // of the side view
	marks     map[string]string // letters given out, by name
}

func (p *plot) x(l units.Position) float64 { return p.x0 + p.scale*(metres(l)-p.coupler) }
func (p *plot) y(l units.Position) float64 { return p.plan + p.scale*metres(l) }
func (p *plot) z(l units.Position) float64 { return p.ground - p.scale*metres(l) }
func (p *plot) put(parts ...string)        { p.WriteString(strings.Join(parts, "")) }

func metres(l units.Position) float64 { return float64(l.Length()) }
func placeAt(m float64) units.Position {
	return units.PositionAt(units.Length(m))
}

func (p *plot) line(x1, y1, x2, y2 float64, style string) {
	p.put("<line x1=\"", num(x1), "\" y1=\"", num(y1), "\" x2=\"", num(x2), "\" y2=\"", num(y2), "\" ", style, "/>\n")
}

func (p *plot) rect(x1, y1, x2, y2 float64, style string) {
	p.put("<rect x=\"", num(x1), "\" y=\"", num(y1), "\" width=\"", num(x2-x1), "\" height=\"", num(y2-y1), "\" ", style, "/>\n")
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
	p.put("<text x=\"", num(x), "\" y=\"", num(y), "\" text-anchor=\"", anchor, "\" ", style, ">", esc(words), "</text>\n")
}

// halo writes words in the middle over whatever lies below them.
func (p *plot) halo(x, y float64, turn, words string) {
	p.put("<text x=\"", num(x), "\" y=\"", num(y), "\" text-anchor=\"middle\" fill=\"#000\" stroke=\"#fff\" stroke-width=\"3\" paint-order=\"stroke\"", turn, ">", esc(words), "</text>\n")
}

// hatched fills a rectangle of the picture with slanted lines.
func (p *plot) hatched(x1, y1, x2, y2 float64) {
	const step = 7
	for c := x1 - y2 + step; c < x2-y1; c += step { // x − y = c
		ax, bx := math.Max(x1, c+y1), math.Min(x2, c+y2)
		if ax < bx {
			p.line(ax, ax-c, bx, bx-c, hatch)
		}
	}
}

// arrow draws a load from below: length high, its point at y.
func (p *plot) arrow(x, y, length float64, down bool) {
	d := 1.0
	if down {
		d = -1
	}
	p.line(x, y+d*5, x, y+d*(5+length), bold)
	p.polygon([][2]float64{{x, y}, {x - 5, y + d*9}, {x + 5, y + d*9}}, solid)
}

// num writes a number of the picture to a hundredth.
func num(x float64) string {
	s := strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64)
	if s == "-0" {
		return "0"
	}
	return s
}

// wide is about how wide words are at a size of type.
func wide(words string, size float64) float64 { return 0.56 * size * float64(len([]rune(words))) }

// shortened cuts words to a width at a size of type.
func shortened(words string, width, size float64) string {
	r := []rune(clean(words))
	most := max(int(width/(0.56*size)), 1)
	if len(r) <= most {
		return string(r)
	}
	return strings.TrimSpace(string(r[:max(most-1, 0)])) + "…"
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

// places remembers where words and marks stand.
type places struct{ list [][4]float64 }

func (t *places) hits(x1, y1, x2, y2 float64) bool {
	for _, o := range t.list {
		if x1 < o[2] && o[0] < x2 && y1 < o[3] && o[1] < y2 {
			return true
		}
	}
	return false
}

func (t *places) take(x1, y1, x2, y2 float64) { t.list = append(t.list, [4]float64{x1, y1, x2, y2}) }

// free finds room for a mark of radius r near a place and takes it.
func (t *places) free(x, y, r float64) (float64, float64) {
	for ring := range 8 {
		for k := range 8 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 4)
			a, b := x+float64(ring)*r*cos, y+float64(ring)*r*sin
			if !t.hits(a-r, b-r, a+r, b+r) {
				t.take(a-r, b-r, a+r, b+r)
				return a, b
			}
			if ring == 0 {
				break
			}
		}
	}
	return x, y
}

// label writes a name into a rectangle of the picture: across, upright, or as a
// letter of the key where it does not fit. It returns the line of the key.
func (p *plot) label(taken *places, name string, x1, y1, x2, y2 float64) (key string) {
	const size = 14
	w := wide(name, size) + 4
	cx := (x1 + x2) / 2
	for _, f := range [...]float64{0.5, 0.25, 0.75, 0.12, 0.88} { // across
		cy := y1 + f*(y2-y1)
		if w <= x2-x1 && size+2 <= y2-y1 && cy-size/2 >= y1 && cy+size/2 <= y2 && !taken.hits(cx-w/2, cy-9, cx+w/2, cy+9) {
			taken.take(cx-w/2, cy-9, cx+w/2, cy+9)
			p.halo(cx, cy+5, "", name)
			return ""
		}
	}
	for _, f := range [...]float64{0.5, 0.3, 0.7} { // upright
		cy := y1 + f*(y2-y1)
		if w <= y2-y1 && size+2 <= x2-x1 && cy-w/2 >= y1 && cy+w/2 <= y2 && !taken.hits(cx-9, cy-w/2, cx+9, cy+w/2) {
			taken.take(cx-9, cy-w/2, cx+9, cy+w/2)
			p.halo(cx+5, cy, " transform=\"rotate(-90 "+num(cx+5)+" "+num(cy)+")\"", name)
			return ""
		}
	}
	letter, had := p.marks[name]
	if !had {
		letter = letters(len(p.marks))
		p.marks[name] = letter
	}
	x, y := taken.free(cx, (y1+y2)/2, 8)
	p.halo(x, y+5, "", letter)
	if had {
		return "" // the other view has told
	}
	return letter + "  " + name
}

// letters counts a, b … z, aa, ab …
func letters(n int) string {
	s := string(rune('a' + n%26))
	if n >= 26 {
		return letters(n/26-1) + s
	}
	return s
}

// length says a length of the rig for people.
func (in *source) length(l units.Length) string { return l.Quantity().Text(in.o.System, 3) }

// deckDrawing adds the drawing to a page.
func deckDrawing(d *Document, in *source) error {
	x, ok, err := in.deck()
	if err != nil {
		return err
	}
	if ok {
		d.Add(Heading{Text: "The deck to scale, from above and from the left"}, x)
	}
	return nil
}

// Deck draws the deck of a rig in plan and from the side, to scale, with the
// loads of every listed fill state. ok is false if there is no trailer with an
// axle to draw it by. The options may be nil.
func Deck(rep *rig.Report, o *Options) (d Drawing, ok bool, err error) {
	return newSource(rep, nil, o).deck()
}
