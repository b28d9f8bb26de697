package page

import (
	"strings"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"
)

// Medium is what text is shown on; it decides how wide the text is.
type Medium interface {
	// Columns is the width of a text.
	Columns(s string) int
	// Head is the beginning of a text that fits the columns.
	Head(s string, columns int) string
	// Clean is a text as far as it can be shown.
	Clean(s string) string
}

// Paper shows text as it is.
type Paper struct{}

// Columns counts as most terminals do.
func (Paper) Columns(s string) int { return runewidth.StringWidth(s) }

// Head is the beginning of a text that fits the columns.
func (Paper) Head(s string, columns int) string { return runewidth.Truncate(s, columns, "") }

// Clean is the text.
func (Paper) Clean(s string) string { return Harmless(s) }

// Wrap breaks text at spaces into lines no wider than the columns, never within a
// figure. A word that is too wide for a line is broken too, and a character that is too
// wide is left out. Empty text has no lines.
func Wrap(m Medium, text string, columns int) []string {
	columns = max(columns, 1)
	words := Words(text)
	text = strings.Join(words, " ") // each line is a slice of it
	var lines []string
	line, end, next, used := 0, 0, 0, 0 // the line's start and end, the next word's start, the line's width
	for _, word := range words {
		wide := m.Columns(word)
		if line < end && used+1+wide <= columns {
			used += 1 + wide
			end = next + len(word)
			next = end + 1
			continue
		}
		if line < end {
			lines = append(lines, text[line:end])
		}
		line, end, used = next, next+len(word), wide
		for next = end + 1; used > columns; used = m.Columns(text[line:end]) {
			head := m.Head(text[line:end], columns)
			if head == "" {
				line += len(first(m, text[line:end]))
				continue
			}
			lines = append(lines, head)
			line += len(head)
		}
	}
	if line < end {
		lines = append(lines, text[line:end])
	}
	return lines
}

// Cut is a text if it fits the columns, or else its beginning with an ellipsis.
func Cut(m Medium, text string, columns int) string {
	switch {
	case m.Columns(text) <= columns:
		return text
	case columns <= 0:
		return ""
	}
	return strings.TrimRight(m.Head(text, columns-1), " ") + "…"
}

// first is the first character of a text, which is too wide for one column.
func first(m Medium, s string) string {
	if head := m.Head(s, 2); head != "" {
		return head
	}
	_, n := utf8.DecodeRuneInString(s)
	return s[:n]
}

// wrap breaks text into at least one line, in which each character keeps its role.
func wrap(m Medium, text Text, columns int) []Text {
	var out []Text
	if len(text) == 1 {
		for _, line := range Wrap(m, clean(m, text[0].Text), columns) {
			out = append(out, As(text[0].Role, line))
		}
	} else {
		out = mixed(m, text, columns)
	}
	if out == nil {
		out = []Text{nil}
	}
	return out
}

// mixed breaks text of several roles into lines.
func mixed(m Medium, text Text, columns int) (out []Text) {
	whole, roles := flat(m, text)
	for _, line := range Wrap(m, whole, columns) {
		var t Text
		for _, r := range line {
			role := t.last()
			if r != ' ' {
				for whole != "" && !strings.HasPrefix(whole, string(r)) { // skip what isn't in the line
					_, n := utf8.DecodeRuneInString(whole)
					whole, roles = whole[n:], roles[n:]
				}
				role = roles[0]
				whole, roles = whole[utf8.RuneLen(r):], roles[utf8.RuneLen(r):]
			}
			t = t.append(string(r), role)
		}
		out = append(out, t)
	}
	return out
}

// flat is a text in one string, and the role of each of its bytes.
func flat(m Medium, text Text) (string, []Role) {
	var b strings.Builder
	var roles []Role
	for _, x := range text {
		s := clean(m, x.Text)
		b.WriteString(s)
		for range len(s) {
			roles = append(roles, x.Role)
		}
	}
	return b.String(), roles
}

// clean is a text as far as the medium can show it.
func clean(m Medium, text string) string { return strings.ToValidUTF8(m.Clean(text), "\uFFFD") }

// last is the role of the end of a text.
func (t Text) last() Role {
	if len(t) == 0 {
		return Plain
	}
	return t[len(t)-1].Role
}

// append adds a piece of text in a role. It may change the last span of t.
func (t Text) append(s string, role Role) Text {
	if n := len(t); n > 0 && t[n-1].Role == role {
		t[n-1].Text += s
		return t
	}
	if s == "" {
		return t
	}
	return append(t, Span{s, role})
}

// plus adds another text.
func (t Text) plus(more Text) Text {
	for _, x := range more {
		t = t.append(x.Text, x.Role)
	}
	return t
}
