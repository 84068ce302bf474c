package sheet

import (
	"io"
	"strings"
)

// WriteMarkdown writes the document as Markdown with pipe tables. Signs that
// mean something in Markdown or HTML are escaped wherever text comes from a
// file.
func (d *Document) WriteMarkdown(w io.Writer) error {
	p := &stickyWriter{w: w}
	if lines := d.head.lines(); len(lines) > 0 {
		for i, l := range lines {
			if i > 0 {
				p.put("\\\n")
			}
			p.put(mark(l))
		}
		p.put("\n\n")
	}
	p.put("# " + mark(d.title) + "\n")
	for _, b := range d.blocks {
		p.put("\n")
		switch b := b.(type) {
		case Heading:
			if b.Minor {
				p.put("### " + mark(b.Text) + "\n")
			} else {
				p.put("## " + mark(b.Text) + "\n")
			}
		case Paragraph:
			if b.Strong {
				p.put("**" + mark(b.Text) + "**\n")
			} else {
				p.put(mark(b.Text) + "\n")
			}
		case Remark:
			p.put("- **" + mark(b.Mark) + "** " + mark(b.Title) + "\n")
			for _, t := range b.Body {
				p.put("\n  " + mark(t) + "\n")
			}
		case List:
			for _, t := range b.Items {
				p.put("- " + mark(t) + "\n")
			}
		case Drawing:
			for _, t := range b.Words() {
				p.put("- " + mark(t) + "\n")
			}
		case Table:
			markdownTable(p, b)
		case Signatures:
			for _, l := range b.Labels {
				p.put("\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\\n" + mark(l) + "\n\n")
			}
		}
	}
	return p.err
}

func markdownTable(p *stickyWriter, t Table) {
	p.put("|")
	for _, c := range t.Columns {
		p.put(" " + mark(c.Head) + " |")
	}
	p.put("\n|")
	for _, c := range t.Columns {
		if c.Right {
			p.put(" ---: |")
		} else {
			p.put(" --- |")
		}
	}
	p.put("\n")
	for _, r := range t.Rows {
		p.put("|")
		for i := range t.Columns {
			p.put(" " + mark(cellAt(r, i)) + " |")
		}
		p.put("\n")
	}
}

var markdownSigns = strings.NewReplacer(
	`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "[", `\[`, "]", `\]`, "|", `\|`, "~", `\~`, "#", `\#`, "!", `\!`,
	"&", "&amp;", "<", "&lt;", ">", "&gt;",
)

// mark escapes a text for Markdown.
func mark(s string) string {
	s = markdownSigns.Replace(strings.Join(strings.Fields(clean(s)), " "))
	if s == "" {
		return s
	}
	// A sign that begins a list or underlines a heading, or a number with its point.
	if strings.IndexByte("-+=", s[0]) >= 0 {
		return `\` + s
	}
	i := 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	if i > 0 && i < len(s) && (s[i] == '.' || s[i] == ')') && (i+1 == len(s) || s[i+1] == ' ') {
		return s[:i] + `\` + s[i:]
	}
	return s
}
