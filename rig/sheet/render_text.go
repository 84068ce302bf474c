package sheet

import (
	"io"
	"strings"
	"unicode/utf8"
)

// width is how many characters a line of words has at most; tables may be
// wider, as far as a terminal is.
const (
	width      = 100
	tableWidth = 120
)

// WriteText writes the document as plain text in UTF-8.
func (d *Document) WriteText(w io.Writer) error {
	p := &textPage{out: stickyWriter{w: w}}
	for _, l := range d.head.lines() {
		p.line(clean(l))
	}
	if len(d.head.lines()) > 0 {
		p.line("")
	}
	p.under(clean(d.title), '=')
	for i, b := range d.blocks {
		var before Block
		if i > 0 {
			before = d.blocks[i-1]
		}
		_, heading := before.(Heading)
		_, table := before.(Table)
		p.block(b, heading, table)
	}
	return p.out.err
}

type textPage struct {
	out    stickyWriter
	indent string // two spaces below the first heading
}

func (p *textPage) line(s string) { p.out.put(strings.TrimRight(s, " ") + "\n") }

func (p *textPage) under(s string, with rune) {
	p.line(s)
	p.line(strings.Repeat(string(with), utf8.RuneCountInString(s)))
}

func (p *textPage) block(b Block, afterHeading, afterTable bool) {
	switch b := b.(type) {
	case Heading:
		if b.Minor {
			if !afterHeading {
				p.line("")
			}
			p.line(p.indent + clean(b.Text))
			return
		}
		p.line("")
		p.under(clean(b.Text), '-')
		p.indent = "  "
	case Paragraph:
		p.words(p.indent, p.indent, b.Text)
	case Remark:
		mark := clean(b.Mark)
		pad := strings.Repeat(" ", max(4-utf8.RuneCountInString(mark), 0))
		p.words("      ", "  "+mark+pad+" ", b.Title)
		for _, t := range b.Body {
			p.words("       ", "       ", t)
		}
	case List:
		for _, t := range b.Items {
			p.words(p.indent+"  ", p.indent, t)
		}
	case Drawing:
		for _, t := range b.Words() {
			p.words(p.indent+"  ", p.indent, t)
		}
	case Table:
		if afterTable {
			p.line("")
		}
		p.table(b)
	case Signatures:
		for _, l := range b.Labels {
			p.line("")
			p.line("")
			p.line(p.indent + strings.Repeat("_", 40))
			p.line(p.indent + clean(l))
		}
	}
}

// words writes words wrapped to the page, lines after the first behind an
// indent.
func (p *textPage) words(indent, first, text string) {
	line, empty := first, true
	for _, w := range strings.Fields(clean(text)) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(w) > width {
			p.line(line)
			line, empty = indent, true
		}
		if !empty {
			line += " "
		}
		line += w
		empty = false
	}
	if !empty {
		p.line(line)
	}
}

const (
	gap      = "  "
	narrowed = 14 // a column is not squeezed below this
)

// table writes rows in columns as wide as their widest cell. Where the page is
// too narrow, the widest columns of words are squeezed and their cells wrapped.
func (p *textPage) table(t Table) {
	n := len(t.Columns)
	if n == 0 {
		return
	}
	all := make([][]string, 0, len(t.Rows)+1)
	head := make([]string, n)
	for i, c := range t.Columns {
		head[i] = c.Head
	}
	all = append(all, head)
	all = append(all, t.Rows...)
	wide := make([]int, n)
	for _, r := range all {
		for i := range n {
			wide[i] = max(wide[i], utf8.RuneCountInString(clean(cellAt(r, i))))
		}
	}
	total := func() int {
		sum := len(p.indent)
		for _, x := range wide {
			sum += x + len(gap)
		}
		return sum - len(gap)
	}
	for total() > tableWidth {
		most := -1
		for i := range n {
			if wide[i] > narrowed && (most < 0 || wide[i] > wide[most]) {
				most = i
			}
		}
		if most < 0 {
			break
		}
		wide[most]--
	}
	for _, r := range all {
		lines := make([][]string, n)
		deep := 1
		for i := range n {
			lines[i] = fold(clean(cellAt(r, i)), wide[i])
			deep = max(deep, len(lines[i]))
		}
		for k := range deep {
			var b strings.Builder
			b.WriteString(p.indent)
			for i, c := range t.Columns {
				x := ""
				if k < len(lines[i]) {
					x = lines[i][k]
				}
				pad := strings.Repeat(" ", max(wide[i]-utf8.RuneCountInString(x), 0))
				if c.Right {
					b.WriteString(pad + x)
				} else {
					b.WriteString(x + pad)
				}
				b.WriteString(gap)
			}
			p.line(b.String())
		}
	}
}

func cellAt(row []string, i int) string {
	if i < len(row) {
		return row[i]
	}
	return ""
}

// fold breaks a text into lines of at most n characters, at spaces where it
// can and after signs that join names where it must.
func fold(s string, n int) []string {
	if utf8.RuneCountInString(s) <= n {
		return []string{s}
	}
	var out []string
	line := ""
	for _, w := range strings.Fields(s) {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(w) <= n {
			line += " " + w
			continue
		}
		if line != "" {
			out = append(out, line)
		}
		for utf8.RuneCountInString(w) > n {
			at := cut(w, n)
			out = append(out, w[:at])
			w = w[at:]
		}
		line = w
	}
	return append(out, line)
}

// cut finds where to break a word of more than n characters: after the last
// joining sign within n, or at n.
func cut(w string, n int) int {
	at, seen := 0, 0
	for i, r := range w {
		if seen == n {
			if at > 0 {
				return at
			}
			return i
		}
		seen++
		if strings.ContainsRune("+>.:-_/]", r) {
			at = i + utf8.RuneLen(r)
		}
	}
	return len(w)
}
