package planfile

import (
	"fmt"
	"strings"
)

// flow reads a flow collection, over several lines if need be, at a depth of
// nesting.
func (l *layout) flow(depth int) bool {
	if depth > maxDepth {
		l.report(l.line, l.col, "", "more than %d levels of nesting", maxDepth)
		return false
	}
	open := []bracket{{l.char(), l.line, l.col}}
	l.col++
	full := false // an entry stands since the last comma or bracket
	for l.fault == nil {
		if l.atEnd() {
			l.flowLine(open)
			continue
		}
		c := l.char()
		if !l.inPlace(c, full) {
			return false
		}
		switch c {
		case '[', '{':
			open = append(open, bracket{c, l.line, l.col})
			l.col++
		case ']', '}':
			if !l.closes(open[len(open)-1]) {
				return false
			}
			if open = open[:len(open)-1]; len(open) == 0 {
				return true
			}
			full = true
		case ',':
			l.col++
			full = false
		default:
			if !l.flowEntry(full, depth) {
				return false
			}
			full = true
		}
	}
	return false
}

// inPlace says whether a bracket or a comma may stand where it does.
func (l *layout) inPlace(c rune, full bool) bool {
	switch {
	case full && (c == '[' || c == '{'):
		l.report(l.line, l.col, "put a comma before it", "%q stands behind a complete entry", c)
		return false
	case !full && c == ',':
		l.report(l.line, l.col, "take out the comma", "nothing stands before a comma")
		return false
	}
	return true
}

// closes reads a closing bracket.
func (l *layout) closes(top bracket) bool {
	if c := l.char(); c != top.char+2 { // in ASCII both closing brackets lie two behind
		l.report(l.line, l.col, "", "%q stands where the %q of line %d needs %q", c, top.char, top.line+1, top.char+2)
		return false
	}
	l.col++
	return true
}

// flowLine goes to the next line of a flow collection. A line that is indented
// no deeper than the one where the collection starts tells that it was never
// closed.
func (l *layout) flowLine(open []bracket) {
	l.nextLine()
	top := open[len(open)-1]
	closing := fmt.Sprintf("close it with %c", top.char+2)
	if l.line >= len(l.lines) {
		l.report(top.line, top.col, closing, "the %q is never closed", top.char)
		return
	}
	if !l.atEnd() && l.col <= l.home && l.char() != ']' && l.char() != '}' {
		l.report(top.line, top.col, closing, "the %q is not closed before line %d", top.char, l.line+1)
	}
}

// flowEntry reads a key, a value, or both.
func (l *layout) flowEntry(full bool, depth int) bool {
	switch c := l.char(); c {
	case '"', '\'':
		if full {
			l.report(l.line, l.col, "put a comma before it", "a quote stands behind a complete entry")
			return false
		}
		if !l.quoted() {
			return false
		}
	case '@', '`', '%', '*', '&', '!':
		l.badStart(c)
		return false
	case ':':
		if blankRune(l.at(1)) {
			l.report(l.line, l.col, "write the key before the colon", "a key is empty")
			return false
		}
		fallthrough
	default:
		if full {
			l.report(l.line, l.col, "put a comma between the entries, or the value in quotes",
				"text stands behind a complete entry")
			return false
		}
		l.flowWord()
	}
	if l.spaces(); !l.flowColon() {
		return true
	}
	l.col++
	return l.flowValue(depth)
}

// flowColon says whether a colon stands here that ends a key.
func (l *layout) flowColon() bool {
	return l.char() == ':' && (blankRune(l.at(1)) || strings.ContainsRune(",]}", l.at(1)))
}

// flowWord reads plain text inside brackets.
func (l *layout) flowWord() {
	for {
		switch c := l.char(); {
		case c == 0, c == ',', c == '[', c == ']', c == '{', c == '}':
			return
		case l.flowColon():
			return
		case c == '#' && blankRune(l.at(-1)):
			return
		}
		l.col++
	}
}

// flowValue reads what follows a key inside brackets, unless it is a
// collection or stands on the next line: those are read as entries.
func (l *layout) flowValue(depth int) bool {
	if l.atEnd() {
		return true
	}
	switch c := l.char(); c {
	case '[', '{':
		return l.flow(depth + 1)
	case ',', ']', '}':
		return true
	case '"', '\'':
		return l.quoted()
	case '@', '`', '%', '*', '&', '!':
		return l.flowEntry(false, depth)
	}
	l.flowWord()
	if l.char() == ':' {
		l.report(l.line, l.col, "text that holds a colon and a space needs quotes; entries need commas",
			"a second colon in one entry")
		return false
	}
	return true
}
