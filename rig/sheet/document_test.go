package sheet_test

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/washrig/internal/golden"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig/sheet"
	"example.com/washrig/units"
)

// nasty are texts that mean something in one form or another.
var nasty = []string{
	"<script>alert(1)</script>", `"><img src=x onerror=y>`, "a & b &amp; c", "'single' \"double\"", "| pipe | `code` | *bold* | _under_ | ~~gone~~",
	"# heading", "- item", "+ item", "1. item", "[link](http://example.invalid)", "![image](x)", "=cmd|'/C calc'!A0", "\\backslash\\", "ends with \\", "</style></title></html>",
	"{{.}} ${x} %s %n", "é 水 ½ °F −5", "a\u00a0b", strings.Repeat("long-word-without-a-space", 8),
}

// document has every kind of block, filled by pick.
func document(t testing.TB, pick func() string) *sheet.Document {
	t.Helper()
	d, err := sheet.NewDocument(pick(), &sheet.Letterhead{Mark: pick(), Name: pick(), Address: []string{pick()}})
	if err != nil {
		t.Fatal(err)
	}
	d.Add(sheet.Paragraph{Text: pick(), Strong: true}, sheet.Paragraph{Text: pick()},
		sheet.Heading{Text: pick()}, sheet.Remark{Mark: "STOP", Title: pick(), Body: []string{pick(), pick()}},
		sheet.Heading{Text: pick(), NewPage: true}, sheet.Heading{Text: pick(), Minor: true},
		sheet.Table{Columns: []sheet.Column{{Head: pick()}, {Head: pick(), Right: true}, {Head: ""}}, Rows: [][]string{{pick(), pick(), pick()}, {pick(), "", ""}, {pick()}}},
		sheet.Table{Columns: []sheet.Column{{Head: "second"}}, Rows: [][]string{{pick()}}},
		sheet.List{Items: []string{pick(), pick()}}, sheet.List{Items: []string{pick()}, Small: true},
		sheet.Signatures{Labels: []string{pick(), pick()}})
	return d
}

// Every block in every form, with texts that would do harm if a form let them.
func TestDocument_golden(t *testing.T) {
	i := 0
	d := document(t, func() string { i++; return nasty[i%len(nasty)] })
	for _, f := range forms {
		golden.Equal(t, "document."+f.name, []byte(written(t, d, f.write)))
	}
}

var tag = regexp.MustCompile(`<[^>]*>`)

// Whatever the texts are, the tags of the HTML are those of the layout, every
// tag is closed, and the texts are all there.
func TestHTML_textsStayTexts(t *testing.T) {
	plain := document(t, func() string { return "x" })
	want := skeleton(written(t, plain, (*sheet.Document).WriteHTML))
	property.Check(t, func(g *property.G) error {
		var used []string
		d := document(t, func() string {
			s := ""
			for range g.Int(1, 3) {
				s += nasty[g.Pick(len(nasty))]
			}
			used = append(used, s)
			return s
		})
		text := written(t, d, (*sheet.Document).WriteHTML)
		if got := skeleton(text); got != want {
			return fmt.Errorf("the tags are\n%s\nwant\n%s", got, want)
		}
		return wellFormed(text)
	})
}

// skeleton is the tags of a page, the values of data-label left out.
func skeleton(page string) string {
	var b strings.Builder
	for _, x := range tag.FindAllString(page[strings.Index(page, "</style>"):], -1) {
		b.WriteString(regexp.MustCompile(` data-label="[^"]*"`).ReplaceAllString(x, "") + "\n")
	}
	return b.String()
}

