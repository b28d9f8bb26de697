package wording

import (
	"fmt"
	"unicode"
	"unicode/utf8"
)

// Capital is a clause with a capital letter, as a sentence begins.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// Count is a number with what it counts: one of them, or more or none.
func Count(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}
