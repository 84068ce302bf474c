package sheet_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"example.com/washrig/internal/golden"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/rig/sheet"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// deckSpec is a trailer with a zone of every kind, things too near each other,
// a lying tank, a part fill and texts that mean something in XML.
const deckSpec = `{
	"format": "washrig/1", "name": "deck & <drawing>", "title": "invented",
	"site": {"elevation": "5200 ft", "water": "45 °F", "conditions": [{"id": "noon", "air": "90 °F"}]},
	"tanks": [
		{"id": "fresh", "nominal": "200 gal", "mass": "150 lb", "x": "9 ft", "y": "0 ft", "z": "3.2 ft", "floor": "26 in", "shape": "crosswise-cylinder", "diameter": "34 in", "inside_width": "50.9 in",
			"box": {"length": "36 in", "width": "54 in", "height": "38 in"}},
		{"id": "recovered", "nominal": "120 gal", "mass": "90 lb", "x": "15.2 ft", "y": "0 ft", "z": "3.2 ft", "floor": "25 in", "shape": "box", "inside_length": "24 in", "inside_width": "35 in", "height": "33 in",
			"box": {"length": "26 in", "width": "37 in", "height": "35 in"}, "contents": "recovered"}],
	"fuel_tanks": [{"id": "diesel", "fuel": "diesel", "volume": "20 gal", "home": "8 gal", "mass": "40 lb", "x": "5.3 ft", "y": "-2 ft", "z": "2.8 ft", "box": {"length": "18 in", "width": "16 in", "height": "20 in"}}],
	"items": [
		{"id": "skid", "mass": "700 lb", "x": "6 ft", "y": "1.2 ft", "z": "3 ft", "box": {"length": "28 in", "width": "40 in", "height": "36 in"}},
		{"id": "reels", "mass": "160 lb", "x": "17.4 ft", "y": "1 ft", "z": "3 ft", "box": {"length": "15 in", "width": "30 in", "height": "26 in"}},
		{"id": "cones", "mass": "12 lb", "x": "12 ft", "y": "-2.6 ft", "z": "2.4 ft", "box": {"length": "10 in", "width": "10 in"}},
		{"id": "spare", "mass": "55 lb", "x": "3 ft", "y": "0 ft", "z": "2 ft"}],
	"trailer": {"id": "chassis", "mass": "1900 lb", "x": "10 ft", "y": "0 ft", "z": "1.6 ft", "axles": 2, "axle_group": "11.5 ft", "axle_spacing": "34 in", "track": "80 in", "deck_front": "4 ft", "deck_length": "14.5 ft", "deck_width": "6.5 ft",
		"deck_height": "24 in", "coupler_height": "18 in", "coupler_rating": "900 lb", "axle_rating": "3500 lb", "gross_rating": "7000 lb", "jack": "1.2 ft", "jack_rating": "2000 lb", "tyre_rating": "1820 lb"},
	"zones": [
		{"id": "stack", "title": "stack <of> the heater", "kind": "heat", "clearance": "18 in", "owner": "items[skid]", "x": "6.4 ft", "y": "0.6 ft", "length": "8 in", "width": "8 in"},
		{"id": "muffler", "kind": "exhaust", "clearance": "4 in", "owner": "items[skid]", "x": "6 ft", "y": "3.2 ft", "length": "6 in", "width": "12 in", "bottom": "2.5 ft", "top": "3.2 ft"},
		{"id": "fill", "title": "fill of the fuel tank", "kind": "fuel", "clearance": "6 in", "owner": "fuel_tanks[diesel]", "x": "5.3 ft", "y": "-2 ft", "length": "5 in", "width": "5 in"},
		{"id": "standing", "title": "standing room", "kind": "access", "x": "12.9 ft", "y": "0 ft", "length": "2 ft", "width": "6 ft", "bottom": "2 ft", "top": "8 ft"},
		{"id": "pull", "title": "pull of the hose", "kind": "hose-path", "owner": "items[reels]", "x": "18 ft", "y": "1 ft", "to_x": "60 ft", "to_y": "1 ft", "width": "1.5 ft"},
		{"id": "gate", "title": "rear gate", "kind": "gate-swing", "clearance": "1 in", "x": "18.6 ft", "y": "-3 ft", "radius": "3 ft", "from": "0 deg", "to": "90 deg"}],
	"fills": [
		{"id": "out", "title": "out, fresh tank full", "levels": [{"id": "fresh", "volume": "200 gal"}, {"id": "diesel", "volume": "20 gal"}]},
		{"id": "midday", "title": "midday", "levels": [{"id": "fresh", "volume": "70 gal"}, {"id": "recovered", "volume": "80 gal"}, {"id": "diesel", "volume": "14 gal"}]},
		{"id": "home", "title": "home & dumped", "reach": "conceivable", "levels": [{"id": "recovered", "volume": "120 gal"}, {"id": "diesel", "volume": "8 gal"}]}]
}`

