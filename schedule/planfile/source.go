package planfile

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"build.example/turflast/schedule"
)

// source is the text of a plan file, as far as the YAML library may see it.
type source struct {
	text  string
	lines []string // without their ends
	// broken says that a fault of the text leaves nothing sensible to parse;
	// patched that characters were replaced by hole.
	broken, patched bool
	// cut says that a second document was left out.
	cut bool

	last   schedule.Pos // the place last asked for
	offset int          // its byte in the line
}

// hole stands for a refused character; text that holds one is not looked at
// any further.
const hole = utf8.RuneError

const byteOrderMark = "\uFEFF"

// scan checks the characters and the frame of the document, reports what is
// wrong, and gives the text of the first document. The parameter what names the
// kind of file.
func scan(data []byte, what string, report func(schedule.Problem)) *source {
	s := &source{}
	text := strings.TrimPrefix(string(data), byteOrderMark)
	if looksWide(text) {
		report(schedule.Problem{
			Pos:  schedule.Pos{Line: 1, Column: 1},
			Text: "the file is not UTF-8 text", Hint: "save it as UTF-8",
		})
		s.broken = true
		return s
	}
	var clean strings.Builder
	clean.Grow(len(text))
	started := false // anything but comments was seen
	for n := 1; text != ""; n++ {
		line, rest, _ := strings.Cut(text, "\n")
		text = rest
		line = strings.TrimSuffix(line, "\r")
		switch frame(line) {
		case "":
			started = started || !blank(line)
		case "---":
			if started {
				report(problem(n, 1, "a second document starts here", "a "+what+" is one document; take out this line"))
				text, s.cut = "", true
			}
			if line = strings.Replace(line, "---", "   ", 1); !blank(line) {
				report(problem(n, 1, "the "+what+" starts on the line of its \"---\"", "start it on the next line"))
				s.broken = true
			}
			started = true
		default:
			report(problem(n, 1, fmt.Sprintf("%q can't stand at the start of a line", frame(line)), "take it out"))
			line = ""
		}
		line = s.check(line, n, report)
		s.lines = append(s.lines, line)
		clean.WriteString(line)
		clean.WriteByte('\n')
	}
	s.text = clean.String()
	return s
}

// looksWide says whether the text has the byte order mark or the zero bytes of
// a wider encoding.
func looksWide(text string) bool {
	return strings.HasPrefix(text, "\xff\xfe") || strings.HasPrefix(text, "\xfe\xff") ||
		len(text) > 1 && (text[0] == 0 || text[1] == 0)
}

// frame is the document mark that a line starts with, or "".
func frame(line string) string {
	for _, mark := range [...]string{"---", "..."} {
		if rest, ok := strings.CutPrefix(line, mark); ok && (rest == "" || rest[0] == ' ' || rest[0] == '\t') {
			return mark
		}
	}
	if strings.HasPrefix(line, "%") {
		return "%"
	}
	return ""
}

func blank(line string) bool {
	line = strings.TrimLeft(line, " \t")
	return line == "" || line[0] == '#'
}

// check reports the refused characters of line n and puts holes in their place.
func (s *source) check(line string, n int, report func(schedule.Problem)) string {
	if i := strings.IndexFunc(line, func(r rune) bool { return r != ' ' }); i >= 0 && line[i] == '\t' && !blank(line) {
		report(problem(n, i+1, "a tab in the indentation", "indent with spaces"))
		s.broken = true
	}
	clean := true
	for i := 0; i < len(line) && clean; i++ {
		clean = line[i] >= ' ' && line[i] < utf8.RuneSelf && line[i] != 0x7f || line[i] == '\t'
	}
	if clean {
		return line
	}
	out := make([]rune, 0, len(line))
	for i := 0; i < len(line); {
		r, size := utf8.DecodeRuneInString(line[i:])
		if name := refused(r, size); name != "" {
			report(problem(n, len(out)+1, name, "take it out"))
			r, s.patched = hole, true
		}
		out = append(out, r)
		i += size
	}
	return string(out)
}

// refused names a character that no plan file may hold; "" when it may.
func refused(r rune, size int) string {
	switch {
	case r == utf8.RuneError && size == 1:
		return "a byte that is not UTF-8 text"
	case r == utf8.RuneError:
		return "a replacement character (U+FFFD): a character was lost before"
	case r == '\t':
		return ""
	case unicode.IsControl(r):
		return fmt.Sprintf("a control character (U+%04X)", r)
	case unicode.Is(unicode.Cf, r), r == '\u2028', r == '\u2029',
		unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r):
		return fmt.Sprintf("an invisible character (U+%04X)", r)
	case unicode.Is(unicode.Co, r), !unicode.IsPrint(r) && !unicode.IsSpace(r):
		return fmt.Sprintf("a character that can't be printed (U+%04X)", r)
	}
	return ""
}

func problem(line, column int, text, hint string) schedule.Problem {
	return schedule.Problem{Pos: schedule.Pos{Line: line, Column: column}, Text: text, Hint: hint}
}