// wellFormed reads the body as XML, which is stricter than HTML about what is
// open and closed.
func wellFormed(page string) error {
	body := page[strings.Index(page, "<body>"):]
	body = strings.TrimSuffix(strings.TrimSpace(body), "</html>")
	d := xml.NewDecoder(strings.NewReader(body))
	d.Entity = xml.HTMLEntity
	for {
		_, err := d.Token()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

// A page needs nothing from elsewhere and runs nothing.
func TestHTML_selfContained(t *testing.T) {
	rep := demoReport(t, "B", nil)
	for name, d := range everyPage(t, rep, demoQuote(t, rep), &sheet.Options{Letterhead: letterhead()}) {
		text := written(t, d, (*sheet.Document).WriteHTML)
		for _, bad := range []string{"<script", "<link", "<img", "<iframe", "<object", "<embed", "<base", "<form", "http://", "https://", "src=", "href=", "url(", "@import", "javascript:", " on"} {
			in := text
			if bad == " on" {
				in = strings.Join(tag.FindAllString(text, -1), "\n")
				in = regexp.MustCompile(`"[^"]*"`).ReplaceAllString(in, `""`) // values are not handlers
			}
			if strings.Contains(in, bad) {
				t.Errorf("%s: the page has %q", name, bad)
			}
		}
		if !strings.HasPrefix(text, "<!DOCTYPE html>\n<html lang=\"en\">") || !strings.Contains(text, `name="viewport"`) || !strings.Contains(text, "default-src 'none'") {
			t.Errorf("%s: the head is not as it should be: %.200s", name, text)
		}
		if err := wellFormed(text); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Nothing on a page is told by colour: what is not black on white is a rule
// between rows or a heading that repeats.
func TestHTML_blackAndWhite(t *testing.T) {
	text := written(t, document(t, func() string { return "x" }), (*sheet.Document).WriteHTML)
	style := text[strings.Index(text, "<style>"):strings.Index(text, "</style>")]
	for _, colour := range regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b`).FindAllString(style, -1) {
		c := strings.Trim(colour, "#")
		for _, r := range c {
			if r != rune(c[0]) {
				t.Errorf("the style has the colour %s", colour)
				break
			}
		}
	}
	for _, want := range []string{"@media print", "@page", "table-header-group", "break-inside: avoid", "break-before: page", "max-width: 40rem"} {
		if !strings.Contains(style, want) {
			t.Errorf("the style lacks %q", want)
		}
	}
}

// Text of Go code that no file may hold does not get through as it is.
func TestDocument_controlCharacters(t *testing.T) {
	d := document(t, func() string { return "ok" })
	d.Add(sheet.Paragraph{Text: "bell\a escape\x1b[31m return\r tab\t null\x00 over\u202eride half\xff line\u2028"},
		sheet.Table{Columns: []sheet.Column{{Head: "a\x1b]0;title\a"}}, Rows: [][]string{{"b\x9b31m"}}}, sheet.List{Items: []string{"c\u0085"}})
	for _, f := range forms {
		text := written(t, d, f.write)
		for _, r := range text {
			if (r < 0x20 && r != '\n') || (r >= 0x7f && r < 0xa0) || r == 0x202e || r == 0x2028 {
				t.Errorf("%s: U+%04X got through", f.name, r)
			}
		}
		if !utf8.ValidString(text) {
			t.Errorf("%s: not UTF-8", f.name)
		}
	}
}

// Lines of words stay within a terminal; tables do where their words allow.
func TestText_width(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		words := func(n int) string {
			var w []string
			for range g.Int(1, n) {
				w = append(w, strings.Repeat("w", g.Int(1, 12)))
			}
			return strings.Join(w, " ")
		}
		d, err := sheet.NewDocument(words(3), nil)
		if err != nil {
			return err
		}
		t := sheet.Table{}
		for range g.Int(1, 6) {
			t.Columns = append(t.Columns, sheet.Column{Head: words(3), Right: g.Bool()})
		}
		for range g.Int(0, 4) {
			var row []string
			for range t.Columns {
				row = append(row, words(12))
			}
			t.Rows = append(t.Rows, row)
		}
		d.Add(sheet.Heading{Text: words(4)}, sheet.Paragraph{Text: words(60)}, sheet.Remark{Mark: "FIX", Title: words(30), Body: []string{words(60)}}, sheet.List{Items: []string{words(60)}}, t)
		var b strings.Builder
		if err := d.WriteText(&b); err != nil {
			return err
		}
		for _, line := range strings.Split(b.String(), "\n") {
			if n := utf8.RuneCountInString(line); n > 120 {
				return fmt.Errorf("a line of %d characters: %s", n, line)
			}
			if strings.TrimRight(line, " ") != line {
				return fmt.Errorf("a line ends in a space: %q", line)
			}
		}
		return nil
	})
}

// Wrapping a table loses no letter of it.
func TestText_tableKeepsEverything(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		table := sheet.Table{}
		n := g.Int(1, 6)
		letters := 0
		word := func(most int) string {
			var w []string
			for range g.Int(0, most) {
				k := g.Int(1, 40)
				letters += k
				w = append(w, strings.Repeat("w", k))
			}
			return strings.Join(w, " ")
		}
		for range n {
			table.Columns = append(table.Columns, sheet.Column{Head: word(2), Right: g.Bool()})
		}
		for range g.Int(0, 3) {
			var row []string
			for range n {
				row = append(row, word(6))
			}
			table.Rows = append(table.Rows, row)
		}
		d, err := sheet.NewDocument("t", nil)
		if err != nil {
			return err
		}
		d.Add(table)
		var b strings.Builder
		if err := d.WriteText(&b); err != nil {
			return err
		}
		if got := strings.Count(b.String(), "w"); got != letters {
			return fmt.Errorf("%d letters of %d are left:\n%s", got, letters, b.String())
		}
		return nil
	})
}

func TestLetterhead(t *testing.T) {
	if err := (*sheet.Letterhead)(nil).Validate(); err != nil {
		t.Errorf("none: %v", err)
	}
	if err := letterhead().Validate(); err != nil {
		t.Errorf("a good one: %v", err)
	}
	for _, c := range []struct {
		path string
		set  func(*sheet.Letterhead)
	}{
		{"letterhead.name", func(l *sheet.Letterhead) { l.Name = "a\x1b[31m" }},
		{"letterhead.mark", func(l *sheet.Letterhead) { l.Mark = "a\u202eb" }},
		{"letterhead.validity", func(l *sheet.Letterhead) { l.Validity = strings.Repeat("x", 3000) }},
		{"letterhead.address[#2]", func(l *sheet.Letterhead) { l.Address[1] = "a\nb" }},
		{"letterhead.terms", func(l *sheet.Letterhead) { l.Terms = make([]string, 41) }},
		{"letterhead.signatures", func(l *sheet.Letterhead) { l.Signatures = make([]string, 7) }},
	} {
		l := letterhead()
		c.set(l)
		err := l.Validate()
		var fe *units.FieldError
		if !errors.As(err, &fe) || fe.Path != c.path {
			t.Errorf("%s: %v", c.path, err)
		}
		if _, err := sheet.NewDocument("t", l); err == nil {
			t.Errorf("%s: the page was made all the same", c.path)
		}
	}
	l, err := sheet.ReadLetterhead(strings.NewReader(`{"format":"washrig-letterhead/1","name":"An Invented Dealer","terms":["Half now."]}`))
	if err != nil || l.Name != "An Invented Dealer" || len(l.Terms) != 1 {
		t.Errorf("%+v, %v", l, err)
	}
	for _, text := range []string{`{"format":"washrig-letterhead/2"}`, `{"format":"washrig-letterhead/1","logo":"x"}`, `{"format":"washrig-letterhead/1","name":"a\u0007"}`, `[]`} {
		if _, err := sheet.ReadLetterhead(strings.NewReader(text)); err == nil {
			t.Errorf("%s passed", text)
		}
	}
}

type fullDisk struct{ room int }

func (f *fullDisk) Write(p []byte) (int, error) {
	if f.room -= len(p); f.room < 0 {
		return 0, errors.New("disk is full")
	}
	return len(p), nil
}

func TestDocument_saysWhenItCannotWrite(t *testing.T) {
	d := document(t, func() string { return "x" })
	for _, f := range forms {
		for _, room := range []int{0, 100} {
			if err := f.write(d, &fullDisk{room}); err == nil || err.Error() != "disk is full" {
				t.Errorf("%s with room for %d: %v", f.name, room, err)
			}
		}
	}
}
