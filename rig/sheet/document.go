package sheet

import (
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Document is a page on its way to paper or screen: a title and blocks in
// reading order. It is the one model behind text, Markdown and HTML, so all
// three say the same. Blocks are added and never taken out: what an app puts
// around a page cannot hide a stop.
type Document struct {
	title  string
	head   *Letterhead
	blocks []Block
}

// NewDocument returns a document with a title and nothing else. The letterhead
// may be nil.
func NewDocument(title string, head *Letterhead) (*Document, error) {
	if err := head.Validate(); err != nil {
		return nil, err
	}
	return &Document{title: title, head: head}, nil
}

// Title returns the title.
func (d *Document) Title() string { return d.title }

// Add puts blocks at the end.
func (d *Document) Add(blocks ...Block) { d.blocks = append(d.blocks, blocks...) }

// A Block is one piece of a document: a [Heading], [Paragraph], [Remark],
// [List], [Table], [Drawing] or [Signatures].
type Block interface{ block() }

// A Heading begins a part of a document.
type Heading struct {
	Text    string
	Minor   bool // below the heading before it
	NewPage bool // begins a sheet of paper
}

// A Paragraph is words.
type Paragraph struct {
	Text   string
	Strong bool
}

// A Remark is something found: a word for its weight, what it is, and the
// numbers behind it.
type Remark struct {
	Mark  string
	Title string
	Body  []string
}

// A List is short texts, one under the other; a small one takes less paper.
type List struct {
	Items []string
	Small bool
}

// A Table is rows under headings. Every row has one cell a column.
type Table struct {
	Columns []Column
	Rows    [][]string
}

// A Column is a heading and the side its cells are set on.
type Column struct {
	Head  string
	Right bool
}

// Signatures are lines to sign on, each with what stands below it.
type Signatures struct{ Labels []string }

func (Heading) block()    {}
func (Paragraph) block()  {}
func (Remark) block()     {}
func (List) block()       {}
func (Table) block()      {}
func (Signatures) block() {}

// left and right make columns.
func left(head string) Column  { return Column{Head: head} }
func right(head string) Column { return Column{Head: head, Right: true} }

// clean replaces control characters, terminal escapes and marks that reverse
// the reading direction. Files that hold any are refused when they are read;
// this is for text that Go code made.
func clean(s string) string {
	ok := true
	for _, r := range s {
		if unwanted(r) {
			ok = false
			break
		}
	}
	if ok && utf8.ValidString(s) {
		return s
	}
	return strings.Map(func(r rune) rune {
		if unwanted(r) {
			return utf8.RuneError
		}
		return r
	}, s)
}

func unwanted(r rune) bool {
	return unicode.IsControl(r) || r == 0xFFFE || r == 0xFFFF /* no characters of XML */ || (r >= 0x202A && r <= 0x202E) || (r >= 0x2066 && r <= 0x2069) || r == 0x2028 || r == 0x2029
}

// stickyWriter remembers the first error of its writer.
type stickyWriter struct {
	w   io.Writer
	err error
}

func (s *stickyWriter) put(text string) {
	if s.err == nil {
		_, s.err = io.WriteString(s.w, text)
	}
}
