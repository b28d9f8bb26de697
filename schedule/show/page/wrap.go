package page

import (
	"strings"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"
)

// Medium is what text is shown on, which decides how wide that is.
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
func (Paper) Clean(s string) string { return s }

// Wrap breaks text at spaces into lines no wider than the columns, never within a
// figure; a word that is longer is broken too, and a character that is wider is left
// out. No text is no line.
func Wrap(m Medium, text string, columns int) []string {
	columns = max(columns, 1)
	var lines []string
	line := ""
	for _, word := range Words(text) {
		if line != "" && m.Columns(line)+1+m.Columns(word) <= columns {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = word; m.Columns(line) > columns; {
			head := m.Head(line, columns)
			if head == "" {
				line = line[len(first(m, line)):]
				continue
			}
			lines, line = append(lines, head), line[len(head):]
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// Cut is a text, or as much of its beginning as fits the columns with an ellipsis after
// it.
func Cut(m Medium, text string, columns int) string {
	switch {
	case m.Columns(text) <= columns:
		return text
	case columns <= 0:
		return ""
	}
	return strings.TrimRight(m.Head(text, columns-1), " ") + "…"
}

// first is the first character of a text that begins with a wide one.
func first(m Medium, s string) string {
	if head := m.Head(s, 2); head != "" {
		return head
	}
	_, n := utf8.DecodeRuneInString(s)
	return s[:n]
}

// wrap breaks text into lines, each character in its role. There is at least one.
func wrap(m Medium, text Text, columns int) []Text {
	whole, roles := flat(m, text)
	var out []Text
	for _, line := range Wrap(m, whole, columns) {
		if len(text) == 1 {
			out = append(out, As(text[0].Role, line))
			continue
		}
		var t Text
		for _, r := range line {
			role := t.last()
			if r != ' ' {
				for whole != "" && !strings.HasPrefix(whole, string(r)) { // spaces, and what is left out
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
	if out == nil {
		out = []Text{nil}
	}
	return out
}

// flat is a text in one string, and the role of each of its bytes.
func flat(m Medium, text Text) (string, []Role) {
	var b strings.Builder
	var roles []Role
	for _, x := range text {
		s := strings.ToValidUTF8(m.Clean(x.Text), "\uFFFD")
		b.WriteString(s)
		for range len(s) {
			roles = append(roles, x.Role)
		}
	}
	return b.String(), roles
}

// last is the role that a text ends in.
func (t Text) last() Role {
	if len(t) == 0 {
		return Plain
	}
	return t[len(t)-1].Role
}

// append adds a piece of text in a role.
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
