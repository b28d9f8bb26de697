package planfile

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"build.example/turflast/schedule"
)

// layout walks over text that the YAML library refused and looks for the
// slips that people make, as the library's own messages seldom name the place. It
// knows as much of YAML as a plan needs: block mappings and lists, flow
// collections, quotes, block text, comments.
type layout struct {
	lines  [][]rune
	line   int // index of the line being read
	col    int // index of the character
	levels []level
	open   bool // the last key or dash has no value yet
	home   int  // the indentation of the line that a flow collection belongs to
	fault  *schedule.Problem
}

// level is a block collection that is open.
type level struct {
	indent int
	list   bool // a list of "- " entries, else keys
}

// bracket is a flow collection that is open.
type bracket struct {
	char      rune
	line, col int
}

// findSlip is the first slip found in text that is no YAML.
func findSlip(lines []string) (schedule.Problem, bool) {
	l := &layout{lines: make([][]rune, len(lines)), open: true}
	for i, s := range lines {
		l.lines[i] = []rune(strings.TrimRight(s, " \t"))
	}
	for l.line < len(l.lines) && l.fault == nil {
		l.blockLine()
	}
	if l.fault == nil {
		return schedule.Problem{}, false
	}
	return *l.fault, true
}

func (l *layout) report(line, col int, hint, format string, args ...any) {
	if l.fault == nil {
		p := problem(line+1, col+1, fmt.Sprintf(format, args...), hint)
		l.fault = &p
	}
}

// char is the character at the present place; 0 at the end of the line.
func (l *layout) char() rune { return l.at(0) }

func (l *layout) at(ahead int) rune {
	if l.line >= len(l.lines) || l.col+ahead < 0 || l.col+ahead >= len(l.lines[l.line]) {
		return 0
	}
	return l.lines[l.line][l.col+ahead]
}

func (l *layout) spaces() {
	for l.char() == ' ' || l.char() == '\t' {
		l.col++
	}
}

// atEnd says whether only a comment is left of the line.
func (l *layout) atEnd() bool {
	l.spaces()
	return l.char() == 0 || l.char() == '#' && blankRune(l.at(-1))
}

func (l *layout) nextLine() { l.line, l.col = l.line+1, 0 }

// blockLine reads a line that starts outside quotes and brackets.
func (l *layout) blockLine() {
	if l.atEnd() {
		l.nextLine()
		return
	}
	fresh := l.indentTo(l.col)
	for l.fault == nil && l.char() == '-' && blankRune(l.at(1)) {
		if !l.enter(l.col, true, fresh) {
			return
		}
		l.col++
		fresh, l.open = true, true
		if l.atEnd() {
			l.nextLine()
			return
		}
	}
	line, start := l.line, l.col
	if !l.key() {
		if l.fault == nil {
			l.line, l.col = line, start
			l.loneValue()
		}
		return
	}
	if !l.enter(start, false, fresh) {
		return
	}
	if l.open = l.atEnd(); l.open {
		l.nextLine()
		return
	}
	l.value(start)
}

// indentTo closes the levels that are indented deeper; fresh says that the
// line may open a level of its own.
func (l *layout) indentTo(indent int) (fresh bool) {
	n := len(l.levels)
	for n > 0 && l.levels[n-1].indent > indent {
		n--
	}
	closed := n < len(l.levels)
	l.levels = l.levels[:n]
	if closed && (n == 0 || l.levels[n-1].indent < indent) {
		l.report(l.line, indent, "line it up with what it belongs to", "the indentation fits no line above")
	}
	return !closed
}

// enter goes to the level of a key or a list entry, which may be a new one.
func (l *layout) enter(indent int, list, fresh bool) bool {
	n := len(l.levels)
	switch {
	case n > 0 && l.levels[n-1].indent == indent:
		l.beside(indent, list)
	case fresh && !l.open:
		l.report(l.line, indent, "line it up with its neighbours, or take the value off the line above",
			"this line is indented deeper than the one above, which has a value")
	case fresh:
		l.levels = append(l.levels, level{indent, list})
	}
	return l.fault == nil
}

// beside goes on at the indentation of the level that is open.
func (l *layout) beside(indent int, list bool) {
	n := len(l.levels)
	switch {
	case l.levels[n-1].list == list:
	case list && l.open: // a list may stand at the indentation of its key
		l.levels = append(l.levels, level{indent, true})
	case !list && n > 1 && l.levels[n-2].indent == indent:
		l.levels = l.levels[:n-1]
	default:
		l.report(l.line, indent, "a list has \"- \" before every entry, keys have none",
			"a key and list entries stand side by side")
	}
}

// key reads "word:" and says whether there was one.
func (l *layout) key() bool {
	switch l.char() {
	case '"', '\'':
		if !l.quoted() {
			return false
		}
		l.spaces()
	case '[', '{':
		return false
	case ':':
		if l.colon() {
			l.report(l.line, l.col, "write the key before the colon", "a key is empty")
			return false
		}
		fallthrough
	default:
		for l.char() != 0 && !l.colon() {
			if l.char() == '#' && blankRune(l.at(-1)) {
				return false
			}
			l.col++
		}
	}
	if !l.colon() {
		return false
	}
	l.col++
	return true
}

// colon says whether a colon stands here that ends a key.
func (l *layout) colon() bool { return l.char() == ':' && blankRune(l.at(1)) }

