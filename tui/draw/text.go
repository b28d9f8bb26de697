package draw

import (
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
)

// Clean makes text safe to draw: tabs and line breaks become spaces, control
// and direction characters and bytes that are no text vanish, and spaces at
// the ends too.
func Clean(s string) string {
	ok := true
	for i := 0; i < len(s) && ok; i++ {
		ok = s[i] >= 0x20 && s[i] < 0x7f
	}
	if ok {
		return strings.TrimSpace(s)
	}
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r' || r == '\u2028' || r == '\u2029':
			return ' '
		case r == unicode.ReplacementChar || unicode.IsControl(r):
			return -1
		case unicode.Is(unicode.Cf, r) && r != '\u200d':
			return -1
		}
		return r
	}, s))
}

// Columns is the width of clean text on a terminal.
func Columns(s string) int {
	for i := 0; i < len(s); i++ {
		if s[i] >= 0x80 {
			return ansi.StringWidth(s)
		}
	}
	return len(s)
}

// Cut is the text, or as much of its beginning as fits w columns with an
// ellipsis after it.
func Cut(s string, w int) string {
	if Columns(s) <= w {
		return s
	}
	if w <= 0 {
		return ""
	}
	return strings.TrimRight(head(s, w-1), " ") + "…"
}

// head is the beginning of a text that fits w columns.
func head(s string, w int) string {
	at := 0
	for at < len(s) {
		cluster, width := ansi.FirstGraphemeCluster(s[at:], ansi.GraphemeWidth)
		if width > w {
			break
		}
		w, at = w-width, at+len(cluster)
	}
	return s[:at]
}

// Wrap breaks text into lines of at most w columns, at spaces where it can.
func Wrap(s string, w int) []string {
	w = max(w, 1)
	var lines []string
	line, used := "", 0
	for _, word := range strings.Fields(s) {
		width := Columns(word)
		if used > 0 && used+1+width <= w {
			line, used = line+" "+word, used+1+width
			continue
		}
		if used > 0 {
			lines = append(lines, line)
		}
		for width > w {
			part := head(word, w)
			if part == "" {
				break
			}
			lines = append(lines, part)
			word = word[len(part):]
			width = Columns(word)
		}
		line, used = word, width
		if width > w {
			line, used = "", 0
		}
	}
	if used > 0 {
		lines = append(lines, line)
	}
	return lines
}
