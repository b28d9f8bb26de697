package page

import (
	"strings"
	"unicode"
)

// Harmless returns a text without the characters that could make a terminal act, or turn
// around the line in which they stand: names and notes come from anybody. Tabs and line
// breaks become blanks. What joins the parts of one character stays.
func Harmless(s string) string { return strings.Map(harmless, s) }

// harmless returns the character to show in place of another; negative for none.
func harmless(r rune) rune {
	switch {
	case r >= ' ' && r < 0x7f:
		return r
	case strings.ContainsRune("\t\n\r\u2028\u2029", r):
		return ' '
	case r == unicode.ReplacementChar || unicode.IsControl(r):
		return -1
	case unicode.Is(unicode.Cf, r) && r != joiner:
		return -1
	}
	return r
}

// joiner is the zero width joiner, which makes one character of several.
const joiner = '\u200d'
