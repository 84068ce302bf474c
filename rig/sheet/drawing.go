package sheet

import (
	"fmt"
	"io"
	"strings"

	"example.com/washrig/rig"
)

// A Drawing is a picture to scale with the words that stand for it. HTML shows
// the picture, text and Markdown the words. Only [Deck] makes one.
//
// It is black on white. Greys, dashes and hatching only repeat what words,
// numbers and letters say, so that a copy or a fax loses nothing.
type Drawing struct {
	title  string
	panels []panel // one under the other
	scale  float64 // units of the picture a metre

	changed []string // limits and defaults the dealer changed; a page says them in a section of its own
}

// A panel is a part of a drawing that stays on one sheet of paper.
type panel struct {
	title string
	words []string // the text alternative, a line each
	body  string   // SVG
	top   float64  // on the picture
	high  float64
}

func (Drawing) block() {}

// Words are the text alternative of the drawing, a line each: all that the
// picture shows.
func (d Drawing) Words() []string {
	var out []string
	for i := range d.panels {
		out = append(out, d.panels[i].words...)
	}
	return out
}

// WriteSVG writes the drawing as one SVG file that needs nothing else: no
// script, no font, nothing from elsewhere. The file stands alone, so it carries
// the standing cautions, what was not checked and what the dealer changed. A scale bar says its scale at
// any size it is shown or printed in. For paper take the page of weights, which
// breaks between the parts of the drawing.
func (d Drawing) WriteSVG(w io.Writer) error {
	p := &stickyWriter{w: w}
	all := append(append([]panel(nil), d.panels...), cautionPanel(d.high(), d.changed))
	var words []string
	body := ""
	for i := range all {
		words = append(words, all[i].words...)
		body += all[i].body
	}
	last := all[len(all)-1]
	p.put("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n")
	d.put(p, " xmlns=\"http://www.w3.org/2000/svg\"", "drawing", panel{title: d.title, words: words, body: body, high: last.top + last.high})
	return p.err
}

func (d Drawing) high() float64 {
	if len(d.panels) == 0 {
		return 0
	}
	last := &d.panels[len(d.panels)-1]
	return last.top + last.high
}

// html writes the drawing inside a page, a picture for each panel, so that a
// page may break between them. n counts the drawings of a page; the ids of one
// page differ.
func (d Drawing) html(p *stickyWriter, n int) {
	p.put("<figure class=\"drawing\" tabindex=\"0\">\n")
	for i := range d.panels {
		d.put(p, "", fmt.Sprintf("drawing-%d-%d", n, i+1), d.panels[i])
	}
	p.put("</figure>\n")
}

// put writes a picture; inside an HTML page it needs no name space.
func (d Drawing) put(p *stickyWriter, space, id string, x panel) {
	p.put("<svg" + space + " class=\"drawing\" role=\"img\" aria-labelledby=\"" + id + "-title\" aria-describedby=\"" + id + "-words\" viewBox=\"0 " + num(x.top) + " " + num(pictureWide) + " " + num(x.high) +
		"\" width=\"" + num(pictureWide) + "\" height=\"" + num(x.high) + "\" font-family=\"Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif\" font-size=\"" + num(usual) + "\" fill=\"#000\" data-scale=\"" + num(d.scale) + "\">\n")
	p.put("<title id=\"" + id + "-title\">" + esc(x.title) + "</title>\n<desc id=\"" + id + "-words\">" + esc(strings.Join(x.words, " ")) + "</desc>\n")
	p.put("<rect y=\"" + num(x.top) + "\" width=\"" + num(pictureWide) + "\" height=\"" + num(x.high) + "\" fill=\"#fff\"/>\n")
	p.put(x.body + "</svg>\n")
}

// cautionPanel is what a file that stands alone carries besides the picture.
func cautionPanel(top float64, changed []string) panel {
	p := &plot{}
	y := top + 22
	p.text(border, y, "start", strong, "Cautions")
	var words []string
	for _, c := range rig.Cautions() {
		words = append(words, c.Hazard+". "+c.Text+" Decides: "+c.Defers+".")
	}
	if n := rig.NotChecked(); len(n) > 0 {
		words = append(words, "Not checked here: "+strings.Join(n, "; ")+".")
	}
	for _, x := range changed {
		words = append(words, "Changed by the dealer. "+x+".")
	}
	for _, line := range words {
		y = p.lines(border, y+4, inside, 13, "", line)
	}
	return panel{words: words, body: p.String(), top: top, high: y - top + border}
}

// Deck draws the deck of a rig in plan and from the left, to scale, and how it
// rests in every listed fill state: tongue, axles, sides and centre of mass
// with the levels in its tanks. ok is false if there is neither a trailer nor a
// box to draw; a rig without a trailer has no loads. The options may be nil.
func Deck(rep *rig.Report, o *Options) (d Drawing, ok bool, err error) {
	return newSource(rep, nil, o).deck()
}

// deckDrawing adds the drawing to a page.
func deckDrawing(d *Document, in *source) error {
	x, ok, err := in.deck()
	if err != nil {
		return err
	}
	if ok {
		d.Add(Heading{Text: "The deck to scale, from above and from the left", NewPage: true}, x)
	}
	return nil
}

// towing is the standing caution that a drawing of weights carries wherever it
// stands.
func towing() string {
	for _, c := range rig.Cautions() {
		if c.Hazard == "Towing" {
			return c.Text + " Decides: " + c.Defers + "."
		}
	}
	return ""
}
