package fields

import (
	"fmt"
	"unicode/utf8"

	"example.com/washrig/units"
)

// maxText is the longest text a field takes, in bytes.
const maxText = 2000

// unclean lists the ranges of characters that no text may hold: controls, with
// the terminal escapes they begin; format characters that a reader cannot see
// or that turn the direction of reading, but for the two joiners U+200C and
// U+200D, which some scripts are written with; the separators of lines and
// paragraphs; and the replacement character, which says that something was lost.
//
// Source: The Unicode Standard, version 15.0, general categories Cc, Cf, Zl and
// Zp; of Cf the characters up to U+FFFF, and the tags.
var unclean = [...]struct{ low, high rune }{
	{0x0000, 0x001F}, {0x007F, 0x009F}, {0x00AD, 0x00AD}, {0x0600, 0x0605}, {0x061C, 0x061C},
	{0x06DD, 0x06DD}, {0x070F, 0x070F}, {0x0890, 0x0891}, {0x08E2, 0x08E2}, {0x180E, 0x180E},
	{0x200B, 0x200B}, {0x200E, 0x200F}, {0x2028, 0x202E}, {0x2060, 0x206F}, {0xFEFF, 0xFEFF},
	{0xFFF9, 0xFFFD}, {0xE0000, 0xE007F},
}

// CleanText refuses text that does not belong in a name or a note: control
// characters and terminal escapes, characters that cannot be seen, marks that
// turn the reading direction, what is not UTF-8, and more than 2000 bytes.
func CleanText(s string) error {
	if len(s) > maxText {
		return &units.FieldError{Value: fmt.Sprintf("%d bytes", len(s)), Want: fmt.Sprintf("at most %d bytes of text", maxText), Err: units.ErrRange}
	}
	for i := 0; i < len(s); {
		c := s[i]
		if 0x20 <= c && c < 0x7F {
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		if r == utf8.RuneError && n == 1 {
			return &units.FieldError{Value: fmt.Sprintf("byte %#02x", c), Want: "text in UTF-8", Err: units.ErrSyntax}
		}
		if isUnclean(r) {
			return &units.FieldError{Value: fmt.Sprintf("character U+%04X", r), Want: "text without control characters or invisible ones", Err: units.ErrRange}
		}
		i += n
	}
	return nil
}

func isUnclean(r rune) bool {
	for i := range unclean {
		if r <= unclean[i].high {
			return r >= unclean[i].low
		}
	}
	return false
}