// loneValue reads a line without a key: the entry of a list, or a slip.
func (l *layout) loneValue() {
	inList := len(l.levels) > 0 && l.levels[len(l.levels)-1].list && l.col > l.levels[len(l.levels)-1].indent
	if !inList {
		l.report(l.line, l.col, "write key: value; text over several lines needs quotes or a >",
			"%s is no key with a value", quote(string(l.lines[l.line][l.col:])))
		return
	}
	l.value(l.levels[len(l.levels)-1].indent)
}

// value reads what stands behind a key or a dash of a line with this
// indentation.
func (l *layout) value(indent int) {
	l.spaces()
	l.open, l.home = false, indent
	switch c := l.char(); c {
	case '"', '\'':
		if l.quoted() {
			l.restOfLine("put the whole value in quotes; inside single quotes write '' for one")
		}
	case '[', '{':
		if l.flow(1) {
			l.restOfLine("put the whole value in quotes")
		}
	case '|', '>':
		l.blockText(indent)
	case '@', '`', '%', ']', '}', ',', '*', '&', '!':
		l.badStart(c)
	case '-':
		if blankRune(l.at(1)) {
			l.report(l.line, l.col, "start the list on the next line, or write it like [one, two]",
				"a list can't start on the line of its key")
			return
		}
		l.plainRest(indent)
	default:
		l.plainRest(indent)
	}
}

// badStart reports a character that no plain value starts with.
func (l *layout) badStart(c rune) {
	switch c {
	case '*', '&', '!':
		l.report(l.line, l.col, "put the value in quotes", "%q at the start of a value marks an alias, an anchor or a tag", c)
	default:
		l.report(l.line, l.col, "put the value in quotes", "a value can't start with %q", c)
	}
}

// blockText reads the text below a | or >, which is indented deeper than the
// line it belongs to.
func (l *layout) blockText(indent int) {
	mark := l.char()
	l.col++
	for l.char() == '+' || l.char() == '-' {
		l.col++
	}
	if !l.atEnd() {
		l.report(l.line, l.col, "start the text on the next line",
			"%s stands behind %q", quote(string(l.lines[l.line][l.col:])), mark)
		return
	}
	first := -1 // the indentation of the text
	for l.nextLine(); l.line < len(l.lines); l.nextLine() {
		l.spaces()
		if l.char() == 0 {
			continue
		}
		if first < 0 {
			first = max(l.col, indent+1)
		}
		if l.col < first {
			break
		}
	}
	l.col = 0
}

// plainRest reads plain text to the end of the line.
func (l *layout) plainRest(indent int) {
	start := l.col
	for l.char() != 0 {
		if l.char() == '#' && l.col > start && blankRune(l.at(-1)) {
			break
		}
		if l.char() == ':' && blankRune(l.at(1)) {
			l.report(l.line, l.col, "text that holds a colon and a space needs quotes", "a second key on one line")
			return
		}
		l.col++
	}
	l.nextLine()
	// A line that goes on deeper belongs to the text; no key can stand there.
	for l.line < len(l.lines) && !l.atEnd() && l.col > indent && l.fault == nil {
		from := l.col
		if l.key() {
			l.report(l.line, from, "line it up with its neighbours, or take the value off the line above",
				"this line is indented deeper than the one above, which has a value")
			return
		}
		l.nextLine()
	}
	l.col = 0
}

// restOfLine reports what stands behind a value that is complete.
func (l *layout) restOfLine(hint string) {
	if !l.atEnd() {
		l.report(l.line, l.col, hint, "%s stands behind a complete value", quote(string(l.lines[l.line][l.col:])))
		return
	}
	l.nextLine()
}

// quoted reads text in quotes, over several lines if need be.
func (l *layout) quoted() bool {
	line, col, mark := l.line, l.col, l.char()
	l.col++
	for l.line < len(l.lines) {
		switch c := l.char(); {
		case c == 0:
			l.nextLine()
			continue
		case c == '\\' && mark == '"':
			if !l.escape() {
				return false
			}
		case c == mark && mark == '\'' && l.at(1) == mark:
			l.col++
		case c == mark:
			l.col++
			return true
		}
		l.col++
	}
	l.report(line, col, "close it; inside single quotes write '' for one", "the quote %c is never closed", mark)
	return false
}

// escape checks what stands behind a backslash and goes to its first
// character; a backslash at the end of a line joins it to the next.
func (l *layout) escape() bool {
	digits := map[rune]int{'x': 2, 'u': 4, 'U': 8}[l.at(1)]
	known := l.at(1) == 0 || strings.ContainsRune("0abt\tnvfre \"/\\N_LPxuU", l.at(1))
	code := 0
	for k := range digits {
		value := strings.IndexRune("0123456789abcdef", unicode.ToLower(l.at(2+k)))
		known = known && value >= 0
		code = code*16 + value
	}
	if digits > 0 {
		known = known && utf8.ValidRune(rune(min(code, utf8.MaxRune+1)))
	}
	if !known {
		rest := l.lines[l.line][l.col:]
		l.report(l.line, l.col, "write \\\\ for a backslash, or use single quotes",
			"unknown escape %s", quote(string(rest[:min(len(rest), 2+digits)])))
		return false
	}
	if l.at(1) != 0 {
		l.col++
	}
	return true
}

func blankRune(c rune) bool { return c == 0 || c == ' ' || c == '\t' }