func readSpec(t testing.TB, text string) *rig.Spec {
	t.Helper()
	s, err := rig.ReadSpec(strings.NewReader(text), rig.ReadLimits{})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// judged builds and assesses a rig.
func judged(s *rig.Spec) (*rig.Report, error) {
	m, err := rig.New(s, nil)
	if err != nil {
		return nil, err
	}
	return m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
}

func deckReport(t testing.TB) *rig.Report {
	t.Helper()
	rep, err := judged(readSpec(t, deckSpec))
	if err != nil {
		t.Fatal(err)
	}
	return rep
}

// drawn returns the file of a drawing, read.
func drawn(rep *rig.Report, o *sheet.Options) (*picture, sheet.Drawing, error) {
	d, ok, err := sheet.Deck(rep, o)
	if err != nil {
		return nil, d, err
	}
	if !ok {
		return nil, d, errors.New("nothing is drawn")
	}
	var b bytes.Buffer
	if err := d.WriteSVG(&b); err != nil {
		return nil, d, err
	}
	p, err := readPicture(b.Bytes())
	return p, d, err
}

// A picture is a drawing as a program that reads XML sees it.
type picture struct {
	text  string
	high  float64
	wide  float64
	scale float64
	marks []mark // every element, in order
	words []string
}

type mark struct {
	name    string
	attr    map[string]string
	view    string // class and component of the group it stands in
	path    string
	content string
}

func (m *mark) num(name string) float64 {
	v, err := strconv.ParseFloat(m.attr[name], 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

var notNumber = regexp.MustCompile(`(?i)\b(nan|[+-]?inf(inity)?)\b|\d[eE][+-]?\d`)

// readPicture parses a file and refuses what no drawing may have.
func readPicture(text []byte) (*picture, error) {
	p := &picture{text: string(text)}
	dec := xml.NewDecoder(bytes.NewReader(text))
	var open []mark
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			m := mark{name: tok.Name.Local, attr: map[string]string{}}
			if len(open) > 0 {
				m.view, m.path = open[len(open)-1].view, open[len(open)-1].path
			}
			for _, a := range tok.Attr {
				m.attr[a.Name.Local] = a.Value
				if !strings.HasPrefix(a.Name.Local, "data-path") && notNumber.MatchString(a.Value) {
					return nil, fmt.Errorf("<%s %s=%q>", m.name, a.Name.Local, a.Value)
				}
				if strings.HasPrefix(strings.ToLower(a.Name.Local), "on") || a.Name.Local == "href" || a.Name.Local == "style" {
					return nil, fmt.Errorf("<%s> has the attribute %s", m.name, a.Name.Local)
				}
			}
			if m.name == "g" {
				m.view, m.path = m.attr["class"], m.attr["data-path"]
			}
			switch m.name {
			case "svg", "g", "title", "desc", "rect", "line", "circle", "polygon", "path", "text":
			default:
				return nil, fmt.Errorf("an element <%s>", m.name)
			}
			for _, name := range [...]string{"width", "height", "r"} {
				if v, ok := m.attr[name]; ok && !(m.num(name) >= 0) {
					return nil, fmt.Errorf("<%s %s=%q>", m.name, name, v)
				}
			}
			open = append(open, m)
		case xml.EndElement:
			p.marks = append(p.marks, open[len(open)-1])
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				open[len(open)-1].content += string(tok)
			}
		}
	}
	for i := range p.marks {
		m := &p.marks[i]
		if m.name == "text" {
			p.words = append(p.words, plainSpaces(m.content))
		}
	}
	root := &p.marks[len(p.marks)-1]
	if root.name != "svg" || root.attr["role"] != "img" || root.attr["aria-labelledby"] == "" || root.attr["aria-describedby"] == "" {
		return nil, errors.New("the root is not a picture with a name and a description")
	}
	for _, name := range [...]string{"title", "desc"} {
		found := false
		for i := range p.marks {
			m := &p.marks[i]
			found = found || m.name == name && m.content != "" && (m.attr["id"] == root.attr["aria-labelledby"] || m.attr["id"] == root.attr["aria-describedby"])
		}
		if !found {
			return nil, fmt.Errorf("no <%s> that the root names", name)
		}
	}
	p.wide, p.high, p.scale = root.num("width"), root.num("height"), root.num("data-scale")
	if !(p.wide > 0 && p.high > 0 && p.high < 20000 && p.scale > 0) || root.attr["viewBox"] != fmt.Sprintf("0 0 %s %s", root.attr["width"], root.attr["height"]) {
		return nil, fmt.Errorf("the picture is %v × %v at %v a metre in %q", p.wide, p.high, p.scale, root.attr["viewBox"])
	}
	return p, nil
}

