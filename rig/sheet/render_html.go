package sheet

import (
	_ "embed" // the style sheet is a file, so that it can be read as one
	"html"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

//go:embed page.css
var pageStyle string

// WriteHTML writes the document as one HTML file that needs nothing else: no
// script, no font, nothing from elsewhere, drawings as part of it, and a policy in its head
// that refuses them. It is laid out for a screen of 360 pixels and more and
// prints in black and white on Letter and A4.
func (d *Document) WriteHTML(w io.Writer) error {
	p := &stickyWriter{w: w}
	p.put("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n" +
		"<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n" +
		"<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n" +
		"<title>" + esc(d.title) + "</title>\n<style>\n" + pageStyle + "</style>\n</head>\n<body>\n")
	if lines := d.head.lines(); len(lines) > 0 {
		p.put("<header>\n")
		for i, l := range lines {
			if i == 0 {
				p.put("<p class=\"name\">" + esc(l) + "</p>\n")
			} else {
				p.put("<p>" + esc(l) + "</p>\n")
			}
		}
		p.put("</header>\n")
	}
	p.put("<main>\n<h1>" + esc(d.title) + "</h1>\n")
	for i, b := range d.blocks {
		htmlBlock(p, b, i+1)
	}
	p.put("</main>\n</body>\n</html>\n")
	return p.err
}

// htmlBlock writes a block, the n-th of its page.
func htmlBlock(p *stickyWriter, b Block, n int) {
	switch b := b.(type) {
	case Heading:
		tag := "h2"
		if b.Minor {
			tag = "h3"
		}
		class := ""
		if b.NewPage {
			class = " class=\"new-page\""
		}
		p.put("<" + tag + class + ">" + esc(b.Text) + "</" + tag + ">\n")
	case Paragraph:
		if b.Strong {
			p.put("<p class=\"strong\">" + esc(b.Text) + "</p>\n")
		} else {
			p.put("<p>" + esc(b.Text) + "</p>\n")
		}
	case Remark:
		p.put("<section class=\"remark\">\n<h3><span class=\"mark\">" + esc(b.Mark) + "</span> " + esc(b.Title) + "</h3>\n")
		for _, t := range b.Body {
			p.put("<p>" + esc(t) + "</p>\n")
		}
		p.put("</section>\n")
	case List:
		if b.Small {
			p.put("<ul class=\"small\">\n")
		} else {
			p.put("<ul>\n")
		}
		for _, t := range b.Items {
			p.put("<li>" + esc(t) + "</li>\n")
		}
		p.put("</ul>\n")
	case Table:
		htmlTable(p, b)
	case Drawing:
		b.html(p, n)
	case Signatures:
		p.put("<div class=\"signatures\">\n")
		for _, l := range b.Labels {
			p.put("<p>" + esc(l) + "</p>\n")
		}
		p.put("</div>\n")
	}
}

func htmlTable(p *stickyWriter, t Table) {
	class := ""
	if len(t.Rows) <= 12 {
		class = " class=\"short\"" // kept on one sheet of paper
	}
	p.put("<table" + class + ">\n<thead>\n<tr>")
	for _, c := range t.Columns {
		p.put("<th scope=\"col\"" + side(c) + ">" + esc(c.Head) + "</th>")
	}
	p.put("</tr>\n</thead>\n<tbody>\n")
	for _, r := range t.Rows {
		p.put("<tr>")
		for i, c := range t.Columns {
			// the heading travels with the cell, for screens too narrow for columns
			label := ""
			if c.Head != "" {
				label = " data-label=\"" + esc(c.Head) + "\""
			}
			tag := "td"
			if i == 0 {
				tag = "th scope=\"row\""
			}
			p.put("<" + tag + side(c) + label + ">" + esc(cellAt(r, i)) + "</" + tag[:2] + ">")
		}
		p.put("</tr>\n")
	}
	p.put("</tbody>\n</table>\n")
}

func side(c Column) string {
	if c.Right {
		return " class=\"right\""
	}
	return ""
}

// esc escapes a text for HTML, in text and in quoted attributes, and keeps a
// number and its unit on one line.
func esc(s string) string {
	return html.EscapeString(glue(strings.TrimSpace(clean(s))))
}

// glue puts a space that does not break between a digit and the unit after it.
func glue(s string) string {
	var b strings.Builder
	digit := false
	for i, r := range s {
		if r == ' ' && digit && i+1 < len(s) {
			if next, _ := utf8.DecodeRuneInString(s[i+1:]); unicode.IsLetter(next) || next == '%' || next == '°' {
				r = '\u00a0'
			}
		}
		digit = r >= '0' && r <= '9'
		b.WriteRune(r)
	}
	return b.String()
}
