package draw

import (
	"strconv"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"build.example/turflast/schedule/show/page"
)

// Clean makes text safe to draw: tabs and line breaks become spaces; control and
// direction characters, invalid bytes and spaces at the ends are left out.
func Clean(s string) string {
	ok := true
	for i := 0; i < len(s) && ok; i++ {
		ok = s[i] >= 0x20 && s[i] < 0x7f
	}
	if ok {
		return strings.TrimSpace(s)
	}
	return strings.TrimSpace(page.Harmless(s))
}

// Columns returns the width of clean text on a terminal.
func Columns(s string) int {
	for i := 0; i < len(s); i++ {
		if s[i] >= 0x80 {
			return ansi.StringWidth(s)
		}
	}
	return len(s)
}

// character returns the first character of a clean text and its columns, as the terminal
// library counts them. ASCII stands alone; any other comes with the marks that join it.
func character(s string) (string, int) {
	if s[0] < 0x80 {
		return s[:1], 1
	}
	return ansi.FirstGraphemeCluster(s, ansi.GraphemeWidth)
}

// Cut returns the text, or as much of its beginning as fits w columns with an ellipsis
// after it.
func Cut(s string, w int) string { return page.Cut(screen{}, s, w) }

// head returns as much of the beginning of a text as fits w columns.
func head(s string, w int) string {
	at := 0
	for at < len(s) {
		cluster, width := character(s[at:])
		if width > w {
			break
		}
		w, at = w-width, at+len(cluster)
	}
	return s[:at]
}

func itoa(n int) string { return strconv.Itoa(n) }