// plainSpaces undoes what keeps a number and its unit on one line.
func plainSpaces(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

// boxes are the rectangles of components in one view, by path.
func (p *picture) boxes(view string) map[string]*mark {
	out := map[string]*mark{}
	for i := range p.marks {
		if m := &p.marks[i]; m.name == "rect" && m.view == view {
			out[m.path] = m
		}
	}
	return out
}

func (p *picture) says(words string) bool {
	return strings.Contains(squeezed(strings.Join(p.words, " ")), squeezed(words))
}

// checkScale holds the rectangles against the rig: one scale in both views and
// along both axes, and everything inside the picture.
func (p *picture) checkScale(d *rig.Deck) error {
	const half = 0.011 // of the last printed digit, twice: a length is the difference of two
	near := func(what string, got float64, want units.Length) error {
		if math.Abs(got-p.scale*float64(want)) > half+0.006*float64(want) { // the scale itself is printed to a hundredth
			return fmt.Errorf("%s is %v on the picture, and %v × %v on the rig", what, got, float64(want), p.scale)
		}
		return nil
	}
	plan, side := p.boxes("plan"), p.boxes("side")
	for i := range d.Boxes {
		b := &d.Boxes[i]
		m := plan[string(b.Path)]
		if m == nil {
			return fmt.Errorf("%s is not drawn from above", b.Path)
		}
		err := errors.Join(near(b.Name+" length", m.num("width"), b.Block.Aft.Sub(b.Block.Fore)), near(b.Name+" width", m.num("height"), b.Block.Left.Sub(b.Block.Right)))
		all := []*mark{m}
		if b.Block.Top.Given() {
			s := side[string(b.Path)]
			if s == nil {
				return fmt.Errorf("%s is not drawn from the left", b.Path)
			}
			all = append(all, s)
			err = errors.Join(err, near(b.Name+" length from the left", s.num("width"), b.Block.Aft.Sub(b.Block.Fore)), near(b.Name+" height", s.num("height"), b.Block.Top.Sub(b.Block.Bottom)))
			if math.Abs(s.num("x")-m.num("x")) > half {
				err = errors.Join(err, fmt.Errorf("%s stands at %v and %v", b.Name, m.num("x"), s.num("x")))
			}
		}
		// Places too: against the first box.
		first := plan[string(d.Boxes[0].Path)]
		err = errors.Join(err, func() error {
			if dx := b.Block.Fore.Sub(d.Boxes[0].Block.Fore); math.Abs(m.num("x")-first.num("x")-p.scale*float64(dx)) > half+0.006*math.Abs(float64(dx)) {
				return fmt.Errorf("%s stands %v aft of the first, not %v", b.Name, m.num("x")-first.num("x"), p.scale*float64(dx))
			}
			return nil
		}())
		for _, m := range all {
			if x, y := m.num("x"), m.num("y"); !(x >= 0 && y >= 0 && x+m.num("width") <= p.wide && y+m.num("height") <= p.high) {
				err = errors.Join(err, fmt.Errorf("%s reaches out of the picture: %v", b.Name, m.attr))
			}
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// checkLoads looks for the readings of the report in the words of the picture
// and of its text alternative.
func (p *picture) checkLoads(rep *rig.Report, d sheet.Drawing, sys units.System) error {
	words := strings.Join(d.Words(), " ")
	for _, f := range rep.Model().Fills() {
		for _, path := range []rig.Path{"trailer.total", "trailer.tongue", "trailer.tongue_share", "trailer.group", "trailer.left", "trailer.right", "trailer.centre_aft", "trailer.centre_height"} {
			r, ok := rep.At(path, f.State)
			if !ok {
				continue
			}
			text := r.Text(sys, 4)
			if !strings.Contains(words, text) {
				return fmt.Errorf("%s in %v: the words lack %s", path, f.State, text)
			}
			if !strings.Contains(string(path), "centre") && !p.says(text) {
				return fmt.Errorf("%s in %v: the picture lacks %s", path, f.State, text)
			}
		}
	}
	return nil
}

// As it was looked at on screen and on paper, in both systems, and the page it
// stands on in every form.
func TestDrawing_golden(t *testing.T) {
	rep := deckReport(t)
	for name, sys := range map[string]units.System{"deck.svg": units.US, "deck-si.svg": units.SI} {
		d, ok, err := sheet.Deck(rep, &sheet.Options{System: sys})
		if err != nil || !ok {
			t.Fatalf("%s: %v, %v", name, ok, err)
		}
		var b bytes.Buffer
		if err := d.WriteSVG(&b); err != nil {
			t.Fatal(err)
		}
		golden.Equal(t, name, b.Bytes())
	}
	page, err := sheet.Weights(rep, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range forms {
		golden.Equal(t, "weights-deck."+f.name, []byte(written(t, page, f.write)))
	}
}

// What a drawing must show stands in it and in its words: numbers of the
// report, clashes with their distance, what is not drawn, cautions.
func TestDrawing_shows(t *testing.T) {
	rep := deckReport(t)
	for _, sys := range []units.System{units.US, units.SI} {
		p, d, err := drawn(rep, &sheet.Options{System: sys})
		if err != nil {
			t.Fatal(err)
		}
		deck, _ := rep.Model().Deck()
		if err := errors.Join(p.checkScale(&deck), p.checkLoads(rep, d, sys)); err != nil {
			t.Error(err)
		}
		words := strings.Join(d.Words(), " ")
		for _, want := range []string{"fresh", "recovered", "diesel", "skid", "reels", "cones", "stack <of> the heater: heat", "muffler: exhaust", "fill of the fuel tank: fuel", "standing room: access", "pull of the hose: hose path", "rear gate: gate swing",
			"Weighs and has no box, so not drawn: item spare", "so not seen from the left: cones", "home & dumped (conceivable)", rig.Disclaimer, "Weigh the trailer and its tongue before the road"} {
			if !strings.Contains(words, want) {
				t.Errorf("%v: the words lack %q", sys, want)
			}
			if !p.says(want) {
				t.Errorf("%v: the picture lacks %q", sys, want)
			}
		}
		for _, c := range rig.Cautions() {
			if !p.says(c.Text) {
				t.Errorf("%v: the file lacks the caution %q", sys, c.Text)
			}
		}
		clashes, err := rep.Model().Clashes()
		if err != nil || len(clashes) == 0 {
			t.Fatalf("no clash to show: %v", err)
		}
		for _, c := range clashes {
			distance := c.Distance
			if distance < 0 {
				distance = -distance
			}
			for _, want := range []string{c.A + " and " + c.B, distance.Quantity().Text(sys, 3)} {
				if !strings.Contains(words, want) || !p.says(want) {
					t.Errorf("%v: the clash of %s and %s is not told: %q", sys, c.A, c.B, want)
				}
			}
		}
		unit := map[units.System]string{units.US: " ft", units.SI: " m"}[sys]
		if !regexp.MustCompile(`\bscale\b.*\b\d+(\.\d+)?` + unit + `\b`).MatchString(strings.Join(p.words, " ")) {
			t.Errorf("%v: no scale bar", sys)
		}
	}
}

// The scale bar is as long as it says.
func TestDrawing_scaleBar(t *testing.T) {
	rep := deckReport(t)
	for _, sys := range []units.System{units.US, units.SI} {
		p, _, err := drawn(rep, &sheet.Options{System: sys})
		if err != nil {
			t.Fatal(err)
		}
		var bar float64
		said := ""
		for i := range p.marks {
			m := &p.marks[i]
			if m.name == "rect" && m.attr["height"] == "6" {
				bar += m.num("width")
			}
			if m.name == "text" && m.content == "0" {
				for k := i; said == ""; k++ {
					if n := &p.marks[k]; n.name == "text" && n.content != "0" {
						said = plainSpaces(n.content)
					}
				}
			}
		}
		l, err := units.ParseLength(said)
		if err != nil {
			t.Fatalf("%v: the bar says %q: %v", sys, said, err)
		}
		if math.Abs(bar-p.scale*float64(l)) > 0.1 { // five stretches, each to a hundredth, and the scale to a hundredth
			t.Errorf("%v: the bar is %v long and says %s, which is %v", sys, bar, said, p.scale*float64(l))
		}
	}
}

// Nothing is told by colour, no type is too small, and words are black on white
// or white on black.
func TestDrawing_blackAndWhite(t *testing.T) {
	for _, rep := range []*rig.Report{deckReport(t), demoReport(t, "B", nil), demoReport(t, "D", nil)} {
		p, _, err := drawn(rep, nil)
		if err != nil {
			t.Fatal(err)
		}
		for i := range p.marks {
			m := &p.marks[i]
			for _, name := range [...]string{"fill", "stroke"} {
				c := strings.TrimPrefix(m.attr[name], "#")
				if c == "" || c == "none" {
					continue
				}
				if strings.Trim(c, c[:1]) != "" && c != "d8d8d8" {
					t.Errorf("<%s %s=%q>", m.name, name, m.attr[name])
				}
				if m.name == "text" && c != "000" && c != "fff" {
					t.Errorf("words %q in %s", m.content, m.attr[name])
				}
			}
			if size, ok := m.attr["font-size"]; ok && m.num("font-size") < 13 {
				t.Errorf("%q is set in %s", m.content, size)
			}
		}
	}
}

// advances are how wide the signs from space to tilde are, in 1/2048 of the
// size of type. Source: Liberation Sans Regular, table hmtx, the first type of
// a picture that is free to look into; the others of its family have the same.
var advances = [...]int{569, 569, 727, 1139, 1139, 1821, 1366, 391, 682, 682, 797, 1196, 569, 682, 569, 569,
	1139, 1139, 1139, 1139, 1139, 1139, 1139, 1139, 1139, 1139, 569, 569, 1196, 1196, 1196, 1139,
	2079, 1366, 1366, 1479, 1479, 1366, 1251, 1593, 1479, 569, 1024, 1366, 1139, 1706, 1479, 1593, 1366, 1593, 1479, 1366, 1251, 1479, 1366, 1933, 1366, 1366, 1251, 569, 569, 569, 961, 1139,
	682, 1139, 1139, 1024, 1139, 1139, 569, 1139, 1139, 455, 455, 1024, 455, 1706, 1139, 1139, 1139, 1139, 682, 1024, 569, 1139, 1024, 1479, 1024, 1024, 1024, 684, 532, 684, 1196}

func setWide(words string, size float64) float64 {
	sum := 0
	for _, r := range words {
		if r < ' ' || r > '~' {
			r = 'a'
		}
		sum += advances[r-' ']
	}
	return size * float64(sum) / 2048
}

// Words are never reckoned narrower than they are set.
func TestWide_notLessThanSet(t *testing.T) {
	for i := range advances {
		s := string(rune(' ' + i))
		if got, want := sheet.Wide(s, 1), setWide(s, 1); got < want || got > 2.2*want {
			t.Errorf("%q is reckoned %.3f wide and set %.3f", s, got, want)
		}
	}
}

// On the demo rigs no words lie on other words and none reaches out of the
// picture.
func TestDrawing_wordsApart(t *testing.T) {
	for _, name := range []string{"B", "C", "D"} {
		for _, sys := range []units.System{units.US, units.SI} {
			p, _, err := drawn(demoReport(t, name, nil), &sheet.Options{System: sys})
			if err != nil {
				t.Fatal(err)
			}
			type frame struct {
				x1, y1, x2, y2 float64
				words          string
			}
			var list []frame
			for i := range p.marks {
				m := &p.marks[i]
				if m.name != "text" {
					continue
				}
				size := 14.0
				if m.attr["font-size"] != "" {
					size = m.num("font-size")
				}
				w := setWide(m.content, size)
				x, y := m.num("x"), m.num("y")
				switch m.attr["text-anchor"] {
				case "middle":
					x -= w / 2
				case "end":
					x -= w
				}
				f := frame{x, y - 0.7*size, x + w, y, m.content}
				if strings.HasPrefix(m.attr["transform"], "rotate(-90") { // about its own middle
					f = frame{m.num("x") - 0.7*size, m.num("y") - w/2, m.num("x"), m.num("y") + w/2, m.content}
				}
				if f.x1 < 0 || f.y1 < 0 || f.x2 > p.wide || f.y2 > p.high {
					t.Errorf("%s: %q reaches out of the picture: %v", name, f.words, f)
				}
				for _, o := range list {
					if f.x1 < o.x2 && o.x1 < f.x2 && f.y1 < o.y2 && o.y1 < f.y2 {
						t.Errorf("%s, %v: %q lies on %q", name, sys, f.words, o.words)
					}
				}
				list = append(list, f)
			}
		}
	}
}

// Moving the origin moves nothing on the picture.
func TestDrawing_originElsewhere(t *testing.T) {
	for _, rep := range []*rig.Report{deckReport(t), demoReport(t, "B", nil), demoReport(t, "D", nil)} {
		want, ok, err := sheet.Deck(rep, nil)
		if err != nil || !ok {
			t.Fatal(ok, err)
		}
		for _, by := range []units.Length{8, -4, 0.5} { // m; few bits are lost in the sum
			got, err := sheet.DeckElsewhere(rep, nil, by)
			if err != nil {
				t.Fatal(err)
			}
			var a, b bytes.Buffer
			if err := errors.Join(want.WriteSVG(&a), got.WriteSVG(&b)); err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(a.Bytes(), b.Bytes()) {
				t.Errorf("%s, origin moved by %v: another picture", rep.Model().Name(), by)
			}
		}
	}
}

// The same report is the same bytes, also from many goroutines.
func TestDrawing_sameBytes(t *testing.T) {
	rep := demoReport(t, "D", nil)
	texts := make([]string, 8)
	var wg sync.WaitGroup
	for i := range texts {
		wg.Add(1)
		go func() {
			defer wg.Done()
			d, _, err := sheet.Deck(rep, nil)
			var b bytes.Buffer
			if err = errors.Join(err, d.WriteSVG(&b)); err == nil {
				texts[i] = b.String()
			}
		}()
	}
	wg.Wait()
	for _, s := range texts {
		if s == "" || s != texts[0] {
			t.Fatal("other bytes")
		}
	}
}

func TestDrawing_saysWhenItCannotWrite(t *testing.T) {
	d, _, err := sheet.Deck(deckReport(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, room := range []int{0, 100, 5000} {
		if err := d.WriteSVG(&fullDisk{room}); err == nil || err.Error() != "disk is full" {
			t.Errorf("with room for %d: %v", room, err)
		}
	}
}

// Two drawings on one page have ids of their own, and every panel its name.
func TestHTML_drawingIDs(t *testing.T) {
	d, _, err := sheet.Deck(deckReport(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	page, err := sheet.NewDocument("t", nil)
	if err != nil {
		t.Fatal(err)
	}
	page.Add(d, sheet.Paragraph{Text: "between"}, d)
	text := written(t, page, (*sheet.Document).WriteHTML)
	seen := map[string]bool{}
	for _, m := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(text, -1) {
		if seen[m[1]] {
			t.Errorf("the id %s stands twice", m[1])
		}
		seen[m[1]] = true
	}
	named := regexp.MustCompile(` aria-(?:labelledby|describedby)="([^"]*)"`).FindAllStringSubmatch(text, -1)
	if len(named) != 8 { // two drawings of two panels
		t.Errorf("%d names", len(named))
	}
	for _, m := range named {
		if !seen[m[1]] {
			t.Errorf("nothing has the id %s", m[1])
		}
	}
}

// change a specification and draw it.
func changed(t *testing.T, text string, change func(*rig.Spec)) *rig.Report {
	t.Helper()
	s := readSpec(t, text)
	change(s)
	rep, err := judged(s)
	if err != nil {
		t.Fatal(err)
	}
	return rep
}

func feet(x float64) units.Position { return units.PositionAt(units.Length(x) * units.Foot) }

// Rigs that are unlike the usual one still give a picture that can be read, or
// none.
func TestDrawing_oddRigs(t *testing.T) {
	wheels := func(p *picture) (n int) {
		for i := range p.marks {
			if m := &p.marks[i]; m.name == "rect" && m.attr["fill"] == "#555" && m.attr["stroke-width"] == "1" {
				n++
			}
		}
		return n
	}
	for _, c := range []struct {
		name   string
		change func(*rig.Spec)
		wheels int
		says   []string
		lacks  []string
	}{
		{"as it is", func(*rig.Spec) {}, 4, nil, nil},
		{"one axle", func(s *rig.Spec) { s.Trailer.Axles, s.Trailer.AxleSpacing = 1, 0 }, 2, nil, []string{"each axle"}},
		{"three axles", func(s *rig.Spec) { s.Trailer.Axles = 3 }, 6, []string{"each axle"}, nil},
		{"three axles, no distance", func(s *rig.Spec) { s.Trailer.Axles, s.Trailer.AxleSpacing = 3, 0 }, 2, []string{"the 3 axles is not given; they are drawn as one"}, nil},
		{"twin tyres", func(s *rig.Spec) { s.Trailer.TyresPerEnd = 2 }, 8, nil, nil},
		{"independent axles", func(s *rig.Spec) {
			s.Trailer.Suspension, s.Trailer.SpringLoad, s.Trailer.SpringTravel = "independent", 3000*units.Pound, 3*units.Inch
		}, 4, []string{"axles from the front"}, []string{"each axle"}},
		{"no track", func(s *rig.Spec) { s.Trailer.Track = 0 }, 0, []string{"The track is not given"}, []string{"left wheels"}},
		{"nothing high", func(s *rig.Spec) {
			s.Trailer.DeckHeight, s.Trailer.CouplerHeight = 0, 0
		}, 4, []string{"The height of the deck is not given", "The height of the ball is not given"}, nil},
		{"no deck", func(s *rig.Spec) {
			s.Trailer.DeckFront, s.Trailer.DeckLength, s.Trailer.DeckWidth = units.Position{}, 0, 0
		}, 4, nil, nil},
		{"no boxes and no zones", func(s *rig.Spec) {
			s.Zones = nil
			for i := range s.Items {
				s.Items[i].Box = rig.Box{}
			}
			for i := range s.Tanks {
				s.Tanks[i].Box = rig.Box{}
			}
			s.FuelTanks[0].Box = rig.Box{}
		}, 4, []string{"so not drawn: tank fresh, tank recovered, fuel tank diesel, item skid"}, nil},
		{"no fill states", func(s *rig.Spec) { s.Fills = nil }, 4, []string{"no fill state is listed"}, nil},
		{"twenty fill states", func(s *rig.Spec) {
			for i := range 17 {
				f := s.Fills[1]
				f.ID, f.Title = fmt.Sprintf("more-%d", i), ""
				s.Fills = append(s.Fills, f)
			}
		}, 4, []string{"The first 12 of 20 fill states", "XII more-8"}, []string{"XIII"}},
		{"a negative tongue", func(s *rig.Spec) {
			s.Items[1].X, s.Items[1].Mass = feet(40), 900*units.Pound
		}, 4, []string{"which lifts the vehicle", "(lifts)"}, nil},
		{"ahead of the ball", func(s *rig.Spec) { s.Items[0].X = feet(-3) }, 4, nil, nil},
		{"no jack", func(s *rig.Spec) { s.Trailer.Jack = units.Position{} }, 4, nil, []string{"jack"}},
	} {
		rep := changed(t, deckSpec, c.change)
		p, d, err := drawn(rep, nil)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		deck, _ := rep.Model().Deck()
		if err := p.checkScale(&deck); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		if n := wheels(p); n != c.wheels {
			t.Errorf("%s: %d wheels from above, want %d", c.name, n, c.wheels)
		}
		for _, s := range c.says {
			if !p.says(s) {
				t.Errorf("%s: the picture lacks %q", c.name, s)
			}
		}
		for _, s := range c.lacks {
			if strings.Contains(strings.Join(d.Words(), " "), s) {
				t.Errorf("%s: the words have %q", c.name, s)
			}
		}
	}
}

// Without a trailer what has a box is drawn without loads, as on the floor of a
// van; where there is no box either there is no picture and no section.
func TestDrawing_noTrailer(t *testing.T) {
	van := func(s *rig.Spec) { s.Trailer, s.Fills = nil, nil }
	rep := changed(t, deckSpec, van)
	p, d, err := drawn(rep, nil)
	if err != nil {
		t.Fatal(err)
	}
	deck, _ := rep.Model().Deck()
	if err := p.checkScale(&deck); err != nil {
		t.Error(err)
	}
	if len(p.boxes("plan")) != 6 || !strings.Contains(strings.Join(d.Words(), " "), "There is no trailer, so there are no loads") || p.says("tongue 0") {
		t.Errorf("%d boxes; %q", len(p.boxes("plan")), d.Words())
	}
	for _, rep := range []*rig.Report{assess(t, small(t), nil), demoReport(t, "A", nil)} {
		if rep.Model().Spec().Trailer != nil {
			continue
		}
		has := false
		if deck, ok := rep.Model().Deck(); ok {
			has = len(deck.Boxes) > 0
		}
		if _, ok, err := sheet.Deck(rep, nil); ok != has || err != nil {
			t.Errorf("%s: drawn %v, boxes %v, %v", rep.Model().Name(), ok, has, err)
		}
	}
	page, err := sheet.Weights(assess(t, small(t), nil), nil)
	if err != nil {
		t.Fatal(err)
	}
	if text := written(t, page, (*sheet.Document).WriteHTML); strings.Contains(text, "<svg") || strings.Contains(text, "to scale") {
		t.Error("a page of nothing has a drawing")
	}
}

// Any layout a specification may hold is a picture: well-formed, finite, one
// scale, everything on it, the loads those of the report, and the texts texts.
func TestDrawing_anyLayout(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := anyLayout(g)
		rep, err := judged(s)
		if err != nil {
			var fe *units.FieldError
			if errors.As(err, &fe) {
				return property.ErrDiscard // values that contradict each other
			}
			return err
		}
		sys := units.US
		if g.Bool() {
			sys = units.SI
		}
		p, d, err := drawn(rep, &sheet.Options{System: sys})
		if err != nil {
			return err
		}
		deck, _ := rep.Model().Deck()
		if err := errors.Join(p.checkScale(&deck), p.checkLoads(rep, d, sys)); err != nil {
			return err
		}
		words := plainSpaces(strings.Join(d.Words(), " "))
		for _, z := range rep.Model().Spec().Zones {
			if z.Title != "" && !strings.Contains(words, plainSpaces(z.Title)) {
				return fmt.Errorf("the words lack %q", z.Title)
			}
		}
		page, err := sheet.Weights(rep, &sheet.Options{System: sys})
		if err != nil {
			return err
		}
		var b bytes.Buffer
		if err := page.WriteHTML(&b); err != nil {
			return err
		}
		return wellFormed(b.String())
	})
}

// anyLayout is a trailer of any size with anything on it.
func anyLayout(g *property.G) *rig.Spec {
	long := g.LogFloat(1, 100) // ft, ball to axles
	x := func() units.Position { return feet(g.Float(-0.2*long, min(2*long, 190))) }
	y := func() units.Position { return feet(g.Float(-4, 4)) }
	box := func() rig.Box {
		b := rig.Box{Length: units.Length(g.LogFloat(0.05, min(0.5*long, 50))) * units.Foot, Width: units.Length(g.LogFloat(0.05, 8)) * units.Foot}
		if g.Bool() {
			b.Height = units.Length(g.LogFloat(0.05, 8)) * units.Foot
		}
		if g.Bool() {
			b.Bottom = feet(g.Float(0, 6))
		}
		if g.Bool() {
			b.X, b.Y = x(), y()
		}
		return b
	}
	text := func() string { return nasty[g.Pick(len(nasty))] }
	s := &rig.Spec{Format: rig.Format, Name: text()}
	s.Site.Water = units.Fahrenheit(50)
	stock := func(id string) rig.Stock {
		st := rig.Stock{ID: id, Mass: units.Mass(g.LogFloat(1, 3000)) * units.Pound, X: x()}
		if g.Int(0, 5) > 0 {
			st.Y, st.Z = y(), feet(g.Float(1, 6))
		}
		if g.Int(0, 4) > 0 {
			st.Box = box()
		}
		return st
	}
	if g.Int(0, 9) > 0 {
		tr := &rig.Trailer{Stock: rig.Stock{ID: "chassis", Mass: 900 * units.Pound, X: feet(0.9 * long), Y: feet(0), Z: feet(1.5)}}
		tr.Axles, tr.AxleGroup = g.Int(1, 4), feet(long)
		if g.Bool() {
			tr.AxleSpacing = 34 * units.Inch
		}
		if g.Bool() {
			tr.Track = units.Length(g.Float(2, 9)) * units.Foot
		}
		if g.Bool() {
			tr.DeckFront, tr.DeckLength, tr.DeckWidth = feet(g.Float(-1, 0.6*long)), units.Length(g.LogFloat(1, 90))*units.Foot, units.Length(g.LogFloat(1, 12))*units.Foot
		}
		if g.Bool() {
			tr.DeckHeight, tr.CouplerHeight = units.Length(g.LogFloat(0.1, 6))*units.Foot, units.Length(g.LogFloat(0.3, 4))*units.Foot
		}
		if g.Bool() {
			tr.Jack = feet(g.Float(0, 0.5*long))
		}
		tr.TyresPerEnd = g.Int(1, 2)
		s.Trailer = tr
	}
	for i := range g.Int(1, 8) {
		s.Items = append(s.Items, rig.Item{Stock: stock(fmt.Sprintf("item-%d", i+1))})
	}
	s.Items[0].Box = rig.Box{Length: 1 * units.Foot, Width: 1 * units.Foot} // so that there is something to draw
	s.Items[0].Y = feet(0)
	for i := range g.Int(0, 2) {
		k := rig.Tank{Stock: stock(fmt.Sprintf("tank-%d", i+1)), Tank: parts.Tank{Nominal: 100 * units.Gallon}}
		if g.Bool() {
			k.Floor = feet(g.Float(0, 4))
			switch g.Int(0, 3) {
			case 1:
				k.Shape, k.InsideLength, k.InsideWidth, k.Height = "box", 33*units.Inch, 28*units.Inch, 25*units.Inch
			case 2:
				k.Shape, k.Diameter, k.InsideWidth = "crosswise-cylinder", 28*units.Inch, 37.5*units.Inch
			case 3:
				k.Shape, k.Diameter, k.InsideLength = "lengthwise-cylinder", 28*units.Inch, 37.5*units.Inch
			}
		}
		s.Tanks = append(s.Tanks, k)
	}
	kinds := []string{"heat", "exhaust", "fuel", "access", "hose-path", "gate-swing"}
	for i := range g.Int(0, 4) {
		z := rig.Zone{ID: fmt.Sprintf("zone-%d", i+1), Title: text(), Kind: kinds[g.Pick(len(kinds))], X: x(), Y: feet(g.Float(-20, 20)), Clearance: units.Length(g.LogFloat(0.1, 10)) * units.Foot}
		switch g.Int(0, 2) {
		case 0:
			z.Length, z.Width = units.Length(g.LogFloat(0.05, 40))*units.Foot, units.Length(g.LogFloat(0.05, 20))*units.Foot
		case 1:
			z.Radius, z.From = units.Length(g.LogFloat(0.05, 25))*units.Foot, units.Angle(g.Float(-6, 0))
			z.To = z.From + units.Angle(g.Float(0.01, 2*math.Pi))
		default:
			z.ToX, z.ToY, z.Width = feet(g.Float(-20, 280)), feet(g.Float(-50, 50)), units.Length(g.LogFloat(0.1, 20))*units.Foot
		}
		if g.Bool() {
			z.Bottom = feet(g.Float(0, 10))
			z.Top = z.Bottom.Add(units.Length(g.LogFloat(0.1, 30)) * units.Foot)
		}
		s.Zones = append(s.Zones, z)
	}
	if s.Trailer != nil {
		for i := range g.Int(0, 3) {
			f := rig.Fill{ID: fmt.Sprintf("fill-%d", i+1), Title: text()}
			for k := range s.Tanks {
				f.Levels = append(f.Levels, rig.Level{ID: s.Tanks[k].ID, Volume: units.Volume(g.Float(0, 100)) * units.Gallon})
			}
			s.Fills = append(s.Fills, f)
		}
	}
	return s
}

// Text of any kind stays text: what a specification accepts comes back from the
// XML as it was.
func FuzzDrawing_texts(f *testing.F) {
	for _, s := range nasty {
		f.Add(s)
	}
	f.Add("]]>")
	f.Add("\ufffe\uffff\U0001F600")
	spec := readSpec(f, deckSpec)
	spec.Tanks, spec.FuelTanks, spec.Zones, spec.Trailer.Track = nil, nil, spec.Zones[:2], 0 // soon reckoned
	spec.Fills = []rig.Fill{{ID: "road"}}
	f.Fuzz(func(t *testing.T, text string) {
		s := spec.Clone()
		s.Name, s.Zones[0].Title, s.Fills[0].Title = text, text, text
		rep, err := judged(s)
		if err != nil {
			t.Skip()
		}
		p, _, err := drawn(rep, nil)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		want := squeezed(strings.ReplaceAll(plainSpaces(text), "\ufffe", "\ufffd"))
		want = strings.ReplaceAll(want, "\uffff", "\ufffd")
		if got := squeezed(plainSpaces(p.marks[0].content)); len(want) > 0 && !strings.Contains(got, want) {
			t.Errorf("the title of %q is %q", text, got)
		}
		for i := range p.marks {
			for _, r := range p.marks[i].content {
				if r < 0x20 && r != '\n' {
					t.Errorf("%q: U+%04X got through", text, r)
				}
			}
		}
	})
}

// A zone is drawn as it is reckoned: a small thing inside the dotted line is
// too near, one outside is not. The outline is of straight pieces that turn by
// 5° at most, so that it lies within a thousandth of the radius.
func TestZoneOutline_asItIsReckoned(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		z := statics.Zone{Name: "z", Kind: statics.Access, Clearance: units.Length(g.Pick(2)) * units.Length(g.LogFloat(0.05, 1.5))}
		x, y, size := g.Float(-2, 2), g.Float(-2, 2), 0.0
		switch g.Int(0, 2) {
		case 0:
			l, w := g.LogFloat(0.1, 3), g.LogFloat(0.1, 3)
			z.Block = &statics.Block{Name: "z", Fore: units.PositionAt(units.Length(x)), Aft: units.PositionAt(units.Length(x + l)), Right: units.PositionAt(units.Length(y)), Left: units.PositionAt(units.Length(y + w))}
			size = l + w
		case 1:
			from := g.Float(-math.Pi, 0)
			z.Swing = &statics.Swing{X: units.PositionAt(units.Length(x)), Y: units.PositionAt(units.Length(y)), Radius: units.Length(g.LogFloat(0.2, 3)), From: units.Angle(from), To: units.Angle(from + g.Float(0.1, 2*math.Pi))}
			size = float64(z.Swing.Radius)
		default:
			x2, y2 := x+g.Float(0.1, 3), y+g.Float(-3, 3)
			z.Path = []statics.Spot{{X: units.PositionAt(units.Length(x)), Y: units.PositionAt(units.Length(y))}, {X: units.PositionAt(units.Length(x2)), Y: units.PositionAt(units.Length(y2))}}
			z.Width = units.Length(g.LogFloat(0.1, 2))
			size = float64(z.Width)
		}
		shape := sheet.ZoneOutline(&z, z.Clearance)
		slack := 0.002*(size+float64(z.Clearance)) + 1e-6
		for range 40 {
			px, py := x+g.Float(-6, 6), y+g.Float(-6, 6)
			if edgeOf(shape, px, py) < slack {
				continue
			}
			const tiny = 1e-7
			b := statics.BlockAround("b", units.PositionAt(units.Length(px)), units.PositionAt(units.Length(py)), tiny, tiny, units.Position{}, 0)
			list, err := statics.Clashes([]statics.Block{b}, []statics.Zone{z}, 0)
			if err != nil {
				return err
			}
			if in := holds(shape, px, py); in != (len(list) > 0) {
				return fmt.Errorf("(%g, %g) is inside the drawing: %v; too near: %v", px, py, in, list)
			}
		}
		return nil
	})
}

// holds reports whether a point lies in a polygon, by the crossings of a ray.
func holds(shape [][2]float64, x, y float64) bool {
	in := false
	for i, a := range shape {
		b := shape[(i+1)%len(shape)]
		if (a[1] > y) != (b[1] > y) && x < a[0]+(y-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			in = !in
		}
	}
	return in
}

// edgeOf is the distance of a point from the edge of a polygon.
func edgeOf(shape [][2]float64, x, y float64) float64 {
	least := math.Inf(1)
	for i, a := range shape {
		b := shape[(i+1)%len(shape)]
		dx, dy := b[0]-a[0], b[1]-a[1]
		t := 0.0
		if q := dx*dx + dy*dy; q > 0 {
			t = min(max(((x-a[0])*dx+(y-a[1])*dy)/q, 0), 1)
		}
		least = min(least, math.Hypot(x-a[0]-t*dx, y-a[1]-t*dy))
	}
	return least
}
