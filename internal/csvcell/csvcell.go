// Package csvcell makes text safe to stand in a cell of a CSV file that a
// spreadsheet opens: what the program might take for a formula is made inert.
package csvcell

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Text is Inert of s on one line: line ends become a semicolon, and control
// characters, what is not UTF-8 and marks that turn the reading direction become
// the replacement character.
func Text(s string) string {
	s = strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == '\n' || r == '\r' }), "; ")
	return Inert(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || (r >= 0x202A && r <= 0x202E) || (r >= 0x2066 && r <= 0x2069) || r == 0x2028 || r == 0x2029 {
			return utf8.RuneError
		}
		return r
	}, s))
}

// Inert returns s with an apostrophe before it if a spreadsheet could take it
// for a formula: if it begins, after white space, with one of = + - @ or one of
// their full-width twins, or with a tab or a line end. Numbers are written
// without it; this is for text alone.
func Inert(s string) string {
	t := strings.TrimLeft(s, " \u00a0\u3000")
	if t == "" {
		return s
	}
	for _, sign := range []string{"=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠"} {
		if strings.HasPrefix(t, sign) {
			return "'" + s
		}
	}
	return s
}

// Comment returns s as a line of comment before a table: "# " and the text in
// one cell that needs no quotes, so that the line begins with # for every
// program that skips such lines. Commas become semicolons for that.
func Comment(s string) string {
	return "# " + strings.NewReplacer(",", ";", `"`, "'").Replace(strings.TrimPrefix(Text(s), "'"))
}
