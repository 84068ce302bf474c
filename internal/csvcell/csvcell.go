// Package csvcell makes text safe to stand in a cell of a CSV file that a
// spreadsheet opens: what the program might take for a formula is made inert.
package csvcell

import "strings"

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
